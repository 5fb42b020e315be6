"""What was done, one after the other: actions and what they undo, movements, changes of cells and states."""

import json
import sqlite3
from collections import Counter
from collections.abc import Iterator

from tacklebox.stock.care.triggers import MUTABLE
from tacklebox.stock.levels import Level
from tacklebox.stock.tables import State, Why

Fault = tuple[str, str]
NEVER = "1970-01-01"  # the day of an action that stands in for what was lost in a damaged box
# Numbered without a gap, for none is ever deleted; of rigs, and of their changes of state, a step to a
# newer schema made batches.
_NUMBERED = (
    *("action", "item", "movement", "change", "measurement", "batch", "batchuse"),
    *("debrief", "reel"),
)
# Those whose rows are written by one action after the other, but for what the steps to a newer schema wrote.
_IN_ORDER = ("movement", "change", "statechange", "measurement")
_REASONS = ", ".join(f"'{why}'" for why in Why)
_LEVELS = ", ".join(f"'{level}'" for level in Level)
_STATES = ", ".join(f"'{state}'" for state in State)
_MADE = "(SELECT action_id FROM tied UNION SELECT action_id FROM batch)"
MOVED = (
    """SELECT 'movement ' || m.id, 'it is of ' || m."on" || ', its action of ' || a."on"
       FROM movement m JOIN action a ON a.id = m.action_id WHERE m."on" <> a."on" """,
    f"""SELECT 'movement ' || id, 'its reason is "' || why || '"' FROM movement
       WHERE why NOT IN ({_REASONS})""",
    f"""SELECT 'movement ' || id, amount || ' were ' || why FROM movement
       WHERE (why IN ('lost', 'thrown out', 'loaded', 'level') AND amount > 0)
         OR (why = 'given back' AND amount < 0)
         OR (why = 'bought' AND amount < 0 AND reason NOT IN ({_LEVELS}))""",
    f"""SELECT 'movement ' || id, 'its level is "' || reason || '"' FROM movement
       WHERE why = 'level' AND reason NOT IN ({_LEVELS})""",
    f"""SELECT 'movement ' || id, 'it is tied, and its action tied nothing' FROM movement
       WHERE why = 'tied' AND action_id NOT IN {_MADE}""",
    """SELECT 'movement ' || m.id, 'it was tied as "' || m.reason || '"' FROM movement m
       WHERE m.why = 'tied' AND m.reason <> '' AND (m.action_id, m.reason) NOT IN (
         SELECT action_id, recipe FROM tied UNION SELECT action_id, recipe FROM batch
         UNION SELECT action_id, code FROM batch)""",
    """SELECT 'movement ' || m.id, 'it is ' || m.why || ', and its action takes another back'
       FROM movement m JOIN action a ON a.id = m.action_id
       WHERE m.why <> 'corrected' AND coalesce(a.undoes, a.redoes) IS NOT NULL""",
    """SELECT 'item ' || i.id || ' ' || i.name, 'its last movement is ' || i.last_movement || ', not '
         || coalesce(last, 0) FROM item i LEFT JOIN (SELECT item_id, max(id) AS last FROM movement
         GROUP BY item_id) ON item_id = i.id WHERE i.last_movement <> coalesce(last, 0)""",
    """SELECT 'item ' || i.id || ' ' || i.name, 'it was added on ' || i.added_on
         || ', its first movement is of ' || m."on" FROM item i
       JOIN movement m ON m.id = (SELECT min(id) FROM movement WHERE item_id = i.id)
       WHERE i.added_on <> m."on" """,
    f"""SELECT 'item ' || i.id || ' ' || i.name, 'its level is "' || i.level || '", it was added as "'
         || m.reason || '"' FROM item i
       JOIN movement m ON m.id = (SELECT min(id) FROM movement WHERE item_id = i.id)
       WHERE i.level <> CASE WHEN m.why = 'level' AND m.reason IN ({_LEVELS}) THEN m.reason ELSE '' END
         AND NOT EXISTS (SELECT 1 FROM change WHERE table_name = 'item' AND column_name = 'level'
           AND row_key = CAST(i.id AS TEXT))""",
    *(
        f"""SELECT '{table} ' || max(id), 'there are ' || count(*) || ' rows up to it'
            FROM {table} HAVING count(*) <> max(id) OR min(id) <> 1"""
        for table in _NUMBERED
    ),
    *(
        f"""SELECT '{table} ' || id, 'it is of action ' || action_id || ', between one of ' || before
              || ' and one of ' || after
            FROM (SELECT id, action_id, lag(action_id) OVER (ORDER BY id) AS before,
              lead(action_id) OVER (ORDER BY id) AS after FROM {table})
            WHERE before <= after AND action_id NOT BETWEEN before AND after"""
        for table in _IN_ORDER
    ),
    """SELECT 'change ' || c.id, 'its item is withdrawn, and its action takes nothing back'
       FROM change c JOIN action a ON a.id = c.action_id WHERE c.table_name = 'item'
         AND c.column_name = 'withdrawn' AND c.became = '1' AND coalesce(a.undoes, a.redoes) IS NULL""",
    f"""SELECT 'change of state ' || id, 'from "' || was || '" to "' || became || '"' FROM statechange
        WHERE was NOT IN ({_STATES}) OR became NOT IN ({_STATES}) OR was = became""",
    """SELECT 'change of state ' || id, 'it was ' || was || ', and before it ' || before FROM (
         SELECT id, was, coalesce(lag(became) OVER (PARTITION BY tied_id ORDER BY id), 'ready') AS before
         FROM statechange) WHERE was <> before""",
)
# Cells that begin with something known, so that there is a change for all else.
_BEGINS = {
    ("item", "retired"): "0",
    ("item", "withdrawn"): "0",
    ("reel", "withdrawn"): "1",
    ("reel", "retired"): "0",
    ("reel", "item_id"): "null",
    ("reel", "loaded_mm"): "0",
    ("reel", "loaded_on"): "null",
    ("reel", "backing"): '""',
    ("batch", "left"): "0",
    ("setting", "said"): '""',
    ("sheetinuse", "next_free"): "1",
    ("tied", "labelled_on"): "null",
    ("batch", "labelled_on"): "null",
}


def is_whole(box: sqlite3.Connection) -> bool:
    """Whether the box has its whole history; one that was saved from damage has what was left of it."""
    query = 'SELECT 1 FROM action WHERE "on" = ? LIMIT 1'
    return box.execute(query, (NEVER,)).fetchone() is None


def judge_actions(box: sqlite3.Connection) -> Iterator[Fault]:
    """What undoes an action undoes one that stands, by the same amounts and cells; and so for redoing."""
    last: dict[
        int, tuple[int, bool]
    ] = {}  # by action: what wrote it last, and whether it is undone
    for number, what, undoes, redoes in box.execute(
        "SELECT id, what, undoes, redoes FROM action ORDER BY id"
    ).fetchall():
        where = f'action {number} "{what!s:.40}"'
        about = undoes or redoes
        if not what:
            yield where, "it says nothing of what was done"
        if about is None:
            last[number] = (number, False)
            continue
        by, is_undone = last.get(about, (0, False))
        if (undoes and redoes) or not by or is_undone is (redoes is None):
            yield where, f"it takes back action {about}, which cannot be"
            continue
        last[about] = (number, redoes is None)
        yield from ((where, what) for what in _is_no_reverse(box, number, by))


def _is_no_reverse(box: sqlite3.Connection, number: int, of: int) -> Iterator[str]:
    moved, taken_back = (_moved(box, action) for action in (of, number))
    for item in moved.keys() | taken_back.keys():
        if moved[item] + taken_back[item]:
            yield f"of item {item} it moved {taken_back[item]}, against {moved[item]}"
    cells, turned = (_cells(box, action) for action in (of, number))
    for cell, (was, became) in cells.items():
        if was != became and turned.get(cell) != (became, was):
            table, key, column = cell
            yield f"{column} of {table} {key} did not become {was} again"


def _moved(box: sqlite3.Connection, action: int) -> Counter[int]:
    query = "SELECT item_id, sum(amount) FROM movement WHERE action_id = ? GROUP BY item_id"
    return Counter(dict(box.execute(query, (action,)).fetchall()))


def _cells(box: sqlite3.Connection, action: int) -> dict[tuple[str, str, str], tuple[str, str]]:
    """Each cell that an action changed: what it was at first, and what it became in the end."""
    query = """SELECT table_name, row_key, column_name, was, became FROM change WHERE action_id = ?
        ORDER BY id"""
    cells: dict[tuple[str, str, str], tuple[str, str]] = {}
    for *cell, was, became in box.execute(query, (action,)):
        key = (cell[0], cell[1], cell[2])
        cells[key] = (cells.get(key, (was, ""))[0], became)
    return cells


def judge_changes(box: sqlite3.Connection) -> Iterator[Fault]:
    """Each change is of a cell that may change, and begins where the one before it ended."""
    became: dict[tuple[str, str, str], str] = {}
    query = "SELECT id, table_name, row_key, column_name, was, became FROM change ORDER BY id"
    for number, table, key, column, was, now in box.execute(query).fetchall():
        where = f"change {number}"
        if column not in MUTABLE.get(table, ("", ()))[1]:
            yield where, f"{column!s:.30} of {table!s:.30} never changes"
            continue
        try:
            json.loads(was), json.loads(now)
        except (TypeError, ValueError):
            yield where, f"{column} became {now!s:.30} from {was!s:.30}"
            continue
        begins = _BEGINS.get((table, column))
        is_new_row = begins is not None and (table, key, column) not in became
        before = became.get((table, key, column), was if begins is None else begins)
        if was != before:
            yield where, f"{column} of {table} {key} was {was!s:.30}, and before it {before!s:.30}"
        if was == now and not is_new_row:  # which may be as what stood for it before
            yield where, f"{column} of {table} {key} became what it was"
        became[table, key, column] = now
    for (table, column), begins in _BEGINS.items():
        row_key = MUTABLE[table][0]
        rows = box.execute(f'SELECT {row_key}, json_quote("{column}") FROM {table}').fetchall()
        for key, now in rows:
            if (table, str(key), column) not in became and now != begins:
                yield f"{table} {key}", f"{column} is {now!s:.30}, and nothing changed it"
