"""Waiting for another program that is at the box: told after a second, given up after twenty."""

import sqlite3
from collections.abc import Callable
from time import monotonic

from sqlalchemy.exc import DatabaseError, OperationalError

ALONE_MS, PATIENCE_MS = 1_000, 20_000  # a wait is told after the first, given up after the second
Notice = Callable[[str], None]  # takes a sentence that is worth showing while something goes on


def keep_quiet(_words: str) -> None:
    """What is said while waiting goes nowhere."""


class Progress:
    """Says now and then how far a long thing has come; a short one says nothing."""

    every_s = 2.0

    def __init__(self, notice: Notice) -> None:
        self._notice = notice
        self._said = monotonic()

    def __call__(self, words: str) -> None:
        """Where things are now; said where the last was said long enough ago."""
        now = monotonic()
        if now - self._said >= self.every_s:
            self._said = now
            self._notice(words)


def code_of(error: BaseException) -> int:
    """What kind of fault SQLite says it is, one of its ``SQLITE_…``; 0 for what is none of SQLite's."""
    cause = error.orig if isinstance(error, DatabaseError) else error
    return int(getattr(cause, "sqlite_errorcode", 0)) & 0xFF  # without what it adds to the kind


def is_locked(error: BaseException) -> bool:
    """Whether another is at the box."""
    return code_of(error) in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)


def locked() -> sqlite3.OperationalError:
    """The fault that SQLite raises where another is at the box, for waits of our own."""
    error = sqlite3.OperationalError("database is locked")
    error.sqlite_errorcode = sqlite3.SQLITE_BUSY
    return error


def patiently(
    run: Callable[[str], object], sql: str, notice: Notice, by: str = "writing to"
) -> None:
    """Run what may have to wait for another program; a long wait is told in a line, then given up."""
    run(f"PRAGMA busy_timeout = {ALONE_MS}")
    try:
        run(sql)
    except (OperationalError, sqlite3.OperationalError) as error:
        if not is_locked(error):
            raise
        notice(f"Another program is {by} the box; waiting for it…")
        run(f"PRAGMA busy_timeout = {PATIENCE_MS - ALONE_MS}")
        run(sql)
    finally:
        run(f"PRAGMA busy_timeout = {PATIENCE_MS}")
