"""The whole box as plain files, one CSV per table and TOML for own recipes and papers; and back.

The CSV survives spreadsheets: what one would run as a formula is written so that it is only text,
and comes back as it was; separators, decimal commas and line ends may be theirs.
"""

import csv
import math
import os
import re
import shutil
import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from sqlalchemy import Boolean, Column, Date, Float, Integer, Table
from sqlmodel import SQLModel

from tacklebox.datafiles import MOST_BYTES, NAME, check_inside
from tacklebox.errors import AskedWronglyError, CannotBeDoneError, ManyFaultsError
from tacklebox.stock.audit import audit_open
from tacklebox.stock.box import PATIENCE_MS, SCHEMA_VERSION, Box, plain_words
from tacklebox.stock.csvfile import read_cells

KINDS = ("recipes", "labels", "venues", "matches")
_RUNS = re.compile(r"'*[=+\-@\t\r]")  # a spreadsheet runs it; apostrophes before it are ours
_KEPT_BY_RULES = {"item": ("on_hand", "last_movement")}  # the movements give them anew
_NUMBERS = (Integer, Float, Boolean)
MOST_FAULTS = 50
MOST_CSV_BYTES = 256_000_000


def harmless(cell: str) -> str:
    """A text that no spreadsheet runs: an apostrophe before what would start a formula.

    >>> harmless("=1+1"), harmless("waggler"), harmless("'-x")
    ("'=1+1", 'waggler', "''-x")
    """
    return f"'{cell}" if _RUNS.match(cell) else cell


def as_it_was(cell: str) -> str:
    """What ``harmless`` made harmless, unchanged.

    >>> as_it_was("'=1+1"), as_it_was("'tis")
    ('=1+1', "'tis")
    """
    return cell[1:] if cell.startswith("'") and _RUNS.match(cell) else cell


def _tables() -> Sequence[Table]:
    """Every table, those that others point at first."""
    return SQLModel.metadata.sorted_tables


def export_box(box: Box, folder: Path) -> list[Path]:
    """Write the whole box into an empty or new folder, from one consistent view.

    Raises AskedWronglyError when there is something in the folder, CannotBeDoneError when it cannot be
    written.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise AskedWronglyError(
            "there is something there already; it was left as it is.",
            where=str(folder),
            right="Name an empty folder, or one that is not there yet.",
        )
    half = folder.with_name(f".{folder.name}.{os.getpid()}.half")
    try:
        half.mkdir(parents=True)
        names = _write_all(box, half)
        if folder.exists():
            folder.rmdir()
        half.rename(folder)  # it appears when it is whole
    except sqlite3.DatabaseError as error:
        raise plain_words(error, box.folder) from error
    except OSError as error:
        raise CannotBeDoneError(
            f"the files cannot be written: {error.strerror}.",
            where=str(folder),
            right="Name a place that may be written and has room.",
        ) from error
    finally:
        shutil.rmtree(half, ignore_errors=True)
    return [folder / name for name in names]


def _write_all(box: Box, folder: Path) -> list[Path]:
    """Write every file; hands back their names within the folder."""
    names = []
    with closing(sqlite3.connect(box.database, timeout=PATIENCE_MS / 1000)) as connection:
        connection.execute("BEGIN")
        for table in _tables():
            _write_table(connection, table, folder / f"{table.name}.csv")
            names.append(Path(f"{table.name}.csv"))
    for kind in KINDS:
        for file in _own_files(box.folder / kind):
            check_inside(file, box.folder / kind)
            (folder / kind).mkdir(exist_ok=True)
            shutil.copyfile(file, folder / kind / file.name)
            names.append(Path(kind) / file.name)
    (folder / "box.toml").write_text(f"version = {SCHEMA_VERSION}\n", encoding="utf-8")
    return [*names, Path("box.toml")]


def _own_files(folder: Path) -> list[Path]:
    return sorted(p for p in folder.glob("*.toml") if p.is_file() and NAME.match(p.stem))


def _write_table(connection: sqlite3.Connection, table: Table, path: Path) -> None:
    columns = list(table.columns)
    names = ", ".join(f'"{c.name}"' for c in columns)
    order = ", ".join(f'"{c.name}"' for c in table.primary_key)
    texts = [not isinstance(c.type, _NUMBERS) for c in columns]
    with path.open("w", encoding="utf-8-sig", newline="") as file:
        to = csv.writer(file)
        to.writerow([c.name for c in columns])
        for row in connection.execute(f'SELECT {names} FROM "{table.name}" ORDER BY {order}'):
            to.writerow(
                [
                    "" if cell is None else harmless(str(cell)) if text else cell
                    for cell, text in zip(row, texts, strict=True)
                ]
            )


@dataclass(frozen=True)
class _Read:
    """The rows of one table, each with its line in the file."""

    table: Table
    rows: list[tuple[int, dict[str, object]]]


def import_box(box: Box, folder: Path) -> dict[str, int]:
    """Read an export into an empty box, all or nothing; hands back how many rows of each table.

    Raises AskedWronglyError when it is no export, CannotBeDoneError when the box is not empty,
    ManyFaultsError naming each row that cannot be read or would leave less than nothing on hand.
    """
    _check_version(folder)
    _check_empty(box)
    own = [(kind, f) for kind in KINDS for f in _own_files(folder / kind)]
    for _, file in own:
        if file.is_symlink() or file.stat().st_size > MOST_BYTES:
            raise AskedWronglyError("this is no file of at most 64 kB.", where=str(file))
    faults: list[str] = []
    read = [_read_table(table, folder, faults) for table in _tables()]
    by_name = {one.table.name: one for one in read}
    if not faults:
        faults += _would_be_below_nothing(by_name["movement"], by_name["item"])
    if faults:
        more = len(faults) - MOST_FAULTS
        told = faults[:MOST_FAULTS] + ([f"and {more} more"] if more > 0 else [])
        raise ManyFaultsError(f"{folder}: nothing was imported.", told)
    try:
        with closing(sqlite3.connect(box.database, timeout=PATIENCE_MS / 1000)) as connection:
            connection.isolation_level = None
            _write_rows(connection, box, read, folder)
    except sqlite3.DatabaseError as error:
        raise plain_words(error, folder) from error
    for kind, file in own:
        shutil.copyfile(file, box.folder / kind / file.name)
    return {one.table.name: len(one.rows) for one in read}


def _check_version(folder: Path) -> None:
    import tomllib

    try:
        version = tomllib.loads((folder / "box.toml").read_text(encoding="utf-8")).get("version")
    except (OSError, ValueError):
        raise AskedWronglyError(
            "this is no folder that `tacklebox export` wrote.", where=str(folder)
        ) from None
    if version != SCHEMA_VERSION:
        raise CannotBeDoneError(
            f"it was exported from a box of version {version}; this program knows "
            f"{SCHEMA_VERSION}.",
            where=str(folder),
            right="Export it again with this program.",
        )


def _check_empty(box: Box) -> None:
    with closing(sqlite3.connect(box.database, timeout=PATIENCE_MS / 1000)) as connection:
        filled = [t.name for t in _tables() if _first_row(connection, t.name)]
    if filled or any(_own_files(box.folder / kind) for kind in KINDS):
        raise CannotBeDoneError(
            "the box is not empty; it was left as it is.",
            where=str(box.folder),
            right="Name a new folder with --box.",
        )


def _first_row(connection: sqlite3.Connection, table: str) -> bool:
    return connection.execute(f'SELECT 1 FROM "{table}" LIMIT 1').fetchone() is not None


def _read_table(table: Table, folder: Path, faults: list[str]) -> _Read:
    name = f"{table.name}.csv"
    lines = read_cells(folder / name, MOST_CSV_BYTES)
    _, heading = next(lines, (1, []))
    known = [c.name for c in table.columns]
    if sorted(heading) != sorted(known):
        raise AskedWronglyError(
            "its columns are not those of the export.", where=name, right=", ".join(known)
        )
    rows: list[tuple[int, dict[str, object]]] = []
    for line, cells in lines:
        if len(cells) != len(heading):
            faults.append(f"{name} line {line}: {len(cells)} cells under {len(heading)} headings.")
            continue
        try:
            rows.append((line, _typed(table, dict(zip(heading, cells, strict=True)))))
        except ValueError as error:
            faults.append(f"{name} line {line}: {error}.")
    return _Read(table, rows)


def _typed(table: Table, cells: Mapping[str, str]) -> dict[str, object]:
    row: dict[str, object] = {}
    for column in table.columns:
        cell = cells[column.name]
        row[column.name] = None if cell == "" and column.nullable else _value(column, cell)
    return row


def _value(column: "Column[object]", cell: str) -> object:
    """A cell as the column holds it. Raises ValueError saying what it should be."""
    what = "number"
    try:
        if isinstance(column.type, Float):
            if math.isfinite(number := float(cell.replace(",", "."))):
                return number
        elif isinstance(column.type, (Integer, Boolean)):
            if abs(whole := int(cell)) < 2**63:
                return whole
        elif isinstance(column.type, Date):
            what = "date"
            return date.fromisoformat(cell).isoformat()
        else:
            return as_it_was(cell)
    except ValueError:
        pass
    raise ValueError(f'{column.name}: "{cell[:40]}" is no {what}')


def _would_be_below_nothing(movements: _Read, items: _Read) -> Iterator[str]:
    on_hand: dict[object, int] = {row["id"]: 0 for _, row in items.rows}
    for line, row in sorted(movements.rows, key=lambda r: (r[1]["id"] is None, r[1]["id"])):
        item, amount = row["item_id"], row["amount"]
        if item not in on_hand or not isinstance(amount, int):
            yield f"movement.csv line {line}: it moves no item that is in item.csv."
            continue
        on_hand[item] += amount
        if on_hand[item] < 0:
            yield f"movement.csv line {line}: {on_hand[item]} of item {item} would be on hand."
    for line, row in items.rows:
        if on_hand[row["id"]] != row["on_hand"]:
            yield (
                f"item.csv line {line}: on_hand is {row['on_hand']}, the movements sum to "
                f"{on_hand[row['id']]}."
            )


def _write_rows(
    connection: sqlite3.Connection, box: Box, read: Sequence[_Read], folder: Path
) -> None:
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("BEGIN IMMEDIATE")
    connection.execute("PRAGMA defer_foreign_keys = ON")
    _check_empty(box)
    for one in read:
        kept = _KEPT_BY_RULES.get(one.table.name, ())
        columns = [c.name for c in one.table.columns]
        names = ", ".join(f'"{c}"' for c in columns)
        marks = ", ".join("?" for _ in columns)
        insert = f'INSERT INTO "{one.table.name}" ({names}) VALUES ({marks})'
        key = next(iter(one.table.primary_key)).name
        for line, row in sorted(one.rows, key=lambda r: str(r[1][key]).zfill(20)):
            try:
                connection.execute(insert, [0 if c in kept else row[c] for c in columns])
            except sqlite3.IntegrityError as error:
                raise AskedWronglyError(
                    f"line {line}: {error}.",
                    where=f"{one.table.name}.csv",
                    right="Nothing was imported.",
                ) from None
    faults = audit_open(connection).faults
    if faults:
        told = [f"{fault.where}: {fault.what}" for fault in faults[:MOST_FAULTS]]
        raise ManyFaultsError(f"{folder}: nothing was imported.", told)
    connection.execute("COMMIT")
