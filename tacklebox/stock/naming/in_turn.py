"""Several unlike things in one breath, each with its own figures: "two hybrids and ten 18s to 0.10", "sticks:
four of 4 No 4 and two of 6 No 4". They are taken apart, and asked one at a time.

A rig is several things, of which those that are tackle are offered. ``Reads`` reads one of them.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from tacklebox.stock.naming.asking import asked
from tacklebox.stock.naming.described import Described, Question, Reads, if_understood
from tacklebox.stock.naming.of_a_rig import parts_of_a_rig
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.tokens import UNITS
from tacklebox.stock.naming.turns import MANY, NUMBER, PACKETS, saying
from tacklebox.stock.tables import Kind

MOST_OF_A_KIND = 2  # where any kind may be meant
MOST_THINGS = 9  # in one breath
_AND_A_HALF = r"(?!\s+(?:an?\s+)?(?:half|quarter|third)\b)"
_ALSO = r"together\s+with|as\s+well\s+as|along\s+with"
_LOADED = (  # "6 g + 2 BB" is one float, "hair + quickstop" one hooklength
    r"(?!\d+(?:\.\d+)?\s*(?:bb|aaa|ab|ssg|swan|g|no)\b|quick\s?stop|push\s?stop|band\b|bayonet|spike|hair\b)"
)
_BETWEEN = (
    rf"\s*[,;]?\s*\b(?:and{_AND_A_HALF}|plus|{_ALSO})\s+|\s*[;&]\s+|\s*\+\s+{_LOADED}"
    r"|\s+/\s+(?!0?\.\d|\d+\s*lb\b)"
)
_BY_AND = saying(_BETWEEN)
_UNIT = "|".join(sorted(UNITS, key=len, reverse=True))
_BY_COMMAS = saying(
    rf"{_BETWEEN}|,\s*(?={NUMBER}\b(?!\s+(?:on|in)\s+(?:a|the|my)\b)(?![.,/]\d|\s*-?\s*(?:an?\s+)?(?:{_UNIT})(?![a-z])"
    rf"|\s*[x×]\s*\d+\s*(?:,|$)|\s*(?:of|off)?\s*(?:,|$)|\s*(?:\d+\s*-?\s*(?:{_UNIT})\s+)?{PACKETS}(?:\s+(?:of\s+)?{NUMBER}s?)?"
    r"\s*(?:,|$|\b(?:off|from|in|at|for)\b)))"  # ", 2 packs of 10", ", two 150m spools off the shelf"
)
_AT_COMMAS = saying(rf"{_BETWEEN}|\s*,\s*")
_NAME_AT_END = saying(r"(?<![\w.])[a-z][a-z-]{2,}(?:\s+[a-z][a-z-]{2,})*$")  # at the end
_HEADED = saying(r"^(?P<head>[^:]*[a-z][^:]*):\s*(?P<rest>.+)$")
_OF_ALL = saying(  # "0.14 3 spools and 0.16 2 spools, all 100m"
    r"\s*,?\s*\b(?:all|both)\s+(?P<what>\d+\s*(?:m|yds?|metres?|in|cm|inch)(?:\s+spools)?)$"
)
_EACH_OF_ALL = saying(
    rf"\s*,\s*(?P<what>{MANY})\s+each$"
)  # "20 to 0.08 and 22 to 0.07, dozen each"
_SO_MANY_OF = saying(rf"^(?P<many>{NUMBER})\s+(?:of|at|in)\s+(?P<which>.+)$")
_PACKETS_OF_WHAT = saying(rf"^{NUMBER}\s+(?P<packets>{PACKETS})\s+of\s+(?P<what>.+)$")
_ONE_EACH = saying(r"\b(?:one|1)\s+(?:each\s+of|of\s+each)\b")
_TIED_FROM = "A rig is tied from its recipe."
OF_A_RIG = f"{_TIED_FROM} Is one of its parts meant?"
ENTERED = "rigs.add"  # how a rig that is tied already comes in
_TIED = saying(
    r"\b(?:made[\s-]+up|on\s+winders?|ready[\s-]+(?:made|tied)|tied\s+already|already\s+tied)\b"
)
_A_RIG = saying(
    r"\b(?<!hair )(?<!hair-)rigs?\b(?!\s+(?:line|winder|tube|tubing|ring|connector|wallet|box|tray|anchor"
    r"|board|book|roll|rack))"
)
_ON_A_FLOAT = saying(  # "shallow rigs" are no hooklengths
    r"\b(?:pole|waggler|float|stick|shallow|margin|edge|canal|depth|full\s+depth|deck|paste|slop|pinkie|squatt|caster|f1s?|up\s+in\s+the\s+water)\s+rigs?\b"
    r"(?!\s+(?:line|winder|tube|tubing|ring|connector|wallet|box|tray|hook|h/?l))"
)
_FOR_RIGS = saying(r"\b(?:for|of)\s+(?:[a-z]+\s+){0,3}rigs?\b")


def several(
    text: str, phrases: Sequence[str], reads: Reads, *, noted: bool = False
) -> Question | None:
    """The question which of several things is meant, None where a phrase of them is none.

    ``noted``: it is sure that they are several, so that strange words are notes of each.
    """
    readings: list[Described] = []
    for phrase in phrases:
        made = if_understood(phrase, reads)
        if made is None:
            return None
        if isinstance(made, Question) and made.about in ("word", "packs") and not noted:
            return None  # more than the figures is unclear
        one = isinstance(made, Question) and (noted or made.about == "count")
        kind_untold = isinstance(made, Question) and made.about in ("shape", "kind")
        found = made.readings[: 1 if one and not kind_untold else MOST_OF_A_KIND]
        if _ONE_EACH.search(text):
            found = tuple(replace(one, packs=1 if one.packs else None) for one in found)
        readings += [one for one in found if one not in readings]
    if len(readings) < 2:
        return None
    asks = f'"{text}" names several things: one at a time.'
    return asked(text, "several", asks, readings)


def one_at_a_time(text: str, reads: Reads, *, listed: bool = False) -> Question | None:
    """The question which of several unlike things is meant; of a rig whichever of its parts are tackle."""
    rig = is_a_rig(text)
    asks = OF_A_RIG if rig else f'"{text}" names several things: one at a time.'
    most: list[list[Described]] = []
    for things in in_turn(text, listed=listed, rig=rig):
        found = [made for ways in things if (made := _as_one(ways, reads))]
        if len(found) == len(things) or (rig and len(found) > len(most)):
            most = found
    readings = [made for found in most for made in found]
    if rig and len(parts := _parts_read(text, reads)) > max(
        1, len(most) - bool(_TIED.search(text))
    ):
        readings = parts
    question = asked(text, "several", asks, readings) if readings else None
    return replace(question, see=ENTERED) if question and rig else question


def _parts_read(text: str, reads: Reads) -> list[Described]:
    """The parts of a rig as tackle, each as it is likeliest."""
    return [made for part in parts_of_a_rig(text) for made in _as_one((part,), reads)[:1]]


def _as_one(ways: Sequence[str], reads: Reads) -> list[Described]:
    """What one of several things is, said in one of these ways; none where that is not clear."""
    noted: list[Described] = []
    for phrase in ways:
        made = if_understood(phrase, reads)
        if isinstance(made, Described):
            return [made]
        if made is None or is_a_rig(phrase):
            continue
        usual = [one for one in made.readings if not is_own(one)][:MOST_OF_A_KIND]
        if made.about not in ("kind", "several", "word") and not made.sure:
            return usual
        noted = noted or (usual if made.about == "word" else [])
    return noted


def asked_of_a_tied_rig(
    text: str, made: Described | Question, reads: Reads
) -> Described | Question:
    """Rigs that are tied already are no tackle in stock: asked whether one of their parts is meant."""
    if isinstance(made, Described) and made.kind is Kind.HOOKLENGTH and _ON_A_FLOAT.search(text):
        question = asked(text, "rig", f"{_TIED_FROM} Is its hooklength meant?", [made])
        return replace(question, see=ENTERED)
    if isinstance(made, Described) or made.see or not (is_a_rig(text) and _TIED.search(text)):
        return made
    parts = _parts_read(text, reads)
    if len(parts) > 1:
        made = asked(text, "several", OF_A_RIG, parts)
        return replace(made, see=ENTERED)
    return replace(made, asks=f"{OF_A_RIG} {made.asks}", see=ENTERED)


def is_a_rig(text: str) -> bool:
    """Whether a rig is named; "a tray for the canal rigs" is a tray."""
    return bool(_A_RIG.search(_FOR_RIGS.sub("", text)))


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
    of_all = _OF_ALL.search(text) or _EACH_OF_ALL.search(text)
    if of_all:
        tail = of_all["what"] if of_all.re is _OF_ALL else f"{of_all['what']} of them"
        for things in in_turn(text[: of_all.start()], listed=listed, rig=rig):
            yield tuple(tuple(f"{way}, {tail}" for way in ways) for ways in things)
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
    of, packets = _SO_MANY_OF.match(part), _PACKETS_OF_WHAT.match(first)
    if of and packets:  # "one spool of 0.10 and two of 0.12"
        return f"{of.group('many')} {packets.group('packets')} of {of.group('which')}", part
    name = _NAME_AT_END.search(first)
    if part == first or name is None or " " not in part:
        return (part,)
    return part, f"{part} {name.group()}"


def is_headed(text: str) -> bool:
    """Whether a list follows what all of it is: "sticks: ..."."""
    return bool(_HEADED.match(text))


def _of_the_head(head: str, part: str) -> str:
    """ "Sticks" and "four of 4 No 4" as "four sticks 4 No 4"."""
    of, packets = _SO_MANY_OF.match(part), _PACKETS_OF_WHAT.match(head)
    if of and packets:
        of_each = f"{of.group('many')} {packets.group('packets')} of {packets.group('what')}"
        return f"{of_each} {of.group('which')}"
    if of:
        return f"{of.group('many')} {head} {of.group('which')}"
    many, _, named = part.partition(" ")
    return f"{many} {head}" if named in re.findall(r"[^\W\d_]+", head.lower()) else f"{head} {part}"
