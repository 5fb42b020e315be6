"""What hooklengths that were tied at home cost: hook, line and the rest of it, at the prices of today."""

from collections.abc import Collection

from sqlmodel import Session, col, select

from tacklebox.stock.made import Batch, BatchUse
from tacklebox.stock.tables import Item


def cost_of_batches(session: Session, items: Collection[int]) -> dict[int, tuple[int, int]]:
    """By item, how many were tied the last time and what those cost in cents together; without those of which
    something has no price."""
    tied = select(Batch).where(col(Batch.item_id).in_(items), Batch.recipe != "", Batch.tied > 0)
    last = {batch.item_id: batch for batch in session.exec(tied.order_by(col(Batch.id)))}
    uses = select(BatchUse.batch_id, BatchUse.amount, Item.pack_size, Item.pack_price_cents)
    uses = uses.join(Item, col(Item.id) == BatchUse.item_id)
    uses = uses.where(col(BatchUse.batch_id).in_([batch.id for batch in last.values()]))
    cents: dict[int, float | None] = {}
    for batch, amount, pack_size, price in session.exec(uses):
        before = cents.get(batch, 0.0)
        cents[batch] = (
            None if before is None or price is None else before + amount * price / pack_size
        )
    found = ((item, batch.tied, cents.get(batch.id or 0)) for item, batch in last.items())
    return {item: (many, round(cost)) for item, many, cost in found if cost is not None}
