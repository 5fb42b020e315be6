"""Stock: listed, searched, added, bought, taken, counted; one item with its history."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException

from tacklebox.web.asking import Asking, answers_of
from tacklebox.web.names import recipe_names
from tacklebox.web.showing import EMPTY, Filled, form_of, go, page, shown_for, try_form, whole

if TYPE_CHECKING:
    from tacklebox.desk.stock import ItemRow

router = APIRouter(prefix="/stock")
ASSUMED = ("material", "pack", "width", "shape", "level")  # what goes without saying
MOST_ROWS, MOST_MOVEMENTS = 100, 60
KINDS = (
    *("line", "hook", "hooklength", "float", "weight"),
    *("feeder", "part", "elastic", "winder"),
)


@router.get("")
def listed(
    request: Request,
    words: str = "",
    kind: str = "",
    place: str = "",
    short: str = "",
    every: str = "",
    retired: str = "",
) -> Response:
    """What there is, as far as the words, the kind and the place leave it, of it what is short alone; or
    what is retired."""
    narrowed = Narrowed(words, kind, place, short)
    return _list(request, narrowed, bool(every), EMPTY, retired=bool(retired))


@router.get("/rows")
def rows(
    request: Request, words: str = "", kind: str = "", place: str = "", short: str = ""
) -> Response:
    """The rows alone, for the list that narrows while he types."""
    from tacklebox.desk import stock

    shown, wanted = shown_for(request), Narrowed(words, kind, place, short)
    found = wanted.of(shown.ask(stock.listed, shown.desk, words, kind=kind, place=place).items)
    values = {
        "rows": found[:MOST_ROWS],
        "found": len(found),
        "every": False,
        "back": wanted.address,
    }
    return page(shown, "stock_rows.html", values)


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
    words, answers = form.get("words", ""), answers_of(form)
    asked, filled = try_form(shown, form, lambda: adding.question(shown.desk, words, said, answers))
    if asked:
        return _list(request, Narrowed(), False, Filled(form, {}), Asking(asked, answers, words))
    if not filled:
        added, filled = try_form(
            shown,
            form,
            lambda: adding.add(
                shown.desk, words, said, answers=answers, as_printed=bool(form.get("as_printed"))
            ),
        )
    if filled:
        return _list(request, Narrowed(), False, filled, status=400)
    assumed = ",".join(one.figure for one in added.assumed)
    done = "more" if added.more else "added"
    return go(
        f"/stock/{added.item.number}?done={done}" + (f"&assumed={assumed}" if assumed else "")
    )


@dataclass(frozen=True)
class Narrowed:
    """What a list is narrowed to."""

    words: str = ""
    kind: str = ""
    place: str = ""
    short: str = ""

    def of(self, rows: "Sequence[ItemRow]") -> "list[ItemRow]":
        """Of the rows those that are asked for."""
        return [row for row in rows if row.short or not self.short]

    @property
    def address(self) -> str:
        """Where that list is."""
        said = {name: value for name, value in vars(self).items() if value}
        return "/stock?" + urlencode(said)


@router.get("/{number}")
def item(
    request: Request, number: int, done: str = "", assumed: str = "", every: str = ""
) -> Response:
    """One item: its figures, its movements, his own readings; what was assumed of it when it was added."""
    return _item(request, number, done, EMPTY, assumed=assumed, every=bool(every))


@router.post("/{number}/{what}")
async def change(request: Request, number: int, what: str) -> Response:
    """More of it, less of it, or counted anew."""
    form = await form_of(request)
    return await run_in_threadpool(_change, request, number, what, form)


def _change(request: Request, number: int, what: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import adding, measuring, putting_right, stock

    shown = shown_for(request)
    desk, item = shown.desk, str(number)
    words, answers = form.get("words", ""), answers_of(form)
    said, as_read = form.get("reading", ""), bool(form.get("as_read"))
    asked = {
        "buy": lambda: stock.buy(
            desk,
            item,
            packs=form["packs"] or "1",
            price=form.get("price", ""),
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
        "edit": lambda: stock.edit(desk, item, **_edited(form), was=_was(form)),
        "reword": lambda: putting_right.reword(
            desk, item, words, answers=answers, anew=bool(form.get("anew"))
        ),
        "retire": lambda: putting_right.retire(desk, item),
        "unretire": lambda: putting_right.unretire(desk, item),
        "pull": lambda: measuring.record_pull(
            desk, item, said, knot=form.get("knot", ""), as_read=as_read
        ),
        "weigh": lambda: measuring.record_weighing(
            desk,
            item,
            said,
            count=whole(count) if (count := form.get("count", "")) else None,
            as_read=as_read,
        ),
        "bucket": lambda: measuring.record_bucket(desk, item, said, as_read=as_read),
        "stretch": lambda: measuring.record_stretch(desk, item, said),
        "withdraw": lambda: measuring.withdraw(desk, whole(form.get("number", ""))),
    }
    if what not in asked:
        raise HTTPException(404)
    form |= {"form": what}
    if what == "buy":
        form.setdefault(
            "packs", form.get("amount", "")
        )  # in the row of a list one field serves all
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
    if form.get("back", "").startswith("/stock?"):
        return go(f"{form['back']}&item={number}#item-{number}")
    return go(f"/stock/{number}?done={what}")


def _edited(form: Mapping[str, str]) -> dict[str, str]:
    """What he changed of what was shown."""
    return {
        name: form[name]
        for name in ("name", "place", "pack", "price", "minimum", "maker")
        if name in form and form[name] != form.get(f"was-{name}")
    }


def _was(form: Mapping[str, str]) -> dict[str, str]:
    """What that was when it was shown."""
    return {name: form[f"was-{name}"] for name in _edited(form) if f"was-{name}" in form}


def _list(
    request: Request,
    wanted: Narrowed,
    every: bool,
    filled: Filled,
    asking: Asking | None = None,
    *,
    retired: bool = False,
    status: int = 200,
) -> Response:
    from tacklebox.desk import stock

    shown = shown_for(request)
    found = shown.ask(
        stock.listed,
        shown.desk,
        wanted.words,
        kind=wanted.kind,
        place=wanted.place,
        retired=retired,
    )
    rows, query = wanted.of(found.items), request.query_params
    done = whole(query.get("item", ""))
    is_done = any(row.number == done for row in found.items)
    return page(
        shown,
        "stock.html",
        {
            "title": "Retired" if retired else "Stock",
            "rows": rows if every else rows[:MOST_ROWS],
            "found": len(rows),
            "every": every,
            "lead": found.forbidden_lead,
            "kinds": KINDS,
            "places": shown.ask(stock.places, shown.desk),
            "wanted": wanted,
            "back": wanted.address,
            "done": shown.ask(stock.show, shown.desk, str(done)) if is_done else None,
            "put_in": whole(query.get("put_in", "")),
            "put_next": bool(query.get("next")),
            "retired": retired,
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
    every: bool = False,
    status: int = 200,
) -> Response:
    from tacklebox.desk import measuring, plots, stock, using

    shown = shown_for(request)
    one = shown.ask(stock.show, shown.desk, str(number))
    movements = shown.ask(stock.history, shown.desk, str(number)).movements[::-1]
    return page(
        shown,
        "item.html",
        {
            "title": one.item.name,
            "shown": one,
            "row": one.item,
            "movements": movements if every else movements[:MOST_MOVEMENTS],
            "moved": len(movements),
            "recipes": recipe_names(shown) if any(one.reason for one in movements) else {},
            "plot": shown.ask(plots.on_hand_plot, shown.desk, str(number)),
            "own": shown.ask(measuring.readings_of, shown.desk, str(number)),
            "serves": shown.ask(using.recipes_for, shown.desk, str(number)),
            "done": done,
            "asking": asking,
            "assumed": [key for key in assumed.split(",") if key in ASSUMED],
            "filled": filled,
        },
        status,
    )
