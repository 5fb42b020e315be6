"""The ledger on a real SQLite file."""

import csv
import sqlite3
from collections.abc import Iterator
from datetime import date
from io import StringIO
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError, CannotBeDoneError, ManyFaultsError
from tacklebox.stock.asks import read_filters
from tacklebox.stock.box import DATABASE_NAME, SCHEMA_VERSION, Box, open_box
from tacklebox.stock.csvfile import import_items
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.ledger import (
    NewItem,
    add_item,
    begin,
    find,
    load,
    move,
    movements_of,
    read_price_cents,
)
from tacklebox.stock.notation import read_notation
from tacklebox.stock.tables import Item, Kind, Why

DAY = date(2026, 3, 5)


@pytest.fixture
def box(tmp_path: Path) -> Box:
    return open_box(tmp_path / "box")


def add(box: Box, words: str, **more: object) -> Item:
    with box.writing() as session:
        new = NewItem(read_notation(words), **more)  # type: ignore[arg-type]
        return add_item(session, begin(session, "add", DAY), new)


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
    with (
        sqlite3.connect(box.folder / DATABASE_NAME) as connection,
        pytest.raises(sqlite3.IntegrityError, match="never_below_zero"),
    ):
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
@settings(max_examples=25, deadline=None)
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


@pytest.mark.parametrize(
    "name",
    [
        "../../etc",
        "a/b",
        'O\'Brien "best"',
        "🎣 hook",
        "x" * 300,
        "'; DROP TABLE item; --",
        "%s {}",
    ],
)
def test_odd_names_harm_nothing(box: Box, name: str) -> None:
    add(box, "hook 18 pack 10", name=name)
    with box.reading() as session:
        assert find(session, name).name == name
        assert len(load(session)) == 1


def test_what_a_terminal_would_obey_is_dropped(box: Box) -> None:
    assert add(box, "hook 18 pack 10", name="red\x1b[31m \x07hook\n").name == "red [31m hook"


def test_the_same_item_twice_is_told(box: Box) -> None:
    add(box, "hook 18 pack 10")
    with pytest.raises(AskedWronglyError, match="in the box already, as item 1"):
        add(box, "hooks size 18 pack 10")


def test_impossible_line_is_questioned_before_it_is_stored(box: Box) -> None:
    with pytest.raises(AskedWronglyError, match=r"237,\d{3} MPa") as error:
        add(box, "nylon 0.010 mm 1.9 kg 100 m")
    assert "0.10 mm" in error.value.right
    with box.reading() as session:
        assert load(session) == []


@pytest.mark.parametrize(
    ("said", "names"),
    [
        ("2", "hook 20 barbless"),
        ("hook 18", "hook 18 barbless spade"),
        ("hooks size 20", "hook 20 barbless"),
        ("0.14", "nylon 0.14 mm 4 lb"),
        ("winder 18 cm", "winder 18 cm 20 mm"),
    ],
)
def test_found_by_what_is_said(box: Box, said: str, names: str) -> None:
    for words in (
        "hook 18 barbless spade pack 10",
        "hook 20 barbless pack 10",
        "nylon 0.14 mm 4 lb 100 m",
        "winder 13 cm 18 mm",
        "winder 18 cm 20 mm",
    ):
        add(box, words)
    with box.reading() as session:
        assert find(session, said).name == names


def test_several_that_fit_are_named(box: Box) -> None:
    add(box, "hook 18 pack 10")
    add(box, "hook 20 pack 10")
    with box.reading() as session, pytest.raises(AskedWronglyError, match="fits 2 items"):
        find(session, "hook")


def test_filter_by_figures(box: Box) -> None:
    for words in (
        "nylon 0.10 mm 1.1 kg 50 m",
        "nylon 0.14 mm 4 lb 100 m",
        "nylon 0.20 mm 3.6 kg 100 m",
    ):
        add(box, words)
    ask = read_filters(Kind.LINE, ["diameter 0.12 to 0.16 mm", "strain at least 3 lb"])
    with box.reading() as session:
        stock = Inventory.read(session, [Kind.LINE]).by_kind[Kind.LINE]
    assert [s.item.name for s in stock if ask.matches(s.figures)] == ["nylon 0.14 mm 4 lb"]


def test_what_is_read_is_not_written(box: Box) -> None:
    add(box, "hook 18 pack 10")
    with box.reading() as session:
        find(session, "1").name = "changed"
        session.flush()
    with box.reading() as session:
        assert find(session, "1").name == "hook 18"


CSV = """item,place,pack,price,keep,packs
hook 18 barbless,drawer 2,10,1.80,20,2
waggler 5BB insert,,,2.40,,
"""


@pytest.mark.parametrize(
    "data",
    [
        CSV.encode(),
        b"\xef\xbb\xbf" + CSV.replace("\n", "\r\n").encode(),
        CSV.replace(",", ";").replace("1.80", "1,80").encode("cp1252"),
    ],
)
def test_csv_as_spreadsheets_write_it(box: Box, tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "stock.csv"
    path.write_bytes(data)
    import_items(box, path, DAY)
    with box.reading() as session:
        hook, float_ = load(session)
    assert (hook.on_hand, hook.keep_at_least, hook.pack_price_cents) == (20, 20, 180)
    assert (float_.name, float_.on_hand) == ("waggler 5BB insert", 1)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("separator", [";", ",", "\t"])
@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-be", "utf-16-le", "cp1252"]
)
def test_csv_in_every_spelling(
    box: Box, tmp_path: Path, encoding: str, separator: str, end: str
) -> None:
    rows = [
        ["item", "name", "place", "pack", "price"],
        ["hook 18 barbless", 'Hook "fine"; für Döbel', "Fach 2 €", "10", "1,80"],
    ]
    text = StringIO(newline="")
    csv.writer(text, delimiter=separator, lineterminator=end).writerows(rows)
    mark = "\ufeff" if encoding in ("utf-16-be", "utf-16-le") else ""
    path = tmp_path / "stock.csv"
    path.write_bytes((mark + text.getvalue()).encode(encoding))
    (hook,) = import_items(box, path, DAY)
    assert (hook.name, hook.place) == ('Hook "fine"; für Döbel', "Fach 2 €")
    assert (hook.on_hand, hook.pack_price_cents) == (10, 180)


def test_csv_with_bad_rows_saves_none_and_lists_each(box: Box, tmp_path: Path) -> None:
    path = tmp_path / "stock.csv"
    path.write_text(
        "item,pack,keep\nhook 18,10,5\nhook 99,10,\nnylon 4 lb,100 m,\nhook 16,10,few\n"
    )
    with pytest.raises(ManyFaultsError) as error:
        import_items(box, path, DAY)
    assert [fault.split(":")[0] for fault in error.value.faults] == ["line 3", "line 4", "line 5"]
    with box.reading() as session:
        assert load(session) == []


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("itm,pack\n", 'Did you mean "item"?'),
        ("name,pack\n", 'no column "item"'),
        ("", 'no column "item"'),
        ('item\n"hook', "no CSV"),
        ("item,pack\nhook 18,10,x\n", "3 cells under 2"),
    ],
)
def test_csv_that_is_no_stock_list(box: Box, tmp_path: Path, text: str, told: str) -> None:
    path = tmp_path / "stock.csv"
    path.write_text(text)
    with pytest.raises(AskedWronglyError, match=told):
        import_items(box, path, DAY)


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
    with pytest.raises(CannotBeDoneError, match="put back a copy"):
        open_box(tmp_path)
    assert (tmp_path / DATABASE_NAME).read_bytes() == data


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(AskedWronglyError, match="is a file"):
        open_box(tmp_path / "file")


@pytest.mark.parametrize("text", ["2E306", "inf", "nan", "-1", "100000.01", "", "x"])
def test_what_is_no_price(text: str) -> None:
    with pytest.raises(AskedWronglyError, match="is no price"):
        read_price_cents(text)
