"""The sheets of labels as they will print, before they are printed: which label lies in which place."""

import zlib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tacklebox.desk.labels import (
    DRAWERS,
    OnPaper,
    StartPlace,
    items_for_labels,
    papers_for,
    rigs_for_labels,
    sorted_by_paper,
    start_place,
)
from tacklebox.desk.opening import Desk

if TYPE_CHECKING:
    from tacklebox.printing.labels.on_screen import SheetDrawn
    from tacklebox.printing.labels.papers import Paper
    from tacklebox.printing.labels.sheets import PaperRun


@dataclass(frozen=True)
class PlaceOnSheet:
    """A place of a sheet, in mm from the page's upper left corner; ``number`` counts along the rows.

    ``code`` is what lies there, "" for nothing; ``lacks`` is what that label has no room for. What
    ``is_spoiled`` is left empty on purpose.
    """

    number: int
    x: float
    y: float
    width: float
    height: float
    code: str
    lacks: tuple[str, ...]
    is_spoiled: bool


@dataclass(frozen=True)
class SheetShown:
    """A sheet as it will print: its drawing, its size in mm, and its places.

    The drawing is ``packed``: hundreds of labels are kept until the box changes.
    """

    paper: str
    name: str
    width: float
    height: float
    packed: bytes
    places: tuple[PlaceOnSheet, ...]

    @property
    def svg(self) -> str:
        """The drawing."""
        return zlib.decompress(self.packed).decode()


@dataclass(frozen=True)
class SheetsShown:
    """All sheets, and the codes of what lies on them; ``start`` is the first place that is used."""

    sheets: tuple[SheetShown, ...]
    codes: tuple[str, ...]
    start: int


def rig_sheets(desk: Desk, paper: OnPaper, codes: Sequence[str] = ()) -> SheetsShown:
    """The sheets that ``labels.print_rigs`` would print; nothing is noted. Raises as it."""
    from tacklebox.printing.labels.sheets import rig_label, run_of

    papers = papers_for(desk, paper)
    snapshots = rigs_for_labels(desk, codes, False)
    if not snapshots:
        return SheetsShown((), (), 1)
    found = sorted_by_paper(desk, snapshots, papers)
    runs = [
        (at, run_of(those, rig_label, at.paper, at.start, paper.skip), [s.code for s in those])
        for at, those in found
    ]
    return _shown(runs, paper)


def drawer_sheets(
    desk: Desk, paper: OnPaper, items: Sequence[str] = (), *, kind: str = "", place: str = ""
) -> SheetsShown:
    """The sheets that ``labels.print_items`` would print. Raises as it."""
    from tacklebox.printing.labels.drawers import drawer_label
    from tacklebox.printing.labels.sheets import run_of

    at = start_place(desk, replace(paper, paper=paper.paper or DRAWERS))
    chosen = items_for_labels(desk, items, kind, place)
    run = run_of(chosen, lambda s: drawer_label(s.item, s.figures), at.paper, at.start, paper.skip)
    return _shown([(at, run, [f"no. {stocked.id}" for stocked in chosen])], paper)


def _shown(runs: "Sequence[tuple[StartPlace, PaperRun, list[str]]]", said: OnPaper) -> SheetsShown:
    from tacklebox.printing.labels.on_screen import draw_run

    sheets: list[SheetShown] = []
    for at, run, codes in runs:
        left = list(codes)
        for number, drawn in enumerate(draw_run(run, qr=said.qr)):
            skip = said.skip if number == 0 else ()
            sheets.append(_sheet(at.paper, drawn, left, skip))
    return SheetsShown(
        tuple(sheets), tuple(code for _, _, codes in runs for code in codes), runs[0][0].start
    )


def _sheet(paper: "Paper", drawn: "SheetDrawn", left: list[str], skip: Sequence[int]) -> SheetShown:
    places = []
    for place in range(paper.places):
        x, low = paper.corner_of(place)
        is_used = place in drawn.left_off
        places.append(
            PlaceOnSheet(
                place + 1,
                round(x, 3),
                round(paper.page.height - low - paper.label.height, 3),
                paper.label.width,
                paper.label.height,
                left.pop(0) if is_used else "",
                tuple(one.why.words(one.what) for one in drawn.left_off.get(place, ())),
                place + 1 in skip,
            )
        )
    return SheetShown(
        paper.stem,
        paper.name,
        paper.page.width,
        paper.page.height,
        zlib.compress(drawn.svg.encode()),
        tuple(places),
    )
