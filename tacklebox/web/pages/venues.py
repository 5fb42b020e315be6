"""Venues: what there is, and each one's board as a form."""

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool

from tacklebox.web.showing import EMPTY, Filled, form_of, go, page, shown_for, try_form

router = APIRouter(prefix="/venues")


@router.get("")
def listed(request: Request, done: str = "") -> Response:
    """The venues of the box."""
    from tacklebox.desk import venues

    shown = shown_for(request)
    found = venues.listed(shown.desk)
    faults = [shown.word(fault) for fault in found.faults]
    values = {"title": "Venues", "venues": found.venues, "faults": faults, "done": done}
    return page(shown, "venues.html", values)


@router.get("/_new")
def new(request: Request) -> Response:
    """The form of a venue that is not in the box yet."""
    return _page(request, "", EMPTY)


@router.get("/{venue}")
def one(request: Request, venue: str) -> Response:
    """A venue's board as its file has it."""
    return _page(request, venue, EMPTY)


@router.post("/{venue}")
async def write(request: Request, venue: str) -> Response:
    """The venue's file is written, or what is wrong stands beside its field."""
    form = await form_of(request)
    return await run_in_threadpool(_write, request, "" if venue == "_new" else venue, form)


def _write(request: Request, venue: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import venue_forms

    shown = shown_for(request)
    every = dict.fromkeys(venue_forms.TICKS, "") | form
    version = every.pop("version", "")
    _, filled = try_form(
        shown,
        form,
        lambda: shown.once(lambda: venue_forms.write(shown.desk, every, venue, version=version)),
    )
    return _page(request, venue, filled, 400) if filled else go("/venues?done=yes")


def _page(request: Request, venue: str, filled: Filled, status: int = 200) -> Response:
    from tacklebox.desk import venue_forms

    shown = shown_for(request)
    asked = venue_forms.form(shown.desk, venue)
    return page(
        shown,
        "venue.html",
        {
            "title": asked.values["name"] if venue else "A new venue",
            "asked": asked,
            "said": filled.values or asked.values,
            "version": filled["version"] or asked.version,
            "filled": filled,
        },
        status,
    )
