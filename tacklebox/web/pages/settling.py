"""How a recipe's rig falls: figures, still pictures, and, with scripts, played in his own time."""

from dataclasses import fields
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import JSONResponse, Response

from tacklebox.errors import BenchError
from tacklebox.web.showing import page, shown_for, svg

router = APIRouter(prefix="/recipes")
CHOOSE = "choose-"


@router.get("/{recipe}/fall")
def fall(request: Request, recipe: str) -> Response:
    """The figures of the fall with its still pictures, and the form that asks for them."""
    from tacklebox.desk import recipes, settling

    shown = shown_for(request)
    one = recipes.show(shown.desk, recipe)
    asked, beside = _asked(request, recipe)
    found, fault = None, ""
    try:
        found = settling.settle(shown.desk, asked, beside)
    except BenchError as error:
        fault = shown.word(error)
    values: dict[str, Any] = {
        "title": f"How it falls: {one.name}",
        "one": one,
        "choices": asked.choices,
        "fishing": asked.fishing,
        "beside": beside[0] if beside else "",
        "query": request.url.query,
        "found": found,
        "fault": fault,
    }
    return page(shown, "settling.html", values, 400 if fault else 200)


@router.get("/{recipe}/fall.svg")
def pictures(request: Request, recipe: str) -> Response:
    """The water in section and the tip over time, drawn."""
    from tacklebox.desk import settling

    asked, beside = _asked(request, recipe)
    return svg(settling.drawn(shown_for(request).desk, asked, beside)[1])


@router.get("/{recipe}/fall.json")
def stills(request: Request, recipe: str, band: str = "") -> Response:
    """The fall still by still, to be played; with ``band`` the slack line too."""
    from tacklebox.desk import as_json
    from tacklebox.desk.playing import played

    shown = shown_for(request)
    asked, beside = _asked(request, recipe)
    try:
        return JSONResponse(as_json(played(shown.desk, asked, beside, band=bool(band))))
    except BenchError as error:
        return JSONResponse({"fault": shown.word(error)}, 400)


def _asked(request: Request, recipe: str) -> tuple[Any, list[str]]:
    """The question in the address; what is left empty is as usual."""
    from tacklebox.desk.settling import FallQuestion, Fishing

    said = {key: value for key, value in request.query_params.items() if value.strip()}
    choices = {k.removeprefix(CHOOSE): v for k, v in said.items() if k.startswith(CHOOSE)}
    fishing = Fishing(**{f.name: said[f.name] for f in fields(Fishing) if f.name in said})
    beside = [said["beside"]] if "beside" in said else []
    return FallQuestion(recipe, choices, {}, fishing), beside
