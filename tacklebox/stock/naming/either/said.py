"""What the rules of this room look at: whether amounts are said, and whether a number stands bare."""

import re
from collections.abc import Callable

from tacklebox.stock.naming.described import Described, Question

# A rule says which of two ways of taking the words is asked; None where there is but one.
Either = Callable[[str, Described], Question | None]

_NOT_BARE = r"(?<![\w./×#-])(?<!size )(?<!sz )(?<!no )(?<!no\. )(?<!number )(?<!nr )"


def is_untold(made: Described) -> bool:
    """Whether nobody said how many there are."""
    told = made.pack is not None and not made.pack.because
    return made.count is None and made.packs is None and made.left is None and not told


def is_one_packet(made: Described) -> bool:
    """Whether nobody said how many packets or pieces there are, though perhaps what a packet holds."""
    return made.count is None and made.packs is None and made.left is None


def bare(number: str) -> str:
    """The pattern of that number where nothing says what it is."""
    return rf"{_NOT_BARE}\b{re.escape(number)}(?![\w/×-]|\.\d)"
