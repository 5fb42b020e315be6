"""A rig whose snapshot is damaged is listed as unreadable, and takes nothing else down."""

import io
import shutil
import zipfile
from pathlib import Path

import pytest

from tacklebox.desk import Desk, care, hooklengths, labels, plans, rigs, tying
from tacklebox.errors import CannotBeDoneError
from tacklebox.web.unpacking import NOT_SAVED, unpack
from tests.cli.match_boxes import make_match_box
from tests.cli.runs import run
from tests.long.hostile import damage
from tests.web.conftest import serving

UNREADABLE = "what was tied cannot be read"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two ready rigs and a batch of hooklengths."""
    folder = make_match_box(tmp_path_factory.mktemp("made") / "box", hooks="30")
    desk = Desk(folder)
    for name in ("short-rig", "hooklength-fine"):
        tying.tie(desk, name, {}, count=2)
    desk.close()
    return folder


@pytest.fixture
def box(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "box"))


def spoil(box: Path) -> None:
    damage(box / "tacklebox.sqlite3", "UPDATE tied SET snapshot = '{' WHERE id = 1")


def test_the_others_are_listed_and_it_is_listed_as_unreadable(box: Path) -> None:
    spoil(box)
    desk = Desk(box)
    first, second = rigs.listed(desk)
    assert (first.made.unreadable, first.made.name) == (True, UNREADABLE)
    assert (second.made.unreadable, second.made.name) == (False, "Short rig")
    assert first.made.code == first.code
    desk.close()


def test_it_serves_no_match_gets_no_label_and_no_drawing_but_can_be_stripped(
    box: Path, tmp_path: Path
) -> None:
    spoil(box)
    said: list[str] = []
    desk = Desk(box, notice=said.append)
    first, second = (rig.code for rig in rigs.listed(desk))
    assert first not in str(plans.plan(desk, "open"))
    printed = labels.print_rigs(desk, tmp_path / "labels.pdf", labels.OnPaper())
    assert first not in printed.codes
    assert second in printed.codes
    assert said[0] == f"What was tied cannot be read of {first}: no label is printed for it."
    with pytest.raises(CannotBeDoneError, match=f"{UNREADABLE} of {first}, so it gets no label"):
        labels.print_rigs(desk, tmp_path / "one.pdf", labels.OnPaper(), [first])
    with pytest.raises(CannotBeDoneError, match=f"{UNREADABLE}, so {first} cannot be drawn"):
        rigs.draw(desk, first)
    assert rigs.strip(desk, [first])[0].state == "stripped"
    desk.close()


def test_a_batch_likewise(box: Path) -> None:
    damage(box / "tacklebox.sqlite3", "UPDATE batch SET snapshot = '{'")
    desk = Desk(box)
    (row,) = hooklengths.listed(desk)
    shown = hooklengths.show(desk, row.batches[0].code)
    assert shown.made.unreadable
    assert shown.batch.left == 2
    desk.close()


def test_the_command_line_and_the_pages_say_so(box: Path, tmp_path: Path) -> None:
    spoil(box)
    assert UNREADABLE in run("rigs", "list", box=box).stdout
    code = run("rigs", "list", box=box).stdout.splitlines()[2].split()[0]
    assert UNREADABLE in run("rigs", "show", code, box=box).stdout
    with serving(box) as pages, pages.client() as client:
        tray = client.get("/rigs").text
        assert (tray.count(UNREADABLE), tray.count("glance.svg")) == (1, 1)
        one = client.get(f"/rigs/{code}").text
        assert "What was tied cannot be read: the box is damaged." in one
        assert client.get(f"/rigs/{code}/drawing.svg").status_code == 409
        assert client.get("/").status_code == 200
        assert "Save what can be saved" in client.get("/care?done=audit").text
        assert client.get("/care/export.zip").status_code == 409
        saved = client.get("/care/export.zip?rescue=1").content
        with zipfile.ZipFile(io.BytesIO(saved)) as archive:
            assert "what was tied cannot be read" in archive.read(NOT_SAVED).decode()
        unpack(saved, tmp_path)
        assert not (tmp_path / NOT_SAVED).exists()
    assert care.read_in(Desk(tmp_path / "new"), tmp_path).rows["tied"]


def test_a_page_that_fails_by_damage_tells_of_it(box: Path) -> None:
    """A price of words is met by no page but the item's, and looked for by none."""
    damage(box / "tacklebox.sqlite3", "UPDATE item SET added_on = 'soon' WHERE id = 3")
    with serving(box) as pages, pages.client() as client:
        answer = client.get("/stock/3")
        assert answer.status_code == 409
        assert "the box is damaged" in answer.text
