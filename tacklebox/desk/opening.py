"""The desk as it stands open: one box, opened when it is first needed."""

import copy
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from tacklebox.boxfolder import LABELS_OWED

if TYPE_CHECKING:
    from tacklebox.rigs.recipes.file import Shelf
    from tacklebox.stock.care.box import Box


def _keep_quiet(_words: str) -> None:
    """What is said while waiting goes nowhere, unless a face asks for it."""


def folder_named(folder: Path) -> Path:
    """The folder of a box, "~" in its name being a home. Raises AskedWronglyError for nobody's."""
    from tacklebox.boxfolder import at_home

    return at_home(folder, "box")


@dataclass
class Desk:
    """One angler's box and the day it is; it may live for one command or for weeks.

    ``notice`` is called with a sentence that is worth showing while something goes on: that
    another program is writing, that a new box was made, that an older one was brought up to date.
    ``threads`` is how many may ask at a time.
    """

    folder: Path | None = None
    notice: Callable[[str], None] = _keep_quiet
    today: Callable[[], date] = date.today
    threads: int = 1
    _box: "Box | None" = field(default=None, init=False, repr=False)
    _opening: threading.Lock = field(default_factory=threading.Lock, init=False, repr=False)

    @property
    def box(self) -> "Box":
        """The box, made on first use. Raises as ``stock.care.box.open_box`` does."""
        from tacklebox.stock.care.box import open_box

        with self._opening:
            if self._box is None:
                self._box = open_box(self.folder, notice=self.notice, threads=self.threads)
                if self._box.is_new:
                    self.notice(f"Made a new box in {self._box.folder}")
                elif (self._box.folder / LABELS_OWED).exists():
                    self._tell_owed(self._box)
            box = self._box
        self._look_which_units(box)
        return box

    @property
    def mark(self) -> str:
        """What tells this box from every other, by which its phones are kept."""
        return self.box.mark().box

    @contextmanager
    def in_his_units(self) -> Iterator[None]:
        """Within it figures that were computed are told in the units which are set for the box."""
        from tacklebox.trade.units_first import in_units

        with in_units(None):
            yield

    def _look_which_units(self, box: "Box") -> None:
        """Before the first figure is told: what is set, if it is asked for and can be read."""
        from tacklebox.trade.units_first import wanted

        if (now := wanted()) is None or now.first is not None:
            return
        from tacklebox.errors import BenchError

        now.first = ""
        with suppress(BenchError):
            now.first = box.said("units")

    def _tell_owed(self, box: "Box") -> None:
        from tacklebox.rigs.tying.owed import codes_owed

        if codes := codes_owed(box):
            self.notice(
                f"No label was printed for {', '.join(codes)}: that was broken off after tying."
            )

    def keyed(self, key: str) -> "Desk":
        """The same desk for one call, which bears that key: whatever it does is done once for that key.

        The call then raises AlreadyDoneError where a call of that key was done before.
        """
        one = copy.copy(self)
        one._box = self.box.keyed(key or None)
        return one

    @property
    def recipes(self) -> "Shelf":
        """The recipes of the box, over the shipped ones."""
        from tacklebox.rigs.recipes.file import Shelf

        return Shelf(self.box.recipes)

    def close(self) -> None:
        """Close what is open; the next question opens it again."""
        with self._opening:
            if self._box is not None:
                self._box.close()
                self._box = None
