"""Amounts and prices, as they are written."""

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.amounts import (
    read_amount,
    read_packets,
    read_price_cents,
    write_amount,
    write_price,
)


@pytest.mark.parametrize(
    "text", ["2E306", "inf", "nan", "-1", "100000.01", "", "x", "1.234", "1,234", "1_0", "1e3", "٣"]
)
def test_what_is_no_price(text: str) -> None:
    with pytest.raises(AskedWronglyError, match="is no price") as refused:
        read_price_cents(text)
    assert "3.49" in refused.value.right


@pytest.mark.parametrize(
    ("text", "cents", "written"),
    [
        ("£3.49", 349, "3.49"),
        (" 3,49 € ", 349, "3.49"),
        ("0.5", 50, "0.50"),
        ("0", 0, "0.00"),
        ("100000", 10_000_000, "100000.00"),
    ],
)
def test_prices_as_they_are_written(text: str, cents: int, written: str) -> None:
    assert read_price_cents(text) == cents
    assert write_price(cents) == written


@pytest.mark.parametrize(
    ("text", "measured", "amount", "written"),
    [
        (" 30 ", False, 30, "30"),
        ("0", False, 0, "0"),
        ("1000000", False, 1_000_000, "1000000"),
        ("0", True, 0, "0 m"),
        ("100 m", True, 100_000, "100 m"),
        ("25 cm", True, 250, "0.25 m"),
    ],
)
def test_amounts_as_they_are_written(text: str, measured: bool, amount: int, written: str) -> None:
    assert read_amount(text, measured) == amount
    assert write_amount(amount, measured) == written


@pytest.mark.parametrize("text", ["1 m", "1m", "half a metre", "3 ft", "12 cm"])
def test_a_length_of_what_is_counted(text: str) -> None:
    with pytest.raises(AskedWronglyError, match="is a length, and this is counted in pieces") as no:
        read_amount(text, measured=False)
    for words in ("how many pieces", "how long a piece is", "plenty, low or out"):
        assert words in no.value.right


@pytest.mark.parametrize("text", ["1000001", "00000030", "3.5", "-1", "٣", "few"])
def test_what_is_no_number_of_pieces(text: str) -> None:
    with pytest.raises(AskedWronglyError, match="is no number of pieces") as refused:
        read_amount(text, measured=False)
    assert "up to 1000000" in refused.value.right


@pytest.mark.parametrize("measured", [True, False])
def test_nothing_said_is_told_as_that(measured: bool) -> None:
    with pytest.raises(AskedWronglyError, match="nothing is said"):
        read_amount(" ", measured)


@pytest.mark.parametrize("text", ["", "1.5", "two boxes", "-2", "packets"])
def test_what_is_no_number_of_packets_is_told_as_it_was_said(text: str) -> None:
    with pytest.raises(AskedWronglyError, match=f'"{text}" is no number of packets'):
        read_packets(text)
