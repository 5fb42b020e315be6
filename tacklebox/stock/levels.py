"""Tackle that nobody counts, shot by the tub above all: there is plenty of it, it is low, or it is out.

Plenty and low serve any number of rigs and nothing is taken from them; what is out serves none.
"""

import re
from enum import StrEnum
from typing import Protocol

from tacklebox.errors import AskedWronglyError, nearest_word
from tacklebox.stock.tables import MEASURED_KINDS, Kind


class Level(StrEnum):
    """How much there is of what is not counted."""

    PLENTY = "plenty"
    LOW = "low"
    OUT = "out"


def read_level(said: str) -> Level:
    """A level by its word. Raises AskedWronglyError for another."""
    word = said.strip().lower()
    if word not in list(Level):
        raise AskedWronglyError(f'"{said}" is no level.', right=nearest_word(said, list(Level)))
    return Level(word)


_HARDLY_ANY = re.compile(
    r"\b(?:nearly|almost)\s+(?:gone|empty|out|finished|done)\b|\bhardly\s+any\b"
    r"|\b(?:running|getting)\s+low\b",
    re.IGNORECASE,
)


def says_hardly_any(note: str) -> bool:
    """Whether words of a tub say that little is left in it.

    >>> says_hardly_any("tub nearly gone"), says_hardly_any("half full"), says_hardly_any("nearly new")
    (True, False, False)
    """
    return bool(_HARDLY_ANY.search(note))


ANY_NUMBER = 10**9  # pieces: more than all plans ask for
TO_BUY = (Level.LOW, Level.OUT)
# Line is measured, and hooklengths are tied and taken by the number.
ALWAYS_COUNTED = (*MEASURED_KINDS, Kind.HOOKLENGTH)


class Kept(Protocol):
    """An item, or its row as it is listed."""

    @property
    def on_hand(self) -> int: ...
    @property
    def minimum(self) -> int: ...
    @property
    def level(self) -> str: ...


def to_hand(item: Kept) -> int:
    """How much of it rigs can be tied from, in its smallest unit."""
    if not item.level:
        return item.on_hand
    return 0 if item.level == Level.OUT else ANY_NUMBER


def is_short(item: Kept) -> bool:
    """Whether there is less than the angler wants to have: he is asked to buy."""
    return item.level in TO_BUY if item.level else item.on_hand < item.minimum


def least(item: Kept) -> int:
    """What he wants to have at least; of what is not counted it is not a number."""
    return 0 if item.level else item.minimum
