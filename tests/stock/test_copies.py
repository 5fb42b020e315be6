"""Copies are whole while others write, and are put back only when they are in order."""

import errno
import os
import sqlite3
import threading
from contextlib import closing
from pathlib import Path

import pytest

from tacklebox.boxfolder import DATABASE_NAME, SET_ASIDE
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.stock.care import copies, waiting
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.copies import copy_database, set_aside
from tacklebox.stock.care.restoring import Newer, restore
from tacklebox.stock.care.schema import SCHEMA_VERSION
from tacklebox.stock.care.waiting import Notice
from tacklebox.stock.entering import edit_item
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin, move
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
    assert asked == ["1 action, 1 movement, the last action: buy of 2026-03-05"] * 2
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
    answer = {
        "cut": "no copy of a box, or a damaged one",
        "text": "no copy of a box, or a damaged one",
    }
    with pytest.raises(
        CannotBeDoneError, match=answer.get(harm, "not in order; nothing was put back")
    ):
        restore(box.folder, copy, lambda _: True)
    assert box.database.read_bytes() == before
    assert not (box.folder / SET_ASIDE).exists()


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


@pytest.mark.parametrize("name", ["no/such/copy", "long" * 80])
def test_a_copy_where_none_can_be(box: Box, tmp_path: Path, name: str) -> None:
    with pytest.raises(CannotBeDoneError, match=r"cannot be written: .*\. Name a place"):
        copy_database(box.database, tmp_path / name)
    assert [p.name for p in tmp_path.iterdir()] == ["box"]


def test_a_copy_of_the_longest_name(box: Box, tmp_path: Path) -> None:
    assert audit(copy_database(box.database, tmp_path / ("n" * 255))).faults == ()


def test_a_copy_in_the_name_of_a_folder(box: Box, tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match=r"this is a folder\. Name a file"):
        copy_database(box.database, tmp_path)


def test_where_files_cannot_be_linked(
    box: Box, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As on a stick with FAT: the copy is written all the same, and never over another file."""

    def no_links(half: Path, to: Path) -> None:
        raise PermissionError(errno.EPERM, os.strerror(errno.EPERM), str(half), None, str(to))

    monkeypatch.setattr("os.link", no_links)
    copy = copy_database(box.database, tmp_path / "copy")
    assert audit(copy, Snapshot.from_json).faults == ()
    with pytest.raises(AskedWronglyError, match="such a file already"):
        copy_database(box.database, copy)
    buy(box)
    assert restore(box.folder, copy, lambda _: True) is not None
    box.engine.dispose()
    box.database.write_bytes(b"x" * 5000)
    aside = restore(box.folder, copy, never)
    assert aside is not None
    assert aside.read_bytes() == b"x" * 5000
    assert on_hand(open_box(box.folder))[HOOK] == 10
    assert sorted(p.name for p in tmp_path.iterdir()) == ["box", "copy"]


def test_a_file_that_comes_meanwhile_is_never_written_over(
    box: Box, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    to = tmp_path / "copy"
    whole = os.fsync

    def comes(number: int) -> None:
        to.write_text("mine")
        whole(number)

    monkeypatch.setattr("os.fsync", comes)
    with pytest.raises(AskedWronglyError, match="such a file already"):
        copy_database(box.database, to)
    assert to.read_text() == "mine"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["box", "copy"]


def test_a_change_beside_the_movements_is_asked_about_too(box: Box, tmp_path: Path) -> None:
    copy = copy_database(box.database, tmp_path / "copy.sqlite3")
    with box.writing() as session:
        begin(session, "edit", DAY)
        edit_item(session, find(session, "3"), place="drawer 9", price="2.40")
    with pytest.raises(
        CannotBeDoneError, match=r"does not: 1 action, 1 item, the last action: edit"
    ):
        restore(box.folder, copy, lambda _: False)


def test_a_box_of_another_version_is_asked_about_too(box: Box, tmp_path: Path) -> None:
    """It is whole, so it is not taken for a damaged one."""
    copy = copy_database(box.database, tmp_path / "copy.sqlite3")
    buy(box)
    box.engine.dispose()
    with closing(sqlite3.connect(box.database)) as connection:
        connection.executescript(
            "ALTER TABLE item ADD COLUMN shop VARCHAR NOT NULL DEFAULT '';"
            f"CREATE TABLE shop (id INTEGER); PRAGMA user_version = {SCHEMA_VERSION + 1}"
        )
    with pytest.raises(CannotBeDoneError, match="does not: 1 action, 1 movement, the last action"):
        restore(box.folder, copy, lambda _: False)
    with pytest.raises(CannotBeDoneError, match="newer Tacklebox"):
        open_box(box.folder)
    aside = restore(box.folder, copy, lambda _: True)
    assert aside is not None
    assert aside.name.startswith("replaced")
    assert on_hand(open_box(box.folder))[HOOK] == 10


def test_a_box_that_is_a_link_is_put_back_where_it_lies(box: Box, tmp_path: Path) -> None:
    copy = copy_database(box.database, tmp_path / "copy.sqlite3")
    buy(box)
    box.engine.dispose()
    (tmp_path / "synced").mkdir()
    real = box.database.rename(tmp_path / "synced" / "my.sqlite3")
    box.database.symlink_to(real)
    for damaged in (False, True):
        if damaged:
            real.write_bytes(b"x" * 5000)
        assert restore(box.folder, copy, lambda _: True) is not None
        assert box.database.is_symlink()
        assert on_hand(open_box(box.folder))[HOOK] == 10


def test_who_waits_to_put_back_is_told(
    box: Box, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    monkeypatch.setattr(waiting, "ALONE_MS", 30)
    monkeypatch.setattr(waiting, "PATIENCE_MS", 200)
    copy = copy_database(box.database, tmp_path / "copy.sqlite3")
    before = box.database.read_bytes()
    with closing(sqlite3.connect(box.database, isolation_level=None)) as other:
        other.execute("BEGIN")
        other.execute("SELECT count(*) FROM item").fetchone()
        with pytest.raises(CannotBeDoneError, match=r"locked\. Another program .* in a moment"):
            restore(box.folder, copy, never, notice=said.append)
    assert said == ["Another program is using the box; waiting for it…"]
    assert box.database.read_bytes() == before
    assert not (box.folder / SET_ASIDE).exists()


@pytest.mark.parametrize("late", [False, True])
def test_a_copy_of_what_stays_locked_is_given_up(
    box: Box, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, late: bool
) -> None:
    """SQLite's backup alone would wait for ever; ``late``: the box is locked once it was opened."""
    said: list[str] = []
    monkeypatch.setattr(waiting, "ALONE_MS", 30)
    monkeypatch.setattr(waiting, "PATIENCE_MS", 200)
    with closing(sqlite3.connect(box.database, isolation_level=None)) as other:
        if late:
            really_opened = copies.opened

            def opened_then_locked(database: Path, notice: Notice) -> "closing[sqlite3.Connection]":
                source = really_opened(database, notice)
                other.execute("BEGIN EXCLUSIVE")
                return source

            monkeypatch.setattr(copies, "opened", opened_then_locked)
        else:
            other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(CannotBeDoneError, match=r"locked.* in a moment"):
            copy_database(box.database, tmp_path / "copy", said.append)
    assert [words.endswith("waiting for it…") for words in said] == [True]
    assert [p.name for p in tmp_path.iterdir()] == ["box"]


def test_set_aside_never_writes_over_another(box: Box) -> None:
    names = [set_aside(box.database, "replaced").name for _ in range(3)]
    assert len(set(names)) == 3
    assert {p.name for p in (box.folder / SET_ASIDE).iterdir()} == set(names)
    assert DATABASE_NAME not in names


def test_a_copy_with_a_foreign_rule_is_refused(box: Box, tmp_path: Path) -> None:
    """Whoever made it would have his say in each later write of the box."""
    copy = copy_database(box.database, tmp_path / "copy.sqlite3")
    with closing(sqlite3.connect(copy)) as connection:
        connection.execute(
            "CREATE TRIGGER mine AFTER INSERT ON movement BEGIN DELETE FROM setting; END"
        )
    before = box.database.read_bytes()
    with pytest.raises(CannotBeDoneError, match=r"not in order.*\n  rule mine: no box has it"):
        restore(box.folder, copy, never)
    assert box.database.read_bytes() == before
