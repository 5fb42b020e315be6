"""The clock of the phone that a record was tapped on: what is asked of it, and how it is put."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.matches.files.match import Match
    from tacklebox.matches.water.clock import ClockBreak
    from tacklebox.matches.water.record import Record, Tap

CLOCKS = (
    "-1 h",
    "+1 h",
    "-2 h",
    "+2 h",
    "-1 d",
    "+1 d",
)  # a clock that was not put for the season, or the day
BEFORE, FROM = "before", "from"  # the taps before a line, or those from it on, are put
MINUTE, HOUR = timedelta(minutes=1), timedelta(hours=1)
_SHIFT = re.compile(rf"(?:{BEFORE} |{FROM} )?([+-]\d{{1,4}}) (min|h|d)", re.ASCII)


@dataclass(frozen=True)
class ClockAsked:
    """Where the clock was put between two taps, by the later one's line, and by what it may be put right."""

    line: int
    words: str
    choices: tuple[str, ...]


@dataclass(frozen=True)
class Clocked:
    """A record by the clock that was meant; ``asks`` is what is to be asked of all of it, with its
    ``choices``, ``breaks`` what is to be asked of lines."""

    record: "Record"
    breaks: tuple[ClockAsked, ...] = ()
    asks: str = ""
    choices: tuple[str, ...] = CLOCKS


def clocked(
    record: "Record", match: "Match", clock: str, at: Mapping[int, str], said: Mapping[int, str]
) -> Clocked:
    """The record by the clock that was meant. ``at`` says line by line how the clock is put where it was
    put there, ``said`` are lines that he said something of, which are not asked about.

    Raises AskedWronglyError for what is none of the choices.
    """
    from tacklebox.matches.water.clock import clock_breaks, clock_doubt, put_clock
    from tacklebox.matches.water.record import AS_IT_IS, write_line

    as_tapped = {tap.line: write_line(tap) for tap in record.taps}
    breaks = []
    for found in clock_breaks(record.taps):
        asked = _asked(found)
        chosen = at.get(found.at.line, AS_IT_IS if clock == AS_IT_IS else "")
        if not chosen:
            breaks.append(asked)
        elif chosen not in asked.choices:
            raise _no_clock(chosen, asked.choices)
        elif chosen != AS_IT_IS:
            number = found.at.number
            numbers = range(number) if chosen.startswith(BEFORE) else range(number, 10**7)
            record = put_clock(record, _put_by(chosen), numbers)
    if breaks:
        return Clocked(record, tuple(breaks))
    begins, ends = _hours(match)
    doubt = clock_doubt(record, begins, ends)
    if doubt is None or doubt.shift is None:
        if clock or not doubt:
            by = timedelta() if clock in ("", AS_IT_IS) else _put_by(clock)
            return Clocked(put_clock(record, by))
        return Clocked(_with_doubts(record, doubt.outside, match, said, as_tapped))
    choices = (shift_words(doubt.shift), AS_IT_IS)
    if not clock:
        many = len(doubt.outside)
        asks = (
            f"{many} tap{' is' if many == 1 else 's are'} outside the match's hours, {match.begins} to "
            f"{match.ends}."
        )
        return Clocked(record, (), asks, choices)
    if clock not in (*choices, *CLOCKS):
        raise _no_clock(clock, choices)
    return Clocked(record if clock == AS_IT_IS else put_clock(record, _put_by(clock)))


def _asked(found: "ClockBreak") -> ClockAsked:
    """What is asked where the clock was put: which taps are put right, and by how much."""
    before, at = (f"{tap.at:%H:%M}" for tap in (found.before, found.at))
    if found.ran_s is None:
        words = f"the clock went back here: {at} comes after {before}."
    else:
        ran = f"{round(found.ran_s / 60)} min"
        way = "back" if found.by < timedelta() else "on, or the phone slept for as long"
        words = f"from {before} to {at} the page counted {ran}: the clock was put {way}."
    choices = (f"{BEFORE} {shift_words(found.by)}", f"{FROM} {shift_words(-found.by)}")
    slept = found.by > timedelta()
    return ClockAsked(
        found.at.line, words, (_as_it_is(), *choices) if slept else (*choices, _as_it_is())
    )


def _as_it_is() -> str:
    from tacklebox.matches.water.record import AS_IT_IS

    return AS_IT_IS


def _hours(match: "Match") -> tuple[datetime, datetime]:
    day = datetime.combine(match.day, datetime.min.time())
    begins, ends = (
        day + timedelta(hours=int(said[:2]), minutes=int(said[3:]))
        for said in (match.begins, match.ends)
    )
    return begins, ends


def _put_by(chosen: str) -> timedelta:
    """By how much a choice puts the clock: "-1 h", "before -17 min"."""
    found = _SHIFT.fullmatch(chosen)
    if not found:
        raise _no_clock(chosen, CLOCKS)
    return int(found[1]) * {"d": timedelta(days=1), "h": HOUR, "min": MINUTE}[found[2]]


def shift_words(shift: timedelta) -> str:
    """By how much the clock is put: "+1 d", "-1 h", "+17 min"."""
    for unit, each in (("d", timedelta(days=1)), ("h", HOUR)):
        if shift and shift % each == timedelta():
            return f"{shift // each:+d} {unit}"
    return f"{round(shift / MINUTE):+d} min"


def _with_doubts(
    record: "Record", outside: "Sequence[Tap]", match: "Match", said: Mapping[int, str],
    as_tapped: Mapping[int, str],
) -> "Record":  # fmt: skip
    """The record with a doubt for each tap that cannot be at its time, where nobody said that it was."""
    from tacklebox.matches.water.record import DoubtfulLine

    doubts = [
        DoubtfulLine(
            tap.line,
            as_tapped[tap.line],
            f"{tap.at:%H:%M}{'' if tap.at.date() == match.day else f' on {tap.at:%Y-%m-%d}'} is outside the "
            f"match's hours, {match.begins} to {match.ends}.",
            'Say when it was, or "as it is".',
        )
        for tap in outside
        if tap.line not in said
    ]
    return replace(record, faults=(*record.faults, *doubts))


def _no_clock(clock: str, choices: Sequence[str]) -> AskedWronglyError:
    return AskedWronglyError(
        f'"{clock}" is none of what the clock can be.',
        field="clock",
        right=f"There are {', '.join(choices)}.",
    )
