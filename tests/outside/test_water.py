"""Water against IAPWS, at the temperatures that are fished."""

import pytest
from iapws import IAPWS95  # type: ignore[import-untyped]
from iapws._iapws import _Tension  # type: ignore[import-untyped]

from tacklebox.trade.water import (
    share_in_water,
    skin_n_m,
    water_density_kg_m3,
    water_viscosity_pa_s,
)
from tests.outside import outside

TEMPERATURES = [0.01, 4.0, 10.0, 15.0, 20.0, 25.0, 30.0]


@outside("density of water", "IAPWS-95 by the library iapws", "library")
@pytest.mark.parametrize("temperature_c", TEMPERATURES)
def test_density(temperature_c: float) -> None:
    expected = IAPWS95(T=temperature_c + 273.15, P=0.101325).rho
    assert water_density_kg_m3(temperature_c) == pytest.approx(expected, abs=0.02)


@outside("viscosity of water", "IAPWS 2008 by the library iapws", "library")
@pytest.mark.parametrize("temperature_c", TEMPERATURES)
def test_viscosity(temperature_c: float) -> None:
    expected = IAPWS95(T=temperature_c + 273.15, P=0.101325).mu
    assert water_viscosity_pa_s(temperature_c) == pytest.approx(expected, rel=5e-4)


@outside("skin of water", "IAPWS R1-76(2014) by the library iapws", "library")
@pytest.mark.parametrize("temperature_c", TEMPERATURES)
def test_skin(temperature_c: float) -> None:
    assert skin_n_m(temperature_c) == pytest.approx(_Tension(temperature_c + 273.15), rel=1e-9)


@outside(
    "what lead and tin pull in water", "Archimedes with 11.34, 7.29 and 0.9997 g/cm³", "closed form"
)
def test_pull_in_water() -> None:
    assert share_in_water(11.34) == pytest.approx(1 - 0.9997 / 11.34, abs=1e-5)
    assert share_in_water(7.29) == pytest.approx(1 - 0.9997 / 7.29, abs=1e-5)
