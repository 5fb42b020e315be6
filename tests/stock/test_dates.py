"""Dates as anglers say them, and what is none."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.dates import read_day, read_past_date, write_day

TODAY = date(2026, 3, 5)  # a Thursday


@pytest.mark.parametrize(
    ("said", "day"),
    [
        ("2026-06-20", "2026-06-20"),
        (" 2026-6-2 ", "2026-06-02"),
        ("20/6/2026", "2026-06-20"),
        ("05.03.2026", "2026-03-05"),
        ("20 June 2026", "2026-06-20"),
        ("20th of June 2026", "2026-06-20"),
        ("Sat 20 Jun 2026", "2026-06-20"),
        ("Saturday, 20 june", "2026-06-20"),
        ("Sunday 29 November", "2026-11-29"),  # in 2025 it was a Saturday
        ("29 November", "2025-11-29"),  # nearer than that of 2026
        ("1 January", "2026-01-01"),
        ("29 February", "2024-02-29"),
        ("1st Sept.", "2026-09-01"),
        ("3 may", "2026-05-03"),
        ("today", "2026-03-05"),
        ("Yesterday", "2026-03-04"),
        ("tomorrow", "2026-03-06"),
        ("Sunday", "2026-03-08"),
        ("on wed", "2026-03-11"),
        ("last Sunday", "2026-03-01"),
    ],
)
def test_what_is_a_day(said: str, day: str) -> None:
    today = date(2025, 3, 5) if "February" in said else TODAY
    assert read_day(said, today).isoformat() == day


@pytest.mark.parametrize(
    "said",
    ["2026-W10-4", "20260620", "soon", "", "2026-02-30", "31 June", "20 J", "20 Ju", "6/20/2026",
     "20-06-2026", "20/6/26", "2026-06-20T10:00", "٢٠٢٦-٠٦-٢٠", "x" * 5000, "0000-01-01"],
)  # fmt: skip
def test_what_is_none(said: str) -> None:
    with pytest.raises(AskedWronglyError, match="is no date") as refused:
        read_day(said, TODAY)
    assert len(str(refused.value)) < 120


def test_a_weekday_must_be_right() -> None:
    with pytest.raises(AskedWronglyError, match="2026-06-20 is a Saturday"):
        read_day("Sunday 20 June 2026", TODAY)


def test_in_a_file_a_day_has_its_year() -> None:
    with pytest.raises(AskedWronglyError, match="has no year"):
        read_day("20 June")
    for said in ("tomorrow", "32 May", "30 February"):
        with pytest.raises(AskedWronglyError, match="is no date"):
            read_day(said)


def test_what_was_done_was_not_done_tomorrow() -> None:
    assert read_past_date("", TODAY) == TODAY
    with pytest.raises(AskedWronglyError, match="has not come yet"):
        read_past_date("2026-03-06", TODAY)
    with pytest.raises(AskedWronglyError, match="too long ago"):
        read_past_date("1949-12-31", TODAY)


@given(st.dates(date(1950, 1, 1), date(2100, 1, 1)), st.integers(-150, 150))
def test_what_is_written_is_read(day: date, apart: int) -> None:
    assert read_day(write_day(day, with_year=True)) == day
    assert read_day(write_day(day), day + timedelta(days=apart)) == day
