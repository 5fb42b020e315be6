"""The shot in the box as a supply to choose patterns from."""

from sqlmodel import Session, col, select

from tacklebox.stock.levels import Level
from tacklebox.stock.measured import read_measured
from tacklebox.stock.tables import IN_USE, Item, Weight
from tacklebox.trade.shot import UNTIL_WEIGHED
from tacklebox.trade.supply import Supply


def shot_in_stock(session: Session) -> tuple[Supply, ...]:
    """Every size of shot and olivette with what there is of it, at its own weighing where there is one;
    a size of which nobody knows the mass only once it was weighed, a tub of no one size never."""
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
        Supply(weight.mark, figure.mean, weight.material, _so_many(item), weight.form)
        for item, weight, figure in found
        if figure and figure.source is not UNTIL_WEIGHED
    )


def _so_many(item: Item) -> int | None:
    """How many there are; as many as wanted of what is not counted and not out."""
    if not item.level:
        return item.on_hand
    return 0 if item.level == Level.OUT else None
