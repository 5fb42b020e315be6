"""The shopping list of a plan: what to buy, and what each purchase is for."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tacklebox.matches.before.low import Purchase, total_cents
from tacklebox.matches.before.plan import Plan
from tacklebox.matches.dividing.candidates import Candidates
from tacklebox.stock.care.box import Box
from tacklebox.stock.ledger import write_amount


@dataclass(frozen=True)
class Shopping:
    """What to buy; ``what_for`` in words by item number ("for 2 × my-rig, to keep 10").

    ``unknown`` are asks that no item in the box meets.
    """

    purchases: tuple[Purchase, ...]
    what_for: Mapping[int, str]
    unknown: tuple[str, ...]

    @property
    def total_cents(self) -> int:
        """Cost of all purchases with a known price."""
        return total_cents(self.purchases)


def make_shopping(box: Box, plan: Plan) -> Shopping:
    """The plan's purchases with the wants that each serves; nothing is written."""
    lacking = [
        (line, [need for need in line.resolved.needs if not need.there])
        for line in plan.lines
        if line.unmet and not line.turned_away
    ]
    with box.reading() as session:
        candidates = Candidates(session, (need.ask for _, needs in lacking for need in needs))
    serving = [
        (
            f"{line.unmet} × {line.name}",
            {item.id for need in needs for item in candidates.of(need.ask)},
        )
        for line, needs in lacking
    ]
    unknown = {
        f"{need.part} of {line.resolved.recipe.stem}: {need.ask}": None
        for line, needs in lacking
        for need in needs
        if not candidates.of(need.ask)
    }
    what_for = {
        purchase.item.id or 0: _what_for(
            purchase, [want for want, items in serving if purchase.item.id in items]
        )
        for purchase in plan.purchases
    }
    return Shopping(plan.purchases, what_for, tuple(unknown))


def _what_for(purchase: Purchase, wants: Sequence[str]) -> str:
    told = [f"for {', '.join(wants)}"] if wants and purchase.short > purchase.to_keep else []
    if purchase.to_keep:
        kept = write_amount(purchase.item.keep_at_least, purchase.item.measured)
        told.append(f"to keep {kept}")
    return ", ".join(told)
