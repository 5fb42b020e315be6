"""What runs low: what is short of its minimum, how far stock reaches, what to buy, what may run out."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.desk.ageing import OldLine, old_lines
from tacklebox.desk.forecasts import OnTheDay, on_the_day
from tacklebox.desk.opening import Desk
from tacklebox.desk.settings import chances_of
from tacklebox.desk.shopping import ListFiles, ShoppingList, shopping_list
from tacklebox.desk.stock import ItemRow, item_row
from tacklebox.desk.wants import wants_of

if TYPE_CHECKING:
    from tacklebox.matches.before.low import Reach


@dataclass(frozen=True)
class PartMissing:
    """A part that nothing is left for, "" for the rig as a whole, and why."""

    part: str
    because: str


@dataclass(frozen=True)
class CanBeTied:
    """How many of a recipe are ready, or in the wallet, how many more stock ties beside those before it,
    what stops the next one, and how many are to be bought ready-made.

    ``ready_otherwise`` are ready rigs of the recipe with other choices, where those as wanted are too few."""

    recipe: str
    wanted: int
    ready: int
    can_tie: int
    stopped_by: tuple[PartMissing, ...]
    buy_ready_made: int
    ready_otherwise: tuple[str, ...]  # codes


@dataclass(frozen=True)
class RunsLow:
    """The whole answer, with a shopping list and what may run out on the day.

    ``proven``: as a plan's."""

    short: tuple[ItemRow, ...]  # of their minimum
    wanted: tuple[CanBeTied, ...]
    runs_out_first: str  # "" where nothing does
    shopping: ShoppingList
    on_the_day: OnTheDay
    past_age: tuple[OldLine, ...]  # line and elastic to renew
    proven: bool


def runs_low(
    desk: Desk,
    wanted: Mapping[str, str],
    choices: Mapping[str, str],
    files: ListFiles | None = None,
) -> RunsLow:
    """What runs low; with rigs ``wanted``, the most important first, how many of each are ready, and can
    be tied.

    ``choices`` go to every recipe that knows them. Raises AskedWronglyError for a recipe, a count
    or a choice that is none, and as ``shopping_list`` for its files.
    """
    from tacklebox.matches.before.low import look_ahead

    files = files or ListFiles()
    files.refuse()
    found = look_ahead(desk.box, wants_of(desk, wanted, choices), chances_of(desk, "", ""))
    return RunsLow(
        tuple(item_row(item) for item in found.short),
        tuple(_can_be_tied(reach) for reach in found.reaches),
        found.runs_out_first.name if found.runs_out_first else "",
        shopping_list(desk, found.shopping, "To buy", files),
        on_the_day(found.forecasts),
        old_lines(desk),
        found.proven,
    )


def _can_be_tied(reach: "Reach") -> CanBeTied:
    return CanBeTied(
        reach.want.resolved.recipe.stem,
        reach.want.count,
        reach.ready,
        reach.can_tie,
        tuple(PartMissing(stop.part, stop.says) for stop in reach.stopped_by),
        reach.to_buy,
        reach.ready_otherwise,
    )
