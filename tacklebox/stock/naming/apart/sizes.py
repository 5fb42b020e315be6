"""Sizes as they are said one after the other: "1/4 one 1 oz", "small 10 g & large 25 g", "green, yellow"."""

import re

from tacklebox.stock.naming.turns import saying
from tacklebox.stock.naming.words import COLOURS

_BIG = r"(?:xs|xl|small|medium|large|big|mini|micro|sml|sm|med|md|lge|lrg|lg|s|m|l)"
COLOUR = rf"(?:{'|'.join(COLOURS)}|blk|blu|grn|yel|internal|external|int|ext)"
_SORT = r"(?:internal|external|int|ext)"
UNIT = r"(?:mm|cm|oz|ounces?|grams?|gms?|gr|g|lbs?|ssg|swan|aaa|aa|ab|bb)"
FIGURE = rf"(?:(?:size|sz|no\.?)\s+)?(?:[34]x\d\d|\d+\s+\d/\d|\d/\d|\d*\.?\d+)(?:\s*{UNIT})?"
_ONE = r"(?:\s+ones?(?=\s*(?:[,&]|and\b|$)))?"
_ENDS = rf"s?{_ONE}(?![\w./])"
SIZE = (
    rf"(?:{_BIG}\s+{FIGURE}|{_BIG}\s+{COLOUR}|{_BIG}\s*\({FIGURE}\)|{_SORT}\s+{FIGURE}|{FIGURE}(?:\s+(?:{_BIG}|{COLOUR}))?|{_BIG}|{COLOUR})"
    rf"{_ENDS}"
)
WITH_UNIT = (
    rf"(?:{_BIG}\s+{FIGURE}|{_BIG}\s+{COLOUR}|{FIGURE}(?<=[a-z])(?:\s+{_BIG})?|(?:size|sz|no\.?)\s+\d{{1,2}}"
    rf"|{_BIG}|{COLOUR}){_ENDS}"
)

_SHORT = {
    "xs": "extra small",
    "s": "small",
    "sml": "small",
    "sm": "small",
    "m": "medium",
    "med": "medium",
    "md": "medium",
    "l": "large",
    "lge": "large",
    "lrg": "large",
    "lg": "large",
    "int": "internal",
    "ext": "external",
    "blk": "black",
    "blu": "blue",
    "grn": "green",
    "yel": "yellow",
}
_BIG_WORDS = r"(?:extra\s+small|small|medium|large|micro|mini)"
_WHICH = saying(rf"\b(?:{_BIG_WORDS}|internal|external)\b")
_WHICH_LAST = re.compile(rf"\d.*?\s(?P<which>{_BIG_WORDS}|{'|'.join(COLOURS)})$", re.IGNORECASE)
_ONES = re.compile(r"\s+ones?$|(?<=[a-z]{3})s$", re.IGNORECASE)


def of_one_unit(sizes: list[str]) -> list[str]:
    """The sizes in full, one without a unit with the unit of the others."""
    units = [
        found.group().strip()
        for size in sizes
        if (found := re.search(rf"(?<=\d)\s*{UNIT}\b", size, re.IGNORECASE))
    ]
    unit = units[-1] if len({one.lower() for one in units}) == 1 else ""
    full = []
    for size in sizes:
        words = _ONES.sub("", re.sub(r"(?<=\d)s$", "", size, flags=re.IGNORECASE))
        words = re.sub(r"[()]", " ", words)
        words = re.sub(r"[A-Za-z]+", lambda one: _SHORT.get(one[0].lower(), one[0]), words)
        words = re.sub(rf"(?<=\d)(?={UNIT}\b)", " ", words)
        if unit and not re.search(rf"(?<=\d)\s*{UNIT}\b", words, re.IGNORECASE):
            words = re.sub(r"(\d+\s+\d/\d|\d/\d|\d*\.?\d+)", rf"\1 {unit}", words, count=1)
        words = re.sub(r"(\d/\d)$", r"\1 oz", words)  # what is weighed in fractions
        full.append(" ".join(words.replace("big", "large").split()))
    *others, last = full
    if (figure := re.search(r"\d.*", last)) and not re.search(r"\d", " ".join(others)):
        full = [
            f"{one} {figure[0]}" for one in others if _WHICH.fullmatch(one)
        ]  # "small and large 20 g"
        full = [*(full if len(full) == len(others) else others), last]
    first, *rest = full
    if (big := _WHICH.search(first)) and not any(map(_WHICH.search, rest)):
        rest = [f"{big.group()} {one}" for one in rest]  # "large 40 g and one 50 g"
    elif (
        others and (big := _WHICH_LAST.search(last)) and not any(map(_WHICH_LAST.search, full[:-1]))
    ):
        first, *rest = (f"{big['which']} {one}" for one in full[:-1])  # "24 g & 30 g minis"
        rest.append(full[-1])
    return [first, *rest]
