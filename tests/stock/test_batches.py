"""Batches of hooklengths as the ledger moves their item: the oldest goes first."""

from datetime import timedelta
from pathlib import Path

import pytest
from sqlmodel import col, select

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import mark_lost, strip_rigs
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.undo import redo_last, undo_last
from tacklebox.stock.hooklengths import find_hooklength
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.made import Batch
from tacklebox.stock.tables import Item, Why
from tests.rigs.boxes import DAY, add, fine_hooklength, make_box, on_hand

NAME = "hooklength 20 barbless spade to 0.08 mm 0.7 kg 15 cm"


@pytest.fixture
def box(tmp_path: Path) -> Box:
    """With two batches of four, and three of the same that were bought."""
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m", "hook 20 barbless spade pack 30")
    for on in (DAY + timedelta(days=1), DAY):  # the second is the older
        tie(box, fine_hooklength(), 4, on)
    _move(box, 3, Why.BOUGHT)
    return box


def _move(box: Box, amount: int, why: Why) -> None:
    with box.writing() as session:
        item = find_hooklength(session, "20 to 0.08")
        move(session, begin(session, why, DAY), item, amount, why)


def left(box: Box) -> dict[str, int]:
    with box.reading() as session:
        return {b.code: b.left for b in session.exec(select(Batch).order_by(col(Batch.id)))}


def test_tying_takes_hook_and_line_and_adds_to_one_item(box: Box) -> None:
    assert on_hand(box) == {
        "nylon 0.08 mm 0.7 kg": 50_000 - 8 * 350,
        "hook 20 barbless spade": 22,
        NAME: 11,
    }
    assert left(box) == {"A01T": 4, "A02R": 4}
    assert audit(box.database, Snapshot.from_json).faults == ()


def test_the_oldest_batch_goes_first_and_packets_last(box: Box) -> None:
    _move(box, -5, Why.LOST)
    assert left(box) == {"A01T": 3, "A02R": 0}
    _move(box, -4, Why.THROWN_OUT)
    assert left(box) == {"A01T": 0, "A02R": 0}
    assert on_hand(box)[NAME] == 2
    with pytest.raises(CannotBeDoneError, match="only 2 of"):
        _move(box, -3, Why.LOST)


def test_what_comes_back_goes_where_it_was_taken_last(box: Box) -> None:
    _move(box, -6, Why.LOST)
    _move(box, 3, Why.GIVEN_BACK)
    assert left(box) == {"A01T": 4, "A02R": 1}
    _move(box, 10, Why.BOUGHT)  # is of no batch
    assert left(box) == {"A01T": 4, "A02R": 1}
    _move(box, 20, Why.COUNTED)
    assert left(box) == {"A01T": 4, "A02R": 4}
    assert audit(box.database, Snapshot.from_json).faults == ()


def test_a_batch_that_is_undone_is_never_filled(box: Box) -> None:
    undo_last(box, DAY)  # what was bought
    undo_last(box, DAY)  # the second batch
    _move(box, 2, Why.COUNTED)
    assert left(box) == {"A01T": 4, "A02R": 0}
    assert on_hand(box)[NAME] == 6


def test_undo_and_redo_turn_batches(box: Box) -> None:
    _move(box, -5, Why.LOST)
    undo_last(box, DAY)
    assert left(box) == {"A01T": 4, "A02R": 4}
    redo_last(box, DAY)
    assert left(box) == {"A01T": 3, "A02R": 0}
    for _ in range(4):
        undo_last(box, DAY)
    assert NAME not in on_hand(box)  # its first tying is undone
    assert on_hand(box)["hook 20 barbless spade"] == 30
    redo_last(box, DAY)
    assert on_hand(box)[NAME] == 4
    assert audit(box.database, Snapshot.from_json).faults == ()


def test_so_many_of_a_batch_by_its_code(box: Box) -> None:
    mark_lost(box, ["A01T=3"], DAY)
    strip_rigs(box, ["A02R=1", "A01T"], DAY)  # the only one that is left
    assert left(box) == {"A01T": 0, "A02R": 3}
    for codes, words in (
        (["A02R"], "of which 3 are left"),
        (["A02R=4"], "3 are left of batch A02R"),
        (["A02R=x"], "no number of hooklengths"),
        (["A02R=1", "A02R=1"], "named twice"),
        (["A01T=1"], "none is left"),
    ):
        with pytest.raises(AskedWronglyError, match=words):
            mark_lost(box, codes, DAY)
    assert left(box) == {"A01T": 0, "A02R": 3}


def test_the_same_of_another_spool_is_another_item(box: Box) -> None:
    add(box, "nylon 0.08 mm 0.75 kg 50 m")
    with box.reading() as session:
        other = session.exec(select(Item).where(Item.words == "nylon 0.08 mm 0.75 kg")).one()
    tie(box, fine_hooklength(), 1, DAY, use={"hooklength line": other.id or 0})
    assert on_hand(box)["hooklength 20 barbless spade to 0.08 mm 0.75 kg 15 cm"] == 1


def test_a_batch_is_not_older_than_its_hooks(box: Box) -> None:
    before = on_hand(box)
    with pytest.raises(AskedWronglyError, match=r"cannot be of .*which came into the box"):
        tie(box, fine_hooklength(), 1, DAY - timedelta(days=1))
    assert on_hand(box) == before


def test_its_hooks_may_have_been_entered_late(box: Box) -> None:
    """He ties on Tuesday, and enters the packet on Thursday."""
    (batch,) = tie(box, fine_hooklength(), 2, DAY - timedelta(days=2), entered_late=True).made
    assert batch.tied_on == DAY - timedelta(days=2)
    assert audit(box.database).faults == ()


def test_several_that_the_words_fit_are_asked(box: Box) -> None:
    tie(box, fine_hooklength(length="20 cm"), 2, DAY)
    with box.reading() as session:
        with pytest.raises(AskedWronglyError) as asked:
            find_hooklength(session, "20 to 0.08")
        assert "fits 2 kinds" in asked.value.what
        assert "15 cm, 11; " in asked.value.right
        assert find_hooklength(session, "20 to 0.08 20cm").on_hand == 2
    _move_all(box, "20 to 0.08 20cm")
    with box.reading() as session:  # of the two, one is there
        assert find_hooklength(session, "20 to 0.08").name == NAME
        for said, words in (("18 to 0.10", "no hooklength"), ("1", "is no hooklength")):
            with pytest.raises(AskedWronglyError, match=words):
                find_hooklength(session, said)


def _move_all(box: Box, said: str) -> None:
    with box.writing() as session:
        item = find_hooklength(session, said)
        move(session, begin(session, "lost", DAY), item, -item.on_hand, Why.LOST)
