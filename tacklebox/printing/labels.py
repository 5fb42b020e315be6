"""Labels as PDF: read by eye, with the same words in a QR for a phone."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from tacklebox.errors import AskedWronglyError
from tacklebox.printing.fonts import BOLD, REGULAR, printable, register
from tacklebox.printing.layout import Layout, QrPlace, Words, lay_out
from tacklebox.printing.papers import Paper
from tacklebox.printing.pdf import MM, new_canvas, write_aside
from tacklebox.printing.qr import qr_shape, qr_words
from tacklebox.printing.typesetting import Box
from tacklebox.printing.wording import fields, kind_words
from tacklebox.rigs.snapshot import Mark, Snapshot

CUT_LINE_MM = 0.1


@dataclass(frozen=True, slots=True)
class PrintReport:
    """What was printed. ``next_free`` is the first free place of the last sheet, 1 when it is full.

    ``left_off`` tells by code what found no room or has no character in the font.
    """

    path: Path
    pages: int
    labels: int
    next_free: int
    left_off: tuple[tuple[str, str], ...]


def print_labels(
    snapshots: Sequence[Snapshot],
    paper: Paper,
    target: Path,
    *,
    start: int = 1,
    skip: Collection[int] = (),
    qr: bool = True,
    overwrite: bool = False,
    progress: Callable[[int], None] | None = None,
) -> PrintReport:
    """Write one label for each snapshot as a PDF; the same snapshots give the same bytes.

    ``start`` is the first place to use on the first sheet (1: top left, then along the rows);
    ``skip`` are places of that sheet to leave empty. ``progress`` is told after each label how many
    are done. Raises AskedWronglyError for a place that
    is not on the sheet and for a file that is there already, CannotBeDoneError if it cannot be written.
    """
    *places, after = _places(len(snapshots), paper, start, skip)
    with write_aside(target, overwrite=overwrite) as aside:
        canvas = new_canvas(aside, paper.page.width, paper.page.height, "Labels")
        put_right(canvas, paper)
        inker = _Inker(canvas)
        left_off: list[tuple[str, str]] = []
        page = 0
        for done, (snapshot, place) in enumerate(zip(snapshots, places, strict=True), start=1):
            if place // paper.places > page:
                _finish_page(canvas, paper)
                put_right(canvas, paper)
                page += 1
            words, unknown = _words(snapshot)
            x, y = paper.corner_of(place % paper.places)
            text = qr_words(snapshot) if qr else None
            modules = qr_shape(text.text).modules if text else 0
            layout = lay_out(words, paper.label, modules)
            inker.label(layout, snapshot, x, y, text.text if text else "")
            told = _told(layout, unknown, text.left_out if text and layout.qr else ())
            if told:
                left_off.append((snapshot.code, told))
            if progress:
                progress(done)
        _finish_page(canvas, paper)
        canvas.save()
    return PrintReport(
        path=target,
        pages=page + 1,
        labels=len(snapshots),
        next_free=after % paper.places + 1,
        left_off=tuple(left_off),
    )


def _places(count: int, paper: Paper, start: int, skip: Collection[int]) -> list[int]:
    """The places to fill, counted on from the first sheet's first (0), and the one after them."""
    if count < 1:
        raise AskedWronglyError("there is no rig to print a label for.", right="Name one.")
    for place in (start, *skip):
        if not 1 <= place <= paper.places:
            raise AskedWronglyError(
                f"place {place} is not on the paper {paper.stem}.",
                right=f"It has the places 1 to {paper.places}, counted along the rows from the top left.",
            )
    places: list[int] = []
    place = start - 1
    while len(places) <= count:
        if place + 1 not in skip:
            places.append(place)
        place += 1
    return places


def _words(snapshot: Snapshot) -> tuple[Words, str]:
    """The words of a label in printable characters, and the characters that are not."""
    unknown: list[str] = []

    def clean(text: str) -> str:
        shown, missing = printable(text)
        unknown.extend(missing)
        return shown

    said = tuple(
        replace(f, full=clean(f.full), short=clean(f.short), least=clean(f.least))
        for f in fields(snapshot)
    )
    words = Words(
        code=clean(snapshot.code),
        size=clean(snapshot.size),
        kind=clean(kind_words(snapshot)),
        name=clean(snapshot.name),
        fields=said,
    )
    return words, "".join(dict.fromkeys(unknown))


def _told(layout: Layout, unknown: str, not_in_qr: Sequence[str]) -> str:
    told = []
    if layout.left_off:
        told.append("no room for " + ", ".join(layout.left_off))
    if unknown:
        told.append("the font has no " + " ".join(unknown))
    if not_in_qr:
        told.append("not in the QR: " + ", ".join(not_in_qr))
    return "; ".join(told)


def put_right(canvas: Any, paper: Paper) -> None:
    """Shift and stretch the page against what its printer was measured to do."""
    across, down = paper.printer.scale
    right, below = paper.printer.astray
    height = paper.page.height
    x, y = -right * across, height - (height - below) * down
    if (across, down, x, y) != (1.0, 1.0, 0.0, 0.0):
        canvas.transform(across, 0, 0, down, x * MM, y * MM)


def _finish_page(canvas: Any, paper: Paper) -> None:
    if paper.cut:
        _draw_cut_lines(canvas, paper)
    canvas.showPage()


def _draw_cut_lines(canvas: Any, paper: Paper) -> None:
    """Dashed lines to cut along, each drawn once where labels touch, and dotted ones to fold."""
    cuts: dict[tuple[float, ...], None] = {}
    folds = []
    for place in range(paper.places):
        x, y = (round(c, 3) for c in paper.corner_of(place))
        right, top = round(x + paper.label.width, 3), round(y + paper.label.height, 3)
        for cut in ((x, y, right, y), (x, top, right, top), (x, y, x, top), (right, y, right, top)):
            cuts[cut] = None
        if paper.label.fold:
            folds.append((x, top - paper.label.fold, right, top - paper.label.fold))
    canvas.saveState()
    canvas.scale(MM, MM)
    canvas.setLineWidth(CUT_LINE_MM)
    canvas.setDash(1.0, 1.0)
    canvas.lines(list(cuts))
    canvas.setDash(0.15, 1.0)
    canvas.lines(folds)
    canvas.restoreState()


class _Inker:
    """Lays the ink of labels on a canvas; a drawing is kept once for all rigs tied alike."""

    def __init__(self, canvas: Any) -> None:
        register()
        self.canvas = canvas
        self.drawings: dict[tuple[tuple[Mark, ...], Box], str] = {}

    def label(self, layout: Layout, snapshot: Snapshot, x: float, y: float, qr_text: str) -> None:
        """One label with its lower left corner there, in mm."""
        canvas = self.canvas
        canvas.saveState()
        canvas.transform(MM, 0, 0, MM, x * MM, y * MM)
        text = canvas.beginText()
        for line in layout.lines:
            text.setTextOrigin(line.x, line.baseline)
            for words, bold in line.runs:
                text.setFont(BOLD if bold else REGULAR, line.size)
                text.textOut(words)
        canvas.drawText(text)
        if layout.drawing:
            self._rig(layout.drawing, snapshot)
        if layout.qr:
            self._qr(layout.qr, qr_text)
        canvas.restoreState()

    def _rig(self, box: Box, snapshot: Snapshot) -> None:
        kept = (snapshot.marks, box)
        if kept not in self.drawings:
            from tacklebox.printing.drawing import draw_across

            self.drawings[kept] = f"rig{len(self.drawings)}"
            self._keep(self.drawings[kept], draw_across(snapshot, box.width * MM, box.height * MM))
        self.canvas.saveState()
        self.canvas.transform(1 / MM, 0, 0, 1 / MM, box.x, box.y)
        self.canvas.doForm(self.drawings[kept])
        self.canvas.restoreState()

    def _keep(self, name: str, drawing: Any) -> None:
        from reportlab.graphics import renderPDF

        self.canvas.beginForm(name, 0, 0, drawing.width, drawing.height)
        renderPDF.draw(drawing, self.canvas, 0, 0, showBoundary=0)
        self.canvas.endForm()

    def _qr(self, place: QrPlace, text: str) -> None:
        """The dark modules as horizontal runs, filled in one path so that no seams show."""
        shape = qr_shape(text)
        self.canvas.transform(place.module, 0, 0, place.module, place.x, place.y)
        path = self.canvas.beginPath()
        for column, row, length in shape.runs:
            path.rect(column, shape.modules - 1 - row, length, 1)
        self.canvas.drawPath(path, stroke=0, fill=1)
