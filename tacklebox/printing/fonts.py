"""The typeface of everything printed: its measures, and the characters it does not have."""

import unicodedata
from functools import lru_cache
from pathlib import Path

FOLDER = Path(__file__).with_name("fonts")
REGULAR = "DejaVuSansCondensed"
BOLD = "DejaVuSansCondensed-Bold"
FONTS = (REGULAR, BOLD)
STAND_IN = "□"
ELLIPSIS = "…"

# Heights as shares of the type size, from the outlines of x, X, Å and g of both fonts
# (2048 units to the em).
X_HEIGHT = 1120 / 2048
CAP_HEIGHT = 1493 / 2048
ABOVE = 1901 / 2048  # the ring of Å
BELOW = 483 / 2048
LINE = ABOVE + BELOW  # lines this far apart never touch

# Regulation (EU) No 1169/2011, article 13 (3) and annex IV: x-height on the smallest packs
LEAST_X_HEIGHT_MM = 0.9
SMALLEST_MM = LEAST_X_HEIGHT_MM / X_HEIGHT

_BLANKS = ("Zs", "Zl", "Zp", "Cc")
_NOT_SHOWN = ("Cf", "Mn", "Me")  # joiners and accents that no letter took up
_RIGHT_TO_LEFT = ("R", "AL", "AN")  # the font has some, but they need shaping


@lru_cache(maxsize=1)
def register() -> None:
    """Make both fonts known to ReportLab, which embeds what is used of them."""
    from reportlab.pdfbase.pdfmetrics import registerFont
    from reportlab.pdfbase.ttfonts import TTFont

    for name in FONTS:
        registerFont(TTFont(name, str(FOLDER / f"{name}.ttf")))


@lru_cache(maxsize=20_000)
def width_of(text: str, bold: bool = False) -> float:
    """The width of a text as a multiple of the type size.

    >>> width_of("mm") > width_of("ii")
    True
    """
    from reportlab.pdfbase.pdfmetrics import stringWidth

    register()
    return float(stringWidth(text, BOLD if bold else REGULAR, 1000)) / 1000


@lru_cache(maxsize=1)
def _glyphs() -> frozenset[int]:
    from reportlab.pdfbase.pdfmetrics import getFont

    register()
    return frozenset.intersection(*(frozenset(getFont(n).face.charToGlyph) for n in FONTS))


@lru_cache(maxsize=20_000)
def printable(text: str) -> tuple[str, str]:
    """The text as it can be printed, and the characters of it that no font has.

    Each of those shows as a box. Blanks of all kinds become single spaces.

    >>> printable("Čapka 🐟 rig")
    ('Čapka □ rig', '🐟')
    """
    shown, unknown = [], []
    for char in unicodedata.normalize("NFC", text):
        category = unicodedata.category(char)
        if category in _BLANKS:
            shown.append(" ")
        elif category not in _NOT_SHOWN:
            has_it = ord(char) in _glyphs()
            if has_it and unicodedata.bidirectional(char) not in _RIGHT_TO_LEFT:
                shown.append(char)
            else:
                shown.append(STAND_IN)
                unknown.append(char)
    return " ".join("".join(shown).split()), "".join(dict.fromkeys(unknown))
