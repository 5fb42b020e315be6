"""Hooklengths that older boxes kept one by one become items with batches of one, and lose nothing."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.export import export_box
from tacklebox.stock.care.reading_in import import_box
from tacklebox.stock.care.undo import LatestActions, read_history, redo_last, undo_last
from tests.rigs.boxes import DAY, on_hand
from tests.stock.full_box import dump
from tests.stock.keep_box import BOXES

# Six of 15 cm: one lost, one lost at a match and found by a correction of its debrief, one worn out there.
# Three of 20 cm that were undone and done again: one lost at the match, one stripped and that undone. Two of
# 25 cm that were undone.
WORDS = "hooklength 20 barbless spade to 0.08 mm 0.7 kg"
LEFT = {
    **{"A01T": 0, "A02R": 1, "A03P": 0, "A04N": 1, "A05L": 1, "A06J": 1},
    **{"A08F": 1, "A09D": 0, "A0C7": 1, "A0D5": 0, "A0E3": 0},
}


@pytest.fixture
def old(tmp_path: Path) -> Path:
    (tmp_path / "old").mkdir()
    database = tmp_path / "old" / DATABASE_NAME
    with closing(sqlite3.connect(database)) as connection:
        connection.executescript((BOXES / "hooklengths-4.sql").read_text(encoding="utf-8"))
    return database


@pytest.fixture
def box(old: Path) -> Box:
    return open_box(old.parent)


def rows(box: Box, query: str) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(box.database)) as connection:
        return connection.execute(query).fetchall()


def left(box: Box) -> dict[object, object]:
    return dict(rows(box, 'SELECT code, "left" FROM batch ORDER BY code'))  # type: ignore[arg-type]


def test_each_code_is_a_batch_of_one_of_an_item(box: Box) -> None:
    assert audit(box.database, Snapshot.from_json).faults == ()
    stock = {name: n for name, n in on_hand(box).items() if name.startswith("hooklength")}
    assert stock == {f"{WORDS} 15 cm": 4, f"{WORDS} 20 cm": 2}  # those of 25 cm are undone
    assert left(box) == LEFT
    assert rows(box, "SELECT code FROM tied") == [("A07H",)]
    labelled = rows(box, "SELECT code FROM batch WHERE labelled_on = '2026-03-05'")
    assert labelled == [("A01T",), ("A02R",), ("A03P",)]
    made = Snapshot.from_json(str(rows(box, "SELECT snapshot FROM batch")[0][0]))
    assert (made.code, made.count, made.looked_for) == ("A01T", 1, "20 · 0.08")


def test_a_rig_lost_after_hooklengths_leaves_the_box_in_order(old: Path, tmp_path: Path) -> None:
    """What became of rigs keeps its numbers, with gaps where hooklengths were."""
    with closing(sqlite3.connect(old)) as before, before:
        before.execute("UPDATE tied SET state = 'lost' WHERE code = 'A07H'")
    box = open_box(old.parent)
    assert rows(box, "SELECT id, was, became FROM statechange") == [(18, "ready", "lost")]
    assert audit(box.database, Snapshot.from_json).faults == ()
    test_an_export_gives_an_equal_box(box, tmp_path)


def test_uses_stay_with_the_action_that_tied(box: Box) -> None:
    used = """SELECT b.action_id = (SELECT min(id) FROM action WHERE what LIKE 'tie 6%'), u.part, u.amount
                FROM batchuse u JOIN batch b ON b.id = u.batch_id WHERE b.code = 'A04N'"""
    assert rows(box, used) == [(1, "hooklength line", 350), (1, "hook", 1)]


def test_what_was_lost_and_worn_out_is_so_of_the_item(box: Box) -> None:
    gone = """SELECT a.what, m.why, sum(m.amount) FROM movement m JOIN action a ON a.id = m.action_id
                JOIN item i ON i.id = m.item_id WHERE i.kind = 'hooklength'
                AND m.why IN ('lost', 'thrown out') GROUP BY a.id, m.why ORDER BY a.id"""
    assert rows(box, gone) == [
        ("lost A01T", "lost", -1),
        ("strip A08F", "thrown out", -1),
        ("debrief of one", "lost", -2),
        ("debrief of one", "thrown out", -1),
        ("debrief of one", "lost", -1),  # as corrected
        ("debrief of one", "thrown out", -1),
        ("debrief of two", "lost", -1),
    ]
    assert rows(box, "SELECT notes FROM debrief WHERE corrects IS NOT NULL") == [
        ("maggot; hooklength A02R did well",)
    ]


def test_all_of_it_is_undone_and_done_again(box: Box) -> None:
    while _history(box).undo:
        undo_last(box, DAY)
        assert audit(box.database, Snapshot.from_json).faults == ()
    assert on_hand(box) == {}
    assert set(left(box).values()) == {0}
    while _history(box).redo:
        redo_last(box, DAY)
    assert audit(box.database, Snapshot.from_json).faults == ()
    assert left(box) == LEFT | {"A0D5": 1, "A0E3": 1}  # they were done again, too
    assert on_hand(box)[f"{WORDS} 25 cm"] == 2


def _history(box: Box) -> LatestActions:
    with box.reading() as session:
        return read_history(session)


def test_an_export_gives_an_equal_box(box: Box, tmp_path: Path) -> None:
    export_box(box, tmp_path / "out")
    other = open_box(tmp_path / "other")
    import_box(other, tmp_path / "out", Snapshot.from_json)
    assert dump(other) == dump(box)
