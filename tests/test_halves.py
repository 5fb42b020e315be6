"""What a kill left half written is cleared by the next that writes there; what is in hand is not."""

import os
import time
from pathlib import Path

import pytest

from tacklebox.datafiles import DataFiles
from tacklebox.desk.private import private_folder
from tacklebox.halves import YOUNG_S, clear_abandoned, in_hand
from tacklebox.outputs import PDF, write_aside
from tacklebox.stock.care.copies import copy_database
from tacklebox.stock.care.export import export_box
from tests.rigs.boxes import make_box

NAMES = (
    f".{'a1' * 16}.half", f".{'a1' * 16}.half-journal", f".{'a1' * 16}.sqlite3", f".{'b2' * 6}.half",
    f".printing-{'c3' * 6}.pdf", f".printing-{'c3' * 6}",
)  # fmt: skip
NOT_OURS = (".half", "my.half", ".printing-mine.pdf", f"{'a1' * 16}.half", f".{'a1' * 16}.halfway")


def leave(folder: Path, names: tuple[str, ...] = NAMES, age_s: float = YOUNG_S + 10) -> None:
    then = time.time() - age_s
    for name in names:
        (folder / name).write_bytes(b"x")
        os.utime(folder / name, (then, then))


def left(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()} & {*NAMES, *NOT_OURS}


def test_only_what_is_ours_and_abandoned_goes(tmp_path: Path) -> None:
    leave(tmp_path)
    leave(tmp_path, NOT_OURS)
    export = tmp_path / f".{'d4' * 16}.half"
    export.mkdir()
    (export / "item.csv").touch()
    os.utime(export, (0, 0))
    clear_abandoned(tmp_path)
    assert left(tmp_path) == set(NOT_OURS)
    assert not export.exists()


def test_what_is_young_or_in_hand_or_a_link_stays(tmp_path: Path) -> None:
    young, held, link = (f".{digit * 32}.half" for digit in "123")
    leave(tmp_path, (young,), age_s=1)
    leave(tmp_path, (held,))
    (tmp_path / "mine").touch()
    (tmp_path / link).symlink_to("mine")
    with in_hand(tmp_path / held):
        clear_abandoned(tmp_path)
        assert {path.name for path in tmp_path.iterdir()} == {young, held, link, "mine"}
    clear_abandoned(tmp_path)
    assert not (tmp_path / held).exists()


def test_boxes_come_before_pages(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    gone: list[str] = []
    monkeypatch.setattr("tacklebox.halves._remove", lambda path: gone.append(path.name))
    leave(tmp_path)
    clear_abandoned(tmp_path)
    assert [name.startswith(".printing") for name in gone] == [False] * 4 + [True] * 2


def test_a_private_folder_that_a_kill_left_is_taken_away(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HOME", str(tmp_path))
    killed, mine = tmp_path / "tacklebox-open-ab12cd_9", tmp_path / "tacklebox-open-of-mine"
    for folder in (killed, mine):
        folder.mkdir()
        os.utime(folder, (0, 0))
    with private_folder() as first:
        os.utime(first, (0, 0))
        with private_folder() as second:
            assert {*tmp_path.iterdir()} == {first, second, mine}
        assert first.stat().st_mode & 0o777 == 0o700
    assert {*tmp_path.iterdir()} == {mine}


def test_each_that_writes_clears_where_it_writes(tmp_path: Path) -> None:
    box = make_box(tmp_path / "box")
    out = tmp_path / "out"
    out.mkdir()

    def print_page() -> None:
        with write_aside(out / "page.pdf", PDF) as file:
            file.write(b"%PDF-")

    for write, folder in (
        (lambda: copy_database(box.database, out / "copy"), out),
        (lambda: export_box(box, out / "export"), out),
        (print_page, out),
        (lambda: DataFiles("recipes", "recipe", box.recipes).write_new("mine", ""), box.recipes),
    ):
        leave(folder)
        write()
        assert left(folder) == set()
