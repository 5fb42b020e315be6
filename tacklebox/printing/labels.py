# NOTE for the engineer of this room (remove it): drawing, labels, layout, qr, shapes, wording and
# tests/printing/* as they stand are a stand-in by the founder, written against earlier papers.py and
# fonts.py while yours were not there. The room is yours: replace or adapt all of it, keep what is useful
# (it rendered well: see /tmp/mine for a whole copy, tests included). Keep the signature of print_labels and
# PrintReport(path, pages, labels, next_free, left_off: tuple of (code, what is lacking)); the paper names
# a4-65 and strips-180; Snapshot.carries/shot/set_for are shorter now (see rigs/describe.py). On the
# 38.1 x 21.2 label the date must be on the usual waggler label too. First make labels work end to end
# (`tacklebox demo` must run), by 14:35 at the latest; tests/printing green by 14:50; then part C of your brief.
"""Winder labels as PDF: each label fitted to its place, the file written whole or not at all."""

import os
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from reportlab.graphics import renderPDF
from reportlab.pdfgen.canvas import Canvas

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.printing import qr as qr_symbol
from tacklebox.printing.drawing import draw_across
from tacklebox.printing.fonts import BOLD, CAP_HEIGHT, LEAST_POINTS, REGULAR, printable, register
from tacklebox.printing.fonts import width_at_one_point as width_of
from tacklebox.printing.layout import Room, SetText, cut_to_width, set_fields
from tacklebox.printing.papers import POINTS_PER_MM, Paper, Place
from tacklebox.printing.wording import NO_BREAK, Field, big_words, fields, hold_together, qr_text
from tacklebox.rigs.snapshot import Snapshot

MM = POINTS_PER_MM
INSET_MM = 1.5  # printers and cutters are off by a millimetre
BIG_CAPS_MM = 3.0  # 1/200 of an arm's length of 60 cm (FAA, as cited in human-factors handbooks)
BIG_CAPS_MOST_MM = 4.5
STRIP_FROM = 5.0  # a label so many times wider than high is laid out as a strip
STRIP_TEXT_SHARE = 0.5


@dataclass(frozen=True)
class PrintReport:
    """What was printed: file, pages, the next free place on the last sheet, what was left off."""

    path: Path
    pages: int
    labels: int
    next_free: int
    left_off: tuple[tuple[str, str], ...]  # code, and what its label lacks


def print_labels(
    snapshots: Sequence[Snapshot],
    paper: Paper,
    target: Path,
    *,
    start: int = 1,
    qr: bool = True,
    overwrite: bool = False,
) -> PrintReport:
    """Print one label for each rig, from place ``start`` of the first sheet on.

    The file is written aside and then renamed; the same input gives the same bytes. Raises
    AskedWronglyError for a start beyond the sheet or a file that is there already, CannotBeDoneError where
    nothing can be written.
    """
    if not 1 <= start <= paper.per_page:
        raise AskedWronglyError(
            f"there is no place {start} on {paper.stem}.",
            where="--start",
            right=f"From 1 to {paper.per_page}.",
        )
    if target.exists() and not overwrite:
        raise AskedWronglyError(
            f"{target} is there already; it was left as it is.",
            right="Name another file, or say --replace.",
        )
    aside = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        report = _write(snapshots, paper, aside, start - 1, qr)
        aside.replace(target)
    except OSError as error:
        raise CannotBeDoneError(
            f"the labels cannot be written: {error.strerror}.",
            where=str(target),
            right="Name a folder that may be written, with --to.",
        ) from None
    finally:
        aside.unlink(missing_ok=True)
    return PrintReport(target, *report)


def _write(
    snapshots: Sequence[Snapshot], paper: Paper, path: Path, first: int, qr: bool
) -> tuple[int, int, int, tuple[tuple[str, str], ...]]:
    register()
    width, height = (side * MM for side in paper.page)
    canvas = Canvas(str(path), pagesize=(width, height), invariant=1, pageCompression=1)
    canvas.setTitle("Winder labels")
    canvas.setViewerPreference("PrintScaling", "None")
    left_off: list[tuple[str, str]] = []
    pages = 1
    for index, snapshot in enumerate(snapshots, first):
        if index > first and index % paper.per_page == 0:
            canvas.showPage()
            pages += 1
        place = paper.place(index % paper.per_page)
        canvas.saveState()
        canvas.translate(place.left_mm * MM, height - (place.top_mm + place.height_mm) * MM)
        if paper.cut_marks:
            _cut_marks(canvas, place)
        left_off += [(snapshot.code, what) for what in _draw_label(canvas, snapshot, place, qr)]
        canvas.restoreState()
    canvas.save()
    following = (first + len(snapshots)) % paper.per_page + 1
    return pages, len(snapshots), following, tuple(left_off)


def _cut_marks(canvas: Canvas, place: Place) -> None:
    """Short strokes outside each corner, so that none is left on the label."""
    width, height = place.width_mm * MM, place.height_mm * MM
    canvas.setLineWidth(0.3)
    for x, out in ((0.0, -1), (width, 1)):
        for y in (0.0, height):
            canvas.line(x + out * 1.5, y, x + out * 8, y)


def _draw_label(canvas: Canvas, snapshot: Snapshot, place: Place, qr: bool) -> list[str]:
    """Draw one label with its lower left corner at the origin; says what it lacks."""
    inset = INSET_MM * MM
    width, height = place.width_mm * MM - 2 * inset, place.height_mm * MM - 2 * inset
    canvas.translate(inset, inset)
    said, missing = [], ""
    for field in fields(snapshot):
        text, unknown = printable(field.text)
        said.append(Field(field.what, hold_together(text)))
        missing += unknown
    lacks = [f"no letter for {missing}; □ stands for each"] if missing else []
    symbol = 0.0
    if qr:
        symbol = qr_symbol.side_mm(qr_text(snapshot)) * MM
        if symbol > height + 1e-6 or symbol > width * 0.5:
            symbol = 0.0
            lacks.append("the QR was left off: no room for modules of 0.33 mm")
    if symbol:
        module = qr_symbol.LEAST_MODULE_MM * MM
        qr_symbol.draw(canvas, qr_text(snapshot), width - symbol, height - symbol, module)
    if width > STRIP_FROM * height:
        off = _strip(canvas, snapshot, tuple(said), width - symbol, height)
    else:
        off = _block(canvas, snapshot, tuple(said), width, height, symbol)
    if off:
        lacks.append("left off: " + ", ".join(field.what for field in off))
    return lacks


def _block(
    canvas: Canvas,
    snapshot: Snapshot,
    said: tuple[Field, ...],
    width: float,
    height: float,
    symbol: float,
) -> tuple[Field, ...]:
    """Heading at the top left, the QR in the upper right corner, words around them."""
    heading = BIG_CAPS_MM * MM
    _heading(canvas, snapshot, width - symbol - (0.5 * MM if symbol else 0), height - heading)
    used = heading + 0.9 * MM
    room = Room(
        width,
        height - used,
        symbol + 0.3 * MM if symbol else 0.0,
        max(symbol - used, 0.0),
    )
    text = _fitted(said, room)
    _draw_text(canvas, text, 0.0, height - used)
    return text.left_off


def _heading(canvas: Canvas, snapshot: Snapshot, width: float, baseline: float) -> None:
    """What is looked for first, as large as may be, and the code in bold beside it."""
    size = BIG_CAPS_MM * MM / CAP_HEIGHT
    big, code = printable(big_words(snapshot))[0], snapshot.code
    code_size = min(size, 9.0)
    gap = 1.2 * MM
    while True:
        need = width_of(big, BOLD) * size + width_of(code, BOLD) * code_size + gap
        if need <= width or size <= LEAST_POINTS:
            break
        size, code_size = max(size - 0.5, LEAST_POINTS), max(code_size - 0.25, LEAST_POINTS)
    big = cut_to_width(big, (width - gap - width_of(code, BOLD) * code_size) / size, "…", BOLD)
    canvas.setFont(BOLD, size)
    canvas.drawString(0, baseline, big)
    canvas.setFont(BOLD, code_size)
    canvas.drawRightString(width, baseline, code)


def _strip(
    canvas: Canvas, snapshot: Snapshot, said: tuple[Field, ...], width: float, height: float
) -> tuple[Field, ...]:
    """A block with size and code at the left, words in the middle, the rig drawn at the right."""
    big = printable(big_words(snapshot))[0] or snapshot.code
    first = min(max(width * 0.16, 20 * MM), width * 0.3)
    size = min(BIG_CAPS_MOST_MM * MM / CAP_HEIGHT, (first - 2 * MM) / max(width_of(big, BOLD), 0.1))
    size = max(size, LEAST_POINTS)
    canvas.setFont(BOLD, size)
    canvas.drawString(0, height - size * CAP_HEIGHT, cut_to_width(big, first / size, "…", BOLD))
    if big != snapshot.code:
        canvas.setFont(BOLD, 11)
        canvas.drawString(0, 1.0, snapshot.code)
    middle = (width - first) * STRIP_TEXT_SHARE
    text = _fitted(said, Room(middle - 2 * MM, height))
    _draw_text(canvas, text, first, height)
    drawing = draw_across(snapshot, width - first - middle - 2 * MM, height)
    renderPDF.draw(drawing, canvas, first + middle, 0)
    return text.left_off


@lru_cache(maxsize=256)
def _fitted(said: tuple[Field, ...], room: Room) -> SetText:
    """Rigs tied together say the same but for their code, so most labels are set already."""
    return set_fields(said, room)


def _draw_text(canvas: Canvas, text: SetText, left: float, top: float) -> None:
    canvas.setFont(REGULAR, text.size)
    for row, line in text.lines:
        canvas.drawString(left, top - row.top - text.size * 0.82, line.replace(NO_BREAK, " "))
