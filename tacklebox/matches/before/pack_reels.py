"""Reels, top kits and spare spools of a pack list: which the rigs of a plan hang on and are tied from."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from datetime import date

from sqlmodel import Session

from tacklebox.matches.before.plan import Plan
from tacklebox.rigs.recipes.resolved import Need
from tacklebox.stock.amounts import show_left, show_round
from tacklebox.stock.asked import figures_asked
from tacklebox.stock.dates import write_day
from tacklebox.stock.inventory import Inventory, Stocked
from tacklebox.stock.line_age import PastAge, past_age
from tacklebox.stock.notation import write_notation
from tacklebox.stock.reels import LOADED_WITH, ReelLoad, list_reels
from tacklebox.stock.tables import Kind
from tacklebox.trade.ageing import write_months

Named = tuple[str, str]  # what is looked for first, and the words after it


def old_on_the_day(
    session: Session, plan: Plan, taken: Collection[int], day: date
) -> list[PastAge]:
    """What is past its age on the day; what the plan ties hooklengths from is hooklength line, too."""
    for_hooklengths = {
        stocked.id
        for want in plan.wants
        if want.resolved.recipe.makes == "hooklength"
        for _, items in want.parts
        for stocked, _ in items
    }
    return past_age(session, day, for_hooklengths & set(taken))


def reels_to_take(
    session: Session, inventory: Inventory, plan: Plan, old: Sequence[PastAge]
) -> Iterator[Named]:
    """Each reel and top kit that a rig of the plan can hang on; what to load where none is."""
    loads = {load.reel.name: load for load in list_reels(session)}
    of_reel = {one.reel: f". OLD: {age_words(one)}" for one in old if one.reel}
    given: set[str] = set()
    for need in _needs_in_place(plan):
        fitting = [s for s in inventory.ranked(need.ask, in_place=True) if s.on_reel]
        for stocked in fitting:
            for name in stocked.reels or (stocked.item.place,):
                if name not in given:
                    given.add(name)
                    yield f"{name}:", _on_it(stocked, loads.get(name)) + of_reel.get(name, "")
        if not fitting:
            holder = next(holder for holder, kind in LOADED_WITH.items() if kind == need.ask.kind)
            words = write_notation(figures_asked(need.ask))
            if words not in given:
                given.add(words)
                yield f"A {holder}", f"with {words}: none is noted."


def _needs_in_place(plan: Plan) -> Iterator[Need]:
    """What the rigs of the plan hang on, each ask once."""
    every = {
        str(need.ask): need
        for want in plan.wants
        if want.ready or want.tie
        for need in want.resolved.needs
        if need.in_place and need.ask.kind in LOADED_WITH.values()
    }
    yield from every.values()


def _on_it(stocked: Stocked, load: ReelLoad | None) -> str:
    name = stocked.item.name
    if load is None:
        return name
    since = f", since {write_day(load.since, with_year=True, short=True)}" if load.since else ""
    return f"{show_round(load.reel.loaded_mm, True, stocked.item.pack_said)} of {name}{since}"


def spools_to_take(
    inventory: Inventory,
    taken: Collection[int],
    left: Mapping[int, int],
    old: Sequence[PastAge],
) -> Iterator[tuple[str, Named]]:
    """What is left of the line that rigs of the plan are tied from: its place, how much, its name."""
    of_spool = {one.item.id: f". OLD: {age_words(one)}" for one in old if not one.reel}
    for stocked in inventory.by_kind[Kind.LINE]:
        amount = left.get(stocked.id, 0)
        if stocked.id in taken and amount > 0:
            words = f"{stocked.item.name}{of_spool.get(stocked.id, '')}"
            yield stocked.item.place, (show_left(amount, stocked.item.pack_said), words)


def age_words(one: PastAge) -> str:
    """How old it is, and at what age it is renewed."""
    by = one.limit.source.citation or one.limit.source if one.limit.source else ""
    return f"{write_months(one.months)}, renewed at {one.limit.words} ({by})"
