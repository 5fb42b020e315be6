"""What a figure may be, and how a fault says it."""

import math

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.limits import within, write_rounded


@pytest.mark.parametrize(
    ("value", "high", "says"),
    [
        (1088.621688, 200, "a float of 1089 g cannot be right. From 0.01 to 200 g."),  # 2.4 lb
        (0.002834952, 200, "a float of 0.002835 g cannot be right. From 0.01 to 200 g."),
        (200.00001, 200, "a float of 200.00001 g cannot be right. From 0.01 to 200 g."),
        (123456, 200, "a float of 123456 g cannot be right. From 0.01 to 200 g."),
        (2.0, 1.8143694, "a float of 2 g cannot be right. From 0.01 to 1.814 g."),
        (math.nan, 200, "a float of nan g cannot be right. From 0.01 to 200 g."),
    ],
)
def test_a_fault_says_no_more_digits_than_anyone_said(value: float, high: float, says: str) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        within(value, 0.01, high, "a float", "g")
    assert str(refused.value) == says


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (0.0, "0"),
        (0.25, "0.25"),
        (-14.17476, "-14.17"),
        (140330.18, "140300"),
        (914400.0, "914400"),
    ],
)
def test_a_figure_is_written_no_finer_than_it_is_said(value: float, written: str) -> None:
    assert write_rounded(value) == written
