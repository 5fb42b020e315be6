"""Units against NIST and the library ``pint``."""

from collections.abc import Callable
from math import ceil

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.quantities import (
    G_PER_OZ,
    KG_PER_LB,
    LENGTH_MM,
    MASS_G,
    ML_PER_PINT,
    MM_PER_INCH,
    STANDARD_GRAVITY,
    STRAIN_KG,
    VOLUME_ML,
    read_length_mm,
    read_strain_kg,
)
from tacklebox.trade.units_first import given_length, in_units
from tests.outside import outside

NAMES = {  # as the library calls what anglers write
    '"': "inch",
    "'": "foot",
    "in": "inch",
    "inches": "inch",
    "feet": "foot",
    "ft": "foot",
    "metres": "metre",
    "yd": "yard",
    "yards": "yard",
    "lbs": "pound",
    "lb": "pound",
    "oz": "ounce",
    "drams": "dram",
    "pint": "imperial_pint",
    "pints": "imperial_pint",
    "l": "litre",
}


@outside("pound, ounce, inch, standard gravity", "NIST SP 811, appendix B", "published")
def test_exact_factors() -> None:
    assert KG_PER_LB == 0.45359237
    assert G_PER_OZ == 28.349523125
    assert MM_PER_INCH == 25.4
    assert STANDARD_GRAVITY == 9.80665


@outside("imperial pint", "NIST SP 811, appendix B: 5.682 612 5 E-04 m³", "published")
def test_the_pint() -> None:
    assert pytest.approx(5.6826125e-4 * 1e6, rel=1e-12) == ML_PER_PINT


@outside("every unit of length, mass, strain, volume", "the library pint", "library")
def test_every_unit_against_pint() -> None:
    import pint

    units = pint.get_application_registry()  # type: ignore[no-untyped-call]
    for table, base in (
        (LENGTH_MM, "millimetre"),
        (MASS_G, "gram"),
        (STRAIN_KG, "kilogram"),
        (VOLUME_ML, "millilitre"),
    ):
        for word, factor in table.items():
            expected = float(units.Quantity(1, NAMES.get(word, word)).to(base).magnitude)
            assert factor == pytest.approx(expected, rel=1e-9), word


@outside("inches to the foot, ounces to the pound", "the library pint", "library")
@pytest.mark.parametrize(
    ("read", "whole", "larger", "smaller"),
    [(read_length_mm, "4 foot", "foot", "inch"), (read_strain_kg, "4 lb", "pound", "ounce")],
)
def test_the_smaller_unit_without_its_name_is_less_than_one_of_the_larger(
    read: Callable[[str], float], whole: str, larger: str, smaller: str
) -> None:
    import pint

    units = pint.get_application_registry()  # type: ignore[no-untyped-call]
    many = round(units.Quantity(1, larger).to(smaller).magnitude)
    one = read(whole) / 4 / many
    assert read(f"{whole} {many - 1}") == pytest.approx(read(whole) + (many - 1) * one)
    with pytest.raises(AskedWronglyError):
        read(f"{whole} {many}")


@outside("yard", "the library pint", "library")
def test_half_yards_of_a_length_that_is_given() -> None:
    import pint

    units = pint.get_application_registry()  # type: ignore[no-untyped-call]
    half_yards = ceil(units.Quantity(30, "metre").to("yard").magnitude * 2) / 2
    with in_units("imperial"):
        assert given_length("30 m", 30_000, least=True) == f"30 m ({half_yards:g} yd)"
