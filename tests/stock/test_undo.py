"""Undo reverses the latest action as a whole, as often as wanted; redo goes forward again."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlmodel import select

from tacklebox.errors import AlreadyDoneError, AskedWronglyError, CannotBeDoneError
from tacklebox.matches.after.account import Account
from tacklebox.matches.after.debrief import write_debrief
from tacklebox.matches.before.losses import debriefed_matches
from tacklebox.matches.files.match import parse_match
from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import (
    mark_labelled,
    mark_lost,
    next_free_place,
    strip_rigs,
    tied_with,
)
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.undo import read_history, redo_last, undo_last
from tacklebox.stock.csv_file import import_items
from tacklebox.stock.entering import edit_item
from tacklebox.stock.finding import find, list_items
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.made import Tied
from tacklebox.stock.measured import standing
from tacklebox.stock.measuring import record_pull, take_back
from tacklebox.stock.tables import Why
from tests.copied_boxes import copy_of
from tests.long.length import so_many
from tests.rigs.boxes import DAY, add, canal_rig, make_box, on_hand

Did = Callable[[Box], None]
State = tuple[object, ...]


def state(box: Box) -> State:
    """All that an angler can see of the box, in which nothing may be left of what was undone."""
    with box.reading() as session:
        items = [item._replace(last_movement=0) for item in list_items(session)]
        readings = [reading.id for reading in standing(session)]
        debriefed = debriefed_matches(session)
    tied = {t.code: (t.state, t.labelled_on) for t in tied_with(box) if t.state != "untied"}
    return items, readings, tied, next_free_place(box, "a4-65"), debriefed


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
    strip_rigs(box, [t.code for t in tied_with(box, state="ready")[:2]], DAY)


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
    write_debrief(
        box, match, Account(lost=ready[:1], worn_out=ready[1:2], tackle_lost={"3": "1"}), DAY
    )


def edited(box: Box) -> None:
    with box.writing() as session:
        item = find(session, "3")
        begin(session, "edit", DAY)
        edit_item(
            session, item, name=f"x{item.name}", place="x" + item.place, pack="7",
            price=f"{(item.pack_price_cents or 0) + 1}", minimum=str(item.minimum + 4),
        )  # fmt: skip


def bought_dearer(box: Box) -> None:
    with box.writing() as session:
        item = find(session, "8")
        item.pack_price_cents = (item.pack_price_cents or 0) + 10
        move(session, begin(session, "buy", DAY), item, 3, Why.BOUGHT)


def added(box: Box) -> None:
    add(box, "hook 12 pack 10", name=f"new {len(on_hand(box))}", minimum="12")


def pulled(box: Box) -> None:
    with box.writing() as session:
        record_pull(session, find(session, "2"), 1.5, "", DAY)


def taken_back(box: Box) -> None:
    with box.writing() as session:
        readings = standing(session)
        if not readings:
            record_pull(session, find(session, "2"), 1.4, "", DAY)
        else:
            take_back(session, readings[-1].id or 0, DAY)


def labelled(box: Box) -> None:
    codes = [t.code for t in tied_with(box, unlabelled=True)]
    next_free = {"a4-65": next_free_place(box, "a4-65") + len(codes) + 1}
    mark_labelled(box, codes, DAY, next_free)


def undone(box: Box) -> None:
    undo_last(box, DAY)


def redone(box: Box) -> None:
    redo_last(box, DAY)


DOINGS: dict[str, Did] = {
    "buy": moved("buy", "3", 10, Why.BOUGHT),
    "count": moved("count", "3", -1, Why.COUNTED),
    "take": moved("lost", "2", -1500, Why.LOST),
    "tie": tied(1),
    "apart": apart,
    "lost": lost,
    "import": imported,
    "debrief": debriefed,
    "edit": edited,
    "buy dearer": bought_dearer,
    "add": added,
    "pull": pulled,
    "take back": taken_back,
    "label": labelled,
}


def stocked(folder: Path) -> Box:
    """A box that serves a few rigs."""
    box = make_box(folder)
    for item, amount in (("4", 9), ("6", 100), ("7", 100), ("8", 9), ("10", 9)):
        moved("buy", item, amount, Why.BOUGHT)(box)
    return box


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A box with two rigs."""
    box = stocked(tmp_path_factory.mktemp("made") / "box")
    tied(2)(box)
    box.close()
    return box.folder


@pytest.fixture
def box(made: Path, tmp_path: Path) -> Box:
    return copy_of(made, tmp_path / "box")


@pytest.mark.parametrize("what", DOINGS)
def test_undo_redo_and_undo(box: Box, what: str) -> None:
    before = state(box)
    DOINGS[what](box)
    after = state(box)
    assert after != before
    assert not undo_last(box, DAY).again
    assert state(box) == before
    assert redo_last(box, DAY).again
    assert state(box) == after
    undo_last(box, DAY)
    assert state(box) == before
    assert audit(box.database).faults == ()


def test_as_many_as_wanted_are_undone_and_done_again(box: Box) -> None:
    states = [state(box)]
    for do in DOINGS.values():
        do(box)
        states.append(state(box))
    for was in reversed(states[:-1]):
        undo_last(box, DAY)
        assert state(box) == was
    for now in states[1:]:
        redo_last(box, DAY)
        assert state(box) == now
    with pytest.raises(CannotBeDoneError, match="nothing to do again"):
        redo_last(box, DAY)
    assert audit(box.database).faults == ()


def test_something_new_ends_what_can_be_done_again(box: Box) -> None:
    moved("buy", "3", 10, Why.BOUGHT)(box)
    undo_last(box, DAY)
    moved("count", "3", -1, Why.COUNTED)(box)
    with pytest.raises(CannotBeDoneError, match="nothing to do again"):
        redo_last(box, DAY)
    assert [undo_last(box, DAY).action.what for _ in range(2)] == [
        "count",
        "tie 2 × Canal pole, shot",
    ]
    assert redo_last(box, DAY).action.what == "tie 2 × Canal pole, shot"
    assert redo_last(box, DAY).action.what == "count"


def test_another_action_than_the_one_that_is_meant_is_left(box: Box) -> None:
    with box.reading() as session:
        seen = read_history(session)
    assert seen.undo is not None
    assert seen.redo is None
    moved("buy", "3", 10, Why.BOUGHT)(box)
    before = state(box)
    for number, stamp, says in (
        (seen.undo.id, seen.stamp, '"buy" of Thursday 5 March 2026 would be next'),
        ((seen.undo.id or 0) + 1, "of another box", "another copy of the box was put back since"),
    ):
        with pytest.raises(CannotBeDoneError, match=says):
            undo_last(box, DAY, expected=number, stamp=stamp)
    assert state(box) == before
    undone = undo_last(box, DAY, expected=(seen.undo.id or 0) + 1, stamp=seen.stamp)
    assert undone.action.what == "buy"
    with pytest.raises(CannotBeDoneError, match="would be next"):
        redo_last(box, DAY, expected=seen.undo.id)
    redo_last(box, DAY, expected=undone.action.id, stamp=seen.stamp)
    assert state(box) == before


def test_what_is_sent_twice_is_done_once(box: Box) -> None:
    def buy(key: str | None) -> None:
        moved("buy", "3", 10, Why.BOUGHT)(box.keyed(key))

    before = on_hand(box)["hook 20 barbless spade"]
    buy("form 1")
    with pytest.raises(AlreadyDoneError, match="this was done already: buy") as refused:
        buy("form 1")
    assert on_hand(box)["hook 20 barbless spade"] == before + 10
    with box.reading() as session:
        history = read_history(session)
        assert history.undo is not None
        assert (history.undo.id, history.undo.key) == (refused.value.action, "form 1")
    for key in ("form 2", None, None):
        buy(key)
    assert on_hand(box)["hook 20 barbless spade"] == before + 40


def test_an_item_whose_adding_is_undone_is_nowhere(box: Box) -> None:
    item = add(box, "hook 12 pack 10", name="mine", minimum="50")
    answer = undo_last(box, DAY)
    assert [(e.column, e.item and e.item.name, e.became) for e in answer.edits] == [
        ("withdrawn", "mine", 1)
    ]
    with box.reading() as session:
        assert item.id not in {each.id for each in list_items(session)}
        for said in (str(item.id), "mine"):
            with pytest.raises(AskedWronglyError):
                find(session, said)
    assert add(box, "hook 14 pack 10", name="mine").id == (item.id or 0) + 1  # the name is free
    undo_last(box, DAY)
    assert add(box, "hook 12 pack 10", name="mine").id == item.id
    assert on_hand(box)["mine"] == 10
    assert audit(box.database).faults == ()


def test_the_change_of_a_cell_is_told_as_it_was_and_is(box: Box) -> None:
    edited(box)
    answer = undo_last(box, DAY)
    assert {(e.column, e.was, e.became) for e in answer.edits} == {
        ("name", "xhook 20 barbless spade", "hook 20 barbless spade"),
        ("place", "x", ""),
        ("pack_size", 7, 10),
        ("pack_price_cents", 100, None),
        ("minimum", 4, 0),
    }
    assert all(e.item and e.item.name == "hook 20 barbless spade" for e in answer.edits)


def test_nothing_is_written_before_its_action_is_begun(box: Box) -> None:
    before = state(box)
    with pytest.raises(RuntimeError, match="before its action"), box.writing() as session:
        find(session, "3").place = "drawer"
    assert state(box) == before


def test_a_mark_tells_each_change(box: Box) -> None:
    seen = box.mark()
    assert box.mark() == seen
    for do in (*DOINGS.values(), undone, redone):
        do(box)
        now = box.mark()
        assert now.changes > seen.changes
        assert (now.box, now.stamp) == (seen.box, seen.stamp)
        seen = now


def test_several_rigs_taken_apart_together_come_back_together(box: Box) -> None:
    apart(box)
    assert [t.state for t in tied_with(box)] == ["stripped"] * 2
    answer = undo_last(box, DAY)
    assert [r.state for r in answer.rigs] == ["ready"] * 2
    assert {item.name: change for item, change in answer.changes}["winder 13 cm 18 mm"] == -2


def test_an_untied_rig_stays_known_by_its_code(box: Box) -> None:
    codes = [t.code for t in tied_with(box)]
    answer = undo_last(box, DAY)
    assert (answer.action.what, answer.again) == ("tie 2 × Canal pole, shot", False)
    assert answer.readings == 0
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
    assert on_hand(box) == before


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
    for turn in (undo_last, redo_last, undo_last, redo_last):
        turn(box, DAY)
    with closing(sqlite3.connect(box.database)) as connection:
        actions = connection.execute(
            "SELECT what, undoes, redoes FROM action ORDER BY id DESC LIMIT 5"
        )
        answer = list(actions)[::-1]
        against = connection.execute(
            "SELECT m.why, was.amount + m.amount FROM movement m JOIN movement was"
            " ON m.reason = 'against movement ' || was.id AND m.item_id = was.item_id"
        ).fetchall()
        (tied_by,) = connection.execute(
            "SELECT count(*) FROM movement WHERE why = 'tied'"
        ).fetchone()
    tie_ = "tie 2 × Canal pole, shot"
    assert [what for what, *_ in answer] == [
        tie_,
        f"undo of {tie_}",
        f"redo of {tie_}",
        f"undo of {tie_}",
        f"redo of {tie_}",
    ]
    assert [undoes for _, undoes, _ in answer] == [None, 16, None, 16, None]
    assert [redoes for *_, redoes in answer] == [None, None, 16, None, 16]
    assert len(against) == 4 * tied_by
    assert set(against) == {("corrected", 0)}


def test_an_action_named_like_an_undo_is_none(box: Box) -> None:
    moved("undo of a mistake", "3", 1, Why.COUNTED)(box)
    answer = undo_last(box, DAY)
    assert (answer.action.what, answer.again) == ("undo of a mistake", False)
    assert redo_last(box, DAY).again


def test_a_rig_that_one_action_turned_twice_is_what_it_was_before_it(box: Box) -> None:
    code = tied_with(box)[0].code
    with box.writing() as session:
        begin(session, "found in two steps", DAY)
        rig = session.exec(select(Tied).where(Tied.code == code)).one()
        for state in ("lost", "stripped"):
            rig.state = state
            session.flush()
    (turned,) = undo_last(box, DAY).rigs
    assert (turned.code, turned.state) == (code, "ready")


def test_a_rig_that_was_tied_and_lost_in_one_action_was_never_tied(box: Box) -> None:
    with box.writing():
        (rig,) = tie(box, canal_rig(), 1, DAY).rigs
        mark_lost(box, [rig.code], DAY)
    (turned,) = undo_last(box, DAY).rigs
    assert (turned.code, turned.state) == (rig.code, "untied")
    assert [r.state for r in redo_last(box, DAY).rigs] == ["lost"]


def test_nothing_to_undo(tmp_path: Path) -> None:
    with pytest.raises(CannotBeDoneError, match="nothing to undo") as refused:
        undo_last(open_box(tmp_path), DAY)
    assert refused.value.where == str(tmp_path)


def test_an_undo_that_fails_changes_nothing(box: Box, monkeypatch: pytest.MonkeyPatch) -> None:
    before = state(box)
    monkeypatch.setattr("tacklebox.stock.care.undo._turn_back", lambda *_: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        undo_last(box, DAY)
    assert state(box) == before


@given(st.lists(st.sampled_from(sorted(DOINGS)), max_size=7))
@settings(max_examples=so_many(12, 6), deadline=None)
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
        if after == before:  # no rig was ready
            continue
        undo_last(box, DAY)
        assert state(box) == before
        redo_last(box, DAY)
        assert state(box) == after
    assert audit(box.database).faults == ()
