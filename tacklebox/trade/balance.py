"""How a float sits: what of its tip shows as each weight registers, and how it ends.

A float's capacity is the mass of shot, weighed in air, that takes it down to the very end of its
tip in water of 10 °C. Shot of another material than it was rated in pulls more or less under water,
and in warmer water the float itself carries less.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from tacklebox.trade.floats import CAPACITY_LIMIT_G, usual_own_mass_g
from tacklebox.trade.hanging import NOTHING, Hanging
from tacklebox.trade.limits import within
from tacklebox.trade.quantities import STANDARD_GRAVITY
from tacklebox.trade.shot import Load, weight_material
from tacklebox.trade.water import USUAL_C, share_in_water, skin_n_m, water_density_kg_m3

RATED_IN = "tin"  # what shot a capacity is rated in unless said otherwise (common practice)
DOTTED_MM = 8.0  # the last few millimetres of the tip (our choice)
SPECK_MM = 1.0  # our choice
FINEST_G = 0.005  # half a No 13: a float is set no finer (our choice)
SKIN_SHARE = 1 / 3  # of what the water's skin can pull with that it usually does (from memory)


@dataclass(frozen=True, slots=True)
class Tip:
    """The part of a float that is watched: its diameter and its length, in mm.

    Raises AskedWronglyError unless 0.3 ≤ diameter ≤ 15 and 2 ≤ length ≤ 400.
    """

    diameter_mm: float
    length_mm: float

    def __post_init__(self) -> None:
        within(self.diameter_mm, 0.3, 15, "the diameter of a float's tip", "mm")
        within(self.length_mm, 2, 400, "the length of a float's tip", "mm")

    def lift_g_per_mm(self, temperature_c: float = USUAL_C) -> float:
        """What each mm of tip carries when under water, in grams: ρw · π d²/4."""
        area_mm2 = math.pi * self.diameter_mm**2 / 4
        return water_density_kg_m3(temperature_c) * area_mm2 * 1e-6

    @property
    def finest_mm(self) -> float:
        """How much of the tip half a No 13 of tin moves: by less than that nobody sets a float.

        >>> round(Tip(1.2, 25.0).finest_mm, 1)
        3.8
        """
        return FINEST_G * _share_of("tin", USUAL_C) / self.lift_g_per_mm()

    def skin_most_mm(self, temperature_c: float = USUAL_C) -> float:
        """How far the water's skin can hold the tip up or pull it down: σ π d over what a mm of
        it carries, 4σ / (ρw g d), in mm.

        Up where the tip is greased, down where it is wet; it is one unknown offset for one float,
        the same for every pattern. Sources: IAPWS R1-76(2014); Archimedes' principle.

        >>> round(Tip(3.0, 60.0).skin_most_mm(), 1), round(Tip(1.2, 25.0).skin_most_mm(), 1)
        (10.1, 25.2)
        """
        pull_g = 1000 * skin_n_m(temperature_c) * math.pi * self.diameter_mm / 1000
        return pull_g / STANDARD_GRAVITY / self.lift_g_per_mm(temperature_c)

    def skin_usual_mm(self, temperature_c: float = USUAL_C) -> float:
        """The offset that the water's skin usually makes, either way: a third of the most it can
        (from memory).

        >>> round(Tip(3.0, 60.0).skin_usual_mm(), 1)
        3.4
        """
        return SKIN_SHARE * self.skin_most_mm(temperature_c)


class Place(StrEnum):
    """Where weights sit: what registers together, but of droppers each by itself."""

    LOCK = "lock shot"
    UNDER = "under the float"
    BULK = "bulk"
    SPREAD = "spread"
    DROPPER = "dropper"


@dataclass(frozen=True, slots=True)
class Group:
    """Weights of one place, from the float down; ``material`` is that of loads that name none."""

    what: Place
    loads: tuple[Load, ...]
    material: str = RATED_IN

    @property
    def mass_g(self) -> float:
        """Mass of all of them together, weighed in air, in g."""
        return math.fsum(load.total_g for load in self.loads)

    def material_of(self, load: Load) -> str:
        """What one of its loads is made of."""
        return weight_material(load.material or self.material).name

    def acts_as_g(self, rated_in: str = RATED_IN, temperature_c: float = USUAL_C) -> float:
        """Mass of shot of ``rated_in`` that pulls as much under water as all of them, in g."""
        return math.fsum(
            equal_mass_g(load.total_g, self.material_of(load), rated_in, temperature_c)
            for load in self.loads
        )


@dataclass(frozen=True, slots=True)
class Stage:
    """How the float sits once a group has sunk to its place.

    ``shows_mm`` is the tip above water, at most the whole tip; below 0 the float is under and
    stands for the tip that would be wanting. The water's skin is left out: see ``Tip.skin_usual_mm``.
    """

    what: str
    added: str
    registered_g: float  # in grams of the shot the float is rated in
    shows_mm: float
    says: str


def equal_mass_g(
    mass_g: float, material: str, rated_in: str = RATED_IN, temperature_c: float = USUAL_C
) -> float:
    """Mass of shot of ``rated_in`` that pulls as much under water: m (1 − ρw/ρ) / (1 − ρw/ρᵣ).

    Masses in g, water in °C. Raises AskedWronglyError for an unknown material. Densities:
    Due West Anglers, "Don't overlook split shot"; tables of elements; tungsten's alloys from
    memory.

    >>> round(equal_mass_g(2.0, "lead", "tin"), 2)
    2.11
    """
    have = share_in_water(weight_material(material).density_g_cm3, temperature_c)
    return mass_g * have / _share_of(rated_in, temperature_c)


def _share_of(rated_in: str, temperature_c: float) -> float:
    return share_in_water(weight_material(rated_in).density_g_cm3, temperature_c)


def checked_capacity(capacity_g: float) -> float:
    """The capacity itself. Raises AskedWronglyError for one that no float has."""
    return within(capacity_g, 0, CAPACITY_LIMIT_G, "a float capacity", "g", above=True)


def carries_at_g(
    capacity_g: float, temperature_c: float, rated_in: str = RATED_IN, own_g: float | None = None
) -> float:
    """What a float carries in water of another temperature, in g of shot of ``rated_in``.

    The float's own buoyancy moves with the water's density: what its body displaces weighs
    W + C · s(10 °C) at 10 °C, with W its own mass, C the capacity and s the share of its weight that
    shot pulls; so it carries ((W + C · s(10)) · ρ(t)/ρ(10) − W) / s(t). Capacity in g, above 0, up
    to 100; water in °C, 0–30; W taken as 1.25 · C where nobody weighed the float (from memory).
    Raises AskedWronglyError outside. Source: Archimedes' principle.

    >>> round(carries_at_g(2.0, 10.0), 6), round(carries_at_g(2.0, 20.0), 4)
    (2.0, 1.9922)
    """
    own = usual_own_mass_g(checked_capacity(capacity_g)) if own_g is None else own_g
    displaces = own + capacity_g * _share_of(rated_in, USUAL_C)
    lighter = water_density_kg_m3(temperature_c) / water_density_kg_m3(USUAL_C)
    return (displaces * lighter - own) / _share_of(rated_in, temperature_c)


def words_for(shows_mm: float, tip: Tip) -> str:
    """How a tip that shows so much is called."""
    if shows_mm >= tip.length_mm - 1e-9:
        return "the whole tip stands clear"
    if shows_mm < -tip.finest_mm:
        return "sinks"
    if shows_mm <= SPECK_MM:
        return "a speck shows"
    if shows_mm <= DOTTED_MM:
        return "dotted down"
    much = "a good length" if shows_mm > tip.length_mm / 2 else "some"
    return f"{much} of tip shows"


def _singly(
    groups: Sequence[Group], rated_in: str, temperature_c: float
) -> Iterator[tuple[str, str, float]]:
    """Groups as (what, added, what it acts as in g); each dropper is a stage of its own, in their
    order down the line whatever they are made of."""
    droppers = 0
    for group in groups:
        if group.what is not Place.DROPPER:
            words = " + ".join(str(load) for load in group.loads)
            yield group.what, words, group.acts_as_g(rated_in, temperature_c)
            continue
        for load in group.loads:
            words = f"olivette {load.mark}" if load.kind == "olivette" else load.mark
            one = equal_mass_g(load.mass_g, group.material_of(load), rated_in, temperature_c)
            for _ in range(load.count):
                droppers += 1
                yield f"dropper {droppers}", words, one


def stages(
    capacity_g: float,
    tip: Tip,
    groups: Sequence[Group],
    *,
    hanging: Hanging = NOTHING,
    rated_in: str = RATED_IN,
    temperature_c: float = USUAL_C,
    own_g: float | None = None,
) -> tuple[Stage, ...]:
    """What shows of the tip with the float alone, then as each group registers, top down.

    By Archimedes: shows = (capacity − registered, both as pull in water) / (ρw π d²/4), at most the
    whole tip. Groups run from the float down: lock shot, bulk, droppers (one stage each); last comes
    what hangs beside them. What lies on the bottom is not among the groups. Capacity in g, above 0,
    up to 100, found at 10 °C and taken to ``temperature_c`` as in ``carries_at_g``. Raises
    AskedWronglyError outside.

    >>> from tacklebox.trade.shot import read_pattern
    >>> for stage in stages(2.0, Tip(3.0, 60.0), [
    ...     Group(Place.LOCK, read_pattern("2 AAA")),
    ...     Group(Place.BULK, read_pattern("4 No 8 + No 11")),
    ...     Group(Place.DROPPER, read_pattern("2 No 10"))]):
    ...     print(f"{stage.what}: {stage.shows_mm:.1f} mm, {stage.says}")
    float alone: 60.0 mm, the whole tip stands clear
    lock shot: 48.8 mm, a good length of tip shows
    bulk: 15.9 mm, some of tip shows
    dropper 1: 11.0 mm, some of tip shows
    dropper 2: 6.1 mm, dotted down
    """
    carries = carries_at_g(capacity_g, temperature_c, rated_in, own_g)
    rated = _share_of(rated_in, temperature_c)
    lift = tip.lift_g_per_mm(temperature_c)
    registered = 0.0
    steps = [("float alone", "", 0.0), *_singly(groups, rated_in, temperature_c)]
    if abs(hanging.pull_g) > 1e-9:
        steps.append((hanging.words, "", hanging.pull_g / rated))
    found = []
    for what, added, acts_as in steps:
        registered += acts_as
        left = (carries - registered) * rated / lift
        shows = min(tip.length_mm, 0.0 if abs(left) < 1e-6 else left)
        found.append(Stage(what, added, registered, shows, words_for(shows, tip)))
    return tuple(found)
