"""``tacklebox feed``: groundbait and loose feed for a match, against the venue's limit."""

from typing import Annotated

import typer

from tacklebox.cli.common import Json, desk_of
from tacklebox.cli.output import say, say_folded, show_answer, show_table
from tacklebox.cli.rulings import show_comes_first, show_ruling


def feed(
    context: typer.Context,
    match: Annotated[
        str, typer.Argument(metavar="MATCH", help="A match: its hours and its venue.")
    ] = "",
    hours: Annotated[str, typer.Option(help="Hours, without a match.")] = "",
    venue: Annotated[str, typer.Option(help="A venue, for its groundbait limit.")] = "",
    feeder: Annotated[str, typer.Option(help='What the feeder holds: "40 ml".')] = "",
    cast_every: Annotated[str, typer.Option(help="Minutes from cast to cast; else 5.")] = "",
    share: Annotated[
        str, typer.Option(help="Percent of groundbait in the feeder; else half.")
    ] = "",
    density: Annotated[
        str, typer.Option(help="Grams of wet groundbait to the ml, as you weighed it.")
    ] = "",
    water: Annotated[str, typer.Option(help="Ml of water to 100 g dry, as you mix it.")] = "",
    loose: Annotated[
        str, typer.Option(help="Loose feed by hand: how many each time, usually about 10.")
    ] = "",
    loose_every: Annotated[str, typer.Option(help="Minutes from time to time; else 2.")] = "",
    per_pint: Annotated[
        str, typer.Option(help="How many to the pint, as you counted; else maggots.")
    ] = "",
    casters: Annotated[
        bool,
        typer.Option("--casters", help="The loose feed is casters: say what maggots they take."),
    ] = False,
    as_json: Json = False,
) -> None:
    """Say how much groundbait, water and loose feed a match takes; exit 1 over the limit.

    What is not said here is taken from the match's own [feed].
    """
    from tacklebox.desk.feeding import FeedAsked, feed_needed

    asked = FeedAsked(
        hours, feeder, cast_every, share, density, water, loose, loose_every, per_pint
    )
    found = feed_needed(desk_of(context), asked, match=match, venue=venue, casters=casters)
    if as_json:
        show_answer(found)
    else:
        say(f"For {found.hours:g} hours:")
        rows = [(one.what, one.words, one.rests_on) for one in found.figures]
        show_table(["what", "how much", "rests on"], rows)
        for citation in found.cited:
            say_folded(f"* {citation}.")
        if found.venue:
            if found.limit:
                show_ruling(found.limit)
            show_comes_first(found.comes_first)
    if not found.allowed:
        raise typer.Exit(1)
