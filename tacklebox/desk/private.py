"""A folder for what is nobody else's to read, while the pages are served."""

import os
import re
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

BEGINS = "tacklebox-open-"
_OURS = (re.compile(rf"{BEGINS}[a-z0-9_]{{8}}"),)


@contextmanager
def private_folder() -> Iterator[Path]:
    """A folder that only its owner can read; not a hidden one, which some browsers may not read.

    One that a kill left is taken away first.
    """
    from tacklebox.halves import clear_abandoned, in_hand

    home = Path.home()
    base = home if os.access(home, os.W_OK) else Path(tempfile.gettempdir())
    clear_abandoned(base, _OURS)
    private = Path(tempfile.mkdtemp(prefix=BEGINS, dir=base))  # made with 0700
    try:
        with in_hand(private):
            yield private
    finally:
        shutil.rmtree(private, ignore_errors=True)
