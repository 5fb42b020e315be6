"""``tacklebox match pack`` and ``match shopping`` as processes."""

import csv
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


def test_the_same_words_on_screen_as_json_and_on_paper(box: Path, tmp_path: Path) -> None:
    shown = run("match", "pack", "open", box=box).stdout
    assert max(len(line) for line in shown.splitlines()) <= 80
    told = json.loads(run("match", "pack", "open", "--json", box=box).stdout)
    pdf = tmp_path / "pack.pdf"
    wrote = run("match", "pack", "open", "--to", str(pdf), box=box).stdout
    with pdfplumber.open(pdf) as read:
        printed = "".join(c["text"] for page in read.pages for c in page.chars)
        pages = len(read.pages)
    assert f"{pages} page" in wrote
    sections = {s["heading"]: s["entries"] for s in told["sections"]}
    assert list(sections)[:3] == ["Before anything else", "Rigs", "Hooklengths"]
    assert "A01T" in [e["first"] for e in sections["Hooklengths"]]
    for entries in sections.values():
        for entry in entries:
            for words in (entry["first"], entry["words"]):
                assert squeezed(words) in squeezed(shown)
                assert squeezed(words) in squeezed(printed)
    assert "come first" in told["comes_first"]
    assert shown.count("[ ]") == sum(e["tick"] for s in sections.values() for e in s)
    assert "10 still to be tied" not in shown
    assert "5 still to be tied: `tacklebox match tie open`" in shown  # one rig, four hooklengths


def squeezed(words: str) -> str:
    return "".join(words.split())


def test_after_tying_all_have_codes(box: Path) -> None:
    run("match", "tie", "open", box=box)
    told = json.loads(run("match", "pack", "open", "--json", box=box).stdout)
    firsts = [e["first"] for s in told["sections"] for e in s["entries"] if e["tick"]]
    assert "to tie" not in firsts
    assert {"A01T", "A02R", "A03P", "A04N", "A05L", "A06J"} <= set(firsts)


def test_shopping_as_table_csv_and_page(box: Path, tmp_path: Path) -> None:
    """Five hooks are short: one packet of ten at 1.80; two floats and winders of unknown price."""
    shown = run("match", "shopping", "open", box=box).stdout
    assert "1: for 5 × hooklength-fine." in shown
    assert max(len(line) for line in shown.splitlines()) <= 80
    told = json.loads(run("match", "shopping", "open", "--json", box=box).stdout)
    packs = {row["name"]: (row["packs"], row["cost_cents"]) for row in told["to_buy"]}
    assert packs == {
        "hook 20 barbless spade": (1, 180),
        "pole 4×12": (2, None),
        "winder 13 cm 18 mm": (2, None),
    }
    assert (told["total_cents"], told["prices_not_known"]) == (180, 2)
    assert "Total 1.80, 2 prices missing." in shown
    table, page = tmp_path / "buy.csv", tmp_path / "buy.pdf"
    run("stock", "edit", "winder 13 cm 18 mm", "--name", "=1+1", box=box)
    run("match", "shopping", "open", "--csv", str(table), "--to", str(page), box=box)
    with table.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert rows[0] == {
        "no.": "1", "item": "hook 20 barbless spade", "packets": "1 × 10",
        "price of a packet": "1.80", "price": "1.80", "what for": "for 5 × hooklength-fine",
    }  # fmt: skip
    assert "'=1+1" in [row["item"] for row in rows]  # no spreadsheet runs it
    with pdfplumber.open(page) as read:
        text = " ".join(read.pages[0].extract_text().split())
    assert "To buy for My match" in text
    assert "total 1.80, 2 prices missing" in text
    assert not any("total" in row["item"] for row in rows)
    refused = run("match", "shopping", "open", "--to", str(page), box=box, expect=2).stderr
    assert "left as it is" in refused


def test_nothing_to_buy(box: Path, tmp_path: Path) -> None:
    less = ("count = 2", "count = 1"), ("count = 6", "count = 1")
    none = ("spares = 1", "spares = 0"), ("spares = 4", "spares = 0")
    change(box / "matches" / "open.toml", *less, *none)
    assert "Nothing is to be bought." in run("match", "shopping", "open", box=box).stdout
    page, table = tmp_path / "buy.pdf", tmp_path / "buy.csv"
    files = ["--to", str(page), "--csv", str(table)]
    told = run("match", "shopping", "open", *files, box=box).stdout
    assert "Nothing is to be bought: there are only heads in it." in told
    with pdfplumber.open(page) as read:
        assert "Nothing is to be bought." in read.pages[0].extract_text()
    assert len(table.read_text(encoding="utf-8").splitlines()) == 1


def test_what_the_font_has_not_is_told(box: Path, tmp_path: Path) -> None:
    change(box / "matches" / "open.toml", ('"landing net"', '"landing net 🐟"'))
    run("stock", "edit", "hook 20 barbless spade", "--name", "hook 鯉 20", box=box)
    page = str(tmp_path / "page.pdf")
    for command, characters in (("pack", "鯉🐟"), ("shopping", "鯉")):
        words = ["match", command, "open", "--to", page, "--replace"]
        told = run(*words, box=box).stdout
        assert f"The font has no {', '.join(characters)}: □ stands there instead" in told
        told = json.loads(run(*words, "--json", box=box).stdout)
        assert told["characters_not_printed"] == list(characters)
        assert json.loads(run(*words[:3], "--json", box=box).stdout)["characters_not_printed"] == []


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (["pack", "open", "--to", "{box}"], 2, "this is a folder"),
        (["pack", "open", "--to", "{box}/no/p.pdf"], 1, "cannot be written"),
        (["pack", "open", "--to", "{box}/p.pdf", "--page", "a6"], 2, "no page size"),
        (["pack", "open", "--page", "a3"], 2, '--page: "a3" is no page size'),
        (["shopping", "open", "--page", "a3"], 2, '--page: "a3" is no page size'),
        (["pack", "nosuch"], 2, "no match"),
        (["shopping", "open", "--csv", "{box}/no/b.csv"], 1, "cannot be written"),
    ],
)
def test_faults_are_told_in_words(box: Path, words: list[str], code: int, told: str) -> None:
    said = [word.format(box=box) for word in words]
    assert told in run("match", *said, box=box, expect=code).stderr
    assert not (box / "p.pdf").exists()


def test_a_match_that_is_over(box: Path) -> None:
    change(box / "matches" / "open.toml", (SOON, "2020-01-01"))
    for command in ("pack", "shopping", "tie"):
        assert "which is past" in run("match", command, "open", box=box, expect=2).stderr
