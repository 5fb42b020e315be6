"""What to take and what to buy, as the desk answers it and as it is printed."""

import csv
import io
from pathlib import Path

import pdfplumber
import pytest

from tacklebox.desk import Desk, packing, stock
from tacklebox.desk.plans import to_buy
from tacklebox.desk.shopping import ListFiles
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tests.desk.boxes import MATCH_DAY, change, copied, make_match_box


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One canal rig of three can be tied, and five hooklengths of ten; A01T is one of them."""
    from tacklebox.rigs.tying.tie import tie
    from tests.rigs.boxes import DAY, fine_hooklength

    folder = tmp_path_factory.mktemp("made") / "box"
    make_match_box(folder, hooks="5")
    from tests.desk.boxes import desk_at

    desk = desk_at(folder)
    tie(desk.box, fine_hooklength(), 1, DAY)
    desk.close()
    return folder


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    return copied(made, tmp_path)


def squeezed(words: str) -> str:
    return "".join(words.split())


def test_what_is_ready_has_its_code_and_what_is_tied_a_box(desk: Desk) -> None:
    found = packing.pack(desk, "open")
    sections = {section.heading: section.entries for section in found.sections}
    assert list(sections)[:3] == ["Before anything else", "Rigs", "Hooklengths"]
    held = next(entry for entry in sections["Hooklengths"] if "A01T" in entry.words)
    assert (held.first, held.tick) == ("1 ×", True)
    assert found.still_to_tie == 5  # one rig, four hooklengths
    assert found.facts[0].startswith("Saturday 20 June, 10:00 to 15:00. Pond, still water")
    assert "come first" in found.comes_first
    assert found.printed is None


def test_the_same_words_are_printed(desk: Desk) -> None:
    stream = io.BytesIO()
    found = packing.pack(desk, "open", stream)
    assert found.printed is not None
    with pdfplumber.open(stream) as read:
        printed = "".join(c["text"] for page in read.pages for c in page.chars)
        assert found.printed.pages == len(read.pages)
    for section in found.sections:
        for entry in section.entries:
            assert squeezed(entry.first + entry.words) in squeezed(printed)


def test_what_to_buy(desk: Desk) -> None:
    """Five hooks are short: one packet of ten at 1.80; two floats and winders of unknown price."""
    found = to_buy(desk, "open")
    assert [(one.name, one.packets, one.cost) for one in found.to_buy] == [
        ("pole 4×12", "2", "missing"),
        ("winder 13 cm 18 mm", "2", "missing"),
        ("hook 20 barbless spade", "1 × 10", "1.80"),
    ]
    assert (found.total_cents, found.total) == (180, "1.80, 2 prices missing")


def test_a_csv_that_no_spreadsheet_runs(desk: Desk) -> None:
    stock.edit(desk, "winder 13 cm 18 mm", name="=1+1")
    stream = io.BytesIO()
    to_buy(desk, "open", ListFiles(csv=stream))
    rows = list(csv.DictReader(io.StringIO(stream.getvalue().decode())))
    assert [row["item"] for row in rows] == ["pole 4×12", "'=1+1", "hook 20 barbless spade"]
    assert rows[2] == {
        "no.": "7", "item": "hook 20 barbless spade", "packets": "1 × 10",
        "price of a packet": "1.80", "price": "1.80", "what for": "for 5 × Fine hooklength",
        "mind": "",
    }  # fmt: skip


def test_a_page_for_the_shop(desk: Desk) -> None:
    stream = io.BytesIO()
    to_buy(desk, "open", ListFiles(pdf=stream))
    with pdfplumber.open(stream) as read:
        text = " ".join(read.pages[0].extract_text().split())
    assert "To buy for Open, Saturday 20 June" in text
    assert "total 1.80, 2 prices missing" in text


def test_what_the_font_has_not_is_told(desk: Desk) -> None:
    change(desk.box.folder / "matches" / "open.toml", ('"landing net"', '"landing net 🐟"'))
    stock.edit(desk, "hook 20 barbless spade", name="hook 鯉 20")
    packed = packing.pack(desk, "open", io.BytesIO()).printed
    bought = to_buy(desk, "open", ListFiles(pdf=io.BytesIO())).printed
    assert packed is not None
    assert bought is not None
    assert (packed.unknown, bought.unknown) == ("鯉🐟", "鯉")


@pytest.mark.parametrize("page", ["a6", "letter", ""])
def test_a_page_that_is_none_is_refused_whether_or_not_it_is_printed(desk: Desk, page: str) -> None:
    for ask in (
        lambda: packing.pack(desk, "open", page=page),
        lambda: to_buy(desk, "open", ListFiles(page=page)),
    ):
        with pytest.raises(AskedWronglyError, match="is no page size") as refused:
            ask()
        assert refused.value.field == "page"


def test_a_file_that_cannot_be_written_is_none(desk: Desk, tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="this is a folder"):
        packing.pack(desk, "open", tmp_path)
    with pytest.raises(CannotBeDoneError, match="cannot be written"):
        packing.pack(desk, "open", tmp_path / "no" / "pack.pdf")
    with pytest.raises(CannotBeDoneError, match="cannot be written"):
        to_buy(desk, "open", ListFiles(csv=tmp_path / "no" / "buy.csv"))


def test_a_match_that_is_over_is_not_packed_for(desk: Desk) -> None:
    change(desk.box.folder / "matches" / "open.toml", (MATCH_DAY, "2020-01-01"))
    for ask in (lambda: packing.pack(desk, "open"), lambda: to_buy(desk, "open")):
        with pytest.raises(AskedWronglyError, match="which is past"):
            ask()
