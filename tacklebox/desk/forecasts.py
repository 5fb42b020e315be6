"""Whether stock lasts on the day: forecasts, grouped as they are shown."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.desk.answers import Amount, amount_of, as_set

if TYPE_CHECKING:
    from tacklebox.matches.before.losses import Forecast

LEAST_SHOWN = 0.01  # less likely ones are only counted


@dataclass(frozen=True)
class ItemOnTheDay:
    """An item: what is left beside what is planned, and the chance that more than that is lost."""

    item: int
    name: str
    on_hand: Amount
    planned: Amount
    left: Amount  # below 0 where it is short already
    minimum: Amount
    chance_to_run_out: float
    chance: str  # in words
    lost_at_a_match: float  # to be expected
    matches: int  # of the angler's own that this rests on
    rests_on: str


@dataclass(frozen=True)
class OnTheDay:
    """Every item that is planned or has a minimum, the likeliest to run out first.

    ``likely`` run out with a chance of LEAST_SHOWN or more, ``unlikely`` with less;
    ``not_planned`` have a minimum, but nothing that is planned takes any.
    """

    likely: tuple[ItemOnTheDay, ...]
    unlikely: tuple[ItemOnTheDay, ...]
    not_planned: tuple[ItemOnTheDay, ...] = ()

    @property
    def without_history(self) -> bool:
        """Whether something in it rests on a prior alone, without any match."""
        return any(not item.matches for item in (*self.likely, *self.unlikely))


def on_the_day(forecasts: "Sequence[Forecast]", *, planned_only: bool = False) -> OnTheDay:
    """The forecasts in groups; with ``planned_only`` what is not planned stands apart."""
    likely, unlikely, not_planned = [], [], []
    for forecast in forecasts:
        if planned_only and not (forecast.planned or forecast.is_taken):
            not_planned.append(_of_item(forecast))
        elif forecast.runs_out >= LEAST_SHOWN:
            likely.append(_of_item(forecast))
        else:
            unlikely.append(_of_item(forecast))
    return OnTheDay(tuple(likely), tuple(unlikely), tuple(not_planned))


def _of_item(forecast: "Forecast") -> ItemOnTheDay:
    from tacklebox.trade.sources import write_risk

    item, rate = forecast.item, forecast.rate
    return ItemOnTheDay(
        item.id or 0,
        item.name,
        amount_of(item, item.on_hand),
        amount_of(item, forecast.planned),
        amount_of(item, forecast.left),
        as_set(item, item.minimum),
        forecast.runs_out,
        "short already" if forecast.left < 0 else write_risk(forecast.runs_out),
        rate.mean,
        rate.history,
        str(rate.basis),
    )
