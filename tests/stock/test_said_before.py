"""Figures of boxes of before get the words that they plainly came with."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import open_box
from tacklebox.stock.care.migrations.v4 import _inches, _ounces, _pounds
from tacklebox.stock.finding import load
from tacklebox.stock.naming.rows import of_row
from tacklebox.stock.naming.writing import write
from tacklebox.stock.tables import FIGURES
from tests.stock.test_upgrade import old_box

LB, OZ = 0.45359237, 28.349523125  # NIST SP 811, appendix B


@pytest.mark.parametrize(
    ("kg", "said"),
    [
        (2.2 * LB, "2.2 lb"),
        (4 * LB, "4 lb"),
        (12 * LB / 16, "0.75 lb"),
        (23 * LB / 16, "1 lb 7 oz"),
        (0.998, ""),  # said in kg
        (1.9, ""),
        (0.7234567, ""),  # of no unit that it plainly came from
    ],
)
def test_a_strain_that_was_said_in_pounds(kg: float, said: str) -> None:
    assert _pounds(kg) == said


@pytest.mark.parametrize(
    ("g", "said"),
    [(round(OZ / 2, 3), "1/2 oz"), (round(1.5 * OZ, 3), "1 1/2 oz"), (30.0, ""), (21.3, "")],
)
def test_a_mass_that_was_said_in_ounces(g: float, said: str) -> None:
    assert _ounces(g) == said


def test_a_winder_that_was_said_in_inches() -> None:
    assert (_inches(177.8), _inches(180.0)) == ("7 in", "")


# An item as version 3 kept it: kind, words, size of a packet, its row.
BEFORE = (
    ("line", "nylon 0.10 mm 0.998 kg", 91440, ("nylon", 0.10, 2.2 * LB, "")),
    ("line", "gel-spun 0.08 mm 5.5 kg", 150_000, ("gel-spun", 0.08, 5.5, "")),
    ("feeder", "bomb 21.262 g", 1, ("bomb", 21.262, None)),
    ("part", "stop 1 mm", 20, ("stop", "1 mm", None)),
)
NOW = ("nylon 0.10 mm 2.2 lb", "braid 0.08 mm 5.5 kg", "bomb 3/4 oz", "float stop 1 mm")


def test_an_older_box_is_written_as_it_was_said(tmp_path: Path) -> None:
    database = old_box(tmp_path / "old", 3)
    with closing(sqlite3.connect(database)) as connection:
        for kind, words, pack, row in BEFORE:
            number = connection.execute(
                "INSERT INTO item (kind, words, name, place, pack_size, minimum, on_hand,"
                " last_movement, added_on, withdrawn) VALUES (?, ?, ?, '', ?, 0, 0, 0, '2026-03-05', 0)",
                (kind, words, words, pack),
            ).lastrowid
            marks = ", ".join("?" for _ in row)
            connection.execute(f"INSERT INTO {kind} VALUES (?, {marks})", (number, *row))
        connection.commit()
    box = open_box(database.parent)
    assert audit(database).faults == ()
    with box.reading() as session:
        items = load(session)
        those = [item for item in items if item.words in NOW]
        assert tuple(item.name for item in those) == NOW
        assert those[0].pack_said == "100 yd"
        for item in items:
            figures = session.get_one(FIGURES[item.kind], item.id)
            assert item.words == write(of_row(figures, item.note)), item.words
