"""Bringing an older box up to what this program knows: Alembic runs the steps, in one transaction.

A box tells its version by PRAGMA user_version; a step's Alembic revision is the version it leads
to. Only a box that is older makes anyone import Alembic.
"""

import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy import Connection, create_engine, event

from tacklebox.errors import CannotBeDoneError
from tacklebox.stock.care import schema
from tacklebox.stock.care.aswritten import check_all, not_as_written
from tacklebox.stock.care.audit import audit_open
from tacklebox.stock.care.copies import discard, set_aside
from tacklebox.stock.care.schema import APPLICATION_ID
from tacklebox.stock.care.triggers import RULES
from tacklebox.stock.care.waiting import Notice

CHECKED_SINCE = 10  # the version that brought the checks of rows
STEPS = Path(__file__).with_name("migrations")


def upgrade_if_older(database: Path) -> None:
    """Upgrade a copy that is staged elsewhere; nothing of it is set aside."""
    with closing(sqlite3.connect(database)) as connection:
        version = connection.execute("PRAGMA user_version").fetchone()[0]
        ours = connection.execute("PRAGMA application_id").fetchone()[0] == APPLICATION_ID
    if ours and 0 < version < schema.SCHEMA_VERSION:
        _run_steps(database, schema.SCHEMA_VERSION)


def upgrade(database: Path, to: int, notice: Notice) -> Path | None:
    """Upgrade a box in its place; hands back the copy that was set aside first, None if another program
    was at it first.

    Raises CannotBeDoneError when a step fails or the box is not in order afterwards: it is then as it was,
    and the copy is not kept, lest each try leave one.
    """
    with closing(sqlite3.connect(database)) as connection:
        version = connection.execute("PRAGMA user_version").fetchone()[0]
    aside = set_aside(database, f"version-{version}", notice)
    upgraded = False
    try:
        upgraded = _run_steps(database, to)
    finally:
        if not upgraded:
            discard(aside)
    if not upgraded:
        return None
    notice(f"This box was of an older Tacklebox and was brought up to date. As it was: {aside}")
    return aside


def _run_steps(database: Path, to: int) -> bool:
    """Whether the steps were needed, and were run."""
    engine = create_engine(f"sqlite:///{database}", connect_args={"timeout": 20})
    event.listen(engine, "connect", _set_up)
    try:
        with engine.connect() as connection:
            connection.exec_driver_sql("BEGIN IMMEDIATE")
            version = connection.exec_driver_sql("PRAGMA user_version").scalar_one()
            needed = bool(version < to)  # another program may have been first
            if needed:
                _steps_between(connection, version, to)
                connection.exec_driver_sql(f"PRAGMA user_version = {to}")
                _verify(connection, database)
            connection.exec_driver_sql("COMMIT")
            return needed
    finally:
        engine.dispose()


def _set_up(connection: sqlite3.Connection, _record: object) -> None:
    connection.isolation_level = None
    connection.execute(
        "PRAGMA foreign_keys = OFF"
    )  # a table may be built anew; verified afterwards
    connection.execute("PRAGMA synchronous = FULL")


def _steps_between(connection: Connection, version: int, to: int) -> None:
    from alembic.operations import Operations
    from alembic.runtime.migration import MigrationContext
    from alembic.script import ScriptDirectory

    run, box = connection.exec_driver_sql, schema.of_sqlite(connection)
    odd = (
        {(one.table, one.key) for one in not_as_written(box)} if version >= CHECKED_SINCE else set()
    )
    for (name,) in run("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
        run(f'DROP TRIGGER "{name}"')
    steps = ScriptDirectory(str(STEPS), version_locations=[str(STEPS)])
    with Operations.context(MigrationContext.configure(connection)):
        for number in range(version + 1, to + 1):
            steps.get_revision(str(number)).module.upgrade()
    check_all(box, but=odd)
    for rule in RULES:
        run(rule)


def _verify(connection: Connection, database: Path) -> None:
    faults = audit_open(schema.of_sqlite(connection), is_judged=False).faults
    if faults:
        first = "".join(f"\n  {fault.where}: {fault.what}" for fault in faults[:5])
        raise CannotBeDoneError(
            f"the box could not be brought up to date; it is as it was.{first}",
            where=str(database),
            right="\nPut back a copy that is in order.",
        )
