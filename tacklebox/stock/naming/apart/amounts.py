"""How many of a thing, in how many packets and for how much, taken off the ends of what is said of it, so
that its name is left: "18s spade, 2 pkts of 8 @ £1.20" is "18s spade" and two packets of eight.

A clause ends at a comma, a bracket or a dash, and may end in several amounts. What may be a size as well as
an amount is left alone ("2 packets of 18 hooks", "box 4"): then nothing is said of the amount at all.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from tacklebox.stock.naming.apart.ways import AT_THE_END, AT_THE_START
from tacklebox.stock.naming.numbers import count_of

_CLAUSE = re.compile(r"((?<!\d),\s*|,(?!\d)\s*|\s*[;()]\s*|\s+[-–]\s+)")
_IN_BRACKETS = re.compile(r"\(\s*(?:x\s*)?(\d{1,2})\s*\)")
_NOTHING = re.compile(r"\(\s*\)|,(?=\s*(?:[,;)]|$))")  # left where a clause was all amount
_MOST_CLAUSES = 8
_FEW = 4  # packets: "3 pack" may be three packs or a pack of three
_NO_SIZE = 26  # pieces or more: hooks are no smaller


@dataclass(frozen=True, slots=True)
class Apart:
    """A name and what was said of how many there are: pieces, packets, pieces in each; pence for each or
    for all. ``some``: that many are left, or loose."""

    name: str
    count: int = 0
    packs: int = 0
    held: int = 0
    pence_each: int = 0
    pence_all: int = 0
    note: str = ""
    some: bool = False


class _NotOneError(Exception):
    """Two amounts of one sort that do not agree, or one that may be another."""


class _Said:
    """All that was said of amounts, each under its name."""

    def __init__(self) -> None:
        self._every: dict[str, list[str]] = {}

    def take(self, found: Mapping[str, str | None]) -> None:
        for key, said in found.items():
            if said:
                self._every.setdefault(key, []).append(said)

    def words(self, key: str) -> list[str]:
        return self._every.get(key, [])

    def has(self, *keys: str) -> bool:
        return any(key in self._every for key in keys)

    def number(self, *keys: str) -> int:
        """The one number that was said under the names, 0 for none."""
        numbers = [count_of(said) for key in keys for said in self.words(key)]
        if 0 in numbers:
            raise _NotOneError
        return _one(numbers)

    def pence(self, key: str) -> int:
        """The one price that was said under the name, 0 for none."""
        return _one([pence_of(said) for said in self.words(key)])


def amounts_apart(text: str) -> Apart | None:
    """The name and the amounts, None where none is said or where they do not agree.

    >>> amounts_apart("18s barbless, 2 pkts of 8 @ £1.20")
    Apart(name='18s barbless', count=0, packs=2, held=8, pence_each=120, pence_all=0, note='', some=False)
    >>> amounts_apart("3AAA waggler and 2 spares").count, amounts_apart("olivettes pair 4.40").pence_all
    (3, 440)
    >>> amounts_apart("2 packets of 18 hooks"), amounts_apart("swivels 3 pack"), amounts_apart("bomb 1 oz")
    (None, None, None)
    """
    if "note:" in text.lower():
        return None
    said = _Said()
    text = _IN_BRACKETS.sub(r", x\1, ", text).strip(" ,")
    for pattern in AT_THE_START:
        if found := pattern.match(text):
            said.take(found.groupdict())
            text = text[found.end() :]
            break
    clauses = _CLAUSE.split(text)
    if len(clauses) > 2 * _MOST_CLAUSES:
        return None
    clauses[::2] = [_without_amounts(clause, said) for clause in clauses[::2]]
    name = _NOTHING.sub(" ", "".join(clauses)).strip(" ,;-–")
    if not re.search("[a-z]", name, re.IGNORECASE):
        return None
    try:
        made = _with_price(_with_numbers(Apart(name), said), said)
    except _NotOneError:
        return None
    return made if made != Apart(name) else None


def _without_amounts(clause: str, said: _Said) -> str:
    clause = clause.strip()
    while every := [found for at_end in AT_THE_END if (found := at_end.search(clause))]:
        found = min(every, key=lambda one: one.start())
        said.take(found.groupdict())
        clause = clause[: found.start()].rstrip(" -–:@")
    return clause


def _with_numbers(made: Apart, said: _Said) -> Apart:
    packs = said.number("packs") or said.has("packet")
    held, times = _held(said), _times(said)
    count = said.number("count", "some")
    if count and times:
        raise _NotOneError
    if times in (packs * held, packs):  # "x 50, 5 bags of 10", "3 packets, 3 for £2"
        times = 0
    if times and held and not packs:
        packs, times = times, 0
    if times and said.has("by_packet") and not packs and not held:  # "£2.20 a packet, got 4"
        packs, times = times, 0
    count = count or times
    some = said.has("some")
    if (count and packs) or (count and held and not some):
        raise _NotOneError
    if more := said.number("more"):  # "a packet of ten and 4 loose"
        if count or not held:
            raise _NotOneError
        count, packs = (packs or 1) * held + more, 0
    if spare := said.number("spare"):
        if packs or held:
            raise _NotOneError
        count = (count or 1) + spare
    notes = said.words("note")
    if said.has("perhaps"):  # "box 2, x3" are three in that box
        if not count:
            raise _NotOneError
        notes = [*notes, *said.words("perhaps")]
    return replace(made, count=count, packs=int(packs), held=held, note=", ".join(notes), some=some)


def _held(said: _Said) -> int:
    either, large = said.number("either"), said.number("large")
    if 0 < either <= _FEW or 0 < large < _NO_SIZE or (said.has("held") and said.has("tens")):
        raise _NotOneError
    return _one([one for one in (said.number("held"), either, large) if one])


def _times(said: _Said) -> int:
    times = [2] if said.has("pair", "both") else []
    if not said.has("packs", "times", "count", "some", "spare"):
        times += [2 if of.lower() == "both" else count_of(of) for of in said.words("of")]
    return _one([*times, *filter(None, [said.number("times")])])


def _with_price(made: Apart, said: _Said) -> Apart:
    many = made.packs or (1 if made.held else made.count) or 1
    each, of_all, either = said.pence("each"), said.pence("all"), said.pence("money")
    if loose := said.pence("loose"):  # "packet of 10, 1.80"
        if either or not (made.packs or made.held):
            raise _NotOneError
        either = loose
    if either and (many > 1 or each or of_all):
        raise _NotOneError
    each = each or either
    if each and of_all and each * many != of_all:
        raise _NotOneError
    return replace(made, pence_each=each, pence_all=0 if each else of_all)


def _one(numbers: list[int]) -> int:
    """The number, 0 for none."""
    if len(set(numbers)) > 1:
        raise _NotOneError
    return next(iter(numbers), 0)


def pence_of(said: str) -> int:
    """ "£1.20", "75p", "2.40", "three quid" in pence."""
    if said.endswith("quid"):
        return 100 * count_of(said.removesuffix("quid").strip())
    if said.endswith("p"):
        return int(said[:-1])
    return round(100 * float(said.lstrip("£ ")))
