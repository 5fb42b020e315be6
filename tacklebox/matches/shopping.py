"""The shopping list of a plan: what to buy, and what each purchase is for."""

from collections.abc import Mapping
from dataclasses import dataclass

from tacklebox.matches.low import Purchase
from tacklebox.matches.plan import Plan
from tacklebox.stock.box import Box
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.ledger import write_amount
from tacklebox.stock.tables import Kind


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
        return sum(p.cost_cents or 0 for p in self.purchases)


def make_shopping(box: Box, plan: Plan) -> Shopping:
    """The plan's purchases with the wants that each serves; nothing is written."""
    with box.reading() as session:
        inventory = Inventory.read(session, Kind)
    known = {s.id: s for stock in inventory.by_kind.values() for s in stock}
    what_for = {}
    for purchase in plan.purchases:
        number = purchase.item.id or 0
        wants = [
            f"{line.unmet} × {line.resolved.recipe.stem}"
            for line in plan.lines
            if line.unmet
            and purchase.short > purchase.to_keep
            and any(
                not need.there
                and need.ask.kind == purchase.item.kind
                and need.ask.matches(known[number].figures)
                for need in line.resolved.needs
            )
        ]
        told = [f"for {', '.join(wants)}"] if wants else []
        if purchase.to_keep:
            kept = write_amount(purchase.item.keep_at_least, purchase.item.measured)
            told.append(f"to keep {kept}")
        what_for[number] = ", ".join(told)
    unknown = {
        f"{need.part} of {line.resolved.recipe.stem}: {need.ask}": None
        for line in plan.lines
        if line.unmet
        for need in line.resolved.needs
        if not need.there
        and not any(
            need.ask.matches(s.figures)
            for s in inventory.by_kind[need.ask.kind]
            if not s.item.on_reel
        )
    }
    return Shopping(plan.purchases, what_for, tuple(unknown))
