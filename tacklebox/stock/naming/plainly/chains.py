"""Three or more figures of one form in a row, put as a list: "10 12 14", ".2 .3 .4", "0.5 0.8 1.0mm". What
goes up or down by even steps names sizes; no angler counts so."""

import re
from itertools import pairwise

from tacklebox.stock.naming.plainly.rules import Rules, rules
from tacklebox.stock.naming.turns import saying

_ONE = r"(?:\d?\.\d{1,3}|\d{1,2})"
_BETWEEN = r"(?:\s*,\s*(?:(?:and|&)\s+)?|\s+(?:(?:and|&)\s+)?|\s*&\s*)"
_ROW = (
    rf"(?<![\w./×£#+-])(?<!\d\s)(?<![x×]\s)(?<!no\s)(?<!nos\s)(?<!no\.\s)(?<!nos\.\s)(?<!nos\.)(?P<row>{_ONE}(?:{_BETWEEN}{_ONE}){{2,}})(?P<unit>\s*(?:mm|g)\b|s\b)?"
    rf"(?!{_BETWEEN}\d{{1,2}}(?![\w.]|\s*(?:mm|cm|m|yds?|lb|g|oz|in|p|x)\b|\s+of\s+(?:each|both)))"
    r"(?!\s+0?\.\d)"
    r"(?!\s*(?:of\s+)?(?:each|ea)\b|[\w./×+-]|\s*(?:[x×]\s*\d|g|kg|oz|lbs?|cm|m|in(?!\s+(?:an?|the|my|one|round|square)\b)|p|off|pcs?|bb|aaa|ab|ssg|swan|packs?|packets?|pkts?|pk)\b|\s*/|\s*,?\s*\d*\.?\d+\s*g|\s+\d{1,2}\s+in\b|\s*(?:,|and\b|&)\s*(?:and\s+)?(?:bb|aaa|ab|ssg)s?\b|.*\b(?:mixed|assorted|asst)\b)"
)
_EACH = saying(r"\s+(?:an?\s+)?[a-z]+\s+(?:of\s+)?each\b|\s+in\s+(?:an?\s+|the\s+|my\s+)?[a-z]{3,}")
FEWEST = 3
NARROW, WIDE = 2, 4  # steps of whole sizes: of three figures, and of more
_THICKEST = 3.0  # mm or g in hundredths and tenths


def as_a_list(found: re.Match[str]) -> str:
    """The figures with "and" before the last; as they were where they are no sizes of one thing.

    >>> say = lambda text: saying(_ROW).sub(as_a_list, text)
    >>> say("swivels 10, 12, 14"), say("olivettes .2 .3 .4 .6"), say("hooks 16, 10, 5")
    ('swivels 10, 12 and 14', 'olivettes .2, .3, .4 and .6', 'hooks 16, 10, 5')
    """
    said, unit = re.findall(_ONE, found["row"]), (found["unit"] or "").strip()
    sizes = [float(one) for one in said]
    steps = [later - before for before, later in pairwise(sizes)]
    one_way = all(step > 0 for step in steps) or all(step < 0 for step in steps)
    if any("." in one for one in said[:2]):
        listed = one_way and max(sizes) <= _THICKEST
    else:
        widest = WIDE if len(said) > FEWEST else NARROW
        even = one_way and max(map(abs, steps)) <= widest
        grams = unit == "g" and len(said) > FEWEST and one_way  # "bombs 7 10 14 20 g"
        listed = grams or (even and unit != "g" and not any("." in one for one in said))
    if not listed or "dispenser" in found.string.lower():  # has a reading of its own
        return found.group()
    each = "," if _EACH.match(found.string, found.end()) else ""
    return f"{', '.join(said[:-1])} and {said[-1]}{unit}{each}"


def of_dust(found: re.Match[str]) -> str:
    """ "Dust shot no 10, 11, 13" are three sizes, however far they are from one another."""
    *first, last = re.findall(r"\d+", found["row"])
    return f"dust shot {', '.join(f'no {size}' for size in first)} and no {last}"


def with_dashes(found: re.Match[str]) -> str:
    """ "15-20-25g" are three."""
    *first, last = found["row"].split("-")
    return f"{', '.join(first)} and {last} {found['unit']}"


def with_spaces(found: re.Match[str]) -> str:
    """ "10,20,30g" is no decimal."""
    return ", ".join(found.group().split(","))


RULES: Rules = rules(
    (r"(?<![\d.,])(?:\d{1,2},){2,}\d{1,2}(?![\d,.])", with_spaces),
    (r"\bdust(?:\s+shot)?\s+nos?\.?\s*(?P<row>\d{1,2}(?:\s*,\s*\d{1,2}){2,})\b", of_dust),
    (r"(?<![\d.-])(?P<row>\d{1,3}(?:-\d{1,3}){2,})\s*(?P<unit>g|mm|cm)\b", with_dashes),
    (_ROW, as_a_list),
    # "0.5, 0.8 and 1.0mm x 1m each"
    (r"(?<=mm)\s*[x×,]?\s*(?:by\s+)?(\d+\s*(?:cm|m))\s+(?:each|ea)\b", r" \1 of each"),
)
