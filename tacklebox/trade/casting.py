"""Casting: the pull a feeder or bomb puts on the line, and measuring distance again."""

import math

from tacklebox.trade.judgement import Check, Fact, Judgement, Outcome
from tacklebox.trade.limits import within
from tacklebox.trade.quantities import G_PER_OZ, KG_PER_LB, STANDARD_GRAVITY, STRAIN_LIMIT_KG
from tacklebox.trade.sources import (
    ASKED,
    MEMORY,
    OUR_CHOICE,
    PRINTED,
    SHOCK_LEADER_RULE,
    Source,
    published,
    weakest,
)
from tacklebox.trade.units_first import show_length, show_strain

# So long a line has turns on the reel in the cast, knot and all (our choice).
LEADER_LEAST_MM = 4000
SWEEP_M = 3.0  # of the rod tip (our choice)
STEADY_TIMES = 5.0  # even pulls that the line should hold (from memory)
LEAST_TIMES = 2.0  # below this it parts in an ordinary cast (from memory)
STICKS_M = 3.6576  # two distance sticks a rod of 12 ft apart (common practice)
BALLISTICS = published("ballistics without air drag, any textbook of mechanics")


def launch_speed_m_s(distance_m: float) -> float:
    """Least speed that carries that far on the level, without air drag: v = √(g R), in m/s.

    Distance 1–250 m. Raises AskedWronglyError outside. Source: ballistics, at 45°.

    >>> round(launch_speed_m_s(40.0), 1)
    19.8
    """
    return math.sqrt(STANDARD_GRAVITY * within(distance_m, 1, 250, "a cast", "m"))


def even_pull_kg(mass_g: float, distance_m: float, sweep_m: float = SWEEP_M) -> float:
    """Pull on the line when the rod speeds the weight up evenly: m (a + g), a = v²/2s, in kg.

    Arguments: the feeder with its load in g, 0.1–500; distance in m, 1–250; sweep of the rod
    end in m, 0.5–10. Raises AskedWronglyError outside. Source: textbook mechanics.

    >>> round(even_pull_kg(50.0, 40.0), 3)
    0.383
    """
    mass_kg = within(mass_g, 0.1, 500, "a weight to cast", "g") / 1000
    speed = launch_speed_m_s(distance_m)
    speeding_up = speed**2 / (2 * within(sweep_m, 0.5, 10, "a sweep", "m"))
    return mass_kg * (speeding_up + STANDARD_GRAVITY) / STANDARD_GRAVITY


def shock_leader_kg(mass_g: float) -> float:
    """Strain of a shock leader for full-blooded casting: 10 lb for each ounce cast, in kg.

    Mass in g, 0.1–500. Raises AskedWronglyError outside. Source: Planet Sea Fishing glossary,
    "Shock leader".

    >>> round(shock_leader_kg(28.349523125) / 0.45359237, 6)
    10.0
    """
    return 10 * KG_PER_LB * within(mass_g, 0.1, 500, "a weight to cast", "g") / G_PER_OZ


def heaviest_cast_g(main_line_kg: float, distance_m: float, sweep_m: float = SWEEP_M) -> float:
    """The weight, load and all, that a line still casts that far at five even pulls, in g.

    Strain after its knot in kg, above 0; distance and sweep in m. Raises AskedWronglyError
    outside.

    >>> round(heaviest_cast_g(1.9167, 40.0))
    50
    """
    within(main_line_kg, 0.01, STRAIN_LIMIT_KG, "a main line", "kg")
    return main_line_kg / STEADY_TIMES / even_pull_kg(1.0, distance_m, sweep_m)


def judge_casting(
    line_kg: float,
    empty_g: float,
    load_g: float,
    distance_m: float,
    sweep_m: float = SWEEP_M,
    *,
    line: str = "main line",
    line_source: Source = PRINTED,
    full_blooded: bool = False,
    said: tuple[str, str] = ("", ""),
) -> Judgement:
    """Whether the line that bears the cast, after its knot, stands it, and what is due if not.

    A lob, as feeder anglers cast: sound from five times the even pull, doubtful down to twice,
    below that it fails. ``full_blooded``: sound from the shock-leader rule of the beach,
    doubtful down to five times the even pull. Arguments: what the line holds after its knot in kg, and
    its name; the empty feeder or bomb and its load in g; distance and rod-tip travel in m; weight
    and distance as they were ``said``, where they were.
    Raises AskedWronglyError outside their ranges. Sources: textbook mechanics; Planet Sea Fishing
    glossary; the five and two times from memory, the sweep our choice.

    >>> judge_casting(2.5, 30.0, 20.0, 40.0).outcome.value
    'sound'
    >>> judge_casting(1.2, 30.0, 20.0, 40.0).outcome.value
    'doubtful'
    >>> judge_casting(2.5, 30.0, 20.0, 40.0, full_blooded=True).outcome.value
    'doubtful'
    """
    within(line_kg, 0.01, STRAIN_LIMIT_KG, f"a {line}", "kg")
    mass = empty_g + within(load_g, 0, 500, "a load", "g")
    even, rule = even_pull_kg(mass, distance_m, sweep_m), shock_leader_kg(mass)
    enough, least = STEADY_TIMES * even, LEAST_TIMES * even
    asks = "five times that is asked"
    if full_blooded:
        enough, least = max(rule, enough), enough
        asks = f"full-blooded casting asks for {show_strain(enough)}"
    says = (
        f"{said[0] or f'{mass:.0f} g'} cast {said[1] or show_length(1000 * distance_m)} pulls "
        f"{show_strain(even)}; the {line} holds "
        f"{show_strain(line_kg)} after its knot"
    )
    due = (
        f"fit a shock leader of {math.ceil(enough / KG_PER_LB - 1e-6)} lb or more, or cast no more than "
        f"{heaviest_cast_g(line_kg, distance_m, sweep_m):.0f} g with the load"
    )
    outcome, remedy = Outcome.SOUND, ""
    if line_kg < least:
        outcome, says, remedy = Outcome.FAILS, f"{says} and may part: {asks}", due
    elif line_kg < enough:
        outcome, says, remedy = Outcome.DOUBTFUL, f"{says}: {asks}", due
    computed = weakest([PRINTED, OUR_CHOICE])
    facts = (
        Fact(f"{line} after its knot", line_kg, "kg", line_source),
        Fact("cast weight", mass, "g", PRINTED),
        Fact("rod-tip travel", sweep_m, "m", OUR_CHOICE if sweep_m == SWEEP_M else ASKED),
        Fact("launch speed", launch_speed_m_s(distance_m), "m/s", BALLISTICS),
        Fact("even pull", even, "kg", computed),
        Fact("times the even pull", STEADY_TIMES, "", MEMORY),
        *([Fact("full shock-leader rule", rule, "kg", SHOCK_LEADER_RULE)] if full_blooded else []),
    )
    formula = "m (a + g), a = v²/2s, v = √(g R), no air drag"
    return Judgement("casting", outcome, says, formula, facts, Check.CASTING, remedy)


def wraps(distance_m: float, sticks_m: float = STICKS_M) -> float:
    """Turns of line round two distance sticks: distance / spacing.

    Distance 1–250 m, spacing 0.3–10 m. Raises AskedWronglyError outside. Source: common
    practice.

    >>> round(wraps(36.576), 1)
    10.0
    """
    return within(distance_m, 1, 250, "a cast", "m") / within(sticks_m, 0.3, 10, "a spacing", "m")


def handle_turns(distance_m: float, retrieve_cm: float) -> float:
    """Turns of the reel's handle to the line clip: distance / retrieve per turn.

    Distance 1–250 m, retrieve 20–200 cm per turn. Raises AskedWronglyError outside. Source:
    common practice.

    >>> handle_turns(40.0, 80.0)
    50.0
    """
    distance = within(distance_m, 1, 250, "a cast", "m")
    return 100 * distance / within(retrieve_cm, 20, 200, "a retrieve per turn", "cm")
