"""The commands that care for the box, as processes."""

import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tests.cli.runs import run
from tests.cli.terminal import CTRL_C, typed
from tests.rigs.boxes import canal_rig, make_box


@pytest.fixture
def box(tmp_path: Path) -> Path:
    made = make_box(tmp_path / "box")
    run("tie", canal_rig().recipe.stem, "--on", "2026-03-05", box=made.folder)
    return made.folder


def narrow(text: str) -> bool:
    return all(len(line) <= 80 for line in text.splitlines())


def test_audit(box: Path) -> None:
    assert run("audit", box=box).stdout.startswith("All in order: 10 items, ")
    answer = json.loads(run("audit", "--json", box=box).stdout)
    assert (answer["in_order"], answer["rigs"], answer["faults"]) == (True, 1, [])
    with closing(sqlite3.connect(box / "tacklebox.sqlite3")) as connection:
        connection.execute("DROP TRIGGER movement_is_never_changed")
        connection.execute("UPDATE movement SET amount = 77 WHERE id = 3")
        connection.commit()
    done = run("audit", box=box, expect=1)
    assert "movement_is_never_changed" in done.stdout
    assert narrow(done.stdout)
    answer = json.loads(run("audit", "--json", box=box, expect=1).stdout)
    assert answer["faults"][0]["where"] == "rule movement_is_never_changed"


def test_undo(box: Path) -> None:
    done = run("undo", "--on", "2026-03-06", box=box)
    assert done.stdout.startswith("Undone: tie 1 × Canal pole, shot, of 2026-03-05.\n")
    assert "Now untied: A01T." in done.stdout
    assert narrow(done.stdout)
    assert json.loads(run("rigs", "list", "--json", box=box).stdout) == []
    answer = json.loads(run("redo", "--json", box=box).stdout)
    assert answer["done_again"] is True
    assert answer["rigs"] == [{"code": "A01T", "state": "ready", "labelled": False}]
    run("undo", "--on", "someday", box=box, expect=2)


def test_labels_of_an_untied_rig_are_to_be_thrown_out(box: Path, tmp_path: Path) -> None:
    run("labels", "--to", str(tmp_path / "l.pdf"), box=box)
    assert "Labels were printed for A01T: throw them out." in run("undo", box=box).stdout


def test_copy_and_restore(box: Path, tmp_path: Path) -> None:
    copy = str(tmp_path / "copy.sqlite3")
    run("copy", copy, box=box)
    run("copy", copy, box=box, expect=2)
    run("undo", box=box)
    said = run("restore", copy, box=box, expect=1).stderr
    assert "1 action" in said
    assert "--yes" in said
    assert json.loads(run("rigs", "list", "--json", box=box).stdout) == []
    run("restore", copy, "--yes", box=box)
    assert "A01T" in run("rigs", "list", box=box).stdout
    run("restore", str(tmp_path / "none"), box=box, expect=2)
    new = tmp_path / "new"
    assert json.loads(run("restore", copy, "--json", box=new).stdout)["set_aside"] is None
    assert "A01T" in run("rigs", "list", box=new).stdout


def test_restore_asks_at_a_terminal(box: Path, tmp_path: Path) -> None:
    copy = str(tmp_path / "copy.sqlite3")
    run("copy", copy, box=box)
    run("undo", box=box)
    code, screen = typed("restore", copy, box=box, answers=["n"])
    assert code == 1
    assert "The box holds what the copy does not: 1 action, " in screen
    assert "Nothing was put back" in screen
    code, _ = typed("restore", copy, box=box, answers=[CTRL_C])
    assert code != 0
    assert not (box / "set-aside").exists()
    assert json.loads(run("rigs", "list", "--json", box=box).stdout) == []
    code, screen = typed("restore", copy, box=box, answers=["y"])
    assert code == 0
    assert "A01T" in run("rigs", "list", box=box).stdout


def test_a_copy_tells_of_files_that_are_not_in_it(box: Path, tmp_path: Path) -> None:
    run("venue", "start", "pond", box=box)
    run("recipe", "start", "mine", box=box)
    answer = run("copy", str(tmp_path / "copy.sqlite3"), box=box).stdout
    assert "Your own recipes and venues are files beside it" in answer


def test_export_and_import(box: Path, tmp_path: Path) -> None:
    out = str(tmp_path / "out")
    run("export", out, box=box)
    run("export", out, box=box, expect=2)
    run("import", out, box=box, expect=1)
    new = tmp_path / "new"
    assert run("import", out, box=new).stdout.startswith("Read 10 items, ")
    assert run("stock", "list", box=new).stdout == run("stock", "list", box=box).stdout
    assert run("audit", box=new).returncode == 0
    (tmp_path / "here").mkdir()
    run("export", ".", box=box, cwd=tmp_path / "here")
    run("export", ".", box=box, cwd=tmp_path / "here", expect=2)
    assert (tmp_path / "here" / "box.toml").read_text() == (
        tmp_path / "out" / "box.toml"
    ).read_text()
