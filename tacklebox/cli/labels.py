"""``tacklebox labels``: print winder labels as PDF."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import On, box_of, day, past_a_second
from tacklebox.cli.output import say, say_folded, show_table
from tacklebox.errors import AskedWronglyError, CannotBeDoneError

if TYPE_CHECKING:
    from tacklebox.printing.labels.papers import Paper as PaperFile
    from tacklebox.printing.labels.sheets import PrintReport
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.stock.care.box import Box

# What all commands that print labels can be told
Paper = Annotated[str, typer.Option(help="The paper; `tacklebox paper list` shows them.")]
Start = Annotated[str, typer.Option(help='First place on a part-used sheet: a number, or "next".')]
Skip = Annotated[
    list[int] | None, typer.Option(help="A spoiled place to leave empty; again for more.")
]
Qr = Annotated[bool, typer.Option("--qr/--no-qr", help="With the words as a QR.")]
Replace = Annotated[bool, typer.Option("--replace", help="Write over an older file.")]


def labels(
    context: typer.Context,
    codes: Annotated[
        list[str] | None, typer.Argument(metavar="CODE...", help="Rigs; none: all without a label.")
    ] = None,
    paper: Paper = "a4-65",
    to: Annotated[Path, typer.Option(help="The PDF to write.")] = Path("labels.pdf"),
    last: Annotated[bool, typer.Option("--last", help="The rigs of the last tying.")] = False,
    start: Start = "1",
    skip: Skip = None,
    qr: Qr = True,
    replace: Replace = False,
    papers: Annotated[bool, typer.Option("--papers", help="List the papers.")] = False,
    on: On = "",
) -> None:
    """Print labels for chosen rigs, or for all that have none yet."""
    from tacklebox.printing.labels.papers import list_papers, load_paper
    from tacklebox.printing.labels.sheets import print_labels

    box = box_of(context)
    if papers:
        show_table(["paper", "what"], [(p.stem, p.name) for p in list_papers(box.labels)])
        return
    on_paper = load_paper(paper, box.labels)
    printed_on = day(on)
    first = first_place(box, on_paper, start)
    snapshots = _snapshots(box, codes or [], last)
    if not snapshots:
        say("Every rig that is ready has its label; name codes to print one again.")
        return
    report = print_labels(
        snapshots,
        on_paper,
        to,
        start=first,
        skip=skip or (),
        qr=qr,
        overwrite=replace,
        progress=past_a_second("labels", len(snapshots)),
    )
    note_printed(box, [s.code for s in snapshots], printed_on, on_paper.stem, report, to)
    tell_printed(report, to)


def note_printed(
    box: "Box", codes: Sequence[str], on: date, paper: str, report: "PrintReport", to: Path
) -> None:
    """Note in the box what was printed; where it cannot be, say that the page is there all the same."""
    from tacklebox.rigs.tying.tied import mark_labelled

    try:
        mark_labelled(box, codes, on, paper, report.next_free)
    except CannotBeDoneError as error:
        raise CannotBeDoneError(
            f"the labels are in {to}, but the box could not note them as printed: {error}",
        ) from None


def tell_printed(report: "PrintReport", to: Path) -> None:
    """Say what was printed, where the sheet goes on, and what was left off which label."""
    sheets = "1 sheet" if report.pages == 1 else f"{report.pages} sheets"
    count = "1 label" if report.labels == 1 else f"{report.labels} labels"
    say(f"{count} on {sheets}: {to}")
    say("Print at 100 %, not fitted to the page.")
    say(f"Next free place: {report.next_free}; --start next goes on there.")
    codes: dict[tuple[str, str], list[str]] = {}
    for left in report.left_off:
        codes.setdefault((left.why, left.what), []).append(left.code)
    things: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for (why, what), those in codes.items():
        things.setdefault((why, tuple(those)), []).append(what)
    for (why, labelled), what_all in things.items():
        which = "All" if len(labelled) == report.labels > 1 else ", ".join(labelled)
        say_folded(f"{which}: {why} {', '.join(what_all)}.")


def first_place(box: "Box", paper: "PaperFile", start: str) -> int:
    """The first place to print on: a number, or "next" for where the sheet was left."""
    from tacklebox.rigs.tying.tied import next_free_place

    if start == "next":
        return next_free_place(box, paper.stem)
    if not start.isdecimal() or not start.isascii() or len(start) > 6:
        raise AskedWronglyError(
            f'"{start}" is no place.', where="--start", right='Give its number, or "next".'
        )
    return int(start)


def _snapshots(box: "Box", codes: list[str], last: bool) -> "list[Snapshot]":
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.rigs.tying.tied import READY, find_snapshot, tied_with

    if codes and last:
        raise AskedWronglyError("codes and --last are both given.", right="Give one of them.")
    if not codes:
        tied = tied_with(box, state=READY, unlabelled=not last, last=last)
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
