"""What moves through water against the published laws."""

import math

import pytest
from fluids.drag import Clift_Gauvin

from tacklebox.trade.settling.drag import (
    EULER,
    along_factor,
    line_across_coefficient,
    sphere_coefficient,
)
from tacklebox.trade.settling.flow import drift_m_s
from tacklebox.trade.settling.sizes import STEEL_G_CM3, bait_named
from tests.outside import outside

CHENG = "Cheng 2013, DOI 10.1061/(ASCE)HY.1943-7900.0000722, as code that cites it has it"


@outside("drag of a sphere", "Clift & Gauvin 1970 by the library fluids", "library")
@pytest.mark.parametrize("reynolds", [0.02, 1.0, 20.0, 400.0, 5_000.0, 100_000.0])
def test_sphere(reynolds: float) -> None:
    assert sphere_coefficient(reynolds) == pytest.approx(Clift_Gauvin(reynolds), rel=1e-9)


@outside("drag of a line across the water", CHENG, "published")
@pytest.mark.parametrize("reynolds", [0.1, 1.0, 20.0, 30.0, 200.0, 2_000.0, 20_000.0, 150_000.0])
def test_line_across(reynolds: float) -> None:
    low = 11 * reynolds**-0.75
    middle = 0.9 * (1 - math.exp(-1000 / reynolds))
    high = 1.2 * (1 - math.exp(-((reynolds / 4500) ** 0.7)))
    assert line_across_coefficient(reynolds) == pytest.approx(low + middle + high, rel=1e-9)


@outside(
    "drag of a line along itself",
    "Churchill & Bernstein 1977 at a Prandtl number of 1",
    "published",
)
@pytest.mark.parametrize("reynolds", [0.01, 1.0, 30.0, 900.0])
def test_line_along(reynolds: float) -> None:
    bracket = (1 + (reynolds / 282_000) ** (5 / 8)) ** (4 / 5)
    nusselt = 0.3 + 0.62 * math.sqrt(reynolds) / (1 + 0.4 ** (2 / 3)) ** 0.25 * bracket
    assert along_factor(reynolds, 0.0) == pytest.approx(nusselt, rel=0.025)


@outside(
    "how fast pellets sink",
    "Vassallo et al. 2006 (sea water): 3 mm 0.087, 5 mm 0.144 m/s",
    "published",
)
def test_pellets() -> None:
    for name, speed, size in (("3 mm pellet", 0.087, 3), ("5 mm pellet", 0.144, 5)):
        bait = bait_named(name)
        assert bait.sinks_m_s == pytest.approx(speed, abs=5e-4)
        assert (bait.diameter_mm, bait.length_mm) == (size, size)
    between = bait_named("4 mm pellet")
    assert 0.087 < between.sinks_m_s < 0.12
    assert (between.diameter_mm, between.length_mm) == (4, 4)


@outside("Euler's constant", "numpy.euler_gamma", "library")
def test_euler() -> None:
    import numpy

    assert pytest.approx(numpy.euler_gamma, abs=5e-4) == EULER


@outside("density of steel", "textbook value, 7850 kg/m³", "published")
def test_steel() -> None:
    assert pytest.approx(7.85, abs=0.05) == STEEL_G_CM3


@outside(
    "drift of the surface in wind", "AMS Glossary of Meteorology: 2.5 to 3 % of it", "published"
)
def test_drift() -> None:
    for wind in (1.0, 4.0, 8.0):
        assert 0.025 * wind <= drift_m_s(wind) <= 0.03 * wind
