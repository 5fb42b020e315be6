"""What runs low: what is short of its minimum, and what the rigs wanted would use up.

Rigs that are wanted are asked of the plan itself, so that ``low``, a match's plan and ``tie`` say the same.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.matches.before.losses import (
    AnyItem,
    Forecast,
    forecasts,
    items_to_watch,
    read_losses,
)
from tacklebox.matches.before.purchases import Purchase, Shopping, purchases
from tacklebox.stock.batches import tied_at_home
from tacklebox.stock.care.box import Box
from tacklebox.stock.levels import is_short
from tacklebox.trade.breaks_first import DOUBTFUL_FROM, SOUND_FROM

if TYPE_CHECKING:
    from tacklebox.matches.before.plan import PlannedWant
    from tacklebox.matches.before.unmet import Stopped
    from tacklebox.rigs.recipes.resolved import Resolved


@dataclass(frozen=True)
class Want:
    """So many rigs or hooklengths of one resolved recipe."""

    resolved: "Resolved"
    count: int


@dataclass(frozen=True)
class Reach:
    """How many of a want are ready, or in the wallet, how many more can be tied from what is left,
    what stops the next one, and how many hooklengths are to be bought ready-made."""

    want: Want
    ready: int
    can_tie: int
    stopped_by: "tuple[Stopped, ...]"
    to_buy: int
    ready_otherwise: tuple[str, ...]  # codes of ready rigs of the recipe with other choices


@dataclass(frozen=True)
class Outlook:
    """The whole answer: what is low now, how far stock reaches, what to buy.

    ``proven``: what can be tied and what is to be bought is proven the best, as a plan is."""

    short: tuple[AnyItem, ...]  # of their minimum, now; low and out of what is not counted
    reaches: tuple[Reach, ...]
    runs_out_first: AnyItem | None
    shopping: Shopping
    forecasts: tuple[Forecast, ...]  # of what is planned or has a minimum
    proven: bool = True

    @property
    def purchases(self) -> tuple[Purchase, ...]:
        """What to buy."""
        return self.shopping.purchases


def look_ahead(
    box: Box,
    wants: Sequence[Want],
    limits: tuple[float, float] = (SOUND_FROM, DOUBTFUL_FROM),
) -> Outlook:
    """How many of each want are ready, and can be tied from stock together, the first first.

    To buy: what the untied rest needs, ready-made where that costs less, and what brings each item back
    to its minimum after tying, in whole packs.
    """
    with box.reading() as session:
        watched = items_to_watch(session)
        short = tuple(item for item in watched if is_short(item))
        if not wants:
            to_buy = purchases(watched, {}, tied_at_home(session))
            what_for = {p.item.id or 0: p.what_for() for p in to_buy}
            will_last = forecasts(watched, {}, read_losses(session))
            return Outlook(short, (), None, Shopping(to_buy, what_for, ()), will_last)
    from tacklebox.matches.before.plan import make_plan, wanted_of
    from tacklebox.matches.before.shopping import make_shopping

    asked = [(wanted_of(want.resolved, want.count), want.resolved) for want in wants]
    plan = make_plan(box, asked, limits=limits)
    reaches = tuple(
        Reach(
            want,
            planned.has,
            planned.tie,
            planned.stopped_by,
            planned.to_buy,
            planned.ready_otherwise,
        )
        for want, planned in zip(wants, plan.wants, strict=True)
    )
    return Outlook(
        short,
        reaches,
        _runs_out_first(plan.wants),
        make_shopping(plan),
        plan.forecasts,
        plan.proven,
    )


def _runs_out_first(wants: "Sequence[PlannedWant]") -> AnyItem | None:
    """The item that stops the first want that is not met."""
    stopped = (stop.item for want in wants for stop in want.stopped_by if stop.item)
    return next(stopped, None)
