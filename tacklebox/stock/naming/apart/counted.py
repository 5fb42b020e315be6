"""A thing with the amounts that were said apart from its name."""

from dataclasses import replace

from tacklebox.stock.naming.apart.amounts import Apart
from tacklebox.stock.naming.described import Described, Question, pieces
from tacklebox.stock.naming.notes import with_note
from tacklebox.stock.naming.turns import MANY, saying
from tacklebox.stock.tables import UNMARKED

_UNKNOWN = ("mass", "mark")
_MAY_BE_AN_AMOUNT = saying(MANY)  # a number of a note


def with_amounts(name: Described, said: Apart) -> Described | None:
    """The thing with so many of it, None where the name says how many, too, or cannot come in so many."""
    if (
        name.packs == 1 and said.held and not (name.count or said.packs)
    ):  # "pkt hooks, twelve in it"
        name = replace(name, packs=None)
    if name.count or name.packs or name.left or name.price_cents is not None:
        return None
    if _MAY_BE_AN_AMOUNT.search(name.note):
        return None
    counted = bool(said.count or said.packs or said.held or said.some)
    told = name.pack is not None and not name.pack.because
    if told and (said.held or (counted and not name.measured)):
        return None
    count, packs, held = said.count, said.packs, said.held
    if name.words_of("form") in ("shot", "styl"):
        if held or (count and not said.some):
            return None
    elif name.measured:
        if held or said.some:
            return None
        count, packs = 0, packs or count
    elif name.pack is None and packs and not held:
        return None
    made = replace(
        name,
        count=count or None,
        packs=packs or None,
        pack=pieces(held) if held else name.pack,
    )
    many = packs or count or 1
    pence = said.pence_each or round(said.pence_all / many)
    made = replace(made, price_cents=pence) if pence else made
    noted = with_note(made, said.note) if said.note else made
    return noted if isinstance(noted, Described) else None


def where_counted(named: Described | Question | None) -> Described | Question | None:
    """What a name is where it is said apart how many there are: "18 spades, x3" are no eighteen."""
    if isinstance(named, Question) and named.about == "count":
        sized = [one for one in named.readings if not (one.count or one.packs)]
        return sized[0] if len(sized) == 1 else named
    return named


def or_unmarked(named: Described | Question | None) -> Described | Question | None:
    """What a name is where nobody knows what it weighs or takes: of "small maggot feeders" that is not made
    up."""
    if not isinstance(named, Question) or named.about not in _UNKNOWN or not named.sure:
        return named
    unmarked = [one for one in named.readings if one.words_of(named.about) == UNMARKED]
    return unmarked[0] if len(unmarked) == 1 else named
