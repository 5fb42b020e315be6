"""The box: one folder with everything of one angler, and the database in it."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field, replace
from pathlib import Path

from sqlalchemy import Engine, event
from sqlalchemy.exc import DatabaseError, IntegrityError, ProgrammingError
from sqlmodel import Session, create_engine, select

from tacklebox.errors import AlreadyDoneError, AskedWronglyError, CannotBeDoneError
from tacklebox.stock.care import schema, waiting
from tacklebox.stock.care.schema import (
    APPLICATION_ID,
    DATABASE_NAME,
    READ_MARK,
    Mark,
    make_tables,
    plain_words,
)
from tacklebox.stock.tables import Action


def default_folder() -> Path:
    """Where the box is kept when nothing else is said: TACKLEBOX_BOX, or the user's data folder."""
    named = os.environ.get("TACKLEBOX_BOX")
    if named:
        return Path(named)
    from platformdirs import user_data_path

    return user_data_path("tacklebox", appauthor=False)


@dataclass(frozen=True)
class Box:
    """An open box."""

    folder: Path
    engine: Engine
    is_new: bool
    key: str | None = field(default=None, kw_only=True)

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
        """The same box for one call with a mark of its own: what is written is done once for that mark."""
        return replace(self, key=key)

    def mark(self) -> Mark:
        """How far the box has come; read without the tables, for those who ask often."""
        try:
            with closing(self.engine.raw_connection()) as connection:
                return Mark(*connection.cursor().execute(READ_MARK).fetchone())
        except DatabaseError as error:
            raise plain_words(error, self.folder) from error

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """A consistent view of the box; nothing written in it is kept."""
        with self._transaction("BEGIN", "SELECT 1 FROM action LIMIT 1") as session:
            yield session
            session.expunge_all()  # what was read outlives the view

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """One transaction, all or nothing.

        It holds the box from its start, so that what it reads stays true until it ends. All that it
        writes belongs to the action that was begun in it. Raises AlreadyDoneError where the box is
        ``keyed`` and what is to be done was done under that key.
        """
        with self._transaction("BEGIN IMMEDIATE") as session:
            if self.key is not None:
                done = session.exec(select(Action).where(Action.key == self.key)).first()
                if done is not None:
                    raise AlreadyDoneError(done.what, done.id or 0)
                session.info["key"] = self.key
            event.listen(session, "before_flush", _refuse_without_action)
            yield session
            session.flush()
            # Who reads holds up the commit, and only it, until he has read.
            waiting.patiently(session.connection().exec_driver_sql, "COMMIT", "reading")
            session.commit()

    @contextmanager
    def _transaction(self, *begin: str) -> Iterator[Session]:
        with Session(self.engine, expire_on_commit=False) as session:
            try:
                for sql in begin:
                    waiting.patiently(session.connection().exec_driver_sql, sql)
                yield session
            except (IntegrityError, ProgrammingError):
                raise
            except DatabaseError as error:
                raise plain_words(error, self.folder) from error
            finally:
                session.rollback()


def _refuse_without_action(session: Session, *_: object) -> None:
    """A change without an action could never be undone."""
    if "action" not in session.info and (session.dirty or session.new or session.deleted):
        raise RuntimeError("something is written before its action was begun")


def open_box(folder: Path | None = None) -> Box:
    """Open the box in the folder, making it on first use.

    Raises AskedWronglyError for a folder that is a file or a database that is no box, CannotBeDoneError for
    one that cannot be written or is newer than this program.
    """
    place = (folder or default_folder()).expanduser()
    database = place / DATABASE_NAME
    if place.exists() and not place.is_dir():
        raise AskedWronglyError(
            f'"{place}" is a file.', where="--box", right="Name a folder for the box."
        )
    is_new = not database.is_file() or database.stat().st_size == 0
    try:
        for sub in (place, place / "recipes", place / "labels"):
            sub.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise CannotBeDoneError(
            f"the box cannot be made: {error.strerror}.",
            where=str(place),
            right="Name a folder that may be written with --box.",
        ) from error
    engine = create_engine(
        f"sqlite:///{database}", connect_args={"timeout": waiting.PATIENCE_MS / 1000}
    )
    event.listen(engine, "connect", _set_up_connection)
    try:
        _make_or_verify(engine, place)
    except DatabaseError as error:
        raise plain_words(error, place) from error
    return Box(place, engine, is_new)


def _set_up_connection(connection: sqlite3.Connection, _record: object) -> None:
    connection.isolation_level = None  # transactions are begun below, not guessed by the driver
    connection.execute("PRAGMA foreign_keys = ON")
    waiting.patiently(
        connection.execute, "PRAGMA synchronous = FULL"
    )  # a power cut loses nothing committed


def _make_or_verify(engine: Engine, place: Path) -> None:
    with engine.connect() as connection:
        run = connection.exec_driver_sql
        waiting.patiently(run, "SELECT 1 FROM sqlite_master")
        version = run("PRAGMA user_version").scalar_one()
        if (
            version == schema.SCHEMA_VERSION
            and run("PRAGMA application_id").scalar() == APPLICATION_ID
        ):
            return
        waiting.patiently(run, "BEGIN IMMEDIATE")
        version = run("PRAGMA user_version").scalar_one()  # another program may have been first
        empty = run("SELECT count(*) FROM sqlite_master").scalar_one() == 0
        if version == 0 and empty:
            make_tables(connection)
        elif run("PRAGMA application_id").scalar_one() != APPLICATION_ID:
            raise AskedWronglyError(
                "this database is no Tacklebox box.",
                where=str(place / DATABASE_NAME),
                right="Move it away, or name another folder with --box.",
            )
        elif version > schema.SCHEMA_VERSION:
            raise CannotBeDoneError(
                f"this box was written by a newer Tacklebox (version {version} of the box; this "
                f"program knows {schema.SCHEMA_VERSION}).",
                where=str(place),
                right="Install the newer program; the box is left as it is.",
            )
        run("COMMIT")
    if 0 < version < schema.SCHEMA_VERSION:
        from tacklebox.stock.care.upgrade import upgrade

        upgrade(place / DATABASE_NAME, schema.SCHEMA_VERSION)
