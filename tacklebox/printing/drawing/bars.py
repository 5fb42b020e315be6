"""Bars as SVG: a value of each name, one below the other; the ink is that of the page around them."""

from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

from tacklebox.printing.drawing.plot import LETTERS, WIDTH, steps_to

ROW, BAR, TOP, BOTTOM, RIGHT = 46.0, 16.0, 8.0, 36.0, 90.0
MOST_LETTERS = 60  # of a name above its bar
MOST_BARS = 12


@dataclass(frozen=True)
class Bars:
    """A value of each name, as it is to be read, from 0 on; ``unit`` is of the values."""

    title: str
    unit: str
    rows: tuple[tuple[str, float, str], ...]


def bars_svg(bars: Bars) -> str:
    """The bars, the first ``MOST_BARS`` of them. They have a title for those who cannot see them; beside them
    stands a table of all."""
    rows = bars.rows[:MOST_BARS]
    steps = steps_to(max((value for _, value, _ in rows), default=1.0))
    height = TOP + ROW * len(rows) + BOTTOM
    across = WIDTH - RIGHT

    def x(value: float) -> float:
        return 1 + across * value / steps[-1]

    lines = [
        f'<line x1="{x(step):.1f}" y1="{TOP}" x2="{x(step):.1f}" y2="{height - BOTTOM}" '
        f'stroke="currentColor" stroke-width="{1.5 if step == 0 else 0.5}"/>'
        f'<text x="{x(step):.1f}" y="{height - BOTTOM + 20}" '
        f'text-anchor="{"middle" if step else "start"}">{step:g}</text>'
        for step in steps
    ]
    drawn = [
        f'<text x="6" y="{TOP + ROW * n + 16}">{escape(_cut(name))}</text>'
        f'<rect x="1" y="{TOP + ROW * n + 22}" width="{max(x(value) - 1, 1):.1f}" height="{BAR}"/>'
        f'<text x="{x(value) + 6:.1f}" y="{TOP + ROW * n + 22 + BAR - 3}">{escape(words)}</text>'
        for n, (name, value, words) in enumerate(rows)
    ]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {height:g}" role="img" '
        f'aria-label={quoteattr(bars.title)} fill="currentColor" font-size="{LETTERS:g}">'
        f"{''.join(lines)}{''.join(drawn)}"
        f'<text x="{WIDTH - 4:g}" y="{height - BOTTOM + 20}" text-anchor="end">{escape(bars.unit)}</text>'
        "</svg>"
    )


def _cut(name: str) -> str:
    return name if len(name) <= MOST_LETTERS else f"{name[: MOST_LETTERS - 1]}…"
