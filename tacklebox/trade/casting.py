"""Casting: the pull a feeder or bomb puts on the line, and measuring distance again."""

import math

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Fact, Judgement, Outcome
from tacklebox.trade.quantities import (
    G_PER_OZ,
    KG_PER_LB,
    STANDARD_GRAVITY,
    STRAIN_LIMIT_KG,
    write_mass,
    write_strain,
)
from tacklebox.trade.sources import COMMON, MEMORY, PRINTED, SHOCK_LEADER_RULE, Source, published

SWEEP_M = 3.0  # of the rod end (common practice)
STEADY_TIMES = 5.0  # even pulls that the line should hold (from memory)
LEAST_TIMES = 2.0  # below this it parts in an ordinary cast (from memory)
STICKS_M = 3.6576  # two distance sticks a rod of 12 ft apart (common practice)
BALLISTICS = published("ballistics without air drag, any textbook of mechanics")


def _check(value: float, low: float, high: float, what: str, unit: str) -> float:
    if not low <= value <= high:
        raise AskedWronglyError(
            f"a {what} of {value:g} {unit} makes no sense.",
            right=f"It lies between {low:g} and {high:g} {unit}.",
        )
    return value


def launch_speed_m_s(distance_m: float) -> float:
    """Least speed that carries that far on the level, without air drag: v = √(g R), in m/s.

    Distance 1–250 m. Raises AskedWronglyError outside. Source: ballistics, at 45°.

    >>> round(launch_speed_m_s(40.0), 1)
    19.8
    """
    return math.sqrt(STANDARD_GRAVITY * _check(distance_m, 1, 250, "cast", "m"))


def even_pull_kg(mass_g: float, distance_m: float, sweep_m: float = SWEEP_M) -> float:
    """Pull on the line when the rod speeds the weight up evenly: m (a + g), a = v²/2s, in kg.

    Arguments: the feeder with its load in g, 0.1–500; distance in m, 1–250; sweep of the rod
    end in m, 0.5–10. Raises AskedWronglyError outside. Source: textbook mechanics.

    >>> round(even_pull_kg(50.0, 40.0), 3)
    0.383
    """
    mass_kg = _check(mass_g, 0.1, 500, "weight to cast", "g") / 1000
    speed = launch_speed_m_s(distance_m)
    speeding_up = speed**2 / (2 * _check(sweep_m, 0.5, 10, "sweep", "m"))
    return mass_kg * (speeding_up + STANDARD_GRAVITY) / STANDARD_GRAVITY


def shock_leader_kg(mass_g: float) -> float:
    """Strain of a shock leader for full-blooded casting: 10 lb for each ounce cast, in kg.

    Mass in g, 0.1–500. Raises AskedWronglyError outside. Source: Planet Sea Fishing glossary,
    "Shock leader".

    >>> round(shock_leader_kg(28.349523125) / 0.45359237, 6)
    10.0
    """
    return 10 * KG_PER_LB * _check(mass_g, 0.1, 500, "weight to cast", "g") / G_PER_OZ


def heaviest_cast_g(main_line_kg: float, distance_m: float, sweep_m: float = SWEEP_M) -> float:
    """The weight, load and all, that a line still casts that far at five even pulls, in g.

    Strain after its knot in kg, above 0; distance and sweep in m. Raises AskedWronglyError
    outside.

    >>> round(heaviest_cast_g(1.9167, 40.0))
    50
    """
    _check(main_line_kg, 0.01, STRAIN_LIMIT_KG, "main line", "kg")
    return main_line_kg / STEADY_TIMES / even_pull_kg(1.0, distance_m, sweep_m)


def judge_casting(
    main_line_kg: float,
    empty_g: float,
    load_g: float,
    distance_m: float,
    sweep_m: float = SWEEP_M,
    *,
    line_source: Source = PRINTED,
) -> Judgement:
    """Whether the main line, after its knot, stands the cast, and what is due if not.

    Sound from five times the even pull (up to the full shock-leader rule with the care it
    says), look again down to twice, below that it will not do. Arguments: what the main line
    holds after its knot in kg; the empty feeder or bomb and its load in g; distance and sweep of the
    rod end in m. Raises AskedWronglyError outside their ranges. Sources: textbook mechanics;
    Planet Sea Fishing glossary; the five and two times from memory.

    >>> judge_casting(2.5, 30.0, 20.0, 40.0).outcome.value
    'sound'
    >>> judge_casting(1.2, 30.0, 20.0, 40.0).outcome.value
    'look again'
    """
    _check(main_line_kg, 0.01, STRAIN_LIMIT_KG, "main line", "kg")
    mass = empty_g + _check(load_g, 0, 500, "load", "g")
    even, full = even_pull_kg(mass, distance_m, sweep_m), shock_leader_kg(mass)
    steady = STEADY_TIMES * even
    holds = f"the main line holds {write_strain(main_line_kg)} after its knot"
    cast = f"{write_mass(mass)} cast {distance_m:g} m pulls {even:.2f} kg evenly"
    due = (
        f"fit a shock leader of at least {write_strain(steady)}, or cast no more than "
        f"{heaviest_cast_g(main_line_kg, distance_m, sweep_m):.0f} g with the load"
    )
    if main_line_kg >= full:
        outcome, ends = Outcome.SOUND, "enough for full-blooded casting"
    elif main_line_kg >= steady:
        outcome = Outcome.SOUND
        ends = f"enough for a smooth lob; full-blooded casting would ask for {write_strain(full)}"
    elif main_line_kg >= LEAST_TIMES * even:
        outcome, ends = Outcome.LOOK_AGAIN, f"less than five times that, {steady:.2f} kg: {due}"
    else:
        outcome, ends = Outcome.WILL_NOT_DO, f"less than twice that, it may part: {due}"
    facts = (
        Fact("main line after its knot", main_line_kg, "kg", line_source),
        Fact("cast weight", mass, "g", PRINTED),
        Fact("sweep of the rod end", sweep_m, "m", COMMON),
        Fact("launch speed", launch_speed_m_s(distance_m), "m/s", BALLISTICS),
        Fact("even pull", even, "kg", BALLISTICS),
        Fact("times the even pull", STEADY_TIMES, "", MEMORY),
        Fact("full shock-leader rule", full, "kg", SHOCK_LEADER_RULE),
    )
    formula = "m (a + g), a = v²/2s, v = √(g R)"
    return Judgement("casting", outcome, f"{cast}; {holds}, {ends}", formula, facts)


def wraps(distance_m: float, sticks_m: float = STICKS_M) -> float:
    """Turns of line round two distance sticks: distance / spacing.

    Distance 1–250 m, spacing 0.3–10 m. Raises AskedWronglyError outside. Source: common
    practice.

    >>> round(wraps(36.576), 1)
    10.0
    """
    return _check(distance_m, 1, 250, "cast", "m") / _check(sticks_m, 0.3, 10, "spacing", "m")


def handle_turns(distance_m: float, retrieve_cm: float) -> float:
    """Turns of the reel's handle to the line clip: distance / retrieve per turn.

    Distance 1–250 m, retrieve 20–200 cm per turn. Raises AskedWronglyError outside. Source:
    common practice.

    >>> handle_turns(40.0, 80.0)
    50.0
    """
    distance = _check(distance_m, 1, 250, "cast", "m")
    return 100 * distance / _check(retrieve_cm, 20, 200, "retrieve per turn", "cm")
