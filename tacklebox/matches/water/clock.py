"""Whether the clock of the phone was right: by the match's hours, and by the count that the page keeps
of its own, which no change of the clock moves.

A phone that sleeps may stop that count, so a clock that was put on is asked about only where it is by whole
hours; one that was put back is certain, since no sleep does that.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from itertools import pairwise

from tacklebox.matches.water.record import Did, Record, Tap

HOUR, MINUTE = timedelta(hours=1), timedelta(minutes=1)
SLACK = timedelta(minutes=1)  # a network puts clocks by so much, and nobody asks (our choice)
NEARLY = timedelta(seconds=90)  # a whole hour (our choice)
BEFORE, AFTER = timedelta(hours=2), timedelta(hours=3)  # what is tapped while he sets up, and packs
WRITTEN = timedelta(
    days=1
)  # what is only written down: the bait the evening before, the weight at home
PLAYED = timedelta(minutes=20)  # a fish that was on at the whistle is landed by then (our choice)
HOURS = (0, 1, -1, 2, -2, 12, -12)  # a clock that was not put for the season, or half a day off
_OPEN = re.compile(r"(?P<opening>\w{1,12}) (?P<since>\d{1,6}) s", re.ASCII)


@dataclass(frozen=True)
class ClockBreak:
    """The clock was put between two taps, ``at`` and the one ``before`` it: by so much on, or back where
    ``by`` is below nothing. ``ran_s`` is what the page counted between them, None where it did not; ``by`` is
    then by how many hours at least."""

    before: Tap
    at: Tap
    by: timedelta
    ran_s: int | None


def clock_breaks(taps: Sequence[Tap]) -> tuple[ClockBreak, ...]:
    """Where the clock was put, from tap to tap as they are numbered.

    >>> ten = datetime(2026, 11, 29, 10)
    >>> taps = [Tap(n, ten, Did.CAST, since_open=f"k3f9 {s} s") for n, s in ((1, 60), (2, 3660))]
    >>> (found,) = clock_breaks(taps)  # an hour went by, and the clock stands where it stood
    >>> str(-found.by)
    '1:00:00'
    """
    found = []
    for before, at in pairwise(taps):
        ran_s = _ran(before, at)
        by = at.at - before.at - timedelta(seconds=ran_s or 0)
        if ran_s is None and by < -SLACK:
            found.append(ClockBreak(before, at, by // HOUR * HOUR, None))
        elif ran_s is not None and by < -SLACK:
            found.append(ClockBreak(before, at, round(by / MINUTE) * MINUTE, ran_s))
        elif ran_s is not None and by >= HOUR - NEARLY:
            near = round(by / HOUR) * HOUR
            if abs(by - near) <= NEARLY:
                found.append(ClockBreak(before, at, near, ran_s))
    return tuple(found)


def _ran(before: Tap, at: Tap) -> int | None:
    """The seconds from tap to tap by the page's own count; None where it was opened anew between them."""
    first, second = _OPEN.fullmatch(before.since_open), _OPEN.fullmatch(at.since_open)
    if not (first and second) or first["opening"] != second["opening"]:
        return None
    ran_s = int(second["since"]) - int(first["since"])
    return ran_s if ran_s >= 0 else None


def put_clock(record: Record, by: timedelta, numbers: range = range(10**7)) -> Record:
    """The record with the clock of those taps put by so much."""
    taps = (replace(t, at=t.at + by) if t.number in numbers else t for t in record.taps)
    return replace(record, taps=tuple(taps))


@dataclass(frozen=True)
class ClockDoubt:
    """Taps that fall outside the match's hours, and by how much the clock would have to be put
    so that all fall within; ``shift`` None where no whole hour or day does it."""

    outside: tuple[Tap, ...]
    shift: timedelta | None


def clock_doubt(record: Record, begins: datetime, ends: datetime) -> ClockDoubt | None:
    """Whether the phone's clock was wrong: fish or casts stand outside the match, what is written down
    more than a day from it, other taps more than two hours before it or three after it.
    """

    def outside(shift: timedelta) -> list[Tap]:
        return [tap for tap in record.taps if not _can_be_at(tap, tap.at + shift, begins, ends)]

    found = outside(timedelta())
    if not found:
        return None
    middle = sorted(tap.at for tap in record.taps)[len(record.taps) // 2]
    days = dict.fromkeys((0, -1, 1, (begins.date() - middle.date()).days))
    shifts = (timedelta(days=day, hours=hours) for day in days for hours in HOURS)
    return ClockDoubt(tuple(found), next((shift for shift in shifts if not outside(shift)), None))


def _can_be_at(tap: Tap, at: datetime, begins: datetime, ends: datetime) -> bool:
    if tap.did in (Did.FISH, Did.CAST):
        return begins <= at <= ends + PLAYED
    if tap.did in (Did.DAY, Did.NOTE):
        return begins - WRITTEN <= at <= ends + WRITTEN
    return begins - BEFORE <= at <= ends + AFTER
