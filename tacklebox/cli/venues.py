"""``tacklebox venue``: waters and their rules, and what they say to a rig."""

from typing import Annotated

import typer

from tacklebox.cli.common import NUMBER, PLAIN, Json, Set, desk_of, pairs
from tacklebox.cli.output import say, show_answer, show_table
from tacklebox.cli.rulings import show_comes_first, show_overhead_lines, show_ruling

app = typer.Typer(
    help="Waters and their rules: list, show, start one, judge rigs and keepnets.",
    no_args_is_help=True,
    **PLAIN,
)
VenueArg = Annotated[str, typer.Argument(metavar="VENUE", help="A venue's name.")]


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List the venues of the box."""
    from tacklebox.cli.faults import word_fault
    from tacklebox.desk import venues

    found = venues.listed(desk_of(context))
    if as_json:
        show_answer(found)
    elif found.venues:
        rows = [(v.venue, v.name, v.water, v.depths) for v in found.venues]
        show_table(["venue", "name", "water", "depths"], rows)
    else:
        say("No venue is in the box. `tacklebox venue start NAME` writes a first one.")
    for fault in found.faults:
        typer.echo(word_fault(fault), err=True)


@app.command()
def start(context: typer.Context, venue: VenueArg) -> None:
    """Write a commented starting file for a venue."""
    from tacklebox.desk import venues

    started = venues.start(desk_of(context), venue)
    say(f"Wrote {started.file}")
    say(f"Edit it, then try `tacklebox venue show {started.venue}`.")


@app.command()
def show(context: typer.Context, venue: VenueArg, as_json: Json = False) -> None:
    """Show a venue, its rules and its cautions."""
    from tacklebox.desk import law, venues

    page = venues.show(desk_of(context), venue)
    if as_json:
        show_answer(page)
        return
    lines = (
        f"yes, keep {law.power_lines_away()} away"
        if page.overhead_lines
        else "none noted; look up all the same"
    )
    rows = [("water", page.water), ("depths", page.depths), ("overhead lines", lines)]
    rows += [("notes", page.notes)] if page.notes else []
    rows += [(rule.rule, rule.says) for rule in page.rules]
    rows += [("keepnet", words) for words in page.keepnets]
    rows += [("check yourself", words) for words in page.check_yourself]
    show_table([page.venue, page.name], rows)
    show_comes_first(page.comes_first)


@app.command()
def judge(
    context: typer.Context,
    venue: VenueArg,
    recipes: Annotated[
        list[str] | None, typer.Argument(metavar="RECIPE...", help="Rigs or hooklengths.")
    ] = None,
    chosen: Set = None,
    on: Annotated[str, typer.Option("--on", help="The day, like 2026-06-20; else today.")] = "",
    groundbait: Annotated[
        str, typer.Option(help='Groundbait to be taken, dry, like "1.5 kg".')
    ] = "",
    as_json: Json = False,
) -> None:
    """Judge rigs as stock serves them, and the day, by the venue's rules; exit 1 if any fails."""
    from tacklebox.desk import venues
    from tacklebox.desk.answers import write_day

    choices = pairs(chosen, "--set")
    found = venues.judge(
        desk_of(context), venue, recipes or [], choices, on=on, groundbait=groundbait
    )
    if as_json:
        show_answer(found)
    else:
        say(f"{found.name}, {found.water}, {write_day(found.on)}")
        show_overhead_lines(found.overhead_lines)
        for ruling in found.day.rulings:
            show_ruling(ruling)
        for rig in found.rigs:
            say()
            say(f"{rig.recipe}: {rig.verdict}")
            for ruling in rig.rulings:
                show_ruling(ruling)
        say()
        show_comes_first(found.comes_first)
    if not found.allowed:
        raise typer.Exit(1)


@app.command()
def keepnet(
    context: typer.Context,
    venue: Annotated[
        str, typer.Argument(metavar="VENUE", help="A venue; else the byelaws alone.")
    ] = "",
    length: Annotated[str, typer.Option(help='How long it is: "3 m".')] = "",
    rings: Annotated[str, typer.Option(help='From ring to ring: "30 cm".')] = "",
    ring: Annotated[str, typer.Option(help='A ring, all around: "130 cm".')] = "",
    round_: Annotated[str, typer.Option("--round", help='A round ring, across: "45 cm".')] = "",
    square: Annotated[
        str, typer.Option(help='A square or oblong ring, its shorter side: "40 cm".')
    ] = "",
    hole: Annotated[str, typer.Option(help='A hole of the mesh, all around: "20 mm".')] = "",
    knotless: Annotated[
        bool | None, typer.Option("--knotless/--knotted", help="Whether the mesh has knots.")
    ] = None,
    metal: Annotated[
        bool | None, typer.Option("--metal/--no-metal", help="Whether the mesh is of metal.")
    ] = None,
    nets: Annotated[int | None, typer.Option(help="How many at a time.", **NUMBER)] = None,
    as_json: Json = False,
) -> None:
    """Judge a keepnet by the byelaws and the venue's rules; exit 1 if it fails any."""
    from tacklebox.desk import venues

    net = venues.KeepnetAsked(length, rings, ring, round_, square, hole, knotless, metal, nets)
    found = venues.judge_keepnet(desk_of(context), net, venue)
    if as_json:
        show_answer(found)
    else:
        for ruling in found.rulings:
            show_ruling(ruling)
        say()
        show_comes_first(found.comes_first)
    if not found.allowed:
        raise typer.Exit(1)
