"""Roundabout ways of saying a thing, put plainly before anything is read: "a pound the pair" as "£1 the
pair", "15g / 20g" as a list, "purple I think" as purple.

Each rule says again what was said, in words that the rest of this room reads; none adds a figure, and what
was said twice is said once. A group of rules stands in a file of its own.
"""

import re
from functools import lru_cache

from tacklebox.stock.naming.dispensers import dispenser_in_full
from tacklebox.stock.naming.plainly import (
    amounts,
    beside,
    chains,
    doubts,
    figures,
    floats,
    held,
    kept,
    leftovers,
    lists,
    misheard,
    money,
    named,
    notebook,
    of_each,
    parting,
    ranges,
    shelf,
    shot,
    sums,
    unmarked,
)
from tacklebox.stock.naming.plainly.rules import put
from tacklebox.stock.naming.tokens import VULGAR as SIGNS
from tacklebox.stock.naming.turns import saying

# What is kept as a note comes last: no rule looks behind it for the end of the phrase.
_IN_TURN = tuple(
    group.RULES
    for group in (
        leftovers,
        notebook,
        shot,
        beside,
        unmarked,
        floats,
        shelf,
        named,
        parting,
        doubts,
        money,
        chains,
        lists,
        ranges,
        of_each,
        sums,
        amounts,
        held,
        figures,
        kept,
    )
)
_MARK = r"(?:\d*\s*(?:bb|aaa|ab|ssg|swan|no\.?\s*\d+|g)|\d+(?:\.\d+)?$)"
_SIGNS = re.compile(f"[{''.join(SIGNS)}]")
_LOADED = saying(r"\b(?:loaded|ldd|semi)\b")
_ON_THE_LINE = saying(  # what a loaded float takes besides is no figure of its own
    rf"[,\s]*(?P<note>\b(?:and\s+)?(?:takes|needs|plus)\s+(?:another|a\s+further|an\s+extra)?\s*{_MARK}"
    r"(?:\s+(?:down|on|up)\s+the\s+line|\s+on\s+top|\s+as\s+well)?)"
)
_GRAMS = saying(r"\d\s*(?:g|gr|gm|grams?|grammes?)\b")


@lru_cache(maxsize=2048)  # one phrase, its name and its parts are put plainly at several heights
def plainly(text: str) -> str:
    """The words, put plainly.

    >>> plainly("bombs 10g / 15g"), plainly("maggot feeders, a pound the pair"), plainly("red I think")
    ('bombs 10g and 15g', 'maggot feeders, £1 the pair', 'red')
    >>> plainly("bands, says 100 on the box but I make it 96")
    'bands, pack of 100, 96 of them'
    """
    text = _SIGNS.sub(lambda found: f" {SIGNS[found.group()]}", text).strip()
    text = put(text, (misheard.RULES,))
    text = dispenser_in_full(text)
    text = put(text, _IN_TURN)
    if _LOADED.search(text) and (found := _ON_THE_LINE.search(text)):
        before = text[: found.start()]
        if _GRAMS.search(before):
            note = " ".join(found["note"].split()).removeprefix("and ")
            text = f"{before} (note: {note}) {text[found.end() :].lstrip()}"
    return " ".join(text.split())
