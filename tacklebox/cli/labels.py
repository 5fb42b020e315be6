"""``tacklebox labels`` and ``stock labels``: print labels for winders and for drawers as PDF."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import NUMBER, On, desk_of
from tacklebox.cli.output import say, say_folded

if TYPE_CHECKING:
    from tacklebox.desk.labels import LabelsPrinted

# What all commands that print labels can be told
Paper = Annotated[
    str,
    typer.Option(
        help="The paper; `tacklebox paper list` shows them. Without: what fits each winder, "
        "or the wallet.",
        show_default=False,
    ),
]
DrawerPaper = Annotated[str, typer.Option(help="The paper; `tacklebox paper list` shows them.")]
Start = Annotated[str, typer.Option(help='First place on a part-used sheet: a number, or "next".')]
Skip = Annotated[
    list[int] | None, typer.Option(help="A spoiled place to leave empty; again for more.", **NUMBER)
]
Qr = Annotated[bool, typer.Option("--qr/--no-qr", help="With the words as a QR.")]
Replace = Annotated[bool, typer.Option("--replace", help="Write over an older file.")]


def labels(
    context: typer.Context,
    codes: Annotated[
        list[str] | None, typer.Argument(metavar="CODE...", help="Rigs; none: all without a label.")
    ] = None,
    paper: Paper = "",
    to: Annotated[Path, typer.Option(help="The PDF to write.")] = Path("labels.pdf"),
    last: Annotated[bool, typer.Option("--last", help="The rigs of the last tying.")] = False,
    start: Start = "1",
    skip: Skip = None,
    qr: Qr = True,
    replace: Replace = False,
    on: On = "",
) -> None:
    """Print labels for chosen rigs, or for all that have none yet."""
    from tacklebox.desk.labels import OnPaper, print_rigs

    on_paper = OnPaper(paper, start, skip or (), qr, replace)
    printed = print_rigs(desk_of(context), to, on_paper, codes or (), last=last, on=on)
    if not printed.codes:
        say("Every rig that is ready has its label; name codes to print one again.")
        return
    show_printed(printed, to)


def drawer_labels(
    context: typer.Context,
    items: Annotated[
        list[str] | None,
        typer.Argument(metavar="ITEM...", help="Numbers, or words that name them; none: all."),
    ] = None,
    kind: Annotated[str, typer.Option(help="All of this kind.")] = "",
    place: Annotated[str, typer.Option(help='All that lies there: "drawer 2".')] = "",
    paper: DrawerPaper = "drawers-60",
    to: Annotated[Path, typer.Option(help="The PDF to write.")] = Path("drawers.pdf"),
    start: Start = "1",
    skip: Skip = None,
    qr: Qr = True,
    replace: Replace = False,
) -> None:
    """Print labels for drawers: what lies there, the packet, the minimum."""
    from tacklebox.desk.labels import OnPaper, print_items

    on_paper = OnPaper(paper, start, skip or (), qr, replace)
    desk = desk_of(context)
    show_printed(print_items(desk, to, on_paper, items or (), kind=kind, place=place), to)


def show_printed(printed: "LabelsPrinted", to: Path) -> None:
    """Say what was printed, where the sheets go on, and what was left off which label."""
    say(f"{_count(len(printed.codes), 'label')} on {_count(printed.sheets, 'sheet')}: {to}")
    if len(printed.on) > 1:
        for of_paper in printed.on:
            say_folded(
                f"  {_count(of_paper.sheets, 'sheet')}: {of_paper.labels} on {of_paper.name}"
            )
    say("Print at 100 %, not fitted to the page.")
    if len(printed.on) == 1:
        say(f"Next free place: {printed.on[0].next_free}; --start next goes on there.")
    for missing in printed.not_on_label:
        which = "All" if missing.on_all else ", ".join(missing.codes)
        say_folded(f"{which}: {missing.words}.")


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
