"""Copies to the folder that is set for them, as a rule on another drive: stock, rigs and own files."""

import re
import shutil
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from uuid import uuid4

from tacklebox.boxfolder import KINDS, SET_ASIDE, at_home, read_note, write_note
from tacklebox.desk.care import Copied, FaultFound
from tacklebox.desk.opening import Desk
from tacklebox.desk.settings import settings
from tacklebox.errors import AskedWronglyError, CannotBeDoneError

_NAMED = re.compile(r"^tacklebox-(\d{4}-\d{2}-\d{2})-(\d+)$", re.ASCII)
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
    folder, box = _folder(said), desk.box.folder
    try:
        same = folder.stat().st_dev == box.stat().st_dev
        days = [day for day, _ in _copies_in(folder)]
    except OSError:
        return CopiesElsewhere(said, _noted(box), is_there=False, same_drive=False)
    return CopiesElsewhere(said, max(days, default=None), is_there=True, same_drive=same)


def copy_there(desk: Desk, *, rescue: bool = False) -> Copied:
    """Copy stock, rigs and own files to a new folder in the one that is set; ``rescue`` as in ``care.copy``.

    What stands among the own files and is none, like a pipe, is not copied, and told.
    Raises AskedWronglyError where none is set, CannotBeDoneError where it cannot be written.
    """
    from tacklebox.desk.care import copy
    from tacklebox.halves import clear_abandoned, in_hand

    said = settings(desk).copies
    if not said:
        raise AskedWronglyError("no folder is set for copies.", field="copies", see="settings.set")
    folder, today = _folder(said), desk.today()
    half = folder / f".{uuid4().hex}.half"
    try:
        if not folder.is_dir():
            raise FileNotFoundError(2, "it is not there; perhaps its drive is not plugged in")
        numbers = [number for day, number in _copies_in(folder) if day == today]
        to = folder / f"tacklebox-{today}-{max(numbers, default=0) + 1}"
        clear_abandoned(folder)
        half.mkdir()
        with in_hand(half):
            copied = copy(desk, half / DATABASE, rescue=rescue)
            passed_by = tuple(_copy_own(desk.box.folder, half))
            half.rename(to)
    except OSError as error:
        raise CannotBeDoneError(
            f"the copy cannot be written: {error.strerror}.",
            where=str(folder),
            right="Plug its drive in, or set another folder.",
            see="settings.set",
        ) from None
    finally:
        shutil.rmtree(half, ignore_errors=True)
    with suppress(OSError):  # the copy is made
        noted = desk.box.folder / SET_ASIDE
        noted.mkdir(exist_ok=True)
        write_note(noted / NOTED, str(today))
    return Copied(to, copied.bytes, (), (*copied.not_saved, *passed_by))


def _copy_own(box: Path, to: Path) -> Iterator[FaultFound]:
    """Copy the angler's own files; tells what is none or cannot be read. Raises OSError where one cannot be
    written."""
    for kind in KINDS:
        for path in sorted((box / kind).glob("*.toml")):
            where = f"{kind}/{path.name}"
            if not path.is_file() or not path.resolve().is_relative_to((box / kind).resolve()):
                yield FaultFound(where, "it is no file of this folder, so it was not copied")
                continue
            try:
                own = path.open("rb")
            except OSError as error:
                yield FaultFound(where, f"it cannot be read: {error.strerror}")
                continue
            (to / kind).mkdir(exist_ok=True)
            with own, (to / where).open("xb") as file:
                shutil.copyfileobj(own, file)


def to_put_back(desk: Desk) -> tuple[CopyToPutBack, ...]:
    """The copies that can be put back: set aside in the box's folder, and in that of copies."""
    from tacklebox.boxfolder import DATABASE_NAME

    box, said = desk.box.folder, settings(desk).copies
    found = [
        *(box / SET_ASIDE).glob("[!.]*.sqlite3"),
        *(path for path in box.glob("[!.]*.sqlite3") if path.name != DATABASE_NAME),
    ]
    if said:
        found += _folder(said).glob(f"tacklebox-*/{DATABASE}")
    dated = [(path.stat().st_mtime, path) for path in found if path.is_file()]
    return tuple(
        CopyToPutBack(path, date.fromtimestamp(at)) for at, path in sorted(dated, reverse=True)
    )


def _folder(said: str) -> Path:
    """The folder that is set; it may be in the home of somebody who is no longer known here."""
    try:
        return at_home(Path(said), "copies")
    except AskedWronglyError:
        return Path(said)


def _copies_in(folder: Path) -> Iterator[tuple[date, int]]:
    """The day and number of each copy in a folder. Raises OSError."""
    for path in folder.iterdir():
        if named := _NAMED.match(path.name):
            with suppress(ValueError):  # a day that is none: somebody else's folder
                yield date.fromisoformat(named[1]), int(named[2])


def _noted(box: Path) -> date | None:
    """When the last one was made, by the box's own note of it."""
    with suppress(ValueError):
        return date.fromisoformat(read_note(box / SET_ASIDE / NOTED))
    return None
