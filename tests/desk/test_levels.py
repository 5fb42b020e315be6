"""Tackle that is not counted: plenty, low or out, from the first tub to the shopping list."""

from pathlib import Path

import pytest

from tacklebox.desk import Desk, adding, care, low, plans, rigs, stock, tying
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tests.desk.boxes import CANAL, desk_at, make_desk, make_match_box

TUBS = tuple(words.replace(" tin pack 20", "") for words in CANAL)


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """Tackle for canal rigs, the shot in tubs: No 8 is item 4 and No 10 item 5."""
    return make_desk(tmp_path, *TUBS, "hook 20 barbless spade pack 10")


def level_of(desk: Desk, item: str = "4") -> str:
    return stock.show(desk, item).item.level


def test_shot_of_which_no_number_is_said_is_a_tub(desk: Desk) -> None:
    row = stock.show(desk, "4").item
    assert (row.level, str(row.on_hand), row.on_hand.counted) == ("plenty", "plenty", False)
    assert adding.add(desk, "shot BB pack 100").item.level == ""
    assert adding.add(desk, "shot AAA", adding.NewStock(level="low")).item.level == "low"


def test_a_rig_takes_nothing_from_what_is_not_counted(desk: Desk) -> None:
    tied = tying.tie(desk, "pole-canal-shot", {})
    assert {row.name: str(row.on_hand) for row in tied.left}["shot No 8 tin"] == "plenty"
    rigs.strip(desk, tied.codes)
    assert level_of(desk) == "plenty"
    assert care.audit(desk).in_order
    for step in (care.undo, care.undo, care.redo, care.redo):
        step(desk)
        assert level_of(desk) == "plenty"
        assert care.audit(desk).in_order


def test_what_is_short_is_what_the_list_calls_so(desk: Desk) -> None:
    for item, least in (("1", "500 m"), ("2", "1 m"), ("3", "0")):
        stock.edit(desk, item, minimum=least)
    stock.level(desk, "5", "low")
    found = stock.short(desk)
    every = stock.listed(desk).items
    assert found.items == tuple(row for row in every if row.short)
    assert ({row.number for row in found.items} >= {1, 5}, found.of) == (True, len(every))


@pytest.mark.parametrize("level", ["plenty", "low"])
def test_plenty_and_low_serve_any_number(desk: Desk, level: str) -> None:
    stock.level(desk, "4", level)
    for item, count in (("pole 4×12", "400"), ("winder", "400"), ("shot No 10", "5000")):
        stock.count(desk, item, count)
    stock.count(desk, "nylon 0.12", "900 m")
    (reach,) = low.runs_low(desk, {"pole-canal-shot": "300"}, {}).wanted
    assert (reach.can_tie, reach.stopped_by) == (300, ())


def test_what_is_out_serves_none(desk: Desk) -> None:
    stock.level(desk, "4", "out")
    with pytest.raises(CannotBeDoneError, match="shot No 8 tin: out"):
        tying.tie(desk, "pole-canal-shot", {})
    found = low.runs_low(desk, {"pole-canal-shot": "2"}, {})
    (reach,) = found.wanted
    assert reach.can_tie == 0
    assert "shot No 8 tin: out" in {part.because for part in reach.stopped_by}


@pytest.mark.parametrize(
    ("level", "bought"), [("plenty", []), ("low", ["it is low"]), ("out", ["it is out"])]
)
def test_low_and_out_ask_for_one_packet_each(desk: Desk, level: str, bought: list[str]) -> None:
    stock.level(desk, "4", level)
    found = low.runs_low(desk, {}, {})
    assert [row.name for row in found.short] == ["shot No 8 tin"] * len(bought)
    assert [(one.packs, one.what_for) for one in found.shopping.to_buy] == [(1, w) for w in bought]
    assert (found.on_the_day.likely, found.on_the_day.unlikely) == ((), ())


def test_a_plan_buys_one_tub_of_what_is_out_and_then_ties(tmp_path: Path) -> None:
    make_match_box(tmp_path / "box")
    desk = desk_at(tmp_path / "box")
    for item, count in (("pole 4×12", "9"), ("winder", "9"), ("hook 20", "30")):
        stock.count(desk, item, count)
    stock.level(desk, "shot No 8", "out", not_counted=True)
    stock.level(desk, "shot No 10", "plenty", not_counted=True)
    (made, _) = plans.plan(desk, "open").wants
    assert made.tie == 0
    listed = {one.name: one for one in plans.to_buy(desk, "open").to_buy}
    assert listed["shot No 8 tin"].packs == 1
    assert listed["shot No 8 tin"].what_for == "for 3 × Canal pole, shot (depth 1.2 m)"
    assert "shot No 10 tin" not in listed
    stock.buy(desk, "shot No 8")
    assert level_of(desk, "shot No 8") == "plenty"
    assert plans.plan(desk, "open").wants[0].tie == 3


def test_a_count_makes_it_counted_and_a_level_uncounted_again(desk: Desk) -> None:
    assert str(stock.count(desk, "4", "180").on_hand) == "180"
    assert str(stock.take(desk, "4", "30").on_hand) == "150"
    with pytest.raises(AskedWronglyError, match="is counted: 150 on hand") as refused:
        stock.level(desk, "4", "low")
    assert refused.value.see == "stock.not_counted 4"
    assert str(stock.level(desk, "4", "low", not_counted=True).on_hand) == "low"
    then = [(row.why, str(row.change), str(row.then)) for row in stock.history(desk, "4").movements]
    assert then == [
        ("level", "0", "plenty"),
        ("counted", "180", "180"),
        ("lost", "-30", "150"),
        ("level", "-150", "low"),
    ]
    assert care.audit(desk).in_order


def test_a_level_is_undone_and_done_again(desk: Desk) -> None:
    stock.count(desk, "4", "180")
    stock.level(desk, "4", "out", not_counted=True)
    care.undo(desk)
    assert (level_of(desk), str(stock.show(desk, "4").item.on_hand)) == ("", "180")
    care.undo(desk)
    assert level_of(desk) == "plenty"
    care.redo(desk)
    care.redo(desk)
    assert level_of(desk) == "out"
    assert care.audit(desk).in_order


def test_a_tub_that_was_added_is_gone_once_that_is_undone(desk: Desk) -> None:
    adding.add(desk, "shot No 6, a tub")
    care.undo(desk)
    assert stock.listed(desk, "No 6").items == ()
    care.redo(desk)
    assert [row.level for row in stock.listed(desk, "No 6").items] == ["plenty"]


def test_what_was_tied_while_it_was_counted_gives_nothing_to_a_tub(desk: Desk) -> None:
    stock.count(desk, "4", "180")
    (code,) = tying.tie(desk, "pole-canal-shot", {}).codes
    stock.level(desk, "4", "low", not_counted=True)
    rigs.strip(desk, [code])
    assert level_of(desk) == "low"
    assert care.audit(desk).in_order


@pytest.mark.parametrize(
    ("item", "words"), [("1", "line is measured"), ("18 to 0.10", "hooklength is counted")]
)
def test_line_and_hooklengths_have_no_level(desk: Desk, item: str, words: str) -> None:
    adding.add(desk, "18 to 0.10")
    with pytest.raises(AskedWronglyError, match=words):
        stock.level(desk, item, "low")
    with pytest.raises(AskedWronglyError, match="measured"):
        adding.add(desk, "6 lb nylon", adding.NewStock(level="plenty"))


def test_an_amount_of_what_is_not_counted_is_refused(desk: Desk) -> None:
    with pytest.raises(AskedWronglyError, match="it is plenty") as refused:
        stock.take(desk, "4", "3")
    assert (refused.value.field, refused.value.see) == ("item", "stock.level 4")
    with pytest.raises(AskedWronglyError) as refused:
        stock.level(desk, "4", "half full")
    assert refused.value.field == "level"


def test_a_box_with_levels_is_exported_and_read_in_the_same(desk: Desk, tmp_path: Path) -> None:
    stock.level(desk, "4", "low")
    tying.tie(desk, "pole-canal-shot", {})
    care.export(desk, tmp_path / "plain")
    other = Desk(tmp_path / "other")
    care.read_in(other, tmp_path / "plain")
    assert stock.listed(other) == stock.listed(desk)
    assert care.audit(other).in_order
    care.undo(other)
    care.undo(other)
    assert level_of(other) == "plenty"
