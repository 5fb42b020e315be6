"""The card for the pocket: what the page for the water says, for a pen; one side, folded twice.

A5 across, cut out of A4: folded twice it is 105 × 74 mm, and fits a shirt's pocket.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from tacklebox.matches.before.pack import Section
from tacklebox.matches.water.sheet import WaterSheet
from tacklebox.outputs import PDF, Target, write_aside
from tacklebox.printing.fonts import BOLD, LINE, REGULAR, X_HEIGHT, printable, register
from tacklebox.printing.pages.paragraphs import as_markup
from tacklebox.printing.pdf import MM, new_canvas
from tacklebox.stock.dates import write_day

PAGE_MM = (210.0, 297.0)  # ISO 216, A4
CARD_MM = (210.0, 148.0)  # ISO 216, A5 across: it ends where the sheet ends
PANEL_MM = (105.0, 74.0)  # ISO 216, A7 across
EDGE_MM = 5.0
BODY_PT = 6.5
assert BODY_PT * X_HEIGHT / MM >= 1.2  # read in the hand
HEADING_PT = 9.0
BOX_MM = 3.5  # a pencil's stroke
BOXES_GAP_PT = 3.0  # below boxes, so that the next words are no part of them
TALLIED, MOST_BOXES, CHANGES = 40, 12, 2
GUIDE, ROOM = 3, (2, 0, 1)  # panels


@dataclass(frozen=True)
class CardPrinted:
    """What found no room, by its heading, and the characters that the font has not."""

    left_out: tuple[str, ...]
    unknown: str


def print_card(sheet: WaterSheet, to: Target, *, overwrite: bool = False) -> CardPrinted:
    """Write the card. Raises AskedWronglyError for a file that is there already, unless
    ``overwrite``, and CannotBeDoneError where it cannot be written.
    """
    register()
    card = _Card()
    left_out: list[str] = []
    with write_aside(to, PDF, overwrite=overwrite) as file:
        canvas = new_canvas(file, *PAGE_MM, f"{sheet.name}: card for the pocket")
        _folds(canvas)
        panels = [card.day(sheet), card.tally(sheet), card.tackle(sheet), card.guide(sheet)]
        frames = [_frame(number) for number in range(len(panels))]
        left = [_place(canvas, *both) for both in zip(frames, panels, strict=True)]
        for number in ROOM:  # what finds no room of the guide goes on where some is left
            if left[GUIDE] and not left[number]:
                (under, first), *more = left[GUIDE]
                begun = (
                    under,
                    _together(card.said("What to change when, more", heading=True), first),
                )
                if not _place(canvas, frames[number], [begun]):
                    left[GUIDE] = _place(canvas, frames[number], more)
        left_out += [heading for panel in left for heading, _ in panel]
        canvas.showPage()
        canvas.save()
    return CardPrinted(tuple(dict.fromkeys(left_out)), "".join(sorted(card.unknown)))


def _folds(canvas: Any) -> None:
    """Where to cut, and where to fold."""
    low, across = (PAGE_MM[1] - CARD_MM[1]) * MM, PAGE_MM[0] * MM
    canvas.setLineWidth(0.4)
    canvas.line(0, low, across, low)
    canvas.setDash(2, 3)
    canvas.line(0, low + PANEL_MM[1] * MM, across, low + PANEL_MM[1] * MM)
    canvas.line(PANEL_MM[0] * MM, low, PANEL_MM[0] * MM, PAGE_MM[1] * MM)
    canvas.setDash()
    canvas.setFont(REGULAR, BODY_PT)
    canvas.drawString(EDGE_MM * MM, low - 10, "Cut along the line; fold twice.")


def _frame(number: int) -> Any:
    from reportlab.platypus import Frame

    column, row = number % 2, number // 2
    return Frame(
        (column * PANEL_MM[0] + EDGE_MM) * MM,
        (PAGE_MM[1] - (row + 1) * PANEL_MM[1] + EDGE_MM) * MM,
        (PANEL_MM[0] - 2 * EDGE_MM) * MM,
        (PANEL_MM[1] - 2 * EDGE_MM) * MM,
        leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0,
    )  # fmt: skip


def _place(canvas: Any, frame: Any, pieces: Sequence[tuple[str, Any]]) -> list[tuple[str, Any]]:
    """Put pieces one below the other, each with the heading it stands under; returns those from the first on
    that finds no room."""
    for number, (_, piece) in enumerate(pieces):
        if not frame.add(piece, canvas):
            return list(pieces[number:])
    return []


class _Card:
    """The pieces of the card, each with the heading it stands under."""

    def __init__(self) -> None:
        from reportlab.lib.styles import ParagraphStyle

        self.body = ParagraphStyle(
            "body", fontName=REGULAR, fontSize=BODY_PT, leading=BODY_PT * LINE
        )
        self.heading = ParagraphStyle(
            "heading", fontName=BOLD, fontSize=HEADING_PT, leading=HEADING_PT * LINE, spaceBefore=2
        )
        self.unknown: set[str] = set()

    def said(self, words: str, first: str = "", *, heading: bool = False) -> Any:
        from reportlab.platypus import Paragraph

        self.unknown |= set(printable(f"{first}{words}")[1])
        return Paragraph(as_markup(words, first), self.heading if heading else self.body)

    def _boxes(self, words: str, boxes: int, lines: int = 1) -> Any:
        self.unknown |= set(printable(words)[1])
        return _boxes(printable(words)[0], boxes, lines)

    def day(self, sheet: WaterSheet) -> list[tuple[str, Any]]:
        """Which match, what is written down of it, and its rigs with a box for lost and worn out."""
        when = f"{write_day(date.fromisoformat(sheet.on))}, {sheet.begins} to {sheet.ends}"
        lines = (
            "Draw ……………… Peg ……………… Section ……………… Depth ………………",
            "Wind ………………………… Water …………… °C  Weighed in ……………………………",
            "Place …………… Points …………… Bait ………………………………………………………………",
            "Notes …………………………………………………………………………………………………………",
        )
        return [
            ("the day", self.said(sheet.name, heading=True)),
            ("the day", self.said(f"{when}. {sheet.venue}{sheet.depths and ', '}{sheet.depths}")),
            *(("the day", self.said(line)) for line in lines),
            *(piece for part in sheet.first for piece in self._section(part)),
            ("rigs", self.said("Rigs: tick lost, or worn out", heading=True)),
            *(
                ("rigs", self._boxes(f"{rig.code} {rig.name}{_settled(rig.settled_by_s)}", 2))
                for rig in sheet.rigs
            ),
        ]

    def tally(self, sheet: WaterSheet) -> list[tuple[str, Any]]:
        """A box for each fish, net by net, and what was changed."""
        nets = [(net, n) for n in (1, 2) for net in sheet.nets]
        return [
            ("fish", self.said("A stroke for a fish", heading=True)),
            *(
                [("fish", self.said(" ".join(dict.fromkeys(sheet.net.words.values()))))]
                if sheet.net.words
                else []
            ),
            *(
                ("fish", self._boxes(f"{net} {n}, weight ……………", TALLIED, lines=2))
                for net, n in nets
            ),
            *(("changes", self.said(f"At ………… changed {'…' * 34}")) for _ in range(CHANGES)),
        ]

    def tackle(self, sheet: WaterSheet) -> list[tuple[str, Any]]:
        """Hooklengths with a box for each that goes, clip distances, rules and cautions."""
        lost = [self._boxes(f"{one.name}", min(one.count, MOST_BOXES)) for one in sheet.hooklengths]
        return [
            *(_under("hooklengths", self.said("Hooklengths gone", heading=True), lost)),
            *(piece for part in sheet.rules for piece in self._section(part)),
        ]

    def _section(self, part: Section) -> Iterator[tuple[str, Any]]:
        entries = [self.said(one.words, one.first) for one in part.entries]
        return _under(part.heading, self.said(part.heading, heading=True), entries)

    def guide(self, sheet: WaterSheet) -> list[tuple[str, Any]]:
        """What to change when."""
        return [
            ("what to change when", self.said("What to change when", heading=True)),
            *(
                (
                    f'"{sign.seen}"',
                    self.said(" ".join(one.words for one in sign.tries), f"{sign.seen}:"),
                )
                for sign in sheet.signs
            ),
        ]


def _settled(by_s: int | None) -> str:
    return f", settled by {by_s} s" if by_s is not None else ""


def _under(name: str, heading: Any, pieces: Iterable[Any]) -> Iterator[tuple[str, Any]]:
    """A heading and what stands under it; nothing where nothing does."""
    for number, piece in enumerate(pieces):
        if not number:
            yield name, heading
        yield name, piece


def _together(*pieces: Any) -> Any:
    """Pieces that stand in one panel, or not there."""
    from reportlab.platypus import Flowable

    class Together(Flowable):  # type: ignore[misc]
        def wrap(self, width: float, height: float) -> tuple[float, float]:
            self.heights = [piece.wrap(width, height)[1] for piece in pieces]
            return width, sum(self.heights)

        def draw(self) -> None:
            up = sum(self.heights)
            for piece, height in zip(pieces, self.heights, strict=True):
                up -= height
                piece.drawOn(self.canv, 0, up)

    return Together()


def _boxes(words: str, boxes: int, lines: int) -> Any:
    """Words, and boxes to tick beside them, or in lines below them; every fifth stands apart."""
    from reportlab.platypus import Flowable

    side = BOX_MM * MM

    class Boxes(Flowable):  # type: ignore[misc]
        def wrap(self, width: float, _height: float) -> tuple[float, float]:
            self.width = width
            below = lines if lines > 1 else 0
            under = 2 + below * (side + 2) + BOXES_GAP_PT
            return width, BODY_PT * LINE + under if below else side + 2

        def draw(self) -> None:
            height = self.wrap(self.width, 0)[1]
            self.canv.setFont(REGULAR, BODY_PT)
            self.canv.setLineWidth(0.5)
            self.canv.drawString(0, height - BODY_PT * LINE + 1, words)
            in_line = boxes if lines == 1 else boxes // lines
            long = in_line * (side + 1) + (in_line - 1) // 5 * 3
            begin = self.width - long if lines == 1 else 0
            for number in range(boxes):
                across, down = number % in_line, number // in_line
                x = begin + across * (side + 1) + across // 5 * 3
                y = 1 if lines == 1 else height - BODY_PT * LINE - 2 - (down + 1) * (side + 2)
                self.canv.rect(x, y, side, side)

    return Boxes()
