"""Undo and redo: an action is reversed as a whole, by movements against its own.

Undo takes the latest action that is not undone, as often as wanted; redo goes forward again, until
something new is done.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from sqlalchemy import text
from sqlmodel import Session, col, exists, func, select

from tacklebox.errors import CannotBeDoneError
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.triggers import KINDS, MUTABLE
from tacklebox.stock.dates import write_day
from tacklebox.stock.ledger import begin, reversals, write_movement
from tacklebox.stock.made import Batch, StateChange, Tied
from tacklebox.stock.tables import (
    Action,
    Change,
    Identity,
    Item,
    Measurement,
    Movement,
    Reel,
    State,
    Why,
)

UNDO, REDO = "undo of ", "redo of "


@dataclass(frozen=True)
class Edit:
    """A cell that was changed: of which item, rig, reel or batch, or of what else by table and key, and what
    it held."""

    item: Item | None
    rig: Tied | None
    table: str
    key: str
    column: str
    was: str | int | float | None
    became: str | int | float | None
    reel: Reel | None = None
    batch: Batch | None = None

    @property
    def name(self) -> str:
        """What the thing is called."""
        if made := self.rig or self.batch:
            return made.code
        named = self.item or self.reel
        return named.name if named else self.key


@dataclass(frozen=True)
class Turned:
    """What an undo or a redo (``again``) did.

    The action it was about, the items with the change of their amount, the rigs that became something else,
    what else was changed, and how many readings no longer count, or count again.
    """

    action: Action
    again: bool
    changes: tuple[tuple[Item, int], ...]
    rigs: tuple[Tied, ...]
    edits: tuple[Edit, ...]
    readings: int


@dataclass(frozen=True)
class LatestActions:
    """What undo and redo would do now, and the stamp of the state in which they would."""

    undo: Action | None
    redo: Action | None
    stamp: str


def read_history(session: Session) -> LatestActions:
    """What undo and redo would do now."""
    turned = reversals(session)
    plain = select(Action.id).where(col(Action.undoes).is_(None), col(Action.redoes).is_(None))
    newest, undo = 0, None
    with session.connection().execute(plain.order_by(col(Action.id).desc())) as numbers:
        for (number,) in numbers:
            newest = newest or number
            if not turned.get(number, (0, False))[1]:
                undo = number
                break
    forward = [number for number, (by, undone) in turned.items() if undone and by > newest]
    return LatestActions(
        session.get_one(Action, undo) if undo else None,
        session.get_one(Action, min(forward)) if forward else None,
        session.exec(select(Identity.stamp)).one(),
    )


def item_moved_by(session: Session, action: Action) -> str:
    """The name of the one item that the action moved; "" where it moved none or several."""
    moved = select(Item.name).join(Movement).where(Movement.action_id == action.id).distinct()
    names = session.exec(moved.limit(2)).all()
    return names[0] if len(names) == 1 else ""


def undo_last(
    box: Box, on: date, *, expected: int | None = None, stamp: str | None = None
) -> Turned:
    """Reverse the latest action that is not undone, in one transaction.

    ``expected`` is the action that is meant and ``stamp`` the state it was seen in. Raises
    CannotBeDoneError when there is no action, or when it is another one by now.
    """
    with box.writing() as session:
        history = read_history(session)
        action = history.undo
        if action is None:
            raise CannotBeDoneError("there is nothing to undo.", where=str(box.folder))
        _refuse_another(action, expected, history.stamp, stamp)
        by, undone = reversals(session).get(action.id or 0, (action.id or 0, False))
        assert not undone
        written = begin(session, UNDO + action.what, on, undoes=action.id)
        return _reverse(session, written, action, session.get_one(Action, by), again=False)


def redo_last(
    box: Box, on: date, *, expected: int | None = None, stamp: str | None = None
) -> Turned:
    """Do again what was undone last; see ``undo_last``.

    Raises CannotBeDoneError where nothing was undone, or something new was done since.
    """
    with box.writing() as session:
        history = read_history(session)
        action = history.redo
        if action is None:
            raise CannotBeDoneError(
                "there is nothing to do again.",
                where=str(box.folder),
                right="What was undone can be done again until something new is done.",
            )
        _refuse_another(action, expected, history.stamp, stamp)
        by, _ = reversals(session)[action.id or 0]
        written = begin(session, REDO + action.what, on, redoes=action.id)
        return _reverse(session, written, action, session.get_one(Action, by), again=True)


def _refuse_another(action: Action, expected: int | None, stamp: str, seen: str | None) -> None:
    if seen is not None and seen != stamp:
        raise CannotBeDoneError(
            "another copy of the box was put back since; nothing was changed.",
            right="Look at what was done last, then decide again.",
        )
    if expected is not None and expected != action.id:
        raise CannotBeDoneError(
            f'something else came since: "{action.what}" of {write_day(action.on, with_year=True)} '
            "would be next; nothing was changed.",
            right="Look at what was done last, then decide again.",
        )


def _reverse(
    session: Session, written: Action, action: Action, source: Action, *, again: bool
) -> Turned:
    """Reverse what ``source`` wrote, the last that did or undid the action."""
    changes = _move_back(session, written, source)
    rigs = _turn_back(session, source)
    edits = [*_withdraw(session, source), *_change_back(session, source)]
    readings = select(func.count()).where(Measurement.action_id == action.id)
    session.flush()
    for item, _ in changes:
        session.refresh(item)
    for rig in rigs:
        session.refresh(rig)
    return Turned(action, again, changes, rigs, tuple(edits), session.exec(readings).one())


def _move_back(session: Session, written: Action, source: Action) -> tuple[tuple[Item, int], ...]:
    """A movement against each; what comes back to stock first, so that none is short midway."""
    moved = list(session.exec(select(Movement).where(Movement.action_id == source.id)))
    changes: dict[int, tuple[Item, int]] = {}
    for movement in sorted(moved, key=lambda m: (m.amount, m.id)):
        item = session.get_one(Item, movement.item_id)
        reason = f"against movement {movement.id}"
        write_movement(session, written, item, -movement.amount, Why.CORRECTED, reason)
        before = changes.get(movement.item_id, (item, 0))[1]
        changes[movement.item_id] = (item, before - movement.amount)
    return tuple(changes.values())


def _turn_back(session: Session, source: Action) -> tuple[Tied, ...]:
    """Rigs it turned become what they were; rigs it tied become untied."""
    session.flush()
    to: dict[int, str] = {}
    changed = select(StateChange).where(StateChange.action_id == source.id)
    for change in session.exec(changed.order_by(col(StateChange.id).desc())):
        to[change.tied_id] = change.was
    for rig in session.exec(select(Tied).where(Tied.action_id == source.id)):
        to[rig.id or 0] = State.UNTIED.value
    rigs = []
    for number, state in sorted(to.items()):
        rig = session.get_one(Tied, number)
        rig.state = state
        session.add(rig)
        rigs.append(rig)
    session.flush()
    return tuple(rigs)


def _change_back(session: Session, source: Action) -> Iterator[Edit]:
    """Each cell it changed becomes what it was, the last change first."""
    changed = select(Change).where(Change.action_id == source.id).order_by(col(Change.id).desc())
    for change in session.exec(changed).all():
        key, columns = MUTABLE[change.table_name]
        assert change.column_name in columns
        session.connection().execute(
            text(
                f'UPDATE {change.table_name} SET "{change.column_name}" = :was WHERE {key} = :row'
            ),
            {"was": json.loads(change.was), "row": change.row_key},
        )
        of_item = change.table_name == "item" or change.table_name in KINDS
        item = session.get_one(Item, int(change.row_key)) if of_item else None
        rig = session.get_one(Tied, int(change.row_key)) if change.table_name == "tied" else None
        reel = session.get_one(Reel, int(change.row_key)) if change.table_name == "reel" else None
        batch = (
            session.get_one(Batch, int(change.row_key)) if change.table_name == "batch" else None
        )
        if turned := item or rig or reel or batch:
            session.refresh(turned)
        yield Edit(
            item,
            rig,
            change.table_name,
            change.row_key,
            change.column_name,
            json.loads(change.became),
            json.loads(change.was),
            reel,
            batch,
        )


def _withdraw(session: Session, source: Action) -> Iterator[Edit]:
    """Items that it added are in stock no longer."""
    earlier = exists().where(col(Movement.item_id) == Item.id, col(Movement.action_id) < source.id)
    added = select(Item).where(
        col(Item.id).in_(select(Movement.item_id).where(Movement.action_id == source.id)),
        ~earlier,
        ~col(Item.withdrawn),
    )
    for item in session.exec(added.order_by(col(Item.id))).all():
        item.withdrawn = True
        session.add(item)
        session.flush()
        yield Edit(item, None, "item", str(item.id), "withdrawn", 0, 1)
