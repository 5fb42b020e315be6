"""What each row was when it was written: of every cell a check of four bytes, in a table of its own.

The database's triggers keep them, by functions that only this program gives it (``give_checks``): what is
changed behind their back, by a failing disk or another program, is told by row and cell. An update renews the
checks of the cells that it changes and of no other, so that it hides nothing. Damage is found so, not
forgery: who means to deceive can write the checks anew as well.
"""

import sqlite3
import struct
from collections.abc import Iterator, Sequence, Set
from contextlib import contextmanager
from typing import NamedTuple
from zlib import crc32

from tacklebox.stock.tables import AsWritten

Cell = str | bytes | int | float | None


class Odd(NamedTuple):
    """A row that is not what was written: of which table, by its key, and what is wrong in which column, ""
    where it is all of it."""

    table: str
    key: str
    column: str
    what: str


KEPT = str(AsWritten.__tablename__)
_OF_THE_HOOK = ("size", "size_order", "end", "eye", "barb", "wire", "bend", "colour")
_OF_THE_LINE = ("diameter_mm", "diameter_said", "breaks_at_kg", "strain_said")
# Every column of every table in its order, its key first. Of the box's own marks the count of changes is left
# out: it grows with each write and says nothing of tackle.
COLUMNS = {
    "action": ("id", "what", "on", "written_at", "undoes", "redoes", "key"),
    "identity": ("id", "box", "stamp"),
    "item": (
        *("id", "kind", "words", "name", "place", "pack_size", "pack_price_cents", "minimum"),
        *("on_hand", "last_movement", "added_on", "withdrawn", "retired", "level", "note"),
        "pack_said",
    ),
    "setting": ("name", "said"),
    "sheetinuse": ("paper", "next_free"),
    "batch": (
        *("id", "code", "code_number", "item_id", "action_id", "recipe", "tied_on", "tied", "left"),
        *("labelled_on", "forced_because", "snapshot"),
    ),
    "change": ("id", "action_id", "table_name", "row_key", "column_name", "was", "became"),
    "debrief": (
        *("id", "action_id", "match", "venue", "on", "peg", "section", "place", "points"),
        *("water_c", "weight_g", "notes", "record", "corrects"),
    ),
    "elastic": ("item_id", "grade", "grade_to", "core", "colour"),
    "feeder": (
        *("item_id", "shape", "fitting", "mass_g", "mass_said", "size", "volume_ml", "volume_said"),
    ),
    "float": (
        *("item_id", "shape", "mark", "capacity_g", "carries_said", "body", "material", "stem"),
        *("tip", "tip_diameter_mm", "tip_diameter_said", "tip_length_mm", "tip_length_said"),
        "colour",
    ),
    "hook": ("item_id", *_OF_THE_HOOK),
    "hooklength": (
        *("item_id", *_OF_THE_HOOK, "material", *_OF_THE_LINE, "length_mm", "length_said", "bait"),
    ),
    "line": ("item_id", "material", "sort", *_OF_THE_LINE, "colour", "maker"),
    "measurement": (
        *("id", "item_id", "what", "breaks_at_kg", "mass_g", "knot", "count", "takes_back", "on"),
        *("action_id", "bait", "distance_mm", "seconds", "water_c"),
    ),
    "movement": ("id", "item_id", "action_id", "amount", "why", "on", "reason"),
    "part": ("item_id", "sort", "size", "breaks_at_kg", "strain_said"),
    "reel": (
        *("id", "name", "what", "item_id", "loaded_mm", "loaded_on", "backing", "retired"),
        "withdrawn",
    ),
    "tied": (
        *("id", "code", "code_number", "recipe", "kind", "state", "tied_on", "labelled_on"),
        *("forced_because", "snapshot", "action_id"),
    ),
    "weight": ("item_id", "form", "mark", "mass_g", "material"),
    "winder": ("item_id", "length_mm", "length_said", "width_mm", "width_said", "colour"),
    "batchuse": ("id", "batch_id", "item_id", "part", "amount"),
    "debriefrig": ("id", "debrief_id", "tied_id", "became", "did_well"),
    "statechange": ("id", "tied_id", "action_id", "was", "became"),
    "tieduse": ("id", "tied_id", "item_id", "part", "amount", "comes_back"),
}
_WIDTH = 4
_TEXT, _WHOLE, _REAL, _NOTHING = range(4)  # no cell of one sort has the check of another's


def when_written(table: str) -> str:
    """What a trigger does after a row came into the table."""
    cells = ", ".join(f'NEW."{column}"' for column in COLUMNS[table])
    return f"""INSERT INTO {KEPT} (table_name, row_key, checks)
           VALUES ('{table}', NEW."{COLUMNS[table][0]}", checks_of({cells}));"""


def when_changed(table: str) -> str:
    """What a trigger does after a row of the table was changed."""
    was, now = (
        ", ".join(f'{row}."{column}"' for column in COLUMNS[table]) for row in ("OLD", "NEW")
    )
    return f"""UPDATE {KEPT} SET checks = checks_after(checks, {was}, {now})
           WHERE table_name = '{table}' AND row_key = NEW."{COLUMNS[table][0]}";"""


def give_checks(box: sqlite3.Connection) -> None:
    """Let a connection's triggers make checks."""
    box.create_function("checks_of", -1, checks_of, deterministic=True)
    box.create_function("checks_after", -1, checks_after, deterministic=True)


def checks_of(*cells: Cell) -> bytes:
    """The checks of a row's cells, one behind the other.

    >>> checks_of("hook 18", 10).hex(), checks_of("hook 18", 11).hex()
    ('fdc00921b84614a0', 'fdc00921cf412436')
    """
    return struct.pack(f">{len(cells)}I", *map(_check, cells))


def checks_after(checks: bytes, *was_and_now: Cell) -> bytes:
    """The checks of a row after an update: those of cells that it left alone stay, whatever they are.

    >>> checks_after(b"kept" + checks_of(10), "hook 18", 10, "hook 18", 11)[:4]
    b'kept'
    """
    count = len(was_and_now) // 2
    was, now = was_and_now[:count], was_and_now[count:]
    kept = bytearray(checks)
    for at, (before, after) in enumerate(zip(was, now, strict=True)):
        if before != after or type(before) is not type(after):
            kept[at * _WIDTH : (at + 1) * _WIDTH] = struct.pack(">I", _check(after))
    return bytes(kept)


def _check(cell: Cell) -> int:
    if isinstance(cell, str):
        return crc32(cell.encode(), _TEXT)
    if cell is None:
        return _NOTHING
    if isinstance(cell, int):
        return crc32(b"%d" % cell, _WHOLE)
    if isinstance(cell, float):
        return crc32(repr(cell).encode(), _REAL)
    return crc32(cell, _TEXT)  # a text, read as its bytes


def tables_in(box: sqlite3.Connection) -> dict[str, list[str]]:
    """The tables of a box of whatever version, and the columns of each that have a check."""
    every = box.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name <> ?", (KEPT,)
    )
    found = {}
    for (name,) in every.fetchall():
        columns = [row[1] for row in box.execute(f'PRAGMA table_info("{name}")')]
        found[name] = list(COLUMNS["identity"]) if name == "identity" else columns
    return found


def not_as_written(box: sqlite3.Connection) -> Iterator[Odd]:
    """Each row that is not what was written."""
    tables = tables_in(box)
    for (table,) in box.execute(f"SELECT DISTINCT table_name FROM {KEPT}").fetchall():
        if table not in tables:
            yield Odd(str(table), "", "", "its rows were written, and the table is no box's")
    for table, columns in tables.items():
        yield from odd_rows(box, table, columns)


def odd_rows(box: sqlite3.Connection, table: str, columns: Sequence[str]) -> Iterator[Odd]:
    """Each row of one table that is not what was written."""
    kept = f"SELECT row_key, checks FROM {KEPT} WHERE table_name = ?"
    with _texts_as_bytes(box):
        checks = {_shown(key): found for key, found in box.execute(kept, (table,))}
        rows = box.execute(f'SELECT {_listed(columns)} FROM "{table}"').fetchall()
    for row in rows:
        key, now = _shown(row[0]), checks_of(*row)
        was = checks.pop(key, None)
        if was == now:
            continue
        if was is None:
            yield Odd(table, key, "", "it is there, and was never written")
        elif not isinstance(was, bytes) or len(was) != len(now):
            yield Odd(table, key, "", "what was written cannot be told: its checks are damaged")
        else:
            for at, (column, cell) in enumerate(zip(columns, row, strict=True)):
                part = slice(at * _WIDTH, (at + 1) * _WIDTH)
                if was[part] != now[part]:
                    said = f"{_shown(cell)!r:.60}" if isinstance(cell, bytes) else repr(cell)
                    what = f"{column} is {said}, which is not what was written"
                    yield Odd(table, key, column, what)
    yield from (Odd(table, key, "", "it was written, and is gone") for key in checks)


def check_all(box: sqlite3.Connection, but: Set[tuple[str, str]] = frozenset()) -> None:
    """Take each row for what was written; ``but`` those, by table and key, that were not it before."""
    box.execute(f"DELETE FROM {KEPT}")
    insert = f"INSERT INTO {KEPT} (table_name, row_key, checks) VALUES (?, ?, ?)"
    tables = tables_in(box)
    with _texts_as_bytes(box):
        for table, columns in tables.items():
            rows = box.execute(f'SELECT {_listed(columns)} FROM "{table}"').fetchall()
            keyed = ((_shown(row[0]), row) for row in rows)
            box.executemany(
                insert,
                ((table, key, b"" if (table, key) in but else checks_of(*r)) for key, r in keyed),
            )


def _listed(columns: Sequence[str]) -> str:
    return ", ".join(f'"{column}"' for column in columns)


def _shown(cell: Cell) -> str:
    return cell.decode(errors="replace") if isinstance(cell, bytes) else str(cell)


@contextmanager
def _texts_as_bytes(box: sqlite3.Connection) -> Iterator[None]:
    """So that a text that is none can be read."""
    factory = box.text_factory
    box.text_factory = bytes
    try:
        yield
    finally:
        box.text_factory = factory
