"""Boxes of every schema ever landed open, and an older one is brought up to date."""

import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from sqlmodel import col, select

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.errors import CannotBeDoneError
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tied import mark_labelled, tied_with
from tacklebox.stock.care import upgrade as upgrading
from tacklebox.stock.care.aswritten import give_checks
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.auditing import guarded
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.restoring import restore
from tacklebox.stock.care.schema import SCHEMA_VERSION
from tacklebox.stock.care.undo import LatestActions, read_history, redo_last, undo_last
from tacklebox.stock.made import Batch, SheetInUse
from tests.rigs.boxes import DAY, on_hand
from tests.stock.keep_box import BOXES

LATER = Path(__file__).with_name("later_steps")
NEXT = SCHEMA_VERSION + 1


def old_box(folder: Path, version: int) -> Path:
    """A box of that schema, as it was kept."""
    folder.mkdir(mode=0o700)
    database = folder / DATABASE_NAME
    with closing(sqlite3.connect(database)) as connection:
        connection.executescript((BOXES / f"schema-{version}.sql").read_text(encoding="utf-8"))
    return database


def read_actions(box: Box) -> LatestActions:
    with box.reading() as session:
        return read_history(session)


def dumped(database: Path) -> list[str]:
    """All that a database holds, as text."""
    with closing(sqlite3.connect(database)) as connection:
        return list(connection.iterdump())


def schema(database: Path) -> list[tuple[str, str]]:
    with closing(sqlite3.connect(database)) as connection:
        rows = connection.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL")
        return sorted((name, " ".join(sql.split())) for name, sql in rows)


def batches(box: Box) -> list[tuple[str, int, int]]:
    with box.reading() as session:
        every = session.exec(select(Batch).order_by(col(Batch.id)))
        return [(batch.code, batch.tied, batch.left) for batch in every]


@pytest.mark.parametrize("version", range(1, SCHEMA_VERSION + 1))
def test_a_box_of_every_schema_opens(tmp_path: Path, version: int) -> None:
    database = old_box(tmp_path / "old", version)
    box = open_box(database.parent)
    assert audit(database, Snapshot.from_json).faults == ()
    assert [(t.code, t.state) for t in tied_with(box)] == [
        ("A01T", "stripped"),
        ("A02R", "ready"),
    ]
    # What version 5 and before kept one by one is a batch of one each.
    of_two = [("A04N", 2, 0)] if version > 5 else [("A04N", 1, 0), ("A05L", 1, 0)]
    assert batches(box) == [("A03P", 1, 0), *of_two]
    assert schema(database) == schema(open_box(tmp_path / "new").database)
    assert on_hand(box)["hook 20 barbless spade"] == 9
    while read_actions(box).undo:  # back to the beginning and forward again
        undo_last(box, DAY)
    assert on_hand(box) == {}
    while read_actions(box).redo:
        redo_last(box, DAY)
    done_again = version < 3  # something else was done since in the third
    assert [t.state for t in tied_with(box)] == ["stripped", "ready"]
    assert batches(box) == [("A03P", 1, 0), *((c, n, n * done_again) for c, n, _ in of_two)]
    assert audit(database, Snapshot.from_json).faults == ()


@pytest.mark.parametrize("version", [1, 2])
def test_labels_printed_before_that_was_an_action_count_as_printed(
    tmp_path: Path, version: int
) -> None:
    database = old_box(tmp_path / "old", version)
    with closing(sqlite3.connect(database)) as before, before:
        before.execute("UPDATE tied SET labelled_on = '2026-03-05'")  # undone ones too
        before.execute("INSERT INTO sheetinuse VALUES ('a4-65', 2)")
    box = open_box(database.parent)
    assert audit(database, Snapshot.from_json).faults == ()
    mark_labelled(box, ["A02R"], DAY, {"a4-65": 3})
    assert audit(database, Snapshot.from_json).faults == ()
    undo_last(box, DAY)
    assert audit(database, Snapshot.from_json).faults == ()
    with box.reading() as session:
        assert session.get_one(SheetInUse, "a4-65").next_free == 2


def test_the_kept_box_has_the_schema_of_a_new_one(tmp_path: Path) -> None:
    """Where this fails, a table was changed: add a step and a version, keep the old box."""
    old = old_box(tmp_path / "old", SCHEMA_VERSION)
    new = open_box(tmp_path / "new")
    assert schema(old) == schema(new.database)


@pytest.fixture
def tomorrow(monkeypatch: pytest.MonkeyPatch) -> None:
    """A program that knows one schema more; which tables that has, it does not know."""
    monkeypatch.setattr(guarded, "judge_tables", lambda _box: ())
    monkeypatch.setattr("tacklebox.stock.care.schema.SCHEMA_VERSION", NEXT)
    monkeypatch.setattr(upgrading, "STEPS", LATER)


@pytest.mark.usefixtures("tomorrow")
def test_an_older_box_is_upgraded_after_a_copy_is_set_aside(tmp_path: Path) -> None:
    database = old_box(tmp_path / "old", SCHEMA_VERSION)
    before = database.read_bytes()
    said: list[str] = []
    box = open_box(database.parent, notice=said.append)
    assert audit(database, Snapshot.from_json).faults == ()
    with closing(sqlite3.connect(database)) as connection:
        assert connection.execute("PRAGMA user_version").fetchone() == (NEXT,)
        assert connection.execute("SELECT shop FROM item WHERE id = 1").fetchone() == ("",)
        give_checks(connection)
        with pytest.raises(sqlite3.IntegrityError, match="movements alone"):
            connection.execute("UPDATE item SET on_hand = 1")
    undo_last(box, DAY)
    (aside,) = (box.folder / "set-aside").iterdir()
    assert said == [
        f"This box was of an older Tacklebox and was brought up to date. As it was: {aside}"
    ]
    with closing(sqlite3.connect(aside)) as kept, closing(sqlite3.connect(":memory:")) as was:
        was.deserialize(before)
        assert list(kept.iterdump()) == list(was.iterdump())
        assert kept.execute("PRAGMA user_version").fetchone() == (SCHEMA_VERSION,)
    open_box(database.parent)
    assert len(list((box.folder / "set-aside").iterdir())) == 1


@pytest.mark.usefixtures("tomorrow")
def test_a_step_that_fails_leaves_the_box_as_it_was(tmp_path: Path) -> None:
    database = old_box(tmp_path / "old", SCHEMA_VERSION)
    before = schema(database)
    with closing(sqlite3.connect(database)) as connection:
        connection.execute("DROP TRIGGER movement_is_never_changed")
        connection.execute("UPDATE movement SET amount = amount + 1 WHERE id = 1")
        connection.commit()
    with pytest.raises(CannotBeDoneError, match=r"as it was\.\n  item 1 nylon 0.08"):
        open_box(database.parent)
    names = {name for name, _ in schema(database)}
    assert names == {name for name, _ in before} - {"movement_is_never_changed"}
    assert not (database.parent / "set-aside").exists()  # else each try would leave a copy


@pytest.mark.usefixtures("tomorrow")
def test_two_programs_that_open_an_older_box_upgrade_it_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The second found it older too, but another was at it before it could begin."""
    database = old_box(tmp_path / "old", SCHEMA_VERSION)
    run_steps = upgrading._run_steps

    def after_another(path: Path, to: int) -> bool:
        assert run_steps(path, to)
        return run_steps(path, to)

    said: list[str] = []
    monkeypatch.setattr(upgrading, "_run_steps", after_another)
    assert upgrading.upgrade(database, NEXT, said.append) is None
    assert not (database.parent / "set-aside").exists()
    assert said == []
    assert audit(database, Snapshot.from_json).faults == ()


@pytest.mark.usefixtures("tomorrow")
def test_an_older_copy_is_upgraded_before_it_is_put_back(tmp_path: Path) -> None:
    copy = old_box(tmp_path / "old", SCHEMA_VERSION)
    before = copy.read_bytes()
    box = old_box(tmp_path / "box", SCHEMA_VERSION)
    open_box(box.parent)
    restore(box.parent, copy, lambda _: False)
    assert audit(box).faults == ()
    assert copy.read_bytes() == before


def test_opening_a_box_of_today_imports_no_alembic(tmp_path: Path) -> None:
    database = old_box(tmp_path / "old", SCHEMA_VERSION)
    code = (
        "import sys; from pathlib import Path; from tacklebox.stock.care.box import Box, open_box;"
        f"open_box(Path({str(database.parent)!r})); print('alembic' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "False\n"
