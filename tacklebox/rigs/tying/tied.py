"""Tied rigs and batches of hooklengths: found by code, stripped, lost, labelled."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlmodel import Session, col, func, select, union_all

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.tying.batches import (
    batch_codes,
    count_of_batch,
    find_batch,
    read_counted,
)
from tacklebox.rigs.tying.snapshot import Snapshot, read_kept
from tacklebox.stock.batch_moves import take_of
from tacklebox.stock.care.box import Box
from tacklebox.stock.codes import each_code, near_codes, read_code
from tacklebox.stock.ledger import begin, go_on, move
from tacklebox.stock.made import Batch, SheetInUse, Tied, TiedUse
from tacklebox.stock.tables import Action, Item, Kind, State, Why


@dataclass(frozen=True)
class Departed:
    """A rig that is ready no longer, with the items that went back to stock; or so many hooklengths of a
    batch."""

    made: Tied | Batch
    state: State
    back: tuple[Item, ...] = ()
    count: int = 1


def tied_with(
    box: Box, *, state: str | None = None, unlabelled: bool = False, last: bool = False
) -> list[Tied]:
    """Tied rigs, oldest first: by state, without a label, or of the last tying."""
    query = select(Tied).order_by(col(Tied.id))
    if state:
        query = query.where(Tied.state == state)
    if unlabelled:
        query = query.where(col(Tied.labelled_on).is_(None))
    if last:
        query = query.where(Tied.action_id == _last_tying())
    with box.reading() as session:
        return list(session.exec(query))


def _last_tying() -> Any:
    """The number of the action that tied last, rigs or hooklengths."""
    both = union_all(select(col(Tied.action_id)), select(col(Batch.action_id))).subquery()
    return select(func.max(both.c.action_id)).scalar_subquery()


def batches_with(
    box: Box, *, unlabelled: bool = False, last: bool = False, every: bool = False
) -> list[Batch]:
    """Batches of hooklengths, oldest first: those that hold any, without a label, or of the last tying."""
    query = select(Batch).order_by(col(Batch.id))
    if not every:
        query = query.where(Batch.left > 0)
    if unlabelled:
        query = query.where(col(Batch.labelled_on).is_(None))
    if last:
        query = query.where(Batch.action_id == _last_tying())
    with box.reading() as session:
        return list(session.exec(query))


def find_tied(session: Session, typed: str) -> Tied:
    """The rig of a code as typed. Raises AskedWronglyError, offering near codes in the box."""
    try:
        code = read_code(typed)
    except AskedWronglyError as error:
        raise AskedWronglyError(error.what, right=_near(session, typed) or error.right) from None
    tied = session.exec(select(Tied).where(Tied.code == code)).first()
    if tied is None and find_batch(session, code):
        raise AskedWronglyError(
            f"{code} is a batch of hooklengths, not a rig.", see=f"hooklengths.show {code}"
        )
    if tied is None:
        near = _near(session, code)
        raise AskedWronglyError(
            f"no rig has the code {code}.", right=near, see="" if near else "rigs.listed"
        )
    return tied


def _near(session: Session, typed: str) -> str:
    near = near_codes(typed, [*session.exec(select(Tied.code)), *batch_codes(session)])
    return f"Near it: {', '.join(near)}." if near else ""


def find_snapshot(box: Box, typed: str) -> tuple[Tied, Snapshot]:
    """A rig by its code, and what was tied."""
    with box.reading() as session:
        tied = find_tied(session, typed)
    return tied, read_kept(tied)


def find_labelled(box: Box, typed: str) -> tuple[Tied | Batch, Snapshot]:
    """A rig or a batch by its code, and what was tied."""
    (found,) = find_each_labelled(box, [typed])
    return found


def find_each_labelled(box: Box, codes: Sequence[str]) -> list[tuple[Tied | Batch, Snapshot]]:
    """Rigs and batches by their codes, and what was tied."""
    with box.reading() as session:
        every = [find_batch(session, typed) or find_tied(session, typed) for typed in codes]
    return [(made, read_kept(made)) for made in every]


def strip_rigs(box: Box, codes: Sequence[str], on: date) -> list[Departed]:
    """Strip rigs: floats, feeders and winders go back to stock; all of them or none.

    Of hooklengths, "A03P=2", nothing goes back: they are thrown out.
    """
    return _leave(box, codes, on, "strip", State.STRIPPED)


def mark_lost(box: Box, codes: Sequence[str], on: date) -> list[Departed]:
    """Mark rigs as lost: all of them or none. Only the winder, which stayed on the bank, goes back
    to stock; the rest left it when they were tied. Of a batch so many are lost: "A03P=2"."""
    return _leave(box, codes, on, "lost", State.LOST)


def _leave(box: Box, codes: Sequence[str], on: date, what: str, state: State) -> list[Departed]:
    done = []
    why = Why.LOST if state is State.LOST else Why.THROWN_OUT
    with box.writing() as session:
        for made, count in _ready(session, codes):
            if isinstance(made, Batch):
                action = begin(session, f"{what} {count} of {made.code}", on)
                take_of(session, action, made, count, why, f"{what} {made.code}")
                done.append(Departed(made, state, (), count))
                continue
            action = begin(session, f"{what} {made.code}", on)
            back = give_back(session, action, made, lost=state == State.LOST)
            made.state = state
            session.add(made)
            done.append(Departed(made, state, tuple(back)))
        session.flush()
    return done


def give_back(session: Session, action: Action, tied: Tied, *, lost: bool) -> list[Item]:
    """Put back into stock what outlives a rig, each part by a movement; returns the items.

    That is the float, the feeder and the winder; of a rig that was ``lost`` the winder alone.
    """
    uses = select(TiedUse, Item).join(Item, col(Item.id) == TiedUse.item_id)
    uses = uses.where(TiedUse.tied_id == tied.id, col(TiedUse.comes_back))
    back = []
    for use, item in session.exec(uses.order_by(col(TiedUse.id))).all():
        if not lost or item.kind == Kind.WINDER:
            reason = f"{use.part} of {tied.code}"
            move(session, action, item, use.amount, Why.GIVEN_BACK, reason)
            back.append(item)
    return back


def _ready(session: Session, codes: Sequence[str]) -> list[tuple[Tied | Batch, int]]:
    """The rigs, and the batches with how many of each are meant."""
    found: list[tuple[Tied | Batch, int]] = []
    for typed in each_code(codes):
        counted = read_counted(typed)
        batch = find_batch(session, counted.typed)
        if batch:
            item = session.get_one(Item, batch.item_id)
            found.append((batch, count_of_batch(batch, item, counted.count)))
            continue
        tied = find_tied(session, counted.typed if counted.count == 1 else typed)
        if tied.state != State.READY:
            raise AskedWronglyError(
                f"{tied.code} is {tied.state} already.", right="Nothing was changed."
            )
        found.append((tied, 1))
    codes_found = [made.code for made, _ in found]
    for code in codes_found:
        if codes_found.count(code) > 1:
            raise AskedWronglyError(f"{code} is named twice.", right="Name each rig once.")
    return found


def next_free_place(box: Box, paper: str) -> int:
    """The next free place on the part-used sheet of a paper; 1 where there is none."""
    with box.reading() as session:
        sheet = session.get(SheetInUse, paper)
        return sheet.next_free if sheet else 1


def mark_labelled(
    box: Box,
    codes: Sequence[str],
    on: date,
    next_free: Mapping[str, int],
    *,
    tied_by: int | None = None,
) -> None:
    """Remember that labels of these rigs and batches were printed, and where the sheet of each paper goes
    on.

    ``tied_by`` is the action that tied them, where printing was part of the same thing: it is undone with it.
    """
    with box.writing() as session:
        if tied_by is None or not go_on(session, tied_by):
            begin(session, f"label {', '.join(codes or next_free)}", on)
        for tied in session.exec(select(Tied).where(col(Tied.code).in_(codes))):
            tied.labelled_on = on
            session.add(tied)
        for batch in session.exec(select(Batch).where(col(Batch.code).in_(codes))):
            batch.labelled_on = on
            session.add(batch)
        for paper, place in next_free.items():
            if place > 1 or session.get(SheetInUse, paper) is not None:
                session.merge(SheetInUse(paper=paper, next_free=place))
        session.flush()
