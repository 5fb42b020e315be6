"""``tacklebox stock``: add, find, count and take tackle."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from tacklebox.cli.buying import say_lead
from tacklebox.cli.common import NUMBER, PLAIN, Json, On, desk_of
from tacklebox.cli.labels import drawer_labels
from tacklebox.cli.output import say, say_folded, show_answer, show_table
from tacklebox.cli.stock_looking import look, read, serves
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.desk.adding import StockQuestion
    from tacklebox.desk.stock import ItemRow, Lead, Moved, MovementRow

app = typer.Typer(
    help="Tackle in stock: add, list, count, buy, take.", no_args_is_help=True, **PLAIN
)

ItemArg = Annotated[str, typer.Argument(metavar="ITEM", help="Its number, or words that name it.")]
Place = Annotated[str | None, typer.Option(help='Where it lies, like "drawer 2".')]
Price = Annotated[str | None, typer.Option(help="Price of a packet.")]
Minimum = Annotated[str | None, typer.Option(help='At least so much, like "20" or "30 m".')]
Maker = Annotated[str | None, typer.Option(help="Who made a line; prints of one err together.")]
Name = Annotated[str | None, typer.Option(help="A name of your own.")]
Pack = Annotated[str | None, typer.Option(help='In one packet: "10", "100 m".')]
Reason = Annotated[str, typer.Option(help="A note of your own.")]
AsPrinted = Annotated[
    bool, typer.Option("--as-printed", help="Take line figures as printed, unquestioned.")
]


def show_items(items: "Sequence[ItemRow]") -> None:
    """Print items as a table, what is short marked as such."""
    rows = [
        (
            str(i.number),
            i.name,
            i.on_hand.words + (" short" if i.short and i.on_hand.counted else ""),
            i.minimum.words if i.minimum.value else "",
            i.place,
        )
        for i in items
    ]
    show_table(["no.", "item", "on hand", "minimum", "place"], rows)


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
    pack: Pack = None,
    price: Price = None,
    minimum: Minimum = None,
    packs: Annotated[int | None, typer.Option(help="Packets bought.", **NUMBER)] = None,
    amount: Annotated[
        str | None, typer.Option(help="What there is, counted, instead of --packs.")
    ] = None,
    level: Annotated[
        str | None, typer.Option(help="plenty, low or out, of what is not counted.")
    ] = None,
    on: On = "",
    as_printed: AsPrinted = False,
    as_json: Json = False,
) -> None:
    """Add a new item, with what there is of it; what is not sure is asked."""
    from tacklebox.cli.adding import ask_or_refuse, show_added
    from tacklebox.desk import adding

    if bool(words) == bool(kind):
        raise AskedWronglyError(
            "say what it is, in words or by --kind and --with.",
            right='Write it like `tacklebox stock add "hook 18 barbless spade pack 10"`.',
        )
    text = adding.words_of_figures(kind, with_ or []) if kind else " ".join(words or ())
    said = adding.NewStock(
        name or "",
        place or "",
        pack or "",
        price or "",
        minimum or "",
        packs,
        amount or "",
        level or "",
    )
    desk = desk_of(context)

    def question(words: str, answers: Sequence[str]) -> "StockQuestion | None":
        return adding.question(desk, words, said, answers)

    text, answers = ask_or_refuse(text, question, can_ask=not as_json)
    added = adding.add(desk, text, said, answers=answers, on=on, as_printed=as_printed)
    if as_json:
        show_answer(added)
        return
    show_added(added)


@app.command("import")
def import_(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(help="A CSV file.")],
    on: On = "",
    as_printed: AsPrinted = False,
    as_json: Json = False,
) -> None:
    """Add many items from a CSV file: all of its rows, or none.

    Columns: item (words, needed), name, place, pack, price, minimum, packs, amount, level, and
    same: yes or no where an item may be one that you have, in another unit.
    """
    from tacklebox.cli.adding import show_assumed_of
    from tacklebox.desk import adding

    imported = adding.import_csv(desk_of(context), file, on=on, as_printed=as_printed)
    if as_json:
        show_answer(imported)
        return
    many = len(imported.items)
    say(f"{many} item{'s' * (many != 1)} added.")
    if imported.more:
        say_folded(f"More of what was there: {', '.join(map(str, imported.more))}.")
    show_assumed_of(imported)
    _say_leads(imported.forbidden_lead)


def _say_leads(leads: "Sequence[Lead]") -> None:
    if leads:
        names = ", ".join(f"{lead.number} {lead.name}" for lead in leads)
        say_folded(f"Lead that may not weight a line: {names}. See `tacklebox law`.")


@app.command("list")
def list_(
    context: typer.Context,
    words: Annotated[list[str] | None, typer.Argument(help="Words to search for.")] = None,
    kind: Annotated[str | None, typer.Option(help="Only this kind, like line or shot.")] = None,
    where: Annotated[
        list[str] | None,
        typer.Option(help='With --kind: a figure, like "diameter 0.12 to 0.16 mm".'),
    ] = None,
    place: Annotated[str, typer.Option(help='Only what lies there: "drawer 2".')] = "",
    retired: Annotated[bool, typer.Option("--retired", help="What is retired.")] = False,
    as_json: Json = False,
) -> None:
    """List what is in stock, all of it or what is searched for."""
    from tacklebox.desk import stock

    found = stock.listed(
        desk_of(context),
        " ".join(words or ()),
        kind=kind or "",
        where=where or (),
        place=place,
        retired=retired,
    )
    if as_json:
        show_answer(found)
        return
    if not found.items:
        is_narrowed = words or kind or place
        all_of_it = "Nothing is retired." if retired else "The box is empty."
        say("Nothing of that kind is in the box." if is_narrowed else all_of_it)
        return
    show_items(found.items)
    _say_leads(found.forbidden_lead)


@app.command()
def show(context: typer.Context, item: ItemArg, as_json: Json = False) -> None:
    """Show one item with its figures."""
    from tacklebox.desk import stock

    shown = stock.show(desk_of(context), item)
    if as_json:
        show_answer(shown)
        return
    row = shown.item
    show_table(
        [f"item {row.number}", ""],
        [
            ("name", row.name),
            ("what", row.words),
            ("place", row.place or "not said"),
            ("on hand", row.on_hand.words),
            *([("loaded", ", ".join(shown.loaded))] if shown.loaded else []),
            *([("minimum", row.minimum.words)] if row.on_hand.counted else []),
            ("in a packet", row.packet.words),
            ("a packet costs", shown.packet_price or "not said"),
        ],
    )
    say_lead(shown.forbidden_lead, shown.supply)


@app.command()
def history(context: typer.Context, item: ItemArg, as_json: Json = False) -> None:
    """Show every movement of one item, oldest first."""
    from tacklebox.desk import stock

    found = stock.history(desk_of(context), item)
    if as_json:
        show_answer(found)
        return
    rows = [
        (
            str(m.on),
            m.why,
            _change_words(m),
            m.then.words,
            m.reason,
        )
        for m in found.movements
    ]
    say(found.name)
    show_table(["day", "why", "change", "then", "reason"], rows, flexible=4)


def _change_words(movement: "MovementRow") -> str:
    """Nothing where a level was set and nothing was counted before."""
    if not (movement.change.value or movement.then.counted):
        return ""
    return ("+" if movement.change.value > 0 else "") + movement.change.words


@app.command()
def buy(
    context: typer.Context,
    item: ItemArg,
    packs: Annotated[int, typer.Option(help="How many packets.", **NUMBER)] = 1,
    price: Price = None,
    on: On = "",
    as_json: Json = False,
) -> None:
    """Add packets bought of an item."""
    from tacklebox.desk import stock

    bought = stock.buy(desk_of(context), item, packs=packs, price=price or "", on=on)
    _show(bought, as_json)
    if not as_json:
        say_lead(bought.forbidden_lead, bought.supply)


@app.command()
def count(
    context: typer.Context,
    item: ItemArg,
    amount: Annotated[str, typer.Argument(help='What there is: "23", "85 m".')],
    on: On = "",
    as_json: Json = False,
) -> None:
    """Put right what is on hand, as counted."""
    from tacklebox.desk import stock

    _show(stock.count(desk_of(context), item, amount, on=on), as_json)


@app.command()
def level(
    context: typer.Context,
    item: ItemArg,
    how: Annotated[str, typer.Argument(metavar="LEVEL", help="plenty, low or out.")],
    not_counted: Annotated[
        bool, typer.Option("--not-counted", help="Count it no longer from here on.")
    ] = False,
    on: On = "",
    as_json: Json = False,
) -> None:
    """Say of what is not counted that there is plenty, that it is low, or out."""
    from tacklebox.desk import stock

    moved = stock.level(desk_of(context), item, how, not_counted=not_counted, on=on)
    _show(moved, as_json)


@app.command()
def take(
    context: typer.Context,
    item: ItemArg,
    amount: Annotated[str, typer.Argument(help='How much: "2", "10 m".')],
    why: Annotated[str, typer.Option(help='"lost", "thrown out" or "tied".')] = "lost",
    reason: Reason = "",
    on: On = "",
    as_json: Json = False,
) -> None:
    """Take something out of stock: lost, thrown out, or tied by hand."""
    from tacklebox.desk import stock

    _show(stock.take(desk_of(context), item, amount, why=why, reason=reason, on=on), as_json)


@app.command()
def give(
    context: typer.Context,
    item: ItemArg,
    amount: Annotated[str, typer.Argument(help='How much: "2", "10 m".')],
    reason: Reason = "",
    on: On = "",
    as_json: Json = False,
) -> None:
    """Give something back to stock."""
    from tacklebox.desk import stock

    _show(stock.give(desk_of(context), item, amount, reason=reason, on=on), as_json)


@app.command()
def correct(
    context: typer.Context,
    item: ItemArg,
    change: Annotated[str, typer.Argument(help='Up or down by: "+2", "-10 m".')],
    reason: Annotated[str, typer.Option(help="What was wrong.")],
    on: On = "",
    as_json: Json = False,
) -> None:
    """Mend a mistake by a movement of its own. Put -- before a change that starts with -."""
    from tacklebox.desk import stock

    _show(stock.correct(desk_of(context), item, change, reason=reason, on=on), as_json)


@app.command()
def edit(
    context: typer.Context,
    item: ItemArg,
    name: Name = None,
    place: Place = None,
    pack: Pack = None,
    price: Price = None,
    minimum: Minimum = None,
    maker: Maker = None,
    on: On = "",
    as_json: Json = False,
) -> None:
    """Change an item's name, place, packet, price or minimum, or a line's maker."""
    from tacklebox.desk import stock

    edited = stock.edit(
        desk_of(context),
        item,
        name=name,
        place=place,
        pack=pack,
        price=price,
        minimum=minimum,
        maker=maker,
        on=on,
    )
    _show(edited, as_json)


@app.command()
def reword(
    context: typer.Context,
    item: ItemArg,
    words: Annotated[list[str], typer.Argument(help="What it is, as you would say it.")],
    anew: Annotated[
        bool, typer.Option("--anew", help="Retire it; a new item takes its place.")
    ] = False,
    on: On = "",
    as_printed: AsPrinted = False,
    as_json: Json = False,
) -> None:
    """Put right what an item is, while nothing was tied from it."""
    from tacklebox.cli.adding import ask_or_refuse
    from tacklebox.desk import adding, putting_right

    text, answers = ask_or_refuse(" ".join(words), adding.question_of_words, can_ask=not as_json)
    row = putting_right.reword(
        desk_of(context), item, text, answers=answers, anew=anew, on=on, as_printed=as_printed
    )
    _show_row(row, "is", as_json)


@app.command()
def retire(context: typer.Context, item: ItemArg, on: On = "", as_json: Json = False) -> None:
    """Hide an item that is done with; its history is kept."""
    from tacklebox.desk import putting_right

    _show_row(putting_right.retire(desk_of(context), item, on=on), "is retired:", as_json)


@app.command()
def unretire(context: typer.Context, item: ItemArg, on: On = "", as_json: Json = False) -> None:
    """Put a retired item in use again."""
    from tacklebox.desk import putting_right

    _show_row(putting_right.unretire(desk_of(context), item, on=on), "is in use:", as_json)


def _show_row(row: "ItemRow", what: str, as_json: bool) -> None:
    if as_json:
        show_answer(row)
        return
    say_folded(f"Item {row.number} {what} {row.name}.")


def _show(moved: "Moved", as_json: bool) -> None:
    if as_json:
        show_answer(moved)
        return
    if not moved.on_hand.counted:
        say(f"{moved.name}: {moved.on_hand}, not counted.")
        return
    short = " That is less than the minimum." if moved.short else ""
    say(f"{moved.name}: {moved.on_hand} on hand.{short}")


app.command("read")(read)
app.command("look")(look)
app.command("serves")(serves)
app.command("labels")(drawer_labels)
