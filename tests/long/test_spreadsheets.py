"""An export that a real spreadsheet saved again, in two countries, comes back equal; so does what was
exported of that once more."""

import csv
from pathlib import Path

import pytest

from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.export import export_box
from tacklebox.stock.care.reading_in import import_box
from tacklebox.stock.csv_file import import_items
from tests.copied_boxes import copy_of
from tests.long.length import WHOLE
from tests.long.spreadsheets import SAVINGS, SOFFICE, Saving, save_again
from tests.rigs.boxes import DAY
from tests.stock.full_box import dump, make_full_box

LIST = (
    ("item", "name", "place", "pack", "price", "minimum", "packs"),
    ("nylon 0.14 mm 1.9 kg", "", "Döbel, oben", "100 m", "3.49", "12.5 m", "2"),
    ("hook 18 barbless", "my hook", "", "10", "1.80", "20", "3"),
    ("shot AAA", "", "", "", "", "", ""),
)
pytestmark = [
    pytest.mark.long,
    pytest.mark.skipif(not WHOLE, reason="its short form: tests/stock/test_spreadsheet_cells.py"),
    pytest.mark.skipif(SOFFICE is None, reason="there is no LibreOffice here"),
]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_full_box(tmp_path_factory.mktemp("made") / "box")


@pytest.fixture
def box(made: Path, tmp_path: Path) -> Box:
    return copy_of(made, tmp_path / "box")


@pytest.mark.parametrize("saving", SAVINGS, ids=str)
def test_an_export_saved_again_comes_back_equal_twice(
    box: Box, tmp_path: Path, saving: Saving
) -> None:
    was = box
    for turn in ("once", "twice"):
        out = tmp_path / f"out {turn}"
        export_box(was, out)
        before = {path.name: path.read_bytes() for path in out.glob("*.csv")}
        save_again(out, saving)
        assert any((out / name).read_bytes() != data for name, data in before.items())
        was = open_box(tmp_path / turn)
        import_box(was, out, Snapshot.from_json)
        assert dump(was) == dump(box)


@pytest.mark.parametrize("saving", [one for one in SAVINGS if one.asked], ids=str)
def test_a_stock_list_made_in_one_is_read(tmp_path: Path, saving: Saving) -> None:
    """Written as the country writes figures."""
    is_german = saving.country == "de-DE"
    (tmp_path / "in").mkdir()
    with (tmp_path / "in" / "stock.csv").open("w", encoding="utf-8-sig", newline="") as file:
        for row in LIST:
            csv.writer(file).writerow([c.replace(".", ",") if is_german else c for c in row])
    save_again(tmp_path / "in", saving)
    box = open_box(tmp_path / "box")
    nylon, hook, _ = import_items(box, tmp_path / "in" / "stock.csv", DAY).added
    assert (nylon.words, nylon.on_hand, nylon.minimum) == ("nylon 0.14 mm 1.9 kg", 200_000, 12_500)
    assert (nylon.pack_price_cents, nylon.place) == (349, "Döbel, oben")
    assert (hook.name, hook.on_hand, hook.pack_price_cents) == ("my hook", 30, 180)
