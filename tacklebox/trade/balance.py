"""How a float sits: what of its tip shows as each weight registers, and how it ends.

A float's capacity is the mass of shot, weighed in air, that takes it down to the very end
of its tip. Shot of another material than it was rated in pulls more or less under water.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.floats import CAPACITY_LIMIT_G
from tacklebox.trade.judgement import Fact, Judgement, Outcome
from tacklebox.trade.quantities import write_mass
from tacklebox.trade.shot import SHOT, STYLS, Load, pattern_mass_g, read_mark, weight_material
from tacklebox.trade.sources import COMMON, PRINTED, SHOT_GUIDE, Source
from tacklebox.trade.water import USUAL_C, WATER_DENSITY, share_in_water, water_density_kg_m3

RATED_IN = "tin"  # what shot a capacity is rated in unless said otherwise (common practice)
LOAD_SLACK = 0.05  # share of the capacity that the shot may be off (common practice) …
LEAST_SLACK_G = 0.04  # … or one No 10, whichever is more
DOTTED_MM = 8.0  # the last few millimetres of the tip (common practice)
SPECK_MM = 1.0


@dataclass(frozen=True, slots=True)
class Tip:
    """The part of a float that is watched: its diameter and its length, in mm.

    Raises AskedWronglyError unless 0.3 ≤ diameter ≤ 15 and 2 ≤ length ≤ 400.
    """

    diameter_mm: float
    length_mm: float

    def __post_init__(self) -> None:
        if not 0.3 <= self.diameter_mm <= 15:
            raise AskedWronglyError(
                f"a float's tip of {self.diameter_mm:g} mm diameter makes no sense.",
                right="Give it between 0.3 and 15 mm.",
            )
        if not 2 <= self.length_mm <= 400:
            raise AskedWronglyError(
                f"a float's tip of {self.length_mm:g} mm length makes no sense.",
                right="Give it between 2 and 400 mm.",
            )

    def lift_g_per_mm(self, temperature_c: float = USUAL_C) -> float:
        """What each mm of tip carries when under water, in grams: ρw · π d²/4."""
        area_mm2 = math.pi * self.diameter_mm**2 / 4
        return water_density_kg_m3(temperature_c) * area_mm2 * 1e-6


@dataclass(frozen=True, slots=True)
class Group:
    """Weights that register together: "lock shot", "bulk", "dropper"."""

    what: str
    loads: tuple[Load, ...]
    material: str = "tin"


@dataclass(frozen=True, slots=True)
class Stage:
    """How the float sits once a group has sunk to its place.

    ``shows_mm`` is the tip above water, at most the whole tip; below 0 the float is under and
    stands for the tip that would be wanting.
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
    Due West Anglers, "Don't overlook split shot"; tables of elements.

    >>> round(equal_mass_g(2.0, "lead", "tin"), 2)
    2.11
    """
    have = share_in_water(weight_material(material).density_g_cm3, temperature_c)
    rated = share_in_water(weight_material(rated_in).density_g_cm3, temperature_c)
    return mass_g * have / rated


def slack_g(capacity_g: float) -> float:
    """How far the shot may be off a float's capacity, in g: 5 % of it, or one No 10.

    Source: common practice.

    >>> slack_g(2.0), slack_g(0.4)
    (0.1, 0.04)
    """
    return max(LOAD_SLACK * _checked_capacity(capacity_g), LEAST_SLACK_G)


def _checked_capacity(capacity_g: float) -> float:
    if not 0 < capacity_g <= CAPACITY_LIMIT_G:
        raise AskedWronglyError(
            f"a float capacity of {capacity_g:g} g makes no sense.",
            right=f"It lies above 0, up to {CAPACITY_LIMIT_G:g} g.",
        )
    return capacity_g


def _other_material(
    materials: Sequence[str], rated_in: str, mass_g: float, acts_as_g: float
) -> str:
    """What to say when shot is of another material than the float was rated in."""
    rated_in = weight_material(rated_in).name
    names = sorted({weight_material(material).name for material in materials})
    if names == [rated_in]:
        return ""
    more = "more" if acts_as_g > mass_g else "less"
    return (
        f"; as {' and '.join(names)} it pulls {abs(acts_as_g - mass_g):.2f} g {more} than the same mass of "
        f"{rated_in}, which the float is rated in"
    )


def judge_shot_load(
    capacity_g: float,
    shot_mass_g: float,
    *,
    material: str = RATED_IN,
    rated_in: str = RATED_IN,
    capacity_source: Source = PRINTED,
    shot_source: Source = SHOT_GUIDE,
    temperature_c: float = USUAL_C,
) -> Judgement:
    """Whether the shot in a pattern is what the float carries.

    Sound within 5 % of the capacity or one No 10 (0.04 g), whichever is more; less: look again,
    the float rides high; more: will not do, it sinks. Compared as pull in water, so shot of
    another material counts for what it pulls. Masses in g, weighed in air; capacity
    above 0, up to 100 g. Raises AskedWronglyError outside. Source of the limits: common
    practice.

    >>> [judge_shot_load(2.0, mass_g).outcome.value for mass_g in (1.95, 1.6, 2.4)]
    ['sound', 'look again', 'will not do']
    >>> judge_shot_load(4.0, 4.0, material="lead").outcome.value
    'will not do'
    """
    if not 0 <= shot_mass_g <= 10 * CAPACITY_LIMIT_G:
        raise AskedWronglyError(
            f"{shot_mass_g:g} g of shot makes no sense.", right="It is 0 g or more."
        )
    groups = (Group("shot", (Load(1, "shot", shot_mass_g, source=shot_source),), material),)
    return judge_load(
        capacity_g,
        groups,
        rated_in=rated_in,
        capacity_source=capacity_source,
        temperature_c=temperature_c,
    )


def judge_load(
    capacity_g: float,
    groups: Sequence[Group],
    *,
    rated_in: str = RATED_IN,
    capacity_source: Source = PRINTED,
    temperature_c: float = USUAL_C,
) -> Judgement:
    """As ``judge_shot_load``, for groups of weights that may differ in material.

    >>> from tacklebox.trade.shot import read_pattern
    >>> mixed = [Group("bulk", read_pattern("2 AAA"), "lead"), Group("dropper", read_pattern("BB"))]
    >>> judge_load(2.0, mixed).says.rpartition("; ")[2][:22]
    'as lead and tin it pul'
    """
    slack = slack_g(capacity_g)
    shot_mass_g = sum(pattern_mass_g(group.loads) for group in groups)
    acts_as = math.fsum(
        equal_mass_g(pattern_mass_g(g.loads), g.material, rated_in, temperature_c) for g in groups
    )
    materials = [group.material for group in groups]
    over = acts_as - capacity_g
    says = f"{write_mass(shot_mass_g)} of shot on a float that carries {write_mass(capacity_g)}"
    if over > slack + 1e-9:
        outcome, ends = Outcome.WILL_NOT_DO, f"{over:.2f} g too much, the float sinks"
        ends += _would_carry(acts_as)
    elif over < -slack - 1e-9:
        outcome, ends = Outcome.LOOK_AGAIN, f"{-over:.2f} g too little, the float rides high"
    else:
        outcome, ends = Outcome.SOUND, "it dots down"
    says += ": " + ends + _other_material(materials, rated_in, shot_mass_g, acts_as)
    facts = (
        Fact("float's capacity", capacity_g, "g", capacity_source),
        *_mass_facts(groups),
        *_density_facts({*materials, rated_in}, temperature_c),
        Fact("may be off by", slack, "g", COMMON),
    )
    formula = "shot × (1 − ρw/ρ) / (1 − ρw/ρ rated) − capacity"
    return Judgement("shot against float", outcome, says, formula, facts)


def _would_carry(registered_g: float) -> str:
    return f"; a float that carries {write_mass(round(registered_g, 2))} would do"


def _density_facts(materials: set[str], temperature_c: float) -> tuple[Fact, ...]:
    known = [weight_material(name) for name in sorted(materials)]
    water = water_density_kg_m3(temperature_c)
    return (
        *(Fact(f"density of {m.name}", m.density_g_cm3, "g/cm³", m.source) for m in known),
        Fact(f"density of water at {temperature_c:g} °C", f"{water:.2f}", "kg/m³", WATER_DENSITY),
    )


def _words(shows_mm: float, tip: Tip) -> str:
    if shows_mm >= tip.length_mm - 1e-9:
        return "the whole tip stands clear"
    if shows_mm < -1e-6:
        return "sinks"
    if shows_mm <= SPECK_MM:
        return "a speck shows"
    if shows_mm <= DOTTED_MM:
        return "dotted down"
    much = "a good length" if shows_mm > tip.length_mm / 2 else "some"
    return f"{much} of tip shows"


def _singly(groups: Sequence[Group]) -> list[tuple[str, str, float, str]]:
    """Groups as (what, added, mass, material); each dropper is a stage of its own."""
    steps: list[tuple[str, str, float, str]] = []
    for group in groups:
        if not group.what.startswith("dropper"):
            words = " + ".join(str(load) for load in group.loads)
            steps.append((group.what, words, pattern_mass_g(group.loads), group.material))
            continue
        for load in group.loads:
            for _ in range(load.count):
                number = sum(1 for step in steps if step[0].startswith("dropper")) + 1
                words = f"olivette {load.mark}" if load.kind == "olivette" else load.mark
                steps.append((f"dropper {number}", words, load.mass_g, group.material))
    return steps


def stages(
    capacity_g: float,
    tip: Tip,
    groups: Sequence[Group],
    *,
    rated_in: str = RATED_IN,
    temperature_c: float = USUAL_C,
) -> tuple[Stage, ...]:
    """What shows of the tip with the float alone, then as each group registers, top down.

    By Archimedes: shows = (capacity − registered, both as pull in water) / (ρw π d²/4), at most the
    whole tip. Groups run from the float down: lock shot, bulk, droppers (one stage each).
    Capacity in g, above 0, up to 100. Raises AskedWronglyError outside.

    >>> from tacklebox.trade.shot import read_pattern
    >>> for stage in stages(2.0, Tip(3.0, 60.0), [
    ...     Group("lock shot", read_pattern("2 AAA")),
    ...     Group("bulk", read_pattern("4 No 8 + 2 No 10")),
    ...     Group("dropper", read_pattern("2 No 10"))]):
    ...     print(f"{stage.what}: {stage.shows_mm:.1f} mm, {stage.says}")
    float alone: 60.0 mm, the whole tip stands clear
    lock shot: 48.8 mm, a good length of tip shows
    bulk: 9.8 mm, some of tip shows
    dropper 1: 4.9 mm, dotted down
    dropper 2: 0.0 mm, a speck shows
    """
    _checked_capacity(capacity_g)
    rated = share_in_water(weight_material(rated_in).density_g_cm3, temperature_c)
    lift = tip.lift_g_per_mm(temperature_c)
    registered = 0.0
    told = []
    for what, added, mass, material in [("float alone", "", 0.0, rated_in), *_singly(groups)]:
        registered += equal_mass_g(mass, material, rated_in, temperature_c)
        left = (capacity_g - registered) * rated / lift
        shows = min(tip.length_mm, 0.0 if abs(left) < 1e-6 else left)
        told.append(Stage(what, added, registered, shows, _words(shows, tip)))
    return tuple(told)


def one_size_either_way_mm(
    mark: str, tip: Tip, material: str = RATED_IN, temperature_c: float = USUAL_C
) -> tuple[float | None, float | None]:
    """How far the tip moves when one shot of that mark is changed for the next size.

    First the next smaller (more shows, above 0), then the next bigger (below 0), in mm;
    None at the end of the table. Raises AskedWronglyError for an unknown mark.

    >>> [round(mm, 1) for mm in one_size_either_way_mm("No 10", Tip(3.0, 60.0))]
    [1.2, -1.2]
    """
    shot = read_mark(mark)
    table = STYLS if shot in STYLS else [one for one in SHOT if not one.must_be_weighed]
    if shot.must_be_weighed:
        return None, None
    here = table.index(shot)
    density = weight_material(material).density_g_cm3
    share = share_in_water(density, temperature_c) / tip.lift_g_per_mm(temperature_c)
    smaller = table[here + 1] if here + 1 < len(table) else None
    bigger = table[here - 1] if here else None
    return (
        None if smaller is None else (shot.mass_g - smaller.mass_g) * share,
        None if bigger is None else (shot.mass_g - bigger.mass_g) * share,
    )


def judge_balance(
    capacity_g: float,
    tip: Tip,
    groups: Sequence[Group],
    *,
    rated_in: str = RATED_IN,
    temperature_c: float = USUAL_C,
    capacity_source: Source = PRINTED,
    tip_source: Source = PRINTED,
) -> Judgement:
    """How the float ends: dotted down (sound), rides high (look again) or sinks.

    The end of ``stages``. Up to 8 mm of tip is dotted down; more rides high. Under by no more than the
    figures can be off (5 % of the capacity or one No 10): look again; by more: will not do.
    Says each stage, and what one size of the last dropper moves. Raises AskedWronglyError as
    ``stages`` does, and for a pattern without shot.
    """
    if not any(group.loads for group in groups):
        raise AskedWronglyError(
            "there is no shot to balance the float with.", right="Give it a shot pattern."
        )
    told = stages(capacity_g, tip, groups, rated_in=rated_in, temperature_c=temperature_c)
    last = told[-1]
    over = last.registered_g - capacity_g
    if over > slack_g(capacity_g) + 1e-9:
        outcome, ends = Outcome.WILL_NOT_DO, f"sinks, {over:.2f} g too much"
        ends += _would_carry(last.registered_g)
    elif last.shows_mm < 0:
        outcome, ends = Outcome.LOOK_AGAIN, f"just sinks by these figures, {over:.2f} g too much"
    elif last.shows_mm <= DOTTED_MM:
        speck = "to a speck" if last.shows_mm <= SPECK_MM else f"{last.shows_mm:.1f} mm shows"
        outcome, ends = Outcome.SOUND, f"dotted down, {speck}"
    else:
        outcome, ends = Outcome.LOOK_AGAIN, f"rides high, {last.shows_mm:.0f} mm shows"
    seen = ", ".join(f"{stage.what} {stage.shows_mm:.0f} mm ({stage.says})" for stage in told[:-1])
    weighed = sum(pattern_mass_g(group.loads) for group in groups)
    materials = [group.material for group in groups]
    says = f"{ends}; before that: {seen}"
    says += _one_size_words(groups, tip, temperature_c)
    says += _other_material(materials, rated_in, weighed, last.registered_g)
    facts = (
        Fact("float's capacity", capacity_g, "g", capacity_source),
        Fact("tip's diameter", tip.diameter_mm, "mm", tip_source),
        Fact("tip's length", tip.length_mm, "mm", tip_source),
        *_mass_facts(groups),
        *_density_facts({g.material for g in groups} | {rated_in}, temperature_c),
        Fact("dotted down up to", DOTTED_MM, "mm", COMMON),
    )
    formula = "(capacity − registered, as pull in water) / (ρw π d²/4)"
    return Judgement("float's balance", outcome, says, formula, facts)


def _mass_facts(groups: Sequence[Group]) -> tuple[Fact, ...]:
    each = {(load.mark, load.mass_g): _source_of(load) for g in groups for load in g.loads}
    return tuple(Fact(f"{mark} each", mass, "g", source) for (mark, mass), source in each.items())


def _source_of(load: Load) -> Source:
    if load.source is not None:
        return load.source
    return PRINTED if load.kind == "olivette" else read_mark(load.mark).source


def _one_size_words(groups: Sequence[Group], tip: Tip, temperature_c: float) -> str:
    last = next(group for group in reversed(groups) if group.loads)
    load = last.loads[-1]
    if load.kind == "olivette":
        return ""
    smaller, bigger = one_size_either_way_mm(load.mark, tip, last.material, temperature_c)
    moves = [
        f"one size {way} {abs(mm):.1f} mm {side}"
        for mm, way, side in ((smaller, "smaller", "more"), (bigger, "bigger", "less"))
        if mm is not None
    ]
    return f"; of the last {load.mark}, " + ", ".join(moves)
