"""What to take to a match: the pack list in the order of loading, on screen and on paper."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tacklebox.desk.asking import page_size
from tacklebox.desk.opening import Desk
from tacklebox.desk.plans import prepare

if TYPE_CHECKING:
    from tacklebox.matches.before.pack import Entry as Entry
    from tacklebox.matches.before.pack import Section
    from tacklebox.outputs import Target
    from tacklebox.printing.pages.tick_page import Printed as Printed


@dataclass(frozen=True)
class Packing:
    """What to take to a match. ``still_to_tie`` have no code yet; ``printed`` tells of the page,
    where one was written."""

    match: str
    title: str
    facts: tuple[str, ...]
    sections: "tuple[Section, ...]"
    still_to_tie: int
    comes_first: str
    printed: "Printed | None" = None


def pack(
    desk: Desk,
    match: str,
    to: "Target | None" = None,
    *,
    page: str = "a4",
    overwrite: bool = False,
) -> Packing:
    """What to take: rigs by code, hooklengths, rules, cautions, bait, distances, spares.

    Raises AskedWronglyError as ``plans.plan``, and for a page size that is none, a file that is
    there already; CannotBeDoneError where it cannot be written.
    """
    from tacklebox.matches.before.pack import make_pack_list
    from tacklebox.outputs import PDF, Output, try_outputs
    from tacklebox.trade.law import DEFERS

    size = page_size(page)
    if to is not None:
        try_outputs([Output(to, PDF, overwrite, "to")])
    prepared = prepare(desk, match)
    packing = make_pack_list(desk.box, prepared.match, prepared.venue, prepared.plan)
    answer = Packing(
        prepared.match.stem,
        packing.title,
        packing.facts,
        packing.sections,
        sum(want.tie for want in prepared.plan.wants),
        DEFERS,
    )
    if to is None:
        return answer
    from tacklebox.printing.pages.pack_page import print_pack_list

    printed = print_pack_list(packing, to, page=size, overwrite=overwrite)
    return replace(answer, printed=printed)
