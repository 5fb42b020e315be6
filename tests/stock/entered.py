"""An item entered for a test."""

from datetime import date

from tacklebox.stock.care.box import Box
from tacklebox.stock.entering import NewItem, add_item
from tacklebox.stock.ledger import begin
from tacklebox.stock.notation import read_notation
from tacklebox.stock.tables import Item

DAY = date(2026, 3, 5)


def add(box: Box, words: str, **more: object) -> Item:
    with box.writing() as session:
        new = NewItem(read_notation(words), **more)  # type: ignore[arg-type]
        return add_item(session, begin(session, "add", DAY), new)
