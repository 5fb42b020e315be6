"""Figures as they stand in the words, before these are read: where, of which sort, of how many.

What a figure is of is told by its unit and its form alone: "0.11" is a thickness, "18s" a size.
"""

import re
from dataclasses import dataclass

from tacklebox.stock.naming.lexicon import PACKETS, PIECES
from tacklebox.stock.naming.tokens import UNITS
from tacklebox.stock.naming.turns import SPOKEN

THICK, SIZE, BARE, PACKS, MARK, MONEY = "thickness", "size", "number", "packets", "mark", "money"
TIMES = "times"  # "3x"
ON_SPOOL = "on the spool"
_SORT_OF_UNIT = {
    **dict.fromkeys(("mm", "thou"), THICK),
    **dict.fromkeys(("cm", "in", "ft"), "length"),
    **dict.fromkeys(("m", "yd"), ON_SPOOL),
    **dict.fromkeys(("lb", "kg"), "strain"),
    **dict.fromkeys(("oz", "g", "dram", "mg"), "mass"),
    "ml": "volume",
}
_LETTERS = r"(?:bb|aaa|aa|ab|ssg|swan)"
NUMBER = (
    rf"(?:\d*\.\d+|\d+\s+\d{{1,2}}/\d{{1,2}}|\d+(?:/\d{{1,2}})?(?:\s?[½¼¾])?|[½¼¾]|\b{SPOKEN}\b)"
)
_WORDS_OF_UNITS = "|".join(re.escape(u) for u in sorted(UNITS, key=len, reverse=True))
_UNIT = rf"""\s*-?(?P<unit>{_WORDS_OF_UNITS})(?![a-z])(?!(?<=in)\s+(?:a|each|it|the|pack|packet|pkt|box)\b)"""
_PACKS = "|".join(sorted(PACKETS | PIECES, key=len, reverse=True))
_FLOATS = re.compile(r"\b(?:stick|float|wag|waggler|avon|bolo|chubber|loafer)s?\b", re.IGNORECASE)
_SHOTTED = r"|\d{1,2}\s*(?:x\s*)?nos?\.?\s*\d{1,2}(?!\s+(?:left|of)\b)"  # "5 no 4" of a float
_FIGURE, _FIGURE_OF_FLOATS = (
    re.compile(
        rf"""(?:(?<![\w./×])|(?<=\s[x×]))(?<!\d\s[x×]\s)
        (?P<money>£\s?)?(?P<lead>(?:size|sz|number|nos?\.?)\s*|\#)?
        (?:(?P<mark>\d{{1,2}}\s*[x×]\s*\d{{1,2}}(?![\w.]|\s*(?:{_WORDS_OF_UNITS})\b))
        |(?P<letters>(?:\d{{1,2}}(?:\s+\d/\d|\.\d|\s?[½¼¾])?\s*)?{_LETTERS}{shotted})s?(?![a-z])
        |(?P<number>{NUMBER})(?:(?P<packs>\s*(?:{_PACKS})(?![a-z])(?!(?<!s)\s+of\s+\d))|(?P<times>\s?x(?=\s*(?:,|$)|\s+[a-z\d]*[a-z]))|{_UNIT}|(?P<plural>'?s)(?![a-z]))?)
        (?![\d/]|\.\d)(?<!\.)""",
        re.IGNORECASE | re.VERBOSE,
    )
    for shotted in ("", _SHOTTED)
)


@dataclass(frozen=True, slots=True)
class SaidFigure:
    """A figure and where it stands: ``lead`` and ``tail`` are what is said before and after its number."""

    start: int
    end: int
    sort: str
    lead: str
    number: str
    tail: str

    @property
    def plain(self) -> bool:
        """Whether it is a number and nothing else."""
        return self.sort == BARE and not self.lead


def figures_in(text: str, start: int = 0, end: int | None = None) -> list[SaidFigure]:
    """The figures between two places of the text.

    >>> [(one.number, one.sort) for one in figures_in("18s to 0.12, 4in, two packs of 4x12")]
    [('18', 'size'), ('0.12', 'thickness'), ('4', 'length'), ('two', 'packets'), ('4x12', 'mark')]
    """
    end = len(text) if end is None else end
    return [_figure(found) for found in _figures_of(text).finditer(text, start, end)]


def figure_at(text: str, at: int) -> SaidFigure | None:
    """The figure that begins there."""
    found = _figures_of(text).match(text, at)
    return _figure(found) if found else None


def _figures_of(text: str) -> re.Pattern[str]:
    return _FIGURE_OF_FLOATS if _FLOATS.search(text) else _FIGURE


def _figure(found: re.Match[str]) -> SaidFigure:
    number = found["mark"] or found["letters"] or found["number"]
    lead = (found["money"] or "") + (found["lead"] or "")
    after = found.end("mark") if found["mark"] else found.end("letters")
    after = found.end("number") if found["number"] else after
    tail = found.string[after : found.end()]
    return SaidFigure(found.start(), found.end(), _sort(found), lead, number.strip(), tail)


def _sort(found: re.Match[str]) -> str:
    if found["money"]:
        return MONEY
    if found["mark"] or found["letters"]:
        return MARK
    if found["packs"] or found["times"]:
        return PACKS if found["packs"] else TIMES
    if found["unit"]:
        return _SORT_OF_UNIT[UNITS[found["unit"].lower()]]
    if re.match(r"0?\.\d", found["number"]):
        return THICK
    spoken_plural = found["number"].lower().endswith("s")
    if found["plural"] or spoken_plural or (found["lead"] or "").lower().startswith(("s", "#")):
        return SIZE
    return BARE


def only_signs(text: str) -> bool:
    """Whether nothing but spaces and signs stands there."""
    return not re.search(r"\w", text)
