"""The ledger: amounts change only by movements, and what is on hand is their sum.

The database keeps ``on_hand`` itself (see the triggers in ``stock.care.triggers``) and refuses
anything below zero; the functions here say so in words before it must.
"""

import json
from collections.abc import Sequence
from datetime import UTC, date, datetime

from sqlalchemy import insert
from sqlmodel import Session, col, or_, select

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.stock.amounts import show_amount
from tacklebox.stock.levels import ALWAYS_COUNTED, Level
from tacklebox.stock.tables import (
    MEASURED_KINDS,
    Action,
    Change,
    Item,
    Kind,
    Movement,
    Why,
)


def begin(
    session: Session,
    what: str,
    on: date,
    *,
    undoes: int | None = None,
    redoes: int | None = None,
) -> Action:
    """Open an action: every change of one thing that the angler did hangs on it.

    A transaction is one action: what is begun in it again joins the first, so that it can be
    undone as a whole. ``undoes`` or ``redoes`` is the action that it reverses or does again.
    """
    action: Action | None = session.info.get("action")
    if action is None:
        row = Action(
            what=what,
            on=on,
            written_at=datetime.now(UTC),
            undoes=undoes,
            redoes=redoes,
            key=session.info.get("key"),
        )
        # Written at once, ahead of all that waits in the session: the database gives each change the
        # action that came last.
        values = row.model_dump(exclude={"id"})
        with session.no_autoflush:
            number = session.connection().execute(insert(Action).values(values)).lastrowid
            action = session.get_one(Action, number)
        session.info["action"] = action
    elif what not in action.what.split(", "):
        action.what = f"{action.what}, {what}"
        session.add(action)
        session.flush()
    return action


def go_on(session: Session, action_id: int) -> bool:
    """Whether that action is still the last; what is written then belongs to it, too."""
    last = session.exec(select(Action).order_by(col(Action.id).desc()).limit(1)).first()
    if last is None or last.id != action_id:
        return False
    session.info["action"] = last
    return True


def undone_actions(session: Session, since: int = 0) -> frozenset[int]:
    """The actions that are undone and not done again, as far as that was by actions from ``since`` on."""
    return frozenset(n for n, (_, undone) in reversals(session, since).items() if undone)


def reversals(session: Session, since: int = 0) -> dict[int, tuple[int, bool]]:
    """Of each action that was ever reversed, the last that did so, and whether it was an undo."""
    query = select(Action.id, Action.undoes, Action.redoes).where(
        or_(col(Action.undoes).is_not(None), col(Action.redoes).is_not(None)),
        col(Action.id) >= since,
    )
    return {
        undoes or redoes or 0: (number or 0, undoes is not None)
        for number, undoes, redoes in session.exec(query.order_by(col(Action.id)))
    }


def move(
    session: Session, action: Action, item: Item, amount: int, why: Why, reason: str = ""
) -> None:
    """Write one movement, of hooklengths in their batches too, the oldest first; nothing is taken from or
    added to what is not counted.

    Raises CannotBeDoneError when less than nothing would be left.
    """
    if item.level:
        return
    write_movement(session, action, item, amount, why, reason)
    if item.kind == Kind.HOOKLENGTH:
        from tacklebox.stock.batches import settle

        settle(session, item, amount, why, lambda: undone_actions(session))


def set_level(
    session: Session, action: Action, item: Item, level: Level, why: Why = Why.LEVEL
) -> None:
    """Say of an item that there is plenty of it, that it is low or out; it is counted no longer.

    Raises AskedWronglyError for what is always counted.
    """
    refuse_level(item.kind, item.name)
    write_movement(session, action, item, -item.on_hand, why, level.value)
    item.level = level.value
    session.add(item)
    session.flush()


def refuse_level(kind: str, name: str) -> None:
    """Raises AskedWronglyError for a kind that is always counted or measured."""
    if kind in ALWAYS_COUNTED:
        how = "measured" if kind in MEASURED_KINDS else "counted"
        raise AskedWronglyError(f"{name}: {kind} is {how}, it has no level.", see="stock.count")


def refuse_uncounted(item: Item) -> None:
    """Raises AskedWronglyError for an amount of what is not counted."""
    if item.level:
        raise AskedWronglyError(
            f"{item.name} is not counted: it is {item.level}.",
            right="Say plenty, low or out, or count it.",
            see=f"stock.level {item.id}",
        )


def refuse_counted(item: Item) -> None:
    """Raises AskedWronglyError for a level of an item that is counted."""
    if not item.level:
        refuse_level(item.kind, item.name)
        raise AskedWronglyError(
            f"{item.name} is counted: {show_amount(item.on_hand, item.measured, item.pack_said)} on hand.",
            see=f"stock.not_counted {item.id}",
        )


def refuse_retired(item: Item) -> None:
    """Raises AskedWronglyError for an item that is retired."""
    if item.retired:
        raise AskedWronglyError(f"{item.name} is retired.", see=f"stock.unretire {item.id}")


def count_anew(session: Session, action: Action, item: Item, counted: int) -> None:
    """Put right what is on hand, as counted; what had a level is counted from here on."""
    item.level = ""
    session.add(item)
    move(session, action, item, counted - item.on_hand, Why.COUNTED)


def write_movement(
    session: Session, action: Action, item: Item, amount: int, why: Why, reason: str = ""
) -> None:
    """Write one movement, whatever the item's level, and nothing of batches. Raises as ``move``."""
    if item.on_hand + amount < 0:
        raise CannotBeDoneError(
            f"only {show_amount(item.on_hand, item.measured, item.pack_said)} of {item.name} is in "
            f"stock; {show_amount(-amount, item.measured, item.pack_said)} cannot be taken.",
            see="stock.count",
        )
    assert item.id is not None
    assert action.id is not None
    session.add(
        Movement(
            item_id=item.id,
            action_id=action.id,
            amount=amount,
            why=why,
            on=action.on,
            reason=reason,
        )
    )
    session.flush()
    session.refresh(item)


def movements_of(session: Session, item: Item) -> list[Movement]:
    """Every movement of an item, oldest first."""
    query = select(Movement).where(Movement.item_id == item.id)
    return list(session.exec(query.order_by(col(Movement.id))))


def levels_after(session: Session, item: Item, movements: Sequence[Movement]) -> list[str]:
    """The item's level after each of its movements, "" where it was counted then."""
    query = select(Change).where(
        Change.table_name == "item",
        Change.row_key == str(item.id),
        Change.column_name == "level",
    )
    changes = list(session.exec(query.order_by(col(Change.id))))
    level = json.loads(changes[0].was) if changes else item.level
    levels = []
    for movement in movements:
        while changes and changes[0].action_id <= movement.action_id:
            level = json.loads(changes.pop(0).became)
        levels.append(level)
    return levels
