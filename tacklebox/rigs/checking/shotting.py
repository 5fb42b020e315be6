"""The float of a fitted recipe with its shot: what it carries, what hangs on it, how it sits."""

from collections.abc import Iterator
from dataclasses import replace

from tacklebox.rigs.fitting import Fit
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.stock.tables import Float, Kind, Weight
from tacklebox.trade.balance import RATED_IN, Group, Tip, judge_balance, judge_load
from tacklebox.trade.judgement import Judgement, Outcome
from tacklebox.trade.shot import Load, weight_material
from tacklebox.trade.water import USUAL_C

_CALLED = {"at the float": "lock shot", "droppers": "dropper", "spread": "spread", "bulk": "bulk"}


def groups_of(resolved: Resolved) -> tuple[Group, ...]:
    """The recipe's own groups of shot from the float down, at nominal masses, of the material
    that it names first, else of tin."""
    told = zip(resolved.shot, resolved.recipe.shot, strict=True)
    groups = sorted(told, key=lambda pair: -pair[0].positions_mm[0])
    return tuple(
        Group(_CALLED[placed.place], placed.loads, _first_material(group.material))
        for placed, group in groups
    )


def _first_material(text: str | None) -> str:
    words = (text or "").lower().split()
    return weight_material(words[0].strip(",")).name if words else RATED_IN


def fitted_groups(fit: Fit) -> tuple[Group, ...]:
    """The groups with the material and mass of the items that serve them, weighed ones by
    their own weighing; loads of one group that differ in material are groups of their own."""
    return tuple(part for group in groups_of(fit.resolved) for part in _as_served(fit, group))


def _as_served(fit: Fit, group: Group) -> Iterator[Group]:
    by_material: dict[str, list[Load]] = {}
    for load in group.loads:
        item = fit.serving(f"{load.kind} {load.mark}").item
        material = group.material
        if item and isinstance(item.figures, Weight):
            weighed = fit.measured.shot(item.id, item.figures)
            load = replace(load, mass_g=weighed.mean, source=weighed.source)
            material = item.figures.material
        by_material.setdefault(material, []).append(load)
    for material, loads in by_material.items():
        yield Group(group.what, tuple(loads), material)


def judge_float(fit: Fit, water_c: float = USUAL_C) -> Iterator[Judgement]:
    """How each float sits with the shot on it: stage by stage where its tip is known, else
    by the load alone. ``water_c`` is the temperature of the water in °C."""
    for thing in fit.resolved.along:
        if thing.kind is not Kind.FLOAT:
            continue
        item = fit.serving(thing.name).item
        if item is None or not isinstance(item.figures, Float):
            says = "no float is chosen, so nobody knows whether the shot suits it"
            yield Judgement("shot against float", Outcome.LOOK_AGAIN, says)
            continue
        figures, groups = item.figures, fitted_groups(fit)
        carries = fit.measured.capacity(item.id, figures)
        if figures.tip_diameter_mm and figures.tip_length_mm and groups:
            tip = Tip(figures.tip_diameter_mm, figures.tip_length_mm)
            yield judge_balance(
                carries.mean, tip, groups, temperature_c=water_c, capacity_source=carries.source
            )
        else:
            yield judge_load(
                carries.mean, groups, temperature_c=water_c, capacity_source=carries.source
            )
