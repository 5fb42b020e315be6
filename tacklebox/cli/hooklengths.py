"""``tacklebox hooklengths``: the wallet."""

from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import PLAIN, Json, desk_of
from tacklebox.cli.output import say, show_answer, show_table

if TYPE_CHECKING:
    from tacklebox.desk.hooklengths import HooklengthRow

app = typer.Typer(help="The wallet: hooklengths and their batches.", no_args_is_help=True, **PLAIN)


@app.command("list")
def list_(
    context: typer.Context,
    every: Annotated[bool, typer.Option("--all", help="Also those of which none is left.")] = False,
    as_json: Json = False,
) -> None:
    """List the hooklengths in the wallet, with the batches they were tied in, the oldest first."""
    from tacklebox.desk import hooklengths

    found = hooklengths.listed(desk_of(context), every=every)
    if as_json:
        show_answer(found)
        return
    if not found:
        say("The wallet is empty.")
        return
    rows = [
        (
            str(one.item.number),
            one.looked_for,
            one.length or "not said",
            one.strain,
            one.item.on_hand.words + (" short" if one.item.short else ""),
            _of_batches(one),
        )
        for one in found
    ]
    heads = ["no.", "hook · line", "length", "strain", "on hand", "of batch"]
    show_table(heads, rows, flexible=5)


def _of_batches(one: "HooklengthRow") -> str:
    said = [
        f"{batch.code} {batch.left}{'' if batch.labelled_on else ' (no label)'}"
        for batch in one.batches
    ]
    if one.in_packets:
        said.append(f"none {one.in_packets}")
    return ", ".join(said)


@app.command()
def show(
    context: typer.Context,
    code: Annotated[str, typer.Argument(metavar="CODE", help="The code on the label.")],
    as_json: Json = False,
) -> None:
    """Show a batch of hooklengths by the code on its label."""
    from tacklebox.desk import hooklengths

    shown = hooklengths.show(desk_of(context), code)
    if as_json:
        show_answer(shown)
        return
    batch, made = shown.batch, shown.made
    rows = [
        ("hooklength", f"{shown.item.number} {shown.item.name}"),
        ("recipe", made.name),
        ("for", made.purpose),
        ("hook", made.hook),
        ("line", made.hooklength),
        ("tied", f"{batch.tied_on}, {batch.tied}"),
        ("left", str(batch.left)),
        ("checks", made.outcome),
        ("tied all the same", shown.tied_because),
    ]
    show_table([batch.code, ""], [row for row in rows if row[1]])
