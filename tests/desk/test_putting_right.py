"""A wrong item is put right while nothing was tied from it; else a new one takes its place."""

import io
from collections.abc import Callable
from pathlib import Path

import pytest

from tacklebox.desk import Desk, adding, care, labels, measuring, putting_right, rigs, stock, tying
from tacklebox.desk.adding import NewStock
from tacklebox.errors import AskedWronglyError, BenchError, CannotBeDoneError
from tests.desk.boxes import make_desk
from tests.rigs.boxes import CANAL


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """Tackle for one canal rig: item 2 is its line, item 3 the hooks, item 6 No 8 shot."""
    return make_desk(tmp_path, *CANAL)


PAPER = labels.OnPaper()


def names(desk: Desk, *, retired: bool = False) -> list[str]:
    return [row.name for row in stock.listed(desk, retired=retired).items]


def test_figures_are_put_right_while_nothing_was_tied(desk: Desk) -> None:
    measuring.record_pull(desk, "2", "1.7 kg")
    row = putting_right.reword(desk, "2", "nylon 0.13 mm 4 lb 100 yds")
    assert (row.number, row.name, row.words) == (2, "nylon 0.13 mm 4 lb", "nylon 0.13 mm 4 lb")
    assert str(row.packet) == "100 yd"
    assert row.on_hand.value == 50_000
    assert stock.show(desk, "2").figures["diameter_mm"] == 0.13
    assert len(measuring.readings_of(desk, "2").readings) == 1
    care.undo(desk)
    assert stock.show(desk, "2").item.name == "nylon 0.12 mm 1.6 kg"
    care.redo(desk)
    assert stock.show(desk, "2").item.words == "nylon 0.13 mm 4 lb"
    assert care.audit(desk).in_order


def test_a_name_of_its_own_stays(desk: Desk) -> None:
    stock.edit(desk, "2", name="the rig line")
    row = putting_right.reword(desk, "2", "nylon 0.13 4 lb")
    assert (row.name, row.words) == ("the rig line", "nylon 0.13 mm 4 lb")


def test_what_was_tied_from_keeps_its_figures(desk: Desk) -> None:
    tying.tie(desk, "pole-canal-shot", {})
    with pytest.raises(CannotBeDoneError, match="its figures stay with them") as refused:
        putting_right.reword(desk, "2", "nylon 0.13 4 lb")
    assert refused.value.see == "stock.reword_anew"
    care.undo(desk)  # untied again, nothing hangs on it
    assert putting_right.reword(desk, "2", "nylon 0.13 4 lb").number == 2


def test_a_new_item_takes_its_place(desk: Desk) -> None:
    stock.edit(desk, "2", place="drawer 1", price="4.50", minimum="20 m")
    (code,) = tying.tie(desk, "pole-canal-shot", {}).codes
    left = stock.show(desk, "2").item.on_hand
    row = putting_right.reword(desk, "2", "nylon 0.13 4 lb", anew=True)
    assert (row.words, row.on_hand, row.place) == ("nylon 0.13 mm 4 lb", left, "drawer 1")
    assert (row.packet_price_cents, str(row.minimum)) == (450, "20 m")
    old = stock.show(desk, "2").item
    assert (old.retired, old.on_hand.value) == (True, 0)
    assert "nylon 0.12 mm" in rigs.show(desk, code).made.rig_line
    assert names(desk, retired=True) == ["nylon 0.12 mm 1.6 kg"]
    rigs.strip(desk, [code])
    assert care.audit(desk).in_order
    care.undo(desk)
    care.undo(desk)
    assert names(desk, retired=True) == []
    assert stock.show(desk, "2").item.on_hand == left
    assert care.audit(desk).in_order


def test_what_is_kept_in_yards_is_the_same_to_the_millimetre_in_its_place(desk: Desk) -> None:
    added = adding.add(desk, "nylon 0.14 mm 5 lb 100 yd", NewStock(minimum="30 yd"))
    spool = str(added.item.number)
    stock.take(desk, spool, "7 yd")
    row = putting_right.reword(desk, spool, "nylon 0.15 mm 5 lb 100 yd", anew=True)
    assert (row.on_hand.words, row.minimum.words) == ("93 yd", "30 yd")
    assert (row.on_hand.value, row.minimum.value) == (85_039, 27_432)


def test_another_kind_is_only_put_in_its_place(desk: Desk) -> None:
    with pytest.raises(CannotBeDoneError, match="is a hook, no weight"):
        putting_right.reword(desk, "3", "shot No 9")
    row = putting_right.reword(desk, "3", "shot No 9 pack 100", anew=True)
    assert (row.kind, row.on_hand.value, row.packet.value) == ("weight", 10, 100)


def test_a_tub_that_is_put_right_stays_one(desk: Desk) -> None:
    stock.level(desk, "6", "low", not_counted=True)
    row = putting_right.reword(desk, "6", "shot No 9", anew=True)
    assert (row.level, row.words) == ("low", "shot No 9 tin")


def test_what_is_not_sure_is_asked_here_too(desk: Desk) -> None:
    adding.add(desk, "waggler 4BB")
    asked = adding.question_of_words("3AA waggler")
    assert asked is not None
    row = putting_right.reword(desk, "11", "3AA waggler", answers=[asked.choices[0].answer])
    assert row.words == "waggler 3AAA straight"
    with pytest.raises(AskedWronglyError, match="several ways"):
        putting_right.reword(desk, "11", "3AA waggler")


def test_a_retired_item_is_hidden_and_keeps_its_history(desk: Desk) -> None:
    stock.edit(desk, "3", minimum="50")
    putting_right.retire(desk, "3")
    assert "hook 20 barbless spade" not in names(desk)
    assert names(desk, retired=True) == ["hook 20 barbless spade"]
    with pytest.raises(AskedWronglyError, match="is retired"):
        labels.print_items(desk, io.BytesIO(), PAPER, ["3"])
    assert [row.why for row in stock.history(desk, "3").movements] == ["bought"]
    with pytest.raises(CannotBeDoneError, match="nothing in the box is: hook"):
        tying.tie(desk, "hooklength-fine", {})
    with pytest.raises(AskedWronglyError, match="is retired"):
        stock.buy(desk, "3")
    with pytest.raises(AskedWronglyError, match="retired already"):
        putting_right.retire(desk, "3")
    assert adding.add(desk, "hook 20 barbless spade").item.number == 11  # its name is free
    with pytest.raises(AskedWronglyError, match="in the box already") as taken:
        putting_right.unretire(desk, "3")
    assert taken.value.right == "Retire that one first, or give it another name."
    care.undo(desk)
    assert putting_right.unretire(desk, "3").retired is False
    assert care.audit(desk).in_order


def test_an_add_undone_leaves_nothing(desk: Desk) -> None:
    before = names(desk)
    for words, minimum in (("hook 16 eyed", "50"), ("no 6 shot", ""), ("6 lb nylon", "50 m")):
        adding.add(desk, words, NewStock(minimum=minimum))
        care.undo(desk)
    assert names(desk) == before
    assert names(desk, retired=True) == []
    for ask in (
        stock.show,
        lambda desk, item: labels.print_items(desk, io.BytesIO(), PAPER, [item]),
    ):
        with pytest.raises(AskedWronglyError, match="no item 11"):
            ask(desk, "11")
    assert adding.add(desk, "hook 16 eyed").item.number == 11  # it is the same again
    assert care.audit(desk).in_order


def test_hooklengths_that_were_tied_stay_what_they_are(desk: Desk) -> None:
    tying.tie(desk, "hooklength-fine", {}, count=2)
    (item,) = stock.listed(desk, kind="hooklength").items
    number = str(item.number)
    for anew in (False, True):
        with pytest.raises(CannotBeDoneError, match="was tied: its labels say so"):
            putting_right.reword(desk, number, "hooklength 20 to 0.10 15 cm", anew=anew)
    assert care.audit(desk).in_order


def test_what_is_emptied_is_taken_away(tmp_path: Path) -> None:
    desk = make_desk(tmp_path, "hook 20 barbless spade pack 10")
    stock.edit(desk, "1", price="1.80", minimum="20")
    stock.edit(desk, "1", price="", minimum=" ")
    row = stock.show(desk, "1")
    assert (row.packet_price, row.item.minimum.value) == ("", 0)
    with pytest.raises(AskedWronglyError, match="nothing is said") as refused:
        stock.edit(desk, "1", pack="")
    assert refused.value.field == "pack"


def test_a_fault_names_the_field_that_it_lies_in(tmp_path: Path) -> None:
    desk = make_desk(tmp_path, "hook 20 barbless spade pack 10", "nylon 0.10 mm 2.6 lb 50 m")
    named = adding.NewStock(name="hook 20 barbless spade")
    asked: dict[str, Callable[[], object]] = {
        "name": lambda: stock.edit(desk, "2", name="hook 20 barbless spade"),
        "amount": lambda: stock.take(desk, "1", "11"),
        "packs": lambda: stock.buy(desk, "1", packs="some"),
        "knot": lambda: measuring.record_pull(desk, "2", "2.5 lb", knot="slip of the hand"),
    }
    for field, ask in asked.items():
        with pytest.raises(BenchError) as refused:
            ask()
        assert refused.value.field == field
    with pytest.raises(AskedWronglyError) as refused:
        adding.add(desk, "hook 18 barbless spade pack 10", named)
    assert refused.value.field == "name"
    assert stock.buy(desk, "1", packs="two packets").on_hand.value == 30
