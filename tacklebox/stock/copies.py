"""Copies of a box: one file, consistent while others write; put back only when it is in order."""

import json
import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.stock.audit import audit
from tacklebox.stock.box import PATIENCE_MS, Box, plain_words

ASIDE = "set-aside"  # the folder in the box for copies made before something is replaced
_COUNTED = {"action": "actions", "movement": "movements", "measurement": "readings"}


@dataclass(frozen=True)
class Newer:
    """What a box holds that a copy does not: how many rows of each sort, and the last action."""

    rows: dict[str, int]
    last_action: str

    def __bool__(self) -> bool:
        return any(self.rows.values())

    def __str__(self) -> str:
        told = [f"{n} {word}" for word, n in self.rows.items() if n]
        return ", ".join(told) + (f", the last of them: {self.last_action}" if told else "")


def copy_database(database: Path, to: Path) -> Path:
    """Write a consistent copy of the database to a new file, while others may write.

    The copy appears under its name only when it is whole. Raises AskedWronglyError where there is such a
    file already, CannotBeDoneError when it cannot be written.
    """
    if to.exists():
        raise AskedWronglyError(
            "there is such a file already; it was left as it is.",
            where=str(to),
            right="Name a file that is not there yet.",
        )
    half = to.with_name(f".{to.name}.{os.getpid()}.half")
    try:
        with (
            closing(sqlite3.connect(database, timeout=PATIENCE_MS / 1000)) as source,
            closing(sqlite3.connect(half)) as target,
        ):
            source.backup(target)
        with half.open("rb+") as written:
            os.fsync(written.fileno())
        os.link(half, to)  # unlike a rename, never over a file that came meanwhile
    except sqlite3.DatabaseError as error:
        raise plain_words(error, to) from error
    except OSError as error:
        raise CannotBeDoneError(
            f"the copy cannot be written: {error.strerror}.",
            where=str(to),
            right="Name a place that may be written and has room.",
        ) from error
    finally:
        half.unlink(missing_ok=True)
    return to


def set_aside(database: Path, because: str) -> Path:
    """Copy the database into the box's own folder of copies, under a name that is free."""
    folder = database.parent / ASIDE
    folder.mkdir(exist_ok=True)
    return copy_database(database, _free(folder, because))


def _free(folder: Path, because: str) -> Path:
    day = datetime.now(UTC).strftime("%Y-%m-%d")
    number = 1
    while (path := folder / f"{because}-{day}-{number}.sqlite3").exists():
        number += 1
    return path


def verify(copy: Path, read_snapshot: Callable[[str], object] = json.loads) -> None:
    """Raise CannotBeDoneError unless the copy is a box that is in order."""
    faults = audit(copy, read_snapshot).faults
    if faults:
        first = "".join(f"\n  {fault.where}: {fault.what}" for fault in faults[:5])
        raise CannotBeDoneError(
            f"this copy is not in order, nothing was put back:{first}", where=str(copy)
        )


def newer_than(box: Box, copy: Path) -> Newer:
    """What the box holds that the copy does not, row by row; no clock is asked."""
    with closing(sqlite3.connect(box.database, timeout=PATIENCE_MS / 1000)) as connection:
        connection.execute("ATTACH ? AS copy", (str(copy),))
        rows = {
            word: connection.execute(
                f"SELECT count(*) FROM (SELECT * FROM main.{table} EXCEPT SELECT * FROM copy.{table})"
            ).fetchone()[0]
            for table, word in _COUNTED.items()
        }
        last = connection.execute(
            """SELECT what || ' of ' || "on" FROM main.action ORDER BY id DESC LIMIT 1"""
        ).fetchone()
    return Newer(rows, last[0] if last else "")


def restore(
    box: Box,
    copy: Path,
    agree: Callable[[Newer], bool],
    read_snapshot: Callable[[str], object] = json.loads,
) -> Path:
    """Put a copy in the place of the box, once it is verified; hands back where the old box lies.

    ``agree`` is asked when the box holds what the copy does not. Others may have the box open: they wait,
    and go on with what was put back. Raises CannotBeDoneError when the copy is not in order or ``agree``
    says no.
    """
    verify(copy, read_snapshot)
    newer = newer_than(box, copy)
    if newer and not agree(newer):
        raise CannotBeDoneError(
            f"the box holds what the copy does not: {newer}.",
            where=str(box.folder),
            right="Nothing was put back. With --yes it is, and the box is set aside.",
        )
    (box.folder / ASIDE).mkdir(exist_ok=True)
    aside = _free(box.folder / ASIDE, "replaced")
    try:
        with (
            closing(sqlite3.connect(box.database, timeout=PATIENCE_MS / 1000)) as target,
            closing(sqlite3.connect(f"{copy.absolute().as_uri()}?mode=ro", uri=True)) as source,
        ):
            # Held from here to the end, beyond each commit: nobody writes between the two copies.
            target.execute("PRAGMA locking_mode = EXCLUSIVE")
            target.execute("PRAGMA synchronous = FULL")
            target.execute("BEGIN EXCLUSIVE")
            target.commit()
            with closing(sqlite3.connect(aside)) as keeping:
                target.backup(keeping)
            source.backup(target)
    except sqlite3.DatabaseError as error:
        raise plain_words(error, box.folder) from error
    return aside
