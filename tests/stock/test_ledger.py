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

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.errors import AskedWronglyError, CannotBeDoneError, ManyFaultsError
from tacklebox.stock.asks import read_filters
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.schema import SCHEMA_VERSION
from tacklebox.stock.csv_file import import_items
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.ledger import (
    NewItem,
    add_item,
    begin,
    edit_item,
    find,
    list_items,
    load,
    move,
    movements_of,
    read_amount,
    read_price_cents,
    search,
    write_amount,
    write_price,
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


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("2.2 lb line", "nylon 0.10 mm 1 kg"),
        ("point one nylon", "nylon 0.10 mm 1 kg"),
        ("14 g bombs", "bomb 1/2 oz"),
        ("BB's", "shot BB tin"),
        ("eighteen to point ten", "hooklength 18 to 0.10 mm"),
        ("swan shot", "shot SSG tin"),
    ],
)
def test_found_by_what_the_words_mean(box: Box, said: str, name: str) -> None:
    for words in (
        "nylon 0.10 1 kg",
        "nylon 0.12 3 lb",
        "1/2 oz bomb",
        "shot BB",
        "shot SSG",
        "18 to 0.10",
    ):
        add(box, words)
    with box.reading() as session:
        assert find(session, said).name == name


def test_words_in_the_order_said_mean_more_than_the_same_words_anywhere(box: Box) -> None:
    """Be they of the name that the angler gave or of the figures."""
    add(box, "hook 18 pack 10", name="The big carp hook")
    add(box, "hook 16 pack 10", name="Carp hook, big")
    add(box, "winder 13 cm 18 mm", name="blue")
    add(box, "winder 18 cm 20 mm", name="red")
    with box.reading() as session:
        assert find(session, "Big carp").id == 1
        assert find(session, "Winder 18 cm").id == 4


def test_several_that_fit_are_named(box: Box) -> None:
    add(box, "hook 18 pack 10")
    add(box, "hook 20 pack 10")
    with box.reading() as session, pytest.raises(AskedWronglyError, match="fits 2 items"):
        find(session, "hook")


def test_of_very_many_that_fit_six_are_named(box: Box) -> None:
    for size in range(10, 24, 2):
        add(box, f"hook {size} pack 10")
    with (
        box.reading() as session,
        pytest.raises(AskedWronglyError, match="fits 7 items") as refused,
    ):
        find(session, "hook")
    assert refused.value.right.endswith("5 hook 18; 6 hook 20.")


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
    assert (hook.on_hand, hook.minimum, hook.pack_price_cents) == (20, 20, 180)
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
        "item,pack,keep\nhook 18,10,5\nhook 99,10,\nnylon 4 lbb,100 m,\nhook 16,10,few\n"
    )
    with pytest.raises(ManyFaultsError) as error:
        import_items(box, path, DAY)
    assert [str(fault).split(":")[0] for fault in error.value.faults] == [
        "line 3",
        "line 4",
        "line 5",
    ]
    with box.reading() as session:
        assert load(session) == []


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("itm,pack\n", 'Did you mean "item"?'),
        ("name,pack\n", 'no column "item"'),
        ("", 'no column "item"'),
        ('item\n"hook', "no CSV"),
        ("item,pack\nhook 18,10,x\n", "3 cells under 2"),
    ],
)
def test_csv_that_is_no_stock_list(box: Box, tmp_path: Path, text: str, expected: str) -> None:
    path = tmp_path / "stock.csv"
    path.write_text(text)
    with pytest.raises(AskedWronglyError, match=expected):
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
    with pytest.raises(CannotBeDoneError, match="the file is damaged or no box"):
        open_box(tmp_path)
    assert (tmp_path / DATABASE_NAME).read_bytes() == data


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(AskedWronglyError, match="is a file"):
        open_box(tmp_path / "file")


@pytest.mark.parametrize(
    "text", ["2E306", "inf", "nan", "-1", "100000.01", "", "x", "1.234", "1,234", "1_0", "1e3", "٣"]
)
def test_what_is_no_price(text: str) -> None:
    with pytest.raises(AskedWronglyError, match="is no price") as refused:
        read_price_cents(text)
    assert "3.49" in refused.value.right


@pytest.mark.parametrize(
    ("text", "cents", "written"),
    [
        ("£3.49", 349, "3.49"),
        (" 3,49 € ", 349, "3.49"),
        ("0.5", 50, "0.50"),
        ("0", 0, "0.00"),
        ("100000", 10_000_000, "100000.00"),
    ],
)
def test_prices_as_they_are_written(text: str, cents: int, written: str) -> None:
    assert read_price_cents(text) == cents
    assert write_price(cents) == written


@pytest.mark.parametrize(
    ("text", "measured", "amount", "written"),
    [
        (" 30 ", False, 30, "30"),
        ("0", False, 0, "0"),
        ("1000000", False, 1_000_000, "1000000"),
        ("0", True, 0, "0 m"),
        ("100 m", True, 100_000, "100 m"),
        ("25 cm", True, 250, "0.25 m"),
    ],
)
def test_amounts_as_they_are_written(text: str, measured: bool, amount: int, written: str) -> None:
    assert read_amount(text, measured) == amount
    assert write_amount(amount, measured) == written


@pytest.mark.parametrize("text", ["1000001", "00000030", "3.5", "-1", "٣", "few", ""])
def test_what_is_no_number_of_pieces(text: str) -> None:
    with pytest.raises(AskedWronglyError, match="is no number of pieces") as refused:
        read_amount(text, measured=False)
    assert "up to 1000000" in refused.value.right


@pytest.mark.parametrize(
    ("words", "more", "on_hand", "pack_size"),
    [
        ("hook 18 pack 10", {}, 10, 10),
        ("hook 18 pack 10", {"packs": 0}, 0, 10),
        ("hook 18 pack 10", {"packs": 3, "pack_size": 25}, 75, 25),
        ("hook 18 pack 10", {"amount": "7"}, 7, 10),
        ("nylon 0.12 mm 50 m", {"amount": "12.5 m"}, 12_500, 50_000),
        ("waggler 5BB insert", {}, 1, 1),
        ("feeder cage 30 g", {"packs": 2}, 2, 1),
        ("winder 13 cm 18 mm", {}, 1, 1),
    ],
)
def test_what_there_is_of_a_new_item(
    box: Box, words: str, more: dict[str, object], on_hand: int, pack_size: int
) -> None:
    item = add(box, words, **more)
    assert (item.on_hand, item.pack_size, item.added_on) == (on_hand, pack_size, DAY)
    with box.reading() as session:
        (first,) = movements_of(session, item)
    counted = ("counted", "first count") if "amount" in more else ("bought", "")
    assert (first.why, first.reason, first.on) == (*counted, DAY)


def test_what_is_kept_beside_the_figures(box: Box) -> None:
    item = add(
        box,
        "nylon 0.12 mm 1.6 kg 50 m",
        name="  fine\tline ",
        place="drawer  2",
        pack_price_cents=349,
        minimum="75 m",
    )
    assert (item.name, item.place, item.minimum) == ("fine line", "drawer 2", 75_000)
    assert item.pack_price_cents == 349
    assert add(box, "hook 18 pack 10").minimum == 0


@pytest.mark.parametrize(
    ("words", "on_hand"),
    [
        ("hook 18", 10),
        ("18 to 0.10", 10),
        ("nylon 0.12 mm", 50_000),
        ("6 lb nylon", 150_000),
        ("elastic 4", 6_000),
        ("swivel 14", 10),
        ("waggler 4BB", 1),
        ("3 packets of hook 18", 30),
        ("a dozen 4BB wagglers", 12),
    ],
)
def test_what_a_packet_usually_holds_is_taken(box: Box, words: str, on_hand: int) -> None:
    assert add(box, words).on_hand == on_hand


def test_how_many_shot_are_in_a_tub_nobody_knows(box: Box) -> None:
    item = add(box, "shot No 8")
    assert (item.level, item.on_hand, item.pack_size) == ("plenty", 0, 1)
    with pytest.raises(AskedWronglyError, match="does not say the number in a pack") as refused:
        add(box, "shot No 10", amount="40")
    assert "pack 150" in refused.value.right


def test_line_that_the_packet_really_prints_so_may_be_stored(box: Box) -> None:
    with pytest.raises(AskedWronglyError, match="such line bears 1500 to 10000 MPa"):
        add(box, "braid 0.10 mm 12 kg 100 m")
    with pytest.raises(AskedWronglyError, match="such line bears 500 to 1850 MPa") as refused:
        add(box, "nylon 0.12 mm 9 kg 50 m")
    assert refused.value.right.startswith("Did you mean 0.12 mm at 0.9 kg?")
    assert refused.value.see == "stock.as_printed"
    with pytest.raises(AskedWronglyError) as refused:
        add(box, "nylon 0.50 mm 700 kg 50 m")  # no slip of the pen makes that of a line
    assert refused.value.right.startswith("Look at the packet again.")
    add(box, "nylon 0.12 mm 50 m")  # with no strain there is nothing to question
    with box.writing() as session:
        new = NewItem(read_notation("nylon 0.12 mm 9 kg 50 m"))
        add_item(session, begin(session, "add", DAY), new, as_printed=True)


def test_an_item_is_edited_where_said_and_nowhere_else(box: Box) -> None:
    add(box, "nylon 0.12 mm 1.6 kg 50 m", name="fine", place="drawer 2", pack_price_cents=349)

    def edited(**change: str) -> tuple[object, ...]:
        with box.writing() as session:
            begin(session, "edit", DAY)
            edit_item(session, find(session, "1"), **change)
        with box.reading() as session:
            item = find(session, "1")
        return (
            item.name,
            item.place,
            item.pack_size,
            item.pack_price_cents,
            item.minimum,
            item.on_hand,
        )

    assert edited() == ("fine", "drawer 2", 50_000, 349, 0, 50_000)
    assert edited(name=" thin  one ") == ("thin one", "drawer 2", 50_000, 349, 0, 50_000)
    assert edited(name="thin one")[0] == "thin one"  # its own name is no other's
    assert edited(name="")[0] == "nylon 0.12 mm 1.6 kg"
    assert edited(place=" reel\n1 ")[1] == "reel 1"
    assert edited(pack="100 m")[2] == 100_000
    assert edited(price="4,20")[3] == 420
    assert edited(minimum="25 m")[4] == 25_000
    assert edited(place="", minimum="0")[1:] == ("", 100_000, 420, 0, 50_000)


def test_what_an_item_cannot_become(box: Box) -> None:
    add(box, "hook 18 pack 10")
    add(box, "hook 20 pack 10")
    with box.writing() as session:
        begin(session, "edit", DAY)
        hook = find(session, "2")
        edit_item(session, hook, pack="1")
        assert hook.pack_size == 1
        with pytest.raises(AskedWronglyError, match="at least one") as refused:
            edit_item(session, hook, pack="0")
        assert refused.value.field == "pack"
        with pytest.raises(AskedWronglyError, match="as item 1") as refused:
            edit_item(session, hook, name="hook 18")
        assert refused.value.see == "stock.buy 1"
        edit_item(session, hook, name="x" * 400)
        with pytest.raises(AskedWronglyError, match="401 letters") as refused:
            edit_item(session, hook, name="x" * 401)
        assert "400" in refused.value.right


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


def test_lists_are_of_all_or_of_a_kind(box: Box) -> None:
    for words in ("hook 18 pack 10", "nylon 0.12 mm 50 m", "hook 20 pack 10"):
        add(box, words)
    with box.reading() as session:
        for listed in (list_items(session), load(session)):
            assert [item.id for item in listed] == [1, 2, 3]
            assert [item.measured for item in listed] == [False, True, False]
        for of_kind in (list_items(session, "hook"), load(session, "hook")):
            assert [item.name for item in of_kind] == ["hook 18", "hook 20"]


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("DRAWER fine", [1]),
        ("hook 18", [2]),
        ("4×12", [3]),
        ("4x12", [3]),
        ("drawer", [1, 2]),
        ("drawer pole", []),
        ("", [1, 2, 3]),
    ],
)
def test_a_search_is_for_every_word_wherever_it_stands(box: Box, text: str, ids: list[int]) -> None:
    add(box, "nylon 0.12 mm 50 m", name="Fine line", place="drawer 2")
    add(box, "hook 18 pack 10", place="Drawer 3")
    add(box, "pole 4×12")
    with box.reading() as session:
        assert [item.id for item in search(list_items(session), text)] == ids


def test_what_is_meant_by_number_name_or_words(box: Box) -> None:
    add(box, "hook 18 pack 10", name="18s")
    add(box, "hook 18 barbless pack 10", name="Wide gape")
    add(box, "winder 13 cm 18 mm")
    with box.reading() as session:
        assert find(session, "#2").id == 2
        assert find(session, " 18s ").id == 1  # a name, not a number
        assert find(session, "WIDE  gape").id == 2
        assert find(session, "hook 18").id == 1  # to the letter, though both have the words
        for said, answer in (("9", "no item 9"), ("9" * 12, "nothing in"), ("٣", "nothing in")):
            with pytest.raises(AskedWronglyError, match=answer) as error:
                find(session, said)
            assert error.value.see == "stock.listed"
        with pytest.raises(AskedWronglyError, match='"hook" fits 2 items') as error:
            find(session, "hook")
        assert "by its number: 1 18s; 2 Wide gape." in error.value.right
