"""Where everything goes on one label: words in order of importance, QR and drawing.

Millimetres from the label's lower left corner. No ink is laid here.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tacklebox.printing.fonts import ABOVE, BELOW, CAP_HEIGHT, LINE, SMALLEST_MM, width_of
from tacklebox.printing.qr import LEAST_MODULE_MM, QUIET_MODULES
from tacklebox.printing.typesetting import Box, Frame, Line, fill_fields, fill_name
from tacklebox.printing.wording import Field

INSET_MM = 1.5  # printers pull a sheet askew by about a millimetre (common practice)
# Capitals of 1/200 of the reading distance at an arm's length of 60 cm: the US Federal
# Aviation Administration's suggestion, as cited in human-factors handbooks
LARGEST_MM = 3.0 / CAP_HEIGHT
CODE_MM = 2.6
KIND_MM = 2.0
GAP_MM = 1.0
DOT_MM = 25.4 / 600
# whole dots of a 600 dpi printer, largest first; 0.33 mm itself where no dots fit
MODULES_MM = (*(n * DOT_MM for n in range(12, 7, -1)), LEAST_MODULE_MM)
STRIP_AT = 4.0  # from this width to height on, words stand side by side
LEAST_DRAWING_MM = (45.0, 5.5)


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


def lay_out(words: Words, width: float, height: float, modules: int, corner: float) -> Layout:
    """Lay out a label of that size and corner radius, all in mm.

    ``modules`` is the side of the QR to be placed, 0 for none. Code and name are always
    there; the rest goes, the least important first, when the smallest readable type is too
    large for it.
    """
    label = Box(0.0, 0.0, width, height)
    inset = max(INSET_MM, 0.3 * corner + 1.0)  # a round corner cuts 0.29 radii off the diagonal
    inner = Box(inset, inset, width - 2 * inset, height - 2 * inset)
    strip = width >= STRIP_AT * height
    qr = place_qr(modules, label, inset, strip=strip) if modules else None
    laid = _strip(words, inner, qr) if strip else _card(words, inner, qr)
    return replace(laid, left_off=("QR", *laid.left_off)) if modules and not qr else laid


def place_qr(modules: int, label: Box, inset: float, *, strip: bool) -> QrPlace | None:
    """The QR at the label's right end, halfway up on a strip and at the bottom elsewhere.

    Its border stays on the label and its dark square within the inset. It takes at most half the
    label's width, and beyond the least module no more than 3/8 of it. None if that cannot be.
    """
    for module in MODULES_MM:
        quiet = QUIET_MODULES * module
        edge = max(inset, quiet)
        side = modules * module
        across = quiet + side + edge
        may_grow = across <= label.width * 0.3 or module < MODULES_MM[-3]
        if may_grow and across <= label.width / 2 and side + 2 * edge <= label.height:
            y = (label.height - side) / 2 if strip else edge
            return QrPlace(label.right - edge - side, y, module, modules)
    return None


def _head(words: Words, room: Box, kind_below: bool) -> tuple[list[Line], float, str]:
    """Size, kind and code in one line at the top: the lines, where they end, the kind if not said.

    The size has capitals of 3 mm where there is room; the code stands at the right end.
    """
    code_size = min(CODE_MM, room.width / max(width_of(words.code, True), 0.1))
    code_width = code_size * width_of(words.code, True)
    size, size_width = 0.0, 0.0
    if words.size:
        free = room.width - code_width - GAP_MM
        size = min(LARGEST_MM, 0.4 * room.height, free / width_of(words.size, True))
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
    if kind_size >= SMALLEST_MM and not kind_below:
        x = room.x + (size_width + GAP_MM if size else 0.0)
        lines.append(Line(x, baseline, kind_size, ((words.kind, False),)))
        unsaid = ""
    if words.size and not size:
        unsaid = f"{words.size} {unsaid}".strip()
    return lines, baseline - tallest * BELOW, unsaid


def _fields(words: Words, unsaid: str) -> tuple[Field, ...]:
    return (Field("", unsaid, unsaid), *words.fields) if unsaid else words.fields


def _down_to(box: Box, top: float) -> Box:
    """What of a box lies below ``top``."""
    return Box(box.x, box.y, box.width, top - box.y)


def _card(words: Words, inner: Box, qr: QrPlace | None) -> Layout:
    clear = qr.kept_clear if qr else None
    step = clear.top if clear else -1.0
    narrow = clear.x - inner.x if clear else 0.0
    head, y, unsaid = _head(words, inner, kind_below=False)
    name, used, whole = fill_name(words.name, Frame(_down_to(inner, y), step, narrow), 2)
    below = _down_to(inner, y - used)
    fields = _fields(words, unsaid)
    drawing = Box(inner.x, inner.y, narrow or inner.width, 0.3 * inner.height)
    if drawing.width >= LEAST_DRAWING_MM[0] and drawing.height >= LEAST_DRAWING_MM[1]:
        above = Box(below.x, drawing.top, below.width, below.top - drawing.top)
        lines, left_off = fill_fields(fields, (Frame(above, step, narrow),))
        if not left_off:
            return _done(head, name, lines, qr, drawing, whole, left_off)
    lines, left_off = fill_fields(fields, (Frame(below, step, narrow),))
    return _done(head, name, lines, qr, None, whole, left_off)


def _strip(words: Words, inner: Box, qr: QrPlace | None) -> Layout:
    right = qr.kept_clear.x if qr else inner.right
    room = Box(inner.x, inner.y, right - inner.x, inner.height)
    drawing_height = 0.42 * room.height
    drawing = None
    if drawing_height >= LEAST_DRAWING_MM[1] * 0.9 and room.width >= LEAST_DRAWING_MM[0]:
        drawing = Box(room.x, room.y, room.width, drawing_height)
        room = Box(room.x, drawing.top + 0.3, room.width, room.height - drawing_height - 0.3)
    head_box = Box(room.x, room.y, min(max(0.26 * room.width, 24.0), 45.0), room.height)
    head, y, unsaid = _head(words, head_box, kind_below=False)
    name, used, whole = fill_name(words.name, Frame(_down_to(head_box, y)), 3)
    columns = max(1, int((room.right - head_box.right) / 45.0))
    wide = (room.right - head_box.right) / columns - 2 * GAP_MM
    frames = tuple(
        Frame(Box(head_box.right + 2 * GAP_MM + n * (wide + 2 * GAP_MM), room.y, wide, room.height))
        for n in range(columns)
    )
    lines, left_off = fill_fields(_fields(words, unsaid), frames)
    return _done(head, name, lines, qr, drawing, whole, left_off)


def _done(
    head: Sequence[Line],
    name: Sequence[Line],
    lines: Sequence[Line],
    qr: QrPlace | None,
    drawing: Box | None,
    whole: bool,
    left_off: Sequence[str],
) -> Layout:
    lost = [heading.lower() or "kind" for heading in left_off]
    if not whole:
        lost.insert(0, "the end of the name")
    return Layout((*head, *name, *lines), qr, drawing, tuple(lost))
