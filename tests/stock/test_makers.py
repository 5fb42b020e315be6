"""A line's maker: said when it is added, noted later, kept, and never a reason to take two for one."""

from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.tying.tie import tie
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.undo import undo_last
from tacklebox.stock.entering import edit_item
from tacklebox.stock.finding import find, load
from tacklebox.stock.ledger import begin
from tacklebox.stock.naming.reading import described
from tacklebox.stock.naming.sameness import Same, fits, same
from tacklebox.stock.naming.writing import write
from tacklebox.stock.tables import Line
from tests.rigs.boxes import CANAL, DAY, add, fine_hooklength, make_box


def note(box: Box, item: str, maker: str) -> None:
    with box.writing() as session:
        begin(session, "edit", DAY)
        edit_item(session, find(session, item), maker=maker)


def names(box: Box) -> dict[int | None, str]:
    with box.reading() as session:
        return {item.id: item.name for item in load(session)}


def test_two_makers_are_two_items_and_a_name_is_one_in_small_letters_too() -> None:
    one, other, small, none = (
        described(f"nylon 0.14 mm 4 lb{maker}")
        for maker in (" maker A", " maker B", " maker a", "")
    )
    assert same(one, other) is Same.NO
    assert same(one, none) is Same.NO
    assert same(one, small) is Same.YES
    assert fits(none, one)
    assert not fits(other, one)


def test_a_maker_of_what_is_no_line_is_a_note() -> None:
    hooks = described("hook 18 barbless spade maker A pack 10")
    assert hooks.note == "maker A"
    assert described(write(hooks) + " pack 10") == hooks


@pytest.mark.parametrize("maker", ["The Open", "Need & Want", "Lost Two", "Top Kits 4"])
def test_a_makers_name_may_hold_any_words(maker: str) -> None:
    line = described(f'nylon 0.14 mm 4 lb maker "{maker}" please')
    assert line.words_of("maker") == maker
    assert described(f"{write(line)} 100 m").words_of("maker") == maker


def test_a_maker_is_noted_later_though_rigs_were_tied_from_the_line(tmp_path: Path) -> None:
    box = make_box(tmp_path, *CANAL)
    tie(box, fine_hooklength(), 1, DAY)
    before = names(box)
    note(box, "1", "Dace Mill")
    assert names(box) == before | {1: 'nylon 0.08 mm 0.7 kg maker "Dace Mill"'}
    with box.reading() as session:
        line = session.get(Line, 1)
        assert line is not None
        assert line.maker == "Dace Mill"
    note(box, "1", "")
    assert names(box) == before
    undo_last(box, DAY)
    undo_last(box, DAY)
    assert names(box) == before


def test_a_form_that_sends_the_old_name_too_lets_it_follow(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    for maker, name in (("A", "nylon 0.08 mm 0.7 kg maker A"), ("", "nylon 0.08 mm 0.7 kg")):
        with box.writing() as session:
            begin(session, "edit", DAY)
            item = find(session, "1")
            edit_item(session, item, name=item.name, maker=maker)
        assert names(box) == {1: name}
    with box.writing() as session:
        begin(session, "edit", DAY)
        edit_item(session, find(session, "1"), name="bottom line", maker="A")
    assert names(box) == {1: "bottom line"}  # a name of his own stays


def test_what_the_maker_may_not_be(tmp_path: Path) -> None:
    box = make_box(tmp_path, "hook 20 barbless spade pack 10", "nylon 0.08 mm 0.7 kg 50 m")
    add(box, "nylon 0.08 mm 0.7 kg maker A 50 m")
    for item, maker in (("1", "A"), ("2", 'A"B'), ("2", "A" * 61), ("2", "A")):
        with pytest.raises(AskedWronglyError):  # a hook; quotes; too long; its name is another's
            note(box, item, maker)
    assert list(names(box).values())[1:] == [
        "nylon 0.08 mm 0.7 kg",
        "nylon 0.08 mm 0.7 kg maker A",
    ]
