"""Stock: listed, searched, added, bought, taken, counted; one item with its history."""

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException

from tacklebox.web.showing import EMPTY, Filled, form_of, go, page, shown_for, try_form, whole

router = APIRouter(prefix="/stock")
MOST_ROWS = 100
KINDS = (
    *("line", "hook", "hooklength", "float", "weight"),
    *("feeder", "part", "elastic", "winder"),
)


@router.get("")
def listed(request: Request, words: str = "", kind: str = "", every: str = "") -> Response:
    """What there is, as far as the words and the kind leave it."""
    return _list(request, words, kind, bool(every), EMPTY)


@router.get("/rows")
def rows(request: Request, words: str = "", kind: str = "") -> Response:
    """The rows alone, for the list that narrows while he types."""
    from tacklebox.desk import stock

    shown = shown_for(request)
    found = stock.listed(shown.desk, words, kind=kind).items
    return page(shown, "stock_rows.html", {"rows": found[:MOST_ROWS], "found": len(found)})


@router.post("")
async def add(request: Request) -> Response:
    """A new item in his own words."""
    form = await form_of(request)
    return await run_in_threadpool(_add, request, form)


def _add(request: Request, form: dict[str, str]) -> Response:
    from tacklebox.desk import stock

    shown = shown_for(request)
    said = stock.NewStock(
        name=form.get("name", ""),
        place=form.get("place", ""),
        pack=form.get("pack", ""),
        price=form.get("price", ""),
        minimum=form.get("minimum", ""),
        amount=form.get("amount", ""),
    )
    added, filled = try_form(
        shown,
        form,
        lambda: stock.add(
            shown.desk, form.get("words", ""), said, as_printed=bool(form.get("as_printed"))
        ),
    )
    if filled:
        return _list(request, "", "", False, filled, status=400)
    return go(f"/stock/{added.item.number}?done=added")


@router.get("/{number}")
def item(request: Request, number: int, done: str = "") -> Response:
    """One item: its figures, its movements, his own readings."""
    return _item(request, number, done, EMPTY)


@router.post("/{number}/{what}")
async def change(request: Request, number: int, what: str) -> Response:
    """More of it, less of it, or counted anew."""
    form = await form_of(request)
    return await run_in_threadpool(_change, request, number, what, form)


def _change(request: Request, number: int, what: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import measuring, stock

    shown = shown_for(request)
    desk, item = shown.desk, str(number)
    said, as_read = form.get("reading", ""), bool(form.get("as_read"))
    asked = {
        "buy": lambda: stock.buy(
            desk, item, packs=whole(form.get("packs", "1")), price=form.get("price", "")
        ),
        "take": lambda: stock.take(
            desk,
            item,
            form.get("amount", ""),
            why=form.get("why", "lost"),
            reason=form.get("reason", ""),
        ),
        "count": lambda: stock.count(desk, item, form.get("amount", "")),
        "level": lambda: stock.level(desk, item, form.get("level", "")),
        "edit": lambda: stock.edit(
            desk,
            item,
            name=form.get("name"),
            place=form.get("place"),
            price=form.get("price") or None,
            minimum=form.get("minimum") or None,
            maker=form.get("maker"),
        ),
        "pull": lambda: measuring.record_pull(
            desk, item, said, knot=form.get("knot", ""), as_read=as_read
        ),
        "weigh": lambda: measuring.record_weighing(
            desk, item, said, count=whole(form.get("count", "20")), as_read=as_read
        ),
        "bucket": lambda: measuring.record_bucket(desk, item, said, as_read=as_read),
    }
    if what not in asked:
        raise HTTPException(404)
    _, filled = try_form(shown, form | {"form": what}, asked[what])
    if filled:
        return _item(request, number, "", filled, status=400)
    return go(f"/stock/{number}?done={what}")


def _list(
    request: Request, words: str, kind: str, every: bool, filled: Filled, status: int = 200
) -> Response:
    from tacklebox.desk import stock

    shown = shown_for(request)
    found = stock.listed(shown.desk, words, kind=kind)
    return page(
        shown,
        "stock.html",
        {
            "title": "Stock",
            "rows": found.items if every else found.items[:MOST_ROWS],
            "found": len(found.items),
            "lead": found.forbidden_lead,
            "kinds": KINDS,
            "kind": kind,
            "words": words,
            "filled": filled,
        },
        status,
    )


def _item(request: Request, number: int, done: str, filled: Filled, status: int = 200) -> Response:
    from tacklebox.desk import measuring, stock

    shown = shown_for(request)
    one = stock.show(shown.desk, str(number))
    return page(
        shown,
        "item.html",
        {
            "title": one.item.name,
            "shown": one,
            "row": one.item,
            "movements": stock.history(shown.desk, str(number)).movements[::-1],
            "own": measuring.readings_of(shown.desk, str(number)),
            "done": done,
            "filled": filled,
        },
        status,
    )
