"""An export read into an empty box, by the same tables and rules, all or nothing."""

import json
import re
import sqlite3
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Table

from tacklebox.errors import AskedWronglyError, CannotBeDoneError, ManyFaultsError
from tacklebox.stock.care import older, schema
from tacklebox.stock.care.audit import audit_open
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.cells import read_cell, row_check, row_check_by_place, write_cell
from tacklebox.stock.care.export import (
    FORM,
    KEPT_BY_RULES,
    WHOLE,
    driver,
    own_files,
    read_bytes,
    tables,
    write_new,
)
from tacklebox.stock.care.schema import plain_words
from tacklebox.stock.care.triggers import RULES
from tacklebox.stock.care.waiting import Notice, Progress, keep_quiet
from tacklebox.stock.checks import CHECK
from tacklebox.stock.csv_file import read_cells

MOST_FAULTS = 50
MOST_CSV_BYTES = 256_000_000
_BY_COLUMNS = 10  # the schema from which on no export has checks by the place of its cells


@dataclass(frozen=True)
class _Exported:
    """What an export says of itself: the version of its box, that box's own mark where it had one, whether
    its rows have checks, and how many rows each table had."""

    version: int
    box: str | None
    is_checked: bool
    rows: Mapping[str, int]


@dataclass(frozen=True)
class _Read:
    """The rows of one table, in the order of its columns, each with its line in the file."""

    table: Table
    rows: list[tuple[int, list[object]]]

    def at(self, column: str) -> int:
        """Where a column stands in the rows."""
        return [c.name for c in self.table.columns].index(column)


def import_box(
    box: Box,
    folder: Path,
    read_snapshot: Callable[[str], object] = json.loads,
    notice: Notice = keep_quiet,
) -> dict[str, int]:
    """Read an export into an empty box, all or nothing; hands back how many rows of each table.

    What an import that was broken off left behind is written anew. ``read_snapshot`` raises for a snapshot
    that cannot be read. Raises AskedWronglyError when it is no export, CannotBeDoneError when the box is not
    empty or cannot be written, ManyFaultsError naming each row that cannot be read, is not as it was exported
    or would leave less than nothing on hand.
    """
    progress = Progress(notice)
    exported = _read_whole(folder)
    own = own_files(folder)
    read = _read_all(folder, exported, progress)
    written: list[Path] = []
    try:
        with box.writing() as session:
            left_behind = _check_empty(driver(session), box, own)
            driver(session).execute(
                "UPDATE identity SET box = coalesce(?, box), stamp = ?",
                (exported.box, schema.new_stamp()),
            )
            _write_rows(driver(session), read, progress)
            older.bring_rows_up_to_date(session.connection(), exported.version)
            progress("Looking through what was read…")
            faults = audit_open(driver(session), read_snapshot).faults
            _refuse([f"{fault.where}: {fault.what}" for fault in faults], folder)
            for path in left_behind:
                path.unlink()
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


def _read_whole(folder: Path) -> _Exported:
    """What the export says of itself."""
    from tacklebox.reading_toml import read_toml

    try:
        whole = read_toml(read_bytes(folder / WHOLE).decode())
    except (OSError, ValueError):
        raise AskedWronglyError(
            "this is no folder that a box was exported to.", where=str(folder)
        ) from None
    version, form, itself = whole.get("version"), whole.get("form", 1), whole.get("box")
    if (
        type(version) is not int
        or not 1 <= version <= schema.SCHEMA_VERSION
        or form not in (1, FORM)
    ):
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
    rows = whole.get("rows", {})
    if not isinstance(rows, dict) or not all(type(count) is int for count in rows.values()):
        raise AskedWronglyError(
            "the numbers of rows are not as they were written.", where=str(folder / WHOLE)
        )
    return _Exported(version, itself, form == FORM, rows)


def _check_empty(connection: sqlite3.Connection, box: Box, own: Mapping[Path, bytes]) -> list[Path]:
    """Raises CannotBeDoneError where there is anything in the box; hands back the files that an import of
    the same left behind when it was broken off, whole or in part."""
    filled = any(
        connection.execute(f'SELECT 1 FROM "{t.name}" LIMIT 1').fetchone() for t in tables()
    )
    present = own_files(box.folder)
    if filled or not all(own.get(name, b"").startswith(data) for name, data in present.items()):
        raise CannotBeDoneError(
            "the box is not empty; it was left as it is.",
            where=str(box.folder),
            right="Name a new folder.",
            field="box",
        )
    return [box.folder / name for name in present]


def _read_all(folder: Path, exported: _Exported, progress: Progress) -> list[_Read]:
    faults: list[str] = []
    read = [_read_table(table, folder, faults, exported, progress) for table in tables()]
    by_name = {one.table.name: one for one in read}
    faults += _names_twice(by_name["item"])
    if not faults:
        faults += _would_be_below_nothing(by_name["movement"], by_name["item"])
    _refuse(faults, folder)
    return read


def _refuse(faults: list[str], folder: Path) -> None:
    if faults:
        more = len(faults) - MOST_FAULTS
        shown = faults[:MOST_FAULTS] + ([f"and {more} more"] if more > 0 else [])
        raise ManyFaultsError(f"{folder}: nothing was imported.", shown)


def _read_table(
    table: Table, folder: Path, faults: list[str], exported: _Exported, progress: Progress
) -> _Read:
    name = f"{table.name}.csv"
    if not older.had_table(table.name, exported.version):
        return _Read(table, [])
    lines = read_cells(folder / name, MOST_CSV_BYTES)
    _, heading = next(lines, (1, []))
    while heading and not heading[-1]:
        heading.pop()
    columns = list(table.columns)
    heading, filled = older.heading_of_today(table.name, heading, exported.version)
    wanted = [*(c.name for c in columns), *([CHECK] if exported.is_checked else [])]
    if sorted(heading) != sorted(wanted):
        raise AskedWronglyError(
            "its columns are not those of the export.", where=name, right=", ".join(wanted)
        )
    places = [heading.index(c.name) for c in columns]
    own = len(heading) - len(filled)  # what stands in the file
    exported_at = [n for n, at in enumerate(places) if at < own]
    check_at = heading.index(CHECK) if exported.is_checked else None
    rows: list[tuple[int, list[object]]] = []
    count = 0
    for line, cells in lines:
        count += 1
        progress(f"Reading {name}, line {line:,}…")
        if any(cells[own:]):
            faults.append(f"{name} line {line}: {len(cells)} cells under {own} headings.")
            continue
        # Some spreadsheets leave out the separators of empty cells at a row's end, or add some.
        cells = [*cells[:own], *[""] * (own - len(cells)), *filled]
        own_cells = [cells[at] for at in places]
        try:
            row = _read_row(table, own_cells, exported.is_checked)
        except ValueError as error:
            faults.append(f"{name} line {line}: {error}.")
            continue
        rows.append((line, row))
        check = cells[check_at] if check_at is not None else ""
        as_exported = {columns[n].name: row[n] for n in exported_at}
        if check and not _fits(check.strip(), table.name, as_exported, exported.version):
            faults.append(f"{name} line {line}: {_changed(table, own_cells, row)}")
    there_were = exported.rows.get(table.name, count)
    if count != there_were:
        faults.append(f"{name}: it has {count} rows, {there_were} were exported.")
    return _Read(table, rows)


def _fits(check: str, table: str, cells: Mapping[str, object], version: int) -> bool:
    """Whether the check is that of the cells as they were exported, in their order."""
    if check == row_check(table, cells):
        return True
    return version < _BY_COLUMNS and check == row_check_by_place(table, list(cells.values()))


def _read_row(table: Table, cells: Sequence[str], is_checked: bool) -> list[object]:
    return [
        read_cell(column, cell, is_checked=is_checked)
        for column, cell in zip(table.columns, cells, strict=True)
    ]


def _changed(table: Table, cells: Sequence[str], row: Sequence[object]) -> str:
    """What to say of a row that is not as it was exported: with the cells that no export writes so."""
    odd = [
        f'{column.name} "{cell[:40]}"'
        for column, cell, value in zip(table.columns, cells, row, strict=True)
        if cell != write_cell(value, may_be_nothing=bool(column.nullable))
    ]
    look = f"; look at {', '.join(odd)}" if odd else ""
    return f"it is not as it was exported{look}. If you meant it, empty its cell under {CHECK}."


def _names_twice(items: _Read) -> Iterator[str]:
    """Each item in use whose name another bears: a spreadsheet may have made two names one."""
    name, withdrawn, retired = (items.at(column) for column in ("name", "withdrawn", "retired"))
    first: dict[object, int] = {}
    for line, row in items.rows:
        if not (row[withdrawn] or row[retired]) and first.setdefault(row[name], line) != line:
            yield (
                f'item.csv line {line}: its name "{row[name]!s:.60}" is that of line {first[row[name]]}, '
                "too; two items in use cannot share one."
            )


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


def _write_rows(connection: sqlite3.Connection, read: Sequence[_Read], progress: Progress) -> None:
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
        in_order = sorted(one.rows, key=lambda r: str(r[1][key]).zfill(20))
        for number, (line, row) in enumerate(in_order, 1):
            for place in kept:
                row[place] = 0
            progress(f"Writing {one.table.name}, row {number:,} of {len(in_order):,}…")
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
