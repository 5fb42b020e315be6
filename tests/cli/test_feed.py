"""``tacklebox feed`` as a process."""

import json
from pathlib import Path

import pytest

from tests.cli.match_boxes import change
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
    assert bad == "--cast-every: 0 makes no sense. From 0.1 to 1440 minutes.\n"


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
        (["--hours", "0", "--loose", "10"], "--hours: 0 makes no sense. From 0.25 to 24 hours."),
        (["--hours", "5", "--feeder", "big"], "--feeder"),
        (["nosuch", "--loose", "10"], "no match"),
        (["--hours", "5", "--feeder", "1 l"], "--feeder: 1 l makes no sense. From 1 to 500 ml."),
        (["--hours", "5", "--share", "101", "--loose", "1"],
         "--share: 101 makes no sense. From 0 to 100 percent."),
        (["--hours", "5", "--water", "-5", "--loose", "1"],
         "--water: -5 makes no sense. From 0 to 300 ml to 100 g."),
        (["--hours", "5", "--loose", "3000000000"],
         "--loose: 3000000000 makes no sense. From 0 to 1000000 particles."),
        (["--hours", "5", "--loose", "7000"],
         "--loose: 7000 particles each time, 150 times, are over 1000000. At most 6666 each time."),
        (["--hours", "5", "--loose", "10", "--per-pint", "nan"],
         "--per-pint: nan makes no sense. From 10 to 100000 particles."),
    ],
)  # fmt: skip
def test_faults_are_told_in_words(tmp_path: Path, words: list[str], told: str) -> None:
    assert told in run("feed", *words, box=tmp_path, expect=2).stderr


@pytest.mark.parametrize(
    ("fed", "told"),
    [
        ("loose = -1", '"feed.loose": -1 makes no sense. From 0 to 1000000 particles.'),
        ("loose = 10.5", '"feed.loose": 10.5 should be a whole number, without quotes.'),
        ("loose = 10\nshare = 101", '"feed.share": 101 makes no sense. From 0 to 100 percent.'),
        ("loose = 10\nwater = -5", '"feed.water": -5 makes no sense. From 0 to 300 ml to 100 g.'),
        ("loose = 10\ncast_every = 3e9",
         '"feed.cast_every": 3000000000 makes no sense. From 0.1 to 1440 minutes.'),
        ('feeder = "1 l"', '"feed.feeder": 1 l makes no sense. From 1 to 500 ml.'),
        ("feeder = 40", '"feed.feeder": 40 should be text in quotes, like "40 ml".'),
        ("loose = 7000", "open, feed.loose: 7000 particles each time, 150 times, are over 1000000."),
    ],
)  # fmt: skip
def test_faults_of_the_match_name_its_keys(tmp_path: Path, fed: str, told: str) -> None:
    run("venue", "start", "pond", box=tmp_path)
    run("match", "start", "open", "--venue", "pond", "--on", "2026-06-20", box=tmp_path)
    path = tmp_path / "matches" / "open.toml"
    path.write_text(f"{path.read_text(encoding='utf-8')}\n[feed]\n{fed}\n", encoding="utf-8")
    assert told in run("feed", "open", box=tmp_path, expect=2).stderr


def test_a_match_too_short_to_reckon_feed_for(tmp_path: Path) -> None:
    run("venue", "start", "pond", box=tmp_path)
    run("match", "start", "open", "--venue", "pond", "--on", "2026-06-20", box=tmp_path)
    change(tmp_path / "matches" / "open.toml", ('"15:00"', '"10:10"'))
    told = run("feed", "open", "--loose", "10", box=tmp_path, expect=2).stderr
    assert "open.toml, to: it lasts 10 minutes, from 10:00 to 10:10." in told
    assert "15 minutes or more" in told
    run("feed", "open", "--hours", "1", "--loose", "10", box=tmp_path)
