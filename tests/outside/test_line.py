"""Line against published densities, thickness standards and fibre handbooks."""

import math

import pytest

from tacklebox.trade.line import diameter_of_go_mm, diameter_of_x_mm, material_named, stress_mpa
from tacklebox.trade.settling.rig import NYLON_G_CM3
from tests.outside import outside

KLUST = "G. Klust, Netting Materials for Fishing Gear, 2nd ed., FAO 1982; textbook values"


@outside("densities of nylon, fluorocarbon, braid", KLUST, "published")
@pytest.mark.parametrize(
    ("word", "density"), [("nylon", 1.14), ("fluorocarbon", 1.78), ("braid", 0.97)]
)
def test_densities(word: str, density: float) -> None:
    assert material_named(word).density_g_cm3 == pytest.approx(density, abs=0.005)
    assert word != "nylon" or pytest.approx(density, abs=0.005) == NYLON_G_CM3


@outside(
    "diameters of gō numbers 0.8, 1 and 1.2",
    "Japan Fishing Tackle Manufacturers Association, line thickness standard",
    "published",
)
def test_go_numbers() -> None:
    answer = [diameter_of_go_mm(n) for n in (0.8, 1.0, 1.2)]
    assert answer == pytest.approx([0.148, 0.165, 0.185], abs=1e-9)
    # between and beyond, the rule 0.165 √n: No 4 is twice as thick as No 1
    assert diameter_of_go_mm(4.0) == pytest.approx(0.33)


@outside(
    "the rule of eleven for X numbers", "thousandths of an inch are 11 − X, by hand", "closed form"
)
def test_x_numbers() -> None:
    assert [diameter_of_x_mm(x) for x in (0, 4, 7)] == pytest.approx([0.2794, 0.1778, 0.1016])


@outside("stress at a stated strain", "σ = F / (π d²/4) by hand: 1 kg on 0.10 mm", "closed form")
def test_stress() -> None:
    assert stress_mpa(0.10, 1.0) == pytest.approx(9.80665 / (math.pi * 0.05**2), rel=1e-9)
    assert stress_mpa(0.010, 1.9) == pytest.approx(237_000, rel=0.002)
