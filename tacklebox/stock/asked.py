"""What a recipe asks for, as figures: of rigs of which nobody can say what they were tied from."""

import math
import re
from typing import Any

from tacklebox.stock.asks import ASKABLE, Ask, Wanted
from tacklebox.stock.naming.rows import MEASURED
from tacklebox.stock.notation import write_notation
from tacklebox.stock.tables import FIGURES, Figures, Kind
from tacklebox.trade.quantities import Range

# What a figure is called in stock where asks call it otherwise.
_CALLED = {
    Kind.FLOAT: {"capacity": "mark", "tip": "tip diameter"},
    Kind.WEIGHT: {"mass": "mark"},  # an olivette goes by it
}


# A part of a sort that is not in the trade's list is quoted where it is put into stock, not here.
_QUOTED = re.compile(r"part '(.*)'")


def asked_words(ask: Ask) -> str:
    """What a recipe asks for, as an angler would ask for it; what those words do not have, with its key.

    >>> from tacklebox.stock.asks import read_ask
    >>> asked_words(read_ask(Kind.HOOK, {"size": "20", "end": "spade", "barb": "barbless"}))
    'hook 20 barbless spade'
    >>> asked_words(read_ask(Kind.PART, {"sort": "float rubber or silicone tube"}))
    'float rubber or silicone tube'
    """
    words = _QUOTED.sub(r"\1", write_notation(figures_asked(ask)))
    unsaid = (
        f"{key} {text}"
        for key, text, _ in ask.wanted
        if text not in words and text.replace(" to ", "–") not in words
    )
    return ", ".join([words, *unsaid])


def figures_asked(ask: Ask) -> Figures:
    """A row, not to be kept, with the figures of an ask in its own words: "0.13 to 0.15 mm".

    What is asked as a range has its middle as its figure; what is not asked is empty.
    """
    kind = ask.kind
    table = FIGURES[kind]
    worded = {name for name, info in table.model_fields.items() if info.annotation is str}
    row: dict[str, Any] = dict.fromkeys(worded, "")
    for key, text, wish in ask.wanted:
        name = _CALLED.get(kind, {}).get(key, key)
        column = ASKABLE[kind][key].column
        row[column] = _figure(wish, text)
        if name in MEASURED.get(kind, {}):
            row[MEASURED[kind][name][1]] = text
        elif name in worded:
            row[name] = text
        elif isinstance(wish, Range) and f"{key}_to" in table.model_fields:  # a band of grades
            row |= {key: wish.low, f"{key}_to": wish.high if wish.high > wish.low else None}
    return table(**row)


def _figure(wish: Wanted, text: str) -> str | float:
    """The middle of a range, the stated end where the other is open; words as they are."""
    if not isinstance(wish, Range):
        return " or ".join(sorted(wish)) if len(wish) == 1 else text
    middle = wish.middle
    return middle if math.isfinite(middle) else wish.low
