"""``tacklebox match pack`` and ``match shopping``: on screen, on paper, as JSON; faults in words."""

import json
from pathlib import Path

import pdfplumber
import pytest

from tests.cli.match_boxes import SOON, change, make_match_box
from tests.cli.runs import run


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One canal rig of three can be tied, and five hooklengths of ten; A01T is one of them."""
    folder = make_match_box(tmp_path_factory.mktemp("made"), hooks="5")
    run("tie", "hooklength-fine", box=folder)
    change(folder / "venues" / "pond.toml", ("false ", "true "))
    return folder


def squeezed(words: str) -> str:
    return "".join(words.split())


def test_the_same_words_on_screen_and_as_json(box: Path) -> None:
    shown = run("match", "pack", "open", box=box).stdout
    assert max(map(len, shown.splitlines())) <= 80
    answer = json.loads(run("match", "pack", "open", "--json", box=box).stdout)
    entries = [entry for section in answer["sections"] for entry in section["entries"]]
    for entry in entries:
        assert squeezed(entry["first"] + entry["words"]) in squeezed(shown)
    assert shown.count("[ ]") == sum(entry["tick"] for entry in entries)


def test_what_is_still_to_be_tied_is_told_with_its_command(box: Path) -> None:
    answer = run("match", "pack", "open", box=box).stdout
    assert "5 still to be tied: `tacklebox match tie open`" in answer  # one rig, four hooklengths
    run("match", "tie", "open", box=box)
    assert "still to be tied" not in run("match", "pack", "open", box=box).stdout


def test_on_paper_it_says_how_many_pages(box: Path, tmp_path: Path) -> None:
    pdf = tmp_path / "pack.pdf"
    wrote = run("match", "pack", "open", "--to", str(pdf), box=box).stdout
    with pdfplumber.open(pdf) as read:
        assert f"Wrote {pdf}: {len(read.pages)} page" in wrote
    again = run("match", "pack", "open", "--to", str(pdf), box=box, expect=2).stderr
    assert "With --replace it is written over." in again


def test_the_shopping_list_as_a_table(box: Path) -> None:
    shown = run("match", "shopping", "open", box=box).stdout
    assert max(map(len, shown.splitlines())) <= 80
    rows = [" ".join(row.split()) for row in shown.splitlines()]
    assert "1 hook 20 barbless spade 1 × 10 1.80 1.80" in rows
    assert "1: for 5 × Fine hooklength." in rows
    assert "Total 1.80, 2 prices missing." in rows


def test_the_shopping_list_on_paper_and_as_csv(box: Path, tmp_path: Path) -> None:
    page, table = tmp_path / "buy.pdf", tmp_path / "buy.csv"
    files = ["--to", str(page), "--csv", str(table)]
    answer = run("match", "shopping", "open", *files, box=box).stdout.splitlines()
    assert answer == [f"Wrote {page}: 1 page.", f"Wrote {table}"]
    assert page.read_bytes().startswith(b"%PDF")
    assert table.read_text(encoding="utf-8").startswith("no.,item,")


def test_nothing_to_buy(box: Path, tmp_path: Path) -> None:
    less = ("count = 2", "count = 1"), ("count = 6", "count = 1")
    none = ("spares = 1", "spares = 0"), ("spares = 4", "spares = 0")
    change(box / "matches" / "open.toml", *less, *none)
    assert "Nothing is to be bought." in run("match", "shopping", "open", box=box).stdout
    files = ["--to", str(tmp_path / "buy.pdf"), "--csv", str(tmp_path / "buy.csv")]
    answer = run("match", "shopping", "open", *files, box=box).stdout
    assert "Nothing is to be bought: there are only heads in it." in answer


def test_what_the_font_has_not_is_told(box: Path, tmp_path: Path) -> None:
    change(box / "matches" / "open.toml", ('"landing net"', '"landing net 🐟"'))
    words = ["match", "pack", "open", "--to", str(tmp_path / "page.pdf")]
    assert "The font has no 🐟: □ stands there instead" in run(*words, box=box).stdout
    answer = json.loads(run(*words, "--replace", "--json", box=box).stdout)
    assert answer["printed"]["unknown"] == "🐟"


@pytest.mark.parametrize(
    ("words", "code", "expected"),
    [
        (["pack", "open", "--to", "{box}"], 2, "this is a folder"),
        (["pack", "open", "--to", "{box}/no/p.pdf"], 1, "cannot be written"),
        (["pack", "open", "--page", "a3"], 2, '--page: "a3" is no page size'),
        (["shopping", "open", "--page", "a3"], 2, '--page: "a3" is no page size'),
        (["pack", "nosuch"], 2, "no match"),
        (["shopping", "open", "--csv", "{box}/no/b.csv"], 1, "cannot be written"),
    ],
)
def test_faults_are_told_in_words(box: Path, words: list[str], code: int, expected: str) -> None:
    said = [word.format(box=box) for word in words]
    assert expected in run("match", *said, box=box, expect=code).stderr


def test_a_match_that_is_over(box: Path) -> None:
    change(box / "matches" / "open.toml", (SOON, "2020-01-01"))
    for command in ("pack", "shopping", "tie"):
        assert "which is past" in run("match", command, "open", box=box, expect=2).stderr
