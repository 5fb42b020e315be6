"""The shopping list of a plan: what to buy, and what each purchase is for."""

from collections.abc import Sequence

from tacklebox.matches.before.plan import Plan
from tacklebox.matches.before.purchases import Purchase, Shopping
from tacklebox.matches.dividing.candidates import Candidates
from tacklebox.stock.amounts import write_amount
from tacklebox.stock.care.box import Box


def make_shopping(box: Box, plan: Plan) -> Shopping:
    """The plan's purchases with the wants that each serves; nothing is written."""
    lacking = [
        (want, [need for need in want.resolved.needs if not need.in_place])
        for want in plan.wants
        if want.unmet and not want.none_allowed
    ]
    with box.reading() as session:
        candidates = Candidates(session, (need.ask for _, needs in lacking for need in needs))
    serving = [
        (
            f"{want.unmet} × {want.name}",
            {item.id for need in needs for item in candidates.of(need.ask)},
        )
        for want, needs in lacking
    ]
    no_item_for = {
        f"{need.part} of {want.resolved.recipe.stem}: {need.ask}": None
        for want, needs in lacking
        for need in needs
        if not candidates.of(need.ask)
    }
    what_for = {
        purchase.item.id or 0: _what_for(
            purchase, [want for want, items in serving if purchase.item.id in items]
        )
        for purchase in plan.purchases
    }
    return Shopping(plan.purchases, what_for, tuple(no_item_for))


def _what_for(purchase: Purchase, wants: Sequence[str]) -> str:
    for_wants = ", ".join(wants) if purchase.short > purchase.for_minimum else ""
    if not purchase.for_minimum:
        return f"for {for_wants}" if for_wants else ""
    if purchase.item.level:
        return f"it is {purchase.item.level}"
    minimum = write_amount(purchase.item.minimum, purchase.item.measured)
    return f"for {for_wants}{', and ' if for_wants else ''}a minimum of {minimum}"
