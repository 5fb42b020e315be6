"""Whether a float dots down with the shot on it, and what an angler can do about it."""

import math
from collections.abc import Sequence

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.balance import (
    DOTTED_MM,
    FINEST_G,
    RATED_IN,
    SPECK_MM,
    Group,
    Tip,
    carries_at_g,
    checked_capacity,
    stages,
)
from tacklebox.trade.floats import OwnMass, usual_own_mass_g
from tacklebox.trade.hanging import NOTHING, Hanging
from tacklebox.trade.judgement import Check, Fact, Judgement, Outcome
from tacklebox.trade.quantities import write_mass
from tacklebox.trade.shot import weight_material
from tacklebox.trade.sold_floats import write_about, write_float_for
from tacklebox.trade.sources import MEMORY, OUR_CHOICE, PRINTED, Basis, Source, weakest
from tacklebox.trade.trimming import WISHED_MM, moves_mm, to_add, to_take_off, trimming_shot
from tacklebox.trade.water import (
    USUAL_C,
    WATER_DENSITY,
    WATER_SKIN,
    share_in_water,
    skin_n_m,
    water_density_kg_m3,
)

LOAD_SLACK = 0.05  # share of the capacity that the shot may be off (our choice) …
LEAST_SLACK_G = 0.04  # … or one No 10, whichever is more (our choice)


def slack_g(capacity_g: float) -> float:
    """How far the shot may be off a float's capacity, in g: 5 % of it, or one No 10.

    Source: our choice.

    >>> slack_g(2.0), slack_g(0.4)
    (0.1, 0.04)
    """
    return max(LOAD_SLACK * checked_capacity(capacity_g), LEAST_SLACK_G)


def judge_load(
    capacity_g: float,
    groups: Sequence[Group],
    *,
    hanging: Hanging = NOTHING,
    rated_in: str = RATED_IN,
    capacity_source: Source = PRINTED,
    temperature_c: float = USUAL_C,
    shape: str = "",
    own: OwnMass | None = None,
) -> Judgement:
    """Whether what hangs on a float is what it carries, where its tip is not known.

    Sound within 5 % of the capacity or one No 10 (0.04 g), whichever is more; less: doubtful, the
    float rides high; more: it fails, the float sinks. Compared as pull in water, so that weights of
    another material count for what they pull. Capacity in g, above 0, up to 100; ``own`` None: what
    the float itself weighs is from memory. Raises AskedWronglyError outside. Source of the limits:
    our choice.

    >>> from tacklebox.trade.balance import Place
    >>> from tacklebox.trade.shot import read_pattern
    >>> mixed = [Group(Place.BULK, read_pattern("2 AAA"), "lead"),
    ...          Group(Place.DROPPER, read_pattern("BB"))]
    >>> judge_load(2.0, mixed).says
    '2.1 g on a float that carries 2 g: it dots down; as lead it pulls about 0.09 g more than tin. Try it in the water, and add or take off a No 11 until the last of the tip shows'
    """  # noqa: E501
    slack, own = slack_g(capacity_g), own or OwnMass(usual_own_mass_g(capacity_g))
    carries = carries_at_g(capacity_g, temperature_c, rated_in, own.mass_g)
    acts_as = _acts_as_g(groups, hanging, rated_in, temperature_c)
    over = acts_as - carries
    carried = write_mass(float(f"{capacity_g:.2g}"))
    says = f"{write_mass(float(f'{acts_as:.2g}'))} on a float that carries {carried}: "
    if over > slack + 1e-9:
        outcome, ends = Outcome.FAILS, f"{write_about(over)} too much, it sinks"
        another = write_float_for(acts_as, shape, not_g=capacity_g)
        do = _lighten(groups, over, over + slack, another, rated_in, temperature_c)
    elif over < -slack - 1e-9:
        outcome, ends = Outcome.DOUBTFUL, f"{write_about(-over)} too little, it rides high"
        do = _load_more(-over, write_float_for(acts_as, shape, not_g=capacity_g))
    else:
        outcome, ends = Outcome.SOUND, "it dots down"
        do = "Try it in the water, and add or take off a No 11 until the last of the tip shows"
    says += ends + _other_material(groups, rated_in, temperature_c) + f". {do}"
    load = _load_facts(capacity_g, own, groups, hanging, rated_in, capacity_source, temperature_c)
    facts = (
        *load,
        Fact("all of it pulls as", acts_as, "g", weakest(fact.source for fact in load)),
        Fact("may be off by", slack, "g", OUR_CHOICE),
    )
    formula = "shot × (1 − ρw/ρ) / (1 − ρw/ρ rated) + what hangs − capacity"
    return Judgement("shot against float", outcome, says, formula, facts, Check.FLOAT)


def judge_balance(
    capacity_g: float,
    tip: Tip,
    groups: Sequence[Group],
    *,
    hanging: Hanging = NOTHING,
    rated_in: str = RATED_IN,
    temperature_c: float = USUAL_C,
    capacity_source: Source = PRINTED,
    tip_source: Source = PRINTED,
    shape: str = "",
    own: OwnMass | None = None,
) -> Judgement:
    """How the float ends: dotted down (sound), rides high (doubtful) or sinks.

    The end of ``stages``. Up to 8 mm of tip is dotted down; more rides high. Under by no more than
    half a No 13 is the very end of the tip, by no more than 5 % of the capacity or one No 10
    doubtful; by more it fails (our choice). The water's skin is
    told as one offset, give or take, that is the same for every pattern and decides nothing. Ends
    with what can be done. Raises AskedWronglyError as ``stages`` does, and for a pattern without
    shot.

    >>> from tacklebox.trade.balance import Place
    >>> from tacklebox.trade.shot import read_pattern
    >>> judge_balance(2.0, Tip(3.0, 60.0), [Group(Place.BULK, read_pattern("2 AAA + 9 No 10"))]).says
    "dotted down by its mark, 5 mm shows, give or take 3 mm by the water's skin. If it stands 5 mm high, add a No 10 under the float"
    """  # noqa: E501
    if not any(group.loads for group in groups):
        raise AskedWronglyError(
            "there is no shot to balance the float with.", right="Give it a shot pattern."
        )
    own = own or OwnMass(usual_own_mass_g(capacity_g))
    sits = stages(
        capacity_g,
        tip,
        groups,
        hanging=hanging,
        rated_in=rated_in,
        temperature_c=temperature_c,
        own_g=own.mass_g,
    )
    last = sits[-1]
    over = last.registered_g - carries_at_g(capacity_g, temperature_c, rated_in, own.mass_g)
    skin = tip.skin_usual_mm(temperature_c)
    give = f", give or take {skin:.0f} mm by the water's skin"
    g_per_mm = 1 / moves_mm(1.0, tip, rated_in, temperature_c)
    another = write_float_for(last.registered_g, shape, not_g=capacity_g)
    if last.shows_mm < -tip.finest_mm:
        wanting, most = over + WISHED_MM * g_per_mm, over + DOTTED_MM * g_per_mm
        do = _lighten(groups, wanting, most, another, rated_in, temperature_c)
        much = over > slack_g(capacity_g) + 1e-9
        outcome = Outcome.FAILS if much else Outcome.DOUBTFUL
        ends = (
            f"sinks, {write_about(over)} too much"
            if much
            else f"just sinks, {write_about(over)} too much{give}"
        )
    elif last.shows_mm <= DOTTED_MM:
        speck = "a speck" if last.shows_mm <= SPECK_MM else f"{last.shows_mm:.0f} mm"
        by = "" if capacity_source.basis in (Basis.MEASURED, Basis.GIVEN) else " by its mark"
        outcome, ends = Outcome.SOUND, f"dotted down{by}, {speck} shows{give}"
        mark, down = trimming_shot(tip, temperature_c)
        do = f"If it stands {down:.0f} mm high, add a {mark} under the float"
    else:
        outcome, ends = Outcome.DOUBTFUL, f"rides high, {last.shows_mm:.0f} mm shows{give}"
        do = _load_more(-over - WISHED_MM * g_per_mm, another)
    says = ends + _other_material(groups, rated_in, temperature_c) + f". {do}"
    load = _load_facts(capacity_g, own, groups, hanging, rated_in, capacity_source, temperature_c)
    computed = weakest([*(fact.source for fact in load), tip_source])
    facts = (
        *load,
        Fact("tip's diameter", tip.diameter_mm, "mm", tip_source),
        Fact("tip's length", tip.length_mm, "mm", tip_source),
        *(Fact(f"tip that shows, {s.what}", s.shows_mm, "mm", computed) for s in sits),
        Fact("water's skin", 1000 * skin_n_m(temperature_c), "mN/m", WATER_SKIN),
        Fact("it may hold the tip by as much as", tip.skin_most_mm(temperature_c), "mm", computed),
        Fact("and usually does by", skin, "mm", MEMORY),
        Fact("dotted down up to", DOTTED_MM, "mm", OUR_CHOICE),
    )
    formula = "(capacity − registered, as pull in water) / (ρw π d²/4)"
    return Judgement("float's balance", outcome, says, formula, facts, Check.FLOAT)


def _acts_as_g(
    groups: Sequence[Group], hanging: Hanging, rated_in: str, temperature_c: float
) -> float:
    rated = share_in_water(weight_material(rated_in).density_g_cm3, temperature_c)
    hangs = hanging.pull_g / rated
    return math.fsum([*(g.acts_as_g(rated_in, temperature_c) for g in groups), hangs])


def _lighten(
    groups: Sequence[Group],
    over_g: float,
    most_g: float,
    another: str,
    rated_in: str,
    temperature_c: float,
) -> str:
    """What takes so much off and no more than ``most_g``, which would leave it riding high; else the
    float that would carry it all, ``another``."""
    off = to_take_off(groups, over_g, rated_in, temperature_c)
    if off is None or off[1] > most_g + FINEST_G:
        return f"Fish a bigger float, {another}"
    return f"{off[0][0].upper()}{off[0][1:]}, or fish a bigger float, {another}"


def _load_more(lacks_g: float, another: str) -> str:
    more = to_add(lacks_g)
    if more is None:
        return f"Fish a smaller float, {another}"
    return f"Add {more} under the float"


def _other_material(groups: Sequence[Group], rated_in: str, temperature_c: float) -> str:
    """What to say when weights are of another material than the float was rated in."""
    rated_in = weight_material(rated_in).name
    names = sorted({group.material_of(load) for group in groups for load in group.loads})
    others = [name for name in names if name != rated_in]
    more = math.fsum(g.acts_as_g(rated_in, temperature_c) - g.mass_g for g in groups)
    if not others or abs(more) < 0.005:
        return ""
    way = "more" if more > 0 else "less"
    return f"; as {' and '.join(others)} it pulls {write_about(abs(more))} {way} than {rated_in}"


def _load_facts(
    capacity_g: float,
    own: OwnMass,
    groups: Sequence[Group],
    hanging: Hanging,
    rated_in: str,
    capacity_source: Source,
    temperature_c: float,
) -> tuple[Fact, ...]:
    loads = [(load, group.material_of(load)) for group in groups for load in group.loads]
    each = {(load.mark, load.mass_g): load.mass_source for load, _ in loads}
    materials = sorted({weight_material(rated_in).name, *(material for _, material in loads)})
    known = [weight_material(name) for name in materials]
    carries = carries_at_g(capacity_g, temperature_c, rated_in, own.mass_g)
    ground = weakest([own.source, capacity_source])
    warmer = (
        Fact("float's own mass", own.mass_g, "g", own.source),
        Fact(f"carries at {temperature_c:g} °C", carries, "g", ground),
    )
    return (
        Fact("float's capacity", capacity_g, "g", capacity_source),
        *(warmer if temperature_c != USUAL_C else ()),
        *(Fact(f"{mark} each", mass, "g", source) for (mark, mass), source in each.items()),
        *(Fact(f"density of {m.name}", m.density_g_cm3, "g/cm³", m.source) for m in known),
        Fact(
            f"density of water at {temperature_c:g} °C",
            f"{water_density_kg_m3(temperature_c):.2f}",
            "kg/m³",
            WATER_DENSITY,
        ),
        *hanging.facts,
    )
