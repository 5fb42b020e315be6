"""Setting words: runs of type broken into lines, and lines filled into columns.

Millimetres throughout; y counts upwards.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from tacklebox.printing.fonts import ABOVE, ELLIPSIS, LINE, SMALLEST_MM, width_of
from tacklebox.printing.wording import Field

# never broken: a figure and its unit, "4 No 8"
_BREAK = re.compile(r" (?<!No )(?!(?<=\d )(?:mm|cm|m|in|ft|g|kg|oz|lb|ml|No)\b)")
SIZES_MM = (2.6, 2.3, 2.0, 1.8, SMALLEST_MM)  # type sizes, the most readable first
Run = tuple[str, bool]  # words, and whether they are bold


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text: left end and baseline, type size, and its runs."""

    x: float
    baseline: float
    size: float
    runs: tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class Box:
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
class Frame:
    """A column to fill from the top; below ``step`` it is only ``narrow`` wide."""

    box: Box
    step: float = -1.0
    narrow: float = 0.0

    def width_at(self, bottom: float) -> float:
        """The room for a line whose lower edge is there."""
        return self.narrow if bottom < self.step else self.box.width


def measure(runs: Sequence[Run]) -> float:
    """The width of runs as a multiple of the type size."""
    return sum(width_of(text, bold) for text, bold in runs)


def break_words(runs: Sequence[Run], size: float, widths: Iterator[float]) -> list[list[Run]]:
    """Runs broken into lines of at most these widths; a word too long for a line is split."""
    lines: list[list[Run]] = []
    line: list[Run] = []
    used, room = 0.0, next(widths) / size
    for text, bold in runs:
        for word in _BREAK.split(text):
            piece = word
            while True:
                gap = width_of(" ", bold) if line else 0.0
                wide = width_of(piece, bold)
                if used + gap + wide <= room:
                    line.append((f" {piece}" if line else piece, bold))
                    used += gap + wide
                    break
                if not line:
                    fitting = _fitting(piece, bold, room)
                    line.append((piece[:fitting], bold))
                    piece = piece[fitting:]
                lines.append(line)
                line, used, room = [], 0.0, next(widths) / size
                if not piece:
                    break
    if line:
        lines.append(line)
    return lines


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

    def __init__(self, frames: Sequence[Frame], size: float) -> None:
        self.size = size
        self.slots = self._slots(frames)
        self.lines: list[Line] = []
        self.used = 0

    def _slots(self, frames: Sequence[Frame]) -> list[tuple[float, float, float]]:
        slots = []
        height = self.size * LINE
        for frame in frames:
            count = int((frame.box.height + 1e-9) / height)
            for n in range(count):
                bottom = frame.box.top - (n + 1) * height
                slots.append((frame.box.x, bottom, frame.width_at(bottom)))
        return slots

    def put(self, runs: Sequence[Run]) -> None:
        """Lay runs from the next free line on. Raises _NoRoomError."""
        rest = [width for _, _, width in self.slots[self.used :]]
        if not rest:
            raise _NoRoomError
        broken = break_words(runs, self.size, iter([*rest, *[1e9] * 2]))
        if len(broken) > len(rest):
            raise _NoRoomError
        for words in broken:
            x, bottom, _ = self.slots[self.used]
            baseline = bottom + (LINE - ABOVE) * self.size
            self.lines.append(Line(x, baseline, self.size, _merged(words)))
            self.used += 1


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


def _ways(fields: Sequence[Field]) -> Iterator[tuple[float, list[list[Run]]]]:
    """Sizes and groupings to try for the same fields, the most readable first."""
    full = [_said(f, f.full) for f in fields]
    short = [_said(f, f.short) for f in fields]
    run_on = [[run for said in short for run in said]]
    least = [[run for f in fields for run in _said(f, f.least)]]
    yield from ((size, full) for size in SIZES_MM[:3])
    yield from ((size, short) for size in SIZES_MM[1:])
    yield from ((size, run_on) for size in SIZES_MM[3:])
    yield SMALLEST_MM, least


@lru_cache(maxsize=4096)
def fill_fields(
    fields: tuple[Field, ...], frames: tuple[Frame, ...]
) -> tuple[tuple[Line, ...], tuple[str, ...]]:
    """Fields laid into frames, and what those are about that found no room.

    Large and in full where there is room, else smaller, in short, run together; then the
    least important is left off.
    """
    for count in range(len(fields), 0, -1):
        for size, groups in _ways(fields[:count]):
            filler = _Filler(frames, size)
            try:
                for runs in groups:
                    filler.put(runs)
            except _NoRoomError:
                continue
            return tuple(filler.lines), tuple(f.about for f in fields[count:])
    return (), tuple(f.about for f in fields)


@lru_cache(maxsize=4096)
def fill_name(
    name: str, frame: Frame, most_lines: int, largest: float
) -> tuple[tuple[Line, ...], float, bool]:
    """The name in at most so many lines from a frame's top: lines, height, whether it is whole.

    A name that is too long even in the smallest type ends with "…".
    """
    box = frame.box
    most_lines = max(1, min(most_lines, int((box.height + 1e-9) / (SMALLEST_MM * LINE))))
    for count in range(1, most_lines + 1):
        for size in SIZES_MM:
            if size > largest or count * size * LINE > box.height + 1e-9:
                continue
            room = Box(box.x, box.top - count * size * LINE, box.width, count * size * LINE)
            filler = _Filler([Frame(room, frame.step, frame.narrow)], size)
            try:
                filler.put([(name, False)])
            except _NoRoomError:
                continue
            return tuple(filler.lines), room.height, True
    size = SMALLEST_MM
    height = most_lines * size * LINE
    room = Frame(
        Box(frame.box.x, frame.box.top - height, frame.box.width, height), frame.step, frame.narrow
    )
    for letters in range(len(name) - 1, 0, -1):
        filler = _Filler([room], size)
        try:
            filler.put([(name[:letters].rstrip() + ELLIPSIS, False)])
        except _NoRoomError:
            continue
        return tuple(filler.lines), height, False
    return (), 0.0, False
