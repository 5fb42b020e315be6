"""The laws of drag against the library ``fluids`` and against closed forms."""

import math

import pytest
from fluids.drag import Clift_Gauvin, v_terminal
from iapws import IAPWS95  # type: ignore[import-untyped]
from scipy.optimize import brentq  # type: ignore[import-untyped]

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.quantities import STANDARD_GRAVITY
from tacklebox.trade.settling.chain import Body, half_link
from tacklebox.trade.settling.drag import (
    along_factor,
    line_across_coefficient,
    short_cylinder_drag_n,
    shot_sinks_m_s,
    sphere_coefficient,
    sphere_diameter_m,
    still_along_factor,
    water_at,
)
from tacklebox.trade.settling.sweep import body_force, half_link_force
from tacklebox.trade.shot import SHOT, WEIGHT_MATERIALS
from tacklebox.trade.water import water_viscosity_pa_s
from tests.outside import outside

WATER = water_at(10.0)


@outside("viscosity of water over all temperatures", "IAPWS 2008 by the library iapws", "library")
@pytest.mark.parametrize("temperature_c", [1.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0])
def test_viscosity_against_iapws(temperature_c: float) -> None:
    expected = IAPWS95(T=temperature_c + 273.15, P=0.101325).mu
    assert water_viscosity_pa_s(temperature_c) == pytest.approx(expected, rel=4e-4)


@pytest.mark.parametrize("temperature_c", [-0.1, 30.1, math.nan])
def test_viscosity_only_of_water_that_is_fished(temperature_c: float) -> None:
    with pytest.raises(AskedWronglyError, match=r"water of .* cannot be right"):
        water_viscosity_pa_s(temperature_c)


@outside("drag of a sphere over all speeds", "the library fluids, Clift & Gauvin", "library")
@pytest.mark.parametrize("reynolds", [0.01, 0.5, 3.0, 40.0, 700.0, 9_000.0, 150_000.0])
def test_sphere_against_fluids(reynolds: float) -> None:
    assert sphere_coefficient(reynolds) == pytest.approx(Clift_Gauvin(reynolds), rel=1e-12)


@outside("how fast free shot sinks", "the library fluids, terminal velocity", "library")
@pytest.mark.parametrize("temperature_c", [1.0, 10.0, 25.0])
@pytest.mark.parametrize("mark", ["SSG", "No 8", "No 13"])
@pytest.mark.parametrize("material", WEIGHT_MATERIALS, ids=lambda m: m.name)
def test_free_shot_against_fluids(mark: str, material: object, temperature_c: float) -> None:
    density = material.density_g_cm3  # type: ignore[attr-defined]
    mass = next(shot.mass_g for shot in SHOT if shot.mark == mark)
    water = water_at(temperature_c)
    expected = v_terminal(
        D=sphere_diameter_m(mass, density),
        rhop=1000 * density,
        rho=water.density_kg_m3,
        mu=water.viscosity_pa_s,
        Method="Clift_Gauvin",
    )
    assert shot_sinks_m_s(mass, density, temperature_c) == pytest.approx(expected, rel=1e-6)


def test_no_8_of_tin_sinks_as_worked() -> None:
    assert shot_sinks_m_s(0.06, 7.29) == pytest.approx(0.6868, rel=1e-3)


@pytest.mark.parametrize(("mass_g", "density"), [(0.0, 7.29), (101, 7.29), (0.06, 0.9), (1, 0)])
def test_shot_that_does_not_sink(mass_g: float, density: float) -> None:
    with pytest.raises(AskedWronglyError, match="does not sink"):
        shot_sinks_m_s(mass_g, density)


def nylon_n_m(diameter_m: float) -> float:
    area = math.pi * diameter_m**2 / 4
    return (1140 - WATER.density_kg_m3) * area * STANDARD_GRAVITY


@outside("nylon sinking broadside", "a trial run worked apart", "other way")
def test_nylon_broadside_sinks_as_worked() -> None:
    def left(speed: float) -> float:
        reynolds = speed * 0.00014 / WATER.kinematic_m2_s
        drag = 0.5 * WATER.density_kg_m3 * 0.00014 * line_across_coefficient(reynolds) * speed**2
        return drag - nylon_n_m(0.00014)

    assert brentq(left, 1e-5, 1.0) == pytest.approx(3.598e-3, rel=1e-3)


@outside("nylon sinking lengthwise", "a trial run worked apart", "other way")
def test_nylon_lengthwise_sinks_as_worked() -> None:
    factor = math.pi * WATER.viscosity_pa_s * still_along_factor(0.00014, WATER)
    assert nylon_n_m(0.00014) / factor == pytest.approx(8.253e-3, rel=1e-3)


@pytest.mark.parametrize("diameter_mm", [0.08, 0.14, 0.20])
def test_still_factor_lies_where_the_note_has_it(diameter_mm: float) -> None:
    assert 0.53 <= still_along_factor(diameter_mm / 1000, WATER) <= 0.705


@outside("drag of a line along itself", "Churchill & Bernstein 1977 in full", "published")
@pytest.mark.parametrize("reynolds", [1.0, 30.0, 900.0])
def test_along_factor_against_churchill_and_bernstein(reynolds: float) -> None:
    # Their correlation in full, at a Prandtl number of 1.
    bracket = (1 + (reynolds / 282_000) ** (5 / 8)) ** (4 / 5)
    nusselt = 0.3 + 0.62 * math.sqrt(reynolds) / (1 + 0.4 ** (2 / 3)) ** 0.25 * bracket
    assert along_factor(reynolds, 0.0) == pytest.approx(nusselt, rel=0.03)


@pytest.mark.parametrize("speed", [0.0005, 0.03, 0.4, 3.0])
@pytest.mark.parametrize("angle", [0.0, 0.7, 2.0, -1.2])
def test_half_a_link_obeys_the_laws(speed: float, angle: float) -> None:
    half = half_link(0.05, 0.00014, WATER)
    ux, uz = speed * math.cos(0.3), speed * math.sin(0.3)
    fx, fz, *_ = half_link_force(half, (math.cos(angle), math.sin(angle)), (ux, uz), (0, 0), 1.0)
    along = speed * math.cos(0.3 - angle)
    across = speed * math.sin(0.3 - angle)
    reynolds = abs(across) * 0.00014 / WATER.kinematic_m2_s
    coefficient = line_across_coefficient(reynolds)
    normal = 0.5 * WATER.density_kg_m3 * 0.00014 * 0.025 * coefficient * abs(across) * across
    factor = along_factor(reynolds, still_along_factor(0.00014, WATER))
    tangent = math.pi * WATER.viscosity_pa_s * 0.025 * factor * along
    assert fx == pytest.approx(tangent * math.cos(angle) - normal * math.sin(angle), rel=1e-6)
    assert fz == pytest.approx(tangent * math.sin(angle) + normal * math.cos(angle), rel=1e-6)


def test_a_bait_weighs_its_drag() -> None:
    area = 0.5 * WATER.density_kg_m3 * 0.003 * 0.011 * 0.7
    body = Body(area, 0.003 / WATER.kinematic_m2_s, ball=False)
    expected = short_cylinder_drag_n(0.04, 0.003, 0.011, WATER)
    assert body_force((body,), 0.0, 0.04)[1] == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("law", [sphere_coefficient, line_across_coefficient])
@pytest.mark.parametrize("reynolds", [0.0, -1.0])
def test_no_law_at_rest(law: object, reynolds: float) -> None:
    with pytest.raises(ValueError, match="more than 0"):
        law(reynolds)  # type: ignore[operator]


def test_sizes_that_no_law_holds_for() -> None:
    with pytest.raises(ValueError, match="thick"):
        still_along_factor(0.001, WATER)
    with pytest.raises(ValueError, match="more than 0"):
        sphere_diameter_m(0, 7.29)
    with pytest.raises(ValueError, match="more than 0"):
        short_cylinder_drag_n(0.1, 0, 0.01, WATER)
    assert short_cylinder_drag_n(0.0, 0.003, 0.01, WATER) == 0
