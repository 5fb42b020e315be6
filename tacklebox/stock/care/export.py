"""The whole box as plain files, one CSV per table and TOML for own recipes and papers.

The CSV survives spreadsheets: how its cells are written see ``cells``; separators, decimal commas and line
ends may be theirs. What one changed all the same is told when it is read.
"""

import csv
import shutil
import sqlite3
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from uuid import uuid4

from sqlalchemy import Column, Table
from sqlmodel import Session, SQLModel, select

from tacklebox.boxfolder import KINDS
from tacklebox.datafiles import MOST_BYTES, NAME, check_inside
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.halves import clear_abandoned, in_hand
from tacklebox.outputs import refuse_own
from tacklebox.stock import made as _made  # noqa: F401  (registers its tables)
from tacklebox.stock.care import schema
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.cells import read_cell, row_check, write_cell
from tacklebox.stock.care.schema import plain_words
from tacklebox.stock.checks import CHECK
from tacklebox.stock.tables import AsWritten, Identity

WHOLE = "box.toml"  # comes last: a folder without it is no whole export
FORM = 2  # of the cells; 1, which does not stand there, had no checks
KEPT_BY_RULES = {"item": ("on_hand", "last_movement")}  # the movements give them anew


def tables() -> Sequence[Table]:
    """Every table that holds what he wrote, those that others point at first.

    What the box is itself stands in ``WHOLE``; the checks of its rows are made anew where they are read.
    """
    own = (Identity.__tablename__, AsWritten.__tablename__)
    return [table for table in SQLModel.metadata.sorted_tables if table.name not in own]


def driver(session: Session) -> sqlite3.Connection:
    """SQLite's own connection below a session, in its transaction."""
    connection = session.connection().connection.driver_connection
    assert isinstance(connection, sqlite3.Connection)
    return connection


Verify = Callable[[sqlite3.Connection], None]  # looks through the view; raises where it is damaged


def export_box(
    box: Box, folder: Path, own_from: Path | None = None, verify: Verify = lambda _: None
) -> list[Path]:
    """Write the whole box into an empty or new folder, from one consistent view, once ``verify`` found
    nothing.

    ``own_from`` is the folder of the own files, where it is not the box's. Raises AskedWronglyError when
    there is something in the folder or an own file cannot be taken along, CannotBeDoneError when it cannot be
    written.
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
            own = own_files(own_from or box.folder)
            clear_abandoned(half.parent)
            half.mkdir(parents=True)
            with in_hand(half):
                names = _write_all(box, own, half, verify)
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


def _write_all(box: Box, own: Mapping[Path, bytes], folder: Path, verify: Verify) -> list[Path]:
    """Write every file; hands back their names within the folder."""
    names, rows = [], {}
    with box.reading() as session:
        verify(driver(session))
        itself = session.exec(select(Identity.box)).one()
        for table in tables():
            names.append(Path(f"{table.name}.csv"))
            rows[table.name] = _write_table(driver(session), table, folder / names[-1])
    for name, data in own.items():
        write_new(folder / name, data)
    counted = "".join(f"{table} = {count}\n" for table, count in rows.items())
    whole = (
        f'version = {schema.SCHEMA_VERSION}\nform = {FORM}\nbox = "{itself}"\n\n[rows]\n{counted}'
    )
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
    """What an own file holds. Raises AskedWronglyError for one that no import would read, OSError where
    there is no plain file: a pipe would wait for ever."""
    if not path.is_file():
        raise FileNotFoundError(2, "there is no such file", str(path))
    with path.open("rb") as file:
        data = file.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        raise AskedWronglyError(
            "the file is over 64 kB; no such file is read.",
            where=str(path),
            right="Move it to another folder.",
        )
    return data


def _write_table(connection: sqlite3.Connection, table: Table, path: Path) -> int:
    """Write every row with its check; hands back how many."""
    columns = list(table.columns)
    names = ", ".join(f'"{c.name}"' for c in columns)
    order = ", ".join(f'"{c.name}"' for c in table.primary_key)
    count = 0
    with path.open("x", encoding="utf-8-sig", newline="") as file:
        to = csv.writer(file)
        to.writerow([*(c.name for c in columns), CHECK])
        for row in connection.execute(f'SELECT {names} FROM "{table.name}" ORDER BY {order}'):
            held = list(zip(columns, row, strict=True))
            cells = [write_cell(cell, may_be_nothing=bool(c.nullable)) for c, cell in held]
            to.writerow(
                [*cells, row_check(table.name, {c.name: _as_read(c, cell) for c, cell in held})]
            )
            count += 1
    return count


def _as_read(column: "Column[object]", cell: object) -> object:
    """A cell as an import will hold it; what it cannot hold as it is."""
    try:
        return read_cell(column, write_cell(cell, may_be_nothing=bool(column.nullable)))
    except ValueError:
        return str(cell)
