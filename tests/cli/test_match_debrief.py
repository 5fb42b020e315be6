"""``tacklebox match debrief`` at a terminal: typed through, shown whole, written once."""

import json
from pathlib import Path

import pytest

from tests.cli.match_boxes import change, make_match_box, spring_match
from tests.cli.runs import run
from tests.cli.terminal import CTRL_C, CTRL_D, typed

# A01T is the rig, A02R, A03P and A04N are short rigs
RIG_BY_RIG = ["", "", "", "A01T", "", "a02r", "A03P", "A04N"]  # rig by rig
LOST = ["2", "5", "", "bead=1"]  # hooks, No 8, No 10, the rest
REST = ["5.4 kg", "14", "slow at first", ""]  # and no rig that was changed


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = make_match_box(tmp_path_factory.mktemp("made"))
    run("stock", "add", "bead 4 mm pack 10", "--on", "2026-03-05", box=folder)
    run("tie", "pole-canal-shot", "--on", "2026-03-05", box=folder)
    run("tie", "short-rig", "-n", "3", "--on", "2026-03-05", box=folder)
    (folder / "matches" / "open.toml").write_text(spring_match("2026-04-18", 3), encoding="utf-8")
    return folder


def states(box: Path) -> dict[str, str]:
    rigs = json.loads(run("rigs", "list", "--all", "--json", box=box).stdout)
    return {rig["code"]: rig["state"] for rig in rigs}


def on_hand(box: Path) -> dict[str, int]:
    items = json.loads(run("stock", "list", "--json", box=box).stdout)["items"]
    return {item["name"]: item["on_hand"]["value"] for item in items}


def walked(box: Path, *answers: str) -> tuple[int, str]:
    return typed("match", "debrief", "open", box=box, answers=answers)


def test_a_whole_walk_is_written_once(box: Path) -> None:
    before = on_hand(box)
    code, screen = walked(box, *RIG_BY_RIG, *LOST, *REST, "y")
    assert code == 0
    for words in (
        "Canal pole, shot, 4×12, depth 1.2 m: A01T", "Short rig, length 15 cm: A02R A03P A04N",
        "back             A01T A04N", "lost             A02R", "worn out         A03P",
        "did well         A01T A04N",
        "2 × hook 20 barbless spade, 5 × shot No 8 tin, 1 × bead 4 mm",
        "weighed in       5.4 kg (11 lb 14 oz)", "2 back, 1 lost, 1 worn out",
    ):  # fmt: skip
        assert words in screen
    assert states(box) == {"A01T": "ready", "A02R": "lost", "A03P": "worn out", "A04N": "ready"}
    lost = {name: before[name] - amount for name, amount in on_hand(box).items()}
    assert {name: n for name, n in lost.items() if n} == {
        "hook 20 barbless spade": 2, "shot No 8 tin": 5, "bead 4 mm": 1,
    }  # fmt: skip
    well = json.loads(run("match", "did-well", "--json", box=box).stdout)
    assert {(w["code"], w["peg"], w["notes"]) for w in well} == {
        ("A01T", "14", "slow at first"),
        ("A04N", "14", "slow at first"),
    }
    assert "All in order" in run("audit", box=box).stdout
    run("undo", box=box)  # as a whole
    assert set(states(box).values()) == {"ready"}
    assert on_hand(box) == before


@pytest.mark.parametrize(
    "answers",
    [
        [CTRL_C],
        ["", CTRL_D],
        [*RIG_BY_RIG, CTRL_C],
        [*RIG_BY_RIG, *LOST, *REST, "n"],
        [*RIG_BY_RIG, *LOST, *REST, CTRL_C],
    ],
)
def test_leaving_half_way_writes_nothing(box: Path, answers: list[str]) -> None:
    before = (box / "tacklebox.sqlite3").read_bytes()
    code, screen = walked(box, *answers)
    assert code == 1
    assert "Nothing was written." in screen
    assert (box / "tacklebox.sqlite3").read_bytes() == before


def test_a_bad_answer_is_asked_for_again(box: Path) -> None:
    code, screen = walked(
        box, "A02R", "A0IX", "", "", "", "", "", "", "", "",  # no such code there
        "40", "2", "x", "", "", "beed=1", "bead=99", "bead", "",  # more than there is
        "5", "", "", "", "", "y",
    )  # fmt: skip
    assert code == 0
    for words in (
        "A02R is not among these. There are A01T.",
        "Near it: A01T.",
        "40 of hook 20 barbless spade cannot be lost: 7 is in stock.",
        '"x" is no number of pieces',
        'nothing in stock is called "beed"',
        "99 of bead 4 mm cannot be lost: 10 is in stock.",
        '"5" has no unit for a weight',
    ):
        assert words in " ".join(screen.split())
    assert on_hand(box)["hook 20 barbless spade"] == 5


def test_all_and_left_at_home(box: Path) -> None:
    code, screen = walked(box, "all", "", "all", "", "", "", "", "", "", "", "", "y")
    assert code == 0
    assert "lost             A02R A03P A04N" in screen
    assert "back             -" in screen
    assert states(box) == {"A01T": "ready", "A02R": "lost", "A03P": "lost", "A04N": "lost"}


def test_a_second_walk_offers_to_correct_the_first(box: Path) -> None:
    walked(box, *RIG_BY_RIG, *LOST, *REST, "y")
    code, screen = walked(box, "n")
    assert code == 1
    for words in ("It was debriefed already:", "back             A01T A04N",
                  "notes            slow at first"):  # fmt: skip
        assert words in screen
    answers = [*[""] * 5, "none", "A02R", "", "3", *[""] * 8, "y"]
    code, screen = walked(box, "y", *answers)
    assert code == 0
    for words in ("Lost [A02R]:", "Did well [A01T]:", "(0 is a blank) [5.4 kg (11 lb 14 oz)]:",
                  "bead 4 mm [1]:", "What worked, in your words [slow at first]:"):  # fmt: skip
        assert words in screen
    assert states(box) == {"A01T": "ready", "A02R": "worn out", "A03P": "ready", "A04N": "ready"}
    held = on_hand(box)
    assert (held["hook 20 barbless spade"], held["shot No 8 tin"]) == (4, 13)
    assert held["bead 4 mm"] == 9
    assert "All in order" in run("audit", box=box).stdout


def test_other_rigs_that_were_taken(box: Path) -> None:
    run("tie", "short-rig", "--set", "length=20cm", "--on", "2026-03-05", box=box)
    code, _ = walked(box, "all", "all", "A05L", "A05L", *[""] * 8, "y")
    assert code == 0
    assert states(box)["A05L"] == "lost"


def test_without_a_terminal_the_options_are_told(box: Path) -> None:
    for words in ([], ["--json"], ["--correct"]):
        answer = run("match", "debrief", "open", *words, box=box, expect=2).stderr
        for option in ("--back", "--lost", "--worn-out", "--tackle-lost", "--weight", "--notes"):
            assert option in answer
    run("match", "debrief", "open", "--notes", "nothing lost", box=box)
    assert set(states(box).values()) == {"ready"}


def test_a_match_that_is_still_to_come(box: Path) -> None:
    change(box / "matches" / "open.toml", ("2026-04-18", "2099-04-18"))
    code, screen = walked(box)
    assert code == 2
    assert "has not come yet" in screen
