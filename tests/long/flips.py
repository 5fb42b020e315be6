"""Single cells of a box made something else behind its back, as a slip, a failing disk or a strange program
would; ``python -m tests.long.flips`` says which of them the audit does not find.
"""

import random
import sqlite3
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from unittest.mock import patch

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.stock.care.aswritten import KEPT
from tacklebox.stock.care.audit import audit_open
from tacklebox.stock.care.triggers import RULES
from tests.stock.full_box import make_full_box

Cell = str | bytes | int | float | None


@dataclass(frozen=True)
class Flip:
    """A cell that becomes something else."""

    table: str
    row: int | str
    column: str
    was: Cell
    becomes: Cell

    @property
    def place(self) -> str:
        """The column that it lies in."""
        return f"{self.table}.{self.column}"


def every_flip(box: sqlite3.Connection, rows_of_each: int = 3) -> Iterator[Flip]:
    """Each column of each table in some rows, each in every way that its kind of cell knows."""
    for table, column in columns(box):
        query = f'SELECT {key_of(table)}, "{column}" FROM "{table}" ORDER BY 1'
        cells = box.execute(query).fetchall()
        filled = [cell for cell in cells if cell[1] not in (None, "", 0)] or cells
        step = max(1, len(filled) // rows_of_each)
        for row, was in filled[::step][:rows_of_each]:
            for becomes in ways(was, [cell for _, cell in cells]):
                yield Flip(table, row, column, was, becomes)


def random_flips(box: sqlite3.Connection, count: int, seed: int) -> Iterator[Flip]:
    """Any cell of any row, in any way."""
    chance = random.Random(seed)
    every = [
        (table, column, row)
        for table, column in columns(box)
        for (row,) in box.execute(f'SELECT {key_of(table)} FROM "{table}"').fetchall()
    ]
    for _ in range(count):
        table, column, row = chance.choice(every)
        others = [cell for (cell,) in box.execute(f'SELECT "{column}" FROM "{table}"')]
        query = f'SELECT "{column}" FROM "{table}" WHERE {key_of(table)} = ?'
        (was,) = box.execute(query, (row,)).fetchone()
        becomes = chance.choice(list(ways(was, others)))
        yield Flip(table, row, column, was, becomes)


def columns(box: sqlite3.Connection) -> list[tuple[str, str]]:
    """Every column of every table of ours."""
    tables = box.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
    return [
        (table, about[1])
        for (table,) in tables
        if not table.startswith("sqlite_")
        for about in box.execute(f'PRAGMA table_info("{table}")')
    ]


def key_of(table: str) -> str:
    """What tells the rows of a table apart."""
    return "table_name || ' ' || row_key" if table == KEPT else "rowid"


def ways(was: Cell, others: list[Cell]) -> Iterator[Cell]:
    """What a cell may become: a little other, much other, another row's, another kind of thing, nothing."""
    every: list[Cell] = [None, "x?", *[other for other in others if other != was][:1]]
    if isinstance(was, int):
        every += [was + 1, was - 1, -was or 7, was * 10 or 10, was + 0.5]
    elif isinstance(was, float):
        every += [was * 1.1, was * 1000, -was or 0.5, was / 10, "much"]
    elif isinstance(was, bytes):
        every += [was[1:], bytes([was[0] ^ 1, *was[1:]]), b""]
    elif was is None:
        every += [1, 0.5, "2026-03-05"]
    else:
        every += list(_of_text(was))
    yield from dict.fromkeys(one for one in every if one != was)


def _of_text(was: str) -> Iterator[str]:
    digit = next((at for at, letter in enumerate(was) if letter.isdigit()), None)
    if digit is not None:
        yield f"{was[:digit]}{(int(was[digit]) + 1) % 10}{was[digit + 1 :]}"
    try:
        yield str(date.fromisoformat(was) + timedelta(days=1))
    except ValueError:
        yield was[:-1]
        yield f"{was}o"
        yield "" if was else "\0"


def without_rules(database: Path) -> sqlite3.Connection:
    """The box in memory, where nothing guards it."""
    box = sqlite3.connect(":memory:", isolation_level=None)
    box.deserialize(database.read_bytes())
    box.execute("PRAGMA ignore_check_constraints = ON")
    for rule in RULES:
        box.execute(f"DROP TRIGGER {rule.split()[2]}")
    return box


def is_found_by_its_meaning(box: sqlite3.Connection, flip: Flip) -> bool:
    """``is_found``, though nobody kept the checks of what was written."""
    with patch("tacklebox.stock.care.audit.not_as_written", lambda _box: ()):
        return is_found(box, flip)


def is_found(box: sqlite3.Connection, flip: Flip) -> bool:
    """Whether the audit finds the flip, or the database does not even hold it; taken back at once."""
    box.execute("BEGIN")
    try:
        try:
            box.execute(
                f'UPDATE "{flip.table}" SET "{flip.column}" = ? WHERE {key_of(flip.table)} = ?',
                (flip.becomes, flip.row),
            )
        except sqlite3.IntegrityError:
            return True
        query = f'SELECT "{flip.column}" FROM "{flip.table}" WHERE {key_of(flip.table)} = ?'
        (now,) = box.execute(query, (flip.row,)).fetchone() or (object(),)
        if now == flip.was:
            return True  # the column's own kind made it what it was
        faults = audit_open(box, Snapshot.from_json).faults
        return any(not fault.where.startswith("rule ") for fault in faults)
    finally:
        box.execute("ROLLBACK")


def main() -> None:
    """Say how many flips there are, and which are not found."""
    with tempfile.TemporaryDirectory(dir=sys.argv[1] if sys.argv[1:] else None) as folder:
        database = make_full_box(Path(folder, "box")) / DATABASE_NAME
        with closing(without_rules(database)) as box:
            for name, flips in (
                ("each kind of cell", every_flip(box)),
                ("at random", random_flips(box, 1000, 1)),
            ):
                tried, missed = Counter[str](), Counter[str]()
                for flip in flips:
                    tried[flip.place] += 1
                    if not is_found(box, flip):
                        missed[flip.place] += 1
                        if name.startswith("each"):
                            print(
                                f"  {flip.place} {flip.row}: {flip.was!r:.40} → {flip.becomes!r:.40}"
                            )
                print(f"{name}: {tried.total()} flips, {missed.total()} not found")
                for place, count in missed.most_common():
                    print(f"  {place}: {count} of {tried[place]}")


if __name__ == "__main__":
    main()
