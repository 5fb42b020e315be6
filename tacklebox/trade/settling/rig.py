"""A rig as it falls: what is asked of the angler, and what nonsense is refused.

What makes sense but cannot be computed as it stands is brought to the nearest that can be, by
``nearest_rig``, and said in words.
"""

import math
from dataclasses import dataclass, field, replace

from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.trade.balance import FINEST_G, Tip
from tacklebox.trade.floats import OwnMass, checked_own_mass_g, usual_own_mass_g
from tacklebox.trade.limits import within
from tacklebox.trade.quantities import STANDARD_GRAVITY
from tacklebox.trade.settling.drag import Water, water_at
from tacklebox.trade.settling.sizes import STEEL_G_CM3, FallingBait, FallingHook
from tacklebox.trade.shot import Load, pattern_mass_g, weight_material
from tacklebox.trade.sold_floats import write_about
from tacklebox.trade.sources import MEMORY, OUR_CHOICE, PRINTED, Source
from tacklebox.trade.water import USUAL_C

LONGEST_MM = 20_000.0
LEFT_OUT_MM = 3.0  # of a tip that its load would sink, so that it comes up again (our choice)
FAR_OFF_MM = 300.0  # off the bottom, that is worth saying (our choice)
MOST_WEIGHTS = 200
MOST_LOAD_G = 30_000.0  # so much shot as a rig may have, each as heavy as it may be
NYLON_G_CM3 = 1.14


@dataclass(frozen=True, slots=True)
class FallingFloat:
    """A float: what it carries in g of shot, its tip, and what of it the water moves.

    ``lock_g`` is the shot at the float itself, loads inside left out (they belong to its own mass).
    The body under water counts as a cylinder. ``held``: kept in its place, as by a pole's tip. Body
    and length are from memory; ``source`` is that of its own mass, ``capacity_source`` that of what it
    carries. Raises AskedWronglyError for
    figures that make no sense.
    """

    capacity_g: float
    tip: Tip
    lock_g: float = 0.0
    lock_material: str = "tin"
    rated_in: str = "tin"
    own_mass_g: float = 2.5
    body_mm: float = 6.0
    under_water_mm: float = 200.0
    held: bool = False
    source: Source = MEMORY
    capacity_source: Source = PRINTED

    def __post_init__(self) -> None:
        within(self.capacity_g, 0.01, MOST_LOAD_G, "a float capacity", "g", where="float")
        within(self.lock_g, 0, MOST_LOAD_G, "shot at the float", "g", where="float")
        checked_own_mass_g(self.own_mass_g, where="float")
        within(self.body_mm, 0.5, 60, "a float's body", "mm", where="float")
        within(self.under_water_mm, 1, 1000, "a float's length under water", "mm", where="float")
        weight_material(self.lock_material), weight_material(self.rated_in)


# A float's part under water as a cylinder, mm across and long, by the first word of its kind (from
# memory; from a pole float's to a fat waggler's it changes the times by 4 % less to 1 % more).
BODIES = {"waggler": (6.0, 200.0), "stick": (7.0, 130.0), "pole": (8.0, 30.0)}


def usual_float(
    kind: str, capacity_g: float, tip: Tip, lock_g: float = 0.0, own: OwnMass | None = None
) -> FallingFloat:
    """A float of that kind, by what it takes in shot; ``own`` None: nobody has weighed it.

    All but ``own`` from memory.
    Raises AskedWronglyError for a kind that is not known.

    >>> usual_float("waggler insert", 2.0, Tip(3.0, 60.0), lock_g=1.6).own_mass_g
    2.5
    >>> usual_float("pole", 0.4, Tip(1.2, 25.0)).body_mm
    8.0
    """
    name = kind.split(" ")[0]
    if name not in BODIES:
        raise AskedWronglyError(
            f'"{kind}" is no kind of float that falls are known of.',
            where="float",
            right=nearest_word(name, list(BODIES)),
        )
    body_mm, under_mm = BODIES[name]
    return FallingFloat(
        capacity_g,
        tip,
        lock_g,
        own_mass_g=own.mass_g if own else usual_own_mass_g(capacity_g),
        body_mm=body_mm,
        under_water_mm=under_mm,
        source=own.source if own else MEMORY,
    )


@dataclass(frozen=True, slots=True)
class LinePiece:
    """A piece of line, its diameter and density; nylon unless said otherwise.

    Raises AskedWronglyError unless it is 1 mm to 20 m long and 0.02 to 0.6 mm thick.
    """

    length_mm: float
    diameter_mm: float
    density_g_cm3: float = NYLON_G_CM3

    def __post_init__(self) -> None:
        within(self.length_mm, 1, LONGEST_MM, "a piece of line", "mm", where="line")
        within(self.diameter_mm, 0.02, 0.6, "a line's diameter", "mm", where="line")
        within(self.density_g_cm3, 0.8, 3, "a line's density", "g/cm³", where="line")


@dataclass(frozen=True, slots=True)
class Weights:
    """Shot or olivettes in one place, so far above the hook; each counts as a ball.

    ``material`` is that of loads that name none.
    Raises AskedWronglyError for a place that is no number, and for no or too heavy shot.
    """

    above_hook_mm: float
    loads: tuple[Load, ...]
    material: str = "tin"

    def __post_init__(self) -> None:
        weight_material(self.material)
        within(self.above_hook_mm, -LONGEST_MM, LONGEST_MM, "a shot's place", "mm", where="shot")
        if not self.loads:
            raise AskedWronglyError("there is a place without shot.", where="shot")
        for load in self.loads:
            within(load.count, 1, MOST_WEIGHTS, "a number of shot", where="shot")
            within(load.mass_g, 1e-4, 100, "a shot", "g", where="shot")

    @property
    def mass_g(self) -> float:
        """Mass of all of them, in g."""
        return pattern_mass_g(self.loads)

    def density_of(self, load: Load) -> float:
        """The density of one of its loads, in g/cm³."""
        return weight_material(load.material or self.material).density_g_cm3

    def pull_n(self, water: Water) -> float:
        """What all of them pull under water, in N."""
        return sum(pull_n(load.total_g, self.density_of(load), water) for load in self.loads)


@dataclass(frozen=True, slots=True)
class FallingRig:
    """Float, line from it down to the hook, shot, hook, bait, and the water.

    ``over_mm``: by how much the rig is set over the depth, so that this much of its line lies on the
    bed once it has settled; 0 is dead depth, below 0 off the bottom by so much; None: the hook hangs
    well clear of it. Wind in m/s, blowing from the float towards where the line is laid. Raises
    AskedWronglyError for figures that make no sense, and for a rig without line.
    """

    line: tuple[LinePiece, ...]
    hook: FallingHook
    bait: FallingBait | None = None
    shot: tuple[Weights, ...] = ()
    float_: FallingFloat | None = None
    over_mm: float | None = None
    temperature_c: float = USUAL_C
    wind_m_s: float = 0.0

    def __post_init__(self) -> None:
        if not self.line:
            raise AskedWronglyError("there is no line between float and hook.", where="line")
        within(self.length_mm, 20, LONGEST_MM, "a rig's length", "mm", where="line")
        if self.over_mm is not None:
            within(self.depth_mm, 50, LONGEST_MM, "a depth", "mm", where="depth")
        within(self.wind_m_s, -30, 30, "a wind", "m/s", where="wind")
        if sum(load.count for at in self.shot for load in at.loads) > MOST_WEIGHTS:
            raise AskedWronglyError(
                "there is more shot than any rig has.", where="shot", right=f"Up to {MOST_WEIGHTS}."
            )
        water_at(self.temperature_c)

    @property
    def length_mm(self) -> float:
        """From the float down to the hook, in mm."""
        return math.fsum(piece.length_mm for piece in self.line)

    @property
    def depth_mm(self) -> float:
        """The water's depth below the float's end as it settles; the line's length if not known."""
        return self.length_mm - (self.over_mm or 0.0)

    @property
    def down_mm(self) -> float:
        """How deep the hook can come below the float's end: its line, or the bed."""
        return min(self.length_mm, self.depth_mm)

    @property
    def lies_mm(self) -> float | None:
        """How far up from the hook the rig lies on the bed in the end; None: it hangs."""
        return self.over_mm if self.over_mm is not None and self.over_mm >= 0 else None

    @property
    def water(self) -> Water:
        """The water it falls through."""
        return water_at(self.temperature_c)


def pull_n(mass_g: float, density_g_cm3: float, water: Water) -> float:
    """What a weight pulls under water, in N: m g (1 − ρw/ρ); below 0 for what floats.

    >>> round(1000 * pull_n(0.06, 7.29, water_at(10.0)), 3)
    0.508
    """
    share = 1 - water.density_kg_m3 / (1000 * density_g_cm3)
    return mass_g / 1000 * share * STANDARD_GRAVITY


def hanging_n(rig: FallingRig, lies_mm: float | None = None) -> float:
    """What hangs on the float below its lock shot, in N; all up to ``lies_mm`` above the hook lies.

    None: all of it hangs. Line, shot, hook and bait, each as its weight in water. Source:
    Archimedes' principle.

    >>> from tacklebox.trade.settling.sizes import hook_of_size
    >>> rig = FallingRig((LinePiece(1000, 0.10),), hook_of_size("20"))
    >>> [round(1e6 * hanging_n(rig, lies)) for lies in (None, 0.0, 500.0)]
    [96, 11, 5]
    """
    water = rig.water
    total = 0.0
    if lies_mm is None:
        total += pull_n(rig.hook.mass_mg / 1000, STEEL_G_CM3, water)
        total += rig.bait.weight_n() if rig.bait else 0.0
    for at in rig.shot:
        if lies_mm is None or at.above_hook_mm > lies_mm:
            total += at.pull_n(water)
    end = rig.length_mm
    for piece in rig.line:
        start, end = end, end - piece.length_mm
        hangs_mm = max(0.0, start - max(end, lies_mm or 0.0))
        volume_cm3 = math.pi * piece.diameter_mm**2 / 4 * hangs_mm / 1000
        total += pull_n(volume_cm3 * piece.density_g_cm3, piece.density_g_cm3, water)
    return total


@dataclass(frozen=True, slots=True)
class Note:
    """Something that was computed otherwise than asked, or that the angler should know.

    ``key`` is what to decide on; ``says`` is for reading.
    """

    key: str
    says: str


@dataclass(frozen=True, slots=True)
class Nearest:
    """A rig as near to what was asked as can be computed, and what was done to it."""

    rig: FallingRig
    notes: tuple[Note, ...] = field(default=())


def nearest_rig(rig: FallingRig) -> Nearest:
    """The rig as it can be computed: each oddity has words of its own and a nearest figure.

    Shot below the hook goes to the hook, shot above the float to the float; a bait that floats
    counts as one without weight; a float that its load sinks, as one that carries it with 3 mm of tip
    out; no float, as line held at its upper end.

    >>> from tacklebox.trade.settling.sizes import hook_of_size
    >>> rig = FallingRig((LinePiece(1000, 0.10),), hook_of_size("20"))
    >>> [note.key for note in nearest_rig(rig).notes]
    ['no shot', 'no float']
    """
    notes: list[Note] = []
    rig = _shot_on_line(rig, notes)
    if not rig.shot:
        where = " down the line: only hook and bait take it down" if rig.float_ else ""
        notes.append(Note("no shot", f"there is no shot{where or ' on the line'}"))
    rig = _bait_that_sinks(rig, notes)
    rig = _float_that_carries(rig, notes)
    if rig.over_mm is not None and rig.over_mm < -FAR_OFF_MM:
        notes.append(
            Note("off bottom", f"the hook hangs {-rig.over_mm / 10:.0f} cm off the bottom")
        )
    return Nearest(rig, tuple(notes))


def _shot_on_line(rig: FallingRig, notes: list[Note]) -> FallingRig:
    """The rig with all its shot between float and hook."""
    kept: list[Weights] = []
    lock_g = rig.float_.lock_g if rig.float_ else 0.0
    lock = weight_material(rig.float_.lock_material if rig.float_ else "tin").density_g_cm3
    one_g_n = pull_n(1.0, lock, rig.water)
    for at in rig.shot:
        if at.above_hook_mm < 0:
            notes.append(
                Note("shot below hook", "there is shot below the hook: computed as at the hook")
            )
            kept.append(replace(at, above_hook_mm=0.0))
        elif at.above_hook_mm >= rig.length_mm:
            if at.above_hook_mm > rig.length_mm + 1e-6:
                says = "there is shot higher than the line is long: computed as at the float"
                notes.append(Note("shot above float", says))
            lock_g += at.pull_n(rig.water) / one_g_n
        else:
            kept.append(at)
    if rig.float_ is not None:
        rig = replace(rig, float_=replace(rig.float_, lock_g=lock_g))
    return replace(rig, shot=tuple(kept))


def _bait_that_sinks(rig: FallingRig, notes: list[Note]) -> FallingRig:
    if rig.bait is None or rig.bait.sinks_m_s > 0:
        return rig
    says = f"{rig.bait.name} floats: computed as a bait that weighs nothing in water"
    notes.append(Note("bait floats", says))
    return replace(rig, bait=replace(rig.bait, sinks_m_s=0.0))


def _float_that_carries(rig: FallingRig, notes: list[Note]) -> FallingRig:
    if rig.float_ is None:
        notes.append(Note("no float", "there is no float: computed as line held at its upper end"))
        return rig
    if just_carries_g(rig) <= rig.float_.capacity_g:
        return rig
    # At dead depth hook and bait hang on it until they touch, and must not draw it under before.
    falls = replace(rig, over_mm=None) if rig.lies_mm == 0 else rig
    carries_g = just_carries_g(falls, LEFT_OUT_MM)
    over_g = just_carries_g(rig) - rig.float_.capacity_g
    does = "takes its float down to a speck"  # as the check of how it sits says of so little
    if over_g >= FINEST_G:
        does = f"sinks its float, {write_about(over_g)} too much"
    says = f"the load {does}: computed for one that just carries it"
    notes.append(Note("float sinks", says))
    carries = replace(rig.float_, capacity_g=carries_g, capacity_source=OUR_CHOICE)
    return replace(rig, float_=carries)


def carries_n(float_: FallingFloat, water: Water) -> float:
    """What a float carries in that water to the end of its tip, in N.

    Its capacity is found at 10 °C; what its body displaces there, g (W + C s), weighs less in warmer
    water: see ``balance.carries_at_g``. Source: Archimedes' principle.

    >>> float_ = FallingFloat(2.0, Tip(3.0, 60.0))
    >>> [round(1000 * carries_n(float_, water_at(t)), 2) for t in (10.0, 20.0)]
    [16.92, 16.86]
    """
    at_rated = water_at(USUAL_C)
    rated = weight_material(float_.rated_in).density_g_cm3
    own_n = float_.own_mass_g / 1000 * STANDARD_GRAVITY
    displaces_n = own_n + pull_n(float_.capacity_g, rated, at_rated)
    return displaces_n * water.density_kg_m3 / at_rated.density_kg_m3 - own_n


def just_carries_g(rig: FallingRig, out_mm: float = 0.0) -> float:
    """The capacity, in g of the float's own kind of shot, that just carries all that ends on it.

    With ``out_mm`` so much of the tip stays out. Raises ValueError for a rig without float.
    """
    if rig.float_ is None:
        raise ValueError("the rig has no float")
    float_, at_rated = rig.float_, water_at(USUAL_C)
    lock = weight_material(float_.lock_material).density_g_cm3
    load_n = pull_n(float_.lock_g, lock, rig.water) + hanging_n(rig, rig.lies_mm)
    load_n += out_mm * float_.tip.lift_g_per_mm(rig.temperature_c) / 1000 * STANDARD_GRAVITY
    own_n = float_.own_mass_g / 1000 * STANDARD_GRAVITY
    displaces_n = (load_n + own_n) * at_rated.density_kg_m3 / rig.water.density_kg_m3
    rated = weight_material(float_.rated_in).density_g_cm3
    return (displaces_n - own_n) / pull_n(1.0, rated, at_rated)
