"""Split shot, styls and olivettes: masses by mark, materials, and patterns like "2 AAA + 4 No 8".

There is no binding standard for shot; these are nominal masses. An angler's own
weighing of twenty shot overrides them.
"""

import re
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.trade.quantities import read_mass_g, write_mass
from tacklebox.trade.sources import MEMORY, PRINTED, SHOT_DENSITIES, SHOT_GUIDE, Basis, Source

UNTIL_WEIGHED = Source(Basis.CHOICE, "until you weigh twenty")


@dataclass(frozen=True, slots=True)
class Shot:
    """One size of split shot: its mark, nominal mass in grams, and where that is from."""

    mark: str
    mass_g: float
    source: Source

    @property
    def must_be_weighed(self) -> bool:
        """Whether nobody has published or remembers what it weighs."""
        return self.source is UNTIL_WEIGHED


SHOT: tuple[Shot, ...] = (
    Shot("SSG", 1.60, SHOT_GUIDE),
    Shot("AAA", 0.80, SHOT_GUIDE),
    Shot("AB", 0.60, MEMORY),
    Shot("BB", 0.40, SHOT_GUIDE),
    Shot("No 1", 0.30, SHOT_GUIDE),
    Shot("No 2", 0.27, MEMORY),
    Shot("No 3", 0.25, MEMORY),
    Shot("No 4", 0.20, SHOT_GUIDE),
    Shot("No 5", 0.15, MEMORY),
    Shot("No 6", 0.10, SHOT_GUIDE),
    Shot("No 7", 0.08, MEMORY),
    Shot("No 8", 0.06, SHOT_GUIDE),
    Shot("No 9", 0.05, SHOT_GUIDE),
    Shot("No 10", 0.04, SHOT_GUIDE),
    Shot("No 11", 0.03, SHOT_GUIDE),
    Shot("No 12", 0.02, SHOT_GUIDE),
    Shot("No 13", 0.01, SHOT_GUIDE),
    Shot("No 14", 0.008, UNTIL_WEIGHED),
)
STYLS: tuple[Shot, ...] = (
    Shot("styl 11", 0.034, MEMORY),
    Shot("styl 10", 0.027, MEMORY),
    Shot("styl 9", 0.020, MEMORY),
    Shot("styl 8", 0.016, MEMORY),
    Shot("styl 7", 0.012, MEMORY),
)
BY_MARK = {shot.mark: shot for shot in (*SHOT, *STYLS)}
STYL_MARKS = frozenset(styl.mark for styl in STYLS)


@dataclass(frozen=True, slots=True)
class WeightMaterial:
    """What a weight is made of: name, density in g/cm³, and where that is from."""

    name: str
    density_g_cm3: float
    source: Source


# Tungsten olivettes are alloys of 15 to 18 g/cm³; the metal itself has 19.25.
WEIGHT_MATERIALS: tuple[WeightMaterial, ...] = (
    WeightMaterial("tin", 7.29, SHOT_DENSITIES),
    WeightMaterial("tungsten", 16.5, MEMORY),
    WeightMaterial("lead", 11.34, SHOT_DENSITIES),
)


def weight_material(word: str) -> WeightMaterial:
    """The material of a weight by name. Raises AskedWronglyError for an unknown one."""
    for material in WEIGHT_MATERIALS:
        if material.name == word.strip().lower():
            return material
    names = [m.name for m in WEIGHT_MATERIALS]
    raise AskedWronglyError(f'"{word}" is no weight material.', right=nearest_word(word, names))


_NUMBERED = re.compile(r"^(styls?)?\s*(?:no\.?|number|nr\.?|#|size)?\s*(\d{1,2})s?$", re.IGNORECASE)


def read_mark(text: str) -> Shot:
    """The shot or styl of that mark: "AAA", "No 8", "no.8", "8", "styl 9".

    Raises AskedWronglyError for a mark that is not in the table.

    >>> read_mark("no. 8").mass_g, read_mark("aaa").mark
    (0.06, 'AAA')
    """
    plain = text.strip()
    numbered = _NUMBERED.match(plain)
    mark = plain.upper()
    if numbered:
        mark = f"{'styl' if numbered.group(1) else 'No'} {int(numbered.group(2))}"
    if mark in BY_MARK:
        return BY_MARK[mark]
    raise AskedWronglyError(
        f'"{text}" is no shot size.', right="Sizes: " + ", ".join(BY_MARK) + "."
    )


@dataclass(frozen=True, slots=True)
class Load:
    """So many weights of one size: split shot by mark, or an olivette by its grams."""

    count: int
    mark: str  # "AAA", "No 8"; for an olivette its mass, "0.4 g"
    mass_g: float  # of one
    kind: str = "shot"  # or "olivette"
    source: Source | None = None  # of the mass, where it is not the table's
    material: str | None = None  # where it is not its group's

    @property
    def form(self) -> str:
        """What it is sold as: "shot", "styl" or "olivette"."""
        return "styl" if self.mark in STYL_MARKS else self.kind

    @property
    def mass_source(self) -> Source:
        """Where the mass of one is from: its own weighing, the table, an olivette's packet."""
        if self.source is not None:
            return self.source
        return PRINTED if self.kind == "olivette" else BY_MARK[self.mark].source

    @property
    def total_g(self) -> float:
        """Mass of all of them together, in g."""
        return self.count * self.mass_g

    def __str__(self) -> str:
        words = f"olivette {self.mark}" if self.kind == "olivette" else self.mark
        return words if self.count == 1 and self.kind == "olivette" else f"{self.count} {words}"


_OLIVETTE = re.compile(
    r"^(?:(\d{1,6})\s*[x×]?\s+)?(?:olivettes?\s+(.+)|(\d[\d.,]*\s*g)\s+olivettes?)$", re.IGNORECASE
)
_COUNTED = re.compile(
    r"^(\d{1,6})\s*[x×]?\s*((?:styls?\s*)?(?:no|number|nr)\.?\s*\d+s?|styls?\s*\d+|[a-z]+)$",
    re.IGNORECASE,
)
_BY_NUMBER = re.compile(r"^(\d{1,6})(?:\s*[x×]\s*(\d{1,2})|\s+(\d{1,2})s)$", re.IGNORECASE)
_BEHIND = re.compile(r"^([a-z].*?)\s*[x×]\s*(\d{1,6})$", re.IGNORECASE)
MOST_SHOT = 200


def _counted(term: str) -> tuple[int, str]:
    """How many, and of which mark: "4 No 8", "2x8", "3 10s", "No 12 x 2", "a No 10"."""
    if behind := _BEHIND.match(term):
        return int(behind[2]), behind[1]
    if numbered := _BY_NUMBER.match(term):
        return int(numbered[1]), numbered[2] or numbered[3]
    if counted := _COUNTED.match(term):
        return int(counted[1]), counted[2]
    return 1, re.sub(r"^(?:an?|one)\s+", "", term, flags=re.IGNORECASE)


def read_pattern(text: str) -> tuple[Load, ...]:
    """A shot pattern: "2 AAA + 4 No 8", "BB", "olivette 0.4 g", "2 8s and a No 10".

    Raises AskedWronglyError for an unknown size, a count of none, or more than 200 shot.

    >>> [str(load) for load in read_pattern("2 AAA + 4 no.8 + olivette 0.4g")]
    ['2 AAA', '4 No 8', 'olivette 0.4 g']
    >>> [str(load) for load in read_pattern("2x8, 3 10s and No 12 x 2")]
    ['2 No 8', '3 No 10', '2 No 12']
    >>> round(pattern_mass_g(read_pattern("6 No 4")), 3)
    1.2
    """
    loads = []
    for term in re.split(r"\s*(?:[+,&]|\band\b)\s*", text.strip()):
        olivette = _OLIVETTE.match(term)
        if olivette:
            mass = read_mass_g(olivette.group(2) or olivette.group(3))
            loads.append(Load(int(olivette.group(1) or 1), write_mass(mass), mass, "olivette"))
            continue
        count, mark = _counted(term)
        shot = read_mark(mark)
        loads.append(Load(count, shot.mark, shot.mass_g))
    if any(load.count < 1 for load in loads) or sum(load.count for load in loads) > MOST_SHOT:
        raise AskedWronglyError(
            f'"{text}" has no sensible number of shot.', right=f"From 1 to {MOST_SHOT} in all."
        )
    return tuple(loads)


def pattern_mass_g(loads: tuple[Load, ...]) -> float:
    """Mass of a whole pattern, in g."""
    return sum(load.total_g for load in loads)


def write_pattern(loads: tuple[Load, ...]) -> str:
    """A pattern in words; ``read_pattern`` reads it back."""
    return " + ".join(str(load) for load in loads)
