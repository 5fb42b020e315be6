"""Items: their words against their figures, the figures against how they were said, and what is kept
beside them."""

import sqlite3
from collections.abc import Callable, Iterator, Mapping
from unicodedata import category

from tacklebox.errors import BenchError
from tacklebox.stock.amounts import MOST_CENTS, MOST_PIECES
from tacklebox.stock.naming.described import Described
from tacklebox.stock.naming.rows import MEASURED, as_row, of_row
from tacklebox.stock.naming.writing import write
from tacklebox.stock.tables import (
    FIGURES,
    MEASURED_KINDS,
    UNMARKED,
    Feeder,
    Figures,
    Float,
    Hook,
    Hooklength,
    Weight,
)
from tacklebox.trade import quantities as q
from tacklebox.trade.hooks import read_hook_order

Fault = tuple[str, str]
SAME, ROUNDED = 0.002, 0.03  # how far a figure may be from how it was said, or is written
_READ: Mapping[str, Callable[[str], float]] = {
    "diameter": q.read_diameter_mm,
    "strain": q.read_strain_kg,
    "mass": q.read_mass_g,
    "volume": q.read_volume_ml,
}


def judge_items(box: sqlite3.Connection) -> Iterator[Fault]:
    """Each item with the figures of its kind."""
    for kind, table in FIGURES.items():
        names = [*table.model_fields]
        columns = ", ".join(f'f."{name}"' for name in names)
        query = f"""SELECT i.id, i.name, i.words, i.note, i.place, i.pack_size, i.pack_said,
              i.pack_price_cents, i.minimum, {columns}
            FROM item i JOIN "{kind}" f ON f.item_id = i.id WHERE i.kind = '{kind}' ORDER BY i.id"""
        for number, name, words, note, place, *rest in box.execute(query):
            where = f"item {number} {name!s:.60}"
            try:
                row = table(**dict(zip(names, rest[4:], strict=True)))
                faults = [
                    *_of_the_figures(row, words, note),
                    *_beside(kind, name, place, *rest[:4]),
                ]
            except (BenchError, ArithmeticError, LookupError, TypeError, ValueError) as error:
                faults = [f"its figures cannot be read: {error!s:.80}"]
            yield from ((where, what) for what in faults)


def _of_the_figures(row: Figures, words: str, note: str) -> Iterator[str]:
    if getattr(row, "material", "") == "gel-spun":  # how braid stands in the database
        row.material = "braid"
    yield from _against_what_was_said(row)
    whole = of_row(row, note)
    if write(whole) != words and not _read_the_same(row, whole, words):
        yield f'its words are "{words!s:.60}", its figures say "{write(whole):.60}"'


def _against_what_was_said(row: Figures) -> Iterator[str]:
    for key, (column, said_in, written) in MEASURED.get(row.of_kind, {}).items():
        value, said = getattr(row, column), getattr(row, said_in)
        if value is None:
            if said and not (said == UNMARKED and isinstance(row, Feeder)):
                yield f'{column} is nothing, "{said}" was said'
            continue
        words = said or written(value)
        read = _READ.get(key, q.read_length_mm)(words)
        if abs(read - value) > (SAME if said else ROUNDED) * value:
            yield f'{column} is {value:g}, "{words}" was said'
    if isinstance(row, Hook | Hooklength) and row.size_order != _order(row):
        yield f"size_order is {_or_nothing(row.size_order)}, it is of size {row.size}"
    if isinstance(row, Float | Weight):
        column = "capacity_g" if isinstance(row, Float) else "mass_g"
        said, value = _mass_said(row), getattr(row, column)
        read = q.read_mass_g(said) if said else getattr(as_row(of_row(row)), column)
        if read is None or value is None:
            if read != value:
                yield f"{column} is {_or_nothing(value)}, its mark means {_or_nothing(read)}"
        elif abs(read - value) > ROUNDED * read:
            yield f"{column} is {value:g}, its mark means {read:g}"

    if isinstance(row, Hooklength) and not row.material:
        yield "it has no material"


def _or_nothing(value: float | None) -> str:
    return "nothing" if value is None else f"{value:g}"


def _order(row: Hook | Hooklength) -> float | None:
    return None if row.size == UNMARKED else read_hook_order(row.size)


def _mass_said(row: Float | Weight) -> str:
    """The words that its mass stands in, "" where its mark means it."""
    if isinstance(row, Float):
        return row.carries_said
    return row.mark if row.form == "olivette" and row.mark != UNMARKED else ""


def _read_the_same(row: Figures, whole: Described, words: str) -> bool:
    """Whether words that are not written so today mean the same figures."""
    from tacklebox.stock.naming.reading import described

    try:
        again = as_row(described(words))
    except BenchError:
        return False
    if again.of_kind != row.of_kind:
        return False
    return write(of_row(again, whole.note)) == write(whole)


def _has_controls(text: str) -> bool:
    return any(category(letter) == "Cc" for letter in text)


def _beside(
    kind: str,
    name: str,
    place: str,
    pack_size: int,
    pack_said: str,
    price_cents: int | None,
    minimum: int,
) -> Iterator[str]:
    """What is kept beside the figures."""
    is_measured = kind in MEASURED_KINDS
    if not name or _has_controls(name):
        yield f"its name is {name!r:.60}"
    if _has_controls(place):
        yield f"its place is {place!r:.60}"
    if pack_said and (not is_measured or round(q.read_length_mm(pack_said)) != pack_size):
        yield f'a packet of it holds {pack_size}, "{pack_said!s:.40}" was said'
    if price_cents is not None and not 0 <= price_cents <= MOST_CENTS:
        yield f"its price is {price_cents} hundredths"
    if minimum < 0 or (not is_measured and minimum > MOST_PIECES):
        yield f"its minimum is {minimum}"


def lone_figures(box: sqlite3.Connection) -> Iterator[Fault]:
    """Figures of another kind than their item's."""
    for kind in FIGURES:
        query = f"""SELECT i.id, i.name FROM "{kind}" f JOIN item i ON i.id = f.item_id
            WHERE i.kind <> '{kind}'"""
        for number, name in box.execute(query):
            yield f"item {number} {name!s:.60}", f"it has figures of a {kind}, too"
