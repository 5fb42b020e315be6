"""The test page, and labels put right by what was measured on it."""

from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError, ManyFaultsError
from tacklebox.printing.labels.papers import Paper, Printer, keep_measured, load_paper, parse_paper
from tacklebox.printing.labels.printer_page import print_test_page
from tacklebox.printing.labels.sheets import print_labels
from tests.long.length import so_many
from tests.printing.reading import MM, letters_of
from tests.printing.samples import FEEDER, WAGGLER

STICKY = load_paper("a4-65")


def lines_of(path: Path) -> list[dict[str, Any]]:
    with pdfplumber.open(path) as pdf:
        return list(pdf.pages[0].lines)


def test_lines_and_rulers_are_where_they_are_meant(tmp_path: Path) -> None:
    pdf = tmp_path / "page.pdf"
    print_test_page(STICKY, pdf)
    lines = lines_of(pdf)
    upright = [x for x in lines if x["bottom"] - x["top"] > 296 * MM]
    level = [x for x in lines if x["x1"] - x["x0"] > 209 * MM]
    assert [round(x["x0"] / MM, 3) for x in upright] == [20]
    assert [round(x["top"] / MM, 3) for x in level] == [20]
    ticks = sorted(x["x0"] / MM for x in lines if abs(x["bottom"] / MM - 20) < 0.01 < x["height"])
    assert len(ticks) == 101
    assert ticks[-1] - ticks[0] == pytest.approx(100, abs=0.01)


def test_every_label_shows_its_corners(tmp_path: Path) -> None:
    pdf = tmp_path / "page.pdf"
    print_test_page(STICKY, pdf)
    ends = {
        (round(x[side] / MM, 1), round(x[level] / MM, 1))
        for x in lines_of(pdf)
        for side in ("x0", "x1")
        for level in ("top", "bottom")
    }
    for place in range(STICKY.places):
        left, low = STICKY.corner_of(place)
        top = 297 - low - 21.2
        for x in (left, left + 38.1):
            for y in (top, top + 21.2):
                near = (abs(x - a) < 0.11 and abs(y - b) < 0.11 for a, b in ends)
                assert any(near), (x, y)


def test_tape_has_no_test_page(tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="too small for the test page"):
        print_test_page(load_paper("tape-24"), tmp_path / "page.pdf")


@settings(max_examples=so_many(15, 8), deadline=None)
@given(st.floats(-3, 3), st.floats(-3, 3), st.floats(97, 103), st.floats(97, 103))
def test_labels_come_out_right_on_a_printer_that_is_out(
    tmp_path_factory: pytest.TempPathFactory, right: float, below: float, across: float, down: float
) -> None:
    """The printer shifts and stretches; what was measured undoes it, wherever a letter lies."""
    folder = tmp_path_factory.mktemp("out")
    measured = Printer(
        left=right + 20 * across / 100, top=below + 20 * down / 100, across=across, down=down
    )
    put_right = STICKY.model_copy(update={"printer": measured})
    for paper, name in ((STICKY, "plain"), (put_right, "right")):
        print_labels([WAGGLER, FEEDER], paper, folder / f"{name}.pdf", start=60)
    meant, drawn = (letters_of(folder / f"{name}.pdf")[0] for name in ("plain", "right"))
    assert len(meant) == len(drawn) > 100
    for wanted, letter in zip(meant, drawn, strict=True):
        printed_x = right + letter["x0"] / MM * across / 100
        printed_y = below + letter["bottom"] / MM * down / 100
        assert printed_x == pytest.approx(wanted["x0"] / MM, abs=0.05)
        assert printed_y == pytest.approx(wanted["bottom"] / MM, abs=0.05)


def test_what_was_measured_is_kept_in_the_boxs_own_paper(tmp_path: Path) -> None:
    path = keep_measured(
        "a4-65", tmp_path, {"left": 20.4, "top": 19.7, "across": 99.5, "down": 100.2}
    )
    measured = Printer(left=20.4, top=19.7, across=99.5, down=100.2)
    assert path == tmp_path / "a4-65.toml"
    assert load_paper("a4-65", tmp_path).printer == measured
    assert "a millimetre matters" in path.read_text()  # what the angler wrote stays
    keep_measured("a4-65", tmp_path, {"left": 20.1})
    assert load_paper("a4-65", tmp_path).printer == Printer(left=20.1)
    assert path.read_text().count("[printer]") == 1
    assert load_paper("a4-65").printer == Printer()


def test_a_printer_that_is_out_too_far_was_measured_wrongly(tmp_path: Path) -> None:
    with pytest.raises(ManyFaultsError, match="left is 40 mm where 20 mm is meant"):
        keep_measured("a4-65", tmp_path, {"left": 40})
    with pytest.raises(ManyFaultsError, match=r"printer\.top"):
        keep_measured("a4-65", tmp_path, {"top": -1})
    with pytest.raises(AskedWronglyError, match="no paper"):
        keep_measured("nowhere", tmp_path, {})
    assert list(tmp_path.iterdir()) == []
    whole = _text() + '\n[printer]\nacross = "85 mm"\n'
    with pytest.raises(ManyFaultsError, match="across is 85 mm where 100 mm is meant"):
        parse_paper(whole, "mine")


def _text() -> str:
    return """
name = "Mine"
page = { width = "210 mm", height = "297 mm" }
label = { width = "60 mm", height = "30 mm" }
grid = { columns = 3, rows = 9 }
"""


def test_tables_may_be_written_in_one_line() -> None:
    paper = parse_paper(_text(), "mine")
    assert isinstance(paper, Paper)
    assert paper.places == 27
