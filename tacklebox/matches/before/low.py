"""What runs low: below what is to be kept, and what the rigs wanted would use up."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from sqlmodel import Session, col, select

from tacklebox.matches.before.losses import AnyItem, Forecast, forecasts, kept_items, read_losses
from tacklebox.stock.care.box import Box
from tacklebox.stock.tables import Item

if TYPE_CHECKING:
    from tacklebox.matches.dividing.candidates import Candidates, Loose
    from tacklebox.rigs.recipes.resolved import Need, Resolved


@dataclass(frozen=True)
class Want:
    """So many rigs or hooklengths of one resolved recipe."""

    resolved: "Resolved"
    count: int


@dataclass(frozen=True)
class Gap:
    """A part that nothing is left for, and what there is, in words."""

    need: "Need"
    gap: str


@dataclass(frozen=True)
class Reach:
    """How many of a want can be tied from what is left, and what stops the next one."""

    want: Want
    can_tie: int
    stopped_by: tuple[Gap, ...]


@dataclass(frozen=True)
class Purchase:
    """What to buy of one item: whole packs, and what they cost where a price is known.

    Of what it is short of, ``to_keep`` is only for what the angler keeps at least; the rest is for
    the rigs.
    """

    item: AnyItem
    short: int  # in the item's smallest unit
    packs: int
    to_keep: int = 0

    @property
    def cost_cents(self) -> int | None:
        """Price of all packs, None where no price is known."""
        price = self.item.pack_price_cents
        return None if price is None else price * self.packs

    @property
    def because(self) -> str:
        """What it is bought for, in words: the rigs, or keeping what is to be kept, or both."""
        if not self.to_keep:
            return "for the rigs"
        return "to keep" if self.to_keep == self.short else "for the rigs, to keep"


def purchases(items: Iterable[AnyItem], planned: Mapping[int, int]) -> tuple[Purchase, ...]:
    """What the plan takes beyond what is on hand, and what brings each item back to what is kept."""
    found = []
    for item in items:
        gone = planned.get(item.id or 0, 0)
        short = gone + item.keep_at_least - item.on_hand
        if short > 0:
            for_rigs = max(gone - item.on_hand, 0)
            packs = -(-short // item.pack_size)
            found.append(Purchase(item, short, packs, short - for_rigs))
    return tuple(found)


def total_cents(of: Sequence[Purchase]) -> int:
    """Cost of all purchases with a known price."""
    return sum(p.cost_cents or 0 for p in of)


def unpriced(of: Sequence[Purchase]) -> int:
    """How many of them have no known price, and so are not in the total."""
    return sum(p.cost_cents is None for p in of)


def write_total(of: Sequence[Purchase]) -> str:
    """What they cost together, and how many prices are not in it: "6.75, and 2 prices not known"."""
    from tacklebox.stock.ledger import write_price

    lacking = unpriced(of)
    told = [write_price(total_cents(of))] if not lacking or lacking < len(of) else []
    told += [f"{lacking} price{'' if lacking == 1 else 's'} not known"] if lacking else []
    return ", and ".join(told)


@dataclass(frozen=True)
class Outlook:
    """The whole answer: what is low now, how far stock reaches, what to buy."""

    below_keep: tuple[Item, ...]
    reaches: tuple[Reach, ...]
    runs_out_first: AnyItem | None
    purchases: tuple[Purchase, ...]
    unknown: tuple[str, ...]  # asks that no item in the box has ever met
    forecasts: tuple[Forecast, ...]  # of what is planned or kept

    @property
    def total_cents(self) -> int:
        """Cost of all purchases with a known price."""
        return total_cents(self.purchases)


def look_ahead(box: Box, wants: Sequence[Want]) -> Outlook:
    """How many of each want can be tied from stock together, in the order they are given.

    Earlier wants take first; each takes substitutes only within its recipe's own asks.
    To buy: what the untied rest needs, and what brings each item back to its keep-at-least
    after tying, in whole packs.
    """
    with box.reading() as session:
        low = select(Item).where(col(Item.on_hand) < col(Item.keep_at_least))
        below = tuple(session.exec(low.order_by(col(Item.id))))
        items: dict[int, AnyItem] = {item.id: item for item in kept_items(session)}
        losses = read_losses(session)
        paper = _paper(session, wants) if wants else None
    reaches = tuple(paper.reach(want) for want in wants) if paper else ()
    planned = paper.together if paper else {}
    if paper:
        items |= {number: paper.known[number].item for number in planned}
    ordered = [item for _, item in sorted(items.items())]
    return Outlook(
        below,
        reaches,
        paper.first.item if paper and paper.first else None,
        purchases(ordered, planned),
        tuple(paper.unknown) if paper else (),
        forecasts(ordered, planned, losses),
    )


def _paper(session: Session, wants: Sequence[Want]) -> "_Paper":
    from tacklebox.matches.dividing.candidates import Candidates

    return _Paper(Candidates(session, (need.ask for want in wants for need in _needs(want))))


def _needs(want: Want) -> "list[Need]":
    return [need for need in want.resolved.needs if not need.there]


@dataclass
class _Paper:
    """Tying on paper: what is gone, what the untied rest would take, and what ran out first."""

    candidates: "Candidates"
    gone: dict[int, int] = field(default_factory=dict)
    rest: dict[int, int] = field(default_factory=dict)
    known: "dict[int, Loose]" = field(default_factory=dict)
    first: "Loose | None" = None
    unknown: list[str] = field(default_factory=list)

    @property
    def together(self) -> dict[int, int]:
        """What all rigs take of each item, tied and untied."""
        return {n: self.gone.get(n, 0) + self.rest.get(n, 0) for n in {**self.gone, **self.rest}}

    def reach(self, want: Want) -> Reach:
        """Tie one at a time, so that a part may go over to the next item when one is used up."""
        needs = _needs(want)
        for tied in range(want.count):
            takes: dict[int, int] = {}
            serving = [self._first_of(need, takes) for need in needs]
            if None in serving:
                gaps = [n for n, s in zip(needs, serving, strict=True) if s is None]
                self._miss(needs, serving, want.count - tied)
                return Reach(want, tied, tuple(self._gap(need) for need in gaps))
            for number, amount in takes.items():
                self.gone[number] = self.gone.get(number, 0) + amount
        return Reach(want, want.count, ())

    def _left(self, stocked: "Loose") -> int:
        return stocked.item.on_hand - self.gone.get(stocked.id, 0)

    def _first_of(self, need: "Need", takes: dict[int, int]) -> "Loose | None":
        for stocked in self.candidates.of(need.ask):
            if self._left(stocked) - takes.get(stocked.id, 0) >= need.amount:
                takes[stocked.id] = takes.get(stocked.id, 0) + need.amount
                self.known[stocked.id] = stocked
                return stocked
        return None

    def _miss(
        self, needs: "Sequence[Need]", serving: "Sequence[Loose | None]", missing: int
    ) -> None:
        """Take for the missing rigs what is left of the candidates; the rest must be bought."""
        for need, chosen in zip(needs, serving, strict=True):
            every, still = self.candidates.of(need.ask), missing
            for stocked in every:
                left = self._left(stocked) - self.rest.get(stocked.id, 0)
                served = max(min(still, left // need.amount), 0)
                self._take(stocked, served * need.amount)
                still -= served
            if every:
                self._take(chosen or every[0], still * need.amount)
                if chosen is None and self.first is None:
                    self.first = every[0]
            elif (ask := f"{need.part}: {need.ask}") not in self.unknown:
                self.unknown.append(ask)

    def _take(self, stocked: "Loose", amount: int) -> None:
        if amount:
            self.rest[stocked.id] = self.rest.get(stocked.id, 0) + amount
            self.known[stocked.id] = stocked

    def _gap(self, need: "Need") -> Gap:
        from tacklebox.stock.ledger import write_amount

        every = self.candidates.of(need.ask)
        if not every:
            return Gap(need, f"nothing in the box is: {need.ask}")
        item = max(every, key=self._left)
        left, takes = (write_amount(a, item.item.measured) for a in (self._left(item), need.amount))
        return Gap(need, f"{item.item.name}: {left} left, {takes} needed")
