"""Export to plain files and import give an equal box, also by way of a spreadsheet."""

import csv
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError, BenchError, CannotBeDoneError, ManyFaultsError
from tacklebox.rigs.snapshot import Snapshot
from tacklebox.rigs.tie import tie
from tacklebox.rigs.tied import take_apart
from tacklebox.stock.audit import audit
from tacklebox.stock.box import Box, open_box
from tacklebox.stock.ledger import begin, find, move
from tacklebox.stock.measured import record_pull
from tacklebox.stock.portable import as_it_was, export_box, harmless, import_box
from tacklebox.stock.tables import Why
from tacklebox.stock.undo import undo_last
from tests.rigs.boxes import DAY, add, canal_rig, make_box

ODD = (
    '=HYPERLINK("x")', "+44", "-1+1", "@SUM(1)", "\tx", "\rx", "'=1", "''-x", "'tis", "a,b;c",
    'say "so"', "two\nlines", "two\r\nlines", "é🎣", "0012", "1,5", " spaced ", "",
)  # fmt: skip


@pytest.fixture
def box(tmp_path: Path) -> Box:
    box = make_box(tmp_path / "box")
    for number, text in enumerate(ODD):
        add(box, f"hook {10 + number % 3} pack 10", name=f"{text}{number}", place=text)
        with box.writing() as session:
            item = find(session, "3")
            move(session, begin(session, text or "x", DAY), item, 1, Why.CORRECTED, text)
    take_apart(box, [rig.code for rig in tie(box, canal_rig(), 1, DAY).rigs], DAY)
    undo_last(box, DAY)
    with box.writing() as session:
        record_pull(session, find(session, "2"), 1.5, "", DAY)
    (box.recipes / "my-own.toml").write_text('name = "mine"\n', encoding="utf-8")
    return box


def dump(box: Box) -> list[str]:
    with closing(sqlite3.connect(box.database)) as connection:
        return sorted(connection.iterdump())


def test_an_export_gives_an_equal_box(box: Box, tmp_path: Path) -> None:
    export_box(box, tmp_path / "out")
    other = open_box(tmp_path / "other")
    rows = import_box(other, tmp_path / "out")
    assert rows["item"] == 10 + len(ODD)
    assert dump(other) == dump(box)
    assert (other.recipes / "my-own.toml").read_text() == 'name = "mine"\n'
    assert audit(other.database, Snapshot.from_json).faults == ()


def respelt(
    folder: Path, encoding: str, separator: str, end: str, comma: bool, quoting: int
) -> None:
    """Save every table again as a spreadsheet would."""
    for path in folder.glob("*.csv"):
        with path.open(encoding="utf-8-sig", newline="") as file:
            rows = list(csv.reader(file))
        if comma:
            marks = {i for i, c in enumerate(rows[0]) if c.endswith(("_mm", "_g", "_kg", "_ml"))}
            rows = [
                [c.replace(".", ",") if i in marks else c for i, c in enumerate(r)] for r in rows
            ]
        with path.open("w", encoding=encoding, newline="", errors="replace") as file:
            csv.writer(
                file, delimiter=separator, lineterminator=end, quoting=quoting  # type: ignore[arg-type]
            ).writerows(rows)  # fmt: skip


@pytest.mark.parametrize(
    ("encoding", "separator", "end", "comma", "quoting"),
    [
        ("utf-8", ",", "\n", False, csv.QUOTE_ALL),
        ("utf-8-sig", ";", "\r\n", True, csv.QUOTE_MINIMAL),
        ("utf-8", "\t", "\r\n", True, csv.QUOTE_ALL),
        ("utf-8", ",", "\r", False, csv.QUOTE_ALL),
        ("utf-16", "\t", "\r\n", True, csv.QUOTE_MINIMAL),
    ],
)
def test_an_export_saved_by_a_spreadsheet_gives_an_equal_box(
    box: Box, tmp_path: Path, encoding: str, separator: str, end: str, comma: bool, quoting: int
) -> None:
    export_box(box, tmp_path / "out")
    respelt(tmp_path / "out", encoding, separator, end, comma, quoting)
    other = open_box(tmp_path / "other")
    import_box(other, tmp_path / "out")
    assert dump(other) == dump(box)


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_an_export_saved_in_windows_1252_gives_an_equal_box(tmp_path: Path, separator: str) -> None:
    """What that encoding can hold comes back; of an emoji nothing could."""
    box = make_box(tmp_path / "box")
    for number, text in enumerate(ODD):
        plain = text.replace("🎣", "ß€ñ×")
        add(box, f"hook {10 + number % 3} pack 10", name=f"{plain}{number}", place=plain)
    export_box(box, tmp_path / "out")
    respelt(tmp_path / "out", "cp1252", separator, "\r\n", separator != ",", csv.QUOTE_MINIMAL)
    assert b"\xdf\x80\xf1\xd7" in (tmp_path / "out" / "item.csv").read_bytes()
    other = open_box(tmp_path / "other")
    import_box(other, tmp_path / "out")
    assert dump(other) == dump(box)


def test_no_cell_of_an_export_is_run(box: Box, tmp_path: Path) -> None:
    export_box(box, tmp_path / "out")
    for path in (tmp_path / "out").glob("*.csv"):
        with path.open(encoding="utf-8-sig", newline="") as file:
            for row in csv.reader(file):
                for cell in row:
                    runs = cell.startswith(("=", "+", "-", "@", "\t", "\r"))
                    assert not runs or float(cell) < 0, (path.name, cell)


@given(st.text() | st.from_regex(r"'{0,3}[=+\-@\t\r].{0,5}"))
@example("'")
@example("'=")
def test_harmless_text_comes_back(text: str) -> None:
    assert as_it_was(harmless(text)) == text
    assert not harmless(text).startswith(("=", "+", "-", "@", "\t", "\r"))


def test_a_folder_that_is_not_empty_is_refused(box: Box, tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "mine").write_text("x")
    with pytest.raises(AskedWronglyError, match="something there already"):
        export_box(box, tmp_path / "out")
    assert [p.name for p in (tmp_path / "out").iterdir()] == ["mine"]


def test_a_link_out_of_the_box_is_not_exported(box: Box, tmp_path: Path) -> None:
    (tmp_path / "secret.toml").write_text("secret")
    (box.recipes / "link.toml").symlink_to(tmp_path / "secret.toml")
    with pytest.raises(AskedWronglyError, match="link to a file outside"):
        export_box(box, tmp_path / "out")
    assert not (tmp_path / "out").exists()


def test_a_box_that_is_not_empty_is_refused(box: Box, tmp_path: Path) -> None:
    export_box(box, tmp_path / "out")
    before = dump(box)
    with pytest.raises(CannotBeDoneError, match="not empty"):
        import_box(box, tmp_path / "out")
    assert dump(box) == before


Edit = Callable[[list[list[str]]], None]


def cell(line: int, column: str, value: str) -> Edit:
    def edit(rows: list[list[str]]) -> None:
        rows[line - 1][rows[0].index(column)] = value

    return edit


@pytest.mark.parametrize(
    ("table", "edit", "told"),
    [
        ("movement", cell(4, "amount", "-5"), "movement.csv line 4: -5 of item 3 would be on hand"),
        ("movement", cell(4, "amount", "11"), "item.csv line 4: on_hand is 2"),
        ("movement", cell(4, "amount", "ten"), 'movement.csv line 4: amount: "ten" is no number'),
        ("movement", cell(4, "item_id", "99"), "line 4: it moves no item that is in item.csv"),
        ("movement", lambda rows: rows[5].pop(), "line 6: 6 cells under 7"),
        ("item", cell(3, "added_on", "3/5/26"), 'item.csv line 3: added_on: "3/5/26" is no date'),
        ("item", cell(3, "pack_size", str(2**70)), "pack_size: .* is no number"),
        ("line", cell(2, "diameter_mm", "nan"), "diameter_mm: .* is no number"),
        ("item", cell(3, "name", "nylon 0.08 mm 0.7 kg"), "UNIQUE"),
        ("tieduse", cell(2, "tied_id", "77"), "points at a row of tied that is not there"),
        ("tied", cell(2, "snapshot", "{}"), "what was tied cannot be read"),
        ("tieduse", lambda rows: rows.pop(), "its rigs used"),
        ("action", lambda rows: rows[0].reverse(), None),
        ("hook", lambda rows: rows[0].pop(), "columns"),
    ],
)
def test_an_import_that_is_wrong_is_refused_whole(
    box: Box, tmp_path: Path, table: str, edit: Edit, told: str | None
) -> None:
    export_box(box, tmp_path / "out")
    path = tmp_path / "out" / f"{table}.csv"
    with path.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file))
    edit(rows)
    if told is None:
        rows[1:] = [list(reversed(row)) for row in rows[1:]]  # columns may stand in any order
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows(rows)
    other = open_box(tmp_path / "other")
    if told is None:
        import_box(other, tmp_path / "out")
        assert dump(other) == dump(box)
        return
    empty = dump(other)
    with pytest.raises(BenchError, match=told):
        import_box(other, tmp_path / "out")
    assert dump(other) == empty
    assert list(other.recipes.iterdir()) == []


def test_each_row_that_goes_below_nothing_is_named(box: Box, tmp_path: Path) -> None:
    export_box(box, tmp_path / "out")
    path = tmp_path / "out" / "movement.csv"
    text = path.read_text(encoding="utf-8-sig").splitlines()
    for line in (2, 4):
        cells = text[line - 1].split(",")
        cells[3] = "-1"
        text[line - 1] = ",".join(cells)
    path.write_text("\n".join(text))
    with pytest.raises(ManyFaultsError) as error:
        import_box(open_box(tmp_path / "other"), tmp_path / "out")
    assert error.value.faults[:2] == (
        "movement.csv line 2: -1 of item 1 would be on hand.",
        "movement.csv line 4: -1 of item 3 would be on hand.",
    )


def test_no_export_at_all(tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="no folder that"):
        import_box(open_box(tmp_path / "box"), tmp_path)
