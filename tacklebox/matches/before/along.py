"""Tackle that goes along beside the rigs: floats and feeders to change to, spares of what was tied."""

from collections.abc import Collection, Iterator

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.before.plan import Plan
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.stock.inventory import Inventory, Stocked
from tacklebox.stock.tables import Kind

SPARES = (Kind.HOOK, Kind.WEIGHT, Kind.PART)
CHANGED = (Kind.FLOAT, Kind.FEEDER)  # at the water, for another size


def to_change_to(plan: Plan, inventory: Inventory) -> list[Stocked]:
    """Floats and feeders in the box that the recipes' choices let in."""
    asks = {
        str(need.ask): need.ask
        for want in plan.wants
        if want.resolved.recipe.makes == "rig"
        for variant in _variants(want.resolved)
        for need in variant.needs
        if need.ask.kind in CHANGED
    }
    return [
        stocked
        for kind in CHANGED
        for stocked in inventory.by_kind[kind]
        if any(ask.kind == kind and ask.matches(stocked.figures) for ask in asks.values())
    ]


def _variants(resolved: Resolved) -> Iterator[Resolved]:
    """The recipe with every size that it lets one choose."""
    yield resolved
    for name, choice in resolved.recipe.choose.items():
        for size in choice.any_of:
            try:
                wishes = {**resolved.chosen, name: size}
                yield resolve(resolved.recipe, wishes, resolved.hooklength)
            except AskedWronglyError:  # a size that goes with another depth only
                continue


def spares_of(inventory: Inventory, used: Collection[int]) -> list[Stocked]:
    """The hooks, shot and small parts that the rigs are tied from."""
    return [s for kind in SPARES for s in inventory.by_kind[kind] if s.id in used]
