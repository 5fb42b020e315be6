"""The commands that print labels, run as processes: what they say, write and refuse."""

import json
import os
import shutil
from pathlib import Path

import pdfplumber
import pytest

from tests.cli.runs import run

OWN_PAPER = """
name = "My own"
page = {{ width = "{page}", height = "100 mm" }}
label = {{ width = "60 mm", height = "30 mm" }}
grid = {{ columns = 1, rows = 3, left = "{left}" }}
"""


@pytest.fixture(scope="module")
def tied(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A box with two canal rigs, one of them stripped since, and items in two drawers."""
    box = tmp_path_factory.mktemp("tied") / "box"
    for words, place in (
        ("nylon 0.08 mm 0.7 kg 50 m", "drawer 1"),
        ("nylon 0.12 mm 1.6 kg 50 m", "drawer 1"),
        ("hook 20 barbless spade pack 10", "drawer 2"),
        ("pole 4×12", "drawer 2"),
        ("pole 4×12 tip 1.2 mm", "drawer 2"),
        ("shot No 8 tin pack 20", ""),
        ("shot No 10 tin pack 20", ""),
        ("winder 13 cm 18 mm", ""),
        ("elastic 4 6 m", ""),
        ("connector pack 4", ""),
    ):
        run("stock", "add", words, "--place", place, "--packs", "2", box=box)
    run("tie", "pole-canal-shot", "-n", "2", box=box)
    run("rigs", "strip", "A02R", box=box)
    return box


@pytest.fixture
def box(tied: Path, tmp_path: Path) -> Path:
    """A copy of it for one test."""
    copy = tmp_path / "box"
    shutil.copytree(tied, copy)
    return copy


def words_of(pdf: Path) -> str:
    with pdfplumber.open(pdf) as read:
        return " ".join(" ".join(str(page.extract_text()).split()) for page in read.pages)


def own_paper(box: Path, *, page: str = "100 mm", left: str = "5 mm") -> None:
    (box / "labels").mkdir(exist_ok=True)
    text = OWN_PAPER.format(page=page, left=left)
    (box / "labels" / "my-own.toml").write_text(text, encoding="utf-8")


@pytest.mark.parametrize("command", [("labels",), ("stock", "labels")])
@pytest.mark.parametrize(
    ("options", "expected"),
    [
        (["--paper", "a4-66"], 'there is no paper "a4-66". Did you mean "a4-65"?'),
        (["--paper", "../a4-65"], "is no paper name"),
        (["--paper", "a4-65", "--start", "66"],
         "place 66 is not on the paper a4-65. It has the places 1 to 65"),
        (["--paper", "a4-65", "--start", "0"], "place 0 is not on the paper"),
        (["--start", "first"], '--start: "first" is no place. Give its number, or "next".'),
        (["--paper", "a4-65", "--skip", "70"], "place 70 is not on the paper"),
    ],
)  # fmt: skip
def test_a_paper_or_place_that_is_not_there(
    tied: Path, tmp_path: Path, command: tuple[str, ...], options: list[str], expected: str
) -> None:
    target = tmp_path / "out.pdf"
    done = run(*command, *options, "--to", str(target), box=tied, expect=2)
    assert expected in " ".join(done.stderr.split())
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("page", "left", "expected"),
    [
        ("100 mm", "-5 mm", '"grid.left": "-5 mm" is no length'),
        ("50 mm", "0 mm", "0 + 0 × 60 + 60 = 60 mm is more than the page's width of 50 mm"),
    ],
)
def test_a_paper_that_cannot_be_tells_the_sum_or_key(
    box: Path, tmp_path: Path, page: str, left: str, expected: str
) -> None:
    own_paper(box, page=page, left=left)
    target = tmp_path / "out.pdf"
    done = run("labels", "--paper", "my-own", "--to", str(target), box=box, expect=2)
    assert "my-own.toml" in done.stderr
    assert expected in done.stderr
    assert not target.exists()


@pytest.mark.parametrize("command", [("labels", "A01T"), ("stock", "labels")])
def test_a_file_is_kept_unless_told_and_never_half_written(
    box: Path, tmp_path: Path, command: tuple[str, ...]
) -> None:
    target = tmp_path / "out.pdf"
    target.write_text("%PDF-mine")
    done = run(*command, "--to", str(target), box=box, expect=2)
    assert "there already; it was left as it is" in done.stderr
    assert "--replace" in done.stderr
    assert target.read_text() == "%PDF-mine"
    run(*command, "--to", str(target), "--replace", box=box)
    assert target.read_bytes().startswith(b"%PDF")
    assert run(*command, "--to", str(tmp_path), box=box, expect=2).stderr.endswith("Name a file.\n")
    nowhere = tmp_path / "no" / "out.pdf"
    again = run("labels", "A01T", "--to", str(nowhere), box=box, expect=1)
    assert "the file cannot be written: No such file or directory." in again.stderr
    assert sorted(p.name for p in tmp_path.iterdir()) == ["box", "out.pdf"]


@pytest.mark.skipif(os.geteuid() == 0, reason="a superuser may write anywhere")
def test_a_folder_that_may_not_be_written_is_told(box: Path, tmp_path: Path) -> None:
    folder = tmp_path / "locked"
    folder.mkdir(mode=0o500)
    done = run("labels", "--to", str(folder / "out.pdf"), box=box, expect=1)
    assert "cannot be written" in done.stderr
    assert list(folder.iterdir()) == []


def test_a_rig_since_taken_apart_gets_no_label(box: Path, tmp_path: Path) -> None:
    target = tmp_path / "out.pdf"
    done = run("labels", "A01T", "A02R", "--to", str(target), box=box, expect=2)
    assert "A02R is stripped; it needs no label. Nothing was printed." in done.stderr
    assert not target.exists()
    listed = json.loads(run("rigs", "list", "--json", box=box).stdout)
    assert [rig["labelled_on"] for rig in listed] == [None] * len(listed)


def test_a_mistyped_code_is_caught_and_a_near_one_offered(box: Path, tmp_path: Path) -> None:
    done = run("labels", "A01R", "--to", str(tmp_path / "out.pdf"), box=box, expect=2)
    assert "mistyped" in done.stderr
    assert "A01T" in done.stderr


def test_what_was_left_off_which_label_is_said(box: Path, tmp_path: Path) -> None:
    on = ("labels", "--paper", "a4-65", "--to")
    out = run(*on, str(tmp_path / "out.pdf"), box=box).stdout
    assert "1 label on 1 sheet" in out
    assert "A01T: no room for drawing, date, name, purpose" in " ".join(out.split())
    for length in ("15 cm", "20 cm"):
        run("tie", "hooklength-fine", "-n", "2", "--set", f"length={length}", box=box)
    out = run(*on, str(tmp_path / "two.pdf"), box=box).stdout
    assert "All: no room for drawing, purpose." in out
    large = run(
        "labels", "A01T", "--paper", "tape-58", "--to", str(tmp_path / "large.pdf"), box=box
    )
    assert "no room" not in large.stdout


def test_drawers_by_number_words_kind_and_place(box: Path, tmp_path: Path) -> None:
    def printed(*words: str) -> str:
        target = tmp_path / "drawers.pdf"
        run("stock", "labels", *words, "--to", str(target), "--replace", box=box)
        return words_of(target)

    assert "no. 10" in printed()
    by_number = printed("3", "winder")
    assert "hook 20" in by_number
    assert "winder 13 cm" in by_number
    assert "nylon" not in by_number
    assert printed("--kind", "line").count("drawer 1") == 2
    in_drawer = printed("--place", "Drawer 2")
    assert in_drawer.count("In drawer 2") == 3
    assert printed("--place", "drawer 2", "--kind", "hook").count("In drawer 2") == 1


def test_a_drawers_sheet_goes_on_where_it_was_left(box: Path, tmp_path: Path) -> None:
    first = run("stock", "labels", "--kind", "line", "--to", str(tmp_path / "a.pdf"), box=box)
    assert "Next free place: 3;" in first.stdout
    then = run("stock", "labels", "3", "--start", "next", "--to", str(tmp_path / "b.pdf"), box=box)
    assert "Next free place: 4;" in then.stdout
    papers = json.loads(run("paper", "list", "--json", box=box).stdout)["papers"]
    assert {p["paper"]: p["next_free"] for p in papers}["drawers-60"] == 4


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["--place", "drawer 9"], '--place: nothing lies in "drawer 9". Did you mean "drawer'),
        (["--kind", "hok"], 'Did you mean "hook"'),
        (["--kind", "feeder"], "there is nothing of the kind feeder in the box"),
        (["3", "--kind", "hook"], "items are named, and a kind or place is given too"),
        (["999"], "there is no item 999"),
        (["wibble"], 'nothing in stock is called "wibble"'),
    ],
)
def test_drawers_that_are_not_there(
    tied: Path, tmp_path: Path, words: list[str], expected: str
) -> None:
    done = run("stock", "labels", *words, "--to", str(tmp_path / "d.pdf"), box=tied, expect=2)
    assert expected in done.stderr
    assert list(tmp_path.iterdir()) == []


def test_an_empty_box_has_no_drawers(tmp_path: Path) -> None:
    done = run("stock", "labels", "--to", str(tmp_path / "d.pdf"), box=tmp_path / "box", expect=2)
    assert "there is nothing in the box. `tacklebox stock add` adds tackle." in done.stderr
    assert not (tmp_path / "d.pdf").exists()
    assert run("stock", "list", box=tmp_path / "box").stdout == "The box is empty.\n"
    assert run("stock", "list", "hook", box=tmp_path / "box").stdout.startswith("Nothing of that")


def test_an_own_paper_serves_both(box: Path, tmp_path: Path) -> None:
    own_paper(box)
    for command in (("labels",), ("stock", "labels", "3")):
        target = tmp_path / f"{len(command)}.pdf"
        run(*command, "--paper", "my-own", "--to", str(target), box=box)
        with pdfplumber.open(target) as read:
            assert float(read.pages[0].width) == pytest.approx(100 * 72 / 25.4, abs=0.1)
