"""The box's schema: its version, its tables with their triggers, and SQLite's faults in plain words."""

import sqlite3
from pathlib import Path

from sqlalchemy import Connection
from sqlalchemy.exc import DatabaseError
from sqlmodel import SQLModel

from tacklebox.errors import CannotBeDoneError
from tacklebox.stock import tables as _tables  # noqa: F401  (registers the tables)
from tacklebox.stock.care.triggers import RULES

SCHEMA_VERSION = 2
APPLICATION_ID = 0x54434B42  # "TCKB", so that another SQLite file is not taken for a box
DATABASE_NAME = "tacklebox.sqlite3"


def make_tables(connection: Connection) -> None:
    """Make the tables and rules of an empty box in a database without any."""
    run = connection.exec_driver_sql
    SQLModel.metadata.create_all(connection)
    for rule in RULES:
        run(rule)
    run(f"PRAGMA application_id = {APPLICATION_ID}")
    run(f"PRAGMA user_version = {SCHEMA_VERSION}")


def plain_words(error: DatabaseError | sqlite3.DatabaseError, place: Path) -> CannotBeDoneError:
    """What SQLite says, with what to do about it."""
    said = str(error.orig if isinstance(error, DatabaseError) else error)
    if "locked" in said:
        right = "Another program is writing to the box; try again in a moment."
    elif "readonly" in said or "unable to open" in said:
        right = "Name a folder that may be written with --box."
    elif "full" in said or "disk I/O" in said:
        right = "The disk is full or failing: make room and try again. Nothing was half saved."
    elif "not a database" in said or "malformed" in said:
        right = "The file is damaged or no box: put back a copy of it. It was left as it is."
    else:
        right = "Nothing was half saved."
    return CannotBeDoneError(f"the box says: {said}.", where=str(place), right=right)
