"""The box's folder and file: where it lies, what it holds to, and what its faults are told as."""

import os
import sqlite3
import threading
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, suppress
from datetime import datetime
from pathlib import Path

import pytest
from sqlalchemy import Connection, QueuePool
from sqlalchemy.exc import DatabaseError, IntegrityError, OperationalError
from sqlmodel import Session

from tacklebox.boxfolder import DATABASE_NAME, SET_ASIDE
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.stock.care import waiting
from tacklebox.stock.care.aswritten import give_checks
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box, default_folder, open_box
from tacklebox.stock.care.copies import set_aside
from tacklebox.stock.care.restoring import restore
from tacklebox.stock.care.schema import SCHEMA_VERSION, make_tables, plain_words
from tacklebox.stock.finding import find, load
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.tables import Why
from tests.rigs.boxes import DAY, make_box, on_hand
from tests.stock.test_upgrade import old_box


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
    with pytest.raises(AskedWronglyError, match="is a file") as refused:
        open_box(tmp_path / "file")
    assert refused.value.field == "box"
    assert "Name a folder" in refused.value.right
    with closing(sqlite3.connect(tmp_path / DATABASE_NAME)) as other:
        other.execute("CREATE TABLE other (x)")
        other.execute(f"PRAGMA user_version = {SCHEMA_VERSION}")  # as if it were a box
    with pytest.raises(AskedWronglyError, match="no Tacklebox box") as refused:
        open_box(tmp_path)
    assert refused.value.where == str(tmp_path / DATABASE_NAME)
    assert refused.value.field == "box"


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(CannotBeDoneError, match="cannot be made: Not a directory") as refused:
        open_box(tmp_path / "file" / "box")
    assert refused.value.where == str(tmp_path / "file" / "box")
    assert refused.value.field == "box"


def test_a_newer_box_is_told_with_its_place(tmp_path: Path) -> None:
    box = open_box(tmp_path)
    with closing(sqlite3.connect(box.database)) as connection:
        connection.execute(f"PRAGMA user_version = {SCHEMA_VERSION + 1}")
    with pytest.raises(
        CannotBeDoneError, match=f"version {SCHEMA_VERSION + 1} of the box"
    ) as refused:
        open_box(tmp_path)
    assert refused.value.where == str(tmp_path)
    assert "newer program" in refused.value.right


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
        with closing(sqlite3.connect(box.database, timeout=0, isolation_level=None)) as other:
            give_checks(other)
            with pytest.raises(sqlite3.OperationalError, match="locked"):
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
    ("code", "right"),
    [
        (sqlite3.SQLITE_BUSY, "try again in a moment"),
        (sqlite3.SQLITE_LOCKED_SHAREDCACHE, "try again in a moment"),
        (sqlite3.SQLITE_READONLY_DIRECTORY, "may be written"),
        (sqlite3.SQLITE_CANTOPEN, "may be written"),
        (sqlite3.SQLITE_FULL, "make room"),
        (sqlite3.SQLITE_IOERR_FSYNC, "make room"),
        (sqlite3.SQLITE_TOOBIG, "Nothing was half saved"),
        (None, "Nothing was half saved"),
    ],
)
def test_what_the_database_says_comes_with_what_to_do(code: int | None, right: str) -> None:
    raw = sqlite3.OperationalError("something of SQLite's own")
    if code is not None:
        raw.sqlite_errorcode = code
    wrapped: DatabaseError = OperationalError("SELECT 1", {}, raw)
    for error in (raw, wrapped):
        answer = plain_words(error, Path("box"))
        assert answer.what == "the box says: something of SQLite's own."
        assert (answer.where, right in answer.right) == ("box", True)


@pytest.mark.parametrize("data", [b"no database " * 99, b""])
def test_damage_is_told_with_the_newest_copy(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "file").write_bytes(data)
    with (
        closing(sqlite3.connect(tmp_path / "file")) as connection,
        pytest.raises(sqlite3.DatabaseError) as raised,
    ):
        connection.execute("SELECT * FROM item")
    answer = plain_words(raised.value, tmp_path)
    assert answer.what == f"the file is damaged or no box; SQLite says: {raised.value}."
    assert (answer.where, answer.see) == (str(tmp_path / DATABASE_NAME), "care.restore FILE")
    (tmp_path / SET_ASIDE).mkdir()
    for name, day in (("version-1", "2026-03-05"), ("replaced", "2026-04-07"), ("x", "2025-01-01")):
        path = tmp_path / SET_ASIDE / f"{name}.sqlite3"
        path.write_bytes(b"some")
        time = datetime.fromisoformat(f"{day}T12:00").timestamp()
        os.utime(path, (time, time))
    newest = tmp_path / SET_ASIDE / "replaced.sqlite3"
    answer = plain_words(raised.value, tmp_path)
    assert f"The newest copy in its folder is of Tuesday 7 April 2026: {newest}." in answer.right
    assert answer.see == f"care.restore {newest}"


def other_files(folder: Path, name: str) -> None:
    (folder / name).parent.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text("mine")


@pytest.mark.parametrize("data", [b"", b"x", None])
@pytest.mark.parametrize(
    "name", ["recipes/mine.toml", "matches/open.toml", f"{SET_ASIDE}/replaced-2026-03-05-1.sqlite3"]
)
def test_an_empty_database_beside_other_files_is_damage(
    tmp_path: Path, data: bytes | None, name: str
) -> None:
    other_files(tmp_path, name)
    if data is not None:
        (tmp_path / DATABASE_NAME).write_bytes(data)
    before = sorted(path.name for path in tmp_path.rglob("*"))
    if data is None and name.endswith(".toml"):
        assert open_box(tmp_path).is_new  # he laid his recipe there first
        return
    how = "is gone" if data is None else "is empty"
    with pytest.raises(
        CannotBeDoneError, match=f"the box's database {how}, but the rest"
    ) as refused:
        open_box(tmp_path)
    assert refused.value.where == str(tmp_path / DATABASE_NAME)
    copy = tmp_path / name if name.endswith("sqlite3") else "FILE"
    assert refused.value.see == f"care.restore {copy}"
    assert sorted(path.name for path in tmp_path.rglob("*")) == before


@pytest.mark.parametrize("data", [b"", b"x", None])
def test_an_empty_database_alone_is_a_new_box(tmp_path: Path, data: bytes | None) -> None:
    (tmp_path / "recipes").mkdir()
    if data is not None:
        (tmp_path / DATABASE_NAME).write_bytes(data)
    assert open_box(tmp_path).is_new


@pytest.mark.parametrize("pages", [1, 5, 20])
def test_a_database_that_is_cut_is_told_with_what_is_there(box: Box, pages: int) -> None:
    copy = set_aside(box.database, "replaced")
    box.close()
    whole = box.database.read_bytes()
    box.database.write_bytes(whole[: 4096 * pages + 100])
    with pytest.raises(CannotBeDoneError, match="the file is damaged or no box") as refused:
        open_box(box.folder)
    assert refused.value.see == f"care.restore {copy}"
    restore(box.folder, copy, lambda _: False)
    assert on_hand(open_box(box.folder)) == {"hook 18": 10, "hook 20": 10}


def test_a_database_that_goes_while_the_box_is_open_is_told(box: Box) -> None:
    for path in (box.database.unlink, lambda: box.database.write_bytes(b"")):
        path()
        with (
            pytest.raises(CannotBeDoneError, match=r"database is (gone|empty)\."),
            box.reading() as session,
        ):
            load(session)
    assert box.database.read_bytes() == b""


def test_another_database_in_its_place_is_opened(box: Box, tmp_path: Path) -> None:
    other = make_box(tmp_path / "other", "waggler 4BB")
    other.close()
    seen = box.mark()
    other.database.replace(box.database)
    assert on_hand(box) == {"waggler 4BB straight": 1}
    assert box.mark().box != seen.box
    with box.writing() as session:
        begin(session, "edit", DAY)
        find(session, "1").place = "tube"
    with open_box(box.folder).reading() as session:
        assert find(session, "1").place == "tube"


def test_an_older_database_in_its_place_is_brought_up_to_date(tmp_path: Path) -> None:
    said: list[str] = []
    box = open_box(tmp_path / "box", notice=said.append)
    old_box(tmp_path / "old", 1).replace(box.database)
    assert on_hand(box)["hook 20 barbless spade"] == 9
    assert len(said) == 1
    assert "was brought up to date" in said[0]


def test_many_threads_read_and_write_at_a_time(tmp_path: Path) -> None:
    """Each buys ten times one more than what it read: none reads what another half wrote, none is lost."""
    made = make_box(tmp_path / "box", "hook 18 pack 10")
    made.close()
    said: list[str] = []
    box = open_box(made.folder, notice=said.append, threads=8)
    all_ready = threading.Barrier(8)

    def work() -> int:
        all_ready.wait()
        for _ in range(10):
            with box.writing() as session:
                hook = find(session, "1")
                move(session, begin(session, "buy", DAY), hook, 1, Why.BOUGHT)
            assert on_hand(box)["hook 18"] > 10
        return box.mark().changes

    with ThreadPoolExecutor(8) as pool:
        for done in [pool.submit(work) for _ in range(8)]:
            done.result()
    assert on_hand(box)["hook 18"] == 10 + 8 * 10
    assert audit(box.database).faults == ()
    pooled = box.engine.pool
    assert isinstance(pooled, QueuePool)
    assert pooled.checkedout() == 0
    assert pooled.size() == 8
    box.close()


def test_writers_of_one_process_wait_for_one_another(
    box: Box, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(waiting, "ALONE_MS", 30)
    monkeypatch.setattr(waiting, "PATIENCE_MS", 60)
    said: list[str] = []
    asked = open_box(box.folder, notice=said.append)

    def write() -> None:
        with asked.writing() as session:
            begin(session, "edit", DAY)

    with ThreadPoolExecutor(1) as pool:
        with asked.writing() as session:
            begin(session, "edit", DAY)
            with pytest.raises(CannotBeDoneError, match="locked"):
                pool.submit(write).result()
        pool.submit(write).result()
    assert said == ["Something else is writing to the box; waiting for it…"]


def test_a_transaction_within_another_joins_it(box: Box) -> None:
    with box.writing() as outer:
        action = begin(outer, "edit", DAY)
        with box.keyed("x").writing() as inner:
            assert inner is outer
            assert begin(inner, "edit", DAY) is action
            find(inner, "1").place = "drawer"
    with box.reading() as session:
        assert find(session, "1").place == "drawer"


def test_of_a_transaction_of_which_a_part_failed_nothing_is_kept(box: Box) -> None:
    def fails() -> None:
        with box.writing() as inner:
            begin(inner, "edit", DAY)
            find(inner, "1").place = "drawer"
            raise CannotBeDoneError("no.")

    def goes_on() -> None:
        with box.writing(), suppress(CannotBeDoneError):
            fails()

    with pytest.raises(RuntimeError, match="a part of this transaction failed"):
        goes_on()
    with box.reading() as session:
        assert find(session, "1").place == ""


def test_a_box_that_others_could_read_is_its_users_alone_from_its_next_opening_on(
    tmp_path: Path,
) -> None:
    box = make_box(tmp_path / "box", "hook 18 pack 10")
    box.close()
    box.folder.chmod(0o755)
    box.database.chmod(0o644)
    said: list[str] = []
    for _ in range(2):
        open_box(box.folder, notice=said.append).close()
    assert said == ["Others on this computer could read the box; it is for you alone now."]
    assert [path.stat().st_mode & 0o777 for path in (box.folder, box.database)] == [0o700, 0o600]


def test_a_folder_that_holds_more_than_a_box_keeps_its_rights(tmp_path: Path) -> None:
    box = make_box(tmp_path / "box", "hook 18 pack 10")
    box.close()
    (box.folder / "letters").mkdir()
    box.folder.chmod(0o755)
    (box.folder / "recipes").chmod(0o755)
    box.database.chmod(0o640)
    said: list[str] = []
    for _ in range(2):
        open_box(box.folder, notice=said.append).close()
    assert said == ["Others on this computer could read the box; it is for you alone now."]
    for path, rights in ((".", 0o755), ("recipes", 0o700), (DATABASE_NAME, 0o600)):
        assert (box.folder / path).stat().st_mode & 0o777 == rights


def test_a_new_box_in_a_folder_that_was_there_is_private_without_a_word(tmp_path: Path) -> None:
    (tmp_path / "box").mkdir(mode=0o755)
    said: list[str] = []
    box = open_box(tmp_path / "box", notice=said.append)
    assert said == []
    assert box.folder.stat().st_mode & 0o777 == 0o700
