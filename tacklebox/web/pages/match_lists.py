"""Lists of a match on screen: what to buy, with a tap for what is bought, and what to pack, with ticks."""

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool

from tacklebox.errors import AskedWronglyError, BenchError
from tacklebox.web.showing import form_of, go, page, shown_for, whole

router = APIRouter(prefix="/matches")


WAS, IN = "was-", "in-"  # begin the names of fields: ticked when it was shown, and now


@router.get("/{match}/pack")
def pack(request: Request, match: str, kept: str = "") -> Response:
    """What to take, in the order of loading, to tick on the screen."""
    return _pack(request, match, kept, "")


@router.post("/{match}/pack")
async def tick(request: Request, match: str) -> Response:
    """What was ticked since it was shown is in the bag, what was unticked is out of it."""
    return await run_in_threadpool(_tick, request, match, await form_of(request))


def _tick(request: Request, match: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import bag, packing

    shown = shown_for(request)
    was = {name.removeprefix(WAS) for name in form if name.startswith(WAS)}
    now = [name.removeprefix(IN) for name in form if name.startswith(IN)]
    try:
        bag.put(
            shown.desk,
            match,
            into=[key for key in now if key not in was],
            out=sorted(was.difference(now)),
            of=shown.ask(packing.pack, shown.desk, match),
        )
    except AskedWronglyError as error:
        return _pack(request, match, "", shown.word(error))
    return go(f"/matches/{match}/pack?kept=1")


def _pack(request: Request, match: str, kept: str, fault: str) -> Response:
    from tacklebox.desk import bag, packing

    shown = shown_for(request)
    made = shown.ask(packing.pack, shown.desk, match)
    values = {
        "title": made.title,
        "packing": made,
        "ticked": bag.ticked(shown.desk, match),  # never kept: a phone ticks beside the box
        "kept": kept,
        "fault": fault,
    }
    return page(shown, "pack.html", values, 400 if fault else 200)


@router.get("/{match}/shopping")
def shopping(request: Request, match: str, bought: str = "") -> Response:
    """What to buy; a tap is "bought"."""
    return _shopping(request, match, bought, "")


@router.post("/{match}/shopping/{item}")
async def buy(request: Request, match: str, item: int) -> Response:
    """So many packets of an item were bought."""
    form = await form_of(request)
    return await run_in_threadpool(_buy, request, match, item, form.get("packs", ""))


def _buy(request: Request, match: str, item: int, packs: str) -> Response:
    from tacklebox.desk import stock

    shown = shown_for(request)
    try:
        done = stock.buy(shown.desk, str(item), packs=packs)
    except BenchError as error:
        return _shopping(request, match, "", shown.refused(error))
    return go(f"/matches/{match}/shopping?bought={done.item}")


def _shopping(request: Request, match: str, bought: str, fault: str) -> Response:
    from tacklebox.desk import plans, stock

    shown = shown_for(request)
    made = shown.ask(plans.plan, shown.desk, match)
    done = shown.ask(stock.show, shown.desk, str(whole(bought))) if bought else None
    values = {"title": made.shopping.heading, "plan": made, "done": done, "fault": fault}
    return page(shown, "shopping.html", values, 400 if fault else 200)
