"""``tacklebox match``: a match and its plan: what is ready, what to tie, what to buy."""

from contextlib import suppress
from datetime import date
from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import PLAIN, Json, box_of
from tacklebox.cli.forecasts import show_forecasts
from tacklebox.cli.match_debrief import debrief, did_well
from tacklebox.cli.match_files import MatchArg, Replace, matches_of, plan_of
from tacklebox.cli.match_pack import Csv, pack, shopping, show_shopping, write_csv
from tacklebox.cli.match_tie import tie
from tacklebox.cli.output import fold_refusal, say, say_folded, show_json, show_table

if TYPE_CHECKING:
    from tacklebox.matches.before.plan import Line, Plan
    from tacklebox.matches.before.venue_rules import Ruling
    from tacklebox.matches.files.match import Match
    from tacklebox.matches.files.venue import Venue, Venues

app = typer.Typer(help="Matches: plan, tie, shop, pack, debrief.", no_args_is_help=True, **PLAIN)


@app.command()
def start(
    context: typer.Context,
    match: MatchArg,
    venue: Annotated[str, typer.Option(help="Its venue's name.")],
    on: Annotated[str, typer.Option("--on", help="The day, like 2026-06-20.")],
) -> None:
    """Write a commented starting file for a match."""
    from tacklebox.cli.venues import read_day, venues_of
    from tacklebox.matches.files.match import write_starting_match

    day = read_day(on)
    path = write_starting_match(matches_of(context).folder, match, venue, day)
    say(f"Wrote {path}")
    venues = venues_of(context)
    if venue.strip() not in venues.files.names():
        say(f"There is no venue {venue} yet: `tacklebox venue start {venue}` writes it.")
    else:
        _show_closed(venues, venue, day)
    if day < date.today():
        say(f"{day} is past: the match can be debriefed, not planned.")
        return
    say(f"Edit it, then try `tacklebox match plan {path.stem}`.")


def _show_closed(venues: "Venues", venue: str, day: date) -> None:
    """Tell of a close season at once; a venue's file that cannot be read is told by the plan."""
    from tacklebox.cli.venues import show_ruling
    from tacklebox.errors import AskedWronglyError
    from tacklebox.matches.before.venue_rules import Verdict, judge_day

    with suppress(AskedWronglyError):
        for ruling in judge_day(venues.load(venue), day):
            if ruling.verdict is Verdict.NOT_ALLOWED:
                show_ruling(ruling)


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List the matches of the box, the earliest first, and which are debriefed."""
    from tacklebox.matches.after.debrief import debriefed_matches
    from tacklebox.matches.files.match import START

    matches = matches_of(context)
    told, faulty = matches.files.load_each(matches.load)
    told.sort(key=lambda m: (m.date, m.begins))
    rows = [(m.stem, m.name, m.date, f"{m.begins}–{m.ends}", m.venue) for m in told]
    done = debriefed_matches(box_of(context))
    if as_json:
        keys = ("match", "name", "date", "hours", "venue")
        told_of = [dict(zip(keys, row, strict=True)) for row in rows]
        show_json([row | {"debriefed": row["match"] in done} for row in told_of])
    elif rows:
        with_debrief = [(*row, "yes" if row[0] in done else "-") for row in rows]
        show_table(["match", "name", "date", "hours", "venue", "debriefed"], with_debrief)
    else:
        say_folded(f"No match is in the box. `{START}` writes a first one.")
    for fault in faulty:
        typer.echo(fold_refusal(str(fault)), err=True)


@app.command()
def plan(
    context: typer.Context,
    match: MatchArg,
    csv: Csv = None,
    replace: Replace = False,
    as_json: Json = False,
) -> None:
    """Say what is ready, what to tie from which items, what to buy; judge it by the venue."""
    from tacklebox.desk.forecasts import on_the_day
    from tacklebox.matches.before.plan import judge_plan
    from tacklebox.matches.before.shopping import make_shopping
    from tacklebox.matches.before.venue_rules import judge_day

    told, venue, made = plan_of(context, match)
    box = box_of(context)
    judged = judge_plan(box, venue, made)
    day = judge_day(venue, told.day, told.groundbait_g)
    listed = make_shopping(box, made)
    if csv is not None:
        write_csv(csv, listed, replace=replace)
    if as_json:
        show_json(_as_json(told, venue, made, day, judged))
        return
    say(f"{told.name}, {told.date}, {told.begins} to {told.ends}, {venue.name}")
    _show_plan(made)
    show_forecasts(on_the_day(made.forecasts, planned_only=True))
    if listed.purchases or listed.no_item_for:
        say()
        show_shopping(listed)
    _show_rules(venue, made, day, judged)


app.command("shopping")(shopping)
app.command("tie")(tie)
app.command("pack")(pack)
app.command("debrief")(debrief)
app.command("did-well")(did_well)


def _show_plan(made: "Plan") -> None:
    rows = [
        (line.name, str(line.want.together), str(len(line.ready)), str(line.tie),
         str(line.unmet) if line.unmet else "-")
        for line in made.lines
    ]  # fmt: skip
    show_table(["most important first", "wanted", "ready", "tie", "unmet"], rows, flexible=0)
    for line in made.lines:
        if line.ready:
            say_folded(f"Ready, {line.name}: {', '.join(line.ready)}")
        if line.left_home:
            away = ", ".join(f"{code} ({rule})" for code, rule in line.left_home)
            say_folded(f"Ready, but not allowed there, {line.name}: {away}")
    for line in made.lines:
        if line.tie:
            say()
            say_folded(f"Tie {line.tie} × {line.name} from:")
            show_table(["part", "item", "rigs"], [
                (part, f"{item.id} {item.item.name}", str(count))
                for part, items in line.parts
                for item, count in items
            ])  # fmt: skip
            _show_checks(line)
    unmet = [line for line in made.lines if line.unmet]
    if unmet:
        say()
    for line in unmet:
        say_folded(f"Unmet, {line.unmet} × {line.name}: {line.because}.")
    if any(checked.refusals for line in made.lines for checked in line.checked):
        say_folded("`match tie` refuses what WILL NOT DO, unless you say --because.")
    say_folded(
        "Proven: no division ties more of what is more important, then costs less"
        + (", then opens fewer packets" if made.proven_fewest else "")
        + f". New packets opened, bought ones too: {made.opened}"
        + ("." if made.proven_fewest else ", the fewest found in time.")
    )


def _show_checks(line: "Line") -> None:
    """What is not sound: in full where it will not do, else by name."""
    refused = {f"{j.about}: {j.says}": None for c in line.checked for j in c.refusals}
    for words in refused:
        say_folded(f"WILL NOT DO: {words}.")
    doubts = {
        j.about: None for c in line.checked for j in c.judgements if j.outcome == "look again"
    }
    if doubts:
        say_folded(f"Look again: {', '.join(doubts)} (`tacklebox check {line.want.recipe}`).")


def _show_rules(
    venue: "Venue", made: "Plan", day: "list[Ruling]", judged: "list[list[Ruling]]"
) -> None:
    from tacklebox.cli.venues import defer, show_ruling
    from tacklebox.matches.before.venue_rules import Verdict, worst_verdict
    from tacklebox.trade.law import POWER_LINES

    say()
    if venue.overhead_lines:
        say_folded(f"OVERHEAD LINES NEARBY. {POWER_LINES.says}")
    for ruling in day:
        show_ruling(ruling)
    for line, rulings in zip(made.lines, judged, strict=True):
        say(f"{line.name}: {worst_verdict(rulings)}")
        for ruling in rulings:
            if ruling.verdict is not Verdict.ALLOWED:
                show_ruling(ruling)
    defer()


def _as_json(
    told: "Match", venue: "Venue", made: "Plan", day: "list[Ruling]", judged: "list[list[Ruling]]"
) -> dict[str, Any]:
    from tacklebox.cli.venues import ruling_as_json
    from tacklebox.desk import as_json as in_json
    from tacklebox.desk.forecasts import on_the_day
    from tacklebox.matches.before.purchases import unpriced
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
                "not_allowed_there": [
                    {"code": code, "rule": rule} for code, rule in line.left_home
                ],
                "tie": line.tie,
                "unmet": line.unmet,
                "because": line.because,
                "checks": [
                    {"about": j.about, "outcome": j.outcome, "says": j.says}
                    for j in dict.fromkeys(j for c in line.checked for j in c.judgements)
                ],
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
        "prices_not_known": unpriced(made.purchases),
        "on_the_day": in_json(on_the_day(made.forecasts)),
        "packets_opened": made.opened,
        "proven_fewest": made.proven_fewest,
        "day": [ruling_as_json(r) for r in day],
        "comes_first": DEFERS,
    }
