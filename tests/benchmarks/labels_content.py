"""Rigs to print, and the same labels as bare marks: where each word, QR and stroke lies.

Arguments: paper, how many labels, and the two JSON files to write.
"""

import json
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from itertools import cycle, islice
from pathlib import Path
from typing import Any

from reportlab.graphics.shapes import Circle, Ellipse, Group, Line, Polygon, Rect, String
from reportlab.graphics.shapes import Path as Curve

from tacklebox.cli.demo import STOCK
from tacklebox.desk.asking import resolved_recipe
from tacklebox.printing.drawing.rig import draw_across, drawing_svg
from tacklebox.printing.labels.layout import lay_out
from tacklebox.printing.labels.papers import Paper, load_paper
from tacklebox.printing.labels.sheets import rig_label
from tacklebox.printing.pdf import MM
from tacklebox.rigs.recipes.file import Shelf
from tacklebox.rigs.tying.describe import describe
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tie import fit_and_check
from tacklebox.stock.care.box import open_box
from tacklebox.stock.codes import next_code
from tacklebox.stock.csv_file import import_items

DAY = date(2026, 3, 5)


def rigs(count: int) -> list[Snapshot]:
    """All shipped recipes in turn, each label with its own code, tied over a season."""
    with tempfile.TemporaryDirectory() as name:
        box = open_box(Path(name) / "box")
        import_items(box, Path(STOCK), DAY)
        shelf = Shelf()
        tied = [
            describe(fit_and_check(box, resolved_recipe(shelf, recipe, {})), "", DAY)
            for recipe in shelf.names()
        ]
    found, number = [], -1
    for n, snapshot in enumerate(islice(cycle(tied), count)):
        number, code = next_code(number)
        day = DAY + timedelta(days=n // 50)
        found.append(replace(snapshot, code=code, tied_on=day.isoformat()))
    return found


def marks_of(snapshots: list[Snapshot], paper: Paper) -> dict[str, Any]:
    """Every mark of every label, in points from the page's lower left; drawings once for all."""
    drawings: dict[tuple[Any, ...], int] = {}
    kept, labels = [], []
    for number, snapshot in enumerate(snapshots):
        label = rig_label(snapshot)
        texts = {t.modules: t.text for t in label.sayings.candidates()}
        laid = lay_out(label.words, paper.label, list(texts))
        assert laid.qr is not None
        assert laid.drawing is not None
        x, y = paper.corner_of(number % paper.places)
        width, height = laid.drawing.width * MM, laid.drawing.height * MM
        key = (snapshot.marks, width, height)
        if key not in drawings:
            drawings[key] = len(drawings)
            strokes = list(_strokes(draw_across(snapshot, width, height)))
            svg = drawing_svg(snapshot, width, height, upright=False)
            kept.append({"width": width, "height": height, "strokes": strokes, "svg": svg})
        lines = [
            [(x + line.x) * MM, (y + line.baseline) * MM, line.size * MM, line.runs]
            for line in laid.lines
        ]
        labels.append({
            "page": number // paper.places,
            "lines": lines,
            "qr": [(x + laid.qr.x) * MM, (y + laid.qr.y) * MM, laid.qr.module * MM,
                   texts[laid.qr.modules]],
            "drawing": [(x + laid.drawing.x) * MM, (y + laid.drawing.y) * MM, drawings[key]],
        })  # fmt: skip
    page = [paper.page.width * MM, paper.page.height * MM]
    return {"page": page, "drawings": kept, "labels": labels}


def _strokes(group: Any, outer: tuple[float, ...] = (1, 0, 0, 1, 0, 0)) -> Iterator[list[Any]]:
    """A drawing's shapes, flat: what it is, the transform it stands in, line width, fill, numbers."""
    for shape in group.contents:
        if isinstance(shape, Group):
            yield from _strokes(shape, _then(outer, shape.transform))
            continue
        match shape:
            case String():
                numbers: list[Any] = [shape.x, shape.y, shape.text, shape.fontSize]
                yield ["text", outer, 0, 1, numbers]
                continue
            case Line():
                numbers = [shape.x1, shape.y1, shape.x2, shape.y2]
            case Circle():
                numbers = [shape.cx, shape.cy, shape.r]
            case Ellipse():
                numbers = [shape.cx, shape.cy, shape.rx, shape.ry]
            case Rect():
                numbers = [shape.x, shape.y, shape.width, shape.height]
            case Polygon():
                numbers = list(shape.points)
            case Curve():
                numbers = [shape.operators, shape.points]
        fill = getattr(shape, "fillColor", None)
        shade = None if fill is None else (0 if fill.int_rgb() == 0 else 1)
        yield [type(shape).__name__.lower(), outer, shape.strokeWidth, shade, numbers]


def _then(outer: tuple[float, ...], inner: tuple[float, ...]) -> tuple[float, ...]:
    a, b, c, d, e, f = outer
    g, h, i, j, k, m = inner
    return (
        a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j,
        a * k + c * m + e, b * k + d * m + f,
    )  # fmt: skip


def main() -> None:
    """Write both files."""
    paper, count, rigs_file, marks_file = sys.argv[1:]
    snapshots = rigs(int(count))
    texts = [snapshot.to_json() for snapshot in snapshots]
    Path(rigs_file).write_text(json.dumps(texts), encoding="utf-8")
    marks = marks_of(snapshots, load_paper(paper))
    Path(marks_file).write_text(json.dumps(marks), encoding="utf-8")


if __name__ == "__main__":
    main()
