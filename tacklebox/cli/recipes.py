"""``tacklebox recipe``: what can be tied, and a starting file for one of your own."""

from pathlib import Path
from typing import Annotated

import typer

from tacklebox.cli.common import PLAIN, Json, Set, box_of, pairs, resolved_recipe, shelf_of
from tacklebox.cli.output import fold_refusal, say, say_folded, show_json, show_table

app = typer.Typer(help="Recipes: list, show, start one of your own.", no_args_is_help=True, **PLAIN)

Recipe = Annotated[str, typer.Argument(metavar="RECIPE", help="A recipe's name.")]


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List all recipes; your own win over shipped ones of the same name."""
    shelf = shelf_of(box_of(context))
    told, faulty = shelf.files.load_each(shelf.load)
    rows = [(r.stem, r.purpose, r.makes, "own" if shelf.is_own(r.stem) else "") for r in told]
    if as_json:
        keys = ("recipe", "for", "makes", "own")
        show_json([dict(zip(keys, row, strict=True)) for row in rows])
    else:
        show_table(["recipe", "for", "makes", ""], rows)
    for fault in faulty:
        typer.echo(fold_refusal(str(fault)), err=True)


@app.command()
def show(context: typer.Context, recipe: Recipe, as_json: Json = False) -> None:
    """Show what a recipe asks for, with its usual choices."""
    from tacklebox.trade.quantities import write_length

    shelf = shelf_of(box_of(context))
    resolved = resolved_recipe(shelf, recipe, {})
    if as_json:
        show_json(shelf.load(recipe).model_dump(mode="json", by_alias=True))
        return
    told = resolved.recipe
    say(f"{told.name} ({told.stem})")
    say_folded(f"A {told.makes} for {told.purpose}.")
    for name, choice in told.choose.items():
        span = ", ".join(choice.any_of) if choice.any_of else f"{choice.low} to {choice.high}"
        say(f"  choose {name}: {choice.usual} usually; {span}")
    rows = []
    for segment in resolved.chain:
        knots = " / ".join(k.name for k in (segment.top, segment.bottom) if k)
        length = write_length(segment.length_mm) if segment.length_mm else ""
        rows.append((segment.name, f"{segment.need.ask}{'; ' + knots if knots else ''}", length))
    for side in resolved.sides:
        for segment in side.chain:
            length = write_length(segment.length_mm) if segment.length_mm else ""
            rows.append(
                (f"  {segment.name}", f"{segment.need.ask}; from {side.hangs_from}", length)
            )
    for thing in resolved.along:
        rows.append((thing.name, f"{thing.need.ask}; on {thing.on}, {thing.held}", ""))
    for group in resolved.shot:
        rows.append(("shot", group.words, ""))
    if told.hooklengths:
        rows.append(("hooklength", " or ".join(told.hooklengths), ""))
    show_table(["part, rod to hook", "asks for", "length"], rows)


@app.command()
def start(
    context: typer.Context,
    recipe: Recipe,
    hooklength: Annotated[bool, typer.Option("--hooklength", help="For a hooklength.")] = False,
) -> None:
    """Write a commented starting file for a recipe of your own."""
    from tacklebox.rigs.recipes.starting import write_starting_file

    path = write_starting_file(box_of(context).recipes, recipe, hooklength=hooklength)
    say(f"Wrote {path}")
    say(f"Edit it, then try `tacklebox check {path.stem}`.")


@app.command()
def draw(
    context: typer.Context,
    recipe: Recipe,
    to: Annotated[Path, typer.Option(help="The SVG to write.")],
    chosen: Set = None,
    replace: Annotated[bool, typer.Option("--replace", help="Write over an older file.")] = False,
) -> None:
    """Draw a recipe as SVG, as stock serves it now."""
    from datetime import date

    from tacklebox.printing.drawing.rig import drawing_svg
    from tacklebox.printing.pdf import write_aside
    from tacklebox.rigs.tying.describe import describe
    from tacklebox.rigs.tying.tie import fit_and_check

    box = box_of(context)
    resolved = resolved_recipe(shelf_of(box), recipe, pairs(chosen, "--set"))
    snapshot = describe(fit_and_check(box, resolved), "", date.today())
    with write_aside(to, overwrite=replace) as aside:
        aside.write(drawing_svg(snapshot).encode())
    say(f"Drew {resolved.recipe.name}: {to}")
