"""The shopping list as a page to tick off in the shop."""

from collections.abc import Mapping, Sequence
from typing import Any

from tacklebox.matches.before.purchases import (
    Purchase,
    unpriced,
    write_price_or_missing,
    write_total,
)
from tacklebox.outputs import Target
from tacklebox.printing.pages.tick_page import Printed, TickPage, print_ticks


def print_shopping(
    purchases: Sequence[Purchase],
    target: Target,
    *,
    heading: str = "To buy",
    what_for: Mapping[int, str] | None = None,
    no_item_for: Sequence[str] = (),
    mind: Sequence[str] = (),
    page: str = "a4",
    overwrite: bool = False,
) -> Printed:
    """Write whole packets with prices, total, and what each is for, with boxes to tick.

    ``what_for`` is in words by item number, like "for 2 × my-rig"; ``no_item_for`` are asks that no
    item in the box meets; ``mind`` is what the law says of what is to be bought. Where there is
    nothing to buy, the page says so. Raises as ``tick_page.print_ticks``.
    """

    def fill(made: TickPage) -> None:
        made.name(heading)
        if purchases:
            _fill(made, purchases, what_for or {})
        if no_item_for:
            made.head("No item in the box would do for")
            made.ticks([("", words) for words in no_item_for])
        if not purchases and not no_item_for:
            made.say("Nothing is to be bought.")
        if mind:
            made.head("Mind")
            for words in mind:
                made.say(words)

    return print_ticks(fill, target, title=heading, page=page, overwrite=overwrite)


def _fill(made: TickPage, purchases: Sequence[Purchase], what_for: Mapping[int, str]) -> None:
    narrow = made.size * 5.2
    widths = [made.size * 1.7, made.size * 6, made.between - made.size * 7.7 - 2 * narrow]
    rows: list[list[Any]] = [
        ["", *(made.words("", text) for text in ("packets", "what", "a packet", "price"))]
    ]
    below = {}
    for purchase in purchases:
        item = purchase.item
        rows.append(
            [
                made.box(),
                made.words("", purchase.packets),
                made.words(item.name),
                made.words(write_price_or_missing(item.pack_price_cents)),
                made.words(write_price_or_missing(purchase.cost_cents)),
            ]
        )
        aim = what_for.get(item.id or 0, "")
        if aim:
            below[len(rows)] = 2
            rows.append(["", "", made.words(aim), "", ""])
    total, missing = write_total(purchases), unpriced(purchases)
    if not missing:
        rows.append(["", "", made.words("", "total"), "", made.words("", total)])
    made.table(rows, [*widths, narrow, narrow], head=True, below=below)
    if missing:
        made.say("", first=f"total {total}")
