"""``tacklebox match debrief`` by its options, as processes: corrected, shown, in angler's weights."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.match_boxes import SOON, change, make_match_box, spring_match
from tests.cli.runs import run
from tests.cli.terminal import typed

HOOK, SHOT, WINDER = "hook 20 barbless spade", "shot No 8 tin", "winder 13 cm 18 mm"
TOLD = ("--back", "A02R", "--lost", "A01T", "--spent", "A03P", "--did-well", "A02R",
        "--gone", "hook 20=2", "--gone", "shot No 8=3", "--weight", "12-8", "--peg", "14",
        "--notes", "slow")  # fmt: skip


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A01T is the rig, A02R to A07H are hooklengths; the matches are "open" and then "later"."""
    folder = make_match_box(tmp_path_factory.mktemp("made"))
    run("tie", "pole-canal-shot", "--on", "2026-03-05", box=folder)
    run("tie", "hooklength-fine", "-n", "6", "--on", "2026-03-05", box=folder)
    for stem, day in (("open", "2026-04-18"), ("later", "2026-05-02")):
        text = spring_match(day, 6)
        (folder / "matches" / f"{stem}.toml").write_text(text, encoding="utf-8")
    return folder


def debrief(box: Path, *words: str, match: str = "open", expect: int = 0) -> str:
    done = run("match", "debrief", match, *words, box=box, expect=expect)
    return " ".join((done.stdout + done.stderr).split())


def shown(box: Path, match: str = "open") -> dict[str, Any]:
    told = json.loads(run("match", "debrief", match, "--show", "--json", box=box).stdout)
    assert isinstance(told, dict)
    return told


def states(box: Path) -> dict[str, str]:
    rigs = json.loads(run("rigs", "list", "--all", "--json", box=box).stdout)
    return {rig["code"]: rig["state"] for rig in rigs if rig["state"] != "ready"}


def on_hand(box: Path, name: str) -> int:
    items = json.loads(run("stock", "list", "--json", box=box).stdout)["items"]
    return int(next(item["on_hand"]["value"] for item in items if item["name"] == name))


def in_order(box: Path) -> bool:
    return "All in order" in run("audit", box=box).stdout


def test_lost_rigs_make_hooks_run_out_sooner(box: Path) -> None:
    """Six hooklengths lost are six hooks lost at one match: (2 + 6) / 2 to be expected."""

    def forecast() -> dict[str, Any]:
        run("stock", "edit", HOOK, "--minimum", "1", box=box)
        told = json.loads(run("low", "--json", box=box).stdout)["on_the_day"]
        return next(f for f in told["likely"] if f["name"] == HOOK)

    before = forecast()
    debrief(box, "--lost", "A02R A03P,A04N", "--lost", "A05L", "--lost", "A06J; a07h")
    after = forecast()
    assert (before["lost_at_a_match"], after["lost_at_a_match"], after["matches"]) == (2, 4, 1)
    assert after["chance_to_run_out"] > before["chance_to_run_out"]
    assert set(states(box)) == {"A02R", "A03P", "A04N", "A05L", "A06J", "A07H"}


def test_a_correction_keeps_what_is_not_said_again(box: Path) -> None:
    hooks, shot = on_hand(box, HOOK), on_hand(box, SHOT)
    told = debrief(box, *TOLD)
    assert f"Back in stock: {WINDER}. Spring open, 2026-04-18: 1 back, 1 lost, 1 spent." in told
    told = debrief(box, "--correct", "--gone", "shot No 8=4")
    for words in ("back A02R", "lost A01T", "worn out A03P", "did well A02R", f"2 × {HOOK}, "
                  f"4 × {SHOT}", "weighed in 5.67 kg (12 lb 8 oz)", "peg 14", "notes slow",
                  "1 back, 1 lost, 1 spent"):  # fmt: skip
        assert words in told
    assert (on_hand(box, HOOK), on_hand(box, SHOT)) == (hooks - 2, shot - 4)
    told = debrief(box, "--correct", "--gone", "hook 20=0", "--home", "A03P", "--back", "A01T",
                   "--weight", "none", "--peg", "", "--notes", "none")  # fmt: skip
    for words in ("back A01T A02R", "lost - worn out - did well A02R", f"lost beside 4 × {SHOT}",
                  "weighed in - peg - notes -", "2 back, 0 lost, 0 spent"):  # fmt: skip
        assert words in told
    assert (states(box), on_hand(box, WINDER), in_order(box)) == ({}, 0, True)
    told = debrief(box, "--home", "A03P", match="later", expect=2)
    assert "--home: a rig that was not taken need not be told. It goes with --correct." in told


def test_a_debrief_is_shown_and_nothing_written(box: Path) -> None:
    told = debrief(box, "--show", expect=2)
    assert "open is not debriefed yet. `tacklebox match debrief open` does it." in told
    as_json = json.loads(run("match", "debrief", "open", *TOLD, "--json", box=box).stdout)
    before = (box / "tacklebox.sqlite3").read_bytes()
    assert shown(box) == as_json
    assert {key: as_json[key] for key in ("match", "venue", "on", "peg", "notes")} == {
        "match": "open", "venue": "pond", "on": "2026-04-18", "peg": "14", "notes": "slow",
    }  # fmt: skip
    assert as_json["weight_g"] == pytest.approx(200 * 28.349523125)
    assert [as_json[key] for key in ("back", "lost", "spent", "did_well")] == [
        ["A02R"], ["A01T"], ["A03P"], ["A02R"],
    ]  # fmt: skip
    assert [(i["name"], i["amount"]) for i in as_json["gone"]] == [(HOOK, 2), (SHOT, 3)]
    assert [(i["name"], i["amount"]) for i in as_json["back_in_stock"]] == [(WINDER, 1)]
    (box / "matches" / "open.toml").unlink()  # what was told outlives its match's file
    table = debrief(box, "--show")
    for words in ("Debrief of open, 2026-04-18, pond.", "back A02R", "lost A01T", "worn out A03P",
                  f"back in stock {WINDER}", "weighed in 5.67 kg (12 lb 8 oz)"):  # fmt: skip
        assert words in table
    assert "--show goes with no other option" in debrief(box, "--show", "--peg", "1", expect=2)
    assert (box / "tacklebox.sqlite3").read_bytes() == before


def test_the_list_says_which_are_debriefed(box: Path) -> None:
    def debriefed() -> list[bool]:
        told = json.loads(run("match", "list", "--json", box=box).stdout)
        return [m["debriefed"] for m in told["matches"]]

    assert debriefed() == [False, False]
    debrief(box, *TOLD)
    assert debriefed() == [True, False]
    rows = run("match", "list", box=box).stdout.splitlines()
    assert [row.split()[-1] for row in rows if "pond" in row] == ["yes", "-"]
    run("undo", box=box)
    assert debriefed() == [False, False]


@pytest.mark.parametrize(
    ("said", "grams", "words"),
    [
        ("0 kg", 0.0, "0 kg (a blank)"),
        ("0", 0.0, "0 kg (a blank)"),
        ("12 lb 8", 5669.904625, "5.67 kg (12 lb 8 oz)"),
        ("5-3", 2353.010419375, "2.35 kg (5 lb 3 oz)"),
        ("85 g", 85.0, "85 g (3 oz)"),
    ],
)
def test_weights_as_matches_are_weighed(box: Path, said: str, grams: float, words: str) -> None:
    debrief(box, "--weight", said, "--back", "A02R", "--did-well", "A02R")
    assert shown(box)["weight_g"] == pytest.approx(grams)
    assert f"weighed in {words}" in debrief(box, "--show")
    assert f"pond: {words}" in run("match", "did-well", box=box).stdout


@pytest.mark.parametrize("said", ["5", "12-16", "heavy", "-3 kg", "1001 kg"])
def test_no_weight(box: Path, said: str) -> None:
    told = debrief(box, f"--weight={said}", expect=2)
    assert f'--weight: "{said}"' in told
    assert '"12 lb 8 oz" or "12-8"' in told
    assert "not debriefed" in debrief(box, "--show", expect=2)


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("ZZZZ", '"ZZZZ" is mistyped'),
        ("great", '"great" is mistyped'),
        ("A02R A03Q", '"A03Q" is mistyped'),
        ("A02R, A9", '"A9" is no code'),
    ],
)
def test_codes_are_told_as_they_were_typed(box: Path, said: str, told: str) -> None:
    assert told in debrief(box, "--lost", said, expect=2)
    assert told in run("rigs", "lost", said, box=box, expect=2).stderr
    assert states(box) == {}


def test_rigs_lost_and_apart_say_what_came_back(box: Path) -> None:
    told = run("rigs", "lost", "A01T A02R", "--on", "2026-04-18", box=box).stdout.splitlines()
    assert told == [
        f"A01T is lost; back in stock: {WINDER}.",
        "A02R is lost; back in stock: nothing.",
    ]
    assert (on_hand(box, WINDER), in_order(box)) == (1, True)
    run("undo", box=box)
    assert (states(box), on_hand(box, WINDER), in_order(box)) == ({}, 0, True)


def test_what_later_history_contradicts(box: Path) -> None:
    debrief(box, *TOLD)
    debrief(box, "--lost", "A02R", match="later")
    told = debrief(box, "--correct", "--lost", "A02R", expect=2)
    assert 'A02R is lost already, by "debrief of later" of 2026-05-02.' in told
    debrief(box, "--correct", "--did-well", "A01T")  # A02R came back, as it was told
    assert (shown(box)["back"], shown(box)["did_well"]) == (["A02R"], ["A01T", "A02R"])
    assert states(box)["A02R"] == "lost"


def test_the_walk_asks_again_where_history_contradicts(box: Path) -> None:
    debrief(box, "--back", "A01T A02R A03P", "--gone", "hook 20=1", "--weight", "2353 g")
    debrief(box, "--back", "A02R", match="later")
    run("rigs", "strip", "A03P", "--on", "2026-05-03", box=box)
    answers = ["y", "", "", "", "",  # A01T
               "", "A02R", "A03P", "all", "", "", "A02R",  # lost none, spent none, A02R did well
               "", "", "", "", "", "7", "", "y"]  # fmt: skip
    code, screen = typed("match", "debrief", "open", box=box, answers=answers)
    words = " ".join(screen.split())
    assert code == 0
    assert words.count("the debrief of later says it came back on 2026-05-02") == 2
    assert 'A03P is stripped already, by "strip A03P" of 2026-05-03' in words
    told = shown(box)
    assert (told["back"], told["did_well"], told["peg"]) == (
        ["A01T", "A02R", "A03P"],
        ["A02R"],
        "7",
    )
    assert told["weight_g"] == 2353  # Enter keeps it to the gram
    assert (states(box), in_order(box)) == ({"A03P": "stripped"}, True)


def test_a_walk_that_cannot_be_written_asks_once_more(box: Path) -> None:
    """A01T was lost, its winder is in use again: the answers stay, and one is changed."""
    debrief(box, "--lost", "A01T", "--gone", "hook 20=1")
    run("stock", "add", "pole 4×12", "--name", "new float", "--on", "2026-05-03", box=box)
    run("tie", "pole-canal-shot", "--on", "2026-05-03", box=box)
    first = ["y", "", "none", "", "", "", *[""] * 5, "12", "slow", "y"]
    code, screen = typed("match", "debrief", "open", box=box,
                         answers=[*first, "", "A01T", "", "", *[""] * 7, "y"])  # fmt: skip
    words = " ".join(screen.split())
    assert code == 0
    assert f"gave back {WINDER}, which is in use again" in words
    assert "Once more: Enter keeps what stands in [ ]" in words
    told = shown(box)
    assert (told["lost"], told["peg"], told["notes"]) == (["A01T"], "12", "slow")
    assert in_order(box)


@pytest.fixture(scope="module")
def untied(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_match_box(tmp_path_factory.mktemp("untied"))


def test_debrief_and_what_did_well(untied: Path) -> None:
    box = untied
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
