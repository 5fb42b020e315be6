"""A second reading of each phrase, its amounts taken off its name by a way of its own. Where both readings
agree, what was read stands; where they do not, he is asked: one slip of either takes nothing wrong."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from tacklebox.stock.naming.apart.amounts import Apart, amounts_apart
from tacklebox.stock.naming.apart.things import things_apart
from tacklebox.stock.naming.asides import has_number
from tacklebox.stock.naming.asking import MOST_READINGS
from tacklebox.stock.naming.described import Described, Question, Reads, if_understood, pieces
from tacklebox.stock.naming.notes import with_note
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.turns import saying
from tacklebox.stock.naming.writing import as_written
from tacklebox.stock.tables import Kind

_OF_ANOTHER = saying(r"\d|[+&]|\b(?:plus|and|with|one|two|three|mould)\b")  # notes
_WITH = saying(
    r"^(?P<name>[^,(]*[a-z][^,(]*(?:,[^,(]+)?),?\s+\(?(?P<note>(?:with|w/)\s+[a-z][^,()\d]*)\)?(?P<rest>(?:,.*)?)$"
)
_TENS = saying(r"(?P<name>.*[a-z])[\s,]+(?P<held>5|6|8|10|12|15|20|25|50)s$")
ROUNDED = 1  # penny, of each of several
IsReadBack = Callable[[Described], bool]


def or_apart(
    text: str, made: Described | Question, reads: Reads, is_read_back: IsReadBack
) -> Described | Question:
    """What was read, or the question with what its name and its amounts are, read apart from each other."""
    if isinstance(made, Question) and (things := _things(text, made, reads, is_read_back)):
        return things
    made = _or_with(text, made, reads, is_read_back)
    said = amounts_apart(text)
    if said is None or (isinstance(made, Question) and made.about in ("several", "says", "number")):
        return made
    named = if_understood(said.name, reads)
    if named is None or (isinstance(named, Question) and isinstance(made, Described)):
        return made  # "hooks 18 @ £2" are no 18 hooks
    others = [one for one in _with_amount_each(named, said, made) if is_read_back(one)]
    if said.packs and not said.held and (tens := _TENS.match(said.name)):
        name = if_understood(tens["name"], reads)  # "4 pks link swivels 10s"
        each = replace(said, name=tens["name"], held=int(tens["held"]))
        if isinstance(name, Described):
            others += filter(is_read_back, _with_amount_each(name, each, made))
    if not others:
        return made
    if said == Apart(said.name, note=said.note) and isinstance(named, Described):
        return _noted(made, others[0])
    if isinstance(made, Question):
        return replace(made, readings=tuple([*others, *made.readings][:MOST_READINGS]))
    return Question(text, "count", f'"{text}" may be read in several ways.', (*others, made))


def _or_with(
    text: str, made: Described | Question, reads: Reads, is_read_back: IsReadBack
) -> Described | Question:
    """What was read, or the thing that stands before "with": a "swimfeeder with strap lead" is a feeder."""
    found = _WITH.match(text)
    named = found and if_understood(f"{found['name']}{found['rest']}", reads)
    if named is None or found is None or (isinstance(named, Question) and named.about != "mass"):
        return made
    noted = with_note(named, found["note"].strip()).readings
    if any(_is_such(one, other) for one in noted for other in made.readings):
        return made
    others = [as_written(one) for one in noted if one.price_cents is None and not is_own(one)]
    if not others or not all(map(is_read_back, others)):
        return made
    asks = f'"{text}" may be read in several ways.'
    question = made if isinstance(made, Question) else Question(text, "kind", asks)
    return replace(question, readings=tuple([*others, *made.readings][:MOST_READINGS]))


def _is_such(one: Described, other: Described) -> bool:
    """Whether both are of one kind; a lead is no feeder."""
    shapes = {one.words_of("shape"), other.words_of("shape")}
    return one.kind == other.kind and (one.kind is not Kind.FEEDER or len(shapes) == 1)


def _with_amount_each(
    named: Described | Question, said: Apart, made: Described | Question
) -> Sequence[Described]:
    """What the name may be with its amounts, where no reading of the whole phrase says the same."""
    if isinstance(named, Question) and named.about in ("several", "says"):
        return []
    kinds = {one.kind for one in made.readings}
    each = [_with_amounts(name, said) for name in named.readings]
    known = [one for one in each if one and any(_says_the_same(one, m) for m in made.readings)]
    if known and isinstance(named, Described):
        return []
    return [
        as_written(one)
        for one in each
        if one
        and one not in known
        and not is_own(one)
        and (isinstance(named, Described) or one.kind in kinds)
    ]


def _noted(made: Described | Question, one: Described) -> Described | Question:
    """The thing where all that was said besides is where it is or since when: that says no number of it. A
    pellet's size may be its own, too, but for a float."""
    sized = one.kind is not Kind.FLOAT and "pellet" in one.note
    return made if sized else one


def _things(text: str, made: Question, reads: Reads, is_read_back: IsReadBack) -> Question | None:
    """The question that names each of several things, None where what is asked names them as well."""

    def of(name: str) -> Described | None:
        one = if_understood(name, reads)
        sure = isinstance(one, Described) and not is_own(one) and not has_number(one.note)
        return one if sure and isinstance(one, Described) else None

    things = things_apart(text, lambda name: of(name) is not None)
    if things is None:
        return None
    if len({bool(said and (said.pence_each or said.pence_all)) for _, said in things}) > 1:
        return None  # of all, or of the last
    named = [of(name) for name, _ in things]
    known = made.readings if len({one.kind for one in named if one}) == 1 else ()
    every: list[Described] = []
    for alone, (_, said) in zip(named, things, strict=True):
        one = alone and _with_more(alone, said, known)
        if one is None or not is_read_back(as_written(one)):
            return None
        every.append(as_written(one))
    if _are_one(text, every) or (made.about == "several" and _names_each(made, every)):
        return None
    asks = f'"{text}" names several things: one at a time.'
    return replace(
        made, about="several", asks=asks, readings=tuple(every), answer_like="", sure=None
    )


def _with_more(
    alone: Described, said: Apart | None, known: Sequence[Described]
) -> Described | None:
    """The thing with its amounts, and with what a reading of the whole phrase knows more of it: of the things
    of one kind it may be said once, "30 g and 40 g cages, in line"."""
    more = next((one for one in known if _is_more_of(one, alone)), None)
    if more is None or _OF_ANOTHER.search(more.note):
        more = replace(alone, figures=more.figures) if more else alone
    if said is None:
        return more
    return _with_amounts(replace(alone, figures=more.figures, note=more.note), said)


def _is_more_of(one: Described, alone: Described) -> bool:
    """Whether a reading is the same thing, with more said of it at most."""
    said = {key: figure.words for key, figure in alone.figures.items() if not figure.because}
    return one.kind == alone.kind and all(one.words_of(key) == said[key] for key in said)


def _are_one(text: str, every: Sequence[Described]) -> bool:
    """Whether one of the things is said twice, or is what all of them are: "plummets, 10 g and 20 g"; or a
    float and what it takes."""
    twice = any(
        _is_more_of(other, one)
        for at, one in enumerate(every)
        for other in every
        if other is not one
    )
    loaded = {one.words_of("form") or one.kind for one in every} >= {"shot", Kind.FLOAT}
    added = "+" in text and all(one.kind is Kind.FLOAT for one in every)  # "3AAA + 2BB"
    return twice or loaded or added


def _names_each(made: Question, every: Sequence[Described]) -> bool:
    """Whether the question has each of the things already, and nothing that crosses two of them."""
    amounts = {(one.count, one.packs, _held(one)) for one in made.readings}
    if len(amounts) == 1 and _says_amounts(made.readings[0]) and len(made.readings) == len(every):
        return all(any(_is_more_of(other, one) for other in made.readings) for one in every)
    crossed = any(not any(_is_more_of(one, other) for other in every) for one in made.readings)
    return not crossed and all(
        any(
            _says_the_same(one, other) or (not _says_amounts(one) and _is_more_of(other, one))
            for other in made.readings
        )
        for one in every
    )


def _says_amounts(one: Described) -> bool:
    """Whether there are several of it, or what it cost; one of each may be a packet of each."""
    return _many(one) > 1 or bool(one.price_cents)


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
