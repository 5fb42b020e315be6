"""A bare whole number that went into no figure is likely how many there are: "feeder boom 6 in 3",
"olivettes 0.6 g 5/pk 7pk". The phrase is read again with it said as so many pieces, packets, or what a packet
holds, and asked.

``Reads`` reads the phrase.
"""

import re
from collections.abc import Iterator

from tacklebox.stock.naming.asking import asked
from tacklebox.stock.naming.described import Described, Question, Reads, if_understood
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.tokens import UNITS
from tacklebox.stock.naming.turns import PACKETS, saying

MOST_TRIED = 2  # bare numbers of one phrase
_UNIT = "|".join(sorted(map(re.escape, UNITS), key=len, reverse=True))
_BARE = saying(
    rf"(?<![\w./£$#×-])(?<!no )(?<!no\. )(?<!\d )(?<!\d[x×])(?<!\d [x×] )(?<!shelf )(?<!peg )(?<!box )"
    rf"(?P<many>[1-9]\d{{0,2}})(?![\w/×]|\.\d|\s*(?:{_UNIT})\b|\s*[x×]\s*\d|\s+\d|-\d|p\b"
    r"|\s*(?:bb|aaa|ab|ssg|swan)\b|\s*no\.?\s*\d)"
)
_PACKED = saying(rf"\b(?P<many>[1-9]\d?)\s*(?P<packets>{PACKETS})\b")
_SAYS_NOT = saying(r"\b(?:no|not|without)\s+[a-z]")  # says the opposite of what it would be read as
_JOINED_BEFORE = saying(r"[\s,;:]*(?:\b(?:x|qty|of)|[-=×])?[\s.]*$")
_JOINED_BEHIND = saying(r"^\s*(?:(?:no|pcs?|nr|off|of)\b\.?)?[\s,;:]*")


def asked_how_many(text: str, made: Described | Question | None, reads: Reads) -> Question | None:
    """The question whether a number that was kept as a note says how many there are; None without one.

    ``made`` is what the words were read as, None where they were not understood.
    """
    if isinstance(made, Described) or (made and made.about != "word") or _SAYS_NOT.search(text):
        return None
    if made and _is_counted(made.readings[0]):
        return None
    kept = {found["many"] for found in _BARE.finditer(made.readings[0].note)} if made else None
    if kept is not None and not kept:
        return None
    found = [one for one in _bare_numbers(text) if kept is None or one["many"] in kept]
    for number in found[:MOST_TRIED]:
        if readings := list(_counted(text, number, reads)):
            asks = f'Does "{number.group()}" say how many there are?'
            return asked(text, "count", asks, [*readings, *(made.readings if made else ())])
    return None


def _is_counted(one: Described) -> bool:
    """Whether it is said how many there are of it, so that another number says something else."""
    return not (one.count is None and one.packs is None and one.left is None)


def _bare_numbers(text: str) -> list[re.Match[str]]:
    """Numbers that may say how many there are, the last first."""
    found = [*_PACKED.finditer(text), *_BARE.finditer(text)]
    starts = {one.start("many"): one for one in reversed(found)}
    return [starts[at] for at in sorted(starts, reverse=True)]


def _counted(text: str, number: re.Match[str], reads: Reads) -> Iterator[Described]:
    """What the phrase means with the number said as so many pieces, packets, or in one packet."""
    before = _JOINED_BEFORE.sub("", text[: number.start()])
    behind = _JOINED_BEHIND.sub("", text[number.end() :])
    rest = f"{before}, {behind}".strip(" ,") if behind else before
    many = number["many"]
    if not re.search(r"[a-z]", rest, re.IGNORECASE):
        return
    packed = number.groupdict().get("packets")
    ways = (f"{many} packets of {rest}", f"{rest}, {many} packets", f"{rest}, pack of {many}")
    for way in ways if packed else (f"{rest}, {many} of them", *ways):
        made = if_understood(way, reads)
        for one in made.readings[:1] if made and _is_whole(made) else ():
            twice = one.count is not None and one.packs is not None
            if not (twice or is_own(one) or _BARE.search(one.note)):
                yield one


def _is_whole(made: Described | Question) -> bool:
    """Whether all of it is understood, and no figure is missing: "hook 31" has no size without it."""
    if isinstance(made, Described):
        return True
    return not made.answer_like and made.about not in ("word", "several", "says", "kind")
