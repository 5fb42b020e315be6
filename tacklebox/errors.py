"""The errors that are meant for the person at the bench.

Each says what was wrong, where, and what would be right; the command line prints
it as it is and ends with the error's exit code, never with a traceback.
"""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Self


class BenchError(Exception):
    """Something the angler can act on.

    ``what`` is the fault in a sentence, ``where`` the file, row or part it lies in,
    ``right`` what would have been right. ``field`` is the key of the field that was asked
    ("depth", "set.hooklength") and ``see`` the desk's question that would help ("stock.listed",
    perhaps with words after it): each face words both for itself.
    """

    exit_code = 1

    def __init__(
        self, what: str, *, where: str = "", right: str = "", field: str = "", see: str = ""
    ) -> None:
        self.what = what
        self.where = where
        self.right = right
        self.field = field
        self.see = see
        super().__init__(str(self))

    def __str__(self) -> str:
        start = f"{self.where}: " if self.where else ""
        end = f" {self.right}" if self.right else ""
        return f"{start}{self.what}{end}"

    def at(self, where: str) -> Self:
        """The same fault, told with the place it lies in."""
        return self._with(where=f"{where}, {self.where}" if self.where else where)

    def in_field(self, field: str) -> Self:
        """The same fault, told with the field it lies in; one that names a field already keeps it."""
        return self._with(field=self.field or field)

    def without_field(self) -> Self:
        """The same fault where the question itself stood in the field's place."""
        return self._with(field="")

    def _with(self, **changed: str) -> Self:
        kept = {"where": self.where, "right": self.right, "field": self.field, "see": self.see}
        return type(self)(self.what, **(kept | changed))


class AskedWronglyError(BenchError):
    """Input that cannot be understood or makes no sense (exit code 2)."""

    exit_code = 2


class SeveralFitError(AskedWronglyError):
    """Words that fit several things he has: a face that can ask offers each.

    ``said`` are the words; a reading is what may be said in their place, and what that is.
    """

    def __init__(
        self,
        what: str,
        said: str,
        readings: "Sequence[tuple[str, str]]",
        *,
        where: str = "",
        right: str = "",
        field: str = "",
        see: str = "",
    ) -> None:
        self.said = said
        self.readings = tuple(readings)
        super().__init__(what, where=where, right=right, field=field, see=see)

    def _with(self, **changed: str) -> Self:
        kept = {"where": self.where, "right": self.right, "field": self.field, "see": self.see}
        return type(self)(self.what, self.said, self.readings, **(kept | changed))


class ToConfirmError(AskedWronglyError):
    """What is likely a slip, and may be meant: ``yes`` is the key of what says that it is."""

    def __init__(
        self,
        what: str,
        yes: str,
        *,
        where: str = "",
        right: str = "",
        field: str = "",
        see: str = "",
    ) -> None:
        self.yes = yes
        super().__init__(what, where=where, right=right, field=field, see=see)

    def _with(self, **changed: str) -> Self:
        kept = {"where": self.where, "right": self.right, "field": self.field, "see": self.see}
        return type(self)(self.what, self.yes, **(kept | changed))


class ManyFaultsError(AskedWronglyError):
    """Several faults of one file, told together so that all can be mended at once."""

    def __init__(self, heading: str, faults: "Sequence[str | BenchError]") -> None:
        self.heading = heading
        self.faults = tuple(faults)
        super().__init__(heading + "".join(f"\n  {fault}" for fault in faults))

    def _with(self, **_changed: str) -> Self:
        """Each of its faults says where it lies, so nothing is added."""
        return self


class FaultsOfFields:
    """Faults of what was asked, gathered field by field so that all can be mended at once."""

    def __init__(self, heading: str) -> None:
        self.heading = heading
        self.found: list[str | BenchError] = []

    @contextmanager
    def of(self, name: str) -> Iterator[None]:
        """Keep a fault of what is done within, with the field it lies in."""
        try:
            yield
        except ManyFaultsError as error:
            self.found += error.faults
        except AskedWronglyError as error:
            self.found.append(error.in_field(name))

    def refuse(self) -> None:
        """Raises what was found: one fault as it is, several as ManyFaultsError."""
        if len(self.found) == 1 and isinstance(self.found[0], BenchError):
            raise self.found[0]
        if self.found:
            raise ManyFaultsError(self.heading, self.found)


class KeyFaultError(AskedWronglyError):
    """A fault of one key of a file, which its sentence names; a form that has the key shows it there.

    ``says`` is the fault beside the key, where it need not be named.
    """

    def __init__(self, what: str, key: str, says: str = "") -> None:
        self.key = key
        self.says = says or what
        super().__init__(what)

    def _with(self, **_changed: str) -> Self:
        """It says where it lies."""
        return self


class CannotBeDoneError(BenchError):
    """A sensible wish that stock, rules or the disk do not allow (exit code 1)."""


class StockShortError(CannotBeDoneError):
    """Stock does not reach for what is to be tied."""


class AlreadyDoneError(CannotBeDoneError):
    """The very same call came before and was done, by the number of its action; nothing was done again."""

    def __init__(self, what: str, action: int) -> None:
        self.action = action
        super().__init__(f"this was done already: {what}.", right="Nothing was done twice.")


def nearest_word(word: str, known: Sequence[str], most: int | None = None) -> str:
    """A "did you mean" for a mistyped word, or the known words when none is near; "" for more of them
    than ``most``."""
    from difflib import get_close_matches

    near = get_close_matches(word.lower(), [k.lower() for k in known], n=1, cutoff=0.7)
    if near:
        meant = next(k for k in known if k.lower() == near[0])
        return f'Did you mean "{meant}"?'
    if most is not None and len(known) > most:
        return ""
    return "Known: " + ", ".join(known) + "."
