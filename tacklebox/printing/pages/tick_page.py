"""Pages in large type with boxes to tick, for the shed wall and the shop.

What does not fit goes on to another page, and that is said.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any, BinaryIO

from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.outputs import PDF, Target, write_aside
from tacklebox.printing.fonts import BOLD, CAP_HEIGHT, REGULAR, printable, register, width_of
from tacklebox.printing.pages.paragraphs import as_markup
from tacklebox.printing.pdf import MM, begin_anew

PAGES_MM = {"a4": (210.0, 297.0), "a5": (148.0, 210.0)}  # ISO 216
MARGIN_MM = 10.0
GUTTER_MM = 7.0
# Capitals of at least 1/200 of the reading distance (US Federal Aviation Administration, as cited
# in human-factors handbooks): 3 mm for what is ticked off at an arm's length of 60 cm, 2.25 mm for
# what is read in the hand at 45 cm; in this face 12 pt and 9 pt.
LEAST_PT, LEAST_IN_HAND_PT = 12.0, 9.0
assert LEAST_PT * CAP_HEIGHT / MM >= 3.0
assert LEAST_IN_HAND_PT * CAP_HEIGHT / MM >= 2.25
_LEAST = ((LEAST_PT, LEAST_PT), (LEAST_PT, 10.5), (LEAST_PT, LEAST_IN_HAND_PT))
# Of the body and of what is read in the hand; the first that fits one page.
SIZES_PT = {"a4": ((15.0, 15.0), (13.5, 13.5), *_LEAST), "a5": _LEAST}
LEAST_BOX_PT = 9.5  # 3 mm inside its line: a pencil finds it
MOST_COLUMNS = 8
SMALL = 0.75  # type of the page's number, which nothing hangs on


@dataclass(frozen=True, slots=True)
class Printed:
    """The number of pages, and the headings that begin on a later page than the first.

    ``unknown`` are the characters that the font has not: an empty square stands for each.
    """

    pages: int
    on_later_pages: tuple[str, ...]
    unknown: str = ""


def print_ticks(
    fill: Callable[["TickPage"], None],
    target: Target,
    *,
    title: str,
    page: str = "a4",
    columns: int = 1,
    overwrite: bool = False,
) -> Printed:
    """Write what ``fill`` puts on a page, in the largest type that keeps it to one.

    Where even the least type does not, it goes on to the next page, in the largest that takes no
    page more, and each page says so; what is read in the hand then begins overleaf, if that takes
    no page more.
    ``columns`` are those of a page of A4 below what goes across; a smaller page has one.
    Raises AskedWronglyError for an unknown page size and a file that is there already,
    CannotBeDoneError if it cannot be written.
    """
    measures = PAGES_MM.get(page.lower())
    if measures is None:
        raise AskedWronglyError(
            f'"{page}" is no page size.',
            field="page",
            right=nearest_word(page, list(PAGES_MM)),
        )
    register()
    columns = columns if page.lower() == "a4" else 1
    with write_aside(target, PDF, overwrite=overwrite) as aside:

        def lay(sizes: tuple[float, float], of: int = 1, *, turns: bool = False) -> Printed:
            made = TickPage(measures, sizes, columns, of=of, turns=turns)
            fill(made)
            return made.write(aside, title)

        pages: dict[tuple[float, float], int] = {}
        for sizes in SIZES_PT[page.lower()]:
            printed = lay(sizes)
            if printed.pages == 1:
                return printed
            pages[sizes] = printed.pages
        of = min(pages.values())
        enough = [sizes for sizes, needed in pages.items() if needed == of]
        for sizes in enough:
            printed = lay(sizes, of, turns=True)
            if printed.pages == of:
                return printed
        return lay(enough[0], of)


class TickPage:
    """A page in the making; ``sizes`` are the type sizes of the body and of what is read in the
    hand, in points, ``of`` how many pages there are, ``turns`` whether the latter begins overleaf.
    """

    def __init__(
        self,
        page_mm: tuple[float, float],
        sizes: tuple[float, float],
        columns: int = 1,
        of: int = 1,
        *,
        turns: bool = False,
    ) -> None:
        self.page = tuple(side * MM for side in page_mm)
        self.margin = MARGIN_MM * MM
        self.between = self.page[0] - 2 * self.margin
        self.columns, self.of, self.turns = columns, of, turns
        self.across: list[Any] = []
        self.story: list[Any] = []
        self.unknown: dict[str, None] = {}
        self.in_hand = sizes[1]
        self._set(sizes[0])

    def _set(self, size: float) -> None:
        """The type from here on."""
        from reportlab.lib.styles import ParagraphStyle

        self.size = size
        self.body = ParagraphStyle("body", fontName=REGULAR, fontSize=size, leading=size * 1.15)
        self.strong = ParagraphStyle(
            "strong", self.body, fontName=BOLD, keepWithNext=1, spaceBefore=size * 0.25
        )
        self.title = ParagraphStyle("title", fontName=BOLD, fontSize=size * 1.6, leading=size * 2)
        self.heading = ParagraphStyle(
            "heading", fontName=BOLD, fontSize=size * 1.15, leading=size * 1.4,
            spaceBefore=size * 0.2, spaceAfter=size * 0.1, keepWithNext=1,
        )  # fmt: skip

    def columns_from_here(self) -> None:
        """What came up to here goes across the page; the rest fills its columns."""
        from reportlab.platypus import FrameBreak, Spacer

        if self.columns > 1:
            self.across = [*self.story, Spacer(0, self.size * 0.4)]
            self.story = [FrameBreak()]
            self.between = (self.between - GUTTER_MM * MM * (self.columns - 1)) / self.columns

    def read_in_hand(self) -> None:
        """What comes from here on is read in the hand, not ticked off at an arm's length."""
        from reportlab.platypus import PageBreak

        if self.turns:
            self.story.append(PageBreak())
        self._set(self.in_hand)

    def name(self, words: str) -> None:
        """The page's name, largest of all."""
        self.story.append(self.words(words, style=self.title))

    def head(self, words: str) -> None:
        """A heading, under a rule across the page; it stays with what follows it."""
        from reportlab.platypus.flowables import HRFlowable

        rule = HRFlowable("100%", 0.7, color="black", spaceBefore=self.size * 0.4, spaceAfter=0)
        rule.keepWithNext = 1
        made = self.words(words, style=self.heading)
        made.heads = words
        self.story += [rule, made]

    def say(self, words: str, *, first: str = "", strong: bool = False) -> None:
        """A paragraph; ``first`` stands before it in bold; ``strong`` keeps it with the next."""
        self.story.append(self.words(words, first, self.strong if strong else self.body))

    def words(self, words: str, first: str = "", style: Any = None) -> Any:
        """A paragraph to be laid out."""
        from reportlab.platypus import Paragraph

        self.unknown |= dict.fromkeys(printable(first + words)[1])
        return Paragraph(as_markup(words, first), style or self.body)

    def ticks(self, entries: Sequence[tuple[str, str]]) -> None:
        """Boxes to tick with (what is looked for, words), in as many columns as have room."""
        gap = self.size * 0.5
        beside = self.box().width + gap
        wide = [
            self.size * (width_of(_plain(first), True) + width_of(f"  {_plain(words)}".rstrip()))
            for first, words in entries
        ]
        half = self.between / 2 - beside - gap
        for is_short, run in groupby(zip(wide, entries, strict=True), lambda e: e[0] <= half):
            alike = list(run)
            room = max(width for width, _ in alike) + beside + gap
            across = max(1, min(MOST_COLUMNS, int(self.between / room))) if is_short else 1
            self._grid([entry for _, entry in alike], across, beside)

    def tick_row(self, count: int, words: str) -> None:
        """So many boxes beside one another for what is the same, the words after the last."""
        step = self.box().width + self.size * 0.5
        room = width_of(_plain(words), True) * self.size + step
        a_row = max(1, int((self.between - room) / step) + 1)
        for start in range(0, count, a_row):
            boxes = min(a_row, count - start)
            said = self.words("", words) if start + boxes == count else ""
            cells = [*(self.box() for _ in range(boxes)), said]
            self.table([cells], [*([step] * boxes), self.between - step * boxes])

    def _grid(self, entries: Sequence[tuple[str, str]], across: int, beside: float) -> None:
        """Boxes in so many columns; each row by itself, so that a heading keeps to the first."""
        for start in range(0, len(entries), across):
            cells: list[Any] = []
            for first, words in entries[start : start + across]:
                cells += [self.box(), self.words(words, first)]
            cells += [""] * (2 * across - len(cells))
            self.table([cells], [beside, self.between / across - beside] * across)

    def table(
        self,
        rows: Sequence[Sequence[Any]],
        widths: Sequence[float],
        *,
        head: bool = False,
        below: Mapping[int, int] | None = None,
    ) -> None:
        """Rows of what is to be laid out; a first row that is a head comes again on each page.

        ``below`` are rows that belong to the one above them, and from which column on their words
        go across.
        """
        from reportlab.platypus import Table

        table = Table(rows, colWidths=widths, hAlign="LEFT", repeatRows=1 if head else 0)
        style: list[tuple[Any, ...]] = [
            ("VALIGN", (0, 0), (-1, -1), "TOP"),
            ("LEFTPADDING", (0, 0), (-1, -1), 0),
            ("RIGHTPADDING", (0, 0), (-1, -1), 0),
            ("TOPPADDING", (0, 0), (-1, -1), self.size * 0.05),
            ("BOTTOMPADDING", (0, 0), (-1, -1), self.size * 0.15),
        ]
        if head:
            style.append(("LINEBELOW", (0, 0), (-1, 0), 0.7, "black"))
        for row, column in (below or {}).items():
            style += [
                ("SPAN", (column, row), (-1, row)),
                ("NOSPLIT", (0, row - 1), (-1, row)),
                ("TOPPADDING", (0, row), (-1, row), 0),
                ("BOTTOMPADDING", (0, row - 1), (-1, row - 1), 0),
            ]
        table.setStyle(style)
        self.story.append(table)

    def box(self) -> Any:
        """A box to tick, as high as the letters beside it."""
        from reportlab.platypus import Flowable

        side = max(self.size * 0.95, LEAST_BOX_PT)

        class _Box(Flowable):  # type: ignore[misc]
            def draw(self) -> None:
                low = (self.height - side) / 10
                self.canv.setLineWidth(0.9)
                self.canv.rect(0.5, low, side - 1, side - 1)

        made = _Box()
        made.width, made.height = side, max(self.size * 1.15, side)
        return made

    def write(self, file: BinaryIO, title: str) -> Printed:
        """Write the PDF, over what was written there before."""
        from reportlab.platypus import BaseDocTemplate

        later: list[str] = []

        class _Document(BaseDocTemplate):  # type: ignore[misc]
            def afterFlowable(self, flowable: Any) -> None:  # noqa: N802
                if self.page > 1 and hasattr(flowable, "heads"):
                    later.append(flowable.heads)

        document = _Document(
            file, pagesize=self.page, title=title, creator="Tacklebox", invariant=1,
            pageCompression=1, pageTemplates=self._templates(),
        )  # fmt: skip
        begin_anew(file)
        document.build([*self.across, *self.story])
        return Printed(int(document.page), tuple(later), "".join(self.unknown))

    def _templates(self) -> list[Any]:
        """The first page, with what goes across on top, and the others."""
        from reportlab.platypus import Frame, PageTemplate

        whole = self.page[0] - 2 * self.margin
        high = self.page[1] - 2 * self.margin

        def frame(x: float, bottom: float, width: float, height: float) -> Any:
            return Frame(
                self.margin + x, self.margin + bottom, width, height,
                leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0,
            )  # fmt: skip

        def columns(height: float) -> list[Any]:
            step = self.between + GUTTER_MM * MM
            return [frame(n * step, 0, self.between, height) for n in range(self.columns)]

        top = min(sum(_height(f, whole) for f in self.across), high / 2)
        first = [frame(0, high - top, whole, top), *columns(high - top)] if top else columns(high)
        return [
            PageTemplate("first", first, onPage=self._ink, autoNextPageTemplate="later"),
            PageTemplate("later", columns(high), onPage=self._ink),
        ]

    def _ink(self, canvas: Any, document: Any) -> None:
        canvas.setViewerPreference("PrintScaling", "None")
        if self.of > 1:
            on = " · goes on overleaf" if document.page < self.of else ""
            canvas.setFont(BOLD, LEAST_PT * SMALL)
            canvas.drawRightString(
                self.page[0] - self.margin,
                self.margin * 0.45,
                f"page {document.page} of {self.of}{on}",
            )


def _plain(text: str) -> str:
    return printable(text)[0]


def _height(flowable: Any, width: float) -> float:
    """The height that a flowable takes, with the space around it."""
    _, height = flowable.wrap(width, 1e6)
    return float(height + flowable.getSpaceBefore() + flowable.getSpaceAfter()) + 0.01
