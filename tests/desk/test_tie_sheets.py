"""Tie sheets as the desk answers: totals and a block for each recipe, to any stream."""

import io
from pathlib import Path

import pytest

from tacklebox.desk import Desk, tie_sheets
from tacklebox.errors import AskedWronglyError
from tests.rigs.boxes import make_box


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    make_box(tmp_path / "box").engine.dispose()
    return Desk(tmp_path / "box")


def test_several_recipes_share_a_page_and_its_totals(desk: Desk) -> None:
    sheets = io.BytesIO()
    wanted = {"pole-canal-shot": "2", "hooklength-fine": "4"}
    printed = tie_sheets.print_sheets(desk, wanted, {"length": "15 cm"}, sheets, on="2026-03-05")
    assert (printed.pages, printed.unprintable) == (1, "")
    assert sheets.getvalue().startswith(b"%PDF")


@pytest.mark.parametrize(
    ("wanted", "choices", "page", "field"),
    [
        ({"hooklength-fine": "x"}, {}, "a4", "wanted.hooklength-fine"),
        ({"hooklength-fine": "501"}, {}, "a4", "wanted.hooklength-fine"),
        ({"hooklength-fine": "9" * 5000}, {}, "a4", "wanted.hooklength-fine"),
        ({"hooklength-fine": "2"}, {"dpeth": "2 m"}, "a4", "set.dpeth"),
        ({"hooklength-fine": "2"}, {}, "a55", "page"),
    ],
)
def test_a_fault_names_the_field(
    desk: Desk, wanted: dict[str, str], choices: dict[str, str], page: str, field: str
) -> None:
    sheets = io.BytesIO()
    with pytest.raises(AskedWronglyError) as refused:
        tie_sheets.print_sheets(desk, wanted, choices, sheets, page=page)
    assert refused.value.field == field
    assert sheets.getvalue() == b""
