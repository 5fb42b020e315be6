"""Hooklengths by what anglers call them: "18 to 0.10", "four-inchers", a number."""

from sqlmodel import Session, col, select

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.finding import find, several_fit
from tacklebox.stock.naming.described import Described
from tacklebox.stock.naming.rows import of_row
from tacklebox.stock.naming.sameness import fits
from tacklebox.stock.tables import IN_USE, Hooklength, Item, Kind


def find_hooklength(session: Session, said: str) -> Item:
    """The one kind of hooklength that is meant; of several that the words fit, the only one in the wallet.

    Raises AskedWronglyError where none or several fit, with those that do.
    """
    plain = said.strip().removeprefix("#")
    if plain.isdecimal():
        item = find(session, said)
        if item.kind != Kind.HOOKLENGTH:
            raise AskedWronglyError(
                f"{item.id} {item.name} is no hooklength.", see="hooklengths.listed"
            )
        return item
    rows = select(Item, Hooklength).join(Hooklength, col(Hooklength.item_id) == Item.id)
    every = list(session.exec(rows.where(IN_USE).order_by(col(Item.id))))
    named = [item for item, _ in every if said.strip() in (item.name, item.words)]
    if len(named) == 1:
        return named[0]
    asked = _readings(said)
    found = [
        item
        for item, figures in every
        if any(fits(one, of_row(figures, item.note)) for one in asked)
    ]
    in_stock = [item for item in found if item.on_hand]
    found = in_stock or found
    if not found:
        raise AskedWronglyError(
            f'no hooklength in the wallet is "{said.strip()}".', see="hooklengths.listed"
        )
    if len(found) > 1:
        offered = [(i.id, f"{i.name}, {i.on_hand}") for i in found]
        what = f"{len(found)} kinds of hooklength"
        raise several_fit(said, what, offered, ", or with its length")
    return found[0]


def _readings(said: str) -> list[Described]:
    """What the words may mean, as far as that is a hooklength."""
    from tacklebox.stock.naming.reading import read

    try:
        got = read(said)
    except AskedWronglyError:
        return []
    readings = [got] if isinstance(got, Described) else list(got.readings)
    return [one for one in readings if one.kind is Kind.HOOKLENGTH]
