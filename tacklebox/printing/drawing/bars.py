"""Bars as SVG: a value of each name, one below the other; the ink is that of the page around them."""

from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

from tacklebox.printing.drawing.plot import LETTERS, WIDTH, steps_to

LINE, BAR, GAP, BOTTOM, RIGHT = 1.25 * LETTERS, 14.0, 12.0, 30.0, 24.0
ROW = 2 * LINE + BAR + GAP
MOST_LETTERS = 32  # of a name above its bar: more have no room
MOST_BARS = 12


@dataclass(frozen=True)
class Bars:
    """A value of each name from 0 on, and how it is written; the title says the unit."""

    title: str
    rows: tuple[tuple[str, float, str], ...]


def bars_svg(bars: Bars) -> str:
    """The bars, the first ``MOST_BARS`` of them. They have a title for those who cannot see them; beside them
    stands a table of all."""
    rows = bars.rows[:MOST_BARS]
    steps = steps_to(max((value for _, value, _ in rows), default=1.0))
    foot = ROW * len(rows)
    across = WIDTH - RIGHT

    def x(value: float) -> float:
        return 1 + across * value / steps[-1]

    axis = (
        f'<line x1="1" y1="{foot:g}" x2="{WIDTH - RIGHT:g}" y2="{foot:g}" stroke="currentColor"/>'
    )
    marks = [
        f'<text x="{x(step):.1f}" y="{foot + LINE:g}" '
        f'text-anchor="{"middle" if step else "start"}">{step:g}</text>'
        for step in steps
    ]
    drawn = [
        f'<text x="1" y="{ROW * n + LETTERS:g}">{escape(_cut(name))}</text>'
        f'<text x="1" y="{ROW * n + LETTERS + LINE:g}">{escape(words)}</text>'
        f'<rect x="1" y="{ROW * n + 2 * LINE + 4:g}" width="{max(x(value) - 1, 1):.1f}" height="{BAR:g}"/>'
        for n, (name, value, words) in enumerate(rows)
    ]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {foot + BOTTOM:g}" role="img" '
        f'aria-label={quoteattr(bars.title)} fill="currentColor" font-size="{LETTERS:g}">'
        f"{axis}{''.join(marks)}{''.join(drawn)}</svg>"
    )


def _cut(name: str) -> str:
    return name if len(name) <= MOST_LETTERS else f"{name[: MOST_LETTERS - 1]}…"
