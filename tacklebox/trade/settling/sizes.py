"""What hooks and baits weigh, how big they are and how fast they sink, with the ground for each.

What the angler has measured himself goes before all of it: make the dataclass with his figure and
``MEASURED``.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.trade.hooks import read_hook_order, write_hook_order
from tacklebox.trade.limits import within
from tacklebox.trade.settling.drag import short_cylinder_drag_n, water_at
from tacklebox.trade.sources import MEASURED, MEMORY, Source, published
from tacklebox.trade.water import USUAL_C

STEEL_G_CM3 = 7.85
PELLETS = published("Vassallo et al. 2006, settling of fish feed pellets (in sea water; abstract)")
HOOK_LIMIT_MG = 5000.0
FASTEST_BAIT_M_S = 1.0
SINKING_SPREAD = 0.15  # of a bait's speed, from one to the next (from memory)


@dataclass(frozen=True, slots=True)
class FallingHook:
    """A hook as it falls: its mass, and its wire straightened out.

    Raises AskedWronglyError unless it weighs 0.5 mg to 5 g.
    """

    size: str
    mass_mg: float
    wire_mm: float
    wire_length_mm: float
    source: Source = MEMORY

    def __post_init__(self) -> None:
        hint = "Weigh twenty: a size 20 is about 10 mg, a size 12 about 45."
        within(self.mass_mg, 0.5, HOOK_LIMIT_MG, "a hook", "mg", where="hook", hint=hint)
        within(self.wire_mm, 0, 5, "a hook's wire", "mm", above=True, where="hook")
        within(self.wire_length_mm, 0, 200, "a hook's wire", "mm", above=True, where="hook")


_HOOKS = {  # size: mg, wire mm, wire straightened mm (all from memory)
    26: (4.0, 0.26, 8.0),
    24: (5.0, 0.28, 9.0),
    22: (7.0, 0.30, 11.0),
    20: (10.0, 0.34, 13.0),
    18: (14.0, 0.37, 15.0),
    16: (20.0, 0.42, 18.0),
    14: (30.0, 0.47, 21.0),
    12: (45.0, 0.53, 25.0),
    10: (65.0, 0.60, 29.0),
    8: (90.0, 0.66, 34.0),
}


def hook_of_size(size: str) -> FallingHook:
    """A hook of that size; odd sizes lie midway between two even ones.

    Range: sizes 26 to 8. Raises AskedWronglyError outside. All from memory.

    >>> hook_of_size("20").mass_mg, hook_of_size("19").mass_mg
    (10.0, 12.0)
    """
    number = -read_hook_order(size)
    smaller, bigger = _HOOKS.get(int(number + number % 2)), _HOOKS.get(int(number - number % 2))
    if smaller is None or bigger is None:
        raise AskedWronglyError(
            f"what a hook of size {write_hook_order(-number)} weighs is not known.",
            where="hook",
            right="Weigh twenty of them; sizes 26 to 8 are known from memory.",
        )
    mass, wire, length = ((one + other) / 2 for one, other in zip(smaller, bigger, strict=True))
    return FallingHook(write_hook_order(-number), mass, wire, length)


def hook_weighed(size: str, mass_mg: float) -> FallingHook:
    """A hook of that size that the angler has weighed; its wire is still from memory.

    Mass of one in mg, 0.5 to 5000. The wire of a size beyond 26 to 8 is that of the nearest, thicker
    and longer as the cube root of the mass. Raises AskedWronglyError outside.

    >>> hook_weighed("20", 9.0).source.basis.value
    'own measurement'
    >>> hook_weighed("6", 720.0).wire_mm, hook_of_size("8").wire_mm
    (1.32, 0.66)
    """
    number = -read_hook_order(size)
    known = hook_of_size(write_hook_order(-min(max(number, min(_HOOKS)), max(_HOOKS))))
    weighed = replace(known, size=size, mass_mg=mass_mg, source=MEASURED)
    if min(_HOOKS) <= number <= max(_HOOKS):
        return weighed
    bigger = math.cbrt(mass_mg / known.mass_mg)
    return replace(
        weighed, wire_mm=known.wire_mm * bigger, wire_length_mm=known.wire_length_mm * bigger
    )


@dataclass(frozen=True, slots=True)
class FallingBait:
    """A bait as a short cylinder, and the speed at which it sinks by itself, in m/s.

    ``timed_c`` is how warm the water was in which it was timed. A speed of 0 or below is a bait that
    floats. Raises AskedWronglyError for sizes that no bait has and for water that is not fished.
    """

    name: str
    sinks_m_s: float
    diameter_mm: float
    length_mm: float
    source: Source = MEMORY
    timed_c: float = USUAL_C

    def __post_init__(self) -> None:
        water_at(self.timed_c)
        within(
            self.sinks_m_s,
            -FASTEST_BAIT_M_S,
            FASTEST_BAIT_M_S,
            "a bait's sinking",
            "m/s",
            where="bait",
            hint="Time it over a metre of water: a maggot takes about 25 s.",
        )
        hint = "A maggot is about 3 × 11 mm."
        within(self.diameter_mm, 0.2, 50, "a bait's thickness", "mm", where="bait", hint=hint)
        within(self.length_mm, 0.2, 100, "a bait's length", "mm", where="bait", hint=hint)

    def weight_n(self) -> float:
        """Its weight in water, in N: the drag at the speed at which it sinks; 0 if it floats.

        The speed is that in water of ``timed_c``; in warmer water it then sinks faster.

        >>> round(1e6 * bait_named("maggot").weight_n(), 1)
        24.9
        """
        speed = max(0.0, self.sinks_m_s)
        across, length = self.diameter_mm / 1000, self.length_mm / 1000
        return short_cylinder_drag_n(speed, across, length, water_at(self.timed_c))


BAITS: tuple[FallingBait, ...] = (
    FallingBait("maggot", 0.04, 3.0, 11.0),
    FallingBait("pinkie", 0.03, 2.0, 7.0),
    FallingBait("caster", 0.03, 3.5, 9.0),
    FallingBait("3 mm pellet", 0.087, 3.0, 3.0, PELLETS),
    FallingBait("4 mm pellet", 0.11, 4.0, 4.0, PELLETS),  # between the two that were measured
    FallingBait("5 mm pellet", 0.144, 5.0, 5.0, PELLETS),
)


def plain_bait(name: str) -> str:
    """A bait's name as it is kept: in small letters, one of them.

    >>> plain_bait(" Maggots"), plain_bait("4 mm pellets"), plain_bait("bread")
    ('maggot', '4 mm pellet', 'bread')
    """
    plain = " ".join(name.lower().split())
    one = plain.removesuffix("s")
    return one if any(bait.name == one for bait in BAITS) else plain


def bait_named(name: str) -> FallingBait:
    """The bait of that name. Raises AskedWronglyError for one whose sinking is not known.

    >>> bait_named("Maggot").sinks_m_s
    0.04
    """
    plain = plain_bait(name)
    for bait in BAITS:
        if bait.name == plain:
            return bait
    raise AskedWronglyError(
        f'how fast "{name}" sinks is not known.',
        where="bait",
        right="Time it over a metre of water. " + nearest_word(name, [b.name for b in BAITS]),
    )


def bait_timed(
    name: str, distance_m: float, seconds: float, timed_c: float = USUAL_C
) -> FallingBait:
    """A bait that the angler has timed over a distance; its size as known, else a maggot's.

    Distance 0.05 to 10 m, time 0.1 to 1000 s, in water of ``timed_c``. Raises AskedWronglyError
    outside.

    >>> round(bait_timed("maggot", 1.0, 24.0).sinks_m_s, 4)
    0.0417
    """
    hint = "Time it over about a metre; a maggot takes about 25 s."
    within(distance_m, 0.05, 10, "a bait's way down", "m", where="bait", hint=hint)
    within(seconds, 0.1, 1000, "a bait's time", "s", where="bait", hint=hint)
    plain = plain_bait(name)
    known = next((bait for bait in BAITS if bait.name == plain), BAITS[0])
    speed = distance_m / seconds
    return replace(known, name=plain, sinks_m_s=speed, source=MEASURED, timed_c=timed_c)


@dataclass(frozen=True, slots=True)
class Timing:
    """One timing of a bait: how far it sank, in m, in how many s, in water how warm."""

    distance_m: float
    seconds: float
    water_c: float = USUAL_C


def bait_from_timings(name: str, timings: Sequence[Timing]) -> FallingBait:
    """A bait by all of his timings of it: the whole way over the whole time, Σ s / Σ t.

    The water's temperature is their mean by time. Each timing as ``bait_timed`` has it; raises
    AskedWronglyError outside, ValueError for none.

    >>> round(bait_from_timings("maggot", [Timing(1.0, 24.0), Timing(1.0, 26.0)]).sinks_m_s, 4)
    0.04
    """
    if not timings:
        raise ValueError("there is no timing")
    for one in timings:
        bait_timed(name, one.distance_m, one.seconds, one.water_c)  # checks the ranges
    time = math.fsum(one.seconds for one in timings)
    far = math.fsum(one.distance_m for one in timings)
    warm = math.fsum(one.seconds * one.water_c for one in timings) / time
    plain = plain_bait(name)
    known = next((bait for bait in BAITS if bait.name == plain), BAITS[0])
    return replace(known, name=plain, sinks_m_s=far / time, source=MEASURED, timed_c=warm)


def loose_feed_lands_s(bait: FallingBait, depth_m: float) -> float:
    """How long a bait thrown in loose takes to the bed: depth / its sinking speed, in s.

    Depth in m, above 0; raises ValueError for that and for a bait that floats. The moment in which
    it comes up to its speed is left out.

    >>> round(loose_feed_lands_s(bait_named("maggot"), 1.8), 1)
    45.0
    """
    if depth_m <= 0 or bait.sinks_m_s <= 0:
        raise ValueError("a depth and a sinking speed are more than 0")
    return depth_m / bait.sinks_m_s
