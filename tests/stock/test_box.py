"""The box's folder and file: where it lies, what it holds to, and what its faults are told as."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import Connection
from sqlalchemy.exc import DatabaseError, IntegrityError, OperationalError
from sqlmodel import Session

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.stock.care.box import Box, default_folder, open_box
from tacklebox.stock.care.schema import DATABASE_NAME, SCHEMA_VERSION, make_tables, plain_words
from tacklebox.stock.ledger import begin, find, load
from tests.rigs.boxes import DAY, make_box


def test_the_box_lies_where_the_angler_says(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TACKLEBOX_BOX", str(tmp_path / "mine"))
    assert default_folder() == tmp_path / "mine"
    assert open_box().folder == tmp_path / "mine"
    monkeypatch.setenv("TACKLEBOX_BOX", "")
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    assert default_folder().name == "tacklebox"
    assert tmp_path in default_folder().parents
    assert open_box(Path("~/here")).folder == tmp_path / "here"


def test_a_new_box_has_its_folders_and_says_that_it_is_new(tmp_path: Path) -> None:
    box = open_box(tmp_path / "deep" / "box")
    assert box.is_new
    assert (box.database, box.recipes, box.labels) == (
        tmp_path / "deep" / "box" / DATABASE_NAME,
        tmp_path / "deep" / "box" / "recipes",
        tmp_path / "deep" / "box" / "labels",
    )
    assert {place.name for place in box.folder.iterdir()} == {DATABASE_NAME, "recipes", "labels"}
    assert not open_box(box.folder).is_new


def test_what_is_no_box_is_told_with_its_place_and_left(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(AskedWronglyError, match="is a file") as told:
        open_box(tmp_path / "file")
    assert told.value.where == "--box"
    assert "Name a folder" in told.value.right
    with closing(sqlite3.connect(tmp_path / DATABASE_NAME)) as other:
        other.execute("CREATE TABLE other (x)")
        other.execute(f"PRAGMA user_version = {SCHEMA_VERSION}")  # as if it were a box
    with pytest.raises(AskedWronglyError, match="no Tacklebox box") as told:
        open_box(tmp_path)
    assert told.value.where == str(tmp_path / DATABASE_NAME)
    assert "--box" in told.value.right


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(CannotBeDoneError, match="cannot be made: Not a directory") as told:
        open_box(tmp_path / "file" / "box")
    assert told.value.where == str(tmp_path / "file" / "box")
    assert "--box" in told.value.right


def test_a_newer_box_is_told_with_its_place(tmp_path: Path) -> None:
    box = open_box(tmp_path)
    with closing(sqlite3.connect(box.database)) as connection:
        connection.execute(f"PRAGMA user_version = {SCHEMA_VERSION + 1}")
    with pytest.raises(CannotBeDoneError, match=f"version {SCHEMA_VERSION + 1} of the box") as told:
        open_box(tmp_path)
    assert told.value.where == str(tmp_path)
    assert "newer program" in told.value.right


@pytest.fixture
def box(tmp_path: Path) -> Box:
    return make_box(tmp_path / "box", "hook 18 pack 10", "hook 20 pack 10")


def test_what_was_read_can_be_used_afterwards_and_writes_nothing(box: Box) -> None:
    with box.reading() as session:
        hooks = load(session)
        hooks[0].name = "changed"
        begin(session, "never", DAY)
    assert hooks[1].name == "hook 20"
    with box.reading() as session:
        assert load(session)[0].name == "hook 18"


def test_a_view_stays_as_it_was_from_its_start_on(box: Box) -> None:
    """Another program may write, but not commit, from before the first thing is read."""
    with box.reading() as session:
        with (
            closing(sqlite3.connect(box.database, timeout=0, isolation_level=None)) as other,
            pytest.raises(sqlite3.OperationalError, match="locked"),
        ):
            other.execute("UPDATE item SET place = 'x'")
        assert [item.place for item in load(session)] == ["", ""]


def test_the_file_is_known_by_its_header(box: Box) -> None:
    """Bytes 60 and 68 of the header, as the SQLite file format has them."""
    header = box.database.read_bytes()[:100]
    assert header[68:72] == b"TCKB"
    assert int.from_bytes(header[60:64]) == SCHEMA_VERSION


def test_who_writes_holds_the_box_from_the_start(box: Box) -> None:
    with box.writing() as session, closing(sqlite3.connect(box.database, timeout=0)) as other:
        with pytest.raises(sqlite3.OperationalError, match="locked"):
            other.execute("BEGIN IMMEDIATE")
        begin(session, "edit", DAY)
        hook = find(session, "1")
        hook.place = "drawer 2"
        session.add(hook)
    assert hook.place == "drawer 2"  # can be used afterwards
    with box.reading() as session:
        assert find(session, "1").place == "drawer 2"


def test_a_new_box_is_held_while_it_is_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two programs that find no box do not both make it."""
    tries = []

    def makes(connection: Connection) -> None:
        with (
            closing(sqlite3.connect(tmp_path / DATABASE_NAME, timeout=0)) as other,
            pytest.raises(sqlite3.OperationalError, match="locked"),
        ):
            other.execute("BEGIN IMMEDIATE")
        tries.append(DATABASE_NAME)
        make_tables(connection)

    monkeypatch.setattr("tacklebox.stock.care.box.make_tables", makes)
    assert open_box(tmp_path).is_new
    assert tries == [DATABASE_NAME]


def test_a_write_that_fails_is_undone_and_the_box_let_go(box: Box) -> None:
    def fail(session: Session) -> None:
        begin(session, "never", DAY)
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError), box.writing() as session:
        fail(session)
    with closing(sqlite3.connect(box.database, timeout=0)) as other:
        other.execute("BEGIN IMMEDIATE")
        assert other.execute("SELECT count(*) FROM action").fetchone() == (2,)


def test_rows_point_at_rows_that_are_there(box: Box) -> None:
    with pytest.raises(IntegrityError, match="FOREIGN KEY"), box.writing() as session:
        session.connection().exec_driver_sql(
            "INSERT INTO tieduse (tied_id, item_id, part, amount, comes_back)"
            " VALUES (1, 77, 'x', 1, 0)"
        )


@pytest.mark.parametrize(
    ("said", "right"),
    [
        ("database is locked", "try again in a moment"),
        ("attempt to write a readonly database", "may be written with --box"),
        ("unable to open database file", "may be written with --box"),
        ("database or disk is full", "make room"),
        ("disk I/O error", "make room"),
        ("file is not a database", "put back a copy"),
        ("database disk image is malformed", "put back a copy"),
        ("something new", "Nothing was half saved"),
    ],
)
def test_what_the_database_says_comes_with_what_to_do(said: str, right: str) -> None:
    raw = sqlite3.OperationalError(said)
    wrapped: DatabaseError = OperationalError("SELECT 1", {}, raw)
    for error in (raw, wrapped):
        told = plain_words(error, Path("box"))
        assert told.what == f"the box says: {said}."
        assert (told.where, right in told.right) == ("box", True)
