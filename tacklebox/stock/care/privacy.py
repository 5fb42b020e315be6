"""A box is its user's alone: boxes of older programs, and folders that were there before, are made so."""

import os
import stat
from pathlib import Path

from tacklebox.boxfolder import DATABASE_NAME, KINDS, SET_ASIDE

_OF_OTHERS = stat.S_IRWXG | stat.S_IRWXO
_FOLDERS = (*KINDS, SET_ASIDE)


def keep_private(folder: Path) -> bool:
    """Take away what others may do with a box's folder and its database; whether others could read it before.

    A folder that has other folders in it is more than a box's: it keeps its rights, and the box's own are
    taken in hand one by one. What cannot be changed stays as it is.
    """
    if os.name != "posix":
        return False
    could_read = _is_open(folder)
    database_closed = _close(folder / DATABASE_NAME)
    if not could_read:
        return False
    if _has_other_folders(folder):
        for name in _FOLDERS:
            _close(folder / name)
        return database_closed
    return _close(folder)


def _has_other_folders(folder: Path) -> bool:
    try:
        return any(path.is_dir() and path.name not in _FOLDERS for path in folder.iterdir())
    except OSError:
        return True


def _is_open(path: Path) -> bool:
    """Whether it is this user's, and others may do anything with it; a folder for everyone is left alone."""
    try:
        found = path.stat()
    except OSError:
        return False
    for_all = bool(found.st_mode & stat.S_ISVTX)
    return found.st_uid == os.geteuid() and bool(found.st_mode & _OF_OTHERS) and not for_all


def _close(path: Path) -> bool:
    if not _is_open(path):
        return False
    try:
        path.chmod(stat.S_IMODE(path.stat().st_mode) & ~_OF_OTHERS)
    except OSError:
        return False
    return True
