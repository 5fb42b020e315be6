"""What a thing cost, put with what was read: the price of one or of all, of some of them, of a set; and a
figure behind the rest, "2.49", that may be a price."""

import re
from dataclasses import replace

from tacklebox.stock.naming.asking import MOST_READINGS, asked
from tacklebox.stock.naming.described import (
    Described,
    Question,
    Reads,
    each_reading,
    if_understood,
)
from tacklebox.stock.naming.notes import without_notes
from tacklebox.stock.naming.prices import Price, how_many, how_many_priced, with_price
from tacklebox.stock.tables import Kind

_SET = re.compile(r"\bset\b", re.IGNORECASE)
_BARE_PRICE = re.compile(r"\s([1-9]\d{0,2}\.\d\d)(?:\s+\d{1,3}\.\d\d)?(?P<more>,?\s*\w+ of them)?$")


def priced(
    text: str, bare: str, made: Described | Question, price: Price, reads: Reads
) -> Described | Question:
    """What was read, with what it cost; asked where that may be the price of one or of all.

    ``bare`` are the words without the price; ``reads`` reads a phrase.
    """
    pieces = made.pack_size if isinstance(made, Described) else 0
    if price.of > 1 and pieces != price.of and isinstance(made, Described) and how_many(made) == 1:
        made = reads(f"{bare}, {price.of} of them")  # "£4 the pair"
    if price.total and isinstance(made, Described) and how_many(made) * price.pence != price.total:
        each, of_all = (
            with_price(made, price.pence, each=True),
            with_price(made, price.total, each=False),
        )
        one, total = (f"£{pence / 100:.2f}" for pence in (price.pence, price.total))
        asks = f"{how_many(made)} at {one} are not {total}: which is right?"
        return Question(text, "price", asks, (each, of_all))
    if isinstance(made, Described) and (some := _is_for_some(made, price)):
        return _with_price(made, round(price.pence / some), each=True)
    if price.each is None and isinstance(made, Described) and _are_several(text, made):
        each, of_all = (with_price(made, price.pence, each=one) for one in (True, False))
        asks = f"Is £{price.pence / 100:.2f} the price of one, or of all {how_many_priced(made)}?"
        return Question(text, "price", asks, (each, of_all))
    if price.each is None and isinstance(made, Question) and made.about != "several":
        return replace(made, readings=_each_or_of_all(made.readings, price.pence))
    first = made if isinstance(made, Described) else next(iter(made.readings), None)
    if price.held and not price.of and first and (first.packs or 1) > 1 and first.pack:
        of_one = first.pack.value == price.held  # "8 for 3.99, two packs"
        return _with_price(made, price.pence, each=of_one or price.each)
    if share := _share_of_all(text, made, price):
        return _with_price(made, share, each=True)
    return _with_price(made, price.pence, each=price.each)


def _are_several(text: str, made: Described) -> bool:
    """Whether the price may be that of several; what is left of a packet cost what the packet did."""
    left = re.search(r"\b(?:left|used|gone)\b", text, re.IGNORECASE)
    return how_many(made) > 1 or (not left and how_many_priced(made) > 1)


def or_priced(text: str, made: Described | Question, reads: Reads) -> Described | Question:
    """A figure behind the rest that may be what it costs, "2.49", is offered as that, first of all."""
    text, notes = without_notes(text)
    found = _BARE_PRICE.search(text)
    if found is None or (isinstance(made, Described) and made.kind is not Kind.PART):
        return made
    rest = if_understood(f"{text[: found.start()]}{found['more'] or ''}{notes}", reads)
    if rest is None:
        return made
    pence = round(float(found.group(1)) * 100)
    cost = _with_price(rest, pence, each=True)
    readings = _each_or_of_all(rest.readings, pence)
    asks = f"Is {found.group(1)} its price?"
    if isinstance(cost, Question):
        asks = f"{asks} {cost.asks}"
    every = [*readings, *made.readings]
    if isinstance(made, Described):
        return asked(text, "price", asks, every)
    return replace(made, asks=asks, readings=tuple(every[:MOST_READINGS]))


def _is_for_some(made: Described, price: Price) -> int:
    """For how many of what comes singly the price was, where there are more: "3 for £5, bought six"."""
    singly = made.pack is None and not made.measured
    many = made.packs or made.count
    return price.held if singly and many and many != price.held else 0


def _each_or_of_all(readings: tuple[Described, ...], pence: int) -> tuple[Described, ...]:
    """Each with the price of one, and where there are several with that of all."""
    each = [with_price(one, pence, each=True) for one in readings]
    of_all = [with_price(one, pence, each=False) for one in readings if how_many_priced(one) > 1]
    return tuple([*each, *of_all][:MOST_READINGS])


def _share_of_all(text: str, made: Described | Question, price: Price) -> int:
    """What each of several things cost, in pence, of "£8 the lot"; 0 where that is no price of all."""
    if isinstance(made, Described):
        return 0
    if price.of > 1 and len(made.readings) == price.of:  # "£9 the three"
        return round(price.pence / price.of)
    of_all = price.each is False or (price.each is None and bool(_SET.search(text)))
    if not of_all or made.about != "several":
        return 0
    every = {_size_of(one): how_many(one) for one in made.readings}  # of whichever sort each is
    return round(price.pence / sum(every.values()))


def _size_of(made: Described) -> tuple[object, ...]:
    sizes = {key: one.words for key, one in made.figures.items() if key != "shape"}
    return made.kind, made.note, *sorted(sizes.items())


def _with_price(
    made: Described | Question, pence: int, *, each: bool | None
) -> Described | Question:
    """With the price of one, where nobody says that it is that of all."""
    return each_reading(made, lambda one: with_price(one, pence, each=each is not False))
