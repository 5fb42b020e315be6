"""``tacklebox stock read``, ``look`` and ``serves``: looked at before anything is put in, and what for."""

from pathlib import Path
from typing import Annotated

import typer

from tacklebox.cli.common import Json, desk_of
from tacklebox.cli.output import say, say_folded, show_answer, show_table


def read(
    words: Annotated[list[str], typer.Argument(metavar="WORDS", help="As you would say it.")],
    as_json: Json = False,
) -> None:
    """Say how words would be read by `stock add`; nothing is put in."""
    from tacklebox.desk import looking_through

    found = looking_through.read_as(" ".join(words))
    if as_json:
        show_answer(found)
    elif found.asks:
        say_folded(found.asks)
        for choice in found.choices:
            say_folded(f"- {choice}")
    else:
        assumed = "".join(f"; {one.figure} assumed, {one.words}" for one in found.assumed)
        say_folded(f"{found.words}{assumed}")


def look(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A CSV file.")],
    as_printed: Annotated[
        bool, typer.Option("--as-printed", help="Take line figures as printed, unquestioned.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Say what `stock import` would put in, row by row; nothing is put in."""
    from tacklebox.desk import looking_through

    found = looking_through.look_through(desk_of(context), file, as_printed=as_printed)
    if as_json:
        show_answer(found)
        return
    if found.fault:
        say_folded(found.fault)
    if found.rows:
        rows = [
            (str(row.line), row.fault or row.words, str(row.amount or "")) for row in found.rows
        ]
        show_table(["line", "read as, or what is wrong", "there"], rows)
    if not found.fault:
        say(f"{found.count} rows, all of them read. `tacklebox stock import` puts them in.")
    raise typer.Exit(1 if found.fault else 0)


def serves(
    context: typer.Context,
    item: Annotated[str, typer.Argument(metavar="ITEM", help="Its number, or words that name it.")],
    as_json: Json = False,
) -> None:
    """List the recipes that an item can serve."""
    from tacklebox.desk import using

    found = using.recipes_for(desk_of(context), item)
    if as_json:
        show_answer(found)
    elif found:
        show_table(["recipe", "as"], [(one.recipe, ", ".join(one.parts)) for one in found])
    else:
        say("No recipe asks for it with its usual choices.")
