"""``tacklebox stock labels``: print labels for drawers and boxes as PDF."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.common import box_of, past_a_second
from tacklebox.cli.labels import (
    Paper,
    Qr,
    Replace,
    Skip,
    Start,
    first_place,
    note_printed,
    tell_printed,
)
from tacklebox.errors import AskedWronglyError, nearest_word

if TYPE_CHECKING:
    from tacklebox.stock.care.box import Box
    from tacklebox.stock.inventory import Stocked


def drawer_labels(
    context: typer.Context,
    items: Annotated[
        list[str] | None,
        typer.Argument(metavar="ITEM...", help="Numbers, or words that name them; none: all."),
    ] = None,
    kind: Annotated[str | None, typer.Option(help="All of this kind.")] = None,
    place: Annotated[str | None, typer.Option(help='All that lies there: "drawer 2".')] = None,
    paper: Paper = "drawers-60",
    to: Annotated[Path, typer.Option(help="The PDF to write.")] = Path("drawers.pdf"),
    start: Start = "1",
    skip: Skip = None,
    qr: Qr = True,
    replace: Replace = False,
) -> None:
    """Print labels for drawers: what lies there, the packet, how much to keep."""
    from datetime import date

    from tacklebox.printing.labels.drawers import drawer_label
    from tacklebox.printing.labels.papers import load_paper
    from tacklebox.printing.labels.sheets import print_each

    box = box_of(context)
    on_paper = load_paper(paper, box.labels)
    chosen = _chosen(box, items or [], kind, place)
    report = print_each(
        chosen,
        lambda stocked: drawer_label(stocked.item, stocked.figures),
        on_paper,
        to,
        start=first_place(box, on_paper, start),
        skip=skip or (),
        qr=qr,
        overwrite=replace,
        progress=past_a_second("labels", len(chosen)),
    )
    note_printed(box, [], date.today(), on_paper.stem, report, to)
    tell_printed(report, to)


def _chosen(box: "Box", named: list[str], kind: str | None, place: str | None) -> "list[Stocked]":
    """The items named, or those of the kind at the place, in the order they were added."""
    from tacklebox.stock.asks import read_filters
    from tacklebox.stock.inventory import Inventory
    from tacklebox.stock.ledger import find
    from tacklebox.stock.tables import Kind

    if named and (kind or place):
        raise AskedWronglyError(
            "items are named, and a kind or place is given too.", right="Give one of them."
        )
    ask = read_filters(kind, []) if kind else None
    with box.reading() as session:
        numbers = [find(session, said).id for said in named]
        by_kind = Inventory.read(session, [ask.kind] if ask else list(Kind)).by_kind
    those = ask.among(by_kind[ask.kind]) if ask else [s for of in by_kind.values() for s in of]
    stock = {s.id: s for s in those}
    if named:
        return [stock[number] for number in dict.fromkeys(numbers) if number]
    there = [
        s
        for _, s in sorted(stock.items())
        if place is None or s.item.place.casefold() == place.strip().casefold()
    ]
    if not there and place is not None:
        places = sorted({s.item.place for s in stock.values() if s.item.place})
        raise AskedWronglyError(
            f'nothing {f"of the kind {kind} " if kind else ""}lies in "{place}".',
            where="--place",
            right=nearest_word(place, places) if places else "No item has a place yet.",
        )
    if not there:
        raise AskedWronglyError(
            f"there is nothing {f'of the kind {kind} ' if kind else ''}in the box.",
            right="`stock add` adds tackle.",
        )
    return there
