"""``tacklebox match``: plan, start and list as they are shown; faults by their places in the file."""

import json
from pathlib import Path

import pytest
from sqlalchemy import Connection, Engine, event

from tacklebox.cli.main import main
from tests.cli.match_boxes import SOON, change, make_match_box
from tests.cli.runs import run, unfolded


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_match_box(tmp_path_factory.mktemp("made"))


def test_a_plan_fits_the_screen_and_says_why(box: Path) -> None:
    answer = run("match", "plan", "open", box=box).stdout
    assert max(map(len, answer.splitlines())) <= 80
    for words in (
        "Tie 1 × Canal pole, shot (depth 1.2 m) from:",
        "Unmet, 2 × Canal pole, shot (depth 1.2 m): float: 0 of pole 4×12 left",
        "Canal pole, shot (depth 1.2 m): allowed",
        "short already",
        "* from memory, no match of your own in it yet",
        "come\n  first",
    ):
        assert words in answer


def test_its_shopping_list_as_csv(box: Path, tmp_path: Path) -> None:
    shopping = tmp_path / "shopping.csv"
    words = ["match", "plan", "open", "--csv", str(shopping)]
    run(*words, box=box)
    rows = shopping.read_text(encoding="utf-8").splitlines()
    assert rows[0] == "no.,item,packets,price of a packet,price,what for,mind"
    assert "With --replace it is written over." in run(*words, box=box, expect=2).stderr
    assert shopping.read_text(encoding="utf-8").splitlines() == rows
    run(*words, "--replace", box=box)


def test_json_is_the_desks_answer(box: Path) -> None:
    answer = json.loads(run("match", "plan", "open", "--json", box=box).stdout)
    assert [(w["wanted"], w["tie"], w["unmet"]) for w in answer["wants"]] == [
        (3, 1, 2),
        (10, 10, 0),
    ]
    listed = json.loads(run("match", "list", "--json", box=box).stdout)
    assert [m["match"] for m in listed["matches"]] == ["open"]


def test_what_the_venue_turns_away_is_told_by_its_rule(box: Path) -> None:
    change(box / "venues" / "pond.toml", ('"2 lb"', '"4 lb"'))
    answer = run("match", "plan", "open", box=box).stdout
    assert "NOT ALLOWED: main line at least 4 lb" in answer
    assert "Tie 1 × pole-canal-shot" not in answer
    assert "Nothing is to be bought" in run("match", "shopping", "open", box=box).stdout


def test_what_fails_is_told_with_what_tie_will_do(box: Path) -> None:
    """Where there is nothing that would do."""
    for _ in range(3):
        run("measure", "pull", "nylon 0.12", "0.6 kg", "--as-read", box=box)
    answer = unfolded(run("match", "plan", "open", box=box).stdout)
    assert "`tacklebox match tie` ties what fails only with --because." in answer
    assert "FAILS: breaks first: " in answer
    assert (
        "To tie what fails a check, say why: --because."
        in run("match", "tie", "open", box=box).stdout
    )


def test_a_file_with_faults_hides_no_other(box: Path) -> None:
    (box / "matches" / "faulty.toml").write_text("name = 1", encoding="utf-8")
    answer = run("match", "list", box=box)
    assert "faulty.toml: this" in answer.stderr
    assert "open" in answer.stdout


def test_a_day_that_is_closed_or_past_is_told_at_once(box: Path) -> None:
    change(box / "venues" / "pond.toml", ('"still water"', '"river"'))
    words = ["match", "start", "spring", "--venue", "pond", "--on", "2099-05-01"]
    assert "NOT ALLOWED: close season" in run(*words, box=box).stdout
    words = ["match", "start", "autumn", "--venue", "pond", "--on", "2020-10-01"]
    answer = run(*words, box=box).stdout
    assert "Thursday 1 October 2020 is past: the match can be debriefed, not planned." in answer
    assert "close season" not in answer


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        (SOON, "2020-01-01", "which is past"),
        ("hooklength-fine", "hooklength-fnie", 'want 2: there is no recipe "hooklength-fnie"'),
        ('"pond"', '"weir"', 'there is no venue "weir"'),
        ('depth = "1.2 m"', 'depth = "9 m"', "want 1, choose.depth: depth cannot be 9 m"),
        ("count = 6", "count = 600", "want 2.count"),
    ],
)
def test_faults_are_told_in_words(box: Path, old: str, new: str, expected: str) -> None:
    change(box / "matches" / "open.toml", (old, new))
    assert expected in run("match", "plan", "open", box=box, expect=2).stderr


def test_no_match_yet(tmp_path: Path) -> None:
    assert "No match" in run("match", "list", box=tmp_path).stdout
    answer = run("match", "plan", "open", box=tmp_path, expect=2).stderr
    assert 'no match "open", nor any other yet' in answer
    assert "`tacklebox match start NAME --venue VENUE --on DAY` writes a first one." in answer
    words = ["match", "start", "open", "--venue", "pond", "--on", SOON]
    assert "There is no venue pond yet" in run(*words, box=tmp_path).stdout
    answer = run("match", "plan", "open", box=tmp_path, expect=2).stderr
    assert 'open.toml, venue: there is no venue "pond", nor any other yet' in answer
    assert "`tacklebox venue start NAME` writes a first one" in answer
    assert "Known: open." in run("match", "plan", "else", box=tmp_path, expect=2).stderr
    words = ["match", "start", "open", "--venue", "pond", "--on", "soon"]
    assert '--on: "soon" is no date' in run(*words, box=tmp_path, expect=2).stderr


@pytest.mark.parametrize("command", ["plan", "pack", "tie"])
def test_a_command_opens_one_engine_and_closes_it(box: Path, command: str) -> None:
    opened, closed = set(), set()

    def open_(connection: Connection) -> None:
        opened.add(connection.engine)

    def close(engine: Engine) -> None:
        closed.add(engine)

    event.listen(Engine, "engine_connect", open_)
    event.listen(Engine, "engine_disposed", close)
    try:
        assert main(["--box", str(box), "match", command, "open"]) == 0
    finally:
        event.remove(Engine, "engine_connect", open_)
        event.remove(Engine, "engine_disposed", close)
    assert len(opened) == 1
    assert closed == opened
