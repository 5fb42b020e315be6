"""Folder read-only, box locked, file cut short, power cut, clock set back: told, and no harm."""

import os
import shutil
import sqlite3
import subprocess
from collections.abc import Callable, Sequence
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.errors import CannotBeDoneError
from tacklebox.rigs.tying.tie import tie
from tacklebox.stock.care import waiting
from tacklebox.stock.care.aswritten import give_checks
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.copies import copy_database
from tacklebox.stock.care.restoring import restore
from tacklebox.stock.care.undo import undo_last
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.tables import Why
from tests.cli.runs import run
from tests.rigs.boxes import DAY, canal_rig, make_box, on_hand
from tests.stock.disks import AS_OWNER, program, small_disk, without_root


@pytest.fixture
def box(tmp_path: Path) -> Box:
    return make_box(tmp_path / "box")


def buy(box: Box, amount: int = 10) -> None:
    with box.writing() as session:
        move(session, begin(session, "buy", DAY), find(session, "3"), amount, Why.BOUGHT)


def dump(database: Path) -> list[str]:
    with closing(sqlite3.connect(database)) as connection:
        return list(connection.iterdump())


def test_a_disk_that_is_read_only(tmp_path: Path) -> None:
    with small_disk(tmp_path / "disk", 2000) as disk:
        box = make_box(disk / "box")
        box.engine.dispose()
        before = box.database.read_bytes()
        subprocess.run(["mount", "-o", "remount,ro", str(disk)], check=True)
        reads_only(box.folder, tmp_path)
        said = run("--box", str(disk / "new"), "stock", "list", expect=1).stderr
        assert "Name a folder that may be written" in said
        assert box.database.read_bytes() == before


def test_a_folder_without_the_right_to_write(box: Box, tmp_path: Path) -> None:
    without_root()
    box.engine.dispose()
    before = box.database.read_bytes()
    box.database.chmod(0o444)
    box.folder.chmod(0o555)
    try:
        reads_only(box.folder, tmp_path, AS_OWNER)
    finally:
        box.folder.chmod(0o755)
        box.database.chmod(0o644)
    assert box.database.read_bytes() == before


def reads_only(folder: Path, beside: Path, before: Sequence[str] = ()) -> None:
    """What only reads is done; what writes says where it could not, and leaves nothing there."""
    present = sorted(folder.rglob("*"))
    copy, box = str(beside / "copy"), "Name a folder that may be written"
    place, kept = "Name a place that may be written", "may be written. The box was left as it is."
    for words, answer in (
        (["stock", "list"], ""),
        (["audit"], ""),
        (["copy", copy], ""),
        (["export", str(beside / "out")], ""),
        (["stock", "buy", "3"], box),
        (["undo"], box),
        (["copy", str(folder / "copy")], place),
        (["export", str(folder / "out")], place),
        (["restore", copy], kept),
    ):
        done = program("--box", str(folder), *words, before=before)
        assert done.returncode == (1 if answer else 0), (words, done)
        assert answer in done.stderr
        assert not answer or done.stderr.removeprefix("--box, ").startswith(str(folder))
    assert sorted(folder.rglob("*")) == present


def test_own_recipes_that_may_not_be_read_are_not_left_out(box: Box, tmp_path: Path) -> None:
    """An export without them would be taken for everything."""
    without_root()
    (box.recipes / "mine.toml").write_text("")
    box.recipes.chmod(0)
    try:
        done = program("--box", str(box.folder), "export", str(tmp_path / "out"), before=AS_OWNER)
    finally:
        box.recipes.chmod(0o755)
    assert done.returncode == 1
    assert f"{box.recipes}: it cannot be read: Permission denied" in done.stderr
    assert not (tmp_path / "out").exists()


def test_recipes_that_may_not_be_read_are_told(box: Box) -> None:
    without_root()
    box.recipes.chmod(0)
    try:
        for words in (["recipe", "list"], ["check", "pole-canal-shot"]):
            done = program("--box", str(box.folder), *words, before=AS_OWNER)
            assert done.returncode == 2
            assert "recipes" in done.stderr
            assert "cannot be read: Permission denied" in done.stderr
    finally:
        box.recipes.chmod(0o755)


def test_labels_that_cannot_be_noted_say_where_they_are(box: Box, tmp_path: Path) -> None:
    without_root()
    tie(box, canal_rig(), 1, DAY)
    sheet = tmp_path / "labels.pdf"
    box.database.chmod(0o444)
    box.folder.chmod(0o555)
    try:
        answer = [
            program("--box", str(box.folder), *words, "--to", str(sheet), before=AS_OWNER)
            for words in (["labels"], ["stock", "labels", "3", "--replace"])
        ]
    finally:
        box.folder.chmod(0o755)
        box.database.chmod(0o644)
    for done in answer:
        assert done.returncode == 1
        assert "the labels are printed, but the box could not note it" in done.stderr
    assert sheet.read_bytes().startswith(b"%PDF")


def test_what_cannot_be_shown_is_done_all_the_same(box: Box) -> None:
    if not Path("/dev/full").exists():
        pytest.skip("there is no full disk to write to")
    show = ["sh", "-c", '"$0" "$@" > /dev/full']
    done = program("--box", str(box.folder), "tie", "pole-canal-shot", before=show)
    assert done.returncode == 1
    assert "What was done is done, but could not be shown" in done.stderr
    assert on_hand(box)["pole 4×12 tip 1.2 mm"] + on_hand(box)["pole 4×12"] == 1


def test_a_box_cut_to_nothing_is_told_to_be_new(box: Box) -> None:
    box.engine.dispose()
    box.database.write_bytes(b"")
    assert "Made a new box" in run("stock", "list", box=box.folder).stderr


@pytest.mark.parametrize(
    ("how", "does", "by"),
    [
        ("EXCLUSIVE", buy, "writing to"),
        ("IMMEDIATE", buy, "writing to"),
        ("EXCLUSIVE", on_hand, "writing to"),
        ("IMMEDIATE", on_hand, ""),
        ("DEFERRED", buy, "reading"),
        ("DEFERRED", on_hand, ""),
    ],
)
def test_a_wait_for_another_program_is_told(
    box: Box, monkeypatch: pytest.MonkeyPatch, how: str, does: Callable[[Box], object], by: str
) -> None:
    """The other lets go when the wait is told. In the rollback journal a reader lets others write, but not
    commit, until he has read."""
    monkeypatch.setattr(waiting, "ALONE_MS", 30)
    said = []
    with closing(sqlite3.connect(box.database, isolation_level=None)) as other:

        def let_go(words: str) -> None:
            said.append(words)
            other.execute("ROLLBACK")

        asked = open_box(box.folder, notice=let_go)
        other.execute(f"BEGIN {how}")
        other.execute("SELECT count(*) FROM item").fetchone()
        does(asked)
    assert said == ([f"Another program is {by} the box; waiting for it…"] if by else [])
    assert on_hand(box)["hook 20 barbless spade"] == (20 if does is buy else 10)


def test_a_commit_that_is_given_up_saves_nothing(box: Box, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(waiting, "ALONE_MS", 30)
    monkeypatch.setattr(waiting, "PATIENCE_MS", 100)
    before = dump(box.database)
    with closing(sqlite3.connect(box.database, isolation_level=None)) as reader:
        reader.execute("BEGIN")
        reader.execute("SELECT count(*) FROM item").fetchone()
        with pytest.raises(CannotBeDoneError, match="try again in a moment"):
            buy(box)
        reader.execute("ROLLBACK")
    assert dump(box.database) == before
    buy(box)
    assert on_hand(box)["hook 20 barbless spade"] == 20


def test_a_box_that_stays_locked_is_given_up(box: Box, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(waiting, "ALONE_MS", 30)
    monkeypatch.setattr(waiting, "PATIENCE_MS", 100)
    with closing(sqlite3.connect(box.database, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(CannotBeDoneError, match="try again in a moment"):
            buy(box)
    assert on_hand(box)["hook 20 barbless spade"] == 10


@pytest.mark.parametrize("size", [100, 20_000])
def test_a_file_cut_short_never_ends_in_a_traceback(box: Box, size: int) -> None:
    box.engine.dispose()
    box.database.write_bytes(box.database.read_bytes()[:size])
    cut = box.database.read_bytes()
    for words in (["stock", "list"], ["stock", "buy", "3"], ["audit"], ["undo"]):
        done = run("--box", str(box.folder), *words, expect=1)
        assert done.stderr or "Not in order" in done.stdout
    assert box.database.read_bytes() == cut


def test_a_power_cut_in_the_middle_of_a_write(box: Box, tmp_path: Path) -> None:
    """The files as a power cut would leave them: half of the pages written, and the journal."""
    before = dump(box.database)
    with closing(sqlite3.connect(box.database, isolation_level=None)) as connection:
        give_checks(connection)
        connection.execute("PRAGMA cache_size = 5")  # so that pages are written before the commit
        connection.execute("BEGIN IMMEDIATE")
        for _ in range(400):
            connection.execute(
                "INSERT INTO action (what, \"on\", written_at) VALUES (?, '2026-03-05', '')",
                ("x" * 400,),
            )
        (tmp_path / "after").mkdir()
        for file in box.folder.glob(f"{DATABASE_NAME}*"):
            shutil.copyfile(file, tmp_path / "after" / file.name)
        connection.execute("ROLLBACK")
    after = tmp_path / "after" / DATABASE_NAME
    assert after.stat().st_size > 100_000
    assert after.with_name(f"{DATABASE_NAME}-journal").stat().st_size > 0
    assert audit(after).faults == ()
    assert dump(open_box(tmp_path / "after").database) == before


def test_a_write_broken_off_in_a_folder_that_is_read_only_is_told_as_that(
    box: Box, tmp_path: Path
) -> None:
    """A journal is hot: SQLite must first take back what it says, and may not."""
    without_root()
    box.close()
    after = tmp_path / "after"
    with closing(sqlite3.connect(box.database, isolation_level=None)) as connection:
        give_checks(connection)
        connection.execute("PRAGMA cache_size = 1")
        connection.execute("BEGIN IMMEDIATE")
        connection.execute("UPDATE identity SET changes = changes + 1")
        for _ in range(200):
            connection.execute(
                "INSERT INTO action (what, \"on\", written_at) VALUES (?, '2026-03-05', '')",
                ("x" * 400,),
            )
        shutil.copytree(box.folder, after)
        connection.execute("ROLLBACK")
    for file in after.iterdir():
        file.chmod(0o555 if file.is_dir() else 0o444)
    after.chmod(0o555)
    try:
        done = program("--box", str(after), "stock", "list", before=AS_OWNER)
    finally:
        after.chmod(0o755)
    assert done.returncode == 1
    assert "the last write was broken off, by a power cut perhaps" in done.stderr
    assert "Allow writing in the folder" in done.stderr


def test_a_pipe_in_the_place_of_the_journal_is_refused_not_waited_for(
    box: Box, tmp_path: Path
) -> None:
    box.close()
    os.mkfifo(box.folder / "tacklebox.sqlite3-journal")
    for ask in (
        lambda: open_box(box.folder),
        lambda: copy_database(box.database, tmp_path / "copy"),
    ):
        with pytest.raises(CannotBeDoneError, match="where the database's journal would"):
            ask()


def test_a_box_is_private_to_its_user(tmp_path: Path) -> None:
    box = open_box(tmp_path / "deep" / "box")
    buy_from = copy_database(box.database, tmp_path / "copy")
    modes = {path: path.stat().st_mode & 0o777 for path in (box.folder, box.database, buy_from)}
    assert modes == {box.folder: 0o700, box.database: 0o600, buy_from: 0o600}


@pytest.mark.parametrize("of", ["box", "copy"])
def test_what_is_in_wal_mode_comes_back_in_the_rollback_journal(
    box: Box, tmp_path: Path, of: str
) -> None:
    """As another program may have left the box, or the copy."""
    copy = copy_database(box.database, tmp_path / "copy")
    box.close()
    with closing(sqlite3.connect(box.database if of == "box" else copy)) as connection:
        assert connection.execute("PRAGMA journal_mode = WAL").fetchone()[0] == "wal"
    if of == "copy":
        restore(box.folder, copy, lambda _: True)
    else:
        copy = copy_database(box.database, tmp_path / "second")
        assert copy.read_bytes()[18:20] == b"\x01\x01"
        buy(open_box(box.folder))
    assert box.database.read_bytes()[18:20] == b"\x01\x01"
    assert audit(box.database).faults == ()


def test_what_is_committed_is_on_the_disk(box: Box) -> None:
    """synchronous = FULL (2), a journal that is kept until the pages are on the disk."""
    with box.engine.connect() as connection:
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar_one() == 2
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar_one() == "delete"


def test_a_clock_set_back(box: Box, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    class Clock(datetime):
        @classmethod
        def now(cls, tz: object = None) -> "Clock":  # noqa: ARG003
            return cls(1999, 1, 1, tzinfo=UTC)

    buy(box, 1)
    copy = copy_database(box.database, tmp_path / "copy")
    monkeypatch.setattr("tacklebox.stock.ledger.datetime", Clock)
    monkeypatch.setattr("tacklebox.stock.care.copies.datetime", Clock)
    tie(box, canal_rig(), 1, DAY)
    assert undo_last(box, DAY).action.what == "tie 1 × Canal pole, shot"
    assert audit(box.database).faults == ()
    from tacklebox.stock.care.restoring import newer_than

    assert newer_than(box.database, copy).rows["action"] == 2
