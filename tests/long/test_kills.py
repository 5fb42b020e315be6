"""Killed at any moment: the box is in order after it, and each action is whole or absent."""

import os
import random
import shutil
import signal
import sqlite3
import time
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from tacklebox.matches.after.debrief import Told, debrief
from tacklebox.matches.files.match import parse_match
from tacklebox.printing.labels.papers import load_paper
from tacklebox.printing.labels.sheets import print_labels
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import mark_labelled, tied_with
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.care.copies import ASIDE, copy_database, restore
from tacklebox.stock.care.export import export_box, import_box
from tacklebox.stock.care.schema import DATABASE_NAME
from tacklebox.stock.care.undo import undo_last
from tacklebox.stock.csv_file import import_items
from tacklebox.stock.ledger import begin, find, move
from tacklebox.stock.tables import Why
from tests.long.length import so_many
from tests.rigs.boxes import DAY, canal_rig, make_box, on_hand

ROWS = 40
TOGETHER = 2
LOST_AND_GIVEN_BACK = 4  # a hook; the winder of the lost rig; winder and float of the spent one
PAPER = "a4-65"
OLDER, NEWER, EXPORT = "older.sqlite3", "newer.sqlite3", "export"
MATCH = f"""name = "Open"\ndate = "{DAY}"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"
[[want]]\nrecipe = "pole-canal-shot"\ncount = 2\n"""
ENOUGH = {"1": 900_000, "2": 900_000, **dict.fromkeys(("3", "4", "6", "7", "8", "10"), 5000)}


def tie_and_undo(box: Box, _: int) -> None:
    for _round in range(50):
        tie(box, canal_rig(), TOGETHER, DAY)
        undo_last(box, DAY)


def import_rows(box: Box, turn: int) -> None:
    for part in range(20):
        path = box.folder / "stock.csv"
        rows = [f"hook 18 pack 10,hook {turn} {part} {n}" for n in range(ROWS)]
        path.write_text("item,name\n" + "\n".join(rows))
        import_items(box, path, DAY)


def debrief_and_undo(box: Box, turn: int) -> None:
    """One rig lost, one spent, one hook lost; every second debrief is undone."""
    for part in range(20):
        if len(tied_with(box, state="ready")) < TOGETHER:
            tie(box, canal_rig(), TOGETHER, DAY)
        lost, spent = (rig.code for rig in tied_with(box, state="ready")[:TOGETHER])
        match = parse_match(MATCH, f"match-{turn}-{part}")
        debrief(box, match, Told(lost=[lost], spent=[spent], items_lost={"3": "1"}), DAY)
        if part % 2 == 0:
            undo_last(box, DAY)


def print_and_mark(box: Box, turn: int) -> None:
    for part in range(20):
        rigs = tied_with(box, state="ready")[: 1 + (turn + part) % 3]
        snapshots = [Snapshot.from_json(rig.snapshot) for rig in rigs]
        target = box.folder / "labels.pdf"
        report = print_labels(snapshots, load_paper(PAPER), target, overwrite=True)
        mark_labelled(box, [rig.code for rig in rigs], DAY, PAPER, report.next_free)


def copy_often(box: Box, turn: int) -> None:
    for part in range(300):
        copy_database(box.database, box.folder / f"copy-{turn}-{part}.sqlite3")


def put_back_often(box: Box, _: int) -> None:
    """Two copies of the box, one as it was before the last rig, put back in turn."""
    for _part in range(40):
        for copy in OLDER, NEWER:
            restore(box.folder, box.folder / copy, lambda _: True)


def import_all(box: Box, turn: int) -> None:
    for part in range(40):
        import_box(open_box(box.folder / f"new-{turn}-{part}"), box.folder / EXPORT)


def child(work: Callable[[Box, int], None], folder: Path, turn: int) -> int:
    """A process of its own that works on the box until it is done or killed."""
    number = os.fork()
    if number == 0:
        try:
            work(open_box(folder), turn)
        finally:
            os._exit(0)
    return number


def parts_of_actions(box: Box) -> list[str]:
    """Every action that is neither whole nor absent."""
    with closing(sqlite3.connect(box.database)) as connection:
        rows = connection.execute(
            """SELECT a.what, (SELECT count(*) FROM movement WHERE action_id = a.id),
                 (SELECT count(*) FROM movement WHERE action_id = a.undoes),
                 (SELECT count(*) FROM tied WHERE action_id = a.id),
                 (SELECT count(*) FROM statechange WHERE action_id = a.id),
                 (SELECT count(*) FROM debriefrig r JOIN debrief d ON d.id = r.debrief_id
                   WHERE d.action_id = a.id) FROM action a"""
        ).fetchall()
    moved_by_a_tie = {row[1] for row in rows if row[0].startswith("tie")}
    faults = []
    for what, moved, against, rigs, turned, told in rows:
        if what.startswith("tie"):
            whole = rigs == TOGETHER and len(moved_by_a_tie) == 1 and moved > 3
        elif what.startswith("undo"):
            whole = moved == against and turned == TOGETHER
        elif what.startswith("debrief"):
            whole = moved == LOST_AND_GIVEN_BACK and turned == told == TOGETHER
        elif what.startswith("import"):
            whole = moved == ROWS
        else:
            whole = moved == 1
        if not whole:
            faults.append(what)
    return faults


def _actions(box: Box) -> int:
    with closing(sqlite3.connect(box.database)) as connection:
        return int(connection.execute("SELECT count(*) FROM action").fetchone()[0])


@pytest.mark.long
@pytest.mark.parametrize(
    ("work", "milliseconds"),
    [
        (tie_and_undo, 250),
        (import_rows, 400),
        (debrief_and_undo, 400),
        (print_and_mark, 250),
        (copy_often, 150),
        (put_back_often, 250),
        (import_all, 250),
    ],
    ids=["tie", "import", "debrief", "labels", "copy", "restore", "import of an export"],
)
def test_killed_at_random_moments(
    tmp_path: Path, work: Callable[[Box, int], None], milliseconds: int
) -> None:
    box = make_box(tmp_path / "box")
    for item, amount in ENOUGH.items():
        with box.writing() as session:
            move(session, begin(session, "buy", DAY), find(session, item), amount, Why.BOUGHT)
    copy_database(box.database, box.folder / OLDER)
    tie(box, canal_rig(), TOGETHER, DAY)
    copy_database(box.database, box.folder / NEWER)
    export_box(box, box.folder / EXPORT)
    box.engine.dispose()
    chance = random.Random(7)
    killed, midway, begun, rounds = 0, 0, _actions(box), so_many(75, 4)
    writes = work in (tie_and_undo, import_rows, debrief_and_undo)
    for turn in range(rounds + 100):
        if turn >= rounds and (_actions(box) > begun or not writes):
            break  # on a machine at its limit, the first may all be killed before they wrote
        number = child(work, box.folder, turn)
        time.sleep(chance.uniform(0, milliseconds) / 1000)
        os.kill(number, signal.SIGKILL)
        _, status = os.waitpid(number, 0)
        killed += os.WIFSIGNALED(status)
        journal = box.database.with_name(f"{DATABASE_NAME}-journal")
        midway += journal.exists()
        assert audit(box.database, Snapshot.from_json).faults == ()
        journal.unlink(missing_ok=True)  # it is rolled back, or came to no page of the box
        assert parts_of_actions(box) == []
        pdf = box.folder / "labels.pdf"
        if pdf.exists():
            data = pdf.read_bytes()
            assert data.startswith(b"%PDF")
            assert data.rstrip().endswith(b"%%EOF")
        elif work is print_and_mark:
            assert tied_with(box, unlabelled=True) == tied_with(box)  # none counts as labelled
        if work is put_back_often:
            assert _actions(box) in (begun - 1, begun)
        for copy in [*box.folder.glob("copy-*.sqlite3"), *(box.folder / ASIDE).glob("*.sqlite3")]:
            if not copy.name.startswith("."):  # else it was not whole yet, and has no name
                assert audit(copy).faults == ()
            copy.unlink()
        for new in box.folder.glob("new-*"):
            if (new / DATABASE_NAME).exists():  # an empty box, or all of it
                assert len(on_hand(open_box(new))) in (0, len(on_hand(box)))
                assert audit(new / DATABASE_NAME, Snapshot.from_json).faults == ()
            shutil.rmtree(new)
    assert killed > 0
    assert _actions(box) > begun or not writes
    print(f"{killed} killed, {midway} of them in the middle of a write to the box")
