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
