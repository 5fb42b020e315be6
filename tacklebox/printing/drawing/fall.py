"""How a rig falls, drawn: the water in section and to scale, and under it the tip over time.

In the section the first pattern is black: the rig at still moments, and the bait's track, with a tight
line drawn through and with a slack one dashed. Other patterns are grey, each with its words beside it. All
lengths here in points; depths are below the float's own end, as a rig is measured.
"""

from collections.abc import Callable, Iterator, Sequence

from reportlab.graphics.shapes import Circle, Drawing, Group, Line, Polygon, PolyLine, String
from reportlab.lib.colors import Color, HexColor

from tacklebox.printing.drawing.rig import as_svg
from tacklebox.printing.drawing.shapes import INK, PAPER, THIN, shot_radius
from tacklebox.printing.fonts import REGULAR, printable, register, width_of
from tacklebox.rigs.tying.snapshot import KeptFall
from tacklebox.trade.settling.bite import Bite
from tacklebox.trade.settling.fall import Fall
from tacklebox.trade.settling.outcome import UNPROVEN, Settling
from tacklebox.trade.settling.rig import Weights
from tacklebox.trade.units_first import depth_marks, show_nearly

WIDTH, MOST_SECTION, TIP_HEIGHT = 380.0, 400.0, 110.0
SIZE = 8.0
AXIS, EDGE, HEAD = 34.0, 24.0, 14.0
FOOT = 13.0
SHARES = (0.25, 0.5, 0.75)  # of its depth: where the bait is on the still pictures
LEAST_APART = 1.0
MOST_MARKS = 6  # of seconds on a small section
GREY, BAND_GREY = HexColor(0x777777), HexColor(0xD0D0D0)
DASHED, DOTTED = (4, 2), (1, 2)
GRIDS_S = (1, 2, 5, 10, 20, 30, 60, 120, 300)
GRIDS_MM = (1, 2, 5, 10, 20, 50, 100, 200)
At = Callable[[float, float], tuple[float, float]]


def still_moments(fall: Fall) -> tuple[float, ...]:
    """When the rig is shown: as it is cast, as the bait is a quarter, half and three quarters down,
    and at the end."""
    down = fall.rig.down_mm
    found = [fall.reaches_s(share * down) for share in SHARES]
    return (0.0, *(time for time in found if time is not None), fall.seconds)


def fall_svg(patterns: Sequence[Settling], words: Sequence[str], bite: Bite | None = None) -> str:
    """The section and the tip over time as an SVG document; ``words`` name each pattern."""
    return as_svg(draw_fall(patterns, words, bite))


def draw_fall(
    patterns: Sequence[Settling], words: Sequence[str], bite: Bite | None = None
) -> Drawing:
    """The section, under it the tip over time where there is a float, and that it is unproven."""
    register()
    section = draw_section(patterns, words)
    tip = draw_tip(patterns, words, bite) if patterns[0].tip_mm else None
    under = FOOT + (tip.height if tip else 0.0)
    drawing = Drawing(WIDTH, section.height + under)
    _put(drawing, section, under)
    if tip:
        _put(drawing, tip, FOOT)
    drawing.add(_text(f"{UNPROVEN[0].upper()}{UNPROVEN[1:]}.", AXIS, 3.0))
    return drawing


def _put(drawing: Drawing, part: Drawing, y: float) -> None:
    group = Group(*part.contents)
    group.translate(0, y)
    drawing.add(group)


class _Section:
    """Where a place in the water is on the paper: one scale along and down."""

    def __init__(self, falls: Sequence[Fall], width: float, most: float) -> None:
        xs = [x for fall in falls for row in fall.track.x for x in (row[0], row[-1])]
        self.left_m, right_m = min(0.0, *xs), max(xs)
        self.deep_m = max(_deep_m(fall) for fall in falls)
        across_m = max(right_m - self.left_m, 0.1)
        self.scale = min((width - AXIS - EDGE) / across_m, (most - HEAD - EDGE) / self.deep_m)
        self.height = HEAD + EDGE + self.scale * self.deep_m
        self.right = AXIS + self.scale * across_m

    def at(self, x_m: float, z_m: float) -> tuple[float, float]:
        z_m = min(self.deep_m, max(0.0, z_m))
        return AXIS + self.scale * (x_m - self.left_m), self.height - HEAD - self.scale * z_m


def _deep_m(fall: Fall) -> float:
    """How deep the water is, or as deep as the rig reaches where the bed is far."""
    return (fall.rig.depth_mm if fall.bed_m is not None else fall.rig.length_mm) / 1000


def draw_section(
    patterns: Sequence[Settling],
    words: Sequence[str],
    width: float = WIDTH,
    most: float = MOST_SECTION,
) -> Drawing:
    """The water in section, to scale: still moments of the first pattern, the track of each bait."""
    register()
    falls = [fall for one in patterns for fall in (one.tight, one.slack) if fall]
    to = _Section(falls, width, most)
    drawing = Drawing(width, to.height)
    for shape in _water(to, patterns[0].tight, width):
        drawing.add(shape)
    for one, said in list(zip(patterns, words, strict=True))[:0:-1]:
        for shape in _ghost(to, one, said, width):
            drawing.add(shape)
    for time in still_moments(patterns[0].tight):
        for shape in _still(to, patterns[0].tight, time):
            drawing.add(shape)
    for shape in _tracks(to, patterns[0], INK):
        drawing.add(shape)
    return drawing


def _water(to: _Section, fall: Fall, width: float) -> Iterator[Line | String]:
    """The surface, the depths along the left, the bed where there is one near."""
    y = to.at(0, 0)[1]
    yield Line(AXIS, y, width - EDGE, y, strokeColor=INK, strokeWidth=THIN)
    for deep_mm, words in depth_marks(1000 * to.deep_m):
        y = to.at(0, deep_mm / 1000)[1]
        yield Line(AXIS - 3, y, AXIS, y, strokeColor=INK, strokeWidth=THIN)
        yield _text(words, AXIS - 5, y - SIZE / 3, "end")
    if fall.bed_m is None:
        return
    y = to.at(0, to.deep_m)[1]
    yield Line(AXIS, y, width - EDGE, y, strokeColor=INK, strokeWidth=1.2)
    for n in range(int((width - EDGE - AXIS) / 6)):
        x = AXIS + 6 * n
        yield Line(x + 4, y, x, y - 4, strokeColor=INK, strokeWidth=THIN / 2)


def _still(to: _Section, fall: Fall, time: float) -> Iterator[Line | PolyLine | Circle | String]:
    """The rig at one moment: line, shot, float's tip above the water, and the second beside the bait."""
    top = fall.place(time, 0)[1]
    places = [(x, z - top) for x, z in fall.all_places(time)]
    ends = time in (0, fall.seconds)
    yield _poly([to.at(*place) for place in places], INK, 0.7 if ends else 0.45)
    if fall.rig.float_ is not None:
        x, y = to.at(places[0][0], 0.0)
        yield Line(x, y, x, y + 7, strokeColor=INK, strokeWidth=1.6)
    for at in _down_the_line(fall):
        x, y = to.at(*places[fall.point_at(at.above_hook_mm)])
        radius = max(1.2, shot_radius(at.mass_g))
        yield Circle(x, y, radius, fillColor=INK, strokeColor=PAPER, strokeWidth=0.3)
    x, y = to.at(*places[-1])
    yield Circle(x, y, 1.6, fillColor=PAPER, strokeColor=INK, strokeWidth=0.8)
    if time == 0:
        yield _text("as cast", x, y + 4, "end")
    else:
        bed = to.at(0, to.deep_m)[1] if fall.bed_m is not None else None
        yield _text(f"{time:.0f} s", x + 4, _clear_of(bed, y, 5.0))


def _down_the_line(fall: Fall) -> list[Weights]:
    return [at for at in fall.rig.shot if at.above_hook_mm < fall.rig.length_mm]


def _tracks(to: _Section, one: Settling, colour: Color) -> Iterator[PolyLine]:
    yield _track(to, one.tight, colour, None)
    if one.slack:
        yield _track(to, one.slack, colour, DASHED)


def _track(to: _Section, fall: Fall, colour: Color, dash: tuple[int, int] | None) -> PolyLine:
    rows = zip(fall.track.x, fall.track.z, strict=True)
    return _poly(_thinned([to.at(x[-1], z[-1] - z[0]) for x, z in rows]), colour, 1.0, dash)


def _ghost(to: _Section, one: Settling, said: str, width: float) -> Iterator[PolyLine | String]:
    """Another pattern: its bait's track in grey, and its words where the bait is halfway down."""
    yield from _tracks(to, one, GREY)
    half = one.half_s.tight
    if half is not None:
        x, z = one.tight.place(half)
        x, y = to.at(x, z - one.tight.place(half, 0)[1])
        text = printable(said)[0]
        room = x + 4 + width_of(text) * SIZE < width
        yield _text(text, x + 4 if room else x - 4, y + 10, "start" if room else "end", GREY)


def draw_tip(
    patterns: Sequence[Settling], words: Sequence[str], bite: Bite | None = None
) -> Drawing:
    """What the tip shows over time: a band from tight to slack, a bite's curve, where it settles."""
    drawing = Drawing(WIDTH, TIP_HEIGHT)
    shown = [one for one in patterns if one.tip_mm]
    seconds = max(len(one.tip_mm) for one in shown) - 1
    values = [v for one in shown for band in one.tip_mm for v in (band.tight, band.slack)]
    known = [v for v in values if v is not None] + [
        at.shows_mm for at in (bite.tip if bite else ())
    ]
    low, high = min(0.0, *known), max(5.0, *known)
    bottom, top = 2 * SIZE, TIP_HEIGHT - 1.8 * SIZE

    def at(second: float, mm: float) -> tuple[float, float]:
        across = (WIDTH - EDGE - AXIS) / max(1, seconds)
        return AXIS + across * second, bottom + (top - bottom) * (mm - low) / (high - low)

    for shape in _axes(at, seconds, low, high):
        drawing.add(shape)
    for number, (one, said) in reversed(list(enumerate(zip(patterns, words, strict=True)))):
        if one.tip_mm:
            for shape in _band(at, one, said if len(patterns) > 1 else "", first=number == 0):
                drawing.add(shape)
    if bite:
        points = [at(t.seconds, t.shows_mm) for t in bite.tip if t.seconds <= seconds]
        if len(points) > 1:
            drawing.add(_poly(points, INK, 1.0, DOTTED))
            drawing.add(_text("bite", points[-1][0], points[-1][1] + 3, "end"))
    return drawing


def _axes(at: At, seconds: int, low: float, high: float) -> Iterator[Line | String]:
    left, y = at(0, low)
    right, top = at(seconds, high)
    yield Line(left, y, right, y, strokeColor=INK, strokeWidth=THIN)
    yield Line(left, y, left, top, strokeColor=INK, strokeWidth=THIN)
    yield _text(
        "tip that shows, mm; the band is from a tight line to a slack one", left + 3, top + 4
    )
    step = next((grid for grid in GRIDS_S if seconds / grid <= 8), seconds)
    for second in range(0, seconds + 1, step):
        yield _text(f"{second} s", at(second, low)[0], y - SIZE - 2, "middle")
    tall = next((grid for grid in GRIDS_MM if (high - low) / grid <= 4), high - low)
    for n in range(int(low / tall), int(high / tall) + 1):
        yield _text(f"{n * tall:g}", left - 4, at(0, n * tall)[1] - SIZE / 3, "end")


def _band(
    at: At, one: Settling, said: str, *, first: bool
) -> Iterator[Line | PolyLine | Polygon | String]:
    ink = INK if first else GREY
    tight = [at(n, b.tight) for n, b in enumerate(one.tip_mm) if b.tight is not None]
    slack = [at(n, b.slack) for n, b in enumerate(one.tip_mm) if b.slack is not None]
    if first and slack:
        flat = [c for point in (*tight, *reversed(slack)) for c in point]
        yield Polygon(flat, fillColor=BAND_GREY, strokeColor=None)
    yield _poly(tight, ink, 0.9)
    if slack:
        yield _poly(slack, ink, 0.9, DASHED)
    if one.settled_by_s is not None:
        x, low = at(one.settled_by_s, 0.0)
        yield Line(
            x, low, x, at(0, one.tip_mm[0].tight or 0.0)[1], strokeColor=ink, strokeWidth=0.8
        )
        words = f"settled by {one.settled_by_s} s" + (f", {said}" if said else "")
        y = at(0, one.tip_mm[0].tight or 0.0)[1] - SIZE * (1.0 if first else 2.2)
        room = x + 3 + width_of(words) * SIZE < WIDTH
        yield _text(
            printable(words)[0], x + 3 if room else x - 3, y, "start" if room else "end", ink
        )


def draw_kept(kept: KeptFall, width: float, most: float) -> Drawing:
    """The small section of a tie sheet: the rig as it ends, and the bait's tracks with their seconds.

    Raises ValueError where no fall was computed.
    """
    if not kept.tight:
        raise ValueError(kept.says)
    register()
    xs = [x for _, x, _ in (*kept.tight, *kept.slack)] + [x for x, _, _ in kept.rig]
    left, across = min(xs), max(max(xs) - min(xs), 1)
    scale = min((width - AXIS - EDGE) / across, (most - 2 * SIZE) / kept.deep_mm)
    drawing = Drawing(width, scale * kept.deep_mm + 2 * SIZE)

    def at(x_mm: float, deep_mm: float) -> tuple[float, float]:
        deep_mm = min(kept.deep_mm, max(0.0, deep_mm))
        return AXIS + scale * (x_mm - left), SIZE + scale * (kept.deep_mm - deep_mm)

    for shape in (*_small_water(kept, at, AXIS + scale * across), *_rig_as_it_ends(kept, at)):
        drawing.add(shape)
    drawing.add(_poly([at(x, deep) for _, x, deep in kept.tight], INK, 1.0))
    if kept.slack:
        drawing.add(_poly([at(x, deep) for _, x, deep in kept.slack], INK, 1.0, DASHED))
    for shape in _seconds_on(kept, at):
        drawing.add(shape)
    return drawing


def _small_water(kept: KeptFall, at: At, right: float) -> Iterator[Line | String]:
    x, top = at(min(x for x, _, _ in kept.rig), 0)
    bottom = at(0, kept.deep_mm)[1]
    for y, deep_mm in ((top, 0.0), (bottom, kept.deep_mm)):
        yield _text(show_nearly(deep_mm), AXIS - 3, y - SIZE / 3, "end")
    yield Line(AXIS, top, right, top, strokeColor=INK, strokeWidth=THIN)
    if kept.has_bed:
        yield Line(AXIS, bottom, right, bottom, strokeColor=INK, strokeWidth=1.2)
    yield Line(x, top, x, top + 7, strokeColor=INK, strokeWidth=1.6)


def _rig_as_it_ends(kept: KeptFall, at: At) -> Iterator[PolyLine | Circle]:
    yield _poly([at(x, deep) for x, deep, _ in kept.rig], GREY, 0.6)
    for x_mm, deep_mm, shot_g in kept.rig:
        if shot_g:
            x, y = at(x_mm, deep_mm)
            yield Circle(x, y, max(1.2, shot_radius(shot_g)), fillColor=INK, strokeColor=None)


def _seconds_on(kept: KeptFall, at: At) -> Iterator[Circle | String]:
    """When the bait is where on the track with a tight line, as far as there is room to say it."""
    last = (0.0, 0.0)
    bed = at(0, kept.deep_mm)[1] if kept.has_bed else None
    step = next((grid for grid in GRIDS_S if kept.tight[-1][0] / grid <= MOST_MARKS), GRIDS_S[-1])
    for n in range(1, int(kept.tight[-1][0] / step) + 1):
        _, x_mm, deep_mm = min(kept.tight, key=lambda row: abs(row[0] - n * step))
        x, y = at(x_mm, deep_mm)
        if abs(x - last[0]) + abs(y - last[1]) < 1.2 * SIZE:
            continue
        last = x, y
        yield Circle(x, y, 1.4, fillColor=PAPER, strokeColor=INK, strokeWidth=0.8)
        yield _text(f"{n * step} s", x + 4, _clear_of(bed, y))


def _clear_of(bed: float | None, y: float, below: float = 1.0) -> float:
    """The foot of the words beside a point; those of one on the bed stand under its line."""
    if bed is None or abs(y - bed) > SIZE / 2:
        return y - SIZE / 3
    return bed - below - 0.75 * SIZE


def _thinned(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Points that lie so near to the one before that nobody sees it are left out."""
    kept = points[:1]
    for point in points[1:-1]:
        if abs(point[0] - kept[-1][0]) + abs(point[1] - kept[-1][1]) >= LEAST_APART:
            kept.append(point)
    return [*kept, points[-1]]


def _poly(
    points: Sequence[tuple[float, float]],
    colour: Color,
    width: float,
    dash: tuple[int, int] | None = None,
) -> PolyLine:
    flat = [round(c, 2) for point in points for c in point]
    return PolyLine(flat, strokeColor=colour, strokeWidth=width, strokeDashArray=dash)


def _text(text: str, x: float, y: float, anchor: str = "start", colour: Color = INK) -> String:
    return String(x, y, text, fontName=REGULAR, fontSize=SIZE, fillColor=colour, textAnchor=anchor)
