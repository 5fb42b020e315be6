"""Desks with an invented box, for the tests of what is asked of them."""

from datetime import date
from pathlib import Path

from tacklebox.desk import Desk
from tests.rigs.boxes import make_box

TODAY = date(2026, 3, 5)


def make_desk(folder: Path, *words: str) -> Desk:
    """A desk with a box of one packet of each item, in that order; today is TODAY."""
    made = make_box(folder, *words)
    made.engine.dispose()
    return Desk(folder, today=lambda: TODAY)
