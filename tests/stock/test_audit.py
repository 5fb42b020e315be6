"""The audit finds what is wrong, and where (that the database refuses it: test_rules)."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import mark_labelled, mark_lost, next_free_place, strip_rigs
from tacklebox.stock.care.aswritten import check_all, give_checks
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.schema import APPLICATION_ID, SCHEMA_VERSION
from tacklebox.stock.care.triggers import RULES
from tacklebox.stock.care.undo import redo_last, undo_last
from tacklebox.stock.entering import edit_item
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.made import SheetInUse
from tacklebox.stock.tables import Why
from tests.copied_boxes import copy_of
from tests.rigs.boxes import DAY, canal_rig, make_box

# The figures of hooks that have none.
HOOKS = (
    "INSERT INTO hook (item_id, size, size_order, end, eye, barb, wire, bend, colour)"
    " SELECT id, '20', -20, '', '', '', '', '', '' FROM item"
    " WHERE kind = 'hook' AND id NOT IN (SELECT item_id FROM hook)"
)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A box with a spool, hooks and so on, one rig taken apart, one lost."""
    box = make_box(tmp_path_factory.mktemp("made") / "box")
    codes = [rig.code for rig in tie(box, canal_rig(), 1, DAY).rigs]
    strip_rigs(box, codes, DAY)
    with box.writing() as session:
        begin(session, "edit", DAY)
        edit_item(session, find(session, "2"), place="drawer 2")
    codes = [rig.code for rig in tie(box, canal_rig(), 1, DAY).rigs]
    mark_labelled(box, codes, DAY, {"a4-65": 2})
    mark_lost(box, codes, DAY)
    box.close()
    return box.folder


@pytest.fixture
def box(made: Path, tmp_path: Path) -> Box:
    return copy_of(made, tmp_path / "box")


def faults(box: Box) -> list[tuple[str, str]]:
    return [(f.where, f.what) for f in audit(box.database, Snapshot.from_json).faults]


def test_a_sheet_that_is_full_at_once_is_in_order(box: Box) -> None:
    """A piece of tape has one place; of a sheet of which nothing is noted the next is the first."""
    codes = [rig.code for rig in tie(box, canal_rig(), 1, DAY).rigs]
    mark_labelled(box, codes, DAY, {"tape-12": 1})
    assert faults(box) == []
    undo_last(box, DAY)
    redo_last(box, DAY)
    assert faults(box) == []
    assert next_free_place(box, "tape-12") == 1


def test_that_it_is_full_was_once_noted_and_is_in_order_still(box: Box) -> None:
    with box.writing() as session:
        begin(session, "label", DAY)
        session.add(SheetInUse(paper="tape-12", next_free=1))
    assert faults(box) == []
    mark_labelled(box, [], DAY, {"tape-12": 1})
    undo_last(box, DAY)
    assert faults(box) == []


def force(box: Box, *statements: str) -> None:
    """Change the box as no program should, its rules taken away and put back, but leave no other mark than
    what the figures themselves say: the rows' checks are made anew."""
    with closing(sqlite3.connect(box.database)) as connection:
        connection.execute("PRAGMA ignore_check_constraints = ON")
        for rule in RULES:
            connection.execute(f"DROP TRIGGER {rule.split()[2]}")
        for statement in statements:
            connection.execute(statement)
        check_all(connection)
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
        ("UPDATE movement SET amount = 9.5 WHERE id = 3", "item 3 hook 20", "no whole number"),
        (
            "UPDATE tied SET snapshot = (SELECT snapshot FROM tied WHERE id = 2) WHERE id = 1",
            "rig A01T",
            "is kept for A02R",
        ),
        ("UPDATE item SET kind = 'boat' WHERE id = 3", "item 3 hook 20", 'its kind is "boat"'),
        ("UPDATE item SET kind = 'line' WHERE id = 3", "item 3 hook 20", "figures are missing"),
        ("DELETE FROM hook", "item 3 hook 20", "figures are missing"),
        ("UPDATE item SET pack_size = 0 WHERE id = 3", "item 3 hook 20", "packet of it holds 0"),
        ("UPDATE tied SET state = 'sunk' WHERE id = 1", "rig A01T", 'it is "sunk"'),
        ("UPDATE item SET added_on = 'yesterday' WHERE id = 3", "item row 3", "added_on is 'yest"),
        ("UPDATE movement SET \"on\" = '2026-02-30' WHERE id = 3", "movement row 3", "on is '2026"),
        ("UPDATE action SET written_at = 'x' WHERE id = 1", "action row 1", "written_at is 'x'"),
        (
            "UPDATE action SET written_at = '2026-02-30 10:00:00' WHERE id = 1",
            "action row 1",
            "-30",
        ),
        ("UPDATE line SET diameter_mm = 'thin' WHERE item_id = 1", "line row 1", "diameter_mm is"),
        ("UPDATE item SET pack_size = 'two' WHERE id = 3", "item row 3", "pack_size is 'two'"),
        ("UPDATE tieduse SET comes_back = 2 WHERE id = 1", "tieduse row 1", "comes_back is 2"),
        ("UPDATE item SET withdrawn = 1 WHERE id = 3", "item 3 hook 20", "undone, yet 10 is on"),
        (
            "UPDATE item SET place = 'x' WHERE id = 2",
            "item id 2",
            'place is "x", its last change says',
        ),
        ("UPDATE tied SET labelled_on = NULL", "tied id 2", "labelled_on is null, its last"),
        (
            "UPDATE sheetinuse SET next_free = 9",
            "sheetinuse paper a4-65",
            "next_free is 9, its last",
        ),
        ("DELETE FROM change", "sheetinuse a4-65", "next_free is 2, and nothing changed it"),
        ("DELETE FROM identity", "identity", "the box has 0 marks of its own, not one"),
        ("DROP INDEX ix_movement_item_id", "", ""),
        ("CREATE TABLE mine (x)", "file", "the table mine is none of a box"),
        ("CREATE VIEW stock AS SELECT 1", "file", "the view stock is none of a box"),
        ("ALTER TABLE hook ADD COLUMN mine TEXT", "file", "the table hook is made otherwise"),
        (
            "CREATE TRIGGER mine AFTER INSERT ON movement BEGIN DELETE FROM change; END",
            "rule mine",
            "no box has it",
        ),
        (
            "UPDATE line SET diameter_mm = 0.8 WHERE item_id = 1",
            "item 1 nylon 0.08",
            'diameter_mm is 0.8, "0.08 mm" was said',
        ),
        (
            "UPDATE hook SET barb = '' WHERE item_id = 3",
            "item 3 hook 20",
            'words are "hook 20 barbless spade", its figures say "hook 20 spade"',
        ),
        ("UPDATE weight SET mass_g = 0.6 WHERE item_id = 6", "item 6", "its mark means 0.06"),
        ("UPDATE item SET minimum = -1 WHERE id = 3", "item 3 hook 20", "its minimum is -1"),
        ("UPDATE item SET pack_price_cents = -5 WHERE id = 3", "item 3", "its price is -5"),
        ("UPDATE item SET name = '' WHERE id = 3", "item 3", "its name is ''"),
        ("UPDATE movement SET why = 'found' WHERE id = 3", "movement 3", 'its reason is "found"'),
        ("UPDATE movement SET why = 'lost' WHERE id = 3", "movement 3", "10 were lost"),
        ("UPDATE action SET undoes = 2 WHERE id = 9", "action 9", "of item 2 it moved 0, against"),
        ("UPDATE action SET undoes = 9 WHERE id = 2", "action 2", "action 9, which cannot be"),
        (
            "UPDATE tied SET snapshot = replace(snapshot, '0.08', '0.09') WHERE id = 1",
            "rig A01T",
            "is not as it was written",
        ),
        ("UPDATE tied SET code_number = 77 WHERE id = 1", "rig A01T", "another number than 77"),
        (
            "UPDATE change SET was = '4'",
            "change ",
            "next_free of sheetinuse a4-65 was 4, and before",
        ),
    ],
)
def test_what_is_wrong_is_told_with_its_place(
    box: Box, statement: str, where: str, what: str
) -> None:
    force(box, statement)
    answer = faults(box)
    if not where:
        assert answer == []  # an index is no part of the truth
        return
    assert any(place.startswith(where) and what in said for place, said in answer), answer


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
        assert faults(box) == [(f"rule {rule.split()[2]}", "it is missing") for rule in RULES]
        for rule in RULES:
            connection.execute(rule)
    assert faults(box) == []


def test_every_rig_that_cannot_be_read_is_told(box: Box) -> None:
    force(box, "UPDATE tied SET snapshot = '{'")
    assert [where for where, _ in faults(box)] == ["rig A01T", "rig A02R"]


def test_an_amount_below_nothing_breaks_the_databases_own_rule(box: Box) -> None:
    force(box, "UPDATE item SET on_hand = -1 WHERE id = 4")
    assert faults(box)[0] == ("rule never_below_zero", "CHECK constraint failed in item")


def test_an_index_that_tells_otherwise_than_its_table_is_told(box: Box) -> None:
    with closing(sqlite3.connect(box.database)) as connection:
        connection.execute("PRAGMA writable_schema = ON")
        connection.execute(
            "UPDATE sqlite_master SET sql = replace(sql, '(item_id)', '(action_id)')"
            " WHERE name = 'ix_movement_item_id'"
        )
        connection.commit()
    answer = faults(box)
    assert {where for where, _ in answer} == {"file"}
    assert "row 11 missing from index ix_movement_item_id" in {what for _, what in answer}


def test_a_damaged_page_is_told(box: Box) -> None:
    data = bytearray(box.database.read_bytes())
    data[4096 * 3 : 4096 * 3 + 64] = b"\xff" * 64
    box.database.write_bytes(data)
    assert faults(box)


def test_a_file_cut_short_is_told(box: Box) -> None:
    box.database.write_bytes(box.database.read_bytes()[: 4096 * 5])
    assert faults(box)


def test_each_fault_is_told_once_and_nothing_beside_it(box: Box) -> None:
    force(box, "UPDATE item SET on_hand = on_hand + 3 WHERE id = 3")
    force(box, "UPDATE tied SET state = 'ready' WHERE id = 2")
    assert faults(box) == [
        ("item 3 hook 20 barbless spade", "on hand is 13, its movements sum to 10"),
        ("rig A02R", "it is ready, its last change says lost"),
    ]


def test_an_item_without_movements_and_one_at_nothing_are_in_order(box: Box) -> None:
    force(
        box,
        "INSERT INTO item (kind, words, name, place, pack_size, minimum, on_hand,"
        " last_movement, added_on, withdrawn, retired, level, note, pack_said)"
        " VALUES ('hook', 'hook 20', 'x', '', 1, 0, 0, 0, '2026-03-05', 0, 0, '', '', '')",
        HOOKS,
    )
    assert faults(box) == []
    force(box, "UPDATE item SET on_hand = 2 WHERE name = 'x'")
    assert faults(box) == [("item 11 x", "on hand is 2, its movements sum to 0")]


def test_the_last_of_a_rigs_changes_counts(box: Box) -> None:
    undo_last(box, DAY)  # the lost rig is ready again
    assert faults(box) == []


def test_two_rigs_of_one_tying_that_used_the_same_are_both_counted(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    with box.writing() as session:
        for item in ("pole 4×12", "winder"):
            move(session, begin(session, "buy", DAY), find(session, item), 1, Why.BOUGHT)
    tie(box, canal_rig(), 2, DAY)
    assert faults(box) == []


def test_of_many_faults_of_one_sort_a_hundred_are_told(box: Box) -> None:
    force(
        box,
        "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 120)"
        " INSERT INTO item (kind, words, name, place, pack_size, minimum, on_hand,"
        " last_movement, added_on, withdrawn, retired, level, note, pack_said)"
        " SELECT 'hook', 'hook 20', 'x' || i, '', 1, 0, 5, 0, '2026-03-05', 0, 0, '', '', '' FROM n",
        HOOKS,
    )
    assert len(faults(box)) == 100


def test_no_file_is_told_and_none_is_made(tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="no such file") as refused:
        audit(tmp_path / "box.sqlite3")
    assert refused.value.where == str(tmp_path / "box.sqlite3")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("statements", "where", "what"),
    [
        (["PRAGMA application_id = 1"], "file", "it is no Tacklebox box"),
        (
            [f"PRAGMA user_version = {SCHEMA_VERSION + 1}"],
            "file",
            f"the box has version {SCHEMA_VERSION + 1}, this program {SCHEMA_VERSION}",
        ),
        (["DROP TABLE measurement"], "file", "the table measurement is missing"),
        (
            [
                "PRAGMA writable_schema = ON",
                "UPDATE sqlite_master SET sql = replace(sql, 'never_below_zero', 'anything')"
                " WHERE name = 'item'",
            ],
            "rule never_below_zero",
            "it is missing",
        ),
    ],
)
def test_what_is_no_whole_box_is_told_before_its_figures(
    box: Box, statements: list[str], where: str, what: str
) -> None:
    with closing(sqlite3.connect(box.database)) as connection:
        for statement in statements:
            connection.execute(statement)
        connection.commit()
    found = audit(box.database, Snapshot.from_json)
    assert (found.faults[0].where, found.faults[0].what) == (where, what)
    assert all(not fault.where.startswith(("item", "rig")) for fault in found.faults)
    assert found.items == 10


def test_a_box_without_its_tables_is_told_table_by_table(tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / "bare.sqlite3")) as connection:
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.execute(f"PRAGMA user_version = {SCHEMA_VERSION}")
    found = audit(tmp_path / "bare.sqlite3")
    missing = {fault.what for fault in found.faults if fault.where == "file"}
    assert {f"the table {table} is missing" for table in ("item", "movement", "tied")} <= missing
    assert (found.items, found.movements, found.rigs) == (0, 0, 0)


def test_what_is_no_database_is_told_by_its_name(tmp_path: Path) -> None:
    (tmp_path / "box.sqlite3").write_bytes(b"no database at all" * 100)
    found = audit(tmp_path / "box.sqlite3")
    (fault,) = found.faults
    assert (found.items, found.movements, found.rigs) == (0, 0, 0)
    assert fault.where == "box.sqlite3"
    assert "not a database" in fault.what


def test_an_audit_sees_one_state_and_changes_nothing(box: Box) -> None:
    before = box.database.read_bytes()
    with closing(sqlite3.connect(box.database)) as writer:
        give_checks(writer)
        writer.execute(
            "INSERT INTO action VALUES (99, 'x', '2026-03-05', '2026-03-05', NULL, NULL, NULL)"
        )
        assert audit(box.database).faults == ()  # what is not committed is not seen
    assert box.database.read_bytes() == before
