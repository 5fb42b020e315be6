"""Whether two readings say the same of a thing: what it is, how many there are of it, what they cost."""

from tacklebox.stock.naming.described import Described
from tacklebox.stock.tables import Kind

ROUNDED = 1  # penny, of each of several


def says_the_same(one: Described, other: Described) -> bool:
    """Whether both are the same thing in the same number for the same money."""
    return _key(one) == _key(other) and abs(_cost(one) - _cost(other)) <= ROUNDED * many_of(one)


def _key(made: Described) -> tuple[object, ...]:
    figures = sorted((key, one.words) for key, one in made.figures.items() if not one.because)
    in_packets = made.count is None and held_in_each(made) is None and made.pack is not None
    left = made.left.words if made.left else ""
    packs = (
        made.packs if held_in_each(made) and not made.count else None
    )  # "2 of 6" are not "6 of 2"
    in_all = many_of(made), packs or 1, in_packets, left
    return made.kind, tuple(figures), in_all, made.price_cents is None


def is_more_of(one: Described, alone: Described) -> bool:
    """Whether a reading is the same thing, with more said of it at most."""
    said = {key: figure.words for key, figure in alone.figures.items() if not figure.because}
    return one.kind == alone.kind and all(one.words_of(key) == said[key] for key in said)


def is_such(one: Described, other: Described) -> bool:
    """Whether both are of one kind; a lead is no feeder."""
    shapes = {one.words_of("shape"), other.words_of("shape")}
    return one.kind == other.kind and (one.kind is not Kind.FEEDER or len(shapes) == 1)


def says_amounts(one: Described) -> bool:
    """Whether there are several of it, or what it cost; one of each may be a packet of each."""
    return many_of(one) > 1 or bool(one.price_cents)


def held_in_each(made: Described) -> int | None:
    """The pieces in each packet, None where nobody says."""
    return made.pack_size if made.pack and not made.pack.because and not made.measured else None


def many_of(made: Described) -> int:
    """The pieces, or packets where nobody says what they hold."""
    return made.count or (made.packs or 1) * (held_in_each(made) or 1)


def _cost(made: Described) -> int:
    """What all of it cost, in pence."""
    return (made.price_cents or 0) * (made.packs or made.count or 1)
