"""Dates as anglers say them: "2026-03-05", "5 March", "Sunday 29 November", "5/3/2026", "yesterday"."""

import re
from collections.abc import Iterable
from datetime import date, timedelta

from tacklebox.errors import AskedWronglyError

MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_LEAP = 2024  # which has every day
_FROM_TODAY = {"yesterday": -1, "today": 0, "tomorrow": 1}
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})", re.ASCII)
_BRITISH = re.compile(r"(\d{1,2})[/.](\d{1,2})[/.](\d{4})", re.ASCII)
_WEEKDAY = re.compile(r"(?:on |this |last )?([a-z]+)\.?", re.ASCII)
_SPOKEN = re.compile(
    r"(?:([a-z]+),? )?(\d{1,2})(?:st|nd|rd|th)?(?: of)? ([a-z]+)\.?,?(?: (\d{4}))?", re.ASCII
)


def read_day(text: str, today: date | None = None, *, past: bool = False) -> date:
    """A day, past or coming.

    Where no year is said it is the nearest such day, the last one where it is ``past``, and of that
    weekday where one is said; a weekday alone is the coming one, or the last one. That, and "today" and
    its like, need to know ``today``. Raises AskedWronglyError for what is no day, for a weekday that it
    does not fall on, and for today's alone, which may be that of next week.

    >>> read_day("Sunday 29 November", date(2026, 3, 5)).isoformat()
    '2026-11-29'
    >>> read_day("5/3/2026").isoformat()
    '2026-03-05'
    """
    plain = " ".join(text.lower().split())
    if today is not None and plain in _FROM_TODAY:
        return today + timedelta(days=_FROM_TODAY[plain])
    try:
        if today is not None and (found := _WEEKDAY.fullmatch(plain)):
            return _weekday(found, text, today, past)
        if found := _ISO.fullmatch(plain):
            return date(*map(int, found.groups()))
        if found := _BRITISH.fullmatch(plain):
            return date(*map(int, reversed(found.groups())))
        if found := _SPOKEN.fullmatch(plain):
            return _spoken(found, text, today, past)
    except ValueError:
        pass  # no such day in the calendar
    short = text if len(text) <= 40 else f"{text[:40]}…"
    raise AskedWronglyError(f'"{short}" is no date.', right='Write it like "2026-06-20".')


def _spoken(found: re.Match[str], text: str, today: date | None, past: bool) -> date:
    """As it was spoken. Raises ValueError where that is no day."""
    weekday, day, month, year = found.groups()
    if not year and today is None and _in_years([_LEAP], _number_of(month, MONTHS), int(day)):
        raise AskedWronglyError(f'"{text}" has no year.', right='Write it like "2026-06-20".')
    near = today or date.min
    years = [int(year)] if year else [near.year + by for by in (-1, 0, 1)]
    days = _in_years(years, _number_of(month, MONTHS), int(day))
    if past and not year:
        days = [one for one in days if one <= near]
    falls = [one for one in days if not weekday or _falls_on(one, weekday)]
    nearest = min(falls or days, key=lambda one: abs(one - near))
    if not falls:
        raise AskedWronglyError(
            f"{nearest} is a {WEEKDAYS[nearest.weekday()].capitalize()}.",
            right="Say the day again, without its weekday perhaps.",
        )
    return nearest


def _weekday(found: re.Match[str], text: str, today: date, past: bool) -> date:
    """The coming such day, the last one where it is ``past``. Raises ValueError where that is no day."""
    ahead = (_number_of(found[1], WEEKDAYS) - today.isoweekday()) % 7
    if not ahead:
        raise AskedWronglyError(
            f'"{text}" may be today or a week off.', right='Say "today", or the date.'
        )
    return today + timedelta(days=ahead - 7 if past or found[0].startswith("last") else ahead)


def _falls_on(day: date, weekday: str) -> bool:
    return _number_of(weekday, WEEKDAYS) == day.isoweekday()


def _number_of(word: str, words: tuple[str, ...]) -> int:
    """The number of a month or weekday, by its whole name or its first letters."""
    found = [n for n, name in enumerate(words, 1) if len(word) >= 3 and name.startswith(word)]
    if len(found) != 1:
        raise ValueError
    return found[0]


def _in_years(years: Iterable[int], month: int, day: int) -> list[date]:
    found = []
    for year in years:
        try:
            found.append(date(year, month, day))
        except ValueError:  # 29 February
            continue
    return found


def read_past_date(text: str, today: date) -> date:
    """The day on which something was done, today where nothing is said.

    Raises AskedWronglyError as ``read_day``, and for a day that has not come yet or is long ago.

    >>> read_past_date("yesterday", date(2026, 3, 5)).isoformat()
    '2026-03-04'
    >>> read_past_date("5 March", date(2026, 11, 26)).isoformat()
    '2026-03-05'
    """
    day = read_day(text, today, past=True) if text.strip() else today
    if day > today:
        raise AskedWronglyError(
            f"{write_day(day, with_year=True)} has not come yet.",
            right="Name today or an earlier day.",
        )
    if day.year < 1950:
        raise AskedWronglyError(
            f"{write_day(day, with_year=True)} is too long ago.", right="Is the year mistyped?"
        )
    return day


def write_day(day: date, *, with_year: bool = False, short: bool = False) -> str:
    """A day as it is spoken, ``short`` for a table; ``read_day`` reads it.

    >>> write_day(date(2026, 11, 29)), write_day(date(2026, 3, 5), with_year=True)
    ('Sunday 29 November', 'Thursday 5 March 2026')
    >>> write_day(date(2026, 11, 29), with_year=True, short=True)
    'Sun 29 Nov 2026'
    """
    words = (WEEKDAYS[day.weekday()], MONTHS[day.month - 1])
    weekday, month = ((word[:3] if short else word).capitalize() for word in words)
    return f"{weekday} {day.day} {month}{f' {day.year}' if with_year else ''}"
