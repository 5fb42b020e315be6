"""The ledger's rules hold whatever program writes: every statement here is plain SQL on the box's file, by a
program that can make the checks of what it writes.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import closing

import pytest

from tacklebox.matches.after.account import Account
from tacklebox.matches.after.debrief import write_debrief
from tacklebox.matches.files.match import parse_match
from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import mark_lost, strip_rigs
from tacklebox.stock.care.aswritten import give_checks
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.measuring import record_pull
from tacklebox.stock.tables import Why
from tests.rigs.boxes import DAY, canal_rig, make_box, short_rig

ITEM = "item (id, kind, words, name, place, pack_size, minimum, on_hand, last_movement, added_on, withdrawn)"
MATCH = f"""name = "Open"\ndate = "{DAY}"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"
[[want]]\nrecipe = "hooklength-fine"\ncount = 1\n"""
LAST = "(SELECT max(id) FROM action)"
WRITTEN_ONCE = ("movement", "measurement", "tieduse", "statechange", "debrief", "debriefrig")


@pytest.fixture(scope="module")
def guarded(tmp_path_factory: pytest.TempPathFactory) -> Box:
    """A box with a rig taken apart, one lost, a pull test, and 10 mm bought of each line: one for
    all tests, since what they write is never committed."""
    box = make_box(tmp_path_factory.mktemp("guarded") / "box")
    strip_rigs(box, [rig.code for rig in tie(box, canal_rig(), 1, DAY).rigs], DAY)
    mark_lost(box, [rig.code for rig in tie(box, canal_rig(), 1, DAY).rigs], DAY)
    match = parse_match(MATCH, "open")
    write_debrief(box, match, Account(back=(tie(box, short_rig(), 1, DAY).rigs[0].code,)), DAY)
    with box.writing() as session:
        record_pull(session, find(session, "0.12"), 1.5, "", DAY)
        action = begin(session, "buy", DAY)
        for item in ("1", "2"):
            move(session, action, find(session, item), 10, Why.BOUGHT)
    return box


@pytest.fixture
def sql(guarded: Box) -> Iterator[sqlite3.Connection]:
    with closing(sqlite3.connect(guarded.database)) as connection:
        give_checks(connection)
        yield connection
        connection.rollback()
    assert audit(guarded.database).faults == ()


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE item SET on_hand = on_hand + 1 WHERE id = 1",
        "UPDATE item SET on_hand = on_hand + 10 WHERE id = 1",  # its last movement, counted twice
        "UPDATE item SET last_movement = last_movement + 1000 WHERE id = 1",
        "UPDATE item SET last_movement = last_movement - 1 WHERE id = 1",
        # the first movement, 50 m, once more
        "UPDATE item SET on_hand = on_hand + 50000, last_movement = 1 WHERE id = 1",
        # the last movement of another item
        "UPDATE item SET on_hand = on_hand + 10, last_movement ="
        " (SELECT max(id) FROM movement) WHERE id = 1",
        f"INSERT INTO {ITEM} VALUES (99, 'hook', '', 'x', '', 1, 0, 5, 0, '2026-01-01', 0)",
        f"INSERT INTO {ITEM} VALUES (99, 'hook', '', 'x', '', 1, 0, 0, 5, '2026-01-01', 0)",
    ],
)
def test_stock_moves_by_movements_alone(sql: sqlite3.Connection, change: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="changes by movements alone"):
        sql.execute(change)


def test_a_movement_moves_its_own_item_and_no_other(sql: sqlite3.Connection) -> None:
    before = dict(sql.execute("SELECT id, on_hand FROM item"))
    sql.execute(
        'INSERT INTO movement (item_id, action_id, amount, why, "on", reason)'
        " VALUES (3, 1, -2, 'lost', '2026-03-05', '')"
    )
    assert dict(sql.execute("SELECT id, on_hand FROM item")) == {**before, 3: before[3] - 2}


def test_an_item_is_never_deleted_or_replaced(sql: sqlite3.Connection) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="items are never deleted"):
        sql.execute("DELETE FROM item WHERE id = 1")
    with pytest.raises(sqlite3.IntegrityError, match="items are never replaced"):
        sql.execute(
            f"INSERT OR REPLACE INTO {ITEM} VALUES (1, 'hook', '', 'x', '', 1, 0, 0, 0, '2026-01-01', 0)"
        )


@pytest.mark.parametrize("table", WRITTEN_ONCE)
def test_what_is_written_once_stays(sql: sqlite3.Connection, table: str) -> None:
    (first,) = sql.execute(f"SELECT min(id) FROM {table}").fetchone()
    for change, says in (
        (f"UPDATE {table} SET id = id + 1000 WHERE id = {first}", "never changed"),
        (f"DELETE FROM {table} WHERE id = {first}", "never deleted"),
        (
            f"INSERT OR REPLACE INTO {table} SELECT * FROM {table} WHERE id = {first}",
            "never replaced",
        ),
    ):
        with pytest.raises(sqlite3.IntegrityError, match=says):
            sql.execute(change)


@pytest.mark.parametrize("table", ["action", "tied"])
def test_the_past_is_not_replaced(sql: sqlite3.Connection, table: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="never replaced"):
        sql.execute(f"INSERT OR REPLACE INTO {table} SELECT * FROM {table} WHERE id = 1")


def test_an_item_keeps_its_number(sql: sqlite3.Connection) -> None:
    sql.execute("PRAGMA foreign_keys = OFF")
    with pytest.raises(sqlite3.IntegrityError, match="items keep their numbers"):
        sql.execute("UPDATE item SET id = 99 WHERE id = 3")


@pytest.mark.parametrize(
    "change",
    ["id = 99", "\"on\" = '1999-01-01'", "written_at = '1999-01-01 00:00:00'", "undoes = 1"],
)
def test_of_an_action_only_the_last_ones_words_may_grow(
    sql: sqlite3.Connection, change: str
) -> None:
    sql.execute(f"UPDATE action SET what = 'buy, buy' WHERE id = {LAST}")
    with pytest.raises(sqlite3.IntegrityError, match="actions are never changed"):
        sql.execute(f"UPDATE action SET {change} WHERE id = {LAST}")
    with pytest.raises(sqlite3.IntegrityError, match="actions are never changed"):
        sql.execute("UPDATE action SET what = 'x' WHERE id = 1")
    with pytest.raises(sqlite3.IntegrityError, match="actions are never deleted"):
        sql.execute(f"DELETE FROM action WHERE id = {LAST}")


@pytest.mark.parametrize(
    "column",
    ["id", "code", "code_number", "recipe", "kind", "tied_on", "snapshot", "action_id"],
)
def test_what_was_tied_stays_as_tied(sql: sqlite3.Connection, column: str) -> None:
    sql.execute(f"UPDATE tied SET {column} = {column}")  # written back as it is
    with pytest.raises(sqlite3.IntegrityError, match="what was tied is never changed"):
        sql.execute(f"UPDATE tied SET {column} = '77' WHERE id = 1")
    with pytest.raises(sqlite3.IntegrityError, match="tied rigs are never deleted"):
        sql.execute("DELETE FROM tied WHERE id = 1")


def test_a_change_of_state_is_remembered_with_the_action_of_its_time(
    sql: sqlite3.Connection,
) -> None:
    def remembered() -> list[tuple[object, ...]]:
        rows = sql.execute("SELECT tied_id, action_id, was, became FROM statechange ORDER BY id")
        return list(rows)

    before = remembered()
    sql.execute("UPDATE tied SET state = state, labelled_on = '2026-03-06'")
    assert remembered() == before
    sql.execute("UPDATE tied SET state = 'ready' WHERE id = 2")
    (last,) = sql.execute(f"SELECT {LAST}").fetchone()
    assert remembered() == [*before, (2, last, "lost", "ready")]
