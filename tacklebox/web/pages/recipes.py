"""Recipes: a wall of drawings, and one recipe with its choices, its parts and its verdicts."""

from collections.abc import Mapping
from urllib.parse import urlencode

from fastapi import APIRouter, Request
from fastapi.responses import Response
from starlette.concurrency import run_in_threadpool

from tacklebox.errors import BenchError
from tacklebox.web.showing import (
    EMPTY,
    Filled,
    form_of,
    go,
    page,
    shown_for,
    svg,
    try_form,
    whole,
)

router = APIRouter(prefix="/recipes")


@router.get("")
def wall(request: Request) -> Response:
    """All recipes as drawings, by method."""
    from tacklebox.desk import recipes

    shown = shown_for(request)
    found = shown.ask(recipes.listed, shown.desk)
    kinds = (
        ("Float", "rig", "float"),
        ("Feeder and bomb", "rig", "feeder"),
        ("Pole", "rig", "pole"),
        ("Hooklengths", "hooklength", ""),
    )
    walls = [
        (
            word,
            [r for r in found.recipes if r.makes == makes and (not method or r.method == method)],
        )
        for word, makes, method in kinds
    ]
    return page(
        shown,
        "recipes.html",
        {
            "title": "Recipes",
            "walls": walls,
            "faults": list(zip(found.faulty, map(shown.word, found.faults), strict=True)),
        },
    )


@router.get("/{recipe}/glance.svg")
def glance(request: Request, recipe: str) -> Response:
    """The recipe drawn for the wall, without words."""
    from tacklebox.desk import recipes

    shown = shown_for(request)
    return svg(shown.ask(recipes.draw, shown.desk, recipe, {}, glance=True).svg)


@router.get("/{recipe}")
def recipe_page(request: Request, recipe: str) -> Response:
    """One recipe: its choices, its drawing, its parts from stock, its verdicts."""
    return _recipe(request, recipe, "recipe.html", dict(request.query_params))


@router.get("/{recipe}/answer")
def answer(request: Request, recipe: str) -> Response:
    """What follows from the choices, for the page that keeps up while they move."""
    return _recipe(request, recipe, "recipe_answer.html", dict(request.query_params))


@router.get("/{recipe}/verdict/{what}.svg")
def verdict(request: Request, recipe: str, what: str) -> Response:
    """What a verdict rests on, drawn, with the choices of the address."""
    from tacklebox.desk import verdict_pictures

    shown, asked = shown_for(request), request.query_params
    draw, which = verdict_pictures.draw_verdict, whole(asked.get("which", "1"))
    return svg(shown.ask(draw, shown.desk, recipe, _choices(asked), what, which=which).svg)


@router.post("/{recipe}/tie")
async def tie(request: Request, recipe: str) -> Response:
    """So many are tied from stock."""
    form = await form_of(request)
    return await run_in_threadpool(_tie, request, recipe, form)


def _tie(request: Request, recipe: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import tying
    from tacklebox.desk.asking import how_many

    shown = shown_for(request)
    try:
        done = tying.tie(
            shown.desk,
            recipe,
            _choices(form),
            count=how_many(form.get("count") or "1"),
            because=form.get("because", ""),
            with_hooklength=bool(form.get("with_hooklength")),
            venue=form.get("venue", ""),
            on=form.get("tied", ""),
            entered_late=bool(form.get("entered_late")),
        )
    except BenchError as error:
        wrong = Filled(
            form, {"": shown.refused(error)}, at="tied" if error.field == "on" else error.field
        )
        return _recipe(request, recipe, "recipe.html", form, wrong)
    return page(shown, "tied.html", {"title": f"Tied: {done.name}", "done": done})


@router.post("/{recipe}/add")
async def add(request: Request, recipe: str) -> Response:
    """So many of it are there already."""
    form = await form_of(request)
    return await run_in_threadpool(_add, request, recipe, form)


def _add(request: Request, recipe: str, form: dict[str, str]) -> Response:
    from tacklebox.desk import rigs

    shown = shown_for(request)
    try:
        rigs.add(
            shown.desk,
            {recipe: form.get("count", "1")},
            _choices(form),
            on=form.get("on", ""),
        )
    except BenchError as error:
        wrong = Filled(form, {"": shown.refused(error)}, at=error.field)
        return _recipe(request, recipe, "recipe.html", form, wrong)
    return go("/rigs?done=added")


def _choices(values: Mapping[str, str]) -> dict[str, str]:
    """The choices among them; what is left empty is the usual one.

    A depth that is only the usual one does not stand against a plumbed depth.
    """
    found = {
        key.removeprefix("choose-"): value
        for key, value in values.items()
        if key.startswith("choose-") and value.strip()
    }
    if "plumbed" in found and found.get("depth") == values.get("usual-depth"):
        found.pop("depth", None)
    return found


def _recipe(
    request: Request,
    recipe: str,
    template: str,
    values: Mapping[str, str],
    wrong: Filled = EMPTY,
) -> Response:
    from tacklebox.desk import looking, recipes, venues
    from tacklebox.desk.asking import how_many
    from tacklebox.desk.verdict_pictures import pictures_of

    shown = shown_for(request)
    one = shown.ask(recipes.show, shown.desk, recipe)
    choices, venue = _choices(values), values.get("venue", "")

    def look() -> looking.LookedAt:
        count = how_many(values.get("count") or "1")
        return shown.ask(looking.look, shown.desk, recipe, choices, count=count, venue=venue)

    seen, refused = try_form(shown, values, look)
    wrong, is_answer = wrong if wrong.faults else refused or EMPTY, template != "recipe.html"
    return page(
        shown,
        template,
        {
            "title": one.name,
            "one": one,
            "checked": seen.checked if seen else None,
            "pictures_by": pictures_of(seen.checked.judgements) if seen else [],
            "drawing": seen.svg if seen else "",
            "choices": choices,
            "query": urlencode({f"choose-{key}": value for key, value in choices.items()}),
            "count": values.get("count") or "1",
            "because": values.get("because", ""),
            "venue": venue,
            "venues": venues.listed(shown.desk).venues if one.makes == "rig" else (),
            "on": values.get("on", ""),
            "tied": values.get("tied", ""),
            "file": recipes.file_of(shown.desk, recipe) if values.get("kept") else None,
            # Of the whole page a field's fault stands beside it; what keeps up brings it there itself.
            "fault": next(iter(wrong.faults.values()), "") if is_answer or not wrong.at else "",
            "filled": wrong,
        },
        400 if wrong.faults else 200,
    )
