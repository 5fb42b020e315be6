"""``tacklebox venue`` as a process."""

import json
from pathlib import Path

from tests.cli.runs import run


def test_start_show_and_judge(tmp_path: Path) -> None:
    assert "No venue" in run("venue", "list", box=tmp_path).stdout
    assert "Wrote" in run("venue", "start", "pond", box=tmp_path).stdout
    assert "already" in run("venue", "start", "pond", box=tmp_path, expect=2).stderr
    assert json.loads(run("venue", "list", "--json", box=tmp_path).stdout)[0]["venue"] == "pond"
    shown = run("venue", "show", "pond", box=tmp_path).stdout
    assert "largest hook" in shown
    assert "come\n  first" in shown
    words = ["venue", "judge", "pond", "pole-canal-shot", "--on", "2026-07-01"]
    told = run(*words, box=tmp_path).stdout
    assert max(len(line) for line in told.splitlines()) <= 80
    assert "ALLOWED: barbless hooks" in told
    over = run(*words, "--groundbait", "3 kg", "--json", box=tmp_path, expect=1).stdout
    judged = json.loads(over)
    assert judged["day"]["verdict"] == "not allowed"
    assert [r["recipe"] for r in judged["rigs"]] == ["pole-canal-shot"]
    assert "come first" in judged["comes_first"]


def test_the_close_season_ends_with_one(tmp_path: Path) -> None:
    (tmp_path / "venues").mkdir(parents=True)
    (tmp_path / "venues" / "weir.toml").write_text(
        'name = "The weir"\nwater = "river"\noverhead_lines = true\n', encoding="utf-8"
    )
    told = run("venue", "judge", "weir", "--on", "2026-04-01", box=tmp_path, expect=1).stdout
    assert "NOT ALLOWED: close season" in told
    assert "OVERHEAD LINES" in told


def test_faults_are_told_in_words(tmp_path: Path) -> None:
    assert "no venue" in run("venue", "show", "pond", box=tmp_path, expect=2).stderr
    run("venue", "start", "pond", box=tmp_path)
    bad = run("venue", "judge", "pond", "--on", "soon", box=tmp_path, expect=2).stderr
    assert "is no date" in bad
    bad = run("venue", "judge", "pond", "--groundbait", "much", box=tmp_path, expect=2).stderr
    assert "--groundbait" in bad
    bad = run("venue", "judge", "pond", "pole-canal", box=tmp_path, expect=2).stderr
    assert "there is no recipe" in bad
    for recipes in ([], ["pole-canal-shot", "hooklength-fine"]):
        words = ["venue", "judge", "pond", *recipes, "--set", "dept=1 m"]
        assert "--set" in run(*words, box=tmp_path, expect=2).stderr


def test_a_keepnet_by_the_byelaws_and_by_the_venue(tmp_path: Path) -> None:
    """The venue asks for 3 m, the Environment Agency's national fisheries byelaws for 2 m."""
    run("venue", "start", "pond", box=tmp_path)
    words = ["--length", "2.5 m", "--rings", "30 cm", "--round", "45 cm", "--hole", "20 mm"]
    told = run("venue", "keepnet", *words, "--knotless", "--no-metal", box=tmp_path).stdout
    assert told.count("ALLOWED:") == 6
    assert "NOT ALLOWED" not in told
    assert "come\n  first" in told
    told = run("venue", "keepnet", "pond", *words, "--knotless", box=tmp_path, expect=1).stdout
    assert max(len(line) for line in told.splitlines()) <= 80
    assert " ".join(told.split()).count(
        "NOT ALLOWED: keepnet at least 3 m long (rule of My venue): 250 cm long. "
        "Would pass: at least 3 m long."
    )  # fmt: skip
    words = ["venue", "keepnet", "pond", "--square", "30 cm", "--nets", "3"]
    told = run(*words, box=tmp_path, expect=1).stdout
    assert told.count("NOT ALLOWED") == 2  # 30 cm wide, three nets
    assert "keepnet" in run("venue", "show", "pond", box=tmp_path).stdout
    shown = run("venue", "keepnet", "--knotted", "--json", box=tmp_path, expect=1).stdout
    judged = json.loads(shown)
    assert judged["verdict"] == "not allowed"
    assert [r["verdict"] for r in judged["rules"]] == [
        "not allowed",
        *5 * ["read this one yourself"],
    ]
    assert "byelaws" in judged["rules"][0]["rule"]
    bad = run("venue", "keepnet", "--hole", "big", box=tmp_path, expect=2).stderr
    assert "--hole" in bad
    assert "Measure it again" in run(
        "venue", "keepnet", "--length", "99 m", box=tmp_path, expect=2
    ).stderr  # fmt: skip
