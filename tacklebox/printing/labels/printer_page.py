"""A page that shows what a printer does to a sheet: lines and rulers to measure, label corners."""

from collections.abc import Iterator
from typing import Any

from tacklebox.errors import AskedWronglyError
from tacklebox.outputs import PDF, Target, write_aside
from tacklebox.printing.fonts import REGULAR, SMALLEST_MM, register
from tacklebox.printing.labels.papers import MEASURED_LINE_MM, MEASURED_RULER_MM, Paper
from tacklebox.printing.labels.sheets import put_right
from tacklebox.printing.pdf import MM, new_canvas

LEAST_PAGE_MM = MEASURED_LINE_MM + MEASURED_RULER_MM + 10.0
LINE_MM = 0.1
CORNER_MM = 2.5
TEXT_MM = 3.2

Stroke = tuple[float, float, float, float]


def print_test_page(paper: Paper, target: Target, *, overwrite: bool = False) -> None:
    """Write the test page of a paper.

    Its lines and rulers are as the printer lays them down. The labels' corners are put right by
    what was measured before, so that a sheet held against the light shows whether it holds.
    Raises AskedWronglyError for a page too small to carry it and for a file that is there already.
    """
    if min(paper.page.width, paper.page.height) < LEAST_PAGE_MM:
        raise AskedWronglyError(
            f"the paper {paper.stem} is too small for the test page.",
            right=f"It takes {LEAST_PAGE_MM:g} mm both ways; tape is put right at the printer.",
        )
    register()
    with write_aside(target, PDF, overwrite=overwrite) as aside:
        canvas = new_canvas(aside, paper.page.width, paper.page.height, "Test page")
        canvas.saveState()
        put_right(canvas, paper)
        _strokes(canvas, paper, _corners(paper))
        canvas.restoreState()
        _strokes(canvas, paper, [*_lines(paper), *_ruler()])
        _words(canvas, paper)
        canvas.showPage()
        canvas.save()


def _strokes(canvas: Any, paper: Paper, strokes: "list[Stroke] | Iterator[Stroke]") -> None:
    """Strokes in mm from the page's upper left corner."""
    height = paper.page.height
    canvas.setLineWidth(LINE_MM * MM)
    canvas.lines(
        [
            (x * MM, (height - y) * MM, to_x * MM, (height - to_y) * MM)
            for x, y, to_x, to_y in strokes
        ]
    )


def _corners(paper: Paper) -> Iterator[Stroke]:
    """A short angle in each corner of each label, inside it."""
    for place in range(paper.places):
        left, low = paper.corner_of(place)
        top = paper.page.height - low - paper.label.height
        right, bottom = left + paper.label.width, top + paper.label.height
        for x, inwards in ((left, CORNER_MM), (right, -CORNER_MM)):
            for y, down in ((top, CORNER_MM), (bottom, -CORNER_MM)):
                yield x, y, x + inwards, y
                yield x, y, x, y + down


def _lines(paper: Paper) -> list[Stroke]:
    """The two lines whose distance from the page's edges is measured."""
    at = MEASURED_LINE_MM
    return [(at, 0.0, at, paper.page.height), (0.0, at, paper.page.width, at)]


def _ruler() -> Iterator[Stroke]:
    """Ticks for each millimetre along both lines, from where they cross, longer at 5 and 10."""
    at = MEASURED_LINE_MM
    for n in range(int(MEASURED_RULER_MM) + 1):
        tick = 5.0 if n % 10 == 0 else 3.5 if n % 5 == 0 else 2.0
        yield at + n, at, at + n, at - tick
        yield at, at + n, at - tick, at + n


def _words(canvas: Any, paper: Paper) -> None:
    lines = (
        f"{paper.stem}: printed at 100 %, not fitted to the page?",
        "left: from the paper's left edge to the upright line; meant are 20 mm.",
        "top: from the paper's top edge to the level line; meant are 20 mm.",
        "across and down: from the first to the last tick along each line; meant are 100 mm.",
        "Hold a sheet of labels behind it against the light: the angles mark their corners.",
    )
    height = paper.page.height
    size = max(TEXT_MM, SMALLEST_MM)
    canvas.setFillGray(1)
    left, top = MEASURED_LINE_MM + 4, MEASURED_LINE_MM + 4
    wide = max(canvas.stringWidth(line, REGULAR, size) for line in lines) + 4
    tall = len(lines) * size * 1.5 + 3
    canvas.rect(left * MM, (height - top - tall) * MM, wide * MM, tall * MM, stroke=0, fill=1)
    canvas.setFillGray(0)
    canvas.setFont(REGULAR, size * MM)
    for n, line in enumerate(lines):
        canvas.drawString((left + 2) * MM, (height - top - 1 - (n + 1) * size * 1.5 + 1) * MM, line)
    at, end = MEASURED_LINE_MM, MEASURED_RULER_MM
    canvas.drawCentredString((at + end) * MM, (height - at + 6) * MM, f"{end:g}")
    canvas.drawRightString((at - 6) * MM, (height - at - end - 1) * MM, f"{end:g}")
