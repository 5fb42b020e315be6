"""``tacklebox match``: a match and its plan: what is ready, what to tie, what to buy."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import PLAIN, Json, box_of, resolved_recipe, shelf_of
from tacklebox.cli.output import say, say_folded, show_json, show_table

if TYPE_CHECKING:
    from tacklebox.matches.match import Match, Matches, WantedRig
    from tacklebox.matches.plan import Line, Plan
    from tacklebox.matches.rules import Ruling
    from tacklebox.matches.venue import Venue
    from tacklebox.rigs.resolved import Resolved

app = typer.Typer(help="Matches: start one, list, plan, debrief.", no_args_is_help=True, **PLAIN)
MatchArg = Annotated[str, typer.Argument(metavar="MATCH", help="A match's name.")]


def _matches_of(context: typer.Context) -> "Matches":
    from tacklebox.matches.match import Matches

    return Matches(box_of(context).folder / "matches")


@app.command()
def start(
    context: typer.Context,
    match: MatchArg,
    venue: Annotated[str, typer.Option(help="Its venue's name.")],
    on: Annotated[str, typer.Option("--on", help="The day, like 2026-06-20.")],
) -> None:
    """Write a commented starting file for a match."""
    from tacklebox.cli.venues import read_day
    from tacklebox.matches.match import write_starting_match

    path = write_starting_match(_matches_of(context).folder, match, venue, read_day(on))
    say(f"Wrote {path}")
    say(f"Edit it, then try `tacklebox match plan {path.stem}`.")


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List the matches of the box, the earliest first."""
    from tacklebox.errors import BenchError

    matches = _matches_of(context)
    told, faulty = [], []
    for name in matches.files.names():
        try:
            told.append(matches.load(name))
        except BenchError as error:
            faulty.append(str(error))
    told.sort(key=lambda m: (m.date, m.begins))
    rows = [(m.stem, m.name, m.date, f"{m.begins}–{m.ends}", m.venue) for m in told]
    if as_json:
        keys = ("match", "name", "date", "hours", "venue")
        show_json([dict(zip(keys, row, strict=True)) for row in rows])
    elif rows:
        show_table(["match", "name", "date", "hours", "venue"], rows)
    else:
        say("No match is in the box. `tacklebox match start NAME` writes a first one.")
    for fault in faulty:
        typer.echo(fault, err=True)


@app.command()
def plan(
    context: typer.Context,
    match: MatchArg,
    csv: Annotated[
        Path | None, typer.Option("--csv", help="Write the shopping list to this CSV.")
    ] = None,
    as_json: Json = False,
) -> None:
    """Say what is ready, what to tie from which items, what to buy; judge it by the venue."""
    from tacklebox.cli.venues import venues_of
    from tacklebox.matches.match import refuse_past
    from tacklebox.matches.plan import judge_plan, make_plan
    from tacklebox.matches.rules import judge_day

    told = _matches_of(context).load(match)
    refuse_past(told, date.today())
    venue = venues_of(context).load(told.venue)
    box = box_of(context)
    made = make_plan(box, _wants(context, told))
    judged = judge_plan(box, venue, made)
    day = judge_day(venue, told.day)
    if csv is not None:
        _write_csv(csv, made)
    if as_json:
        show_json(_as_json(told, venue, made, day, judged))
        return
    say(f"{told.name}, {told.date}, {told.begins} to {told.ends}, {venue.name}")
    _show_plan(made)
    _show_purchases(made)
    _show_rules(venue, made, day, judged)


Codes = list[str] | None


@app.command("debrief")
def debrief_(
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
    """Say what became of what was taken: all is written at once, or nothing."""
    from tacklebox.cli.common import pairs
    from tacklebox.cli.output import row_as_json
    from tacklebox.errors import AskedWronglyError
    from tacklebox.matches.debrief import Told, debrief
    from tacklebox.trade.quantities import read_mass_g

    try:
        weighed = read_mass_g(weight) if weight else None
    except AskedWronglyError as error:
        raise error.at("--weight") from None
    told = Told(
        back or (), lost or (), spent or (), well or (), pairs(gone, "--gone"), peg, weighed, notes
    )
    match_file = _matches_of(context).load(match)
    written = debrief(box_of(context), match_file, told, date.today(), correct=correct)
    if as_json:
        show_json(row_as_json(written))
        return
    counts = f"{len(told.back)} back, {len(told.lost)} lost, {len(told.spent)} spent"
    say_folded(f"{match_file.name}, {written.on}: {counts}. `tacklebox undo` takes it back.")


@app.command("did-well")
def did_well_(
    context: typer.Context,
    venue: Annotated[str | None, typer.Option(help="At this venue only.")] = None,
    season: Annotated[
        str | None, typer.Option(help="spring, summer, autumn or winter only.")
    ] = None,
    method: Annotated[str | None, typer.Option(help="float, feeder or pole only.")] = None,
    as_json: Json = False,
) -> None:
    """Find rigs that did well, the latest first."""
    from tacklebox.matches.debrief import did_well

    found = did_well(box_of(context), venue=venue, season=season, method=method)
    rows = [
        (w.tied.code, w.made.name, w.made.method, w.debrief.venue, str(w.debrief.on), w.debrief.peg)
        for w in found
    ]
    if as_json:
        keys = ("code", "rig", "method", "venue", "on", "peg", "notes")
        notes = [w.debrief.notes for w in found]
        told = [dict(zip(keys, (*r, n), strict=True)) for r, n in zip(rows, notes, strict=True)]
        show_json(told)
    elif rows:
        show_table(["code", "rig", "method", "venue", "on", "peg"], rows)
    else:
        say("No rig did well there yet, as far as the debriefs tell.")


def _wants(context: typer.Context, told: "Match") -> "list[tuple[WantedRig, Resolved]]":
    from tacklebox.errors import AskedWronglyError
    from tacklebox.matches.plan import refuse_overlap

    shelf, wants = shelf_of(box_of(context)), []
    for number, want in enumerate(told.want, 1):
        try:
            wants.append((want, resolved_recipe(shelf, want.recipe, dict(want.choose))))
        except AskedWronglyError as error:
            raise error.at(f"{told.stem}.toml, want {number}") from None
    try:
        refuse_overlap(wants)
    except AskedWronglyError as error:
        raise error.at(f"{told.stem}.toml") from None
    return wants


def _show_plan(made: "Plan") -> None:
    rows = [
        (line.resolved.recipe.stem, str(line.want.together), str(len(line.ready)), str(line.tie),
         str(line.unmet) if line.unmet else "-")
        for line in made.lines
    ]  # fmt: skip
    show_table(["most important first", "wanted", "ready", "tie", "unmet"], rows, flexible=0)
    for line in made.lines:
        if line.ready:
            say_folded(f"Ready, {line.resolved.recipe.stem}: {', '.join(line.ready)}")
    for line in made.lines:
        if line.tie:
            say()
            say_folded(f"Tie {line.tie} × {line.resolved.recipe.stem}{_chosen(line)} from:")
            show_table(["part", "item", "rigs"], [
                (part, f"{item.id} {item.item.name}", str(count))
                for part, items in line.parts
                for item, count in items
            ])  # fmt: skip
    unmet = [line for line in made.lines if line.unmet]
    if unmet:
        say()
    for line in unmet:
        say_folded(f"Unmet, {line.unmet} × {line.resolved.recipe.stem}: {line.because}.")
    say_folded(
        "Proven: no division ties more of what is more important, then costs less"
        + (", then opens fewer packets" if made.proven_fewest else "")
        + f". New packets opened: {made.opened}"
        + ("." if made.proven_fewest else ", the fewest found in time.")
    )


def _chosen(line: "Line") -> str:
    words = ", ".join(f"{k} {v}" for k, v in line.want.choose.items())
    return f" ({words})" if words else ""


def _shopping(made: "Plan") -> list[tuple[str, str, str, str, str]]:
    from tacklebox.stock.ledger import write_amount, write_price

    rows = []
    for p in made.purchases:
        price, cost = p.item.pack_price_cents, p.cost_cents
        rows.append(
            (
                str(p.item.id),
                p.item.name,
                f"{p.packs} × {write_amount(p.item.pack_size, p.item.measured)}",
                "not known" if price is None else write_price(price),
                "not known" if cost is None else write_price(cost),
            )
        )
    return rows


def _show_purchases(made: "Plan") -> None:
    from tacklebox.stock.ledger import write_price

    if made.purchases:
        say()
        say("To buy for what is unmet, in whole packets:")
        total = ("", "together", "", "", write_price(made.total_cents))
        head = ["no.", "item", "packets", "a packet", "price"]
        show_table(head, [*_shopping(made), total])


def _write_csv(path: Path, made: "Plan") -> None:
    import csv

    from tacklebox.errors import CannotBeDoneError

    try:
        with path.open("x", encoding="utf-8", newline="") as file:
            writer = csv.writer(file)
            writer.writerow(["no.", "item", "packets", "price of a packet", "price"])
            writer.writerows(_shopping(made))
    except OSError as error:
        raise CannotBeDoneError(
            f"the file cannot be written: {error.strerror}.",
            where=str(path),
            right="Name a new file in a folder that may be written.",
        ) from None


def _show_rules(
    venue: "Venue", made: "Plan", day: "list[Ruling]", judged: "list[list[Ruling]]"
) -> None:
    from tacklebox.cli.venues import defer, show_ruling
    from tacklebox.matches.rules import Verdict, worst_verdict
    from tacklebox.trade.law import POWER_LINES

    say()
    if venue.overhead_lines:
        say_folded(f"OVERHEAD LINES NEARBY. {POWER_LINES.says}")
    for ruling in day:
        show_ruling(ruling)
    for line, rulings in zip(made.lines, judged, strict=True):
        say(f"{line.resolved.recipe.stem}: {worst_verdict(rulings)}")
        for ruling in rulings:
            if ruling.verdict is not Verdict.ALLOWED:
                show_ruling(ruling)
    defer()


def _as_json(
    told: "Match", venue: "Venue", made: "Plan", day: "list[Ruling]", judged: "list[list[Ruling]]"
) -> dict[str, Any]:
    from tacklebox.cli.venues import ruling_as_json
    from tacklebox.trade.law import DEFERS

    return {
        "match": told.stem,
        "date": told.date,
        "hours": told.hours,
        "venue": venue.stem,
        "overhead_lines": venue.overhead_lines,
        "wants": [
            {
                "recipe": line.resolved.recipe.stem,
                "chosen": dict(line.resolved.chosen),
                "wanted": line.want.together,
                "ready": list(line.ready),
                "tie": line.tie,
                "unmet": line.unmet,
                "because": line.because,
                "parts": [
                    {"part": part, "item": s.id, "name": s.item.name, "rigs": count}
                    for part, items in line.parts
                    for s, count in items
                ],
                "rules": [ruling_as_json(r) for r in rulings],
            }
            for line, rulings in zip(made.lines, judged, strict=True)
        ],
        "to_buy": [
            {"item": p.item.id, "name": p.item.name, "packs": p.packs, "cost_cents": p.cost_cents}
            for p in made.purchases
        ],
        "total_cents": made.total_cents,
        "packets_opened": made.opened,
        "proven_fewest": made.proven_fewest,
        "day": [ruling_as_json(r) for r in day],
        "comes_first": DEFERS,
    }
