"""What to buy: whole packets with their prices and what each is for, on paper and as CSV too."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.desk.answers import Amount, amount_of, packet, write_day
from tacklebox.desk.asking import page_size
from tacklebox.desk.opening import Desk
from tacklebox.desk.stock import lead_supply

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tacklebox.matches.before.purchases import Purchase, Shopping
    from tacklebox.matches.files.match import Match
    from tacklebox.outputs import Form, Target
    from tacklebox.printing.pages.tick_page import Printed as Printed

# Of the CSV; and of one that was written before lists told of lead, which may be written over too.
OLDER_COLUMNS = ("no.", "item", "packets", "price of a packet", "price", "what for")
COLUMNS = (*OLDER_COLUMNS, "mind")


@dataclass(frozen=True)
class ToBuy:
    """One item to buy. Of what it is short of, ``for_minimum`` is for its minimum alone; ``caution`` is
    what the law says of lead that may not weight a line, "" of all else."""

    item: int
    name: str
    packs: int
    packets: str  # in words: "2 × 10", "3" of what comes singly
    packet: Amount
    short: Amount
    for_minimum: Amount
    packet_price_cents: int | None
    packet_price: str  # in words; "missing" where nobody told it
    cost_cents: int | None
    cost: str
    what_for: str
    caution: str


@dataclass(frozen=True)
class ShoppingList:
    """What to buy, the total of the prices that are known, and how many are missing in it.

    ``no_item_for`` are asks that no item in the box meets. ``supply`` says which lead may not be sold, where
    such lead is to be bought, "" else. ``printed`` tells of the page, where one was written.
    """

    heading: str
    to_buy: tuple[ToBuy, ...]
    no_item_for: tuple[str, ...]
    total_cents: int
    prices_missing: int
    total: str  # in words: "6.75, 2 prices missing"
    supply: str
    printed: "Printed | None" = None


@dataclass(frozen=True)
class ListFiles:
    """Where a shopping list is written: to a page for the shop, to a CSV file, or to both."""

    pdf: "Target | None" = None
    csv: "Target | None" = None
    page: str = "a4"
    replace: bool = False

    def refuse(self) -> None:
        """Refuse a page size that is none, and files that could not be written; before anything is done."""
        from tacklebox.outputs import PDF, Output, try_outputs

        page_size(self.page)
        wanted = ((self.pdf, PDF, "to"), (self.csv, _csv(), "csv"))
        try_outputs(
            [Output(to, form, self.replace, field) for to, form, field in wanted if to is not None]
        )


def shopping_heading(match: "Match") -> str:
    """What the list of a match is headed by."""
    return f"To buy for {match.name}, {write_day(match.day)}"


def shopping_list(desk: Desk, shopping: "Shopping", heading: str, files: ListFiles) -> ShoppingList:
    """The list as it is shown, once it is written to its files.

    Raises AskedWronglyError for a page size that is none or a file that is there already,
    CannotBeDoneError where a file cannot be written.
    """
    from tacklebox.matches.before.purchases import total_cents, unpriced, write_total

    bought = shopping.purchases
    lead = _lead(desk, bought)
    supply = lead_supply() if lead else ""
    to_buy = tuple(
        _to_buy(p, shopping.what_for.get(p.item.id or 0, ""), lead.get(p.item.id or 0, ""))
        for p in bought
    )
    printed = None
    if files.pdf is not None:
        from tacklebox.printing.pages.shopping_page import print_shopping

        printed = print_shopping(
            bought,
            files.pdf,
            heading=heading,
            what_for=shopping.what_for,
            no_item_for=shopping.no_item_for,
            mind=(*lead.values(), supply) if lead else (),
            page=files.page,
            overwrite=files.replace,
        )
    if files.csv is not None:
        _write_csv(to_buy, supply, files.csv, replace=files.replace)
    return ShoppingList(
        heading,
        to_buy,
        shopping.no_item_for,
        total_cents(bought),
        unpriced(bought),
        write_total(bought),
        supply,
        printed,
    )


def _lead(desk: Desk, bought: "Sequence[Purchase]") -> dict[int, str]:
    """What the law says of each item to buy that is lead which may not weight a line."""
    if not bought:
        return {}
    from tacklebox.stock.lead import lead_among

    with desk.box.reading() as session:
        found = lead_among(session, [purchase.item.id or 0 for purchase in bought])
    return {item: f"{judgement.says}." for item, judgement in found.items()}


def _to_buy(purchase: "Purchase", what_for: str, caution: str) -> ToBuy:
    from tacklebox.matches.before.purchases import write_price_or_missing

    item = purchase.item
    return ToBuy(
        item.id or 0,
        item.name,
        purchase.packs,
        purchase.packets,
        packet(item),
        amount_of(item, purchase.short),
        amount_of(item, purchase.for_minimum),
        item.pack_price_cents,
        write_price_or_missing(item.pack_price_cents),
        purchase.cost_cents,
        write_price_or_missing(purchase.cost_cents),
        what_for,
        caution,
    )


def _csv() -> "Form":
    from tacklebox.outputs import csv_with

    return csv_with(COLUMNS, OLDER_COLUMNS)


def _write_csv(to_buy: tuple[ToBuy, ...], supply: str, to: "Target", *, replace: bool) -> None:
    """Write the list to a CSV file, whole or not at all."""
    import csv
    import io

    from tacklebox.outputs import write_aside
    from tacklebox.stock.care.cells import cell_of_list

    with write_aside(to, _csv(), overwrite=replace) as aside:
        text = io.TextIOWrapper(aside, "utf-8", newline="")
        writer = csv.writer(text)
        writer.writerow(COLUMNS)
        for one in to_buy:
            mind = f"{one.caution} {supply}" if one.caution else ""
            row = (one.packets, one.packet_price, one.cost)
            name, *ends = (cell_of_list(words) for words in (one.name, one.what_for, mind))
            writer.writerow((str(one.item), name, *row, *ends))
        text.detach()
