"""``tacklebox match debrief``: what became of what was taken; ``match did-well``: what worked."""

import sys
from datetime import date
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import Json, box_of, resolved_recipe, shelf_of
from tacklebox.cli.match_files import MatchArg, matches_of
from tacklebox.cli.output import say, say_folded, show_json, show_table

if TYPE_CHECKING:
    from tacklebox.matches.debrief import Told
    from tacklebox.matches.match import Match, WantedRig
    from tacklebox.rigs.resolved import Resolved

Codes = list[str] | None


def debrief(
    context: typer.Context,
    match: MatchArg,
    back: Annotated[Codes, typer.Option("--back", help="A rig that came back.")] = None,
    lost: Annotated[Codes, typer.Option("--lost", help="A rig that was lost.")] = None,
    spent: Annotated[Codes, typer.Option("--spent", help="A rig that is worn out.")] = None,
    well: Annotated[Codes, typer.Option("--did-well", help="A rig that did well.")] = None,
    gone: Annotated[
        Codes, typer.Option("--gone", help='Tackle lost beside rigs: "hook 20=3".')
    ] = None,
    weight: Annotated[str | None, typer.Option(help='What was weighed in: "5.4 kg".')] = None,
    peg: Annotated[str, typer.Option(help="The peg.")] = "",
    notes: Annotated[str, typer.Option(help="What worked, in your words.")] = "",
    correct: Annotated[
        bool, typer.Option("--correct", help="Put this in the place of the debrief there is.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Say what became of what was taken; with no answers given, it asks for each.

    All is written at once, or nothing.
    """
    from tacklebox.cli.common import pairs
    from tacklebox.cli.output import row_as_json
    from tacklebox.errors import AskedWronglyError
    from tacklebox.matches.debrief import Told
    from tacklebox.matches.debrief import debrief as write
    from tacklebox.matches.taken import refuse_coming
    from tacklebox.trade.quantities import read_mass_g

    box, match_file = box_of(context), matches_of(context).load(match)
    refuse_coming(match_file, date.today())
    told: Told | None
    if not (back or lost or spent or well or gone or weight or peg or notes):
        if as_json or not sys.stdin.isatty():
            raise AskedWronglyError(
                "nothing is said of the match, and there is no terminal to ask at.",
                where=f"debrief of {match_file.stem}",
                right="Say --back, --lost, --spent, --did-well CODE, --gone ITEM=AMOUNT, --weight, "
                '--peg or --notes; for a day that cost nothing, --notes "nothing lost".',
            )
        told, correct = _walked(context, match_file)
        if told is None:
            say("Nothing was written.")
            raise typer.Exit(1)
    else:
        try:
            weighed = read_mass_g(weight) if weight else None
        except AskedWronglyError as error:
            raise error.at("--weight") from None
        told = Told(
            back or (), lost or (), spent or (), well or (), pairs(gone, "--gone"),
            peg, weighed, notes,
        )  # fmt: skip
    written = write(box, match_file, told, date.today(), correct=correct)
    if as_json:
        show_json(row_as_json(written))
        return
    counts = f"{len(told.back)} back, {len(told.lost)} lost, {len(told.spent)} spent"
    say_folded(f"{match_file.name}, {written.on}: {counts}. `tacklebox undo` takes it back.")


def _walked(context: typer.Context, match: "Match") -> "tuple[Told | None, bool]":
    from tacklebox.cli.match_walk import walk
    from tacklebox.matches.taken import what_was_taken

    box = box_of(context)
    return walk(box, match, what_was_taken(box, match, _wants(context, match)))


def _wants(context: typer.Context, match: "Match") -> "list[tuple[WantedRig, Resolved | None]]":
    """The wants; one whose recipe was changed or is gone since has none."""
    from tacklebox.errors import AskedWronglyError

    shelf = shelf_of(box_of(context))
    wants: list[tuple[WantedRig, Resolved | None]] = []
    for want in match.want:
        try:
            wants.append((want, resolved_recipe(shelf, want.recipe, dict(want.choose))))
        except AskedWronglyError:
            wants.append((want, None))
    return wants


def did_well(
    context: typer.Context,
    venue: Annotated[str | None, typer.Option(help="At this venue only.")] = None,
    season: Annotated[
        str | None, typer.Option(help="spring, summer, autumn or winter only.")
    ] = None,
    method: Annotated[str | None, typer.Option(help="float, feeder or pole only.")] = None,
    as_json: Json = False,
) -> None:
    """Find rigs that did well, the latest first."""
    from tacklebox.matches import debrief as debriefs
    from tacklebox.matches.taken import write_weight

    found = debriefs.did_well(box_of(context), venue=venue, season=season, method=method)
    rows = [
        (w.tied.code, w.made.name, w.made.method, w.debrief.venue, str(w.debrief.on), w.debrief.peg)
        for w in found
    ]
    if as_json:
        keys = ("code", "rig", "method", "venue", "on", "peg", "weight_g", "notes")
        more = [(w.debrief.weight_g, w.debrief.notes) for w in found]
        told = [dict(zip(keys, (*r, *m), strict=True)) for r, m in zip(rows, more, strict=True)]
        show_json(told)
    elif rows:
        show_table(["code", "rig", "method", "venue", "on", "peg"], rows)
        for debrief in {w.debrief.id: w.debrief for w in found}.values():
            words = [write_weight(debrief.weight_g)] if debrief.weight_g else []
            words += [debrief.notes] if debrief.notes else []
            if words:
                say_folded(f"{debrief.on}, {debrief.venue}: {', '.join(words)}")
    else:
        say("No rig did well there yet, as far as the debriefs tell.")
