"""What a box's folder holds, by name: the database, the angler's own files, and what was set aside."""

import os
import stat
from pathlib import Path

from tacklebox.errors import AskedWronglyError

DATABASE_NAME = "tacklebox.sqlite3"
READ = ("recipes", "labels", "venues", "matches")  # folders of own files that answers rest on
KINDS = (*READ, "bags")  # of all own files
LABELS_OWED = "labels-owed"  # there while labels are printed of what was just tied
_MOST_NOTED = 100  # bytes of a note
SET_ASIDE = "set-aside"  # copies made before something is replaced, and own files as they were


def at_home(folder: Path, field: str) -> Path:
    """The folder, "~" in it being a home. Raises AskedWronglyError for that of somebody unknown here."""
    try:
        return folder.expanduser()
    except RuntimeError:
        raise AskedWronglyError(
            f'"{folder.parts[0]}" is the home of nobody here.',
            field=field,
            right="Write the whole name of the folder.",
        ) from None


def newest_copy(folder: Path) -> Path | None:
    """The newest copy of the database that lies in a box's folder; None where there is none."""
    found = [
        path
        for path in (*(folder / SET_ASIDE).glob("[!.]*.sqlite3"), *folder.glob("[!.]*.sqlite3"))
        if path.name != DATABASE_NAME and path.is_file() and path.stat().st_size > 1
    ]
    return max(found, key=lambda path: path.stat().st_mtime, default=None)


def has_own_files(folder: Path) -> bool:
    """Whether there is anything of a box beside its database: files of the angler's own, or copies."""
    own = (path for kind in KINDS for path in (folder / kind).glob("*.toml"))
    return next(own, None) is not None or newest_copy(folder) is not None


def read_note(note: Path) -> str:
    """What a small file of the box's folder says; "" where there is none, or something else in its place."""
    try:
        if not stat.S_ISREG(note.stat().st_mode):  # a pipe would wait for ever
            return ""
        with note.open("rb") as file:
            return file.read(_MOST_NOTED).decode("ascii", "replace").strip()
    except OSError:
        return ""


def write_note(note: Path, said: str) -> None:
    """Let a small file of the box's folder say that; nothing is written through a pipe or link that stands
    there. Raises OSError."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_TRUNC
    flags |= getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_NOFOLLOW", 0)
    with os.fdopen(os.open(note, flags, 0o600), "w", encoding="ascii") as file:
        file.write(f"{said}\n")
