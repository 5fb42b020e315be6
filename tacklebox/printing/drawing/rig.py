"""A rig drawn from its data, rod to hook: lying for a strip, hanging for a sheet; PDF or SVG.

Black on white. Distances are to one scale where the room allows. Where it does not, the
longest stretches are shortened and bear a break mark (see ``space_out``). Every place bears its
distance from the hook, so that nothing has to be measured on the paper. All lengths here in points.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, pairwise

from reportlab.graphics.shapes import Drawing, Group, Line, String

from tacklebox.printing.drawing.shapes import INK, THIN, above, below, extent, reach, shapes_of
from tacklebox.printing.fonts import REGULAR, SMALLEST_MM, printable, register, width_of
from tacklebox.printing.pdf import MM
from tacklebox.rigs.tying.snapshot import Mark, Snapshot
from tacklebox.trade.units_first import show_distance

SMALLEST = SMALLEST_MM * MM
BETWEEN = 2.0  # between neighbours at the least
MOST_WIDENED = 4.0
LIFE_SIZE = MM  # points to a millimetre: nothing is drawn larger than it is to fill room
USUAL_HEIGHT, USUAL_WIDTH = 17.6, 130.0  # larger drawings are enlarged
MOST_ENLARGED = 2.0
MOST_LARGER = 2.6  # times, for tackle beside the distances on a hanging rig
JOINS = ("loop", "knot", "connector")
MUCH_SMALLER = 0.6
TACKLE_SHARE = 0.6  # of the room that enlarged tackle may take up
EDGE = 1.5  # of a hanging rig's drawing: lines are as wide as they are
BESIDE = 5.0  # words, from what is drawn
MOST_LINES = 6  # for one thing on an upright drawing
ABOVE_LINE = 3.0  # words over shot, from the line
_BREAK = ((-2.6, -2.6, -0.6, 2.6), (0.6, -2.6, 2.6, 2.6))  # two slanting strokes
Turn = Callable[[float, float], tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Spot:
    """All that is at one distance from the hook.

    ``things`` have their places beside one another, from the spot's own; ``at`` is the
    spot's place in the drawing.
    """

    from_hook_mm: float
    things: tuple[tuple[Mark, float], ...]
    at: float = 0.0

    @property
    def before(self) -> float:
        """The room it needs towards the rod."""
        return max(reach(m)[0] - place for m, place in self.things)

    @property
    def after(self) -> float:
        """The room it needs towards the hook."""
        return max(reach(m)[1] + place for m, place in self.things)


@dataclass(frozen=True, slots=True)
class Spacing:
    """Spots in order from the rod, and after which of them the stretch is broken."""

    spots: tuple[Spot, ...]
    broken: frozenset[int]

    @property
    def to_scale(self) -> bool:
        """Whether nothing had to be shortened."""
        return not self.broken


def spots_of(snapshot: Snapshot) -> list[Spot]:
    """The things of a rig by their distance from the hook, from the rod on."""
    ordered = sorted(snapshot.marks, key=lambda m: -m.from_hook_mm)
    grouped = groupby(ordered, key=lambda m: round(m.from_hook_mm, 1))
    return [Spot(distance, _side_by_side(list(marks))) for distance, marks in grouped]


def _side_by_side(marks: list[Mark]) -> tuple[tuple[Mark, float], ...]:
    """Things at one distance beside one another along the line.

    A float is locked between its shot; what runs on the line is on the rod's side of what stops it, but
    a float that slides up to its stop.
    """
    shot = [m for m in marks if m.what == "shot" and m.words == "at the float"]
    rest = [m for m in marks if m not in shot]
    running = sorted(
        (m for m in rest if m.held in ("runs free", "in line") or m.side_mm), key=_from_rod
    )
    tied = [m for m in rest if m not in running]
    sliding = [m for m in tied if m.held == "slides"]
    if sliding:
        stops = [m for m in tied if m not in sliding]
        running, tied = [*stops, *running], sliding
    above = len(shot) // 2
    row = [*shot[:above], *running, *tied, *shot[above:]]
    width = sum(sum(extent(m)) for m in row)
    at, placed = -width / 2, []
    branch_at = 0.0
    for mark in row:
        at += extent(mark)[0]
        placed.append((mark, branch_at if mark.side_mm else at))
        if mark.what == "link swivel" and not mark.side_mm:
            branch_at = at
        at += extent(mark)[1]
    if marks[0].what == "hook":  # distances are measured from its bend
        return tuple((mark, place - placed[0][1]) for mark, place in placed)
    return tuple(placed)


def _from_rod(mark: Mark) -> int:
    """What is cast or its link first, then what hangs from it, then what keeps it off the knot."""
    if mark.what == "link swivel" or mark.held == "in line":
        return 0
    return 1 if mark.side_mm else 2


def space_out(
    spots: Sequence[Spot], room: float, needed: Sequence[float], life_size: float = LIFE_SIZE
) -> Spacing:
    """Places for the spots along so much room.

    ``needed`` is what the words at each spot take up along the line. One scale for all
    stretches; a short one is drawn up to 4 times as long where its ends need the room. Where
    that is not enough, the longest are cut to one length. Where not even the words find room,
    there is only room for the things themselves.
    """
    start = max(spots[0].before, needed[0] / 2)
    end = max(spots[-1].after, needed[-1] / 2)
    free = room - start - end
    things = [a.after + b.before + BETWEEN for a, b in pairwise(spots)]
    words = [(m + n) / 2 + BETWEEN for m, n in pairwise(needed)]
    least = [max(pair) for pair in zip(things, words, strict=True)]
    if sum(least) >= free:
        least = things
    apart = [a.from_hook_mm - b.from_hook_mm for a, b in pairwise(spots)]
    gaps, broken = _gaps(least, apart, free, life_size)
    places = [start]
    for gap in gaps:
        places.append(places[-1] + gap)
    placed = tuple(replace(s, at=at) for s, at in zip(spots, places, strict=True))
    return Spacing(placed, frozenset(i for i, cut in enumerate(broken) if cut))


def _gaps(
    least: Sequence[float], apart: Sequence[float], free: float, life_size: float
) -> tuple[list[float], list[bool]]:
    """How long each stretch is drawn, and whether it is shortened."""
    if not apart:
        return [], []
    if sum(least) >= free:  # more things than room: closer than they should be, all alike
        return [low * max(free, 0.0) / sum(least) for low in least], [False] * len(least)
    low, high = 0.0, free / sum(apart)
    for _ in range(40):
        scale = (low + high) / 2
        gaps = [max(scale * d, short) for d, short in zip(apart, least, strict=True)]
        low, high = (scale, high) if sum(gaps) < free else (low, scale)
    if all(gap <= MOST_WIDENED * scale * d for gap, d in zip(gaps, apart, strict=True)):
        return gaps, [False] * len(gaps)
    scale = max(short / d for d, short in zip(apart, least, strict=True)) / MOST_WIDENED
    scale = min(scale, life_size)

    def at_most(cap: float) -> list[float]:
        return [max(short, min(scale * d, cap)) for d, short in zip(apart, least, strict=True)]

    low, high = 0.0, free
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if sum(at_most(middle)) < free else (low, middle)
    gaps = at_most(low)
    return gaps, [gap < scale * d - 0.5 for gap, d in zip(gaps, apart, strict=True)]


def draw_across(snapshot: Snapshot, width: float, height: float) -> Drawing:
    """The rig lying, rod to the left, hook to the right, distances from the hook.

    Over shot stands what they are, where there is room for it.
    """
    register()
    drawing = Drawing(width, height)
    if not snapshot.marks:
        return drawing
    larger = max(1.0, min(height / USUAL_HEIGHT, width / USUAL_WIDTH, MOST_ENLARGED))
    lying = _lying(spots_of(snapshot), width / larger, height / larger)
    lying.scale(larger, larger)
    drawing.add(lying)
    return drawing


def _lying(spots: Sequence[Spot], width: float, height: float) -> Group:
    group = Group()
    figures = [show_distance(s.from_hook_mm)[0] for s in spots]
    wide = [width_of(text) * SMALLEST for text in figures]
    planned = space_out(spots, width, wide)
    axis = SMALLEST + 0.35 * (height - SMALLEST) + 0.6
    draw_planned(group, planned, lambda a, out: (a, axis + out), (1, 0, 0, 1), height - axis)
    end = 0.0
    for spot, text, across in zip(planned.spots, figures, wide, strict=True):
        branch = next((place for m, place in spot.things if m.side_mm), None)
        right = spot.at + across / 2
        if branch is not None:  # what hangs there needs the room below it
            right = spot.at + branch + 2
            if right - across < end:
                right = spot.at + spot.after + BETWEEN + across
        if text and right - across >= end:
            group.add(_text(text, right, 0.6, "end", SMALLEST))
            end = right + BETWEEN
        if branch is not None:
            end = max(end, spot.at + spot.after + BETWEEN)
    _, of = show_distance(0.0)
    for unit in (f"{of} from the hook", of):
        if width - width_of(unit) * SMALLEST > end:
            group.add(_text(unit, width, 0.6, "end", SMALLEST))
            break
    if axis + ABOVE_LINE + SMALLEST <= height:
        for text in _over_shot(planned.spots, width, axis + ABOVE_LINE):
            group.add(text)
    return group


def _over_shot(spots: Sequence[Spot], width: float, y: float) -> list[String]:
    """What the shot are, each over its place, from the hook on; nothing unless all have room."""
    texts: list[String] = []
    end = width
    for spot in reversed(spots):
        shot = [mark for mark, _ in spot.things if mark.what in ("shot", "olivette")]
        highest = max(above(mark) for mark, _ in spot.things)
        if shot:
            words = printable(" + ".join(_counted((mark.kind for mark in shot), " ")))[0]
            wide = width_of(words) * SMALLEST
            right = min(spot.at + wide / 2, end)
            if highest > ABOVE_LINE:  # beside the float, not on it
                right = spot.at + spot.after + BETWEEN + wide
            if right < spot.at or right > end or right - wide < 0:
                return []
            texts.append(_text(words, right, y, "end", SMALLEST))
            end = right - wide - BETWEEN
        if highest > ABOVE_LINE:
            end = min(end, spot.at - spot.before - BETWEEN)
    return texts


def _counted(words: Iterable[str], times: str = " × ") -> list[str]:
    """Equal words as one, with how many there are of them."""
    return [word if n == 1 else f"{n}{times}{word}" for word, n in Counter(words).items()]


def draw_upright(
    snapshot: Snapshot, width: float, height: float, size: float = SMALLEST * 1.5
) -> Drawing:
    """The rig hanging, rod at the top, each thing named beside its distance from the hook."""
    register()
    drawing = Drawing(width, height)
    spots = spots_of(snapshot)
    if not spots:
        return drawing
    leading = size * 1.2
    figures = [" ".join(said) if (said := show_distance(s.from_hook_mm))[0] else "" for s in spots]
    marks = [mark for spot in spots for mark, _ in spot.things]
    over, under = max(map(above, marks)), max(map(below, marks))
    wide = max(width_of(f) for f in figures) * size

    def laid_out(larger: float) -> tuple[float, float, list[list[str]], list[float]]:
        axis = wide + 3 + larger * under
        room = width - axis - BESIDE - larger * over
        words = [[part for line in _words(s) for part in _folded(line, size, room)] for s in spots]
        return axis, room, words, [leading * len(lines) for lines in words]

    larger, planned = as_large_as_it_can(
        spots, height - 2 * EDGE, lambda larger: laid_out(larger)[3]
    )
    axis, room, words, _ = laid_out(larger)
    _hang(drawing, planned, axis, height - EDGE, larger)
    for spot, lines, figure in zip(planned.spots, words, figures, strict=True):
        at = height - EDGE - larger * spot.at
        y = at + leading * len(lines) / 2 - leading * 0.8
        if figure:
            drawing.add(_text(figure, wide, at - size * 0.36, "end", size))
        for line in lines:
            drawing.add(_text(_cut(line, size, room), width - room, y, "start", size))
            y -= leading
    return drawing


def as_large_as_it_can(
    spots: Sequence[Spot], room: float, needed: Callable[[float], Sequence[float]]
) -> tuple[float, Spacing]:
    """How many times as large tackle is drawn on a hanging rig, and where it is then, in such lengths.

    As large as leaves all distances to one scale and the line its share of the room; where tackle would
    be much smaller for that, as large as leaves the line its share. ``needed`` is what words take up.
    """

    def planned(larger: float) -> Spacing:
        words = [length / larger for length in needed(larger)]
        return space_out(spots, room / larger, words, LIFE_SIZE / larger)

    taken = sum(spot.before + spot.after for spot in spots)
    most = max(1.0, min(MOST_LARGER, TACKLE_SHARE * room / max(taken, 0.1)))
    least = max(1.0, MUCH_SMALLER * most)
    tries = [most - 0.2 * n for n in range(int((most - least) / 0.2) + 1)]
    for larger in tries:
        if (plan := planned(larger)).to_scale:
            return larger, plan
    return most, planned(most)


def _hang(drawing: Drawing, planned: Spacing, axis: float, height: float, larger: float) -> None:
    """Draw the rig hanging at an axis, its tackle so many times as large."""
    group = Group()
    draw_planned(group, planned, lambda a, out: (out, -a), (0, -1, 1, 0), 20.0)
    group.transform = (larger, 0, 0, larger, axis, height)
    drawing.add(group)


def draw_glance(snapshot: Snapshot, width: float, height: float) -> Drawing:
    """The rig hanging without a word: known at a glance by its float, feeder, shot and hook.

    What joins its lines is left out, so that those are larger; not on a hooklength, which has no more.
    """
    drawing = Drawing(width, height)
    every = snapshot.marks
    known_by = tuple(m for n, m in enumerate(every) if n == 0 or m.what not in JOINS)
    spots = spots_of(
        snapshot if snapshot.kind == "hooklength" else replace(snapshot, marks=known_by)
    )
    if not spots:
        return drawing
    room = height - 2 * EDGE
    larger, planned = as_large_as_it_can(spots, room, lambda _: [0.0] * len(spots))
    _hang(drawing, planned, 0.46 * width, height - EDGE, larger)
    return drawing


def glance_svg(snapshot: Snapshot, width: float = 66.0, height: float = 140.0) -> str:
    """``draw_glance`` as an SVG document."""
    from reportlab.graphics import renderSVG

    return str(renderSVG.drawToString(draw_glance(snapshot, width, height)))


def as_svg(drawing: Drawing) -> str:
    """A drawing as an SVG document, its words in a face that browsers have."""
    from reportlab.graphics import renderSVG

    return str(renderSVG.drawToString(drawing)).replace(
        f"font-family: {REGULAR}", "font-family: 'DejaVu Sans Condensed', sans-serif"
    )


def drawing_svg(
    snapshot: Snapshot,
    width: float = 300.0,
    height: float = 420.0,
    size: float = SMALLEST * 1.5,
    *,
    upright: bool = True,
) -> str:
    """The drawing as an SVG document, ``width`` by ``height`` points; ``size`` is that of its words."""
    drawn = (
        draw_upright(snapshot, width, height, size)
        if upright
        else draw_across(snapshot, width, height)
    )
    return as_svg(drawn)


def _words(spot: Spot) -> list[str]:
    """What is there, equal things counted, in lines."""
    marks = [mark for mark, _ in spot.things]
    joined = sum(mark.what == "loop" for mark in marks) > 1
    said: list[str] = []
    for mark in marks:
        if mark.what == "shot":
            words = mark.kind
        elif mark.what == "olivette":
            words = f"{mark.what} {mark.kind}"
        elif mark.what == "loop" and joined:
            continue
        else:
            words = mark.kind if mark.what in ("loop", "knot") else mark.words
            words += f", {mark.held}" if mark.held in ("runs free", "in line", "slides") else ""
        said.append(words)
    lines = _counted(said)
    return [printable(line)[0] for line in (*lines, *(["loop to loop"] if joined else []))]


def _folded(text: str, size: float, room: float) -> list[str]:
    """The text in lines that have room, as far as single words do."""
    lines: list[str] = []
    for word in text.split():
        if lines and width_of(f"{lines[-1]} {word}") * size <= room:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines[:MOST_LINES]


def _cut(text: str, size: float, room: float) -> str:
    """The text, or as much of it as there is room for with "…"."""
    if width_of(text) * size <= room:
        return text
    while text and width_of(text + "…") * size > room:
        text = text[:-1]
    return text.rstrip() + "…"


def _text(text: str, x: float, y: float, anchor: str, size: float) -> String:
    return String(x, y, text, fontName=REGULAR, fontSize=size, fillColor=INK, textAnchor=anchor)


def draw_planned(
    drawing: Drawing | Group,
    planned: Spacing,
    turn: Turn,
    turned: tuple[float, float, float, float],
    beside: float,
) -> None:
    """The line with its breaks, and the things on it; ``beside`` is the room that they have there."""
    for index, (spot, following) in enumerate(pairwise(planned.spots)):
        middle = (spot.at + spot.after + following.at - following.before) / 2
        if index not in planned.broken:
            drawing.add(_stroke(turn, spot.at, 0, following.at, 0))
            continue
        drawing.add(_stroke(turn, spot.at, 0, middle - 1.6, 0))
        drawing.add(_stroke(turn, middle + 1.6, 0, following.at, 0))
        for a, out, b, to in _BREAK:
            drawing.add(_stroke(turn, middle + a, out, middle + b, to))
    for spot in planned.spots:
        group = Group()
        group.transform = (*turned, *turn(spot.at, 0))
        for mark, place in sorted(spot.things, key=lambda t: t[0].what == "shot"):
            for shape in shapes_of(mark, place, beside):
                group.add(shape)
        drawing.add(group)


def _stroke(turn: Turn, a: float, out: float, b: float, to: float) -> Line:
    return Line(*turn(a, out), *turn(b, to), strokeColor=INK, strokeWidth=THIN)
