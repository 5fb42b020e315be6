"""What does not go together in a rig: the flaws that checks find, and the patterns that they leave.

A flaw names stacks of some parts: a rig with one of them in each of those parts fails, or is
doubtful, whatever serves its other parts. Stacks of a part that are alike in what they go with are
one class, so that a rig's pattern is one class for each part, and patterns stay few.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import product
from math import prod

from tacklebox.matches.dividing.stacks import PartAsk, Stacks, Wanted

Rig = tuple[int, ...]  # the stack of each part
Judge = Callable[[int, Rig], "Iterable[Flaw]"]  # of a rig of the want of that number

SOUND, DOUBTFUL, FAILS, BARRED = range(4)  # how good a pattern is
MOST_PATTERNS = 4000  # of one want


class TooManyPatternsError(Exception):
    """The flaws of a want leave more patterns than are looked through."""


@dataclass(frozen=True)
class Flaw:
    """Stacks, by part, that do not go together: with them a rig ``fails``, else it is doubtful."""

    fails: bool
    stacks: tuple[tuple[int, frozenset[int]], ...]

    def is_in(self, rig: Rig) -> bool:
        """Whether a rig has it."""
        return all(rig[p] in those for p, those in self.stacks)

    def covers(self, other: "Flaw") -> bool:
        """Whether every rig that has the other has this one, and is no better for it."""
        if other.fails and not self.fails:
            return False
        theirs = dict(other.stacks)
        return all(p in theirs and theirs[p] <= those for p, those in self.stacks)

    def with_other(self, other: "Flaw") -> "Flaw | None":
        """Both as one, where they differ in the stacks of one part alone."""
        if self.fails != other.fails or len(self.stacks) != len(other.stacks):
            return None
        pairs = list(zip(self.stacks, other.stacks, strict=True))
        if any(a[0] != b[0] for a, b in pairs) or sum(a != b for a, b in pairs) > 1:
            return None
        return Flaw(self.fails, tuple((p, own | those) for (p, own), (_, those) in pairs))


@dataclass(frozen=True)
class Bound:
    """Parts of which not every stack goes with every other: each one's stacks by class, and the
    patterns of classes that a rig may have, each with its grade."""

    parts: tuple[int, ...]
    classes: tuple[tuple[Stacks, ...], ...]
    patterns: tuple[tuple[int, ...], ...]
    grades: tuple[int, ...]


@dataclass(frozen=True)
class AskedOfStock:
    """What is asked for a want: so many rigs, each part without the stacks that fail by themselves;
    ``whole`` are the stacks that serve one as they are, and ``grade`` is of every rig where none is bound."""

    count: int
    parts: tuple[PartAsk, ...]
    bound: Bound | None = None
    whole: Stacks = ()
    grade: int = SOUND

    @cached_property
    def can_be_tied(self) -> bool:
        """Whether there is a rig to tie, were there enough of everything."""
        return all(part.stacks for part in self.parts) and (
            self.bound is None or bool(self.bound.patterns)
        )

    @property
    def loose(self) -> Iterator[tuple[int, PartAsk]]:
        """The parts that go with whatever serves the others."""
        bound = self.bound.parts if self.bound else ()
        return ((p, part) for p, part in enumerate(self.parts) if p not in bound)


class Flaws:
    """The flaws known so far, by want. ``despite``: what fails may be tied, but comes last."""

    def __init__(self, wants: Sequence[Wanted], *, despite: bool = False) -> None:
        self.wants, self.despite = wants, despite
        self.known: dict[int, list[Flaw]] = {}
        self.added = 0
        self._asked: dict[tuple[int, bool], AskedOfStock] = {}

    def add(self, w: int, flaw: Flaw) -> bool:
        """Note a flaw of a want; whether it says more than those that are known."""
        known = self.known.setdefault(w, [])
        if any(one.covers(flaw) for one in known):
            return False
        merged = True
        while merged:
            known[:] = [one for one in known if not flaw.covers(one)]
            both = ((one, one.with_other(flaw)) for one in known)
            one, merged_flaw = next(((o, m) for o, m in both if m), (None, None))
            merged = merged_flaw is not None
            if one is not None and merged_flaw is not None:
                known.remove(one)
                flaw = merged_flaw
        known.append(flaw)
        self.added += 1
        self._asked.pop((w, True), None)
        if flaw.fails and not self.despite:
            self._asked.pop((w, False), None)
        return True

    def forget(self) -> None:
        """From here on none is known."""
        self.known.clear()
        self._asked.clear()
        self.added = 0

    def asked(self, w: int, *, graded: bool = True) -> AskedOfStock:
        """What is asked for a want by what is known; not ``graded``: only what must not be tied counts."""
        if (w, graded) not in self._asked:
            self._asked[w, graded] = self._ask(w, graded=graded)
        return self._asked[w, graded]

    def _ask(self, w: int, *, graded: bool) -> AskedOfStock:
        want, known = self.wants[w], self.known.get(w, [])
        if not known:
            return AskedOfStock(want.count, want.parts, whole=want.whole)
        barred = [one for one in known if one.fails and not self.despite]
        alone = {p: set[int]() for p in range(len(want.parts))}
        for flaw in barred:
            if not flaw.stacks:
                none = tuple(PartAsk(p.amount, ()) for p in want.parts)
                return AskedOfStock(want.count, none, whole=want.whole)
            if len(flaw.stacks) == 1:
                (p, those), *_ = flaw.stacks
                alone[p] |= those
        parts = tuple(
            PartAsk(part.amount, tuple(s for s in part.stacks if s not in alone[p]))
            for p, part in enumerate(want.parts)
        )
        firm = [one for one in barred if len(one.stacks) > 1]
        soft = [one for one in known if one.stacks and (self.despite or not one.fails)]
        in_all = (FAILS if f.fails else DOUBTFUL for f in known if not f.stacks)
        least = max(in_all, default=SOUND) if graded else SOUND
        bound, grade = _bound(parts, firm, soft if graded else [], least)
        return AskedOfStock(want.count, parts, bound, want.whole, grade)


def _bound(
    parts: Sequence[PartAsk], firm: Sequence[Flaw], soft: Sequence[Flaw], least: int
) -> tuple[Bound | None, int]:
    """The parts that those flaws bind, by classes; none where all rigs can be, and are of one grade, which
    is handed back with it. No rig is better than ``least``.

    Raises TooManyPatternsError where the classes make more patterns than MOST_PATTERNS.
    """
    every = [
        (grade, {p: those.intersection(parts[p].stacks) for p, those in flaw.stacks})
        for grade, flaw in [
            *((BARRED, flaw) for flaw in firm),
            *((FAILS if flaw.fails else DOUBTFUL, flaw) for flaw in soft),
        ]
    ]
    every = [(grade, stacks) for grade, stacks in every if all(stacks.values())]
    in_all = frozenset(range(len(every)))
    classes: dict[int, dict[frozenset[int], list[int]]] = {}
    for p in sorted({p for _, stacks in every for p in stacks}):
        alike: dict[frozenset[int], list[int]] = {}
        for s in parts[p].stacks:
            # A flaw that says nothing of this part does not tell its stacks apart.
            has = (n for n, (_, stacks) in enumerate(every) if s in stacks.get(p, (s,)))
            alike.setdefault(frozenset(has), []).append(s)
        if len(alike) > 1:
            classes[p] = alike
        else:
            in_all &= next(iter(alike))
    possible = prod(len(alike) for alike in classes.values())
    if possible > MOST_PATTERNS:
        raise TooManyPatternsError
    patterns = []
    for pattern in product(*(enumerate(alike) for alike in classes.values())):
        has_all = in_all.intersection(*(has for _, has in pattern))
        grade = max((least, *(every[n][0] for n in has_all)))
        if grade < BARRED:
            patterns.append((tuple(c for c, _ in pattern), grade))
    grades = tuple(grade for _, grade in patterns)
    if len(patterns) == possible and len(set(grades)) == 1:
        return None, grades[0]
    bound = Bound(
        tuple(classes),
        tuple(tuple(map(tuple, alike.values())) for alike in classes.values()),
        tuple(pattern for pattern, _ in patterns),
        grades,
    )
    return bound, max(grades, default=least)
