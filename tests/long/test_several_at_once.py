"""Several programs write to one box at once: nothing is lost, nothing doubled."""

import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from tacklebox.stock.care.audit import audit
from tests.long.length import so_many
from tests.rigs.boxes import make_box

WRITER = """
import sys
from datetime import date
from pathlib import Path
from tacklebox.stock.care.box import open_box
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.finding import find
from tacklebox.stock.tables import Why

box = open_box(Path(sys.argv[1]))
for number in range(int(sys.argv[3])):
    with box.writing() as session:
        action = begin(session, f"writer {sys.argv[2]} number {number}", date(2026, 3, 5))
        move(session, action, find(session, "3"), 3 if number % 2 else -1, Why.COUNTED)
"""


@pytest.mark.long
def test_eight_writers_at_once(tmp_path: Path) -> None:
    writers, writes = 8, so_many(250, 12)
    box = make_box(tmp_path)
    programs = [
        subprocess.Popen(
            [sys.executable, "-c", WRITER, str(tmp_path), str(n), str(writes)],
            stderr=subprocess.PIPE,
            text=True,
        )
        for n in range(writers)
    ]
    for program in programs:
        _, said = program.communicate()
        assert program.returncode == 0, said
        assert all(line.startswith("Another program is writing") for line in said.splitlines())
    with closing(sqlite3.connect(box.database)) as connection:
        rows = connection.execute("SELECT what, count(*) FROM action GROUP BY what").fetchall()
        (on_hand,) = connection.execute("SELECT on_hand FROM item WHERE id = 3").fetchone()
    written = dict(row for row in rows if row[0].startswith("writer"))
    assert written == {f"writer {w} number {n}": 1 for w in range(writers) for n in range(writes)}
    assert on_hand == 10 + writers * (writes // 2) * (3 - 1)
    assert audit(box.database).faults == ()
