"""How a recipe's rig falls: figures, still pictures, and, with scripts, played in his own time.

A bite, a feeder's hooklength and the wind's tow are told where they are asked for.
"""

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool

from tacklebox.errors import BenchError
from tacklebox.web.showing import (
    EMPTY,
    Filled,
    data,
    form_of,
    go,
    input_of,
    page,
    shown_for,
    svg,
    try_form,
)

if TYPE_CHECKING:
    from tacklebox.desk import Desk
    from tacklebox.desk.settling import FallQuestion

router = APIRouter(prefix="/recipes")
CHOOSE = "choose-"
RARELY = (
    "wind",
    "plumbed",
    "hook_mass",
    "float_mass",
    "away",
    "seen",
    "seconds",
    "held",
)  # asked for, so folded away


FIELDS = {"depth": "feeder_in"}  # what they are called here, where it is another


@dataclass(frozen=True)
class FallAsked:
    """The question in the address: the first pattern, those beside it, what else is to be told."""

    first: "FallQuestion"
    beside: tuple[str, ...]
    bite_at: str
    feeder_in: str
    feeder_sinks: str


@router.get("/{recipe}/fall")
def fall(request: Request, recipe: str) -> Response:
    """The figures of the fall with its still pictures, and the form that asks for them."""
    return _fall(request, recipe, EMPTY)


@router.post("/{recipe}/fall")
async def time_bait(request: Request, recipe: str) -> Response:
    """His own timing of a bait, kept for this rig and all others."""
    form = await form_of(request)
    return await run_in_threadpool(_time_bait, request, recipe, form)


def _time_bait(request: Request, recipe: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import measuring

    shown = shown_for(request)
    kept, filled = try_form(
        shown,
        form | {"form": "sink"},
        lambda: measuring.record_sinking(
            shown.desk,
            form.get("bait", ""),
            form.get("reading", ""),
            water=form.get("water", ""),
            as_read=bool(form.get("as_read")),
        ),
    )
    if filled:
        return _fall(request, recipe, filled)
    return go(f"/recipes/{quote(recipe, safe='')}/fall?bait={quote(kept.name)}&done=sink")


def _fall(request: Request, recipe: str, filled: Filled) -> Response:
    from tacklebox.desk import recipes

    shown = shown_for(request)
    one = recipes.show(shown.desk, recipe)
    asked = _asked(request, recipe)
    found: dict[str, Any] = dict.fromkeys(("found", "held", "swung", "towed"))
    fault, beside = "", {}
    try:
        _find(shown.desk, asked, found)
    except BenchError as error:
        at, said = FIELDS.get(error.field, error.field), shown.word(error)
        fault, beside = "" if at else said, {at: said}
    values: dict[str, Any] = {
        "title": f"How it falls: {one.name}",
        "one": one,
        "choices": asked.first.choices,
        "said": dict(request.query_params),
        "rarely": any(request.query_params.get(name, "").strip() for name in RARELY),
        "query": request.url.query,
        "fault": fault,
        "beside": beside,
        "filled": filled,
    }
    status = 400 if beside or filled.faults else 200
    return page(shown, "settling.html", values | found, status)


def _find(desk: "Desk", asked: FallAsked, found: dict[str, Any]) -> None:
    """What was asked, as far as it can be found. Raises as the desk does."""
    from tacklebox.desk import settling

    found["found"] = settling.settle(desk, asked.first, asked.beside)
    if asked.bite_at:
        found["held"] = settling.bite(desk, asked.first, asked.bite_at)
    if asked.feeder_in:
        found["swung"] = settling.swing(
            desk, asked.first, asked.feeder_in, sinks=asked.feeder_sinks
        )
    if found["found"].wind_m_s:
        found["towed"] = settling.tow(desk, asked.first)


@router.get("/{recipe}/fall.svg")
def pictures(request: Request, recipe: str) -> Response:
    """The water in section and the tip over time, drawn."""
    from tacklebox.desk import settling

    asked = _asked(request, recipe)
    desk = shown_for(request).desk
    return svg(settling.drawn(desk, asked.first, asked.beside, bite_at=asked.bite_at)[1])


@router.get("/{recipe}/fall.json")
def stills(request: Request, recipe: str, band: str = "") -> Response:
    """The fall still by still, to be played; with ``band`` the slack line too."""
    from tacklebox.desk import as_json
    from tacklebox.desk.playing import played

    shown = shown_for(request)
    asked = _asked(request, recipe)
    try:
        found = played(
            shown.desk, asked.first, asked.beside, band=bool(band), bite_at=asked.bite_at
        )
        return data(as_json(found))
    except BenchError as error:
        at = input_of(FIELDS.get(error.field, error.field))
        return data({"fault": shown.word(error), "at": at}, 400)


def _asked(request: Request, recipe: str) -> FallAsked:
    """The question in the address; what is left empty is as usual."""
    from tacklebox.desk.settling import FallQuestion, Fishing

    said = {key: value for key, value in request.query_params.items() if value.strip()}
    choices = {k.removeprefix(CHOOSE): v for k, v in said.items() if k.startswith(CHOOSE)}
    fishing = Fishing(**{f.name: said[f.name] for f in fields(Fishing) if f.name in said})
    return FallAsked(
        FallQuestion(recipe, choices, {}, fishing, "held" in said),
        tuple(filter(None, map(str.strip, said.get("beside", "").split(";")))),
        *(said.get(name, "") for name in ("bite_at", "feeder_in", "feeder_sinks")),
    )
