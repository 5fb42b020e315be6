"""What was lost so far, match by match, and the chance that an item runs out at the next one.

Only the ledger's last movements are read, so that an answer takes no longer as the ledger grows
and follows how the angler fishes now.
"""

from bisect import bisect_left
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, func, select

from tacklebox.stock.ledger import Listed
from tacklebox.stock.tables import Action, Debrief, Item, Movement, Why
from tacklebox.trade.forecast import LossRate, chance_of_losing_more, loss_rate

MM_PER_M = 1000
RECENT = 20_000  # movements that are looked through for losses

AnyItem = Item | Listed


@dataclass(frozen=True)
class Forecast:
    """One item on the day: what is left beside the plan, and the chance that it does not last."""

    item: AnyItem
    planned: int  # in the item's smallest unit, as all amounts here
    rate: LossRate

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
    """The losses among the last RECENT movements, without those of an action undone or a debrief
    corrected.

    The day of a debrief is a match also where nothing was lost.
    """
    last = session.exec(select(func.max(Movement.id))).one() or 0
    start, since = last - RECENT, 0
    if start > 0:
        first = select(Movement.action_id).where(col(Movement.id) > start)
        since = session.exec(first.order_by(col(Movement.id)).limit(1)).one()
    debriefs = valid_debriefs(session, since)
    every = select(Debrief.action_id).where(col(Debrief.action_id) >= since)
    undone = {*_undone(session, since), *session.exec(every)} - {d.action_id for d in debriefs}
    lost = select(Movement.item_id, col(Movement.on), Movement.amount, Movement.action_id).where(
        col(Movement.id) > start, Movement.why == Why.LOST
    )
    by_item: dict[int, dict[date, int]] = {}
    for item_id, on, amount, action_id in session.exec(lost):
        if action_id not in undone:
            days = by_item.setdefault(item_id, {})
            days[on] = days.get(on, 0) - amount
    lossy = {day for days in by_item.values() for day in days}
    return Losses(tuple(sorted({*lossy, *(d.on for d in debriefs)})), by_item)


def valid_debriefs(session: Session, since: int = 0) -> list[Debrief]:
    """The debriefs that stand: neither undone nor corrected by another that stands; from the
    action of that number on."""
    undone = _undone(session, since)
    valid: list[Debrief] = []
    corrected: set[int | None] = set()
    query = select(Debrief).where(col(Debrief.action_id) >= since)
    for debrief in session.exec(query.order_by(col(Debrief.id).desc())):
        if debrief.action_id not in undone:
            if debrief.id not in corrected:
                valid.append(debrief)
            corrected.add(debrief.corrects)
    return valid


def _undone(session: Session, since: int) -> Collection[int]:
    """The actions that are undone, and not done again by undoing the undo."""
    query = select(Action.id, Action.undoes).where(
        col(Action.id) >= since, col(Action.undoes).is_not(None)
    )
    undone: set[int] = set()
    for number, undoes in session.exec(query.order_by(col(Action.id).desc())):
        if number is not None and undoes is not None and number not in undone:
            undone.add(undoes)
    return undone


def kept_items(session: Session) -> list[Listed]:
    """The items of which something is to be kept, in the order they were added."""
    columns = (getattr(Item, column) for column in Listed._fields)
    query = select(*columns).where(col(Item.keep_at_least) > 0).order_by(col(Item.id))
    return [Listed._make(row) for row in session.exec(query)]


def forecasts(
    items: Iterable[AnyItem], planned: Mapping[int, int], losses: Losses
) -> tuple[Forecast, ...]:
    """The forecast of every item that is planned or kept, the likeliest to run out first."""
    told = [
        Forecast(item, planned.get(item.id or 0, 0), losses.rate_of(item))
        for item in items
        if planned.get(item.id or 0, 0) or item.keep_at_least
    ]
    return tuple(sorted(told, key=lambda f: -f.runs_out))
