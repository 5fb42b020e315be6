"""What a form and a file of the angler's own have in common: a name made a file's, what changed
meanwhile, faults of keys as faults of fields."""

import re
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from tacklebox.errors import AskedWronglyError, KeyFaultError, ManyFaultsError

if TYPE_CHECKING:
    from tacklebox.datafiles import DataFiles


def file_name(name: str, files: "DataFiles") -> str:
    """A file's name for what is called so, one that is not taken.

    Raises AskedWronglyError for a name without a letter or digit.
    """
    stem = stem_of(name)
    if not stem:
        raise AskedWronglyError("it has no name.", field="name", right="Give it one.")
    taken = set(files.names())
    numbered = (stem if n == 1 else f"{stem}-{n}" for n in range(1, len(taken) + 2))
    return next(one for one in numbered if one not in taken)


def new_name(name: str, files: "DataFiles", faults: dict[str, str]) -> str:
    """As ``file_name``; where it has none, "" and the fault among the others of its form."""
    try:
        return file_name(name, files)
    except AskedWronglyError as error:
        faults[error.field] = f"{error.what} {error.right}"
        return ""


def refuse_faults(faults: dict[str, str], what: str) -> None:
    """Raises FieldFaultsError where there are any, of what cannot be written for them."""
    if faults:
        heading = f"this {what} cannot be written."
        raise FieldFaultsError(faults, ManyFaultsError(heading, list(faults.values())))


def stem_of(name: str) -> str:
    """A file's name for what is called so, taken or not; "" where no letter or digit is in it.

    >>> stem_of("Canal pole, 4×12")
    'canal-pole-4-12'
    """
    plain = (
        unicodedata.normalize("NFKD", name.replace("×", "-"))
        .encode("ascii", "ignore")
        .decode()
        .lower()
    )
    return "-".join(re.findall(r"[a-z0-9]+", plain))[:50].strip("-")


def refuse_changed(text: str, version: str) -> None:
    """Raises AskedWronglyError where the file is not what the form was filled from."""
    from tacklebox.editing import version_of

    if version and version_of(text) != version:
        raise AskedWronglyError(
            "it was changed elsewhere since this was opened; nothing was written over.",
            right="Open it anew: what you typed is below.",
        )


@contextmanager
def keys_as_fields() -> Iterator[None]:
    """Faults of a file's keys, told as faults of the form's fields of the same names."""
    try:
        yield
    except ManyFaultsError as error:
        raise FieldFaultsError(
            {f.key: f.says for f in error.faults if isinstance(f, KeyFaultError)},
            error,
        ) from None


class FieldFaultsError(AskedWronglyError):
    """Faults of several fields at once, each by the field's name."""

    def __init__(self, by_field: dict[str, str], error: ManyFaultsError) -> None:
        self.by_field = by_field
        super().__init__(str(error))
