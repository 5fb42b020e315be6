"""Labels as PDF: read by eye, with the same words in a QR for a phone."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import partial
from typing import Any, TypeVar

from tacklebox.errors import AskedWronglyError
from tacklebox.outputs import PDF, Target, write_aside
from tacklebox.printing.fonts import BOLD, REGULAR, printable, register
from tacklebox.printing.labels.layout import Layout, QrPlace, Words, lay_out
from tacklebox.printing.labels.papers import Paper
from tacklebox.printing.labels.qr import QrWords, Sayings, qr_shape, rig_sayings
from tacklebox.printing.labels.typesetting import Rectangle
from tacklebox.printing.labels.wording import depth_in_short, fields, kind_words
from tacklebox.printing.pdf import MM, new_canvas
from tacklebox.rigs.tying.snapshot import Mark, Snapshot

CUT_LINE_MM = 0.1
Thing = TypeVar("Thing")


@dataclass(frozen=True, slots=True)
class Label:
    """What one label bears: its words, what its QR says, and the rig that is drawn on it."""

    words: Words
    sayings: Sayings
    rig: Snapshot | None = None


class Lacks(StrEnum):
    """Why a label does not say or bear something."""

    ROOM = "no room"
    QR = "not in the QR"
    CHARACTER = "no character"

    def words(self, what: str) -> str:
        """That it is so of these things.

        >>> Lacks.ROOM.words("drawing, purpose")
        'no room for drawing, purpose'
        """
        starts = {Lacks.ROOM: "no room for", Lacks.QR: "not in the QR:"}
        return f"{starts.get(self, 'the font has no')} {what}"


@dataclass(frozen=True, slots=True)
class LeftOff:
    """One thing that a label does not say or bear, though it would with more room."""

    code: str
    why: Lacks
    what: str


@dataclass(frozen=True, slots=True)
class PrintReport:
    """What was printed. ``next_free`` is the first free place of the last sheet, 1 when it is full."""

    pages: int
    labels: int
    next_free: int
    left_off: tuple[LeftOff, ...]


@dataclass(frozen=True, slots=True)
class PaperRun:
    """Labels that go on one paper; ``start`` is the first place to use on its first sheet (1: top
    left, then along the rows), ``skip`` are places of that sheet to leave empty."""

    labels: Sequence[Callable[[], Label]]
    paper: Paper
    start: int = 1
    skip: Collection[int] = ()


def print_labels(
    snapshots: Sequence[Snapshot],
    paper: Paper,
    target: Target,
    *,
    start: int = 1,
    skip: Collection[int] = (),
    qr: bool = True,
    overwrite: bool = False,
    progress: Callable[[int], None] | None = None,
) -> PrintReport:
    """Write one label for each rig or hooklength as a PDF; see ``print_each``."""
    return print_each(
        snapshots, rig_label, paper, target,
        start=start, skip=skip, qr=qr, overwrite=overwrite, progress=progress,
    )  # fmt: skip


def rig_label(snapshot: Snapshot) -> Label:
    """The label of a tied rig, or of a batch of hooklengths."""
    said = fields(snapshot)
    depth = next((f for f in said if f.about == "set for"), None)
    words = Words(
        code=snapshot.code,
        heads=((snapshot.looked_for or snapshot.size, kind_words(snapshot)),),
        second=f"{depth.heading} {depth.full}" if depth else "",
        fields=tuple(f for f in said if f is not depth),
        second_is="depth",
        second_short=f"Depth {short}" if (short := depth_in_short(snapshot)) else "",
    )
    return Label(words, rig_sayings(snapshot, said), snapshot)


def print_each(
    things: Sequence[Thing],
    label_of: Callable[[Thing], Label],
    paper: Paper,
    target: Target,
    *,
    start: int = 1,
    skip: Collection[int] = (),
    qr: bool = True,
    overwrite: bool = False,
    progress: Callable[[int], None] | None = None,
) -> PrintReport:
    """Write one label for each thing on one paper; see ``print_runs``."""
    (report,) = print_runs(
        [run_of(things, label_of, paper, start, skip)],
        target, qr=qr, overwrite=overwrite, progress=progress,
    )  # fmt: skip
    return report


def run_of(
    things: Sequence[Thing],
    label_of: Callable[[Thing], Label],
    paper: Paper,
    start: int = 1,
    skip: Collection[int] = (),
) -> PaperRun:
    """Labels of these things, each made when its turn has come."""
    return PaperRun([partial(label_of, thing) for thing in things], paper, start, skip)


def print_runs(
    runs: Sequence[PaperRun],
    target: Target,
    *,
    qr: bool = True,
    overwrite: bool = False,
    progress: Callable[[int], None] | None = None,
) -> list[PrintReport]:
    """Write labels as one PDF, each run on sheets of its own paper; the same give the same bytes.

    ``progress`` is told after each label how many are done. Raises AskedWronglyError for a place that
    is not on the sheet and for a file that is there already, CannotBeDoneError if it cannot be written.
    """
    placed = [places_to_fill(len(b.labels), b.paper, b.start, b.skip) for b in runs]
    first = runs[0].paper.page
    with write_aside(target, PDF, overwrite=overwrite) as aside:
        canvas = new_canvas(aside, first.width, first.height, "Labels")
        inker = Inker(canvas)
        reports: list[PrintReport] = []
        for run, places in zip(runs, placed, strict=True):
            before = sum(report.labels for report in reports)
            tell = (lambda done, before=before: progress(before + done)) if progress else None
            reports.append(_print_run(canvas, inker, run, places, qr=qr, progress=tell))
        canvas.save()
    return reports


def _print_run(
    canvas: Any,
    inker: "Inker",
    run: PaperRun,
    places: Sequence[int],
    *,
    qr: bool,
    progress: Callable[[int], None] | None,
) -> PrintReport:
    paper = run.paper
    canvas.setPageSize((paper.page.width * MM, paper.page.height * MM))
    put_right(canvas, paper)
    left_off: list[LeftOff] = []
    page = 0
    *these, after = places
    for done, (label, place) in enumerate(zip(run.labels, these, strict=True), start=1):
        if place // paper.places > page:
            _finish_page(canvas, paper)
            put_right(canvas, paper)
            page += 1
        left_off += inker.label(label(), paper, place % paper.places, qr=qr)
        if progress:
            progress(done)
    _finish_page(canvas, paper)
    return PrintReport(page + 1, len(run.labels), after % paper.places + 1, tuple(left_off))


def places_to_fill(count: int, paper: Paper, start: int, skip: Collection[int]) -> list[int]:
    """The places to fill, counted on from the first sheet's first (0), and the one after them."""
    if count < 1:
        raise AskedWronglyError("there is nothing to print a label for.", right="Name it.")
    refuse_place(paper, start, skip)
    places: list[int] = []
    place = start - 1
    while len(places) <= count:
        if place + 1 not in skip:
            places.append(place)
        place += 1
    return places


def refuse_place(paper: Paper, start: int, skip: Collection[int]) -> None:
    """Raises AskedWronglyError for a place that is not on the sheet."""
    for field, place in (("start", start), *(("skip", place) for place in skip)):
        if not 1 <= place <= paper.places:
            raise AskedWronglyError(
                f"place {place} is not on the paper {paper.stem}.",
                field=field,
                right=f"It has the places 1 to {paper.places}, counted along the rows from the top left.",
            )


def _printable(words: Words) -> tuple[Words, str]:
    """The words of a label in printable characters, and the characters that are not."""
    unknown: list[str] = []

    def clean(text: str) -> str:
        shown, missing = printable(text)
        unknown.extend(missing)
        return shown

    shown = replace(
        words,
        code=clean(words.code),
        heads=tuple((clean(said), clean(beside)) for said, beside in words.heads),
        second=clean(words.second),
        second_short=clean(words.second_short),
        fields=tuple(
            replace(f, full=clean(f.full), short=clean(f.short), least=clean(f.least))
            for f in words.fields
        ),
    )
    return shown, "".join(dict.fromkeys(unknown))


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
        draw_cut_lines(canvas, paper)
    canvas.showPage()


def draw_cut_lines(canvas: Any, paper: Paper) -> None:
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


class Inker:
    """Lays the ink of labels on a canvas; a drawing is kept once for all rigs tied alike."""

    def __init__(self, canvas: Any) -> None:
        register()
        self.canvas = canvas
        self.drawings: dict[tuple[tuple[Mark, ...], Rectangle], str] = {}

    def label(self, label: Label, paper: Paper, place: int, *, qr: bool) -> list[LeftOff]:
        """One label in its place; what was left off."""
        words, unknown = _printable(label.words)
        texts = label.sayings.candidates() if qr else ()
        layout = lay_out(
            words,
            paper.label,
            [text.modules for text in texts],
            drawn=bool(label.rig and label.rig.marks),
        )
        printed = self._ink(layout, label.rig, texts, paper.corner_of(place))
        lacking = (
            *((Lacks.ROOM, what) for what in layout.left_off),
            *((Lacks.CHARACTER, what) for what in unknown),
            *((Lacks.QR, what) for what in (printed.left_out if printed else ())),
        )
        return [LeftOff(words.code, why, what) for why, what in lacking]

    def _ink(
        self,
        layout: Layout,
        rig: Snapshot | None,
        texts: Sequence[QrWords],
        corner: tuple[float, float],
    ) -> QrWords | None:
        """The ink of a label with its lower left corner there, in mm; the QR that was printed."""
        canvas = self.canvas
        canvas.saveState()
        canvas.transform(MM, 0, 0, MM, corner[0] * MM, corner[1] * MM)
        text = canvas.beginText()
        for line in layout.lines:
            text.setTextOrigin(line.x, line.baseline)
            for words, bold in line.runs:
                text.setFont(BOLD if bold else REGULAR, line.size)
                text.textOut(words)
        canvas.drawText(text)
        if layout.drawing and rig:
            self._rig(layout.drawing, rig)
        printed = None
        if place := layout.qr:
            printed = next(t for t in texts if t.modules == place.modules)
            self._qr(place, printed.text)
        canvas.restoreState()
        return printed

    def _rig(self, box: Rectangle, rig: Snapshot) -> None:
        kept = (rig.marks, box)
        if kept not in self.drawings:
            from tacklebox.printing.drawing.rig import draw_across

            self.drawings[kept] = f"rig{len(self.drawings)}"
            self._keep(self.drawings[kept], draw_across(rig, box.width * MM, box.height * MM))
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
        from reportlab.pdfgen.pathobject import PDFPathObject

        shape = qr_shape(text)
        self.canvas.transform(place.module, 0, 0, place.module, place.x, place.y)
        low = shape.modules - 1
        # As `rect` would write them, but a tenth of the time: they are whole numbers.
        runs = [f"{column} {low - row} {length} 1 re" for column, row, length in shape.runs]
        self.canvas.drawPath(PDFPathObject(["n", *runs]), stroke=0, fill=1)
