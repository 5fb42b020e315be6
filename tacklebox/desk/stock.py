"""Tackle in stock: what an angler does with it."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.desk.answers import Amount, amount
from tacklebox.desk.asking import in_field, past_day
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.stock.tables import Item

MOST_PACKS = 10_000


@dataclass(frozen=True)
class Moved:
    """An item after its amount was changed."""

    item: int
    name: str
    on_hand: Amount
    short: bool  # less is there than the minimum


def buy(desk: Desk, item: str, *, packs: int = 1, price: str = "", on: str = "") -> Moved:
    """Add packets bought of an item, its number or words that name it; ``price`` is a packet's.

    Raises AskedWronglyError for an item that is not known, a price or a day that cannot be.
    """
    from tacklebox.stock.ledger import begin, find, move, read_price_cents
    from tacklebox.stock.tables import Why

    if not 1 <= packs <= MOST_PACKS:
        raise AskedWronglyError(
            f"{packs} packets cannot be bought.", field="packs", right=f"From 1 to {MOST_PACKS}."
        )
    cents = in_field("price", read_price_cents, price) if price else None
    day = past_day(desk, on)
    with desk.box.writing() as session:
        found = in_field("item", lambda said: find(session, said), item)
        if cents is not None:
            found.pack_price_cents = cents
            session.add(found)
        move(session, begin(session, "buy", day), found, packs * found.pack_size, Why.BOUGHT)
    return _moved(found)


def _moved(item: "Item") -> Moved:
    assert item.id is not None
    on_hand = amount(item.on_hand, item.measured)
    return Moved(item.id, item.name, on_hand, item.on_hand < item.keep_at_least)
