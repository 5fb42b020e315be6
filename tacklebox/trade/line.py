"""Fishing line: materials, densities, the stress that a stated strain means, number systems."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.trade.quantities import KG_PER_LB, MM_PER_INCH, STANDARD_GRAVITY
from tacklebox.trade.sources import FIBRE_DENSITIES, MEMORY, Source


@dataclass(frozen=True, slots=True)
class Material:
    """A line material: density, and the band of stress (MPa) that honest figures fall in.

    A reading outside ``low_mpa``–``most_mpa`` is a slip of the pen. Where ``lenient``, a reading
    above ``high_mpa`` is not one: diameters of braid are often understated.
    """

    name: str
    words: tuple[str, ...]
    density_g_cm3: float
    low_mpa: float
    high_mpa: float
    lenient: bool = False
    density_source: Source = FIBRE_DENSITIES
    band_source: Source = MEMORY

    @property
    def most_mpa(self) -> float:
        """The most that is let through; 10 000 MPa, which no fibre reaches, where lenient."""
        return 10_000 if self.lenient else self.high_mpa


# Nylon's band is that of soft and pre-stretched nylon together: 0.12 mm at 4.5 lb is 1770 MPa.
# Fluorocarbon itself bears 500 to 900 MPa, but hooklength spools are printed higher, and it is
# the print that is questioned.
MATERIALS: tuple[Material, ...] = (
    Material("nylon", ("nylon", "mono", "monofilament", "polyamide"), 1.14, 500, 1850),
    Material("fluorocarbon", ("fluorocarbon", "fluoro", "pvdf"), 1.78, 500, 1300),
    Material("braid", ("braid", "braided", "gel-spun", "polyethylene"), 0.97, 1500, 3600, True),
)
BY_WORD = {word: material for material in MATERIALS for word in material.words}


def material_named(word: str) -> Material:
    """The line material of that name, or of a word anglers use for it ("mono", "braid").

    Raises AskedWronglyError for a word that is no line material.

    >>> material_named("gel-spun").name
    'braid'
    """
    try:
        return BY_WORD[word.strip().lower()]
    except KeyError:
        raise AskedWronglyError(
            f'"{word}" is no line material.', right=nearest_word(word, list(BY_WORD))
        ) from None


def stress_mpa(diameter_mm: float, breaks_at_kg: float) -> float:
    """The stress in a line at its stated strain, σ = F / (π d²/4), in MPa.

    Arguments: diameter in mm and strain in kg, both more than 0. Raises ValueError
    otherwise. Source: definition of stress; g = 9.806 65 m/s².

    >>> round(stress_mpa(0.10, 1.2))
    1498
    """
    if diameter_mm <= 0 or breaks_at_kg <= 0:
        raise ValueError("diameter and strain must be more than 0")
    return breaks_at_kg * STANDARD_GRAVITY / (math.pi * diameter_mm**2 / 4)


def diameter_of_go_mm(number: float) -> float:
    """Diameter of a nylon line of that gō number: 0.165·√n, in mm.

    Range: 0.1–100. Raises ValueError outside it. No. 0.8 = 0.148, No. 1 = 0.165 and
    No. 1.2 = 0.185 in the standard of the Japan Fishing Tackle Manufacturers Association;
    the rest by the rule, which is common practice (it gives 0.181 at No. 1.2).

    >>> round(diameter_of_go_mm(0.8), 3), round(diameter_of_go_mm(1.2), 3)
    (0.148, 0.185)
    """
    if not 0.1 <= number <= 100:
        raise ValueError("a gō number lies between 0.1 and 100")
    standard = {0.8: 0.148, 1.0: 0.165, 1.2: 0.185}
    return standard.get(number, 0.165 * math.sqrt(number))


def diameter_of_x_mm(number: float) -> float:
    """Diameter of a tippet of that X number: (11 − X) thousandths of an inch, in mm.

    Range: 0–10. Raises ValueError outside it. Source: common practice, the "rule of eleven".

    >>> round(diameter_of_x_mm(6), 3)
    0.127
    """
    if not 0 <= number <= 10:
        raise ValueError("an X number lies between 0 and 10")
    return (11 - number) * MM_PER_INCH / 1000


@dataclass(frozen=True, slots=True)
class Meaning:
    """A likely meaning of mistyped line figures: what was meant and the stress it gives."""

    words: str
    diameter_mm: float
    breaks_at_kg: float
    stress_mpa: float


# What a line can be at all, so that no absurd meaning is offered (from memory).
SENSIBLE_MM = (0.03, 2.0)
SENSIBLE_KG = (0.1, 200.0)


def likely_meanings(
    material: Material, diameter_mm: float, breaks_at_kg: float, said_in: str = "kg"
) -> tuple[Meaning, ...]:
    """What figures outside the material's stress band were probably meant to be.

    Tries one slip at a time: the diameter's decimal point one place either way, lb written
    as kg and kg as lb, thousandths of an inch or inches written as mm, a gō number, an X
    number, the strain's decimal point, another material. Keeps those that land in the
    band, in that order. Where none does, tries a slip of the diameter together with one of
    the strain or of the material. Empty when the figures are already in the band, or when
    nothing fits. ``said_in``: the unit of the strain, in which the meanings are told; of "lb" that it
    was lb written as kg is no slip. Range: diameter and strain above 0. Bands: from memory.

    >>> [m.words for m in likely_meanings(material_named("nylon"), 0.010, 1.0)]
    ['0.10 mm at 1 kg']
    >>> [m.words for m in likely_meanings(material_named("nylon"), 0.010, 1.9)][0]
    '0.10 mm at 0.862 kg (1.9 lb, not kg)'
    >>> [m.words for m in likely_meanings(material_named("nylon"), 0.20, 4 * KG_PER_LB / 10, "lb")][0]
    '0.20 mm at 4 lb'
    """
    if in_band(material, diameter_mm, breaks_at_kg):
        return ()
    as_written_mm, as_written_kg = (diameter_mm, ""), (breaks_at_kg, "")
    diameters = _meant_diameters(diameter_mm)
    units = _meant_units(breaks_at_kg)[1 if said_in == "lb" else 0 :]
    points = [(breaks_at_kg * 10, ""), (breaks_at_kg / 10, "")]
    decimals, others = diameters[:2], diameters[2:]
    single = [
        *_landing(material, decimals, [as_written_kg], said_in),
        *_landing(material, [as_written_mm], units, said_in),
        *_landing(material, others, [as_written_kg], said_in),
        *_landing(material, [as_written_mm], points, said_in),
        *_fitting_another(material, [as_written_mm], breaks_at_kg, said_in),
    ]
    pairs = [
        *_landing(material, diameters, units, said_in),
        *_fitting_another(material, decimals, breaks_at_kg, said_in),
        *_landing(material, diameters, points, said_in),
    ]
    return tuple(single or pairs)


_Slip = tuple[float, str]  # what was meant, and the remark that says so


def _meant_diameters(diameter_mm: float) -> list[_Slip]:
    """Slips of a diameter, the two of the decimal point first."""
    slips = [
        (diameter_mm * 10, ""),
        (diameter_mm / 10, ""),
        (diameter_mm * MM_PER_INCH / 1000, "thousandths of an inch, not mm"),
        (diameter_mm * MM_PER_INCH, "inches, not mm"),
    ]
    if 0.1 <= diameter_mm <= 100:
        slips.append((diameter_of_go_mm(diameter_mm), "a gō number, not mm"))
    if 0 <= diameter_mm <= 10 and 2 * diameter_mm % 1 == 0:
        slips.append((diameter_of_x_mm(diameter_mm), "an X number, not mm"))
    return slips


def _meant_units(breaks_at_kg: float) -> list[_Slip]:
    """Slips of a strain's unit."""
    return [
        (breaks_at_kg * KG_PER_LB, f"{breaks_at_kg:g} lb, not kg"),
        (breaks_at_kg / KG_PER_LB, f"{breaks_at_kg / KG_PER_LB:.3g} kg, not lb"),
    ]


def _sensible(diameter_mm: float, breaks_at_kg: float) -> bool:
    return (
        SENSIBLE_MM[0] <= diameter_mm <= SENSIBLE_MM[1]
        and SENSIBLE_KG[0] <= breaks_at_kg <= SENSIBLE_KG[1]
    )


def _landing(
    material: Material, diameters: Sequence[_Slip], strains: Sequence[_Slip], unit: str
) -> list[Meaning]:
    """The combinations that land in the material's own band."""
    return [
        _meaning(d, kg, (d_says, kg_says), unit)
        for d, d_says in diameters
        for kg, kg_says in strains
        if _sensible(d, kg) and in_band(material, d, kg)
    ]


def _fitting_another(
    material: Material, diameters: Sequence[_Slip], breaks_at_kg: float, unit: str
) -> list[Meaning]:
    """The diameters that, at this strain, land in the usual band of another material."""
    return [
        _meaning(d, breaks_at_kg, (says, f"{other.name}, not {material.name}"), unit)
        for d, says in diameters
        for other in MATERIALS
        if other is not material
        and _sensible(d, breaks_at_kg)
        and other.low_mpa <= stress_mpa(d, breaks_at_kg) <= other.high_mpa
    ]


def _meaning(diameter_mm: float, breaks_at_kg: float, remarks: Sequence[str], unit: str) -> Meaning:
    beside = "; ".join(remark for remark in remarks if remark)
    strain = breaks_at_kg / KG_PER_LB if unit == "lb" else breaks_at_kg
    words = f"{_plain(diameter_mm)} mm at {strain:.3g} {unit}" + (f" ({beside})" if beside else "")
    return Meaning(words, diameter_mm, breaks_at_kg, stress_mpa(diameter_mm, breaks_at_kg))


def in_band(material: Material, diameter_mm: float, breaks_at_kg: float) -> bool:
    """Whether the stress at the stated strain is one that this material can have.

    Bands: from memory.
    """
    return material.low_mpa <= stress_mpa(diameter_mm, breaks_at_kg) <= material.most_mpa


def _plain(diameter_mm: float) -> str:
    text = f"{diameter_mm:.3f}"
    return text[:-1] if text.endswith("0") else text
