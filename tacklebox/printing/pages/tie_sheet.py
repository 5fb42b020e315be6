"""Tie sheets: what to take for all of it, then rig after rig how it is cut, tied and shotted.

Each rig is a block of its own, words beside its drawing, that stays together on its page; as many
of them go on a page as there is room for.
"""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any, BinaryIO

from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.outputs import PDF, Target, write_aside
from tacklebox.printing.drawing.rig import SMALLEST, draw_upright
from tacklebox.printing.fonts import BOLD, REGULAR, printable, register
from tacklebox.printing.pages.paragraphs import as_markup
from tacklebox.printing.pages.tick_page import Printed
from tacklebox.printing.pdf import MM, begin_anew
from tacklebox.rigs.checking.check import Checked
from tacklebox.rigs.tying.describe import describe
from tacklebox.rigs.tying.falls import kept_fall
from tacklebox.rigs.tying.snapshot import KeptFall
from tacklebox.rigs.tying.steps import Taking, cuts, in_cm, steps, takings, totals
from tacklebox.trade.judgement import Judgement, Outcome
from tacklebox.trade.law import FREE_RUNNING, LINE_LITTER, power_lines

PAGES_MM = {"a4": (210.0, 297.0), "a5": (148.0, 210.0)}  # ISO 216
SIZES = {"a4": (11.0, 10.0, 9.0, 8.0), "a5": (8.5, 7.5, 6.5)}  # points; the largest for its pages
MARGIN_MM = 10.0
DRAWING_SHARE = 0.36  # of the width between the margins
LEAST_DRAWING_MM, MOST_DRAWING_MM = 45.0, 130.0
GAP_MM = 4.0
BOX_MM = 6.0  # a box to tick with a pencil
MOST_BOXES = 60
FALL_MM, FALL_SHARE = 20.0, 0.4  # of a fall's section: its height, its share of the words' width
MOST_CHECKS = 3  # lines
MOST_TRIED = 40  # rigs; more are laid out once, in the least type
HOW_DRAWN = "The bait's way on a tight line is drawn through, on a slack one dashed."
_UNPADDED = [(f"{side}PADDING", (0, 0), (-1, -1), 0) for side in ("LEFT", "RIGHT", "TOP", "BOTTOM")]


def print_tie_sheets(
    rigs: Sequence[Checked], target: Target, on: date, *, page: str = "a4", overwrite: bool = False
) -> Printed:
    """Write what to take for all of them, and a block for each rig as fitted and checked.

    Raises as ``write_tie_sheets``, AskedWronglyError for a file that is there already, and
    CannotBeDoneError if it cannot be written.
    """
    with write_aside(target, PDF, overwrite=overwrite) as aside:
        return write_tie_sheets(rigs, aside, on, page=page)


def write_tie_sheets(
    rigs: Sequence[Checked], file: BinaryIO, on: date, *, page: str = "a4"
) -> Printed:
    """Write the same to a file that is open, over what was written there before.

    The type is the largest that takes no more pages than smaller type would. Raises
    AskedWronglyError for no rigs and an unknown page size, OSError if it cannot be written.
    """
    if not rigs:
        raise AskedWronglyError("there is no rig to tie.", right="Name a recipe.")
    if page.lower() not in PAGES_MM:
        raise AskedWronglyError(
            f'"{page}" is no page size.',
            field="page",
            right=nearest_word(page, list(PAGES_MM)),
        )
    register()
    falls = [kept_fall(checked.fit) for checked in rigs]

    def lay(size: float) -> Printed:
        sheet = _Sheet(PAGES_MM[page.lower()], size)
        sheet.take(totals([takings(checked.fit) for checked in rigs]))
        for checked, fall in zip(rigs, falls, strict=True):
            sheet.add_rig(checked, fall, on)
        sheet.mind(rigs)
        return sheet.write(file)

    *sizes, least = SIZES[page.lower()]
    fewest = lay(least).pages
    if len(rigs) <= MOST_TRIED:
        for size in sizes:
            printed = lay(size)
            if printed.pages == fewest:
                return printed
    return lay(least)


class _Sheet:
    """Pages in the making, from the top of the first one down."""

    def __init__(self, page_mm: tuple[float, float], size: float) -> None:
        from reportlab.lib.styles import ParagraphStyle

        self.page = tuple(side * MM for side in page_mm)
        self.width, self.height = (side - 2 * MARGIN_MM * MM for side in self.page)
        self.size = size
        self.body = ParagraphStyle("body", fontName=REGULAR, fontSize=size, leading=size * 1.22)
        self.name = ParagraphStyle("name", fontName=BOLD, fontSize=size * 1.5, leading=size * 1.9)
        self.head = ParagraphStyle(
            "head", fontName=BOLD, fontSize=size, leading=size * 1.3, spaceBefore=size * 0.4
        )
        self.story: list[Any] = []
        self.unknown: dict[str, None] = {}
        self.falls = False  # whether any is drawn

    def take(self, taken: Sequence[Taking]) -> None:
        """What to take for everything, place by place, and what is missing."""
        words = [*self._by_place(t for t in taken if not t.gap)]
        words += [self._said(f"{t.name}: {t.gap}", first="missing") for t in taken if t.gap]
        if words:
            self.story += [self._said("To take, for all of it", self.name), *words]

    def _by_place(self, taken: Iterator[Taking]) -> Iterator[Any]:
        by_place: dict[str, list[str]] = {}
        for taking in taken:
            by_place.setdefault(taking.place, []).append(f"{taking.name}: {taking.words}")
        for place, things in by_place.items():
            yield self._said("; ".join(things), first=place)

    def add_rig(self, checked: Checked, fall: KeptFall | None, on: date) -> None:
        """A rig's block: boxes to tick, what to cut, how it is put together, how it falls, what the
        checks say."""
        from reportlab.platypus import Spacer, Table

        beside = DRAWING_SHARE * self.width
        across = self.width - beside - GAP_MM * MM
        words = list(self._words(checked, fall, across))
        tall = sum(word.wrap(across, 10**6)[1] + word.getSpaceBefore() for word in words)
        drawing = self._drawing(checked, beside, tall, on)
        space = Spacer(1, self.size)
        if tall > self.height:  # more than a page: it cannot stay together
            self.story += [space, *words, drawing]
            return
        table = Table([[words, drawing]], colWidths=[across + GAP_MM * MM, beside])
        table.setStyle(
            [
                *_UNPADDED,
                ("RIGHTPADDING", (0, 0), (0, 0), GAP_MM * MM),
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LINEABOVE", (0, 0), (-1, 0), 0.5, "black"),
            ]
        )
        self.story += [space, table]

    def _drawing(self, checked: Checked, width: float, tall: float, on: date) -> Any:
        described = describe(checked, "", on)
        for mark in described.marks:
            self._note(f"{mark.kind} {mark.words}")
        enlarged = self.size / SMALLEST / 1.2
        high = min(max(tall, LEAST_DRAWING_MM * MM), MOST_DRAWING_MM * MM, self.height)
        drawing = draw_upright(described, width / enlarged, high / enlarged, SMALLEST)
        drawing.renderScale = enlarged
        return drawing

    def _words(self, checked: Checked, fall: KeptFall | None, width: float) -> Iterator[Any]:
        fit = checked.fit
        recipe = fit.resolved.recipe
        chosen = "".join(f", {name} {value}" for name, value in fit.resolved.chosen.items())
        yield self._said(f"{recipe.name}{chosen}", self.name)
        yield self._said(f"Tie {fit.count}, for {recipe.purpose}.")
        yield from self._boxes(fit.count, width)
        for number, cut in enumerate(cuts(fit)):
            if not number:
                yield self._said("Cut, for each", self.head)
            yield self._said(f"{cut.part}: {cut.item}; {cut.words}", first=in_cm(cut.cut_mm))
        for number, step in enumerate(steps(fit), start=1):
            if number == 1:
                yield self._said("Put together", self.head)
            yield self._said(step, first=f"{number}.")
        if fall is not None:
            yield from self._fall(fall, width)
        yield self._said(f"Checks: {checked.outcome.value}", self.head)
        yield from self._checks(checked.judgements, width)

    def _fall(self, fall: KeptFall, width: float) -> Iterator[Any]:
        """When it has settled, beside a small section with the bait's tracks; or why neither is there."""
        says = f"{fall.says[0].upper()}{fall.says[1:]}."
        if not fall.tight:
            yield self._said(says, first="How it falls.")
            return
        from reportlab.platypus import Table

        from tacklebox.printing.drawing.fall import SIZE, draw_kept
        from tacklebox.trade.settling.outcome import UNPROVEN

        by = f"With {fall.bait}, {fall.fished}, water of {fall.water_c:.0f} °C; {UNPROVEN}."
        known = fall.settled_by_s is not None
        words = [self._said(by, first=says) if known else self._said(f"{says} {by}")]
        words += [self._said(f"{note}.", first="Mind:") for note in fall.notes]
        self.falls = True
        scale, beside = self.size / SIZE / 1.2, FALL_SHARE * width
        section = draw_kept(fall, beside / scale, FALL_MM * MM / scale)
        section.renderScale = scale
        table = Table([[words, section]], colWidths=[width - beside, beside])
        table.setStyle([("VALIGN", (0, 0), (-1, -1), "TOP"), *_UNPADDED])
        yield table

    def _checks(self, judgements: Sequence[Judgement], width: float) -> list[Any]:
        """In three lines of paper: what is not sound first, as many as have room, the rest by name where
        there is room for it; what is sound and dull stays out."""
        shown = [j for j in judgements if j.is_shown]
        shown.sort(key=lambda j: list(Outcome)[::-1].index(j.outcome))
        for remedied in (True, False):
            for count in range(min(len(shown), MOST_CHECKS), 0, -1):
                for named in (
                    shown[count:],
                    [j for j in shown[count:] if j.outcome is not Outcome.SOUND],
                ):
                    said = self._said_of(shown[:count], named, remedied=remedied)
                    if sum(_lines(one, width) for one in said) <= MOST_CHECKS:
                        return said
        return self._said_of((), shown)

    def _said_of(
        self, told: Sequence[Judgement], named: Sequence[Judgement], *, remedied: bool = True
    ) -> list[Any]:
        """Checks in words, with what makes them better or without, and others by name."""
        said = []
        for judgement in told:
            words = (judgement.line if remedied else judgement.says).rstrip(".")
            said.append(
                self._said(f"{words[0].upper()}{words[1:]}.", first=judgement.outcome.value)
            )
        names: dict[Outcome, dict[str, None]] = {}
        for judgement in named:
            names.setdefault(judgement.outcome, {})[judgement.about] = None
        if names:
            words = "; ".join(f"{outcome} {', '.join(those)}" for outcome, those in names.items())
            said.append(self._said(f"{words}.", first="more when you ask for the check:"))
        return said

    def mind(self, rigs: Sequence[Checked]) -> None:
        """The cautions, once for all of it; a feeder's only where there is one."""
        from reportlab.platypus import Spacer

        recipes = [checked.fit.resolved.recipe for checked in rigs]
        feeder = any(recipe.method == "feeder" and recipe.makes == "rig" for recipe in recipes)
        cautions = (LINE_LITTER, *((FREE_RUNNING,) if feeder else ()), power_lines())
        words = " ".join(caution.says for caution in cautions)
        self.story.append(Spacer(1, self.size))
        if self.falls:
            self.story.append(self._said(HOW_DRAWN, first="Falls."))
        self.story.append(self._said(words, first="Mind."))

    def _said(self, words: str, style: Any = None, *, first: str = "") -> Any:
        """A paragraph; ``first`` stands before it in bold."""
        from reportlab.platypus import Paragraph

        self._note(first + words)
        return Paragraph(as_markup(words, first), style or self.body)

    def _note(self, words: str) -> None:
        """Keep in mind what the font has not."""
        self.unknown |= dict.fromkeys(printable(words)[1])

    def _boxes(self, count: int, width: float) -> Iterator[Any]:
        """A box to tick for each rig."""
        from reportlab.graphics.shapes import Drawing, Rect

        side, step = BOX_MM * MM, 1.3 * BOX_MM * MM
        shown = min(count, MOST_BOXES)
        across = max(1, int(width / step))
        rows = -(-shown // across)
        drawing = Drawing(width, rows * step + 2)
        for n in range(shown):
            x, y = n % across * step, (rows - 1 - n // across) * step
            drawing.add(Rect(x + 0.5, y, side, side, fillColor=None, strokeWidth=0.7))
        yield drawing
        if shown < count:
            yield self._said(f"and {count - shown} more")

    def write(self, file: BinaryIO) -> Printed:
        """Write the PDF, over what was written there before."""
        from reportlab.platypus import BaseDocTemplate, Frame, PageTemplate

        edge = MARGIN_MM * MM
        frame = Frame(
            edge, edge, self.width, self.height,
            leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0,
        )  # fmt: skip
        document = BaseDocTemplate(
            file,
            pagesize=self.page,
            pageTemplates=[PageTemplate(id="sheet", frames=[frame], onPage=_no_scaling)],
            title="Tie sheets",
            creator="Tacklebox",
            invariant=1,
            pageCompression=1,
        )
        begin_anew(file)
        document.build(self.story)
        return Printed(int(document.page), (), "".join(self.unknown))


def _lines(paragraph: Any, width: float) -> int:
    height: float = paragraph.wrap(width, 10**6)[1]
    leading: float = paragraph.style.leading
    return round(height / leading)


def _no_scaling(canvas: Any, _document: Any) -> None:
    canvas.setViewerPreference("PrintScaling", "None")
