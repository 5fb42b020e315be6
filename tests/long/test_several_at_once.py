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

WRITERS = """
import os
import sys
from datetime import date
from pathlib import Path
from tacklebox.stock.care.box import open_box
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.finding import find
from tacklebox.stock.tables import Why

folder, writers, writes = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
for writer in range(writers):
    if os.fork() == 0:
        box = open_box(folder)
        for number in range(writes):
            with box.writing() as session:
                action = begin(session, f"writer {writer} number {number}", date(2026, 3, 5))
                move(session, action, find(session, "3"), 3 if number % 2 else -1, Why.COUNTED)
        sys.exit(0)
sys.exit(any([os.wait()[1] for _ in range(writers)]))
"""


@pytest.mark.long
def test_eight_writers_at_once(tmp_path: Path) -> None:
    """Programs of their own from before the box is opened; what they have loaded they share."""
    writers, writes = 8, so_many(250, 12)
    box = make_box(tmp_path)
    done = subprocess.run(
        [sys.executable, "-c", WRITERS, str(tmp_path), str(writers), str(writes)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    for line in done.stderr.splitlines():
        assert line.startswith("Another program is writing")
    with closing(sqlite3.connect(box.database)) as connection:
        rows = connection.execute("SELECT what, count(*) FROM action GROUP BY what").fetchall()
        (on_hand,) = connection.execute("SELECT on_hand FROM item WHERE id = 3").fetchone()
    written = dict(row for row in rows if row[0].startswith("writer"))
    assert written == {f"writer {w} number {n}": 1 for w in range(writers) for n in range(writes)}
    assert on_hand == 10 + writers * (writes // 2) * (3 - 1)
    assert audit(box.database).faults == ()
