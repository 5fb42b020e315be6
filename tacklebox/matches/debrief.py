"""After a match: what came back, what was lost or spent, what did well. One transaction."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from sqlmodel import Session, col, select

from tacklebox.errors import AskedWronglyError, CannotBeDoneError, nearest_word
from tacklebox.matches.losses import valid_debriefs
from tacklebox.matches.match import Match
from tacklebox.rigs.snapshot import Snapshot
from tacklebox.rigs.tied import LOST, READY, find_tied
from tacklebox.stock.box import Box
from tacklebox.stock.ledger import begin, find, move, read_amount, write_amount
from tacklebox.stock.tables import Action, Debrief, DebriefRig, Item, Movement, Tied, Why

BACK, SPENT = "back", "spent"
METHODS = ("float", "feeder", "pole")
MONTHS = {
    "spring": (3, 4, 5),
    "summer": (6, 7, 8),
    "autumn": (9, 10, 11),
    "winter": (12, 1, 2),
}


@dataclass(frozen=True)
class Told:
    """What the angler tells: codes of rigs, items lost by words or number with their amount."""

    back: Sequence[str] = ()
    lost: Sequence[str] = ()
    spent: Sequence[str] = ()
    did_well: Sequence[str] = ()
    items_lost: Mapping[str, str] = field(default_factory=dict)
    peg: str = ""
    weight_g: float | None = None
    notes: str = ""


@dataclass(frozen=True)
class DidWell:
    """A rig that did well: where, when, and what it is."""

    debrief: Debrief
    tied: Tied
    made: Snapshot


def debrief(box: Box, match: Match, told: Told, today: date, *, correct: bool = False) -> Debrief:
    """Write what became of everything that was taken: all of it or nothing.

    Lost and spent rigs leave the ready ones; items lost are lost movements of the day of the
    match and feed the next forecast. With ``correct`` the debrief there is stands no longer: its
    losses come back and its rigs are ready before the new one is written. Raises
    AskedWronglyError for a match that has not been, a code twice or a second debrief, and
    CannotBeDoneError for more lost than there was.
    """
    if match.day > today:
        raise AskedWronglyError(
            f"{match.stem} is on {match.day}, which has not come yet.", right="Debrief it then."
        )
    with box.writing() as session:
        first = next((d for d in valid_debriefs(session) if d.match == match.stem), None)
        if first and not correct:
            raise AskedWronglyError(
                f"{match.stem} was debriefed already; nothing was changed.",
                right="To put this in its place, add --correct.",
            )
        if correct and not first:
            raise AskedWronglyError(
                f"{match.stem} has no debrief to correct.", right="Leave out --correct."
            )
        action = begin(session, f"debrief of {match.stem}", match.day)
        if first:
            _take_back(session, action, first)
        written = Debrief(
            action_id=action.id or 0,
            match=match.stem,
            venue=match.venue,
            on=match.day,
            peg=told.peg,
            weight_g=told.weight_g,
            notes=told.notes,
            corrects=first.id if first else None,
        )
        session.add(written)
        session.flush()
        _write_rigs(session, written, told)
        for said, amount in told.items_lost.items():
            item = find(session, said)
            gone = read_amount(amount, item.measured)
            if not 0 < gone <= item.on_hand:
                raise CannotBeDoneError(
                    f"{write_amount(gone, item.measured)} of {item.name} cannot be lost: "
                    f"{write_amount(item.on_hand, item.measured)} is in stock.",
                    right="Nothing was saved. Count it, or put the amount right.",
                )
            move(session, action, item, -gone, Why.LOST, match.stem)
    return written


def _write_rigs(session: Session, written: Debrief, told: Told) -> None:
    well = {find_tied(session, code).code for code in told.did_well}
    seen: set[str] = set()
    for became, codes in ((BACK, told.back), (LOST, told.lost), (SPENT, told.spent)):
        for code in codes:
            tied = find_tied(session, code)
            if tied.code in seen:
                raise AskedWronglyError(f"{tied.code} is named twice.", right="Name each rig once.")
            if tied.tied_on > written.on:
                raise AskedWronglyError(
                    f"{tied.code} was tied on {tied.tied_on}, after the match of {written.on}.",
                    right="Look at its label again.",
                )
            if tied.state != READY:
                raise AskedWronglyError(
                    f"{tied.code} is {tied.state} already.", right="Nothing was changed."
                )
            seen.add(tied.code)
            session.add(
                DebriefRig(
                    debrief_id=written.id or 0,
                    tied_id=tied.id or 0,
                    became=became,
                    did_well=tied.code in well,
                )
            )
            if became != BACK:
                tied.state = became
                session.add(tied)
            session.flush()
    if well - seen:
        raise AskedWronglyError(
            f"{', '.join(sorted(well - seen))} did well but was not taken.",
            where="--did-well",
            right="Name it under --back, --lost or --spent too.",
        )


def _take_back(session: Session, action: Action, first: Debrief) -> None:
    """What the first debrief lost comes back, and its rigs are ready again."""
    lost = select(Movement).where(Movement.action_id == first.action_id, Movement.why == Why.LOST)
    for movement in session.exec(lost):
        item = session.get_one(Item, movement.item_id)
        reason = f"against movement {movement.id}"
        move(session, action, item, -movement.amount, Why.CORRECTED, reason)
    for rig in session.exec(select(DebriefRig).where(DebriefRig.debrief_id == first.id)):
        tied = session.get_one(Tied, rig.tied_id)
        if rig.became != BACK:
            tied.state = READY
            session.add(tied)
            session.flush()


def did_well(
    box: Box, *, venue: str | None = None, season: str | None = None, method: str | None = None
) -> list[DidWell]:
    """The rigs that did well, the latest first, by venue, season and method.

    Raises AskedWronglyError for a season or method that is none, or a venue that no debrief names.
    """
    if season is not None and season not in MONTHS:
        raise AskedWronglyError(
            f'"{season}" is no season.', where="--season", right=nearest_word(season, list(MONTHS))
        )
    if method is not None and method not in METHODS:
        raise AskedWronglyError(
            f'"{method}" is no method.', where="--method", right=nearest_word(method, METHODS)
        )
    found = []
    with box.reading() as session:
        told = {d.id: d for d in valid_debriefs(session)}
        known = sorted({d.venue for d in told.values()})
        if known and venue is not None and venue not in known:
            raise AskedWronglyError(
                f'no debrief is of a match at "{venue}".',
                where="--venue",
                right=nearest_word(venue, known),
            )
        query = select(DebriefRig, Tied).join(Tied, col(Tied.id) == DebriefRig.tied_id)
        for rig, tied in session.exec(query.where(col(DebriefRig.did_well))):
            of, made = told.get(rig.debrief_id), Snapshot.from_json(tied.snapshot)
            if (
                of is not None
                and venue in (None, of.venue)
                and method in (None, made.method)
                and (season is None or of.on.month in MONTHS[season])
            ):
                found.append(DidWell(of, tied, made))
    return sorted(found, key=lambda w: (w.debrief.on, w.tied.id or 0), reverse=True)
