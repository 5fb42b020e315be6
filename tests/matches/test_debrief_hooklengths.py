"""Hooklengths at a match: lost and worn out by their kind or their batch, counted in the forecasts."""

from datetime import timedelta
from pathlib import Path

import pytest
from sqlmodel import col, select

from tacklebox.errors import AskedWronglyError, CannotBeDoneError, ManyFaultsError
from tacklebox.matches.after.account import Account
from tacklebox.matches.after.debrief import write_debrief
from tacklebox.matches.after.debriefed import debriefed
from tacklebox.matches.after.taken import what_was_taken
from tacklebox.matches.before.losses import read_losses
from tacklebox.matches.files.match import Match, parse_match
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tie import tie
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.undo import undo_last
from tacklebox.stock.hooklengths import find_hooklength
from tacklebox.stock.made import Batch
from tests.rigs.boxes import DAY, fine_hooklength, make_box, on_hand

NAME = "hooklength 20 barbless spade to 0.08 mm 0.7 kg 15 cm"
LONG = "hooklength 20 barbless spade to 0.08 mm 0.7 kg 20 cm"


@pytest.fixture
def box(tmp_path: Path) -> Box:
    """With two batches of 15 cm, the second the older, and one of 20 cm."""
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m", "hook 20 barbless spade pack 30")
    tie(box, fine_hooklength(), 4, DAY + timedelta(days=1))
    tie(box, fine_hooklength(), 2, DAY)
    tie(box, fine_hooklength(length="20 cm"), 3, DAY)
    return box


def match(name: str = "open") -> Match:
    text = f"""name = "Open"\ndate = "{DAY + timedelta(days=2)}"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"
[[want]]\nrecipe = "hooklength-fine"\ncount = 6\n"""
    return parse_match(text, name)


def write(box: Box, account: Account, *, correct: bool = False, only_changes: bool = False) -> None:
    day = DAY + timedelta(days=2)
    write_debrief(box, match(), account, day, correct=correct, only_changes=only_changes)


def left(box: Box) -> list[int]:
    with box.reading() as session:
        return [b.left for b in session.exec(select(Batch).order_by(col(Batch.id)))]


def test_the_oldest_go_first(box: Box) -> None:
    write(box, Account(lost=["20 to 0.08 15cm=3"], worn_out=["20 to 0.08 20cm=1"]))
    assert left(box) == [3, 0, 2]
    found = debriefed(box, "open")
    assert found is not None
    assert [(item.name, n) for item, n in found.lost] == [(NAME, 3)]
    assert [(item.name, n) for item, n in found.worn_out] == [(LONG, 1)]
    with box.reading() as session:
        losses, item = read_losses(session), find_hooklength(session, NAME)
    assert losses.by_item[item.id or 0] == {match().day: 3}
    assert audit(box.database, Snapshot.from_json).faults == ()


def test_of_two_lengths_it_is_asked_which(box: Box) -> None:
    with pytest.raises(AskedWronglyError, match="fits 2 kinds") as asked:
        write(box, Account(lost=["20 to 0.08=3"]))
    assert asked.value.field == "lost"
    assert "15 cm, 6; " in asked.value.right
    assert debriefed(box, "open") is None


def test_by_the_code_of_a_batch(box: Box) -> None:
    write(box, Account(lost=["A01T=2"], worn_out=["A02R=1"]))
    assert left(box) == [2, 1, 3]
    undo_last(box, DAY)
    assert left(box) == [4, 2, 3]


def test_said_with_the_number_first(box: Box) -> None:
    write(box, Account(lost=["three 20s to 0.08 at 15cm", "1 of the 20 to 0.08 20cm"]))
    assert left(box) == [3, 0, 2]


def test_a_correction_puts_them_back_where_they_were(box: Box) -> None:
    write(box, Account(lost=["A01T=2", f"{LONG}=1"]))
    write(box, Account(lost=["A01T=1"], worn_out=["A02R=1"]), correct=True, only_changes=True)
    assert left(box) == [3, 1, 2]  # what is not named again stays lost
    write(box, Account(notes="none was lost"), correct=True)
    assert left(box) == [4, 2, 3]
    assert on_hand(box)[NAME] == 6
    assert audit(box.database, Snapshot.from_json).faults == ()


@pytest.mark.parametrize(
    ("account", "words"),
    [
        (Account(lost=["A01T=5"]), "4 are left of batch A01T, not 5"),
        (Account(lost=["A01T"]), "of which 4 are left"),
        (Account(lost=["18 to 0.10=1"]), "no hooklength in the wallet"),
        (Account(lost=["20 to 0.08"]), "nobody says how many"),
        (Account(lost=["A01T=some"]), "no number of hooklengths"),
        (Account(back=["A01T=1"]), "hooklengths are counted"),
        (Account(lost=["A01T=1", "A01T=1"]), "named twice"),
        (Account(lost=["20 to 0.08 20cm=1"], tackle_lost={LONG: "1"}), "named twice"),
        (Account(did_well=["A01T"]), "a batch of hooklengths, not a rig"),
    ],
)
def test_what_cannot_be_is_refused_whole(box: Box, account: Account, words: str) -> None:
    with pytest.raises((AskedWronglyError, ManyFaultsError), match=words):
        write(box, account)
    assert left(box) == [4, 2, 3]
    assert debriefed(box, "open") is None


def test_more_than_there_are_cannot_be_worn_out(box: Box) -> None:
    with pytest.raises(CannotBeDoneError, match=r"9 of .* cannot be worn out"):
        write(box, Account(worn_out=[f"{NAME}=9"]))


def test_the_walk_asks_for_those_of_the_wants(box: Box) -> None:
    write(box, Account(lost=[f"{NAME}=6"]))  # all there were
    own = match()
    taken = what_was_taken(box, own, [(own.want[0], fine_hooklength())])
    assert [(item.name, taken.had(item)) for item in taken.hooklengths] == [(NAME, 6)]
    assert taken.tackle == ()
