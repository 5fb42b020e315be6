"""Sheets of labels as they will print, on the screen: the same ink, laid by the same hand, as SVG.

The canvas here answers to those calls of ReportLab's that labels are drawn by. What a printer is put right by
is left out: it is there so that the paper comes out as it is shown.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from itertools import groupby
from typing import Any

from tacklebox.printing.fonts import BOLD, width_of
from tacklebox.printing.labels.papers import Paper, Printer
from tacklebox.printing.labels.sheets import (
    Inker,
    LeftOff,
    PaperRun,
    draw_cut_lines,
    places_to_fill,
)
from tacklebox.printing.pdf import MM

FAMILY = "'DejaVu Sans Condensed', sans-serif"


@dataclass(frozen=True)
class SheetDrawn:
    """One sheet as SVG, and what was left off the label in each of its places, counted from 0."""

    paper: Paper
    svg: str
    left_off: dict[int, tuple[LeftOff, ...]]


def draw_run(run: PaperRun, *, qr: bool = True) -> Iterator[SheetDrawn]:
    """The sheets of a run, one by one, since what is drawn on hundreds is much. Raises AskedWronglyError for
    a place that is not on the sheet."""
    paper = run.paper.model_copy(update={"printer": Printer()})
    *these, _ = places_to_fill(len(run.labels), paper, run.start, run.skip)
    placed = zip(run.labels, these, strict=True)
    for _, on_sheet in groupby(placed, key=lambda one: one[1] // paper.places):
        canvas = SvgCanvas()
        inker = ScreenInker(canvas)
        left_off = {
            place % paper.places: tuple(inker.label(label(), paper, place % paper.places, qr=qr))
            for label, place in on_sheet
        }
        if paper.cut:
            draw_cut_lines(canvas, paper)
        yield SheetDrawn(paper, canvas.document(paper), left_off)


class SvgCanvas:
    """What is drawn on a page, in points from its lower left corner."""

    def __init__(self) -> None:
        self.parts: list[str] = []
        self._groups = [0]
        self._width = 1.0
        self._dash: tuple[float, ...] = ()
        self.forms: dict[str, str] = {}

    def document(self, paper: Paper) -> str:
        """The whole page."""
        wide, high = paper.page.width * MM, paper.page.height * MM
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
            f'width="{paper.page.width}mm" height="{paper.page.height}mm" '
            f'viewBox="0 0 {_n(wide)} {_n(high)}"><rect width="100%" height="100%" fill="#fff"/>'
            f'<g transform="matrix(1 0 0 -1 0 {_n(high)})" fill="#000">{"".join(self.parts)}</g></svg>'
        )

    def saveState(self) -> None:  # noqa: N802 (ReportLab's name)
        self._groups.append(0)

    def restoreState(self) -> None:  # noqa: N802
        self.parts.append("</g>" * self._groups.pop())
        self._dash = ()

    def transform(self, *matrix: float) -> None:
        self.parts.append(f'<g transform="matrix({" ".join(map(_n, matrix))})">')
        self._groups[-1] += 1

    def scale(self, x: float, y: float) -> None:
        self.transform(x, 0, 0, y, 0, 0)

    def setLineWidth(self, width: float) -> None:  # noqa: N802
        self._width = width

    def setDash(self, *dash: float) -> None:  # noqa: N802
        self._dash = dash

    def lines(self, lines: Sequence[Sequence[float]]) -> None:
        path = "".join(f"M{_n(x)} {_n(y)}L{_n(to_x)} {_n(to_y)}" for x, y, to_x, to_y in lines)
        dash = f' stroke-dasharray="{" ".join(map(_n, self._dash))}"' if self._dash else ""
        self.parts.append(
            f'<path d="{path}" stroke="#000" fill="none" stroke-width="{_n(self._width)}"{dash}/>'
        )

    def beginText(self) -> "SvgText":  # noqa: N802
        return SvgText()

    def drawText(self, text: "SvgText") -> None:  # noqa: N802
        self.parts += text.parts

    def drawPath(self, path: Any, **_how: int) -> None:  # noqa: N802
        boxes = re.findall(r"(\S+) (\S+) (\S+) (\S+) re", path.getCode())
        path_of = "".join(f"M{x} {y}h{wide}v{high}h-{wide}z" for x, y, wide, high in boxes)
        self.parts.append(f'<path d="{path_of}" shape-rendering="crispEdges"/>')

    def doForm(self, name: str) -> None:  # noqa: N802
        self.parts.append(self.forms[name])


class SvgText:
    """Runs of type; each has the width that it has on paper, whatever typeface the screen has."""

    def __init__(self) -> None:
        self.parts: list[str] = []
        self._x = self._y = self._size = 0.0
        self._bold = False

    def setTextOrigin(self, x: float, y: float) -> None:  # noqa: N802
        self._x, self._y = x, y

    def setFont(self, name: str, size: float) -> None:  # noqa: N802
        self._bold, self._size = name == BOLD, size

    def textOut(self, words: str) -> None:  # noqa: N802
        wide = width_of(words, self._bold) * self._size
        weight = ' font-weight="700"' if self._bold else ""
        if words.strip():
            self.parts.append(
                f'<text transform="matrix(1 0 0 -1 {_n(self._x)} {_n(self._y)})" '
                f'font-family="{FAMILY}" font-size="{_n(self._size)}"{weight} '
                f'textLength="{_n(wide)}" lengthAdjust="spacingAndGlyphs" '
                f'xml:space="preserve">{escape(words)}</text>'
            )
        self._x += wide


class ScreenInker(Inker):
    """As for paper; a rig's drawing is SVG of its own."""

    def _keep(self, name: str, drawing: Any) -> None:
        from reportlab.graphics import renderSVG

        drawn = str(renderSVG.drawToString(drawing))
        self.canvas.forms[name] = (
            f'<g transform="matrix(1 0 0 -1 0 {_n(drawing.height)})">{drawn[drawn.index("<svg") :]}</g>'
        )


def _n(number: float) -> str:
    return f"{number:.4f}".rstrip("0").rstrip(".")
