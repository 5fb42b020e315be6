"""A box of 10,000 items: `stock list`, `low` and `tie`, with 10,000 and with 1,000,000 movements.

Run with ``python -m tests.benchmarks.scale``. Each command is compared with a reference run beside it:
``import sqlmodel``, then the very SQL that the command sent, kept from a run of it, through bare sqlite3;
and with itself on the smaller ledger. Times are the best of several, so that what else the machine does
falls out. No pass or fail: it prints a table.
"""

import shutil
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.stock.care.aswritten import give_checks
from tests.benchmarks.run import make_box
from tests.benchmarks.timing import once
from tests.rigs.boxes import CANAL
from tests.rigs.boxes import make_box as make_small_box

ITEMS, FEW, MANY, ROUNDS = 10_000, 10_000, 1_000_000, 12
KEPT, SAID = "kept.sqlite3", "said.json"
COMMANDS = {
    "stock list": ["stock", "list"],
    "low": ["low", "pole-canal-shot=2"],
    "tie": ["tie", "pole-canal-shot"],
}

# Runs a command and keeps what it sends to the database, ends of transactions included.
LISTEN = """
import json, sys
from sqlalchemy import event
from sqlalchemy.engine import Engine

said = []
for end in ("commit", "rollback"):
    event.listen(Engine, end, lambda _, end=end: said.append((end.upper(), ())))

@event.listens_for(Engine, "before_cursor_execute")
def keep(_connection, _cursor, statement, values, _context, many):
    said.extend((statement, one) for one in (values if many else [values]))

from tacklebox.cli.main import run

to = sys.argv.pop(1)
try:
    run()
finally:
    json.dump(said, open(to, "w"))
"""
REPLAY = """
import sqlmodel
import json, sqlite3, sys
from tacklebox.stock.care.aswritten import give_checks

box = sqlite3.connect(sys.argv[1], isolation_level=None)
give_checks(box)
for statement, values in json.load(open(sys.argv[2])):
    if statement not in ("COMMIT", "ROLLBACK") or box.in_transaction:
        box.execute(statement, values).fetchall()
"""


def fill(database: Path, movements: int) -> None:
    """Movements through the box's own rules, until there are so many."""
    with closing(sqlite3.connect(database)) as box:
        give_checks(box)
        box.execute("PRAGMA synchronous = OFF")
        (before,) = box.execute("SELECT count(*) FROM movement").fetchone()
        (items,) = box.execute("SELECT max(id) FROM item").fetchone()
        box.executemany(
            'INSERT INTO movement (item_id, action_id, amount, why, "on", reason)'
            " VALUES (?, 1, ?, 'counted', '2026-03-05', '')",
            ((1 + n % items, 1 if n // items % 2 == 0 else -1) for n in range(movements - before)),
        )
        box.commit()


def make(folder: Path, movements: int) -> Path:
    """A box of ITEMS items, the first of which serve many rigs, with so many movements."""
    make_small_box(folder / "box").engine.dispose()
    make_box(folder, ITEMS - len(CANAL))
    with closing(sqlite3.connect(folder / "box" / DATABASE_NAME)) as box:
        give_checks(box)
        box.execute("PRAGMA synchronous = OFF")
        box.executemany(
            'INSERT INTO movement (item_id, action_id, amount, why, "on", reason)'
            " VALUES (?, 1, 1000000, 'bought', '2026-03-05', '')",
            ((item,) for item in range(1, len(CANAL) + 1)),
        )
        box.commit()
    fill(folder / "box" / DATABASE_NAME, movements)
    return folder / "box"


def listen(folder: Path, words: Sequence[str], to: Path) -> None:
    """Keep what the command sends to the database, on a copy of the box."""
    command = [sys.executable, "-c", LISTEN, str(to), "--box", str(folder), *words]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def prepare(box: Path, words: Sequence[str]) -> list[str]:
    """A box beside for the reference, kept as it is now too; hands back the reference."""
    spare = box.with_name("spare")
    spare.mkdir(exist_ok=True)
    shutil.copyfile(box / DATABASE_NAME, spare / DATABASE_NAME)
    shutil.copyfile(box / DATABASE_NAME, spare / KEPT)
    listen(spare, words, spare / SAID)
    return [sys.executable, "-c", REPLAY, str(spare / DATABASE_NAME), str(spare / SAID)]


def best_of(words: Sequence[str], boxes: Sequence[Path]) -> list[tuple[float, float]]:
    """For each box the best seconds of a command, and of what it sent through bare sqlite3."""
    references = [prepare(box, words) for box in boxes]
    took: list[list[tuple[float, float]]] = [[] for _ in boxes]
    for _ in range(ROUNDS):
        for box, reference, times in zip(boxes, references, took, strict=True):
            spare = box.with_name("spare")
            shutil.copyfile(spare / KEPT, spare / DATABASE_NAME)
            bare = once(reference).seconds
            ours = once([sys.executable, "-m", "tacklebox", "--box", str(box), *words]).seconds
            times.append((ours, bare))
    return [(min(a for a, _ in times), min(b for _, b in times)) for times in took]


def main() -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory() as name:
        boxes = {}
        for movements in (FEW, MANY):
            folder = Path(name) / str(movements)
            folder.mkdir()
            boxes[movements] = make(folder, movements)
        print(f"{'':12}{'movements':>10}{'ours':>10}{'reference':>11}{'ratio':>7}{'growth':>8}")
        for what, words in COMMANDS.items():
            answer = best_of(words, list(boxes.values()))
            for movements, (ours, bare) in zip(boxes, answer, strict=True):
                print(
                    f"{what:12}{movements:>10}{ours * 1000:7.0f} ms{bare * 1000:8.0f} ms"
                    f"{ours / bare:7.2f}{ours / answer[0][0]:8.2f}",
                    flush=True,
                )


if __name__ == "__main__":
    main()
