"""A lot of one thing in several sizes, each with its own number: "coffin leads, three 1/4 one 1oz",
"plummets, two small one big", "bush 2.4 mm x 3, 2.8 x 1".

What all of them are stands before or behind the sizes; so many stands before each size, or behind it.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from tacklebox.stock.naming.apart.amounts import Apart, pence_of
from tacklebox.stock.naming.apart.sizes import COLOUR, FIGURE, SIZE, UNIT, WITH_UNIT, of_one_unit
from tacklebox.stock.naming.apart.ways import ANY_PACKET, NUMBER, OF_ALL, OF_EACH, SPOKEN
from tacklebox.stock.naming.numbers import count_of
from tacklebox.stock.naming.plainly import money
from tacklebox.stock.naming.plainly.rules import put
from tacklebox.stock.naming.turns import saying
from tacklebox.stock.naming.words import COLOURS

IsThing = Callable[[str], bool]

_EACH = saying(r"\b(?:each|ea|of\s+both)\b")
_ALL_TOLD = saying(r"[a-z]{3}")
_AND = r"(?:\s*[,;&+]\s*(?:and\s+)?(?:the\s+)?|\s+/\s+|\s+(?:and|plus)\s+|\s+)"
_SPELT = rf"(?:(?:an?\s+)?(?:couple|pair)(?:\s+of)?|{SPOKEN}|an?)"
_OF = rf"(?:\s+(?P<packets>{ANY_PACKET}))?(?:\s+(?:of|at|in)(?:\s+the)?)?"
_COUNTED = (  # "20 30 g" may be two weights, "10 x2" two of size 10
    rf"(?:(?P<lots>\d{{1,3}})\s+of\s+(?:the\s+)?(?P<which>{SIZE})|(?P<many>{_SPELT}){_OF}\s+(?P<size>{SIZE})|(?P<times>\d{{1,2}})(?:x\s*|\s+x\s+)(?P<of>{SIZE})"
    rf"|(?P<few>[1-9]|1[0-2]){_OF.replace('packets', 'held')}\s+(?!\d/\d)(?P<sized>{WITH_UNIT}))"
)
_SORTS = "internal|external|hollow|solid|barbless|spade|eyed|barrel"
_SIZED = (
    rf"(?P<size>{SIZE})(?:\s+(?P<word>{_SORTS})(?=\s+x))?\s*,?\s*"
    rf"(?:x\s*(?P<times>\d{{1,2}})|(?P<many>{SPOKEN})|(?:(?<=[a-z)]\s)|(?<=[a-z],\s)|(?<=/\d\s))(?P<few>[1-9])(?!\s*{ANY_PACKET})"
    rf"|(?<=\dmm\s)(?P<mm>\d{{2,3}})|(?<=\d\smm\s)(?P<spaced>\d{{2,3}})"
    rf"|(?P<packs>[1-9])\s*{ANY_PACKET})(?![\w./])(?:\s+(?:left|of\s+them|off|pcs|pieces)\b)?(?:\s+(?P<hue>{COLOUR})\b)?"
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
    rf"^(?P<head>.*?[a-z].*?)\s+(?P<size>{SIZE})(?:\s*,\s*(?P<many>{NUMBER}))?\s*"
    rf"(?:,|&|\+|,?\s*\b(?:and|plus)\b)\s*"
    rf"(?:(?P<more>{_SPELT}|[1-9](?=\s+(?:at\b|of\s+\d+\s*(?:g|oz|mm)\b)))\s+(?:at\s+|of\s+)?|(?P<times>\d{{1,2}})\s*x\s*)(?P<other>{SIZE})$"
)
_SIZED_THEN_COUNTED = saying(
    rf"^(?P<head>.*?[a-z].*?)\s+(?P<size>{SIZE})\s*,?\s*(?:x\s*(?P<times>\d{{1,2}})|(?P<many>{SPOKEN}|(?<=[a-z]\s)[1-9]))"
    rf"\s*,?\s*(?:&|\+|\band\b|\bplus\b)\s*(?P<more>{_SPELT}|\d{{1,2}}\s*x|[1-9](?=\s+\d+\s*[a-z]))"
    rf"\s*(?P<other>{SIZE})$"
)
_BIG = r"(?:extra\s+)?(?:small|large)|medium|big|mini|micro|sml|sm|med|md|lge|lrg|lg|fine|strong|long|short"
_SURE_SIZE = (
    r"(?:(?:\d*\.\d+\s+to\s+\d{1,2}|\d{1,2}s?\s+to\s+0?\.\d+)|(?:size|sz|no\.?)\s*\d{1,2}s?|\d{1,2}s|[34]x\d\d"
    rf"|(?:\d+\s+\d/\d|\d/\d|\d*\.?\d+)\s*(?:mm|cm|oz|g|gm|grams?|m(?=\s+x))|aaa|bb|ab|ssg|swan|{_BIG})(?![\w./])"
)
_NO_UNIT = r"(?!\s*(?:mm|cm|m|g|oz|lbs?|p|in)\b|[\w./%])"
_EXACTLY = (  # "small 24, medium 18", "24s - 18 left, 26s - 11 left", "30 BB, 25 AAA, 40 no 4"
    rf"(?P<size>{_SURE_SIZE})\s*[:,–-]?\s*(?:x\s*)?(?P<many>\d{{1,3}}|{SPOKEN}){_NO_UNIT}(?:\s*(?:off|of\s+them|pcs|pieces|left)\b)?",
    rf"(?P<many>\d{{1,3}}|{SPOKEN})\s+(?:x\s+|off\s+|of\s+|@\s*)?(?P<size>{_SURE_SIZE}|(?<=@\s)\d/\d(?![\w/]))",
)
_EXACT_CELLS = tuple(map(saying, _EXACTLY))
_EXACT = tuple(
    saying(
        rf"^(?P<head>.*?[a-z].*?)[\s,:;–-]+(?P<cells>(?:{cell})(?:{_AND}(?:{cell}))+)(?:[\s,]+(?P<tail>[a-z][^\d£]*))?$"
    )
    for cell in (re.sub(r"\?P<\w+>", "?:", one) for one in _EXACTLY)
)
_PAIRED = saying(  # "1/2 and 3/4, 4 + 2", "30/40/50 g (2+2+1)"
    rf"^(?P<head>.*?[a-z].*?)\s+(?P<sizes>{FIGURE}(?:\s*(?:,\s*(?:and\b|&)?|and\b|[&+/])\s*{FIGURE})+),?\s*\(?"
    r"(?P<many>\d(?:\s*(?:\+|and|&|/)\s*\d)+)\)?$"
)
_LIST = rf"(?:{SIZE})(?:{_AND}(?:{SIZE}))+"
_SAME_OF_EACH = tuple(  # "pellet feeders XS 20 g & S 30 g, two each", "dust shot 10, 11, 12 tub of each"
    saying(rf"^{of_all}[\s,]+{so_many}\s*(?:of\s+)?(?:each|both)$")
    for so_many in (
        rf"(?P<many>{NUMBER})",
        rf"(?P<many>[1-9]|{_SPELT})\s*(?P<packets>{ANY_PACKET})",
        rf"(?P<packets>{ANY_PACKET})(?P<many>)",
    )
    for of_all in (
        rf"(?P<head>.*?[a-z].*?)[\s,:]+(?P<sizes>{_LIST})(?P<tail>)",
        rf"(?:(?P<head>[^\d]*[a-z][^\d]*?)[\s,:–-]+)?(?P<sizes>{_LIST})\s+(?P<tail>[a-z][^,\d]*?)",
    )
)
_UNCOUNTED = saying(  # "bullet feeders 40, 50 and 60 g"
    rf"^(?P<head>.*?[a-z].*?)\s+(?P<sizes>{FIGURE}(?:\s*,\s*{FIGURE})+\s*,?\s*(?:and|&|\+)\s*{FIGURE}(?<=[a-z]))$"
)
_EVERY_SIZE = saying(SIZE)
_FIGURE_LAST = saying(rf"^(?P<head>.*[a-z].*?)\s+(?P<figure>[\d./]+\s*(?P<unit>{UNIT}))$")
MOULD = "method mould"
_WITH_MOULD = saying(r",?\s+(?:with|plus|and|\+)\s+(?:an?\s+|the\s+|1\s+)?moulds?$")
_GOT_OF_EACH = saying(r"\b(?:got|have)\s+(\d(?:\s*,\s*\d)*\s*(?:and|&)\s*\d)$")
_THE_OTHER = saying(r"(?<=[+&,]\s)(small|medium|large|lge|med|sml)\s+one\s+(?=\d)")
_IN_BRACKETS = re.compile(r"\s*\(\s*(?:x\s*)?(\d{1,2})\s*\)")
_WORDS = r"[a-z]+(?:\s+[a-z]+){0,2}?"
_AS_MANY = saying(  # "4 pellet wagglers foam 4, 5, 6, 8 g"
    rf"^(?P<many>{NUMBER})\s+(?:(?P<packets>spools|{ANY_PACKET})\s+(?:of\s+)?)?(?P<head>{_WORDS}),?\s+"
    rf"(?P<sizes>{_LIST})$"
)
_COUNT_FIRST = saying(
    rf"^(?:x\s*(?=\d))?(?P<many>{_SPELT}|\d{{1,2}}(?:\s*x)?)\s+(?P<head>{_WORDS})\s+(?P<rest>{SIZE}.*)$"
)
_SIZE_FIRST = saying(rf"^(?P<size>{FIGURE})\s+(?P<head>{_WORDS})\s+(?P<rest>x\s*\d.*)$")
_OF_ALL_OF_THEM = saying(r"^(?:all|both)\s+(?:of\s+them\s+)?")
_MIXED = saying(
    r"\b(?:mixed|assorted|asst\w*|assortment|mix)\b|\b(?:job[\s-]+)?(?:bag|box|packet|pkt|pack|lot|set)\b(?:\s+of)?"
)
_TOTAL = saying(rf"[\s,]+(?:x\s*)?(?P<many>{NUMBER})\s*(?:of\s+(?:them|'?em))?\s*[-:–,]*\s*$")
_TOTAL_FIRST = saying(rf"^(?P<many>{NUMBER})\s+(?=[a-z])")
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
    if "note:" in text.lower():
        return None
    text = put(text, (money.RULES,))
    price = OF_EACH.search(text) or OF_ALL.search(text)
    told_each = price is not None and price.re is OF_EACH
    if price and not told_each and _EACH.search(text) and not _ALL_TOLD.search(price.group()):
        return None  # "one each, £2.99"
    bare = (text[: price.start()] if price else text).strip(" ,;")
    bare = re.sub(r"(?<=\d\d)/(?=\d\d)", ", ", _IN_BRACKETS.sub(r" x\1", bare))
    bare = _THE_OTHER.sub(r"one \1 ", bare)
    moulded, bare = bool(_WITH_MOULD.search(bare)), _WITH_MOULD.sub("", bare)
    bare = _GOT_OF_EACH.sub(lambda found: f"{'+'.join(re.findall('[0-9]', found[1]))}", bare)
    for said, cells, tail in _same_of_each(bare) if _EACH.search(bare) else _taken_apart(bare):
        if said.endswith(" x"):  # "18 cm x 20 mm" is one size
            continue
        head, cells = _with_its_figure(said, cells)
        sizes = {cell.size for cell in cells}
        if not 1 < len(cells) <= MOST_SIZES or len(sizes) < len(cells):
            continue
        head, total = _without_total(_MIXED.sub(" ", head))
        if total and total != sum(cell.many for cell in cells):
            continue
        for before, behind in ((head, tail), ("", tail)) if tail else ((head, ""),):
            names = [" ".join(f"{before} {cell.size} {behind}".split()) for cell in cells]
            if all(map(is_thing, names)):
                mould = ((MOULD, Apart(MOULD, count=1)),) if moulded and is_thing(MOULD) else ()
                return (*_priced(names, cells, price), *mould)
    return None


def _same_of_each(bare: str) -> Iterator[tuple[str, list[_Cell], str]]:
    """What all are, and the same number of each size."""
    found = next(filter(None, (pattern.match(bare) for pattern in _SAME_OF_EACH)), None)
    if found is None:
        return
    many, in_packets = _number(found["many"] or "1"), bool(found.groupdict().get("packets"))
    head, tail, sizes = found["head"] or "", found["tail"], _listed(found["sizes"])
    if re.match(r"\d", sizes[0]) and len(colours := [s for s in sizes if s in COLOURS]) > 0:
        first, _, colour = sizes[0].rpartition(" ")
        if colour in COLOURS and len(colours) == len(sizes) - 1:  # "0.1 yellow & red"
            head, sizes = f"{head} {first}", [colour, *sizes[1:]]
        elif sizes[1:] == colours:
            head, sizes = f"{head} {sizes[0]}", colours
        elif colours == sizes[-1:]:  # "3 g 4 g 5 g yellow"
            tail, sizes = colours[0], sizes[:-1]
    if len({bool(re.search(r"\d", size)) for size in sizes}) > 1:
        return  # "1.8 mm int" is one size
    yield head, [_Cell(size, many, in_packets) for size in sizes], tail


def _with_its_figure(head: str, cells: list[_Cell]) -> tuple[str, list[_Cell]]:
    """What all are, and the first size with the figure before it: "winders 20 cm green ten, 26 cm 4"."""
    found = _FIGURE_LAST.match(head)
    first, *rest = cells
    unit = found["unit"].lower() if found else ""
    if found and any(cell.size.lower().endswith(unit) for cell in rest):
        return found["head"], [replace(first, size=f"{found['figure']} {first.size}"), *rest]
    return head, cells


def _listed(sizes: str) -> list[str]:
    return of_one_unit([one.group() for one in _EVERY_SIZE.finditer(sizes)])


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
    yield from _otherwise(bare)
    yield from _exactly(bare)


def _otherwise(bare: str) -> Iterator[tuple[str, list[_Cell], str]]:
    """The same of sizes that are told apart from their numbers, or of the first of which there is one."""
    if found := _AS_MANY.match(bare):
        sizes = _listed(found["sizes"])
        if len(sizes) == count_of(found["many"]) > 1:
            yield found["head"], [_Cell(size, 1, bool(found["packets"])) for size in sizes], ""
    if (found := _UNCOUNTED.match(bare)) and not _MIXED.search(bare):
        sizes = _listed(found["sizes"])
        if sizes[0].split()[0] != str(len(sizes) - 1):  # "plummets 2, 20 and 30 g" are two
            yield found["head"], [_Cell(size, 0) for size in sizes], ""
    if found := _PAIRED.match(bare):
        sizes, many = (
            _listed(re.sub(r"(?<=[a-z\d]{2})/", ", ", found["sizes"])),
            [int(one) for one in re.findall(r"\d", found["many"])],
        )
        slashed = "/" not in found["many"] or re.search(r"[a-z]\s*/", found["sizes"])
        if len(sizes) == len(many) and slashed:
            yield found["head"], [_Cell(*one) for one in zip(sizes, many, strict=True)], ""
    if found := _SIZED_THEN_COUNTED.match(bare):  # "24 g x 2 and a 36"
        sizes = of_one_unit([found["size"], found["other"]])
        first, other = count_of(found["many"] or found["times"]), _number(found["more"])
        yield found["head"], [_Cell(sizes[0], first), _Cell(sizes[1], other)], ""
    if found := _FIRST_SINGLE.match(bare):
        sizes = of_one_unit([found["size"], found["other"]])
        first = count_of(found["many"]) if found["many"] else 1
        other = _number(found["more"] or found["times"])
        if _figured(sizes):
            yield found["head"], [_Cell(sizes[0], first), _Cell(sizes[1], other)], ""


def _fits(tail: str | None, *, turned: bool) -> bool:
    """Whether the words behind say more of all; behind the last of several things they may name it."""
    return not turned or tail is None or bool(_OF_ALL_OF_THEM.match(tail))


def _counted(cells: str) -> list[_Cell]:
    every = [*_COUNTED_CELL.finditer(cells)]
    sizes = of_one_unit([one["size"] or one["of"] or one["sized"] or one["which"] for one in every])
    many = [_number(one["many"] or one["times"] or one["few"] or one["lots"]) for one in every]
    packets = [bool(one["packets"] or one["held"]) for one in every]
    return [_Cell(*one) for one in zip(sizes, many, packets, strict=True)]


def _sized(cells: str) -> list[_Cell]:
    every = [*_SIZED_CELL.finditer(cells)]
    sizes = of_one_unit([f"{one['size']} {one['hue'] or ''}".strip() for one in every])
    keys = ("times", "many", "few", "mm", "spaced", "packs")
    many = [count_of(next(filter(None, map(one.group, keys)))) for one in every]
    packets = [bool(one["packs"]) for one in every]
    return [_Cell(*one) for one in zip(sizes, many, packets, strict=True)]


def _exactly(bare: str) -> Iterator[tuple[str, list[_Cell], str]]:
    """Sizes that are surely such, each with its number before or behind."""
    for every, cell in zip(_EXACT, _EXACT_CELLS, strict=True):
        if found := every.match(bare):
            cells = [*cell.finditer(found["cells"])]
            sizes = [one["size"] for one in cells]
            if not any(re.search(r"\d\s*m$", one) for one in sizes):  # "75 cm x 5, 1 m x 4"
                sizes = of_one_unit(sizes)
            numbers = [_number(one["many"]) for one in cells]
            made = [_Cell(*one) for one in zip(sizes, numbers, strict=True)]
            yield found["head"], made, _OF_ALL_OF_THEM.sub("", found["tail"] or "")


def _figured(sizes: list[str]) -> bool:
    return all(re.search(r"\d.*[a-z]", size) for size in sizes)


def _number(said: str) -> int:
    few = re.sub(r"^an?\s+(?=couple|pair)|\s+of$", "", said.lower())
    return 1 if few in ("a", "an") else 2 if few in ("couple", "pair") else count_of(few)


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
    of_all = sum(cell.many for cell in cells)
    many = 1 if price and price.re is OF_EACH else of_all
    each = round(pence_of(price["money"]) / many) if price and many else 0
    for name, cell in zip(names, cells, strict=True):
        said = Apart(name, packs=cell.many) if cell.in_packets else Apart(name, count=cell.many)
        yield name, replace(said, pence_each=each)
