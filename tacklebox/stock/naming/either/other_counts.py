"""What the numbers of a phrase may be besides, where something is asked already: a band of elastics, a whole
spool, so many of any shape, packets of so many."""

import re
from collections.abc import Iterator
from dataclasses import replace

from tacklebox.stock.naming.described import Described, Question, length, pieces, word
from tacklebox.stock.naming.tries import usual_of
from tacklebox.stock.naming.turns import saying
from tacklebox.stock.naming.weights import FEEDERS
from tacklebox.stock.tables import UNMARKED, Kind

_NEIGHBOURS = saying(r"(?<![\w.])(\d{1,2})\s+(\d{1,2})(?![\w.])")
WIDEST_BAND = 6  # grades between the ends of one elastic: "10 16" are two
_INCHES = saying(r"^\d+ (?:in|cm|ft)\b")
_TWO_NUMBERS = saying(r"^[a-z][a-z\s]*?\s(\d{1,2}),?\s+(\d{1,2})s?$")
_FEW_PACKETS = saying(r"(?<![\w.])([2-5])\s*(?:pk|pkt|pack|packet)$")
HOOK_SIZES = ("8", "10", "12", "14", "16", "18", "20", "22")  # that hooklengths have
_BOMB_OR_FEEDER = saying(r"\bbombs?\s*(?:\bor\b|/)\s*feeders?\b")
_SAYS_SIZE = saying(r"\b(?:size|sizes|sz|no|number|mm|mil|millimetres?)\b")
FEWEST_SPELT = 4  # "three way" is no number of pieces
_SO_MANY_FEEDERS = saying(r"^(?P<many>[2-9]|\d\d)\s+feeders$")
_PACKETS_OF = saying(
    r"(?<![\w.])(?P<packs>[2-9])\s*(?:pkts?|packets?|packs?|pks?)\s+(?P<held>\d{1,2})$"
)
_LEFT = saying(r"\b(?:left|remaining|part|half|bit|about|abt|of)\b")


def other_counts(text: str, made: Question) -> Iterator[Described]:
    """Each reading that is another way to take the numbers."""
    for rule in _RULES:
        yield from rule(text, made)


def spelt_counts(text: str, made: Question) -> Question:
    """The question with a number in words as how many of a part there are: it is hardly its size."""
    parts_alone = all(one.kind is Kind.PART for one in made.readings)
    if _SAYS_SIZE.search(text) or not parts_alone:
        return made
    numbers = set(re.findall(r"\d+", text))

    def counted(one: Described) -> Described:
        size = (
            "" if _INCHES.search(one.words_of("size")) else one.words_of("size").partition(" ")[0]
        )
        spelt = one.kind is Kind.PART and size.isdecimal() and size not in numbers
        if not spelt or one.count or one.packs or int(size) < FEWEST_SPELT:
            return one
        rest = re.sub(r"^\d+(?:\s*mm\b)?\s*", "", one.words_of("size"))
        figures = {key: figure for key, figure in one.figures.items() if key != "size"}
        figures |= {"size": word(rest)} if rest else {}
        return replace(one, figures=figures, count=int(size))

    every = [counted(one) for one in made.readings]
    return replace(
        made, readings=tuple(one for at, one in enumerate(every) if one not in every[:at])
    )


def _band(text: str, made: Question) -> Iterator[Described]:
    """ "Hollow elastic 10 12" may be one that is graded from the one to the other."""
    found = _NEIGHBOURS.search(text) if made.about == "grade" else None
    for one in made.readings[:1] if found else ():
        soft, hard = int(found[1]), int(found[2])  # type: ignore[index]
        if one.kind is Kind.ELASTIC and 0 < hard - soft <= WIDEST_BAND:
            yield replace(one, figures={**one.figures, "grade": word(f"{soft}–{hard}")})


def _whole_spool(text: str, made: Question) -> Iterator[Described]:
    """ "Braid 10 lb, 110 m" may be a spool of so much."""
    for one in made.readings if made.about == "count" and not _LEFT.search(text) else ():
        if one.kind is Kind.LINE and one.left:
            yield replace(one, left=None, pack=length(one.left.words))


def _of_any_shape(text: str, made: Question) -> Iterator[Described]:
    """ "5 feeders" are five, of which nobody says more."""
    found = _SO_MANY_FEEDERS.search(text) if made.about == "shape" else None
    for one in made.readings[1:] if found else ():
        if one.kind is Kind.FEEDER and not one.count:
            yield replace(one, figures={**one.figures, "mass": word(UNMARKED)}, count=int(found[1]))  # type: ignore[index]


def _packets_of(text: str, made: Question) -> Iterator[Described]:
    """ "Bayonets 2 pk 5" may be two packets of five."""
    found = _PACKETS_OF.search(text) if made.about in ("size", "count", "pack") else None
    for one in made.readings[-1:] if found else ():
        if one.kind is Kind.PART and one.pack and "size" not in one.figures:
            packs, held = int(found["packs"]), int(found["held"])  # type: ignore[index]
            yield replace(one, packs=packs, pack=pieces(held), count=None)


def _of_either_number(text: str, made: Question) -> Iterator[Described]:
    """ "Snap swivels 18 12" may be 18 of size 12."""
    found = _TWO_NUMBERS.search(text)
    for one in made.readings[:1] if found and made.about in ("pack", "count", "size") else ():
        if one.kind is Kind.PART and one.words_of("size") == found[1]:  # type: ignore[index]
            figures = {**one.figures, "size": word(found[2])}  # type: ignore[index]
            yield replace(one, figures=figures, count=int(found[1]), packs=None, pack=usual_of(one))  # type: ignore[index]


def _so_many_winders(text: str, made: Question) -> Iterator[Described]:
    """ "Winders thirteen" are hardly so long."""
    for one in made.readings[:1] if made.about == "length" or not re.search(r"\d", text) else ():
        long = one.words_of("length").partition(" ")[0]
        if one.kind is Kind.WINDER and long.isdecimal() and not one.count and long not in text:
            usual = {**one.figures, "length": length("18 cm")}
            yield replace(one, figures=usual, count=int(long))


def _few_packets(text: str, made: Question) -> Iterator[Described]:
    """ "..., 2 pk" may be two packets as well as a packet of two."""
    found = _FEW_PACKETS.search(text)
    for one in made.readings if found else ():
        if one.pack and not one.pack.because and one.pack.words == found[1] and not one.packs:  # type: ignore[index]
            yield replace(one, packs=int(found[1]), pack=usual_of(one))  # type: ignore[index]


def _sized_by_count(_: str, made: Question) -> Iterator[Described]:
    """ "Hair rigs, 14, with band" are likelier of size 14."""
    for one in made.readings[:1] if made.about == "size" else ():
        if one.kind is Kind.HOOKLENGTH and one.count and str(one.count) in HOOK_SIZES:
            figures = {**one.figures, "size": word(str(one.count))}
            yield replace(one, figures=figures, count=None)


def _bomb_or_feeder(text: str, made: Question) -> Iterator[Described]:
    """ "Bomb or feeder 20" is no bomb feeder."""
    for one in made.readings if _BOMB_OR_FEEDER.search(text) else ():
        if one.words_of("shape") == "bullet":
            for shape in FEEDERS[:3]:
                yield replace(one, figures={**one.figures, "shape": word(shape)})


_RULES = (
    _bomb_or_feeder,
    _sized_by_count,
    _few_packets,
    _of_either_number,
    _so_many_winders,
    _band,
    _whole_spool,
    _of_any_shape,
    _packets_of,
)
