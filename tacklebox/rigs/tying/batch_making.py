"""Hooklengths tied at home: one batch for all that were tied together, of one item, with one code."""

from dataclasses import replace
from datetime import date

from sqlmodel import Session, col, func, select

from tacklebox.errors import AskedWronglyError, ToConfirmError
from tacklebox.rigs import wallet
from tacklebox.rigs.checking.check import Checked
from tacklebox.rigs.fitting import Fit
from tacklebox.rigs.tying.describe import describe, length_words
from tacklebox.stock.batches import newest_code
from tacklebox.stock.codes import next_code
from tacklebox.stock.dates import write_day
from tacklebox.stock.entering import NewItem, make_item
from tacklebox.stock.ledger import write_movement
from tacklebox.stock.made import Batch, Tied
from tacklebox.stock.naming.described import Described, Figure, word
from tacklebox.stock.naming.hooks import OF_THE_HOOK
from tacklebox.stock.naming.rows import of_row
from tacklebox.stock.naming.sameness import Same, same
from tacklebox.stock.naming.writing import write
from tacklebox.stock.tables import IN_USE, Action, Hook, Hooklength, Item, Kind, Line, Part, Why

USUAL_PACKET = 10


def add_batch(
    session: Session,
    action: Action,
    checked: Checked,
    count: int,
    on: date,
    because: str = "",
    *,
    entered_late: bool = False,
) -> Batch:
    """So many hooklengths as fitted, added to their item as one batch; the item is made if it is new.

    Raises ToConfirmError for a day before its hook or line came into the box, unless that was there before
    and was ``entered_late``.
    """
    if not entered_late:
        _refuse_older_than_tackle(checked.fit, on)
    item = item_for(session, action, describe_item(checked.fit))
    number, code = next_code(newest_number(session))
    snapshot = describe(checked, code, on, count)
    batch = Batch(
        code=code,
        code_number=number,
        item_id=item.id or 0,
        action_id=action.id or 0,
        recipe=checked.fit.resolved.recipe.stem,
        tied_on=on,
        tied=count,
        left=count,
        forced_because=because,
        snapshot=snapshot.to_json(),
    )
    session.add(batch)
    write_movement(session, action, item, count, Why.TIED, code)
    return batch


def item_for(session: Session, action: Action, described: Described) -> Item:
    """The item of the wallet that is just the same, or a new one."""
    if described.pack is None:
        described = replace(described, pack=Figure(USUAL_PACKET, str(USUAL_PACKET)))
    return _item_of(session, described) or make_item(
        session, action, NewItem(described, name=_free_name(session, write(described)))
    )


def newest_number(session: Session) -> int:
    """The number of the newest code of the box, of a rig or a batch; -1 where there is none."""
    rigs = session.exec(select(func.max(Tied.code_number))).one()
    return max(-1 if rigs is None else int(rigs), newest_code(session))


def _refuse_older_than_tackle(fit: Fit, on: date) -> None:
    for serving in fit.servings:
        item = serving.item.item if serving.item else None
        if item and item.added_on > on:
            tied, came = (write_day(day, with_year=True) for day in (on, item.added_on))
            raise ToConfirmError(
                f"hooklengths tied on {tied} cannot be of {item.name}, which came into the box on "
                f"{came}, unless it was there before and was entered late.",
                "entered_late",
                field="on",
                right="Nothing was tied.",
                see="tie.entered_late",
            )


def describe_item(fit: Fit) -> Described:
    """What a hooklength recipe as fitted makes: an item with the figures of its hook and its line.

    Raises AskedWronglyError where it has no hook or no line.
    """
    resolved = fit.resolved
    hook, line = (_figures(fit, find(resolved)) for find in (wallet.hook_of, wallet.line_of))
    if not isinstance(hook, Hook) or not isinstance(line, Line):
        missing = "line" if isinstance(hook, Hook) else "hook"
        raise AskedWronglyError(
            f"{resolved.recipe.name} has no {missing} to make a hooklength of; nothing was tied."
        )
    of_hook, of_line = of_row(hook).figures, of_row(line).figures
    figures = {key: of_hook[key] for key in ("size", *OF_THE_HOOK) if key in of_hook}
    figures |= {key: of_line[key] for key in ("material", "diameter", "strain") if key in of_line}
    figures["length"] = Figure(resolved.length_mm, length_words(resolved))
    parts = (s.item.figures for s in fit.servings if s.item)
    if held := wallet.bait_words(part.sort for part in parts if isinstance(part, Part)):
        figures["bait"] = word(held)
    return Described(Kind.HOOKLENGTH, figures)


def _figures(fit: Fit, segment: object) -> object:
    name = getattr(segment, "name", None)
    item = fit.serving(name).item if name else None
    return item.figures if item else None


def _item_of(session: Session, described: Described) -> Item | None:
    """The counted item in use that is just the same."""
    query = (
        select(Item, Hooklength)
        .join(Hooklength, col(Hooklength.item_id) == Item.id)
        .where(IN_USE, Item.level == "", Hooklength.size == described.figures["size"].value)
    )
    for item, row in session.exec(query.order_by(col(Item.id))):
        if same(of_row(row, item.note), described) is Same.YES:
            return item
    return None


def _free_name(session: Session, words: str) -> str:
    name, more = words, 1
    while session.exec(select(Item).where(Item.name == name, IN_USE)).first():
        more += 1
        name = f"{words} ({more})"
    return name
