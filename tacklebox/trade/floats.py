"""Floats: kinds, how each is fixed to the line, and the capacity that a mark means."""

import re
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.limits import within, write_rounded
from tacklebox.trade.quantities import read_mass_g
from tacklebox.trade.shot import read_mark
from tacklebox.trade.sources import MEMORY, OUR_CHOICE, PRINTED, Source

FLOAT_KINDS = ("waggler straight", "waggler insert", "waggler loaded", "stick", "pole")

# A waggler is fixed by its bottom end only; stick and pole floats top and bottom
# (common practice).
FIXED_AT = {
    "waggler straight": "one point",
    "waggler insert": "one point",
    "waggler loaded": "one point",
    "stick": "two points",
    "pole": "two points",
}

# g of shot carried: the middle of what guides give, which differ (at 4×10 from 0.10 to 0.15).
POLE_MARKS: dict[str, tuple[float, Source]] = {
    "3×10": (0.09, MEMORY),
    "4×10": (0.125, MEMORY),
    "4×12": (0.20, MEMORY),
    "4×14": (0.40, MEMORY),
    "4×16": (0.50, MEMORY),
    "4×18": (0.75, MEMORY),
    "4×20": (1.00, MEMORY),
    "5×20": (1.25, MEMORY),
}
CAPACITY_LIMIT_G = 100.0
OWN_MASS_TIMES = 1.25  # a float's own mass to what it carries in all, inside and out (from memory)


@dataclass(frozen=True, slots=True)
class Capacity:
    """What a float carries: grams of shot (weighed in air), the mark, and its source."""

    mark: str
    mass_g: float
    source: Source


GIVE_OF_POLE_MARK = 0.10  # published tables differ by so much (from memory)
GIVES_OF_MARKS_G = {"4×10": 0.025}  # where tables differ by more (from memory)
GIVE_OF_PRINT = 0.05  # of what is printed on any other float (our choice)


def give_g(mark: str, carries_g: float) -> tuple[float, Source]:
    """By how much a float may carry more or less than its mark says, in g, and where that is from.

    A tenth for a pole float's mark, on which tables differ; a twentieth for any other. What it
    carried in a bucket overrides the mark.

    >>> give_g("4×16", 0.5)[0], give_g("4×10", 0.125)[0], give_g("5BB", 2.0)[0]
    (0.05, 0.025, 0.1)
    """
    is_pole = "×" in mark
    share, source = (GIVE_OF_POLE_MARK, MEMORY) if is_pole else (GIVE_OF_PRINT, OUR_CHOICE)
    return GIVES_OF_MARKS_G.get(mark, round(share * carries_g, 3)), source


def left_for_shot_g(carries_g: float, inside_g: float) -> float:
    """What a loaded float still takes in shot: what it carries in all less what is inside it.

    Both in g of shot; the load inside from 0 to below what the float carries, which goes up to
    100 g. Raises AskedWronglyError outside: loaded with more than it carries, a float sinks by
    itself.

    >>> round(left_for_shot_g(4.0, 2.5), 3)
    1.5
    """
    within(carries_g, 0, CAPACITY_LIMIT_G, "a float capacity", "g", above=True)
    within(inside_g, 0, CAPACITY_LIMIT_G, "a load inside", "g")
    if inside_g >= carries_g:
        inside, carries = write_rounded(inside_g), write_rounded(carries_g)
        raise AskedWronglyError(
            f"with {inside} g inside, a float that carries {carries} g in all sinks by itself.",
            right=f"Inside may be less than {carries} g; or the float carries more than that.",
        )
    return carries_g - inside_g


@dataclass(frozen=True, slots=True)
class OwnMass:
    """What a float itself weighs, in g, loads inside included, and where that is from."""

    mass_g: float
    source: Source = MEMORY


def checked_own_mass_g(mass_g: float, typed: str = "", where: str = "") -> float:
    """The mass itself. Raises AskedWronglyError for one that no float has: 0.01 to 200 g."""
    return within(mass_g, 0.01, 200, "a float's own mass", "g", typed=typed, where=where)


def usual_own_mass_g(carries_g: float, inside_g: float = 0.0) -> float:
    """What a float itself weighs, in g, that nobody put on a scale: 1.25 (C + L) + L.

    ``carries_g`` is what it takes in shot, C, above 0, up to 100 g; ``inside_g`` what is inside it
    besides, L, from 0 on. Raises AskedWronglyError outside. From memory.

    >>> usual_own_mass_g(2.0), usual_own_mass_g(1.5, 2.5)
    (2.5, 7.5)
    """
    within(carries_g, 0, CAPACITY_LIMIT_G, "a float capacity", "g", above=True)
    within(inside_g, 0, CAPACITY_LIMIT_G, "a load inside", "g")
    return OWN_MASS_TIMES * (carries_g + inside_g) + inside_g


def inside_g(mark: str) -> float:
    """What a float's mark says is inside it already, in g of shot; 0 where it says nothing.

    >>> inside_g("2+2AAA"), inside_g("2+1 g"), inside_g("5BB")
    (1.6, 2.0, 0.0)
    >>> inside_g("4 g+2BB"), inside_g("2SSG+2BB")
    (4.0, 3.2)
    """
    if weighed := _LOADED_G.match(mark):
        return float(weighed.group(1))
    counted = _COUNT_MARK.match(mark)
    if not counted or not counted.group(1):
        return 0.0
    return float(counted.group(1)) * _one_inside_g(counted)


def _one_inside_g(counted: re.Match[str]) -> float:
    """What one of those inside weighs: "2+2AAA" has the same inside as on the line."""
    inside = counted.group(2) or counted.group(4)
    return 1.0 if inside.lower() == "g" else read_mark(inside).mass_g


_POLE = re.compile(r"^(\d)\s*[x×*]\s*(\d{2})$", re.IGNORECASE)
_LOADED_G = re.compile(  # grams inside, and grams to put on
    r"^(\d{1,2}(?:\.\d{1,2})?)\s*(?:g\s*)?\+\s*(\d{1,2}(?:\.\d{1,2})?)\s*g$", re.IGNORECASE
)
_COUNT_MARK = re.compile(
    r"^(?:(\d{1,2}(?:\.\d)?)\s*(g|[a-z]{2,4})?\s*\+\s*)?(\d{1,2}(?:\.\d{1,2})?)\s*[x×]?\s*"
    r"((?:no|number|nr)\.?\s*\d+s?|[a-z]+)$",
    re.IGNORECASE,
)


def _by_count(text: str) -> Capacity | None:
    """A capacity by so many shot, "2.5SSG" too; of "2+2AAA" the first two are inside already."""
    counted = _COUNT_MARK.match(text)
    if not counted or counted.group(4).lower() == "g":
        return None
    try:
        shot = read_mark(counted.group(4))
        loaded_g = _one_inside_g(counted)
    except AskedWronglyError:
        return None
    of = ""
    if counted.group(2) and loaded_g != shot.mass_g:
        of = " g" if counted.group(2).lower() == "g" else read_mark(counted.group(2)).mark
    inside = f"{float(counted.group(1)):g}{of}+" if counted.group(1) else ""
    count = float(counted.group(3))
    mass = count * shot.mass_g
    if not 0 < mass <= CAPACITY_LIMIT_G:
        return None
    spaced = " " if shot.mark.startswith("No") else ""
    return Capacity(f"{inside}{count:g}{spaced}{shot.mark}", mass, shot.source)


def read_capacity(text: str) -> Capacity:
    """The capacity that a float's mark means: "5BB", "2.5SSG", "6 No 4", "0.75 g", "4×14".

    Of a loaded float ("2+2AAA", "4 g+2BB", "2+1 g") it is what is put on the line, without what is
    inside. In grams of shot, nominal: a capacity measured in a bucket overrides it. Range: more than 0,
    up to 100 g. Raises AskedWronglyError for a mark it does not know.

    >>> read_capacity("5BB").mass_g, read_capacity("4x14").mark, read_capacity("0.75g").mass_g
    (2.0, '4×14', 0.75)
    >>> round(read_capacity("6 No 4").mass_g, 3), read_capacity("2+2AAA").mass_g
    (1.2, 1.6)
    >>> read_capacity("2g + 1g").mark, read_capacity("2+1 g").mass_g
    ('2+1 g', 1.0)
    >>> read_capacity("4g+2bb").mark, read_capacity("2ssg + 2bb").mass_g
    ('4 g+2BB', 0.8)
    """
    plain = text.strip()
    pole = _POLE.match(plain)
    if pole:
        mark = f"{pole.group(1)}×{pole.group(2)}"
        if mark not in POLE_MARKS:
            raise AskedWronglyError(
                f'no capacity is known for the mark "{mark}".',
                right="Known: " + ", ".join(POLE_MARKS) + "; or give it in grams.",
            )
        return Capacity(mark, *POLE_MARKS[mark])
    if by_count := _by_count(plain):
        return by_count
    loaded = _LOADED_G.match(plain)
    try:
        mass = float(loaded.group(2)) if loaded else read_mass_g(plain)
    except AskedWronglyError:
        mass = 0.0
    if not 0 < mass <= CAPACITY_LIMIT_G:
        raise AskedWronglyError(
            f'"{text}" is no float capacity.', right='Write it like "5BB", "0.75 g" or "4×14".'
        )
    from tacklebox.trade.quantities import write_mass

    inside = f"{float(loaded.group(1)):g}+" if loaded else ""
    return Capacity(f"{inside}{write_mass(mass)}", mass, PRINTED)


def one_sort_capacity(text: str) -> Capacity:
    """The capacity that is asked for, where nobody says whether the float is loaded; in g of shot.

    Two sorts of shot, "3AAA+1BB", may both be on the line, or the first is inside a loaded float. Raises
    AskedWronglyError for that, too, with both ways to say it; else as ``read_capacity``.

    >>> one_sort_capacity("5BB").mass_g, one_sort_capacity("2+2AAA").mass_g
    (2.0, 1.6)
    """
    counted = _COUNT_MARK.match(text.strip())
    if counted and (counted.group(2) or "g").lower() != "g" and (made := _by_count(text.strip())):
        inside = inside_g(made.mark)
        on_line = made.mark.rpartition("+")[2]
        if inside and on_line != made.mark:
            raise AskedWronglyError(
                f'"{text}" may be all on the line, or the first of it inside a loaded float.',
                right=f'Write "{inside + made.mass_g:g} g" for all of it on the line, '
                f'or "{on_line}" if the rest is inside.',
            )
    return read_capacity(text)
