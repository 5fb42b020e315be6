"""After a match: what came back, what was lost or worn out, what did well. One transaction."""

from collections.abc import Mapping, Sequence
from collections.abc import Set as AnySet
from dataclasses import dataclass, field
from datetime import date

from sqlmodel import Session, col, select

from tacklebox.errors import AskedWronglyError, CannotBeDoneError, nearest_word
from tacklebox.matches.before.losses import valid_debriefs
from tacklebox.matches.files.match import Match
from tacklebox.rigs.tying.codes import each_code
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tied import find_tied, give_back
from tacklebox.stock.care.box import Box
from tacklebox.stock.ledger import (
    begin,
    find,
    move,
    read_amount,
    undone_actions,
    write_amount,
)
from tacklebox.stock.tables import (
    Action,
    Debrief,
    DebriefRig,
    Item,
    Movement,
    State,
    StateChange,
    Tied,
    Why,
)

BACK, SPENT, HOME = "back", State.WORN_OUT.value, "left at home"
METHODS = ("float", "feeder", "pole")
MONTHS = {
    "spring": (3, 4, 5),
    "summer": (6, 7, 8),
    "autumn": (9, 10, 11),
    "winter": (12, 1, 2),
}
SINGLE = frozenset(("peg", "weight_g", "notes"))  # what is told once of a match


@dataclass(frozen=True)
class Told:
    """What the angler tells: codes of rigs, items lost by words or number with their amount.

    ``home`` are rigs that an earlier debrief told of and that were not taken after all.
    """

    back: Sequence[str] = ()
    lost: Sequence[str] = ()
    spent: Sequence[str] = ()
    did_well: Sequence[str] = ()
    items_lost: Mapping[str, str] = field(default_factory=dict)
    peg: str = ""
    weight_g: float | None = None
    notes: str = ""
    home: Sequence[str] = ()


@dataclass(frozen=True)
class Debriefed:
    """What a debrief says of its match: rigs by code, items lost beside them with the amount, and
    what went back into stock from rigs lost and worn out."""

    debrief: Debrief
    became: Mapping[str, str]
    did_well: frozenset[str]
    lost: Sequence[tuple[Item, int]]
    given_back: Sequence[tuple[Item, int]]

    @property
    def told(self) -> Told:
        """The same as the angler would tell it."""
        back, lost, spent = (
            [code for code, became in self.became.items() if became == what]
            for what in (BACK, State.LOST, SPENT)
        )
        return Told(
            back,
            lost,
            spent,
            did_well=[code for code in self.became if code in self.did_well],
            items_lost={item.name: _exactly(amount, item) for item, amount in self.lost},
            peg=self.debrief.peg,
            weight_g=self.debrief.weight_g,
            notes=self.debrief.notes,
        )


def _exactly(amount: int, item: Item) -> str:
    """The amount as it is written, but in mm where metres would round it."""
    written = write_amount(amount, item.measured)
    return written if read_amount(written, item.measured) == amount else f"{amount} mm"


@dataclass(frozen=True)
class DidWell:
    """A rig that did well: where, when, and what it is."""

    debrief: Debrief
    tied: Tied
    made: Snapshot


def refuse_coming(match: Match, today: date) -> None:
    """Raises AskedWronglyError for a match that has not been yet."""
    if match.day > today:
        raise AskedWronglyError(
            f"{match.stem} is on {match.day}, which has not come yet.", right="Debrief it then."
        )


def debrief(
    box: Box,
    match: Match,
    told: Told,
    today: date,
    *,
    correct: bool = False,
    kept: AnySet[str] | None = None,
) -> Debrief:
    """Write what became of everything that was taken: all of it or nothing.

    Lost and worn out rigs leave the ready ones and give back what outlives them; items lost are lost
    movements of the day of the match and feed the next forecast. With ``correct`` the debrief
    there is stands no longer: its losses come back, and rigs of which the new one says something
    else become that; rigs of which it says the same are left alone, whatever became of them later.
    With ``kept``, rigs and items that are not named stay as they stood, and so do those of
    ``SINGLE`` that are in it. Raises AskedWronglyError for a match that has not been, a code
    twice, a second debrief, or what a rig's later history contradicts, and CannotBeDoneError for
    more lost than there was.
    """
    refuse_coming(match, today)
    with box.writing() as session:
        first = read_debrief(session, match.stem)
        if first and not correct:
            raise AskedWronglyError(
                f"{match.stem} was debriefed already; nothing was changed.",
                right="To change what it says, add --correct.",
            )
        if correct and not first:
            raise AskedWronglyError(
                f"{match.stem} has no debrief to correct.", right="Leave out --correct."
            )
        became, well = _rigs_told(session, told)
        gone = _items_told(session, told)
        single = {name: getattr(told, name) for name in SINGLE}
        if first and kept is not None:
            well |= first.did_well - became.keys()
            became = {**first.became, **became}
            gone = {item.id or 0: (item, amount) for item, amount in first.lost} | gone
            single |= {name: getattr(first.debrief, name) for name in kept}
        became = {code: what for code, what in became.items() if what != HOME}
        if well - became.keys():
            raise AskedWronglyError(
                f"{', '.join(sorted(well - became.keys()))} did well but was not taken.",
                where="--did-well",
                right="Name it under --back, --lost or --spent too.",
            )
        action = begin(session, f"debrief of {match.stem}", match.day)
        written = Debrief(
            action_id=action.id or 0,
            match=match.stem,
            venue=match.venue,
            on=match.day,
            corrects=first.debrief.id if first else None,
            **single,
        )
        session.add(written)
        session.flush()
        if first:
            _move_back(session, action, first.debrief, Why.LOST)
        _write_rigs(session, action, written, became, well, first)
        if first:  # after the new ones, so that no winder is short that was given back both times
            _move_back(session, action, first.debrief, Why.GIVEN_BACK)
        for item, amount in gone.values():
            if amount > item.on_hand:
                raise CannotBeDoneError(
                    f"{write_amount(amount, item.measured)} of {item.name} cannot be lost: "
                    f"{write_amount(item.on_hand, item.measured)} is in stock.",
                    right="Nothing was saved. Count it, or put the amount right.",
                )
            if amount:
                move(session, action, item, -amount, Why.LOST, match.stem)
    return written


def _rigs_told(session: Session, told: Told) -> tuple[dict[str, str], set[str]]:
    """What became of each rig that is named, by its code; and those that did well."""
    said = ((BACK, told.back), (State.LOST, told.lost), (SPENT, told.spent), (HOME, told.home))
    became: dict[str, str] = {}
    for what, codes in said:
        for typed in each_code(codes):
            code = find_tied(session, typed).code
            if code in became:
                raise AskedWronglyError(f"{code} is named twice.", right="Name each rig once.")
            became[code] = what
    return became, {find_tied(session, typed).code for typed in each_code(told.did_well)}


def _items_told(session: Session, told: Told) -> dict[int, tuple[Item, int]]:
    """How much was lost of each item that is named, by its number."""
    gone: dict[int, tuple[Item, int]] = {}
    for said, amount in told.items_lost.items():
        item = find(session, said)
        if item.id in gone:
            raise AskedWronglyError(f"{item.name} is named twice.", right="Name it once.")
        gone[item.id or 0] = item, read_amount(amount, item.measured)
    return gone


def _write_rigs(
    session: Session,
    action: Action,
    written: Debrief,
    became: Mapping[str, str],
    well: AnySet[str],
    first: Debriefed | None,
) -> None:
    """The rigs of the debrief; those of which the first said something else are turned."""
    later = later_told(session, written.match, written.on)
    before = first.became if first else {}
    for code, what in became.items():
        tied = find_tied(session, code)
        refuse_contradiction(session, tied, what, before.get(code), written.on, later)
        session.add(
            DebriefRig(
                debrief_id=written.id or 0,
                tied_id=tied.id or 0,
                became=what,
                did_well=code in well,
            )
        )
        if what != BACK:
            give_back(session, action, tied, lost=what == State.LOST)
    for code in {**before, **became}:
        was, now = before.get(code, BACK), became.get(code, BACK)
        if was != now:
            tied = find_tied(session, code)
            tied.state = State.READY if now == BACK else now
            session.add(tied)
    session.flush()


def later_told(session: Session, match: str, on: date) -> dict[int, str]:
    """The rigs, by number, that debriefs of other matches on later days tell of, and in which
    words."""
    later = {d.id: d for d in valid_debriefs(session) if d.match != match and d.on > on}
    rigs = select(DebriefRig).join(Debrief, col(Debrief.id) == DebriefRig.debrief_id)
    found = {}
    for rig in session.exec(rigs.where(col(Debrief.on) > on).order_by(col(DebriefRig.id))):
        if told := later.get(rig.debrief_id):
            how = "came back" if rig.became == BACK else f"was {rig.became}"
            found[rig.tied_id] = f"the debrief of {told.match} says it {how} on {told.on}"
    return found


def refuse_contradiction(
    session: Session,
    tied: Tied,
    became: str,
    before: str | None,
    on: date,
    later: Mapping[int, str],
) -> None:
    """Refuse what cannot have become of a rig at a match, as far as the rest of its history tells.

    ``before`` is what the match's debrief said of it so far, ``later`` as by ``later_told``.
    Raises AskedWronglyError with what stands against it; never for what was said before.
    """
    if tied.tied_on > on:
        raise AskedWronglyError(
            f"{tied.code} was tied on {tied.tied_on}, after the match of {on}.",
            right="Look at its label again.",
        )
    if became == before:
        return
    if tied.state not in (State.READY, before):
        left = _left(session, tied)
        if became == BACK and left and left.on > on:
            return  # it came back from this match, and left after it
        how = f', by "{left.what}" of {left.on}' if left else ""
        raise AskedWronglyError(
            f"{tied.code} is {tied.state} already{how}.", right="Nothing was changed."
        )
    if became != BACK and (tied.id or 0) in later:
        raise AskedWronglyError(
            f"{tied.code} cannot have been lost or worn out on {on}: {later[tied.id or 0]}.",
            right="Nothing was changed. Correct that one first, if it is wrong.",
        )


def _left(session: Session, tied: Tied) -> Action | None:
    """The action by which a rig became what it is."""
    undone = undone_actions(session)
    turned = select(Action).join(StateChange, col(StateChange.action_id) == Action.id)
    turned = turned.where(
        StateChange.tied_id == tied.id,
        StateChange.became == tied.state,
        col(Action.undoes).is_(None),
        col(Action.redoes).is_(None),
    )
    actions = session.exec(turned.order_by(col(StateChange.id).desc()))
    return next((action for action in actions if action.id not in undone), None)


def _move_back(session: Session, action: Action, first: Debrief, why: Why) -> None:
    """Movements against those of the first debrief that are of that sort."""
    moved = select(Movement).where(Movement.action_id == first.action_id, Movement.why == why)
    for movement in session.exec(moved.order_by(col(Movement.id))).all():
        item = session.get_one(Item, movement.item_id)
        if item.on_hand < movement.amount:
            raise CannotBeDoneError(
                f"a rig of the first debrief gave back {item.name}, which is in use again.",
                right="Nothing was saved. Take the rig apart that has it now, or put the count "
                "right with `stock count`.",
            )
        reason = f"against movement {movement.id}"
        move(session, action, item, -movement.amount, Why.CORRECTED, reason)


def read_debrief(session: Session, match: str) -> Debriefed | None:
    """What the debrief of a match says that stands now; None where there is none."""
    debrief = next((d for d in valid_debriefs(session) if d.match == match), None)
    if debrief is None:
        return None
    query = select(Tied.code, DebriefRig).join(Tied, col(Tied.id) == DebriefRig.tied_id)
    query = query.where(DebriefRig.debrief_id == debrief.id).order_by(col(Tied.id))
    rigs = list(session.exec(query))
    return Debriefed(
        debrief,
        {code: rig.became for code, rig in rigs},
        frozenset(code for code, rig in rigs if rig.did_well),
        _moved(session, debrief, Why.LOST),
        _moved(session, debrief, Why.GIVEN_BACK),
    )


def _moved(session: Session, debrief: Debrief, why: Why) -> list[tuple[Item, int]]:
    """Each item that the debrief moved so, and how much of it."""
    query = select(Item, Movement.amount).join(Movement, col(Movement.item_id) == Item.id)
    query = query.where(Movement.action_id == debrief.action_id, Movement.why == why)
    amounts: dict[int, tuple[Item, int]] = {}
    for item, amount in session.exec(query.order_by(col(Movement.id))):
        so_far = amounts.get(item.id or 0, (item, 0))[1]
        amounts[item.id or 0] = item, so_far + abs(amount)
    return list(amounts.values())


def debriefed_matches(box: Box) -> frozenset[str]:
    """The matches, by the names of their files, that a debrief stands of."""
    with box.reading() as session:
        return frozenset(debrief.match for debrief in valid_debriefs(session))


def debriefed(box: Box, match: str) -> Debriefed | None:
    """As ``read_debrief``, of a box that is not read already."""
    with box.reading() as session:
        return read_debrief(session, match)


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
