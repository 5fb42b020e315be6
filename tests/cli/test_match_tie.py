"""``tacklebox match tie`` as a process: all at once, with labels and tie sheets, or nothing."""

import json
from datetime import date
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from typer.testing import CliRunner

from tacklebox.cli.main import app
from tacklebox.errors import CannotBeDoneError
from tests.cli.match_boxes import SOON, change, make_match_box
from tests.cli.runs import run


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One canal rig of three and ten hooklengths can be tied."""
    return make_match_box(tmp_path_factory.mktemp("made"))


def rigs(box: Path) -> list[dict[str, Any]]:
    told: list[dict[str, Any]] = json.loads(run("rigs", "list", "--json", box=box).stdout)
    return told


def test_all_of_it_with_labels_and_tie_sheets(box: Path, tmp_path: Path) -> None:
    labels, sheets = tmp_path / "labels.pdf", tmp_path / "sheets.pdf"
    words = ["--labels", str(labels), "--sheets", str(sheets), "--paper", "a4-65", "--start", "60"]
    shown = run("match", "tie", "open", *words, box=box).stdout
    assert max(len(line) for line in shown.splitlines() if str(tmp_path) not in line) <= 80
    for told in ("Tied 1 × Canal pole, shot", "Tied 10 × Fine hooklength", "Unmet, 2 × pole-canal",
                 "CAUTION: power lines", "tacklebox undo"):  # fmt: skip
        assert told in shown
    codes = [rig["code"] for rig in rigs(box)]
    assert len(codes) == 11
    assert all(rig["labelled_on"] for rig in rigs(box))
    with pdfplumber.open(labels) as read:
        text = "".join(str(page.extract_text()) for page in read.pages)
        assert len(read.pages) == 2  # six places are left on the first sheet
    assert all(code in text for code in codes)
    with pdfplumber.open(sheets) as read:
        text = " ".join(str(page.extract_text()) for page in read.pages)
    assert "Canal pole, shot" in text
    assert "Tie 10." in text
    papers = json.loads(run("paper", "list", "--json", box=box).stdout)["papers"]
    assert [p["next_free"] for p in papers if p["paper"] == "a4-65"] == [6]
    assert "All in order" in run("audit", box=box).stdout
    again = run("match", "tie", "open", box=box).stdout
    assert "nothing to tie" in again
    assert "Unmet, 2" in again
    run("undo", box=box)
    assert rigs(box) == []
    assert "All in order" in run("audit", box=box).stdout


def test_as_json(box: Path) -> None:
    told = json.loads(run("match", "tie", "open", "--json", box=box).stdout)
    assert [(t["recipe"], len(t["codes"]), t["outcome"]) for t in told["tied"]] == [
        ("pole-canal-shot", 1, "sound"),
        ("hooklength-fine", 10, "sound"),
    ]
    assert [(u["recipe"], u["count"]) for u in told["unmet"]] == [("pole-canal-shot", 2)]
    left = {row["name"]: row["on_hand"] for row in told["left"]}
    assert (left["hook 20 barbless spade"], left["shot No 8 tin"]) == (0, 18)
    assert json.loads(run("match", "tie", "open", "--json", box=box).stdout)["tied"] == []


def test_labels_that_fail_after_tying_are_told_with_how_to_print_them(
    box: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A disk that fills up in between, say."""

    def fails(*_words: object, **_more: object) -> None:
        raise CannotBeDoneError("the disk is full.")

    monkeypatch.setattr("tacklebox.printing.labels.sheets.print_labels", fails)
    words = ["--box", str(box), "match", "tie", "open", "--labels", str(tmp_path / "l.pdf")]
    result = CliRunner().invoke(app, words)
    assert isinstance(result.exception, CannotBeDoneError)
    told = str(result.exception)
    assert "11 rigs are tied, but their labels were not printed: the disk is full." in told
    assert "tacklebox labels --last --paper a4-65" in told
    monkeypatch.undo()
    run("labels", "--last", "--to", str(tmp_path / "l.pdf"), box=box)
    assert all(rig["labelled_on"] for rig in rigs(box))


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (["--labels", "{box}/no/l.pdf"], 1, "cannot be written"),
        (["--sheets", "{box}/no/s.pdf"], 1, "cannot be written"),
        (["--labels", "{box}/l.pdf", "--sheets", "{box}/l.pdf"], 2, "cannot go to one file"),
        (["--labels", "{box}/l.pdf", "--paper", "a4-66"], 2, 'there is no paper "a4-66"'),
        (["--labels", "{box}/l.pdf", "--start", "66"], 2, "place 66 is not on the paper"),
        (["--labels", "{box}/l.pdf", "--start", "first"], 2, "is no place"),
        (["--labels", "{box}/l.pdf", "--skip", "0"], 2, "place 0 is not on the paper"),
        (["--sheets", "{box}/s.pdf", "--page", "a6"], 2, "no page size"),
        (["--labels", "{box}/there.pdf"], 2, "left as it is"),
        (["--sheets", "{box}/there.pdf"], 2, "left as it is"),
        (["--on", "2099-01-01"], 2, "has not come yet"),
    ],
)
def test_what_cannot_be_printed_is_not_tied(
    box: Path, words: list[str], code: int, told: str
) -> None:
    (box / "there.pdf").write_text("mine", encoding="utf-8")
    said = [word.format(box=box) for word in words]
    assert told in run("match", "tie", "open", *said, box=box, expect=code).stderr
    assert rigs(box) == []
    assert sorted(p.name for p in box.glob("*.pdf")) == ["there.pdf"]


def test_what_the_venue_does_not_allow_is_not_tied_unless_told(box: Path) -> None:
    change(box / "venues" / "pond.toml", ('"2 lb"', '"4 lb"'))
    told = " ".join(run("match", "tie", "open", box=box).stdout.split())
    for words in ("Unmet, 3 × pole-canal-shot (depth 1.2 m): rig line: the venue does not allow "
                  "nylon 0.12 mm 1.6 kg (main line at least 4 lb)", "--despite-rules"):  # fmt: skip
        assert words in told
    assert {rig["made"]["recipe"] for rig in rigs(box)} == {"hooklength-fine"}
    run("match", "tie", "open", "--despite-rules", box=box)
    assert len(rigs(box)) == 11


def test_nothing_is_tied_for_a_day_that_is_closed(box: Path, tmp_path: Path) -> None:
    change(box / "venues" / "pond.toml", ('"still water"', '"river"'))
    spring = f"{date.today().year + 1}-05-01"
    change(box / "matches" / "open.toml", (SOON, spring))
    sheets = tmp_path / "sheets.pdf"
    told = run("match", "tie", "open", "--sheets", str(sheets), box=box, expect=1).stderr
    for words in ("My venue does not allow this; nothing was tied", "close season",
                  "would pass", "--despite-rules", "come first"):  # fmt: skip
        assert words in " ".join(told.split())
    assert not sheets.exists()
    assert rigs(box) == []


def test_a_plan_overtaken_by_another_tie_is_not_tied_again(
    box: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another terminal ties the same plan while this one is about to."""
    from tacklebox.matches.before import tie_plan

    def overtaken(*plan: Any, **told: Any) -> Any:
        monkeypatch.undo()
        run("match", "tie", "open", box=box)
        return tie_plan.tie_portions(*plan, **told)

    monkeypatch.setattr(tie_plan, "tie_portions", overtaken)
    done = CliRunner().invoke(app, ["--box", str(box), "match", "tie", "open"])
    assert "changed while the plan was made; nothing was tied" in str(done.exception)
    assert len(rigs(box)) == 11


def test_what_a_check_refuses_is_not_tied_unless_told_why(box: Path, tmp_path: Path) -> None:
    """Nor are its tie sheets kept: an older file stays as it was."""
    sheets = tmp_path / "sheets.pdf"
    sheets.write_text("mine", encoding="utf-8")
    for _ in range(3):
        run("measure", "pull", "nylon 0.12", "0.6 kg", "--as-read", box=box)
    onto = ["--sheets", str(sheets), "--replace"]
    told = run("match", "tie", "open", *onto, box=box, expect=1).stderr
    assert [p.read_bytes() for p in tmp_path.glob("*.pdf")] == [b"mine"]
    assert [p.name for p in tmp_path.glob(".printing*")] == []
    for words in ("nothing of the plan was tied", "fails a check", "--because"):
        assert words in told
    assert rigs(box) == []
    run("match", "tie", "open", "--because", "for the canal only", *onto, box=box)
    assert sheets.read_bytes().startswith(b"%PDF")
    kept = {rig["made"]["recipe"]: rig["tied_because"] for rig in rigs(box)}
    assert kept == {"pole-canal-shot": "for the canal only", "hooklength-fine": ""}


def test_how_sure_it_must_be_can_be_said(box: Path) -> None:
    words = ["--sound-from", "99.99", "--doubtful-from", "99.98"]
    told = run("match", "tie", "open", *words, box=box, expect=1).stderr
    assert "fails a check" in told
    assert rigs(box) == []
    words = ["--sound-from", "80", "--doubtful-from", "90"]
    assert "--doubtful-from" in run("match", "tie", "open", *words, box=box, expect=2).stderr
    words = ["--sound-from", "99.99", "--doubtful-from", "50"]
    told = run("match", "tie", "open", *words, box=box).stdout
    assert "LOOK AGAIN: pole-canal-shot: breaks first" in told
