"""The shot in the box as a supply to choose patterns from."""

from sqlmodel import Session, col, select

from tacklebox.stock.measured import read_measured
from tacklebox.stock.tables import Item, Weight
from tacklebox.trade.supply import Supply


def shot_in_stock(session: Session) -> tuple[Supply, ...]:
    """Every size of split shot with what there is of it, at its own weighing where there is one."""
    measured = read_measured(session)
    query = (
        select(Item, Weight)
        .join(Weight, col(Weight.item_id) == col(Item.id))
        .where(Weight.form == "shot")
        .order_by(col(Item.id))
    )
    return tuple(
        Supply(weight.mark, measured.shot(item.id or 0, weight).mean, weight.material, item.on_hand)
        for item, weight in session.exec(query)
    )
