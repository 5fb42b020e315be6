"""Ages of line as they are spoken, and how old it is on a day."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.ageing import months_old, read_age_months, write_months

DAYS = st.dates(date(2000, 1, 1), date(2040, 12, 31))


@pytest.mark.parametrize(
    ("said", "months"),
    [
        ("a season", 12), ("one season", 12), ("2 seasons", 24), ("season", 12), ("A Year", 12),
        ("18 months", 18), ("1 month", 1), ("three years", 36), ("20 years", 240), ("5 yrs", 60),
        ("never", None), ("no limit", None), ("None", None),
    ],
)  # fmt: skip
def test_an_age_as_it_is_spoken(said: str, months: int | None) -> None:
    assert read_age_months(said) == months


@pytest.mark.parametrize(
    "said",
    ["", "soon", "0 months", "21 years", "18", "6 weeks", "-1 year", "999 months", "many years"],
)
def test_what_is_no_age_is_refused_with_examples(said: str) -> None:
    with pytest.raises(AskedWronglyError, match="18 months"):
        read_age_months(said)


@given(DAYS, st.integers(0, 400))
def test_months_grow_by_one_at_the_same_day_of_a_month(since: date, days: int) -> None:
    then = since + timedelta(days)
    months = months_old(since, then)
    assert months == 0 or months_old(since, then - timedelta(31)) in (months - 1, months - 2, 0)
    assert abs(months - days / 30.44) < 1.1
    assert months_old(then, since) == (0 if days else months)


@given(st.integers(1, 240))
def test_an_age_that_is_written_is_read_back(months: int) -> None:
    assert read_age_months(write_months(months)) == months
