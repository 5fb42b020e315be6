"""How old line may become: light ages nylon, so that it is renewed by its age."""

import re
from datetime import date

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.sources import COMMON, Source

SEASON_MONTHS = 12  # from the beginning of one season to that of the next
MOST_MONTHS = 240
# Careful anglers renew hooklength line every season (common practice).
HOOKLENGTH_LINE_LASTS = "a season"
HOOKLENGTH_LINE_LASTS_BY: Source = COMMON

_COUNTED = ("a one an", "two", "three", "four", "five")  # from one on
_AGE = re.compile(r"^(?:(\d{1,3}|[a-z]+) )?(season|year|yr|month)s?$")


def read_age_months(text: str) -> int | None:
    """An age in months as it is spoken; None where there is no limit ("never").

    Range: 1 month to 20 years; a season is twelve months. Raises AskedWronglyError for anything else.

    >>> read_age_months("a season"), read_age_months("18 months"), read_age_months("two years")
    (12, 18, 24)
    >>> read_age_months("never") is None
    True
    """
    plain = " ".join(text.lower().split())
    if plain in ("never", "none", "no limit"):
        return None
    found = _AGE.match(plain)
    number, unit = (found[1] or "one", found[2]) if found else ("", "")
    if number.isdecimal():
        count = int(number)
    else:
        count = next((n for n, words in enumerate(_COUNTED, 1) if number in words.split()), 0)
    months = count * {"season": SEASON_MONTHS, "month": 1}.get(unit, 12)
    if not 1 <= months <= MOST_MONTHS:
        raise AskedWronglyError(
            f'"{text}" is no age for line.',
            right='Write it like "a season", "18 months", "2 years", or "never".',
        )
    return months


def months_old(since: date, today: date) -> int:
    """Whole months from one day to another: a month is full on the same day of the month.

    Range: ``today`` not before ``since``, else 0.

    >>> months_old(date(2025, 3, 5), date(2026, 3, 4)), months_old(date(2025, 3, 5), date(2026, 3, 5))
    (11, 12)
    """
    months = 12 * (today.year - since.year) + today.month - since.month
    return max(months - (today.day < since.day), 0)


def write_months(months: int) -> str:
    """An age in words, in years where it is whole years.

    >>> write_months(24), write_months(20), write_months(1)
    ('2 years', '20 months', '1 month')
    """
    count, unit = (months // 12, "year") if months and months % 12 == 0 else (months, "month")
    return f"{count} {unit}{'' if count == 1 else 's'}"
