"""The numbers of clauses that may say how much there is of a thing, and the thing with so many of it."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from tacklebox.stock.naming.clauses.cutting import Clause
from tacklebox.stock.naming.clauses.taking import Told
from tacklebox.stock.naming.described import Described, Reads, if_understood, pieces
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.turns import LENGTH, MANY, PACKETS, SPOKEN, saying

MOST_NUMBERS = 4  # that are offered
MOST_SPOOLS = 20  # that a bare number may be
_HOLDS = saying(
    rf"\b(?:{PACKETS}|wires?|strips?)\s+of\s+(?P<of>{MANY})|\b(?P<in>{MANY})\s+(?:in|per|to|on|(?=an?\s))\s+(?:(?:an?|the|each|every|one)\s+)?"
    rf"(?:{PACKETS}|it|there|each|them|wire|strip)\b|\beach\s+(?:has|holds)\s+(?P<each>{MANY})"
)
_IN_IT = saying(r"\b(?:it|there|that)$")
_PACKETS = saying(
    rf"\b(?P<many>{MANY})\s+(?:(?!(?:of|an?|to|in|per|the|on)\b)[a-z]+\s+)?{PACKETS}\b"
)
_LONG = saying(rf"\b(?:{LENGTH}|{SPOKEN}\s+(?:metres?|yards?))\b")
_SHARE = saying(
    r"\b(?P<share>half|(?:an?\s+|one\s+)?(?:third|quarter)|(?:two|2)\s+thirds|(?:three|3)\s+quarters|\d/\d)\b(?P<used>\s+(?:gone|used))?"
)
_ONLY = saying(
    r"\b(?:only|just)\s+(?:the\s+)?(?:one|1)\b|\b(?:one|1)\s+(?:left|now|spare)\b"
)  # else "one" is one of them
_MONEY = r"\s*(?:quid|pence|pounds?|tenner|fiver|p)\b"
_MANY = saying(rf"(?<!£)\b(?P<many>{MANY})(?!{_MONEY}|\s+(?:times?|years?|weeks?|days?|months?)\b)")


@dataclass(frozen=True, slots=True)
class Number:
    """A number that may say how much there is: so many, or words of how much of a spool is left.

    ``gone``: it is one that was lost, so that it says nothing alone.
    """

    clause: Clause
    many: int = 0
    left: str = ""
    gone: bool = False


def numbers_in(clause: Clause) -> Iterator[Number]:
    """The numbers of a clause that may say how much there is."""
    rest = _PACKETS.sub(" ", clause.text)
    for found in _holding(rest, clause):
        rest = rest.replace(found.group(), " ", 1)
    for long in _LONG.finditer(rest):
        length, _, unit = long.group().rpartition(" ")
        so_long = f"{count_of(length)} {unit}" if count_of(length) else long.group()
        yield Number(clause, left=f"{so_long} left")
        if clause.is_of_lost:
            yield Number(clause, left=f"used {so_long}")
    for share in _SHARE.finditer(rest):
        yield Number(clause, left=f"{share['share']} {'used' if share['used'] else 'left'}")
    rest = _SHARE.sub(" ", _LONG.sub(" ", rest))
    for found in _MANY.finditer(rest):
        many, gone = count_of(found["many"]), clause.is_of_lost
        if many > 1 or (many and (gone or _ONLY.search(clause.text))):
            yield Number(clause, many, gone=gone and many == 1)


def _held(clauses: Sequence[Clause], pattern: re.Pattern[str]) -> int:
    """What a packet holds, or how many packets there are, by the last clause that says so."""
    said = [
        found
        for one in clauses
        for found in (_holding(one.text, one) if pattern is _HOLDS else pattern.finditer(one.text))
    ]
    numbers = [count_of(next(filter(None, found.groups()))) for found in said]
    return next((number for number in reversed(numbers) if number > 1), 0)


def _holding(text: str, clause: Clause) -> list[re.Match[str]]:
    """Where it says what a packet holds; of one packet of several "6 in it" are left."""
    found = _HOLDS.finditer(text)
    return [one for one in found if not (clause.is_of_one and _IN_IT.search(one.group()))]


def counted(taken: Told, told: Described, reads: Reads) -> list[tuple[Described, Clause]]:
    """The thing with so many as the numbers may say, the last first, each with its clause."""
    base = taken.first
    if base is None:
        return []
    clauses = sorted([*taken.amounts, *taken.over], key=lambda clause: clause.start)
    numbers = [number for clause in clauses for number in numbers_in(clause)]
    held, packets = (
        _held(clauses, _HOLDS),
        base.packs or _held(clauses, _PACKETS) or told.packs or 0,
    )
    if not base.measured and (held or told.pack):
        base = replace(base, pack=pieces(held) if held else told.pack)
    sums = _sums(base, told.count or 0, numbers, packets)
    found = [(replace(base, packs=None, count=many), clause) for many, clause in sums]
    said = base.pack_size if base.pack and not base.pack.because and not base.measured else None
    offered = [one for one in reversed(numbers) if not one.gone and one.many != said]
    for number in offered[:MOST_NUMBERS]:
        if number.left or base.measured:
            unit = base.pack.words.split()[-1] if base.pack else "m"
            there = number.left or f"{number.many} {unit} left"
            more = if_understood(f"{taken.core}, {there}", reads)
            found += [(one, number.clause) for one in more.readings[:1]] if more else []
        if number.many and base.measured and number.many <= MOST_SPOOLS:
            found.append((replace(base, packs=number.many), number.clause))
        elif number.many and not base.measured:
            found.append((replace(base, packs=None, count=number.many), number.clause))
            if (base.packs or 1) > 1 and number.many <= MOST_SPOOLS:
                found.append((replace(base, packs=number.many), number.clause))
    whole = [one for one in clauses if _HOLDS.search(one.text) or _PACKETS.search(one.text)]
    if whole and not base.measured:
        found.append((replace(base, packs=packets or None, count=None), whole[-1]))
    return found


def _sums(
    base: Described, had: int, numbers: Sequence[Number], packets: int
) -> Iterator[tuple[int, Clause]]:
    """How many are left of what there was, "made ten, gave three away", or lie in packets and beside them."""
    many = [number for number in numbers if number.many]
    if base.measured or not many:
        return
    last = many[-1]
    held = round(float(base.pack.value)) if base.pack and not base.pack.because else 0
    if held:
        others = [number for number in many if number.many not in (held, packets)]
        for number in others[-1:]:
            if (
                packets < 2 and number.many < held and number.clause.is_of_one
            ):  # "and another with six"
                yield held + number.many, number.clause
            elif packets < 2 and number.many < held and number.clause.is_of_lost:
                yield held - number.many, number.clause
            elif packets > 1 and number.many < held:
                of_one = packets - 1 if number.clause.is_of_one else packets
                yield of_one * held + number.many, number.clause
                yield packets * held - number.many, number.clause
        return
    first = had or many[0].many
    gone = sum(number.many for number in (many[1:] if many[0].many == first else many))
    if 0 < gone < first and not last.clause.text.lower().startswith("so "):
        yield first - gone, last.clause
