"""A rig drawn from its data, rod to hook: across for a strip, upright for a page; PDF or SVG.

Black on white. Distances are to scale where the room allows; a stretch that had to be
shortened bears a break mark, and every place bears its distance from the hook.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from reportlab.graphics.shapes import Drawing, Group, Line, String

from tacklebox.printing.fonts import LEAST_POINTS, REGULAR, register, width_at_one_point
from tacklebox.printing.shapes import BREAK_MARK, INK, half_length, shape_of
from tacklebox.rigs.snapshot import Mark, Snapshot
from tacklebox.trade.quantities import write_length

LONGEST_GAP_SHARE = 0.4  # a stretch longer than this share of the drawing is broken
BETWEEN = 2.0  # points between neighbours at the least
TEXT_POINTS = LEAST_POINTS + 0.1


@dataclass(frozen=True, slots=True)
class Spot:
    """All that is at one distance from the hook, and where that is in the drawing (points)."""

    from_hook_mm: float
    marks: tuple[Mark, ...]
    along: float = 0.0

    @property
    def half(self) -> float:
        """Half the length that its things take up on the line."""
        return sum(half_length(m) for m in self.marks if not m.side_mm) or 2.0


@dataclass(frozen=True, slots=True)
class Plan:
    """The spots in order from the rod, with the stretches that are broken."""

    spots: tuple[Spot, ...]
    broken: frozenset[int]  # stretch after the spot of that index
    length: float


def plan(snapshot: Snapshot, length: float) -> Plan:
    """Place the things of a rig along so many points: to scale, never on top of one another."""
    ordered = sorted(snapshot.marks, key=lambda m: -m.from_hook_mm)
    spots = [
        Spot(distance, tuple(marks))
        for distance, marks in groupby(ordered, key=lambda m: round(m.from_hook_mm, 1))
    ]
    if not spots:
        return Plan((), frozenset(), length)
    least = [a.half + b.half + BETWEEN for a, b in pairwise(spots)]
    apart = [a.from_hook_mm - b.from_hook_mm for a, b in pairwise(spots)]
    room = length - spots[0].half - spots[-1].half
    most = max(LONGEST_GAP_SHARE * room, max(least, default=0.0))
    gaps, scale = _stretch(least, apart, room, most)
    at, placed = spots[0].half, []
    for index, spot in enumerate(spots):
        placed.append(Spot(spot.from_hook_mm, spot.marks, at))
        at += gaps[index] if index < len(gaps) else 0.0
    broken = frozenset(i for i, g in enumerate(gaps) if apart[i] * scale > g + 0.5)
    return Plan(tuple(placed), broken, length)


def _stretch(
    least: Sequence[float], apart: Sequence[float], room: float, most: float
) -> tuple[list[float], float]:
    """Gaps of at least ``least`` and at most ``most``, else to one scale, that fill the room."""

    def gaps_at(scale: float) -> list[float]:
        return [min(max(low, scale * d), most) for low, d in zip(least, apart, strict=True)]

    low, high = 0.0, 10.0
    for _ in range(50):
        middle = (low + high) / 2
        if sum(gaps_at(middle)) < room:
            low = middle
        else:
            high = middle
    gaps = gaps_at(low)
    if sum(gaps) > room > 0:  # more things than room: draw them closer than they are
        gaps = [g * room / sum(gaps) for g in gaps]
    return gaps, low


def draw_across(snapshot: Snapshot, width: float, height: float) -> Drawing:
    """The rig lying, rod to the left, hook to the right. All in points."""
    register()
    drawing = Drawing(width, height)
    planned = plan(snapshot, width)
    axis = height * 0.55
    _draw_line(drawing, planned, lambda a, out: (a, axis + out))
    taken = -1e9
    for spot in planned.spots:
        drawing.add(
            _spot_group(spot, height - axis, axis - TEXT_POINTS - 1, (1, 0, 0, 1, spot.along, axis))
        )
        text = write_length(spot.from_hook_mm) if spot.from_hook_mm > 0.5 else ""
        half = width_at_one_point(text, REGULAR) * TEXT_POINTS / 2
        middle = min(max(spot.along, half), width - half)
        if text and middle - half > taken + 1:  # a distance that would overlap is left out
            drawing.add(_text(text, middle, 1.0, "middle"))
            taken = middle + half
    return drawing


def draw_upright(snapshot: Snapshot, width: float, height: float) -> Drawing:
    """The rig hanging, rod at the top, hook at the bottom, each thing named. All in points."""
    register()
    drawing = Drawing(width, height)
    planned = plan(snapshot, height)
    axis = width * 0.25
    _draw_line(drawing, planned, lambda a, out: (axis + out, height - a))
    taken = 1e9
    for spot in planned.spots:
        turned = (0, -1, 1, 0, axis, height - spot.along)
        drawing.add(_spot_group(spot, width - axis, axis, turned))
        line = min(height - spot.along - TEXT_POINTS / 3, taken - TEXT_POINTS * 1.15)
        for words in _words(spot):
            drawing.add(_text(words, axis + 22, line, "start"))
            taken = line
            line -= TEXT_POINTS * 1.15
    return drawing


def drawing_svg(snapshot: Snapshot, width: float = 300.0, height: float = 420.0) -> str:
    """The upright drawing as SVG."""
    from reportlab.graphics import renderSVG

    return str(renderSVG.drawToString(draw_upright(snapshot, width, height)))


def _words(spot: Spot) -> list[str]:
    """What is there, equal things counted, with the distance from the hook."""
    where = f"{write_length(spot.from_hook_mm)}: " if spot.from_hook_mm > 0.5 else ""
    counted: dict[str, int] = {}
    for mark in spot.marks:
        words = f"{mark.what} {mark.kind}" if mark.what in ("shot", "olivette") else mark.words
        if mark.what in ("loop", "knot"):
            words = mark.kind
        counted[words] = counted.get(words, 0) + 1
    told = [w if n == 1 else f"{n} {w.removeprefix('shot ')}" for w, n in counted.items()]
    return [(where if index == 0 else "    ") + words for index, words in enumerate(told)]


def _text(text: str, x: float, y: float, anchor: str) -> String:
    return String(
        x, y, text, fontName=REGULAR, fontSize=TEXT_POINTS, fillColor=INK, textAnchor=anchor
    )


def _draw_line(drawing: Drawing, planned: Plan, at: object) -> None:
    assert callable(at)
    start = 0.0
    for index, spot in enumerate(planned.spots):
        drawing.add(_stroke(*at(start, 0), *at(spot.along, 0)))
        start = spot.along
        if index in planned.broken:
            following = planned.spots[index + 1].along
            middle = (spot.along + following) / 2
            drawing.add(_stroke(*at(start, 0), *at(middle - 2, 0)))
            for a, out, b, end in BREAK_MARK:
                drawing.add(_stroke(*at(middle + a, out), *at(middle + b, end)))
            start = middle + 2


def _stroke(x: float, y: float, to_x: float, to_y: float) -> Line:
    return Line(x, y, to_x, to_y, strokeColor=INK, strokeWidth=0.5)


def _spot_group(spot: Spot, above: float, below: float, transform: tuple[float, ...]) -> Group:
    """The things at one place, beside one another along the line; sides hang below it."""
    group = Group()
    group.transform = transform
    at = -sum(half_length(m) for m in spot.marks if not m.side_mm)
    for mark in sorted(spot.marks, key=lambda m: m.what != "float"):
        if mark.side_mm:
            for shape in shape_of(mark, 0.0, above, below):
                group.add(shape)
            continue
        half = half_length(mark)
        for shape in shape_of(mark, at + half, above, below):
            group.add(shape)
        at += 2 * half
    return group
