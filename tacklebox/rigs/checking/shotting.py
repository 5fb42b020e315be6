"""The float of a fitted recipe with its shot: what it carries, what hangs on it, how it sits."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import inf

from tacklebox.rigs.checking.joints import Bond, bonds_of
from tacklebox.rigs.fitting import Fit
from tacklebox.rigs.recipes.resolved import PlacedShot, Resolved
from tacklebox.stock.tables import Float, Hook, Kind, Weight
from tacklebox.trade.balance import RATED_IN, Group, Place, Stage, Tip, stages
from tacklebox.trade.bulk import AT_BULK_MM, judge_bulk, judge_order
from tacklebox.trade.dotting import judge_balance, judge_load
from tacklebox.trade.floats import OwnMass, inside_g, usual_own_mass_g
from tacklebox.trade.hanging import USUAL_BAIT, FishedDepth, Hanging, LineBelow, hanging_below
from tacklebox.trade.judgement import Check, Judgement, Outcome
from tacklebox.trade.line import material_named
from tacklebox.trade.settling.sizes import FallingHook, hook_weighed
from tacklebox.trade.shot import Load, weight_material
from tacklebox.trade.water import USUAL_C

_CALLED = {
    "at the float": Place.LOCK,
    "droppers": Place.DROPPER,
    "spread": Place.SPREAD,
    "bulk": Place.BULK,
}


def groups_of(resolved: Resolved, *, above_mm: float = -1.0) -> tuple[Group, ...]:
    """The recipe's own groups of shot from the float down, at nominal masses, of the material
    that it names first, else of tin; only what is higher than ``above_mm`` above the hook."""
    found: list[tuple[float, Group]] = []
    for placed, asked in zip(resolved.shot, resolved.recipe.shot, strict=True):
        what, material = _CALLED[placed.place], first_material(asked.material)
        singly = [one for one in _singly(placed) if one[0] > above_mm]
        if what is Place.DROPPER:  # each registers by itself, in its place among the others
            found += [(at_mm, Group(what, (load,), material)) for at_mm, load in singly]
        elif singly:
            found.append((singly[0][0], Group(what, _together(singly), material)))
    found.sort(key=lambda one: -one[0])
    groups: list[Group] = []
    for _, group in found:
        last = groups[-1] if groups else None
        if last and last.what is group.what is Place.DROPPER and last.material == group.material:
            both = [(0.0, load) for load in (*last.loads, *group.loads)]
            groups[-1] = replace(last, loads=_together(both))
        else:
            groups.append(group)
    return tuple(groups)


def _singly(placed: PlacedShot) -> list[tuple[float, Load]]:
    """Each weight by itself with its height above the hook, the highest first."""
    loads = [replace(load, count=1) for load in placed.loads for _ in range(load.count)]
    return list(zip(placed.positions_mm, loads, strict=True))


def _together(singly: Sequence[tuple[float, Load]]) -> tuple[Load, ...]:
    """Weights in their order, those next to one another that are the same as one load."""
    loads: list[Load] = []
    for _, load in singly:
        if loads and replace(loads[-1], count=1) == replace(load, count=1):
            loads[-1] = replace(loads[-1], count=loads[-1].count + load.count)
        else:
            loads.append(load)
    return tuple(loads)


def first_material(text: str | None) -> str:
    """The material that a group names first, else tin."""
    words = (text or "").lower().split()
    return weight_material(words[0].strip(",")).name if words else RATED_IN


def fitted_groups(fit: Fit) -> tuple[Group, ...]:
    """The groups that hang with the material and mass of the items that serve them, weighed ones
    by their own weighing; what lies on the bottom is left out."""
    lies_mm = fit.resolved.fished.over_mm
    groups = groups_of(fit.resolved, above_mm=lies_mm)
    return tuple(
        replace(group, loads=tuple(as_served(fit, group, load) for load in group.loads))
        for group in groups
    )


def as_served(fit: Fit, group: Group, load: Load) -> Load:
    """A load with the material and mass of the item that serves it, where one does."""
    item = fit.serving(f"{load.kind} {load.mark}").item
    if item is None or not isinstance(item.figures, Weight):
        return replace(load, material=group.material)
    weighed = fit.measured.shot(item.id, item.figures)
    assert weighed is not None  # what serves has a size
    material = item.figures.material
    return replace(load, mass_g=weighed.mean, source=weighed.source, material=material)


def hanging_of(
    fit: Fit, float_at_mm: float, water_c: float = USUAL_C, fished: FishedDepth | None = None
) -> Hanging:
    """What hangs below the float beside its shot, as the rig is fished, or as it is said here."""
    bonds = bonds_of(fit)
    lines = [line for bond in bonds if (line := _line_below(bond))]
    below = [b for b in bonds if b.segment.kind is Kind.LINE and b.segment.low_mm < float_at_mm]
    unknown = tuple(b.segment.name for b in below if b.line is None or b.line.diameter_mm is None)
    items = [bond.serving.item for bond in bonds if bond.serving.item]
    hook = next(
        (_hook_of(fit, one.id, one.figures) for one in items if isinstance(one.figures, Hook)), None
    )
    how = fished or fit.resolved.fished
    hangs = hanging_below(
        how,
        lines,
        float_at_mm,
        hook=hook,
        bait=fit.measured.bait(USUAL_BAIT) or USUAL_BAIT,
        temperature_c=water_c,
    )
    return replace(hangs, left_out=(*hangs.left_out, *unknown))


def own_mass_of(fit: Fit, item_id: int, float_: Float, carries_g: float) -> OwnMass:
    """What a float itself weighs: as he weighed it, else as is usual for what it carries."""
    own = fit.measured.own_mass(item_id)
    if own:
        return OwnMass(own.mean, own.source)
    return OwnMass(usual_own_mass_g(carries_g, inside_g(float_.mark)))


def _hook_of(fit: Fit, item_id: int, hook: Hook) -> FallingHook | str:
    """The hook as he weighed it, else its size."""
    own = fit.measured.own_mass(item_id)
    return hook_weighed(hook.size, 1000 * own.mean) if own else hook.size


def _line_below(bond: Bond) -> LineBelow | None:
    if bond.line is None or bond.line.diameter_mm is None:
        return None
    segment, density = bond.segment, material_named(bond.line.material).density_g_cm3
    high = (
        inf if segment.need.in_place else segment.high_mm
    )  # the reel's line runs on through the float
    return LineBelow(bond.line.diameter_mm, density, segment.low_mm, high)


@dataclass(frozen=True)
class FloatSits:
    """A float whose tip is known, and how it sits as each weight registers."""

    name: str
    tip: Tip
    stages: tuple[Stage, ...]
    skin_mm: float


def floats_sit(fit: Fit, water_c: float = USUAL_C) -> tuple[FloatSits, ...]:
    """Each float with a known tip and shot on it, stage by stage."""
    found = []
    groups = fitted_groups(fit)
    for thing in fit.resolved.along:
        item = fit.serving(thing.name).item if thing.kind is Kind.FLOAT else None
        figures = item.figures if item else None
        if not item or not isinstance(figures, Float) or not groups:
            continue
        carries = fit.measured.capacity(item.id, figures)
        if carries and figures.tip_diameter_mm and figures.tip_length_mm:
            tip = Tip(figures.tip_diameter_mm, figures.tip_length_mm)
            sits = stages(
                carries.mean,
                tip,
                groups,
                hanging=hanging_of(fit, thing.at_mm, water_c),
                temperature_c=water_c,
                own_g=own_mass_of(fit, item.id, figures, carries.mean).mass_g,
            )
            found.append(FloatSits(thing.name, tip, sits, tip.skin_usual_mm(water_c)))
    return tuple(found)


def judge_float(fit: Fit, water_c: float = USUAL_C) -> Iterator[Judgement]:
    """How each float sits with what hangs on it: stage by stage where its tip is known, else by
    the load alone. ``water_c`` is the temperature of the water in °C."""
    for thing in fit.resolved.along:
        if thing.kind is not Kind.FLOAT:
            continue
        item = fit.serving(thing.name).item
        if item is None or not isinstance(item.figures, Float):
            says = (
                "no float is chosen, so nobody knows whether the shot suits it. Put one of that "
                "size in the box"
            )
            yield Judgement("shot against float", Outcome.DOUBTFUL, says, key=Check.FLOAT)
            continue
        figures, groups = item.figures, fitted_groups(fit)
        carries = fit.measured.capacity(item.id, figures)
        if carries is None:
            says = (
                "nobody knows what the float takes, so nobody knows whether the shot suits it. Try "
                "it in a bucket"
            )
            yield Judgement("shot against float", Outcome.DOUBTFUL, says, key=Check.FLOAT)
            continue
        hanging = hanging_of(fit, thing.at_mm, water_c)
        own = own_mass_of(fit, item.id, figures, carries.mean)
        if figures.tip_diameter_mm and figures.tip_length_mm and groups:
            tip = Tip(figures.tip_diameter_mm, figures.tip_length_mm)
            yield judge_balance(
                carries.mean,
                tip,
                groups,
                hanging=hanging,
                temperature_c=water_c,
                capacity_source=carries.source,
                shape=figures.shape,
                own=own,
            )
        else:
            yield judge_load(
                carries.mean,
                groups,
                hanging=hanging,
                temperature_c=water_c,
                capacity_source=carries.source,
                shape=figures.shape,
                own=own,
            )
    yield from _bulk(fit)


def _bulk(fit: Fit) -> Iterator[Judgement]:
    """Each bulk of the recipe, and what is strung out or drops below it, by nominal masses."""
    others = [
        one
        for placed in fit.resolved.shot
        if _CALLED[placed.place] in (Place.DROPPER, Place.SPREAD)
        for one in _singly(placed)
    ]
    for placed in fit.resolved.shot:
        if _CALLED[placed.place] is Place.BULK:
            at_mm = placed.positions_mm[0]
            above = _together([one for one in others if one[0] > at_mm + AT_BULK_MM])
            below = _together([one for one in others if one[0] <= at_mm])
            yield judge_bulk(placed.loads, below, above)
    strung, droppers = (_from_the_float_down(fit, what) for what in (Place.SPREAD, Place.DROPPER))
    if strung or droppers:
        yield judge_order(strung, droppers)


def _from_the_float_down(fit: Fit, what: Place) -> tuple[Load, ...]:
    """All shot that is strung out, or all droppers, in their order down the line."""
    singly = [o for p in fit.resolved.shot if _CALLED[p.place] is what for o in _singly(p)]
    return _together(sorted(singly, key=lambda one: -one[0]))
