"""Undoing: the last action is reversed as a whole, by movements against its own."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from tacklebox.errors import CannotBeDoneError
from tacklebox.stock.care.box import Box
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.tables import Action, Item, Movement, StateChange, Tied, Why

UNTIED = "untied"
UNDO, AGAIN = "undo of ", "again "


@dataclass(frozen=True)
class Undone:
    """What an undo did: the action it reversed, the items with their change, the rigs it turned.

    ``again`` says that the action reversed was itself an undo, so that what it undid is done again.
    """

    action: Action
    again: bool
    changes: tuple[tuple[Item, int], ...]
    rigs: tuple[Tied, ...]


def undo_last(box: Box, on: date) -> Undone:
    """Reverse the last action in one transaction; undone once more, it is done again.

    Names, places, prices and readings are not part of an action and stay as they are. Raises
    CannotBeDoneError when there is no action.
    """
    with box.writing() as session:
        last = session.exec(select(Action).order_by(col(Action.id).desc()).limit(1)).first()
        if last is None:
            raise CannotBeDoneError("nothing was done in this box yet.", where=str(box.folder))
        what = last.what
        again = last.undoes is not None and what.startswith(UNDO)
        if last.undoes is not None:
            what = what.removeprefix(UNDO).removeprefix(AGAIN)
        action = begin(session, (AGAIN if again else UNDO) + what, on, undoes=last.id)
        changes = _move_back(session, action, last)
        rigs = _turn_back(session, last)
    return Undone(last, again, changes, rigs)


def _move_back(session: Session, action: Action, last: Action) -> tuple[tuple[Item, int], ...]:
    """A movement against each; what comes back to stock first, so that none is short midway."""
    moved = list(session.exec(select(Movement).where(Movement.action_id == last.id)))
    changes: dict[int, tuple[Item, int]] = {}
    for movement in sorted(moved, key=lambda m: (m.amount, m.id)):
        item = session.get_one(Item, movement.item_id)
        reason = f"against movement {movement.id}"
        move(session, action, item, -movement.amount, Why.CORRECTED, reason)
        before = changes.get(movement.item_id, (item, 0))[1]
        changes[movement.item_id] = (item, before - movement.amount)
    return tuple(changes.values())


def _turn_back(session: Session, last: Action) -> tuple[Tied, ...]:
    """Rigs it tied become untied; rigs it turned become what they were."""
    session.flush()
    to: dict[int, str] = {}
    for rig in session.exec(select(Tied).where(Tied.action_id == last.id)):
        to[rig.id or 0] = UNTIED
    changed = select(StateChange).where(StateChange.action_id == last.id)
    for change in session.exec(changed.order_by(col(StateChange.id).desc())):
        to[change.tied_id] = change.was
    return tuple(_turned(session, to))


def _turned(session: Session, to: Mapping[int, str]) -> list[Tied]:
    rigs = []
    for number, state in sorted(to.items()):
        rig = session.get_one(Tied, number)
        rig.state = state
        session.add(rig)
        rigs.append(rig)
    session.flush()
    return rigs
