"""``tacklebox feed``: a table with what each figure rests on, the venue's limit, faults in words."""

import json
from pathlib import Path

import pytest

from tests.cli.match_boxes import change
from tests.cli.runs import run


@pytest.fixture
def pond(tmp_path: Path) -> Path:
    """A box with a pond and a match on it."""
    run("venue", "start", "pond", box=tmp_path)
    run("match", "start", "open", "--venue", "pond", "--on", "2026-06-20", box=tmp_path)
    return tmp_path


def test_each_figure_says_what_it_rests_on(tmp_path: Path) -> None:
    words = ["feed", "--hours", "5", "--feeder", "40 ml", "--cast-every", "6", "--loose", "10"]
    lines = run(*words, box=tmp_path).stdout.splitlines()
    assert lines[0] == "For 5 hours:"
    rows = [" ".join(line.split()) for line in lines]
    assert "casts 50 as given" in rows
    assert "times fed by hand 150, 10 each common practice" in rows
    assert "groundbait, dry 0.56 kg from memory" in rows


def test_json_is_the_desks_answer(tmp_path: Path) -> None:
    words = ["feed", "--hours", "5", "--loose", "54", "--per-pint", "2700", "--casters"]
    answer = json.loads(run(*words, "--json", box=tmp_path).stdout)
    assert [one["key"] for one in answer["figures"]] == [
        "times_by_hand", "by_hand", "loose_feed", "maggots_to_turn",
    ]  # fmt: skip
    assert "* angling-guru.info" in run(*words, box=tmp_path).stdout


def test_over_the_limit_of_the_venue_ends_with_one(pond: Path) -> None:
    words = ["feed", "--hours", "5", "--venue", "pond", "--feeder", "250 ml"]
    answer = run(*words, box=pond, expect=1).stdout
    assert "NOT ALLOWED: groundbait at most" in answer
    answer = run("feed", "open", "--feeder", "30 ml", box=pond).stdout
    assert "ALLOWED: groundbait" in answer
    assert "come\n  first" in answer


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["--hours", "5"], "--feeder: nothing is fed. Say what it holds"),
        (["--loose", "10"], "--hours: nobody knows how long. Say so, or name a match."),
        (["--hours", "0", "--loose", "10"], "--hours: 0 cannot be right. From 0.25 to 24 hours."),
        (["--hours", "5", "--cast-every", "0", "--feeder", "9 ml"],
         "--cast-every: 0 cannot be right. From 0.1 to 1440 minutes."),
        (["nosuch", "--loose", "10"], 'MATCH: there is no match "nosuch"'),
        (["--hours", "5", "--venue", "nosuch", "--loose", "1"], "--venue: there is no venue"),
    ],
)  # fmt: skip
def test_faults_are_told_in_words(tmp_path: Path, words: list[str], expected: str) -> None:
    assert expected in run("feed", *words, box=tmp_path, expect=2).stderr


@pytest.mark.parametrize(
    ("fed", "expected"),
    [
        ("loose = -1", '"feed.loose": -1 cannot be right. From 0 to 1000000 each time.'),
        ("loose = 10.5", '"feed.loose": 10.5 should be a whole number, without quotes.'),
        ("loose = 10\nshare = 101", '"feed.share": 101 cannot be right. From 0 to 100 percent.'),
        ("loose = 10\nwater = -5", '"feed.water": -5 cannot be right. From 0 to 300 ml to 100 g.'),
        ("loose = 10\ncast_every = 3e9",
         '"feed.cast_every": 3000000000 cannot be right. From 0.1 to 1440 minutes.'),
        ('feeder = "1 l"', '"feed.feeder": 1 l cannot be right. From 1 to 500 ml.'),
        ("feeder = 40", '"feed.feeder": 40 should be text in quotes, like "40 ml".'),
        ("loose = 7000", "open.toml, feed.loose: 7000 each time, 150 times, are over 1000000."),
    ],
)  # fmt: skip
def test_faults_of_the_match_name_its_keys(pond: Path, fed: str, expected: str) -> None:
    path = pond / "matches" / "open.toml"
    path.write_text(f"{path.read_text(encoding='utf-8')}\n[feed]\n{fed}\n", encoding="utf-8")
    assert expected in run("feed", "open", box=pond, expect=2).stderr


def test_a_match_too_short_to_reckon_feed_for(pond: Path) -> None:
    change(pond / "matches" / "open.toml", ('"15:00"', '"10:10"'))
    answer = run("feed", "open", "--loose", "10", box=pond, expect=2).stderr
    assert "open.toml, to: it lasts 10 minutes, from 10:00 to 10:10." in answer
    assert "15 minutes or more" in answer
    run("feed", "open", "--hours", "1", "--loose", "10", box=pond)
