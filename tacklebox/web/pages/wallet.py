"""The wallet: hooklengths by hook and line, their batches; lost, thrown out, labelled."""

import io
from dataclasses import replace

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException

from tacklebox.errors import BenchError
from tacklebox.web.asking import Asking, answers_of
from tacklebox.web.showing import (
    EMPTY,
    Filled,
    form_of,
    go,
    page,
    pdf,
    shown_for,
    svg,
    try_form,
)

router = APIRouter(prefix="/wallet")
WHY = {"lost": "lost", "thrown-out": "thrown out"}


@router.get("")
def wallet(request: Request, every: str = "", done: str = "") -> Response:
    """What there is; with ``every`` those too of which none is left."""
    return _wallet(request, bool(every), done, "")


@router.get("/add")
def add_page(request: Request) -> Response:
    """A form for hooklengths that were tied before, or bought."""
    return _add_page(request, EMPTY)


@router.post("/add")
async def add(request: Request) -> Response:
    """Those that are there already, as a batch."""
    form = await form_of(request)
    return await run_in_threadpool(_add, request, form)


def _add(request: Request, form: dict[str, str]) -> Response:
    from tacklebox.desk import hooklengths

    shown = shown_for(request)
    words, answers = form.get("words", "").strip(), answers_of(form)
    asked, filled = try_form(shown, form, lambda: hooklengths.question(shown.desk, words, answers))
    if asked:
        return _add_page(request, Filled(form, {}), Asking(asked, answers, words))
    if not filled:
        _, filled = try_form(
            shown,
            form,
            lambda: hooklengths.add(
                shown.desk,
                {words: form.get("count", "")},
                answers={words: answers},
                counted=form.get("counted", ""),
                place=form.get("place", ""),
                on=form.get("on", ""),
            ),
        )
    if not filled:
        return go("/wallet?done=added")
    # The desk names the count by what it is of; here it has a field of its own.
    faults = {
        {"hooklengths": "count"}.get(name, name): says for name, says in filled.faults.items()
    }
    still_asked = Asking(None, answers, words) if answers else None
    return _add_page(request, Filled(form, faults), still_asked, status=400)


def _add_page(
    request: Request, filled: Filled, asking: Asking | None = None, status: int = 200
) -> Response:
    values = {"title": "Hooklengths that are there already", "filled": filled, "asking": asking}
    return page(shown_for(request), "wallet_add.html", values, status)


@router.get("/{code}")
def batch(request: Request, code: str, typed: str = "") -> Response:
    """One batch by the code on its label, or by the nearest to what was ``typed``."""
    from tacklebox.desk import hooklengths

    shown = shown_for(request)
    one = hooklengths.show(shown.desk, code)
    title = f"{one.batch.code} · {one.made.name or one.item.name}"
    return page(shown, "batch.html", {"title": title, "one": one, "typed": typed})


@router.get("/{code}/drawing.svg")
def drawing(request: Request, code: str) -> Response:
    """Hooklengths of a batch drawn as they were tied."""
    from tacklebox.desk import hooklengths

    return svg(hooklengths.draw(shown_for(request).desk, code))


@router.get("/{code}/glance.svg")
def glance(request: Request, code: str) -> Response:
    """Hooklengths of a batch drawn to be known at a glance."""
    from tacklebox.desk import hooklengths

    return svg(hooklengths.draw(shown_for(request).desk, code, glance=True))


@router.post("/labels")
async def labels(request: Request) -> Response:
    """Labels of the batches that are ticked."""
    form = await form_of(request)
    return await run_in_threadpool(_labels, request, form)


def _labels(request: Request, form: dict[str, str]) -> Response:
    from tacklebox.desk import labels as printing

    shown = shown_for(request)
    codes = [key.removeprefix("code-") for key in form if key.startswith("code-")]
    if not codes:
        return _wallet(request, False, "", "No batch is ticked.", Filled(form, {}))
    paper = printing.OnPaper(form.get("paper") or "wallet-60", form.get("start") or printing.NEXT)
    printed = io.BytesIO()
    try:
        made = printing.print_rigs(shown.desk, printed, paper, codes)
    except BenchError as error:
        return _wallet(
            request, False, "", "", Filled(form, {"": shown.refused(error)}, at=error.field)
        )
    return pdf(printed.getvalue(), f"labels-{made.codes[0]}.pdf")


@router.post("/{item}/{what}")
async def take(request: Request, item: int, what: str) -> Response:
    """So many of a kind are lost or thrown out, of the oldest batch first."""
    form = await form_of(request)
    return await run_in_threadpool(_take, request, item, what, form)


def _take(request: Request, item: int, what: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import stock

    shown = shown_for(request)
    if what not in WHY:
        raise HTTPException(404)
    try:
        stock.take(shown.desk, str(item), form.get("count", ""), why=WHY[what])
    except BenchError as error:
        filled = Filled({f"count-{item}": form.get("count", "")}, {"": shown.refused(error)})
        return _wallet(request, False, "", "", replace(filled, at=f"count-{item}"))
    return go(f"/wallet?done={what}")


def _wallet(
    request: Request, every: bool, done: str, fault: str, filled: Filled = EMPTY
) -> Response:
    from tacklebox.desk import hooklengths, papers

    shown = shown_for(request)
    return page(
        shown,
        "wallet.html",
        {
            "title": "Hooklength wallet",
            "hooklengths": shown.ask(hooklengths.listed, shown.desk, every=every),
            "papers": shown.ask(papers.listed, shown.desk).papers,
            "every": every,
            "done": done,
            "fault": fault,
            "filled": filled,
        },
        400 if fault or filled.faults else 200,
    )
