"""A range of sizes with a packet of each: "hooks 16 to 20, pkt of each", ".10 to .18, five spools"."""

import re

from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly.rules import Rules, rules

MOST_OF_A_RANGE = 6


def every_even_size(found: re.Match[str]) -> str:
    """ "Hooks 16 to 20, packet of each" as 16, 18 and 20."""
    one, other = int(found["one"]), int(found["other"])
    step = 2 if other > one else -2
    sizes = [str(size) for size in range(one, other + step // 2, step)]
    if one % 2 or other % 2 or not 2 <= len(sizes) <= MOST_OF_A_RANGE:
        return found.group()
    behind = re.sub(r"\b(each)\s+even\s+size\b", r"\1", found["behind"])
    return f"{found['before']}{', '.join(sizes[:-1])} and {sizes[-1]}{behind}"


def every_other_line(found: re.Match[str]) -> str:
    """ ".10 to .18, five spools" as one of .10, .12, .14, .16 and .18, where as many lie between."""
    one, other = (round(100 * float(found[end])) for end in ("one", "other"))
    sizes = [f".{size:02d}" for size in range(one, other + 1, 2)]
    if len(sizes) != count_of(found["many"]):
        return found.group()
    return f"{found['before']}{', '.join(sizes)}{found['behind']}"


RULES: Rules = rules(
    (
        r"^(?P<before>(?=.*\bhooks?\b).*?)(?P<one>\d{1,2})s?\s+to\s+(?P<other>\d{1,2})s?\b(?P<behind>.*\b(?:of\s+each|each)\b.*)$",
        every_even_size,
    ),
    (
        r"^(?P<before>.*?)(?P<one>0?\.\d\d)\s*(?:mm)?\s+to\s+(?P<other>0?\.\d\d)\s*(?:mm)?(?P<behind>[,\s]+(?P<many>\d|three|four|five|six|seven)\s+spools?\b.*)$",
        every_other_line,
    ),
)
