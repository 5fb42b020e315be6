"""``tacklebox measure``: what the angler measured himself, which then counts in every check."""

from typing import TYPE_CHECKING, Annotated, Any

import typer

from tacklebox.cli.common import PLAIN, Json, On, box_of, day
from tacklebox.cli.output import row_as_json, say, say_folded, show_json, show_table
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.stock.measured import Known
    from tacklebox.stock.tables import Item, Measurement

app = typer.Typer(
    help="Your own pull tests, weighings and bucket tests.", no_args_is_help=True, **PLAIN
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
    reading: Annotated[list[str], _reading("1.75 kg")],
    knot: Annotated[str, typer.Option(help="The knot it broke with; else plain line.")] = "",
    on: On = "",
    as_read: AsRead = False,
    as_json: Json = False,
) -> None:
    """Keep a pull test: at what the line broke on a balance, in kg or lb."""
    from tacklebox.stock.ledger import find
    from tacklebox.stock.measured import record_pull
    from tacklebox.trade.quantities import read_strain_kg

    pulled_kg, when = read_strain_kg(" ".join(reading)), day(on)
    with box_of(context).writing() as session:
        found = find(session, item)
        row = record_pull(session, found, pulled_kg, knot, when, as_read=as_read)
    _tell(context, found, row, as_json)


@app.command()
def weigh(
    context: typer.Context,
    item: ItemArg,
    reading: Annotated[list[str], _reading("1.62 g")],
    count: Annotated[int, typer.Option(help="How many lay on the scale together.")] = 20,
    on: On = "",
    as_read: AsRead = False,
    as_json: Json = False,
) -> None:
    """Keep a weighing of shot: twenty together, unless --count says otherwise."""
    from tacklebox.stock.ledger import find
    from tacklebox.stock.measured import record_weighing
    from tacklebox.trade.quantities import read_mass_g

    total_g, when = read_mass_g(" ".join(reading)), day(on)
    with box_of(context).writing() as session:
        found = find(session, item)
        row = record_weighing(session, found, total_g, count, when, as_read=as_read)
    _tell(context, found, row, as_json)


@app.command("float")
def float_(
    context: typer.Context,
    item: ItemArg,
    reading: Annotated[list[str], _reading("1.9 g")],
    on: On = "",
    as_read: AsRead = False,
    as_json: Json = False,
) -> None:
    """Keep what a float carried in a bucket before it dotted down."""
    from tacklebox.stock.ledger import find
    from tacklebox.stock.measured import record_bucket
    from tacklebox.trade.quantities import read_mass_g

    carried_g, when = read_mass_g(" ".join(reading)), day(on)
    with box_of(context).writing() as session:
        found = find(session, item)
        row = record_bucket(session, found, carried_g, when, as_read=as_read)
    _tell(context, found, row, as_json)


@app.command("list")
def list_(context: typer.Context, item: ItemArg, as_json: Json = False) -> None:
    """List the readings of an item, and what they make of its figures."""
    from tacklebox.stock.ledger import find
    from tacklebox.stock.measured import known_of, standing

    with box_of(context).reading() as session:
        found = find(session, item)
        rows, known = standing(session, found), known_of(session, found)
    if as_json:
        readings = [row_as_json(row) for row in rows]
        show_json(
            {"item": found.id, "name": found.name, "readings": readings, "now": _known_json(known)}
        )
        return
    say(found.name)
    if rows:
        show_table(["no.", "day", "reading"], [_row(row) for row in rows], flexible=2)
    else:
        say("No reading of it is kept.")
    _say_known(known)


@app.command()
def withdraw(
    context: typer.Context,
    number: Annotated[int, typer.Argument(metavar="NUMBER", help="Of the reading, from the list.")],
    on: On = "",
    as_json: Json = False,
) -> None:
    """Withdraw a reading that was misread; it counts no longer."""
    from tacklebox.stock.measured import take_back
    from tacklebox.stock.tables import Item

    if number < 1:
        raise AskedWronglyError(
            f"there is no reading {number}.", right="`measure list ITEM` shows the numbers."
        )
    with box_of(context).writing() as session:
        row = take_back(session, number, day(on))
        found = session.get_one(Item, row.item_id)
    if as_json:
        show_json({"item": found.id, "withdrawn": row.id})
        return
    say_folded(f"{found.name}: reading {row.id} ({_row(row)[2]}) counts no longer.")


def _row(row: "Measurement") -> tuple[str, str, str]:
    from tacklebox.trade.quantities import write_mass, write_strain

    if row.breaks_at_kg is not None:
        words = f"broke at {write_strain(row.breaks_at_kg)}"
        words += f" with a {row.knot}" if row.knot else ", plain line"
    elif row.what == "weighing":
        words = f"{row.count} weighed {write_mass(row.mass_g or 0.0)}"
    else:
        words = f"carried {write_mass(row.mass_g or 0.0)} in a bucket"
    return str(row.id), str(row.on), words


def _tell(context: typer.Context, item: "Item", row: "Measurement", as_json: bool) -> None:
    from tacklebox.stock.measured import known_of

    with box_of(context).reading() as session:
        known = known_of(session, item)
    if as_json:
        reading = row_as_json(row)
        show_json(
            {"item": item.id, "name": item.name, "reading": reading, "now": _known_json(known)}
        )
        return
    say_folded(f"{item.name}: reading {row.id}, {_row(row)[2]}.")
    _say_known(known)


def _say_known(known: "list[Known]") -> None:
    for one in known:
        told = one.estimate
        say_folded(
            f"Taken now: {one.what} {told.mean:.3g} {one.unit}, give or take {told.spread:.2g} "
            f"({told.source})"
        )


def _known_json(known: "list[Known]") -> list[dict[str, Any]]:
    return [
        {
            "what": one.what,
            "unit": one.unit,
            "mean": one.estimate.mean,
            "spread": one.estimate.spread,
            "readings": one.estimate.readings,
            "source": str(one.estimate.source),
        }
        for one in known
    ]
