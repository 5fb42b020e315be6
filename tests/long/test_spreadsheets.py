"""An export that a real spreadsheet saved again, in two countries, comes back equal; so does what was
exported of that once more."""

from pathlib import Path

import pytest

from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.export import export_box
from tacklebox.stock.care.reading_in import import_box
from tests.copied_boxes import copy_of
from tests.long.length import WHOLE
from tests.long.spreadsheets import SAVINGS, SOFFICE, Saving, save_again
from tests.stock.full_box import dump, make_full_box

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
