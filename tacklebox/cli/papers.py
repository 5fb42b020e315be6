"""``tacklebox paper`` and ``tacklebox tie-sheet``: papers, the printer's truth, the bench's page."""

from pathlib import Path
from typing import Annotated

import typer

from tacklebox.cli.common import (
    PLAIN,
    Json,
    On,
    Set,
    desk_of,
    pairs,
)
from tacklebox.cli.output import say, say_unprintable, show_answer, show_table

app = typer.Typer(help="Label papers: list, test, put right.", no_args_is_help=True, **PLAIN)

PaperName = Annotated[str, typer.Argument(metavar="PAPER", help="A paper's name.")]
To = Annotated[Path, typer.Option(help="The PDF to write.")]
Replace = Annotated[bool, typer.Option("--replace", help="Write over an older file.")]


@app.command("list")
def list_(context: typer.Context, as_json: Json = False) -> None:
    """List the papers, with the next free place of each part-used sheet."""
    from tacklebox.cli.faults import word_fault
    from tacklebox.desk import papers

    found = papers.listed(desk_of(context))
    if as_json:
        show_answer(found)
    else:
        rows = [(p.paper, p.name, str(p.places), str(p.next_free)) for p in found.papers]
        show_table(["paper", "what", "places", "next"], rows)
    for fault in found.faults:
        typer.echo(word_fault(fault), err=True)


@app.command("test")
def printer_page(
    context: typer.Context,
    paper: PaperName,
    to: To = Path("printer-test.pdf"),
    replace: Replace = False,
) -> None:
    """Write a test page with rulers and corner marks, to find out where the printer prints."""
    from tacklebox.desk import papers

    page = papers.print_test_page(desk_of(context), paper, to, replace=replace)
    say(f"Wrote {to}: print it at 100 %, measure it, and keep the measures with")
    say(f"`tacklebox paper measured {page.paper} --left … --top … --across … --down …`.")


@app.command()
def measured(
    context: typer.Context,
    paper: PaperName,
    left: Annotated[str, typer.Option(help="The line 20 mm from the left edge.")] = "20 mm",
    top: Annotated[str, typer.Option(help="The line 20 mm from the top edge.")] = "20 mm",
    across: Annotated[str, typer.Option(help="The ruler of 100 mm across.")] = "100 mm",
    down: Annotated[str, typer.Option(help="The ruler of 100 mm down.")] = "100 mm",
) -> None:
    """Keep what was measured on the test page; every sheet of this paper is put right by it."""
    from tacklebox.desk import papers

    kept = papers.keep_measured(
        desk_of(context), paper, left=left, top=top, across=across, down=down
    )
    say(f"Kept with your own copy of the paper: {kept.file}")


def tie_sheet(
    context: typer.Context,
    wanted: Annotated[
        list[str], typer.Argument(metavar="RECIPE=COUNT...", help="What is to be tied.")
    ],
    to: To = Path("tie-sheet.pdf"),
    page: Annotated[str, typer.Option(help='"a4" or "a5".')] = "a4",
    chosen: Set = None,
    replace: Replace = False,
    on: On = "",
) -> None:
    """Print the bench's page: what to cut, knots, shot places, what to take from where."""
    from tacklebox.desk.tie_sheets import print_sheets

    rigs, choices = pairs(wanted, "RECIPE=COUNT"), pairs(chosen, "--set")
    printed = print_sheets(desk_of(context), rigs, choices, to, page=page, replace=replace, on=on)
    say(f"Wrote {to}: {printed.pages} page{'' if printed.pages == 1 else 's'}.")
    say_unprintable(printed.unprintable)
