"""A mixed lot of one thing in several sizes, of which only the number of all is said: "mixed bag of bombs 1/2
and 1 oz, 15 in it" are fifteen, of no one weight."""

import re
from dataclasses import replace

from tacklebox.stock.naming.apart.alike import held_in_each, many_of, says_amounts
from tacklebox.stock.naming.apart.amounts import amounts_apart, pence_of
from tacklebox.stock.naming.apart.ways import OF_ALL
from tacklebox.stock.naming.described import Described, IsReadBack, Question, goes_by, pieces, word
from tacklebox.stock.naming.own import is_own, own_thing
from tacklebox.stock.naming.plainly import money
from tacklebox.stock.naming.plainly.rules import put
from tacklebox.stock.naming.tries import usual_of
from tacklebox.stock.naming.turns import NUMBER, saying
from tacklebox.stock.naming.writing import as_written
from tacklebox.stock.tables import UNMARKED, Kind

_MIXED = saying(
    r"\b(?:mixe?d|mix|assorted|asst\w*|assortment|job[\s-]+lot|odds|various)\b"
    rf"|\babout\s+{NUMBER}$|\b(?:in\s+(?:it|all|total|the\s+(?:bag|tub|box))|altogether|all\s+told)\b"
)
_TWO_SIZES = saying(  # "3/8 and 1/2 oz bombs, ten" may be ten in all
    rf"\d\s*(?:g|oz|mm)?\s*(?:and|&)\s*[\d./]+\s*(?:g|oz|mm)\b[^,\d]*,\s*{NUMBER}$"
)
_NO_LOT = saying(r"\b(?:each|ea|apiece|dispenser)\b")


def or_one_lot(text: str, made: Question, is_read_back: IsReadBack) -> Question:
    """The question with the lot as one thing before each of its sizes, where they are said to be mixed."""
    text = put(text, (money.RULES,))
    mixed = _MIXED.search(text)
    if made.about != "several" or _NO_LOT.search(text) or not (mixed or _TWO_SIZES.search(text)):
        return made
    alike = [one for one in made.readings if not is_own(one)]
    if len(alike) < 2 or len({(one.kind, *_amounts(one)) for one in alike}) != 1:
        return made
    unlike = [key for key in alike[0].figures if len({one.words_of(key) for one in alike}) > 1]
    if len(unlike) != 1 or not says_amounts(alike[0]) or _is_said_of_each(text, alike):
        return made
    lot = _lot_of(text, alike, unlike[0])
    if lot is None:
        return made
    if not mixed:
        return replace(made, readings=(*made.readings, as_written(lot)))
    asks = f'"{text}" is a mixed lot: kept as one thing, or by one of its sizes?'
    singly = tuple(
        replace(one, count=None, packs=None, price_cents=None, pack=usual_of(one))
        if many_of(one) > 1
        else one
        for one in alike
    )
    lot = as_written(lot)
    own = [one for one in made.readings if is_own(one) and one != lot]
    singly = tuple(filter(is_read_back, singly))
    return replace(made, about="lot", asks=asks, readings=(lot, *singly, *own))


def _amounts(one: Described) -> tuple[object, ...]:
    return one.count, one.packs, held_in_each(one)


def _is_said_of_each(text: str, alike: list[Described]) -> bool:
    """Whether the same number is said beside each size."""
    many = str(alike[0].count or alike[0].packs or held_in_each(alike[0]))
    return len(re.findall(rf"(?<![\w./]){many}(?![\w./])", text)) >= len(alike)


def _lot_of(text: str, alike: list[Described], unlike: str) -> Described | None:
    """All of them as one thing: of no size, unmarked, or by his own words; with what the lot cost."""
    first = alike[0]
    many = first.packs or first.count or 1
    price = OF_ALL.search(text)
    bare = text[: price.start()].strip(" ,") if price else text
    if goes_by(first) == unlike or (first.kind is Kind.PART and unlike == "size"):
        figures = {key: figure for key, figure in first.figures.items() if key != unlike}
        if first.kind is not Kind.PART:
            figures[unlike] = word(UNMARKED)
        each = [one.words_of(unlike) for one in alike]
        sizes = " and ".join(one for one in each if one != UNMARKED)
        lot = replace(first, figures=figures, note=", ".join(filter(None, [first.note, sizes])))
    else:
        said = amounts_apart(bare)
        own = own_thing(said.name if said else bare)
        if own is None:
            return None
        lot = replace(own, count=first.count, packs=first.packs, pack=first.pack)
        if first.pack is None or first.pack.because:
            lot = replace(lot, pack=own.pack)
    pence = pence_of(price["money"]) if price else first.price_cents
    if pence is None:
        return lot
    if first.count and lot.pack is not None:  # a piece of it may be less than a penny
        return replace(lot, count=None, packs=None, pack=pieces(many), price_cents=pence)
    return replace(lot, price_cents=round(pence / many))
