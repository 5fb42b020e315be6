"""The whole box as plain files, one CSV per table and TOML for own recipes and papers.

The CSV survives spreadsheets: what one would run as a formula is written so that it is only text,
and comes back as it was; separators, decimal commas and line ends may be theirs.
"""

import csv
import re
import shutil
import sqlite3
from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from pathlib import Path
from uuid import uuid4

from sqlalchemy import Column, Table, TypeDecorator
from sqlmodel import Session, SQLModel, select

from tacklebox.boxfolder import KINDS
from tacklebox.datafiles import MOST_BYTES, NAME, check_inside
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.outputs import refuse_own
from tacklebox.stock import made as _made  # noqa: F401  (registers its tables)
from tacklebox.stock.care import schema
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.schema import plain_words
from tacklebox.stock.tables import Identity

WHOLE = "box.toml"  # comes last: a folder without it is no whole export
# What a spreadsheet runs, or takes for a number or a date of its own and writes back otherwise
# ("0012", "3/4", "2.50"); apostrophes before it are ours.
_RUNS = re.compile(
    r"'*(?:[=+\-@\t\r]|(?!(?:0|[1-9][0-9]{0,14})\Z)[0-9.,:/ eE-]*[0-9][0-9.,:/ eE-]*\Z)"
)
KEPT_BY_RULES = {"item": ("on_hand", "last_movement")}  # the movements give them anew
STORED = "%Y-%m-%d %H:%M:%S.%f"  # a time, as SQLAlchemy keeps it in SQLite


def harmless(cell: str) -> str:
    """A text that no spreadsheet runs or changes: an apostrophe before what it would.

    >>> harmless("=1+1"), harmless("waggler"), harmless("'-x"), harmless("0012"), harmless("18")
    ("'=1+1", 'waggler', "''-x", "'0012", '18')
    """
    return f"'{cell}" if _RUNS.match(cell) else cell


def as_it_was(cell: str) -> str:
    """What ``harmless`` made harmless, unchanged.

    >>> as_it_was("'=1+1"), as_it_was("'tis")
    ('=1+1', "'tis")
    """
    return cell[1:] if cell.startswith("'") and _RUNS.match(cell) else cell


def tables() -> Sequence[Table]:
    """Every table, those that others point at first; what the box is itself stands in ``WHOLE``."""
    return [
        table for table in SQLModel.metadata.sorted_tables if table.name != Identity.__tablename__
    ]


def driver(session: Session) -> sqlite3.Connection:
    """SQLite's own connection below a session, in its transaction."""
    connection = session.connection().connection.driver_connection
    assert isinstance(connection, sqlite3.Connection)
    return connection


def export_box(box: Box, folder: Path) -> list[Path]:
    """Write the whole box into an empty or new folder, from one consistent view.

    Raises AskedWronglyError when there is something in the folder or an own file cannot be taken along,
    CannotBeDoneError when it cannot be written.
    """
    folder = folder.absolute()
    refuse_own(folder / WHOLE)
    try:
        is_present = folder.exists()
        if is_present and (not folder.is_dir() or any(folder.iterdir())):
            raise AskedWronglyError(
                "there is something there already; it was left as it is.",
                where=str(folder),
                right="Name an empty folder, or one that is not there yet.",
            )
        half = (folder if is_present else folder.parent) / f".{uuid4().hex}.half"
        try:
            own = own_files(box.folder)
            half.mkdir(parents=True)
            names = _write_all(box, own, half)
            if not is_present:
                half.rename(folder)  # it appears when it is whole
            else:  # it may be a disk of its own, and someone may stand in it
                for path in sorted(half.iterdir(), key=lambda p: p.name == WHOLE):
                    path.rename(folder / path.name)
        finally:
            shutil.rmtree(half, ignore_errors=True)
    except sqlite3.DatabaseError as error:
        raise plain_words(error, box.folder) from error
    except OSError as error:
        raise CannotBeDoneError(
            f"the files cannot be written: {error.strerror}.",
            where=str(folder),
            right="Name a place that may be written and has room.",
        ) from error
    return [folder / name for name in names]


def _write_all(box: Box, own: Mapping[Path, bytes], folder: Path) -> list[Path]:
    """Write every file; hands back their names within the folder."""
    names = []
    with box.reading() as session:
        itself = session.exec(select(Identity.box)).one()
        for table in tables():
            _write_table(driver(session), table, folder / f"{table.name}.csv")
            names.append(Path(f"{table.name}.csv"))
    for name, data in own.items():
        write_new(folder / name, data)
    whole = f'version = {schema.SCHEMA_VERSION}\nbox = "{itself}"\n'
    write_new(folder / WHOLE, whole.encode())
    return [*names, *own, Path(WHOLE)]


def write_new(path: Path, data: bytes, begun: list[Path] | None = None) -> None:
    """A file that was not there before; noted in ``begun`` as soon as anything of it is."""
    path.parent.mkdir(exist_ok=True)
    with path.open("xb") as file:
        if begun is not None:
            begun.append(path)
        file.write(data)


def own_files(folder: Path) -> dict[Path, bytes]:
    """The angler's own recipes, papers, venues and matches in a box or an export, by kind and name.

    Raises AskedWronglyError for one that the tool itself would not read, CannotBeDoneError for what may not
    be read.
    """
    found = {}
    try:
        for kind in KINDS:
            if not (folder / kind).is_dir():
                continue
            for path in sorted((folder / kind).iterdir()):
                if path.suffix == ".toml" and NAME.match(path.stem) and path.is_file():
                    check_inside(path, folder / kind)
                    found[Path(kind, path.name)] = read_bytes(path)
    except OSError as error:
        raise CannotBeDoneError(
            f"it cannot be read: {error.strerror}.", where=str(error.filename or folder)
        ) from error
    return found


def read_bytes(path: Path) -> bytes:
    """What an own file holds. Raises AskedWronglyError for one that no import would read."""
    with path.open("rb") as file:
        data = file.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        raise AskedWronglyError(
            "the file is over 64 kB; no such file is read.",
            where=str(path),
            right="Move it to another folder.",
        )
    return data


def _write_table(connection: sqlite3.Connection, table: Table, path: Path) -> None:
    columns = list(table.columns)
    names = ", ".join(f'"{c.name}"' for c in columns)
    order = ", ".join(f'"{c.name}"' for c in table.primary_key)
    write = [_writer(c) for c in columns]
    with path.open("x", encoding="utf-8-sig", newline="") as file:
        to = csv.writer(file)
        to.writerow([c.name for c in columns])
        for row in connection.execute(f'SELECT {names} FROM "{table.name}" ORDER BY {order}'):
            to.writerow(
                ["" if cell is None else how(cell) for cell, how in zip(row, write, strict=True)]
            )


def kind_of(column: "Column[object]") -> type:
    """What its cells are in Python."""
    held = column.type
    return (held.impl_instance if isinstance(held, TypeDecorator) else held).python_type


def _writer(column: "Column[object]") -> Callable[[object], object]:
    """How a cell of the column is written."""
    kind = kind_of(column)
    if kind is datetime:
        return lambda cell: str(cell).replace(" ", "T")  # as no spreadsheet's own date
    if kind is str:
        return lambda cell: harmless(str(cell))
    return lambda cell: cell
