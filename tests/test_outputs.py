"""Files written whole or not at all, never over what is of another sort, and never over a box's own."""

import io
import os
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest

from tacklebox.boxfolder import DATABASE_NAME, SET_ASIDE
from tacklebox.errors import AskedWronglyError, BenchError, CannotBeDoneError
from tacklebox.outputs import PDF, SVG, Form, Output, csv_with, refuse_own, try_outputs, write_aside
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.copies import copy_database
from tacklebox.stock.care.export import export_box

CSV = csv_with(["no.", "item", "what for"])


def make_pipe(path: Path) -> None:
    os.mkfifo(path)


def make_link(path: Path) -> None:
    (path.parent / "other.pdf").write_text("mine", encoding="utf-8")
    path.symlink_to(path.parent / "other.pdf")


def make_dangling_link(path: Path) -> None:
    path.symlink_to(path.parent / "nowhere.pdf")


def as_it_is(folder: Path) -> dict[str, tuple[object, ...]]:
    """Every file below a folder: what it is, and what is in it."""
    return {
        str(path.relative_to(folder)): (
            path.lstat().st_mode,
            path.lstat().st_ino,
            path.read_bytes() if path.is_file() and not path.is_symlink() else None,
        )
        for path in sorted(folder.rglob("*"))
    }


@pytest.mark.parametrize(
    ("make", "what"),
    [
        (make_pipe, "a device or pipe"),
        (make_link, "a link"),
        (make_dangling_link, "a link"),
        (Path.mkdir, "a folder"),
    ],
)
@pytest.mark.parametrize("overwrite", [True, False])
def test_what_is_no_plain_file_is_left_as_it_is(
    tmp_path: Path, make: Callable[[Path], object], what: str, overwrite: bool
) -> None:
    target = tmp_path / "labels.pdf"
    make(target)
    before = as_it_is(tmp_path)
    with (
        pytest.raises(AskedWronglyError) as error,
        write_aside(target, PDF, overwrite=overwrite) as aside,
    ):
        aside.write(b"new")
    assert str(error.value) == f"{target}: this is {what}. Name a file."
    assert as_it_is(tmp_path) == before


def test_a_device_is_refused() -> None:
    with (
        pytest.raises(AskedWronglyError, match="a device or pipe"),
        write_aside(Path(os.devnull), PDF, overwrite=True),
    ):
        pytest.fail("it was let in")
    assert Path(os.devnull).is_char_device()


def test_an_older_file_is_replaced_only_when_asked(tmp_path: Path) -> None:
    target = tmp_path / "labels.pdf"
    target.write_bytes(b"%PDF-1.4 older")
    with (
        pytest.raises(AskedWronglyError, match="left as it is") as fault,
        write_aside(target, PDF, overwrite=False),
    ):
        pytest.fail("it was let in")
    assert fault.value.see == "output.replace"
    with write_aside(target, PDF, overwrite=True) as aside:
        aside.write(b"%PDF-1.4 new")
    assert target.read_bytes() == b"%PDF-1.4 new"
    assert list(tmp_path.iterdir()) == [target]


@pytest.mark.parametrize(
    ("form", "older", "goes"),
    [
        (PDF, b"%PDF-1.7\n%\xe2\xe3", True),
        (PDF, b"", True),  # nothing is lost with it
        (PDF, b"my words", False),
        (PDF, b" %PDF-1.7", False),
        (PDF, b"SQLite format 3\0", False),
        (PDF, b"<svg xmlns='http://www.w3.org/2000/svg'/>", False),
        (SVG, b"<svg xmlns='http://www.w3.org/2000/svg'/>", True),
        (SVG, b'\xef\xbb\xbf<?xml version="1.0"?>\n<!-- drawn --><svg/>', True),
        (SVG, b'<?xml version="1.0"?><html/>', False),
        (SVG, b"see <svg>", False),
        (SVG, b"%PDF-1.7", False),
        (CSV, b"no.,item,what for\r\n1,hook,\r\n", True),
        (CSV, b"\xef\xbb\xbfno.;item;what for\r\n1;hook;\r\n", True),
        (CSV, b'"no."\t"item"\t"what for"\n', True),
        (CSV, b"no.,item\r\n1,hook\r\n", False),
        (CSV, b"my,own,table\r\n", False),
        (CSV, b"\xff\xfen\0o\0.\0", False),
        (CSV, b'"never ended', False),
    ],
)
def test_a_file_is_replaced_by_one_of_its_sort_alone(
    tmp_path: Path, form: Form, older: bytes, goes: bool
) -> None:
    target = tmp_path / "out"
    target.write_bytes(older)
    before = as_it_is(tmp_path)

    def write() -> None:
        with write_aside(target, form, overwrite=True) as aside:
            aside.write(b"new")

    if goes:
        try_outputs([Output(target, form, replace=True)])
        write()
        assert target.read_bytes() == b"new"
        return
    for attempt in (write, lambda: try_outputs([Output(target, form, replace=True)])):
        with pytest.raises(AskedWronglyError, match=f"there is no {form.name}; it was left"):
            attempt()
    assert as_it_is(tmp_path) == before


def test_a_file_that_comes_meanwhile_is_not_written_over(tmp_path: Path) -> None:
    target = tmp_path / "labels.pdf"

    def write(overwrite: bool, comes: bytes) -> None:
        with write_aside(target, PDF, overwrite=overwrite) as aside:
            aside.write(b"%PDF-1.4 new")
            target.write_bytes(comes)

    for overwrite, comes in ((False, b"%PDF-1.4 mine"), (True, b"mine")):
        with pytest.raises(AskedWronglyError, match="left as it is"):
            write(overwrite, comes)
        assert target.read_bytes() == comes
        assert list(tmp_path.iterdir()) == [target]
        target.unlink()


def test_a_stream_gets_all_or_nothing() -> None:
    stream = io.BytesIO()
    with suppress(CannotBeDoneError), write_aside(stream, PDF) as aside:
        aside.write(b"half")
        raise CannotBeDoneError("the rest was not to be had.")
    assert stream.getvalue() == b""
    with write_aside(stream, PDF) as aside:
        aside.write(b"whole")
    assert stream.getvalue() == b"whole"


def test_a_new_file_may_be_read_by_whom_the_system_lets(tmp_path: Path) -> None:
    (tmp_path / "plain").touch()
    with write_aside(tmp_path / "labels.pdf", PDF) as aside:
        aside.write(b"new")
    assert (tmp_path / "labels.pdf").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_outputs_are_tried_and_nothing_is_left(tmp_path: Path) -> None:
    (tmp_path / "older.pdf").write_bytes(b"%PDF-1.4")
    before = as_it_is(tmp_path)
    try_outputs(
        [Output(tmp_path / "a.pdf", PDF), Output(tmp_path / "older.pdf", PDF, replace=True)]
    )
    assert as_it_is(tmp_path) == before
    with pytest.raises(CannotBeDoneError, match="cannot be written"):
        try_outputs([Output(tmp_path / "no" / "such" / "folder.pdf", PDF)])
    with pytest.raises(AskedWronglyError, match="there already"):
        try_outputs([Output(tmp_path / "a.pdf", PDF), Output(tmp_path / "older.pdf", PDF)])
    assert as_it_is(tmp_path) == before


@pytest.mark.parametrize(
    "other",
    ["out.pdf", "./out.pdf", "sub/../out.pdf", "linked/out.pdf", "OUT.pdf", "hard.pdf"],
)
def test_two_outputs_to_one_file_are_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, other: str
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "sub").mkdir()
    (tmp_path / "linked").symlink_to(tmp_path)
    first = tmp_path / "out.pdf"
    if other == "hard.pdf":
        first.write_bytes(b"%PDF-1.4")
        (tmp_path / other).hardlink_to(first)
    before = as_it_is(tmp_path)
    outputs = [Output(first, PDF, True, "labels"), Output(Path(other), PDF, True, "sheets")]
    with pytest.raises(AskedWronglyError, match="two files cannot go to one place") as fault:
        try_outputs(outputs)
    assert fault.value.field == "sheets"
    assert as_it_is(tmp_path) == before
    try_outputs([outputs[0], Output(Path("sub/out.pdf"), PDF)])


@pytest.fixture
def box(tmp_path: Path) -> Box:
    """A box with files of every kind."""
    box = open_box(tmp_path / "box")
    for name in ("recipes/mine.toml", "labels/sheet.toml", "venues/pond.toml", "matches/open.toml",
                 f"{SET_ASIDE}/older.sqlite3", f"{SET_ASIDE}/recipes/mine/1.toml"):  # fmt: skip
        (box.folder / name).parent.mkdir(parents=True, exist_ok=True)
        (box.folder / name).write_text("own")
    return box


OWN = (
    DATABASE_NAME,
    f"{DATABASE_NAME}-journal",
    f"{DATABASE_NAME}.csv",
    "TackleBox.SQLite3",
    "recipes/mine.toml",
    "recipes/new.pdf",
    "labels/sheet.toml",
    "venues/pond.toml",
    "matches/open.toml",
    f"{SET_ASIDE}/older.sqlite3",
    f"{SET_ASIDE}/recipes/mine/1.toml",
    f"{SET_ASIDE}/new.pdf",
)


@pytest.mark.parametrize("name", OWN)
@pytest.mark.parametrize("spelt", ["as it is", "relative", "through a link", "round about"])
def test_no_output_falls_on_a_boxs_own_files(
    box: Box, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str, spelt: str
) -> None:
    target = box.folder / name
    if spelt == "relative":
        monkeypatch.chdir(target.parent)
        target = Path(target.name)
    elif spelt == "through a link":
        (tmp_path / "link").symlink_to(box.folder)
        target = tmp_path / "link" / name
    elif spelt == "round about":
        target = box.folder / "recipes" / ".." / name
    refused(box, target)


@pytest.mark.parametrize("name", [n for n in OWN if n != f"{DATABASE_NAME}-journal"])
def test_nor_by_another_name_of_the_same_file(box: Box, tmp_path: Path, name: str) -> None:
    if not (box.folder / name).exists():
        return
    (tmp_path / "hard").hardlink_to(box.folder / name)
    (tmp_path / "soft").symlink_to(box.folder / name)
    for target in (tmp_path / "hard", tmp_path / "soft"):
        refused(box, target)


def refused(box: Box, target: Path) -> None:
    """Every writer refuses it, whether the box is open here or not, and nothing is touched."""
    before = as_it_is(box.folder)
    for form in (PDF, SVG, CSV):
        with pytest.raises(AskedWronglyError, match="your box's own files"):
            try_outputs([Output(target, form, replace=True)])
        with (
            pytest.raises(AskedWronglyError, match="your box's own files"),
            write_aside(target, form, overwrite=True),
        ):
            pytest.fail("it was let in")
    with pytest.raises(BenchError):
        copy_database(box.database, target)
    assert as_it_is(box.folder) == before


def test_a_box_that_is_not_open_is_known_by_its_database(tmp_path: Path) -> None:
    (tmp_path / "old" / "recipes").mkdir(parents=True)
    (tmp_path / "old" / DATABASE_NAME).write_bytes(b"SQLite format 3\0")
    for name in (DATABASE_NAME, "recipes/mine.toml"):
        with pytest.raises(AskedWronglyError, match="your box's own files"):
            refuse_own(tmp_path / "old" / name)
    refuse_own(tmp_path / "old" / "labels.pdf")


def test_a_box_that_is_a_link_is_guarded_where_it_lies(tmp_path: Path) -> None:
    box = open_box(tmp_path / "box")
    box.close()
    (tmp_path / "synced").mkdir()
    real = box.database.rename(tmp_path / "synced" / "my.sqlite3")
    box.database.symlink_to(real)
    box = open_box(tmp_path / "box")
    before = real.read_bytes()
    with pytest.raises(AskedWronglyError, match="your box's own files"):
        try_outputs([Output(real, PDF, replace=True)])
    assert real.read_bytes() == before


def test_what_is_no_own_file_may_lie_in_the_box(box: Box) -> None:
    with write_aside(box.folder / "labels.pdf", PDF) as aside:
        aside.write(b"%PDF-1.4")
    assert (box.folder / "labels.pdf").read_bytes() == b"%PDF-1.4"


def test_an_export_into_a_boxs_own_folder_is_refused(box: Box) -> None:
    (box.folder / "matches" / "open.toml").unlink()
    before = as_it_is(box.folder)
    with pytest.raises(AskedWronglyError, match="your box's own files"):
        export_box(box, box.folder / "matches")
    assert as_it_is(box.folder) == before
