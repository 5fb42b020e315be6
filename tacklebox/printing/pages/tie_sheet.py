"""Tie sheets: for several recipes a page of totals, then one page for the bench for each."""

from collections.abc import Sequence
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
from tacklebox.rigs.tying.steps import Taking, cuts, in_cm, shot_places, steps, takings, totals
from tacklebox.trade.judgement import Outcome
from tacklebox.trade.law import FREE_RUNNING, LINE_LITTER, POWER_LINES

PAGES_MM = {"a4": (210.0, 297.0), "a5": (148.0, 210.0)}  # ISO 216
SIZES = {
    "a4": (12.0, 10.5, 9.5, 8.5, 7.5, 6.5),
    "a5": (9.0, 8.0, 7.0, 6.5, 6.0, 5.5),
}  # points; the first that does
MARGIN_MM = 10.0
DRAWING_SHARE = 0.36  # of the width between the margins
BOX_MM = 6.0  # a box to tick with a pencil
MOST_BOXES = 60


def print_tie_sheets(
    rigs: Sequence[Checked], target: Target, on: date, *, page: str = "a4", overwrite: bool = False
) -> Printed:
    """Write a page of totals for several recipes, and one for each as fitted and checked.

    Raises as ``write_tie_sheets``, AskedWronglyError for a file that is there already, and
    CannotBeDoneError if it cannot be written.
    """
    with write_aside(target, PDF, overwrite=overwrite) as aside:
        return write_tie_sheets(rigs, aside, on, page=page)


def write_tie_sheets(
    rigs: Sequence[Checked], file: BinaryIO, on: date, *, page: str = "a4"
) -> Printed:
    """Write the same to a file that is open, over what was written there before.

    Type is made smaller until a rig has room on its page; what does not fit even so goes on to the
    next. Raises AskedWronglyError for no rigs and an unknown page size, OSError if it cannot be
    written.
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
    totals = [takings(checked.fit) for checked in rigs] if len(rigs) > 1 else []

    def lay(size: float, those: Sequence[Checked], totals: Sequence[Sequence[Taking]]) -> Printed:
        sheet = _Sheet(PAGES_MM[page.lower()], size)
        if totals:
            sheet.add_totals(totals)
        for number, checked in enumerate(those):
            sheet.add_rig(number, checked, on)
        return sheet.write(file)

    # One rig of each recipe tells which sizes need not be tried on all.
    one_of_each = list({c.fit.resolved.recipe.stem: c for c in rigs}.values())
    *sizes, least = SIZES[page.lower()]
    for size in sizes:
        if len(one_of_each) < len(rigs) and lay(size, one_of_each, ()).pages > len(one_of_each):
            continue
        of_totals = lay(size, (), totals).pages if totals else 0
        printed = lay(size, rigs, totals)
        if printed.pages == len(rigs) + of_totals:
            return printed
    return lay(least, rigs, totals)


class _Sheet:
    """Pages in the making: a column of words and, on a rig's first page, its drawing beside it."""

    def __init__(self, page_mm: tuple[float, float], size: float) -> None:
        from reportlab.lib.styles import ParagraphStyle

        self.width, self.height = (side * MM for side in page_mm)
        self.margin = MARGIN_MM * MM
        self.between = self.width - 2 * self.margin
        self.enlarged = size / SMALLEST / 1.1
        self.body = ParagraphStyle("body", fontName=REGULAR, fontSize=size, leading=size * 1.25)
        self.name = ParagraphStyle("name", fontName=BOLD, fontSize=size * 2, leading=size * 2.5)
        self.head = ParagraphStyle(
            "head", fontName=BOLD, fontSize=size * 1.2, leading=size * 1.6, spaceBefore=size * 0.6
        )
        self.story: list[Any] = []
        self.unknown: dict[str, None] = {}
        self.first = ""  # the template of the first page
        self.templates: list[Any] = [self._template("words", self.between, None)]

    def _template(self, name: str, width: float, drawing: Any) -> Any:
        from reportlab.graphics import renderPDF
        from reportlab.platypus import Frame, PageTemplate

        def ink(canvas: Any, _document: Any) -> None:
            canvas.setViewerPreference("PrintScaling", "None")
            if drawing:
                left = self.width - self.margin - drawing.width * self.enlarged
                canvas.saveState()
                canvas.translate(left, self.margin)
                canvas.scale(self.enlarged, self.enlarged)
                renderPDF.draw(drawing, canvas, 0, 0, showBoundary=0)
                canvas.restoreState()

        frame = Frame(
            self.margin, self.margin, width, self.height - 2 * self.margin,
            leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0,
        )  # fmt: skip
        return PageTemplate(id=name, frames=[frame], onPage=ink)

    def _start_page(self, template: str) -> None:
        from reportlab.platypus import NextPageTemplate, PageBreak

        self.story += [NextPageTemplate(template)]
        if self.first:
            self.story.append(PageBreak())
        self.first = self.first or template
        self.story.append(NextPageTemplate("words"))

    def _say(self, words: str, style: Any = None, *, first: str = "") -> None:
        """A paragraph; ``first`` stands before it in bold."""
        from reportlab.platypus import Paragraph

        self._note(first + words)
        self.story.append(Paragraph(as_markup(words, first), style or self.body))

    def _note(self, words: str) -> None:
        """Keep in mind what the font has not."""
        self.unknown |= dict.fromkeys(printable(words)[1])

    def add_rig(self, number: int, checked: Checked, on: date) -> None:
        """A rig's page: what to take, cut, thread and place, what the checks say, boxes to tick."""
        fit = checked.fit
        recipe = fit.resolved.recipe
        described = describe(checked, "", on)
        for mark in described.marks:
            self._note(f"{mark.kind} {mark.words}")
        drawn = draw_upright(
            described,
            DRAWING_SHARE * self.between / self.enlarged,
            (self.height - 2 * self.margin) / self.enlarged,
            SMALLEST,
        )
        template = f"rig{number}"
        words_width = (1 - DRAWING_SHARE) * self.between - 4 * MM
        self.templates.append(self._template(template, words_width, drawn))
        self._start_page(template)
        self._say(recipe.name, self.name)
        chosen = ", ".join(f"{name} {value}" for name, value in fit.resolved.chosen.items())
        self._say(f"Tie {fit.count}. For {recipe.purpose}{'. ' + chosen if chosen else ''}.")
        self._boxes(fit.count, words_width)
        self._heading("Take, for all")
        self._takings(takings(fit))
        self._heading("Cut, for each")
        for cut in cuts(fit):
            self._say(f"{cut.part}: {cut.item}; {cut.words}", first=in_cm(cut.cut_mm))
        self._heading("Put together")
        for index, step in enumerate(steps(fit), start=1):
            self._say(step, first=f"{index}.")
        placed = shot_places(fit)
        if placed:
            self._heading("Shot, from the hook")
            for what, where in placed:
                self._say(what, first=where)
        self._heading(f"Checks: {checked.outcome.value}")
        for judgement in sorted(checked.judgements, key=lambda j: j.outcome is Outcome.SOUND):
            self._say(f"{judgement.about}: {judgement.says}", first=judgement.outcome.value)
        self._heading("Mind")
        for caution in (LINE_LITTER, FREE_RUNNING, POWER_LINES):
            self._say(caution.says)

    def add_totals(self, lists: Sequence[Sequence[Taking]]) -> None:
        """The page of totals: what to take for everything."""
        self._start_page("words")
        self._say("To take for all of it", self.name)
        self._takings(totals(lists))

    def _heading(self, words: str) -> None:
        self._say(words, self.head)

    def _takings(self, taken: Sequence[Taking]) -> None:
        for taking in taken:
            if taking.gap:
                self._say(f"{taking.name}: {taking.gap}", first="missing")
            else:
                place = taking.place or "no place noted"
                self._say(f"{taking.name} ({place})", first=taking.words)

    def _boxes(self, count: int, width: float) -> None:
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
        self.story.append(drawing)
        if shown < count:
            self._say(f"and {count - shown} more")

    def write(self, file: BinaryIO) -> Printed:
        """Write the PDF, over what was written there before."""
        from reportlab.platypus import BaseDocTemplate

        document = BaseDocTemplate(
            file,
            pagesize=(self.width, self.height),
            pageTemplates=sorted(self.templates, key=lambda t: t.id != self.first),
            title="Tie sheets",
            creator="Tacklebox",
            invariant=1,
            pageCompression=1,
        )
        begin_anew(file)
        document.build(self.story)
        return Printed(int(document.page), (), "".join(self.unknown))
