"""``tacklebox reels``: reels and top kits, and what line or elastic is on them."""

from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import PLAIN, Json, On, desk_of
from tacklebox.cli.output import say, say_folded, show_answer, show_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tacklebox.desk.reels import OnReel, ReelRow

app = typer.Typer(
    help="Reels and top kits: what line or elastic is on them.", no_args_is_help=True, **PLAIN
)

Reel = Annotated[str, typer.Argument(metavar="REEL", help="The name of a reel or top kit.")]


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List reels and top kits with what is on them, how much, since when."""
    from tacklebox.desk import reels

    found = reels.listed(desk_of(context))
    if as_json:
        show_answer(found)
        return
    if not found:
        say("There is no reel or top kit yet. `tacklebox reels add NAME` adds one.")
        return
    _show(found)


def _show(rows: "Sequence[ReelRow]") -> None:
    table = [
        (
            row.reel,
            row.what,
            _on_it(row),
            str(row.loaded or ""),
            str(row.since or ""),
        )
        for row in rows
    ]
    show_table(["name", "", "on it", "how much", "since"], table, flexible=2)


def _on_it(row: "ReelRow") -> str:
    if row.item is None:
        return "nothing"
    return f"{row.item.number} {row.item.name}" + (f", over {row.backing}" if row.backing else "")


@app.command()
def add(
    context: typer.Context,
    names: Annotated[list[str], typer.Argument(metavar="NAME...", help='Like "feeder reel".')],
    top_kit: Annotated[bool, typer.Option("--top-kit", help="They are top kits.")] = False,
    on: On = "",
    as_json: Json = False,
) -> None:
    """Add reels or top kits, with nothing on them yet."""
    from tacklebox.desk import reels

    what = "top kit" if top_kit else "reel"
    added = reels.add(desk_of(context), names, what=what, on=on)
    if as_json:
        show_answer(added)
        return
    for row in added:
        say(f"Added the {row.what} {row.reel}.")


@app.command()
def load(
    context: typer.Context,
    reel: Reel,
    item: Annotated[
        str, typer.Argument(metavar="ITEM", help="Line or elastic, by number or words.")
    ],
    amount: Annotated[str, typer.Argument(help='How much: "150 m", "all" or "half" of the spool.')],
    already: Annotated[
        bool, typer.Option("--already", help="It is on it already: nothing is taken from stock.")
    ] = False,
    instead: Annotated[
        bool, typer.Option("--instead", help="Throw out what is on it first.")
    ] = False,
    backing: Annotated[str, typer.Option(help='What lies under it: "old 0.25".')] = "",
    on: On = "",
    as_json: Json = False,
) -> None:
    """Load line on a reel, or elastic in a top kit, from its spool."""
    from tacklebox.desk import reels

    loaded = reels.load(
        desk_of(context),
        reel,
        item,
        amount,
        already=already,
        instead=instead,
        backing=backing,
        on=on,
    )
    _show_done(loaded, as_json)


@app.command()
def unload(
    context: typer.Context,
    reel: Reel,
    back: Annotated[bool, typer.Option("--back", help="It is wound back on its spool.")] = False,
    on: On = "",
    as_json: Json = False,
) -> None:
    """Throw out what is on a reel or top kit, or wind it back on its spool."""
    from tacklebox.desk import reels

    _show_done(reels.unload(desk_of(context), reel, back=back, on=on), as_json)


@app.command()
def cut(
    context: typer.Context,
    reel: Reel,
    amount: Annotated[str, typer.Argument(help='How much was cut off or lost: "20 m".')],
    on: On = "",
    as_json: Json = False,
) -> None:
    """Say that line was cut off or lost from a reel."""
    from tacklebox.desk import reels

    _show_done(reels.shorten(desk_of(context), reel, amount, on=on), as_json)


@app.command()
def rename(
    context: typer.Context,
    reel: Reel,
    name: Annotated[str, typer.Argument(metavar="NAME", help="Its new name.")],
    on: On = "",
    as_json: Json = False,
) -> None:
    """Give a reel or top kit another name."""
    from tacklebox.desk import reels

    _show_done(reels.rename(desk_of(context), reel, name, on=on), as_json)


@app.command()
def retire(context: typer.Context, reel: Reel, on: On = "", as_json: Json = False) -> None:
    """Take a reel or top kit out of use, with what is on it."""
    from tacklebox.desk import reels

    retired = reels.retire(desk_of(context), reel, on=on)
    if as_json:
        show_answer(retired)
        return
    say(f"{retired.reel} is out of use.")


@app.command()
def age(
    context: typer.Context,
    hooklength_line: Annotated[
        str | None, typer.Option("--hooklength-line", help='Renew it at: "a season", "never".')
    ] = None,
    reel: Annotated[
        str | None, typer.Option("--reel", help='Renew line on reels at: "2 years".')
    ] = None,
    top_kit: Annotated[
        str | None, typer.Option("--top-kit", help='Renew elastic in top kits at: "18 months".')
    ] = None,
    on: On = "",
    as_json: Json = False,
) -> None:
    """At what age line is renewed; older line is told by `low` and on the pack list."""
    from tacklebox.desk import ageing

    desk = desk_of(context)
    said = {
        "hooklength line": hooklength_line,
        "line on a reel": reel,
        "elastic in a top kit": top_kit,
    }
    ageing.set_limits(
        desk, {what: words for what, words in said.items() if words is not None}, on=on
    )
    limits = ageing.limits(desk)
    if as_json:
        show_answer(limits)
        return
    rows = [(limit.what, limit.age or "no limit", limit.source) for limit in limits]
    show_table(["what", "renewed at", "by"], rows)


def _show_done(done: "OnReel", as_json: bool) -> None:
    if as_json:
        show_answer(done)
        return
    row = done.reel
    if row.item is None:
        say(f"Nothing is on {row.reel}.")
    else:
        say_folded(f"{row.reel}: {row.loaded} of {row.item.name}, since {row.since}.")
    if done.item:
        short = " That is less than the minimum." if done.item.short else ""
        say_folded(f"{done.item.name}: {done.item.on_hand} on hand.{short}")
