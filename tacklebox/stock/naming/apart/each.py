"""The question that names each of several things that were said in one breath, with its own amounts."""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from tacklebox.stock.naming.apart.alike import held_in_each, is_more_of, says_amounts, says_the_same
from tacklebox.stock.naming.apart.amounts import Apart
from tacklebox.stock.naming.apart.counted import or_unmarked, where_counted, with_amounts
from tacklebox.stock.naming.apart.lots import lot_apart
from tacklebox.stock.naming.apart.things import Thing, things_apart
from tacklebox.stock.naming.asides import has_number
from tacklebox.stock.naming.described import (
    Described,
    IsReadBack,
    Question,
    Reads,
    if_understood,
)
from tacklebox.stock.naming.numbers import count_of, dictated
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.several import says_of_each
from tacklebox.stock.naming.tries import usual_of
from tacklebox.stock.naming.turns import saying
from tacklebox.stock.naming.writing import as_written
from tacklebox.stock.tables import UNMARKED, Kind

_OF_ANOTHER = saying(r"\d|[+&]|\b(?:plus|and|with|one|two|three|mould)\b")  # notes
_SINGLY = (Kind.FEEDER, Kind.FLOAT)
MOST_NAMES = 12  # that are read of one phrase; each takes a reading of its own
SURELY_EACH = 3  # as many as there are figures
_EACH = saying(r"\b(?:each|ea|apiece)\b")
_BY_FIGURES = ("several", "strain", "diameter", "mark")
_LISTED = saying(r"[,&+]|\s/\s|\band\b")
_SO_MANY_TUBS = saying(
    r"(?<!x)[,\s]+(?:[2-9]|two|three|four)\s+(?:tubs|pots|dispensers|packets|boxes)$"
)
_LONG_EACH = saying(r"\d\s*(?:m|yds?|ft)\s+each\b")
_IN_ONE_PACKET = saying(r"\b(?:pack|packet|pkt|pk|set|multi|pieces|pcs)")
_SO_MANY_NAMED = saying(
    r",\s*(?P<of>[2-5])\s+of(?=\s*,)|"
    r"\b(?P<many>[2-9]|two|three|four|five)\s+(?:[a-z]+\s+){0,3}"
    r"(?:feeders|bombs|leads|plummets|floats|wagglers|sticks)\b"
)


class _Names:
    """What names are read as, each by itself; one in doubt is taken in the way ``settled``."""

    def __init__(
        self,
        reads: Reads,
        settled: Callable[[Described | Question | None], Described | Question | None] | None,
    ) -> None:
        self._reads, self._settled = reads, settled
        self._known: dict[str, Described | None] = {}
        self.in_doubt: set[str] = set()

    def of(self, name: str) -> Described | None:
        """The thing that a name is, None where it is none, or too many were read."""
        if name not in self._known and len(self._known) >= MOST_NAMES:
            return None
        if name not in self._known:
            said = if_understood(name, self._reads)
            one = where_counted(said)
            if one is said and self._settled:
                one = self._settled(one)
            if one is not said:
                self.in_doubt.add(name)
            sure = isinstance(one, Described) and not is_own(one) and not has_number(one.note)
            self._known[name] = one if sure and isinstance(one, Described) else None
        return self._known[name]

    def is_one(self, name: str) -> bool:
        """Whether a name is a thing."""
        return self.of(name) is not None


def each_of_several(
    text: str, made: Question, reads: Reads, is_read_back: IsReadBack
) -> Question | None:
    """The question that names each of several things, None where what is asked names them as well."""
    names = _Names(reads, or_unmarked)
    things: tuple[Thing, ...] | None
    things = lot = lot_apart(text, names.is_one) or lot_apart(dictated(text), names.is_one)
    if lot is None:
        names = _Names(reads, _but_for_strange_words if says_of_each(text) else None)
        things = things_apart(text, names.is_one) or _unlike_by_commas(text, made, names)
    if things is None:
        return None
    costs = [bool(said and (said.pence_each or said.pence_all)) for _, said in things]
    if costs[-1] and not all(costs):
        return None  # of all, or of the last
    named = [names.of(name) for name, _ in things]
    things = things if lot else _one_of_each_in_so_many(text, things, named)
    if any(name in names.in_doubt for name, said in things if said is None):
        return None  # "2 1/2 oz bombs" may be two
    alike = len({one.kind for one in named if one}) == 1 and not lot
    known = made.readings if alike else ()
    every: list[Described] = []
    for alone, (_, said) in zip(named, things, strict=True):
        if alone and said and lot and alone.kind is Kind.WEIGHT:
            said = replace(said, some=bool(said.count))  # so many single shot
        one = alone and _with_more(alone, said, known)
        if one is None or not is_read_back(as_written(one)):
            return None
        costs_all = all(costs) or not any(costs) or bool(said and said.pence_each)
        packed = one.kind in (Kind.HOOK, Kind.HOOKLENGTH) or one.words_of("form") in (
            "shot",
            "styl",
        )
        if one.count == 1 and packed:
            one = replace(one, count=None)  # "one of each" is a packet
        every.append(as_written(one if costs_all else replace(one, price_cents=None)))
    alike_priced = all(costs) == any(costs)
    known_all = made.about == "several" and alike_priced and _names_each(made, every)
    if not lot and (known_all or _are_one(text, every)):
        return None
    asks = f'"{text}" names several things: one at a time.'
    known_each = all(any(says_the_same(one, other) for other in made.readings) for one in every)
    counted = all(said for _, said in things)
    if known_each and alike_priced and not lot and not counted:
        alike = {one.kind for one in made.readings} == {one.kind for one in every}
        every = [*made.readings] if alike else every  # "8s 9s & 10s" are three
    return replace(
        made, about="several", asks=asks, readings=tuple(every), answer_like="", sure=None
    )


def _unlike_by_commas(text: str, made: Question, names: _Names) -> tuple[Thing, ...] | None:
    """ "Pole bush 3.8 mm internal, dacron connector large": two sorts, that nothing but a comma joins."""
    if made.about != "sort":
        return None
    things = things_apart(text, names.is_one, by_commas=True)
    named = [names.of(name) for name, _ in things or ()]
    sorts = {one.words_of("sort") if one else "" for one in named}
    return things if len(sorts) == len(named) and "" not in sorts else None


def _but_for_strange_words(named: Described | Question | None) -> Described | Question | None:
    """The one thing that a name may be where only a strange word of it is a note: "trilobe leads 3 oz"."""
    if not isinstance(named, Question) or named.about != "word":
        return named
    known = [one for one in named.readings if not is_own(one)]
    return known[0] if len(known) == 1 else named


def _one_of_each_in_so_many(
    text: str, things: tuple[Thing, ...], named: Sequence[Described | None]
) -> tuple[Thing, ...]:
    """ "Bands 4 mm & 6 mm, 2 packets": as many as there are sizes are one of each."""
    *others, (_, said) = things
    if said is None or any(one for _, one in others) or _EACH.search(text):
        return things
    sorts = {one and (one.kind, *map(one.words_of, ("sort", "shape", "form"))) for one in named}
    if len(things) not in (said.packs, said.count) or said.pence_each or len(sorts) > 1:
        return things
    single = replace(said, packs=min(said.packs, 1), count=min(said.count, 1))
    each = replace(single, pence_all=round(said.pence_all / len(things)))
    return tuple((name, replace(each, name=name)) for name, _ in things)


def _with_more(
    alone: Described, said: Apart | None, known: Sequence[Described]
) -> Described | None:
    """The thing with its amounts, and with what a reading of the whole phrase knows more of it: of the things
    of one kind it may be said once, "30 g and 40 g cages, in line"."""
    many = (
        f"{said.count} " if said and said.count else "none"
    )  # "a bung, 1 each" is no bung of 1 mm
    of_it = (one for one in known if is_more_of(one, alone))
    more = next((one for one in of_it if not f"{one.words_of('size')} ".startswith(many)), None)
    if more is None or _OF_ANOTHER.search(more.note):
        more = replace(alone, figures=more.figures) if more else alone
    if said is None:
        return more
    return with_amounts(replace(alone, figures=more.figures, note=more.note), said)


def _are_one(text: str, every: Sequence[Described]) -> bool:
    """Whether one of the things is said twice, or is what all of them are: "plummets, 10 g and 20 g"; or a
    float and what it takes."""
    twice = any(
        is_more_of(other, one)
        for at, one in enumerate(every)
        for other in every
        if other is not one
    )
    loaded = {one.words_of("form") or one.kind for one in every} >= {"shot", Kind.FLOAT}
    added = "+" in text and all(one.kind is Kind.FLOAT for one in every)  # "3AAA + 2BB"
    return twice or loaded or added


def _is_one_piece(one: Described) -> bool:
    """Whether it is a single one of what comes in packets."""
    return one.count == 1 and one.pack is not None


def _names_each(made: Question, every: Sequence[Described]) -> bool:
    """Whether the question has each of the things already, and nothing that crosses two of them."""
    amounts = {(one.count, one.packs, held_in_each(one)) for one in made.readings}
    if len(amounts) == 1 and says_amounts(made.readings[0]) and len(made.readings) == len(every):
        return all(any(is_more_of(other, one) for other in made.readings) for one in every)
    crossed = any(not any(is_more_of(one, other) for other in every) for one in made.readings)
    return not crossed and all(
        any(
            says_the_same(one, other)
            or (not says_amounts(one) and not _is_one_piece(one) and is_more_of(other, one))
            for other in made.readings
        )
        for one in every
    )


def one_packet_of_each(text: str, made: Question) -> Question:
    """ "3 spools nylon 0.13, 0.15 and 0.17": as many as there are sizes are one of each."""
    every = [one for one in made.readings if not is_own(one)]
    packs = {one.packs for one in every}
    if made.about not in _BY_FIGURES or len(every) < 2 or packs != {len(every)}:
        return made
    if made.about == "mark" and not _SO_MANY_TUBS.search(text):
        return made
    keys = {key for one in every for key in one.figures}
    unlike = [key for key in keys if len({one.words_of(key) for one in every}) > 1]
    if len(unlike) != 1:
        return made
    numbers = {re.sub(r"\s*[a-z]+$", "", one.words_of(unlike[0])) for one in every}
    if len(numbers) != len(every):  # "2.6" may be pounds or kilograms
        return made
    listed = len(every) >= SURELY_EACH or _LISTED.search(text)
    if not listed or unlike[0] == "sort" or _EACH.search(_LONG_EACH.sub("", text)):
        return made
    asks = f'"{text}" names several things: one at a time.'
    singly = tuple(replace(one, packs=1) for one in every)
    return replace(made, about="several", asks=asks, readings=singly)


def one_of_each(text: str, made: Question) -> Question:
    """ "10 g / 15 g / 20 g, pack of 3" and "2 feeders, 15 g and 30 g": as many as there are figures are one
    of each."""
    parts = [one for one in made.readings if one.kind is Kind.PART and not is_own(one)]
    singly = [
        one
        for one in made.readings
        if one.kind in _SINGLY and UNMARKED not in map(one.words_of, ("mass", "mark"))
    ] or parts
    if len({one.words_of("sort") for one in singly}) > 1:
        return made
    amounts = {(one.count, one.packs, held_in_each(one)) for one in singly}
    many = len({tuple(map(one.words_of, ("mass", "mark", "size"))) for one in singly})
    if made.about != "several" or len(amounts) != 1 or many < 2 or _EACH.search(text):
        return made
    count, packs, held = amounts.pop()
    named = _SO_MANY_NAMED.search(text)
    in_one = held == many and (packs or 1) == 1 and not count and _IN_ONE_PACKET.search(text)
    twice = count and len(re.findall(rf"(?<![\w./]){count}(?!\s*(?:mm|g|oz)\b|[\w./])", text)) > 1
    before = named is not None and count_of(named["many"] or named["of"]) == many and not twice
    if not in_one and not (count == many and (before or many >= SURELY_EACH)):
        return made

    def alone(one: Described) -> Described:
        if one not in singly:
            return one
        cents = one.price_cents and round(one.price_cents / many)
        if one.kind is Kind.PART:
            return replace(one, count=1, packs=None, pack=usual_of(one), price_cents=cents)
        return replace(one, count=None, packs=None, pack=None, price_cents=cents)

    return replace(made, readings=tuple(map(alone, made.readings)))
