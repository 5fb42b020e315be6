"""A box of 10,000 items: `stock list`, `low` and `tie`, with 10,000 and with 1,000,000 movements.

Run with ``python -m tests.benchmarks.scale``. Each command is compared with a reference run beside it,
``import sqlmodel`` and the command's own SQL through bare sqlite3; and with itself on the smaller ledger.
No pass or fail: it prints a table.
"""

import sqlite3
import statistics
import sys
import tempfile
from contextlib import closing
from pathlib import Path

from tacklebox.stock.box import DATABASE_NAME
from tests.benchmarks.run import make_box, once
from tests.rigs.boxes import CANAL
from tests.rigs.boxes import make_box as make_small_box

ITEMS, FEW, MANY, ROUNDS = 10_000, 10_000, 1_000_000, 7

READ_ITEMS = """
import sqlmodel, sqlite3, sys
box = sqlite3.connect(sys.argv[1])
box.execute("BEGIN")
rows = box.execute("SELECT * FROM item ORDER BY id").fetchall()
sys.stdout.write("\\n".join(" ".join(map(str, row)) for row in rows))
"""
READ_FOR_A_RIG = """
import sqlmodel, sqlite3, sys
box = sqlite3.connect(sys.argv[1])
box.execute("BEGIN")
for kind in ("line", "hook", "float", "weight", "part", "winder", "elastic"):
    box.execute(f'SELECT * FROM item JOIN "{kind}" f ON f.item_id = item.id ORDER BY id').fetchall()
box.execute("SELECT * FROM measurement").fetchall()
"""
TIE = (
    READ_FOR_A_RIG
    + """
box.execute("COMMIT")
box.execute("BEGIN IMMEDIATE")
box.execute('''INSERT INTO action (what, "on", written_at) VALUES ('x', '2026-03-05', '')''')
for item in range(1, 9):
    box.execute('''INSERT INTO movement (item_id, action_id, amount, why, "on", reason)
                   VALUES (?, 1, -1, 'tied', '2026-03-05', '')''', (item,))
box.execute("COMMIT")
"""
)


def fill(database: Path, movements: int) -> None:
    """Movements through the box's own rules, until there are so many."""
    with closing(sqlite3.connect(database)) as box:
        box.execute("PRAGMA synchronous = OFF")
        (there,) = box.execute("SELECT count(*) FROM movement").fetchone()
        (items,) = box.execute("SELECT max(id) FROM item").fetchone()
        box.executemany(
            'INSERT INTO movement (item_id, action_id, amount, why, "on", reason)'
            " VALUES (?, 1, ?, 'counted', '2026-03-05', '')",
            ((1 + n % items, 1 if n // items % 2 == 0 else -1) for n in range(movements - there)),
        )
        box.commit()


def make(folder: Path, movements: int) -> Path:
    """A box of ITEMS items, the first of which serve a rig, with so many movements."""
    make_small_box(folder / "box").engine.dispose()
    make_box(folder, ITEMS - len(CANAL))
    with closing(sqlite3.connect(folder / "box" / DATABASE_NAME)) as box:
        box.execute("PRAGMA synchronous = OFF")
        box.executemany(
            'INSERT INTO movement (item_id, action_id, amount, why, "on", reason)'
            " VALUES (?, 1, 1000, 'bought', '2026-03-05', '')",
            ((item,) for item in range(3, len(CANAL) + 1)),
        )
        box.commit()
    fill(folder / "box" / DATABASE_NAME, movements)
    return folder / "box"


def main() -> None:
    """Print the table."""
    python = sys.executable
    with tempfile.TemporaryDirectory() as name:
        boxes = {}
        for movements in (FEW, MANY):
            folder = Path(name) / str(movements)
            folder.mkdir()
            boxes[movements] = make(folder, movements)
        commands = {
            "stock list": (["stock", "list"], READ_ITEMS),
            "low": (["low", "pole-canal-shot=2"], READ_FOR_A_RIG),
            "tie": (["tie", "pole-canal-shot"], TIE),
        }
        print(f"{'':12}{'movements':>10}{'ours':>10}{'reference':>11}{'ratio':>7}{'growth':>8}")
        for what, (words, reference) in commands.items():
            ours: dict[int, list[float]] = {FEW: [], MANY: []}
            theirs: dict[int, list[float]] = {FEW: [], MANY: []}
            for turn in range(ROUNDS + 1):
                for movements, box in boxes.items():
                    took = once([python, "-m", "tacklebox", "--box", str(box), *words])[0]
                    bare = once([python, "-c", reference, str(box / DATABASE_NAME)])[0]
                    if turn:  # the first is for warming up
                        ours[movements].append(took)
                        theirs[movements].append(bare)
            first = statistics.median(ours[FEW])
            for movements in boxes:
                a, b = statistics.median(ours[movements]), statistics.median(theirs[movements])
                print(
                    f"{what:12}{movements:>10}{a * 1000:7.0f} ms{b * 1000:8.0f} ms"
                    f"{a / b:7.2f}{a / first:8.2f}",
                    flush=True,
                )


if __name__ == "__main__":
    main()
