"""Figures told in the units that are wanted first: read back, and as is usual where none is set."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.stock.amounts import read_amount, show_amount
from tacklebox.trade.quantities import (
    G_PER_OZ,
    KG_PER_LB,
    MM_PER_INCH,
    read_length_mm,
    read_mass_g,
    read_strain_kg,
    read_weighed_g,
    write_length,
)
from tacklebox.trade.units_first import (
    IMPERIAL,
    METRIC,
    first,
    in_units,
    show_both_strains,
    show_distance,
    show_length,
    show_mass,
    show_strain,
    show_weighed,
)

USUAL = ("45.7 cm", "4.4 lb", "2 kg (4.4 lb)", "425 g", "2.35 kg (5 lb 3 oz)", ("46", "cm"), "12 m")
IN_POUNDS = (
    "18 in",
    "4.4 lb",
    "4.4 lb (2 kg)",
    "15 oz",
    "5 lb 3 oz (2.35 kg)",
    ("18", "in"),
    "13.1 yd",
)
IN_KILOS = (
    "45.7 cm",
    "2 kg",
    "2 kg (4.4 lb)",
    "425 g",
    "2.35 kg (5 lb 3 oz)",
    ("46", "cm"),
    "12 m",
)


@pytest.mark.parametrize(
    ("units", "words"), [(None, USUAL), ("", USUAL), (IMPERIAL, IN_POUNDS), (METRIC, IN_KILOS)]
)
def test_each_figure_in_each_of_the_units(units: str | None, words: tuple[object, ...]) -> None:
    with in_units(units):
        told = (
            show_length(457.2), show_strain(2.0), show_both_strains(2.0), show_mass(425.0),
            show_weighed(2353.0), show_distance(457.2), show_amount(12_000, measured=True),
        )  # fmt: skip
    assert told == words
    assert first() == ""


@given(st.floats(1.0, 9_000_000.0))
def test_a_length_told_in_feet_is_that_length(length_mm: float) -> None:
    with in_units(IMPERIAL):
        words = show_length(length_mm)
    near = 0.06 if length_mm < MM_PER_INCH else MM_PER_INCH / 8
    near = near if length_mm < 36 * MM_PER_INCH - 4 else MM_PER_INCH / 2
    near = near if length_mm < 10_000 else 9 * MM_PER_INCH
    assert read_length_mm(words) == pytest.approx(length_mm, abs=1.001 * near)
    assert show_length(length_mm) == write_length(length_mm)


@given(st.floats(1.0, 90_000.0))
def test_masses_and_strains_are_what_they_say(grams: float) -> None:
    with in_units(IMPERIAL):
        mass, strain = show_mass(grams), show_strain(grams / 1000 + 0.1)
        weighed, both = show_weighed(grams), show_both_strains(grams / 1000 + 0.1)
    assert read_mass_g(mass) == pytest.approx(grams, abs=G_PER_OZ / 2 + 0.001)
    assert read_strain_kg(strain) == pytest.approx(grams / 1000 + 0.1, abs=0.051 * KG_PER_LB)
    assert read_strain_kg(both.partition(" (")[0]) == read_strain_kg(strain)
    assert read_weighed_g(weighed) == pytest.approx(grams, abs=G_PER_OZ / 2 + 0.01)


def test_line_on_hand_in_yards_is_read_back() -> None:
    with in_units(IMPERIAL):
        for mm in (0, 500, 12_345, 100_000):
            assert read_amount(show_amount(mm, True) if mm else "0", True) == pytest.approx(
                mm, abs=46
            )
