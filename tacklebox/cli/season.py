"""``tacklebox match season``: weights, places and points, what was lost, what came after a change."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import Json, desk_of
from tacklebox.cli.match_options import Replace
from tacklebox.cli.output import say, say_folded, show_answer, show_table

if TYPE_CHECKING:
    from tacklebox.desk.season import SeasonShown


def season(
    context: typer.Context,
    by: Annotated[
        str,
        typer.Option(help="venue, peg, section, method, rig, hooklength, bait or water."),
    ] = "venue",
    year: Annotated[str, typer.Option(help="Of one year: 2026.")] = "",
    venue: Annotated[str, typer.Option(help="Of one venue.")] = "",
    csv: Annotated[Path | None, typer.Option(help="Write its matches to this CSV.")] = None,
    replace: Replace = False,
    as_json: Json = False,
) -> None:
    """Show what matches weighed, placed, scored and cost, by venue, peg, rig and more."""
    from tacklebox.desk import season as seasons

    found = seasons.season(
        desk_of(context), by=by, year=year, venue=venue, to=csv, overwrite=replace
    )
    if as_json:
        show_answer(found)
        return
    if not found.matches:
        say("No match is debriefed yet.")
        return
    _show(found)
    if csv:
        say(f"Wrote {csv}.")


def _show(found: "SeasonShown") -> None:
    rows = [
        [
            row.name,
            str(row.matches),
            row.mean.partition(" (")[0] or "-",
            row.best.partition(" (")[0] or "-",
            f"{row.mean_place:.1f}" if row.mean_place is not None else "-",
            f"{row.points:g}" if row.points else "-",
            str(row.fish or "-"),
            row.lost,
        ]
        for row in found.rows
    ]
    if rows:
        heading = [found.by, "matches", "mean", "best", "place", "points", "fish", "lost"]
        show_table(heading, rows, flexible=0)
    else:
        say(f"No debrief says anything of {found.by}.")
    many = len(found.matches)
    say_folded(
        f"{many} match{'' if many == 1 else 'es'}; tackle lost, at prices of today: {found.lost}."
    )
    for one in found.changes:
        say_folded(
            f"{one.match}, {one.at}, {one.words}: {one.before} fish in {one.before_min:.0f} min "
            f"before, {one.after} in {one.after_min:.0f} min after; {one.chance}."
        )
    say_folded(found.says_not)
