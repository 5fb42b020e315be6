"""``tacklebox match tie``: what is shown of it, and faults with the options that help."""

import json
from pathlib import Path

import pytest

from tests.cli.match_boxes import change, make_match_box
from tests.cli.runs import run, unfolded


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One canal rig of three and ten hooklengths can be tied."""
    return make_match_box(tmp_path_factory.mktemp("made"))


def test_what_is_tied_and_what_is_not_is_shown(box: Path, tmp_path: Path) -> None:
    labels, sheets = tmp_path / "labels.pdf", tmp_path / "sheets.pdf"
    words = ["--labels", str(labels), "--sheets", str(sheets)]
    words += ["--paper", "a4-65", "--start", "65"]
    shown = run("match", "tie", "open", *words, box=box).stdout
    assert max(len(row) for row in shown.splitlines() if str(tmp_path) not in row) <= 80
    for answer in (
        "Tied 1 × Canal pole, shot", "Tied 10 × Fine hooklength", "Every check is sound.",
        "Unmet, 2 × Canal pole", "`tacklebox undo` takes all of it back.",
        f"Tie sheets: {sheets}, ", f"2 labels on 2 sheets: {labels}",
    ):  # fmt: skip
        assert answer in shown
    again = run("match", "tie", "open", box=box).stdout
    assert "There is nothing to tie for Open: 11 ready." in again
    assert "Unmet, 2" in again


def test_json_is_the_desks_answer(box: Path) -> None:
    answer = json.loads(run("match", "tie", "open", "--json", box=box).stdout)
    assert [(t["recipe"], t["count"], t["outcome"]) for t in answer["tied"]] == [
        ("pole-canal-shot", 1, "sound"),
        ("hooklength-fine", 10, "sound"),
    ]
    assert json.loads(run("match", "tie", "open", "--json", box=box).stdout)["tied"] == []


@pytest.mark.parametrize(
    ("words", "code", "expected"),
    [
        (["--labels", "{box}/no/l.pdf"], 1, "cannot be written"),
        (
            ["--labels", "{box}/l.pdf", "--sheets", "{box}/l.pdf"],
            2,
            "two files cannot go to one place",
        ),
        (["--labels", "{box}/l.pdf", "--start", "66"], 2, "--start: "),
        (["--labels", "{box}/l.pdf", "--skip", "0"], 2, "--skip: "),
        (["--sheets", "{box}/s.pdf", "--page", "a6"], 2, '--page: "a6" is no page size'),
        (["--labels", "{box}/there.pdf"], 2, "With --replace it is written over."),
        (["--on", "2099-01-01"], 2, "--on: Thursday 1 January 2099 has not come yet"),
        (["--sound-from", "80", "--doubtful-from", "90"], 2, "--doubtful-from: 90 % is above"),
    ],
)
def test_faults_are_told_in_words(box: Path, words: list[str], code: int, expected: str) -> None:
    (box / "there.pdf").write_text("mine", encoding="utf-8")
    said = [word.format(box=box) for word in words]
    assert expected in run("match", "tie", "open", *said, box=box, expect=code).stderr
    assert json.loads(run("rigs", "list", "--json", box=box).stdout) == []


def test_what_the_venue_turns_away_is_told_with_what_ties_it_all_the_same(box: Path) -> None:
    change(box / "venues" / "pond.toml", ('"2 lb"', '"4 lb"'))
    answer = unfolded(run("match", "tie", "open", box=box).stdout)
    assert (
        "Unmet, 3 × Canal pole, shot (depth 1.2 m): rig line: the venue does not allow nylon 0.12 mm "
        "1.6 kg (main line at least 4 lb)"
    ) in answer
    assert "for another water: --despite-rules." in answer


def test_a_closed_day_is_told_with_the_option_for_another_water(box: Path) -> None:
    change(box / "venues" / "pond.toml", ('"still water"', '"river"'), ("country", "# country"))
    change(box / "matches" / "open.toml", ("date = ", 'date = "2099-05-01" # '))
    answer = run("match", "tie", "open", box=box, expect=1).stderr
    assert "Pond does not allow this; nothing was tied." in answer
    assert "To tie it for another water, add --despite-rules." in answer
