"""How a figure is told that was computed or that nobody said: in the units which the angler wants first.

What he said stays in his own words, whatever is set. ``in_units`` holds for all that is told within
it; where nothing is set, each figure is told as is usual for it. Factors: NIST SP 811, appendix B.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from math import ceil, floor

from tacklebox.trade.quantities import (
    G_PER_OZ,
    KG_PER_LB,
    MM_PER_INCH,
    write_length,
    write_mass,
    write_strain_kg,
)

METRIC, IMPERIAL = "metric", "imperial"
UNITS = (IMPERIAL, METRIC)

_LEAST_MM, _MOST_IN_INCHES_MM, _MOST_IN_FEET_MM = MM_PER_INCH, 36 * MM_PER_INCH, 10_000.0
_PARTS = ("", " 1/4", " 1/2", " 3/4")
_YARD_MM = 36 * MM_PER_INCH
_STEPS_CM, _STEPS_IN = (5, 10, 20, 50, 100, 200, 500), (2, 4, 6, 12, 24, 60, 120, 240)


@dataclass
class UnitsWanted:
    """The units that are wanted first, "" as is usual, None while nobody has looked yet."""

    first: str | None = None


_wanted: ContextVar[UnitsWanted | None] = ContextVar("units wanted first", default=None)


@contextmanager
def in_units(first: str | None) -> Iterator[UnitsWanted]:
    """What is told within it is told so; None: as ``wanted`` is given before the first figure."""
    wanted = UnitsWanted(first)
    before = _wanted.set(wanted)
    try:
        yield wanted
    finally:
        _wanted.reset(before)


def wanted() -> UnitsWanted | None:
    """What is wanted where this is called; None where nobody asked for any."""
    return _wanted.get()


def first() -> str:
    """The units told first, "" where each figure is told as is usual for it."""
    now = _wanted.get()
    return (now.first if now else "") or ""


def show_length(length_mm: float) -> str:
    """A length, from 0 mm: metric as ``write_length`` writes it; in the others from an inch on, to a
    quarter inch below a yard, an inch below 10 m, then to half a yard. ``read_length_mm`` reads it
    back, rounded.

    >>> show_length(457.2)
    '45.7 cm'
    >>> with in_units("imperial"):
    ...     [show_length(mm) for mm in (15, 101, 457.2, 1300, 30_000)]
    ['15 mm', '4 in', '18 in', '4 ft 3 in', '33 yd']
    """
    if first() != IMPERIAL or length_mm < _LEAST_MM:
        return write_length(length_mm)
    if length_mm >= _MOST_IN_FEET_MM:
        return f"{round(length_mm / MM_PER_INCH / 18) / 2:g} yd"
    quarters = round(length_mm / MM_PER_INCH * 4)
    if length_mm < _MOST_IN_INCHES_MM and quarters < 4 * 36:
        return f"{quarters // 4}{_PARTS[quarters % 4]} in"
    return _feet(length_mm)


def show_nearly(length_mm: float) -> str:
    """A length that is known only about, from 0 mm: to a centimetre, or to an inch.

    >>> show_nearly(457.2)
    '46 cm'
    >>> with in_units("imperial"):
    ...     show_nearly(457.2), show_nearly(1300)
    ('18 in', '4 ft 3 in')
    """
    if first() != IMPERIAL:
        return f"{length_mm / 10:.0f} cm"
    if length_mm < _MOST_IN_INCHES_MM:
        return f"{length_mm / MM_PER_INCH:.0f} in"
    return _feet(length_mm)


def _feet(length_mm: float) -> str:
    return feet_and_inches(4 * round(length_mm / MM_PER_INCH))


def feet_and_inches(quarters: int) -> str:
    """So many quarter inches, from one on.

    >>> feet_and_inches(4 * 60), feet_and_inches(4 * 82 + 2), feet_and_inches(3)
    ('5 ft', '6 ft 10 1/2 in', '3/4 in')
    """
    feet, rest = divmod(quarters, 48)
    inches = f"{rest // 4 or ''}{_PARTS[rest % 4]}".strip()
    return " ".join(filter(None, (f"{feet} ft" if feet else "", f"{inches} in" if inches else "")))


def given_length(given: str, length_mm: float, *, least: bool) -> str:
    """A length as a law or byelaw gives it, from 0 mm, with the unit that is told first beside it where
    that is another: rounded so that who keeps to it keeps to the law, up for the ``least`` that is
    allowed, else down; to a quarter inch, from 10 m on to half a yard.

    >>> given_length("30 m", 30_000, least=True)
    '30 m'
    >>> with in_units("imperial"):
    ...     given_length("30 m", 30_000, least=True), given_length("40 cm", 400, least=False)
    ('30 m (33 yd)', '40 cm (15 1/2 in)')
    """
    if first() != IMPERIAL or length_mm < _LEAST_MM:
        return given
    turn = ceil if least else floor
    if length_mm >= _MOST_IN_FEET_MM:
        return f"{given} ({turn(2 * length_mm / _YARD_MM) / 2:g} yd)"
    quarters = turn(length_mm / MM_PER_INCH * 4)
    return f"{given} ({quarters // 4}{_PARTS[quarters % 4]} in)"


def given_mass(given: str, mass_g: float) -> str:
    """A mass as a law gives it, from 0 g, with the unit that is told first beside it where that is
    another.

    >>> with in_units("imperial"):
    ...     given_mass("28.35 g", 28.35), given_mass("0.06 g", 0.06)
    ('28.35 g (1 oz)', '0.06 g')
    """
    told = show_mass(mass_g)
    return given if first() != IMPERIAL or told == given else f"{given} ({told})"


def depth_marks(deep_mm: float, most: int = 6) -> tuple[tuple[float, str], ...]:
    """Where an axis of depth is marked down to ``deep_mm``, above 0, and with what: ``most`` even steps
    from 0 at the most, in centimetres, or in feet, near the top in inches.

    >>> depth_marks(1600)
    ((0.0, '0 cm'), (500.0, '50 cm'), (1000.0, '100 cm'), (1500.0, '150 cm'))
    >>> with in_units("imperial"):
    ...     depth_marks(1000)
    ((0.0, '0 ft'), (304.8, '1 ft'), (609.6, '2 ft'), (914.4, '3 ft'))
    """
    in_feet = first() == IMPERIAL
    unit_mm, unit, shown = (MM_PER_INCH, "in", 1) if in_feet else (10.0, "cm", 1)
    deep = deep_mm / unit_mm
    step = next((one for one in (_STEPS_IN if in_feet else _STEPS_CM) if deep / one <= most), deep)
    if in_feet and step % 12 == 0:
        unit, shown = "ft", 12
    count = int(deep / step + 1e-6)
    return tuple(
        (round(n * step * unit_mm, 1), f"{n * step / shown:g} {unit}") for n in range(count + 1)
    )


def show_distance(from_hook_mm: float) -> tuple[str, str]:
    """A distance on a rig as near as it is laid, and its unit: to 5 mm, from 20 cm on to 1 cm; or to a
    quarter of an inch, from 8 inches on to half of one. "" for nothing.

    >>> show_distance(115.0), show_distance(1391.7), show_distance(0.0)
    (('11.5', 'cm'), ('139', 'cm'), ('', 'cm'))
    >>> with in_units("imperial"):
    ...     show_distance(115.0), show_distance(1391.7)
    (('4.5', 'in'), ('55', 'in'))
    """
    fine, coarse, unit_mm, unit = 5.0, 10.0, 10.0, "cm"
    if first() == IMPERIAL:
        fine, coarse, unit_mm, unit = MM_PER_INCH / 4, MM_PER_INCH / 2, MM_PER_INCH, "in"
    step = fine if from_hook_mm < 200 else coarse
    rounded = round(from_hook_mm / step) * step / unit_mm
    return (f"{rounded:g}" if rounded else ""), unit


def show_strain(breaks_at_kg: float, usual: str = IMPERIAL) -> str:
    """A strain in one unit, to a tenth of a pound or two decimals of a kilogram; ``usual`` is which,
    where nothing is set.

    >>> show_strain(0.5), show_strain(0.5, METRIC), show_strain(1.8144)
    ('1.1 lb', '0.5 kg', '4 lb')
    """
    if (first() or usual) == METRIC:
        return write_strain_kg(round(breaks_at_kg, 2))
    return _lb(breaks_at_kg)


def show_spread(kg: float) -> str:
    """By how much a strain may be other, to two figures, in the unit that ``show_strain`` has for
    tables.

    >>> show_spread(0.1234)
    '0.12 kg'
    """
    return f"{kg / KG_PER_LB:.2g} lb" if first() == IMPERIAL else f"{kg:.2g} kg"


def show_both_strains(breaks_at_kg: float) -> str:
    """A strain in kg and lb, as both stand on packets.

    >>> show_both_strains(1.8144)
    '1.81 kg (4 lb)'
    >>> with in_units("imperial"):
    ...     show_both_strains(1.8144)
    '4 lb (1.81 kg)'
    """
    kg, lb = f"{round(breaks_at_kg, 2):g} kg", _lb(breaks_at_kg)
    return f"{lb} ({kg})" if first() == IMPERIAL else f"{kg} ({lb})"


def show_read_strain(breaks_at_kg: float) -> str:
    """A strain in both units, first in that in which it was read: which of them has two decimals at most.

    >>> show_read_strain(1.17934016), show_read_strain(1.62)
    ('2.6 lb (1.18 kg)', '1.62 kg (3.6 lb)')
    """
    lb = breaks_at_kg / KG_PER_LB
    if abs(lb - round(lb, 2)) < 1e-6 < abs(breaks_at_kg - round(breaks_at_kg, 2)):
        return f"{round(lb, 2):g} lb ({round(breaks_at_kg, 2):g} kg)"
    return show_both_strains(breaks_at_kg)


def _lb(breaks_at_kg: float) -> str:
    return f"{round(breaks_at_kg / KG_PER_LB, 1):g} lb"


def show_mass(mass_g: float) -> str:
    """A mass: metric as ``write_mass`` writes it; in the others from an ounce on, to a quarter ounce
    below a pound, then to an ounce.

    >>> show_mass(0.06), show_mass(850)
    ('0.06 g', '850 g')
    >>> with in_units("imperial"):
    ...     [show_mass(grams) for grams in (0.06, 42.5, 850)]
    ['0.06 g', '1 1/2 oz', '1 lb 14 oz']
    """
    if first() != IMPERIAL or mass_g < G_PER_OZ:
        return write_mass(mass_g)
    quarters = round(mass_g / G_PER_OZ * 4)
    if quarters < 4 * 16:
        return f"{quarters // 4}{_PARTS[quarters % 4]} oz"
    pounds, ounces = divmod(round(mass_g / G_PER_OZ), 16)
    return f"{pounds} lb {ounces} oz" if ounces else f"{pounds} lb"


def show_weighed(weight_g: float) -> str:
    """A weight as it is told after a match, in metric and in pounds and ounces: kilograms to 10 g, less
    than that to three figures, ounces whole. First what is told first; pounds where it is in quarters
    of an ounce and no whole grams, for so it was said. ``read_weighed_g`` reads it back, rounded so.

    >>> show_weighed(2353.0), show_weighed(85.0), show_weighed(0)
    ('2.35 kg (5 lb 3 oz)', '85 g (3 oz)', '0 kg (a blank)')
    >>> show_weighed(5669.904625), show_weighed(99.223)
    ('12 lb 8 oz (5.67 kg)', '3 1/2 oz (99.2 g)')
    >>> with in_units("imperial"):
    ...     show_weighed(2353.0), show_weighed(0)
    ('5 lb 3 oz (2.35 kg)', '0 lb (a blank)')
    """
    if not weight_g:
        return f"0 {'lb' if first() == IMPERIAL else 'kg'} (a blank)"
    quarters = round(4 * weight_g / G_PER_OZ)
    was_said = _is_said_in_ounces(weight_g)
    pounds, left = divmod(quarters if was_said else 4 * round(weight_g / G_PER_OZ), 64)
    ounces = f"{left // 4 or ''}{_PARTS[left % 4]}".strip()
    imperial = " ".join(f"{n} {unit}" for n, unit in ((pounds, "lb"), (ounces, "oz")) if n)
    kilos = f"{weight_g / 1000:.2f}".rstrip("0").rstrip(".")
    metric = f"{kilos} kg" if weight_g >= 999.5 else f"{weight_g:.3g} g"
    if imperial and (was_said or first() == IMPERIAL):
        return f"{imperial} ({metric})"
    return f"{metric} ({imperial or 'under 1 oz'})"


def _is_said_in_ounces(weight_g: float) -> bool:
    """Whether a weight, which may be kept to a tenth of a gram, is in quarters of an ounce and no whole
    grams; few that were said in grams are."""
    quarters = 4 * weight_g / G_PER_OZ
    return (
        abs(weight_g - round(quarters) * G_PER_OZ / 4) < 0.06 and not float(weight_g).is_integer()
    )
