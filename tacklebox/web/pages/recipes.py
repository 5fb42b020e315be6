"""Recipes: a wall of drawings, and one recipe with its choices, its parts and its verdicts."""

from fastapi import APIRouter, Request
from fastapi.responses import Response

from tacklebox.web.showing import page, shown_for, svg

router = APIRouter(prefix="/recipes")


@router.get("")
def wall(request: Request) -> Response:
    """All recipes as drawings, by method."""
    from tacklebox.desk import recipes

    shown = shown_for(request)
    found = recipes.listed(shown.desk)
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
        {"title": "Recipes", "walls": walls, "faults": [shown.word(f) for f in found.faults]},
    )


@router.get("/{recipe}/glance.svg")
def glance(request: Request, recipe: str) -> Response:
    """The recipe drawn for the wall, without words."""
    from tacklebox.desk import recipes

    shown = shown_for(request)
    return svg(recipes.draw(shown.desk, recipe, {}, glance=True).svg)


@router.get("/{recipe}/drawing.svg")
def drawing(request: Request, recipe: str) -> Response:
    """The recipe drawn as stock serves it now, with the choices of the address."""
    from tacklebox.desk import recipes

    shown = shown_for(request)
    drawn = recipes.draw(shown.desk, recipe, _choices(request))
    return svg(drawn.svg)


def _choices(request: Request) -> dict[str, str]:
    """The choices in the address; what is left empty is the usual one."""
    known = ("count", "water")
    return {k: v for k, v in request.query_params.items() if v.strip() and k not in known}
