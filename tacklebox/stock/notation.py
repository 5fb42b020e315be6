"""The one-line notation of an item: what an angler would say, read and written back.

"nylon 0.14 mm 4 lb 100 m", "hook 18 barbless spade pack 10", "waggler 5BB insert",
"shot AAA tin", "feeder cage 30 g", "swivel size 14 12 kg", "elastic 5 3 m",
"winder 18 cm 20 mm".
"""

from tacklebox.stock.naming.described import Described
from tacklebox.stock.naming.rows import of_row
from tacklebox.stock.naming.writing import write
from tacklebox.stock.tables import Figures, Kind


def read_notation(text: str) -> Described:
    """The item that the words describe.

    Raises AskedWronglyError for words that are not understood, and, with its readings, for what may be
    several things.

    >>> write(read_notation("nylon 0.14mm 4lb 100m"))
    'nylon 0.14 mm 4 lb'
    >>> read_notation("hooks size 18 spade-end barbless pack 10").pack_size
    10
    """
    from tacklebox.stock.naming.reading import described

    return described(text)


def write_notation(figures: Figures) -> str:
    """The figures of an item as one line; ``read_notation`` reads it back."""
    return write(of_row(figures))


def words_from_flags(kind: Kind, figures: dict[str, str]) -> str:
    """The one-line notation of an item whose figures were given one by one.

    >>> words_from_flags(Kind.HOOK, {"size": "18", "barb": "barbless"})
    'hook 18 barbless'
    """
    first = "" if kind in (Kind.LINE, Kind.FLOAT, Kind.PART, Kind.WEIGHT) else str(kind)
    values = [f"tip {text}" if key == "tip" else text for key, text in figures.items()]
    return " ".join(word for word in (first, *values) if word)
