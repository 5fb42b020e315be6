"""What was lost so far, match by match, and the chance that an item runs out at the next one.

What was tied into a rig that was lost counts as lost on the day of that, its winder apart. Only the
ledger's last movements are read, so that an answer takes no longer as the ledger grows and follows
how the angler fishes now.
"""

from bisect import bisect_left
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, and_, col, exists, func, or_, select

from tacklebox.stock.finding import Listed
from tacklebox.stock.ledger import undone_actions
from tacklebox.stock.levels import TO_BUY
from tacklebox.stock.made import Debrief, DebriefRig, StateChange, Tied, TiedUse
from tacklebox.stock.tables import IN_USE, Action, Item, Kind, Movement, State, Why
from tacklebox.trade.forecast import LossRate, chance_of_losing_more, loss_rate

MM_PER_M = 1000
RECENT = 20_000  # movements, and changes of rigs, that are looked through for losses

AnyItem = Item | Listed


@dataclass(frozen=True)
class Forecast:
    """One item on the day: what is left beside the plan, and the chance that it does not last."""

    item: AnyItem
    planned: int  # in the item's smallest unit, as all amounts here
    rate: LossRate
    is_taken: bool = False  # as it is, to be lost or come back

    @property
    def left(self) -> int:
        """What is on hand beside what is planned; below 0 where it is short already."""
        return self.item.on_hand - self.planned

    @property
    def runs_out(self) -> float:
        """The chance that more is lost at one match than is left."""
        return chance_of_losing_more(self.rate, self.left // _unit(self.item))


@dataclass(frozen=True)
class Losses:
    """The recent losses: the days of matches, oldest first, and what was lost of an item on each."""

    days: tuple[date, ...]
    by_item: Mapping[int, Mapping[date, int]]

    def rate_of(self, item: AnyItem) -> LossRate:
        """The loss rate of an item from the days since it was added.

        A day on which anything was lost, or that was debriefed, counts as a match; line and
        elastic count in started metres a day.
        """
        days = len(self.days) - bisect_left(self.days, item.added_on)
        own = self.by_item.get(item.id or 0)
        if own is None:
            return loss_rate(item.kind, 0, days)
        lost = sum(-(-amount // _unit(item)) for amount in own.values())
        return loss_rate(item.kind, lost, days + sum(day < item.added_on for day in own))


def _unit(item: AnyItem) -> int:
    return MM_PER_M if item.measured else 1


def read_losses(session: Session) -> Losses:
    """The losses among the last RECENT movements and the rigs lost since the first of them, without
    those of an action undone or a debrief corrected.

    The day of a debrief is a match also where nothing was lost.
    """
    last = session.exec(select(func.max(Movement.id))).one() or 0
    start, since = last - RECENT, 0
    if start > 0:
        first = select(Movement.action_id).where(col(Movement.id) > start)
        since = session.exec(first.order_by(col(Movement.id)).limit(1)).one()
    debriefs = valid_debriefs(session, since)
    every = select(Debrief.action_id).where(col(Debrief.action_id) >= since)
    undone = {*undone_actions(session, since), *session.exec(every)} - {
        d.action_id for d in debriefs
    }
    lost = select(Movement.item_id, col(Movement.on), Movement.amount, Movement.action_id).where(
        col(Movement.id) > start, Movement.why == Why.LOST
    )
    by_item: dict[int, dict[date, int]] = {}
    for item_id, on, amount, action_id in session.exec(lost):
        if action_id not in undone:
            _count(by_item, item_id, on, -amount)
    for item_id, on, amount in _lost_with_rigs(session, since, debriefs, undone):
        _count(by_item, item_id, on, amount)
    lossy = {day for days in by_item.values() for day in days}
    return Losses(tuple(sorted({*lossy, *(d.on for d in debriefs)})), by_item)


def _count(by_item: dict[int, dict[date, int]], item_id: int, on: date, amount: int) -> None:
    days = by_item.setdefault(item_id, {})
    days[on] = days.get(on, 0) + amount


def _lost_with_rigs(
    session: Session, since: int, debriefs: Sequence[Debrief], undone: Collection[int]
) -> Iterator[tuple[int, date, int]]:
    """What was tied into rigs that are lost, but no winder: item, day of the loss, amount.

    A rig is lost on the day of the match that a debrief says so of, else on the day it was marked.
    """
    # As expressions, or SQLite begins with all rigs that were ever lost, by their index.
    tied_in = (
        func.trim(Tied.state) == State.LOST,
        func.trim(Item.kind) != Kind.WINDER,
        TiedUse.amount > 0,  # of rigs that were in the tray already nothing was taken
    )
    days = {debrief.id or 0: debrief.on for debrief in debriefs}
    with_debriefs = (
        select(TiedUse.item_id, DebriefRig.debrief_id, func.sum(TiedUse.amount))
        .join(DebriefRig, col(DebriefRig.tied_id) == TiedUse.tied_id)
        .join(Tied, col(Tied.id) == TiedUse.tied_id)
        .join(Item, col(Item.id) == TiedUse.item_id)
        .where(DebriefRig.became == State.LOST, *tied_in)
        .where(col(DebriefRig.debrief_id).between(min(days, default=0), max(days, default=0)))
        .group_by(col(TiedUse.item_id), col(DebriefRig.debrief_id))
    )
    for item_id, number, lost in session.exec(with_debriefs):
        if number in days:
            yield item_id, days[number], lost
    newest = session.exec(select(func.max(StateChange.id))).one() or 0
    marked = (
        select(TiedUse.item_id, StateChange.action_id, col(Action.on), TiedUse.amount)
        .join(StateChange, col(StateChange.tied_id) == TiedUse.tied_id)
        .join(Action, col(Action.id) == StateChange.action_id)
        .join(Tied, col(Tied.id) == TiedUse.tied_id)
        .join(Item, col(Item.id) == TiedUse.item_id)
        .where(StateChange.became == State.LOST, *tied_in)
        .where(col(StateChange.id) > newest - RECENT, col(StateChange.action_id) >= since)
        .where(col(Action.undoes).is_(None), col(Action.redoes).is_(None))
        .where(~exists().where(col(Debrief.action_id) == StateChange.action_id))
    )
    for item_id, action, on, lost in session.exec(marked):
        if action not in undone:
            yield item_id, on, lost


def valid_debriefs(session: Session, since: int = 0) -> list[Debrief]:
    """The debriefs that stand: neither undone nor corrected by another that stands; from the
    action of that number on."""
    undone = undone_actions(session, since)
    valid: list[Debrief] = []
    corrected: set[int | None] = set()
    query = select(Debrief).where(col(Debrief.action_id) >= since)
    for debrief in session.exec(query.order_by(col(Debrief.id).desc())):
        if debrief.action_id not in undone:
            if debrief.id not in corrected:
                valid.append(debrief)
            corrected.add(debrief.corrects)
    return valid


def debriefed_matches(session: Session) -> frozenset[str]:
    """The matches, by the names of their files, that a debrief stands of."""
    return frozenset(debrief.match for debrief in valid_debriefs(session))


def items_to_watch(session: Session) -> list[Listed]:
    """The items that have a minimum, and what is low or out, in the order they were added."""
    counted, in_level = col(Item.level) == "", col(Item.level).in_(TO_BUY)
    asked_for = or_(and_(counted, col(Item.minimum) > 0), in_level)
    columns = (getattr(Item, column) for column in Listed._fields)
    query = select(*columns).where(asked_for, IN_USE).order_by(col(Item.id))
    return [Listed._make(row) for row in session.exec(query)]


def forecasts(
    items: Iterable[AnyItem],
    planned: Mapping[int, int],
    losses: Losses,
    taken: Collection[int] = (),
) -> tuple[Forecast, ...]:
    """The forecast of every item that is counted and is planned, ``taken`` as it is, or has a minimum, the
    likeliest to run out first."""
    found = [
        Forecast(item, planned.get(item.id or 0, 0), losses.rate_of(item), item.id in taken)
        for item in items
        if not item.level and (planned.get(item.id or 0, 0) or item.id in taken or item.minimum)
    ]
    return tuple(sorted(found, key=lambda f: -f.runs_out))
