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
from tacklebox.stock.box import DATABASE_NAME, PATIENCE_MS, SCHEMA_VERSION, plain_words

ASIDE = "set-aside"  # the folder in the box for copies made before something is replaced
_COUNTED = {"action": "action", "movement": "movement", "measurement": "reading"}


@dataclass(frozen=True)
class Newer:
    """What a box holds that a copy does not: how many rows of each sort, and the last action."""

    rows: dict[str, int]
    last_action: str

    def __bool__(self) -> bool:
        return any(self.rows.values())

    def __str__(self) -> str:
        told = [f"{n} {word}{'s' if n > 1 else ''}" for word, n in self.rows.items() if n]
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
    except sqlite3.OperationalError as error:
        raise plain_words(error, to) from error
    except sqlite3.DatabaseError as error:  # what is copied is damaged
        raise plain_words(error, database) from error
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


def restore(
    folder: Path,
    copy: Path,
    agree: Callable[[Newer], bool],
    read_snapshot: Callable[[str], object] = json.loads,
) -> Path | None:
    """Put a copy in the place of the box in the folder, once it is verified.

    ``agree`` is asked when the box holds what the copy does not. Others may have the box open: they wait,
    and go on with what was put back. Hands back where the old box lies now, None if there was none.
    Raises AskedWronglyError when there is no such copy, CannotBeDoneError when it is not in order or
    ``agree`` says no.
    """
    if not copy.is_file():
        raise AskedWronglyError("there is no such file.", where=str(copy))
    database = folder / DATABASE_NAME
    staged = folder / ASIDE / f".restoring.{os.getpid()}.sqlite3"
    try:
        staged.parent.mkdir(parents=True, exist_ok=True)
        copy_database(copy, staged)
        _verify(staged, copy, read_snapshot)
        if not _can_be_read(database):
            return _take_the_place(database, staged)
        newer = newer_than(database, staged)
        if newer and not agree(newer):
            raise CannotBeDoneError(
                f"the box holds what the copy does not: {newer}.",
                where=str(folder),
                right="Nothing was put back. With --yes it is, and the box is set aside.",
            )
        return _write_over(database, staged)
    except sqlite3.DatabaseError as error:
        raise plain_words(error, folder) from error
    except OSError as error:
        raise CannotBeDoneError(
            f"the copy cannot be put back: {error.strerror}.", where=str(folder)
        ) from error
    finally:
        staged.unlink(missing_ok=True)


def _verify(staged: Path, copy: Path, read_snapshot: Callable[[str], object]) -> None:
    """Raise CannotBeDoneError unless the copy is a box in order; an older one is upgraded first."""
    from tacklebox.stock.upgrade import upgrade_if_older

    upgrade_if_older(staged)
    faults = audit(staged, read_snapshot).faults
    if faults:
        first = "".join(f"\n  {fault.where}: {fault.what}" for fault in faults[:5])
        raise CannotBeDoneError(
            f"this copy is not in order; nothing was put back.{first}", where=str(copy)
        )


def newer_than(database: Path, copy: Path) -> Newer:
    """What the box holds that the copy does not, row by row; no clock is asked."""
    with closing(sqlite3.connect(database, timeout=PATIENCE_MS / 1000)) as connection:
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


def _can_be_read(database: Path) -> bool:
    """Whether there is a box of this version that can be read to its end."""
    if not database.is_file():
        return False
    try:
        with closing(sqlite3.connect(database, timeout=PATIENCE_MS / 1000)) as connection:
            version = connection.execute("PRAGMA user_version").fetchone()[0]
            whole = connection.execute("PRAGMA quick_check").fetchone()[0]
            return bool(version == SCHEMA_VERSION and whole == "ok")
    except sqlite3.OperationalError:
        raise  # locked, or no right to read it: not damaged
    except sqlite3.DatabaseError:
        return False


def _take_the_place(database: Path, staged: Path) -> Path | None:
    """Where the box is damaged or gone, nobody can be at work in it: the file itself is replaced."""
    aside = None
    if database.exists():
        aside = _free(database.parent / ASIDE, "damaged")
        database.rename(aside)
        journal = database.with_name(f"{database.name}-journal")
        if journal.exists():  # it belongs to the damaged file alone
            journal.rename(aside.with_name(f"{aside.name}-journal"))
    staged.replace(database)
    return aside


def _write_over(database: Path, staged: Path) -> Path:
    """Set the box aside and write the copy over it, with nobody writing between the two."""
    aside = _free(database.parent / ASIDE, "replaced")
    with (
        closing(sqlite3.connect(database, timeout=PATIENCE_MS / 1000)) as target,
        closing(sqlite3.connect(staged)) as source,
    ):
        target.execute("PRAGMA locking_mode = EXCLUSIVE")  # held beyond each commit, to the end
        target.execute("PRAGMA synchronous = FULL")
        target.execute("BEGIN EXCLUSIVE")
        target.commit()
        with closing(sqlite3.connect(aside)) as keeping:
            target.backup(keeping)
        source.backup(target)
    return aside
