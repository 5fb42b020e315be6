"""Tie sheets: the bench's page of each recipe, with totals where there are several."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.desk.asking import past_day
from tacklebox.desk.opening import Desk
from tacklebox.desk.wants import wants_of

if TYPE_CHECKING:
    from tacklebox.outputs import Target


@dataclass(frozen=True)
class SheetsPrinted:
    """What was printed; for each of the ``unprintable`` characters stands an empty square."""

    pages: int
    unprintable: str


def print_sheets(
    desk: Desk,
    wanted: Mapping[str, str],
    choices: Mapping[str, str],
    to: "Target",
    *,
    page: str = "a4",
    replace: bool = False,
    on: str = "",
) -> SheetsPrinted:
    """Print what to take, cut, knot and place for so many of each recipe, as stock serves it now.

    Raises AskedWronglyError for a recipe, choice, count, page size or day that cannot be and for a
    file that is there already, CannotBeDoneError where it cannot be written.
    """
    from tacklebox.printing.pages.tie_sheet import print_tie_sheets
    from tacklebox.rigs.tying.tie import fit_and_check

    day = past_day(desk, on)
    wants = wants_of(desk, wanted, choices)
    rigs = [fit_and_check(desk.box, want.resolved, want.count) for want in wants]
    printed = print_tie_sheets(rigs, to, day, page=page, overwrite=replace)
    return SheetsPrinted(printed.pages, printed.unknown)
