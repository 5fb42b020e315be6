"""What a check went by, drawn: lines cut across, a figure among bands, shot in order, what a bore passes, a
hook's shank, what holds a float.

Told apart by hatching, by thick and thin and by words, never by colour. Lengths here in points.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import groupby

from reportlab.graphics.shapes import Circle, Drawing, Group, Line, Rect, Shape

from tacklebox.printing.drawing.shapes import INK, PAPER, shapes_of, shot_radius
from tacklebox.printing.drawing.verdicts import (
    EDGE,
    GREY,
    LINE,
    PALE,
    SIZE,
    TICKS,
    WIDTH,
    folded,
    words_at,
)  # fmt: skip
from tacklebox.printing.fonts import register, width_of
from tacklebox.rigs.tying.snapshot import Mark
from tacklebox.trade.passing import Meets, Passes
from tacklebox.trade.pictured import (
    TURNS,
    CutAcross,
    HeldBetween,
    OnBands,
    OnTheWay,
    Pictured,
    ShankEnd,
    ShotInOrder,
    ShotPart,
    UsualBand,
    WayPast,
)

SECTION = 92.0  # how wide the thickest line is drawn
BAR, NAMES = 16.0, 74.0
MOST_STEPS = 5
LARGER = 3.0  # tackle against the rig's drawing
RING = 44.0  # the widest of a bore and what it meets
GAP = 9.0
MOST_SHOT = 60
SIGNS = {Passes.YES: "✓", Passes.TRY_IT: "?", Passes.NO: "✗"}


def draw_judged(pictured: Pictured) -> Drawing:
    """The picture of what a judgement went by."""
    register()
    if isinstance(pictured, CutAcross):
        return _cut_across(pictured)
    if isinstance(pictured, OnBands):
        return _on_bands(pictured)
    if isinstance(pictured, ShotInOrder):
        return _shot_in_order(pictured)
    if isinstance(pictured, WayPast):
        return _way_past(pictured)
    if isinstance(pictured, ShankEnd):
        return _shank_end(pictured)
    return _held_between(pictured)


def _cut_across(cut: CutAcross) -> Drawing:
    """Lines side by side as if cut across, to one scale; dashed: how thick the last usually is at most."""
    thickest = max(*(mm for _, mm in cut.lines), cut.at_most_mm)
    scale = SECTION / thickest
    legend = f"Cut across, {_round(scale / (72 / 25.4)):.0f} times as thick as life."
    if cut.at_most_mm:
        legend += f" Dashed: {cut.at_most_mm:.2f} mm, no thicker is usual."
    words = folded(legend)
    foot = LINE * (len(words) + 2) + 6
    drawing = Drawing(WIDTH, SECTION + foot + 6)
    column = (WIDTH - 2 * EDGE) / len(cut.lines)
    for n, (name, mm) in enumerate(cut.lines):
        x = EDGE + column * (n + 0.5)
        radius = scale * mm / 2
        drawing.add(_disk(x, foot + radius, radius, PALE))
        if cut.at_most_mm and n == len(cut.lines) - 1:
            around = scale * cut.at_most_mm / 2
            drawing.add(
                Circle(
                    x,
                    foot + around,
                    around,
                    fillColor=None,
                    strokeColor=INK,
                    strokeWidth=1,
                    strokeDashArray=(4, 3),
                )
            )
        drawing.add(words_at(name, x, foot - LINE + 2, "middle"))
        drawing.add(words_at(f"{mm:.3g} mm", x, foot - 2 * LINE + 2, "middle"))
    _legend(drawing, words)
    return drawing


def _round(times: float) -> float:
    return float(f"{times:.2g}")


def _on_bands(found: OnBands) -> Drawing:
    """A figure as an upright line among bars of what is usual; hatched: those that count here."""
    ends = [end for band in found.bands for end in (band.low, band.high) if math.isfinite(end)]
    marks = [band.value for band in found.bands if band.value is not None]
    marks += [found.value] if found.value is not None else []
    low, high = min(*ends, *marks), max(*ends, *marks)
    room = 0.06 * (high - low) or 0.1 * high
    low, high = max(0.0, low - room) if low > 0 else 0.0, high + room
    legend = "Hatched: what is usual here."
    words = folded(legend)
    row = BAR + 10
    foot = LINE * (len(words) + 1) + 8
    drawing = Drawing(WIDTH, foot + row * len(found.bands) + LINE + 6)

    def across(value: float) -> float:
        return NAMES + (WIDTH - EDGE - NAMES) * (value - low) / (high - low)

    top = foot + row * len(found.bands)
    for n, band in enumerate(found.bands):
        for shape in _bar(band, across, top - row * (n + 1) + 4, low, high, found.unit):
            drawing.add(shape)
    if found.value is not None:
        x = across(found.value)
        drawing.add(Line(x, foot, x, top + 2, strokeColor=INK, strokeWidth=2))
        said = f"{found.name} {found.value:.3g} {found.unit}"
        if found.unit == TURNS:
            said = f"{found.name} {found.value:.0f}"
        half = width_of(said) * SIZE / 2
        at = min(max(x, EDGE + half), WIDTH - EDGE - half)
        drawing.add(words_at(said, at, top + 6, "middle"))
    for shape in _axis(across, low, high, foot, found.unit):
        drawing.add(shape)
    _legend(drawing, words)
    return drawing


def _bar(
    band: UsualBand, across: Callable[[float], float], y: float, low: float, high: float, unit: str
) -> Iterator[Shape]:
    left, right = across(max(band.low, low)), across(min(band.high, high))
    yield words_at(band.name, EDGE, y + 3)
    fill = PALE if band.own else PAPER
    yield Rect(left, y, right - left, BAR, fillColor=fill, strokeColor=INK, strokeWidth=0.8)
    x = left + 3
    while band.own and x < right:
        yield Line(x, y, x, y + BAR, strokeColor=GREY, strokeWidth=0.6)
        x += 4
    if band.value is not None:
        x = across(band.value)
        yield Line(x, y - 3, x, y + BAR + 3, strokeColor=INK, strokeWidth=2.4)
        said = f"{band.value:.3g} {unit}"
        ends = x + 4 + width_of(said) * SIZE > WIDTH - EDGE
        yield _on_paper(said, x - 4 if ends else x + 4, y + 3, "end" if ends else "start")


def _on_paper(words: str, x: float, y: float, anchor: str) -> Group:
    wide = width_of(words) * SIZE
    left = x - wide if anchor == "end" else x
    under = Rect(left - 1, y - 3, wide + 2, SIZE + 2, fillColor=PAPER, strokeColor=None)
    return Group(under, words_at(words, x, y, anchor))


def _axis(
    across: Callable[[float], float], low: float, high: float, y: float, unit: str
) -> Iterator[Shape]:
    yield Line(NAMES, y, WIDTH - EDGE, y, strokeColor=INK, strokeWidth=0.5)
    steps = (0.005, 0.01, 0.02, *TICKS)
    step = next(one for one in steps if (high - low) / one <= MOST_STEPS)
    yield words_at(unit, EDGE, y - SIZE - 1)
    for n in range(math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9) + 1):
        x, words = across(n * step), f"{round(n * step, 3):g}"
        yield Line(x, y, x, y - 3, strokeColor=INK, strokeWidth=0.5)
        half = width_of(words) * SIZE / 2
        if x + half <= WIDTH:
            yield words_at(words, x, y - SIZE - 3, "middle")


def _shot_in_order(found: ShotInOrder) -> Drawing:
    """The line hanging with its shot, larger than life against one another as they are; what is of the
    bulk touches, and each group says what it is."""
    shot = found.shot[:MOST_SHOT]
    heights = [2 * LARGER * shot_radius(one.mass_g) for one in shot]
    groups = [
        (part, list(those)) for part, those in groupby(range(len(shot)), lambda n: shot[n].part)
    ]
    tall = sum(max(sum(heights[n] for n in those), LINE) + GAP for _, those in groups)
    drawing = Drawing(WIDTH, tall + 2 * GAP)
    x, y = 52.0, tall + 2 * GAP
    drawing.add(Line(x, 0, x, y, strokeColor=INK, strokeWidth=0.8))
    y -= GAP
    for part, those in groups:
        height = max(sum(heights[n] for n in those), LINE)
        at = y - (height - sum(heights[n] for n in those)) / 2
        for n in those:
            radius = heights[n] / 2
            drawing.add(_weight(shot[n].kind, x, at - radius, radius))
            at -= heights[n]
        bracket = x + 22
        for a, b in (((bracket, y), (bracket, y - height)), ((bracket, y), (bracket - 5, y)),
                     ((bracket, y - height), (bracket - 5, y - height))):  # fmt: skip
            drawing.add(
                Line(*a, *b, strokeColor=INK, strokeWidth=2 if part is ShotPart.TRIMS else 0.8)
            )
        said = f"{_counted([shot[n].mark for n in those])}: {part}"
        drawing.add(
            words_at(_cut(said, WIDTH - EDGE - bracket - 6), bracket + 6, y - height / 2 - 4)
        )
        y -= height + GAP
    return drawing


def _weight(kind: str, x: float, y: float, radius: float) -> Shape:
    if kind == "olivette":
        return Rect(x - radius * 0.6, y - radius, radius * 1.2, 2 * radius, rx=radius * 0.6,
                    ry=radius * 0.6, fillColor=INK, strokeColor=PAPER, strokeWidth=0.6)  # fmt: skip
    return Circle(x, y, radius, fillColor=INK, strokeColor=PAPER, strokeWidth=0.6)


def _counted(marks: Sequence[str]) -> str:
    runs = [(mark, len(list(those))) for mark, those in groupby(marks)]
    return " + ".join(mark if n == 1 else f"{n} {mark}" for mark, n in runs)


def _way_past(way: WayPast) -> Drawing:
    """Each thing that is met, from the weight up to the rod, in the bore that is to pass it: to scale
    where both widths are known, else as its sign."""
    rows = [(one, folded(_said(one), WIDTH - EDGE - 68)) for one in way.met]
    heights = [max(RING + 6, LINE * len(words)) + 6 for _, words in rows]
    legend = "Nearest first. " + (
        f"Ring: the bore of the {way.bore}, {way.bore_mm:.3g} mm."
        if way.bore_mm
        else f"Nobody measured the bore of the {way.bore}."
    )
    foot = folded(legend)
    drawing = Drawing(WIDTH, sum(heights) + LINE * len(foot) + 6)
    top = drawing.height
    for (one, words), height in zip(rows, heights, strict=True):
        middle = top - height / 2
        for shape in _in_the_bore(way, one, 34.0, middle):
            drawing.add(shape)
        for n, line in enumerate(words):
            y = middle + LINE * len(words) / 2 - LINE * (n + 1) + 4
            drawing.add(words_at(line, 68, y))
        top -= height
    _legend(drawing, foot)
    return drawing


def _said(one: OnTheWay) -> str:
    wide = "" if one.width_mm is None else f", {one.width_mm:.2g} mm wide"
    if one.meets == Meets.KNOT and one.width_mm is not None:
        wide = f", about {one.width_mm:.2g} mm wide"
    sign = SIGNS[Passes(one.passes)]
    return f"{sign} {one.name}{wide}: {one.passes}"


def _in_the_bore(way: WayPast, one: OnTheWay, x: float, y: float) -> Iterator[Shape]:
    if way.bore_mm and one.width_mm:
        scale = RING / max(way.bore_mm, one.width_mm)
        ring, thick = scale * way.bore_mm / 2, scale * one.width_mm / 2
        if thick <= ring:
            yield Circle(x, y, ring, fillColor=PAPER, strokeColor=INK, strokeWidth=2)
            yield _disk(x, y, max(thick, 0.8), GREY)
        else:
            yield _disk(x, y, thick, PALE)
            yield Circle(x, y, ring, fillColor=None, strokeColor=INK, strokeWidth=2)
        return
    if way.bore_mm:
        yield Circle(x, y, RING / 2, fillColor=PAPER, strokeColor=INK, strokeWidth=2)
    signs = {Meets.KNOT: "knot", Meets.SWIVEL: "swivel", Meets.SHOT: "shot", Meets.RUBBER: "stop"}
    what = signs.get(Meets(one.meets))
    group = Group(Line(-9, 0, 9, 0, strokeColor=INK, strokeWidth=0.6))
    for shape in shapes_of(Mark(what, one.name, one.name, 0.0, 0.2), 0.0) if what else ():
        group.add(shape)
    group.transform = (2.4, 0, 0, 2.4, x, y)
    yield group


def _shank_end(found: ShankEnd) -> Drawing:
    """The hook with the end of its shank, and what is to be tied there."""
    words = folded(
        f"Size {found.size}, {'an eye' if found.end == 'eyed' else 'a spade'} at the end of its shank; "
        f"the {found.knot} is tied there.",
        WIDTH - 2 * EDGE,
    )
    foot = LINE * len(words) + 8
    tall = 76.0
    drawing = Drawing(WIDTH, foot + tall)
    hook = Group(*shapes_of(Mark("hook", "14", "hook", 0.0), 0.0))
    end = -7 * 1.04
    if found.end == "eyed":
        hook.add(Rect(end - 0.4, -1.2, 0.8, 2.4, fillColor=PAPER, strokeColor=None))
        hook.add(Circle(end - 1.2, 0, 1.2, fillColor=PAPER, strokeColor=INK, strokeWidth=0.7))
    else:
        hook.add(Rect(end - 0.5, -1.3, 1.0, 2.6, fillColor=INK, strokeColor=INK, strokeWidth=0.2))
    hook.add(Line(end - 12, 0, end - (2.4 if found.end == "eyed" else 0.5), 0,
                  strokeColor=INK, strokeWidth=0.3))  # fmt: skip
    hook.transform = (9, 0, 0, 9, 0.72 * WIDTH, foot + 16)
    drawing.add(hook)
    _legend(drawing, words)
    return drawing


def _held_between(found: HeldBetween) -> Drawing:
    """The float on its line, with shot or a stop on each side of it, or a gap where there is none."""
    words = folded("Rod left, hook right; dashed: nothing holds it there.", WIDTH - 2 * EDGE)
    foot = LINE * len(words) + 8
    drawing = Drawing(WIDTH, foot + 62)
    y, middle = foot + 34, WIDTH / 2
    drawing.add(Line(EDGE, y, WIDTH - EDGE, y, strokeColor=INK, strokeWidth=1))
    group = Group(*shapes_of(Mark("float", "waggler", found.name, 0.0, held="two points"), 0.0))
    group.transform = (LARGER, 0, 0, LARGER, middle, y)
    drawing.add(group)
    for there, x, word in (
        (found.above, middle - 52, "above"),
        (found.below, middle + 52, "below"),
    ):
        if there:
            drawing.add(Circle(x, y, 8, fillColor=INK, strokeColor=PAPER, strokeWidth=1))
        else:
            drawing.add(Circle(x, y, 8, fillColor=PAPER, strokeColor=INK, strokeWidth=1.2,
                               strokeDashArray=(3, 3)))  # fmt: skip
        said = f"{word}: {'held' if there else 'nothing'}"
        half = width_of(said) * SIZE / 2
        at = min(max(x, EDGE + half), WIDTH - EDGE - half)
        drawing.add(words_at(said, at, foot + 2, "middle"))
    _legend(drawing, words)
    return drawing


def _disk(x: float, y: float, radius: float, fill: object) -> Circle:
    return Circle(x, y, radius, fillColor=fill, strokeColor=INK, strokeWidth=1.2)


def _legend(drawing: Drawing, words: Sequence[str]) -> None:
    for n, line in enumerate(words):
        drawing.add(words_at(line, EDGE, LINE * (len(words) - 1 - n) + 4))


def _cut(text: str, room: float) -> str:
    if width_of(text) * SIZE <= room:
        return text
    while text and width_of(text + "…") * SIZE > room:
        text = text[:-1]
    return text.rstrip() + "…"
