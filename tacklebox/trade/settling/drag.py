"""What water does to shot, line and bait that move through it.

Reynolds numbers are speed × diameter / kinematic viscosity throughout.
"""

import math
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.quantities import STANDARD_GRAVITY
from tacklebox.trade.sources import published
from tacklebox.trade.water import USUAL_C, water_density_kg_m3, water_viscosity_pa_s

SPHERE_DRAG = published(
    "Clift & Gauvin, The motion of particles in turbulent gas streams, Chemeca '70 (1970) 14"
)
LINE_DRAG = published("Cheng, Calculation of drag coefficient for cylinders, 2013 (as cited)")
LINE_ALONG = published(
    "Churchill & Bernstein, J. Heat Transfer 99 (1977) 300, by Cooke, The boundary layer of a "
    "class of infinite yawed cylinders, Proc. Camb. Phil. Soc. 46 (1950) 645"
)
SHORT_SHARE = 0.7  # a short cylinder's drag as a share of a long one's (from memory)
EULER = 0.577
SPHERE_SLOPE = 0.6  # how much more than in proportion drag grows with speed, roughly


@dataclass(frozen=True, slots=True)
class Water:
    """Still fresh water at one temperature: density in kg/m³, viscosity in Pa·s."""

    density_kg_m3: float
    viscosity_pa_s: float

    @property
    def kinematic_m2_s(self) -> float:
        """Viscosity over density, in m²/s."""
        return self.viscosity_pa_s / self.density_kg_m3


def water_at(temperature_c: float = USUAL_C) -> Water:
    """The water at that temperature. Range: 0–30 °C; raises AskedWronglyError outside.

    >>> round(1e6 * water_at(10.0).kinematic_m2_s, 3)
    1.306
    """
    return Water(water_density_kg_m3(temperature_c), water_viscosity_pa_s(temperature_c))


def sphere_coefficient(reynolds: float) -> float:
    """Drag coefficient of a sphere: 24/Re (1 + 0.152 Re^0.677) + 0.417 / (1 + 5070 Re^−0.94).

    Range: above 0, below 2·10⁵. Raises ValueError at 0 or below. Source: Clift & Gauvin 1970, as
    the library ``fluids`` has it.

    >>> round(sphere_coefficient(1317.0), 3)
    0.437
    """
    if reynolds <= 0:
        raise ValueError("a Reynolds number is more than 0")
    wake = 0.417 / (1 + 5070 / float(reynolds**0.94))
    return 24 / reynolds * (1 + 0.152 * float(reynolds**0.677)) + wake


def line_across_coefficient(reynolds: float) -> float:
    """Drag coefficient of a long cylinder in a stream across it.

    11 Re^−0.75 + 0.9 (1 − e^(−1000/Re)) + 1.2 (1 − e^(−(Re/4500)^0.7)). Range: 0.02 to 2·10⁵; below
    it the force is as good as nothing. Raises ValueError at 0 or below. Source: Cheng 2013,
    DOI 10.1061/(ASCE)HY.1943-7900.0000722 (the formula as code that cites it has it).

    >>> round(line_across_coefficient(1.0), 2), round(line_across_coefficient(100.0), 2)
    (11.9, 1.33)
    """
    if reynolds <= 0:
        raise ValueError("a Reynolds number is more than 0")
    return 11 / float(reynolds**0.75) + line_wake(reynolds)


def line_wake(reynolds: float) -> float:
    """The part of ``line_across_coefficient`` that changes little with the speed."""
    early = 0.9 if reynolds < 25 else -0.9 * math.expm1(-1000 / reynolds)  # e^−40 is nothing
    return early - 1.2 * math.expm1(-((reynolds / 4500) ** 0.7))


def still_along_factor(diameter_m: float, water: Water) -> float:
    """K₀ of a line pulled along itself with nothing across: 4 / (ln(16 ν · 1 s / d²) − 0.577).

    The force is π μ K v per metre. K₀ is what a long thin cylinder set moving a second ago still
    feels. Diameter in m. Range: 0.02–0.6 mm; raises ValueError outside. From memory.

    >>> round(still_along_factor(0.00014, water_at(10.0)), 3)
    0.625
    """
    if not 2e-5 <= diameter_m <= 6e-4:
        raise ValueError("line is 0.02 to 0.6 mm thick")
    return 4 / (math.log(16 * water.kinematic_m2_s / diameter_m**2) - EULER)


def along_factor(reynolds_across: float, still: float) -> float:
    """K of a line that is pulled along itself while water goes across it.

    max(K₀, 0.3 + 0.556 √Re), Re by the speed across: on a yawed cylinder the speed along obeys the
    equation of heat with a Prandtl number of 1, so that K is the Nusselt number. Range: Re from 0 to
    10⁴. Source: Churchill & Bernstein 1977, Cooke 1950.

    >>> round(along_factor(4.0, 0.6), 3), along_factor(0.0, 0.6)
    (1.412, 0.6)
    """
    return max(still, 0.3 + 0.556 * math.sqrt(reynolds_across))


def short_cylinder_drag_n(
    speed_m_s: float, diameter_m: float, length_m: float, water: Water
) -> float:
    """Drag of a short cylinder, such as a bait: ½ ρw d L · 0.7 Cd v², Cd of a long one across.

    In N; speed in m/s, 0 or more, sizes in m, above 0. Raises ValueError outside. The share of 0.7
    is from memory.

    >>> round(1e6 * short_cylinder_drag_n(0.04, 0.003, 0.011, water_at(10.0)), 1)
    24.9
    """
    if speed_m_s < 0 or diameter_m <= 0 or length_m <= 0:
        raise ValueError("a speed is 0 or more, a size more than 0")
    if speed_m_s == 0:
        return 0.0
    coefficient = line_across_coefficient(speed_m_s * diameter_m / water.kinematic_m2_s)
    area_m2 = diameter_m * length_m
    return 0.5 * water.density_kg_m3 * area_m2 * SHORT_SHARE * coefficient * speed_m_s**2


def sphere_diameter_m(mass_g: float, density_g_cm3: float) -> float:
    """Diameter of a ball of that mass: (6 m / π ρ)^⅓, in m. Raises ValueError unless above 0.

    >>> round(1000 * sphere_diameter_m(0.06, 7.29), 3)
    2.505
    """
    if mass_g <= 0 or density_g_cm3 <= 0:
        raise ValueError("a mass and a density are more than 0")
    return math.cbrt(6 * mass_g / (math.pi * density_g_cm3 * 1e6))


def shot_sinks_m_s(mass_g: float, density_g_cm3: float, temperature_c: float = USUAL_C) -> float:
    """The speed at which one free shot ends: drag = weight in water, in m/s.

    Mass in g, up to 100; density in g/cm³, above that of water; water in °C, 0–30. Raises
    AskedWronglyError outside. Source of the drag: Clift & Gauvin 1970.

    >>> round(shot_sinks_m_s(0.06, 7.29), 3)
    0.687
    """
    water = water_at(temperature_c)
    if not 0 < mass_g <= 100 or not 1000 * density_g_cm3 > water.density_kg_m3:
        raise AskedWronglyError(
            f"a shot of {mass_g:g} g and {density_g_cm3:g} g/cm³ does not sink.",
            right="It weighs up to 100 g, and more than water of its size.",
        )
    diameter_m = sphere_diameter_m(mass_g, density_g_cm3)
    area_m2 = math.pi * diameter_m**2 / 4
    share = 1 - water.density_kg_m3 / (1000 * density_g_cm3)
    weight_n = mass_g / 1000 * share * STANDARD_GRAVITY

    def drag_n(speed_m_s: float) -> float:
        coefficient = sphere_coefficient(speed_m_s * diameter_m / water.kinematic_m2_s)
        return 0.5 * water.density_kg_m3 * area_m2 * coefficient * speed_m_s**2

    low, high = 1e-9, 100.0
    while high - low > 1e-9 * high:
        middle = (low + high) / 2
        low, high = (middle, high) if drag_n(middle) < weight_n else (low, middle)
    return high
