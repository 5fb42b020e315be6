"""``tacklebox labels``: print winder labels as PDF."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import On, box_of, day
from tacklebox.cli.output import say, say_folded, show_table
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.rigs.snapshot import Snapshot
    from tacklebox.stock.box import Box


def labels(
    context: typer.Context,
    codes: Annotated[
        list[str] | None, typer.Argument(metavar="CODE...", help="Rigs; none: all without a label.")
    ] = None,
    paper: Annotated[str, typer.Option(help="The paper; see --papers.")] = "a4-65",
    to: Annotated[Path, typer.Option(help="The PDF to write.")] = Path("labels.pdf"),
    start: Annotated[int, typer.Option(help="First free place on a part-used sheet.")] = 1,
    qr: Annotated[bool, typer.Option("--qr/--no-qr", help="With the words as a QR.")] = True,
    replace: Annotated[bool, typer.Option("--replace", help="Write over an older file.")] = False,
    papers: Annotated[bool, typer.Option("--papers", help="List the papers.")] = False,
    on: On = "",
) -> None:
    """Print labels for chosen rigs, or for all that have none yet."""
    from tacklebox.printing.labels import print_labels
    from tacklebox.printing.papers import list_papers, load_paper
    from tacklebox.rigs.tie import mark_labelled

    box = box_of(context)
    if papers:
        show_table(["paper", "what"], [(p.stem, p.name) for p in list_papers(box.labels)])
        return
    chosen_paper = load_paper(paper, box.labels)
    printed_on = day(on)
    snapshots = _snapshots(box, codes or [])
    if not snapshots:
        say("Every rig that is ready has its label; name codes to print one again.")
        return
    report = print_labels(snapshots, chosen_paper, to, start=start, qr=qr, overwrite=replace)
    mark_labelled(box, [s.code for s in snapshots], printed_on)
    sheets = "1 sheet" if report.pages == 1 else f"{report.pages} sheets"
    say(f"{len(snapshots)} labels on {sheets}: {report.path}")
    say(f"Print at 100 %, not fitted to the page. Next free place: {report.next_free}.")
    lacking: dict[str, list[str]] = {}
    for code, what in report.left_off:
        lacking.setdefault(what, []).append(code)
    for what, those in lacking.items():
        say_folded(f"{', '.join(those)}: {what}.")


def _snapshots(box: "Box", codes: list[str]) -> "list[Snapshot]":
    from tacklebox.rigs.snapshot import Snapshot
    from tacklebox.rigs.tie import READY, find_snapshot, tied_with

    if not codes:
        tied = tied_with(box, state=READY, unlabelled=True)
        return [Snapshot.from_json(t.snapshot) for t in tied]
    found = []
    for code in codes:
        one, snapshot = find_snapshot(box, code)
        if one.state != READY:
            raise AskedWronglyError(
                f"{one.code} is {one.state}; it needs no label.", right="Nothing was printed."
            )
        found.append(snapshot)
    return found
