"""Files that are written for the angler: whole or not at all, and never over what is not of their sort.

No output falls on a box's own files, however it is spelled: they are known by device and inode. A box that
is open in this process is known by ``guard``, any other by its database in a folder above the output. Such
a file is not even opened: closing it would let go of the locks that SQLite holds on it.
"""

import csv
import io
import os
import secrets
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO
from unicodedata import normalize
from weakref import WeakKeyDictionary

from tacklebox.boxfolder import DATABASE_NAME, KINDS, SET_ASIDE
from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.halves import clear_abandoned, in_hand

Target = Path | BinaryIO  # where a file goes: a place on the disk, or any stream
Identity = tuple[int, int]  # device and inode
_MOST_READ = 4096  # bytes of an older file that tell what sort it is
_guarded: "WeakKeyDictionary[object, Path]" = WeakKeyDictionary()


@dataclass(frozen=True)
class Form:
    """A sort of file, and whether one that begins with these bytes is of it."""

    name: str
    is_one: Callable[[bytes], bool]


def _is_svg(start: bytes) -> bool:
    plain = start.removeprefix(b"\xef\xbb\xbf").lstrip()
    return plain.startswith((b"<?xml", b"<!", b"<svg")) and b"<svg" in plain


PDF = Form("PDF", lambda start: start.startswith(b"%PDF-"))
SVG = Form("SVG", _is_svg)
WATER_MARK = '<meta name="generator" content="Tacklebox, at the water">'
WATER_PAGE = Form("page for the water", lambda start: WATER_MARK.encode() in start)


def csv_with(*headings: Sequence[str]) -> Form:
    """A CSV whose first row is one of these, whatever separator a spreadsheet gave it."""
    known = [list(heading) for heading in headings]

    def is_one(start: bytes) -> bool:
        first = start.decode("utf-8-sig", errors="replace").partition("\n")[0].strip("\r")
        return any(
            next(csv.reader([first], delimiter=separator), []) in known for separator in ",;\t"
        )

    return Form("CSV of this list", is_one)


@dataclass(frozen=True)
class Output:
    """A file that is to be written, whether an older one may be replaced, and the field that named it."""

    to: Target
    form: Form
    replace: bool = False
    field: str = ""


def guard(box: object, folder: Path) -> None:
    """Let no output fall on the own files of the box in that folder, as long as ``box`` lives."""
    _guarded[box] = folder


def try_outputs(outputs: Sequence[Output]) -> None:
    """Try whether all of these could be written, and leave nothing behind; before a ledger is written.

    Raises as ``write_aside`` would, and AskedWronglyError where two of them are one file.
    """
    for number, output in enumerate(outputs):
        if any(_is_same(output.to, other.to) for other in outputs[:number]):
            where = str(output.to) if isinstance(output.to, Path) else ""
            raise AskedWronglyError(
                "two files cannot go to one place.",
                where=where,
                field=output.field,
                right="Name two.",
            )
    for output in outputs:
        if isinstance(output.to, Path):
            _refuse(output.to, output.form, overwrite=output.replace)
            with _disk_faults_at(output.to):
                aside = _aside(output.to)
                os.close(os.open(aside, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o666))
                aside.unlink()


@contextmanager
def write_aside(target: Target, form: Form, *, overwrite: bool = False) -> Iterator[BinaryIO]:
    """An empty file to write to, which reaches the target when all went well, and is gone otherwise.

    It may be begun anew as often as is wanted. Raises AskedWronglyError for a file that is there
    already and may not be replaced or is of another sort, for a box's own, and for what is there and
    is no plain file; CannotBeDoneError if the disk does not allow it.
    """
    if not isinstance(target, Path):
        held = io.BytesIO()
        yield held
        target.write(held.getvalue())
        return
    _refuse(target, form, overwrite=overwrite)
    clear_abandoned(target.parent)
    aside = _aside(target)
    with _disk_faults_at(target):
        try:
            handle = os.open(aside, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o666)
            with in_hand(aside):
                with os.fdopen(handle, "w+b") as file:
                    yield file
                if target.exists():
                    _refuse(target, form, overwrite=overwrite)  # another may have come meanwhile
                    aside.replace(target)
                else:
                    name_new(aside, target)
        except FileExistsError:
            raise _exists_already(target) from None
        finally:
            aside.unlink(missing_ok=True)


def name_new(half: Path, to: Path) -> None:
    """Give a whole file its name. Raises FileExistsError where a file of it came meanwhile."""
    try:
        os.link(half, to)
    except FileExistsError:
        raise
    except OSError:  # the FAT of a stick and some network drives know no links
        to.open("xb").close()
        try:
            half.replace(to)
        except OSError:
            to.unlink()
            raise
    with suppress(OSError):  # not every system can
        folder = os.open(to.parent, os.O_RDONLY)
        try:
            os.fsync(folder)  # the name too outlives a power cut
        finally:
            os.close(folder)


def refuse_own(target: Path) -> None:
    """Raise AskedWronglyError where the target is a file of a box, or would be taken for one."""
    folders = [_identity(parent) for parent in _up(Path(os.path.realpath(target.parent)))]
    at = _identity(target)
    for box in _boxes(target):
        below = _identity(box)
        kept = {_identity(box / kind) for kind in (*KINDS, SET_ASIDE)} - {None}
        is_database = folders[0] == below and target.name.casefold().startswith(DATABASE_NAME)
        if is_database or kept & set(folders) or (at and at in _own_files(box)):
            raise AskedWronglyError(
                "this is one of your box's own files, or would be taken for one; it was left as it is.",
                where=str(target),
                right="Name another place.",
            )


def _boxes(target: Path) -> Iterable[Path]:
    """The boxes that are open, and one that the target lies in."""
    yield from list(_guarded.values())
    for parent in _up(Path(os.path.realpath(target.parent))):
        if (parent / DATABASE_NAME).exists():
            yield parent


def _up(folder: Path) -> Iterator[Path]:
    yield folder
    yield from folder.parents


def _own_files(box: Path) -> set[Identity | None]:
    database = Path(os.path.realpath(box / DATABASE_NAME))
    found = [
        database,
        *(database.with_name(f"{database.name}-{e}") for e in ("journal", "wal", "shm")),
    ]
    for kind in (*KINDS, SET_ASIDE):
        found += (box / kind).rglob("*")
    return {_identity(path) for path in found}


def _identity(path: Path) -> Identity | None:
    """Device and inode, of what a link leads to; None where there is nothing."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _is_same(one: Target, other: Target) -> bool:
    """Whether both are one file, or would be, also on a disk that takes capitals for small letters."""
    if not (isinstance(one, Path) and isinstance(other, Path)):
        return one is other
    if (at := _identity(one)) and at == _identity(other):
        return True
    names = {normalize("NFC", path.name).casefold() for path in (one, other)}
    return len(names) == 1 and _identity(one.parent) == _identity(other.parent)


def _refuse(target: Path, form: Form, *, overwrite: bool) -> None:
    with _disk_faults_at(target):  # a name may be too long to be looked for
        refuse_own(target)
        _refuse_no_file(target)
        if not target.exists():
            return
        if not overwrite:
            raise _exists_already(target)
        with target.open("rb") as file:
            start = file.read(_MOST_READ)
    if start and not form.is_one(start):
        raise AskedWronglyError(
            f"the file that is there is no {form.name}; it was left as it is.",
            where=str(target),
            right="Name another.",
        )


def _exists_already(target: Path) -> AskedWronglyError:
    return AskedWronglyError(
        "the file is there already; it was left as it is.",
        where=str(target),
        right="Name another.",
        see="output.replace",
    )


def _refuse_no_file(target: Path) -> None:
    """A file would take the place of a device, a pipe or a link, not be written into it."""
    if target.is_symlink():
        what = "a link"
    elif target.is_dir():
        what = "a folder"
    elif target.exists() and not target.is_file():
        what = "a device or pipe"
    else:
        return
    raise AskedWronglyError(f"this is {what}.", where=str(target), right="Name a file.")


def _aside(target: Path) -> Path:
    return target.with_name(f".printing-{secrets.token_hex(6)}{target.suffix}")


@contextmanager
def _disk_faults_at(target: Path) -> Iterator[None]:
    """What the disk does not allow, in words."""
    try:
        yield
    except FileExistsError:
        raise
    except OSError as error:
        raise CannotBeDoneError(
            f"the file cannot be written: {error.strerror}.",
            where=str(target),
            right="Name a place that may be written and has room.",
        ) from None
