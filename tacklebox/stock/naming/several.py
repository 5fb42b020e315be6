"""Several figures where a thing has one: "18s and 20s to 0.10", "insert 3BB or 4BB" name two things."""

import re

from tacklebox.stock.naming.numbers import ONES, spoken_number

_UNIT = r"(?:mm|cm|m|kg|g|lbs?|oz|in|ft|bb|aaa|ab|ssg|s)\b"
_NUMBER = r"(?>\d*\.\d+|\d+\s+\d{1,2}/\d{1,2}|\d+(?:/\d+)?)"
_FIGURE = rf"(?:(?:nos?|size|number)\.?\s*|\#)?{_NUMBER}(?:\s*[x×]\s*\d+)?(?:\s*{_UNIT})?"
_JOINED = r"\s*(?:,?\s*\b(?:and|or)\b|&)\s*(?:(?:one|two|an?\s+[a-z]+)\s+of\s+)?"
_LISTED = r"(?:\s*(?:,|\b(?:and|or)\b|&)\s*|\s+|/(?=\d\s*[x×]))"


def _chain(joint: str, listed: str = r"\s*,\s*") -> re.Pattern[str]:
    return re.compile(
        rf"(?<![\w./×x-]){_FIGURE}(?:{listed}{_FIGURE})*(?:{joint}{_FIGURE})+(?![\w/×-]|\.\d)",
        re.IGNORECASE,
    )


_BY_AND, _BY_COMMA = _chain(_JOINED), _chain(_LISTED)
_BY_SPACE = _chain(_JOINED, r"(?:\s*,\s*|\s+)")  # "10 15 and 20 g"
_WORDS = "|".join(f"{word}(?:e?s)?" for word in ONES if word not in ("zero", "one", "six"))
_SPOKEN = re.compile(rf"\b(?:{_WORDS}|six(?:es)?|twenties)\b", re.IGNORECASE)
_OF_EACH = re.compile(
    r"[,:]?\s*\b(?:one|two|three|four|five|\d+|an?\s+\w+)\s+(?:of\s+each\b|each\s+of\b)",
    re.IGNORECASE,
)
_STROKES = re.compile(  # "16/18/20 eyed", "4BB/5BB inserts"
    r"(?<![\d/×x])(?<!\d\.)(?:\d{1,2}(?:/\d{1,2}){2,}(?![\w./])"
    r"|\d{1,2}(?P<unit>bb|aaa|ab|ssg|g|oz|lb)(?:/\d{1,2}(?P=unit))+\b)",
    re.IGNORECASE,
)
_FRACTION_AFTER_AND = re.compile(r"\b\d+\s+and\s+\d+/\d+", re.IGNORECASE)


def one_each(text: str, *, listed: bool = False) -> tuple[str, ...]:
    """The phrase with one figure at a time where several are joined by "and" or "or"; else nothing.

    ``listed``: figures that only commas or spaces part are several too.

    >>> one_each("18 & 20 to .10"), one_each("30 and 40g cages"), one_each("1 and 1/2 oz bomb")
    (('18 to .10', '20 to .10'), ('30g cages', '40g cages'), ())
    >>> one_each("4x14, 4x16 wire pole", listed=True), one_each("nylon 0.14, 4 lb", listed=True)
    (('4x14 wire pole', '4x16 wire pole'), ())
    """
    text = _OF_EACH.sub("", text)
    text = _SPOKEN.sub(lambda said: _in_figures(said.group().lower()), text)
    if strokes := _STROKES.search(text):  # "16/18/20 eyed"
        figures = strokes.group().split("/")
        return tuple(f"{text[: strokes.start()]}{f}{text[strokes.end() :]}" for f in figures)
    for chain in (_BY_COMMA,) if listed else (_BY_SPACE, _BY_AND):
        found = chain.search(text)
        if found and (each := _one_of_each(text, found, listed=listed)):
            return each
    return ()


def _one_of_each(text: str, found: re.Match[str], *, listed: bool) -> tuple[str, ...]:
    if _FRACTION_AFTER_AND.search(found.group()):
        return ()
    figures = re.findall(_FIGURE, found.group(), re.IGNORECASE)
    unit = _unit(figures[-1])
    bare = len(figures) > 2 and not any(map(_unit, figures[:-1]))  # "20, 30, 40g"
    if listed and len({("" if bare else _unit(f), "." in f, f[:1].isalpha()) for f in figures}) > 1:
        return ()  # "no 8 50g" are two figures of one thing
    whole = [f if _unit(f) or not unit else f"{f}{unit}" for f in figures]
    if len({_unit(f) for f in whole}) > 1:
        return ()
    start, end = found.span()
    each = tuple(f"{text[:start]}{figure}{text[end:]}" for figure in dict.fromkeys(whole))
    return each if len(each) > 1 else ()


def _in_figures(word: str) -> str:
    """ "eights" as "8s", "ten" as "10"."""
    number, _, plural = spoken_number([word], 0) or (word, 1, False)
    return f"{number}s" if plural else number


def _unit(figure: str) -> str:
    ends = re.search(rf"{_UNIT}$", figure, re.IGNORECASE)
    return ends.group().lower() if ends else ""
