"""What to buy of each item, in whole packets, and what it costs."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from tacklebox.matches.before.losses import AnyItem
from tacklebox.stock.amounts import show_round
from tacklebox.stock.levels import Level, is_short


@dataclass(frozen=True)
class Purchase:
    """What to buy of one item: whole packs, and what they cost where a price is known.

    Of what it is short of, ``for_minimum`` is only for the angler's minimum; the rest is for the
    rigs.
    """

    item: AnyItem
    short: int  # in the item's smallest unit
    packs: int
    for_minimum: int = 0

    @property
    def cost_cents(self) -> int | None:
        """Price of all packs, None where no price is known."""
        price = self.item.pack_price_cents
        return None if price is None else price * self.packs

    @property
    def packets(self) -> str:
        """Whole packets and what one holds: "2 × 10"; what comes singly is only counted."""
        from tacklebox.stock.finding import write_packet

        if self.item.pack_size == 1:
            return str(self.packs)
        return f"{self.packs} × {write_packet(self.item)}"

    def what_for(self, wants: Sequence[str] = ()) -> str:
        """In words: the ``wants`` that it serves, as they are called, or the minimum, or both."""
        for_wants = ", ".join(wants) if self.short > self.for_minimum else ""
        if not self.for_minimum:
            return f"for {for_wants}" if for_wants else ""
        if self.item.level:
            return f"it is {self.item.level}"
        minimum = show_round(self.item.minimum, self.item.measured, self.item.pack_said)
        return f"for {for_wants}{', and ' if for_wants else ''}a minimum of {minimum}"


def is_sold(item: AnyItem, tied_at_home: Collection[int]) -> bool:
    """Whether it can be bought: what was ever tied at home and has no price is not sold."""
    return item.id not in tied_at_home or item.pack_price_cents is not None


def purchases(
    items: Iterable[AnyItem],
    planned: Mapping[int, int],
    tied_at_home: Collection[int] = (),
    ready_made: Mapping[int, int] | None = None,
) -> tuple[Purchase, ...]:
    """What the plan takes beyond what is on hand, and what brings each item back to its minimum; one
    packet of what is low or out, which then serves any number. Nothing of what is not sold.

    So many of ``ready_made`` are to be bought beside what is there; they are not used up, so that they count
    for the minimum, too.
    """
    found = []
    bought = ready_made or {}
    for item in items:
        if not is_sold(item, tied_at_home):
            continue
        if item.level:
            if is_short(item):
                for_rigs = item.level == Level.OUT and planned.get(item.id or 0, 0)
                one = item.pack_size
                for_rigs = for_rigs or bought.get(item.id or 0, 0)
                found.append(Purchase(item, one, 1, 0 if for_rigs else one))
            continue
        taken, for_rigs = planned.get(item.id or 0, 0), bought.get(item.id or 0, 0)
        short = max(taken + item.minimum - item.on_hand, for_rigs)
        if short > 0:
            for_rigs = max(taken - item.on_hand, for_rigs)
            packs = -(-short // item.pack_size)
            found.append(Purchase(item, short, packs, short - for_rigs))
    return tuple(found)


def total_cents(of: Sequence[Purchase]) -> int:
    """Cost of all purchases with a known price."""
    return sum(p.cost_cents or 0 for p in of)


def unpriced(of: Sequence[Purchase]) -> int:
    """How many of them have no known price, and so are not in the total."""
    return sum(p.cost_cents is None for p in of)


def write_price_or_missing(cents: int | None) -> str:
    """A price in words, or that it is missing."""
    from tacklebox.stock.amounts import write_price

    return "missing" if cents is None else write_price(cents)


def write_total(of: Sequence[Purchase]) -> str:
    """What they cost together, and how many prices are not in it: "6.75, 2 prices missing"."""
    from tacklebox.stock.amounts import write_price

    missing = unpriced(of)
    words = [write_price(total_cents(of))] if not missing or missing < len(of) else []
    words += [f"{missing} price{'' if missing == 1 else 's'} missing"] if missing else []
    return ", ".join(words)


@dataclass(frozen=True)
class Shopping:
    """What to buy; ``what_for`` in words by item number ("for 2 × my-rig, and a minimum of 10").

    ``no_item_for`` are asks that no item in the box meets.
    """

    purchases: tuple[Purchase, ...]
    what_for: Mapping[int, str]
    no_item_for: tuple[str, ...]

    @property
    def total_cents(self) -> int:
        """Cost of all purchases with a known price."""
        return total_cents(self.purchases)
