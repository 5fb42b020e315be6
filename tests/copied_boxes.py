"""Boxes that are made once in a run, and copied for each test that begins with one."""

import os
import shutil
from contextlib import suppress
from pathlib import Path

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.stock.care import schema
from tacklebox.stock.care.aswritten import checks_of
from tacklebox.stock.care.box import Box, open_box


class Original:
    """The database of a box as it was when this was made of it."""

    def __init__(self, box: Box) -> None:
        mark = box.mark()
        box.close()
        self._data = box.database.read_bytes()
        self._marks = (mark.box, mark.stamp)

    def copy(self, database: Path) -> None:
        """Write it, with marks of its own; where that cannot be done, the database stays empty."""
        marks = (schema.new_stamp(), schema.new_stamp())
        data = self._data.replace(checks_of(1, *self._marks), checks_of(1, *marks))
        for mark, new in zip(self._marks, marks, strict=True):
            data = data.replace(mark.encode(), new.encode())
        try:
            database.write_bytes(data)
        except OSError:
            with suppress(OSError):
                os.truncate(database, 0)


def copy_of(made: Path, folder: Path) -> Box:
    """A copy of a box that nobody has open, with its files and its marks, opened."""
    return open_box(Path(shutil.copytree(made, folder)))


def is_empty(folder: Path) -> bool:
    """Whether a box made in the folder would be a new one."""
    database = folder / DATABASE_NAME
    return not database.exists() or database.stat().st_size == 0
