"""The audit: proof, for the whole box, that its ledger holds; or what is wrong, and where."""

import json
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, suppress
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.stock import made as _made  # noqa: F401  (registers its tables)
from tacklebox.stock.care import schema
from tacklebox.stock.care.aswritten import KEPT, not_as_written
from tacklebox.stock.care.auditing import guarded, history, items, made
from tacklebox.stock.care.schema import APPLICATION_ID
from tacklebox.stock.care.triggers import MUTABLE
from tacklebox.stock.tables import Kind, State

MOST_FOUND = 100  # of one sort


@dataclass(frozen=True)
class Finding:
    """One thing that is wrong: where it lies, and what it is."""

    where: str
    what: str


@dataclass(frozen=True)
class Audit:
    """What an audit found, and how much it went through."""

    faults: tuple[Finding, ...]
    items: int
    movements: int
    rigs: int


# Each query gives rows of (where, what).
_FIGURES = (
    """SELECT 'item ' || id || ' ' || name, 'on hand is ' || on_hand || ', its movements sum to '
         || coalesce(total, 0) FROM item
       LEFT JOIN (SELECT item_id, sum(amount) AS total FROM movement GROUP BY item_id)
         ON item_id = id WHERE on_hand <> coalesce(total, 0)""",
    """SELECT 'item ' || id || ' ' || name, 'on hand is ' || on_hand || ', below nothing'
       FROM item WHERE on_hand < 0""",
    """SELECT 'item ' || id || ' ' || name, 'its adding was undone, yet ' || on_hand || ' is on hand'
       FROM item WHERE withdrawn AND on_hand <> 0""",
    """SELECT 'item ' || id || ' ' || name, 'it is not counted, yet ' || on_hand || ' is on hand'
       FROM item WHERE level <> '' AND on_hand <> 0""",
    """SELECT 'item ' || id || ' ' || name, 'its batches hold ' || held || ', on hand is ' || on_hand
       FROM item JOIN (SELECT item_id, sum("left") AS held FROM batch GROUP BY item_id)
         ON item_id = id WHERE held > on_hand""",
    """SELECT 'batch ' || code, 'it holds ' || "left" || ' of ' || tied FROM batch
       WHERE "left" NOT BETWEEN 0 AND tied""",
    """SELECT 'item ' || i.id || ' ' || i.name, 'a movement changed something that is no whole number'
       FROM movement m JOIN item i ON i.id = m.item_id WHERE typeof(m.amount) <> 'integer'""",
    """SELECT 'action ' || a.id || ' "' || a.what || '"', 'item ' || item_id || ': its rigs used '
         || sum(used) || ', its movements took ' || sum(took) FROM (
         SELECT t.action_id, u.item_id, u.amount AS used, 0 AS took
           FROM tieduse u JOIN tied t ON t.id = u.tied_id
         UNION ALL
         SELECT b.action_id, u.item_id, u.amount, 0 FROM batchuse u JOIN batch b ON b.id = u.batch_id
         UNION ALL
         SELECT action_id, item_id, -tied, 0 FROM batch WHERE recipe <> ''
         UNION ALL
         SELECT action_id, item_id, 0, -amount FROM movement WHERE why = 'tied' AND action_id IN
           (SELECT action_id FROM tied
            UNION SELECT action_id FROM batch WHERE recipe <> '')) JOIN action a ON a.id = action_id
       WHERE action_id NOT IN (SELECT action_id FROM statechange WHERE became = 'changed')
       GROUP BY action_id, item_id HAVING sum(used) <> sum(took)""",
    # Of a rig that was changed the new one has what passed to it from the old, and what was taken.
    """SELECT 'action ' || a.id || ' "' || a.what || '"', 'item ' || item_id || ': a changed rig has '
         || sum(used) || ', it had ' || sum(had) || ', its movements took ' || sum(took) FROM (
         SELECT t.action_id, u.item_id, u.amount AS used, 0 AS had, 0 AS took
           FROM tieduse u JOIN tied t ON t.id = u.tied_id
         UNION ALL
         SELECT s.action_id, u.item_id, 0, u.amount, 0 FROM tieduse u
           JOIN statechange s ON s.tied_id = u.tied_id WHERE s.became = 'changed'
         UNION ALL
         SELECT action_id, item_id, 0, 0, -amount FROM movement WHERE why = 'tied'
       ) JOIN action a ON a.id = action_id
       WHERE action_id IN (SELECT action_id FROM statechange WHERE became = 'changed')
       GROUP BY action_id, item_id HAVING sum(used) - sum(took) NOT BETWEEN 0 AND sum(had)""",
    """SELECT 'rig ' || code, 'it is ' || state || ', its last change says ' || became FROM (
         SELECT t.code, t.state, coalesce((SELECT became FROM statechange s WHERE s.tied_id = t.id
           ORDER BY s.id DESC LIMIT 1), 'ready') AS became FROM tied t)
       WHERE state <> became""",
)
_REELS = (
    """SELECT 'reel ' || name, 'it holds ' || loaded_mm || ' mm' FROM reel WHERE loaded_mm < 0""",
    """SELECT 'reel ' || name, 'nothing is on it, yet it holds ' || loaded_mm || ' mm' FROM reel
       WHERE item_id IS NULL AND (loaded_mm <> 0 OR loaded_on IS NOT NULL)""",
    """SELECT 'reel ' || name, 'it holds ' || loaded_mm || ' mm, and no action loaded it' FROM reel
       WHERE loaded_mm > 0 AND NOT EXISTS (SELECT 1 FROM change WHERE table_name = 'reel'
         AND column_name = 'loaded_mm' AND row_key = CAST(reel.id AS TEXT))""",
    """SELECT 'reel ' || r.name, 'a ' || r.what || ' is loaded with ' || i.name FROM reel r
       JOIN item i ON i.id = r.item_id
       WHERE (r.what, i.kind) NOT IN (VALUES ('reel', 'line'), ('top kit', 'elastic'))""",
    # What an action loaded on reels is what its movements took from spools.
    """SELECT 'action ' || a.id || ' "' || a.what || '"', 'item ' || coalesce(item_id, 'none')
         || ': its reels were loaded with ' || sum(loaded) || ' mm, its movements took ' || sum(took)
       FROM (
         SELECT m.action_id, CAST(i.became AS INTEGER) AS item_id, m.became - m.was AS loaded, 0 AS took
           FROM change m LEFT JOIN change i ON i.action_id = m.action_id AND i.table_name = 'reel'
             AND i.row_key = m.row_key AND i.column_name = 'item_id' AND i.became <> 'null'
           WHERE m.table_name = 'reel' AND m.column_name = 'loaded_mm' AND m.became - m.was > 0
         UNION ALL
         SELECT action_id, item_id, 0, -amount FROM movement WHERE why = 'loaded'
       ) JOIN action a ON a.id = action_id WHERE a.undoes IS NULL AND a.redoes IS NULL
       GROUP BY action_id, item_id HAVING sum(loaded) <> sum(took)""",
)

_KINDS = ", ".join(f"'{kind}'" for kind in Kind)
_FIGURES_OF_KINDS = " UNION ALL ".join(f"SELECT '{k}', item_id FROM \"{k}\"" for k in Kind)
_WORDS = (
    f"""SELECT 'item ' || id || ' ' || name, 'its kind is "' || kind || '"' FROM item
          WHERE kind NOT IN ({_KINDS})""",
    f"""SELECT 'item ' || id || ' ' || name, 'its figures are missing' FROM item
          WHERE kind IN ({_KINDS}) AND (kind, id) NOT IN ({_FIGURES_OF_KINDS})""",
    """SELECT 'item ' || id || ' ' || name, 'its level is "' || level || '"' FROM item
         WHERE level NOT IN ('', 'plenty', 'low', 'out')""",
    """SELECT 'item ' || id || ' ' || name, 'a packet of it holds ' || pack_size
         FROM item WHERE pack_size < 1""",
    f"""SELECT 'rig ' || code, 'it is "' || state || '"' FROM tied
          WHERE state NOT IN ({", ".join(f"'{state}'" for state in State)})""",
)
_CHANGES = tuple(
    f"""SELECT '{table} {key} ' || row_key, '{column} is ' || now || ', its last change says ' || became
       FROM (SELECT c.row_key, c.became, json_quote(t."{column}") AS now FROM change c
           LEFT JOIN {table} t ON t.{key} = c.row_key
           WHERE c.id IN (SELECT max(id) FROM change
             WHERE table_name = '{table}' AND column_name = '{column}' GROUP BY row_key))
       WHERE now IS NOT became"""
    for table, (key, columns) in MUTABLE.items()
    for column in columns
)
_IDENTITY = (
    """SELECT 'identity', 'the box has ' || marks || ' marks of its own, not one'
       FROM (SELECT count(*) AS marks FROM identity) WHERE marks <> 1""",
)
# What a column of that type must hold.
_HOLDS = {
    "VARCHAR": "typeof({}) = 'text'",
    "INTEGER": "typeof({}) = 'integer'",
    "BOOLEAN": "{} IN (0, 1)",
    "FLOAT": "typeof({}) IN ('real', 'integer')",
    "DATE": "date({0}, '+0 days') IS {0}",
    "DATETIME": "julianday({0}) > 0 AND date(substr({0}, 1, 10), '+0 days') IS substr({0}, 1, 10)",
}


def audit(database: Path, read_snapshot: Callable[[str], object] = json.loads) -> Audit:
    """Go through the whole box in one consistent view; nothing is changed, save that a write which
    a power cut broke off is rolled back by SQLite.

    ``read_snapshot`` raises for a snapshot that cannot be read. Raises AskedWronglyError where there is
    no such file.
    """
    if not database.is_file():
        raise AskedWronglyError("there is no such file.", where=str(database))
    try:
        with closing(sqlite3.connect(f"{database.absolute().as_uri()}?mode=rw", uri=True)) as box:
            box.execute("BEGIN")
            return audit_view(box, read_snapshot, database.name)
    except (sqlite3.DatabaseError, UnicodeDecodeError) as error:
        return _unreadable(error, database.name)


def audit_view(
    box: sqlite3.Connection,
    read_snapshot: Callable[[str], object] = json.loads,
    named: str = "file",
) -> Audit:
    """``audit_open``; what cannot be read at all is a fault of the file ``named`` like any other."""
    try:
        return audit_open(box, read_snapshot)
    except (sqlite3.DatabaseError, UnicodeDecodeError) as error:
        odd: list[Finding] = []
        with suppress(sqlite3.DatabaseError):
            odd += _not_as_written(box)
        return _unreadable(error, named, odd)


def _unreadable(error: Exception, where: str, odd: Sequence[Finding] = ()) -> Audit:
    return Audit((Finding(where, f"SQLite says: {error}"), *odd), 0, 0, 0)


def audit_open(
    box: sqlite3.Connection,
    read_snapshot: Callable[[str], object] = json.loads,
    *,
    is_judged: bool = True,
) -> Audit:
    """Go through a box that is open, as its transaction sees it; not ``is_judged``: its sums and states
    alone, for what was right once and is not judged anew."""
    faults = list(_of_the_file(box, is_judged))
    if not any(fault.where == "file" for fault in faults):
        of_the_cells = list(_of_the_cells(box))
        faults += of_the_cells
        for query in (*_FIGURES, *_REELS, *_WORDS, *_CHANGES, *_IDENTITY):
            faults += [Finding(*row) for row in box.execute(f"{query} LIMIT {MOST_FOUND}")]
        faults += _of_snapshots(box, read_snapshot)
        if is_judged and not of_the_cells:
            faults += _judged(box)
        if is_judged:
            faults += _not_as_written(box)
    counts = [
        box.execute(f"SELECT count(*) FROM {table}").fetchone()[0] if _has(box, table) else 0
        for table in ("item", "movement", "tied")
    ]
    return Audit(tuple(faults), *counts)


def _not_as_written(box: sqlite3.Connection) -> list[Finding]:
    odd = islice(not_as_written(box), MOST_FOUND)
    return [Finding(f"{one.table} {one.key}", one.what) for one in odd]


def _has(box: sqlite3.Connection, table: str) -> bool:
    query = "SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?"
    return box.execute(query, (table,)).fetchone() is not None


def _of_the_file(box: sqlite3.Connection, is_judged: bool) -> Iterator[Finding]:
    """Whether the file is whole, a box, and guarded by all rules, and holds nothing else."""
    for (said,) in box.execute(f"PRAGMA integrity_check({MOST_FOUND})"):
        if said.startswith("CHECK constraint failed"):
            yield Finding("rule never_below_zero", said)
        elif said != "ok":
            yield Finding("file", said)
    if box.execute("PRAGMA application_id").fetchone()[0] != APPLICATION_ID:
        yield Finding("file", "it is no Tacklebox box")
        return
    version = box.execute("PRAGMA user_version").fetchone()[0]
    if version != schema.SCHEMA_VERSION:
        yield Finding(
            "file", f"the box has version {version}, this program {schema.SCHEMA_VERSION}"
        )
        return
    for table in _tables():
        if not _has(box, table):
            yield Finding("file", f"the table {table} is missing")
    yield from (Finding(*fault) for fault in guarded.judge_rules(box))
    if is_judged:
        yield from (Finding(*fault) for fault in guarded.judge_tables(box))
    for table, row, other, _ in box.execute("PRAGMA foreign_key_check"):
        yield Finding(f"{table} row {row}", f"it points at a row of {other} that is not there")


def _judged(box: sqlite3.Connection) -> Iterator[Finding]:
    """What cannot be, though the sums hold: figures, reasons, what undoes what."""
    queries, judges = [*made.MADE], [items.judge_items, items.lone_figures]
    judges += [made.judge_made, made.judge_readings]
    if history.is_whole(box):
        queries += history.MOVED
        judges += [history.judge_actions, history.judge_changes]
    for query in queries:
        yield from (Finding(*row) for row in box.execute(f"{query} LIMIT {MOST_FOUND}"))
    for judge in judges:
        yield from (Finding(*fault) for fault in islice(judge(box), MOST_FOUND))


def _of_the_cells(box: sqlite3.Connection) -> Iterator[Finding]:
    """Whether each cell holds what its column is for; SQLite itself takes anything."""
    for table in _tables():
        if table == KEPT:  # what it holds is compared with the rows
            continue
        for _, name, holds, *_ in box.execute(f'PRAGMA table_info("{table}")').fetchall():
            if holds in _HOLDS:
                good = _HOLDS[holds].format(f'"{name}"')
                query = f"""SELECT rowid, "{name}" FROM "{table}"
                    WHERE "{name}" IS NOT NULL AND NOT ({good}) LIMIT {MOST_FOUND}"""
                for row, cell in box.execute(query):
                    yield Finding(f"{table} row {row}", f"{name} is {cell!r:.60}")


def _tables() -> list[str]:
    from sqlmodel import SQLModel

    return [table.name for table in SQLModel.metadata.sorted_tables]


def _of_snapshots(box: sqlite3.Connection, read: Callable[[str], object]) -> Iterator[Finding]:
    made = box.execute(
        """SELECT 'rig ', code, snapshot FROM tied UNION ALL
           SELECT 'batch ', code, snapshot FROM batch"""
    )
    for what, code, snapshot in made:
        try:
            read(snapshot)
            named = json.loads(snapshot)["code"]
        except (ValueError, TypeError, KeyError, AttributeError) as error:
            yield Finding(f"{what}{code}", f"what was tied cannot be read: {error!s:.80}")
            continue
        if named != code:
            yield Finding(f"{what}{code}", f"what was tied is kept for {named}")


def refuse_damaged(found: Audit, folder: Path, what_not: str) -> None:
    """Raise CannotBeDoneError where an audit of the box in that folder found anything, with the first of it;
    ``what_not`` says what was not done."""
    if not found.faults:
        return
    first = "".join(f"\n  {fault.where}: {fault.what}" for fault in found.faults[:5])
    more = f"\n  and {len(found.faults) - 5} more" if len(found.faults) > 5 else ""
    error = schema.damaged(f"the box is damaged, so {what_not}:{first}{more}", folder)
    raise CannotBeDoneError(error.what, where=error.where, right=error.right, see="care.rescue")
