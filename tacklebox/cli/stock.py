"""``tacklebox stock``: add, find, count and take tackle."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import PLAIN, Json, On, box_of, day, desk_of
from tacklebox.cli.drawers import drawer_labels
from tacklebox.cli.output import row_as_json, say, say_folded, show_json, show_table
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.desk.stock import Moved
    from tacklebox.stock.ledger import Listed
    from tacklebox.stock.tables import Item

app = typer.Typer(
    help="Tackle in stock: add, list, count, buy, take.", no_args_is_help=True, **PLAIN
)
app.command("labels")(drawer_labels)

ItemArg = Annotated[str, typer.Argument(metavar="ITEM", help="Its number, or words that name it.")]
Place = Annotated[str | None, typer.Option(help='Where it lies, like "drawer 2".')]
Price = Annotated[str | None, typer.Option(help="Price of a packet.")]
Keep = Annotated[str | None, typer.Option(help='Keep at least so much, like "20" or "30 m".')]
Name = Annotated[str | None, typer.Option(help="A name of your own.")]
AsPrinted = Annotated[
    bool, typer.Option("--as-printed", help="Take line figures as printed, unquestioned.")
]


def item_as_json(item: "Item | Listed") -> dict[str, Any]:
    """An item's common columns for JSON; amounts of line in mm, of all else in pieces."""
    told = item._asdict() if isinstance(item, tuple) else row_as_json(item)
    return {**told, "unit": "mm" if item.measured else "pieces"}


def _show_items(items: "Sequence[Item | Listed]", as_json: bool) -> None:
    from tacklebox.stock.ledger import write_amount

    if as_json:
        show_json([item_as_json(item) for item in items])
        return
    if not items:
        say("Nothing of that kind is in the box.")
        return
    rows = [
        (
            str(i.id),
            i.name,
            write_amount(i.on_hand, i.measured) + (" low" if i.on_hand < i.keep_at_least else ""),
            write_amount(i.keep_at_least, i.measured) if i.keep_at_least else "",
            i.place,
        )
        for i in items
    ]
    show_table(["no.", "item", "on hand", "keep", "place"], rows)


@app.command()
def add(
    context: typer.Context,
    words: Annotated[
        list[str] | None,
        typer.Argument(help='What it is, like "nylon 0.14 mm 4 lb 100 m".'),
    ] = None,
    kind: Annotated[str | None, typer.Option(help="Its kind, when given by flags.")] = None,
    with_: Annotated[
        list[str] | None, typer.Option("--with", help='A figure by flag: "size 18".')
    ] = None,
    name: Name = None,
    place: Place = None,
    pack: Annotated[str | None, typer.Option(help='In one packet: "10", "100 m".')] = None,
    price: Price = None,
    keep: Keep = None,
    packs: Annotated[int | None, typer.Option(min=0, max=10000, help="Packets bought.")] = None,
    amount: Annotated[
        str | None, typer.Option(help="What there is, counted, instead of --packs.")
    ] = None,
    on: On = "",
    as_printed: AsPrinted = False,
    as_json: Json = False,
) -> None:
    """Add a new item, with what there is of it."""
    from tacklebox.stock.asks import read_filters
    from tacklebox.stock.lead import lead_in_stock
    from tacklebox.stock.ledger import NewItem, add_item, begin, read_price_cents, write_amount
    from tacklebox.stock.notation import read_notation, words_from_flags
    from tacklebox.stock.tables import MEASURED_KINDS

    if bool(words) == bool(kind):
        raise AskedWronglyError(
            "say what it is, in words or by --kind and --with.",
            right='Write it like `stock add "hook 18 barbless spade pack 10"`.',
        )
    if packs is not None and amount:
        raise AskedWronglyError("--packs and --amount are both given.", right="Give one of them.")
    if kind:
        asks = read_filters(kind, with_ or [])
        text = words_from_flags(asks.kind, {key: text for key, text, _ in asks.wanted})
    else:
        text = " ".join(words or ())
    from tacklebox.stock.ledger import read_amount

    described = read_notation(text)
    new = NewItem(
        described,
        name=name or "",
        place=place or "",
        pack_size=read_amount(pack, described.kind in MEASURED_KINDS) if pack else None,
        pack_price_cents=read_price_cents(price) if price else None,
        keep_at_least=keep or "",
        packs=packs,
        amount=amount or "",
    )
    box = box_of(context)
    with box.writing() as session:
        item = add_item(session, begin(session, "add", day(on)), new, as_printed=as_printed)
        forbidden = lead_in_stock(session)
    if as_json:
        show_json(item_as_json(item))
        return
    say(f"Item {item.id}: {item.name}, {write_amount(item.on_hand, item.measured)} on hand.")
    for lead, judged in forbidden:
        if lead.id == item.id:
            say_folded(f"{judged.outcome.upper()}: {judged.says}.")


@app.command("import")
def import_(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(help="A CSV file.")],
    on: On = "",
    as_printed: AsPrinted = False,
) -> None:
    """Add many items from a CSV file: all of its rows, or none.

    Columns: item (words, needed), name, place, pack, price, keep, packs, amount.
    """
    from tacklebox.stock.csv_file import import_items

    added = import_items(box_of(context), file, day(on), as_printed=as_printed)
    say(f"{len(added)} items added.")


@app.command("list")
def list_(
    context: typer.Context,
    words: Annotated[list[str] | None, typer.Argument(help="Words to search for.")] = None,
    kind: Annotated[str | None, typer.Option(help="Only this kind, like line or shot.")] = None,
    where: Annotated[
        list[str] | None,
        typer.Option(help='With --kind: a figure, like "diameter 0.12 to 0.16 mm".'),
    ] = None,
    as_json: Json = False,
) -> None:
    """List what is in stock, all of it or what is searched for."""
    from tacklebox.stock.lead import lead_in_stock
    from tacklebox.stock.ledger import list_items, search

    box = box_of(context)
    if where and not kind:
        raise AskedWronglyError("--where needs --kind.", right="Add --kind line, for example.")
    if kind:
        from tacklebox.stock.asks import read_filters
        from tacklebox.stock.inventory import Inventory

        ask = read_filters(kind, where or [])
        with box.reading() as session:
            stock = Inventory.read(session, [ask.kind]).by_kind[ask.kind]
            lead = lead_in_stock(session)
        items: Sequence[Item | Listed] = [s.item for s in ask.among(stock)]
    else:
        with box.reading() as session:
            items = list_items(session)
            lead = lead_in_stock(session)
    listed = search(items, " ".join(words)) if words else items
    _show_items(listed, as_json)
    shown = {item.id for item in listed}
    names = [f"{item.id} {item.name}" for item, _ in lead if item.id in shown]
    if names and not as_json:
        say_folded(f"Lead that may not weight a line: {', '.join(names)}. See `tacklebox law`.")


@app.command()
def show(context: typer.Context, item: ItemArg, as_json: Json = False) -> None:
    """Show one item with its figures."""
    from tacklebox.stock.ledger import find, write_amount, write_price
    from tacklebox.stock.tables import FIGURES

    box = box_of(context)
    with box.reading() as session:
        found = find(session, item)
        figures = session.get(FIGURES[found.kind], found.id)
    if as_json:
        show_json({**item_as_json(found), "figures": row_as_json(figures) if figures else {}})
        return
    price = found.pack_price_cents
    rows = [
        ("item", str(found.id)),
        ("name", found.name),
        ("what", found.words),
        ("place", found.place or "not said"),
        ("on hand", write_amount(found.on_hand, found.measured)),
        ("keep at least", write_amount(found.keep_at_least, found.measured)),
        ("in a packet", write_amount(found.pack_size, found.measured)),
        ("a packet costs", write_price(price) if price is not None else "not said"),
    ]
    show_table(["", ""], rows)


@app.command()
def history(context: typer.Context, item: ItemArg, as_json: Json = False) -> None:
    """Show every movement of one item, oldest first."""
    from tacklebox.stock.ledger import find, movements_of, write_amount

    box = box_of(context)
    with box.reading() as session:
        found = find(session, item)
        moved = movements_of(session, found)
    if as_json:
        show_json([row_as_json(m) for m in moved])
        return
    rows, total = [], 0
    for m in moved:
        total += m.amount
        sign = "+" if m.amount > 0 else ""
        amounts = (write_amount(m.amount, found.measured), write_amount(total, found.measured))
        rows.append((str(m.on), m.why, sign + amounts[0], amounts[1], m.reason))
    say(found.name)
    show_table(["day", "why", "change", "then", "reason"], rows, flexible=4)


def _moved(item: "Item") -> None:
    from tacklebox.stock.ledger import write_amount

    low = " That is less than you keep." if item.on_hand < item.keep_at_least else ""
    say(f"{item.name}: {write_amount(item.on_hand, item.measured)} on hand.{low}")


@app.command()
def buy(
    context: typer.Context,
    item: ItemArg,
    packs: Annotated[int, typer.Option(min=1, max=10000, help="How many packets.")] = 1,
    price: Price = None,
    on: On = "",
) -> None:
    """Add packets bought of an item."""
    from tacklebox.desk import stock

    _show_moved(stock.buy(desk_of(context), item, packs=packs, price=price or "", on=on))


def _show_moved(moved: "Moved") -> None:
    short = " That is less than you keep." if moved.short else ""
    say(f"{moved.name}: {moved.on_hand} on hand.{short}")


@app.command()
def count(
    context: typer.Context,
    item: ItemArg,
    amount: Annotated[str, typer.Argument(help='What there is: "23", "85 m".')],
    on: On = "",
) -> None:
    """Put right what is on hand, as counted."""
    from tacklebox.stock.ledger import begin, find, move, read_amount
    from tacklebox.stock.tables import Why

    with box_of(context).writing() as session:
        found = find(session, item)
        change = read_amount(amount, found.measured) - found.on_hand
        move(session, begin(session, "count", day(on)), found, change, Why.COUNTED)
    _moved(found)


@app.command()
def take(
    context: typer.Context,
    item: ItemArg,
    amount: Annotated[str, typer.Argument(help='How much: "2", "10 m".')],
    why: Annotated[str, typer.Option(help='"lost", "thrown out" or "tied".')] = "lost",
    reason: Annotated[str, typer.Option(help="A note of your own.")] = "",
    on: On = "",
) -> None:
    """Take something out of stock: lost, thrown out, or tied by hand."""
    _take_or_give(context, item, amount, why, reason, on, ("lost", "thrown out", "tied"), -1)


@app.command()
def give(
    context: typer.Context,
    item: ItemArg,
    amount: Annotated[str, typer.Argument(help='How much: "2", "10 m".')],
    reason: Annotated[str, typer.Option(help="A note of your own.")] = "",
    on: On = "",
) -> None:
    """Give something back to stock."""
    _take_or_give(context, item, amount, "given back", reason, on, ("given back",), 1)


def _take_or_give(
    context: typer.Context,
    item: str,
    amount: str,
    why: str,
    reason: str,
    on: str,
    allowed: tuple[str, ...],
    sign: int,
) -> None:
    from tacklebox.errors import nearest_word
    from tacklebox.stock.ledger import begin, find, move, read_amount
    from tacklebox.stock.tables import Why

    if why not in allowed:
        raise AskedWronglyError(
            f'"{why}" is no reason here.', where="--why", right=nearest_word(why, allowed)
        )
    with box_of(context).writing() as session:
        found = find(session, item)
        change = read_amount(amount, found.measured)
        if change == 0:
            raise AskedWronglyError("the amount is nothing.", right="Write how much.")
        move(session, begin(session, why, day(on)), found, sign * change, Why(why), reason)
    _moved(found)


@app.command()
def correct(
    context: typer.Context,
    item: ItemArg,
    change: Annotated[str, typer.Argument(help='Up or down by: "+2", "-10 m".')],
    reason: Annotated[str, typer.Option(help="What was wrong.")],
    on: On = "",
) -> None:
    """Mend a mistake by a movement of its own. Put -- before a change that starts with -."""
    from tacklebox.stock.ledger import begin, find, move, read_amount
    from tacklebox.stock.tables import Why

    sign, rest = change.strip()[:1], change.strip()[1:]
    if sign not in ("+", "-", "−") or not rest:
        raise AskedWronglyError(f'"{change}" is no change.', right='Write it like "+2" or "-10 m".')
    with box_of(context).writing() as session:
        found = find(session, item)
        amount = read_amount(rest, found.measured)
        action = begin(session, "correct", day(on))
        move(session, action, found, amount if sign == "+" else -amount, Why.CORRECTED, reason)
    _moved(found)


@app.command()
def edit(
    context: typer.Context,
    item: ItemArg,
    name: Name = None,
    place: Place = None,
    pack: Annotated[str | None, typer.Option(help='In one packet: "10", "100 m".')] = None,
    price: Price = None,
    keep: Keep = None,
) -> None:
    """Change an item's name, place, packet, price or keep-at-least."""
    from tacklebox.stock.ledger import edit_item, find

    with box_of(context).writing() as session:
        found = find(session, item)
        edit_item(session, found, name=name, place=place, pack=pack, price=price, keep=keep)
    _moved(found)
