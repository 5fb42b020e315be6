"""What a verdict rests on, drawn: strengths as curves, where a rig breaks, the float's tip.

What is told apart is told by a line drawn through or dashed, by hatching and by numbers, never by
colour alone. Lengths here in points, of the tip in mm.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from reportlab.graphics.shapes import Drawing, Group, Line, Polygon, PolyLine, Rect, String
from reportlab.lib.colors import Color, HexColor

from tacklebox.printing.drawing.rig import Spacing, draw_planned, space_out, spots_of
from tacklebox.printing.drawing.shapes import INK, PAPER, THIN
from tacklebox.printing.fonts import REGULAR, printable, register, width_of
from tacklebox.printing.pdf import MM
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.trade.quantities import KG_PER_LB
from tacklebox.trade.strength import Joint
from tacklebox.trade.units_first import show_strain

WIDTH, SIZE, EDGE = 232.0, 12.0, 5.0  # on the narrowest screen its words are 16 px high
LINE = 1.25 * SIZE
CURVE = 26.0  # how high the highest curve is
FAR = 2.5  # times the weakest above the hooklength: what holds more is named without its curve
REACH = 3.2  # standard deviations that a curve is drawn to
STEPS = 60
HATCH = 3.0
GREY, PALE = HexColor(0x777777), HexColor(0xD8D8D8)
DASHED = (4, 2)
TICKS = (0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
MOST_TICKS = 5
STRIP, LARGER = 38.0, 1.3  # how high a rig lies, and how much larger than on a label
BAND_MM = 5.0  # a tip's rings
UNDER_MM = 14.0  # of what is under water so much is drawn
COLUMN_MM, SCALE_MM, ALL_MM = 9.0, 13.0, 72.0  # with all its columns it fits the narrowest screen
OVER_TIP_MM, FOOT_MM = 6.0, 6.0


def draw_strengths(joints: Sequence[Joint]) -> Drawing:
    """Each joint's strength as a curve over the pull, the weakest first and all to one scale.

    Hatched is what a curve of the hooklength has in common with that of the weakest above it, and one
    above with that of the hooklength's weakest: the pulls at which either may go first. Raises
    ValueError unless there are joints on both sides.
    """
    register()
    ordered = sorted(joints, key=lambda joint: joint.mean_kg)
    weakest = next(joint for joint in ordered if joint.in_hooklength)
    above = next(joint for joint in ordered if not joint.in_hooklength)
    drawn = [joint for joint in ordered if joint.mean_kg <= FAR * above.mean_kg]
    low = max(0.0, min(j.mean_kg - REACH * j.whole_spread_kg for j in drawn))
    high = max(j.mean_kg + REACH * j.whole_spread_kg for j in drawn)
    peak = max(_density(joint, joint.mean_kg) for joint in ordered)
    legend = folded(
        "Drawn through: the hooklength. Dashed: above it. Hatched: pulls at which one of each side may "
        "go before the other."
    )
    rows = [
        folded(f"{n}. {joint.name}" + ("" if joint in drawn else _beyond(joint)))
        for n, joint in enumerate(ordered, 1)
    ]
    row = [
        LINE * len(words) + (CURVE + 4 if joint in drawn else 2)
        for joint, words in zip(ordered, rows, strict=True)
    ]
    axis = 2 * LINE + LINE * len(legend) + 6
    drawing = Drawing(WIDTH, sum(row) + axis)

    def across(kg: float) -> float:
        return EDGE + (WIDTH - 2 * EDGE) * (kg - low) / (high - low)

    top = drawing.height
    for joint, words, tall in zip(ordered, rows, row, strict=True):
        other = above if joint.in_hooklength else weakest
        for n, line in enumerate(words):
            drawing.add(words_at(line, EDGE, top - LINE * (n + 1) + 3))
        if joint in drawn:
            for shape in _curve(joint, other, across, top - tall + 2, CURVE / peak):
                drawing.add(shape)
        top -= tall
    for shape in _pull_axis(across, low, high, top):
        drawing.add(shape)
    for n, line in enumerate(legend):
        drawing.add(words_at(line, EDGE, LINE * (len(legend) - 1 - n) + 4))
    return drawing


def _beyond(joint: Joint) -> str:
    return f": {show_strain(joint.mean_kg)}, far to the right"


def _density(joint: Joint, kg: float) -> float:
    spread = joint.whole_spread_kg
    return math.exp(-(((kg - joint.mean_kg) / spread) ** 2) / 2) / spread


def _curve(
    joint: Joint, other: Joint, across: Callable[[float], float], base: float, scale: float
) -> Iterator[Line | Polygon | PolyLine]:
    """A joint's curve over its own base line, and what it has in common with another's."""
    reach = REACH * joint.whole_spread_kg
    start, end = max(0.0, joint.mean_kg - reach), joint.mean_kg + reach
    pulls = [start + (end - start) * n / STEPS for n in range(STEPS + 1)]
    own = [(across(kg), base + scale * _density(joint, kg)) for kg in pulls]
    shared = [
        (across(kg), base + scale * min(_density(joint, kg), _density(other, kg))) for kg in pulls
    ]
    yield Line(EDGE, base, WIDTH - EDGE, base, strokeColor=GREY, strokeWidth=THIN)
    seen = [point for point in shared if point[1] - base > 0.3]
    if len(seen) > 1:
        outline = [seen[0][0], base, *(c for point in seen for c in point), seen[-1][0], base]
        yield Polygon(outline, fillColor=PALE, strokeColor=None)
        x = seen[0][0]
        while x < seen[-1][0]:
            y = max(y for at, y in seen if abs(at - x) <= (across(end) - across(start)) / STEPS)
            yield Line(x, base, x, y, strokeColor=INK, strokeWidth=0.6)
            x += HATCH
    dash = None if joint.in_hooklength else DASHED
    flat = [round(c, 2) for point in own for c in point]
    yield PolyLine(flat, strokeColor=INK, strokeWidth=1.2, strokeDashArray=dash)
    x = across(joint.mean_kg)
    yield Line(x, base, x, own[STEPS // 2][1], strokeColor=INK, strokeWidth=0.4)


def _pull_axis(
    across: Callable[[float], float], low: float, high: float, top: float
) -> Iterator[Line | String]:
    """The pull in lb above, in kg below."""
    for unit, kg_each, y, turn in (("lb", KG_PER_LB, top, -1), ("kg", 1.0, top - LINE - 2, -1)):
        yield Line(EDGE, y, WIDTH - EDGE, y, strokeColor=INK, strokeWidth=THIN)
        step = next(s for s in TICKS if (high - low) / kg_each / s <= MOST_TICKS)
        first = math.ceil(low / kg_each / step - 1e-9)
        last = math.floor(high / kg_each / step + 1e-9)
        end = WIDTH - EDGE - width_of(f"pull, {unit}") * SIZE
        for n in range(first, last + 1):
            x = across(n * step * kg_each)
            yield Line(x, y, x, y + 3 * turn, strokeColor=INK, strokeWidth=THIN)
            words = f"{round(n * step, 2):g}"
            half = width_of(words) * SIZE / 2
            if x - half >= EDGE and x + half < end - 3:
                yield words_at(words, x, y - SIZE, "middle")
        yield words_at(f"pull, {unit}", WIDTH - EDGE, y - SIZE, "end")


@dataclass(frozen=True, slots=True)
class Parting:
    """Breaks that leave a fish with the same: their numbers and how far from the hook each is, what is
    said of them, and what kinds of heavy tackle come off the broken end."""

    breaks: tuple[tuple[int, float], ...]
    words: str
    comes_off: frozenset[str] = frozenset()


def draw_partings(snapshot: Snapshot, partings: Sequence[Parting]) -> Drawing:
    """The rig lying, once for each thing that a break may leave a fish with: numbered crosses where it
    breaks, in grey what the angler keeps. What comes off the broken end is left out."""
    register()
    said = [folded(one.words) for one in partings]
    heights = [LINE * len(words) + STRIP + LINE for words in said]
    foot = LINE
    drawing = Drawing(WIDTH, sum(heights) + foot)
    top = drawing.height
    for one, words, height in zip(partings, said, heights, strict=True):
        for n, line in enumerate(words):
            drawing.add(words_at(line, EDGE, top - LINE * (n + 1) + 3))
        strip = _strip(snapshot, one)
        strip.translate(0, top - height)
        drawing.add(strip)
        top -= height
    drawing.add(words_at("Rod left, hook right; cross: it breaks.", EDGE, 3))
    return drawing


def _strip(snapshot: Snapshot, parting: Parting) -> Group:
    furthest = max(at_mm for _, at_mm in parting.breaks)
    marks = tuple(
        mark
        for mark in snapshot.marks
        if mark.what not in parting.comes_off or mark.from_hook_mm > furthest
    )
    spots = spots_of(replace(snapshot, marks=marks))
    wide = (WIDTH - 2 * EDGE) / LARGER
    planned = space_out(spots, wide, [0.0] * len(spots))
    lying, whole = Group(), Group()
    axis = 0.45 * STRIP / LARGER
    draw_planned(lying, planned, lambda a, out: (a, axis + out), (1, 0, 0, 1), axis)
    lying.scale(LARGER, LARGER)
    lifted = Group(lying)
    lifted.translate(EDGE, LINE)
    whole.add(lifted)
    y = LARGER * axis + LINE
    broken = EDGE + LARGER * _place(planned, furthest)
    veil = Rect(0, LINE, max(0.0, broken - 2), STRIP, fillColor=_veil(), strokeColor=None)
    whole.add(veil)
    end = 0.0
    for number, at_mm in sorted(parting.breaks, key=lambda one: -one[1]):
        x = max(EDGE + LARGER * _place(planned, at_mm), EDGE)
        for turn in (-1, 1):
            cross = Line(x - 4, y - 4 * turn, x + 4, y + 4 * turn, strokeColor=PAPER, strokeWidth=4)
            whole.add(cross)
        for turn in (-1, 1):
            cross = Line(x - 4, y - 4 * turn, x + 4, y + 4 * turn, strokeColor=INK, strokeWidth=1.8)
            whole.add(cross)
        words = str(number)
        half = width_of(words) * SIZE / 2
        x = min(max(x, end + half), WIDTH - EDGE - half)
        whole.add(words_at(words, x, 3, "middle"))
        end = x + half + 4
    return whole


def _veil() -> Color:
    return Color(1, 1, 1, alpha=0.72)


def _place(planned: Spacing, at_mm: float) -> float:
    """Where a distance from the hook is on the drawing, between the spots on both sides of it; at its
    end where nothing is further up."""
    spots = planned.spots
    if at_mm > spots[0].from_hook_mm:
        return 0.0
    for upper, lower in pairwise(spots):
        if at_mm >= lower.from_hook_mm:
            apart = upper.from_hook_mm - lower.from_hook_mm
            share = (upper.from_hook_mm - at_mm) / apart if apart > 0 else 0.0
            return upper.at + share * (lower.at - upper.at)
    return spots[-1].at


@dataclass(frozen=True, slots=True)
class TipStage:
    """How a float sits at one stage: what has registered, and what shows of its tip, in mm; below 0
    the tip is so far under."""

    what: str
    shows_mm: float


def draw_tips(stages: Sequence[TipStage], diameter_mm: float, length_mm: float) -> Drawing:
    """The float's tip at each stage as it stands in the water, life size: a point here is a point of
    paper. Rings are 5 mm apart; a number under each tip is its stage."""
    register()
    highest = max(10.0, *(stage.shows_mm for stage in stages)) + OVER_TIP_MM
    deepest = min(0.0, *(stage.shows_mm for stage in stages))
    under = min(UNDER_MM, length_mm) - max(deepest, -2 * UNDER_MM)
    column = max(diameter_mm + 2.5, min(COLUMN_MM, (ALL_MM - SCALE_MM) / len(stages)))
    wide = SCALE_MM + column * len(stages)
    drawing = Drawing(wide * MM, (highest + under + FOOT_MM) * MM)
    group = Group()
    group.translate(0, (under + FOOT_MM) * MM)
    for shape in _tip_scale(highest, wide):
        group.add(shape)
    for number, stage in enumerate(stages, 1):
        x = (SCALE_MM + column * (number - 0.5)) * MM
        for shape in _tip(stage, x, diameter_mm * MM, length_mm):
            group.add(shape)
        group.add(words_at(str(number), x, -(under + FOOT_MM) * MM + 4, "middle"))
    drawing.add(group)
    return drawing


def _tip_scale(highest: float, wide: float) -> Iterator[Line | String]:
    yield Line(0, 0, wide * MM, 0, strokeColor=INK, strokeWidth=0.8)
    for n in range(int(highest / 10) + 1):
        y = 10 * n * MM
        yield Line(
            (SCALE_MM - 3) * MM, y, (SCALE_MM - 1) * MM, y, strokeColor=INK, strokeWidth=THIN
        )
        yield words_at(f"{10 * n}", (SCALE_MM - 4) * MM, y + (2 if not n else -SIZE / 3), "end")
    yield words_at("mm", (SCALE_MM - 1) * MM, (highest - 3) * MM, "end")


def _tip(stage: TipStage, x: float, thick: float, length_mm: float) -> Iterator[Rect | Line]:
    """A tip with its rings; what is under water in grey, and no more of it than is drawn."""
    thick = max(thick, 0.8)
    top = stage.shows_mm
    bottom = max(top - length_mm, min(top, 0.0) - UNDER_MM)
    ring, n = top, 0
    while ring > bottom + 1e-9:
        low = max(ring - BAND_MM, bottom)
        for high_mm, low_mm in ((ring, max(low, min(0.0, ring))), (min(ring, max(0.0, low)), low)):
            if high_mm - low_mm > 1e-9:
                wet = high_mm <= 1e-9
                dark = GREY if wet else INK
                yield Rect(
                    x - thick / 2,
                    low_mm * MM,
                    thick,
                    (high_mm - low_mm) * MM,
                    fillColor=(dark if n % 2 == 0 else PALE if wet else PAPER),
                    strokeColor=dark,
                    strokeWidth=0.4,
                )
        ring, n = low, n + 1
    if top < 0:  # an arrow from the water's surface down to it
        yield Line(x, 0, x, top * MM, strokeColor=INK, strokeWidth=0.6, strokeDashArray=(1, 2))


def folded(text: str, room: float = WIDTH - 2 * EDGE) -> list[str]:
    """The text in lines that have room."""
    lines: list[str] = []
    for word in printable(text)[0].split():
        if lines and width_of(f"{lines[-1]} {word}") * SIZE <= room:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def words_at(text: str, x: float, y: float, anchor: str = "start") -> String:
    """Words as all of these pictures have them."""
    return String(x, y, text, fontName=REGULAR, fontSize=SIZE, fillColor=INK, textAnchor=anchor)
