"""What is there of an opened spool or packet: "half a spool of", "about 40 m left of", "used 3 of them".

The spool or packet holds what it usually does, or what it held when it was new; what is left is what there
is.
"""

import re
from dataclasses import dataclass, replace

from tacklebox.stock.naming.described import Described, Figure, Question, length
from tacklebox.stock.naming.notes import with_note
from tacklebox.stock.naming.pieces_left import without_pieces_left
from tacklebox.stock.naming.tokens import as_said
from tacklebox.stock.tables import MEASURED_KINDS, Kind

_SHARES = {
    **{"three quarters": 3 / 4, "3/4": 3 / 4, "¾": 3 / 4, "two thirds": 2 / 3, "2/3": 2 / 3},
    **{"half": 1 / 2, "1/2": 1 / 2, "½": 1 / 2, "third": 1 / 3, "1/3": 1 / 3},
    **{"quarter": 1 / 4, "1/4": 1 / 4, "¼": 1 / 4},
}
_WHOLES = {"a": 1, "one": 1, "two": 2, "three": 3, "1": 1, "2": 2, "3": 3}
_ABOUT = (
    r"(?:\b(?:about|roughly|approx\.?|around|some|maybe|mebbe|perhaps|only|just|nearly|almost"
    r"|so|call\s+it|say)\s+)*"
)
_PART = rf"(?P<part>{'|'.join(_SHARES)})"
_PACKET = r"(?:spool|reel|packet|pack|pkt|card|bag|box|tub)"
_OF = r"(?:\s+(?:left\s+)?of\b|\s+left\b)?"
_OF_IT = rf"(?:\s+(?:of\s+)?(?:it|them|that|the\s+{_PACKET})\b)?"
_AND_I_HAVE = r"[,\s]\s*(?:(?:but|and|i'?ve|i|have)\s+)*\b(?<!part )"
_LENGTH = r"\d+(?:\.\d+)?\s*(?:m|mtrs?|metres?|yds?|yards?|ft|feet)"
_HOW_MUCH = [
    re.compile(pattern, re.IGNORECASE)
    for pattern in (
        rf"{_ABOUT}(?<![\w.])(?P<said>{_LENGTH})(?:\s+of\s+(?:it|that))?\s*"
        r"(?:left|remaining)\s+out\s+of\s+(?:the\s+)?(?P<of>\d{1,4})\b(?!\s*[a-z]*\d)",
        rf"{_ABOUT}(?<![\w.])(?P<said>{_LENGTH})(?:\s+of\s+(?:it|that))?\s*"
        r"(?:left|remaining)\b(?:\s+of\b|\s+on(?:\s+(?:it|the\s+spool))?\b)?",
        r"(?:,\s*|\s)(?:there'?s\s+|there\s+is\s+|got\s+|still\s+|about\s+|only\s+|maybe\s+|roughly\s+)+"
        rf"(?P<said>{_LENGTH})\s+(?:still\s+)?on\s+(?:it|there|the\s+spool)\b",
        # "one full spool of 50 m and one half used", of which the length stays said
        rf"\b(?P<whole>one|an?|1|two|2|three|3)\s+(?:full\s+)?(?:ones?|{_PACKET}s?)(?:\s+of)?(?P<keeps>\s+{_LENGTH})?"
        rf"\s+and\s+(?:one|an?|another)\s+(?:about\s+)?{_PART}[\s-]*(?:used|full|left|gone)\b",
        rf"{_ABOUT}\b(?P<whole>{'|'.join(_WHOLES)})(?:\s+and\s+(?:an?\s+)?|\s*(?=[½¼⅓¾])|(?<=\d)\s+(?=\d/)){_PART}\s+{_PACKET}s?\b"
        rf"(?:\s*\((?P<held>\d{{1,3}})'?s?\))?{_OF}",
        rf"{_AND_I_HAVE}(?P<gone>used)\s+{_ABOUT}(?:an?\s+)?(?<![\w./]){_PART}(?!\s*(?:oz|lb)){_OF_IT}"
        r"(?:\s+of\s+(?P<held>\d{1,3})\b)?",
        # "half a pack of 20 beads": no size, as of hooks
        rf"{_ABOUT}(?<![\w./]){_PART}\s+(?:an?|the|my)\s+{_PACKET}\s+of\s+(?P<held>\d{{1,3}})(?=\s+(?!spades|hooks)[a-z]{{4,}}s\b)",
        rf"(?:\b(?:with|and|but)\s+)?{_ABOUT}(?:\b(?:a|one)\s+)?(?<![\w./]){_PART}\s*-?\s*(?:of\s+)?(?:(?:an?|the|my)\s+)?(?:used\s+)?"
        rf"{_PACKET}\b{_OF}(?:\s+(?P<gone>gone|used))?",
        # "half the 100 m spool", of which the length stays said
        rf"{_ABOUT}(?<![\w./]){_PART}\s+(?:of\s+)?(?:the|my|an?)\s+(?P<keeps>{_LENGTH})\s+(?:spool|reel)\b"
        r"(?:\s+(?:left|remaining|full)\b)?(?:\s+of\b)?",
        rf"{_ABOUT}(?<![\w./])(?:an?\s+)?{_PART}(?:'?s)?{_OF_IT}\s+(?:is\s+|are\s+)?(?P<gone>gone|used|empty)\b"
        r"(?:\s+(?:off|from|of)\s+it)?",
        rf"{_ABOUT}(?<![\w./]){_PART}{_OF_IT}\s+(?:left|remaining|full)\b",
        rf"{_AND_I_HAVE}used\s+(?:up\s+)?{_ABOUT}(?P<off>{_LENGTH})\b(?:\s+(?:of|off)\s+it)?",
    )
]
_AND_A_HALF = re.compile(r"\b(\d{1,3})\s+and\s+an?\s+half\s+(?=m\b|met|yd|yard)", re.IGNORECASE)
_HALF_PACKETS = re.compile(rf"(?<![\d.])([1-9])\.5\s+(?={_PACKET}s?\b)", re.IGNORECASE)
_GONE = re.compile(r"\s*\b(?:gone|used)\s*$", re.IGNORECASE)
_SOME = re.compile(
    r"(?:,\s*)?\b(?:(?:there'?s|got|still|only|just)\s+)*(?P<words>(?:(?:a\s+)?(?:little\s+)?(?:bit|few|some)|not\s+(?:much|many|a\s+lot)"
    r"|hardly\s+any|(?:a\s+)?few|some|most(?:\s+of\s+(?:it|them))?|the\s+dregs|a\s+few\s+(?:yards?|metres?))"
    r"\s+left)\b(?:\s+(?:of|on|in)\b(?:\s+(?:it|there)\b)?)?",
    re.IGNORECASE,
)
_PART_USED = re.compile(rf"\bpart[\s-]used\b|\bpart\s+(?={_PACKET}s?\b)", re.IGNORECASE)
_SAYS_GONE = re.compile(
    r"\W*(?:(?:i'?ve|i|we|have|just|had|to)\s+)*(?:used|lost|binned|threw|scrapped|broke|snapped|took|taken|gave)\b",
    re.IGNORECASE,
)
# What a spool held when it was new is what it holds: "was 50 m when new".
_WHEN_NEW = re.compile(
    r"\b(?:but\s+)?(?:(?:it|they)\s+)?(?:was|were)\s+(?:an?\s+)?(?=\d)|\bbut\s*(?=,|$)"
    r"|\s*\b(?:when\s+(?:(?:it|they)\s+(?:was|were)\s+)?(?:new|full|bought)|originally|from\s+new|to\s+(?:start|begin)\s+with)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Remainder:
    """What is there: a length or a share that is left, a length that is used; or pieces, which are "left",
    "used" or "more" than whole packets. ``words`` are those that said it; ``vague``: they say nothing more
    than that it is not whole."""

    said: str = ""
    share: float = 0.0
    off: str = ""
    pieces: tuple[str, int] = ("", 0)
    words: str = ""
    vague: bool = False


def without_remainder(text: str) -> tuple[str, Remainder | None]:
    """The words without what is left of it, and that.

    >>> words, left = without_remainder("half a spool of 0.09 1.7lb")
    >>> words, left.share
    ('0.09 1.7lb', 0.5)
    >>> without_remainder("nylon 0.16, was 100m, 40m left")[0], without_remainder("1/2 oz bomb")
    ('nylon 0.16, 100m,', ('1/2 oz bomb', None))
    """
    text = _HALF_PACKETS.sub(r"\1 and a half ", _AND_A_HALF.sub(r"\1.5 ", text))
    if _SAYS_GONE.match(text):  # that asks first whether it comes in
        return text, None
    found = next((found for one in _HOW_MUCH if (found := one.search(text))), None)
    if found is None:
        rest, left = _without_pieces(text)
        return (rest, left) if left else _without_some(text)
    length_left = found.groupdict().get("said") or ""
    shares = (one.search(text) for one in _HOW_MUCH if length_left and "part" in one.groupindex)
    beside = next((share for share in shares if share), None)
    if beside:  # "3/4 of a spool, 300 m left": it may be the whole's
        whole = f"{text[: found.end('said')]} {text[found.end() :]}"
        rest, of_whole = without_remainder(whole)
        return rest, replace(of_whole, said=length_left) if of_whole else None
    groups = {
        key: " ".join((said or "").lower().split()) for key, said in found.groupdict().items()
    }
    held = f" pack of {groups['held']}" if groups.get("held") else groups.get("keeps", "")
    rest = _as_new(f"{text[: found.start()]} {held} {text[found.end() :]}")
    if groups.get("of"):  # "40 m left out of 50"
        rest = f"{rest} {groups['of']} {as_said(groups['said']).split()[-1]}"
    if "keeps" in groups and (gone := _GONE.search(rest)):
        rest, groups["gone"] = rest[: gone.start()], gone.group()
    rest, words = " ".join(rest.split()), found.group().strip(" ,")
    if "said" in groups:
        return rest, Remainder(groups["said"], words=words)
    if "off" in groups:
        return rest, Remainder(off=groups["off"], words=words)
    part = _SHARES[groups["part"]] + _WHOLES.get(groups.get("whole", ""), 0)
    return rest, Remainder(share=1 - part if groups.get("gone") else part, words=words)


def _without_pieces(text: str) -> tuple[str, Remainder | None]:
    found = without_pieces_left(text)
    if found is None:
        return text, None
    rest, how, many = found
    return _as_new(rest), Remainder(pieces=(how, many))


def _as_new(text: str) -> str:
    """The words of it as it was when it was new, and without what says vaguely what is left."""
    vague = _PART_USED.sub(" ", _WHEN_NEW.sub(" ", text))
    return " ".join(_SOME.sub(" ", vague).split())


def _without_some(text: str) -> tuple[str, Remainder | None]:
    """ "A bit left of the spool", "part used": nobody says how much."""
    found = _SOME.search(text) or _PART_USED.search(text)
    if found is None or not re.search(r"\w", text[: found.start()] + text[found.end() :]):
        return text, None
    rest = " ".join(f"{text[: found.start()]} {text[found.end() :]}".split())
    words = found["words"] if found.re is _SOME else "not full"
    return rest, Remainder(words=words, vague=True)


def with_remainder(made: Described | Question, left: Remainder) -> Described | Question | None:
    """With what is left of it, of each reading; None where that cannot be said of it.

    Where it goes by a packet that nobody said, it is asked; how much is left, too, where that is vague.
    """
    if left.vague:
        return _how_much(made, left)
    if isinstance(made, Question):
        readings = tuple(one for each in made.readings if (one := _left_of(each, left)))
        spools = tuple(one for one in readings if one.kind in MEASURED_KINDS)
        if made.about == "kind" and len(spools) == 1:  # "a quarter spool of 3 lb"
            return spools[0]
        return replace(made, readings=readings) if readings else None
    if left.said and left.share:
        ways = (replace(left, said=""), replace(left, share=0.0))
        either = tuple(one for way in ways if (one := _left_of(made, way)))
        return Question("", "left", "How much of it is left?", either) if either else None
    found = _left_of(made, left)
    if found and left.pieces[0] in ("used", "more") and not made.count and _is_assumed(made.pack):
        asks = f"Nobody says how many a packet holds: is it {made.pack_size}, and {found.count} are there?"
        return Question("", "count", asks, (found,))
    return found


def _how_much(made: Described | Question, left: Remainder) -> Question | None:
    """The question how much is left, where that is kept as a note at the least."""
    noted = with_note(made, left.words)
    if isinstance(noted, Question):
        return replace(noted, asks=f"{noted.asks} How much of it is left?")
    if noted.kind is Kind.WEIGHT:
        return None
    like = "20 m left" if noted.kind in MEASURED_KINDS else "4 left"
    return Question("", "left", "How much of it is left?", (noted,), like)


def _is_assumed(pack: Figure | None) -> bool:
    return bool(pack and pack.because)


def _left_of(made: Described, left: Remainder) -> Described | None:
    if made.kind not in MEASURED_KINDS and left.pieces[1]:
        return _pieces_left(made, *left.pieces)
    if made.count or (made.packs or 1) > 1:
        return None
    if (
        made.kind is Kind.WEIGHT and left.share
    ):  # a tub is not counted: what is left of it is a note
        noted = with_note(made, left.words)
        return noted if isinstance(noted, Described) else None
    if made.pack is None or (left.pieces[1] and left.pieces[0] != "used"):
        return None
    if made.kind in MEASURED_KINDS:
        if left.pieces[1]:  # "100 m, used about 40"
            unit = made.pack.words.split()[-1]
            left = Remainder(off=f"{left.pieces[1]} {unit}")
        there = _length_left(float(made.pack.value), left)
        return replace(made, packs=None, left=there) if there else None
    pieces = round(float(made.pack.value) * left.share)
    return replace(made, packs=None, count=pieces) if pieces else None


def _length_left(held_mm: float, left: Remainder) -> Figure | None:
    if left.said:
        return length(as_said(left.said))
    metres = (held_mm - float(length(as_said(left.off)).value if left.off else 0)) / 1000
    if metres <= 0:
        return None
    metres *= left.share or 1
    return length(as_said(f"{metres:.1f} m".replace(".0 m", " m")))


def _pieces_left(made: Described, how: str, many: int) -> Described | None:
    """With so many left; or all that was named but so many, or and so many."""
    if how == "left":
        return None if made.count else replace(made, packs=None, count=many)
    held = made.pack_size
    named = made.count or (held * (made.packs or 1) if held else 0)
    count = named - many if how == "used" else named + many
    return replace(made, packs=None, count=count) if named and count > 0 else None
