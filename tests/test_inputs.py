"""Files to be read: plain ones alone, none that never ends or makes one wait."""

import os
import socket
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.inputs import read_file
from tacklebox.outputs import PDF, Output, try_outputs


def test_a_plain_file_is_read_up_to_its_limit(tmp_path: Path) -> None:
    file = tmp_path / "stock.csv"
    file.write_bytes(b"12345")
    assert read_file(file, 5) == b"12345"
    with pytest.raises(AskedWronglyError, match="over 0 kB"):
        read_file(file, 4)


def test_what_is_no_file_is_refused_without_being_opened(tmp_path: Path) -> None:
    """A pipe that nobody writes to would be waited for for ever."""
    os.mkfifo(tmp_path / "pipe")
    listening = socket.socket(socket.AF_UNIX)
    listening.bind(str(tmp_path / "socket"))
    for name in ("pipe", "socket"):
        with pytest.raises(AskedWronglyError, match="device, pipe or socket"):
            read_file(tmp_path / name, 10)
    listening.close()
    with pytest.raises(AskedWronglyError, match="a folder"):
        read_file(tmp_path, 10)
    with pytest.raises(AskedWronglyError, match="device, pipe or socket"):
        read_file(Path("/dev/zero"), 10)


@pytest.mark.parametrize("name", ["x" * 300, "nowhere/at/all", "with\0zero", "~nobody/file"])
def test_names_that_no_file_has(tmp_path: Path, name: str) -> None:
    with pytest.raises(AskedWronglyError, match="cannot be read"):
        read_file(tmp_path / name, 10)


def test_links_in_a_circle(tmp_path: Path) -> None:
    (tmp_path / "one").symlink_to("two")
    (tmp_path / "two").symlink_to("one")
    with pytest.raises(AskedWronglyError, match="cannot be read"):
        read_file(tmp_path / "one", 10)
    with pytest.raises((AskedWronglyError, CannotBeDoneError)):
        try_outputs([Output(tmp_path / "one" / "labels.pdf", PDF)])


def test_an_output_whose_name_is_too_long_is_refused_in_words(tmp_path: Path) -> None:
    """By its bytes: a name of 100 letters may have 300."""
    for name in ("x" * 300, "щ" * 200):
        with pytest.raises(CannotBeDoneError, match="cannot be written"):
            try_outputs([Output(tmp_path / f"{name}.pdf", PDF)])
