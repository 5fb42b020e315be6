"""The shapes that tackle is drawn with. All lie along a line from left (rod) to right (hook)."""

from collections.abc import Callable, Iterator

from reportlab.graphics.shapes import Circle, Ellipse, Line, Path, Polygon, Rect, Shape
from reportlab.lib.colors import black, white

from tacklebox.rigs.snapshot import Mark

INK = black
PAPER = white
THIN = 0.5
# Two slanting strokes across a stretch that is drawn shorter than it is: a, out, b, out.
BREAK_MARK = ((-2.5, -2.5, -0.5, 2.5), (0.5, -2.5, 2.5, 2.5))

_HALF = {
    "float": 9.0,
    "feeder": 7.0,
    "bomb": 5.0,
    "swivel": 3.0,
    "link swivel": 3.0,
    "snap link": 3.0,
    "bead": 1.4,
    "stop": 1.0,
    "adaptor": 1.5,
    "connector": 3.0,
    "loop": 2.5,
    "knot": 1.2,
    "elastic": 6.0,
    "hook": 3.5,
}


def shot_radius(mass_g: float) -> float:
    """A shot's radius in points, by the cube root of its mass, between what can be seen and fits."""
    return float(min(max(2.4 * mass_g ** (1 / 3), 0.8), 2.6))


def half_length(mark: Mark) -> float:
    """Half the length that a thing takes up on the drawn line, in points."""
    if mark.what == "shot":
        return shot_radius(mark.mass_g)
    if mark.what == "olivette":
        return 2.0 + shot_radius(mark.mass_g)
    return _HALF.get(mark.what, 1.5)


def shape_of(mark: Mark, at: float, above: float, below: float) -> Iterator[Shape]:
    """The shapes of one thing at ``at`` on the line; it may reach so far above and below it."""
    if mark.side_mm:
        drop = max(min(below * 0.55, 12.0), 5.0)
        yield Line(at, 0, at, -drop, strokeColor=INK, strokeWidth=THIN)
        yield from _carried(mark, at, -drop - 2.5)
        return
    if mark.what == "float":
        yield from _float(mark, at, min(above - 1, 16.0))
    elif mark.what in ("feeder", "bomb"):
        yield from _carried(mark, at, 0.0)
    else:
        yield from _SMALL.get(mark.what, _knot)(mark, at)


def _float(mark: Mark, at: float, above: float) -> Iterator[Shape]:
    if mark.kind.startswith("waggler"):
        # Fixed by its bottom end only: it stands off the line.
        body = [at, 0, at - 1.2, above * 0.35, at - 0.7, above * 0.75, at + 0.7, above * 0.75]
        yield Polygon(
            [*body, at + 1.2, above * 0.35], fillColor=PAPER, strokeColor=INK, strokeWidth=THIN
        )
        thick = 0.5 if mark.kind.endswith("insert") else 1.2
        yield Line(at, above * 0.75, at, above, strokeColor=INK, strokeWidth=thick)
        if mark.kind.endswith("loaded"):
            yield Circle(at, above * 0.12, 1.1, fillColor=INK, strokeColor=INK)
        return
    if mark.kind == "stick":
        yield Polygon(
            [at - 9, 1.6, at - 9, -1.6, at + 9, -0.5, at + 9, 0.5],
            fillColor=PAPER,
            strokeColor=INK,
            strokeWidth=THIN,
        )
        yield Rect(at - 9, -1.6, 3, 3.2, fillColor=INK, strokeColor=INK, strokeWidth=THIN)
        return
    yield Line(at - 9, 0, at + 9, 0, strokeColor=INK, strokeWidth=0.8)
    yield Ellipse(at, 0, 4.0, 2.3, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)


def _carried(mark: Mark, at: float, y: float) -> Iterator[Shape]:
    """A feeder or bomb, on the line or hanging from it."""
    if mark.what == "bomb":
        drop = Path(fillColor=INK, strokeColor=INK, strokeWidth=THIN)
        drop.moveTo(at, y + 2.5)
        drop.curveTo(at + 2.6, y - 1, at + 2, y - 4, at, y - 4)
        drop.curveTo(at - 2, y - 4, at - 2.6, y - 1, at, y + 2.5)
        drop.closePath()
        yield drop
        return
    if mark.kind in ("method", "pellet"):
        yield Ellipse(at, y, 7, 3, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)
        for across in (-3.5, 0, 3.5):
            yield Line(
                at + across, y - 2.4, at + across, y + 2.4, strokeColor=INK, strokeWidth=THIN
            )
        return
    yield Rect(at - 6, y - 3, 12, 6, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)
    if mark.kind == "cage":
        for across in (-3, 0, 3):
            yield Line(at + across, y - 3, at + across, y + 3, strokeColor=INK, strokeWidth=THIN)
        yield Line(at - 6, y, at + 6, y, strokeColor=INK, strokeWidth=THIN)
    else:
        for across in (-3, 0, 3):
            yield Circle(at + across, y, 0.7, fillColor=INK, strokeColor=INK, strokeWidth=0)


def _shot(mark: Mark, at: float) -> Iterator[Shape]:
    yield Circle(at, 0, shot_radius(mark.mass_g), fillColor=INK, strokeColor=PAPER, strokeWidth=0.3)


def _olivette(mark: Mark, at: float) -> Iterator[Shape]:
    yield Ellipse(at, 0, half_length(mark), 1.8, fillColor=INK, strokeColor=INK, strokeWidth=0)


def _swivel(_mark: Mark, at: float) -> Iterator[Shape]:
    for side in (-1.9, 1.9):
        yield Circle(at + side, 0, 1.1, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)
    yield Line(at - 0.8, 0, at + 0.8, 0, strokeColor=INK, strokeWidth=1.4)


def _ring(_mark: Mark, at: float) -> Iterator[Shape]:
    yield Circle(at, 0, 1.4, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)


def _loop(_mark: Mark, at: float) -> Iterator[Shape]:
    yield Ellipse(at, 0, 2.5, 1.1, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)


def _knot(_mark: Mark, at: float) -> Iterator[Shape]:
    yield Rect(at - 0.9, -0.9, 1.8, 1.8, fillColor=INK, strokeColor=INK, strokeWidth=0)


def _elastic(_mark: Mark, at: float) -> Iterator[Shape]:
    points = [at - 6, 0.0]
    for step in range(1, 7):
        points += [at - 6 + 2 * step - 1, 1.6 if step % 2 else -1.6]
    points += [at + 6, 0.0]
    for start in range(0, len(points) - 2, 2):
        yield Line(*points[start : start + 4], strokeColor=INK, strokeWidth=THIN)


def _hook(_mark: Mark, at: float) -> Iterator[Shape]:
    bend = Path(fillColor=None, strokeColor=INK, strokeWidth=0.8)
    bend.moveTo(at - 3.5, 0)
    bend.lineTo(at + 1, 0)
    bend.curveTo(at + 4.4, 0, at + 4.4, 4.4, at + 1, 4.4)
    bend.lineTo(at - 0.6, 4.2)
    yield bend


_SMALL: dict[str, Callable[[Mark, float], Iterator[Shape]]] = {
    "shot": _shot,
    "olivette": _olivette,
    "swivel": _swivel,
    "link swivel": _swivel,
    "snap link": _swivel,
    "connector": _swivel,
    "bead": _ring,
    "ring": _ring,
    "adaptor": _ring,
    "loop": _loop,
    "elastic": _elastic,
    "hook": _hook,
}
