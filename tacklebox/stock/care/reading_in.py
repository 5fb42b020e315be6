"""An export read into an empty box, by the same tables and rules, all or nothing."""

import json
import math
import re
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path

from sqlalchemy import Column, Table

from tacklebox.errors import AskedWronglyError, CannotBeDoneError, ManyFaultsError
from tacklebox.stock.care import older, schema
from tacklebox.stock.care.audit import audit_open
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.export import (
    KEPT_BY_RULES,
    STORED,
    WHOLE,
    as_it_was,
    driver,
    kind_of,
    own_files,
    read_bytes,
    tables,
    write_new,
)
from tacklebox.stock.care.schema import plain_words
from tacklebox.stock.care.triggers import RULES
from tacklebox.stock.csv_file import read_cells

MOST_FAULTS = 50
MOST_CSV_BYTES = 256_000_000


@dataclass(frozen=True)
class _Read:
    """The rows of one table, in the order of its columns, each with its line in the file."""

    table: Table
    rows: list[tuple[int, list[object]]]

    def at(self, column: str) -> int:
        """Where a column stands in the rows."""
        return [c.name for c in self.table.columns].index(column)


def import_box(
    box: Box, folder: Path, read_snapshot: Callable[[str], object] = json.loads
) -> dict[str, int]:
    """Read an export into an empty box, all or nothing; hands back how many rows of each table.

    ``read_snapshot`` raises for a snapshot that cannot be read.
    Raises AskedWronglyError when it is no export, CannotBeDoneError when the box is not empty or cannot be
    written, ManyFaultsError naming each row that cannot be read or would leave less than nothing on hand.
    """
    version, itself = _read_whole(folder)
    own = own_files(folder)
    read = _read_all(folder, version)
    written: list[Path] = []
    try:
        with box.writing() as session:
            _check_empty(driver(session), box)
            driver(session).execute(
                "UPDATE identity SET box = coalesce(?, box), stamp = ?",
                (itself, schema.new_stamp()),
            )
            _write_rows(driver(session), read)
            older.bring_rows_up_to_date(session.connection(), version)
            faults = audit_open(driver(session), read_snapshot).faults
            _refuse([f"{fault.where}: {fault.what}" for fault in faults], folder)
            for name, data in own.items():
                write_new(box.folder / name, data, written)
    except BaseException as error:
        for path in written:  # the box had none
            with suppress(OSError):
                path.unlink(missing_ok=True)
        if isinstance(error, sqlite3.DatabaseError):
            raise plain_words(error, box.folder) from error
        if isinstance(error, OSError):
            raise CannotBeDoneError(
                f"the files cannot be written: {error.strerror}.",
                where=str(box.folder),
                right="Make room there, and see that it may be written. Nothing was imported.",
            ) from error
        raise
    return {one.table.name: len(one.rows) for one in read}


def _read_whole(folder: Path) -> tuple[int, str | None]:
    """The version of the box that was exported, and its own mark where it had one."""
    import tomllib

    try:
        whole = tomllib.loads(read_bytes(folder / WHOLE).decode())
    except (OSError, ValueError):
        raise AskedWronglyError(
            "this is no folder that a box was exported to.", where=str(folder)
        ) from None
    version, itself = whole.get("version"), whole.get("box")
    if type(version) is not int or not 1 <= version <= schema.SCHEMA_VERSION:
        raise CannotBeDoneError(
            f"it was exported from a box of version {version}; this program knows "
            f"{schema.SCHEMA_VERSION}.",
            where=str(folder),
            right="Import it with the newer program.",
        )
    if itself is not None and not re.fullmatch(r"[0-9a-f]{32}", str(itself)):
        raise AskedWronglyError(
            f'box = "{itself!s:.40}" is no mark of a box.',
            where=str(folder / WHOLE),
            right="It was written as 32 letters and digits.",
        )
    return version, itself


def _check_empty(connection: sqlite3.Connection, box: Box) -> None:
    filled = any(
        connection.execute(f'SELECT 1 FROM "{t.name}" LIMIT 1').fetchone() for t in tables()
    )
    if filled or own_files(box.folder):
        raise CannotBeDoneError(
            "the box is not empty; it was left as it is.",
            where=str(box.folder),
            right="Name a new folder.",
            field="box",
        )


def _read_all(folder: Path, version: int) -> list[_Read]:
    faults: list[str] = []
    read = [_read_table(table, folder, faults, version) for table in tables()]
    if not faults:
        by_name = {one.table.name: one for one in read}
        faults += _would_be_below_nothing(by_name["movement"], by_name["item"])
    _refuse(faults, folder)
    return read


def _refuse(faults: list[str], folder: Path) -> None:
    if faults:
        more = len(faults) - MOST_FAULTS
        shown = faults[:MOST_FAULTS] + ([f"and {more} more"] if more > 0 else [])
        raise ManyFaultsError(f"{folder}: nothing was imported.", shown)


def _read_table(table: Table, folder: Path, faults: list[str], version: int) -> _Read:
    name = f"{table.name}.csv"
    if not older.had_table(table.name, version):
        return _Read(table, [])
    lines = read_cells(folder / name, MOST_CSV_BYTES)
    _, heading = next(lines, (1, []))
    while heading and not heading[-1]:
        heading.pop()
    heading, filled = older.heading_of_today(table.name, heading, version)
    columns = list(table.columns)
    if sorted(heading) != sorted(c.name for c in columns):
        raise AskedWronglyError(
            "its columns are not those of the export.",
            where=name,
            right=", ".join(c.name for c in columns),
        )
    places = [heading.index(c.name) for c in columns]
    rows: list[tuple[int, list[object]]] = []
    for line, cells in lines:
        own = len(heading) - len(filled)
        if any(cells[own:]):
            faults.append(f"{name} line {line}: {len(cells)} cells under {own} headings.")
            continue
        # Some spreadsheets leave out the separators of empty cells at a row's end, or add some.
        cells = [*cells[:own], *[""] * (own - len(cells)), *filled]
        try:
            rows.append(
                (line, [_value(c, cells[at]) for c, at in zip(columns, places, strict=True)])
            )
        except ValueError as error:
            faults.append(f"{name} line {line}: {error}.")
    return _Read(table, rows)


def _value(column: "Column[object]", cell: str) -> object:
    """A cell as the column holds it. Raises ValueError saying what it should be."""
    if cell == "" and column.nullable:
        return None
    kind = kind_of(column)
    if kind is str:
        return as_it_was(cell)
    what = "number"
    try:
        if kind is date:
            what = "date like 2026-03-05"
            return date.fromisoformat(cell).isoformat()
        if kind is datetime:
            what = "date and time like 2026-03-05T10:00:00"
            return datetime.fromisoformat(cell).strftime(STORED)
        if cell.isascii() and "_" not in cell:
            return _number(kind, cell)
    except ValueError:
        pass
    raise ValueError(f'{column.name}: "{cell[:40]}" is no {what}')


def _number(kind: type, cell: str) -> float | int:
    """A number of that type as SQLite holds it; raises ValueError."""
    if kind is float:
        number = float(cell.replace(",", "."))
        if math.isfinite(number):
            return number
    else:
        whole = int(cell)
        if (whole in (0, 1)) if kind is bool else (abs(whole) < 2**63):
            return whole
    raise ValueError(cell)


def _would_be_below_nothing(movements: _Read, items: _Read) -> Iterator[str]:
    key, on = items.at("id"), items.at("on_hand")
    on_hand: dict[object, int] = {row[key]: 0 for _, row in items.rows}
    number, item_id, moved = (movements.at(name) for name in ("id", "item_id", "amount"))
    for line, row in sorted(movements.rows, key=lambda r: int(str(r[1][number]))):
        item, amount = row[item_id], row[moved]
        if item not in on_hand or not isinstance(amount, int):
            yield f"movement.csv line {line}: it moves no item that is in item.csv."
            continue
        on_hand[item] += amount
        if on_hand[item] < 0:
            yield f"movement.csv line {line}: {on_hand[item]} of item {item} would be on hand."
    for line, row in items.rows:
        if on_hand[row[key]] != row[on]:
            yield (
                f"item.csv line {line}: on_hand is {row[on]}, the movements sum to "
                f"{on_hand[row[key]]}."
            )


def _write_rows(connection: sqlite3.Connection, read: Sequence[_Read]) -> None:
    connection.execute("PRAGMA defer_foreign_keys = ON")
    remembering = [rule for rule in RULES if rule.split()[2].endswith("_is_remembered")]
    for rule in remembering:  # what they would write comes with the export
        connection.execute(f"DROP TRIGGER {rule.split()[2]}")
    for one in read:
        columns = [c.name for c in one.table.columns]
        kept = [one.at(name) for name in KEPT_BY_RULES.get(one.table.name, ())]
        names = ", ".join(f'"{c}"' for c in columns)
        marks = ", ".join("?" for _ in columns)
        insert = f'INSERT INTO "{one.table.name}" ({names}) VALUES ({marks})'
        key = one.at(next(iter(one.table.primary_key)).name)
        for line, row in sorted(one.rows, key=lambda r: str(r[1][key]).zfill(20)):
            for place in kept:
                row[place] = 0
            try:
                connection.execute(insert, row)
            except sqlite3.IntegrityError as error:
                raise AskedWronglyError(
                    f"line {line}: {error}.",
                    where=f"{one.table.name}.csv",
                    right="Nothing was imported.",
                ) from None
    for rule in remembering:
        connection.execute(rule)
