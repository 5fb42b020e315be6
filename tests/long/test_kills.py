"""Killed at every moment in turn: the box is in order after it, and each action is whole or absent.

In the short form at some of the moments, spread evenly over all.
"""

import re
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from tacklebox.boxfolder import DATABASE_NAME, SET_ASIDE
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.stock.care.aswritten import KEPT
from tacklebox.stock.care.audit import audit
from tests.cli.match_boxes import make_match_box, spring_match
from tests.cli.runs import run
from tests.long.length import WHOLE
from tests.long.stopping import FILES, STATEMENTS, Stopping, compiled

SHORT = 2  # moments of each command
CORE = (
    "tie",
    "plan tied",
    "copy",
    "restore",
    "import of an export",
)  # at writes, in the short form
DAY = "2026-03-05"
BOX, UNDONE, NONE = "box", "undone", "none"  # what a command finds where its box is looked for
OUT = "out"  # and beside it
RANDOM = re.compile(r"'[0-9a-f]{32}'|'\d{4}-\d\d-\d\d \d\d:\d\d:\d\d(\.\d+)?'")  # marks and times
CHECKS = f'INSERT INTO "{KEPT}"'
LABELS, SHEETS, COPY, EXPORT = "labels.pdf", "sheets.pdf", "copy.sqlite3", "export"


@dataclass(frozen=True)
class Case:
    """A command, how many transactions of the box it writes, and what else must be whole after it."""

    words: str
    writes: int = 1
    begins_with: str = BOX
    again: str = ""  # what it needs besides to be run once more
    beside: Callable[[Path], None] = lambda _: None
    goes_on: bool = False  # run once more, it ends what it had begun


def _copy_is_whole(out: Path) -> None:
    if (out / COPY).exists():
        assert audit(out / COPY, Snapshot.from_json).faults == ()


def _export_is_whole(out: Path) -> None:
    """Without ``box.toml`` it is none."""
    if (out / EXPORT / "box.toml").exists():
        run("import", str(out / EXPORT), box=out / "read")
        assert len(_rows(out / "read" / DATABASE_NAME)) > 50


def _pdfs_are_whole(out: Path) -> None:
    for pdf in out.glob("[!.]*.pdf"):
        data = pdf.read_bytes()
        assert data.startswith(b"%PDF")
        assert data.rstrip().endswith(b"%%EOF")


CASES = {
    "tie": Case(f"tie pole-canal-shot -n 2 --on {DAY}"),
    "import": Case(f"stock import {{out}}/stock.csv --on {DAY}"),
    "debrief": Case("match debrief been --lost {ready} --back {other}"),
    "plan tied": Case(
        f"match tie open --labels {{out}}/{LABELS} --sheets {{out}}/{SHEETS}",
        writes=2,  # the rigs; and that their labels were printed, once they are
        again="--replace",
        beside=_pdfs_are_whole,
    ),
    "labels": Case(f"labels --to {{out}}/{LABELS}", again="--replace", beside=_pdfs_are_whole),
    "undo": Case("undo"),
    "redo": Case("redo", begins_with=UNDONE),
    "copy": Case(f"copy {{out}}/{COPY}", writes=0, beside=_copy_is_whole),
    "restore": Case("restore {out}/older.sqlite3 --yes"),
    "restore where there is no box": Case("restore {out}/older.sqlite3", begins_with=NONE),
    "export": Case(f"export {{out}}/{EXPORT}", writes=0, beside=_export_is_whole),
    "import of an export": Case("import {out}/kept", begins_with=NONE, writes=2, goes_on=True),
}


@dataclass(frozen=True, eq=False)
class Kept:
    """What each command finds, and the codes of two ready rigs."""

    folder: Path
    codes: dict[str, str]


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Kept:
    """A box with ready rigs and a match to come and one that has been; a copy, an export, a list."""
    folder = tmp_path_factory.mktemp("kept")
    box, out = make_match_box(folder / BOX, hooks="30"), folder / OUT
    out.mkdir()
    (folder / NONE).mkdir()
    for item in ("shot No 8", "shot No 10", "pole 4×12", "winder 13 cm"):
        run("stock", "give", item, "20", box=box)
    (box / "matches" / "been.toml").write_text(spring_match(DAY, 2), "utf-8")
    (out / "stock.csv").write_text(
        "item,name\n" + "".join(f"hook 18 pack 10,hook of the box {n}\n" for n in range(12)),
        "utf-8",
    )
    run("copy", str(out / "older.sqlite3"), box=box)
    run("tie", "pole-canal-shot", "-n", "3", "--on", DAY, box=box)
    run("export", str(out / "kept"), box=box)
    shutil.copytree(box, folder / UNDONE)
    run("undo", box=folder / UNDONE)
    tied = sorted(re.findall(r"\bA\d\d[A-Z]\b", run("rigs", "list", box=box).stdout))
    return Kept(folder, {"ready": tied[0], "other": tied[1]})


@pytest.fixture(scope="module")
def stopping(kept: Kept, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Stopping]:
    folder = tmp_path_factory.mktemp("stopping")
    with Stopping(compiled(folder)) as begun:
        begun.work_out(*_afresh(kept, CASES["plan tied"], folder / "run"))
        yield begun


def _rows(database: Path) -> list[str]:
    """All that a database holds, but for the time it was written and marks made by chance, and the checks of
    all that, which the audit compares."""
    if not database.exists():
        return []
    with closing(sqlite3.connect(database)) as connection:
        _begin, *rows, _end = (RANDOM.sub("?", line) for line in connection.iterdump())
    return [row for row in rows if not row.startswith(CHECKS)]


def _afresh(kept: Kept, case: Case, folder: Path) -> tuple[list[str], Path]:
    """What the command finds, copied for one run of it: its words, and its box."""
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(kept.folder / case.begins_with, folder / BOX)
    shutil.copytree(kept.folder / OUT, folder / OUT)
    words = [word.format(out=folder / OUT, **kept.codes) for word in case.words.split()]
    return words, folder / BOX


def _moments(total: int) -> list[int]:
    """All of them; in the short form some, spread evenly up to the last."""
    if WHOLE or total <= SHORT:
        return list(range(1, total + 1))
    return sorted({1 + n * (total - 1) // SHORT for n in range(1, SHORT + 1)})


def _check(box: Path, allowed: list[list[str]], case: Case) -> None:
    rows = _rows(box / DATABASE_NAME)
    assert rows in allowed
    if rows:
        assert audit(box / DATABASE_NAME, Snapshot.from_json).faults == ()
    for aside in (box / SET_ASIDE).glob("[!.]*.sqlite3"):
        assert audit(aside, Snapshot.from_json).faults == ()
    case.beside(box.parent / OUT)


@pytest.mark.long
@pytest.mark.parametrize("what", [STATEMENTS, FILES])
@pytest.mark.parametrize("name", CASES)
def test_killed_at_each_moment(
    name: str, what: str, kept: Kept, stopping: Stopping, tmp_path: Path
) -> None:
    """What it was killed in is as if it had not been, and can be done then."""
    if what == FILES and not WHOLE and name not in CORE:
        pytest.skip("in the long set")
    if what == FILES and not stopping.below:
        pytest.skip("no compiler, so nothing can be laid below SQLite")
    case, (allowed, total) = CASES[name], _states(kept, name, stopping)
    assert len(allowed) == 1 + case.writes
    if what == FILES:
        words, box = _afresh(kept, case, tmp_path / "run")
        total = stopping.run(words, box, what).passed
    moments = _moments(total)
    assert moments
    for at in moments:
        words, box = _afresh(kept, case, tmp_path / "run")
        ended = stopping.run(words, box, what, at)
        assert ended.killed, (at, ended)
        _check(box, allowed, case)
        rows = _rows(box / DATABASE_NAME)
        if rows != allowed[-1] and (case.goes_on or rows == allowed[0]):
            ended = stopping.run([*words, *case.again.split()], box, STATEMENTS)
            assert ended.code == 0, (at, ended)
            assert _rows(box / DATABASE_NAME) == allowed[-1], at
    print(f"{name}: killed at {len(moments)} of {total} {what}")


@cache
def _states(kept: Kept, name: str, stopping: Stopping) -> tuple[list[list[str]], int]:
    """The box before the command and after each of its transactions, where nobody kills it; and how many
    statements it sends."""
    case, folder = CASES[name], kept.folder / "states" / name
    words, box = _afresh(kept, case, folder / "run")
    found, states = [_rows(box / DATABASE_NAME)], folder / "states"
    states.mkdir()
    ended = stopping.run(words, box, STATEMENTS, states=states)
    assert ended.code == 0, ended.said
    for state in sorted(states.iterdir()):
        if (rows := _rows(state)) != found[-1]:
            found.append(rows)
    return found, ended.passed
