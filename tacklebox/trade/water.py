"""Fresh water by its temperature: density, viscosity and skin, and what a weight still pulls in it."""

import math

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.limits import within
from tacklebox.trade.sources import published

WATER_DENSITY = published(
    "Tanaka et al., Recommended table for the density of water between 0 °C and 40 °C, "
    "Metrologia 38 (2001) 301"
)
WATER_VISCOSITY = published(
    "Pátek et al., Reference correlations for thermophysical properties of liquid water at "
    "0.1 MPa, J. Phys. Chem. Ref. Data 38 (2009) 21"
)
WATER_SKIN = published("IAPWS R1-76(2014), Surface tension of ordinary water substance")
USUAL_C = 10.0  # taken where no temperature of the water is given (our choice)
FISHED_C = 0.0, 30.0  # what water is fished at (our choice)


def _fished(temperature_c: float) -> None:
    within(temperature_c, *FISHED_C, "water", "°C")


def water_density_kg_m3(temperature_c: float = USUAL_C) -> float:
    """Density of air-free water at 1 atm: a₅ (1 − (t + a₁)²(t + a₂) / (a₃ (t + a₄))), in kg/m³.

    Range: 0–30 °C, as fished; within 0.02 kg/m³ of IAPWS-95. Raises AskedWronglyError
    outside. Source: Tanaka et al., Metrologia 38 (2001) 301.

    >>> round(water_density_kg_m3(10.0), 1), round(water_density_kg_m3(20.0), 1)
    (999.7, 998.2)
    """
    _fished(temperature_c)
    t = temperature_c
    bend = (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881))
    return 999.974950 * (1 - bend)


def water_viscosity_pa_s(temperature_c: float = USUAL_C) -> float:
    """Dynamic viscosity of water at 0.1 MPa, in Pa·s, with θ = T / 300 K:

    10⁻⁶ (280.68 θ^−1.9 + 511.45 θ^−7.7 + 61.131 θ^−19.6 + 0.45903 θ^−40).

    Range: 0–30 °C, as fished; within 0.04 % of IAPWS 2008. Raises AskedWronglyError
    outside. Source: Pátek et al., J. Phys. Chem. Ref. Data 38 (2009) 21.

    >>> round(1000 * water_viscosity_pa_s(10.0), 3), round(1000 * water_viscosity_pa_s(20.0), 3)
    (1.306, 1.002)
    """
    _fished(temperature_c)
    theta = (temperature_c + 273.15) / 300
    terms = ((280.68, 1.9), (511.45, 7.7), (61.131, 19.6), (0.45903, 40.0))
    return 1e-6 * math.fsum(factor * theta**-power for factor, power in terms)


def share_in_water(density_g_cm3: float, temperature_c: float = USUAL_C) -> float:
    """The share of its weight that a weight still pulls under water: 1 − ρw/ρ.

    Arguments: the weight's density in g/cm³, above that of water; water in °C, 0–30. Raises
    AskedWronglyError outside. Source: Archimedes' principle.

    >>> round(share_in_water(11.34), 3), round(share_in_water(7.29), 3)
    (0.912, 0.863)
    """
    share = 1 - water_density_kg_m3(temperature_c) / 1000 / density_g_cm3 if density_g_cm3 else 0
    if not 0 < share < 1:
        raise AskedWronglyError(
            f"a weight of {density_g_cm3:g} g/cm³ does not sink.",
            right="Its density lies above 1 g/cm³.",
        )
    return share


def pull_in_water_g(mass_g: float, density_g_cm3: float, temperature_c: float = USUAL_C) -> float:
    """What a weight pulls under water, as grams of force: m (1 − ρw/ρ).

    Arguments: mass in g, 0 or more; density in g/cm³; water in °C, 0–30. Raises
    AskedWronglyError outside. Source: Archimedes' principle.

    >>> round(pull_in_water_g(2.0, 11.34) - pull_in_water_g(2.0, 7.29), 2)
    0.1
    """
    within(mass_g, 0, 100_000, "a weight", "g")
    return mass_g * share_in_water(density_g_cm3, temperature_c)


def skin_n_m(temperature_c: float = USUAL_C) -> float:
    """What the skin of clean water pulls with: σ = B τ^1.256 (1 − 0.625 τ), τ = 1 − T/T_c, in N/m.

    B = 0.2358 N/m, T_c = 647.096 K. Range: 0–30 °C. Raises AskedWronglyError outside. Source:
    IAPWS R1-76(2014).

    >>> round(skin_n_m(10.0), 4)
    0.0742
    """
    _fished(temperature_c)
    tau = 1 - (temperature_c + 273.15) / 647.096
    return float(0.2358 * tau**1.256 * (1 - 0.625 * tau))
