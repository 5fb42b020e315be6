"""Copies to the folder that is set for them, as a rule on another drive: stock, rigs and own files."""

import re
import shutil
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from tacklebox.desk.care import Copied
from tacklebox.desk.opening import Desk
from tacklebox.desk.settings import settings
from tacklebox.errors import AskedWronglyError, CannotBeDoneError

_NAMED = re.compile(r"^tacklebox-(\d{4}-\d{2}-\d{2})-(\d+)$")
DATABASE = "stock-and-rigs.sqlite3"
NOTED = "copied-elsewhere.txt"


@dataclass(frozen=True)
class CopiesElsewhere:
    """The folder that is set, "" where none is; when the last copy there was made, None where none was.

    ``is_there``: the folder can be reached now, its drive is plugged in. ``same_drive``: it lies on the
    box's own drive, and so goes with it.
    """

    folder: str
    last: date | None
    is_there: bool
    same_drive: bool


@dataclass(frozen=True)
class CopyToPutBack:
    """A copy that lies in the box's folder or in that of copies, the newest first in a list."""

    path: Path
    on: date


def elsewhere(desk: Desk) -> CopiesElsewhere:
    """How it stands with copies to another drive."""
    said = settings(desk).copies
    if not said:
        return CopiesElsewhere("", None, is_there=False, same_drive=False)
    folder, box = Path(said).expanduser(), desk.box.folder
    try:
        same = folder.stat().st_dev == box.stat().st_dev
    except OSError:
        return CopiesElsewhere(said, _noted(box), is_there=False, same_drive=False)
    days = [date.fromisoformat(found[1]) for found in _copies_in(folder)]
    return CopiesElsewhere(said, max(days, default=None), is_there=True, same_drive=same)


def copy_there(desk: Desk, *, rescue: bool = False) -> Copied:
    """Copy stock, rigs and own files to a new folder in the one that is set; ``rescue`` as in ``care.copy``.

    Raises AskedWronglyError where none is set, CannotBeDoneError where it cannot be written.
    """
    from tacklebox.boxfolder import KINDS, SET_ASIDE
    from tacklebox.desk.care import copy

    said = settings(desk).copies
    if not said:
        raise AskedWronglyError("no folder is set for copies.", field="copies", see="settings.set")
    folder, today = Path(said).expanduser(), desk.today()
    half = to = folder
    try:
        if not folder.is_dir():
            raise FileNotFoundError(2, "it is not there; is its drive plugged in?")
        numbers = [int(found[2]) for found in _copies_in(folder) if found[1] == str(today)]
        to = folder / f"tacklebox-{today}-{max(numbers, default=0) + 1}"
        half = to.with_name(f".{to.name}.half")
        shutil.rmtree(half, ignore_errors=True)  # of one that was killed
        half.mkdir()
        copied = copy(desk, half / DATABASE, rescue=rescue)
        for kind in KINDS:
            for file in sorted((desk.box.folder / kind).glob("*.toml")):
                (half / kind).mkdir(exist_ok=True)
                shutil.copyfile(file, half / kind / file.name)
        half.rename(to)
        noted = desk.box.folder / SET_ASIDE
        noted.mkdir(exist_ok=True)
        (noted / NOTED).write_text(f"{today}\n", encoding="utf-8")
    except OSError as error:
        raise CannotBeDoneError(
            f"the copy cannot be written: {error.strerror}.",
            where=str(folder),
            right="Plug its drive in, or set another folder.",
            see="settings.set",
        ) from None
    finally:
        if half != folder:
            shutil.rmtree(half, ignore_errors=True)
    return Copied(to, copied.bytes, (), copied.not_saved)


def to_put_back(desk: Desk) -> tuple[CopyToPutBack, ...]:
    """The copies that can be put back: set aside in the box's folder, and in that of copies."""
    from tacklebox.boxfolder import DATABASE_NAME, SET_ASIDE

    box, said = desk.box.folder, settings(desk).copies
    found = [
        *(box / SET_ASIDE).glob("[!.]*.sqlite3"),
        *(path for path in box.glob("[!.]*.sqlite3") if path.name != DATABASE_NAME),
    ]
    if said:
        found += Path(said).expanduser().glob(f"tacklebox-*/{DATABASE}")
    dated = [(path.stat().st_mtime, path) for path in found if path.is_file()]
    return tuple(
        CopyToPutBack(path, date.fromtimestamp(at)) for at, path in sorted(dated, reverse=True)
    )


def _copies_in(folder: Path) -> list[re.Match[str]]:
    found = (_NAMED.match(path.name) for path in folder.iterdir())
    return [one for one in found if one]


def _noted(box: Path) -> date | None:
    """When the last one was made, by the box's own note of it."""
    from tacklebox.boxfolder import SET_ASIDE

    try:
        return date.fromisoformat((box / SET_ASIDE / NOTED).read_text(encoding="utf-8").strip())
    except (OSError, ValueError):
        return None
