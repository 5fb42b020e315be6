"""Own files that are written over keep what they said before."""

import os
from pathlib import Path

import pytest

from tacklebox.boxfolder import SET_ASIDE
from tacklebox.datafiles import KEPT, DataFiles
from tacklebox.errors import AskedWronglyError, CannotBeDoneError


def kept(box: Path, name: str) -> dict[int, str]:
    folder = box / SET_ASIDE / "recipes" / name
    return {int(path.stem): path.read_text() for path in folder.glob("*")}


def test_the_last_ten_versions_are_kept(tmp_path: Path) -> None:
    files = DataFiles("recipes", "recipe", tmp_path / "recipes")
    for number in range(KEPT + 4):
        assert files.write_over("mine", f"v{number}").read_text() == f"v{number}"
    assert kept(tmp_path, "mine") == {n: f"v{n - 1}" for n in range(4, KEPT + 4)}
    files.write_over("mine", f"v{KEPT + 3}")  # the same again is no new version
    assert len(kept(tmp_path, "mine")) == KEPT
    assert kept(tmp_path, "other") == {}
    assert [path.name for path in (tmp_path / "recipes").iterdir()] == ["mine.toml"]


def test_a_file_that_cannot_be_written_over_is_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    files = DataFiles("recipes", "recipe", tmp_path / "recipes")
    path = files.write_new("mine", "first")

    def full(_number: int) -> None:
        raise OSError(28, os.strerror(28))

    monkeypatch.setattr("os.fsync", full)
    for write in (files.write_over, files.write_new):
        with pytest.raises((CannotBeDoneError, AskedWronglyError)):
            write("mine", "second")
    assert path.read_text() == "first"
    assert list(path.parent.iterdir()) == [path]


def test_a_link_is_not_written_over(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "outside").write_text("mine")
    (tmp_path / "recipes" / "mine.toml").symlink_to(tmp_path / "outside")
    with pytest.raises(AskedWronglyError, match="a link to a file outside"):
        DataFiles("recipes", "recipe", tmp_path / "recipes").write_over("mine", "new")
    assert (tmp_path / "outside").read_text() == "mine"
