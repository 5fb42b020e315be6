"""``tacklebox recipe``: what can be tied, and a starting file for one of your own."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import NUMBER, PLAIN, Json, Set, desk_of, pairs
from tacklebox.cli.output import say, say_folded, show_answer, show_table

if TYPE_CHECKING:
    from tacklebox.desk.recipes import Asked, RecipePage

app = typer.Typer(help="Recipes: list, show, start one of your own.", no_args_is_help=True, **PLAIN)

Recipe = Annotated[str, typer.Argument(metavar="RECIPE", help="A recipe's name.")]


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List all recipes; your own win over shipped ones of the same name."""
    from tacklebox.cli.faults import word_fault
    from tacklebox.desk import recipes

    found = recipes.listed(desk_of(context))
    if as_json:
        show_answer(found)
    else:
        rows = [(r.recipe, r.purpose, r.makes, "own" if r.own else "") for r in found.recipes]
        show_table(["recipe", "for", "makes", ""], rows)
    for fault in found.faults:
        typer.echo(word_fault(fault), err=True)


@app.command()
def show(context: typer.Context, recipe: Recipe, as_json: Json = False) -> None:
    """Show what a recipe asks for, with its usual choices."""
    from tacklebox.desk import recipes

    page = recipes.show(desk_of(context), recipe)
    if as_json:
        show_answer(page)
        return
    say(f"{page.name} ({page.recipe})")
    say_folded(f"A {page.makes} for {page.purpose}.")
    for choice in page.choices:
        span = ", ".join(choice.any_of) or f"{choice.lowest} to {choice.highest}"
        say(f"  choose {choice.name}: {choice.usual} usually; {span}")
    show_table(["part, rod to hook", "asks for", "length"], list(_rows(page)))


def _rows(page: "RecipePage") -> Iterator[tuple[str, str, str]]:
    for part in page.parts:
        indent = "  " if part.kind == "branch" else ""
        yield indent + part.part, f"{part.asks}{_more(part)}", part.length
    if page.hooklengths:
        yield "hooklength", " or ".join(page.hooklengths), ""


def _more(part: "Asked") -> str:
    """The knots of a part of the chain, where a branch hangs, what a thing is on and how."""
    if part.kind == "branch":
        return f"; from {part.where}"
    if part.kind == "along":
        return f"; on {part.where}{part.held and f', {part.held}'}"
    return f"; {' / '.join(part.knots)}" if part.knots else ""


@app.command()
def start(
    context: typer.Context,
    recipe: Recipe,
    hooklength: Annotated[bool, typer.Option("--hooklength", help="For a hooklength.")] = False,
    like: Annotated[
        str, typer.Option(metavar="RECIPE", help="A copy of this recipe, with its notes.")
    ] = "",
) -> None:
    """Write a commented starting file for a recipe of your own, or a copy of another."""
    from tacklebox.desk import recipes

    started = recipes.start(desk_of(context), recipe, hooklength=hooklength, like=like)
    say(f"Wrote {started.file}")
    say(f"Edit it, then try `tacklebox check {started.recipe}`.")


@app.command()
def draw(
    context: typer.Context,
    recipe: Recipe,
    to: Annotated[Path, typer.Option(help="The SVG to write.")],
    chosen: Set = None,
    replace: Annotated[bool, typer.Option("--replace", help="Write over an older file.")] = False,
    what: Annotated[
        str,
        typer.Option(
            help='The "rig", or what a check rests on: "strengths", "breaks", "tip" (life size), '
            '"comes-free", "step", "join", "hook-and-line", "hook-knot", "elastic", "float-held", '
            '"bulk", "winder".'
        ),
    ] = "rig",
    which: Annotated[
        int, typer.Option(help="Of several such pictures the one to draw.", **NUMBER)
    ] = 1,
) -> None:
    """Draw a recipe as SVG, as stock serves it now."""
    from tacklebox.desk import recipes, verdict_pictures

    desk, choices = desk_of(context), pairs(chosen, "--set")
    if what == "rig":
        drawn = recipes.draw(desk, recipe, choices, to, replace=replace)
    else:
        drawn = verdict_pictures.draw_verdict(
            desk, recipe, choices, what, to, replace=replace, which=which
        )
    say(f"Drew {drawn.name}: {to}")
