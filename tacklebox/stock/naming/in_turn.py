"""Several things said in one breath, each with its own figures: "two hybrids and ten 18s to 0.10", "sticks:
four of 4 No 4 and two of 6 No 4". Here they are taken apart; whoever reads them asks for one at a time."""

import re
from collections.abc import Iterator

from tacklebox.stock.naming.numbers import HOW_MANY, ONES, TENS
from tacklebox.stock.naming.tokens import UNITS

MOST_THINGS = 9  # in one breath
_MANY = "|".join((r"\d{1,4}", *ONES, *TENS, *HOW_MANY, "an?", r"half\s+an?\s+dozen"))
_PACKETS = r"(?:packets?|packs?|pkts?|pks?|spools?|tubs?|boxes|box|bags?|cards?)"
_AND_A_HALF = r"(?!\s+(?:an?\s+)?(?:half|quarter|third)\b)"
_ALSO = r"together\s+with|as\s+well\s+as|along\s+with"
_LOADED = (  # "6 g + 2 BB" is one float, "hair + quickstop" one hooklength
    r"(?!\d+(?:\.\d+)?\s*(?:bb|aaa|ab|ssg|swan|g|no)\b|quick\s?stop|push\s?stop|band\b|bayonet|spike|hair\b)"
)
_AND = (
    rf"\s*[,;]?\s*\b(?:and{_AND_A_HALF}|plus|{_ALSO})\s+|\s*[;&]\s+|\s*\+\s+{_LOADED}"
    r"|\s+/\s+(?!0?\.\d)"
)
_BY_AND = re.compile(_AND, re.IGNORECASE)
_UNIT = "|".join(sorted(UNITS, key=len, reverse=True))
_BY_COMMAS = re.compile(
    rf"{_AND}|,\s*(?=(?:{_MANY})\b(?!\s+(?:on|in)\s+(?:a|the|my)\b)(?![.,/]\d|\s*-?\s*(?:an?\s+)?(?:{_UNIT})(?![a-z])"
    rf"|\s*(?:,|$)|\s*(?:\d+\s*-?\s*(?:{_UNIT})\s+)?{_PACKETS}(?:\s+(?:of\s+)?(?:{_MANY})s?)?"
    r"\s*(?:,|$|\b(?:off|from|in|at|for)\b)))",  # ", 2 packs of 10", ", two 150m spools off the shelf"
    re.IGNORECASE,
)
_AT_COMMAS = re.compile(rf"{_AND}|\s*,\s*", re.IGNORECASE)
_NAME = re.compile(
    r"(?<![\w.])[a-z][a-z-]{2,}(?:\s+[a-z][a-z-]{2,})*$", re.IGNORECASE
)  # at the end
_HEADED = re.compile(r"^(?P<head>[^:]*[a-z][^:]*):\s*(?P<rest>.+)$", re.IGNORECASE)
_OF_ALL = re.compile(  # "0.14 3 spools and 0.16 2 spools, all 100m"
    r"\s*,\s*(?:all|both)\s+(?P<what>\d+\s*(?:m|yds?|metres?|in|cm|inch)(?:\s+spools)?)$",
    re.IGNORECASE,
)
_SO_MANY_OF = re.compile(rf"^(?P<many>{_MANY})\s+(?:of|at|in)\s+(?P<which>.+)$", re.IGNORECASE)
_SO_MANY_PACKETS = re.compile(
    rf"^(?:{_MANY})\s+(?P<packets>{_PACKETS})\s+of\s+(?P<what>.+)$", re.IGNORECASE
)
_SO_MANY_SPOOLS = re.compile(rf"^(?:{_MANY})\s+(?P<packets>{_PACKETS})\s+of\b", re.IGNORECASE)


def in_turn(
    text: str, *, listed: bool = False, rig: bool = False
) -> Iterator[tuple[tuple[str, ...], ...]]:
    """Every way to take the words as several things, the likeliest first: of each thing every way to say it.

    ``listed``: parted by commas before a number, too; of a ``rig`` by all of them.

    >>> next(in_turn("sticks: four of 4 No 4 and two of 6 No 4"))
    (('four sticks 4 No 4', 'four of 4 No 4'), ('two sticks 6 No 4', 'two of 6 No 4'))
    >>> next(in_turn("ten size 10 swivels and ten size 16")), list(in_turn("two hybrids 30 g"))
    ((('ten size 10 swivels',), ('ten size 16', 'ten size 16 swivels')), [])
    """
    of_all = _OF_ALL.search(text)
    if of_all:
        tail = of_all["what"]
        for things in in_turn(text[: of_all.start()], listed=listed, rig=rig):
            yield tuple(tuple(f"{way} {tail}" for way in ways) for ways in things)
        return
    headed = _HEADED.match(text)
    head = headed.group("head").strip() if headed else ""
    for joint in (_BY_COMMAS, *((_AT_COMMAS,) if rig else ())) if listed else (_BY_AND,):
        parts = [
            part.strip(" ,;:") for part in joint.split(headed.group("rest") if headed else text)
        ]
        if 1 < len(parts) <= MOST_THINGS and all(parts):
            if head:
                yield tuple((_of_the_head(head, part), part) for part in parts)
            else:
                yield tuple(_of_its_own(part, parts[0]) for part in parts)


def _of_its_own(part: str, first: str) -> tuple[str, ...]:
    """A part as it stands, or with what the first names: "ten swivels size 10 and ten size 16"."""
    of, packets = _SO_MANY_OF.match(part), _SO_MANY_SPOOLS.match(first)
    if of and packets:  # "one spool of 0.10 and two of 0.12"
        return f"{of.group('many')} {packets.group('packets')} of {of.group('which')}", part
    name = _NAME.search(first)
    if part == first or name is None or " " not in part:
        return (part,)
    return part, f"{part} {name.group()}"


def is_headed(text: str) -> bool:
    """Whether a list follows what all of it is: "sticks: ..."."""
    return bool(_HEADED.match(text))


def _of_the_head(head: str, part: str) -> str:
    """ "Sticks" and "four of 4 No 4" as "four sticks 4 No 4"."""
    of, packets = _SO_MANY_OF.match(part), _SO_MANY_PACKETS.match(head)
    if of and packets:
        of_each = f"{of.group('many')} {packets.group('packets')} of {packets.group('what')}"
        return f"{of_each} {of.group('which')}"
    if of:
        return f"{of.group('many')} {head} {of.group('which')}"
    many, _, named = part.partition(" ")
    return f"{many} {head}" if named in re.findall(r"[^\W\d_]+", head.lower()) else f"{head} {part}"
