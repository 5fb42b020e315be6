"""Stock: listed, searched, added, bought, taken, counted; one item with its history."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException

from tacklebox.web.showing import EMPTY, Filled, form_of, go, page, shown_for, try_form, whole

if TYPE_CHECKING:
    from tacklebox.desk.adding import StockQuestion

router = APIRouter(prefix="/stock")
ASSUMED = ("material", "pack", "width", "shape", "level")  # what goes without saying
MOST_ROWS = 100
KINDS = (
    *("line", "hook", "hooklength", "float", "weight"),
    *("feeder", "part", "elastic", "winder"),
)


@router.get("")
def listed(
    request: Request, words: str = "", kind: str = "", every: str = "", retired: str = ""
) -> Response:
    """What there is, as far as the words and the kind leave it; or what is retired."""
    return _list(request, words, kind, bool(every), EMPTY, retired=bool(retired))


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
    from tacklebox.desk import adding

    shown = shown_for(request)
    said = adding.NewStock(
        name=form.get("name", ""),
        place=form.get("place", ""),
        pack=form.get("pack", ""),
        price=form.get("price", ""),
        minimum=form.get("minimum", ""),
        amount=form.get("amount", ""),
    )
    words, answers = form.get("words", ""), _answers(form)
    asked, filled = try_form(shown, form, lambda: adding.question(shown.desk, words, said, answers))
    if asked:
        return _list(request, "", "", False, Filled(form, {}), Asking(asked, answers, words))
    if not filled:
        added, filled = try_form(
            shown,
            form,
            lambda: adding.add(
                shown.desk, words, said, answers=answers, as_printed=bool(form.get("as_printed"))
            ),
        )
    if filled:
        return _list(request, "", "", False, filled, status=400)
    assumed = ",".join(one.figure for one in added.assumed)
    done = "more" if added.more else "added"
    return go(
        f"/stock/{added.item.number}?done={done}" + (f"&assumed={assumed}" if assumed else "")
    )


@dataclass(frozen=True)
class Asking:
    """A question in the form: what was answered before it, and the words that all of it is about."""

    question: "StockQuestion"
    answers: list[str]
    words: str


def _answers(form: dict[str, str]) -> list[str]:
    """What was answered so far; nothing once the words were changed."""
    answers: list[str] = []
    while (answer := form.get(f"answer{len(answers)}")) and form.get("asked") == form.get("words"):
        answers.append(answer)
    return answers


@router.get("/{number}")
def item(request: Request, number: int, done: str = "", assumed: str = "") -> Response:
    """One item: its figures, its movements, his own readings; what was assumed of it when it was added."""
    return _item(request, number, done, EMPTY, assumed=assumed)


@router.post("/{number}/{what}")
async def change(request: Request, number: int, what: str) -> Response:
    """More of it, less of it, or counted anew."""
    form = await form_of(request)
    return await run_in_threadpool(_change, request, number, what, form)


def _change(request: Request, number: int, what: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import adding, measuring, putting_right, stock

    shown = shown_for(request)
    desk, item = shown.desk, str(number)
    words, answers = form.get("words", ""), _answers(form)
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
        "level": lambda: stock.level(
            desk, item, form.get("level", ""), not_counted=bool(form.get("not_counted"))
        ),
        "edit": lambda: stock.edit(
            desk,
            item,
            name=form.get("name"),
            place=form.get("place"),
            pack=form.get("pack") or None,
            price=form.get("price") or None,
            minimum=form.get("minimum") or None,
            maker=form.get("maker"),
        ),
        "reword": lambda: putting_right.reword(
            desk, item, words, answers=answers, anew=bool(form.get("anew"))
        ),
        "retire": lambda: putting_right.retire(desk, item),
        "unretire": lambda: putting_right.unretire(desk, item),
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
    form |= {"form": what}
    if what == "reword":
        question, filled = try_form(shown, form, lambda: adding.question_of_words(words, answers))
        if question:
            return _item(request, number, "", Filled(form, {}), Asking(question, answers, words))
        if filled:
            return _item(request, number, "", filled, status=400)
    done, filled = try_form(shown, form, asked[what])
    if filled:
        return _item(request, number, "", filled, status=400)
    if what == "reword":
        number = done.number
    return go(f"/stock/{number}?done={what}")


def _list(
    request: Request,
    words: str,
    kind: str,
    every: bool,
    filled: Filled,
    asking: Asking | None = None,
    *,
    retired: bool = False,
    status: int = 200,
) -> Response:
    from tacklebox.desk import stock

    shown = shown_for(request)
    found = stock.listed(shown.desk, words, kind=kind, retired=retired)
    return page(
        shown,
        "stock.html",
        {
            "title": "Retired" if retired else "Stock",
            "rows": found.items if every else found.items[:MOST_ROWS],
            "found": len(found.items),
            "lead": found.forbidden_lead,
            "kinds": KINDS,
            "kind": kind,
            "words": words,
            "filled": filled,
            "asking": asking,
        },
        status,
    )


def _item(
    request: Request,
    number: int,
    done: str,
    filled: Filled,
    asking: Asking | None = None,
    *,
    assumed: str = "",
    status: int = 200,
) -> Response:
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
            "asking": asking,
            "assumed": [key for key in assumed.split(",") if key in ASSUMED],
            "filled": filled,
        },
        status,
    )
