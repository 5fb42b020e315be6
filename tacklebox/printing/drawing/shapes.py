"""The shapes that tackle is drawn with, in points, lying along the line from rod (left) to hook.

The line is the x axis. Things that hang from the line hang to its lower side, towards the hook.
Solid black is what weighs: shot, olivettes, bombs; what floats or carries feed is an outline.
"""

import math
from collections.abc import Callable, Iterator

from reportlab.graphics.shapes import Circle, Ellipse, Group, Line, Path, Polygon, Rect, Shape
from reportlab.lib.colors import black, white

from tacklebox.rigs.tying.snapshot import Mark
from tacklebox.stock.naming.kin import general

INK = black
PAPER = white
THIN = 0.5
BRANCH_AT = -4.3  # how far below the line a branch runs

_WAGGLER = 26.0
STANDS_OFF = ("one point", "slides")  # how a float is held that is fixed by its bottom end only
_HALF_WAGGLER = 1.6  # at its thickest, its outline included
_LEAN = 0.27  # radians that a waggler stands off the line

# How much of the line a thing takes up: towards the rod, towards the hook
_EXTENT = {
    "float": (12.0, 12.0),
    "feeder": (7.5, 7.5),
    "bomb": (5.5, 5.5),
    "swivel": (3.4, 3.4),
    "link swivel": (2.2, 2.2),
    "snap link": (3.4, 3.4),
    "bead": (1.5, 1.5),
    "bait band": (1.3, 2.4),
    "stop": (1.0, 1.0),
    "adaptor": (1.4, 1.4),
    "connector": (3.2, 3.2),
    "sleeve": (2.4, 2.4),
    "tube": (2.4, 2.4),
    "loop": (2.6, 2.6),
    "elastic": (6.0, 6.0),
    "hook": (7.0, 2.6),
}


def shot_radius(mass_g: float) -> float:
    """A shot's radius: it grows as the cube root of its mass, and the smallest can still be seen."""
    return float(min(0.45 + 2.0 * mass_g ** (1 / 3), 2.6))


def hook_larger(size: str) -> float:
    """How many times as large as a 15 a hook is drawn: a bigger number is a smaller hook."""
    number = int(size) if size.isascii() and size.isdecimal() else 8 if "/" in size else 15
    return min(max(1.6 - 0.04 * number, 0.7), 1.4)


def extent(mark: Mark) -> tuple[float, float]:
    """How much of the line a thing takes up, towards the rod and towards the hook."""
    if mark.side_mm:
        return 0.0, 0.0
    if mark.what == "shot":
        return shot_radius(mark.mass_g), shot_radius(mark.mass_g)
    if mark.what == "olivette":
        half = 2.6 + shot_radius(mark.mass_g)
        return half, half
    if mark.what == "float" and mark.held in STANDS_OFF:
        return 0.0, 0.0  # stands off the line
    if mark.what == "hook":
        larger = hook_larger(mark.kind)
        return larger * _EXTENT["hook"][0], larger * _EXTENT["hook"][1]
    return _EXTENT.get(mark.what, (1.3, 1.3))


def reach(mark: Mark) -> tuple[float, float]:
    """How far a thing reaches beside the line that it does not take up, to rod and to hook."""
    if mark.side_mm:
        return 0.0, 20.0
    if mark.what == "float" and mark.held in STANDS_OFF:
        return _WAGGLER, 0.0
    return extent(mark)


def above(mark: Mark) -> float:
    """How high a thing stands over the line, at the most."""
    if mark.what == "float" and mark.held in STANDS_OFF and not mark.side_mm:
        return _WAGGLER * math.sin(_LEAN) + _HALF_WAGGLER
    return 5.1 * hook_larger(mark.kind) if mark.what == "hook" else 3.0


def below(mark: Mark) -> float:
    """How far a thing reaches under the line, at the most."""
    return 6.8 - BRANCH_AT if mark.side_mm and mark.what in ("feeder", "bomb") else 3.0


def shapes_of(mark: Mark, at: float, room: float = 20.0) -> Iterator[Shape]:
    """The shapes of one thing whose place on the line is ``at``.

    A float that stands off the line leans as far as there is ``room`` over the line.
    """
    if mark.side_mm:
        yield _line(at, 0, at + 3.0, BRANCH_AT)
        yield _line(at + 3.0, BRANCH_AT, at + 6.5, BRANCH_AT)
        if mark.what in ("feeder", "bomb"):
            yield from _carried(mark, at + 13.0, BRANCH_AT)
        else:  # a swivel or bead on the way to what hangs there
            small = Group(*_SHAPES.get(mark.what, _knot)(mark, 0.0))
            small.transform = (1, 0, 0, 1, at + 4.5, BRANCH_AT)
            yield small
    elif mark.what in ("feeder", "bomb"):
        yield from _carried(mark, at, 0.0)
    elif mark.what == "float" and mark.held in STANDS_OFF:
        yield from _waggler(mark, at, room)
    else:
        yield from _SHAPES.get(mark.what, _knot)(mark, at)


def _line(x: float, y: float, to_x: float, to_y: float, width: float = THIN) -> Line:
    return Line(x, y, to_x, to_y, strokeColor=INK, strokeWidth=width)


def _circle(x: float, y: float, radius: float, *, solid: bool = False) -> Circle:
    fill = INK if solid else PAPER
    return Circle(x, y, radius, fillColor=fill, strokeColor=INK, strokeWidth=THIN)


def _waggler(mark: Mark, at: float, room: float) -> Iterator[Shape]:
    """Fixed by its bottom end only, so it stands off the line; an insert has a fine tip."""
    lean = min(_LEAN, math.asin(min(max(room - _HALF_WAGGLER, 0.0) / _WAGGLER, 1.0)))
    along, across = -math.cos(lean), math.sin(lean)

    def point(far: float, off: float) -> tuple[float, float]:
        return at + far * along + off * across, far * across - off * along

    def outline(*half_widths: tuple[float, float]) -> Polygon:
        outwards = [point(far, half) for far, half in half_widths]
        back = [point(far, -half) for far, half in reversed(half_widths)]
        flat = [c for corner in (*outwards, *back) for c in corner]
        return Polygon(flat, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)

    yield _line(*point(0, 0), *point(7, 0))
    if mark.kind.endswith("insert"):
        yield _line(*point(17, 0), *point(_WAGGLER, 0), 0.9)
        yield outline((6, 0.5), (9, 1.5), (16, 1.5), (19, 0.6))
    else:
        yield outline((6, 0.5), (9, 1.3), (_WAGGLER, 1.3))
        yield _line(*point(_WAGGLER - 4, 0), *point(_WAGGLER - 0.5, 0), 2.4)
    if mark.kind.endswith("loaded"):
        yield _line(*point(6.5, 0), *point(10.5, 0), 2.4)


def _along_float(mark: Mark, at: float) -> Iterator[Shape]:
    """Fixed top and bottom: a stick thickens towards its tip, a pole float has a round body."""
    if mark.kind == "stick":
        corners = [at - 8, 1.9, at - 8, -1.9, at + 8, -0.5, at + 8, 0.5]
        yield Polygon(corners, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)
        yield Rect(at - 12, -1.5, 4, 3, fillColor=INK, strokeColor=INK, strokeWidth=THIN)
        yield _line(at + 8, 0, at + 12, 0, 0.9)
        return
    yield _line(at - 12, 0, at - 3, 0, 1.3)
    yield _line(at + 3, 0, at + 12, 0, 0.9)
    body = Path(fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)
    body.moveTo(at - 5, 0)
    body.curveTo(at - 3.5, 3.2, at, 2.8, at + 5, 0)
    body.curveTo(at, -2.8, at - 3.5, -3.2, at - 5, 0)
    body.closePath()
    yield body


def _carried(mark: Mark, at: float, y: float) -> Iterator[Shape]:
    """A feeder or bomb, on the line or at the end of a branch; of "cage or open-end" the first."""
    kind = general(mark.kind.partition(" or ")[0])
    if mark.what == "bomb":
        drop = Path(fillColor=INK, strokeColor=INK, strokeWidth=THIN)
        drop.moveTo(at - 5.5, y)
        drop.curveTo(at, y + 1, at + 2, y + 2.4, at + 4, y + 1.6)
        drop.curveTo(at + 5.8, y + 0.8, at + 5.8, y - 0.8, at + 4, y - 1.6)
        drop.curveTo(at + 2, y - 2.4, at, y - 1, at - 5.5, y)
        drop.closePath()
        yield drop
    elif kind in ("method", "pellet"):
        yield Ellipse(at, y, 7, 2.8, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)
        yield Rect(at - 5.5, y - 2.8, 11, 1.5, fillColor=INK, strokeColor=INK, strokeWidth=THIN)
        for across in (-3, 0, 3):
            yield _line(at + across, y - 1.5, at + across, y + 2.5)
    else:
        yield from _tube(kind, at, y)


def _tube(kind: str, at: float, y: float) -> Iterator[Shape]:
    """A feeder's tube: a grid for a cage, else holes; closed by caps, or by a weight along it."""
    yield Rect(at - 6.5, y - 2.2, 13, 4.4, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)
    if kind == "cage":
        for across in (-4, -1.5, 1, 3.5):
            yield _line(at + across, y - 2.2, at + across, y + 2.2)
        yield _line(at - 6.5, y + 0.8, at + 6.5, y + 0.8)
    elif kind == "window":
        yield Rect(at - 2, y - 0.6, 6, 2, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)
    else:
        for across in (-3.5, 0, 3.5):
            yield _circle(at + across, y + 0.6, 0.6, solid=True)
    if kind == "block-end":
        for end in (-7.2, 5.8):
            yield Rect(
                at + end, y - 2.5, 1.4, 5, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN
            )
    yield _line(at - 6, y - 1.8, at + 6, y - 1.8, 1.0)


def _shot(mark: Mark, at: float) -> Iterator[Shape]:
    radius = shot_radius(mark.mass_g)
    yield Circle(at, 0, radius, fillColor=INK, strokeColor=PAPER, strokeWidth=0.3)


def _olivette(mark: Mark, at: float) -> Iterator[Shape]:
    yield Ellipse(at, 0, extent(mark)[0], 1.9, fillColor=INK, strokeColor=INK, strokeWidth=0)


def _swivel(_mark: Mark, at: float) -> Iterator[Shape]:
    yield _line(at - 1.2, 0, at + 1.2, 0, 2.0)
    for side in (-2.2, 2.2):
        yield _circle(at + side, 0, 1.2)


def _link(_mark: Mark, at: float) -> Iterator[Shape]:
    """It runs on the line through its upper eye."""
    yield _circle(at, 0, 1.7)
    yield _circle(at, 0, 0.5, solid=True)


def _snap_link(_mark: Mark, at: float) -> Iterator[Shape]:
    """A swivel with a wire clip towards the hook."""
    yield _circle(at - 2.2, 0, 1.2)
    yield _line(at - 1.2, 0, at + 0.2, 0, 2.0)
    yield Ellipse(at + 1.8, 0, 1.6, 1.2, fillColor=None, strokeColor=INK, strokeWidth=THIN)
    yield _line(at + 0.4, -1.2, at + 2.6, -0.9, 1.0)


def _sleeve(_mark: Mark, at: float) -> Iterator[Shape]:
    yield Rect(at - 2.2, -0.7, 4.4, 1.4, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)


def _connector(_mark: Mark, at: float) -> Iterator[Shape]:
    yield Rect(at - 3, -1.1, 6, 2.2, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)
    yield _line(at - 1.2, 0, at + 3, 0)


def _ring(_mark: Mark, at: float) -> Iterator[Shape]:
    yield _circle(at, 0, 1.3)


def _stop(_mark: Mark, at: float) -> Iterator[Shape]:
    yield _line(at, -1.6, at, 1.6, 1.4)


def _loop(_mark: Mark, at: float) -> Iterator[Shape]:
    yield Ellipse(at, 0, 2.5, 1.1, fillColor=PAPER, strokeColor=INK, strokeWidth=THIN)


def _knot(_mark: Mark, at: float) -> Iterator[Shape]:
    yield Rect(at - 0.9, -0.9, 1.8, 1.8, fillColor=INK, strokeColor=INK, strokeWidth=0)


def _elastic(_mark: Mark, at: float) -> Iterator[Shape]:
    xs = [at - 6 + step for step in range(13)]
    ys = [0.0, *((1.5 if step % 2 else -1.5) for step in range(1, 12)), 0.0]
    for n in range(12):
        yield _line(xs[n], ys[n], xs[n + 1], ys[n + 1])


def _hook(mark: Mark, at: float) -> Iterator[Shape]:
    """Its bend is where distances from the hook are measured from; large hooks are drawn larger."""
    k = hook_larger(mark.kind)
    bend = Path(fillColor=None, strokeColor=INK, strokeWidth=0.9)
    bend.moveTo(at - 7 * k, 0)
    bend.lineTo(at - 0.6 * k, 0)
    bend.curveTo(at + 3.2 * k, 0, at + 3.2 * k, 4.6 * k, at - 0.6 * k, 4.6 * k)
    bend.lineTo(at - 2.6 * k, 4.1 * k)
    yield bend
    yield _line(at - 7 * k, -0.9, at - 7 * k, 0.9)


def _band(_mark: Mark, at: float) -> Iterator[Shape]:
    """A band in the hair, beside the hook."""
    yield _line(at - 1.3, 0, at, 0)
    yield Ellipse(at + 1.0, 0, 1.3, 1.0, fillColor=PAPER, strokeColor=INK, strokeWidth=0.9)


_SHAPES: dict[str, Callable[[Mark, float], Iterator[Shape]]] = {
    "float": _along_float,
    "shot": _shot,
    "olivette": _olivette,
    "swivel": _swivel,
    "link swivel": _link,
    "snap link": _snap_link,
    "connector": _connector,
    "bead": _ring,
    "bait band": _band,
    "adaptor": _ring,
    "ring": _ring,
    "sleeve": _sleeve,
    "tube": _sleeve,
    "stop": _stop,
    "loop": _loop,
    "elastic": _elastic,
    "hook": _hook,
}
