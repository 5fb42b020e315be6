"""A small box of the schema of today, as SQL text, for the tests of later days.

``python -m tests.stock.keep_box`` writes it: once for each version of the schema, before it is released.
"""

import sqlite3
import tempfile
from contextlib import closing
from pathlib import Path

from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import mark_labelled, mark_lost, strip_rigs
from tacklebox.stock.care.schema import APPLICATION_ID, SCHEMA_VERSION
from tacklebox.stock.care.undo import undo_last
from tacklebox.stock.entering import edit_item
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin
from tacklebox.stock.measuring import record_pull
from tests.rigs.boxes import DAY, add, canal_rig, fine_hooklength, make_box

BOXES = Path(__file__).with_name("boxes")


def main() -> None:
    """Write boxes/schema-N.sql."""
    with tempfile.TemporaryDirectory() as folder:
        box = make_box(Path(folder))
        strip_rigs(box, [rig.code for rig in tie(box, canal_rig(), 1, DAY).rigs], DAY)
        tie(box, canal_rig(), 1, DAY)
        mark_lost(box, [made.code for made in tie(box, fine_hooklength(), 1, DAY).made], DAY)
        tie(box, fine_hooklength(), 2, DAY)
        undo_last(box, DAY)
        add(box, "hook 22 barbless spade pack 10", name="undone")
        undo_last(box, DAY)
        with box.writing() as session:
            record_pull(session, find(session, "2"), 1.5, "", DAY)
        with box.writing() as session:
            begin(session, "edit", DAY)
            edit_item(session, find(session, "2"), place="drawer 2", minimum="20 m")
        mark_labelled(box, ["A02R"], DAY, {"a4-65": 2})
        with closing(sqlite3.connect(box.database)) as connection:
            dump = "\n".join(connection.iterdump())
    pragmas = (
        f"PRAGMA application_id = {APPLICATION_ID};\nPRAGMA user_version = {SCHEMA_VERSION};\n"
    )
    (BOXES / f"schema-{SCHEMA_VERSION}.sql").write_text(f"{pragmas}{dump}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
