"""Export to plain files and import give an equal box, also by way of a spreadsheet."""

import csv
import errno
import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError, BenchError, CannotBeDoneError, ManyFaultsError
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.stock.care import reading_in
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.cells import harmless, read_cell, row_check, row_check_by_place
from tacklebox.stock.care.export import WHOLE, export_box, tables, write_new
from tacklebox.stock.care.reading_in import import_box
from tacklebox.stock.care.schema import SCHEMA_VERSION
from tacklebox.stock.checks import CHECK
from tacklebox.stock.entering import NewItem, add_item
from tacklebox.stock.ledger import begin
from tacklebox.stock.notation import read_notation
from tests.copied_boxes import copy_of
from tests.rigs.boxes import DAY, make_box
from tests.stock.full_box import ODD, OWN_FILES, dump, make_full_box
from tests.stock.test_upgrade import old_box


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_full_box(tmp_path_factory.mktemp("made") / "box")


@pytest.fixture
def box(made: Path, tmp_path: Path) -> Box:
    return copy_of(made, tmp_path / "box")


def test_an_export_gives_an_equal_box(box: Box, tmp_path: Path) -> None:
    export_box(box, tmp_path / "out")
    other = open_box(tmp_path / "other")
    before = other.mark()
    rows = import_box(other, tmp_path / "out", Snapshot.from_json)
    assert [table for table, count in rows.items() if not count] == []  # none goes untested
    assert dump(other) == dump(box)
    assert other.mark().box == box.mark().box
    assert other.mark().stamp not in (box.mark().stamp, before.stamp)
    for name in OWN_FILES:
        assert (other.folder / name).read_bytes() == (box.folder / name).read_bytes()
    assert audit(other.database, Snapshot.from_json).faults == ()
    export_box(other, tmp_path / "again")
    for path in (tmp_path / "out").rglob("*.*"):
        assert (
            tmp_path / "again" / path.relative_to(tmp_path / "out")
        ).read_bytes() == path.read_bytes()


def as_shown(cell: str) -> str:
    """A cell that looks like a number is one to a spreadsheet, and is saved as it is shown."""
    try:
        return f"{float(cell):.15g}" if cell.isascii() else cell
    except ValueError:
        return cell


def respelt(
    folder: Path, encoding: str, separator: str, end: str, comma: bool, quoting: int
) -> None:
    """Save every table again as a spreadsheet would.

    Empty cells at a row's end it may leave out (published: StataCorp FAQ, "How Excel writes empty cells").
    """
    for path in folder.glob("*.csv"):
        with path.open(encoding="utf-8-sig", newline="") as file:
            rows = [[as_shown(c) for c in row] for row in csv.reader(file)]
        if comma:
            marks = {i for i, c in enumerate(rows[0]) if c.endswith(("_mm", "_g", "_kg", "_ml"))}
            rows = [
                [c.replace(".", ",") if i in marks else c for i, c in enumerate(r)] for r in rows
            ]
            for row in rows:
                while row and not row[-1]:
                    row.pop()
        else:
            rows = [[*row, ""] for row in rows]
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
    with box.writing() as session:
        action = begin(session, "add", DAY)
        for number, text in enumerate(ODD):
            plain = text.replace("🎣", "ß€ñ×")
            hook = read_notation(f"hook {10 + number % 3} pack 10")
            add_item(session, action, NewItem(hook, name=f"{plain}{number}", place=plain))
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


def test_an_export_into_the_folder_one_stands_in(
    box: Box, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It stays the same folder: it may be a disk of its own, or someone's place."""
    (tmp_path / "out").mkdir()
    number = (tmp_path / "out").stat().st_ino
    monkeypatch.chdir(tmp_path / "out")
    export_box(box, Path())
    assert Path("box.toml").stat().st_size
    assert (tmp_path / "out").stat().st_ino == number
    other = open_box(tmp_path / "other")
    import_box(other, tmp_path / "out")
    assert dump(other) == dump(box)


def exported_by_an_older_program(box: Path, folder: Path, version: int) -> None:
    """What export wrote of a box of that version, before rows had checks, from the box itself."""
    folder.mkdir()
    with closing(sqlite3.connect(box)) as connection:
        tables = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
        for (table,) in tables.fetchall():
            about = connection.execute(f'PRAGMA table_info("{table}")').fetchall()
            texts = [held == "VARCHAR" for _, _, held, *_ in about]
            rows = connection.execute(f'SELECT * FROM "{table}"')
            with (folder / f"{table}.csv").open("x", encoding="utf-8-sig", newline="") as file:
                to = csv.writer(file)
                to.writerow([column for _, column, *_ in about])
                for row in rows:
                    cells = zip(row, texts, strict=True)
                    to.writerow([harmless(c) if c and text else c for c, text in cells])
    (folder / "box.toml").write_text(f"version = {version}\n")


@pytest.mark.parametrize("version", range(1, SCHEMA_VERSION + 1))
def test_an_export_of_an_older_box_is_read_as_the_box_is_opened(
    tmp_path: Path, version: int
) -> None:
    old = old_box(tmp_path / "old", version)
    exported_by_an_older_program(old, tmp_path / "out", version)
    other = open_box(tmp_path / "other")
    import_box(other, tmp_path / "out", Snapshot.from_json)
    assert dump(other) == dump(open_box(old.parent))


def test_an_export_with_checks_of_an_older_box_is_read(box: Box, tmp_path: Path) -> None:
    """Columns that came since have no part in its checks."""
    came_since = ("section", "place", "points", "water_c", "record")
    export_box(box, tmp_path / "out")
    whole, path = tmp_path / "out" / "box.toml", tmp_path / "out" / "debrief.csv"
    whole.write_text(whole.read_text().replace(f"version = {SCHEMA_VERSION}", "version = 8"))
    table = next(table for table in tables() if table.name == "debrief")
    with path.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    for row in rows:
        for name in came_since:
            del row[name]
        held = {name: read_cell(table.columns[name], row[name]) for name in row if name != CHECK}
        row[CHECK] = row_check("debrief", held)
    with path.open("w", encoding="utf-8", newline="") as file:
        to = csv.DictWriter(file, list(rows[0]))
        to.writeheader()
        to.writerows(rows)
    other = open_box(tmp_path / "other")
    import_box(other, tmp_path / "out")
    of_debriefs = ('INSERT INTO "debrief" ', "INSERT INTO \"aswritten\" VALUES('debrief',")
    was, now = (
        [line for line in dump(one) if not line.startswith(of_debriefs)] for one in (box, other)
    )
    assert now == was
    kept = ", ".join(f'"{c.name}"' for c in table.columns if c.name not in came_since)
    was, now = (
        list(map(str, sqlite3.connect(one.database).execute(f"SELECT {kept} FROM debrief")))
        for one in (box, other)
    )
    assert now == was != []


def test_an_export_with_the_first_checks_is_read_and_guarded(tmp_path: Path) -> None:
    """They went by the place of a row's cells, and were those of some exports of schemas 8 and 9."""
    box = make_box(tmp_path / "box", "nylon 0.08 mm 0.7 kg 50 m", "hook 20 barbless spade pack 10")
    export_box(box, tmp_path / "out")
    whole, path = tmp_path / "out" / "box.toml", tmp_path / "out" / "item.csv"
    whole.write_text(whole.read_text().replace(f"version = {SCHEMA_VERSION}", "version = 9"))
    table = next(table for table in tables() if table.name == "item")
    with path.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    for row in rows:
        held = [read_cell(table.columns[name], row[name]) for name in row if name != CHECK]
        row[CHECK] = row_check_by_place("item", held)
    for place in ("drawer 2", rows[0]["place"]):
        rows[1]["place"] = place
        with path.open("w", encoding="utf-8", newline="") as file:
            to = csv.DictWriter(file, list(rows[0]))
            to.writeheader()
            to.writerows(rows)
        other = open_box(tmp_path / f"other {place}")
        if place:
            with pytest.raises(ManyFaultsError, match="not as it was exported"):
                import_box(other, tmp_path / "out")
            continue
        import_box(other, tmp_path / "out")
        assert dump(other) == dump(box)


def test_a_newer_export_is_refused(box: Box, tmp_path: Path) -> None:
    export_box(box, tmp_path / "out")
    whole = tmp_path / "out" / "box.toml"
    other = open_box(tmp_path / "other")
    for version in (str(SCHEMA_VERSION + 1), "0", "true", '"1"'):
        whole.write_text(f"version = {version}\n")
        with pytest.raises(CannotBeDoneError, match="this program knows"):
            import_box(other, tmp_path / "out")
    for mark in ("1", '"box"', f'"{"G" * 32}"'):
        whole.write_text(f"version = {SCHEMA_VERSION}\nbox = {mark}\n")
        with pytest.raises(AskedWronglyError, match="no mark of a box"):
            import_box(other, tmp_path / "out")


def test_an_export_cut_off_is_none(box: Box, tmp_path: Path) -> None:
    """Its last file says that it is whole."""
    export_box(box, tmp_path / "out")
    (tmp_path / "out" / "box.toml").unlink()
    with pytest.raises(AskedWronglyError, match="no folder that"):
        import_box(open_box(tmp_path / "other"), tmp_path / "out")


def test_an_own_file_that_no_import_would_read_is_told_at_the_export(
    box: Box, tmp_path: Path
) -> None:
    (box.folder / "venues" / "sea.toml").write_text("#" * 70_000)
    with pytest.raises(AskedWronglyError, match=r"sea\.toml: the file is over 64 kB.* Move it"):
        export_box(box, tmp_path / "out")
    assert not (tmp_path / "out").exists()


def test_an_import_that_fails_at_a_file_leaves_nothing(
    box: Box, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    export_box(box, tmp_path / "out")
    other = open_box(tmp_path / "other")
    empty = dump(other)

    def full(path: Path, data: bytes, begun: list[Path]) -> None:
        write_new(path, data[:3], begun)
        if path.stem == "pond":
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as patched:
        patched.setattr(reading_in, "write_new", full)
        with pytest.raises(CannotBeDoneError, match=r"No space left.* Nothing was imported\."):
            import_box(other, tmp_path / "out")
    assert dump(other) == empty
    assert list(other.folder.rglob("*.toml")) == []
    import_box(other, tmp_path / "out")
    assert dump(other) == dump(box)


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
    ("table", "edit", "expected"),
    [
        ("movement", cell(4, "amount", "-5"), "movement.csv line 4: -5 of item 3 would be on hand"),
        (
            "movement",
            cell(4, "amount", "11"),
            "item.csv line 4: on_hand is 47, the movements sum to 48",
        ),
        ("movement", cell(4, "amount", "ten"), 'movement.csv line 4: amount: "ten" is no number'),
        ("movement", cell(4, "item_id", "99"), "line 4: it moves no item that is in item.csv"),
        ("movement", lambda rows: rows[5].append("x"), "line 6: 9 cells under 8"),
        (
            "movement",
            lambda rows: rows[5].clear() or rows[5].append("1"),
            "item_id: .* is no number",
        ),
        ("movement", cell(4, "amount", "1_0"), "amount: .* is no number"),
        ("tieduse", cell(2, "comes_back", "7"), 'comes_back: "7" is no number'),
        ("action", cell(2, "written_at", "00:00.1"), 'written_at: "00:00.1" is no date and time'),
        ("item", cell(3, "added_on", "3/5/26"), 'item.csv line 3: added_on: "3/5/26" is no date'),
        ("item", cell(3, "pack_size", str(2**70)), "pack_size: .* is no number"),
        ("line", cell(2, "diameter_mm", "nan"), "diameter_mm: .* is no number"),
        ("item", cell(3, "name", "nylon 0.08 mm 0.7 kg"), "is that of line 2, too"),
        ("tieduse", cell(2, "tied_id", "77"), "points at a row of tied that is not there"),
        ("tied", cell(2, "snapshot", "{}"), "what was tied cannot be read"),
        ("tieduse", lambda rows: rows.pop(), "its rigs used"),
        ("action", lambda rows: rows[0].reverse(), None),
        ("hook", lambda rows: rows[0].pop(), "columns"),
    ],
)
def test_an_import_that_is_wrong_is_refused_whole(
    box: Box, tmp_path: Path, table: str, edit: Edit, expected: str | None
) -> None:
    export_box(box, tmp_path / "out")
    whole = tmp_path / "out" / "box.toml"
    whole.write_text(whole.read_text().partition("[rows]")[0])
    path = tmp_path / "out" / f"{table}.csv"
    with path.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file))
    for row in rows[1:]:
        row[-1] = ""  # it is meant
    edit(rows)
    if expected is None:
        rows[1:] = [list(reversed(row)) for row in rows[1:]]  # columns may stand in any order
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows(rows)
    other = open_box(tmp_path / "other")
    if expected is None:
        import_box(other, tmp_path / "out")
        assert dump(other) == dump(box)
        return
    empty = dump(other)
    with pytest.raises(BenchError, match=expected):
        import_box(other, tmp_path / "out")
    assert dump(other) == empty
    assert list(other.recipes.iterdir()) == []


def test_each_row_that_goes_below_nothing_is_named(box: Box, tmp_path: Path) -> None:
    export_box(box, tmp_path / "out")
    path = tmp_path / "out" / "movement.csv"
    text = path.read_text(encoding="utf-8-sig").splitlines()
    for line in (2, 4):
        cells = text[line - 1].split(",")
        cells[3], cells[-1] = "-1", ""
        text[line - 1] = ",".join(cells)
    path.write_text("\n".join(text))
    with pytest.raises(ManyFaultsError) as error:
        import_box(open_box(tmp_path / "other"), tmp_path / "out")
    assert error.value.faults[:2] == (
        "movement.csv line 2: -1 of item 1 would be on hand.",
        "movement.csv line 4: -1 of item 3 would be on hand.",
    )


def test_no_row_with_a_cell_that_differs_is_taken(box: Box, tmp_path: Path) -> None:
    """In each row of each table another cell: fifty are told, the rest counted."""
    export_box(box, tmp_path / "out")
    changed, places = 0, set()
    for path in (tmp_path / "out").glob("*.csv"):
        with path.open(encoding="utf-8-sig", newline="") as file:
            heading, *rows = csv.reader(file)
        for number, row in enumerate(rows):
            at = number % (len(row) - 1)  # all but the check
            is_time = heading[at] == "written_at"  # of which no seventh digit is read
            row[at] = row[at].replace("20", "19", 1) if is_time else f"{row[at]}7"
            places.add((path.stem, heading[at]))
        changed += len(rows)
        with path.open("w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows([heading, *rows])
    assert len(places) > 80
    other = open_box(tmp_path / "other")
    with pytest.raises(ManyFaultsError) as refused:
        import_box(other, tmp_path / "out")
    *fifty, rest = refused.value.faults
    assert (len(fifty), rest) == (50, f"and {changed - 50} more")


def test_an_export_whose_first_file_is_a_pipe_is_none(box: Box, tmp_path: Path) -> None:
    export_box(box, tmp_path / "out")
    (tmp_path / "out" / WHOLE).unlink()
    os.mkfifo(tmp_path / "out" / WHOLE)
    with pytest.raises(AskedWronglyError, match="no folder that a box was exported to"):
        import_box(open_box(tmp_path / "new"), tmp_path / "out")


def test_no_export_at_all(tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="no folder that"):
        import_box(open_box(tmp_path / "box"), tmp_path)
