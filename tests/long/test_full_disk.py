"""A disk that is full, really: told with what, where and what to do; nothing torn, nothing left over."""

import re
import shlex
import shutil
import sqlite3
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

import pytest

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.errors import CannotBeDoneError
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tie import tie
from tacklebox.stock.care import upgrade as upgrading
from tacklebox.stock.care.audit import audit, audit_open
from tacklebox.stock.care.box import open_box
from tacklebox.stock.care.schema import SCHEMA_VERSION
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.tables import Why
from tests.cli.runs import run
from tests.long.length import WHOLE
from tests.rigs.boxes import DAY, add, canal_rig, make_box, on_hand
from tests.stock.disks import fill, limited, program, small_disk
from tests.stock.test_upgrade import LATER, dumped, old_box

OLD = b"%PDF-1.4 an older file of that name"
# What is said in each command, "{}" for the disk; and its file, if it writes one.
COMMANDS = {
    "tie": ("tie pole-canal-shot", ""),
    "add": ("stock add 'nylon 0.14 mm 1.9 kg 100 m'", ""),
    "buy": ("stock buy 3", ""),
    "import": ("stock import {outside}/stock.csv", ""),
    "debrief": ("match debrief gone --back A01T --lost A02R --tackle-lost 1=1m", ""),
    "undo": ("undo", ""),
    "measure": ("measure pull 2 1.55kg", ""),
    "copy": ("copy {disk}/copy.sqlite3", "copy.sqlite3"),
    "restore": ("restore {outside}/copy.sqlite3 --yes", ""),
    "export": ("export {disk}/out", "out"),
    "labels": ("labels A01T A02R --replace --to {disk}/labels.pdf", "labels.pdf"),
    "drawers": ("stock labels --replace --to {disk}/drawers.pdf", "drawers.pdf"),
    "pack": ("match pack coming --replace --to {disk}/pack.pdf", "pack.pdf"),
    "sheets": ("tie-sheet pole-canal-shot=1 --replace --to {disk}/sheet.pdf", "sheet.pdf"),
}
ROOMS = range(0, 1600, 20) if WHOLE else (8,)  # kilobytes
NOT_NOTED = "the labels are printed, but the box could not note it: "


@pytest.fixture(scope="module")
def outside(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A box with something of everything, and beside it what is to be read into it."""
    folder = tmp_path_factory.mktemp("outside")
    box = make_box(folder / "box")
    for words in ("pole 4×12 tip 1 mm pack 4", "winder 13 cm 20 mm pack 4"):
        add(box, words)
    tie(box, canal_rig(), 1, DAY)
    run("copy", str(folder / "copy.sqlite3"), box=box.folder)
    run("export", str(folder / "export"), box=box.folder)
    with box.writing() as session:
        for item in ("4", "8"):
            move(session, begin(session, "buy", DAY), find(session, item), 3, Why.BOUGHT)
    tie(box, canal_rig(), 1, DAY)
    run("venue", "start", "pond", box=box.folder)
    soon = date.today() + timedelta(days=30)
    run("match", "start", "coming", "--venue", "pond", "--on", str(soon), box=box.folder)
    run("match", "start", "gone", "--venue", "pond", "--on", str(DAY), box=box.folder)
    rows = [f"hook {10 + n % 12} barbless,hook no. {n},10" for n in range(1000)]
    (folder / "stock.csv").write_text("item,name,pack\n" + "\n".join(rows))
    return folder


def words_of(command: str, outside: Path, disk: Path) -> list[str]:
    said = COMMANDS[command][0].format(outside=outside, disk=disk)
    return ["--box", str(disk / "box"), *shlex.split(said)]


def prepare(disk: Path, outside: Path, command: str) -> tuple[list[str], Path]:
    """The box on the disk, and an older file where the command writes one."""
    shutil.copytree(outside / "box", disk / "box")
    name = COMMANDS[command][1]
    if name.endswith(".pdf"):
        (disk / name).write_bytes(OLD)
    return dumped(disk / "box" / DATABASE_NAME), disk / (name or "nothing")


def names(disk: Path) -> set[Path]:
    return {path.relative_to(disk) for path in disk.rglob("*")}


def refused(returned: int, said: str, shown: str) -> None:
    """In words: what, where, and what to do."""
    assert returned == 1, (shown, said)
    assert "full" in said or "No space left" in said or "File too large" in said
    assert "/" in said.removeprefix(NOT_NOTED).split(": ")[0]


def no_harm(disk: Path, before: list[str], present: set[Path], target: Path) -> None:
    """Nothing is new or torn, and the box is as it was and in order."""
    assert names(disk) == present
    if target.suffix == ".pdf":
        data = target.read_bytes()  # printed whole before the box was told, or not at all
        assert data == OLD or (data.startswith(b"%PDF") and data.rstrip().endswith(b"%%EOF"))
    database = disk / "box" / DATABASE_NAME
    assert dumped(database) == before
    assert audit(database, Snapshot.from_json).faults == ()


@pytest.mark.long
@pytest.mark.parametrize("command", COMMANDS)
def test_a_disk_with_little_room(outside: Path, tmp_path: Path, command: str) -> None:
    """More room each time, until the command is done: there is no size at which it does harm."""
    for room in ROOMS:
        with small_disk(tmp_path / f"disk-{room}", 4000) as disk:
            before, target = prepare(disk, outside, command)
            filler = fill(disk, room)
            present = names(disk)
            done = program(*words_of(command, outside, disk))
            if done.returncode == 0:
                filler.unlink()
                assert audit(disk / "box" / DATABASE_NAME, Snapshot.from_json).faults == ()
                assert target.name == "nothing" or target.stat().st_size > len(OLD)
                break
            refused(done.returncode, done.stderr, done.stdout)
            filler.unlink()
            no_harm(disk, before, present - {Path("filler")}, target)
    else:
        assert not WHOLE


@pytest.mark.parametrize("command", COMMANDS)
def test_files_that_may_not_grow(outside: Path, tmp_path: Path, command: str) -> None:
    """The same where no disk can be mounted: the system refuses longer files."""
    before, target = prepare(tmp_path, outside, command)
    present = names(tmp_path)
    done = limited(2000, *words_of(command, outside, tmp_path))
    refused(done.returncode, done.stderr.replace("disk I/O", "full"), done.stdout)
    no_harm(tmp_path, before, present, target)


def test_an_import_into_a_new_box_without_room(outside: Path, tmp_path: Path) -> None:
    """Whatever the room, the new box is empty or holds everything."""
    for room in (20, 120, 500, 1000):
        with small_disk(tmp_path / f"disk-{room}", 4000) as disk:
            filler = fill(disk, room)
            done = program("--box", str(disk / "box"), "import", str(outside / "export"))
            filler.unlink()
            box = open_box(disk / "box")
            assert audit(box.database, Snapshot.from_json).faults == ()
            if done.returncode == 0:
                assert len(on_hand(box)) == 12
                return
            refused(done.returncode, done.stderr, done.stdout)
            assert on_hand(box) == {}
            run("--box", str(disk / "box"), "import", str(outside / "export"))
    raise AssertionError("it was never done")


@pytest.mark.skipif(not WHOLE, reason="a long run: TACKLEBOX_LONG=1")
def test_an_upgrade_without_room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The older box is as it was, and no copy is left from a try that failed."""
    monkeypatch.setattr("tacklebox.stock.care.schema.SCHEMA_VERSION", SCHEMA_VERSION + 1)
    monkeypatch.setattr(upgrading, "STEPS", LATER)
    answer = set()
    for room in range(8, 1000, 4 if WHOLE else 32):
        with small_disk(tmp_path / f"disk-{room}", 2000) as disk:
            database = old_box(disk / "box", SCHEMA_VERSION)
            for folder in ("recipes", "labels"):
                (disk / "box" / folder).mkdir()
            before, present = dumped(database), names(disk)
            filler = fill(disk, room)
            said = ""
            try:
                open_box(disk / "box").engine.dispose()
            except CannotBeDoneError as error:
                said = str(error)
            if not said:
                break
            assert re.search("full.*ake room", said), said
            answer.add("copied aside" in said)
            filler.unlink()
            assert names(disk) == present
            assert dumped(database) == before
            open_box(disk / "box").engine.dispose()  # with room, it is upgraded
            assert len(list((disk / "box" / "set-aside").iterdir())) == 1
            with closing(
                sqlite3.connect(database)
            ) as box:  # a table of the step is none of today's
                assert audit_open(box, is_judged=False).faults == ()
    else:
        raise AssertionError("it was never done")
    assert answer == {True, False}  # both the copy and the steps were once without room
