"""What a page that waits tells meanwhile: how far the long work has come that goes on."""

from time import monotonic
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tacklebox.desk import Desk

USUAL = "It takes longer than usual: the box is in use elsewhere, or it is long work."
GOOD_FOR_S = 5.0  # said longer ago, it is of work that has ended


class LongWork:
    """The last that the desk said of what goes on."""

    def __init__(self, desk: "Desk") -> None:
        self.words, self.at = "", -GOOD_FOR_S
        self._also = desk.notice
        desk.notice = self.note

    def note(self, words: str) -> None:
        """Called by the desk with a sentence that is worth showing while something goes on."""
        self.words, self.at = words, monotonic()
        self._also(words)

    def now(self) -> str:
        """What is to be told to whoever waits."""
        return self.words if self.words and monotonic() - self.at < GOOD_FOR_S else USUAL
