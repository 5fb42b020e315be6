"""Lists of a match on screen: what to buy, with a tap for what is bought, and what to pack, with ticks."""

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool

from tacklebox.errors import BenchError
from tacklebox.web.showing import form_of, go, page, shown_for, whole

router = APIRouter(prefix="/matches")


@router.get("/{match}/pack")
def pack(request: Request, match: str) -> Response:
    """What to take, in the order of loading, to tick on the screen."""
    from tacklebox.desk import packing

    shown = shown_for(request)
    made = shown.ask(packing.pack, shown.desk, match)
    return page(shown, "pack.html", {"title": made.title, "packing": made})


@router.get("/{match}/shopping")
def shopping(request: Request, match: str, bought: str = "") -> Response:
    """What to buy; a tap is "bought"."""
    return _shopping(request, match, bought, "")


@router.post("/{match}/shopping/{item}")
async def buy(request: Request, match: str, item: int) -> Response:
    """So many packets of an item were bought."""
    form = await form_of(request)
    return await run_in_threadpool(_buy, request, match, item, whole(form.get("packs", "")))


def _buy(request: Request, match: str, item: int, packs: int) -> Response:
    from tacklebox.desk import stock

    shown = shown_for(request)
    try:
        done = stock.buy(shown.desk, str(item), packs=packs)
    except BenchError as error:
        return _shopping(request, match, "", shown.word(error))
    return go(f"/matches/{match}/shopping?bought={done.item}")


def _shopping(request: Request, match: str, bought: str, fault: str) -> Response:
    from tacklebox.desk import plans, stock

    shown = shown_for(request)
    made = shown.ask(plans.plan, shown.desk, match)
    done = shown.ask(stock.show, shown.desk, str(whole(bought))).item if bought else None
    values = {"title": made.shopping.heading, "plan": made, "done": done, "fault": fault}
    return page(shown, "shopping.html", values, 400 if fault else 200)
