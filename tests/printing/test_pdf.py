"""PDF files written whole or not at all, and never over what is no file."""

import io
import os
from contextlib import suppress
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.printing.pdf import write_aside


def make_pipe(path: Path) -> None:
    os.mkfifo(path)


def make_link(path: Path) -> None:
    (path.parent / "other.pdf").write_text("mine", encoding="utf-8")
    path.symlink_to(path.parent / "other.pdf")


def make_dangling_link(path: Path) -> None:
    path.symlink_to(path.parent / "nowhere.pdf")


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
    tmp_path: Path, make: "object", what: str, overwrite: bool
) -> None:
    target = tmp_path / "labels.pdf"
    assert callable(make)
    make(target)
    before = [(p.name, p.lstat().st_mode, p.lstat().st_ino) for p in sorted(tmp_path.iterdir())]
    with (
        pytest.raises(AskedWronglyError) as error,
        write_aside(target, overwrite=overwrite) as aside,
    ):
        aside.write(b"new")
    assert str(error.value) == f"{target}: this is {what}. Name a file."
    after = [(p.name, p.lstat().st_mode, p.lstat().st_ino) for p in sorted(tmp_path.iterdir())]
    assert after == before


def test_a_device_is_refused() -> None:
    with (
        pytest.raises(AskedWronglyError, match="a device or pipe"),
        write_aside(Path(os.devnull), overwrite=True),
    ):
        pytest.fail("it was let in")
    assert Path(os.devnull).is_char_device()


def test_an_older_file_is_replaced_only_when_asked(tmp_path: Path) -> None:
    target = tmp_path / "labels.pdf"
    target.write_text("older", encoding="utf-8")
    with (
        pytest.raises(AskedWronglyError, match="left as it is"),
        write_aside(target, overwrite=False),
    ):
        pytest.fail("it was let in")
    with write_aside(target, overwrite=True) as aside:
        aside.write(b"new")
    assert target.read_text(encoding="utf-8") == "new"
    assert list(tmp_path.iterdir()) == [target]


def test_a_stream_gets_all_or_nothing() -> None:
    stream = io.BytesIO()
    with suppress(CannotBeDoneError), write_aside(stream) as aside:
        aside.write(b"half")
        raise CannotBeDoneError("the rest was not to be had.")
    assert stream.getvalue() == b""
    with write_aside(stream) as aside:
        aside.write(b"whole")
    assert stream.getvalue() == b"whole"


def test_a_new_file_may_be_read_by_whom_the_system_lets(tmp_path: Path) -> None:
    (tmp_path / "plain").touch()
    with write_aside(tmp_path / "labels.pdf") as aside:
        aside.write(b"new")
    assert (tmp_path / "labels.pdf").stat().st_mode == (tmp_path / "plain").stat().st_mode
