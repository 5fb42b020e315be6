"""A stock list read again after its import was undone, and files that no spreadsheet wrote."""

import os
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError, ManyFaultsError
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.undo import redo_last, undo_last
from tacklebox.stock.csv_file import import_items
from tacklebox.stock.finding import Listed, find, list_items
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.tables import Why
from tests.rigs.boxes import DAY, on_hand

HEAD = "item,name,place,pack,price,minimum,packs,amount\n"
FIRST = f"{HEAD}hook 18 barbless,,drawer 1,10,1.80,20,3,\nnylon 0.14 mm 1.9 kg,my nylon,,100 m,,,,80 m\n"
MENDED = f"{HEAD}hook 18 barbless,,drawer 2,15,2.10,30,2,\nnylon 0.14 mm 1.9 kg,my nylon,,100 m,,,,60 m\n"


@pytest.fixture
def box(tmp_path: Path) -> Box:
    return open_box(tmp_path / "box")


def read(box: Box, text: str) -> None:
    path = box.folder / "stock.csv"
    path.write_text(text)
    import_items(box, path, DAY)


def items(box: Box) -> list[Listed]:
    with box.reading() as session:
        return list_items(session)


def test_an_undone_import_is_mended_and_repeated(box: Box) -> None:
    read(box, FIRST)
    undo_last(box, DAY)
    read(box, MENDED)
    hook, nylon = items(box)
    assert (hook.on_hand, hook.place, hook.pack_size) == (30, "drawer 2", 15)
    assert (hook.pack_price_cents, hook.minimum) == (210, 30)
    assert (nylon.name, nylon.on_hand) == ("my nylon", 60_000)
    undo_last(box, DAY)
    assert on_hand(box) == {}
    redo_last(box, DAY)
    assert on_hand(box) == {"hook 18 barbless": 30, "my nylon": 60_000}
    hook, nylon = items(box)
    assert (hook.id, hook.minimum, nylon.id) == (1, 30, 2)
    assert audit(box.database).faults == ()


def test_what_is_still_there_is_not_filled_again(box: Box) -> None:
    read(box, FIRST)
    with pytest.raises(ManyFaultsError, match="in the box already, or in a row before: item 1"):
        read(box, FIRST)
    undo_last(box, DAY)
    read(box, "\n".join(FIRST.splitlines()[:2]))
    with pytest.raises(ManyFaultsError, match="1 of 2 rows"):
        read(box, FIRST)
    assert on_hand(box) == {"hook 18 barbless": 30}


def test_columns_are_read_by_the_names_that_they_had_before(box: Box) -> None:
    read(box, FIRST.replace(",minimum,", ",keep,"))
    assert items(box)[0].minimum == 20


def test_what_was_used_up_is_not_filled_again(box: Box) -> None:
    """It is bought again, not met anew."""
    read(box, FIRST)
    with box.writing() as session:
        move(session, begin(session, "take", DAY), find(session, "1"), -30, Why.LOST)
    with pytest.raises(ManyFaultsError, match="in the box already, or in a row before: item 1"):
        read(box, FIRST)


def test_other_figures_or_a_row_twice_are_told(box: Box) -> None:
    read(box, FIRST)
    undo_last(box, DAY)
    read(box, FIRST.replace("0.14 mm 1.9 kg", "0.16 mm 2.5 kg"))  # the name is free again
    assert [(item.id, item.words) for item in items(box)] == [
        (1, "hook 18 barbless"),
        (3, "nylon 0.16 mm 2.5 kg"),
    ]
    undo_last(box, DAY)
    row = FIRST.splitlines()[1]
    with pytest.raises(ManyFaultsError, match=r"line 3: .*in the box already"):
        read(box, f"{HEAD}{row}\n{row}\n")
    assert on_hand(box) == {}


def test_columns_once_in_use_are_left_out(box: Box) -> None:
    read(box, "item,pack,,\nhook 18,10,,\nhook 16,10\nhook 14,10,\n")
    assert on_hand(box) == {"hook 18": 10, "hook 16": 10, "hook 14": 10}
    with pytest.raises(AskedWronglyError, match="line 2 has 4 cells under 2 headings"):
        read(box, "item,pack,,\nhook 12,10,,7\n")


def test_pipes_and_devices_are_refused_at_once(box: Box) -> None:
    """A pipe that nobody writes to would be waited for, a device never ends."""
    os.mkfifo(box.folder / "pipe")
    for path in (box.folder / "pipe", Path("/dev/zero")):
        with pytest.raises(AskedWronglyError, match="device, pipe or socket"):
            import_items(box, path, DAY)


@pytest.mark.parametrize(
    "data", [b"item\nhook \x81\x8d", b"\xff\xfei\x00t\x00e\x00m", b"\xfe\xff\xd8\x00"]
)
def test_a_file_of_no_known_letters_is_not_guessed_at(box: Box, data: bytes) -> None:
    """Undecoded, a name would be saved with letters that nobody wrote."""
    path = box.folder / "stock.csv"
    path.write_bytes(data)
    with pytest.raises(AskedWronglyError, match=r"no text of UTF-8, UTF-16 or Windows-1252"):
        import_items(box, path, DAY)
    assert items(box) == []


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("item,name,item\nhook 18,,hook 20\n", 'the column "item" stands there twice'),
        ("item,keep,minimum\nhook 18,1,2\n", 'the column "minimum" stands there twice'),
        (f"{HEAD}hook 18,,,10,,,2,30\n", r"packs \(2\) and amount \(30\) both say"),
        (f"{HEAD}nylon 0.14 mm 4 lb,,,100 m,,,,0.0001 mm\n", "less than a millimetre"),
        (f"{HEAD}hook 18,,,1_0,,,,\n", '"1_0" is no number of pieces'),
        (f"{HEAD}hook 18,,,10,1.234,,,\n", '"1.234" is no price'),
        (f"{HEAD}hook 18,,,10,,,1e3,\n", '"1e3" is no number of pieces'),
    ],
)
def test_what_was_once_taken_in_silence_is_refused(box: Box, text: str, says: str) -> None:
    with pytest.raises(AskedWronglyError, match=says):
        read(box, text)
    assert items(box) == []


def test_of_very_many_bad_rows_the_first_are_told_and_the_rest_counted(box: Box) -> None:
    with pytest.raises(ManyFaultsError) as refused:
        read(box, HEAD + "nonsense,,,,,,,\n" * 2000)
    assert len(refused.value.faults) == 50
    assert "50 of 50 rows cannot be read; 1950 after them were not looked at" in str(refused.value)
    assert items(box) == []


def test_the_same_thing_in_another_unit_is_told_to_be_decided(box: Box) -> None:
    read(box, "item,amount\nnylon 0.10 mm 2.2 lb 50 m,50 m\n")
    receipt = "item,packs,same\nnylon 0.10 mm 1 kg 50 m,2,{}\nhook 18,1,\n"
    with pytest.raises(ManyFaultsError) as refused:
        read(box, receipt.format(""))
    told = str(refused.value)
    assert 'line 2: "nylon 0.10 mm 1 kg" may be what you have already: item 1' in told
    assert 'Write yes under "same" for more of it, no for another one.' in told
    assert on_hand(box) == {"nylon 0.10 mm 2.2 lb": 50_000}
    with pytest.raises(ManyFaultsError, match='"perhaps" under "same" is no answer'):
        read(box, receipt.format("perhaps"))
    read(box, receipt.format("Yes"))
    assert on_hand(box) == {"nylon 0.10 mm 2.2 lb": 150_000, "hook 18": 10}
    undo_last(box, DAY)
    read(box, receipt.format("no"))
    assert on_hand(box)["nylon 0.10 mm 1 kg"] == 100_000
    assert audit(box.database).faults == ()


def test_a_row_that_is_there_already_may_be_more_of_it(box: Box) -> None:
    read(box, "item,amount\nhook 18,5\n")
    with pytest.raises(ManyFaultsError, match="in the box already, or in a row before: item 1"):
        read(box, "item,packs\nhook 18,2\n")
    read(box, "item,packs,same\nhook 18,2,yes\n")
    assert on_hand(box) == {"hook 18": 25}
    with pytest.raises(ManyFaultsError, match="is not in the box"):
        read(box, "item,packs,same\nhook 20,2,yes\n")


def test_two_rows_of_one_file_may_be_one_thing(box: Box) -> None:
    twice = "item,amount,same\nnylon 0.10 mm 2.2 lb 50 m,50 m,\nnylon 0.10 mm 1 kg 50 m,20 m,{}\n"
    with pytest.raises(ManyFaultsError, match="line 3"):
        read(box, twice.format(""))
    read(box, twice.format("yes"))
    assert on_hand(box) == {"nylon 0.10 mm 2.2 lb": 70_000}
