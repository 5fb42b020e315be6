"""Plots over days as SVG: axes with their units, black on white."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

from reportlab.graphics.charts.lineplots import LinePlot
from reportlab.graphics.shapes import Drawing, Line, String
from reportlab.lib.colors import black

from tacklebox.printing.fonts import REGULAR, printable, register

WIDTH, HEIGHT = 220.0, 150.0
SIZE = 11.0
LEFT, BOTTOM, RIGHT, TOP = 38.0, 30.0, 26.0, 20.0
MOST_DAYS = 2  # named along the axis, after the first


def plot_over_days(
    points: Sequence[tuple[date, float]], unit: str, *, minimum: float = 0.0, steps: bool = False
) -> str:
    """Figures over days as SVG: in ``steps``, what stays until it changes, else a point for each day.

    ``minimum`` is drawn as a dashed line where there is one.
    """
    register()
    drawing = Drawing(WIDTH, HEIGHT)
    first = points[0][0]
    days = [((day - first).days, value) for day, value in points]
    drawn = [
        corner for n, (x, y) in enumerate(days) for corner in _corners(days, n, x, y, steps=steps)
    ]
    plot = LinePlot()
    plot.x, plot.y = LEFT, BOTTOM
    plot.width, plot.height = WIDTH - LEFT - RIGHT, HEIGHT - BOTTOM - TOP
    plot.data = [drawn if len(drawn) > 1 or not steps else [*drawn, (1, drawn[0][1])]]
    plot.lines[0].strokeColor, plot.lines[0].strokeWidth = black, 1.6
    if not steps:
        from reportlab.graphics.widgets.markers import makeMarker

        plot.lines[0].symbol = makeMarker("FilledCircle", size=5)
    last = max(x for x, _ in drawn)
    across, up = plot.xValueAxis, plot.yValueAxis
    across.valueMin, across.valueMax = 0, max(last, 1)
    across.valueSteps = sorted({round(n * max(last, 1) / MOST_DAYS) for n in range(MOST_DAYS + 1)})
    across.labelTextFormat = lambda x: _day(first + timedelta(days=int(x)))
    up.valueMin, up.valueMax = 0, max(1.0, minimum, *(y for _, y in drawn)) * 1.05
    up.labelTextFormat = lambda y: f"{y:g}"
    _letter(across, up)
    drawing.add(plot)
    drawing.add(_words(unit, 2.0, HEIGHT - SIZE))
    if minimum:
        y = BOTTOM + plot.height * minimum / up.valueMax
        drawing.add(Line(LEFT, y, WIDTH - RIGHT, y, strokeColor=black, strokeDashArray=(3, 3)))
        drawing.add(_words("minimum", WIDTH - RIGHT, y + 3, "end"))
    return _svg(drawing)


def _corners(
    days: Sequence[tuple[int, float]], n: int, x: int, y: float, *, steps: bool
) -> list[tuple[int, float]]:
    """A point, and before it the corner at which what was there until then ends."""
    return [(x, days[n - 1][1]), (x, y)] if steps and n else [(x, y)]


def _day(day: date) -> str:
    return f"{day.day} {day:%b %y}"


def _letter(*axes: Any) -> None:
    for axis in axes:
        axis.labels.fontName, axis.labels.fontSize = REGULAR, SIZE
        axis.strokeColor = black


def _words(text: str, x: float, y: float, anchor: str = "start") -> String:
    return String(x, y, printable(text)[0], fontName=REGULAR, fontSize=SIZE, textAnchor=anchor)


def _svg(drawing: Drawing) -> str:
    from reportlab.graphics import renderSVG

    svg = str(renderSVG.drawToString(drawing))
    return svg.replace(
        f"font-family: {REGULAR}", "font-family: 'DejaVu Sans Condensed', sans-serif"
    )
