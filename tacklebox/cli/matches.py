"""``tacklebox match``: a match and its plan: what is ready, what to tie, what to buy."""

from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.buying import say_ready_otherwise
from tacklebox.cli.common import PLAIN, Json, Set, desk_of, pairs
from tacklebox.cli.forecasts import show_forecasts
from tacklebox.cli.match_bag import bag
from tacklebox.cli.match_debrief import debrief, did_well
from tacklebox.cli.match_options import Csv, MatchArg, Replace
from tacklebox.cli.match_pack import pack, shopping, show_shopping
from tacklebox.cli.match_tie import tie
from tacklebox.cli.match_water import bank, card
from tacklebox.cli.output import say, say_folded, show_answer, show_table
from tacklebox.cli.rulings import show_comes_first, show_overhead_lines, show_ruling
from tacklebox.cli.season import season

if TYPE_CHECKING:
    from tacklebox.desk.plans import MatchPlan, WantInPlan

app = typer.Typer(
    help="Matches: plan, tie, shop, pack, what goes to the water, debrief.",
    no_args_is_help=True,
    **PLAIN,
)


@app.command()
def start(
    context: typer.Context,
    match: MatchArg,
    venue: Annotated[str, typer.Option(help="Its venue's name.")],
    on: Annotated[str, typer.Option("--on", help="The day, like 2026-06-20.")],
    wanted: Annotated[
        list[str] | None,
        typer.Argument(metavar="RECIPE=COUNT...", help="Wanted; else what the latest match wants."),
    ] = None,
    chosen: Set = None,
) -> None:
    """Write a commented starting file for a match."""
    from tacklebox.desk import matches
    from tacklebox.desk.answers import write_day

    started = matches.start(
        desk_of(context),
        match,
        venue=venue,
        on=on,
        wanted=pairs(wanted, "RECIPE=COUNT"),
        choices=pairs(chosen, "--set"),
    )
    say(f"Wrote {started.file}")
    if started.wants_as_at:
        say(f"It wants what {started.wants_as_at} does: change what is another this time.")
    elif started.wants_own:
        say("It wants a few of each recipe of your own: put in how many.")
    elif started.is_example:
        say("What it wants is an example: name your own recipes.")
    if not started.has_venue:
        place = started.venue
        say(f"There is no venue {place} yet: `tacklebox venue start {place}` writes it.")
    if started.is_past:
        say(
            f"{write_day(started.on, with_year=True)} is past: the match can be debriefed, not planned."
        )
        return
    for ruling in started.not_allowed:
        show_ruling(ruling)
    say(f"Edit it, then try `tacklebox match plan {started.match}`.")


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List the matches of the box, the earliest first, and which are debriefed."""
    from tacklebox.cli.faults import word_fault
    from tacklebox.desk import matches
    from tacklebox.desk.answers import write_day

    found = matches.listed(desk_of(context))
    if as_json:
        show_answer(found)
    elif found.matches:
        rows = [
            (
                m.match,
                m.name,
                write_day(m.on, with_year=True),
                f"{m.begins}–{m.ends}",
                m.venue,
                "yes" if m.debriefed else "-",
            )
            for m in found.matches
        ]
        show_table(["match", "name", "day", "hours", "venue", "debriefed"], rows)
    else:
        say_folded(
            "No match is in the box. `tacklebox match start NAME --venue VENUE --on DAY` writes a "
            "first one."
        )
    for fault in found.faults:
        typer.echo(word_fault(fault), err=True)


@app.command()
def plan(
    context: typer.Context,
    match: MatchArg,
    csv: Csv = None,
    replace: Replace = False,
    as_json: Json = False,
) -> None:
    """Say what is ready, what to tie from which items, what to buy; judge it by the venue."""
    from tacklebox.desk import plans
    from tacklebox.desk.answers import write_day
    from tacklebox.desk.shopping import ListFiles

    made = plans.plan(desk_of(context), match, ListFiles(csv=csv, replace=replace))
    if as_json:
        show_answer(made)
        return
    say(f"{made.name}, {write_day(made.on)}, {made.begins} to {made.ends}, {made.venue_name}")
    _show_wants(made)
    show_forecasts(made.on_the_day)
    if made.shopping.to_buy or made.shopping.no_item_for:
        say()
        show_shopping(made.shopping)
    _show_rules(made)


app.command("shopping")(shopping)
app.command("tie")(tie)
app.command("pack")(pack)
app.command("bag")(bag)
app.command("bank")(bank)
app.command("card")(card)
app.command("season")(season)
app.command("debrief")(debrief)
app.command("did-well")(did_well)


def _show_wants(made: "MatchPlan") -> None:
    rows = [
        (want.called, str(want.wanted), str(want.has), str(want.tie), str(want.unmet or "-"))
        for want in made.wants
    ]
    show_table(["most important first", "wanted", "ready", "tie", "unmet"], rows, flexible=0)
    for want in made.wants:
        if want.ready:
            say_folded(f"Ready, {want.called}: {', '.join(want.ready)}")
        say_ready_otherwise(want.called, want.ready_otherwise)
        for one in want.from_wallet:
            say_folded(f"In the wallet, {want.called}: {one.count} × {one.item} {one.name}")
        if want.barred:
            away = ", ".join(f"{one.code} ({one.rule})" for one in want.barred)
            say_folded(f"Ready, but not allowed there, {want.called}: {away}")
    for want in made.wants:
        if want.tie:
            say()
            say_folded(f"Tie {want.tie} × {want.called} from:")
            parts = [(p.part, f"{p.item} {p.name}", str(p.rigs)) for p in want.parts]
            show_table(["part", "item", "rigs"], parts)
            _show_checks(want)
    unmet = [want for want in made.wants if want.unmet]
    if unmet:
        say()
    for want in unmet:
        say_folded(f"Unmet, {want.unmet} × {want.called}: {want.because}.")
        for one in want.ready_made:
            say_folded(f"To buy ready-made, {want.called}: {one.count} × {one.item} {one.name}")
        if not want.tie:
            _show_checks(want)
    if any(want.fails for want in made.wants):
        say_folded("`tacklebox match tie` ties what fails only with --because.")
    say_folded(f"{made.how_sure} New packets opened, bought ones too: {made.packets_opened}.")


def _show_checks(want: "WantInPlan") -> None:
    """What fails in full, what is doubtful by name."""
    for judgement in want.fails:
        say_folded(f"{judgement.outcome.upper()}: {judgement.about}: {judgement.says}.")
    if want.doubtful:
        outcome = want.doubtful[0].outcome.capitalize()
        names = ", ".join(dict.fromkeys(judgement.about for judgement in want.doubtful))
        say_folded(f"{outcome}: {names} (`tacklebox check {want.recipe}`).")
    for one in want.fails_with:
        say_folded(f"CAUTION: {one.words}. Keep those for another rig.")


def _show_rules(made: "MatchPlan") -> None:
    from tacklebox.desk.rulings import Verdict

    say()
    show_overhead_lines(made.overhead_lines)
    for ruling in made.day.rulings:
        show_ruling(ruling)
    for want in made.wants:
        say(f"{want.called}: {want.venue_says.verdict}")
        for ruling in want.venue_says.rulings:
            if ruling.verdict is not Verdict.ALLOWED:
                show_ruling(ruling)
    show_comes_first(made.comes_first)
