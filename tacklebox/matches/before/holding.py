"""Whether rigs hold, by what serves their parts, and which of those parts make that so.

A rig is checked whole, with the hooklength that stock would serve it with now. While a check runs it
is noted which parts it looks at: up to a judgement it does the same whatever serves the others, so
that the judgement holds for every rig of the want with the same items in those parts. That makes
a flaw of a rig one of all rigs that have it, and saves asking a check again for the same items.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import islice, product
from math import prod
from typing import Any

from tacklebox.matches.dividing.flaws import Flaw, Rig
from tacklebox.matches.dividing.stacks import Wanted
from tacklebox.rigs.checking.check import Checked, judging
from tacklebox.rigs.fitting import Fit, Serving, fit
from tacklebox.rigs.recipes.resolved import Need, Resolved
from tacklebox.stock.inventory import Inventory, Stocked
from tacklebox.stock.tables import Kind
from tacklebox.trade.breaks_first import DOUBTFUL_FROM, SOUND_FROM
from tacklebox.trade.judgement import Judgement, Outcome

MOST_TRIED = (
    400  # rigs beside one that fails, part by part, when it is looked for what does the same
)

Parts = tuple[int, ...]
_SEVERITY = {Outcome.SOUND: 0, Outcome.DOUBTFUL: 1, Outcome.FAILS: 2}


@dataclass(frozen=True)
class MustMeet:
    """What a rig must meet: the chances from which it is sound, and doubtful."""

    sound_from: float = SOUND_FROM
    doubtful_from: float = DOUBTFUL_FROM


@dataclass(frozen=True)
class _Watched(Serving):
    """What serves a part, noting its ``place`` among the parts when a check looks at it."""

    place: int = 0
    seen: set[int] = field(default_factory=set, compare=False)

    def __getattribute__(self, name: str) -> Any:
        get = super().__getattribute__
        if name == "item":
            get("seen").add(get("place"))
        return get(name)


@dataclass(frozen=True)
class _Found:
    """A judgement, and the parts that it was come to by."""

    judgement: Judgement
    parts: frozenset[int]


@dataclass
class _Check:
    """What one check of a want found so far, by the parts that it looked at and their stacks."""

    found: dict[Parts, dict[Rig, tuple[_Found, ...]]] = field(default_factory=dict)

    def of(self, rig: Rig) -> tuple[_Found, ...] | None:
        for parts, by_stacks in self.found.items():
            found = by_stacks.get(tuple(rig[p] for p in parts))
            if found is not None:
                return found
        return None

    def keep(self, rig: Rig, seen: set[int], found: tuple[_Found, ...]) -> None:
        parts = tuple(sorted(seen))
        self.found.setdefault(parts, {})[tuple(rig[p] for p in parts)] = found


class Holding:
    """The judge of all rigs of a plan: by want, and by the stack of each part."""

    def __init__(
        self,
        inventory: Inventory,
        recipes: Sequence[Resolved],
        asked: Sequence[Wanted],
        stacks: Mapping[int, int],
        limits: MustMeet,
    ) -> None:
        """``stacks`` are the items of the box, by the numbers that the division gives them."""
        self.inventory, self.asked, self.limits = inventory, asked, limits
        self.recipes = recipes
        by_item = {s.id: s for items in inventory.by_kind.values() for s in items}
        self.stock: dict[int, Stocked] = {
            stack: by_item[item] for stack, item in stacks.items() if item in by_item
        }
        self._usual: dict[int, Fit] = {}
        self._checks: dict[int, list[_Check]] = {}
        self._told_by: dict[int, tuple[Any, ...]] = {}
        self._others: set[int] = set()
        self._of_hooklength_on_rig = False

    def needs(self, w: int) -> list[Need]:
        """What a rig of the want takes from stock."""
        return [need for need in self.recipes[w].needs if not need.in_place]

    def would_do(self, need: Need) -> list[Stocked]:
        """What of stock would do for a need, whatever the venue allows."""
        return self.inventory.ranked(need.ask, in_place=False)

    def usual(self, w: int) -> Fit:
        """What stock would serve a want with now: what is in place, and its hooklength."""
        if w not in self._usual:
            self._usual[w] = fit(self.recipes[w], self.inventory.copy())
        return self._usual[w]

    def with_hooklength(self, w: int, hooklength: Fit) -> "Holding":
        """A judge by all that hangs on both, where the rigs of that want have that hooklength on."""
        numbers = {stack: stocked.id for stack, stocked in self.stock.items()}
        other = Holding(self.inventory, self.recipes, self.asked, numbers, self.limits)
        other._usual = {**self._usual, w: replace(self.usual(w), hooklength=hooklength)}
        other._of_hooklength_on_rig = True
        return other

    def fit_of(self, w: int, rig: Rig) -> Fit:
        """One rig, or hooklength, of the want with what serves it."""
        return self._fit(w, rig, set())

    def fails(self, w: int, rig: Rig) -> bool:
        """Whether the whole check lets one rig fail."""
        every = (one.judgement for found in self._every(w, rig) for one in found)
        return any(judgement.outcome is Outcome.FAILS for judgement in every)

    def checked(self, w: int, rig: Rig) -> Checked:
        """The whole check of one rig."""
        judgements: list[Judgement] = []
        for number, found in enumerate(self._every(w, rig)):
            judged = [one.judgement for one in found]
            if any(judgement.outcome is not Outcome.SOUND for judgement in judged):
                every = self._judging(w, rig, set(), with_remedies=True)
                judged = list(next(islice(every, number, None)))
            judgements += judged
        return Checked(self._fit(w, rig, set()), tuple(judgements))

    def flaws(self, w: int, rig: Rig) -> Iterator[Flaw]:
        """What makes a rig fail or doubtful: as few parts as can be, each with all that does the same."""
        for number, found in enumerate(self._every(w, rig)):
            worst: dict[frozenset[int], int] = {}
            for one in found:
                grade = _SEVERITY[one.judgement.outcome]
                if grade:
                    worst[one.parts] = max(grade, worst.get(one.parts, 0))
            for parts, grade in worst.items():
                yield from self._of_parts(w, rig, number, tuple(sorted(parts)), grade)

    def _of_parts(self, w: int, rig: Rig, number: int, parts: Parts, grade: int) -> Iterator[Flaw]:
        """A part that makes no difference is left out; then each part in turn takes in what does as
        badly beside the others."""

        def grade_with(change: Mapping[int, int]) -> int:
            other = tuple(change.get(p, s) for p, s in enumerate(rig))
            return max(
                (
                    _SEVERITY[one.judgement.outcome]
                    for one in self._one(w, other, number)
                    if one.parts <= set(parts)
                ),
                default=0,
            )

        def least_of(free: Parts, fixed: Mapping[int, int]) -> int:
            least = 2
            for change in product(*(options[p] for p in free)):
                least = min(least, grade_with({**fixed, **dict(zip(free, change, strict=True))}))
                if not least:
                    break
            return least

        alike = {p: self._alike(w, p, parts) for p in parts}
        options = {p: list({those[0]: those for those in alike[p].values()}) for p in parts}
        free: Parts = ()
        for p in sorted(parts, key=lambda p: len(options[p])) if len(parts) > 1 else ():
            trial = (*free, p)
            if prod(len(options[q]) for q in trial) <= MOST_TRIED:
                free = trial if least_of(trial, {}) >= grade else free
        core = [p for p in parts if p not in free]
        if not core:
            yield Flaw(grade == 2, ())
        for p in core:
            by_grade: dict[int, set[int]] = {grade: set(alike[p][rig[p]])}
            tried = prod(len(options[q]) for q in (*free, p))
            for s in options[p] if len(parts) == 1 or tried <= MOST_TRIED else ():
                by_grade.setdefault(least_of(free, {p: s}), set()).update(alike[p][s])
            for its, those in by_grade.items():
                if its:
                    with_others = (
                        (q, frozenset(those if q == p else alike[q][rig[q]])) for q in core
                    )
                    yield Flaw(its == 2, tuple(with_others))

    def _alike(self, w: int, p: int, parts: Parts) -> dict[int, list[int]]:
        """The stacks of a part, each with those that are the same by every figure and were not measured.

        Joints of one spool hang together, so that spools are the same only where no other line counts.
        """
        every = self.asked[w].parts[p].stacks
        needs = self.needs(w)
        lines = sum(needs[q].ask.kind is Kind.LINE for q in parts)
        if needs[p].ask.kind is Kind.LINE and lines > 1:
            return {s: [s] for s in every}
        found: dict[Any, list[int]] = {}
        for s in every:
            found.setdefault(self.figures_of(s), []).append(s)
        return {s: those for those in found.values() for s in those}

    def figures_of(self, stack: int) -> tuple[Any, ...]:
        """What tells an item from others where it is checked."""
        if stack not in self._told_by:
            stocked = self.stock[stack]
            figures, own = stocked.figures, self.inventory.measured
            measured = (own.pulls, own.weighings, own.buckets, own.stretches)
            if stocked.id in self._looked_at or any(stocked.id in of for of in measured):
                self._told_by[stack] = (stocked.id,)
            else:
                names = (
                    n for n in type(figures).model_fields if n != "item_id" and "_said" not in n
                )
                values = (getattr(figures, name) for name in names)
                self._told_by[stack] = (type(figures).__name__, *values)
        return self._told_by[stack]

    @property
    def _looked_at(self) -> set[int]:
        """Lines that hooklengths are of, or that are in place: they may be a rig's own spool, too."""
        if not self._others:
            for w in range(len(self.recipes)):
                usual = self.usual(w)
                below = usual.hooklength.servings if usual.hooklength else ()
                self._others |= {
                    serving.item.measured_as.id or 0
                    for serving in (*usual.servings, *below)
                    if serving.item and (serving.need.in_place or serving in below)
                } | {0}
        return self._others

    def _every(self, w: int, rig: Rig) -> list[tuple[_Found, ...]]:
        """What each check finds; those that are not known for these items are asked in one go."""
        if w not in self._checks:
            self._checks[w] = [_Check() for _ in self._judging(w, rig, set())]
        every = [check.of(rig) for check in self._checks[w]]
        if None in every:
            seen: set[int] = set()
            for number, judgements in enumerate(self._judging(w, rig, seen)):
                if every[number] is None:
                    every[number] = self._note(w, rig, number, judgements, seen)
        return [found for found in every if found is not None]

    def _one(self, w: int, rig: Rig, number: int) -> tuple[_Found, ...]:
        """What the check of that number finds; it is only asked where it was not for those items."""
        known = self._checks[w][number].of(rig)
        if known is None:
            seen: set[int] = set()
            judgements = next(islice(self._judging(w, rig, seen), number, None))
            known = self._note(w, rig, number, judgements, seen)
        return known

    def _note(
        self, w: int, rig: Rig, number: int, judgements: Iterator[Judgement], seen: set[int]
    ) -> tuple[_Found, ...]:
        """Come to the judgements of the check of that number, and keep them by what it looked at."""
        seen.clear()
        found = tuple(_Found(judgement, frozenset(seen)) for judgement in judgements)
        self._checks[w][number].keep(rig, seen, found)
        return found

    def _judging(
        self, w: int, rig: Rig, seen: set[int], *, with_remedies: bool = False
    ) -> Iterator[Iterator[Judgement]]:
        """Every check; what one looks at comes to be ``seen``."""
        its = self.limits
        return judging(
            self._fit(w, rig, seen),
            its.sound_from,
            its.doubtful_from,
            with_remedies=with_remedies,
            of_hooklength_on_rig=self._of_hooklength_on_rig,
        )

    def _fit(self, w: int, rig: Rig, seen: set[int]) -> Fit:
        usual = self.usual(w)
        places = iter(enumerate(rig))
        servings = []
        for serving in usual.servings:
            if serving.need.in_place:
                servings.append(serving)
                continue
            place, stack = next(places)
            need = serving.need
            servings.append(
                _Watched(need, need.amount, self.stock[stack], (), place=place, seen=seen)
            )
        return replace(usual, servings=tuple(servings))
