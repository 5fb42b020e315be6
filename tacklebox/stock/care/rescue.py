"""What can be saved of a damaged box, in a new one: row by row, by the tables and rules of today.

What cannot be read is left out and listed. A row whose action is gone gets one that stands in for it; a row
whose item or rig is gone goes with it. What is on hand follows the movements that are left, as always.
"""

import math
import os
import sqlite3
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from uuid import uuid4

from sqlalchemy import Column, Table, create_engine

from tacklebox.errors import CannotBeDoneError
from tacklebox.halves import in_hand
from tacklebox.outputs import name_new, refuse_own
from tacklebox.stock.care.aswritten import check_all, odd_rows
from tacklebox.stock.care.audit import Finding, audit
from tacklebox.stock.care.auditing.history import NEVER
from tacklebox.stock.care.cells import kind_of
from tacklebox.stock.care.copies import new_copy, opened, write_copy
from tacklebox.stock.care.export import KEPT_BY_RULES, tables
from tacklebox.stock.care.schema import make_tables
from tacklebox.stock.care.triggers import KINDS, MUTABLE, RULES
from tacklebox.stock.care.waiting import Notice

MOST_TRIES = 5_000  # at the rows of one table, where pages of it cannot be read
MOST_LISTED = 50  # of one table
LOST_ACTION = "(what was done is lost)"
Row = tuple[object, ...]


@dataclass(frozen=True)
class Snapshots:
    """How what was tied is read, raising ValueError, and what stands in for it by code and recipe."""

    read: Callable[[str], object]
    stand_in: Callable[[str, str], str]


def rescue(database: Path, to: Path, snapshots: Snapshots, notice: Notice) -> tuple[Finding, ...]:
    """Write what can be saved to a new file; hands back what was left out, and what is wrong with the rest.

    Raises as ``copy_database``, and CannotBeDoneError where nothing can be read.
    """
    refuse_own(to)
    raw, half = (to.with_name(f".{uuid4().hex}.half") for _ in range(2))
    with new_copy(to):
        try:
            with opened(database, notice) as source:
                write_copy(source, raw, notice)
            os.close(os.open(half, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o600))
            with in_hand(raw), in_hand(half):
                left_out = [*_fill(half, raw, snapshots), *audit(half, snapshots.read).faults]
            name_new(half, to)
        finally:
            for file in (raw, half):
                with suppress(OSError):
                    file.unlink(missing_ok=True)
    return tuple(left_out)


def _fill(half: Path, raw: Path, snapshots: Snapshots) -> Iterator[Finding]:
    engine = create_engine(f"sqlite:///{half}")
    with engine.begin() as connection:
        make_tables(connection)
    engine.dispose()
    with closing(sqlite3.connect(raw)) as damaged, closing(_unruled(half)) as new:
        damaged.text_factory = bytes
        left_out = [*_save_all(damaged, new, snapshots), *_let_go(new)]
        yield from left_out
        yield from _taken_as_it_is(damaged)
        if left_out:
            _stand_in(new)
        _agree(new)
        check_all(new)
        for rule in RULES:
            new.execute(rule)
        new.commit()


def _unruled(database: Path) -> sqlite3.Connection:
    """A new box without its rules for now: they would take old movements for new ones."""
    connection = sqlite3.connect(database)
    for rule in RULES:
        connection.execute(f"DROP TRIGGER {rule.split()[2]}")
    return connection


def _save_all(
    damaged: sqlite3.Connection, new: sqlite3.Connection, snapshots: Snapshots
) -> Iterator[Finding]:
    for table in tables():
        yield from _save(table, damaged, new, snapshots)
    if new.execute("SELECT 1 FROM item LIMIT 1").fetchone() is None:
        raise CannotBeDoneError("not one item of the box can be read.")
    with suppress(sqlite3.DatabaseError):
        for (mark,) in damaged.execute("SELECT box FROM identity WHERE length(box) = 32"):
            new.execute("UPDATE identity SET box = ?", (bytes(mark).decode("ascii", "replace"),))


def _save(
    table: Table, damaged: sqlite3.Connection, new: sqlite3.Connection, snapshots: Snapshots
) -> Iterator[Finding]:
    """Take the rows of one table along; tells those that are not."""
    names = [column.name for column in table.columns]
    listed = ", ".join(f'"{name}"' for name in names)
    insert = f'INSERT INTO "{table.name}" ({listed}) VALUES ({", ".join("?" for _ in names)})'
    left_out = 0
    for where, row, why in _rows(damaged, table, listed):
        try:
            if row is None:
                raise ValueError(why)
            cells = _as_they_should_be(table, row)
            if "snapshot" in cells and not _can_be_read(cells, snapshots):
                cells["snapshot"] = snapshots.stand_in(str(cells["code"]), str(cells["recipe"]))
                yield Finding(f"{table.name} {cells['code']}", "what was tied cannot be read")
            new.execute(insert, list(cells.values()))
        except (ValueError, sqlite3.IntegrityError) as error:
            left_out += 1
            if left_out <= MOST_LISTED:
                yield Finding(f"{table.name} {where}", f"left out: {error}")
    if left_out > MOST_LISTED:
        yield Finding(table.name, f"{left_out - MOST_LISTED} more are left out")


def _taken_as_it_is(damaged: sqlite3.Connection) -> Iterator[Finding]:
    """What is not what was written; nobody knows what that was. Older boxes do not tell."""
    for table in tables():
        columns = [column.name for column in table.columns]
        with suppress(sqlite3.DatabaseError):
            for odd in odd_rows(damaged, table.name, columns):
                if odd.column in KEPT_BY_RULES.get(table.name, ()):
                    continue  # it is made anew
                but = "; it was taken as it is" if odd.column else ""
                yield Finding(f"{odd.table} {odd.key}", f"{odd.what}{but}")


def _can_be_read(cells: Mapping[str, object], snapshots: Snapshots) -> bool:
    try:
        snapshots.read(str(cells["snapshot"]))
    except ValueError:
        return False
    return True


def _rows(
    box: sqlite3.Connection, table: Table, columns: str
) -> Iterator[tuple[str, Row | None, str]]:
    """Each row that can be read, and for those that cannot what SQLite says of them.

    Where a range of rows fails, its halves are tried, as far as there is patience.
    """
    query = f'SELECT rowid, {columns} FROM "{table.name}" NOT INDEXED WHERE rowid BETWEEN ? AND ?'
    tries, ranges = 0, [(0, _last(box, table))]
    while ranges:
        first, last = ranges.pop()
        tries += 1
        try:
            found = box.execute(query, (first, last)).fetchall()
        except sqlite3.DatabaseError as error:
            middle = (first + last) // 2
            if first == last or tries > MOST_TRIES or "no such" in str(error):
                where = f"rows {first} to {last}" if first < last else f"row {first}"
                yield where, None, str(error)
            else:
                ranges += [(middle + 1, last), (first, middle)]
            continue
        for row in found:
            yield f"row {row[0]}", row[1:], ""


def _last(box: sqlite3.Connection, table: Table) -> int:
    try:
        last = box.execute(f'SELECT max(rowid) FROM "{table.name}" NOT INDEXED').fetchone()[0]
    except sqlite3.DatabaseError:
        last = 2**20 - 1
    return int(last or 0)


def _as_they_should_be(table: Table, row: Row) -> dict[str, object]:
    """The cells by column. Raises ValueError for one that is none."""
    cells: dict[str, object] = {}
    for column, cell in zip(table.columns, row, strict=True):
        if cell is None and not column.nullable:
            raise ValueError(f"{column.name} is missing")
        cells[column.name] = None if cell is None else _cell(column, cell)
    for name in KEPT_BY_RULES.get(table.name, ()):
        cells[name] = 0
    return cells


def _cell(column: "Column[object]", cell: object) -> object:
    kind = kind_of(column)
    try:
        if isinstance(cell, bytes):
            said = cell.decode()
            if kind is date:
                date.fromisoformat(said)
            elif kind is datetime:
                datetime.fromisoformat(said)
            elif kind is not str:
                raise ValueError(said)
            return said
        if isinstance(cell, float) and kind is float and math.isfinite(cell):
            return cell
        if isinstance(cell, int) and (kind in (int, float) or (kind is bool and cell in (0, 1))):
            return cell
    except ValueError:
        pass
    raise ValueError(f"{column.name} is {cell!r:.60}")


def _let_go(new: sqlite3.Connection) -> Iterator[Finding]:
    """What points at a row that is gone: an action is stood in for, with all else the row goes too."""
    figures = " UNION ALL ".join(f"SELECT '{kind}', item_id FROM \"{kind}\"" for kind in KINDS)
    bare = new.execute(f"SELECT id, name FROM item WHERE (kind, id) NOT IN ({figures})").fetchall()
    for number, name in bare:
        new.execute("DELETE FROM item WHERE id = ?", (number,))
        yield Finding(f"item {number} {name}", "left out: its figures are gone")
    while violations := new.execute("PRAGMA foreign_key_check").fetchall():
        for table, row, other, key in violations:
            keys = new.execute(f'PRAGMA foreign_key_list("{table}")').fetchall()
            column = next(one[3] for one in keys if one[0] == key)
            if other == "action" and column == "action_id":
                new.execute(
                    'INSERT OR IGNORE INTO action (id, what, "on", written_at)'
                    f' SELECT action_id, ?, ?, ? FROM "{table}" WHERE rowid = ?',
                    (LOST_ACTION, NEVER, f"{NEVER} 00:00:00.000000", row),
                )
            elif column in ("undoes", "redoes", "corrects", "takes_back"):
                new.execute(f'UPDATE "{table}" SET "{column}" = NULL WHERE rowid = ?', (row,))
            else:
                new.execute(f'DELETE FROM "{table}" WHERE rowid = ?', (row,))
                yield Finding(f"{table} row {row}", f"left out: its {other} is gone")


def _stand_in(new: sqlite3.Connection) -> None:
    """An action for all that is gone: what is left is no whole history, as the audit then knows."""
    new.execute(
        'INSERT INTO action (what, "on", written_at) VALUES (?, ?, ?)',
        (LOST_ACTION, NEVER, f"{NEVER} 00:00:00.000000"),
    )


def _agree(new: sqlite3.Connection) -> None:
    """Let amounts, changes and states say the same again, by what the rows themselves say."""
    new.execute(
        """UPDATE item SET
             on_hand = coalesce((SELECT sum(amount) FROM movement WHERE item_id = item.id), 0),
             last_movement = coalesce((SELECT max(id) FROM movement WHERE item_id = item.id), 0)"""
    )
    if new.execute("SELECT 1 FROM action LIMIT 1").fetchone() is None:
        return
    for table, (key, columns) in MUTABLE.items():
        for column in columns:
            of_it = f"table_name = '{table}' AND column_name = '{column}'"
            new.execute(
                f"""DELETE FROM change WHERE {of_it}
                    AND row_key NOT IN (SELECT CAST({key} AS TEXT) FROM "{table}")"""
            )
            new.execute(
                f"""INSERT INTO change (action_id, table_name, row_key, column_name, was, became)
                    SELECT (SELECT max(id) FROM action), '{table}', c.row_key, '{column}', c.became,
                           json_quote(t."{column}")
                    FROM change c JOIN "{table}" t ON CAST(t.{key} AS TEXT) = c.row_key
                    WHERE c.id IN (SELECT max(id) FROM change WHERE {of_it} GROUP BY row_key)
                      AND json_quote(t."{column}") IS NOT c.became"""
            )
    new.execute(
        """INSERT INTO statechange (tied_id, action_id, was, became)
           SELECT id, (SELECT max(id) FROM action), was, state FROM (
             SELECT t.id, t.state, coalesce((SELECT became FROM statechange s WHERE s.tied_id = t.id
               ORDER BY s.id DESC LIMIT 1), 'ready') AS was FROM tied t) WHERE was <> state"""
    )
