"""Of a damaged box no copy is made unasked; asked, all that can be saved is, and the rest is listed."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.desk import Desk, care, rigs, tying
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.stock.care.audit import audit
from tests.cli.match_boxes import make_match_box
from tests.cli.runs import run
from tests.long.hostile import damage
from tests.stock.test_damage import cut_a_page


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A box with two ready rigs and a batch of hooklengths, one rig stripped."""
    folder = make_match_box(tmp_path_factory.mktemp("made") / "box", hooks="30")
    desk = Desk(folder)
    for name, count in (("short-rig", 3), ("hooklength-fine", 2)):
        tying.tie(desk, name, {}, count=count)
    rigs.strip(desk, [rigs.listed(desk)[0].code])
    desk.close()
    return folder


@pytest.fixture
def box(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "box"))


def rows(database: Path, table: str) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(database)) as connection:
        connection.text_factory = bytes
        return connection.execute(f'SELECT * FROM "{table}" ORDER BY 1').fetchall()


DAMAGE = (
    ("UPDATE item SET on_hand = 77 WHERE id = 1", "item 1", 0),
    ("UPDATE tied SET snapshot = '{' WHERE id = 2", "rig", 1),
    ("DELETE FROM action WHERE id = 3", "", 1),
    ("UPDATE movement SET amount = 'some' WHERE id = 3", "movement", 1),
    ("DELETE FROM hook WHERE item_id = 1", "item 1", 40),
    ("DROP TRIGGER {trigger}", "rule", 0),
    ("CREATE TRIGGER foreign_rule AFTER INSERT ON action BEGIN DELETE FROM item; END", "rule", 0),
    ("UPDATE item SET name = CAST(x'fffe' AS TEXT) WHERE id = 5", "", 40),
)


@pytest.mark.parametrize(("sql", "where", "lost"), DAMAGE)
def test_damage_does_not_travel_and_the_rest_is_saved(
    box: Path, tmp_path: Path, sql: str, where: str, lost: int
) -> None:
    """``lost`` is how many rows may be left out; what is left can be put back."""
    damage(box / DATABASE_NAME, sql)
    copy, desk = tmp_path / "copy.sqlite3", Desk(box)
    for refused in (lambda: care.copy(desk, copy), lambda: care.export(desk, tmp_path / "out")):
        with pytest.raises(CannotBeDoneError, match="the box is damaged, so it was not") as told:
            refused()
        assert where in told.value.what
    assert {path.name for path in tmp_path.iterdir()} == {"box"}
    saved = care.copy(desk, copy, rescue=True)
    assert bool(saved.not_saved) == bool(lost)
    if "movement" not in sql and "hook" not in sql:  # what was tied from is not what was taken
        assert audit(copy, Snapshot.from_json).faults == ()
    kept, had = (
        sum(len(rows(database, table)) for table in ("item", "tied", "movement"))
        for database in (copy, box / DATABASE_NAME)
    )
    assert had - kept <= lost


def test_the_command_says_what_to_do_and_what_was_left_out(box: Path, tmp_path: Path) -> None:
    damage(box / DATABASE_NAME, "UPDATE tied SET snapshot = '{' WHERE id = 2")
    for words in (("copy", str(tmp_path / "copy")), ("export", str(tmp_path / "out"))):
        refused = run(*words, box=box, expect=1).stderr
        assert "the box is damaged, so it was not" in refused
        assert "With --rescue, what can be saved is" in refused
        done = run(*words, "--rescue", box=box)
        assert "What could not be saved, or is still wrong:" in done.stdout
        assert "what was tied cannot be read" in done.stdout


def test_what_a_bad_page_held_is_left_out_and_listed(box: Path, tmp_path: Path) -> None:
    cut_a_page(box / DATABASE_NAME, "tieduse")
    with pytest.raises(CannotBeDoneError, match="damaged, so it was not copied"):
        care.copy(Desk(box), tmp_path / "copy")
    saved = care.copy(Desk(box), tmp_path / "copy", rescue=True)
    assert any(one.where.startswith("tieduse") for one in saved.not_saved)
    assert rows(tmp_path / "copy", "item") == rows(box / DATABASE_NAME, "item")
    assert rows(tmp_path / "copy", "tied") == rows(box / DATABASE_NAME, "tied")


def test_a_box_in_order_is_saved_whole(box: Path, tmp_path: Path) -> None:
    saved = care.copy(Desk(box), tmp_path / "copy", rescue=True)
    assert saved.not_saved == ()
    for table in (
        "item",
        "movement",
        "tied",
        "tieduse",
        "batch",
        "change",
        "action",
        "statechange",
    ):
        assert rows(tmp_path / "copy", table) == rows(box / DATABASE_NAME, table)
    with pytest.raises(AskedWronglyError, match="there is such a file already"):
        care.copy(Desk(box), tmp_path / "copy", rescue=True)


def test_what_was_saved_is_written_out_and_read_in_again(box: Path, tmp_path: Path) -> None:
    damage(box / DATABASE_NAME, "UPDATE tied SET snapshot = '{' WHERE id = 2")
    assert care.export(Desk(box), tmp_path / "out", rescue=True).not_saved
    other = Desk(tmp_path / "other")
    care.read_in(other, tmp_path / "out")
    assert [rig.made.unreadable for rig in rigs.listed(other, every=True)] == [False, True, False]
    assert (tmp_path / "other" / "recipes" / "short-rig.toml").exists()
