"""Items of the box that a description may be of."""

from dataclasses import replace
from typing import Any

from sqlmodel import Session, col, select

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.naming.described import Described, Question
from tacklebox.stock.naming.rows import as_row, of_row
from tacklebox.stock.naming.sameness import MOST_APART, Same, fits, same
from tacklebox.stock.tables import FIGURES, IN_USE, Figures, Item, Kind


def same_items(session: Session, described: Described) -> list[Item]:
    """The items in use that are this thing, or may be: surely the same first, then the oldest."""
    table = FIGURES[described.kind]
    query = select(Item, table).join(table, table.item_id == col(Item.id))  # type: ignore[attr-defined]
    query = query.where(IN_USE, *_near(as_row(described))).order_by(col(Item.id))
    plain = of_row(as_row(described), described.note)
    found = [(same(plain, of_row(row, item.note)), item) for item, row in session.exec(query)]
    return [item for wanted in (Same.YES, Same.PERHAPS) for sure, item in found if sure is wanted]


def _near(row: Figures) -> list[Any]:
    """In SQL, of a kind's table: the same words, and figures that may be the same in another unit."""
    found = []
    for name, value in row.model_dump(exclude={"item_id"}).items():
        column = col(getattr(type(row), name))
        if isinstance(value, float):
            low, high = sorted((value * (1 - 2 * MOST_APART), value * (1 + 2 * MOST_APART)))
            found.append(column.between(low, high))
        elif not name.endswith("_said"):
            found.append(column.is_(None) if value is None else column == value)
    return found


def _meant(made: Described | Question) -> list[Described]:
    """What the words may be: of a figure that is missing any will do, and a hook may be tied to line."""
    if isinstance(made, Described):
        return [made]
    if made.sure:
        return [made.sure]
    tied = [replace(one, kind=Kind.HOOKLENGTH) for one in made.readings if one.kind is Kind.HOOK]
    return [*made.readings, *(tied if made.about == "kind" else ())]


def items_meant(session: Session, said: str) -> frozenset[int]:
    """The numbers of the items in use of which all that the words say is true; none for words that are not
    understood."""
    from tacklebox.stock.naming.reading import read

    try:
        made = read(said)
    except AskedWronglyError:
        return frozenset()
    found: set[int] = set()
    for described in _meant(made):
        table = FIGURES[described.kind]
        query = select(Item, table).join(table, table.item_id == col(Item.id))  # type: ignore[attr-defined]
        rows = session.exec(query.where(IN_USE))
        found |= {i.id or 0 for i, row in rows if fits(described, of_row(row, i.note))}
    return frozenset(found)
