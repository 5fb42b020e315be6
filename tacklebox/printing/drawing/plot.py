"""A plot as SVG: points over days, both axes with their units; the ink is that of the page around it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import floor, log10
from xml.sax.saxutils import escape, quoteattr

WIDTH, HEIGHT = 312.0, 260.0  # on the narrowest screen its letters are 16 px high
LEFT, RIGHT, TOP, BOTTOM = 52.0, 12.0, 30.0, 50.0
LETTERS = 17.0
MOST_STEPS = 5
MOST_DAYS_NAMED = 3


@dataclass(frozen=True)
class Plot:
    """Values over days. ``unit`` is of the values; ``stepped``: a value stands until the next."""

    title: str
    unit: str
    points: tuple[tuple[date, float], ...]
    stepped: bool = False


def plot_svg(plot: Plot) -> str:
    """The plot. It has a title for those who cannot see it; beside it stands a table of the same."""
    days = [day for day, _ in plot.points]
    steps = steps_to(max((value for _, value in plot.points), default=1.0))
    first, last = min(days, default=date.today()), max(days, default=date.today())
    span = max((last - first).days, 1)
    across, down = WIDTH - LEFT - RIGHT, HEIGHT - TOP - BOTTOM

    def x(day: date) -> float:
        return LEFT + across * ((day - first).days / span if last > first else 0.5)

    def y(value: float) -> float:
        return TOP + down * (1 - value / steps[-1])

    lines = [
        f'<line x1="{LEFT}" y1="{y(step):.1f}" x2="{WIDTH - RIGHT}" y2="{y(step):.1f}" '
        f'stroke="currentColor" stroke-width="{1.5 if step == 0 else 0.5}"/>'
        f'<text x="{LEFT - 8}" y="{y(step) + 5:.1f}" text-anchor="end">{step:g}</text>'
        for step in steps
    ]
    named = [
        f'<text x="{x(day):.1f}" y="{HEIGHT - BOTTOM + 22}" text-anchor="{_anchor(day, first, last)}">'
        f"{day.day} {day:%b}</text>"
        for day in _named(first, last)
    ]
    path = " ".join(f"{x(day):.1f},{y(value):.1f}" for day, value in _cornered(plot))
    dots = [
        f'<circle cx="{x(day):.1f}" cy="{y(value):.1f}" r="3.5"/>' for day, value in plot.points
    ]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {HEIGHT:g}" role="img" '
        f'aria-label={quoteattr(plot.title)} fill="currentColor" font-size="{LETTERS:g}">'
        f'<text x="0" y="{LETTERS}">{escape(plot.unit)}</text>'
        f"{''.join(lines)}{''.join(named)}"
        f'<text x="{WIDTH - RIGHT}" y="{HEIGHT - 6}" text-anchor="end">{_years(first, last)}</text>'
        f'<polyline points="{path}" fill="none" stroke="currentColor" stroke-width="2"/>'
        f"{''.join(dots)}</svg>"
    )


def _cornered(plot: Plot) -> Sequence[tuple[date, float]]:
    if not plot.stepped:
        return plot.points
    corners = [
        (day, before) for (_, before), (day, _) in zip(plot.points, plot.points[1:], strict=False)
    ]
    both = [one for pair in zip(plot.points, corners, strict=False) for one in pair]
    return [*both, *plot.points[-1:]]


def steps_to(most: float) -> list[float]:
    """The marks of an axis from 0 to at least ``most``: at most five steps of 1, 2 or 5.

    >>> steps_to(3.2), steps_to(0)
    ([0.0, 1.0, 2.0, 3.0, 4.0], [0.0, 1.0])
    """
    if most <= 0:
        return [0.0, 1.0]
    scale = 10.0 ** floor(log10(most / MOST_STEPS))
    step = next(f * scale for f in (1, 2, 5, 10) if most <= MOST_STEPS * f * scale * (1 + 1e-9))
    count = max(1, -int(-most / step * (1 - 1e-9) // 1))
    return [float(f"{n * step:.12g}") for n in range(count + 1)]


def _named(first: date, last: date) -> list[date]:
    span = (last - first).days
    if not span:
        return [first]
    many = min(MOST_DAYS_NAMED, span + 1)
    return [first + timedelta(days=round(span * n / (many - 1))) for n in range(many)]


def _anchor(day: date, first: date, last: date) -> str:
    return "end" if day == last != first else "middle"


def _years(first: date, last: date) -> str:
    return str(first.year) if first.year == last.year else f"{first.year} to {last.year}"
