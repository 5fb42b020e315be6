"""Several things said in one breath, each with its own figures: "two hybrids and ten 18s to 0.10", "sticks:
four of 4 No 4 and two of 6 No 4". Here they are taken apart; whoever reads them asks for one at a time."""

import re
from collections.abc import Iterator

from tacklebox.stock.naming.numbers import HOW_MANY, ONES, TENS

_MANY = "|".join((r"\d{1,4}", *ONES, *TENS, *HOW_MANY, "an?", "half"))
_PACKETS = r"(?:packets?|packs?|pkts?|spools?|tubs?|boxes|bags?|cards?)"
_AND = r"\s*[,;]?\s*\b(?:and|plus|together\s+with|as\s+well\s+as|along\s+with)\s+|\s*[;&+]\s+"
_BY_AND = re.compile(_AND, re.IGNORECASE)
_BY_COMMAS = (
    re.compile(
        rf"{_AND}|,\s*(?=(?:{_MANY})\b(?![.,]\d|\s*(?:mm|cm|m|g|oz|lb|kg|in|ft)\b))", re.IGNORECASE
    ),
    re.compile(rf"{_AND}|\s*,\s*", re.IGNORECASE),
)
_HEADED = re.compile(r"^(?P<head>[^:]*[a-z][^:]*):\s*(?P<rest>.+)$", re.IGNORECASE)
_SO_MANY_OF = re.compile(rf"^(?P<many>{_MANY})\s+(?:of|at|in)\s+(?P<which>.+)$", re.IGNORECASE)
_SO_MANY_PACKETS = re.compile(
    rf"^(?:{_MANY})\s+(?P<packets>{_PACKETS})\s+of\s+(?P<what>.+)$", re.IGNORECASE
)


def in_turn(text: str, *, listed: bool = False) -> Iterator[tuple[tuple[str, ...], ...]]:
    """Every way to take the words as several things, the likeliest first: of each thing every way to say it.

    ``listed``: parted by commas, too.

    >>> next(in_turn("sticks: four of 4 No 4 and two of 6 No 4"))
    (('four sticks 4 No 4', 'four of 4 No 4'), ('two sticks 6 No 4', 'two of 6 No 4'))
    >>> next(in_turn("2 hybrids 30 g and ten beads")), list(in_turn("two hybrids 30 g"))
    ((('2 hybrids 30 g',), ('ten beads',)), [])
    """
    headed = _HEADED.match(text)
    head = headed.group("head").strip() if headed else ""
    for joint in _BY_COMMAS if listed else (_BY_AND,):
        parts = [
            part.strip(" ,;:") for part in joint.split(headed.group("rest") if headed else text)
        ]
        if len(parts) > 1 and all(parts):
            yield tuple((_of_the_head(head, part), part) if head else (part,) for part in parts)


def is_headed(text: str) -> bool:
    """Whether a list follows what all of it is: "sticks: ..."."""
    return bool(_HEADED.match(text))


def _of_the_head(head: str, part: str) -> str:
    """ "Sticks" and "four of 4 No 4" as "four sticks 4 No 4"."""
    of, packets = _SO_MANY_OF.match(part), _SO_MANY_PACKETS.match(head)
    if of and packets:
        of_each = f"{of.group('many')} {packets.group('packets')} of {packets.group('what')}"
        return f"{of_each} {of.group('which')}"
    if of:
        return f"{of.group('many')} {head} {of.group('which')}"
    many, _, named = part.partition(" ")
    return f"{many} {head}" if named in re.findall(r"[^\W\d_]+", head.lower()) else f"{head} {part}"
