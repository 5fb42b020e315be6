"""Dates as typed: ISO 8601, "today", "yesterday"."""

from datetime import date, timedelta

from tacklebox.errors import AskedWronglyError


def read_past_date(text: str, today: date) -> date:
    """The day on which something was done. Raises AskedWronglyError for no date or a coming one.

    >>> read_past_date("yesterday", date(2026, 3, 5)).isoformat()
    '2026-03-04'
    """
    plain = text.strip().lower()
    if plain in ("", "today"):
        return today
    if plain == "yesterday":
        return today - timedelta(days=1)
    try:
        day = date.fromisoformat(plain)
    except ValueError:
        raise AskedWronglyError(
            f'"{text}" is no date.', right='Write it like "2026-03-05", or "today".'
        ) from None
    if day > today:
        raise AskedWronglyError(f"{day} has not come yet.", right="Name today or an earlier day.")
    if day.year < 1950:
        raise AskedWronglyError(f"{day} is too long ago.", right="Is the year mistyped?")
    return day
