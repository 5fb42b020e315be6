"""Where everything goes on one label: words in order of importance, QR and drawing.

Labels larger than a winder's have larger type. Millimetres from the label's lower left corner.
No ink is laid here. A field that is there only with room never makes the
others smaller than an x-height of 1.2 mm.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import product

from tacklebox.printing.fonts import BELOW, CAP_HEIGHT, LINE, SMALLEST_MM, X_HEIGHT, width_of
from tacklebox.printing.labels.papers import LabelSize
from tacklebox.printing.labels.qr import LEAST_MODULE_MM, QUIET_MODULES
from tacklebox.printing.labels.typesetting import (
    EASY_X_HEIGHT_MM,
    SIZES_MM,
    Column,
    Rectangle,
    TextLine,
    fill_fields,
    fill_name,
)
from tacklebox.printing.labels.wording import Field

INSET_MM = 1.5  # printers pull a sheet askew by about a millimetre (common practice)
# Capitals of 1/200 of the reading distance at an arm's length of 60 cm: the US Federal
# Aviation Administration's suggestion, as cited in human-factors handbooks
LARGEST_MM = 3.0 / CAP_HEIGHT
CODE_MM = 2.6
SECOND_MM = 2.6
KIND_MM = 2.2
BELOW_HEAD = 0.9  # no other words are as large as what is looked for first
LARGER_SECOND_MM, SECOND_GIVING_WAY_MM = 3.6, 2.2
FIELD_MM = 3.0
GAP_MM = 1.0
FLAT = 0.06  # room below figures and capitals, as a share of the type size
DOT_MM = 25.4 / 600
# whole dots of a 600 dpi printer, largest first; 0.33 mm itself where no dots fit
MODULES_MM = (*(n * DOT_MM for n in range(11, 8, -1)), LEAST_MODULE_MM)
HEAD_MM = 4.0  # a line with capitals of 3 mm and tails
STRIP_AT = 4.0  # from this width to height on, words stand side by side
LEAST_STRIP_MM = 60.0
LEAST_DRAWING_MM = (40.0, 5.0)
HEAD_SHARES = (
    0.26,
    0.34,
    0.42,
)  # of a strip: its size and depth; the wider where they else are small
DRAWING_MM = 6.5  # its height where there is room; it grows with the label
MOST_GROWN = 2.0
COLUMN_MM = 58.0
LEAST_COLUMN_MM = 28.0
# The room inside a card and a strip of usual size, and the drawing's usual width on them
CARD_MM, STRIP_MM = 30.0, 15.0
DRAWN_CARD_MM, DRAWN_STRIP_MM = 46.0, 120.0


@dataclass(frozen=True, slots=True)
class QrPlace:
    """The lower left corner of the dark square, a module's side, and how many there are a side."""

    x: float
    y: float
    module: float
    modules: int

    @property
    def kept_clear(self) -> Rectangle:
        """The dark square with its empty border."""
        quiet = QUIET_MODULES * self.module
        side = self.modules * self.module + 2 * quiet
        return Rectangle(self.x - quiet, self.y - quiet, side, side)


@dataclass(frozen=True, slots=True)
class Words:
    """What is to be said, in printable characters.

    ``heads`` are what is looked for first, as pairs of what is large and what stands beside
    it; of several the first is taken that has room in capitals of 3 mm. ``second`` is looked for next
    and stands below them; ``second_is`` says what it is, ``second_short`` says it in less room. With
    ``larger`` than 1 all type grows sooner with the label, as where there is little to say.
    """

    code: str
    heads: tuple[tuple[str, str], ...]
    second: str
    fields: tuple[Field, ...]
    second_is: str = "name"
    second_short: str = ""
    larger: float = 1.0
    largest: float = LARGEST_MM  # type of all but the heads


@dataclass(frozen=True, slots=True)
class Layout:
    """A label laid out, and what was left off."""

    lines: tuple[TextLine, ...]
    qr: QrPlace | None
    drawing: Rectangle | None
    left_off: tuple[str, ...]


Choices = Callable[[float], tuple[tuple[Column, ...], ...]]


@dataclass(frozen=True, slots=True)
class _Filled:
    lines: tuple[TextLine, ...]
    missed: int  # of what must be said
    left_off: tuple[str, ...]


def lay_out(
    words: Words, size: LabelSize, modules: Sequence[int] = (), *, drawn: bool = True
) -> Layout:
    """Lay out a label of that size.

    ``modules`` are the sides of the QRs of which the first that has room is placed; ``drawn``
    says whether there is something to draw. A folded label has its words
    above the fold and the drawing below it. Code and what comes second are always
    there; the rest goes, the least important first, when the smallest readable type is too
    large for it.
    """
    inset = max(INSET_MM, 0.3 * size.corner + 1.0)  # a corner cuts 0.29 radii off the diagonal
    label = Rectangle(0.0, 0.0, size.width, size.height)
    front = Rectangle(0.0, size.height - size.fold, size.width, size.fold) if size.fold else label
    strip = front.width >= max(STRIP_AT * front.height, LEAST_STRIP_MM)
    placed = (place_qr(side, front, inset, strip=strip) for side in modules)
    qr = next((place for place in placed if place), None)
    inner = _within(front, inset)
    lay = _strip if strip else _card
    if size.fold:
        back = _within(Rectangle(0.0, 0.0, size.width, size.height - size.fold), inset)
        laid = _folded(words, lay(words, inner, qr, drawn=False), back, drawn=drawn)
    else:
        laid = lay(words, inner, qr, drawn=drawn)
    if drawn and not laid.drawing:
        laid = replace(laid, left_off=("drawing", *laid.left_off))
    return replace(laid, left_off=("QR", *laid.left_off)) if modules and not qr else laid


def _within(box: Rectangle, inset: float) -> Rectangle:
    return Rectangle(box.x + inset, box.y + inset, box.width - 2 * inset, box.height - 2 * inset)


def place_qr(modules: int, label: Rectangle, inset: float, *, strip: bool) -> QrPlace | None:
    """The QR at the label's right end, halfway up on a strip and below the head elsewhere.

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
        over = edge if strip else max(edge, quiet + inset + HEAD_MM)
        if fits and edge + side + over <= label.height:
            y = label.y + ((label.height - side) / 2 if strip else edge)
            return QrPlace(label.right - edge - side, y, module, modules)
    return None


def _grown(height: float, usual: float) -> float:
    """How much larger than on a usual label all is, on one of that height."""
    return min(max(height / usual, 1.0), MOST_GROWN)


def _head(words: Words, room: Rectangle, grown: float) -> tuple[list[TextLine], float, Words]:
    """Size, kind and code in one line at the top: the lines, where they end, what is yet to be said.

    The size has capitals of 3 mm and more where there is room; the code stands at the right end.
    """
    tallest = min(
        LARGEST_MM * grown,
        0.5 * room.height / CAP_HEIGHT,
        (room.height - SMALLEST_MM * LINE)
        / (CAP_HEIGHT + BELOW),  # what comes second needs a line too
    )
    code_size = min(CODE_MM * grown, tallest, room.width / max(width_of(words.code, True), 0.1))
    code_width = code_size * width_of(words.code, True)
    free = room.width - code_width - 2 * GAP_MM
    fits = (h for h in words.heads if width_of(h[0], True) * min(LARGEST_MM, tallest) <= free)
    said, beside = next(fits, words.heads[-1])
    size = min(tallest, free / width_of(said, True)) if said else 0.0
    size = size if size >= SMALLEST_MM else 0.0
    size_width = size * width_of(said, True)
    below_head = max(size * BELOW_HEAD, SMALLEST_MM) if size else LARGEST_MM
    code_size = min(code_size, below_head)
    code_width = code_size * width_of(words.code, True)
    baseline = room.top - max(size, code_size) * CAP_HEIGHT
    lines = [TextLine(room.right - code_width, baseline, code_size, ((words.code, True),))]
    if size:
        lines.append(TextLine(room.x, baseline, size, ((said, True),)))
    unsaid = beside
    free = room.width - size_width - code_width - 2 * GAP_MM
    kind_size = min(KIND_MM * grown, below_head, free / width_of(beside)) if beside else 0.0
    easy = EASY_X_HEIGHT_MM / X_HEIGHT if words.larger > 1 else SMALLEST_MM  # else below, in larger
    if kind_size >= easy:
        x = room.x + (size_width + GAP_MM if size else 0.0)
        lines.append(TextLine(x, baseline, kind_size, ((beside, False),)))
        unsaid = ""
    if said and not size:
        unsaid = f"{said} {unsaid}".strip()
    lowest = max(_hang(text, line.size) for line in lines for text, _ in line.runs)
    fields = words.fields
    if unsaid:
        fields = (Field("kind", "", unsaid, unsaid, unsaid), *fields)
    second = "" if size and words.second == said else words.second
    rest = replace(words, second=second, fields=fields, largest=below_head)
    return lines, baseline - lowest, rest


def _hang(text: str, size: float) -> float:
    """How far below the baseline a text needs room: for its tails, or to look apart."""
    return size * (BELOW if set(text) & set("gjpqy,;()QЦцщруф") else FLAT)


def _down_to(box: Rectangle, top: float) -> Rectangle:
    """What of a box lies below ``top``."""
    return Rectangle(box.x, box.y, box.width, top - box.y)


def _best(
    words: Words, second_in: Column, most_lines: int, grown: float, choices: Choices
) -> _Filled:
    """What comes second and the fields together.

    What comes second is larger than usual only where the fields then still have their largest type,
    and it gives way before a field is left off that must be said.
    """
    fields = words.fields
    needed = sum(not f.only_with_room for f in fields)
    most = max(min(FIELD_MM * grown, words.largest), SMALLEST_MM) + 1e-9
    largest = max(size for size in SIZES_MM if size <= most)
    best: _Filled | None = None
    for lines, wanted in (
        (1, LARGER_SECOND_MM * grown),
        (most_lines, SECOND_MM * grown),
        (1, SECOND_GIVING_WAY_MM),
        (most_lines, SMALLEST_MM),
    ):
        size = max(min(wanted, words.largest), SMALLEST_MM)
        second, used, whole = fill_name(words.second, second_in, lines, size)
        said, count = fill_fields(fields, choices(used), largest)
        all_said = whole and count == len(fields)
        if wanted > SECOND_MM * grown and not (all_said and said and said[0].size == largest):
            continue
        left_off = tuple(f.about for f in fields[count:])
        if not whole:
            left_off = (f"the end of the {words.second_is}", *left_off)
        missed = max(needed - count, 0) + (not whole)
        if best is None or missed < best.missed:
            best = _Filled((*second, *said), missed, left_off)
        if not missed:
            break
    assert best is not None
    return best


def _card(words: Words, inner: Rectangle, qr: QrPlace | None, *, drawn: bool) -> Layout:
    clear = qr.kept_clear if qr else None
    step = clear.top if clear else -1.0
    narrow = clear.x - inner.x if clear else 0.0
    grown = _grown(inner.height, CARD_MM / words.larger)
    head, y, rest = _head(words, inner, grown)
    second_in = Column(_down_to(inner, y), step, narrow)

    def fill(bottom: float) -> _Filled:
        def choices(used: float) -> tuple[tuple[Column, ...], ...]:
            box = Rectangle(inner.x, bottom, inner.width, y - used - bottom)
            whole = (Column(box, step, narrow),)
            half = (narrow or inner.width) / 2 - GAP_MM
            if half < LEAST_COLUMN_MM:
                return (whole,)
            columns = (
                replace(box, width=half),
                replace(box, x=box.x + half + 2 * GAP_MM, width=half),
            )
            return (whole, tuple(Column(column) for column in columns))

        return _best(rest, second_in, 2, grown, choices)

    filled, drawing = fill(inner.y), None
    width = narrow or inner.width
    for high in (DRAWING_MM * _grown(width, DRAWN_CARD_MM), DRAWING_MM) if drawn else ():
        place = _drawing_in(Rectangle(inner.x, inner.y, width, min(0.3 * inner.height, high)))
        if place is None:
            continue
        beside = fill(place.top)
        most = len(filled.left_off)
        if beside.missed <= filled.missed and (drawing is None or len(beside.left_off) < most):
            filled, drawing = beside, place
    return Layout((*head, *filled.lines), qr, drawing, filled.left_off)


def _folded(words: Words, front: Layout, back: Rectangle, *, drawn: bool) -> Layout:
    head, y, _ = _head(words, back, _grown(back.height, STRIP_MM / words.larger))
    high = min(y - back.y, DRAWING_MM * _grown(back.width, DRAWN_STRIP_MM))
    drawing = _drawing_in(Rectangle(back.x, back.y, back.width, high)) if drawn else None
    return replace(front, lines=(*front.lines, *head), drawing=drawing)


def _strip(words: Words, inner: Rectangle, qr: QrPlace | None, *, drawn: bool) -> Layout:
    right = qr.kept_clear.x if qr else inner.right
    room = Rectangle(inner.x, inner.y, right - inner.x, inner.height)
    grown = _grown(inner.height, STRIP_MM / words.larger)
    least = LEAST_DRAWING_MM[1]
    high = min(0.42 * room.height, DRAWING_MM * MOST_GROWN)
    heights = (high, (high + least) / 2, least) if drawn else (0.0,)
    shorter = (replace(words, second=words.second_short),) if words.second_short else ()
    laid = None
    for said, share, height in product((words, *shorter), HEAD_SHARES, heights):
        drawing = _drawing_in(Rectangle(room.x, room.y, room.width, height))
        filled = _on_strip(said, room, drawing, share, grown)
        if laid is None or _easier(filled, laid[1]):
            laid = drawing, filled
        if not laid[1].missed and _is_easy(laid[1]):
            break
    assert laid is not None
    drawing, filled = laid
    return Layout(filled.lines, qr, drawing, filled.left_off)


def _easier(one: _Filled, other: _Filled) -> bool:
    """Whether more is said, or is as easy to read as on larger packs where the other is not."""
    easy = [_is_easy(filled) for filled in (one, other)]
    return one.missed < other.missed or (one.missed == other.missed and easy[0] > easy[1])


def _is_easy(filled: _Filled) -> bool:
    return min(line.size for line in filled.lines) * X_HEIGHT >= EASY_X_HEIGHT_MM


def _on_strip(
    words: Words, room: Rectangle, drawing: Rectangle | None, share: float, grown: float
) -> _Filled:
    """All the words of a strip, above its drawing."""
    if drawing:
        bottom = drawing.top + 0.3
        room = Rectangle(room.x, bottom, room.width, room.top - bottom)
    head_box = Rectangle(
        room.x, room.y, min(max(share * room.width, 24.0), 45.0 * grown), room.height
    )
    head, y, rest = _head(words, head_box, grown)
    start = head_box.right + 2 * GAP_MM

    def columns(count: int) -> tuple[Column, ...]:
        pitch = (room.right - start + 2 * GAP_MM) / count
        boxes = (
            Rectangle(start + n * pitch, room.y, pitch - 2 * GAP_MM, room.height)
            for n in range(count)
        )
        return tuple(Column(box) for box in boxes)

    usual = max(1, round((room.right - start) / COLUMN_MM))
    choices = tuple(columns(n) for n in (usual, usual + 1, usual - 1) if n > 0)
    second_in = Column(_down_to(head_box, y))
    filled = _best(rest, second_in, 3, grown, lambda _: choices)
    return replace(filled, lines=(*head, *filled.lines))


def _drawing_in(box: Rectangle) -> Rectangle | None:
    """The box, if a drawing can be read in it."""
    width, height = LEAST_DRAWING_MM
    return box if box.width >= width and box.height >= height else None
