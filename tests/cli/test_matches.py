"""``tacklebox match`` as a process."""

import json
from pathlib import Path

import pytest

from tests.cli.match_boxes import SOON, change, make_match_box
from tests.cli.runs import run


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_match_box(tmp_path_factory.mktemp("made"))


def test_a_plan_with_its_shopping_list(box: Path, tmp_path: Path) -> None:
    shopping = tmp_path / "shopping.csv"
    told = run("match", "plan", "open", "--csv", str(shopping), box=box).stdout
    assert max(len(line) for line in told.splitlines()) <= 80
    assert "Tie 1 × pole-canal-shot (depth 1.2 m) from:" in told
    assert "Unmet, 2 × pole-canal-shot (depth 1.2 m): float: 0 of pole 4×12 left" in told
    assert "pole-canal-shot (depth 1.2 m): allowed" in told
    assert "come\n  first" in told
    assert "* from memory, no match of your own in it yet" in told
    rows = shopping.read_text(encoding="utf-8").splitlines()
    assert rows[0] == "no.,item,packets,price of a packet,price,what for"
    assert any("pole 4×12,2,missing,missing" in row for row in rows)
    words = ["match", "plan", "open", "--csv", str(shopping)]
    assert "left as it is" in run(*words, box=box, expect=2).stderr
    assert shopping.read_text(encoding="utf-8").splitlines() == rows
    run(*words, "--replace", box=box)
    told_json = json.loads(run("match", "plan", "open", "--json", box=box).stdout)
    assert [(w["wanted"], w["tie"], w["unmet"]) for w in told_json["wants"]] == [
        (3, 1, 2),
        (10, 10, 0),
    ]
    assert told_json["proven_fewest"] is True
    forecast = {f["name"]: f for f in told_json["on_the_day"]["likely"]}
    hooks, floats = forecast["hook 20 barbless spade"], forecast["pole 4×12"]
    assert [hooks[key]["value"] for key in ("on_hand", "planned", "left")] == [10, 10, 0]
    assert hooks["chance_to_run_out"] == pytest.approx(1 - (1 / 2) ** 2)  # by hand: gamma(2, 1)
    assert [floats[key]["value"] for key in ("planned", "left")] == [3, -2]
    assert floats["matches"] == 0
    assert "short already" in told
    assert json.loads(run("match", "list", "--json", box=box).stdout)[0]["match"] == "open"


def test_what_the_venue_turns_away_is_neither_tied_nor_bought(box: Path) -> None:
    change(box / "venues" / "pond.toml", ('"2 lb"', '"4 lb"'))
    told = run("match", "plan", "open", box=box).stdout
    assert "NOT ALLOWED: main line at least 4 lb" in told
    assert "Tie 1 × pole-canal-shot" not in told
    assert "pole 4×12" not in told
    assert "Nothing is to be bought" in run("match", "shopping", "open", box=box).stdout
    want = json.loads(run("match", "plan", "open", "--json", box=box).stdout)["wants"][0]
    assert (want["tie"], want["unmet"], want["checks"]) == (0, 3, [])


def test_what_will_not_do_is_told_by_the_plan(box: Path) -> None:
    """Where there is nothing that would do; `match tie` refuses it."""
    for _ in range(3):
        run("measure", "pull", "nylon 0.12", "0.6 kg", "--as-read", box=box)
    told = run("match", "plan", "open", box=box).stdout
    assert "WILL NOT DO: breaks first: Hooklength breaks first only" in told
    assert "`match tie` refuses what WILL NOT DO" in told
    want = json.loads(run("match", "plan", "open", "--json", box=box).stdout)["wants"][0]
    assert ("breaks first", "will not do") in {(c["about"], c["outcome"]) for c in want["checks"]}


def test_a_file_with_faults_hides_no_other(box: Path) -> None:
    for folder, command in (("matches", "match"), ("venues", "venue")):
        (box / folder / "faulty.toml").write_text("name = 1", encoding="utf-8")
        told = run(command, "list", box=box)
        assert "faulty.toml: this" in told.stderr
        assert ("open" if command == "match" else "pond") in told.stdout


def test_a_day_that_is_closed_or_past_is_told_at_once(box: Path) -> None:
    change(box / "venues" / "pond.toml", ('"still water"', '"river"'))
    words = ["match", "start", "spring", "--venue", "pond", "--on", "2099-05-01"]
    assert "NOT ALLOWED: close season" in run(*words, box=box).stdout
    words = ["match", "start", "autumn", "--venue", "pond", "--on", "2020-10-01"]
    told = run(*words, box=box).stdout
    assert "2020-10-01 is past" in told
    assert "close season" not in told


def test_groundbait_of_the_feed_is_judged(box: Path) -> None:
    path = box / "matches" / "open.toml"
    feed = '[feed]\nfeeder = "200 ml"\n'
    path.write_text(path.read_text(encoding="utf-8") + feed, encoding="utf-8")
    told = run("match", "plan", "open", box=box).stdout
    words = (
        "NOT ALLOWED: groundbait at most 2 kg: groundbait: 3.375 kg, weighed dry. "
        "Would pass: leave 1.375 kg"
    )
    assert words in " ".join(told.split())


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        (SOON, "2020-01-01", "which is past"),
        ("hooklength-fine", "hooklength-fnie", 'want 2: there is no recipe "hooklength-fnie"'),
        ('"pond"', '"lake"', 'there is no venue "lake"'),
        ('depth = "1.2 m"', 'depth = "9 m"', "want 1, choose.depth: depth cannot be 9 m"),
        ("count = 6", "count = 600", "want 2.count"),
    ],
)
def test_faults_are_told_in_words(box: Path, old: str, new: str, told: str) -> None:
    change(box / "matches" / "open.toml", (old, new))
    assert told in run("match", "plan", "open", box=box, expect=2).stderr


def test_no_match_yet(tmp_path: Path) -> None:
    assert "No match" in run("match", "list", box=tmp_path).stdout
    told = run("match", "plan", "open", box=tmp_path, expect=2).stderr
    assert 'no match "open", nor any other yet' in told
    assert "`tacklebox match start NAME --venue VENUE --on DAY`" in told
    words = ["match", "start", "open", "--venue", "pond", "--on", SOON]
    assert "There is no venue pond yet" in run(*words, box=tmp_path).stdout
    told = run("match", "plan", "open", box=tmp_path, expect=2).stderr
    assert 'open.toml, venue: there is no venue "pond", nor any other yet' in told
    assert "`tacklebox venue start NAME` writes a first one" in told
    assert "Known: open." in run("match", "plan", "else", box=tmp_path, expect=2).stderr
    words = ["match", "start", "open", "--venue", "pond", "--on", "soon"]
    assert "is no date" in run(*words, box=tmp_path, expect=2).stderr


def test_debrief_and_what_did_well(box: Path) -> None:
    run("tie", "hooklength-fine", "--count", "3", "--on", "2026-03-05", box=box)
    path = box / "matches" / "open.toml"
    assert "not come yet" in run("match", "debrief", "open", box=box, expect=2).stderr
    change(path, (SOON, "2026-06-20"))
    words = ["match", "debrief", "open", "--back", "A01T", "--lost", "A02R", "--did-well", "A01T",
             "--gone", "hook 20=2", "--weight", "5.4 kg", "--peg", "14",
             "--notes", "slow at first"]  # fmt: skip
    assert "1 back, 1 lost, 0 spent" in run(*words, box=box).stdout
    assert "--correct" in run(*words, box=box, expect=2).stderr
    told = json.loads(run(*words, "--correct", "--json", box=box).stdout)
    assert (told["weight_g"], told["peg"], told["corrects"]) == (5400, "14", 1)
    well = run("match", "did-well", "--venue", "pond", "--season", "summer", box=box).stdout
    assert "A01T" in well
    assert "2026-06-20, pond: 5.4 kg (11 lb 14 oz), slow at first" in well
    assert "No rig" in run("match", "did-well", "--method", "pole", box=box).stdout
    told = run("match", "did-well", "--venue", "pnd", box=box, expect=2).stderr
    assert '--venue: no debrief is of a match at "pnd". Did you mean "pond"?' in told
    low = json.loads(run("low", "hooklength-fine=1", "--json", box=box).stdout)["on_the_day"]
    (hooks,) = [f for f in low["likely"] if f["name"] == "hook 20 barbless spade"]
    assert (hooks["matches"], hooks["lost_at_a_match"]) == (1, 2.5)  # two loose, one on a rig
    assert "cannot be lost" in run("match", "debrief", "open", "--correct", "--gone",
                                   "hook 20=90", box=box, expect=1).stderr  # fmt: skip
    assert "All in order" in run("audit", box=box).stdout
    change(path, ("2026-06-20", SOON))
    table = run("match", "plan", "open", box=box).stdout.partition("On the day")[2]
    row = next(line for line in table.splitlines() if line.startswith("1    hook 20"))
    assert row.split()[-1] == "1"  # match
