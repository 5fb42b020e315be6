"""Files and folders that are half written: marked as in hand while they are, cleared once abandoned.

A kill leaves them. What is in hand bears a lock of the system that ends with its process, whatever ends it;
the next that writes to the same folder takes away what bears none.
"""

import os
import re
import shutil
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

try:
    import fcntl
except ImportError:  # a system without such locks: there halves go by their age
    fcntl = None  # type: ignore[assignment]

YOUNG_S, OLD_S = 60, 24 * 3600  # made just now and perhaps not locked yet; old where nothing locks
# What holds a whole box, or a file of one's own, before pages and labels.
HALVES = (
    re.compile(r"\.(?:[0-9a-f]{32}|[0-9a-f]{12})\.(?:half|sqlite3)(?:-journal)?"),
    re.compile(r"\.printing-[0-9a-f]{12}(?:\.\w{1,8})?"),
)


@contextmanager
def in_hand(half: Path) -> Iterator[None]:
    """While this lasts, the file or folder that is there is not taken for an abandoned one."""
    handle = -1
    with suppress(OSError):
        handle = os.open(half, os.O_RDONLY)
        if fcntl is not None:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    try:
        yield
    finally:
        if handle >= 0:
            os.close(handle)


def clear_abandoned(folder: Path, names: "Sequence[re.Pattern[str]]" = HALVES) -> None:
    """Take away what was left half written in the folder; what cannot be taken away stays."""
    with suppress(OSError):
        present = [path.name for path in folder.iterdir()]
        for pattern in names:
            for name in filter(pattern.fullmatch, present):
                if _is_abandoned(folder / name):
                    _remove(folder / name)


def _is_abandoned(half: Path) -> bool:
    try:
        age = time.time() - half.lstat().st_mtime
        if half.is_symlink() or age < YOUNG_S:
            return False
        if fcntl is None:
            return age > OLD_S
        handle = os.open(half, os.O_RDONLY | os.O_NONBLOCK)
    except OSError:
        return False
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    finally:
        os.close(handle)
    return True


def _remove(half: Path) -> None:
    if half.is_dir():
        shutil.rmtree(half, ignore_errors=True)
    else:
        with suppress(OSError):
            half.unlink()
