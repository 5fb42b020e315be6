"""A match as a form: its day and venue, and what is wanted, in rows to add, move and take away."""

from dataclasses import asdict

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool

from tacklebox.desk.match_forms import MatchForm, WantRow
from tacklebox.web.names import match_names, recipe_names, venue_names
from tacklebox.web.showing import EMPTY, Filled, form_of, go, page, shown_for, try_form

router = APIRouter(prefix="/matches")
MOST_ROWS = 60


@router.get("/_new")
def new(request: Request) -> Response:
    """The form of a match that is not in the box yet."""
    return _page(request, "", EMPTY)


@router.get("/{match}/edit")
def edit(request: Request, match: str) -> Response:
    """The form of a match as its file has it."""
    return _page(request, match, EMPTY)


@router.post("/_new")
async def write_new(request: Request) -> Response:
    """A new match is written, or its rows change places."""
    return await run_in_threadpool(_write, request, "", await form_of(request))


@router.post("/{match}/edit")
async def write(request: Request, match: str) -> Response:
    """The match's file is written over, or its rows change places."""
    return await run_in_threadpool(_write, request, match, await form_of(request))


def _write(request: Request, match: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import match_forms

    rows = _rows(form)
    if form.get("move"):
        after = _moved(rows, form["move"])
        return _page(request, match, Filled(form, {}), after, at_row=_row_at(after, form["move"]))
    shown = shown_for(request)
    stem, filled = try_form(
        shown,
        form,
        lambda: shown.once(
            lambda: match_forms.write(
                shown.desk, form, rows, match, version=form.get("version", "")
            )
        ),
    )
    if filled:
        return _page(request, match, filled, rows, 400)
    return go(f"/matches/{stem}")


def _rows(form: dict[str, str]) -> list[WantRow]:
    keys = asdict(WantRow())
    numbers = [n for n in range(1, MOST_ROWS + 1) if f"want {n}.recipe" in form]
    return [WantRow(**{key: form.get(f"want {n}.{key}", "") for key in keys}) for n in numbers]


def _moved(rows: list[WantRow], move: str) -> list[WantRow]:
    """The rows with one of them moved, taken away or added; what is no such move leaves them."""
    what, _, which = move.partition(" ")
    place = int(which) - 1 if which.isdecimal() and 0 < int(which) <= len(rows) else -1
    if what == "add" and len(rows) < MOST_ROWS:
        return [*rows, WantRow()]
    if what == "out" and place >= 0:
        return rows[:place] + rows[place + 1 :]
    if place >= 0:
        row = rows.pop(place)
        rows.insert(_place_after(what, place, len(rows)), row)
    return rows


def _place_after(what: str, place: int, last: int) -> int:
    """Where a row goes from its place, counted from 0: up, down, or to the third place ("to-3")."""
    to = what.removeprefix("to-")
    if to != what and to.isdecimal() and len(to) < 4:
        place = int(to) - 1
    return min(max(place + {"up": -1, "down": 1}.get(what, 0), 0), last)


def _row_at(rows: list[WantRow], move: str) -> int:
    """Which row he goes on with after the move, so that keys need not come all the way again."""
    what, _, which = move.partition(" ")
    if what == "add" or not which.isdecimal():
        return len(rows)
    return _place_after(what, int(which) - 1, len(rows) - 1) + 1


def _page(
    request: Request,
    match: str,
    filled: Filled,
    rows: list[WantRow] | None = None,
    status: int = 200,
    *,
    at_row: int = 0,
) -> Response:
    from tacklebox.desk import match_forms

    shown = shown_for(request)
    asked: MatchForm = match_forms.form(shown.desk, match)
    return page(
        shown,
        "match_form.html",
        {
            "title": asked.values["name"] if match else "A new match",
            "asked": asked,
            "at_row": at_row,
            "recipes": recipe_names(shown),
            "matches": match_names(shown),
            "venues": venue_names(shown),
            "rows": asked.wants if rows is None else rows,
            "version": filled["version"] or asked.version,
            "filled": filled,
        },
        status,
    )
