"""The command ``tacklebox``."""

import sys
from pathlib import Path
from typing import Annotated

import typer

from tacklebox.cli import demo, labels, low, recipes, rigs, stock
from tacklebox.errors import BenchError

app = typer.Typer(
    help="Terminal tackle in stock, rigs as recipes, labels for winders.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,  # plain help: no colour, and no time spent on it
    pretty_exceptions_enable=False,
)
app.add_typer(stock.app, name="stock")
app.add_typer(recipes.app, name="recipe")
app.command()(rigs.check)
app.command()(rigs.tie)
app.add_typer(rigs.app, name="rigs")
app.command()(labels.labels)
app.command()(low.low)
app.command()(demo.demo)


@app.callback()
def main(
    context: typer.Context,
    box: Annotated[
        Path | None,
        typer.Option(help="The folder of your box; else TACKLEBOX_BOX, else your data folder."),
    ] = None,
) -> None:
    """Terminal tackle in stock, rigs as recipes, labels for winders."""
    context.obj = box


def run() -> None:
    """Run the command line; an error for the angler is told in words, with its exit code."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    try:
        app()
    except BenchError as error:
        typer.echo(str(error), err=True)
        sys.exit(error.exit_code)
    except BrokenPipeError:
        sys.exit(0)
