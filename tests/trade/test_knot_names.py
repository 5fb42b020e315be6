"""Knots by all the names that they go by; two knots never share one."""

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.knots import KNOTS, knot_named


@pytest.mark.parametrize(
    ("said", "knot"),
    [
        ("Grinner knot", "grinner"),
        ("uni", "grinner"),
        ("Uni-knot", "grinner"),
        ("figure-of-8 loop", "figure-of-eight loop"),
        ("figure of eight loop knot", "figure-of-eight loop"),
        ("Figure of eight", "figure-of-eight loop"),
        ("figure-8 loop", "figure-of-eight loop"),
        ("surgeon’s loop", "double overhand loop"),
        ("half blood knot", "half blood"),
        ("Tucked half-blood", "tucked half blood"),
        ("palomar knot", "palomar"),
        ("knotless", "knotless knot"),
        ("whipping", "spade knot"),
        ("double blood knot", "blood knot"),
        ("double uni", "double grinner"),
        ("four turn water knot", "water knot"),
    ],
)
def test_a_knot_by_any_of_its_names(said: str, knot: str) -> None:
    assert knot_named(said).name == knot


def test_every_name_leads_to_its_own_knot() -> None:
    for knot in KNOTS:
        for word in (knot.name, *knot.words):
            assert knot_named(word) is knot


@pytest.mark.parametrize(
    ("one", "other"),
    [("half blood", "tucked half blood"), ("overhand loop", "double overhand loop")],
)
def test_knots_that_are_not_one(one: str, other: str) -> None:
    assert knot_named(one) is not knot_named(other)


@pytest.mark.parametrize("said", ["snell", "Snell knot"])
def test_a_snell_is_asked_about(said: str) -> None:
    with pytest.raises(AskedWronglyError, match="may be a knotless knot or a spade knot"):
        knot_named(said)
