"""The shopping list of a plan: what to buy, and what each purchase is for."""

from tacklebox.matches.before.plan import Plan
from tacklebox.matches.before.purchases import Shopping
from tacklebox.stock.asked import asked_words


def make_shopping(plan: Plan) -> Shopping:
    """The plan's purchases with the wants that each serves."""
    lacking = [want for want in plan.wants if want.to_tie_later and not want.none_allowed]
    serving = [
        *(
            (
                f"{want.to_tie_later} × {want.called}",
                frozenset[int]().union(*(ids for _, ids in want.lacking)),
            )
            for want in lacking
        ),
        *(
            (f"{count} × {want.called}", frozenset({stocked.id}))
            for want in plan.wants
            for stocked, count in want.ready_made
        ),
    ]
    no_item_for = {
        f"{need.part} of {want.resolved.recipe.name}: {asked_words(need.ask)}": None
        for want in lacking
        for need, ids in want.lacking
        if not ids
    }
    what_for = {
        purchase.item.id or 0: purchase.what_for(
            [want for want, ids in serving if purchase.item.id in ids]
        )
        for purchase in plan.purchases
    }
    return Shopping(plan.purchases, what_for, tuple(no_item_for))
