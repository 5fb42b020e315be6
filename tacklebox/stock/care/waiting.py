"""Waiting for another program that is at the box: told after a second, given up after twenty."""

import sqlite3
from collections.abc import Callable

from sqlalchemy.exc import OperationalError

ALONE_MS, PATIENCE_MS = 1_000, 20_000  # a wait is told after the first, given up after the second
Notice = Callable[[str], None]  # takes a sentence that is worth showing while something goes on


def keep_quiet(_words: str) -> None:
    """What is said while waiting goes nowhere."""


def patiently(
    run: Callable[[str], object], sql: str, notice: Notice, by: str = "writing to"
) -> None:
    """Run what may have to wait for another program; a long wait is told in a line, then given up."""
    run(f"PRAGMA busy_timeout = {ALONE_MS}")
    try:
        run(sql)
    except (OperationalError, sqlite3.OperationalError) as error:
        if "locked" not in str(error):
            raise
        notice(f"Another program is {by} the box; waiting for it…")
        run(f"PRAGMA busy_timeout = {PATIENCE_MS - ALONE_MS}")
        run(sql)
    finally:
        run(f"PRAGMA busy_timeout = {PATIENCE_MS}")
