"""After a match: what came back, what was lost or worn out, what did well. One transaction.

Each debrief's action holds all its own losses and givings-back. A correction writes its own first, then
reverses those of the one before; rigs of which both say the same are not turned.
"""

from collections.abc import Mapping, Sequence
from collections.abc import Set as AnySet
from datetime import date

from sqlmodel import Session, col, select

from tacklebox.errors import AskedWronglyError, CannotBeDoneError, FaultsOfFields
from tacklebox.matches.after.account import (
    OF_THE_MATCH,
    Account,
    Became,
    Understood,
    understand,
)
from tacklebox.matches.after.debriefed import Debriefed, read_debrief
from tacklebox.matches.after.rig_history import later_debriefs, refuse_contradiction
from tacklebox.matches.files.match import Match
from tacklebox.rigs.tying.tied import find_tied, give_back
from tacklebox.stock.amounts import show_amount
from tacklebox.stock.batch_moves import put_back, take_of
from tacklebox.stock.care.box import Box
from tacklebox.stock.dates import write_day
from tacklebox.stock.ledger import begin, move, write_movement
from tacklebox.stock.made import Batch, Debrief, DebriefRig, Tied
from tacklebox.stock.tables import Action, Item, Kind, Movement, State, Why


def refuse_coming(match: Match, today: date) -> None:
    """Raises AskedWronglyError for a match that has not been yet."""
    if match.day > today:
        raise AskedWronglyError(
            f"{match.name} is on {write_day(match.day, with_year=True)}, which has not come yet.",
            field="match",
            right="Debrief it then.",
        )


def write_debrief(
    box: Box,
    match: Match,
    account: Account,
    today: date,
    *,
    correct: bool = False,
    only_changes: bool = False,
    kept: AnySet[str] = frozenset(),
    in_bag: Sequence[str] = (),
) -> Debrief:
    """Write what became of everything that was taken: all of it or nothing.

    Lost and worn out rigs leave the ready ones and give back what outlives them; tackle lost is
    lost movements of the day of the match and feeds the next forecast. With ``correct`` the debrief
    there is stands no longer: its losses come back, and rigs of which the new one says something
    else become that; rigs of which it says the same are left alone, whatever became of them later.
    With ``only_changes``, rigs and items that are not named stay as they stood; so do those of
    ``OF_THE_MATCH`` that are in ``kept``. Of each rig ``in_bag`` something is to be said. Raises
    AskedWronglyError for a match that has not been, a second debrief, and for what cannot be of a rig or an
    item, naming its field: all of it together as ManyFaultsError; CannotBeDoneError for more lost than
    there was.
    """
    refuse_coming(match, today)
    with box.writing() as session:
        first = read_debrief(session, match.stem)
        _refuse_second(match, first, correct=correct)
        whole = _whole(session, match, account, first, in_bag, only_changes=only_changes)
        single = {name: getattr(account, name) for name in OF_THE_MATCH}
        if first:
            single |= {name: getattr(first.debrief, name) for name in kept}
        action = begin(session, f"debrief of {match.name}", match.day)
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
            _move_back(session, action, first.debrief, Why.THROWN_OUT)
        _write_rigs(session, action, written, whole, first)
        if first:  # after the new ones, so that no winder is short that was given back both times
            _move_back(session, action, first.debrief, Why.GIVEN_BACK)
        for became, gone in ((Became.LOST, whole.tackle_lost), (Became.WORN_OUT, whole.worn_out)):
            _take(session, action, gone, whole.of_batch.get(became, ()), became, match.stem)
    return written


def _take(
    session: Session,
    action: Action,
    gone: Mapping[int, tuple[Item, int]],
    of_batch: Sequence[tuple[Batch, int]],
    became: Became,
    match: str,
) -> None:
    """Take what is lost or worn out; hooklengths of the batch that was named, else of the oldest."""
    why = Why.LOST if became is Became.LOST else Why.THROWN_OUT
    for item, amount in gone.values():
        if not item.level:
            refuse_more_than_stock(item, amount, item.on_hand, why)
        still = amount
        for batch, count in of_batch:
            if batch.item_id == item.id:
                take_of(session, action, batch, count, why, match)
                still -= count
        if still:
            move(session, action, item, -still, why, match)


def _refuse_second(match: Match, first: Debriefed | None, *, correct: bool) -> None:
    if first and not correct:
        raise AskedWronglyError(
            f"{match.name} was debriefed already; nothing was changed.", see="debriefs.correct"
        )
    if correct and not first:
        raise AskedWronglyError(
            f"{match.name} has no debrief to correct.",
            field="correct",
            right="Say it as a first one.",
        )


def _whole(
    session: Session,
    match: Match,
    account: Account,
    first: Debriefed | None,
    in_bag: Sequence[str],
    *,
    only_changes: bool,
) -> Understood:
    """The account as the box knows it; with ``only_changes`` what else the first one says is in it.

    Raises AskedWronglyError for what cannot be, also by the rest of a rig's history, and for a rig in the
    bag of which nothing is said.
    """
    faults = FaultsOfFields(f"{match.name}: this debrief cannot be written.")
    said = understand(session, account, faults)
    rigs, became, well = dict(said.rigs), dict(said.became), said.did_well
    tackle, worn_out = dict(said.tackle_lost), dict(said.worn_out)
    if first and only_changes:
        well |= first.did_well - became.keys()
        became = {**first.became, **became}
        rigs |= {code: find_tied(session, code) for code in first.became.keys() - rigs.keys()}
        tackle = {item.id or 0: (item, amount) for item, amount in first.lost} | tackle
        worn_out = {item.id or 0: (item, amount) for item, amount in first.worn_out} | worn_out
    for code in well - became.keys():  # what did well was there, and nobody says that it is gone
        became[code], rigs[code] = Became.BACK, find_tied(session, code)
    if not (first and only_changes):
        _ask_of_bag(session, [code for code in in_bag if code not in became], first, faults)
    became = {code: what for code, what in became.items() if what is not Became.NOT_TAKEN}
    with faults.of("did_well"):
        if untold := sorted(well - became.keys()):
            raise AskedWronglyError(
                f"{', '.join(untold)} did well but was not taken.",
                right="Say only one of the two.",
            )
    later, before = later_debriefs(session, match.stem, match.day), first.became if first else {}
    for code, what in became.items():
        with faults.of(said.fields.get(code, "")):
            refuse_contradiction(session, rigs[code], what, before.get(code), match.day, later)
    faults.refuse()
    return Understood(rigs, became, frozenset(well), tackle, said.fields, worn_out, said.of_batch)


def _ask_of_bag(
    session: Session, unsaid: Sequence[str], first: Debriefed | None, faults: FaultsOfFields
) -> None:
    """A fault for what was in the bag and is not said to have come home; what left the ready rigs since,
    as one that was stripped, need not be."""
    before = first.became if first else {}
    query = select(Tied.code).where(col(Tied.code).in_(unsaid), Tied.state == State.READY)
    ready = set(session.exec(query))
    if asked := [code for code in unsaid if code in ready or code in before]:
        with faults.of("in_bag"):
            them = "them" if asked[1:] else "it"
            raise AskedWronglyError(
                f"{', '.join(asked)}: in the bag, and nothing is said of {them}.",
                see="debriefs.in_bag",
            )


def refuse_more_than_stock(item: Item, amount: int, stock_before: int, why: Why = Why.LOST) -> None:
    """Raises CannotBeDoneError where more of an item would be lost, or worn out, than there was."""
    if amount > stock_before:
        became, name = ("lost", "tackle_lost") if why is Why.LOST else ("worn out", "worn_out")
        raise CannotBeDoneError(
            f"{show_amount(amount, item.measured, item.pack_said)} of {item.name} cannot be {became}: "
            f"{show_amount(stock_before, item.measured, item.pack_said)} is in stock.",
            field=f"{name}.{item.name}" if why is Why.LOST else name,
            right="Nothing was saved. Count it, or put the amount right.",
        )


def _write_rigs(
    session: Session,
    action: Action,
    written: Debrief,
    whole: Understood,
    first: Debriefed | None,
) -> None:
    """The rigs of the debrief; those of which the first said something else are turned."""
    before: Mapping[str, Became] = first.became if first else {}
    for code, what in whole.became.items():
        tied = whole.rigs[code]
        session.add(
            DebriefRig(
                debrief_id=written.id or 0,
                tied_id=tied.id or 0,
                became=what.value,
                did_well=code in whole.did_well,
            )
        )
        if what is not Became.BACK:
            give_back(session, action, tied, lost=what is Became.LOST)
    for code in {**before, **whole.became}:
        was, now = before.get(code, Became.BACK), whole.became.get(code, Became.BACK)
        if was is not now:
            tied = whole.rigs.get(code) or find_tied(session, code)
            tied.state = State.READY.value if now is Became.BACK else now.value
            session.add(tied)
    session.flush()


def _move_back(session: Session, action: Action, first: Debrief, why: Why) -> None:
    """Movements against those of the first debrief that are of that sort."""
    moved = select(Movement).where(Movement.action_id == first.action_id, Movement.why == why)
    for movement in session.exec(moved.order_by(col(Movement.id))).all():
        item = session.get_one(Item, movement.item_id)
        if not item.level and item.on_hand < movement.amount:
            raise CannotBeDoneError(
                f"a rig of the first debrief gave back {item.name}, which is in use again.",
                right="Nothing was saved. Strip the rig that has it now, or count it.",
                see="stock.count",
            )
        reason = f"against movement {movement.id}"
        write_movement(session, action, item, -movement.amount, Why.CORRECTED, reason)
        if item.kind == Kind.HOOKLENGTH:
            put_back(session, item, -movement.amount, first.action_id)
