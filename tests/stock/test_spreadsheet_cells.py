"""Cells of an export as LibreOffice 7.4 was seen to save them, in English and German (the files of
``spreadsheets``, written by ``python -m tests.long.spreadsheets``; run anew by the long set)."""

import csv
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tacklebox.errors import ManyFaultsError
from tacklebox.stock.care.box import open_box
from tacklebox.stock.care.cells import harmless, read_text, read_text_of_once, row_check, write_cell
from tacklebox.stock.care.export import export_box
from tacklebox.stock.care.reading_in import import_box
from tacklebox.stock.care.waiting import Progress
from tacklebox.stock.csv_file import read_cells
from tests.long.spreadsheets import FIGURES, KEPT
from tests.rigs.boxes import add, make_box, on_hand
from tests.stock.full_box import ODD, dump

SAVED = sorted(KEPT.glob("*.csv"))


@pytest.mark.parametrize("path", SAVED, ids=lambda path: path.stem)
def test_texts_and_figures_come_back_as_they_were(path: Path) -> None:
    _, *rows = read_cells(path)
    texts, figures = rows[: len(ODD)], rows[len(ODD) :]
    assert [read_text(cells[1]) for _, cells in texts] == list(ODD)
    assert [read_text(cells[1]) for _, cells in figures] == [
        read_text(write_cell(figure)) for figure in FIGURES
    ]


def test_written_as_they_are_they_would_not() -> None:
    """What the marks are for: 0.125 becomes 125, (5) becomes −5, and €5 becomes 5."""
    (path,) = (path for path in SAVED if path.stem == "de-DE-dates")
    _, *rows = read_cells(path)
    plain = [cells[2] for _, cells in rows]
    became = {str(was): now for was, now in zip([*ODD, *FIGURES], plain, strict=True)}
    assert (became["0.125"], became["(5)"], became["€5"]) == ("125", "-5", "5")
    assert (became["0012"], became["1E+5"], became["5. Mai"]) == ("12", "100000", "05.05.2026")


@given(st.text() | st.from_regex(r"'{0,3}[=+\-@\t\r\\].{0,5}"))
@example("'")
@example("'=")
@example("\\000d")
def test_any_text_comes_back(text: str) -> None:
    cell = write_cell(text)
    assert read_text(cell) == text
    assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))
    assert "\r" not in cell
    assert read_text_of_once(harmless(text)) == text


@given(st.floats(allow_nan=False, allow_infinity=False) | st.integers())
def test_any_figure_comes_back(figure: float) -> None:
    """A whole number of up to fifteen digits stands as it is, all else as text."""
    cell = write_cell(figure)
    assert float(read_text(cell)) == float(figure)
    assert cell.startswith("'") or (str(int(cell)) == cell and len(cell.lstrip("-")) <= 15)


@given(st.dictionaries(st.sampled_from("abcdef"), st.integers(0, 99), min_size=2), st.data())
def test_a_check_tells_what_changed_and_what_was_swapped(
    cells: dict[str, int], data: st.DataObject
) -> None:
    one, other = data.draw(st.permutations(sorted(cells)))[:2]
    changed = {**cells, one: cells[one] + data.draw(st.integers(1, 1000))}
    assert row_check("item", changed) != row_check("item", cells)
    assert row_check("tied", cells) != row_check("item", cells)
    assert row_check("item", dict(reversed(cells.items()))) == row_check("item", cells)
    swapped = {**cells, one: cells[other], other: cells[one]}
    assert (row_check("item", swapped) == row_check("item", cells)) is (cells[one] == cells[other])


@pytest.fixture
def out(tmp_path: Path) -> Path:
    """An export of a box with three items whose names a spreadsheet would change."""
    box = make_box(tmp_path / "box", "hook 18 pack 10")
    for name in ("5%", "0.05", "Mar-05"):
        add(box, "olivette 0.125 g pack 2" if name == "5%" else "hook 20 pack 10", name=name)
    export_box(box, tmp_path / "out")
    return tmp_path / "out"


def change(path: Path, how: Callable[[str], str]) -> None:
    """Each cell as ``how`` makes it, saved again."""
    with path.open(encoding="utf-8-sig", newline="") as file:
        rows = [[how(cell) for cell in row] for row in csv.reader(file)]
    with path.open("w", encoding="utf-8-sig", newline="") as file:
        csv.writer(file).writerows(rows)


def test_each_row_that_is_not_as_it_was_exported_is_told(out: Path, tmp_path: Path) -> None:
    change(out / "item.csv", lambda cell: "01/03/2005" if cell == "'Mar-05" else cell)
    change(out / "weight.csv", lambda cell: "125" if cell == "'0.125" else cell)
    with pytest.raises(ManyFaultsError) as refused:
        import_box(open_box(tmp_path / "other"), out)
    meant = "If you meant it, empty its cell under check."
    assert refused.value.faults == (
        f'item.csv line 5: it is not as it was exported; look at name "01/03/2005". {meant}',
        f"weight.csv line 2: it is not as it was exported. {meant}",
    )


def test_two_names_that_became_one_are_told(out: Path, tmp_path: Path) -> None:
    change(out / "item.csv", lambda cell: "0.05" if cell == "'5%" else cell)
    with pytest.raises(ManyFaultsError) as refused:
        import_box(open_box(tmp_path / "other"), out)
    assert refused.value.faults[-1] == (
        'item.csv line 4: its name "0.05" is that of line 3, too; two items in use cannot share one.'
    )


def test_a_row_that_is_changed_on_purpose_is_taken(out: Path, tmp_path: Path) -> None:
    rows = (out / "item.csv").read_text(encoding="utf-8-sig").splitlines()
    assert rows[4].count("'Mar-05") == 1
    rows[4] = rows[4].replace("'Mar-05", "spring hooks").rpartition(",")[0] + ","
    (out / "item.csv").write_text("\n".join(rows), encoding="utf-8")
    other = open_box(tmp_path / "other")
    import_box(other, out)
    assert list(on_hand(other)) == ["hook 18", "5%", "0.05", "spring hooks"]


def test_rows_that_are_gone_are_told(out: Path, tmp_path: Path) -> None:
    path = out / "action.csv"
    path.write_text("\n".join(path.read_text(encoding="utf-8-sig").splitlines()[:-1]))
    with pytest.raises(ManyFaultsError, match=r"action\.csv: it has 3 rows, 4 were exported"):
        import_box(open_box(tmp_path / "other"), out)


def test_a_mark_that_a_spreadsheet_took_for_its_own_does_no_harm(out: Path, tmp_path: Path) -> None:
    for path in out.glob("*.csv"):
        change(path, lambda cell: "0,125" if cell == "'0.125" else cell.removeprefix("'"))
    assert ',"0,125",' in (out / "weight.csv").read_text()
    other = open_box(tmp_path / "other")
    import_box(other, out)
    assert list(on_hand(other)) == ["hook 18", "5%", "0.05", "Mar-05"]


def test_an_import_that_was_broken_off_is_begun_again(out: Path, tmp_path: Path) -> None:
    """What it left: an empty box with own files, the last of them half written."""
    (out / "recipes").mkdir()
    for name in ("a", "b", "c"):
        (out / "recipes" / f"{name}.toml").write_text(f'name = "{name}"\n')
    other = open_box(tmp_path / "other")
    (other.recipes / "a.toml").write_text('name = "a"\n')
    (other.recipes / "b.toml").write_text("na")
    import_box(other, out)
    assert [p.read_text() for p in sorted(other.recipes.iterdir())] == [
        f'name = "{name}"\n' for name in ("a", "b", "c")
    ]
    mine = open_box(tmp_path / "mine")
    (mine.recipes / "b.toml").write_text('name = "mine"\n')
    empty = dump(mine)
    with pytest.raises(BaseException, match="not empty"):
        import_box(mine, out)
    assert (mine.recipes / "b.toml").read_text() == 'name = "mine"\n'
    assert dump(mine) == empty


def test_a_long_import_says_how_far_it_is(
    out: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    import_box(open_box(tmp_path / "short"), out, notice=said.append)
    assert said == []
    monkeypatch.setattr(Progress, "every_s", 0.0)
    import_box(open_box(tmp_path / "long"), out, notice=said.append)
    assert said[0] == "Reading action.csv, line 2…"
    assert {"Writing movement, row 4 of 4…", "Looking through what was read…"} <= set(said)
