"""``tacklebox measure``: what the angler measured himself, which then counts in every check."""

from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import NUMBER, PLAIN, Json, On, Water, desk_of
from tacklebox.cli.output import say, say_folded, show_answer, show_table

if TYPE_CHECKING:
    from tacklebox.desk.measuring import Readings

app = typer.Typer(
    help="Your own pull tests, weighings and bucket tests; how baits sink.",
    no_args_is_help=True,
    **PLAIN,
)

ItemArg = Annotated[str, typer.Argument(metavar="ITEM", help="Its number, or words that name it.")]
AsRead = Annotated[
    bool, typer.Option("--as-read", help="Take a surprising reading as it is, unquestioned.")
]


def _reading(example: str) -> Any:
    return typer.Argument(metavar="READING", help=f'What was read, like "{example}".')


@app.command()
def pull(
    context: typer.Context,
    item: ItemArg,
    reading: Annotated[list[str], _reading("2.6lb 2.5lb 2.7lb")],
    knot: Annotated[str, typer.Option(help="The knot it broke with; else plain line.")] = "",
    on: On = "",
    as_read: AsRead = False,
    as_json: Json = False,
) -> None:
    """Record a pull test: at what the line broke on a balance, in kg or lb; one reading or several."""
    from tacklebox.desk import measuring

    desk = desk_of(context)
    named, readings = measuring.item_and_reading(desk, [item, *reading])
    kept = measuring.record_pull(desk, named, readings, knot=knot, on=on, as_read=as_read)
    _show_kept(kept, as_json)


@app.command()
def weigh(
    context: typer.Context,
    item: ItemArg,
    reading: Annotated[list[str], _reading("1.62 g")],
    count: Annotated[
        int | None,
        typer.Option(help="How many lay on the scale; else 20, or one float.", **NUMBER),
    ] = None,
    on: On = "",
    as_read: AsRead = False,
    as_json: Json = False,
) -> None:
    """Record a weighing: twenty shot or hooks together, or a float by itself, unless --count says
    otherwise."""
    from tacklebox.desk import measuring

    kept = measuring.record_weighing(
        desk_of(context), item, " ".join(reading), count=count, on=on, as_read=as_read
    )
    _show_kept(kept, as_json)


@app.command()
def hook(
    context: typer.Context,
    reading: Annotated[
        list[str],
        typer.Argument(
            metavar="READING", help='How many of which hook weigh what: "20 of 20 0.2 g".'
        ),
    ],
    on: On = "",
    as_read: AsRead = False,
    as_json: Json = False,
) -> None:
    """Record what hooks weigh: "20 of 20 0.2 g" is twenty of size 20."""
    from tacklebox.desk import measuring

    kept = measuring.record_hooks(desk_of(context), " ".join(reading), on=on, as_read=as_read)
    _show_kept(kept, as_json)


@app.command()
def sink(
    context: typer.Context,
    bait: Annotated[str, typer.Argument(metavar="BAIT", help='Like "maggot" or "4 mm pellet".')],
    reading: Annotated[list[str], _reading("1 m 24 s")],
    water: Water = "",
    on: On = "",
    as_read: AsRead = False,
    as_json: Json = False,
) -> None:
    """Record how long a bait took to sink, over a metre of water or so."""
    from tacklebox.desk import measuring

    kept = measuring.record_sinking(
        desk_of(context), bait, " ".join(reading), water=water, on=on, as_read=as_read
    )
    _show_kept(kept, as_json)


@app.command("float")
def float_(
    context: typer.Context,
    item: ItemArg,
    reading: Annotated[list[str], _reading("1.9 g")],
    on: On = "",
    as_read: AsRead = False,
    as_json: Json = False,
) -> None:
    """Record what a float carried in a bucket before it dotted down."""
    from tacklebox.desk import measuring

    kept = measuring.record_bucket(
        desk_of(context), item, " ".join(reading), on=on, as_read=as_read
    )
    _show_kept(kept, as_json)


@app.command()
def elastic(
    context: typer.Context,
    item: ItemArg,
    reading: Annotated[list[str], _reading("8 oz")],
    on: On = "",
    as_json: Json = False,
) -> None:
    """Record what an elastic pulled on a balance at three to four times its length."""
    from tacklebox.desk import measuring

    kept = measuring.record_stretch(desk_of(context), item, " ".join(reading), on=on)
    _show_kept(kept, as_json)


@app.command("list")
def list_(context: typer.Context, item: ItemArg, as_json: Json = False) -> None:
    """List the readings of an item, and what they make of its figures."""
    from tacklebox.desk import measuring

    found = measuring.readings_of(desk_of(context), item)
    if as_json:
        show_answer(found)
        return
    say(found.name)
    if found.readings:
        rows = [(str(one.number), str(one.on), one.words) for one in found.readings]
        show_table(["no.", "day", "reading"], rows, flexible=2)
    else:
        say("No reading of it is kept.")
    _show_now(found)


@app.command()
def withdraw(
    context: typer.Context,
    number: Annotated[int, typer.Argument(help="Of the reading, from the list.", **NUMBER)],
    on: On = "",
    as_json: Json = False,
) -> None:
    """Withdraw a reading that was misread; it counts no longer."""
    from tacklebox.desk import measuring

    left = measuring.withdraw(desk_of(context), number, on=on)
    if as_json:
        show_answer(left)
        return
    for one in left.readings:
        say_folded(f"{left.name}: reading {one.number} ({one.words}) counts no longer.")


def _show_kept(kept: "Readings", as_json: bool) -> None:
    if as_json:
        show_answer(kept)
        return
    for one in kept.readings:
        say_folded(f"{kept.name}: reading {one.number}, {one.words}.")
    _show_now(kept)


def _show_now(found: "Readings") -> None:
    for one in found.now:
        say_folded(
            f"Taken now: {one.what} {one.mean:.3g} {one.unit}, give or take {one.spread:.2g} "
            f"({one.source})"
        )
