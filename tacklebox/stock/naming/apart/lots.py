"""A lot of one thing in several sizes, each with its own number: "coffin leads, three 1/4 one 1oz",
"plummets, two small one big", "bush 2.4 mm x 3, 2.8 x 1".

What all of them are stands before or behind the sizes; so many stands before each size, or behind it.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from tacklebox.stock.naming.apart.amounts import Apart, pence_of
from tacklebox.stock.naming.apart.ways import ANY_PACKET, NUMBER, OF_ALL, SPOKEN
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.turns import saying
from tacklebox.stock.naming.words import COLOURS

IsThing = Callable[[str], bool]

_BIG = r"(?:xs|xl|small|medium|large|big|mini|micro|sml|sm|med|md|lge|lrg|lg|s|m|l)"
_COLOUR = rf"(?:{'|'.join(COLOURS)}|blk|blu|grn|yel|internal|external|int|ext)"
_UNIT = r"(?:mm|cm|oz|grams?|gms?|gr|g|lbs?|ssg|swan|aaa|aa|ab|bb)"
_FIGURE = rf"(?:(?:size|sz|no\.?)\s+)?(?:[34]x\d\d|\d+\s+\d/\d|\d/\d|\d*\.?\d+)(?:\s*{_UNIT})?"
_ONE = r"(?:\s+ones?(?=\s*(?:[,&]|and\b|$)))?"
_ENDS = rf"s?{_ONE}(?![\w./])"
_SIZE = rf"(?:{_BIG}\s+{_FIGURE}|{_BIG}\s*\({_FIGURE}\)|{_FIGURE}(?:\s+{_BIG})?|{_BIG}|{_COLOUR}){_ENDS}"
_WITH_UNIT = (
    rf"(?:{_BIG}\s+{_FIGURE}|{_FIGURE}(?<=[a-z])(?:\s+{_BIG})?|(?:size|sz|no\.?)\s+\d{{1,2}}"
    rf"|{_BIG}|{_COLOUR}){_ENDS}"
)
_EACH = saying(r"\b(?:each|ea)\b")
_AND = r"(?:\s*[,;&+]\s*(?:and\s+)?|\s+(?:and|plus)\s+|\s+)"
_SPELT = rf"(?:(?:an?\s+)?(?:couple|pair)(?:\s+of)?|{SPOKEN}|an?)"
_OF = rf"(?:\s+(?P<packets>{ANY_PACKET}))?(?:\s+(?:of|at|in)(?:\s+the)?)?"
_COUNTED = (  # "20 30 g" may be two weights, "10 x2" two of size 10
    rf"(?:(?P<many>{_SPELT}){_OF}\s+(?P<size>{_SIZE})|(?P<times>\d{{1,2}})(?:x\s*|\s+x\s+)(?P<of>{_SIZE})"
    rf"|(?P<few>[1-9]|1[0-2]){_OF.replace('packets', 'held')}\s+(?!\d/\d)(?P<sized>{_WITH_UNIT}))"
)
_SORTS = "internal|external|hollow|solid|barbless|spade|eyed|barrel"
_SIZED = (
    rf"(?P<size>{_SIZE})(?:\s+(?P<word>{_SORTS})(?=\s+x))?\s*,?\s*"
    rf"(?:x\s*(?P<times>\d{{1,2}})|(?P<many>{SPOKEN})|(?<=[a-z)]\s)(?P<few>[1-9]))(?![\w./])"
)
_COUNTED_CELL, _SIZED_CELL = saying(_COUNTED), saying(_SIZED)
_CELLS = tuple(
    saying(
        rf"^(?P<head>.*?[a-z].*?)[\s,:;–-]+(?P<cells>(?:{cell})(?:{_AND}(?:{cell}))+)"
        r"(?:[\s,]+(?P<tail>[a-z][^\d£]*))?$"
    )
    for cell in (re.sub(r"\?P<\w+>", "?:", one) for one in (_COUNTED, _SIZED))
)
_FIRST_SINGLE = saying(  # "feeder 1oz med, and a couple 2oz"
    rf"^(?P<head>.*?[a-z].*?)\s+(?P<size>{_SIZE})(?:\s*,\s*(?P<many>{NUMBER}))?\s*"
    rf"(?:,|&|\+|,?\s*\b(?:and|plus)\b)\s*"
    rf"(?:(?P<more>{_SPELT})\s+|(?P<times>\d{{1,2}})\s*x\s*)(?P<other>{_SIZE})$"
)
_SIZED_THEN_COUNTED = saying(
    rf"^(?P<head>.*?[a-z].*?)\s+(?P<size>{_SIZE})\s*,?\s*(?:x\s*(?P<times>\d{{1,2}})|(?P<many>{SPOKEN}))"
    rf"\s*,?\s*(?:&|\+|\band\b|\bplus\b)\s*(?P<more>{_SPELT}|\d{{1,2}}\s*x|[1-9](?=\s+\d+\s*[a-z]))"
    rf"\s*(?P<other>{_SIZE})$"
)
_PAIRED = saying(
    rf"^(?P<head>.*?[a-z].*?)\s+(?P<size>{_FIGURE})\s*(?:and|&|\+)\s*(?P<other>{_FIGURE}),\s*"
    r"(?P<many>\d)\s*(?:\+|and|&)\s*(?P<more>\d)$"
)
_IN_BRACKETS = re.compile(r"\s*\(\s*(?:x\s*)?(\d{1,2})\s*\)")
_WORDS = r"[a-z]+(?:\s+[a-z]+){0,2}?"
_COUNT_FIRST = saying(
    rf"^(?:x\s*(?=\d))?(?P<many>{_SPELT}|\d{{1,2}}(?:\s*x)?)\s+(?P<head>{_WORDS})\s+(?P<rest>{_SIZE}.*)$"
)
_SIZE_FIRST = saying(rf"^(?P<size>{_FIGURE})\s+(?P<head>{_WORDS})\s+(?P<rest>x\s*\d.*)$")
_OF_ALL_OF_THEM = saying(r"^(?:all|both)\s+(?:of\s+them\s+)?")
_MIXED = saying(
    r"\b(?:mixed|assorted|asst\w*|assortment|mix)\b|\b(?:job[\s-]+)?(?:bag|box|packet|pkt|pack|lot|set)\b(?:\s+of)?"
)
_TOTAL = saying(rf"[\s,]+(?:x\s*)?(?P<many>{NUMBER})\s*(?:of\s+them)?\s*[-:–,]*\s*$")
_TOTAL_FIRST = saying(rf"^(?P<many>{NUMBER})\s+(?=[a-z])")
_SHORT = {
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
_HOW_BIG = saying(r"\b(?:small|medium|large|micro|mini)\b")
_ONES = re.compile(r"\s+ones?$|(?<=[a-z]{3})s$", re.IGNORECASE)
MOST_SIZES = 8


@dataclass(frozen=True, slots=True)
class _Cell:
    """One size and so many of it, pieces or packets."""

    size: str
    many: int
    in_packets: bool = False


def lot_apart(text: str, is_thing: IsThing) -> tuple[tuple[str, Apart], ...] | None:
    """Each size of the lot with its number, None where the words are no such lot; ``is_thing`` says of a
    name alone whether it is one.

    >>> [(name, said.count) for name, said in lot_apart("coffin leads, three 1/4 one 1oz", lambda _: True)]
    [('coffin leads 1/4 oz', 3), ('coffin leads 1 oz', 1)]
    >>> lot_apart("coffin leads 1/4 oz, three", lambda _: True)
    """
    if "note:" in text.lower() or _EACH.search(text):
        return None
    price = OF_ALL.search(text)
    bare = (text[: price.start()] if price else text).strip(" ,;")
    for head, cells, tail in _taken_apart(_IN_BRACKETS.sub(r" x\1", bare)):
        sizes = {cell.size for cell in cells}
        if not 1 < len(cells) <= MOST_SIZES or len(sizes) < len(cells):
            continue
        head, total = _without_total(_MIXED.sub(" ", head))
        if total and total != sum(cell.many for cell in cells):
            continue
        for before, behind in ((head, tail), ("", tail)) if tail else ((head, ""),):
            names = [" ".join(f"{before} {cell.size} {behind}".split()) for cell in cells]
            if all(map(is_thing, names)):
                return tuple(_priced(names, cells, price))
    return None


def _taken_apart(bare: str) -> Iterator[tuple[str, list[_Cell], str]]:
    """What all are, so many of each size, and what is said of all behind them, in each way that fits."""
    ways = [bare]
    if found := _COUNT_FIRST.match(bare):  # "six hooks size 18 and four size 20"
        ways.append(f"{found['head']} {found['many']} {found['rest']}")
    if found := _SIZE_FIRST.match(bare):  # "3bb wagglers x2 and 3aaa x1"
        ways.append(f"{found['head']} {found['size']} {found['rest']}")
    for at, way in enumerate(ways):
        counted, sized = (pattern.match(way) for pattern in _CELLS)
        if counted and _fits(counted["tail"], turned=at > 0):
            tail = _OF_ALL_OF_THEM.sub("", counted["tail"] or "")
            yield counted["head"], _counted(counted["cells"]), tail
        if sized and _fits(sized["tail"], turned=at > 0):
            words = {one["word"] for one in _SIZED_CELL.finditer(sized["cells"]) if one["word"]}
            tail = " ".join([*words, *filter(None, [sized["tail"]])])
            yield sized["head"], _sized(sized["cells"]), tail
    if found := _PAIRED.match(bare):  # "1/2 and 3/4, 4 + 2"
        sizes = _of_one_unit([found["size"], found["other"]])
        cells = [_Cell(sizes[0], int(found["many"])), _Cell(sizes[1], int(found["more"]))]
        yield found["head"], cells, ""
    if found := _SIZED_THEN_COUNTED.match(bare):  # "24 g x 2 and a 36"
        sizes = _of_one_unit([found["size"], found["other"]])
        first, other = count_of(found["many"] or found["times"]), _number(found["more"])
        yield found["head"], [_Cell(sizes[0], first), _Cell(sizes[1], other)], ""
    if found := _FIRST_SINGLE.match(bare):
        sizes = _of_one_unit([found["size"], found["other"]])
        first = count_of(found["many"]) if found["many"] else 1
        other = _number(found["more"] or found["times"])
        if _figured(sizes):
            yield found["head"], [_Cell(sizes[0], first), _Cell(sizes[1], other)], ""


def _fits(tail: str | None, *, turned: bool) -> bool:
    """Whether the words behind say more of all; behind the last of several things they may name it."""
    return not turned or tail is None or bool(_OF_ALL_OF_THEM.match(tail))


def _counted(cells: str) -> list[_Cell]:
    every = [*_COUNTED_CELL.finditer(cells)]
    sizes = _of_one_unit([one["size"] or one["of"] or one["sized"] for one in every])
    many = [_number(one["many"] or one["times"] or one["few"]) for one in every]
    packets = [bool(one["packets"] or one["held"]) for one in every]
    return [_Cell(*one) for one in zip(sizes, many, packets, strict=True)]


def _sized(cells: str) -> list[_Cell]:
    every = [*_SIZED_CELL.finditer(cells)]
    sizes = _of_one_unit([one["size"] for one in every])
    many = [count_of(one["times"] or one["many"] or one["few"]) for one in every]
    return [_Cell(*one) for one in zip(sizes, many, strict=True)]


def _figured(sizes: list[str]) -> bool:
    return all(re.search(r"\d.*[a-z]", size) for size in sizes)


def _number(said: str) -> int:
    few = re.sub(r"^an?\s+(?=couple|pair)|\s+of$", "", said.lower())
    return 1 if few in ("a", "an") else 2 if few in ("couple", "pair") else count_of(few)


def _of_one_unit(sizes: list[str]) -> list[str]:
    """The sizes in full, one without a unit with the unit of the others."""
    units = [
        found.group().strip()
        for size in sizes
        if (found := re.search(rf"(?<=\d)\s*{_UNIT}\b", size, re.IGNORECASE))
    ]
    unit = units[-1] if len({one.lower() for one in units}) == 1 else ""
    full = []
    for size in sizes:
        words = _ONES.sub("", re.sub(r"(?<=\d)s$", "", size, flags=re.IGNORECASE))
        words = re.sub(r"[()]", " ", words)
        words = re.sub(r"[a-z]+", lambda one: _SHORT.get(one.group().lower(), one.group()), words)
        words = re.sub(rf"(?<=\d)(?={_UNIT}\b)", " ", words)
        if unit and not re.search(rf"(?<=\d)\s*{_UNIT}\b", words, re.IGNORECASE):
            words = re.sub(r"(\d+\s+\d/\d|\d/\d|\d*\.?\d+)", rf"\1 {unit}", words, count=1)
        words = re.sub(r"(\d/\d)$", r"\1 oz", words)  # what is weighed in fractions
        full.append(" ".join(words.replace("big", "large").split()))
    first, *rest = full
    if (big := _HOW_BIG.search(first)) and not any(map(_HOW_BIG.search, rest)):
        rest = [f"{big.group()} {one}" for one in rest]  # "large 40 g and one 50 g"
    return [first, *rest]


def _without_total(head: str) -> tuple[str, int]:
    """What all are, and how many there are of all, 0 where nobody said."""
    head = head.strip(" ,:;–-")
    for total in (_TOTAL, _TOTAL_FIRST):
        if found := total.search(head):
            return total.sub("", head), count_of(found["many"])
    return head, 0


def _priced(
    names: list[str], cells: list[_Cell], price: re.Match[str] | None
) -> Iterator[tuple[str, Apart]]:
    each = round(pence_of(price["money"]) / sum(cell.many for cell in cells)) if price else 0
    for name, cell in zip(names, cells, strict=True):
        said = Apart(name, packs=cell.many) if cell.in_packets else Apart(name, count=cell.many)
        yield name, replace(said, pence_each=each)
