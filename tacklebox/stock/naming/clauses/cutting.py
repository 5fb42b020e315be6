"""A phrase cut into its clauses, and some of these put together again word for word."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from tacklebox.stock.naming.turns import saying

_STOPS = r"\s*(?:[,;:!?]+(?=\s|$)|\.{2,}|(?<=[a-z]{3})\.(?=\s|$)|\s[-–—]+(?=\s))\s*"
_TURNS = (  # a clause of its own begins here
    r"(?<!'ve)(?<!\bive)(?<!\bi)\s+(?=(?:but|though|although|because|cos|which|when|before|after|while|until|where|thought|except|had|got(?!\s+[a-z]+(?:ed|en)\b)|paid"
    r"|so(?=\s+(?:that|there|i\b|call|say|now|only|it|make|\d|[a-z]+\s+(?:left|now|in|still|full|good)))"
    r"|(?:was|were|used\s+to\s+be|should\s+be|must\s+be)(?=\s+(?:\d|[a-z]+\s+(?:in|of|to)\b))"
    r"|and\s+(?:i|i'?ve|they|it|we|he|she|there|that|the\s+other|another|now|only)"
    r"|out\s+of|left\s+(?:out\s+of|from|of|off|on)|apart\s+from|bar(?=\s+[a-z]+\b))\b)"
)
_PARTS = saying(rf"{_STOPS}|{_TURNS}")
_JOINS = saying(r"^(?:(?:but|and|&|plus|so|though|although|which|well|oh|um)\s+)+(?=\S)")

_GONE = saying(
    r"\b(?:lost|gave|gone|sold|snapped|broke|broken|binned|cracked|trod|used|lent|nicked|missing|smashed|split|bent|chewed|snagged|pulled|swapped|cut|filled|spooled)\b"
)


@dataclass(frozen=True, slots=True)
class Clause:
    """Some of the phrase, from ``start`` to ``end``."""

    text: str
    start: int
    end: int

    @property
    def said(self) -> str:
        """What it says, without what joins it to the one before."""
        return _JOINS.sub("", self.text)

    @property
    def is_of_lost(self) -> bool:
        """Whether it tells of what was used or lost: "gave three away"."""
        return bool(_GONE.search(self.text))

    @property
    def is_of_one(self) -> bool:
        """Whether it tells of one packet of several: "one's got 7 left in"."""
        return bool(re.search(r"\b(?:one|1|other|another|opened)\b", self.text, re.IGNORECASE))


def clauses_of(text: str) -> list[Clause]:
    """The clauses of the text.

    >>> [one.said for one in clauses_of("cages 30 g, had five but lost two so three now")]
    ['cages 30 g', 'had five', 'lost two', 'three now']
    """
    found, start = list[Clause](), 0
    for stop in [*_PARTS.finditer(text), None]:
        end = stop.start() if stop else len(text)
        if bare := text[start:end].strip(" ,").rstrip("."):
            found.append(Clause(bare, start, end))
        start = stop.end() if stop else end
    return found


def together(text: str, over: Sequence[Clause]) -> str:
    """What these clauses say, word for word; what follows on another is one with it."""
    runs = list[tuple[int, int]]()
    for one in sorted(over, key=lambda clause: clause.start):
        if runs and not text[runs[-1][1] : one.start].strip(" ,.;-–"):
            runs[-1] = (runs[-1][0], one.end)
        else:
            runs.append((one.start, one.end))
    return ", ".join(text[start:end].strip(" ,.") for start, end in runs)
