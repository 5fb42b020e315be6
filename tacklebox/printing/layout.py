"""Where everything goes on one label: words in order of importance, QR and drawing.

Millimetres from the label's lower left corner. No ink is laid here.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from tacklebox.printing.fonts import BELOW, CAP_HEIGHT, SMALLEST_MM, width_of
from tacklebox.printing.papers import LabelSize
from tacklebox.printing.qr import LEAST_MODULE_MM, QUIET_MODULES
from tacklebox.printing.typesetting import SIZES_MM, Box, Frame, Line, fill_fields, fill_name
from tacklebox.printing.wording import Field

INSET_MM = 1.5  # printers pull a sheet askew by about a millimetre (common practice)
# Capitals of 1/200 of the reading distance at an arm's length of 60 cm: the US Federal
# Aviation Administration's suggestion, as cited in human-factors handbooks
LARGEST_MM = 3.0 / CAP_HEIGHT
CODE_MM = 2.6
NAME_MM = 2.6
KIND_MM = 2.0
GAP_MM = 1.0
FLAT = 0.06  # room below figures and capitals, as a share of the type size
DOT_MM = 25.4 / 600
# whole dots of a 600 dpi printer, largest first; 0.33 mm itself where no dots fit
MODULES_MM = (*(n * DOT_MM for n in range(11, 8, -1)), LEAST_MODULE_MM)
STRIP_AT = 4.0  # from this width to height on, words stand side by side
LEAST_DRAWING_MM = (40.0, 5.0)
MOST_DRAWING_MM = 9.0
COLUMN_MM = 58.0


@dataclass(frozen=True, slots=True)
class QrPlace:
    """The lower left corner of the dark square, a module's side, and how many there are a side."""

    x: float
    y: float
    module: float
    modules: int

    @property
    def kept_clear(self) -> Box:
        """The dark square with its empty border."""
        quiet = QUIET_MODULES * self.module
        side = self.modules * self.module + 2 * quiet
        return Box(self.x - quiet, self.y - quiet, side, side)


@dataclass(frozen=True, slots=True)
class Words:
    """What is to be said, in printable characters."""

    code: str
    size: str
    kind: str
    name: str
    fields: tuple[Field, ...]


@dataclass(frozen=True, slots=True)
class Layout:
    """A label laid out, and what was left off."""

    lines: tuple[Line, ...]
    qr: QrPlace | None
    drawing: Box | None
    left_off: tuple[str, ...]


Frames = Callable[[float], tuple[Frame, ...]]


@dataclass(frozen=True, slots=True)
class _Filled:
    lines: tuple[Line, ...]
    left_off: tuple[str, ...]


def lay_out(words: Words, size: LabelSize, modules: int) -> Layout:
    """Lay out a label of that size.

    ``modules`` is the side of the QR to be placed, 0 for none. A folded label has its words
    above the fold and the drawing below it. Code and name are always
    there; the rest goes, the least important first, when the smallest readable type is too
    large for it.
    """
    inset = max(INSET_MM, 0.3 * size.corner + 1.0)  # a corner cuts 0.29 radii off the diagonal
    label = Box(0.0, 0.0, size.width, size.height)
    front = Box(0.0, size.height - size.fold, size.width, size.fold) if size.fold else label
    strip = front.width >= STRIP_AT * front.height
    qr = place_qr(modules, front, inset, strip=strip) if modules else None
    inner = _within(front, inset)
    if size.fold:
        back = _within(Box(0.0, 0.0, size.width, size.height - size.fold), inset)
        laid = _folded(words, inner, back, qr)
    else:
        laid = _strip(words, inner, qr) if strip else _card(words, inner, qr)
    return replace(laid, left_off=("QR", *laid.left_off)) if modules and not qr else laid


def _within(box: Box, inset: float) -> Box:
    return Box(box.x + inset, box.y + inset, box.width - 2 * inset, box.height - 2 * inset)


def place_qr(modules: int, label: Box, inset: float, *, strip: bool) -> QrPlace | None:
    """The QR at the label's right end, halfway up on a strip and at the bottom elsewhere.

    Its border stays on the label and its dark square within the inset. Modules grow beyond
    0.33 mm while border and all take no more than a quarter of the label's width; at 0.33 mm they
    may take half of it. None if that cannot be.
    """
    for module in MODULES_MM:
        quiet = QUIET_MODULES * module
        edge = max(inset, quiet)
        side = modules * module
        across = quiet + side + edge
        fits = across <= label.width * (0.5 if module == LEAST_MODULE_MM else 0.25)
        if fits and side + 2 * edge <= label.height:
            y = label.y + ((label.height - side) / 2 if strip else edge)
            return QrPlace(label.right - edge - side, y, module, modules)
    return None


def _head(words: Words, room: Box) -> tuple[list[Line], float, str]:
    """Size, kind and code in one line at the top: the lines, where they end, the kind if not said.

    The size has capitals of 3 mm where there is room; the code stands at the right end.
    """
    code_size = min(CODE_MM, room.width / max(width_of(words.code, True), 0.1))
    code_width = code_size * width_of(words.code, True)
    size, size_width = 0.0, 0.0
    if words.size:
        free = room.width - code_width - GAP_MM
        size = min(LARGEST_MM, 0.5 * room.height / CAP_HEIGHT, free / width_of(words.size, True))
        size = size if size >= SMALLEST_MM else 0.0
        size_width = size * width_of(words.size, True)
    tallest = max(size, code_size)
    baseline = room.top - tallest * CAP_HEIGHT
    lines = [Line(room.right - code_width, baseline, code_size, ((words.code, True),))]
    if size:
        lines.append(Line(room.x, baseline, size, ((words.size, True),)))
    unsaid = words.kind
    free = room.width - size_width - code_width - 2 * GAP_MM
    kind_size = min(KIND_MM, free / width_of(words.kind)) if words.kind else 0.0
    if kind_size >= SMALLEST_MM:
        x = room.x + (size_width + GAP_MM if size else 0.0)
        lines.append(Line(x, baseline, kind_size, ((words.kind, False),)))
        unsaid = ""
    if words.size and not size:
        unsaid = f"{words.size} {unsaid}".strip()
    lowest = max(_hang(text, line.size) for line in lines for text, _ in line.runs)
    return lines, baseline - lowest, unsaid


def _hang(text: str, size: float) -> float:
    """How far below the baseline a text needs room: for its tails, or to look apart."""
    return size * (BELOW if set(text) & set("gjpqy,;()QЦцщруф") else FLAT)


def _fields(words: Words, unsaid: str) -> tuple[Field, ...]:
    return (Field("kind", "", unsaid, unsaid, unsaid), *words.fields) if unsaid else words.fields


def _down_to(box: Box, top: float) -> Box:
    """What of a box lies below ``top``."""
    return Box(box.x, box.y, box.width, top - box.y)


def _best(
    words: Words, fields: tuple[Field, ...], name_in: Frame, most_lines: int, frames: Frames
) -> _Filled:
    """Name and fields together: the name gives way before a field is left off."""
    best: _Filled | None = None
    for lines, largest in ((most_lines, NAME_MM), (1, SIZES_MM[3]), (most_lines, SIZES_MM[-1])):
        name, used, whole = fill_name(words.name, name_in, lines, largest)
        said, left_off = fill_fields(fields, frames(used))
        if not whole:
            left_off = ("the end of the name", *left_off)
        if best is None or len(left_off) < len(best.left_off):
            best = _Filled((*name, *said), left_off)
        if not left_off:
            break
    assert best is not None
    return best


def _card(words: Words, inner: Box, qr: QrPlace | None) -> Layout:
    clear = qr.kept_clear if qr else None
    step = clear.top if clear else -1.0
    narrow = clear.x - inner.x if clear else 0.0
    head, y, unsaid = _head(words, inner)
    fields = _fields(words, unsaid)
    name_in = Frame(_down_to(inner, y), step, narrow)

    def fill(bottom: float) -> _Filled:
        def frames(used: float) -> tuple[Frame, ...]:
            box = Box(inner.x, bottom, inner.width, y - used - bottom)
            return (Frame(box, step, narrow),)

        return _best(words, fields, name_in, 2, frames)

    filled = fill(inner.y)
    drawing = _drawing_in(
        Box(inner.x, inner.y, narrow or inner.width, min(0.3 * inner.height, MOST_DRAWING_MM))
    )
    if drawing:
        with_drawing = fill(drawing.top)
        if len(with_drawing.left_off) > len(filled.left_off):
            drawing = None
            filled = replace(filled, left_off=("drawing", *filled.left_off))
        else:
            filled = with_drawing
    return Layout((*head, *filled.lines), qr, drawing, filled.left_off)


def _folded(words: Words, front: Box, back: Box, qr: QrPlace | None) -> Layout:
    laid = _strip(words, front, qr, drawn=False)
    head, y, _ = _head(words, back)
    drawing = _drawing_in(Box(back.x, back.y, back.width, min(y - back.y, MOST_DRAWING_MM)))
    return replace(laid, lines=(*laid.lines, *head), drawing=drawing)


def _strip(words: Words, inner: Box, qr: QrPlace | None, *, drawn: bool = True) -> Layout:
    right = qr.kept_clear.x if qr else inner.right
    room = Box(inner.x, inner.y, right - inner.x, inner.height)
    drawing = None
    if drawn:
        high = min(0.42 * room.height, MOST_DRAWING_MM)
        drawing = _drawing_in(Box(room.x, room.y, room.width, high))
    if drawing:
        bottom = drawing.top + 0.3
        room = Box(room.x, bottom, room.width, room.top - bottom)
    head_box = Box(room.x, room.y, min(max(0.26 * room.width, 24.0), 45.0), room.height)
    head, y, unsaid = _head(words, head_box)
    start = head_box.right + 2 * GAP_MM
    count = max(1, round((room.right - start) / COLUMN_MM))
    pitch = (room.right - start + 2 * GAP_MM) / count
    columns = tuple(
        Frame(Box(start + n * pitch, room.y, pitch - 2 * GAP_MM, room.height)) for n in range(count)
    )
    name_in = Frame(_down_to(head_box, y))
    filled = _best(words, _fields(words, unsaid), name_in, 3, lambda _: columns)
    return Layout((*head, *filled.lines), qr, drawing, filled.left_off)


def _drawing_in(box: Box) -> Box | None:
    """The box, if a drawing can be read in it."""
    width, height = LEAST_DRAWING_MM
    return box if box.width >= width and box.height >= height else None
