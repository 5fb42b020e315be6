"""So many hooklengths of one batch taken, and put back where they were taken from."""

from json import loads

from sqlmodel import Session, col, select

from tacklebox.errors import CannotBeDoneError
from tacklebox.stock.batches import settle
from tacklebox.stock.ledger import undone_actions, write_movement
from tacklebox.stock.made import Batch
from tacklebox.stock.tables import Action, Change, Item, Why


def take_of(
    session: Session, action: Action, batch: Batch, count: int, why: Why, reason: str = ""
) -> Item:
    """Take so many of one batch; raises CannotBeDoneError where it holds fewer. Hands back the item."""
    item = session.get_one(Item, batch.item_id)
    if count > batch.left:
        raise CannotBeDoneError(
            f"batch {batch.code} holds {batch.left} of {item.name}; {count} cannot be taken."
        )
    write_movement(session, action, item, -count, why, reason)
    batch.left -= count
    session.add(batch)
    session.flush()
    return item


def put_back(session: Session, item: Item, amount: int, of_action: int) -> None:
    """Put so many back, first into the batches that an action took them from."""
    changes = select(Change).where(
        Change.action_id == of_action, Change.table_name == "batch", Change.column_name == "left"
    )
    still = amount
    for change in session.exec(changes.order_by(col(Change.id).desc())).all():
        batch = session.get_one(Batch, int(change.row_key))
        by = min(loads(change.was) - loads(change.became), batch.tied - batch.left, still)
        if batch.item_id == item.id and by > 0:
            batch.left += by
            still -= by
            session.add(batch)
    session.flush()
    settle(session, item, still, Why.GIVEN_BACK, lambda: undone_actions(session))
