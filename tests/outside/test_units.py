"""Units against NIST and the library ``pint``."""

import pytest

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
)
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
