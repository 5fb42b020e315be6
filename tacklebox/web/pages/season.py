"""The season: what matches weighed, placed and cost, by one thing or another; what came after a change."""

import io

from fastapi import APIRouter, Request
from fastapi.responses import Response

from tacklebox.web.names import match_names, venue_names
from tacklebox.web.showing import download, page, shown_for

router = APIRouter(prefix="/season")
METHODS = ("float", "feeder", "pole")


@router.get("")
def season(
    request: Request, by: str = "venue", year: str = "", venue: str = "", method: str = ""
) -> Response:
    """Plots with the tables behind them, and the choices as a form; what did well."""
    from tacklebox.desk import debriefs
    from tacklebox.desk import season as seasons

    shown = shown_for(request)
    well = shown.ask(debriefs.did_well, shown.desk, venue=venue, method=method)
    found = seasons.season(shown.desk, by=by, year=year, venue=venue)
    matches, venues = match_names(shown), venue_names(shown)
    called = {"venue": venues, "match": matches}.get(found.by)
    return page(
        shown,
        "season.html",
        {
            "title": "The season",
            "season": found,
            "plots": seasons.plots(found, called),
            "well": [one for one in well if year in ("", str(one.on.year))],
            "method": method,
            "methods": METHODS,
            "matches": matches,
            "venues": venues,
        },
    )


@router.get("/matches.csv")
def matches(request: Request, year: str = "", venue: str = "") -> Response:
    """The matches for a spreadsheet."""
    from tacklebox.desk import season as seasons

    made = io.BytesIO()
    seasons.season(shown_for(request).desk, year=year, venue=venue, to=made)
    return download(made.getvalue(), "season.csv", "text/csv; charset=utf-8")
