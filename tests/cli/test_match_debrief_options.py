"""``tacklebox match debrief`` in one line, shown and corrected; ``match did-well``."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.match_boxes import make_match_box, spring_match
from tests.cli.runs import run
from tests.cli.terminal import typed

HOOK, SHOT, WINDER = "hook 20 barbless spade", "shot No 8 tin", "winder 13 cm 18 mm"
SAID = ("--back", "A02R", "--lost", "A01T", "--worn-out", "A03P", "--did-well", "A02R",
        "--tackle-lost", "hook 20=2", "--tackle-lost", "shot No 8=3", "--weight", "12-8",
        "--peg", "14", "--notes", "slow")  # fmt: skip


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A01T is the rig, A02R to A07H are short rigs; the matches are "open" and then "later"."""
    folder = make_match_box(tmp_path_factory.mktemp("made"))
    run("tie", "pole-canal-shot", "--on", "2026-03-05", box=folder)
    run("tie", "short-rig", "-n", "6", "--on", "2026-03-05", box=folder)
    for stem, day in (("open", "2026-04-18"), ("later", "2026-05-02")):
        text = spring_match(day, 6)
        (folder / "matches" / f"{stem}.toml").write_text(text, encoding="utf-8")
    return folder


def debrief(box: Path, *words: str, match: str = "open", expect: int = 0) -> str:
    done = run("match", "debrief", match, *words, box=box, expect=expect)
    return " ".join((done.stdout + done.stderr).split())


def shown(box: Path) -> dict[str, Any]:
    answer = json.loads(run("match", "debrief", "open", "--show", "--json", box=box).stdout)
    assert isinstance(answer, dict)
    return answer


def states(box: Path) -> dict[str, str]:
    rigs = json.loads(run("rigs", "list", "--all", "--json", box=box).stdout)
    return {rig["code"]: rig["state"] for rig in rigs if rig["state"] != "ready"}


def in_order(box: Path) -> bool:
    return "All in order" in run("audit", box=box).stdout


def test_lost_rigs_make_hooks_run_out_sooner(box: Path) -> None:
    """Six short rigs lost are six hooks lost at one match: (2 + 6) / 2 to be expected."""

    def forecast() -> dict[str, Any]:
        run("stock", "edit", HOOK, "--minimum", "1", box=box)
        answer = json.loads(run("low", "--json", box=box).stdout)["on_the_day"]
        return next(f for f in answer["likely"] if f["name"] == HOOK)

    before = forecast()
    debrief(box, "--lost", "A02R A03P,A04N", "--lost", "A05L", "--lost", "A06J; a07h")
    after = forecast()
    assert (before["lost_at_a_match"], after["lost_at_a_match"], after["matches"]) == (2, 4, 1)
    assert after["chance_to_run_out"] > before["chance_to_run_out"]


def test_what_is_written_is_told_in_a_line(box: Path) -> None:
    answer = debrief(box, *SAID)
    assert f"Back in stock: {WINDER}." in answer
    assert (
        "open, Saturday 18 April 2026: 1 back, 1 lost, 1 worn out; lost beside rigs: "
        "2 × hook 20 barbless spade, 3 × shot No 8 tin. `tacklebox undo` takes it back."
    ) in answer


def test_a_correction_shows_the_whole_of_it(box: Path) -> None:
    debrief(box, *SAID)
    answer = debrief(box, "--correct", "--tackle-lost", "shot No 8=4")
    for words in ("back A02R", "lost A01T", "worn out A03P", "did well A02R", f"2 × {HOOK}, "
                  f"4 × {SHOT}", "weighed in 12 lb 8 oz (5.67 kg)", "peg 14", "notes slow",
                  "1 back, 1 lost, 1 worn out"):  # fmt: skip
        assert words in answer
    answer = debrief(box, "--correct", "--tackle-lost", "hook 20=0", "--not-taken", "A03P",
                   "--back", "A01T", "--weight", "none", "--peg", "", "--notes", "none")  # fmt: skip
    for words in ("back A01T A02R", "lost - worn out - did well A02R", f"tackle lost 4 × {SHOT}",
                  "weighed in - peg - notes -", "2 back, 0 lost, 0 worn out"):  # fmt: skip
        assert words in answer
    assert (states(box), in_order(box)) == ({}, True)


def test_a_debrief_is_shown_and_nothing_written(box: Path) -> None:
    answer = debrief(box, "--show", expect=2)
    assert "open is not debriefed yet. `tacklebox match debrief open` does it." in answer
    as_json = json.loads(run("match", "debrief", "open", *SAID, "--json", box=box).stdout)
    before = (box / "tacklebox.sqlite3").read_bytes()
    assert shown(box) == as_json
    table = debrief(box, "--show")
    for words in ("Debrief of open, Saturday 18 April 2026, pond.", "back A02R", "lost A01T",
                  "worn out A03P", f"back in stock {WINDER}"):  # fmt: skip
        assert words in table
    assert "--show goes with no other option" in debrief(box, "--show", "--peg", "1", expect=2)
    assert (box / "tacklebox.sqlite3").read_bytes() == before


def test_the_list_says_which_are_debriefed(box: Path) -> None:
    debrief(box, *SAID)
    rows = run("match", "list", box=box).stdout.splitlines()
    assert [row.split()[-1] for row in rows if "pond" in row] == ["yes", "-"]


def test_what_did_well_is_a_table_with_what_was_weighed_in(box: Path) -> None:
    debrief(box, *SAID)
    well = run("match", "did-well", "--venue", "pond", "--season", "spring", box=box).stdout
    assert max(map(len, well.splitlines())) <= 80
    assert "A02R" in well
    assert "Saturday 18 April 2026, pond: 12 lb 8 oz (5.67 kg), slow" in well
    assert "No rig" in run("match", "did-well", "--method", "feeder", box=box).stdout
    answer = run("match", "did-well", "--venue", "pnd", box=box, expect=2).stderr
    assert '--venue: no debrief is of a match at "pnd". Did you mean "pond"?' in answer


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["--weight=5"], '--weight: "5" has no unit for a weight.'),
        (["--lost", "ZZZZ"], '--lost: "ZZZZ" is mistyped'),
        (["--worn-out", "A02R, A9"], '--worn-out: "A9" is no code'),
        (["--not-taken", "A03P"], "--not-taken: a rig that was not taken need not be named."),
        (["--tackle-lost", "beed=1"], '--tackle-lost beed: nothing in stock is called "beed".'),
        (["--tackle-lost", "bead"], 'Write it like "hook 20=3".'),
        (["--correct", "--peg", "1"], "--correct: Spring open has no debrief to correct."),
    ],
)
def test_faults_are_told_by_their_options(box: Path, words: list[str], expected: str) -> None:
    assert expected in debrief(box, *words, expect=2)
    assert "not debriefed" in debrief(box, "--show", expect=2)


def test_several_faults_are_told_together(box: Path) -> None:
    answer = debrief(box, "--back", "ZZZZ", "--lost", "A01T", "--worn-out", "A01T", expect=2)
    assert "open: this debrief cannot be written. --back: " in answer
    assert "--worn-out: A01T is named twice." in answer


def test_a_second_one_is_offered_as_a_correction(box: Path) -> None:
    debrief(box, *SAID)
    answer = debrief(box, *SAID, expect=2)
    assert "nothing was changed. To change what it says, add --correct." in answer


def test_more_than_there_was_ends_with_one(box: Path) -> None:
    answer = debrief(box, "--tackle-lost", "hook 20=90", expect=1)
    assert f"--tackle-lost {HOOK}: 90 of {HOOK} cannot be lost: 4 is in stock." in answer


def test_the_walk_asks_again_where_history_contradicts(box: Path) -> None:
    debrief(box, "--back", "A01T A02R A03P", "--tackle-lost", "hook 20=1", "--weight", "2353 g")
    debrief(box, "--back", "A02R", match="later")
    run("rigs", "strip", "A03P", "--on", "2026-05-03", box=box)
    answers = ["y", "", "", "", "",  # A01T
               "", "A02R", "A03P", "all", "", "", "A02R",  # lost none, worn out none, A02R did well
               "", "", "", "", "", "7", "", "", "y"]  # fmt: skip
    code, screen = typed("match", "debrief", "open", box=box, answers=answers)
    words = " ".join(screen.split())
    assert code == 0
    assert words.count("the debrief of later says it came back on Saturday 2 May 2026") == 2
    assert 'A03P is stripped already, by "strip A03P" of Sunday 3 May 2026' in words
    answer = shown(box)
    assert (answer["back"], answer["did_well"], answer["peg"]) == (
        ["A01T", "A02R", "A03P"],
        ["A02R"],
        "7",
    )
    assert answer["weight_g"] == 2353  # Enter keeps it to the gram
    assert (states(box), in_order(box)) == ({"A03P": "stripped"}, True)


def test_a_walk_that_cannot_be_written_asks_once_more(box: Path) -> None:
    """A01T was lost, its winder is in use again: the answers stay, and one is changed."""
    debrief(box, "--lost", "A01T", "--tackle-lost", "hook 20=1")
    run("stock", "add", "pole 4×12", "--name", "new float", "--on", "2026-05-03", box=box)
    run("tie", "pole-canal-shot", "--on", "2026-05-03", box=box)
    first = ["y", "", "none", "", "", "", *[""] * 5, "12", "slow", "", "y"]
    code, screen = typed("match", "debrief", "open", box=box,
                         answers=[*first, "", "A01T", "", "", *[""] * 7, "y"])  # fmt: skip
    words = " ".join(screen.split())
    assert code == 0
    assert f"gave back {WINDER}, which is in use again" in words
    assert "Once more: Enter keeps what stands in [ ]" in words
    answer = shown(box)
    assert (answer["lost"], answer["peg"], answer["notes"]) == (["A01T"], "12", "slow")
    assert in_order(box)
