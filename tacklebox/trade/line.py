"""Fishing line: materials, densities, the stress that a stated strain means, number systems."""

import math
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.trade.quantities import KG_PER_LB, MM_PER_INCH, STANDARD_GRAVITY
from tacklebox.trade.sources import FIBRE_DENSITIES, MEMORY, Source


@dataclass(frozen=True, slots=True)
class Material:
    """A line material: density, and the band of stress (MPa) that honest figures fall in.

    A reading outside ``low_mpa``–``high_mpa`` is a slip of the pen, unless ``lenient``:
    gel-spun diameters are often understated, so there a high reading is a remark.
    """

    name: str
    words: tuple[str, ...]
    density_g_cm3: float
    low_mpa: float
    high_mpa: float
    lenient: bool = False
    density_source: Source = FIBRE_DENSITIES
    band_source: Source = MEMORY


# Nylon's band is that of soft and pre-stretched nylon together.
MATERIALS: tuple[Material, ...] = (
    Material("nylon", ("nylon", "mono", "monofilament", "polyamide"), 1.14, 500, 1600),
    Material("fluorocarbon", ("fluorocarbon", "fluoro", "pvdf"), 1.78, 500, 900),
    Material("gel-spun", ("gel-spun", "braid", "braided", "polyethylene"), 0.97, 1500, 3600, True),
)
BY_WORD = {word: material for material in MATERIALS for word in material.words}


def material_named(word: str) -> Material:
    """The line material of that name, or of a word anglers use for it ("mono", "braid").

    Raises AskedWronglyError for a word that is no line material.

    >>> material_named("braid").name
    'gel-spun'
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

    Range: 0.1–100. Raises ValueError outside it. No. 0.8 = 0.148, No. 1 = 0.165 and No. 1.2 = 0.185 in the
    standard of the Japan Fishing Tackle Manufacturers Association; the rest by the rule,
    which is common practice (it gives 0.181 at No. 1.2).

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


def likely_meanings(
    material: Material, diameter_mm: float, breaks_at_kg: float
) -> tuple[Meaning, ...]:
    """What figures outside the material's stress band were probably meant to be.

    Tries, one at a time: the diameter's decimal point one place either way, lb written
    as kg and kg as lb, thousandths of an inch written as mm, a gō number, an X number, a strain's decimal
    point; keeps those that land in the band, in that order. Empty when the figures are already in
    the band. Bands: from memory.

    >>> [m.words for m in likely_meanings(material_named("nylon"), 0.010, 1.0)]
    ['0.10 mm at 1 kg']
    """
    if in_band(material, diameter_mm, breaks_at_kg):
        return ()
    tries: list[tuple[float, float, str]] = [
        (diameter_mm * 10, breaks_at_kg, ""),
        (diameter_mm / 10, breaks_at_kg, ""),
        (diameter_mm, breaks_at_kg * KG_PER_LB, f" ({breaks_at_kg:g} lb, not kg)"),
        (diameter_mm, breaks_at_kg / KG_PER_LB, f" ({breaks_at_kg / KG_PER_LB:g} kg, not lb)"),
        (diameter_mm * MM_PER_INCH / 1000, breaks_at_kg, " (thousandths of an inch, not mm)"),
        (diameter_mm * MM_PER_INCH, breaks_at_kg, " (inches, not mm)"),
    ]
    if 0.1 <= diameter_mm <= 100:
        tries.append((diameter_of_go_mm(diameter_mm), breaks_at_kg, " (a gō number, not mm)"))
    if 0 <= diameter_mm <= 10:
        tries.append((diameter_of_x_mm(diameter_mm), breaks_at_kg, " (an X number, not mm)"))
    tries += [
        (diameter_mm, breaks_at_kg * 10, ""),
        (diameter_mm, breaks_at_kg / 10, ""),
    ]
    return tuple(
        Meaning(f"{_plain(d)} mm at {kg:.3g} kg{note}", d, kg, stress_mpa(d, kg))
        for d, kg, note in tries
        if in_band(material, d, kg)
    )


def in_band(material: Material, diameter_mm: float, breaks_at_kg: float) -> bool:
    """Whether the stress at the stated strain is one that this material can have.

    A lenient material is let through up to 10 000 MPa, which no fibre reaches
    (bands: from memory).
    """
    high = 10_000 if material.lenient else material.high_mpa
    return material.low_mpa <= stress_mpa(diameter_mm, breaks_at_kg) <= high


def _plain(diameter_mm: float) -> str:
    text = f"{diameter_mm:.3f}"
    return text[:-1] if text.endswith("0") else text
