"""A second reading of each phrase, its amounts taken off its name by a way of its own. Where both readings
agree, what was read stands; where they do not, he is asked: one slip of either takes nothing wrong."""

from collections.abc import Callable
from dataclasses import replace

from tacklebox.stock.naming.apart.amounts import Apart, amounts_apart
from tacklebox.stock.naming.asides import has_number
from tacklebox.stock.naming.asking import MOST_READINGS
from tacklebox.stock.naming.described import Described, Question, Reads, if_understood, pieces
from tacklebox.stock.naming.notes import with_note
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.writing import as_written

ROUNDED = 1  # penny, of each of several
IsReadBack = Callable[[Described], bool]


def or_apart(
    text: str, made: Described | Question, reads: Reads, is_read_back: IsReadBack
) -> Described | Question:
    """What was read, or the question with what its name and its amounts are, read apart from each other."""
    said = amounts_apart(text)
    if said is None or (isinstance(made, Question) and made.about in ("several", "says", "number")):
        return made
    named = if_understood(said.name, reads)
    if named is None or (isinstance(named, Question) and named.about in ("several", "says")):
        return made
    if isinstance(named, Question) and isinstance(made, Described):
        return made  # "hooks 18 @ £2" are no 18 hooks
    kinds = {one.kind for one in made.readings}
    others: list[Described] = []
    for name in named.readings:
        one = _with_amounts(name, said)
        if one is None or is_own(one) or (isinstance(named, Question) and one.kind not in kinds):
            continue
        one = as_written(one)
        if any(_says_the_same(one, other) for other in made.readings):
            if isinstance(named, Described):
                return made
        elif is_read_back(one):
            others.append(one)
    if not others:
        return made
    if isinstance(made, Question):
        return replace(made, readings=tuple([*others, *made.readings][:MOST_READINGS]))
    return Question(text, "count", f'"{text}" may be read in several ways.', (*others, made))


def _with_amounts(name: Described, said: Apart) -> Described | None:
    """The thing with so many of it, None where the name says how many, too, or cannot come in so many."""
    if name.count or name.packs or name.left or name.price_cents is not None:
        return None
    if has_number(name.note):  # may be the amount
        return None
    if name.pack and not name.pack.because and (said.held or not name.measured):
        return None
    count, packs, held = said.count, said.packs, said.held
    if name.words_of("form") in ("shot", "styl"):
        if count or held:
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


def _says_the_same(one: Described, other: Described) -> bool:
    """Whether two readings are alike in what it is, how many of it there are, and what they cost."""
    return _key(one) == _key(other) and abs(_cost(one) - _cost(other)) <= ROUNDED * _many(one)


def _key(made: Described) -> tuple[object, ...]:
    figures = sorted((key, one.words) for key, one in made.figures.items() if not one.because)
    in_packets = made.count is None and _held(made) is None and made.pack is not None
    left = made.left.words if made.left else ""
    return made.kind, tuple(figures), _many(made), in_packets, left, made.price_cents is None


def _held(made: Described) -> int | None:
    return made.pack_size if made.pack and not made.pack.because and not made.measured else None


def _many(made: Described) -> int:
    """The pieces, or packets where nobody says what they hold."""
    return made.count or (made.packs or 1) * (_held(made) or 1)


def _cost(made: Described) -> int:
    """What all of it cost, in pence."""
    return (made.price_cents or 0) * (made.packs or made.count or 1)
