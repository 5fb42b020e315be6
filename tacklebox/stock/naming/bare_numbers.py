"""A bare whole number that no figure took is likely how many there are: "feeder boom 6 in 3", "olivettes
0.6 g 5/pk 7pk", "hooks 18, pack of 10, 7". The phrase is read again with it said as so many packets, pieces,
or what a packet holds, and asked.

``Reads`` reads the phrase.
"""

import re
from collections.abc import Iterator
from dataclasses import replace

from tacklebox.stock.naming.asking import MOST_READINGS, asked
from tacklebox.stock.naming.counting import FEW
from tacklebox.stock.naming.described import Described, Question, Reads, if_understood, pieces, word
from tacklebox.stock.naming.everyday import JOINING
from tacklebox.stock.naming.numbers import ONES, count_of
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.packets import USUALLY_HELD
from tacklebox.stock.naming.tokens import UNITS
from tacklebox.stock.naming.tries import usual_of
from tacklebox.stock.naming.turns import PACKET, PACKETS, saying
from tacklebox.stock.tables import MEASURED_KINDS, Kind

MOST_SPOOLS = 20  # that a bare number may be
MOST_TRIED = 2  # bare numbers of one phrase
NEVER_COUNTED = (
    "several",
    "says",
    "left",
    "number",
    "kind",
    "packs",
    "price",
)  # what is asked first of these
_UNIT = "|".join(sorted(map(re.escape, UNITS), key=len, reverse=True))
_IN_WORDS = rf"(?:{'|'.join(list(ONES)[2:])}|(?:half\s+a\s+)?doz(?:en)?)"
_BARE = saying(
    r"(?<![\w./£$#×-])(?<!no )(?<!no\. )(?<!\d )(?<!\d[x×])(?<!\d [x×] )(?<!shelf )(?<!peg )(?<!box )"
    rf"(?P<many>[1-9]\d{{0,2}})(?![\w/×]|\.\d|\s*(?:{_UNIT})\b|\s*[x×]\s*\d|\s+\d|-\d|p\b"
    r"|\s*(?:bb|aaa|ab|ssg|swan)\b|\s*no\.?\s*\d)"
)
_SPELT = saying(rf"\b(?P<many>{_IN_WORDS})\b")
_PACKED = saying(rf"\b(?P<many>[1-9]\d?)\s*(?P<packets>{PACKETS})\b")
_PRICE = r"(?:[\s,@]*(?:£\d+(?:\.\d\d)?|\d+p)(?:\s*(?:each|ea|apiece)\b)?)?"
_LAST = saying(  # "hooks 18, pack of 10 - 7", "a dozen" behind a comma
    r"(?:(?<=\bx)|(?<=\bx )|(?<![\w./£$#+&×-]))(?<!no )(?<!no\. )(?<!size )(?<!to )(?<!the )(?<![+&/] )"
    r"(?<!and )(?<!or )(?<!plus )(?<!of )"
    rf"(?P<many>[2-9]\d?|1\d{{1,2}}|{_IN_WORDS})(?:\b|(?=pk))(?:\s*(?P<packets>pk|pkt|pack)s?\b)?"
    rf"(?={_PRICE}(?:\s*\(note:[^()]*\))*$)"
)
_PACKET_OF = saying(rf"(?<![/\d])\s*\b{PACKET}s?\s*$")  # "packet 10"
_EACH_HOLDS = saying(  # "10/pk", "8 a packet,", "pkt 25,", "10s,"
    rf"(?:\d+\s*(?:/|an?\b|(?:in|per|to|each)\s+(?:an?|the)\b)?\s*{PACKET}s?|{PACKET}s?\s*(?:of\s+)?\d+\s*,|\d+s\s*,)\s*$"
)
_BY_PACKETS = saying(  # "2 x 10 snap links"
    rf"(?P<many>[2-9])\s*(?:[x×]|{PACKETS}\s+of)\s*(?P<of>5|6|8|10|12|15|20|25)\s+(?=[a-z])"
)
_SAYS_NOT = saying(r"\b(?:no|not|without)\s+[a-z]")  # says the opposite of what it would be read as
_JOINED_BEFORE = saying(r"[\s,;:]*(?:\b(?:x|qty|of)|[-–=×])?[\s.]*$")
_JOINED_BEHIND = saying(r"^\s*(?:(?:no|pcs?|nr|off|of)\b\.?)?[\s,;:]*")


def asked_how_many(text: str, made: Described | Question | None, reads: Reads) -> Question | None:
    """The question whether a number that went into no figure says how many there are; None without one.

    ``made`` is what the words were read as, None where they were not understood.
    """
    others = made.readings if made else ()
    for number in _numbers(text, made)[:MOST_TRIED]:
        kinds = {one.kind for one in others} or set(Kind)
        note = others[0].note if others else ""
        counted = _counted(text, number, reads, note)
        if readings := [one for one in counted if one.kind in kinds]:
            asks = f'Does "{number.group()}" say how many there are?'
            return asked(text, "count", asks, [*readings, *others])
    return None


def or_so_many(made: Described | Question) -> Described | Question:
    """A packet's number or a scrap with one may be how many there are: "swivels size 14, 20", "3 in"."""
    if not isinstance(made, Question) or made.about in NEVER_COUNTED:
        return made
    so_many = [
        more for one in made.readings if not _is_counted(one) for more in _so_many(one, made.about)
    ]
    return replace(made, readings=tuple([*made.readings, *so_many][:MOST_READINGS]))


def or_packets_of(text: str, made: Described | Question) -> Described | Question:
    """ "2 x 10 snap links" are two packets of ten as likely as two of size 10."""
    found = _BY_PACKETS.match(text)
    ways = [way for one in made.readings if found and (way := _by_packets(found, one))]
    if found is None or not ways:
        return made
    asks = f"{found['many']} packets of {found['of']}, or size {found['of']}?"
    if isinstance(made, Question):
        return replace(made, asks=f"{asks} {made.asks}", readings=(*ways, *made.readings))
    return asked(text, "packs", asks, [*ways, made])


def _by_packets(found: re.Match[str], made: Described) -> Described | None:
    """So many packets of so many, where the second number was taken for a size."""
    first, _, rest = made.words_of("size").partition(" ")
    if made.kind is not Kind.PART or first != found["of"]:
        return None
    figures = {key: figure for key, figure in made.figures.items() if key != "size"}
    if rest:
        figures["size"] = word(rest)
    held = pieces(int(first))
    return replace(made, figures=figures, pack=held, packs=int(found["many"]), count=None)


def _so_many(one: Described, about: str) -> Iterator[Described]:
    if (about == "pack" or one.kind is Kind.WINDER) and one.pack and not one.measured:
        yield replace(one, pack=usual_of(one), count=one.pack_size)
    if about == "kind" and one.pack and not one.pack.because and (one.pack_size or FEW) < FEW:
        yield replace(one, pack=usual_of(one), packs=one.pack_size)  # "10s x2"
    for scrap in one.note.split(", "):
        words = scrap.lower().split()
        numbers = [many for word in words if (many := count_of(word)) > 1]
        joined = all(count_of(word) or word in JOINING for word in words)
        if len(numbers) == 1 and joined and numbers[0] <= MOST_SPOOLS:
            rest = ", ".join(note for note in one.note.split(", ") if note != scrap)
            packs, count = (numbers[0], None) if one.measured else (None, numbers[0])
            yield replace(one, note=rest, packs=packs, count=count)


def _numbers(text: str, made: Described | Question | None) -> list[re.Match[str]]:
    """The numbers of the text that may say how many there are, the likeliest first."""
    if made is None:
        found = [] if _SAYS_NOT.search(text) else _bare_numbers(text)
        return [number for number in found if re.search(r"\d", text[: number.start()])]  # its size
    last = _LAST.search(text)
    if last and _is_open(made, last):
        return [last]
    if isinstance(made, Described) or made.about != "word" or _is_counted(made.readings[0]):
        return []
    note = made.readings[0].note
    kept = {int(found["many"]) for found in _BARE.finditer(note)}
    alone = {int(part) for part in note.split(", ") if part.isdecimal()}
    found = [] if _SAYS_NOT.search(text) else _bare_numbers(text)
    spelt = [word for word in _SPELT.finditer(text) if count_of(word["many"]) in alone]
    return [*(number for number in found if int(number["many"]) in kept), *spelt]


def _is_open(made: Described | Question, last: re.Match[str]) -> bool:
    """Whether the last number is neither a figure of it nor surely how many there are."""
    many, before = count_of(last["many"]), last.string[: last.start()]
    if isinstance(made, Question) and made.about in NEVER_COUNTED:
        return made.about == "several" and bool(_EACH_HOLDS.search(before))
    if _PACKET_OF.search(before) and not _is_held(made, _EACH_HOLDS.search(before)):
        return False
    return any(_may_be_more(one, many) for one in made.readings)


def _is_held(made: Described | Question, holds: re.Match[str] | None) -> bool:
    """Whether the number before "pack" says what one holds; in "hook 18 pack 4" it is the size."""
    said = re.findall(r"\d+", holds.group()) if holds else []
    sizes = {part for one in made.readings for part in re.findall(r"\d+", one.words_of("size"))}
    return bool(said) and not sizes & set(said)


def _may_be_more(one: Described, many: int) -> bool:
    held = one.pack.value if one.pack and not one.pack.because else None
    if one.count == many:  # "pack of 10, 7" are as likely packets
        return held not in (None, many)
    said = (figure.words for figure in one.figures.values() if not figure.because)
    long = one.kind in MEASURED_KINDS and many > MOST_SPOOLS  # "line 3 lb, 100"
    if long or _is_counted(one) or any(str(many) in re.findall(r"\d+", words) for words in said):
        return False
    by_the_few = one.words_of("form") == "olivette"
    return held != many or not (by_the_few or many in USUALLY_HELD)


def _is_counted(one: Described) -> bool:
    """Whether it is said how many there are of it, so that another number says something else."""
    return not (one.count is None and one.packs is None and one.left is None)


def _bare_numbers(text: str) -> list[re.Match[str]]:
    """Numbers that may say how many there are, the last first."""
    found = [*_PACKED.finditer(text), *_BARE.finditer(text)]
    starts = {one.start("many"): one for one in reversed(found)}
    return [starts[at] for at in sorted(starts, reverse=True)]


def _counted(text: str, number: re.Match[str], reads: Reads, note: str) -> Iterator[Described]:
    """What the phrase means with the number said as so many pieces, packets, or in one packet.

    ``note``: words that it would keep as a note without it.
    """
    before = _JOINED_BEFORE.sub("", text[: number.start()])
    behind = _JOINED_BEHIND.sub("", text[number.end() :])
    rest = f"{before}, {behind}".strip(" ,") if behind else before
    many = count_of(number["many"])
    if not re.search(r"[a-z]", rest, re.IGNORECASE):
        return
    packed = number.groupdict().get("packets")
    ways = (f"{many} packets of {rest}", f"{rest}, {many} packets", f"{rest}, pack of {many}")
    for way in ways if packed else (f"{rest}, {many} of them", *ways):
        made = if_understood(way, reads)
        for one in made.readings[:1] if made and _is_whole(made, note) else ():
            twice = one.count is not None and one.packs is not None
            taken = many in (one.count, one.packs, one.pack.value if one.pack else None)
            if taken and not (twice or is_own(one) or _BARE.search(one.note)):
                yield one


def _is_whole(made: Described | Question, note: str) -> bool:
    """Whether all of it is understood, and no figure is missing: "hook 31" has no size without it."""
    if isinstance(made, Described):
        return True
    if made.about == "word":  # a slip of the pen
        return bool(made.readings) and made.readings[0].note == note and not made.answer_like
    return not made.answer_like and made.about not in ("several", "says", "kind")
