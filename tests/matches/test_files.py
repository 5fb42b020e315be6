"""Files of one's own in a box: venues and matches."""

import resource
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.matches.match import Matches
from tacklebox.matches.venue import Venues


def test_the_first_name_asked_for_is_told_how_to_start() -> None:
    with pytest.raises(AskedWronglyError, match=r"nor any other yet\. `tacklebox match start"):
        Matches(Path("nowhere")).load("open")
    with pytest.raises(AskedWronglyError, match=r"nor any other yet\. `tacklebox venue start"):
        Venues(Path("nowhere")).load("pond")


def test_a_later_one_is_told_what_there_is(tmp_path: Path) -> None:
    files = Venues(tmp_path / "venues").files
    files.write_new("mill-lake", "")
    with pytest.raises(AskedWronglyError, match='Did you mean "mill-lake"'):
        files.read("mil-lake")
    with pytest.raises(AskedWronglyError, match=r"Known: mill-lake\."):
        files.read("weir")


def test_half_a_file_is_never_left(tmp_path: Path) -> None:
    """A disk that fills up, by a limit of ten bytes to a file."""
    files = Matches(tmp_path).files
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (10, before[1]))
    try:
        with pytest.raises(CannotBeDoneError, match="cannot be written"):
            files.write_new("open", "x" * 100)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
    assert list(tmp_path.iterdir()) == []


def test_a_file_where_the_folder_should_be(tmp_path: Path) -> None:
    (tmp_path / "venues").write_text("mine", encoding="utf-8")
    with pytest.raises(CannotBeDoneError, match="cannot be written"):
        Venues(tmp_path / "venues").files.write_new("pond", "")
    assert (tmp_path / "venues").read_text(encoding="utf-8") == "mine"
