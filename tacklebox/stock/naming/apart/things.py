"""Several things in one breath, taken apart at what joins them, each read by itself with its own amounts:
"2BB wagglers x3, 18s barbless, 2 pkts" or "tail rubbers & sleeves, 10 of each".

Between two joints stands a thing, an amount of the thing before it ("..., two, and ..."), or more about it
("..., barbless"). A figure alone is a thing if it makes one with the name of the thing beside it.
"""

import re
from collections.abc import Callable, Sequence

from tacklebox.stock.naming.apart.amounts import Apart, amounts_apart
from tacklebox.stock.naming.apart.ways import ANY_PACKET, NUMBER
from tacklebox.stock.naming.turns import saying

Thing = tuple[str, Apart | None]
IsThing = Callable[[str], bool]
MOST_MORE = 2  # that is said of one of them between two joints
MOST_PARTS = 8
_OF_EACH = saying(
    rf"\s*[,:]?\s*(?:[-–]\s+)?(?<![\d.£])\b(?P<many>{NUMBER}|an?)?\s*(?P<packets>{ANY_PACKET})?\s*"
    r"(?:of\s+(?:each|both)(?:\s+(?:size|one|sort))?|(?<=[\w]\s)each)$"
    rf"|\s*[,:]?\s*(?P<sets>{NUMBER})\s+sets?$"
)
_JOINT = saying(
    r"\s+[-–]\s+(?![\d.])|\s*[;&]\s*|,(?!\d)\s*|\s+\+\s+|\s+/\s+(?=\d*\s*[a-z]{3})|(?<=[a-z])\s*\+\s*(?=\d+\s+[a-z])"
    rf"|(?<=[x×]\d)\s+(?!{ANY_PACKET}\b)(?=[\d./]*\s?[a-z])"
    r"|\s+(?:and|plus)\s+(?!an?\s+(?:half|quarter|bit)\b)"
)
_SURE = saying(r"[&+;]|\b(?:and|plus)\b")  # joins things, where a comma may not
_BEFORE_FIGURE = re.compile(r"^(?P<head>[^\d.]*[a-z][^\d.]*)", re.IGNORECASE)
_BEHIND_FIGURE = re.compile(r"\d[^\s]*\s+(?P<tail>[a-z][a-z\s]*)$", re.IGNORECASE)
_NUMBER_LAST = saying(r"^(?P<name>.*\d.*[a-z]\w*)\s+(?:[-–]\s+)?(?P<many>\d)$")  # "6 no 4 sticks 3"
_COUNT_FIRST = saying(rf"^({NUMBER})\s+(?=\d+(?:\.\d+)?\s*(?:g|oz|mm)\b)")  # "one 30 g"
_UNIT_LAST = saying(r"(?<=\d)(?P<unit>\s?(?:g|oz))\s+(?P<many>\d)$")  # "15 g 2"
_OF_AMOUNTS = saying(r"\b(?:packets?|pkts?|packs?|loose|left|spares?|opened|unopened|used)\b")
_MIXED = saying(r"\b(?:mixed|assorted|asst\w*|assortment)\b")
_SO_MANY = saying(NUMBER)
_A_NEEDLE = saying(r"((?:\band|&|\+|\bplus)\s+(?:an?\s+|the\s+)?)needle$")
_ARTICLE = saying(r"^(?:and\s+)?an?\s+(?:few\s+)?")


def things_apart(
    text: str, is_thing: IsThing, *, by_commas: bool = False
) -> tuple[Thing, ...] | None:
    """The things that the words name, None where they are not several; ``is_thing`` says of a name alone
    whether it is one. ``by_commas``: where nothing but commas joins them, too."""
    if "note:" in text.lower():
        return None
    text = _A_NEEDLE.sub(r"\1baiting needle", text)
    of_each = _OF_EACH.search(text)
    told = of_each is not None and bool(of_each["many"] or of_each["packets"] or of_each["sets"])
    bare = text[: of_each.start()] if of_each and told else text
    parts = [_UNIT_LAST.sub(r"\g<unit> x\g<many>", p.strip(" ,")) for p in _JOINT.split(bare)]
    if not told and all(counted := [_NUMBER_LAST.match(part) for part in parts]):
        numbered = [f"{one['name']} x{one['many']}" for one in counted if one]
        parts = numbered if all(is_thing(_name_of(part)) for part in numbered) else parts
    if not 1 < len(parts) <= MOST_PARTS or not all(parts):
        return None
    each = _each_thing(parts, is_thing)
    if len(each) < 2 or not all(is_thing(name) for name, _ in each):
        return None
    if of_each and told:
        many = of_each["many"] or of_each["sets"] or "1"
        amount = f"{many} {of_each['packets'] or 'of them'}"
        if any(said for _, said in each):
            return None
        each = [(name, amounts_apart(f"{name}, {amount}")) for name, _ in each]
        if not all(said for _, said in each):
            return None
    if _MIXED.search(bare) and not told and not all(said for _, said in each):
        return None
    sure = by_commas or told or _SURE.search(bare) or all(said for _, said in each)
    return tuple(each) if sure else None


def _each_thing(parts: Sequence[str], is_thing: IsThing) -> list[Thing]:
    """The parts put together to things, none where too much is said of one of them."""
    each: list[Thing] = []
    current, more = parts[0], 0
    for part in parts[1:]:
        name = _name_of(current)
        alone = _name_of(part)
        if _SO_MANY.fullmatch(part):
            current = f"{current}, {part} of them"
        elif not alone:  # an amount
            current = f"{current}, {part}"
        elif is_thing(name) and (named := _named_like(name, part, is_thing)):
            each.append(_thing(current))
            current, more = named, 0
        elif is_thing(name) and is_thing(alone):
            each.append(_thing(current))
            current, more = part, 0
        elif (
            not is_thing(name)
            and is_thing(alone)
            and (named := _named_as(current, alone, is_thing))
        ):
            each.append(_thing(named))
            current, more = part, 0
        elif more >= MOST_MORE:
            return []
        else:
            current, more = f"{current}, {part}", more + 1
    return [*each, _thing(current)]


def _thing(words: str) -> Thing:
    words = _ARTICLE.sub("", words)
    said = amounts_apart(words)
    return (said.name if said else words), said


def _name_of(part: str) -> str:
    """A part's name, "" where it is an amount and nothing else."""
    part = _ARTICLE.sub("", part)
    if _SO_MANY.fullmatch(part):
        return ""
    said = amounts_apart(f"thing {part}")
    if said and said.name.strip() == "thing":
        return ""
    said = amounts_apart(part)
    return said.name if said else part


def _named_like(name: str, part: str, is_thing: IsThing) -> str:
    """ "36g med" behind "hybrid feeder 28g small" as "hybrid feeder 36g med", "" where that is nothing."""
    head = _BEFORE_FIGURE.match(name)
    counted = _COUNT_FIRST.match(part)
    figure = part[counted.end() :] if counted else part
    if head is None or not re.match(r"[\d.]", figure) or _OF_AMOUNTS.search(part):
        return ""
    named = f"{head['head'].strip()} {figure}{f', {counted[1]} of them' if counted else ''}"
    return named if is_thing(_name_of(named)) else ""


def _named_as(part: str, name: str, is_thing: IsThing) -> str:
    """ "20g" before "30g method feeders" as "20g method feeders", "" where that is nothing."""
    tail = _BEHIND_FIGURE.search(name)
    if tail is None or not re.search(r"\d", part):
        return ""
    named = f"{part} {tail['tail'].strip()}"
    return named if is_thing(_name_of(named)) else ""
