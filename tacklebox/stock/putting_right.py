"""Items put right: figures corrected while nothing was tied from them, else a new item in their place."""

from dataclasses import replace

from sqlmodel import Session, col, exists, or_, select

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.stock.entering import NewItem, add_item, free_name, question_line, set_packet
from tacklebox.stock.ledger import move
from tacklebox.stock.made import Batch, BatchUse, Tied, TiedUse
from tacklebox.stock.naming.described import Described, word
from tacklebox.stock.naming.rows import as_row
from tacklebox.stock.naming.writing import write
from tacklebox.stock.tables import FIGURES, Action, Item, State, Why


def is_in_use(session: Session, item: Item) -> bool:
    """Whether anything that counts was tied from it, or is a batch of it: its figures stay then."""
    rigs = exists().where(
        col(TiedUse.item_id) == item.id,
        col(TiedUse.tied_id) == col(Tied.id),
        col(Tied.state) != State.UNTIED,
    )
    batches = exists().where(
        or_(
            col(Batch.item_id) == item.id,
            (col(BatchUse.item_id) == item.id) & (col(BatchUse.batch_id) == col(Batch.id)),
        ),
        col(Batch.left) > 0,
    )
    return bool(session.exec(select(or_(rigs, batches))).one())


def reword(session: Session, item: Item, described: Described, *, as_printed: bool) -> None:
    """Correct what an item is. Its name goes along where it was the same.

    Raises CannotBeDoneError for another kind of tackle, and once something was tied from it.
    """
    _refuse_tied_hooklengths(session, item)
    if described.kind != item.kind or is_in_use(session, item):
        why = (
            f"{item.name} is a {item.kind}, no {described.kind}"
            if described.kind != item.kind
            else f"rigs or hooklengths were tied from {item.name}: its figures stay with them"
        )
        raise CannotBeDoneError(f"{why}.", see="stock.reword_anew")
    kept = session.get_one(FIGURES[item.kind], item.id)
    if (maker := getattr(kept, "maker", "")) and "maker" not in described.figures:
        described = replace(described, figures={**described.figures, "maker": word(maker)})
    row, words = as_row(described), write(described)
    if not as_printed:
        question_line(row)
    for column, value in row.model_dump(exclude={"item_id"}).items():
        setattr(kept, column, value)
    if item.name == item.words:
        item.name = free_name(session, words, item.id)
    item.words, item.note = words, described.note
    set_packet(item, described)
    session.add(kept)
    session.add(item)
    session.flush()


def put_in_its_place(
    session: Session, action: Action, item: Item, described: Described, *, as_printed: bool
) -> Item:
    """Retire an item and put a new one in its place, with what there is of it, its place, price, minimum
    and own name."""
    _refuse_tied_hooklengths(session, item)
    own_name = "" if item.name == item.words else item.name
    retire(session, item)
    new = NewItem(
        described,
        name=own_name,
        place=item.place,
        pack_size=None if described.pack and not described.pack.because else item.pack_size,
        pack_said=item.pack_said,
        pack_price_cents=item.pack_price_cents,
        level=item.level,
    )
    if item.measured != described.measured:  # what was metres are no pieces
        new = NewItem(described, name=own_name, place=item.place)
    elif not item.level:
        unit = " mm" if item.measured else ""
        new.amount = f"{item.on_hand}{unit}" if item.on_hand else "0"
        new.minimum = f"{item.minimum}{unit}" if item.minimum else ""
        new.packs = 0 if not item.on_hand else None
    made = add_item(session, action, new, as_printed=as_printed)
    move(session, action, item, -item.on_hand, Why.CORRECTED, f"it is item {made.id}")
    return made


def _refuse_tied_hooklengths(session: Session, item: Item) -> None:
    """Raises CannotBeDoneError for hooklengths that were tied: they are in the wallet as what they are."""
    tied = select(Batch).where(col(Batch.item_id) == item.id, col(Batch.left) > 0)
    if batch := session.exec(tied).first():
        raise CannotBeDoneError(
            f"{item.name} was tied: its labels say so, {batch.code} first.",
            right="Undo the tying, or use them up.",
        )


def retire(session: Session, item: Item) -> None:
    """Hide an item; its history stays. Raises AskedWronglyError where it is retired already."""
    if item.retired:
        raise AskedWronglyError(f"{item.name} is retired already.", see=f"stock.unretire {item.id}")
    item.retired = True
    session.add(item)
    session.flush()


def unretire(session: Session, item: Item) -> None:
    """Show a retired item again. Raises AskedWronglyError where it is in use, or its name is another's."""
    if not item.retired:
        raise AskedWronglyError(f"{item.name} is in use.")
    try:
        free_name(session, item.name, item.id)
    except AskedWronglyError as error:
        raise AskedWronglyError(
            error.what, right="Retire that one first, or give it another name."
        ) from None
    item.retired = False
    session.add(item)
    session.flush()
