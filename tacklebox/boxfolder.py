"""What a box's folder holds, by name: the database, the angler's own files, and what was set aside."""

from pathlib import Path

DATABASE_NAME = "tacklebox.sqlite3"
READ = ("recipes", "labels", "venues", "matches")  # folders of own files that answers rest on
KINDS = (*READ, "bags")  # of all own files
LABELS_OWED = "labels-owed"  # there while labels are printed of what was just tied
SET_ASIDE = "set-aside"  # copies made before something is replaced, and own files as they were


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
