"""Hooklengths that are there already: tied before the box knew them, or bought. Nothing is taken from stock.

They become a batch with a code and a wallet label. What they were tied from nobody knows, so they are
described by the figures of their item.
"""

from datetime import date

from sqlmodel import Session

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs import wallet
from tacklebox.rigs.tying.batch_making import newest_number
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.stock.batches import batches_of
from tacklebox.stock.codes import next_code
from tacklebox.stock.inventory import Inventory, Stocked
from tacklebox.stock.ledger import write_movement
from tacklebox.stock.made import Batch
from tacklebox.stock.naming.rows import of_row
from tacklebox.stock.notation import write_notation
from tacklebox.stock.tables import Action, Hooklength, Item, Why


def enter_batch(
    session: Session,
    action: Action,
    item: Item,
    count: int,
    tied_on: date | None = None,
    *,
    are_counted: bool = False,
) -> Batch:
    """So many hooklengths of an item as a batch of their own, on top of what is counted already.

    ``are_counted``: they are among those in stock that are of no batch. ``tied_on`` is the day on which
    they were tied, where it is known. Raises AskedWronglyError where fewer are of no batch.
    """
    if are_counted:
        _refuse_more_than_are_of_no_batch(session, item, count)
    number, code = next_code(newest_number(session))
    stocked = Stocked(item, session.get_one(Hooklength, item.id))
    batch = Batch(
        code=code,
        code_number=number,
        item_id=item.id or 0,
        action_id=action.id or 0,
        tied_on=tied_on or action.on,
        tied=count,
        left=count,
        snapshot=_describe(stocked, code, tied_on, count).to_json(),
    )
    if not are_counted:
        write_movement(session, action, item, count, Why.COUNTED, f"there already, {code}")
    session.add(batch)
    session.flush()
    return batch


def of_no_batch(session: Session, item: Item) -> int:
    """How many in stock are of no batch."""
    return item.on_hand - sum(batch.left for batch in batches_of(session, [item.id or 0]))


def _refuse_more_than_are_of_no_batch(session: Session, item: Item, count: int) -> None:
    loose = of_no_batch(session, item)
    if count > loose:
        raise AskedWronglyError(
            f"{loose} of {item.name} are of no batch, not {count}.",
            field="hooklengths",
            right="Name no more, or say that there are more of them.",
        )


def _describe(stocked: Stocked, code: str, tied_on: date | None, count: int) -> Snapshot:
    figures = stocked.figures
    assert isinstance(figures, Hooklength)
    words = of_row(figures).words_of
    hook = write_notation(wallet.as_hook(stocked).figures).removeprefix("hook ")
    line = write_notation(wallet.as_line(stocked, Inventory({})).figures)
    to = words("diameter").removesuffix(" mm") or words("strain")
    return Snapshot(
        code=code,
        recipe="",
        name="",
        kind="hooklength",
        method="",
        purpose="",
        tied_on=tied_on.isoformat() if tied_on else "",
        size=words("length"),
        carries="",
        rig_line="",
        hooklength=" ".join(filter(None, (words("length"), line))),
        hook=hook,
        shot="",
        set_for="",
        outcome="",
        length_mm=figures.length_mm or 0.0,
        in_tray_before=True,
        count=count,
        looked_for=" · ".join(filter(None, (figures.size, to))),
    )
