"""The audit finds what is wrong, and where; the database refuses what would make it so."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tacklebox.rigs.snapshot import Snapshot
from tacklebox.rigs.tie import tie
from tacklebox.rigs.tied import mark_lost, take_apart
from tacklebox.stock.audit import audit
from tacklebox.stock.box import Box
from tacklebox.stock.rules import RULES
from tests.rigs.boxes import DAY, canal_rig, make_box


def worked_with(folder: Path) -> Box:
    """A box with a spool, hooks and so on, one rig taken apart, one lost."""
    box = make_box(folder)
    codes = [rig.code for rig in tie(box, canal_rig(), 1, DAY).rigs]
    take_apart(box, codes, DAY)
    mark_lost(box, [rig.code for rig in tie(box, canal_rig(), 1, DAY).rigs], DAY)
    return box


@pytest.fixture
def box(tmp_path: Path) -> Box:
    return worked_with(tmp_path / "box")


@pytest.fixture(scope="module")
def guarded(tmp_path_factory: pytest.TempPathFactory) -> Box:
    """One box for all that is refused, since that changes nothing."""
    return worked_with(tmp_path_factory.mktemp("guarded") / "box")


def faults(box: Box) -> list[tuple[str, str]]:
    return [(f.where, f.what) for f in audit(box.database, Snapshot.from_json).faults]


def force(box: Box, *statements: str) -> None:
    """Change the box as no program should: its rules taken away and put back."""
    with closing(sqlite3.connect(box.database)) as connection:
        connection.execute("PRAGMA ignore_check_constraints = ON")
        for rule in RULES:
            connection.execute(f"DROP TRIGGER {rule.split()[2]}")
        for statement in statements:
            connection.execute(statement)
        for rule in RULES:
            connection.execute(rule)
        connection.commit()


def test_a_box_in_order(box: Box) -> None:
    found = audit(box.database, Snapshot.from_json)
    assert found.faults == ()
    assert (found.items, found.rigs) == (10, 2)
    assert found.movements > 20


@pytest.mark.parametrize(
    ("statement", "where", "what"),
    [
        ("UPDATE item SET on_hand = 7 WHERE id = 3", "item 3 hook 20", "on hand is 7, its movem"),
        ("UPDATE movement SET amount = 999 WHERE id = 3", "item 3 hook 20", "movements sum to 999"),
        ("DELETE FROM movement WHERE id = 1", "item 1 nylon 0.08", "on hand is 50000, its mov"),
        ("UPDATE item SET on_hand = -1 WHERE id = 4", "item 4 pole", "below nothing"),
        ("DELETE FROM item WHERE id = 9", "movement row 9", "a row of item that is not there"),
        ("UPDATE tieduse SET amount = amount + 1 WHERE id = 1", 'action 11 "tie 1 ×', "rigs used"),
        ("DELETE FROM tieduse WHERE id = 2", 'action 11 "tie 1 ×', "rigs used 0"),
        ("UPDATE tied SET state = 'ready' WHERE id = 2", "rig ", "it is ready, its last change"),
        ("UPDATE tied SET snapshot = '{' WHERE id = 1", "rig ", "cannot be read"),
        ("UPDATE tied SET snapshot = '{\"code\": 1}' WHERE id = 1", "rig ", "cannot be read"),
        ("DROP INDEX ix_movement_item_id", "", ""),
    ],
)
def test_what_is_wrong_is_told_with_its_place(
    box: Box, statement: str, where: str, what: str
) -> None:
    force(box, statement)
    told = faults(box)
    if not where:
        assert told == []  # an index is no part of the truth
        return
    assert any(place.startswith(where) and what in said for place, said in told), told


def test_a_rule_that_is_missing_or_changed_is_told(box: Box) -> None:
    with closing(sqlite3.connect(box.database)) as connection:
        connection.execute("DROP TRIGGER movement_moves_stock")
        connection.execute("DROP TRIGGER movement_is_never_changed")
        connection.execute(
            "CREATE TRIGGER movement_is_never_changed AFTER UPDATE ON movement BEGIN SELECT 1; END"
        )
        connection.commit()
    assert faults(box) == [
        ("rule movement_moves_stock", "it is missing"),
        ("rule movement_is_never_changed", "it was changed"),
    ]


def test_no_rule_can_go_unnoticed(box: Box) -> None:
    with closing(sqlite3.connect(box.database, isolation_level=None)) as connection:
        for rule in RULES:
            connection.execute(f"DROP TRIGGER {rule.split()[2]}")
            assert faults(box) == [(f"rule {rule.split()[2]}", "it is missing")]
            connection.execute(rule)
    assert faults(box) == []


def test_a_damaged_page_is_told(box: Box) -> None:
    data = bytearray(box.database.read_bytes())
    data[4096 * 3 : 4096 * 3 + 64] = b"\xff" * 64
    box.database.write_bytes(data)
    assert faults(box)


def test_a_file_cut_short_is_told(box: Box) -> None:
    box.database.write_bytes(box.database.read_bytes()[: 4096 * 5])
    assert faults(box)


@pytest.mark.parametrize(
    ("statement", "says"),
    [
        ("UPDATE item SET on_hand = on_hand + 1 WHERE id = 1", "by movements alone"),
        ("UPDATE item SET on_hand = on_hand + 50000 WHERE id = 1", "by movements alone"),
        ("UPDATE item SET last_movement = 99 WHERE id = 1", "by movements alone"),
        ("UPDATE item SET on_hand = 50000, last_movement = 2 WHERE id = 1", "movements alone"),
        (
            "INSERT INTO item (kind, words, name, place, pack_size, keep_at_least, on_hand, "
            "last_movement, added_on) VALUES ('hook', '', 'x', '', 1, 0, 5, 0, '2026-01-01')",
            "by movements alone",
        ),
        ("INSERT OR REPLACE INTO item SELECT * FROM item WHERE id = 1", "never"),
        ("DELETE FROM item WHERE id = 1", "never deleted"),
        ("UPDATE movement SET reason = 'x' WHERE id = 1", "never changed"),
        ("DELETE FROM movement", "never deleted"),
        ("INSERT OR REPLACE INTO movement SELECT * FROM movement WHERE id = 1", "never replaced"),
        ("UPDATE action SET what = 'x' WHERE id = 1", "never changed"),
        ("UPDATE action SET written_at = '' WHERE id = (SELECT max(id) FROM action)", "never"),
        ("DELETE FROM action WHERE id = 1", "never deleted"),
        ("UPDATE tied SET snapshot = '{}'", "never changed"),
        ("DELETE FROM tied", "never deleted"),
        ("UPDATE tieduse SET amount = 0", "never changed"),
        ("DELETE FROM statechange", "never deleted"),
    ],
)
def test_the_database_refuses(guarded: Box, statement: str, says: str) -> None:
    with (
        closing(sqlite3.connect(guarded.database)) as connection,
        pytest.raises(sqlite3.IntegrityError, match=says),
    ):
        connection.execute(statement)
    assert faults(guarded) == []
