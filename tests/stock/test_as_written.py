"""What is changed behind the rules' back is told by row and cell, whatever it means."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from sqlmodel import SQLModel

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.desk import care
from tacklebox.desk.opening import Desk
from tacklebox.stock.care import upgrade as upgrading
from tacklebox.stock.care.aswritten import COLUMNS, KEPT
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.auditing import guarded
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.schema import SCHEMA_VERSION
from tacklebox.stock.care.triggers import RULES
from tacklebox.stock.care.undo import redo_last, undo_last
from tacklebox.stock.entering import edit_item
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.tables import Why
from tests.rigs.boxes import DAY
from tests.stock.full_box import make_full_box
from tests.stock.test_upgrade import LATER, old_box


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_full_box(tmp_path_factory.mktemp("made") / "box")


@pytest.fixture
def database(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "box")) / DATABASE_NAME


def behind_its_back(database: Path, *statements: str) -> None:
    with closing(sqlite3.connect(database)) as connection:
        for rule in RULES:
            connection.execute(f"DROP TRIGGER {rule.split()[2]}")
        for statement in statements:
            connection.execute(statement)
        for rule in RULES:
            connection.execute(rule)
        connection.commit()


def told(database: Path) -> list[tuple[str, str]]:
    return [(fault.where, fault.what) for fault in audit(database).faults]


def test_every_column_of_every_table_has_a_check() -> None:
    made = {t.name: tuple(c.name for c in t.columns) for t in SQLModel.metadata.sorted_tables}
    del made[KEPT]
    made["identity"] = tuple(name for name in made["identity"] if name != "changes")
    assert made == COLUMNS


@pytest.mark.parametrize(
    ("statement", "where", "what"),
    [
        ("UPDATE item SET note = 'mine' WHERE id = 3", "item 3", "note is 'mine', which is not"),
        (
            "UPDATE item SET pack_price_cents = 245 WHERE id = 2",
            "item 2",
            "pack_price_cents is 245",
        ),
        ("UPDATE movement SET reason = 'so' WHERE id = 3", "movement 3", "reason is 'so', which"),
        ("UPDATE measurement SET mass_g = 1.27 WHERE id = 4", "measurement 4", "mass_g is 1.27"),
        ("UPDATE item SET note = CAST(x'ff' AS TEXT) WHERE id = 3", "item 3", "note is '\ufffd'"),
        ("UPDATE setting SET said = '3 years'", "setting age of line", "said is '3 years', which"),
        ("UPDATE identity SET stamp = 'x'", "identity 1", "stamp is 'x', which is not what was"),
        ("DELETE FROM debrief", "debrief 1", "it was written, and is gone"),
        (
            "INSERT INTO statechange SELECT 99, tied_id, action_id, was, became FROM statechange"
            " WHERE id = 1",
            "statechange 99",
            "it is there, and was never written",
        ),
        (
            f"UPDATE {KEPT} SET checks = x'00' WHERE row_key = '3'",
            "item 3",
            "its checks are damaged",
        ),
        (
            f"UPDATE {KEPT} SET table_name = 'x' WHERE table_name = 'reel'",
            "x ",
            "the table is no box's",
        ),
    ],
)
def test_what_no_action_changed_is_told_by_row_and_cell(
    database: Path, statement: str, where: str, what: str
) -> None:
    assert told(database) == []
    behind_its_back(database, statement)
    answer = told(database)
    assert any(place.startswith(where) and what in said for place, said in answer), answer


def test_a_change_behind_its_back_stays_told_when_the_rest_of_the_row_is_written(
    database: Path,
) -> None:
    behind_its_back(database, "UPDATE item SET pack_price_cents = 245 WHERE id = 3")
    before = told(database)
    box = open_box(database.parent)
    with box.writing() as session:
        action = begin(session, "buy", DAY)
        move(session, action, find(session, "3"), 5, Why.BOUGHT)
        edit_item(session, find(session, "3"), place="drawer 7")
    assert told(database) == before
    assert before == [("item 3", "pack_price_cents is 245, which is not what was written")]
    undo_last(box, DAY)
    redo_last(box, DAY)
    assert told(database) == before
    with box.writing() as session:  # what he says anew is what was written
        begin(session, "edit", DAY)
        edit_item(session, find(session, "3"), price="2.40")
    assert told(database) == []


def test_another_program_cannot_write_past_the_checks(database: Path) -> None:
    with (
        closing(sqlite3.connect(database)) as connection,
        pytest.raises(sqlite3.OperationalError, match="no such function: checks_after"),
    ):
        connection.execute("UPDATE item SET note = 'mine' WHERE id = 3")


def test_what_is_saved_of_a_damaged_box_tells_the_cells_that_were_not_written(
    database: Path, tmp_path: Path
) -> None:
    behind_its_back(database, "UPDATE item SET note = 'mine' WHERE id = 3")
    saved = care.copy(Desk(database.parent), tmp_path / "copy", rescue=True)
    assert [(one.where, one.what) for one in saved.not_saved] == [
        ("item 3", "note is 'mine', which is not what was written; it was taken as it is")
    ]
    assert told(tmp_path / "copy") == []


def test_an_upgrade_hides_no_damage(
    database: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert told(open_box(old_box(tmp_path / "old", 9).parent).database) == []
    behind_its_back(database, "UPDATE item SET note = 'mine' WHERE id = 3")
    monkeypatch.setattr(guarded, "judge_tables", lambda _box: ())
    monkeypatch.setattr("tacklebox.stock.care.schema.SCHEMA_VERSION", SCHEMA_VERSION + 1)
    monkeypatch.setattr(upgrading, "STEPS", LATER)
    Box.close(open_box(database.parent))
    assert told(database) == [("item 3", "what was written cannot be told: its checks are damaged")]
