"""What the law says of lead in the box, and the cautions that every angler is owed."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.desk.opening import Desk
from tacklebox.desk.stock import ItemRow, item_row

if TYPE_CHECKING:
    from tacklebox.desk.judgements import Caution, Judgement


@dataclass(frozen=True)
class ForbiddenLead:
    """Lead in the box that may not weight a line, with the rule that says so."""

    item: ItemRow
    judgement: "Judgement"


@dataclass(frozen=True)
class Law:
    """Lead of a forbidden size, the cautions with who says so, and what always comes first."""

    lead: tuple[ForbiddenLead, ...]
    cautions: "tuple[Caution, ...]"
    comes_first: str


def power_lines_away() -> str:
    """How far power lines are kept away from at least, in words."""
    from tacklebox.trade.law import power_lines_away as away

    return away()


def law(desk: Desk) -> Law:
    """The lead in the box that may not weight a line, and the cautions."""
    from tacklebox.stock.lead import lead_in_stock
    from tacklebox.trade.law import DEFERS, cautions

    with desk.box.reading() as session:
        lead = tuple(ForbiddenLead(item_row(item), j) for item, j in lead_in_stock(session))
    return Law(lead, cautions(), f"{DEFERS[0].upper()}{DEFERS[1:]}.")
