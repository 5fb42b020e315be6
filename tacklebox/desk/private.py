"""A folder for what is nobody else's to read, while the pages are served."""

import os
import re
import secrets
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


def write_private(file: Path, text: str) -> None:
    """Write a file that only its owner can read, whole, over an older one; one that a kill left half
    written is taken away first. Raises OSError."""
    from tacklebox.halves import clear_abandoned, in_hand

    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    clear_abandoned(file.parent)
    half = file.with_name(f".{secrets.token_hex(16)}.half")
    try:
        handle = os.open(half, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(handle, "w", encoding="utf-8") as written, in_hand(half):
            written.write(text)
        half.replace(file)
    finally:
        half.unlink(missing_ok=True)
