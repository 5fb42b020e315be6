"""Setting words: runs of type broken into lines, and lines filled into columns.

Millimetres throughout; y counts upwards.
"""

import re
from collections import deque
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import chain, repeat

from tacklebox.printing.fonts import ABOVE, ELLIPSIS, LINE, SMALLEST_MM, X_HEIGHT, width_of
from tacklebox.printing.labels.wording import Field

# never broken: a figure and its unit, "4 No 8"
_BREAK = re.compile(r" (?<!No )(?!(?<=\d )(?:mm|cm|m|in|ft|yd|g|kg|oz|lb|ml|No)\b)")
_DAY = re.compile(r"\d+ [A-Z][a-z]{2} \d+;?")
MOST_NAME = 200  # letters of a name that could ever find room
SIZES_MM = (
    5.2,
    4.4,
    3.6,
    3.0,
    2.6,
    2.3,
    2.2,
    2.0,
    1.8,
    SMALLEST_MM,
)  # type sizes, the most readable first
Run = tuple[str, bool]  # words, and whether they are bold


@dataclass(frozen=True, slots=True)
class TextLine:
    """One line of text: left end and baseline, type size, and its runs."""

    x: float
    baseline: float
    size: float
    runs: tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A rectangle."""

    x: float
    y: float
    width: float
    height: float

    @property
    def top(self) -> float:
        """Its upper edge."""
        return self.y + self.height

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.x + self.width


@dataclass(frozen=True, slots=True)
class Column:
    """A column to fill from the top; below ``step`` it is only ``narrow`` wide."""

    box: Rectangle
    step: float = -1.0
    narrow: float = 0.0

    def width_at(self, bottom: float) -> float:
        """The room for a line whose lower edge is there."""
        return self.narrow if bottom < self.step else self.box.width


def measure(runs: Sequence[Run]) -> float:
    """The width of runs as a multiple of the type size."""
    return sum(width_of(text, bold) for text, bold in runs)


def break_words(runs: Sequence[Run], size: float, widths: Iterator[float]) -> list[list[Run]]:
    """Runs broken into lines of at most these widths.

    A bold heading stays with the word after it. A word too long for a line is split.
    """
    lines: list[list[Run]] = []
    line: list[Run] = []
    used, room = 0.0, next(widths) / size
    units = deque(_measured_units(tuple(runs)))
    while units:
        unit, wide = units.popleft()
        gap = width_of(" ", unit[0][1]) if line else 0.0
        if used + gap + wide <= room:
            text, bold = unit[0]
            line.append((f" {text}" if line else text, bold))
            line.extend(unit[1:])
            used += gap + wide
            continue
        if not line and len(unit) > 1:
            words = [((text.strip(), bold),) for text, bold in reversed(unit)]
            units.extendleft((word, measure(word)) for word in words)
            continue
        if not line:
            text, bold = unit[0]
            fitting = _fitting(text, bold, room)
            line.append((text[:fitting], bold))
            unit = ((text[fitting:], bold),)
        lines.append(line)
        line, used, room = [], 0.0, next(widths) / size
        if unit[0][0]:
            units.appendleft((unit, measure(unit)))
    if line:
        lines.append(line)
    return lines


@lru_cache(maxsize=512)  # they are tried in one size after the other
def _measured_units(runs: tuple[Run, ...]) -> tuple[tuple[tuple[Run, ...], float], ...]:
    """The units of runs, each with its width as a multiple of the type size."""
    return tuple((unit, measure(unit)) for unit in _units(runs))


@lru_cache(maxsize=512)
def _words_width(runs: tuple[Run, ...]) -> float:
    """The width of all words without what is between them, as a multiple of the type size."""
    return sum(width_of(text.strip(), bold) for unit in _units(runs) for text, bold in unit)


def _units(runs: Sequence[Run]) -> Iterator[tuple[Run, ...]]:
    """What must not be broken: single words, figures with their unit, a heading with its first."""
    heading: tuple[Run, ...] = ()
    for text, bold in runs:
        for word in [text] if _DAY.fullmatch(text) else _BREAK.split(text):
            if bold:
                heading = (*heading, (f" {word}" if heading else word, True))
            else:
                yield (*heading, (f" {word}", False)) if heading else ((word, False),)
                heading = ()
    if heading:
        yield heading


def _fitting(word: str, bold: bool, room: float) -> int:
    """How many letters of a word fit, at least one."""
    wide, count = 0.0, 0
    for letter in word:
        wide += width_of(letter, bold)
        if wide > room:
            break
        count += 1
    return max(count, 1)


class _NoRoomError(Exception):
    """The frames are full."""


class _Filler:
    """Fills frames with lines, one after the other."""

    def __init__(self, frames: Sequence[Column], size: float) -> None:
        self.size = size
        self.slots = [slot for frame in frames for slot in self._slots(frame)]
        self.lines: list[TextLine] = []
        self.used = 0

    def _slots(self, frame: Column) -> list[tuple[float, float, float, int]]:
        """Left end, lower edge and width of each line, and how many lines its frame has left."""
        height = self.size * LINE
        count = int((frame.box.height + 1e-9) / height)
        bottoms = [frame.box.top - (n + 1) * height for n in range(count)]
        return [
            (frame.box.x, bottom, frame.width_at(bottom), count - n)
            for n, bottom in enumerate(bottoms)
        ]

    def may_hold(self, groups: Sequence[Sequence[Run]]) -> bool:
        """Whether the lines are as wide as all words together: else there is no way to lay them."""
        wide = sum(_words_width(tuple(runs)) for runs in groups)
        return wide * self.size <= sum(width for _, _, width, _ in self.slots) + 1e-6

    def put(self, runs: Sequence[Run], *, in_one: bool = False) -> None:
        """Lay runs from the next free line on; ``in_one``: in one frame. Raises _NoRoomError."""
        broken = self._broken(runs)
        left_here = self.slots[self.used][3]
        if in_one and len(broken) > left_here:
            self.used += left_here
            broken = self._broken(runs)
            if len(broken) > self.slots[self.used][3]:
                raise _NoRoomError
        for words in broken:
            x, bottom, _, _ = self.slots[self.used]
            baseline = bottom + (LINE - ABOVE) * self.size
            self.lines.append(TextLine(x, baseline, self.size, _merged(words)))
            self.used += 1

    def _broken(self, runs: Sequence[Run]) -> list[list[Run]]:
        rest = [width for _, _, width, _ in self.slots[self.used :]]
        if not rest:
            raise _NoRoomError
        broken = break_words(runs, self.size, chain(rest, repeat(1e9)))
        if len(broken) > len(rest):
            raise _NoRoomError
        return broken


def _merged(words: Sequence[Run]) -> tuple[Run, ...]:
    """Neighbouring runs of one weight as one run."""
    merged: list[Run] = []
    for text, bold in words:
        if merged and merged[-1][1] == bold:
            merged[-1] = (merged[-1][0] + text, bold)
        else:
            merged.append((text, bold))
    return tuple(merged)


def _said(field: Field, words: str) -> list[Run]:
    said: Run = (words, False)
    return [(field.heading, True), said] if field.heading else [said]


# Regulation (EU) No 1169/2011, article 13 (2) and annex IV: x-height on all but the smallest packs
EASY_X_HEIGHT_MM = 1.2
# Type of that x-height comes before a line for each field
_WAYS: tuple[tuple[float, str], ...] = (
    (5.2, "full"), (4.4, "full"), (3.6, "full"), (3.0, "full"), (2.6, "full"), (3.0, "short"),
    (2.3, "full"), (2.6, "short"), (2.3, "short"), (2.6, "run on"), (2.3, "run on"),
    (2.2, "short"), (2.2, "run on"), (2.2, "least"),
    (2.0, "full"), (2.0, "short"), (2.0, "run on"), (1.8, "short"), (1.8, "run on"),
    (SMALLEST_MM, "short"), (SMALLEST_MM, "run on"), (SMALLEST_MM, "least"),
)  # fmt: skip


def _groups(fields: Sequence[Field], wording: str) -> list[list[Run]]:
    """The runs of fields, each group of them from a new line on."""
    match wording:
        case "full":
            return [_said(f, f.full) for f in fields]
        case "short":
            return [_said(f, f.short) for f in fields]
        case "run on":
            return [_run_on([_said(f, f.short) for f in fields])]
        case _:
            bare = [replace(f, heading=f.least_heading) for f in fields]
            return [_run_on([_said(f, f.least) for f in bare])]


def _run_on(said: Sequence[list[Run]]) -> list[Run]:
    """Fields one after the other: a bold heading sets the next one apart, else a sign does."""
    runs: list[Run] = []
    for words in said:
        if runs and not words[0][1]:
            before, bold = runs.pop()
            runs.append((f"{before};", bold))
        runs += words
    return runs


@lru_cache(maxsize=4096)
def fill_fields(
    fields: tuple[Field, ...], choices: tuple[tuple[Column, ...], ...], largest: float
) -> tuple[tuple[TextLine, ...], int]:
    """Fields laid into one of several choices of frames, and how many of them found room.

    The type is no larger than ``largest``.

    Large and in full where there is room, else smaller, in short, run together; then the
    least important is left off. Fields that are only for where there is room come last; they
    never make the others smaller than the published rule for larger packs asks, nor shorter still.
    """
    needed = sum(not f.only_with_room for f in fields)
    for count in range(len(fields), 0, -1):
        for way in _WAYS:
            if way[0] > largest or (count > needed and way[0] * X_HEIGHT < EASY_X_HEIGHT_MM):
                continue
            for frames in choices:
                lines = _laid(fields[:count], frames, way)
                if not lines:
                    continue
                if count == needed:  # what is left of the room
                    for more in range(len(fields), count, -1):
                        if with_more := _laid(fields[:more], frames, way):
                            return with_more, more
                return lines, count
    return (), 0


def _laid(
    fields: Sequence[Field], frames: tuple[Column, ...], way: tuple[float, str]
) -> tuple[TextLine, ...]:
    """All these fields in that size and wording, or nothing where they find no room."""
    size, wording = way
    filler = _Filler(frames, size)
    groups = _groups(fields, wording)
    if not filler.may_hold(groups):
        return ()
    try:
        for runs in groups:
            filler.put(runs, in_one=len(groups) > 1)
    except _NoRoomError:
        return ()
    return tuple(filler.lines)


@lru_cache(maxsize=4096)
def fill_name(
    name: str, frame: Column, most_lines: int, largest: float
) -> tuple[tuple[TextLine, ...], float, bool]:
    """The name in at most so many lines from a frame's top: lines, height, whether it is whole.

    A name that is too long even in the smallest type ends with "…".
    """
    box = frame.box
    if not name:
        return (), 0.0, True
    most_lines = max(1, min(most_lines, int((box.height + 1e-9) / (SMALLEST_MM * LINE))))
    for count in range(1, most_lines + 1):
        for size in SIZES_MM:
            if size > largest or count * size * LINE > box.height + 1e-9:
                continue
            room = Rectangle(box.x, box.top - count * size * LINE, box.width, count * size * LINE)
            filler = _Filler([Column(room, frame.step, frame.narrow)], size)
            try:
                filler.put([(name, False)])
            except _NoRoomError:
                continue
            return tuple(filler.lines), room.height, True
    size = SMALLEST_MM
    height = most_lines * size * LINE
    end = replace(frame, box=Rectangle(box.x, box.top - height, box.width, height))
    for letters in range(min(len(name), MOST_NAME) - 1, 0, -1):
        filler = _Filler((end,), size)
        try:
            filler.put([(name[:letters].rstrip() + ELLIPSIS, False)])
        except _NoRoomError:
            continue
        return tuple(filler.lines), height, False
    return (), 0.0, False
