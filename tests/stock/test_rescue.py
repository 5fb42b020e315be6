"""Of a damaged box no copy is made unasked; asked, all that can be saved is, and the rest is listed."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.desk import Desk, care, rigs, tying
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
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
        return connection.execute(f'SELECT * FROM "{table}" ORDER BY 1').fetchall()


def in_order(folder: Path, copy: Path) -> None:
    """The copy can be put back, so it passed the audit."""
    run("restore", str(copy), "--yes", box=folder / "other")
    assert run("audit", box=folder / "other").stdout.startswith("All in order")


DAMAGE = (
    ("UPDATE item SET on_hand = 77 WHERE id = 1", "item 1", 0),
    ("UPDATE tied SET snapshot = '{' WHERE id = 2", "tied", 1),
    ("DELETE FROM action WHERE id = 3", "", 0),
    ("UPDATE movement SET amount = 'some' WHERE id = 3", "movement", 1),
    ("DELETE FROM hook WHERE item_id = 1", "item 1", 1),
    ("DROP TRIGGER {trigger}", "rule", 0),
)


@pytest.mark.parametrize(("sql", "where", "lost"), DAMAGE)
def test_damage_does_not_travel_and_the_rest_is_saved(
    box: Path, tmp_path: Path, sql: str, where: str, lost: int
) -> None:
    damage(box / DATABASE_NAME, sql)
    copy, out = tmp_path / "copy.sqlite3", tmp_path / "out"
    for refused in (
        run("copy", str(copy), box=box, expect=1),
        run("export", str(out), box=box, expect=1),
    ):
        assert "the box is damaged, so it was not" in refused.stderr
        assert where in refused.stderr
        assert "With --rescue, what can be saved is" in refused.stderr
    assert {path.name for path in tmp_path.iterdir()} == {"box"}
    saved = care.copy(Desk(box), copy, rescue=True)
    assert bool(saved.not_saved) >= bool(lost)
    if "movement" not in sql and "hook" not in sql:
        in_order(tmp_path, copy)
    kept = len(rows(copy, "item")), len(rows(copy, "tied")), len(rows(copy, "movement"))
    had = [len(rows(box / DATABASE_NAME, table)) for table in ("item", "tied", "movement")]
    assert sum(had) - sum(kept) <= (0, 40)[lost]


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
    done = run("export", str(tmp_path / "out"), "--rescue", box=box)
    assert "What could not be saved, or is still wrong:" in done.stdout
    assert "what was tied cannot be read" in done.stdout
    run("import", str(tmp_path / "out"), box=tmp_path / "other")
    assert len(rigs.listed(Desk(tmp_path / "other"), every=True)) == 3
    assert (tmp_path / "other" / "recipes" / "short-rig.toml").exists()
