"""What the rest of a rig's history says against what a debrief would have become of it."""

from collections.abc import Mapping
from datetime import date

from sqlmodel import Session, col, select

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.after.account import Became
from tacklebox.matches.before.losses import valid_debriefs
from tacklebox.rigs.tying.snapshot import read_kept
from tacklebox.stock.dates import write_day
from tacklebox.stock.ledger import undone_actions
from tacklebox.stock.made import Debrief, DebriefRig, StateChange, Tied
from tacklebox.stock.tables import Action, State


def later_debriefs(session: Session, match: str, on: date) -> dict[int, str]:
    """The rigs, by number, that debriefs of other matches on later days name, and what they say of
    each, in words."""
    later = {d.id: d for d in valid_debriefs(session) if d.match != match and d.on > on}
    rigs = select(DebriefRig).join(Debrief, col(Debrief.id) == DebriefRig.debrief_id)
    found = {}
    for rig in session.exec(rigs.where(col(Debrief.on) > on).order_by(col(DebriefRig.id))):
        if debrief := later.get(rig.debrief_id):
            how = "came back" if rig.became == Became.BACK else f"was {rig.became}"
            day = write_day(debrief.on, with_year=True)
            found[rig.tied_id] = f"the debrief of {debrief.match} says it {how} on {day}"
    return found


def refuse_contradiction(
    session: Session,
    tied: Tied,
    became: Became,
    before: Became | None,
    on: date,
    later: Mapping[int, str],
) -> None:
    """Refuse what cannot have become of a rig at a match, as far as the rest of its history tells.

    ``before`` is what the match's debrief said of it so far, ``later`` as by ``later_debriefs``.
    Raises AskedWronglyError with what stands against it; never for what was said before.
    """
    day = write_day(on, with_year=True)
    if tied.tied_on > on and read_kept(tied).tied_on:  # else nobody knows when
        raise AskedWronglyError(
            f"{tied.code} was tied on {write_day(tied.tied_on, with_year=True)}, after the match of "
            f"{day}.",
            right="Look at its label again.",
        )
    if became == before:
        return
    if tied.state not in (State.READY, before):
        left = _left_by(session, tied)
        if became is Became.BACK and left and left.on > on:
            return  # it came back from this match, and left after it
        how = f', by "{left.what}" of {write_day(left.on, with_year=True)}' if left else ""
        raise AskedWronglyError(
            f"{tied.code} is {tied.state} already{how}.", right="Nothing was changed."
        )
    if became is not Became.BACK and (tied.id or 0) in later:
        raise AskedWronglyError(
            f"{tied.code} cannot have been lost or worn out on {day}: {later[tied.id or 0]}.",
            right="Nothing was changed. Correct that one first, if it is wrong.",
        )


def _left_by(session: Session, tied: Tied) -> Action | None:
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
