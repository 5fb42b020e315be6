"""What was lost so far, match by match, and the chance that an item runs out at the next one."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from tacklebox.stock.tables import Action, Debrief, Item, Movement, Why
from tacklebox.trade.forecast import LossRate, chance_of_losing_more, loss_rate

MM_PER_M = 1000


@dataclass(frozen=True)
class Forecast:
    """One item on the day: what is left beside the plan, and the chance that it does not last."""

    item: Item
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
    """Every loss: the days, and for each item what was lost on each day."""

    days: tuple[date, ...]
    by_item: Mapping[int, Mapping[date, int]]

    def rate_of(self, item: Item) -> LossRate:
        """The loss rate of an item from the days since it was added.

        A day on which anything was lost, or that was debriefed, counts as a match; line and
        elastic count in started metres a day.
        """
        own = self.by_item.get(item.id or 0, {})
        days = [d for d in self.days if d >= item.added_on or d in own]
        lost = sum(-(-amount // _unit(item)) for amount in own.values())
        return loss_rate(item.kind, lost, len(days))


def _unit(item: Item) -> int:
    return MM_PER_M if item.measured else 1


def read_losses(session: Session) -> Losses:
    """The losses in the ledger, without those of an action undone or a debrief corrected.

    The day of a debrief is a match also where nothing was lost.
    """
    debriefs = valid_debriefs(session)
    undone = {*_undone(session), *session.exec(select(Debrief.action_id))}
    undone -= {d.action_id for d in debriefs}
    by_item: dict[int, dict[date, int]] = {}
    for loss in session.exec(select(Movement).where(Movement.why == Why.LOST)):
        if loss.action_id not in undone:
            days = by_item.setdefault(loss.item_id, {})
            days[loss.on] = days.get(loss.on, 0) - loss.amount
    every = {day for days in by_item.values() for day in days}
    return Losses(tuple(sorted({*every, *(d.on for d in debriefs)})), by_item)


def valid_debriefs(session: Session) -> list[Debrief]:
    """The debriefs that stand: neither undone nor corrected by another that stands."""
    undone = _undone(session)
    valid: list[Debrief] = []
    corrected: set[int | None] = set()
    for debrief in session.exec(select(Debrief).order_by(col(Debrief.id).desc())):
        if debrief.action_id not in undone:
            if debrief.id not in corrected:
                valid.append(debrief)
            corrected.add(debrief.corrects)
    return valid


def _undone(session: Session) -> Collection[int]:
    """The actions that are undone, and not done again by undoing the undo."""
    query = select(Action.id, Action.undoes).where(col(Action.undoes).is_not(None))
    undone: set[int] = set()
    for number, undoes in session.exec(query.order_by(col(Action.id).desc())):
        if number is not None and undoes is not None and number not in undone:
            undone.add(undoes)
    return undone


def forecasts(
    items: Sequence[Item], planned: Mapping[int, int], losses: Losses
) -> tuple[Forecast, ...]:
    """The forecast of every item that is planned or kept, the likeliest to run out first."""
    told = [
        Forecast(item, planned.get(item.id or 0, 0), losses.rate_of(item))
        for item in items
        if planned.get(item.id or 0, 0) or item.keep_at_least
    ]
    return tuple(sorted(told, key=lambda f: -f.runs_out))
