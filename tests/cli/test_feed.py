"""``tacklebox feed`` as a process."""

import json
from pathlib import Path

import pytest

from tests.cli.runs import run


def test_feeder_and_loose_feed(tmp_path: Path) -> None:
    """60 casts of 40 ml, half of it groundbait at 0.8 g/ml: 960 g wet, 600 g dry to 360 ml."""
    words = ["feed", "--hours", "5", "--feeder", "40 ml", "--density", "0.8", "--water", "60",
             "--loose", "10", "--per-pint", "2500"]  # fmt: skip
    told = json.loads(run(*words, "--json", box=tmp_path).stdout)
    assert told["casts"] == 60
    assert told["dry_g"] == pytest.approx(600)
    assert told["loose_particles"] == 1500
    assert told["particle_pints"] == pytest.approx(1200 / 568.26125 + 0.6)
    shown = run(*words, box=tmp_path).stdout
    assert "0.60 kg" in shown
    assert "as you say" in shown
    assert "from memory" in run("feed", "--hours", "5", "--loose", "10", box=tmp_path).stdout


def test_each_figure_says_what_it_rests_on(tmp_path: Path) -> None:
    """Common practice: half and half, ten particles every two minutes, a cast every five."""
    told = run("feed", "--hours", "5", "--feeder", "40 ml", "--loose", "10", box=tmp_path).stdout
    rests = {line[:25].strip(): line for line in told.splitlines()}
    assert rests["casts"].split()[1:] == ["60", "common", "practice"]
    assert "50 %" in rests["groundbait in the mix"]
    assert "150, 10 each" in rests["times fed by hand"]
    assert rests["times fed by hand"].endswith("common practice")
    for row in ("groundbait, dry", "water to it", "particles in the feeder", "particles by hand"):
        assert rests[row].endswith("from memory")
    words = ["--cast-every", "6", "--share", "40", "--loose-every", "3", "--per-pint", "2600",
             "--density", "0.8", "--water", "50"]  # fmt: skip
    own = run("feed", "--hours", "5", "--feeder", "40 ml", "--loose", "10", *words, box=tmp_path)
    assert own.stdout.count("as you say") == len(own.stdout.splitlines()) - 3


def test_casters_against_what_was_published(tmp_path: Path) -> None:
    """angling-guru.info, "Using casters for bait": five pints of maggots give about three."""
    words = ["feed", "--hours", "5", "--loose", "54", "--per-pint", "2700", "--casters"]
    told = json.loads(run(*words, "--json", box=tmp_path).stdout)
    assert (told["particles"], told["particle_pints"]) == (8100, pytest.approx(3))
    assert told["maggot_pints_to_turn"] == pytest.approx(5)
    assert "angling-guru.info" in run(*words, box=tmp_path).stdout


def test_the_match_says_what_is_fed_unless_the_command_does(tmp_path: Path) -> None:
    run("venue", "start", "pond", box=tmp_path)
    run("match", "start", "open", "--venue", "pond", "--on", "2026-06-20", box=tmp_path)
    path = tmp_path / "matches" / "open.toml"
    fed = '\n[feed]\nfeeder = "30 ml"\ncast_every = 6\nloose = 8\n'
    path.write_text(path.read_text(encoding="utf-8") + fed, encoding="utf-8")
    told = json.loads(run("feed", "open", "--json", box=tmp_path).stdout)
    assert (told["casts"], told["loose_particles"]) == (50, 8 * 150)
    told = json.loads(run("feed", "open", "--cast-every", "5", "--json", box=tmp_path).stdout)
    assert told["casts"] == 60
    bad = run("feed", "open", "--cast-every", "0", box=tmp_path, expect=2).stderr
    assert "an interval of 0 min" in bad


def test_over_the_limit_of_the_venue(tmp_path: Path) -> None:
    run("venue", "start", "pond", box=tmp_path)
    words = ["feed", "--hours", "5", "--venue", "pond", "--feeder", "250 ml"]
    told = run(*words, box=tmp_path, expect=1).stdout
    assert "NOT ALLOWED: groundbait at most" in told
    run("match", "start", "open", "--venue", "pond", "--on", "2026-06-20", box=tmp_path)
    told = run("feed", "open", "--feeder", "30 ml", box=tmp_path).stdout
    assert "For 5 hours" in told
    assert "ALLOWED: groundbait" in told


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--hours", "5"], "nothing is fed"),
        (["--loose", "10"], "how long"),
        (["--hours", "0", "--loose", "10"], "a match of 0 h"),
        (["--hours", "5", "--feeder", "big"], "--feeder"),
        (["nosuch", "--loose", "10"], "no match"),
    ],
)
def test_faults_are_told_in_words(tmp_path: Path, words: list[str], told: str) -> None:
    assert told in run("feed", *words, box=tmp_path, expect=2).stderr
