"""Putting a copy in the place of the box: staged and audited beside it, the old box set aside first.

The box is held from setting it aside to the end. What a restore that failed had set aside is taken away
again, the box being as it was. How much newer the box is, is told by the columns that both versions know.
"""

import json
import os
import sqlite3
from collections.abc import Callable
from contextlib import closing, suppress
from dataclasses import dataclass
from pathlib import Path
from uuid import uuid4

from tacklebox.boxfolder import DATABASE_NAME, SET_ASIDE
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.halves import in_hand
from tacklebox.stock.care import schema, waiting
from tacklebox.stock.care.aswritten import give_checks
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.copies import (
    discard,
    free_name,
    opened,
    refused,
    write_copy,
)
from tacklebox.stock.care.schema import APPLICATION_ID
from tacklebox.stock.care.upgrade import upgrade_if_older
from tacklebox.stock.care.waiting import Notice, keep_quiet, patiently

_COUNTED = {"action": "action", "movement": "movement", "measurement": "reading", "item": "item"}
_FOLLOW = {"on_hand", "last_movement"}  # the movements, which are counted


@dataclass(frozen=True)
class Newer:
    """What a box holds that a copy does not: how many rows of each sort, and the last action."""

    rows: dict[str, int]
    last_action: str

    def __bool__(self) -> bool:
        return any(self.rows.values())

    def __str__(self) -> str:
        counted = [f"{n} {word}{'s' if n > 1 else ''}" for word, n in self.rows.items() if n]
        last = f", the last action: {self.last_action}" if self.last_action else ""
        return ", ".join(counted) + last


def restore(
    folder: Path,
    copy: Path,
    agree: Callable[[Newer], bool],
    read_snapshot: Callable[[str], object] = json.loads,
    notice: Notice = keep_quiet,
) -> Path | None:
    """Put a copy in the place of the box in the folder, once it is verified.

    ``agree`` is asked when the box holds what the copy does not. Others may have the box open: they wait,
    and go on with what was put back. Hands back where the old box lies now, None if there was none.
    Raises AskedWronglyError when there is no such copy, CannotBeDoneError when it is not in order or
    ``agree`` says no.
    """
    if not copy.is_file():
        raise AskedWronglyError("there is no such file.", where=str(copy))
    database = (folder / DATABASE_NAME).resolve()  # where it is a link, what it leads to
    asides = database.parent / SET_ASIDE
    staged = asides / f".{uuid4().hex}.sqlite3"
    try:
        asides.mkdir(parents=True, exist_ok=True)
        _stage(copy, staged, read_snapshot, notice)
        with in_hand(staged):  # however long he is asked
            return _put_in_place(database, staged, agree, notice)
    except (OSError, sqlite3.DatabaseError) as error:
        right = "Make room there, and see that it may be written. The box was left as it is."
        raise refused("the copy cannot be put back", error, folder, right) from error
    finally:
        with suppress(OSError):
            staged.unlink(missing_ok=True)
        with suppress(OSError):
            asides.rmdir()  # if nothing is in it


def _put_in_place(
    database: Path, staged: Path, agree: Callable[[Newer], bool], notice: Notice
) -> Path | None:
    if not _is_box(database, notice):
        return _take_the_place(database, staged)
    newer = newer_than(database, staged)
    if newer and not agree(newer):
        raise CannotBeDoneError(
            f"the box holds what the copy does not: {newer}.",
            where=str(database.parent),
            right="Nothing was put back. Where you agree it is put back, and the box is set aside.",
            see="care.agree",
        )
    return _write_over(database, staged, notice)


def _stage(
    copy: Path, staged: Path, read_snapshot: Callable[[str], object], notice: Notice
) -> None:
    """Copy the copy into the box's folder. Raises CannotBeDoneError unless it is a box in order.

    An older one is upgraded there first.
    """
    try:
        source = opened(copy, notice)
    except CannotBeDoneError as error:
        raise CannotBeDoneError(
            f"this is no copy of a box, or a damaged one; nothing was put back: {error.what}",
            where=str(copy),
        ) from error
    with source as connection:
        write_copy(connection, staged, notice)
    upgrade_if_older(staged)
    faults = audit(staged, read_snapshot).faults
    if faults:
        first = "".join(f"\n  {fault.where}: {fault.what}" for fault in faults[:5])
        raise CannotBeDoneError(
            f"this copy is not in order; nothing was put back.{first}", where=str(copy)
        )
    with closing(sqlite3.connect(staged, isolation_level=None)) as connection:
        give_checks(connection)
        # Another state of the box, for those who remember the one before.
        connection.execute("UPDATE identity SET stamp = ?", (schema.new_stamp(),))


def newer_than(database: Path, copy: Path) -> Newer:
    """What the box holds that the copy does not, row by row; no clock is asked.

    A box of another version is compared by what both know.
    """
    with closing(sqlite3.connect(database, timeout=waiting.PATIENCE_MS / 1000)) as connection:
        connection.execute("ATTACH ? AS copy", (str(copy),))
        rows = {}
        for table, word in _COUNTED.items():
            ours, theirs = (
                {row[1] for row in connection.execute(f"PRAGMA {side}.table_info({table})")}
                for side in ("main", "copy")
            )
            columns = ", ".join(f'"{name}"' for name in sorted(ours & theirs - _FOLLOW))
            if not columns:
                continue
            query = f"SELECT {columns} FROM main.{table} EXCEPT SELECT {columns} FROM copy.{table}"
            rows[word] = connection.execute(f"SELECT count(*) FROM ({query})").fetchone()[0]
        last = ""
        if rows.get("action"):
            query = """SELECT what || ' of ' || "on" FROM main.action ORDER BY id DESC LIMIT 1"""
            last = connection.execute(query).fetchone()[0]
    return Newer(rows, last)


def _is_box(database: Path, notice: Notice) -> bool:
    """Whether there is a box, of any version, that can be read to its end."""
    if not database.is_file():
        return False
    try:
        with closing(sqlite3.connect(database, timeout=waiting.PATIENCE_MS / 1000)) as connection:
            patiently(connection.execute, "SELECT 1 FROM sqlite_master", notice)
            whole = connection.execute("PRAGMA quick_check").fetchone()[0] == "ok"
            ours = connection.execute("PRAGMA application_id").fetchone()[0] == APPLICATION_ID
            return bool(whole and ours)
    except sqlite3.OperationalError:
        raise  # locked, or no right to read it: not damaged
    except sqlite3.DatabaseError:
        return False


def _take_the_place(database: Path, staged: Path) -> Path | None:
    """Where the box is damaged or gone, nobody can be at work in it: the file itself is replaced."""
    aside = None
    if database.exists():
        aside = free_name(database.parent / SET_ASIDE, "damaged")
        try:
            os.link(database, aside)  # so that at no moment there is none
        except OSError:
            database.rename(aside)
        journal = database.with_name(f"{database.name}-journal")
        if journal.exists():  # it belongs to the damaged file alone
            journal.rename(aside.with_name(f"{aside.name}-journal"))
    staged.replace(database)
    return aside


def _write_over(database: Path, staged: Path, notice: Notice) -> Path:
    """Set the box aside and write the copy over it, with nobody writing between the two."""
    aside = free_name(database.parent / SET_ASIDE, "replaced")
    try:
        with (
            closing(sqlite3.connect(database, timeout=waiting.PATIENCE_MS / 1000)) as target,
            closing(sqlite3.connect(staged)) as source,
        ):
            target.execute("PRAGMA locking_mode = EXCLUSIVE")  # held beyond each commit, to the end
            target.execute("PRAGMA synchronous = FULL")
            patiently(target.execute, "BEGIN EXCLUSIVE", notice, "using")
            target.commit()
            write_copy(target, aside, notice)
            source.backup(target)
    except (OSError, sqlite3.DatabaseError):
        discard(aside)  # the box is as it was
        raise
    return aside
