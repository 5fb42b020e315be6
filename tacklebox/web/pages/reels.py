"""Reels and top kits: what is on each, loaded, cut back, emptied; new ones."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException

from tacklebox.web.showing import EMPTY, Filled, form_of, go, page, shown_for, try_form

if TYPE_CHECKING:
    from tacklebox.desk import Desk

router = APIRouter(prefix="/reels")


@router.get("")
def listed(request: Request, done: str = "") -> Response:
    """All that are in use, with what is on them."""
    return _page(request, done, EMPTY)


@router.post("/{what}")
async def change(request: Request, what: str) -> Response:
    """A new one, or something done to the one that the form names."""
    form = await form_of(request)
    return await run_in_threadpool(_change, request, what, form)


def _change(request: Request, what: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import ageing, reels

    shown = shown_for(request)
    desk, reel, amount = shown.desk, form.get("reel", ""), form.get("amount", "")
    asked = {
        "add": lambda: reels.add(
            desk, form.get("called", "").split(","), what=form.get("what", "reel")
        ),
        "load": lambda: reels.load(
            desk,
            reel,
            form.get("item", ""),
            amount,
            already=bool(form.get("there")),
            instead=bool(form.get("instead")),
            backing=form.get("backing", ""),
        ),
        "cut": lambda: reels.shorten(desk, reel, amount),
        "out": lambda: reels.unload(desk, reel),
        "back": lambda: reels.unload(desk, reel, back=True),
        "rename": lambda: reels.rename(desk, reel, form.get("called", "")),
        "retire": lambda: reels.retire(desk, reel),
        "age": lambda: ageing.set_limits(desk, _changed(desk, form)),
    }
    if what not in asked:
        raise HTTPException(404)
    _, filled = try_form(shown, form | {"form": f"{what}-{form.get('row', '')}"}, asked[what])
    if filled:
        return _page(request, "", filled, status=400)
    return go(f"/reels?done={what}")


def _changed(desk: "Desk", form: Mapping[str, str]) -> dict[str, str]:
    """The ages that are not as they were."""
    from tacklebox.desk import ageing

    was = {limit.what: limit.age for limit in ageing.limits(desk)}
    said = {key.removeprefix("age-"): age for key, age in form.items() if key.startswith("age-")}
    return {what: age for what, age in said.items() if age.strip() != was.get(what)}


def _page(request: Request, done: str, filled: Filled, status: int = 200) -> Response:
    from tacklebox.desk import ageing, reels, stock

    shown = shown_for(request)
    return page(
        shown,
        "reels.html",
        {
            "title": "Reels and top kits",
            "rows": shown.ask(reels.listed, shown.desk),
            "items": {
                what: shown.ask(stock.listed, shown.desk, kind=kind).items
                for what, kind in (("reel", "line"), ("top kit", "elastic"))
            },
            "old": shown.ask(ageing.old_lines, shown.desk),
            "limits": shown.ask(ageing.limits, shown.desk),
            "done": done,
            "filled": filled,
        },
        status,
    )
