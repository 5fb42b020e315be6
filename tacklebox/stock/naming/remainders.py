"""What is there of an opened spool or packet: "half a spool of", "about 40 m left of", "used 3 of them".

The spool or packet holds what it usually does, or what it held when it was new; what is left is what there
is.
"""

import re
from dataclasses import dataclass, replace

from tacklebox.stock.naming.described import Described, Figure, Question, length
from tacklebox.stock.naming.notes import with_note
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.tokens import as_said
from tacklebox.stock.naming.turns import (
    ABOUT,
    ENDS,
    GONE,
    LEFT,
    LENGTH,
    MANY,
    OF_THEM,
    PACKET,
    PACKETS,
    saying,
)
from tacklebox.stock.tables import MEASURED_KINDS, Kind

_SHARES = {
    **{"three quarters": 3 / 4, "3/4": 3 / 4, "¾": 3 / 4, "two thirds": 2 / 3, "2/3": 2 / 3},
    **{"half": 1 / 2, "1/2": 1 / 2, "½": 1 / 2, "third": 1 / 3, "1/3": 1 / 3},
    **{"quarter": 1 / 4, "1/4": 1 / 4, "¼": 1 / 4},
}
_WHOLES = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "1": 1, "2": 2, "3": 3}
_WHOLE = rf"(?P<whole>{'|'.join(_WHOLES)})"
_SHARE = rf"(?P<part>{'|'.join(_SHARES)})(?!\s+(?:a\s+)?dozen)"
_PART = rf"(?<![\w./]){_SHARE}"
_OF_IT = rf"(?:\s+(?:of\s+)?(?:it|them|that|the\s+{PACKET})\b)?"
_AND_I_HAVE = r"[,\s]\s*(?:(?:but|and|i'?ve|i|have)\s+)*\b(?<!part )"
_ONE = r"(?:an?|the|my)\s+"
# How much is left of what goes by its length, or of one packet.
_HOW_MUCH = [
    saying(pattern)
    for pattern in (
        # "about 40 m left", "40 m of it left out of 100"
        rf"{ABOUT}(?<![\w.])(?P<said>{LENGTH})(?:\s+of\s+(?:it|that))?\s*{LEFT}\b"
        r"(?:\s+out\s+of\s+(?:the\s+)?(?P<of>\d{1,4})\b(?!\s*[a-z]*\d)|\s+of\b|\s+on(?:\s+(?:it|the\s+spool))?\b)?",
        r"(?:,\s*|\s)(?:(?:there'?s|there\s+is|got|still|about|only|maybe|roughly)\s+)+"
        rf"(?P<said>{LENGTH})\s+(?:still\s+)?on\s+(?:it|there|the\s+spool)\b",
        # "one full spool of 50 m and one half used", of which the length stays said
        rf"\b{_WHOLE}\s+(?:full\s+)?(?:ones?|{PACKETS})(?:\s+of)?(?P<keeps>\s+{LENGTH})?"
        rf"\s+and\s+(?:one|an?|another)\s+(?:about\s+)?{_PART}[\s-]*(?:used|full|left|gone)\b",
        # "one and a half packets", "1½ spools left of"
        rf"{ABOUT}\b{_WHOLE}(?:\s+and\s+(?:an?\s+)?|\s*(?=[½¼⅓¾])|(?<=\d)\s+(?=\d/)){_SHARE}\s+{PACKETS}\b"
        rf"(?:\s*\((?P<held>\d{{1,3}})'?s?\))?(?:\s+(?:left\s+)?of\b|\s+left\b)?",
        rf"{_AND_I_HAVE}(?P<gone>used)\s+{ABOUT}(?:an?\s+)?{_PART}(?!\s*(?:oz|lb)){_OF_IT}(?:\s+of\s+(?P<held>\d{{1,3}})\b)?",
        # "half a spool", "half the 100 m spool full of", "half a pack of 20 beads": no size, as of hooks
        rf"(?:\b(?:with|and|but)\s+)?{ABOUT}(?:\b(?:a|one)\s+)?{_PART}\s*-?\s*(?:of\s+)?(?:{_ONE}(?P<keeps>{LENGTH}\s+)?)?(?:used\s+)?"
        rf"{PACKET}\b(?:\s+of\s+(?P<held>\d{{1,3}})(?=\s+(?!spades|hooks)[a-z]{{4,}}s\b)|(?:\s+(?:{LEFT}|full)\b)?(?:\s+of\b)?(?:\s+(?P<gone>gone|used)\b)?)",
        # "a third gone", "half of it left"
        rf"{ABOUT}(?:\ban?\s+)?{_PART}(?:'?s)?{_OF_IT}\s+(?:(?:is|are)\s+)?"
        rf"(?:(?P<gone>gone|used|empty)\b(?:\s+(?:off|from|of)\s+it)?|(?:{LEFT}|full)\b(?:\s+on\s+(?:it|there)\b)?)",
        rf"{_AND_I_HAVE}used\s+(?:up\s+)?{ABOUT}(?P<off>{LENGTH})\b(?:\s+(?:of|off)\s+it)?",
    )
]
# What is said before a number of pieces: "but I think I've only", "must have".
_SO = (
    r"(?:\b(?:i'?ve|i'?d|i|have|has|had|but|and|think|reckon|already|so|must|well|got|still|there'?s"
    r"|there\s+are|which|with)\s+)*"
)
_SO_MANY = rf"{_SO}{ABOUT}(?P<left>{MANY})"
_THEM = rf"(?:{OF_THEM})?"
_HOLDER = rf"(?:{PACKET}|tin|wallet|set)"
_IN_IT = rf"(?:\s+(?:in|on)\s+(?:it|there|(?:(?:the|this|that)\s+(?:\w+\s+)?)?{_HOLDER}))?"
_OF_HELD = (
    rf"(?:in|out\s+of|of|from)\s+(?:(?:the|an?|my)\s+)?(?:{_HOLDER}\s+(?:of\s+)?)?(?P<held>{MANY})"
)
_PLUS = rf"\s+(?:and|plus|\+|&)\s+{ABOUT}(?P<more>{MANY})"
# How many pieces are left or used, or are there beside whole packets.
_HOW_MANY = [
    saying(pattern)
    for pattern in (
        # "7 left of a pack of 10", "7 out of 10 left", "4 floats left from a set of 6"
        rf"{_SO_MANY}(?:{OF_THEM}|(?P<thing>(?:\s+(?!left\b)[\w./]+){{1,5}}?)(?=\s+left\s+(?:out|from)))?(?P<early>\s+left)?\s+{_OF_HELD}"
        r"(?(early)(?:\s+of\b)?|\s+left\b)",
        # "but i'm down to 30"
        r"(?:,\s*|\s)(?:(?:but|and|now|i'?m|we'?re|its|it'?s)\s+)*down\s+to\s+(?:(?:the|my)\s+last\s+)?"
        rf"(?P<left>{MANY}){ENDS}",
        # ", 8 left", "10 left in the pkt", "box of 50, 30 odd left", "7 in the packet now, was 10"
        r"(?:^|,\s*|(?<=[a-z])\s+(?:-\s+|(?=(?:but|about|only|with|still|just|got)\b))|(?<=[a-z]{3})\s+)"
        rf"{_SO_MANY}(?:\s+odd)?{_THEM}(?:{_IN_IT}\s+now|\s+{LEFT}{_IN_IT}(?:\s+in)?)"
        rf"(?:\s*,?\s*(?:it\s+)?(?:was|were|had)\s+(?P<held>{MANY}))?{ENDS}",
        # "only used 2", "think i've lost about 3 of them"
        rf"[,\s]\s*{_SO}{ABOUT}\b(?<!part )(?:used|lost|broken?|snapped|gave|lent|sold)\s+{ABOUT}"
        rf"(?P<used>{MANY})(?!\s+{PACKETS}\b){_THEM}(?:\s+(?:out|so\s+far|already|up|(?:to|away)\b[^,]*))*{ENDS}",
        # "6 gone", "with 2 used"
        rf"(?:,\s*|\s-\s*|\s(?=(?:but|with|and)\b)){_SO}{ABOUT}(?P<used>{MANY}){_THEM}\s+(?:(?:are|is|been|already)\s+)*"
        rf"{GONE}(?:\s+already)?{ENDS}",
        # "minus 2", "less the 3 i used", "bar three hooks used on Sunday"
        rf"[,\s]\s*(?:minus|less|bar)\s+(?:the\s+)?(?P<used>{MANY})(?:\s+(?:i|that|i'?ve)\s+[^,\d]*"
        rf"|(?:\s+[a-z]{{3,}}s)?\s+{GONE}(?:\s+(?:on|at|in)\s+[a-z ]+)?)?{ENDS}",
        rf"(?:,\s*)?\ball\s+but\s+(?P<used>{MANY}){_THEM}(?:\s+(?:are\s+)?(?:still\s+)?(?:there|left|in\s+it))?{ENDS}",
        # "1 full packet and 4 loose", "a packet of 10 plus 3", "a packet of 10 and 3 size 16"
        rf"(?<=[a-z])(?P<packet>\s+of\s+{MANY})?{_PLUS}\s+(?:more\s+)?(?:loose|odd|singles?|spare|over)\b(?:\s+ones)?",
        rf"(?P<packet>\b{PACKETS}(?:\s+of\s+{MANY})?){_PLUS}(?=\s*(?:,|$)|(?:{OF_THEM}|\s+left)\b)",
        rf"(?P<packet>\b(?:packet|pack|pkt|box)\s+of\s+{MANY}){_PLUS}(?!\s+(?:{PACKETS}\b|of\s+(?!them|em)))",
    )
]
_GONE = saying(r"\s*\b(?:gone|used)\s*$")
_SOME = saying(
    r"(?:,\s*)?\b(?:(?:there'?s|got|still|only|just)\s+)*(?P<words>(?:(?:a\s+)?(?:little\s+)?(?:bit|few|some)|not\s+(?:much|many|a\s+lot)"
    r"|hardly\s+any|(?:a\s+)?few|some|most(?:\s+of\s+(?:it|them))?|the\s+dregs|(?:a\s+)?few\s+(?:yards?|metres?))"
    r"\s+left)\b(?:\s+(?:of|on|in)\b(?:\s+(?:it|there)\b)?)?"
)
_PART_USED = saying(rf"\bpart[\s-]used\b|\b(?:part|opened)\s+(?={PACKETS}\b)")
_SAYS_GONE = saying(
    r"\W*(?:(?:i'?ve|i|we|have|just|had|to)\s+)*(?:used|lost|binned|threw|scrapped|broke|snapped|took|taken|gave)\b"
)
# What a spool held when it was new is what it holds: "was 50 m when new".
_WHEN_NEW = saying(
    r"\b(?:but\s+)?(?:(?:it|they)\s+)?(?:was|were)\s+(?:an?\s+)?(?=\d)|\bbut\s*(?=,|$)"
    r"|\s*\b(?:when\s+(?:(?:it|they)\s+(?:was|were)\s+)?(?:new|full|bought)|originally|from\s+new|to\s+(?:start|begin)\s+with)\b"
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
    if groups.get("keeps") and (gone := _GONE.search(rest)):
        rest, groups["gone"] = rest[: gone.start()], gone.group()
    rest, words = " ".join(rest.split()), found.group().strip(" ,")
    if groups.get("said"):
        return rest, Remainder(groups["said"], words=words)
    if groups.get("off"):
        return rest, Remainder(off=groups["off"], words=words)
    part = _SHARES[groups["part"]] + _WHOLES.get(groups.get("whole", ""), 0)
    return rest, Remainder(share=1 - part if groups.get("gone") else part, words=words)


def _without_pieces(text: str) -> tuple[str, Remainder | None]:
    """The words without how many pieces are left, used or more, and that.

    >>> words, left = _without_pieces("hooks size 10, 7 left out of 10")
    >>> words, left.pieces
    ('hooks size 10, pack of 10', ('left', 7))
    >>> _without_pieces("1 packet and 4 loose 18s")[0], _without_pieces("used 3")
    ('1 packet 18s', ('used 3', None))
    """
    for one in _HOW_MANY:
        found = one.search(text)
        groups = found.groupdict() if found else {}
        thing = f", {groups['thing'].strip()}" if groups.get("thing") else ""
        if found is None or not re.search(
            r"\w", f"{text[: found.start()]}{thing}{text[found.end() :]}"
        ):
            continue
        how, many = next((key, found[key]) for key in ("left", "used", "more") if groups.get(key))
        held = f", pack of {groups['held']}" if groups.get("held") else groups.get("packet") or ""
        held = held if held[:1] in (",", " ", "") else f" {held}"
        before, behind = text[: found.start()].rstrip(" ,"), text[found.end() :].strip()
        rest = f"{before}{thing}{held} {behind}".strip(" ,")
        return _as_new(rest), Remainder(pieces=(how, count_of(many)))
    return text, None


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
        packet = re.search(r"pack|pkt|pk|box|bag|card", left.words, re.IGNORECASE)
        if made.about == "kind" and len(spools) == 1 and not packet:  # "a quarter spool of 3 lb"
            return spools[0]
        if made.about == "count" and len(readings) == 1:
            return readings[0]
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
    if noted.count:  # so many are left
        return None
    if noted.kind is Kind.WEIGHT and noted.pack is None:  # a tub stands as plenty
        asks = f'"{left.words}" says how much is left. Put it in all the same?'
        return Question("", "left", asks, (noted,), "4 left")
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
        there = _length_left(made.pack, left)
        return replace(made, packs=None, left=there) if there else None
    if made.pack.value == 1:  # "half a tub" of putty
        noted = with_note(made, left.words)
        return noted if isinstance(noted, Described) else None
    pieces = round(float(made.pack.value) * left.share)
    return replace(made, packs=None, count=pieces) if pieces else None


def _length_left(held: Figure, left: Remainder) -> Figure | None:
    """What is left of it, in the unit in which the whole was said."""
    if left.said:
        return length(as_said(left.said))
    whole = float(held.value)
    there = whole - float(length(as_said(left.off)).value if left.off else 0)
    if there <= 0:
        return None
    number, _, unit = held.words.rpartition(" ")
    if not re.fullmatch(r"[\d.]+", number):
        number, unit = str(whole / 1000), "m"
    amount = round(float(number) * there / whole * (left.share or 1), 1)
    return length(as_said(f"{amount:g} {unit}"))


def _pieces_left(made: Described, how: str, many: int) -> Described | None:
    """With so many left; or all that was named but so many, or and so many."""
    if how == "left":
        return None if made.count else replace(made, packs=None, count=many)
    held = made.pack_size
    named = made.count or (held * (made.packs or 1) if held else 0)
    count = named - many if how == "used" else named + many
    return replace(made, packs=None, count=count) if named and count > 0 else None
