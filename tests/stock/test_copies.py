"""Copies are whole while others write, and are put back only when they are in order."""

import sqlite3
import threading
from contextlib import closing
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.rigs.snapshot import Snapshot
from tacklebox.stock.audit import audit
from tacklebox.stock.box import DATABASE_NAME, Box, open_box
from tacklebox.stock.copies import ASIDE, Newer, copy_database, restore, set_aside
from tacklebox.stock.ledger import begin, find, move
from tacklebox.stock.tables import Why
from tests.rigs.boxes import DAY, make_box, on_hand

HOOK = "hook 20 barbless spade"


def buy(box: Box, amount: int = 10) -> None:
    with box.writing() as session:
        move(session, begin(session, "buy", DAY), find(session, "3"), amount, Why.BOUGHT)


def never(_: Newer) -> bool:
    raise AssertionError("it asked")


@pytest.fixture
def box(tmp_path: Path) -> Box:
    return make_box(tmp_path / "box")


def test_copies_made_while_others_write_are_each_in_order(box: Box, tmp_path: Path) -> None:
    stop = threading.Event()

    def write() -> None:
        while not stop.is_set():
            buy(box, 1)

    writers = [threading.Thread(target=write) for _ in range(2)]
    for writer in writers:
        writer.start()
    try:
        copies = [copy_database(box.database, tmp_path / f"{n}.sqlite3") for n in range(8)]
    finally:
        stop.set()
        for writer in writers:
            writer.join()
    amounts = []
    for copy in copies:
        assert audit(copy, Snapshot.from_json).faults == ()
        with closing(sqlite3.connect(copy)) as connection:
            amounts += connection.execute("SELECT on_hand FROM item WHERE id = 3").fetchone()
    assert amounts == sorted(amounts)
    assert amounts[-1] > amounts[0]


def test_a_copy_is_put_back_without_asking_where_nothing_is_newer(box: Box, tmp_path: Path) -> None:
    copy = copy_database(box.database, tmp_path / "copy.sqlite3")
    restore(box.folder, copy, never)
    assert on_hand(box)[HOOK] == 10


def test_newer_movements_are_asked_about_and_set_aside(box: Box, tmp_path: Path) -> None:
    copy = copy_database(box.database, tmp_path / "copy.sqlite3")
    buy(box)
    asked: list[str] = []

    def agree(newer: Newer) -> bool:
        asked.append(str(newer))
        return len(asked) > 1

    with pytest.raises(CannotBeDoneError, match="does not: 1 action, 1 movement"):
        restore(box.folder, copy, agree)
    assert on_hand(box)[HOOK] == 20
    aside = restore(box.folder, copy, agree)
    assert asked == ["1 action, 1 movement, the last of them: buy of 2026-03-05"] * 2
    assert on_hand(box)[HOOK] == 10
    assert aside is not None
    restore(box.folder, aside, never)
    assert on_hand(box)[HOOK] == 20


def test_another_box_of_as_many_movements_is_newer_too(box: Box, tmp_path: Path) -> None:
    other = make_box(tmp_path / "other")
    copy = copy_database(other.database, tmp_path / "copy.sqlite3")
    buy(box, 10)
    buy(other, 5)
    copy = copy_database(other.database, tmp_path / "copy-2.sqlite3")
    with pytest.raises(CannotBeDoneError, match="1 movement"):
        restore(box.folder, copy, lambda _: False)


@pytest.mark.parametrize("harm", ["amount", "cut", "text", "other"])
def test_a_copy_not_in_order_is_never_put_back(box: Box, tmp_path: Path, harm: str) -> None:
    copy = copy_database(box.database, tmp_path / "copy.sqlite3")
    if harm == "cut":
        copy.write_bytes(copy.read_bytes()[:20_000])
    elif harm == "text":
        copy.write_text("no database" * 400)
    else:
        with closing(sqlite3.connect(copy)) as connection:
            if harm == "amount":
                connection.execute("DROP TRIGGER movement_is_never_changed")
                connection.execute("UPDATE movement SET amount = 3 WHERE id = 3")
            else:
                connection.execute("PRAGMA application_id = 5")
            connection.commit()
    before = box.database.read_bytes()
    with pytest.raises(CannotBeDoneError):
        restore(box.folder, copy, lambda _: True)
    assert box.database.read_bytes() == before
    assert list((box.folder / ASIDE).iterdir()) == []


@pytest.mark.parametrize("harm", ["cut", "text", "empty", "gone"])
def test_a_copy_takes_the_place_of_a_damaged_box(box: Box, tmp_path: Path, harm: str) -> None:
    copy = copy_database(box.database, tmp_path / "copy.sqlite3")
    box.engine.dispose()
    harmed = {"cut": box.database.read_bytes()[:20_000], "text": b"x" * 5000, "empty": b""}
    if harm == "gone":
        box.database.unlink()
    else:
        box.database.write_bytes(harmed[harm])
    aside = restore(box.folder, copy, never)
    again = open_box(box.folder)
    assert on_hand(again)[HOOK] == 10
    assert audit(again.database).faults == ()
    assert (aside.read_bytes() if aside else None) == harmed.get(harm)


def test_one_who_has_the_box_open_goes_on_with_what_was_put_back(box: Box, tmp_path: Path) -> None:
    copy = copy_database(box.database, tmp_path / "copy.sqlite3")
    other = open_box(box.folder)
    buy(other)
    restore(box.folder, copy, lambda _: True)
    buy(other, 1)
    assert on_hand(box)[HOOK] == 11
    assert audit(box.database).faults == ()


def test_a_copy_over_a_file_is_refused(box: Box, tmp_path: Path) -> None:
    (tmp_path / "there").write_text("mine")
    with pytest.raises(AskedWronglyError, match="such a file already"):
        copy_database(box.database, tmp_path / "there")
    assert (tmp_path / "there").read_text() == "mine"


def test_a_copy_where_none_can_be(box: Box, tmp_path: Path) -> None:
    with pytest.raises(CannotBeDoneError, match="unable to open"):
        copy_database(box.database, tmp_path / "no" / "such" / "copy")
    assert [p.name for p in tmp_path.iterdir()] == ["box"]


def test_set_aside_never_writes_over_another(box: Box) -> None:
    names = [set_aside(box.database, "replaced").name for _ in range(3)]
    assert len(set(names)) == 3
    assert {p.name for p in (box.folder / ASIDE).iterdir()} == set(names)
    assert DATABASE_NAME not in names
