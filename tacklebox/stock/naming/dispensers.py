"""A dispenser of shot, of which every size is an item of its own: "7 way dispenser SSG down to 8" put as the
list of its sizes, without its compartments.

Which sizes lie in a range is common practice.
"""

import re

from tacklebox.stock.naming.numbers import dictated
from tacklebox.stock.naming.turns import SPOKEN, saying

SIZES = ("ssg", "aaa", "bb", "1", "4", "6", "8", "9", "10", "11", "12", "13")
WITH_AB = (*SIZES[:2], "ab", *SIZES[2:])  # hardly any holds it
FEWEST = 3  # sizes in one, where nothing parts them
SHOT = r"(?:ssg|swan|aaa|ab|bb|no\.?\s*\d+)"
_COMPARTMENTS = r"(?:ways?|div(?:ision)?s?|comp(?:t|artment)?s?|sections?)"
_DISPENSER = saying(
    r"\bdisp(?:[en]\w{0,7})?s?\b|\bcompartments?\b|\bshaker\b|\bshot\s+box\b|\b(?:way|div\w*)\s+box\b"
)
_SO_MANY_COMPARTMENTS = saying(
    rf"[,\s]*(?<![\w.])(?<!no )(?<!no\. )(?:\d{{1,2}}|{SPOKEN})[\s-]*(?:{_COMPARTMENTS}|sizes|sz)\b"
    rf"|[,\s]*(?<![\w.])(?<!no )(?<!no\. )(?:(?<!\d )\d{{1,2}}|{SPOKEN})[\s-]*(?=shot\s+(?:disp|box))"
)
_RANGE = saying(
    r"(?<![\w.-])(?:(?:no\.?|nos\.?|size|sizes|number)\s*)?(?P<first>ssg|swan|aaa|ab|bb|\d{1,2})s?\s*(?:(?:right\s+)?(?:down|dwn|up)\s+)?"
    r"(?:to|-|–)\s*(?:(?:no\.?|size|number)\s*)?(?P<last>ssg|swan|aaa|ab|bb|\d{1,2})s?(?![\w-])"
)
_MARKS = saying(
    rf"\b(?P<first>{SHOT})(?P<more>(?:[\s,/-]+(?:and\s+)?(?:{SHOT}|\d{{1,2}}))+)(?![\w.])"
)
_GONE = saying(
    r"[,\s(]+(?P<note>(?:the\s+)?no\s*\.?\s*(?:[a-z]{2,3}s?|\d{1,2}s?)\s+(?:left|gone|empty|missing|(?:all\s+)?used(?:\s+up)?)"
    r"(?:\s+in\s+it)?|(?:about\s+)?(?:\d/\d|half|three\s+quarters)\s+full)\)?$"
)
_BEHIND_THE_PRICE = saying(r"(£\d+(?:\.\d\d)?)[,\s]+(\d{1,2})$")
_OF_DUST = saying(
    r"\b(?:dust(?:\s+shot)?(?:\s+as+(?:or)?te?d?\.?)?[\s(]+|nos?\.?\s+)\d{1,2}(?:[\s,/&]+(?:and\s+)?\d{1,2})+(?![\w.])"
)
_OF_NUMBERS = saying(  # "shot dispenser 8, 9, 10, 11"
    r"(?<=dispenser)[\s,:-]+\d{1,2}(?:[\s,/&]+(?:and\s+)?\d{1,2})+(?![\w.])"
)
_PLURAL = saying(r"(?<![\w.])(\d{1,2})s(?=\s*(?:,|and\b|&|\d|$))")  # "BB, 4s, 6s"
_IN_IT = saying(  # "8s 9s & 10s in a dispenser"
    r"^(?P<all>\d{1,2}s?(?:[\s,&/]+(?:and\s+)?\d{1,2}s?)+)\s+in\s+(?:an?|the|one)\s+(?:shot\s+)?disp\w*"
)
_DOWN_TO = saying(r"\bto\b")
_WITH = saying(
    rf"\b(?:with|has|containing|holding)\s+(?:(?:everything|all(?:\s+sizes)?)\s+from\s+)?(?={SHOT})"
)


def dispenser_in_full(text: str) -> str:
    """The words with what a dispenser holds in full.

    >>> dispenser_in_full("7 way shot dispenser SSG down to 6, £4")
    'shot dispenser ssg, aaa, bb, no 1, no 4, no 6, £4'
    >>> dispenser_in_full("dispenser, AAA BB 1 4"), dispenser_in_full("AAA to 8 shot")
    ('dispenser, AAA, BB, no 1, no 4', 'AAA to 8 shot')
    """
    if not _DISPENSER.search(text):
        return text
    text = dictated(text) if _DOWN_TO.search(text) else text
    if gone := _GONE.search(text):  # "no 4s gone"
        note = f"(note: {gone['note'].strip()})"
        return f"{dispenser_in_full(text[: gone.start()].strip(' ,'))} {note}"
    text = _BEHIND_THE_PRICE.sub(r"\1, \2 of them", text)
    parts = _SO_MANY_COMPARTMENTS.search(text)
    text = _SO_MANY_COMPARTMENTS.sub("", text).strip(" ,-")
    text = _IN_IT.sub(lambda found: f"shot dispenser, {_numbered_dust(found)}", text)
    text = saying(r"\bshaker\b").sub("dispenser", text)
    text = _WITH.sub("", _RANGE.sub(lambda found: _every_size(found, parts), text, count=1))
    text = _PLURAL.sub(r"\1", text)
    if _OF_NUMBERS.search(text) and "shot" not in text.lower():
        text = re.sub(r"\bdispenser\b", "shot dispenser", text, count=1)
    text = _OF_NUMBERS.sub(lambda found: f" {_numbered_dust(found)}", text)
    text = _OF_DUST.sub(_numbered_dust, text)
    return " ".join(_MARKS.sub(_numbered, text).split())


def _every_size(found: re.Match[str], parts: re.Match[str] | None) -> str:
    first, last = (found[end].lower().replace("swan", "ssg") for end in ("first", "last"))
    if first.isdecimal() and last.isdecimal() and parts:  # "8 way, sizes 4 to 11"
        every = range(min(int(first), int(last)), max(int(first), int(last)) + 1)
        if f"{len(every)}" in parts.group().split():
            return ", ".join(f"no {size}" for size in every)
    sizes = WITH_AB if "ab" in (first, last) else SIZES
    if first not in sizes or last not in sizes or first == last:
        return found.group()
    start, end = sorted((sizes.index(first), sizes.index(last)))
    held = sizes[start : end + 1]
    return ", ".join(f"no {size}" if size.isdecimal() else size for size in held)


def _numbered_dust(found: re.Match[str]) -> str:
    """ "dust 10 11 12" with each of them as a size."""
    dust = "dust " if found.group().lower().startswith("dust") else ""
    return f"{dust}{', '.join(f'no {size}' for size in re.findall(r'[0-9]+', found.group()))}"


def _numbered(found: re.Match[str]) -> str:
    """Bare numbers among marks are sizes: "AAA BB 1 4 6 and SSG"."""
    marks = re.findall(rf"{SHOT}|\d{{1,2}}", found.group(), re.IGNORECASE)
    if len(marks) < FEWEST:
        return found.group()
    return ", ".join(f"no {mark}" if mark.isdecimal() else mark for mark in marks)
