"""What runs low: below what is to be kept, and what the rigs wanted would use up."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from tacklebox.matches.losses import Forecast, forecasts, read_losses
from tacklebox.rigs.fit import Fit, Serving, fit
from tacklebox.rigs.resolved import Resolved
from tacklebox.stock.box import Box
from tacklebox.stock.inventory import Inventory, Stocked
from tacklebox.stock.tables import Item, Kind


@dataclass(frozen=True)
class Want:
    """So many rigs or hooklengths of one resolved recipe."""

    resolved: Resolved
    count: int


@dataclass(frozen=True)
class Reach:
    """How many of a want can be tied from what is left, and what stops the next one."""

    want: Want
    can_tie: int
    stopped_by: tuple[Serving, ...]


@dataclass(frozen=True)
class Purchase:
    """What to buy of one item: whole packs, and what they cost where a price is known."""

    item: Item
    short: int  # in the item's smallest unit
    packs: int

    @property
    def cost_cents(self) -> int | None:
        """Price of all packs, None where no price is known."""
        price = self.item.pack_price_cents
        return None if price is None else price * self.packs


@dataclass(frozen=True)
class Outlook:
    """The whole answer: what is low now, how far stock reaches, what to buy."""

    below_keep: tuple[Item, ...]
    reaches: tuple[Reach, ...]
    runs_out_first: Item | None
    purchases: tuple[Purchase, ...]
    unknown: tuple[str, ...]  # asks that no item in the box has ever met
    forecasts: tuple[Forecast, ...]  # of what is planned or kept

    @property
    def total_cents(self) -> int:
        """Cost of all purchases with a known price."""
        return sum(p.cost_cents or 0 for p in self.purchases)


def below_keep(items: Sequence[Item]) -> list[Item]:
    """Items of which less is on hand than the angler wants to keep."""
    return [item for item in items if item.on_hand < item.keep_at_least]


def look_ahead(box: Box, wants: Sequence[Want]) -> Outlook:
    """How many of each want can be tied from stock together, in the order they are given.

    Earlier wants take first; each takes substitutes only within its recipe's own asks.
    To buy: what the untied rest needs, and what brings each item back to its keep-at-least
    after tying, in whole packs.
    """
    with box.reading() as session:
        inventory = Inventory.read(session, Kind)
        losses = read_losses(session)
    every = {s.id: s.item for stock in inventory.by_kind.values() for s in stock}
    rest = _Rest()
    reaches = tuple(_reach(want, inventory, rest) for want in wants)
    purchases, planned = [], {}
    for item_id, item in sorted(every.items()):
        planned[item_id] = inventory.spoken_for.get(item_id, 0) + rest.amounts.get(item_id, 0)
        short = item.keep_at_least - (item.on_hand - planned[item_id])
        if short > 0:
            purchases.append(Purchase(item, short, -(-short // item.pack_size)))
    return Outlook(
        tuple(below_keep(list(every.values()))),
        reaches,
        rest.first,
        tuple(purchases),
        tuple(rest.unknown),
        forecasts([item for _, item in sorted(every.items())], planned, losses),
    )


@dataclass
class _Rest:
    """What the rigs that stock does not reach for would take, and what ran out first."""

    amounts: dict[int, int] = field(default_factory=dict)
    first: Item | None = None
    unknown: list[str] = field(default_factory=list)

    def add(self, fitted: Fit, missing: int, inventory: Inventory) -> None:
        """Take for the missing rigs what is left of the candidates; the rest must be bought."""
        for serving in fitted.servings:
            if not serving.amount:
                continue
            candidates = [serving.item] if serving.item else []
            still = missing
            for stocked in [*candidates, *serving.others]:
                left = inventory.left(stocked) - self.amounts.get(stocked.id, 0)
                served = max(min(still, left // serving.amount), 0)
                self._take(stocked, served * serving.amount)
                still -= served
            buy = serving.item or serving.known
            if buy is not None:
                self._take(buy, still * serving.amount)
            elif f"{serving.need.part}: {serving.need.ask}" not in self.unknown:
                self.unknown.append(f"{serving.need.part}: {serving.need.ask}")
        short = next((g.known for g in fitted.gaps if g.known), None)
        if self.first is None and short is not None:
            self.first = short.item

    def _take(self, stocked: Stocked, amount: int) -> None:
        self.amounts[stocked.id] = self.amounts.get(stocked.id, 0) + amount


def _reach(want: Want, inventory: Inventory, rest: _Rest) -> Reach:
    """Tie on paper one at a time, so that a part may go over to the next item when one is used up."""
    for tied in range(want.count):
        trial = inventory.copy()
        fitted = fit(want.resolved, trial, 1)
        if fitted.gaps:
            rest.add(fitted, want.count - tied, inventory)
            return Reach(want, tied, fitted.gaps)
        inventory.spoken_for = trial.spoken_for
    return Reach(want, want.count, ())
