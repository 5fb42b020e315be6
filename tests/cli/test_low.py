"""``tacklebox low``: tables that fit the screen, lists on paper and as CSV, faults in words."""

import csv
import json
import subprocess
import sys
from pathlib import Path

import pdfplumber
import pytest

from tests.cli.runs import run


@pytest.fixture(scope="module")
def box(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """12 hooks with a minimum of 5, 20 shot with one of 30, 50 m of line."""
    folder = tmp_path_factory.mktemp("low") / "box"
    hooks = ["stock", "add", "hook 20 barbless spade", "--pack", "10", "--price", "1.80"]
    run(*hooks, "--amount", "12", "--minimum", "5", box=folder)
    shot = ["stock", "add", "shot No 8 tin", "--pack", "20", "--price", "1.50", "--minimum", "30"]
    run(*shot, box=folder)
    run("stock", "add", "nylon 0.08 mm 0.7 kg 50 m", box=folder)
    return folder


def test_what_is_short_and_what_to_buy_stands_in_tables(box: Path) -> None:
    lines = run("low", "hooklength-fine=14", box=box).stdout.splitlines()
    assert max(map(len, lines)) <= 80
    rows = [" ".join(line.split()) for line in lines]
    for row in (
        "2 shot No 8 tin 20 30",
        "hooklength-fine 14 0 12 of 14 hook: 0 of hook 20 barbless spade",
        "1 hook 20 barbless spade 7 1 × 10 1.80",
        "2 shot No 8 tin 10 1 × 20 1.50",
        "total 3.30",
    ):
        assert row in rows
    assert "* from memory" in "\n".join(lines)


def test_nothing_short_is_said(tmp_path: Path) -> None:
    run("stock", "add", "nylon 0.08 mm 0.7 kg 50 m", box=tmp_path / "box")
    answer = run("low", box=tmp_path / "box").stdout
    assert answer == "Nothing is short of its minimum.\n"


def test_json_is_the_desks_answer(box: Path) -> None:
    answer = json.loads(run("low", "hooklength-fine=14", "--json", box=box).stdout)
    assert [one["short"]["value"] for one in answer["shopping"]["to_buy"]] == [7, 10]


def test_the_list_on_paper_and_as_csv(box: Path, tmp_path: Path) -> None:
    pdf, table = tmp_path / "buy.pdf", tmp_path / "buy.csv"
    words = ["low", "hooklength-fine=14", "--to", str(pdf), "--csv", str(table)]
    run(*words, box=box)
    with pdfplumber.open(pdf) as opened:
        text = opened.pages[0].extract_text()
    assert "hook 20 barbless spade" in text
    assert "3.30" in text
    rows = list(csv.reader(table.read_text(encoding="utf-8").splitlines()))
    assert [row[-2] for row in rows[1:]] == [
        "for 2 × Fine hooklength, and a minimum of 5", "for a minimum of 30"
    ]  # fmt: skip
    assert "--replace" in run(*words, box=box, expect=2).stderr
    run("low", "hooklength-fine=14", "--to", str(pdf), "--replace", box=box)


def test_a_total_says_how_many_prices_are_missing(box: Path) -> None:
    lines = run("low", "hooklength-fine=300", box=box).stdout.splitlines()
    assert max(map(len, lines)) <= 80
    assert any(line.endswith(", 1 price missing.") for line in lines)
    assert not any(line.split()[:1] == ["total"] for line in lines)


def test_nothing_to_buy_is_a_list_with_its_heads_alone(tmp_path: Path) -> None:
    run("stock", "add", "nylon 0.08 mm 0.7 kg 50 m", box=tmp_path / "box")
    pdf, table = tmp_path / "buy.pdf", tmp_path / "buy.csv"
    answer = run("low", "--to", str(pdf), "--csv", str(table), box=tmp_path / "box")
    assert "Nothing is to be bought: there are only heads in it." in answer.stderr
    with pdfplumber.open(pdf) as opened:
        assert "Nothing is to be bought." in opened.pages[0].extract_text()
    (head,) = csv.reader(table.read_text(encoding="utf-8").splitlines())
    assert head[:2] == ["no.", "item"]


def test_what_the_font_has_not_is_said(tmp_path: Path) -> None:
    box, pdf = tmp_path / "box", tmp_path / "buy.pdf"
    run("stock", "add", "shot No 8 tin", "--pack", "20", "--minimum", "30", box=box)
    run("stock", "edit", "shot No 8 tin", "--name", "shot 🐟", box=box)
    answer = run("low", "--to", str(pdf), box=box).stderr
    assert "The font has no 🐟: □ stands there instead, and is no box to tick." in answer


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["hooklength-fine=0"], 'RECIPE=COUNT hooklength-fine: "0" is no count. '
         "A whole number from 1 to 500."),
        (["hooklength-fine=" + "9" * 100], '"99999999999999999999…" is no count.'),
        (["hooklength-fine"], 'RECIPE=COUNT: "hooklength-fine" is not understood. '
         'Write it like "hooklength-fine=6".'),
        (["hooklength-fine=2", "--set", "depth"], 'Write it like "depth=1.5 m".'),
        (["pole-canal-shot=2", "--set", "dpeth=2m"],
         '--set dpeth: "dpeth" is not chosen in pole-canal-shot. Did you mean "depth"?'),
        (["hooklength-fnie=2"], "there is no recipe"),
        (["hooklength-fine=2", "hooklength-fine=3"], "given twice"),
    ],
)  # fmt: skip
def test_faults_are_told_in_words(box: Path, words: list[str], expected: str) -> None:
    assert expected in run("low", *words, box=box, expect=2).stderr


def test_nothing_heavy_is_loaded(box: Path) -> None:
    """``low`` without rigs reads no recipes and asks no solver."""
    script = (
        "import sys; from tacklebox.cli.main import app\n"
        f"app(['--box', {str(box)!r}, 'low'], standalone_mode=False)\n"
        "heavy = {'highspy', 'numpy', 'scipy', 'reportlab', 'tomllib', 'tacklebox.rigs.recipes.file'}\n"
        "sys.exit(f'loaded: {sorted(heavy & set(sys.modules))}' if heavy & set(sys.modules) else 0)"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, check=False)
    assert done.returncode == 0, done.stderr.decode()
