"""``tacklebox match pack`` and ``match shopping``: what to take and what to buy, on screen or paper."""

from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import Json, box_of
from tacklebox.cli.match_files import MatchArg, Page, Replace, plan_of, refuse_page
from tacklebox.cli.output import WIDTH, say, say_folded, say_unprintable, show_json, show_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tacklebox.matches.before.pack import Entry, PackList
    from tacklebox.matches.before.purchases import Shopping
    from tacklebox.printing.pages.tick_page import Printed

Csv = Annotated[Path | None, typer.Option("--csv", help="Write the shopping list to this CSV.")]


def pack(
    context: typer.Context,
    match: MatchArg,
    to: Annotated[Path | None, typer.Option(help="Write it to this PDF, to be ticked off.")] = None,
    page: Page = "a4",
    replace: Replace = False,
    as_json: Json = False,
) -> None:
    """List what to take: rigs by code, hooklengths, rules, cautions, bait, distances, spares."""
    from tacklebox.matches.before.pack import make_pack_list

    refuse_page(page)
    told, venue, plan = plan_of(context, match)
    packing = make_pack_list(box_of(context), told, venue, plan)
    printed = None
    if to is not None:
        from tacklebox.printing.pages.pack_page import print_pack_list

        printed = print_pack_list(packing, to, page=page, overwrite=replace)
    if as_json:
        show_json(_as_json(told.stem, packing, to, printed))
    elif to is not None and printed is not None:
        _say_printed(to, printed)
    else:
        _show(packing)
    to_tie = sum(line.tie for line in plan.lines)
    if to_tie and not as_json:
        say(f"{to_tie} still to be tied: `tacklebox match tie {told.stem}` gives them codes.")


def _say_printed(to: Path, printed: "Printed") -> None:
    say(f"Wrote {to}: {printed.pages} page{'' if printed.pages == 1 else 's'}.")
    if printed.on_later_pages:
        say_folded(f"From page 2 on: {', '.join(printed.on_later_pages)}.")
    elif printed.pages > 1:
        say("The last section goes on overleaf.")
    say_unprintable(printed.unknown)


def _show(packing: "PackList") -> None:
    say(packing.title)
    for fact in packing.facts:
        say_folded(fact)
    for section in packing.sections:
        say()
        say(f"{section.heading}:")
        for is_tick, entries in groupby(section.entries, key=lambda e: e.tick):
            if is_tick:
                _show_ticks([_line(entry) for entry in entries])
            else:
                for entry in entries:
                    say_folded(_line(entry))


def _line(entry: "Entry") -> str:
    return " ".join(w for w in (entry.first, entry.words) if w)


def _show_ticks(lines: "Sequence[str]") -> None:
    """Boxes to tick, side by side where they have room."""
    wide = max(map(len, lines)) + len("[ ]   ")
    across = max(1, min(8, WIDTH // wide))
    for start in range(0, len(lines), across):
        row = "".join(f"[ ] {line}".ljust(wide) for line in lines[start : start + across])
        say_folded(row.rstrip()) if across == 1 else say(row.rstrip())


def _as_json(
    match: str, packing: "PackList", to: Path | None, printed: "Printed | None"
) -> dict[str, Any]:
    from tacklebox.trade.law import DEFERS

    return {
        "match": match,
        "name": packing.title,
        "facts": list(packing.facts),
        "sections": [
            {
                "heading": section.heading,
                "entries": [
                    {"first": e.first, "words": e.words, "tick": e.tick} for e in section.entries
                ],
            }
            for section in packing.sections
        ],
        "comes_first": DEFERS,
        "pdf": str(to) if printed else None,
        "pages": printed.pages if printed else None,
        "characters_not_printed": list(printed.unknown) if printed else [],
    }


def shopping(
    context: typer.Context,
    match: MatchArg,
    csv: Csv = None,
    to: Annotated[Path | None, typer.Option(help="Write it to this PDF, to be ticked off.")] = None,
    page: Page = "a4",
    replace: Replace = False,
    as_json: Json = False,
) -> None:
    """List what to buy for a match: whole packets, prices, what each is for."""
    from tacklebox.matches.before.shopping import make_shopping

    refuse_page(page)
    told, _, plan = plan_of(context, match)
    listed, printed = make_shopping(box_of(context), plan), None
    if to is not None:
        from tacklebox.printing.pages.shopping_page import print_shopping

        printed = print_shopping(
            listed.purchases, to, heading=f"To buy for {told.name}, {told.date}",
            what_for=listed.what_for, no_item_for=listed.no_item_for, page=page, overwrite=replace,
        )  # fmt: skip
        if not as_json:
            _say_printed(to, printed)
    if csv is not None:
        write_csv(csv, listed, replace=replace)
        if not as_json:
            say(f"Wrote {csv}")
    if as_json:
        show_json(_shopping_as_json(told.stem, listed, printed))
    elif to is None and csv is None:
        show_shopping(listed)
    elif not listed.purchases and not listed.no_item_for:
        say("Nothing is to be bought: there are only heads in it.")


def rows_of(listed: "Shopping") -> list[tuple[str, str, str, str, str]]:
    """Number, name, packets, a packet's price, price."""
    from tacklebox.matches.before.purchases import write_price_or_missing as price

    return [
        (str(p.item.id), p.item.name, p.packets, price(p.item.pack_price_cents),
         price(p.cost_cents))
        for p in listed.purchases
    ]  # fmt: skip


def show_shopping(listed: "Shopping") -> None:
    """Print the list as a table, then what each purchase is for."""
    from tacklebox.matches.before.purchases import unpriced, write_total

    for ask in listed.no_item_for:
        say_folded(f"No item in the box will do for {ask}.")
    if not listed.purchases:
        say(
            "Nothing is to be bought."
            if not listed.no_item_for
            else "Nothing else is to be bought."
        )
        return
    say("To buy, in whole packets:")
    total, lacking = write_total(listed.purchases), unpriced(listed.purchases)
    rows = rows_of(listed)
    if not lacking:
        rows.append(("", "total", "", "", total))
    show_table(["no.", "item", "packets", "a packet", "price"], rows)
    if lacking:
        say(f"Total {total}.")
    for purchase in listed.purchases:
        aim = listed.what_for.get(purchase.item.id or 0)
        if aim:
            say_folded(f"{purchase.item.id}: {aim}.")


def write_csv(path: Path, listed: "Shopping", *, replace: bool = False) -> None:
    """Write the list to a CSV file, whole or not at all; raises as ``write_aside``."""
    import csv
    import io

    from tacklebox.printing.pdf import write_aside
    from tacklebox.stock.care.export import harmless

    with write_aside(path, overwrite=replace) as aside:
        text = io.TextIOWrapper(aside, "utf-8", newline="")
        writer = csv.writer(text)
        writer.writerow(["no.", "item", "packets", "price of a packet", "price", "what for"])
        for purchase, (number, name, *rest) in zip(listed.purchases, rows_of(listed), strict=True):
            what_for = listed.what_for.get(purchase.item.id or 0, "")
            writer.writerow([number, harmless(name), *rest, what_for])
        text.detach()


def _shopping_as_json(match: str, listed: "Shopping", printed: "Printed | None") -> dict[str, Any]:
    from tacklebox.matches.before.purchases import unpriced

    return {
        "match": match,
        "to_buy": [
            {
                "item": p.item.id,
                "name": p.item.name,
                "packs": p.packs,
                "pack_size": p.item.pack_size,
                "pack_price_cents": p.item.pack_price_cents,
                "cost_cents": p.cost_cents,
                "what_for": listed.what_for.get(p.item.id or 0, ""),
            }
            for p in listed.purchases
        ],
        "total_cents": listed.total_cents,
        "prices_not_known": unpriced(listed.purchases),
        "characters_not_printed": list(printed.unknown) if printed else [],
        "no_item_for": list(listed.no_item_for),
    }
