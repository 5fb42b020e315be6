"""Copies of a box: one file, consistent while others write.

SQLite's own backup writes beside the place; the copy gets its name when it is whole, by a link that no other
file can have, or, on a disk without links, in the place of an empty file. A kill can leave a hidden ``.half``
file beside it, which the next copy to that folder clears. A copy can be read by its user alone, as the box.
"""

import os
import sqlite3
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from uuid import uuid4

from tacklebox.boxfolder import SET_ASIDE
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.halves import clear_abandoned, in_hand
from tacklebox.outputs import name_new, refuse_own
from tacklebox.stock.care import waiting
from tacklebox.stock.care.schema import plain_words, refuse_odd_beside
from tacklebox.stock.care.waiting import Notice, keep_quiet, patiently

Verify = Callable[
    [Path], None
]  # looks through a copy before it gets its name; raises where it is damaged


def _take_as_it_is(_half: Path) -> None:
    """What is set aside is kept as it is."""


def copy_database(
    database: Path, to: Path, notice: Notice = keep_quiet, verify: Verify = _take_as_it_is
) -> Path:
    """Write a consistent copy of the database to a new file, while others may write.

    The copy appears under its name only when it is whole, and ``verify`` found nothing. Raises
    AskedWronglyError where there is such a file already or a box keeps its own there, CannotBeDoneError when
    it cannot be written.
    """
    refuse_own(to)
    return _copy(database, to, notice, verify)


def _copy(database: Path, to: Path, notice: Notice, verify: Verify = _take_as_it_is) -> Path:
    with new_copy(to), opened(database, notice) as source:
        write_copy(source, to, notice, verify)
    return to


@contextmanager
def new_copy(to: Path) -> Iterator[None]:
    """A copy is written to a place where nothing is; what hinders it is told in words."""
    try:
        if to.is_dir():
            raise AskedWronglyError(
                "this is a folder.", where=str(to), right="Name a file that is not there yet."
            )
        if to.exists():
            raise FileExistsError
        yield
    except FileExistsError:
        raise AskedWronglyError(
            "there is such a file already; it was left as it is.",
            where=str(to),
            right="Name a file that is not there yet.",
        ) from None
    except (OSError, sqlite3.DatabaseError) as error:
        right = "Name a place that may be written and has room."
        raise refused("the copy cannot be written", error, to, right) from error


def opened(database: Path, notice: Notice) -> "closing[sqlite3.Connection]":
    """The database, once it can be read. Raises CannotBeDoneError for one that cannot."""
    refuse_odd_beside(database)
    connection = sqlite3.connect(database, timeout=waiting.ALONE_MS / 1000)
    try:
        patiently(connection.execute, "SELECT 1 FROM sqlite_master", notice)
    except (sqlite3.DatabaseError, UnicodeDecodeError) as error:
        connection.close()
        raise plain_words(error, database.parent) from error
    return closing(connection)


def write_copy(
    source: sqlite3.Connection, to: Path, notice: Notice, verify: Verify = _take_as_it_is
) -> None:
    """A copy under a name that appears when it is whole, and never over another file.

    Its journal is the rollback journal, whatever the source's is.
    """
    clear_abandoned(to.parent)
    half = to.with_name(f".{uuid4().hex}.half")
    try:
        os.close(os.open(half, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o600))
        with in_hand(half):
            with closing(sqlite3.connect(half)) as target:
                back_up(source, target, notice)
                with suppress(sqlite3.DatabaseError):  # a damaged one is copied as it is
                    target.execute("PRAGMA journal_mode = DELETE")
            with half.open("rb+") as written:
                os.fsync(written.fileno())
            verify(half)
            name_new(half, to)
    finally:
        with suppress(OSError):
            half.unlink(missing_ok=True)


def back_up(source: sqlite3.Connection, target: sqlite3.Connection, notice: Notice) -> None:
    """SQLite's own backup. It would wait for ever: a long wait is told, then given up."""
    begun, noticed = time.monotonic(), False

    def waited(status: int, _remaining: int, _pages: int) -> None:
        nonlocal noticed
        if status not in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
            return
        if time.monotonic() - begun > waiting.PATIENCE_MS / 1000:
            raise waiting.locked()
        if not noticed:
            notice("Another program is writing; waiting for it…")
            noticed = True

    source.execute(f"PRAGMA busy_timeout = {waiting.ALONE_MS}")
    source.backup(target, progress=waited)


def refused(
    what: str, error: OSError | sqlite3.DatabaseError, where: Path, right: str
) -> CannotBeDoneError:
    """What the disk or SQLite says, with what to do about it."""
    said = error.strerror if isinstance(error, OSError) else str(error)
    if waiting.is_locked(error):
        right = "Another program is writing to the box; try again in a moment."
    return CannotBeDoneError(f"{what}: {said}.", where=str(where), right=right)


def set_aside(database: Path, because: str, notice: Notice = keep_quiet) -> Path:
    """Copy the database into the box's own folder of copies, under a name that is free."""
    folder = database.parent / SET_ASIDE
    try:
        folder.mkdir(exist_ok=True)
        return _copy(database, free_name(folder, because), notice)
    except (OSError, CannotBeDoneError) as error:
        said = error.what if isinstance(error, CannotBeDoneError) else f"{error.strerror}."
        raise CannotBeDoneError(
            f"the box cannot be copied aside, so it was left as it is: {said}",
            where=str(folder),
            right="Make room there, and see that it may be written.",
        ) from error
    finally:
        with suppress(OSError):
            folder.rmdir()  # if nothing is in it


def discard(aside: Path) -> None:
    """Take a copy that was set aside away again, and the folder if it was the first."""
    aside.unlink(missing_ok=True)
    with suppress(OSError):
        aside.parent.rmdir()


def free_name(folder: Path, because: str) -> Path:
    """A name of the day that no copy in the folder has yet."""
    day = datetime.now(UTC).strftime("%Y-%m-%d")
    number = 1
    while (path := folder / f"{because}-{day}-{number}.sqlite3").exists():
        number += 1
    return path
