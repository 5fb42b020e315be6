"""The ledger on a real SQLite file."""

import sqlite3
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.stock.care.aswritten import give_checks
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.schema import SCHEMA_VERSION
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin, move, movements_of
from tacklebox.stock.tables import Why
from tests.long.length import so_many
from tests.stock.entered import add

DAY = date(2026, 3, 5)


def sums(box: Box) -> Iterator[tuple[int, int]]:
    with sqlite3.connect(box.folder / DATABASE_NAME) as connection:
        yield from connection.execute(
            "SELECT on_hand, (SELECT coalesce(sum(amount), 0) FROM movement WHERE item_id = item.id)"
            " FROM item"
        )


def test_on_hand_is_the_sum_of_movements(box: Box) -> None:
    item = add(box, "hook 18 barbless spade pack 10", packs=3)
    with box.writing() as session:
        action = begin(session, "take", DAY)
        same = find(session, str(item.id))
        move(session, action, same, -4, Why.LOST, "in the reeds")
        assert same.on_hand == 26
        assert [(m.amount, m.why) for m in movements_of(session, same)] == [
            (30, "bought"),
            (-4, "lost"),
        ]
    assert list(sums(box)) == [(26, 26)]


def test_never_below_zero_and_nothing_half_saved(box: Box) -> None:
    item = add(box, "hook 18 pack 10")
    with pytest.raises(CannotBeDoneError, match="only 10 of hook 18"), box.writing() as session:
        move(session, begin(session, "take", DAY), find(session, "1"), -11, Why.LOST)
    with sqlite3.connect(box.folder / DATABASE_NAME) as connection:
        give_checks(connection)
        with pytest.raises(sqlite3.IntegrityError, match="never_below_zero"):
            connection.execute(
                "INSERT INTO movement (item_id, action_id, amount, why, 'on', reason)"
                " VALUES (?, 1, -11, 'lost', '2026-03-05', '')",
                (item.id,),
            )
    with sqlite3.connect(box.folder / DATABASE_NAME) as connection:
        assert connection.execute("SELECT count(*) FROM action").fetchone() == (1,)
    assert list(sums(box)) == [(10, 10)]


@pytest.mark.parametrize("sql", ["UPDATE movement SET amount = 1", "DELETE FROM movement"])
def test_the_database_refuses_to_change_a_movement(box: Box, sql: str) -> None:
    add(box, "hook 18 pack 10")
    with (
        sqlite3.connect(box.folder / DATABASE_NAME) as connection,
        pytest.raises(sqlite3.IntegrityError, match="never"),
    ):
        connection.execute(sql)


@given(st.lists(st.integers(-30, 30), max_size=30))
@settings(max_examples=so_many(25, 13), deadline=None)
def test_any_run_of_movements_keeps_the_sum(
    tmp_path_factory: pytest.TempPathFactory, amounts: list[int]
) -> None:
    box = open_box(tmp_path_factory.mktemp("box"))
    add(box, "hook 18 pack 10")
    expected = 10
    for amount in amounts:
        try:
            with box.writing() as session:
                move(session, begin(session, "x", DAY), find(session, "1"), amount, Why.CORRECTED)
            expected += amount
        except CannotBeDoneError:
            assert expected + amount < 0
    assert list(sums(box)) == [(expected, expected)]


def test_a_newer_box_is_refused_and_left(box: Box) -> None:
    with sqlite3.connect(box.folder / DATABASE_NAME) as connection:
        connection.execute(f"PRAGMA user_version = {SCHEMA_VERSION + 1}")
    with pytest.raises(CannotBeDoneError, match="newer Tacklebox"):
        open_box(box.folder)


def test_another_database_is_no_box(tmp_path: Path) -> None:
    with sqlite3.connect(tmp_path / DATABASE_NAME) as connection:
        connection.execute("CREATE TABLE other (x)")
    with pytest.raises(AskedWronglyError, match="no Tacklebox box"):
        open_box(tmp_path)


@pytest.mark.parametrize(
    "data", [b"not a database at all" * 100, b"SQLite format 3\x00" + b"x" * 600]
)
def test_a_damaged_file_is_told(tmp_path: Path, data: bytes) -> None:
    (tmp_path / DATABASE_NAME).write_bytes(data)
    with pytest.raises(CannotBeDoneError, match="the file is damaged or no box"):
        open_box(tmp_path)
    assert (tmp_path / DATABASE_NAME).read_bytes() == data


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(AskedWronglyError, match="is a file"):
        open_box(tmp_path / "file")


def test_a_transaction_is_one_action_of_all_that_is_begun_in_it(box: Box) -> None:
    with box.writing() as session:
        first = begin(session, "buy", DAY, undoes=None)
        assert begin(session, "count", DAY) is first
        assert (first.what, first.on, first.undoes) == ("buy, count", DAY, None)
    with box.writing() as session:
        second = begin(session, "undo of buy", DAY, undoes=first.id)
        assert (second.id, second.undoes) == (2, first.id)


def test_all_may_be_taken_and_not_one_more(box: Box) -> None:
    add(box, "nylon 0.12 mm 50 m")
    with box.writing() as session:
        line, action = find(session, "1"), begin(session, "take", DAY)
        with pytest.raises(CannotBeDoneError) as refused:
            move(session, action, line, -50_010, Why.LOST)
        assert (
            "only 50 m of nylon 0.12 mm is in stock; 50.01 m cannot be taken" in refused.value.what
        )
        assert refused.value.see == "stock.count"
        move(session, action, line, -50_000, Why.LOST)
        assert line.on_hand == 0


def test_movements_are_an_items_own_oldest_first(box: Box) -> None:
    add(box, "hook 18 pack 10")
    add(box, "hook 20 pack 10")
    with box.writing() as session:
        action = begin(session, "count", DAY)
        for item, amount in (("1", 5), ("2", 7), ("1", -3)):
            move(session, action, find(session, item), amount, Why.COUNTED)
        assert [m.amount for m in movements_of(session, find(session, "1"))] == [10, 5, -3]
