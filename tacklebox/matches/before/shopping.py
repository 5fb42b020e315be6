"""The shopping list of a plan: what to buy, and what each purchase is for."""

from collections.abc import Sequence

from tacklebox.matches.before.plan import Plan
from tacklebox.matches.before.purchases import Purchase, Shopping
from tacklebox.stock.amounts import show_amount


def make_shopping(plan: Plan) -> Shopping:
    """The plan's purchases with the wants that each serves."""
    lacking = [want for want in plan.wants if want.to_tie_later and not want.none_allowed]
    serving = [
        *(
            (
                f"{want.to_tie_later} × {want.name}",
                frozenset[int]().union(*(ids for _, ids in want.lacking)),
            )
            for want in lacking
        ),
        *(
            (f"{count} × {want.name}", frozenset({stocked.id}))
            for want in plan.wants
            for stocked, count in want.ready_made
        ),
    ]
    no_item_for = {
        f"{need.part} of {want.resolved.recipe.stem}: {need.ask}": None
        for want in lacking
        for need, ids in want.lacking
        if not ids
    }
    what_for = {
        purchase.item.id or 0: _what_for(
            purchase, [want for want, ids in serving if purchase.item.id in ids]
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
    minimum = show_amount(purchase.item.minimum, purchase.item.measured)
    return f"for {for_wants}{', and ' if for_wants else ''}a minimum of {minimum}"
