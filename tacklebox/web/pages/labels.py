"""Labels: the sheets as they will print, places chosen by a click, the PDF; a printer put right."""

import io
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool

from tacklebox.errors import BenchError
from tacklebox.web.showing import (
    EMPTY,
    Filled,
    Shown,
    coming,
    form_of,
    go,
    page,
    pdf,
    shown_for,
    svg,
    try_form,
)

if TYPE_CHECKING:
    from tacklebox.desk.label_sheets import SheetsShown
    from tacklebox.desk.labels import OnPaper

router = APIRouter(prefix="/labels")
MEASURES = {  # on the test page, and what is measured
    "left": "From the paper’s left edge to the upright line; 20 mm are meant",
    "top": "From the paper’s top edge to the level line; 20 mm are meant",
    "across": "From the first to the last tick along the level line; 100 mm are meant",
    "down": "From the first to the last tick along the upright line; 100 mm are meant",
}


@dataclass(frozen=True)
class LabelsAsked:
    """What the address or the form asks for; ``pick`` is what a click on a place says of it."""

    codes: tuple[str, ...]
    items: tuple[str, ...]
    kind: str
    paper: str
    start: str
    skip: tuple[int, ...]
    qr: bool
    pick: str
    no_places: str = ""  # what was said among them and is none

    @property
    def for_drawers(self) -> bool:
        """Whether drawers get labels, and not rigs."""
        return bool(self.items or self.kind)

    def address(self, **other: str) -> str:
        """Where the same is asked, but for what is other."""
        said = {
            "code": " ".join(self.codes),
            "item": " ".join(self.items),
            "kind": self.kind,
            "paper": self.paper,
            "start": self.start,
            "skip": ",".join(map(str, self.skip)),
            "qr": "" if self.qr else "no",
            "pick": self.pick,
        } | other
        return urlencode({name: value for name, value in said.items() if value})

    def picked(self, place: int) -> str:
        """Where a click on a place leads: it is the first free one, or spoiled, or spoiled no longer."""
        if self.pick != "spoiled":
            return self.address(start=str(place))
        left = {place}.symmetric_difference(self.skip)
        return self.address(skip=",".join(map(str, sorted(left))))

    @property
    def on_paper(self) -> "OnPaper":
        """The same for the desk."""
        from tacklebox.desk.labels import NEXT, OnPaper

        usual = NEXT if self.paper else OnPaper.start
        return OnPaper(self.paper, self.start or usual, self.skip, self.qr)


def _asked(said: "dict[str, str]") -> LabelsAsked:
    ticked = [name.removeprefix("code-") for name in said if name.startswith("code-")]
    skip = said.get("skip", "").replace(",", " ").split()
    return LabelsAsked(
        (*said.get("code", "").replace(",", " ").split(), *ticked),
        tuple(said.get("item", "").split()),
        said.get("kind", ""),
        said.get("paper", ""),
        said.get("start", "").strip(),
        tuple(int(one) for one in skip if _is_place(one)),
        said.get("qr", "") != "no",
        said.get("pick", ""),
        ", ".join(one for one in skip if not _is_place(one)),
    )


def _is_place(word: str) -> bool:
    return word.isascii() and word.isdecimal() and len(word) < 5


@router.get("")
def sheets(request: Request, wait: str = "") -> Response:
    """The sheets as they will print, once they are laid out."""
    return _page(shown_for(request), _asked(dict(request.query_params)), wait=bool(wait))


@router.get("/sheet.svg")
def sheet(request: Request, sheet: int = 0) -> Response:
    """One of them, drawn by the model that prints it."""
    laid = _sheets(shown_for(request), _asked(dict(request.query_params)), wait=True)
    found = laid.sheets if laid else ()
    return svg(found[sheet].svg if 0 <= sheet < len(found) else "")


@router.post("/print")
async def print_them(request: Request) -> Response:
    """The PDF; that they have a label is noted."""
    form = await form_of(request)
    return await run_in_threadpool(_print, request, form)


def _print(request: Request, form: dict[str, str]) -> Response:
    from tacklebox.desk import labels

    shown, asked = shown_for(request), _asked(form)
    printed = io.BytesIO()
    try:
        if asked.for_drawers:
            labels.print_items(shown.desk, printed, asked.on_paper, asked.items, kind=asked.kind)
            return pdf(printed.getvalue(), "drawers.pdf")
        made = labels.print_rigs(shown.desk, printed, asked.on_paper, asked.codes)
    except BenchError as error:
        return _page(shown, asked, beside={error.field: shown.refused(error)})
    if not made.codes:
        return _page(shown, asked, "Every rig that is ready has its label.")
    return pdf(printed.getvalue(), f"labels-{made.codes[0]}.pdf")


def _sheets(shown: Shown, asked: LabelsAsked, *, wait: bool) -> "SheetsShown | None":
    """The sheets; None while they are laid out, unless that is waited for."""
    from tacklebox.desk import label_sheets

    ask = shown.ask if wait else shown.ready
    if asked.for_drawers:
        return ask(
            label_sheets.drawer_sheets,
            shown.desk,
            asked.on_paper,
            asked.items,
            kind="" if asked.kind == "all" else asked.kind,
        )
    return ask(label_sheets.rig_sheets, shown.desk, asked.on_paper, asked.codes)


def _page(
    shown: Shown,
    asked: LabelsAsked,
    fault: str = "",
    *,
    beside: Mapping[str, str] | None = None,
    wait: bool = True,
) -> Response:
    from tacklebox.desk import papers

    found, wrong = None, dict(beside or {})
    if asked.no_places:
        wrong["skip"] = f'"{asked.no_places}" is no place. Give their numbers, with commas.'
    try:
        found = _sheets(shown, asked, wait=wait)
        if found is None:
            where = f"/labels?{asked.address(wait='1')}"
            return coming(shown, "Labels", "The sheets are being laid out.", where)
    except BenchError as error:
        wrong = wrong or {error.field: shown.word(error)}
    values = {
        "title": "Labels for drawers" if asked.for_drawers else "Labels",
        "asked": asked,
        "found": found,
        "papers": shown.ask(papers.listed, shown.desk).papers,
        "fault": fault,
        "beside": wrong,
        "again": f"/labels?{asked.address(wait='1')}",
    }
    return page(shown, "labels.html", values, 400 if fault or wrong else 200)


@router.get("/papers")
def papers_page(request: Request, paper: str = "", done: str = "") -> Response:
    """A printer is put right: the test page, and what was measured on it."""
    return _papers(request, paper, done, EMPTY)


@router.get("/papers/{paper}/test.pdf")
def test_page(request: Request, paper: str) -> Response:
    """The printer's test page of a paper."""
    from tacklebox.desk import papers

    printed = io.BytesIO()
    papers.print_test_page(shown_for(request).desk, paper, printed)
    return pdf(printed.getvalue(), f"printer-test-{paper}.pdf")


@router.post("/papers")
async def measured(request: Request) -> Response:
    """What was measured is kept with the box's own copy of the paper."""
    form = await form_of(request)
    return await run_in_threadpool(_measured, request, form)


def _measured(request: Request, form: dict[str, str]) -> Response:
    from tacklebox.desk import papers

    shown, paper = shown_for(request), form.get("paper", "")
    said = {name: form.get(name, "") for name in MEASURES}
    _, filled = try_form(shown, form, lambda: papers.keep_measured(shown.desk, paper, **said))
    if filled:
        return _papers(request, paper, "", filled, 400)
    return go(f"/labels/papers?{urlencode({'paper': paper, 'done': 'kept'})}")


def _papers(request: Request, paper: str, done: str, filled: Filled, status: int = 200) -> Response:
    from tacklebox.desk import papers

    shown = shown_for(request)
    found = papers.listed(shown.desk).papers
    values = {
        "title": "Put a printer right",
        "papers": found,
        "paper": paper or found[0].paper,
        "done": done,
        "filled": filled,
        "measures": MEASURES,
    }
    return page(shown, "papers.html", values, status)
