"""``tacklebox hooklengths``: the wallet."""

from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import PLAIN, Json, desk_of, pairs
from tacklebox.cli.output import say, say_folded, show_answer, show_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tacklebox.desk.adding import StockQuestion
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
def add(
    context: typer.Context,
    wanted: Annotated[
        list[str],
        typer.Argument(
            metavar="HOOKLENGTH=COUNT...",
            help='What is there already: "18 to 0.10 6 in=12", "ten 18s to 0.10 6 in".',
        ),
    ],
    counted: Annotated[
        str,
        typer.Option(help="yes: they are in stock already, of no batch; no: they are more."),
    ] = "",
    place: Annotated[str, typer.Option(help='Where they lie, like "wallet 2".')] = "",
    on: Annotated[str, typer.Option("--on", help="The day they were tied, if you know.")] = "",
    as_json: Json = False,
) -> None:
    """Add hooklengths that are there already, each kind a batch: nothing is taken from stock."""
    from tacklebox.cli.adding import ask_or_refuse
    from tacklebox.desk import hooklengths

    desk = desk_of(context)

    def question(words: str, answers: "Sequence[str]") -> "StockQuestion | None":
        return hooklengths.question(desk, words, answers)

    counts: dict[str, str] = {}
    answered: dict[str, list[str]] = {}
    for said, count in pairs(wanted, "HOOKLENGTH=COUNT", alone=True).items():
        words, answers = ask_or_refuse(said, question, can_ask=not as_json)
        counts[words], answered[words] = count, answers
    added = hooklengths.add(desk, counts, answers=answered, counted=counted, place=place, on=on)
    if as_json:
        show_answer(added)
        return
    for one in added:
        say_folded(
            f"Added batch {one.batch.code}: {one.batch.left} × {one.item.name}, item "
            f"{one.item.number}; {one.item.on_hand} on hand."
        )
    say("Nothing was taken from stock. `tacklebox labels --last` prints their labels.")


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
        ("there already", "tied before the box knew them, or bought" * made.in_tray_before),
        ("for", made.purpose),
        ("hook", made.hook),
        ("line", made.hooklength),
        ("tied", f"{batch.tied_on}, {batch.tied}" if batch.tied_on else ""),
        ("how many", "" if batch.tied_on else str(batch.tied)),
        ("left", str(batch.left)),
        ("they are", "untied: the tying was undone" if shown.untied else ""),
        ("checks", made.outcome),
        ("tied all the same", shown.tied_because),
    ]
    show_table([batch.code, ""], [row for row in rows if row[1]])
