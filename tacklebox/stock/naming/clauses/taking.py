"""What clauses say of one thing: its words, and what they were read as."""

from collections.abc import Sequence
from dataclasses import dataclass

from tacklebox.stock.naming.asides import has_number, is_strange
from tacklebox.stock.naming.clauses.cutting import Clause
from tacklebox.stock.naming.described import Described, Question, Reads, if_understood
from tacklebox.stock.naming.hand import run_at
from tacklebox.stock.naming.lexicon import LEXICON
from tacklebox.stock.naming.own import is_own
from tacklebox.stock.naming.tokens import tokenise
from tacklebox.stock.naming.turns import saying

NAMES_A_KIND = ("name", "sort", "shape", "form")
MOST_TOGETHER = 3  # clauses that name a thing only together: "14s, eyed, strong wire"
UNSURE = ("kind", "says", "several", "number")  # asked of what names no one thing
_BARE = saying(r"(?<![\w.])\d{1,3}\b(?!\s*[a-z])")  # a number that no figure took


@dataclass(frozen=True, slots=True)
class Told:
    """A thing: the words that name it, what they were read as, clauses that say how much, and all others."""

    core: str
    made: Described | Question
    amounts: tuple[Clause, ...]
    over: tuple[Clause, ...]

    @property
    def first(self) -> Described | None:
        """Its likeliest reading."""
        return _first(self.made)

    @property
    def is_missing(self) -> bool:
        """Whether a figure of it is asked for."""
        return isinstance(self.made, Question) and bool(self.made.answer_like)


def taken_from(parts: Sequence[Clause], reads: Reads) -> Told | None:
    """What the clauses say of the first thing that one of them names; None where none does."""
    found = _named(parts, reads)
    if found is None:
        return None
    first, made = found
    core, amounts, over = first.said, list[Clause](), list[Clause]()
    behind = [part for part in parts if part.start >= first.end]
    before = [part for part in parts if part.end <= first.start]
    for part in [*behind, *reversed(before)]:
        more = if_understood(f"{core}, {part.said}", reads)
        if more is None or not _says_more(made, more):
            over.append(part)
        elif figures_of(more) == figures_of(made):
            (over if part.is_of_lost else amounts).append(part)
        else:
            core, made = f"{core}, {part.said}", more
    return Told(core, made, tuple(amounts), tuple(over))


def _named(parts: Sequence[Clause], reads: Reads) -> tuple[Clause, Described | Question] | None:
    """The first clause that names a thing, with those behind it that it needs, and what it was read as."""
    for at, part in enumerate(parts):
        said = part.said
        for behind in [None, *parts[at + 1 : at + MOST_TOGETHER]]:
            said = f"{said}, {behind.said}" if behind else said
            made = if_understood(said, reads)
            sure = isinstance(made, Described) and not is_strange(made.note)
            if made is not None and _names(made) and (sure or behind is None):
                return Clause(said, part.start, (behind or part).end), made
    return None


def _names(made: Described | Question) -> bool:
    if isinstance(made, Question) and made.about in UNSURE:
        return False
    first = _first(made)
    return first is not None and not is_own(first) and not _BARE.search(first.note)


def names_thing(clause: Clause) -> bool:
    """Whether a word that names a kind of thing is in it."""
    tokens = tokenise(clause.text)
    return any(
        known and known[0][0] in NAMES_A_KIND
        for lexicon in LEXICON.values()
        for at in range(len(tokens))
        if (known := run_at(tokens, at, lexicon))
    )


def _first(made: Described | Question) -> Described | None:
    return next(iter(made.readings), None)


def _says_more(made: Described | Question, more: Described | Question) -> bool:
    """Whether what was read with a further clause says more of the same thing, and nothing otherwise."""
    if isinstance(more, Question) and more.about in UNSURE:
        return False
    before, after = _first(made), _first(more)
    if before is None or after is None or before.kind != after.kind or is_own(after):
        return False
    if isinstance(more, Question) and isinstance(made, Described) and more.about != "word":
        return False
    if any(has_number(note) for note in set(after.note.split(", ")) - set(before.note.split(", "))):
        return False
    said = {**figures_of(made), **amounts_of(before)}
    now = {**figures_of(more), **amounts_of(after)}
    return all(now.get(key) == value for key, value in said.items()) and len(now) > len(said)


def figures_of(made: Described | Question) -> dict[str, object]:
    """What was said of the thing itself, without what is only offered: its figures, spool and price."""
    one = _first(made)
    if one is None:
        return {}
    missing = isinstance(made, Question) and made.answer_like and made.sure
    figures = (
        made.sure.figures if isinstance(made, Question) and made.sure and missing else one.figures
    )
    found: dict[str, object] = {
        key: figure.value for key, figure in figures.items() if not figure.because
    }
    if one.measured and one.pack and not one.pack.because:
        found["spool"] = one.pack.value
    if one.price_cents is not None:
        found["price"] = one.price_cents
    return found


def all_said(one: Described) -> dict[str, object]:
    """What was said of it and of how much there is."""
    return {**figures_of(one), **amounts_of(one)}


def amounts_of(one: Described) -> dict[str, object]:
    """What was said of how much there is: in a packet, packets, pieces, or what is left."""
    held = one.pack.value if one.pack and not one.pack.because and not one.measured else None
    left = one.left.value if one.left else None
    every = (("held", held), ("packs", one.packs), ("count", one.count), ("left", left))
    return {key: value for key, value in every if value is not None}
