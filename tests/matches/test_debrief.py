"""Debriefs: one transaction, a second one corrects the first, losses feed the forecast."""

from datetime import date
from pathlib import Path

import pytest
from sqlmodel import select

from tacklebox.errors import BenchError
from tacklebox.matches.after.account import Account
from tacklebox.matches.after.debrief import write_debrief
from tacklebox.matches.after.did_well import did_well
from tacklebox.matches.before.losses import read_losses
from tacklebox.matches.files.match import Match, parse_match
from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import tied_with
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.undo import redo_last, undo_last
from tacklebox.stock.finding import find
from tacklebox.stock.made import StateChange
from tacklebox.stock.tables import Action, Movement
from tests.rigs.boxes import DAY, make_box, on_hand, short_rig

HOOK, SHOT, TODAY = "hook 20 barbless spade", "shot No 8 tin", date(2026, 7, 1)
WANT = '[[want]]\nrecipe = "short-rig"\ncount = 6\n'


def match(day: str = "2026-06-20", stem: str = "open", venue: str = "pond") -> Match:
    head = f'name = "O"\ndate = "{day}"\nfrom = "10:00"\nto = "15:00"\nvenue = "{venue}"\n'
    return parse_match(head + WANT, stem)


def taken(tmp_path: Path) -> Box:
    """Three short rigs A01T, A02R, A03P; seven hooks and twenty No 8 are left."""
    box = make_box(tmp_path)
    tie(box, short_rig(), 3, DAY)
    return box


def states(box: Box) -> list[str]:
    return [t.state for t in tied_with(box)]


def rate(box: Box, name: str) -> tuple[float, int]:
    with box.reading() as session:
        found = read_losses(session).rate_of(find(session, name))
    return found.shape, found.history


FIRST = Account(
    ["A01T"], ["A02R"], ["A03P"], ["A01T"], {HOOK: "3", SHOT: "5"}, "14", 5443.1, "slow"
)


def test_what_was_told_is_written(tmp_path: Path) -> None:
    box = taken(tmp_path)
    written = write_debrief(box, match(), FIRST, TODAY)
    assert (written.on, written.peg, written.weight_g) == (date(2026, 6, 20), "14", 5443.1)
    assert states(box) == ["ready", "lost", "worn out"]
    assert (on_hand(box)[HOOK], on_hand(box)[SHOT]) == (4, 15)
    # Three hooks were lost beside the rigs, one with A02R.
    assert rate(box, HOOK) == (2 + 3 + 1, 1)
    assert audit(box.database).faults == ()


def test_a_second_one_offers_to_correct_the_first(tmp_path: Path) -> None:
    box = taken(tmp_path)
    write_debrief(box, match(), FIRST, TODAY)
    again = Account(back=["A02R"], worn_out=["A01T"], tackle_lost={HOOK: "1"})
    with pytest.raises(BenchError, match="was debriefed already") as refused:
        write_debrief(box, match(), again, TODAY)
    assert refused.value.see == "debriefs.correct"
    assert states(box) == ["ready", "lost", "worn out"]
    write_debrief(box, match(), again, TODAY, correct=True)
    assert states(box) == ["worn out", "ready", "ready"]
    assert (on_hand(box)[HOOK], on_hand(box)[SHOT]) == (6, 20)
    assert rate(box, HOOK) == (2 + 1, 1)
    write_debrief(box, match(), Account(tackle_lost={HOOK: "2"}), TODAY, correct=True)
    assert on_hand(box)[HOOK] == 5
    assert (rate(box, HOOK), did_well(box)) == ((2 + 2, 1), [])
    undo_last(box, TODAY)  # the correction before it stands again
    assert (on_hand(box)[HOOK], rate(box, HOOK)) == (6, (2 + 1, 1))
    assert states(box) == ["worn out", "ready", "ready"]
    assert audit(box.database).faults == ()


def test_a_match_without_a_loss_counts(tmp_path: Path) -> None:
    box = taken(tmp_path)
    write_debrief(box, match(), Account(back=["A01T"]), TODAY)
    assert rate(box, HOOK) == (2, 1)
    undo_last(box, TODAY)
    assert rate(box, HOOK) == (2, 0)


@pytest.mark.parametrize(
    ("expected", "says"),
    [
        (
            Account(lost=["A01T"], tackle_lost={HOOK: "8"}),
            "8 of hook 20 barbless spade cannot be lost",
        ),
        (Account(lost=["A01T"], tackle_lost={HOOK: "1", "hook 20": "2"}), "is named twice"),
        (Account(lost=["A01T a02r", "A02R"]), "A02R is named twice"),
        (Account(lost=["A01T"], tackle_lost={"hook 4": "1"}), "nothing in stock"),
        (Account(lost=["A01T"], back=["A01T"]), "named twice"),
        (Account(lost=["A01T", "A04N"]), "no rig has the code"),
        (Account(not_taken=["A02R"], did_well=["A02R"]), "was not taken"),
    ],
)
def test_nothing_is_half_saved(tmp_path: Path, expected: Account, says: str) -> None:
    box = taken(tmp_path)
    before = on_hand(box)
    with pytest.raises(BenchError, match=says):
        write_debrief(box, match(), expected, TODAY)
    assert (on_hand(box), states(box)) == (before, ["ready"] * 3)
    write_debrief(box, match(), Account(lost=["A01T"]), TODAY)
    with pytest.raises(BenchError, match="A01T is lost already"):
        write_debrief(box, match(stem="next"), Account(back=["A01T"]), TODAY)


def test_what_cannot_be_told_yet(tmp_path: Path) -> None:
    box = taken(tmp_path)
    with pytest.raises(BenchError, match="has not come yet"):
        write_debrief(box, match("2026-07-02"), Account(), TODAY)
    with pytest.raises(BenchError, match="no debrief to correct"):
        write_debrief(box, match(), Account(), TODAY, correct=True)


def test_rigs_that_did_well_are_found(tmp_path: Path) -> None:
    box = taken(tmp_path)
    write_debrief(box, match(), Account(["A01T", "A02R"], did_well=["A01T"]), TODAY)
    write_debrief(
        box, match("2026-03-28", "early", "lake"), Account(["A02R"], did_well=["a02r"]), TODAY
    )
    assert [w.tied.code for w in did_well(box)] == ["A01T", "A02R"]
    assert [w.tied.code for w in did_well(box, venue="lake")] == ["A02R"]
    assert [w.tied.code for w in did_well(box, season="summer")] == ["A01T"]
    assert [w.tied.code for w in did_well(box, method="float")] == ["A01T", "A02R"]
    assert did_well(box, method="feeder") == []
    with pytest.raises(BenchError, match="no season"):
        did_well(box, season="monsoon")
    with pytest.raises(BenchError, match=r'no method\. Did you mean "feeder"'):
        did_well(box, method="feader")
    with pytest.raises(BenchError, match=r'at "lage"\. Did you mean "lake"'):
        did_well(box, venue="lage")


def test_a_rig_that_was_tied_later_was_not_taken(tmp_path: Path) -> None:
    box = taken(tmp_path)
    with pytest.raises(BenchError, match="A01T was tied on Thursday 5 March 2026, after the match"):
        write_debrief(box, match("2026-03-04"), Account(["A01T"]), TODAY)
    write_debrief(box, match(str(DAY)), Account(["A01T"]), TODAY)


def test_a_debrief_is_undone_as_a_whole_and_done_again(tmp_path: Path) -> None:
    box = taken(tmp_path)
    before = on_hand(box)
    write_debrief(box, match(), FIRST, TODAY)
    after = on_hand(box)
    for _ in range(2):
        undo_last(box, TODAY)
        assert (on_hand(box), states(box)) == (before, ["ready"] * 3)
        assert (rate(box, HOOK), did_well(box)) == ((2, 0), [])
        redo_last(box, TODAY)
        assert (on_hand(box), states(box)) == (after, ["ready", "lost", "worn out"])
        assert rate(box, HOOK) == (2 + 3 + 1, 1)
        assert [w.tied.code for w in did_well(box)] == ["A01T"]
    assert audit(box.database).faults == ()
    undo_last(box, TODAY)
    write_debrief(
        box, match(), Account(lost=["A01T"]), TODAY
    )  # undone, it is no first debrief any more
    assert states(box) == ["lost", "ready", "ready"]


def test_a_debrief_is_one_action(tmp_path: Path) -> None:
    box = taken(tmp_path)
    with box.reading() as session:
        actions = len(list(session.exec(select(Action))))
    written = write_debrief(box, match(), FIRST, TODAY)
    with box.reading() as session:
        assert len(list(session.exec(select(Action)))) == actions + 1
        moved = list(session.exec(select(Movement).where(Movement.action_id == written.action_id)))
        turned = select(StateChange).where(StateChange.action_id == written.action_id)
        assert len(list(session.exec(turned))) == 2
    assert [m.why for m in moved] == ["lost", "lost"]
