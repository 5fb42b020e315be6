"""Tied rigs and hooklengths: found by code, stripped, lost, labelled."""

from collections.abc import Mapping, Sequence
from datetime import date

from sqlmodel import Session, col, func, select

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.tying.codes import each_code, near_codes, read_code
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.stock.care.box import Box
from tacklebox.stock.ledger import begin, go_on, move
from tacklebox.stock.tables import Action, Item, Kind, SheetInUse, State, Tied, TiedUse, Why


def tied_with(
    box: Box, *, state: str | None = None, unlabelled: bool = False, last: bool = False
) -> list[Tied]:
    """Tied rigs and hooklengths, oldest first: by state, without a label, or of the last tying."""
    query = select(Tied).order_by(col(Tied.id))
    if state:
        query = query.where(Tied.state == state)
    if unlabelled:
        query = query.where(col(Tied.labelled_on).is_(None))
    if last:
        query = query.where(Tied.action_id == select(func.max(Tied.action_id)).scalar_subquery())
    with box.reading() as session:
        return list(session.exec(query))


def find_tied(session: Session, typed: str) -> Tied:
    """The rig of a code as typed. Raises AskedWronglyError, offering near codes in the box."""
    try:
        code = read_code(typed)
    except AskedWronglyError as error:
        raise AskedWronglyError(error.what, right=_near(session, typed) or error.right) from None
    tied = session.exec(select(Tied).where(Tied.code == code)).first()
    if tied is None:
        near = _near(session, code)
        raise AskedWronglyError(
            f"no rig has the code {code}.", right=near, see="" if near else "rigs.listed"
        )
    return tied


def _near(session: Session, typed: str) -> str:
    near = near_codes(typed, list(session.exec(select(Tied.code))))
    return f"Near it: {', '.join(near)}." if near else ""


def find_snapshot(box: Box, typed: str) -> tuple[Tied, Snapshot]:
    """A rig by its code, and what was tied."""
    with box.reading() as session:
        tied = find_tied(session, typed)
    return tied, Snapshot.from_json(tied.snapshot)


def strip_rigs(box: Box, codes: Sequence[str], on: date) -> list[tuple[Tied, list[Item]]]:
    """Strip rigs: floats, feeders and winders go back to stock; all of them or none."""
    return _leave(box, codes, on, "strip", State.STRIPPED)


def mark_lost(box: Box, codes: Sequence[str], on: date) -> list[tuple[Tied, list[Item]]]:
    """Mark rigs as lost: all of them or none. Only the winder, which stayed on the bank, goes back
    to stock; the rest left it when they were tied."""
    return _leave(box, codes, on, "lost", State.LOST)


def _leave(
    box: Box, codes: Sequence[str], on: date, what: str, state: State
) -> list[tuple[Tied, list[Item]]]:
    done = []
    with box.writing() as session:
        for tied in _ready(session, codes):
            action = begin(session, f"{what} {tied.code}", on)
            back = give_back(session, action, tied, lost=state == State.LOST)
            tied.state = state
            session.add(tied)
            done.append((tied, back))
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


def _ready(session: Session, codes: Sequence[str]) -> list[Tied]:
    rigs: list[Tied] = []
    for code in each_code(codes):
        tied = find_tied(session, code)
        if tied.state != State.READY:
            raise AskedWronglyError(
                f"{tied.code} is {tied.state} already.", right="Nothing was changed."
            )
        if any(tied.id == other.id for other in rigs):
            raise AskedWronglyError(f"{tied.code} is named twice.", right="Name each rig once.")
        rigs.append(tied)
    return rigs


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
    """Remember that labels of these rigs were printed, and where the sheet of each paper goes on.

    ``tied_by`` is the action that tied them, where printing was part of the same thing: it is undone with it.
    """
    with box.writing() as session:
        if tied_by is None or not go_on(session, tied_by):
            begin(session, f"label {', '.join(codes or next_free)}", on)
        for tied in session.exec(select(Tied).where(col(Tied.code).in_(codes))):
            tied.labelled_on = on
            session.add(tied)
        for paper, place in next_free.items():
            session.merge(SheetInUse(paper=paper, next_free=place))
        session.flush()
