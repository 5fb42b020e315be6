"""The box's schema: its version, its tables with their triggers, and SQLite's faults in plain words."""

import secrets
import sqlite3
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from sqlalchemy import Connection
from sqlalchemy.exc import DatabaseError
from sqlmodel import SQLModel

from tacklebox.boxfolder import DATABASE_NAME, newest_copy
from tacklebox.errors import CannotBeDoneError
from tacklebox.stock import tables as _tables  # noqa: F401  (registers them)
from tacklebox.stock.care.aswritten import give_checks
from tacklebox.stock.care.triggers import RULES
from tacklebox.stock.care.waiting import code_of, is_locked
from tacklebox.stock.dates import write_day

SCHEMA_VERSION = 12
APPLICATION_ID = 0x54434B42  # "TCKB", so that another SQLite file is not taken for a box


@dataclass(frozen=True)
class BoxMark:
    """How far a box has come: ``box`` is its own mark for good, ``stamp`` and ``changes`` tell its state.

    Two marks that are equal were read of the same state.
    """

    box: str
    stamp: str
    changes: int


READ_MARK = "SELECT box, stamp, changes FROM identity"


def new_stamp() -> str:
    """A mark that no other box or state bears."""
    return secrets.token_hex(16)


def of_sqlite(connection: Connection) -> sqlite3.Connection:
    """SQLite's own connection below."""
    driver = connection.connection.driver_connection
    assert isinstance(driver, sqlite3.Connection)
    return driver


def make_tables(connection: Connection) -> None:
    """Make the tables and rules of an empty box in a database without any."""
    run = connection.exec_driver_sql
    import tacklebox.stock.made  # noqa: F401  (registers its tables)

    SQLModel.metadata.create_all(connection)
    give_checks(of_sqlite(connection))
    for rule in RULES:
        run(rule)
    run(
        "INSERT INTO identity (id, box, stamp, changes) VALUES (1, ?, ?, 0)",
        (new_stamp(), new_stamp()),
    )
    run(f"PRAGMA application_id = {APPLICATION_ID}")
    run(f"PRAGMA user_version = {SCHEMA_VERSION}")


def damaged(what: str, folder: Path) -> CannotBeDoneError:
    """The box's database is damaged: with the newest copy there is."""
    copy = newest_copy(folder)
    if copy is None:
        right = "No copy of it lies in the box's folder; look for one that you made."
    else:
        made = datetime.fromtimestamp(copy.stat().st_mtime).date()
        day = write_day(made, with_year=True)
        right = f"It was left as it is. The newest copy in its folder is of {day}: {copy}."
    see = f"care.restore {copy}" if copy else "care.restore FILE"
    return CannotBeDoneError(what, where=str(folder / DATABASE_NAME), right=right, see=see)


def refuse_odd_beside(database: Path) -> None:
    """Raise CannotBeDoneError where something that is no file bears the name of the database's journal:
    SQLite would wait at a pipe for ever."""
    for ending in ("-journal", "-wal", "-shm"):
        beside = database.with_name(f"{database.name}{ending}")
        if beside.exists() and not beside.is_file():
            raise CannotBeDoneError(
                "this is no file, and stands where the database's journal would.",
                where=str(beside),
                right="Take it away.",
            )


def _is_journal_hot(folder: Path) -> bool:
    try:
        return (folder / f"{DATABASE_NAME}-journal").stat().st_size > 0
    except OSError:
        return False


def plain_words(
    error: DatabaseError | sqlite3.DatabaseError | UnicodeDecodeError, place: Path
) -> CannotBeDoneError:
    """What SQLite says, with what to do about it; of a schema whose text is none it says no text."""
    if isinstance(error, UnicodeDecodeError):
        return damaged("the file is damaged: the text of its tables is none.", place)
    field = ""
    said = str(error.orig if isinstance(error, DatabaseError) else error)
    code = code_of(error)
    if code in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN) and _is_journal_hot(place):
        return CannotBeDoneError(
            "the last write was broken off, by a power cut perhaps; it must be taken back before anything"
            " is read, and that cannot be written here.",
            where=str(place),
            right="Allow writing in the folder, or copy all of it to one that may be written.",
            field="box",
        )
    if is_locked(error):
        right = "Another program is writing to the box; try again in a moment."
    elif code in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN):
        right = "Name a folder that may be written."
        field = "box"
    elif code in (sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR):
        right = "The disk is full or failing: make room and try again. Nothing was half saved."
    elif code in (sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_ERROR):  # no table
        return damaged(f"the file is damaged or no box; SQLite says: {said}.", place)
    else:
        right = "Nothing was half saved."
    return CannotBeDoneError(f"the box says: {said}.", where=str(place), right=right, field=field)
