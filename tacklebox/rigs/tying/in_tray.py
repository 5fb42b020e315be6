"""Rigs that are in the tray already: tied before the box knew them, or bought. Nothing is taken from stock.

What they were tied from nobody knows, so they are described as the recipe asks, but for parts of which the
item is named. Stripped, they give nothing back, for nothing was taken.
"""

from collections.abc import Mapping
from datetime import date

from sqlmodel import Session

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.fitting import Fit, Serving, fit, inventory_for, unfitted
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.tying.describe import describe_fit
from tacklebox.rigs.tying.tie import MOST_AT_ONCE, next_codes
from tacklebox.stock.care.box import Box
from tacklebox.stock.ledger import begin
from tacklebox.stock.made import Tied, TiedUse

ENOUGH = 10**12  # of an item that a rig was tied from before


def add_rigs(
    box: Box,
    resolved: Resolved,
    count: int,
    entered: date,
    *,
    tied_on: date | None = None,
    use: Mapping[str, int] | None = None,
) -> tuple[Tied, ...]:
    """So many rigs with codes of their own; ``use`` names items that parts were tied from.

    ``tied_on`` is the day on which they were tied, where it is known. Raises AskedWronglyError for a count
    that is none, a hooklength, and an item that does not do.
    """
    recipe = resolved.recipe
    if not 1 <= count <= MOST_AT_ONCE:
        raise AskedWronglyError(
            f"{count} rigs cannot be added at once.",
            field=f"wanted.{recipe.stem}",
            right=f"From 1 to {MOST_AT_ONCE}.",
        )
    if recipe.makes != "rig":
        raise AskedWronglyError(
            f"{recipe.name} makes a hooklength: those are counted in stock.",
            field=f"wanted.{recipe.stem}",
            see="hooklengths.add",
        )
    with box.writing() as session:
        fitted = _fit(session, resolved, use or {})
        action = begin(session, f"add {count} × {recipe.name}", entered)
        day = tied_on.isoformat() if tied_on else ""
        rigs = []
        for number, code in next_codes(session, count):
            tied = Tied(
                code=code,
                code_number=number,
                recipe=recipe.stem,
                kind=recipe.makes,
                tied_on=tied_on or entered,
                snapshot=describe_fit(fitted, code, day, in_tray_before=True).to_json(),
                action_id=action.id or 0,
            )
            session.add(tied)
            rigs.append(tied)
        session.flush()
        for serving in fitted.servings:
            _note_use(session, serving, rigs)
        session.flush()
    return tuple(rigs)


def _fit(session: Session, resolved: Resolved, use: Mapping[str, int]) -> Fit:
    """The recipe as it asks, with the named items in their parts, however much of them is left."""
    whole = unfitted(resolved)
    if not use:
        return whole
    inventory = inventory_for(session, [resolved], (use or {}).values())
    inventory.reserved = {s.id: -ENOUGH for of in inventory.by_kind.values() for s in of}
    named = fit(resolved, inventory, 1, use)
    return _only_named(whole, named, use)


def _only_named(whole: Fit, named: Fit, use: Mapping[str, int]) -> Fit:
    servings = tuple(
        Serving(s.need, 0, named.serving(s.need.part).item if s.need.part in use else None, ())
        for s in whole.servings
    )
    below = None
    if whole.hooklength and named.hooklength:
        below = _only_named(whole.hooklength, named.hooklength, use)
    return Fit(whole.resolved, 1, servings, below, named.measured)


def _note_use(session: Session, serving: Serving, rigs: list[Tied]) -> None:
    """A named item is noted as used, nothing of it taken, so that a venue's rules can be judged by it."""
    if serving.item is None:
        return
    for rig in rigs:
        session.add(
            TiedUse(tied_id=rig.id or 0, item_id=serving.item.id, part=serving.need.part, amount=0)
        )
