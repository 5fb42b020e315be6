"""Paragraphs of the printed pages as markup: nothing unprintable, figures not torn from units."""

import re
from xml.sax.saxutils import escape

from tacklebox.printing.fonts import BOLD, printable

_UNBROKEN = re.compile(
    r"(?<=\d) (?=(?:mm|cm|m|in|ft|g|kg|oz|lb|ml|l|%)(?!\w))|(?<=No) (?=\d)|(?<=hook) (?=\d)"
    r"|(?<=[\da-z]) (?=×)|(?<=×) (?=\d)|(?<=\d ×) "
)


def as_markup(words: str, first: str = "") -> str:
    """The words, a figure and its unit on one line; ``first`` stands before them in bold."""
    marked = _UNBROKEN.sub("\N{NO-BREAK SPACE}", escape(printable(words)[0]))
    return f'<font name="{BOLD}">{as_markup(first)}</font>  {marked}' if first else marked
