"""A damaged box: what shows at a glance is not written to, what does not is told when it is met."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tacklebox.errors import CannotBeDoneError
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.tables import Why
from tests.cli.runs import run
from tests.long.hostile import damage
from tests.rigs.boxes import DAY, make_box


@pytest.fixture
def box(tmp_path: Path) -> Box:
    made = make_box(tmp_path / "box")
    made.close()
    return made


def buy(box: Box) -> None:
    with box.writing() as session:
        move(session, begin(session, "buy", DAY), find(session, "3"), 10, Why.BOUGHT)


def cut_a_page(database: Path, table: str = "item") -> None:
    """A table's first page, as a bad disk would give it back."""
    with closing(sqlite3.connect(database)) as connection:
        root, size = (
            connection.execute(of).fetchone()[0]
            for of in (
                f"SELECT rootpage FROM sqlite_master WHERE name = '{table}'",
                "PRAGMA page_size",
            )
        )
    with database.open("r+b") as file:
        file.seek((root - 1) * size)
        file.write(b"\x55" * 200)


@pytest.mark.parametrize(
    ("sql", "says"),
    [
        ("DROP TRIGGER {trigger}", "the rule movement_moves_stock is missing"),
        (
            "CREATE TRIGGER foreign_rule AFTER INSERT ON action BEGIN DELETE FROM item; END",
            "the rule foreign_rule is not ours",
        ),
        ("CREATE VIEW v AS SELECT 1", "the view v is not ours"),
        ("UPDATE sqlite_master SET rootpage = 9999 WHERE name = 'reel'", "damaged"),
        ("DELETE FROM identity", "the box has no mark of its own"),
        ("UPDATE item SET pack_size = 0 WHERE id = 3", "the figures of"),
        ("UPDATE item SET on_hand = 'some' WHERE id = 3", "the figures of"),
        ("", "damaged"),
    ],
)
def test_what_shows_at_a_glance_is_not_written_to(box: Box, sql: str, says: str) -> None:
    if sql:
        damage(box.database, sql)
    else:
        cut_a_page(box.database)
    before = box.database.read_bytes()
    with pytest.raises(CannotBeDoneError, match="damaged") as refused:
        buy(open_box(box.folder))
    assert says in str(refused.value)
    assert box.database.read_bytes() == before


def test_a_box_is_looked_at_once(box: Box, monkeypatch: pytest.MonkeyPatch) -> None:
    looked = []

    def look(_: sqlite3.Connection) -> str:
        looked.append(1)
        return ""

    monkeypatch.setattr("tacklebox.stock.care.glance.seen_at_a_glance", look)
    opened = open_box(box.folder)
    for _ in range(3):
        buy(opened)
    assert looked == [1]


def test_damage_that_nothing_foresaw_is_told_with_what_the_audit_finds(box: Box) -> None:
    damage(
        box.database,
        "INSERT INTO reel (name, what, loaded_mm, loaded_on, backing, retired, withdrawn)"
        " VALUES ('reel', 'reel', 0, 'soon', '', 0, 0)",
    )
    said = run("reels", "list", box=box.folder, expect=1).stderr
    assert "the box is damaged: reel row 1: loaded_on is 'soon'" in said
    assert "No copy of it lies in the box's folder" in said


def test_a_fault_of_the_program_in_a_whole_box_stays_one(
    box: Box, monkeypatch: pytest.MonkeyPatch
) -> None:
    def breaks(*_: object, **__: object) -> None:
        raise KeyError("ours")

    monkeypatch.setattr("tacklebox.desk.stock.listed", breaks)
    with pytest.raises(KeyError, match="ours"):
        run("stock", "list", box=box.folder)
