"""Matches: what is ready, what to tie and to buy, the plan tied, what to take, what it will cost."""

import io
from typing import TYPE_CHECKING

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool

from tacklebox.errors import BenchError
from tacklebox.web.names import venue_names
from tacklebox.web.showing import (
    EMPTY,
    Filled,
    Shown,
    coming,
    download,
    form_of,
    page,
    pdf,
    shown_for,
)

if TYPE_CHECKING:
    from tacklebox.desk.plans import MatchPlan

router = APIRouter(prefix="/matches")


@router.get("")
def listed(request: Request) -> Response:
    """The matches of the box, the earliest first."""
    from tacklebox.desk import matches

    shown = shown_for(request)
    found = matches.listed(shown.desk)
    return page(
        shown,
        "matches.html",
        {
            "title": "Matches",
            "matches": found.matches,
            "called": venue_names(shown),
            "today": shown.desk.today(),
            "faults": [shown.word(fault) for fault in found.faults],
        },
    )


@router.get("/{match}")
def plan(request: Request, match: str, wait: str = "") -> Response:
    """The plan of a match: what is ready, what to tie, what to buy, what the venue says."""
    from tacklebox.desk import plans

    shown = shown_for(request)
    made = (shown.ask if wait else shown.ready)(plans.plan, shown.desk, match)
    return _plan(shown, match, made, "", EMPTY)


def _plan(
    shown: Shown, match: str, made: "MatchPlan | None", fault: str, filled: Filled
) -> Response:
    from tacklebox.desk import changes

    if made is None:
        words = "Your stock is being divided over all that is wanted."
        return coming(shown, "The plan", words, f"/matches/{match}?wait=1")
    values = {
        "title": made.name,
        "plan": made,
        "seen": changes.state(shown.desk),
        "today": shown.desk.today(),
        "again": f"/matches/{match}?wait=1",
        "fault": fault,
        "filled": filled,
    }
    return page(shown, "plan.html", values, 409 if fault or filled.faults else 200)


@router.post("/{match}/tie")
async def tie(request: Request, match: str) -> Response:
    """All that the plan says is tied, as one action."""
    form = await form_of(request)
    return await run_in_threadpool(_tie, request, match, form)


def _tie(request: Request, match: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import changes, plans, tie_plan

    shown = shown_for(request)
    if form.get("seen") and form["seen"] != changes.state(shown.desk):
        changes.refuse_done(shown.desk)
        made = shown.ask(plans.plan, shown.desk, match)
        fault = (
            "The box was changed since this plan was shown. Nothing was tied: this is the plan now."
        )
        return _plan(shown, match, made, fault, Filled(form, {}))
    because, on = form.get("because", ""), form.get("on", "")
    try:
        done = tie_plan.tie(shown.desk, match, because=because, on=on)
    except BenchError as error:
        made = shown.ask(plans.plan, shown.desk, match)
        filled = Filled(form, {error.field: shown.refused(error)}, at=error.field)
        return _plan(shown, match, made, "", filled)
    return page(shown, "plan_tied.html", {"title": f"Tied for {done.name}", "done": done})


@router.get("/{match}/sheets.pdf")
def sheets(request: Request, match: str) -> Response:
    """The bench's pages for all that the plan would tie."""
    from tacklebox.desk import plans, tie_sheets

    desk = shown_for(request).desk
    to_tie = {w.recipe: str(w.tie) for w in plans.plan(desk, match).wants if w.tie}
    printed = io.BytesIO()
    tie_sheets.print_sheets(desk, to_tie, {}, printed)
    return pdf(printed.getvalue(), f"tie-sheets-{match}.pdf")


@router.get("/{match}/pack.pdf")
def pack(request: Request, match: str) -> Response:
    """What to take, in the order of loading, to tick off in the shed."""
    from tacklebox.desk import packing

    printed = io.BytesIO()
    packing.pack(shown_for(request).desk, match, printed)
    return pdf(printed.getvalue(), f"pack-{match}.pdf")


@router.get("/{match}/bank.html")
def for_the_water(request: Request, match: str) -> Response:
    """The page for the water: a download, to be opened on the phone; here nothing of it runs."""
    from tacklebox.desk import bank

    made = io.BytesIO()
    bank.page(shown_for(request).desk, match, made)
    return download(made.getvalue(), f"bank-{match}.html", "text/html")


@router.get("/{match}/card.pdf")
def card(request: Request, match: str) -> Response:
    """The same for a pen, to be folded into a shirt's pocket."""
    from tacklebox.desk import bank

    printed = io.BytesIO()
    bank.card(shown_for(request).desk, match, printed)
    return pdf(printed.getvalue(), f"card-{match}.pdf")


@router.get("/{match}/shopping.pdf")
def shopping(request: Request, match: str) -> Response:
    """What to buy, to tick off in the shop."""
    from tacklebox.desk import plans
    from tacklebox.desk.shopping import ListFiles

    printed = io.BytesIO()
    plans.to_buy(shown_for(request).desk, match, ListFiles(pdf=printed))
    return pdf(printed.getvalue(), f"shopping-{match}.pdf")
