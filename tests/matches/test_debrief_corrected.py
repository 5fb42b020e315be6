"""Corrections of debriefs: what is not named stays; what a rig's later history contradicts is refused;
what lost and spent rigs gave back is taken back exactly."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from tacklebox.errors import BenchError
from tacklebox.matches.after.account import OF_THE_MATCH, Account
from tacklebox.matches.after.debrief import write_debrief
from tacklebox.matches.after.debriefed import debriefed
from tacklebox.matches.files.match import Match, parse_match
from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import mark_lost, strip_rigs, tied_with
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.undo import redo_last, undo_last
from tacklebox.stock.ledger import write_movement
from tests.rigs.boxes import CANAL, DAY, add, canal_rig, make_box, on_hand, short_rig

HOOK, SHOT, WINDER = "hook 20 barbless spade", "shot No 8 tin", "winder 13 cm 18 mm"
FLOATS = ("pole 4×12", "pole 4×12 tip 1.2 mm")
TODAY, JANUARY, MARCH = date(2027, 4, 1), "2027-01-10", "2027-03-14"
ALL = frozenset(OF_THE_MATCH)
FIRST = Account(
    ["A01T"], ["A02R"], ["A03P"], ["A01T"], {HOOK: "3", SHOT: "5"}, "14", 5443.1, "slow"
)


def match(day: str = JANUARY, stem: str = "open") -> Match:
    head = f'name = "O"\ndate = "{day}"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"\n'
    return parse_match(f'{head}[[want]]\nrecipe = "short-rig"\ncount = 6\n', stem)


def short_rigs(folder: Path) -> Box:
    """Three short rigs A01T, A02R, A03P; seven hooks and twenty No 8 are left."""
    box = make_box(folder)
    tie(box, short_rig(), 3, DAY)
    return box


def rigs(folder: Path) -> Box:
    """Two whole rigs A01T and A02R on the only two winders and floats."""
    box = open_box(folder)
    for words in CANAL:
        add(box, words, **({"amount": "2"} if words.startswith("winder") else {}))
    for _ in range(2):
        tie(box, canal_rig(), 1, DAY)
    return box


def states(box: Box) -> dict[str, str]:
    return {rig.code: rig.state for rig in tied_with(box)}


def says(box: Box, stem: str = "open") -> Account:
    found = debriefed(box, stem)
    assert found is not None
    return found.account


def lists(answer: Account) -> Account:
    """The same, with each of its codes in a list."""
    return replace(
        answer,
        back=list(answer.back),
        lost=list(answer.lost),
        worn_out=list(answer.worn_out),
        did_well=list(answer.did_well),
    )


def in_order(box: Box) -> bool:
    return audit(box.database).faults == ()


@pytest.mark.parametrize(
    ("said", "kept", "now"),
    [
        (Account(tackle_lost={"shot No 8": "4"}), ALL, {"tackle_lost": {HOOK: "3", SHOT: "4"}}),
        (Account(tackle_lost={SHOT: "0"}), ALL, {"tackle_lost": {HOOK: "3"}}),
        (Account(tackle_lost={"connector": "1"}), ALL,
         {"tackle_lost": {HOOK: "3", SHOT: "5", "connector": "1"}}),
        (Account(peg="15"), ALL - {"peg"}, {"peg": "15"}),
        (Account(), ALL - {"peg", "notes", "weight_g"}, {"peg": "", "notes": "", "weight_g": None}),
        (Account(weight_g=0.0), ALL - {"weight_g"}, {"weight_g": 0.0}),
        (Account(did_well=["A02R"]), ALL, {"did_well": ["A01T", "A02R"]}),
        (Account(back=["A01T"]), ALL, {"did_well": []}),
        (Account(lost=["a01t"]), ALL, {"back": [], "lost": ["A01T", "A02R"], "did_well": []}),
        (Account(back=["A02R"]), ALL, {"back": ["A01T", "A02R"], "lost": []}),
        (Account(worn_out=["A02R"]), ALL, {"lost": [], "worn_out": ["A02R", "A03P"]}),
        (Account(not_taken=["A02R A01T"]), ALL, {"back": [], "lost": [], "did_well": []}),
    ],
)  # fmt: skip
def test_what_is_not_named_stays_as_it_stood(
    tmp_path: Path, said: Account, kept: frozenset[str], now: dict[str, object]
) -> None:
    box = short_rigs(tmp_path)
    untouched = on_hand(box)
    write_debrief(box, match(), FIRST, TODAY)
    first = on_hand(box), states(box)
    write_debrief(box, match(), said, TODAY, correct=True, only_changes=True, kept=kept)
    answer = replace(FIRST, **now)  # type: ignore[arg-type]
    assert says(box) == answer
    became = dict.fromkeys(answer.lost, "lost") | dict.fromkeys(answer.worn_out, "worn out")
    assert states(box) == {code: became.get(code, "ready") for code in ("A01T", "A02R", "A03P")}
    taken = {name: untouched[name] - n for name, n in on_hand(box).items() if n != untouched[name]}
    assert taken == {name: int(amount) for name, amount in answer.tackle_lost.items()}
    assert in_order(box)
    undo_last(box, TODAY)
    assert (on_hand(box), states(box)) == first
    assert (says(box), in_order(box)) == (FIRST, True)


def test_without_what_is_kept_all_is_told_anew(tmp_path: Path) -> None:
    box = short_rigs(tmp_path)
    write_debrief(box, match(), FIRST, TODAY)
    write_debrief(box, match(), Account(notes="nothing"), TODAY, correct=True)
    assert says(box) == lists(Account(notes="nothing"))
    assert set(states(box).values()) == {"ready"}


def test_lengths_are_kept_to_the_millimetre(tmp_path: Path) -> None:
    box = short_rigs(tmp_path)
    before = on_hand(box)["nylon 0.12 mm 1.6 kg"]
    write_debrief(box, match(), Account(tackle_lost={"nylon 0.12": "1234 mm"}), TODAY)
    write_debrief(box, match(), says(box), TODAY, correct=True)
    assert on_hand(box)["nylon 0.12 mm 1.6 kg"] == before - 1234


def test_lost_and_spent_give_back_what_outlives_them(tmp_path: Path) -> None:
    """The winder of what is lost; of what is worn out the float, too. Undone as a whole."""
    box = rigs(tmp_path)
    before = on_hand(box)
    assert [before[name] for name in (WINDER, *FLOATS)] == [0, 0, 0]
    write_debrief(box, match(), Account(lost=["A01T"], worn_out=["A02R"]), TODAY)
    lost, spent = states(box), on_hand(box)
    assert lost == {"A01T": "lost", "A02R": "worn out"}
    assert spent[WINDER] == 2
    assert sum(spent[name] for name in FLOATS) == 1
    others = {name: n for name, n in spent.items() if name not in (WINDER, *FLOATS)}
    assert others == {name: before[name] for name in others}
    found = debriefed(box, "open")
    assert found is not None
    assert sorted(amount for _, amount in found.given_back) == [1, 2]
    for _ in range(2):
        undo_last(box, TODAY)
        assert (on_hand(box), set(states(box).values())) == (before, {"ready"})
        redo_last(box, TODAY)
        assert (on_hand(box), states(box), in_order(box)) == (spent, lost, True)


@pytest.mark.parametrize(
    ("said", "winders", "floats"),
    [
        (Account(back=["A01T", "A02R"]), 0, 0),
        (Account(lost=["A01T", "A02R"]), 2, 0),
        (Account(worn_out=["A01T", "A02R"]), 2, 2),
        (Account(worn_out=["A01T"], lost=["A02R"]), 2, 1),
        (Account(lost=["A02R"]), 1, 0),
        (Account(), 0, 0),
    ],
)
def test_a_correction_takes_back_what_was_given_back(
    tmp_path: Path, said: Account, winders: int, floats: int
) -> None:
    box = rigs(tmp_path)
    before = on_hand(box)
    write_debrief(box, match(), Account(lost=["A01T"], worn_out=["A02R"]), TODAY)
    for _ in range(2):  # a correction of the correction says the same
        write_debrief(box, match(), said, TODAY, correct=True)
        held = on_hand(box)
        assert (held[WINDER], sum(held[name] for name in FLOATS)) == (winders, floats)
        assert in_order(box)
    stood = states(box)
    write_debrief(box, match(), Account(back=["A01T", "A02R"]), TODAY, correct=True)
    assert (on_hand(box), set(states(box).values())) == (before, {"ready"})
    undo_last(box, TODAY)
    assert (on_hand(box), states(box), in_order(box)) == (held, stood, True)


def test_a_winder_in_use_again_stays_where_it_is(tmp_path: Path) -> None:
    """A01T was lost and its winder taken for another rig; that A01T was lost may still be said."""
    box = rigs(tmp_path)
    write_debrief(box, match(), Account(lost=["A01T"], back=["A02R"]), TODAY)
    add(box, "pole 4×12", name="new float")
    tie(box, canal_rig(), 1, date(2027, 1, 11))
    held = on_hand(box)
    assert held[WINDER] == 0
    write_debrief(
        box, match(), Account(peg="9"), TODAY, correct=True, only_changes=True, kept=ALL - {"peg"}
    )
    assert (on_hand(box), says(box).lost, says(box).peg) == (held, ["A01T"], "9")
    stood = says(box), states(box)
    with pytest.raises(BenchError, match=f"gave back {WINDER}, which is in use again"):
        write_debrief(
            box, match(), Account(back=["A01T"]), TODAY, correct=True, only_changes=True, kept=ALL
        )
    assert (on_hand(box), (says(box), states(box)), in_order(box)) == (held, stood, True)
    strip_rigs(box, ["A03P"], date(2027, 1, 12))
    write_debrief(
        box, match(), Account(back=["A01T"]), TODAY, correct=True, only_changes=True, kept=ALL
    )
    assert states(box) == {"A01T": "ready", "A02R": "ready", "A03P": "stripped"}
    assert in_order(box)


def test_a_rig_that_moved_on_is_left_alone(tmp_path: Path) -> None:
    """A01T is stripped since, A02R was lost in March: January is corrected all the same."""
    box = short_rigs(tmp_path)
    write_debrief(box, match(), Account(["A01T", "A02R"], peg="3"), TODAY)
    strip_rigs(box, ["A01T"], date(2027, 2, 1))
    write_debrief(box, match(MARCH, "spring"), Account(lost=["A02R"]), TODAY)
    before = on_hand(box), states(box)
    write_debrief(
        box, match(), Account(did_well=["A01T"]), TODAY, correct=True, only_changes=True, kept=ALL
    )
    assert says(box) == lists(Account(["A01T", "A02R"], did_well=["A01T"], peg="3"))
    write_debrief(box, match(), Account(back=["A02R"], did_well=["A02R"]), TODAY, correct=True)
    assert says(box) == lists(Account(["A02R"], did_well=["A02R"]))
    write_debrief(box, match(), Account(back=["A01T", "A02R", "A03P"]), TODAY, correct=True)
    assert (on_hand(box), states(box)) == before
    assert says(box).back == ["A01T", "A02R", "A03P"]  # both came back, and left after it
    assert in_order(box)


def test_what_later_history_contradicts_is_refused(tmp_path: Path) -> None:
    box = short_rigs(tmp_path)
    write_debrief(box, match(), Account(["A01T", "A02R"]), TODAY)
    write_debrief(box, match(MARCH, "spring"), Account(["A02R"]), TODAY)
    strip_rigs(box, ["A01T"], date(2027, 3, 20))
    before = on_hand(box), states(box), says(box)
    for said, words in (
        (Account(lost=["A02R"]), "A02R cannot have been lost or worn out on .* January 2027: "
         "the debrief of spring says it came back on Sunday 14 March 2027"),
        (Account(worn_out=["A02R"]), "spring says it came back on Sunday 14 March 2027"),
        (Account(lost=["A01T"]), 'A01T is stripped already, by "strip A01T" of Saturday 20 March 2027'),
    ):  # fmt: skip
        with pytest.raises(BenchError, match=words):
            write_debrief(box, match(), said, TODAY, correct=True, only_changes=True, kept=ALL)
        with pytest.raises(BenchError, match=words):  # a first one that is told late
            write_debrief(box, match("2027-01-09", "before"), said, TODAY)
    assert (on_hand(box), states(box), says(box)) == before
    # What is wrong in the later one is put right first.
    write_debrief(box, match(MARCH, "spring"), Account(), TODAY, correct=True)
    write_debrief(
        box, match(), Account(lost=["A02R"]), TODAY, correct=True, only_changes=True, kept=ALL
    )
    assert states(box)["A02R"] == "lost"
    with pytest.raises(BenchError, match='A02R is lost already, by "debrief of O"'):
        write_debrief(box, match(MARCH, "spring"), Account(["A02R"]), TODAY, correct=True)


def test_a_rig_gone_before_the_match_did_not_come_back(tmp_path: Path) -> None:
    box = short_rigs(tmp_path)
    mark_lost(box, ["A01T"], date(2027, 1, 9))
    with pytest.raises(
        BenchError, match='A01T is lost already, by "lost A01T" of Saturday 9 January 2027'
    ):
        write_debrief(box, match(), Account(["A01T"]), TODAY)


@pytest.mark.parametrize("breaks_at", [1, 2, 3, 4, 5, 6])
def test_a_correction_that_breaks_off_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, breaks_at: int
) -> None:
    """Six movements: a hook comes back, two rigs give back three things, the winder given back
    before goes again, hooks are lost."""
    box = rigs(tmp_path)
    write_debrief(
        box, match(), Account(lost=["A01T"], back=["A02R"], tackle_lost={HOOK: "1"}), TODAY
    )
    before = on_hand(box), states(box), says(box)
    moved = 0

    def breaks_off(*args: object, **kwargs: object) -> None:
        nonlocal moved
        moved += 1
        if moved == breaks_at:
            raise KeyboardInterrupt
        write_movement(*args, **kwargs)  # type: ignore[arg-type]

    monkeypatch.setattr("tacklebox.matches.after.debrief.write_movement", breaks_off)
    monkeypatch.setattr("tacklebox.stock.ledger.write_movement", breaks_off)
    with pytest.raises(KeyboardInterrupt):
        write_debrief(
            box,
            match(),
            Account(worn_out=["A02R"], tackle_lost={HOOK: "2"}),
            TODAY,
            correct=True,
            only_changes=True,
            kept=ALL,
        )
    assert (on_hand(box), states(box), says(box)) == before
    assert in_order(box)
