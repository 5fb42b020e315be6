"""Batches of hooklengths: how many are left of each, as the ledger moves their item.

What is taken goes from the oldest batch first, whatever it is taken for; what has no batch, for it was bought
in a packet, goes last. What comes back goes into the batch it was taken from last. So batches never hold more
than there is.
"""

from collections.abc import Callable, Collection, Iterable

from sqlmodel import Session, col, func, select

from tacklebox.stock.made import Batch, BatchUse
from tacklebox.stock.tables import Item, Line, Why

OWN_ACCOUNT = (Why.BOUGHT, Why.TIED)  # what so comes is of no batch that there was


def settle(
    session: Session, item: Item, amount: int, why: Why, undone: Callable[[], Collection[int]]
) -> None:
    """Bring the batches of an item in line with a movement of so much; ``undone`` tells the actions that are
    undone, whose batches are never filled again."""
    if amount < 0:
        _spread(session, _oldest_first(session, item), amount)
    elif why not in OWN_ACCOUNT:
        gone = undone()
        those = [batch for batch in _oldest_first(session, item) if batch.action_id not in gone]
        _spread(session, reversed(those), amount)


def _oldest_first(session: Session, item: Item) -> list[Batch]:
    query = select(Batch).where(Batch.item_id == item.id)
    return list(session.exec(query.order_by(col(Batch.tied_on), col(Batch.id))))


def _spread(session: Session, batches: Iterable[Batch], amount: int) -> None:
    still = amount
    for batch in batches:
        least, most = -batch.left, batch.tied - batch.left
        by = max(min(still, most), least)
        if by:
            batch.left += by
            still -= by
            session.add(batch)
    session.flush()


def batches_of(session: Session, item_ids: Iterable[int], *, every: bool = False) -> list[Batch]:
    """The batches of these items that hold any, or all; the oldest first."""
    query = select(Batch).where(col(Batch.item_id).in_(list(item_ids)))
    if not every:
        query = query.where(Batch.left > 0)
    return list(session.exec(query.order_by(col(Batch.tied_on), col(Batch.id))))


def tied_at_home(session: Session) -> frozenset[int]:
    """The hooklengths that batches were ever tied of: of them more are tied, not bought."""
    return frozenset(session.exec(select(Batch.item_id).where(Batch.recipe != "").distinct()))


def spools(session: Session) -> dict[int, tuple[Item, Line] | None]:
    """Of each hooklength whose oldest is of a batch, the spool that this was tied from; None where nobody
    noted it. What is bought in packets is not in it."""
    first: dict[int, int] = {}
    for batch in session.exec(
        select(Batch).where(Batch.left > 0).order_by(col(Batch.tied_on), col(Batch.id))
    ):
        first.setdefault(batch.item_id, batch.id or 0)
    used = (
        select(BatchUse.batch_id, Item, Line)
        .join(Item, col(Item.id) == BatchUse.item_id)
        .join(Line, col(Line.item_id) == Item.id)
        .where(col(BatchUse.batch_id).in_(first.values()))
        .order_by(col(BatchUse.id).desc())
    )
    found = {batch: (item, line) for batch, item, line in session.exec(used)}
    return {number: found.get(batch) for number, batch in first.items()}


def newest_code(session: Session) -> int:
    """The number of the newest code that a batch bears; -1 where there is none."""
    number = session.exec(select(func.max(Batch.code_number))).one()
    return -1 if number is None else int(number)
