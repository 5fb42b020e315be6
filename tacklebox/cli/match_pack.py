"""``tacklebox match pack`` and ``match shopping``: what to take and what to buy, on screen or paper."""

from collections.abc import Sequence
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.buying import say_what_for
from tacklebox.cli.common import Json, desk_of
from tacklebox.cli.match_options import Csv, MatchArg, Page, Replace
from tacklebox.cli.output import WIDTH, say, say_folded, say_unprintable, show_answer, show_table

if TYPE_CHECKING:
    from tacklebox.desk.packing import Entry, Packing, Printed
    from tacklebox.desk.shopping import ShoppingList

To = Annotated[Path | None, typer.Option(help="Write it to this PDF, to be ticked off.")]


def pack(
    context: typer.Context,
    match: MatchArg,
    to: To = None,
    page: Page = "a4",
    replace: Replace = False,
    as_json: Json = False,
) -> None:
    """List what to take: rigs by code, hooklengths, rules, cautions, bait, distances, spares."""
    from tacklebox.desk import packing

    found = packing.pack(desk_of(context), match, to, page=page, overwrite=replace)
    if as_json:
        show_answer(found)
        return
    if to is not None and found.printed:
        _say_printed(to, found.printed)
    else:
        _show(found)
    if found.still_to_tie:
        say(
            f"{found.still_to_tie} still to be tied: `tacklebox match tie {found.match}` gives them "
            "codes."
        )


def _say_printed(to: Path, printed: "Printed") -> None:
    say(f"Wrote {to}: {printed.pages} page{'' if printed.pages == 1 else 's'}.")
    if printed.on_later_pages:
        say_folded(f"From page 2 on: {', '.join(printed.on_later_pages)}.")
    elif printed.pages > 1:
        say("The last section goes on overleaf.")
    say_unprintable(printed.unknown)


def _show(packing: "Packing") -> None:
    say(packing.title)
    for fact in packing.facts:
        say_folded(fact)
    for section in packing.sections:
        say()
        say(f"{section.heading}:")
        for is_tick, entries in groupby(section.entries, key=lambda entry: entry.tick):
            if is_tick:
                _show_ticks([_in_words(entry) for entry in entries])
            else:
                for entry in entries:
                    say_folded(_in_words(entry))


def _in_words(entry: "Entry") -> str:
    return " ".join(words for words in (entry.first, entry.words) if words)


def _show_ticks(entries: Sequence[str]) -> None:
    """Boxes to tick, side by side where they have room."""
    wide = max(map(len, entries)) + len("[ ]   ")
    across = max(1, min(8, WIDTH // wide))
    for start in range(0, len(entries), across):
        row = "".join(f"[ ] {entry}".ljust(wide) for entry in entries[start : start + across])
        say_folded(row.rstrip()) if across == 1 else say(row.rstrip())


def shopping(
    context: typer.Context,
    match: MatchArg,
    csv: Csv = None,
    to: To = None,
    page: Page = "a4",
    replace: Replace = False,
    as_json: Json = False,
) -> None:
    """List what to buy for a match: whole packets, prices, what each is for."""
    from tacklebox.desk.plans import to_buy
    from tacklebox.desk.shopping import ListFiles

    found = to_buy(desk_of(context), match, ListFiles(to, csv, page, replace))
    if as_json:
        show_answer(found)
        return
    if to is not None and found.printed:
        _say_printed(to, found.printed)
    if csv is not None:
        say(f"Wrote {csv}")
    if to is None and csv is None:
        show_shopping(found)
    elif not found.to_buy and not found.no_item_for:
        say("Nothing is to be bought: there are only heads in it.")


def show_shopping(found: "ShoppingList") -> None:
    """Print the list as a table, then what each purchase is for."""
    for ask in found.no_item_for:
        say_folded(f"No item in the box will do for {ask}.")
    if not found.to_buy:
        say("Nothing else is to be bought." if found.no_item_for else "Nothing is to be bought.")
        return
    say("To buy, in whole packets:")
    rows = [
        (str(one.item), one.name, one.packets, one.packet_price, one.cost) for one in found.to_buy
    ]
    if not found.prices_missing:
        rows.append(("", "total", "", "", found.total))
    show_table(["no.", "item", "packets", "a packet", "price"], rows)
    if found.prices_missing:
        say(f"Total {found.total}.")
    say_what_for(found)
