"""The box: one folder with everything of one angler, and the database in it.

A box may stay open for weeks under many threads. It has one engine; its threads read side by side and write
one at a time; a database that was put in the place of the one before (a restore) is opened anew. The journal
is SQLite's rollback journal, not WAL: a box lies in synced folders and on network drives, where WAL's shared
memory does not work. The price: a reader holds up a commit, so that a read ends before its answer is shown.
Every commit waits for the disk (``synchronous = FULL``; 1 to 15 ms where it was measured), so that a power
cut loses nothing that was said to be done.
"""

import os
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass, field, replace
from pathlib import Path

from sqlalchemy import Engine, QueuePool, event
from sqlalchemy.exc import DatabaseError, IntegrityError, ProgrammingError
from sqlmodel import Session, create_engine, select

from tacklebox.boxfolder import DATABASE_NAME, at_home, has_own_files, newest_copy
from tacklebox.errors import AlreadyDoneError, AskedWronglyError, CannotBeDoneError
from tacklebox.outputs import guard
from tacklebox.stock.care import schema, waiting
from tacklebox.stock.care.aswritten import give_checks
from tacklebox.stock.care.privacy import keep_private
from tacklebox.stock.care.schema import (
    APPLICATION_ID,
    READ_MARK,
    BoxMark,
    damaged,
    make_tables,
    plain_words,
    refuse_odd_beside,
)
from tacklebox.stock.care.waiting import Notice, keep_quiet, patiently
from tacklebox.stock.tables import Action


def default_folder() -> Path:
    """Where the box is kept when nothing else is said: TACKLEBOX_BOX, or the user's data folder."""
    named = os.environ.get("TACKLEBOX_BOX")
    if named:
        return Path(named)
    from platformdirs import user_data_path

    return user_data_path("tacklebox", appauthor=False)


class _Shared:
    """What all threads that have one box open share."""

    def __init__(self, notice: Notice) -> None:
        self.notice = notice
        self.opened: tuple[int, int] | None = None  # device and inode of the database
        self.glanced_at: tuple[int, int] | None = None  # the same, of the one that was looked at
        self.opening = threading.Lock()
        self.writer = threading.Lock()
        self.of_thread = threading.local()


@dataclass(frozen=True, eq=False)
class Box:
    """An open box, for any number of threads."""

    folder: Path
    engine: Engine
    is_new: bool
    _shared: _Shared = field(repr=False)
    key: str | None = None
    _key_used: threading.Event = field(default_factory=threading.Event, repr=False)

    @property
    def database(self) -> Path:
        """The SQLite file."""
        return self.folder / DATABASE_NAME

    @property
    def recipes(self) -> Path:
        """The angler's own recipes, which win over shipped ones of the same name."""
        return self.folder / "recipes"

    @property
    def labels(self) -> Path:
        """The angler's own label papers."""
        return self.folder / "labels"

    def keyed(self, key: str | None) -> "Box":
        """The same box for one call with a key: the call's first action is done once for that key."""
        return self if key is None else replace(self, key=key, _key_used=threading.Event())

    def close(self) -> None:
        """Let go of the database; the box opens it again when it is asked."""
        self.engine.dispose()

    def mark(self) -> BoxMark:
        """How far the box has come; read without the tables, for those who ask often."""
        self._open_anew_if_replaced()
        try:
            with closing(self.engine.raw_connection()) as connection:
                cursor = connection.cursor()
                cursor.execute(READ_MARK)
                (found,) = cursor.fetchall()
                return BoxMark(*found)
        except (DatabaseError, sqlite3.DatabaseError) as error:
            raise plain_words(error, self.folder) from error

    def said(self, setting: str) -> str:
        """What is set by that name, "" for nothing; read without the tables, for those who ask often."""
        try:
            with closing(self.engine.raw_connection()) as connection:
                cursor = connection.cursor()
                found = cursor.execute("SELECT said FROM setting WHERE name = ?", (setting,))
                return str(next(found, ("",))[0])
        except (DatabaseError, sqlite3.DatabaseError) as error:
            raise plain_words(error, self.folder) from error

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """A consistent view of the box; nothing written in it is kept.

        It holds up who writes: end it before the answer is shown.
        """
        with self._transaction("BEGIN", "SELECT 1 FROM action LIMIT 1") as session:
            yield session
            session.expunge_all()  # what was read outlives the view

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """One transaction, all or nothing; one that is begun within another of its thread joins it.

        It holds the box from its start, so that what it reads stays true until it ends. All that it
        writes belongs to the action that was begun in it. Raises AlreadyDoneError where the box is
        ``keyed`` and what is to be done was done under that key.
        """
        joined: Session | None = getattr(self._shared.of_thread, "session", None)
        if joined is not None:
            try:
                yield joined
            except BaseException:
                joined.info["failed"] = True  # the rest alone is not to be kept
                raise
            return
        with self._one_writer(), self._transaction("BEGIN IMMEDIATE") as session:
            self._refuse_what_is_seen(session)
            self._refuse_done(session)
            event.listen(session, "before_flush", _refuse_without_action)
            self._shared.of_thread.session = session
            try:
                yield session
            finally:
                self._shared.of_thread.session = None
            if "failed" in session.info:
                raise RuntimeError(
                    "a part of this transaction failed, so that nothing of it is kept"
                )
            session.flush()
            # Who reads holds up the commit, and only it, until he has read.
            run = session.connection().exec_driver_sql
            patiently(run, "COMMIT", self._shared.notice, "reading")
            session.commit()
            if "action" in session.info:
                self._key_used.set()  # what the call does beside it bears none

    def _refuse_what_is_seen(self, session: Session) -> None:
        """Nothing is written to a box whose damage shows at a glance; looked at once, and not to read."""
        if self._shared.glanced_at == self._shared.opened:
            return
        from tacklebox.stock.care.glance import seen_at_a_glance

        connection = session.connection().connection.driver_connection
        assert isinstance(connection, sqlite3.Connection)
        try:
            seen = seen_at_a_glance(connection)
        except sqlite3.DatabaseError as error:
            raise plain_words(error, self.folder) from error
        if seen:
            raise damaged(f"the box is damaged, so nothing was written: {seen}.", self.folder)
        self._shared.glanced_at = self._shared.opened

    def _refuse_done(self, session: Session) -> None:
        if self.key is None or self._key_used.is_set():
            return
        done = session.exec(select(Action).where(Action.key == self.key)).first()
        if done is not None:
            raise AlreadyDoneError(done.what, done.id or 0)
        session.info["key"] = self.key

    @contextmanager
    def _one_writer(self) -> Iterator[None]:
        """One thread at a time; SQLite sees to other programs."""
        lock, alone, patience = self._shared.writer, waiting.ALONE_MS, waiting.PATIENCE_MS
        if not lock.acquire(timeout=alone / 1000):
            self._shared.notice("Something else is writing to the box; waiting for it…")
            if not lock.acquire(timeout=(patience - alone) / 1000):
                raise plain_words(waiting.locked(), self.folder)
        try:
            yield
        finally:
            lock.release()

    @contextmanager
    def _transaction(self, *begin: str) -> Iterator[Session]:
        self._open_anew_if_replaced()
        with Session(self.engine, expire_on_commit=False) as session:
            try:
                for sql in begin:
                    patiently(session.connection().exec_driver_sql, sql, self._shared.notice)
                yield session
            except (IntegrityError, ProgrammingError):
                raise
            except (DatabaseError, sqlite3.DatabaseError) as error:
                raise plain_words(error, self.folder) from error
            finally:
                session.rollback()

    def _open_anew_if_replaced(self) -> None:
        """Connections of a file that is another by now would go on with the one that is gone."""
        if _identity(self.database) == self._shared.opened:
            return
        with self._shared.opening:
            if _identity(self.database) == self._shared.opened:
                return
            if _size(self.database) <= 1:
                raise damaged(f"the box's database {_how_lost(self.database)}.", self.folder)
            self.engine.dispose()
            try:
                _make_or_verify(self)
            except (DatabaseError, sqlite3.DatabaseError) as error:
                raise plain_words(error, self.folder) from error


def _refuse_without_action(session: Session, *_: object) -> None:
    """A change without an action could never be undone."""
    if "action" not in session.info and (session.dirty or session.new or session.deleted):
        raise RuntimeError("something is written before its action was begun")


def open_box(folder: Path | None = None, *, notice: Notice = keep_quiet, threads: int = 1) -> Box:
    """Open the box in the folder, making it on first use.

    ``notice`` is told what is worth showing meanwhile; ``threads`` is how many will ask at a time. Raises
    AskedWronglyError for a folder that is a file or a database that is no box, CannotBeDoneError for one that
    is damaged, cannot be written or is newer than this program.
    """
    place = at_home(folder or default_folder(), "box")
    if place.exists() and not place.is_dir():
        raise AskedWronglyError(
            f'"{place}" is a file.', field="box", right="Name a folder for the box."
        )
    _refuse_damage(place)
    is_new = _size(place / DATABASE_NAME) <= 1
    try:
        place.mkdir(mode=0o700, parents=True, exist_ok=True)  # it is nobody else's to read
        for sub in (place / "recipes", place / "labels"):
            sub.mkdir(exist_ok=True)
        (place / DATABASE_NAME).touch(mode=0o600)
    except OSError as error:
        if is_new or not (place / DATABASE_NAME).is_file():
            raise CannotBeDoneError(
                f"the box cannot be made: {error.strerror}.",
                where=str(place),
                right="Name a folder that may be written.",
                field="box",
            ) from error
    if keep_private(place) and not is_new:
        notice("Others on this computer could read the box; it is for you alone now.")
    shared = _Shared(notice)
    box = Box(place, _engine(place / DATABASE_NAME, notice, threads), is_new, shared)
    try:
        _make_or_verify(box)
    except (DatabaseError, sqlite3.DatabaseError, UnicodeDecodeError) as error:
        box.close()
        raise plain_words(error, place) from error
    except BaseException:
        box.close()
        raise
    guard(shared, place)
    return box


def _engine(database: Path, notice: Notice, threads: int) -> Engine:
    """An engine that never makes a database, so that one that is gone is not taken for a new box."""
    address = f"{database.absolute().as_uri()}?mode=rw"

    def connect() -> sqlite3.Connection:
        patience = waiting.PATIENCE_MS / 1000
        connection = sqlite3.connect(
            address, uri=True, timeout=patience, check_same_thread=False, isolation_level=None
        )
        give_checks(connection)
        connection.execute("PRAGMA foreign_keys = ON")
        # A power cut loses nothing that was committed.
        patiently(connection.execute, "PRAGMA synchronous = FULL", notice)
        return connection

    return create_engine(
        "sqlite://", creator=connect, poolclass=QueuePool, pool_size=threads, max_overflow=-1
    )


def _size(database: Path) -> int:
    return database.stat().st_size if database.is_file() else 0


def _identity(database: Path) -> tuple[int, int] | None:
    try:
        found = database.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _refuse_damage(place: Path) -> None:
    """SQLite takes a file of no byte, or of one, for a new database; where none is, own files may have
    come first, but no copy of it."""
    database = place / DATABASE_NAME
    refuse_odd_beside(database)
    if _size(database) > 1:
        return
    if has_own_files(place) if database.exists() else newest_copy(place) is not None:
        lost = _how_lost(database)
        raise damaged(f"the box's database {lost}, but the rest of the box is there.", place)


def _how_lost(database: Path) -> str:
    return "is empty" if database.exists() else "is gone"


def _make_or_verify(box: Box) -> None:
    database, notice = box.database, box._shared.notice
    identity = _identity(database)
    with box.engine.connect() as connection:
        run = connection.exec_driver_sql
        patiently(run, "BEGIN", notice)
        patiently(run, "SELECT 1 FROM sqlite_master", notice)
        version = run("PRAGMA user_version").scalar_one()
        known = run("PRAGMA application_id").scalar_one() == APPLICATION_ID
        run("COMMIT")
        if known and run("PRAGMA journal_mode").scalar_one() == "wal":  # another program's doing
            with suppress(DatabaseError):  # as long as another has it open
                run("PRAGMA journal_mode = DELETE")
        if version != schema.SCHEMA_VERSION or not known:
            patiently(run, "BEGIN IMMEDIATE", notice)
            version = run("PRAGMA user_version").scalar_one()  # another program may have been first
            empty = run("SELECT count(*) FROM sqlite_master").scalar_one() == 0
            if version == 0 and empty:
                make_tables(connection)
            elif run("PRAGMA application_id").scalar_one() != APPLICATION_ID:
                raise AskedWronglyError(
                    "this database is no Tacklebox box.",
                    where=str(database),
                    field="box",
                    right="Move it away, or name another folder.",
                )
            elif version > schema.SCHEMA_VERSION:
                raise CannotBeDoneError(
                    f"this box was written by a newer Tacklebox (version {version} of the box; this "
                    f"program knows {schema.SCHEMA_VERSION}).",
                    where=str(box.folder),
                    right="Install the newer program; the box is left as it is.",
                )
            run("COMMIT")
    if 0 < version < schema.SCHEMA_VERSION:
        from tacklebox.stock.care.upgrade import upgrade

        upgrade(database, schema.SCHEMA_VERSION, notice)
    box._shared.opened = identity
