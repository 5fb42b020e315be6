"""Reading what anglers write and writing what this can read back.

One internal unit for each quantity: millimetres for lengths and diameters, grams for
masses, kilograms for strains (a strain in lb or kg is a force; it is kept in the unit
that the packet prints), millilitres for volumes.

Factors: 1 lb = 0.453 592 37 kg, 1 oz = 28.349 523 125 g, 1 in = 25.4 mm, all exact
(NIST SP 811, appendix B); 1 dram = 1/16 oz.
"""

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from tacklebox.errors import AskedWronglyError

KG_PER_LB = 0.45359237
G_PER_OZ = 28.349523125
MM_PER_INCH = 25.4
STANDARD_GRAVITY = 9.80665  # m/s²
ML_PER_PINT = 568.26125  # imperial pint

LENGTH_MM: Mapping[str, float] = {
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "metre": 1000.0,
    "metres": 1000.0,
    "in": MM_PER_INCH,
    "inch": MM_PER_INCH,
    "inches": MM_PER_INCH,
    '"': MM_PER_INCH,
    "ft": 12 * MM_PER_INCH,
    "foot": 12 * MM_PER_INCH,
    "feet": 12 * MM_PER_INCH,
    "'": 12 * MM_PER_INCH,
    **dict.fromkeys(("yd", "yds", "yard", "yards"), 36 * MM_PER_INCH),
}
MASS_G: Mapping[str, float] = {
    "mg": 0.001,
    "g": 1.0,
    "kg": 1000.0,
    "oz": G_PER_OZ,
    "dram": G_PER_OZ / 16,
    "drams": G_PER_OZ / 16,
    "lb": 16 * G_PER_OZ,
    "lbs": 16 * G_PER_OZ,
}
STRAIN_KG: Mapping[str, float] = {
    "kg": 1.0,
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), KG_PER_LB),
    "oz": KG_PER_LB / 16,
    "g": 0.001,
}
VOLUME_ML: Mapping[str, float] = {
    "ml": 1.0,
    "l": 1000.0,
    "pint": ML_PER_PINT,
    "pints": ML_PER_PINT,
}

# What is absurd for tackle; a figure beyond is refused as a slip.
LENGTH_LIMIT_MM = 10_000_000.0  # 10 km of line
MASS_LIMIT_G = 100_000.0
STRAIN_LIMIT_KG = 1000.0
DIAMETER_LIMIT_MM = 10.0
VOLUME_LIMIT_ML = 100_000.0

_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8", "⅜": "3/8"}
_NUMBER = r"\d+\s+\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?|[.,]\d+"
_TERM = re.compile(rf"\s*({_NUMBER})\s*([a-zA-Z]+|[\"'])?")
_NEXT = {"ft": "in", "foot": "in", "feet": "in", "'": "in", **dict.fromkeys(("lb", "lbs"), "oz")}
_PARTS = {"in": 12, "oz": 16}  # of the unit before it
_WORDS = {  # as a depth is spoken: "five foot", "two inch over", "half a metre"
    "half an": "1/2", "half a": "1/2", "an": "1", "a": "1", "one": "1", "two": "2", "three": "3", "four": "4",
    "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9", "ten": "10", "eleven": "11",
    "twelve": "12",
}  # fmt: skip
_WORD = re.compile(rf"\b(?:{'|'.join(_WORDS)})\b(?!-)", re.IGNORECASE)


def read_number(text: str) -> float:
    """A plain number as people write it: "0.14", "0,14", "3/4", "1 1/2", "½".

    Raises AskedWronglyError for anything else, for a fraction over zero, and for "1,000", which is a
    thousand to some and one to others.

    >>> read_number("1 1/2"), read_number("0,14"), read_number("¾")
    (1.5, 0.14, 0.75)
    """
    plain = _spell_out(text).strip()
    if found := re.fullmatch(r"([1-9]\d{0,2})[,.](000)|([1-9]\d{0,2}),(\d{3})", plain):
        whole, after = (part for part in found.groups() if part)
        either = f"{whole}.{after}".rstrip("0").rstrip(".")
        raise AskedWronglyError(
            f'"{plain}" may be {whole}{after} or {either}.',
            right=f'Write "{whole}{after}" or "{either}".',
        )
    if not re.fullmatch(_NUMBER, plain):
        raise AskedWronglyError(f'"{text}" is no number.', right='Write it like "1.5" or "3/4".')
    try:
        parts = plain.replace(",", ".").split()
        return float(sum(Fraction(p) for p in parts))
    except (ZeroDivisionError, ValueError, OverflowError):
        raise AskedWronglyError(f'"{text}" is no number.', right='Write it like "3/4".') from None


def _spell_out(text: str) -> str:
    for sign, fraction in _VULGAR.items():
        text = text.replace(sign, f" {fraction}")
    return text.replace("″", '"').replace("′", "'").replace("”", '"').replace("’", "'")


def _in_figures(text: str) -> str:
    """Its small numbers in figures: "five foot six" is "5 foot 6"."""
    if not text[:1].isalpha() or " " not in text:
        return text
    return _WORD.sub(lambda word: _WORDS[" ".join(word[0].lower().split())], text)


def _read(
    text: str, what: str, units: Mapping[str, float], limit: float, bare: float | None, example: str
) -> float:
    """Sum of "number unit" terms ("3 ft 6 in"), checked to be positive and not absurd."""
    total, position, terms, before = 0.0, 0, 0, ""
    plain = _spell_out(_in_figures(text.strip()))
    right = f'Write it like "{example}".'
    if len(text) > 80:
        raise AskedWronglyError(f'"{text[:40]}…" is too long for a {what}.', right=right)
    while position < len(plain) and plain[position:].strip():
        term = _TERM.match(plain, position)
        if not term:
            raise AskedWronglyError(f'"{text}" is no {what}.', right=right)
        number, unit = term.group(1), term.group(2)
        smaller = _NEXT.get(before, "")
        if (
            unit is None
            and smaller in units
            and number.isdecimal()
            and int(number) < _PARTS[smaller]
        ):
            unit = smaller  # "4 foot 6", "1lb 8"
        before = (unit or "").lower()
        if unit is None and (bare is None or terms):
            raise AskedWronglyError(f'"{text}" has no unit for a {what}.', right=right)
        factor = bare if unit is None else units.get(unit, units.get(unit.lower()))
        if factor is None:
            known = ", ".join(u for u in units if u.isalpha())
            raise AskedWronglyError(
                f'"{unit}" in "{text}" is no unit of a {what}.', right=f"Use one of: {known}."
            )
        total += read_number(number) * factor
        position, terms = term.end(), terms + 1
    if not terms:
        raise AskedWronglyError(f"a {what} is missing.", right=right)
    if not 0 < total <= limit or not math.isfinite(total):
        raise AskedWronglyError(
            f'"{text}" cannot be a {what}.',
            right="It must be more than nothing." if total <= 0 else right,
        )
    return total


def read_length_mm(text: str) -> float:
    """A length in mm, from mm, cm, m, inches, feet or yards, also added up ("3 ft 6 in") and as it is
    spoken ("five foot", "4 foot 6").

    Range: more than 0, up to 10 km. Raises AskedWronglyError without a unit or beyond it.
    Factors: NIST SP 811, appendix B.

    >>> read_length_mm("18 in"), read_length_mm("1.2 m"), round(read_length_mm("3 ft 6 in"), 1)
    (457.2, 1200.0, 1066.8)
    >>> round(read_length_mm("five foot")), round(read_length_mm("3 foot 6"), 1)
    (1524, 1066.8)
    """
    return _read(text, "length", LENGTH_MM, LENGTH_LIMIT_MM, None, "40 cm")


def read_diameter_mm(text: str) -> float:
    """A line's or tip's diameter in mm, from mm, inches or thousandths of an inch ("6 thou"); a bare
    number is mm, as on spools.

    Range: more than 0, up to 10 mm. Raises AskedWronglyError.

    >>> read_diameter_mm("0.14"), read_diameter_mm("0,14 mm")
    (0.14, 0.14)
    """
    thou = MM_PER_INCH / 1000
    units = {"mm": 1.0, "in": MM_PER_INCH, '"': MM_PER_INCH, "thou": thou}
    return _read(text, "diameter", units, DIAMETER_LIMIT_MM, 1.0, "0.14 mm")


def read_strain_kg(text: str) -> float:
    """A breaking strain in kg, from kg, g, lb or oz ("1 lb 8 oz").

    Range: more than 0, up to 1000 kg. Raises AskedWronglyError. Factors: NIST SP 811.

    >>> round(read_strain_kg("4 lb"), 4), read_strain_kg("1.9 kg")
    (1.8144, 1.9)
    """
    return _read(text, "strain", STRAIN_KG, STRAIN_LIMIT_KG, None, "4 lb")


def read_mass_g(text: str) -> float:
    """A mass in g, from mg, g, oz, drams, lb or kg ("3/4 oz").

    Range: more than 0, up to 100 kg. Raises AskedWronglyError. Factors: NIST SP 811.

    >>> round(read_mass_g("3/4 oz"), 2), read_mass_g("30g")
    (21.26, 30.0)
    """
    return _read(text, "mass", MASS_G, MASS_LIMIT_G, None, "30 g")


def read_volume_ml(text: str) -> float:
    """A volume in ml, from ml, litres or imperial pints.

    Range: more than 0, up to 100 litres. Raises AskedWronglyError.

    >>> read_volume_ml("40 ml")
    40.0
    """
    return _read(text, "volume", VOLUME_ML, VOLUME_LIMIT_ML, None, "40 ml")


def _digits(value: float, most: int) -> str:
    text = f"{value:.{most}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def write_length(length_mm: float) -> str:
    """A length in the unit an angler would use; ``read_length_mm`` reads it back.

    Below 10 cm in mm, below 3 m in cm, beyond in m; kept to 0.1 mm, 0.1 cm and 1 cm.

    >>> write_length(457.2), write_length(15.0), write_length(100_000)
    ('45.7 cm', '15 mm', '100 m')
    """
    if length_mm < 99.95:
        return f"{_digits(length_mm, 1)} mm"
    if length_mm < 2999.5:
        return f"{_digits(length_mm / 10, 1)} cm"
    return f"{_digits(length_mm / 1000, 2)} m"


def write_diameter(diameter_mm: float) -> str:
    """A diameter in mm to at least two decimals ("0.10 mm", "0.085 mm")."""
    text = f"{diameter_mm:.3f}"
    return f"{text[:-1] if text.endswith('0') else text} mm"


def write_strain_kg(breaks_at_kg: float) -> str:
    """A strain in kg alone, for where there is no room; ``read_strain_kg`` reads it back."""
    return f"{_digits(breaks_at_kg, 3)} kg"


def write_strain_as_printed(breaks_at_kg: float) -> str:
    """A strain in lb where it is a whole number of quarter pounds, else in kg.

    >>> write_strain_as_printed(1.81436948), write_strain_as_printed(1.9)
    ('4 lb', '1.9 kg')
    """
    quarters = breaks_at_kg / KG_PER_LB * 4
    if abs(quarters - round(quarters)) < 1e-6 and round(quarters) > 0:
        return f"{round(quarters) / 4:g} lb"
    return write_strain_kg(breaks_at_kg)


def write_mass(mass_g: float) -> str:
    """A mass in g to the milligram; ``read_mass_g`` reads it back.

    >>> write_mass(0.06), write_mass(30.0)
    ('0.06 g', '30 g')
    """
    return f"{_digits(mass_g, 3)} g"


def write_volume(volume_ml: float) -> str:
    """A volume in ml; ``read_volume_ml`` reads it back."""
    return f"{_digits(volume_ml, 1)} ml"


@dataclass(frozen=True, slots=True)
class Range:
    """What is asked for: anything from ``low`` to ``high``, both included.

    >>> Range(0.13, 0.15).contains(0.14), Range(1.6, math.inf).contains(1.5)
    (True, False)
    """

    low: float
    high: float

    def contains(self, value: float) -> bool:
        """Whether the value lies inside, to a millionth of the value."""
        slack = 1e-6 * max(abs(value), 1e-3)
        return self.low - slack <= value <= self.high + slack

    @property
    def middle(self) -> float:
        """The middle of the ask; the stated end where the other is open."""
        if math.isinf(self.high):
            return self.low
        return (self.low + self.high) / 2 if self.low > 0 else self.high


_BETWEEN = re.compile(r"^(.+?)\s*(?:\bto\b|–|—|(?<=\d)\s*-\s*(?=[\d.,]))\s*(.+)$")
_AT_LEAST = re.compile(
    r"(?:at least|min(?:imum|\.)?(?: of)?|over|more than|above|>=?|≥)\s*(.+)"
    r"|(.+?)\s*(?:or|and) (?:more|over|above|stronger|thicker|longer|up)",
    re.IGNORECASE,
)
_AT_MOST = re.compile(
    r"(?:at most|max(?:imum|\.)?(?: of)?|up to|under|less than|below|<=?|≤)\s*(.+)"
    r"|(.+?)\s*(?:or|and) (?:less|under|below|weaker|finer|thinner|shorter)",
    re.IGNORECASE,
)
_TRAILING_UNIT = re.compile(r"[\d.,/\s]+([a-zA-Z\"']+)\s*$")


def read_range(text: str, reader: Callable[[str], float]) -> Range:
    """A range as an angler writes it, each end read by ``reader``.

    Forms: "0.13 to 0.15 mm", "0.13–0.15 mm", "at least 1.6 kg", "4 lb or more", "at most 5 lb",
    "up to 5 lb", and a single value. A unit at the end serves both ends. Raises AskedWronglyError, also for
    a range that runs backwards.

    >>> read_range("0.13 to 0.15 mm", read_diameter_mm)
    Range(low=0.13, high=0.15)
    >>> read_range("at least 1.6 kg", read_strain_kg)
    Range(low=1.6, high=inf)
    """
    plain = text.strip()
    if least := _AT_LEAST.fullmatch(plain):
        return Range(reader(least[1] or least[2]), math.inf)
    if most := _AT_MOST.fullmatch(plain):
        return Range(0.0, reader(most[1] or most[2]))
    between = _BETWEEN.match(plain)
    if not between:
        value = reader(plain)
        return Range(value, value)
    first, second = between.group(1), between.group(2)
    unit = _TRAILING_UNIT.match(second)
    if unit and not re.search(r"[a-zA-Z\"']", first):
        first = f"{first} {unit.group(1)}"
    low, high = reader(first), reader(second)
    if low > high:
        raise AskedWronglyError(
            f'"{text}" runs backwards.', right="Write the smaller figure first."
        )
    return Range(low, high)


_WEIGHED = re.compile(r"(\d{1,6})\s*(?:lbs?|[-–])\s*(\d{1,6}(?:[.,]\d{1,6})?)", re.IGNORECASE)
_BLANK = re.compile(r"0+(?:[.,]0+)?\s*(?:kg|g|lbs?|oz)?(?:\s*0+\s*oz)?", re.IGNORECASE)
WEIGHED_LIMIT_G = 1_000_000.0


def read_weighed_g(text: str) -> float:
    """What was weighed in at a match, in g: a mass, pounds and ounces as "12 lb 8" or "12-8", and
    0 for a blank. What stands in brackets at the end is passed over, as in "2.35 kg (5 lb 3 oz)".

    Range: from 0 up to 1000 kg; the ounces beside pounds below 16. Raises AskedWronglyError.
    Factors: NIST SP 811, appendix B.

    >>> read_weighed_g("12-8") == read_weighed_g("12 lb 8") == read_mass_g("12 lb 8 oz")
    True
    >>> read_weighed_g("0 kg"), read_weighed_g("2.35 kg (5 lb 3 oz)")
    (0.0, 2350.0)
    """
    plain = re.sub(r"\([^()]*\)$", "", text.strip()).strip()
    if _BLANK.fullmatch(plain) or plain in ("0-0", "0–0"):
        return 0.0
    if short := _WEIGHED.fullmatch(plain):
        pounds, ounces = float(short.group(1)), read_number(short.group(2))
        if ounces >= 16:
            raise AskedWronglyError(
                f'"{text}" has {short.group(2)} ounces beside its pounds.',
                right='A pound has 16: write it like "12 lb 8 oz" or "12-8".',
            )
        plain = f"{pounds * 16 + ounces} oz"
    example = '5.4 kg", "12 lb 8 oz" or "12-8'
    return _read(plain, "weight", MASS_G, WEIGHED_LIMIT_G, None, example)
