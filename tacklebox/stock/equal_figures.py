"""Figures that are equal, whatever they are written as: "4.5 lb" is "4 1/2 lb" and "4 lb 8 oz"."""

import re
from collections.abc import Callable
from functools import lru_cache

from tacklebox.stock.naming.tokens import FULL, SMALLER, UNITS, as_said

_NUMBER = r"(?:\d+(?:\s*-\s*|\s+))?\d+/[1-9]\d*|\d*\.\d+|\d+"
_UNIT = "|".join(re.escape(unit) for unit in sorted(UNITS, key=len, reverse=True))
_FIGURE = re.compile(rf"(?<![\w./])(?P<number>{_NUMBER})(?:\s*(?P<unit>{_UNIT}))?(?![\w/])")

_Figure = tuple[float, str]  # with its unit, "" for none


def with_figures_of(said: str) -> Callable[[str], bool] | None:
    """Whether a text has the figures of what was said and, word for word, the rest of it; None where no
    figure is said that could be written otherwise.

    >>> is_so = with_figures_of("4.5 lb nylon")
    >>> is_so("nylon 0.16 mm 4 1/2 lb"), is_so("nylon 0.16 mm 5 lb"), is_so("braid 4 1/2 lb")
    (True, False, False)
    """
    plain = as_said(said)
    figures, rest = _figures_in(plain)
    wanted = [one for one in figures if one[1] or not one[0].is_integer()]
    words = rest.split()
    words += [f"{value:g}" for value, unit in figures if (value, unit) not in wanted]
    if not wanted:
        return None

    def is_so(text: str) -> bool:
        if not all(word in text for word in words):
            return False
        has, _ = _figures_in(text)
        return all(
            any(value == given and unit in ("", its) for given, its in has)
            for value, unit in wanted
        )

    return is_so


def _value(number: str) -> float:
    """Of "4 1/2" 4.5, the same however it is written."""
    parts = re.split(r"[\s/-]+", number)
    top, below = parts[-2:] if "/" in number else (parts[-1], "1")
    before = float(parts[0]) if len(parts) > 2 else 0.0
    return round(before + float(top) / float(below), 6)


@lru_cache(maxsize=8192)  # a list narrows while he types
def _figures_in(text: str) -> tuple[tuple[_Figure, ...], str]:
    """The figures of a text in small letters, a pound's ounces with it; and the text without them."""
    figures: list[_Figure] = []
    end = -1
    for found in _FIGURE.finditer(text):
        value = _value(found["number"])
        unit = UNITS.get(found["unit"] or "", "")
        whole = figures[-1] if figures and not text[end : found.start()].strip() else None
        if whole and unit and SMALLER.get(whole[1]) == unit and value < FULL[unit]:
            figures[-1] = (whole[0] + value / FULL[unit], whole[1])
        else:
            figures.append((value, unit))
        end = found.end()
    return tuple(figures), _FIGURE.sub(" ", text)
