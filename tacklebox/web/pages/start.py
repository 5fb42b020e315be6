"""The bench: what is next, what is short, what was last done; and one field that finds anything."""

from urllib.parse import quote, urlencode

from fastapi import APIRouter, Request
from fastapi.responses import Response

from tacklebox.errors import BenchError
from tacklebox.web.showing import Shown, go, page, shown_for

router = APIRouter()
# Where a thing that was found has its page.
PAGES = {
    "item": "/stock/",
    "rig": "/rigs/",
    "batch": "/wallet/",
    "recipe": "/recipes/",
    "venue": "/venues/",
    "match": "/matches/",
    "reel": "/reels?",
    "top kit": "/reels?",
}


@router.get("/")
def bench(request: Request) -> Response:
    """The first page."""
    return _bench(shown_for(request))


@router.get("/next")
def next_match(request: Request) -> Response:
    """What the next match still wants, once its plan is made."""
    from tacklebox.desk import matches, plans

    shown = shown_for(request)
    match = shown.ask(matches.coming, shown.desk)
    made, fault = None, ""
    try:
        made = shown.ask(plans.plan, shown.desk, match.match) if match else None
    except BenchError as error:  # a part of the bench, so no page of its own
        fault = shown.word(error)
    return page(shown, "bench_next.html", {"plan": made, "plan_fault": fault})


@router.get("/find")
def find(request: Request) -> Response:
    """What one field finds; a code or words that find one thing lead to it at once."""
    from tacklebox.desk import finding

    shown, words = shown_for(request), request.query_params.get("words", "")
    found = finding.find(shown.desk, words)
    if len(found.things) == 1:
        (only,) = found.things
        typed = f"?{urlencode({'typed': only.nearest_to})}" if only.nearest_to else ""
        return go(f"{PAGES[only.sort]}{quote(only.key)}{typed}")
    values = {"title": "Find", "words": words, "found": found, "pages": PAGES}
    return page(shown, "find.html", values)


def _bench(shown: Shown) -> Response:
    from tacklebox.desk import ageing, care, copies, labels, matches, plans, stock, venues

    short = shown.ask(stock.short, shown.desk)
    match = shown.ask(matches.coming, shown.desk)
    plan, plan_fault = None, ""
    try:
        plan = shown.at_hand(plans.plan, shown.desk, match.match) if match else None
    except BenchError as error:
        plan_fault = shown.word(error)
    return page(
        shown,
        "bench.html",
        {
            "title": "Bench",
            "owed": labels.owed(shown.desk),
            "short": short.items,
            "items": short.of,
            "lead": short.forbidden_lead,
            "old": shown.ask(ageing.old_lines, shown.desk),
            "history": care.history(shown.desk),
            "match": match,
            "venue": venues.called(shown.desk, match.venue) if match else "",
            "days": (match.on - shown.desk.today()).days if match else 0,
            "plan": plan,
            "plan_fault": plan_fault,
            "copies": copies.elsewhere(shown.desk),
        },
    )
