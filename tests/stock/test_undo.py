"""Undo reverses the last action as a whole, and can itself be undone."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlmodel import select

from tacklebox.errors import CannotBeDoneError
from tacklebox.matches.after.debrief import Told, debrief
from tacklebox.matches.files.match import parse_match
from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import mark_lost, take_apart, tied_with
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.undo import undo_last
from tacklebox.stock.csv_file import import_items
from tacklebox.stock.ledger import begin, find, move
from tacklebox.stock.tables import Tied, Why
from tests.rigs.boxes import DAY, canal_rig, make_box, on_hand

Did = Callable[[Box], None]
State = tuple[dict[str, int], dict[str, str]]


def state(box: Box) -> State:
    there = {name: amount for name, amount in on_hand(box).items() if amount}
    return there, {t.code: t.state for t in tied_with(box) if t.state != "untied"}


def moved(what: str, item: str, amount: int, why: Why) -> Did:
    def do(box: Box) -> None:
        with box.writing() as session:
            move(session, begin(session, what, DAY), find(session, item), amount, why)

    return do


def tied(count: int) -> Did:
    def do(box: Box) -> None:
        tie(box, canal_rig(), count, DAY)

    return do


def apart(box: Box) -> None:
    take_apart(box, [t.code for t in tied_with(box, state="ready")[:2]], DAY)


def lost(box: Box) -> None:
    mark_lost(box, [t.code for t in tied_with(box, state="ready")[:2]], DAY)


def imported(box: Box) -> None:
    number = len(on_hand(box))
    (box.folder / "more.csv").write_text(
        f"item,name,pack\nhook 14,a {number},10\nhook 12,b {number},5\n"
    )
    import_items(box, box.folder / "more.csv", DAY)


def debriefed(box: Box) -> None:
    """Of what is ready one is lost and one spent, and a hook is lost."""
    with closing(sqlite3.connect(box.database)) as connection:
        (number,) = connection.execute("SELECT count(*) FROM debrief").fetchone()
    match = parse_match(
        f'name = "O"\ndate = "{DAY}"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"\n'
        '[[want]]\nrecipe = "pole-canal-shot"\ncount = 2\n',
        f"match-{number}",
    )
    ready = [t.code for t in tied_with(box, state="ready")]
    debrief(box, match, Told(lost=ready[:1], spent=ready[1:2], items_lost={"3": "1"}), DAY)


def undone(box: Box) -> None:
    undo_last(box, DAY)


DOINGS: dict[str, Did] = {
    "buy": moved("buy", "3", 10, Why.BOUGHT),
    "count": moved("count", "3", -1, Why.COUNTED),
    "take": moved("lost", "2", -1500, Why.LOST),
    "tie": tied(1),
    "apart": apart,
    "lost": lost,
    "import": imported,
    "debrief": debriefed,
    "undo": undone,
}


def stocked(folder: Path) -> Box:
    """A box that serves a few rigs."""
    box = make_box(folder)
    for item, amount in (("4", 9), ("6", 100), ("7", 100), ("8", 9), ("10", 9)):
        moved("buy", item, amount, Why.BOUGHT)(box)
    return box


@pytest.fixture
def box(tmp_path: Path) -> Box:
    box = stocked(tmp_path / "box")
    tied(2)(box)
    return box


@pytest.mark.parametrize("what", DOINGS)
def test_undo_and_undo_of_undo(box: Box, what: str) -> None:
    before = state(box)
    DOINGS[what](box)
    after = state(box)
    assert after != before
    undo_last(box, DAY)
    assert state(box) == before
    undo_last(box, DAY)
    assert state(box) == after
    told = undo_last(box, DAY)
    assert told.again is (what == "undo")
    assert state(box) == before
    assert audit(box.database).faults == ()


def test_several_rigs_taken_apart_together_come_back_together(box: Box) -> None:
    apart(box)
    assert [t.state for t in tied_with(box)] == ["taken apart"] * 2
    told = undo_last(box, DAY)
    assert [r.state for r in told.rigs] == ["ready"] * 2
    assert {item.name: change for item, change in told.changes}["winder 13 cm 18 mm"] == -2


def test_an_untied_rig_stays_known_by_its_code(box: Box) -> None:
    codes = [t.code for t in tied_with(box)]
    told = undo_last(box, DAY)
    assert (told.action.what, told.again) == ("tie 2 × pole-canal-shot", False)
    assert [(t.code, t.state) for t in tied_with(box)] == [(c, "untied") for c in codes]
    with pytest.raises(Exception, match="is untied already"):
        mark_lost(box, codes, DAY)
    tied(1)(box)
    assert tied_with(box)[-1].code not in codes


def test_an_import_is_undone_as_a_whole(box: Box, tmp_path: Path) -> None:
    (tmp_path / "more.csv").write_text("item,pack,packs\nhook 14,10,3\nhook 12,10,1\n")
    before = on_hand(box)
    import_items(box, tmp_path / "more.csv", DAY)
    undo_last(box, DAY)
    assert on_hand(box) == {**before, "hook 14": 0, "hook 12": 0}


def test_movements_stay_and_are_met_by_others(box: Box) -> None:
    undo_last(box, DAY)
    with closing(sqlite3.connect(box.database)) as connection:
        sums = connection.execute(
            "SELECT a.undoes, count(*), sum(m.amount) FROM movement m JOIN action a"
            " ON a.id = m.action_id WHERE a.id >= 16 GROUP BY a.id"
        ).fetchall()
    assert (sums[0][0], sums[1][0]) == (None, 16)
    assert sums[0][1] == sums[1][1] > 4
    assert sums[0][2] == -sums[1][2] < 0


def test_the_ledger_tells_undone_from_done_again(box: Box) -> None:
    """Each action says what it did in the angler's words, however often it goes to and fro."""
    for _ in range(4):
        undo_last(box, DAY)
    with closing(sqlite3.connect(box.database)) as connection:
        actions = connection.execute("SELECT what, undoes FROM action ORDER BY id DESC LIMIT 5")
        told = list(actions)[::-1]
        against = connection.execute(
            "SELECT m.why, was.amount + m.amount FROM movement m JOIN movement was"
            " ON m.reason = 'against movement ' || was.id AND m.item_id = was.item_id"
        ).fetchall()
        (tied_by,) = connection.execute(
            "SELECT count(*) FROM movement WHERE why = 'tied'"
        ).fetchone()
    tie_ = "tie 2 × pole-canal-shot"
    assert [what for what, _ in told] == [
        tie_,
        f"undo of {tie_}",
        f"again {tie_}",
        f"undo of {tie_}",
        f"again {tie_}",
    ]
    assert [undoes for _, undoes in told] == [None, 16, 17, 18, 19]
    assert len(against) == 4 * tied_by
    assert set(against) == {("corrected", 0)}


def test_an_action_named_like_an_undo_is_none(box: Box) -> None:
    moved("undo of a mistake", "3", 1, Why.COUNTED)(box)
    assert not undo_last(box, DAY).again
    assert undo_last(box, DAY).again
    told = undo_last(box, DAY)
    assert (told.action.what, told.again) == ("again undo of a mistake", False)


def test_a_rig_that_one_action_turned_twice_is_what_it_was_before_it(box: Box) -> None:
    code = tied_with(box)[0].code
    with box.writing() as session:
        begin(session, "found in two steps", DAY)
        rig = session.exec(select(Tied).where(Tied.code == code)).one()
        for state in ("lost", "taken apart"):
            rig.state = state
            session.flush()
    (turned,) = undo_last(box, DAY).rigs
    assert (turned.code, turned.state) == (code, "ready")


def test_nothing_to_undo(tmp_path: Path) -> None:
    with pytest.raises(CannotBeDoneError, match="nothing was done") as told:
        undo_last(open_box(tmp_path), DAY)
    assert told.value.where == str(tmp_path)


def test_an_undo_that_fails_changes_nothing(box: Box, monkeypatch: pytest.MonkeyPatch) -> None:
    before = state(box)
    monkeypatch.setattr("tacklebox.stock.care.undo._turn_back", lambda *_: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        undo_last(box, DAY)
    assert state(box) == before


@given(st.lists(st.sampled_from(sorted(DOINGS)), max_size=7))
@settings(max_examples=12, deadline=None)
def test_any_run_of_doings_can_be_undone(
    tmp_path_factory: pytest.TempPathFactory, names: list[str]
) -> None:
    box = stocked(tmp_path_factory.mktemp("box"))
    for name in names:
        before = state(box)
        try:
            DOINGS[name](box)
        except CannotBeDoneError:
            continue
        after = state(box)
        undo_last(box, DAY)
        if after != before:
            assert state(box) == before
        undo_last(box, DAY)
        assert state(box) == after
    assert audit(box.database).faults == ()
