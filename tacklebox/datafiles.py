"""Data files that an angler can read, copy and edit: TOML, shipped or in the box's own folder.

A file in the box wins over a shipped one of the same name. Names cannot leave the folder, files are limited
in size, and every fault is told with file, key, and what was expected.
"""

import os
import re
import secrets
import tomllib
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, time
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError

from tacklebox.boxfolder import SET_ASIDE
from tacklebox.errors import (
    AskedWronglyError,
    BenchError,
    CannotBeDoneError,
    KeyFaultError,
    ManyFaultsError,
    nearest_word,
)
from tacklebox.halves import clear_abandoned, in_hand
from tacklebox.outputs import name_new
from tacklebox.reading_toml import read_toml

MOST_BYTES = 64 * 1024
KEPT = 10  # earlier versions of a file that was written over
NAME = re.compile(r"^[a-z0-9][a-z0-9-]{0,59}$")
# What is said of a fault, by pydantic's name for it.
_SAYS = {
    "missing": '"{key}" is missing.',
    "literal_error": '"{key}": {given} should be {expected}.',
    "string_type": '"{key}": {given} should be text in quotes{example}.',
    "string_too_long": '"{key}" is too long: at most {max_length} letters.',
    "string_too_short": '"{key}" is empty.',
    "too_short": '"{key}" is empty.',
    "too_long": '"{key}": there are too many, at most {max_length}.',
    "bool_type": '"{key}": {given} should be true or false, without quotes.',
    "int_type": '"{key}": {given} should be a whole number, without quotes.',
    "float_type": '"{key}": {given} should be a number, without quotes.',
    "greater_than_equal": '"{key}": {given} should be at least {ge}.',
    "less_than_equal": '"{key}": {given} should be at most {le}.',
    "tuple_type": '"{key}": {given} should be a list, in [ ] (or a table headed [[{key}]]).',
    "dict_type": '"{key}": {given} should be a table, headed [{heading}].',
    "model_type": '"{key}": {given} should be a table, headed [{heading}].',
    "model_attributes_type": '"{key}": {given} should be a table, headed [{heading}].',
}
# Keys that hold words as they are, in files of every kind; other texts hold a figure with its unit.
_PLAIN = frozenset((
    "name", "notes", "for", "read", "also", "place", "is", "on", "held", "top", "bottom", "what",
    "material", "hooklengths",
))  # fmt: skip
MOST_NAMED = 12  # files in one fault; more are a list of its own
_MOST_SHOWN = 60  # letters of what was given instead
_TRIED = ("constrained-str", "dict[str,")
Model = TypeVar("Model", bound=BaseModel)
Loaded = TypeVar("Loaded")


def shipped_folder(kind: str) -> Path:
    """The folder of shipped files: in the wheel, or beside the package in a checkout."""
    package = Path(__file__).resolve().parent
    installed = package / "shipped" / kind
    return installed if installed.is_dir() else package.parent / kind


class StrictModel(BaseModel):
    """A file or a table of it: no key but its own, every value of the kind that it is said to be."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


@dataclass(frozen=True)
class DataFiles:
    """The files of one kind ("recipes", "labels"), own before shipped; ``what`` names one of them.

    ``first`` is the desk's question that writes a first one, where none is shipped.
    """

    kind: str
    what: str
    own: Path | None = None
    first: str = ""

    @property
    def _folders(self) -> tuple[Path, ...]:
        shipped = shipped_folder(self.kind)
        return (self.own, shipped) if self.own else (shipped,)

    def names(self) -> list[str]:
        """The names of all files, without ending, in alphabetical order."""
        with _readable():  # unlike iterdir, glob passes by what may not be read
            files = [p for f in self._folders if f.is_dir() for p in f.iterdir()]
        stems = {p.stem for p in files if p.suffix == ".toml"}
        return sorted(s for s in stems if NAME.match(s))

    def is_own(self, name: str) -> bool:
        """Whether the angler's own file serves that name."""
        return self.own is not None and (self.own / f"{name}.toml").is_file()

    def is_named(self, name: str) -> bool:
        """Whether something of the angler's own bears that name, be it a file or not."""
        path = self.own / f"{name}.toml" if self.own else None
        return path is not None and (path.exists() or path.is_symlink())

    def read(self, name: str) -> tuple[str, str]:
        """The name without ending, and the text. Raises AskedWronglyError if there is no such file."""
        stem = check_name(name, self.what)
        for folder in self._folders:
            path = folder / f"{stem}.toml"
            with _readable():
                found = path.exists() or path.is_symlink()
            if found:
                _check_plain(path)
                check_inside(path, folder)
                return stem, _read(path)
        known = self.names()
        if not known and self.first:
            raise AskedWronglyError(
                f'there is no {self.what} "{stem}", nor any other yet.',
                see=self.first,
            )
        right = nearest_word(stem, known, MOST_NAMED)
        see = "" if right else f"{self.kind}.listed"
        raise AskedWronglyError(f'there is no {self.what} "{stem}".', right=right, see=see)

    def load_each(self, load: Callable[[str], Loaded]) -> tuple[list[Loaded], list[BenchError]]:
        """All that can be read, in alphabetical order, and why the others cannot."""
        loaded, faults = [], []
        for name in self.names():
            try:
                loaded.append(load(name))
            except BenchError as error:
                faults.append(error)
        return loaded, faults

    def write_new(self, name: str, text: str) -> Path:
        """Write a file of one's own as ``name.toml`` and return its path.

        Raises AskedWronglyError for a name that is none here or is taken, CannotBeDoneError where
        it cannot be written; then nothing is left of it.
        """
        path = self._own_path(name)
        _check_size(text)
        try:
            path.parent.mkdir(exist_ok=True)
            _write_whole(path, text.encode(), name_new)
        except OSError as error:
            if isinstance(error, FileExistsError) and path.parent.is_dir():
                raise AskedWronglyError(
                    f"there is a {self.what} of that name already; it was left as it is.",
                    where=str(path),
                ) from None
            raise _unwritable(path, error) from None
        return path

    def write_over(self, name: str, text: str) -> Path:
        """Write a file of one's own as ``name.toml``, over an older one, and return its path.

        What it said before is kept in the box's folder of what was set aside, the last ``KEPT`` times.
        Raises AskedWronglyError for a name that is none here and for what is no plain file,
        CannotBeDoneError where it cannot be written; then it is as it was.
        """
        path = self._own_path(name)
        _check_size(text)
        try:
            path.parent.mkdir(exist_ok=True)
            if path.exists() or path.is_symlink():
                _check_plain(path)
                check_inside(path, path.parent)
                before = path.read_bytes()
                if before == text.encode():
                    return path
                _keep(path.parents[1] / SET_ASIDE / self.kind / path.stem, before)
            _write_whole(path, text.encode(), Path.replace)
        except OSError as error:
            raise _unwritable(path, error) from None
        return path

    def _own_path(self, name: str) -> Path:
        assert self.own is not None
        return self.own / f"{check_name(name, self.what)}.toml"


def _keep(folder: Path, before: bytes) -> None:
    """Keep what a file said, numbered on from those that are kept; the oldest go."""
    folder.mkdir(parents=True, exist_ok=True)
    kept = sorted(int(path.stem) for path in folder.glob("*.toml") if path.stem.isdecimal())
    number = kept[-1] + 1 if kept else 1
    _write_whole(folder / f"{number}.toml", before, name_new)
    for old in [*kept, number][:-KEPT]:
        (folder / f"{old}.toml").unlink(missing_ok=True)


def _write_whole(path: Path, data: bytes, name: Callable[[Path, Path], object]) -> None:
    """Write a file that appears whole, by the way it gets its name."""
    clear_abandoned(path.parent)
    half = path.with_name(f".{secrets.token_hex(6)}.half")
    try:
        with half.open("xb") as file, in_hand(half):
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        name(half, path)
    finally:
        half.unlink(missing_ok=True)


def _check_size(text: str) -> None:
    """Raise AskedWronglyError for a file so large that it would not be read again."""
    if len(text.encode()) > MOST_BYTES:
        raise AskedWronglyError("this is over 64 kB.", right="Shorten its notes.")


def _unwritable(path: Path, error: OSError) -> CannotBeDoneError:
    why = error.strerror
    if isinstance(error, FileExistsError | NotADirectoryError):
        why = f"{path.parent} is no folder"
    return CannotBeDoneError(f"the file cannot be written: {why}.", where=str(path))


def check_name(name: str, what: str) -> str:
    """The name without ending. Raises AskedWronglyError for one that is no file's name here."""
    stem = name.strip().removesuffix(".toml")
    if not NAME.match(stem):
        like = re.sub(r"[^a-z0-9]+", "-", stem.lower())[:60].strip("-")
        raise AskedWronglyError(
            f'"{name[:60]}" is no {what} name.',
            right=f"Names are small letters, digits and hyphens, like {like or 'my-own'}.",
        )
    return stem


def named_after(stem: str) -> str:
    """What a thing is called that was only named by its file.

    >>> named_after("club-open")
    'Club open'
    """
    return stem.replace("-", " ").capitalize()


def check_inside(path: Path, folder: Path) -> None:
    """Raise AskedWronglyError for a file that is a link to somewhere outside its folder."""
    if not path.resolve().is_relative_to(folder.resolve()):
        raise AskedWronglyError(
            "this is a link to a file outside its folder; it was not read.",
            where=path.name,
            right=f"Put a copy of the file itself into {folder}.",
        )


def _check_plain(path: Path) -> None:
    """Raise AskedWronglyError for what bears a file's name and is none, like a folder."""
    if path.is_file():
        return
    if path.is_symlink():
        what, right = "this is a link to a file that is not there", "Put the file there, or take"
    else:
        kind = "a folder" if path.is_dir() else "a device or pipe"
        what, right = f"this is {kind}, not a file", "Give it another name, or take"
    raise AskedWronglyError(f"{what}.", where=path.name, right=f"{right} it away.")


@contextmanager
def _readable() -> Iterator[None]:
    """Refuses in words what may not be read."""
    try:
        yield
    except OSError as error:
        raise AskedWronglyError(
            f"it cannot be read: {error.strerror}.", where=str(error.filename)
        ) from None


def _read(path: Path) -> str:
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)  # a file that grows meanwhile is not read on
        if len(data) > MOST_BYTES:
            raise AskedWronglyError("the file is over 64 kB.", where=path.name)
        return data.decode("utf-8-sig")  # some editors mark UTF-8 by its first bytes
    except OSError as error:
        raise AskedWronglyError(
            f"the file cannot be read: {error.strerror}.", where=path.name
        ) from None
    except UnicodeDecodeError:
        raise AskedWronglyError(
            "the file is not UTF-8 text.", where=path.name, right="Save it as UTF-8."
        ) from None


def parse_toml(
    model: type[Model],
    text: str,
    stem: str,
    what: str,
    keys: Mapping[str, Sequence[str]],
    like: Mapping[str, str] | None = None,
) -> Model:
    """The text as a model, its name in the field ``stem``.

    ``keys`` are the known keys, by table, "" for the file's own; ``like`` shows by key how a text
    is written, where "40 cm" would mislead. Raises ManyFaultsError naming file, key, and what was
    expected.
    """
    where = f"{stem}.toml"
    try:
        raw = read_toml(text)
    except tomllib.TOMLDecodeError as error:
        raise AskedWronglyError(
            f"this is no TOML: {error}.",
            where=where,
            right='Words, and figures with their unit, stand in quotes: depth = "1.2 m".',
        ) from None
    raw["stem"] = stem
    try:
        return model.model_validate(_tuples(raw))
    except ValidationError as error:
        every = error.errors(include_url=False)
        deeper = {e["loc"][:-n] for e in every for n in range(1, len(e["loc"]))}
        first = [e for e in every if e["loc"] not in deeper]  # a list is not "empty" for bad items
        faults = [_fault(e, what, keys, like or {}) for e in first]
        raise ManyFaultsError(f"{where}: this {what} cannot be read.", faults) from None


def _tuples(value: Any) -> Any:
    """TOML gives lists where the frozen models hold tuples, and dates where they hold text."""
    if isinstance(value, list):
        return tuple(_tuples(v) for v in value)
    if isinstance(value, dict):
        return {k: _tuples(v) for k, v in value.items()}
    if isinstance(value, time) and not (value.second or value.microsecond):
        return f"{value:%H:%M}"  # TOML asks for the seconds
    if isinstance(value, date | time):
        return value.isoformat()
    return value


def _written(value: Any) -> str:
    """A value as it stands in the file, as far as it is short."""
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, tuple | list):
        return "a list"
    words = f'"{value}"' if isinstance(value, str) else str(value)
    words = words.lower() if isinstance(value, bool) else words
    return words if len(words) <= _MOST_SHOWN else f"{words[:_MOST_SHOWN]}…"


def _example(key: str, given: Any, like: Mapping[str, str]) -> str:
    """How a text is written that was none: words as they are, figures with their unit."""
    if key in like:
        return f', like "{like[key]}"'
    if key in _PLAIN:
        is_one = not isinstance(given, dict | tuple | list)
        return f', like "{_written(given)}"' if is_one else ""
    return ' with its unit, like "40 cm"'


def _fault(
    error: Any, what: str, keys: Mapping[str, Sequence[str]], like: Mapping[str, str]
) -> KeyFaultError:
    # Of a figure that may be a text or a table, pydantic tells which was tried, as a last or later step.
    first, *later = error["loc"] or ("",)
    tried = [i for i, step in enumerate(later) if str(step).startswith(_TRIED)]
    if error["type"] == "extra_forbidden" and tried and tried[-1] == len(later) - 1:
        tried.pop()  # an unknown key that is called so
    place = [first, *(step for i, step in enumerate(later) if i not in tried)]
    key = ""
    for step in place:
        key += f" {step + 1}" if isinstance(step, int) else f"{'.' if key else ''}{step}"
    if error["type"] == "extra_forbidden":
        known = keys.get(str(place[0]), keys[""]) if len(place) > 1 else keys[""]
        says = f"There is no such key in a {what}. {nearest_word(str(place[-1]), known)}"
        whole = f'"{key}" is no key of a {what}. {nearest_word(str(place[-1]), known)}'
        return KeyFaultError(whole, key, says)
    if error["type"] in _SAYS:
        heading = ".".join(str(step) for step in place if not isinstance(step, int))
        given, limits = error.get("input"), dict(error.get("ctx", {}))
        limits["example"] = _example(heading.rpartition(".")[2], given, like)
        written = _written(given)
        said = _SAYS[error["type"]]
        beside = said.removeprefix('"{key}": ').replace('"{key}" is', "It is")
        whole, says = (
            each.format(key=key, given=written, heading=heading, **limits)
            for each in (said, beside)
        )
        return KeyFaultError(whole, key, says)
    message = error["msg"].removeprefix("Value error, ")
    where = f'"{key}": ' if key else ""
    says = f"{message[0].lower()}{message[1:].rstrip('.')}."
    return KeyFaultError(f"{where}{says}", key, f"{says[0].upper()}{says[1:]}")
