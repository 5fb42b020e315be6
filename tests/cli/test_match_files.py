"""Match and venue files as they are written by hand, good and bad, through the commands."""

import json
import os
from pathlib import Path

import pytest

from tests.cli.match_boxes import SOON, change, make_match_box
from tests.cli.runs import run


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_match_box(tmp_path_factory.mktemp("made"))


def test_times_are_shown_alike_everywhere(box: Path) -> None:
    change(box / "matches" / "open.toml", ('"10:00"', '"9:00"'), ('"15:00"', '"14.30"'))
    assert "09:00–14:30" in run("match", "list", box=box).stdout
    (answer,) = json.loads(run("match", "list", "--json", box=box).stdout)["matches"]
    assert (answer["begins"], answer["ends"]) == ("09:00", "14:30")
    assert "09:00 to 14:30" in run("match", "plan", "open", box=box).stdout
    assert json.loads(run("match", "plan", "open", "--json", box=box).stdout)["hours"] == 5.5
    assert "09:00 to 14:30" in run("match", "pack", "open", box=box).stdout
    assert "For 5.5 hours" in run("feed", "open", "--loose", "10", box=box).stdout


def test_a_bad_match_takes_no_list_down(box: Path) -> None:
    good = (box / "matches" / "open.toml").read_text(encoding="utf-8")
    for name, old, new in (
        ("zone", '"10:00"', '"10:00Z"'),
        ("week", SOON, "2027-W02-1"),
        ("long", "count = 2", f"count = {'9' * 5000}"),
        ("share", 'name = "Open"', 'name = "M"\nfeed = {loose = 1, share = 101}'),
    ):
        assert old in good
        bad = good.replace(old, new)
        (box / "matches" / f"{name}.toml").write_text(bad, encoding="utf-8")
    (box / "matches" / "folder.toml").mkdir()
    shown = run("match", "list", box=box)
    assert "Open" in shown.stdout
    assert len(json.loads(run("match", "list", "--json", box=box).stdout)["matches"]) == 1
    for name in ("zone", "week", "long", "share", "folder"):
        assert f"{name}.toml: " in shown.stderr
    for command in ("plan", "debrief", "pack", "shopping", "tie"):
        answer = run("match", command, "zone", box=box, expect=2).stderr
        assert '"from": "10:00Z" is no hour; write it like "10:00".' in answer
    assert "is no hour" in run("feed", "zone", "--loose", "10", box=box, expect=2).stderr


def test_a_folder_or_dangling_link_is_told_as_what_it_is(box: Path) -> None:
    (box / "venues" / "bad.toml").mkdir()
    (box / "venues" / "gone.toml").symlink_to(box / "venues" / "nowhere.toml")
    for name, answer in (
        ("bad", "bad.toml: this is a folder, not a file. Give it another name, or take it away."),
        ("gone", "gone.toml: this is a link to a file that is not there."),
    ):
        assert answer in run("venue", "show", name, box=box, expect=2).stderr
        change(box / "matches" / "open.toml", ("venue =", f'venue = "{name}" #'))
        fault = run("match", "plan", "open", box=box, expect=2).stderr
        assert f"open.toml, venue, {answer}" in fault
        change(box / "matches" / "open.toml", (f'venue = "{name}" #', "venue ="))
    assert "pond" in run("venue", "list", box=box).stdout


@pytest.mark.parametrize(
    "words",
    [
        ["low", "--to"],
        ["low", "--csv"],
        ["match", "pack", "open", "--to"],
        ["match", "shopping", "open", "--to"],
        ["match", "plan", "open", "--csv"],
        ["labels", "A01T", "--to"],
        ["tie-sheet", "hooklength-fine=1", "--to"],
    ],
)
def test_nothing_takes_the_place_of_what_is_no_file(
    box: Path, tmp_path: Path, words: list[str]
) -> None:
    run("tie", "hooklength-fine", box=box)
    pipe = tmp_path / "pipe.pdf"
    os.mkfifo(pipe)
    answer = run(*words, str(pipe), "--replace", box=box, expect=2).stderr
    assert f"{pipe}: this is a device or pipe. Name a file." in answer
    assert pipe.is_fifo()


def test_tie_sheets_tell_what_the_font_has_not(box: Path, tmp_path: Path) -> None:
    run("stock", "edit", "hook 20 barbless spade", "--name", "hook 鯉 20", box=box)
    answer = run("tie-sheet", "hooklength-fine=1", "--to", str(tmp_path / "s.pdf"), box=box).stdout
    assert "The font has no 鯉: □ stands there instead, and is no box to tick." in answer
    answer = run("match", "tie", "open", "--sheets", str(tmp_path / "m.pdf"), box=box).stdout
    assert "The font has no 鯉" in answer
