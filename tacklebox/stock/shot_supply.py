"""The shot in the box as a supply to choose patterns from."""

from sqlmodel import Session, col, select

from tacklebox.stock.measured import read_measured
from tacklebox.stock.tables import IN_USE, Item, Weight
from tacklebox.trade.shot import UNTIL_WEIGHED
from tacklebox.trade.supply import Supply


def shot_in_stock(session: Session) -> tuple[Supply, ...]:
    """Every size of shot and olivette with what there is of it, at its own weighing where there is one;
    a size of which nobody knows the mass only once it was weighed."""
    measured = read_measured(session)
    query = (
        select(Item, Weight)
        .join(Weight, col(Weight.item_id) == col(Item.id))
        .where(IN_USE)
        .order_by(col(Item.id))
    )
    found = [
        (item, weight, measured.shot(item.id or 0, weight)) for item, weight in session.exec(query)
    ]
    return tuple(
        Supply(weight.mark, figure.mean, weight.material, item.on_hand, weight.form)
        for item, weight, figure in found
        if figure.source is not UNTIL_WEIGHED
    )
