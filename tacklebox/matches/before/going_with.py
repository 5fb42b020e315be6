"""Rigs with the hooklengths that the same plan takes, ties or buys: they should hold with those, too.

A rig is checked with the hooklength that stock would serve it with now; those that the plan comes to may be
others. What fails with one of them alone is not cut out, for it holds with others and is the more
important; but it counts as doubtful, so that what holds with all of them comes first, and it is told.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from tacklebox.matches.before.holding import Holding
from tacklebox.matches.dividing.division import Division, MostLookedThrough, divide
from tacklebox.matches.dividing.flaws import Flaw, Rig
from tacklebox.matches.dividing.stacks import Stack, Wanted
from tacklebox.rigs.checking.check import Checked
from tacklebox.rigs.fitting import Fit, Serving, fit_from_wallet
from tacklebox.rigs.recipes.resolved import Need, Resolved
from tacklebox.rigs.wallet import PART, ask_of
from tacklebox.stock.tables import Kind

MOST_ROUNDS = 8  # of dividing anew, as other hooklengths come into the plan

OF_BOTH = (Kind.LINE, Kind.HOOK)  # of a hooklength, what the checks of a whole rig look at
NOT_OF_BOTH = (Kind.FLOAT, Kind.WEIGHT, Kind.WINDER)  # of a rig, what they do not look at
Figures = tuple[Any, ...]
Hooklength = tuple[
    int, Rig | int
]  # its want; what it is tied of, or the stack that serves it whole


@dataclass(frozen=True)
class FailsWith:
    """So many rigs of a want that fail with a hooklength of the plan, and what the checks say."""

    count: int
    hooklength: str
    checked: Checked


@dataclass
class GoingWith:
    """The judge of rigs with the hooklengths of every division so far."""

    holding: Holding
    recipes: Sequence[Resolved]
    known: dict[int, dict[Figures, Holding]] = field(default_factory=dict)  # by the rig's want
    kept_from: set[tuple[int, Figures]] = field(default_factory=set)  # by which any rig was worse

    def flaws(self, w: int, rig: Rig) -> Iterator[Flaw]:
        """Those of the rig by itself, and, as doubtful, what fails with those hooklengths."""
        yield from self.holding.flaws(w, rig)
        its = self.known.get(w, {})
        for key, beside in its.items() if its and not self.holding.fails(w, rig) else ():
            for flaw in beside.flaws(w, rig):
                if flaw.fails:
                    self.kept_from.add((w, key))
                    yield Flaw(False, flaw.stacks)

    def divide(
        self,
        stacks: Sequence[Stack],
        asked: Sequence[Wanted],
        *,
        despite: bool,
        most: MostLookedThrough | None,
    ) -> Division:
        """Divide stock, and again, as long as a rig fails with a hooklength that came into the plan."""
        division = divide(stacks, asked, self.flaws, despite=despite, most=most)
        rounds = 1
        while self._learn(division) and rounds < MOST_ROUNDS:
            division = divide(stacks, asked, self.flaws, despite=despite, most=most)
            rounds += 1
        if self._judged_by_others(division):
            return replace(division, proven=False)
        return division

    def _learn(self, division: Division) -> bool:
        """Take in the hooklengths of a division; whether one of its rigs fails with one that is new."""
        fails = False
        for w, rigs in enumerate(division.rigs):
            its = self.known.setdefault(w, {})
            for key, those in self._of(w, division).items():
                if key not in its:
                    its[key] = self.holding.with_hooklength(w, self._fit(those[0]))
                    every = self._by_line(w, rigs)
                    fails |= any(self._fails(w, one[0], its[key]) for one in every.values())
        return fails

    def _judged_by_others(self, division: Division) -> bool:
        """Whether any rig was worse by a hooklength that the plan then does without."""
        return any(key not in self._of(w, division) for w, key in self.kept_from)

    def failing(self, w: int, division: Division) -> Iterator[FailsWith]:
        """What of a want's rigs fails with which hooklength of the division."""
        for key, those in self._of(w, division).items():
            beside = self.known[w][key]
            for same in self._by_line(w, division.rigs[w]).values():
                if self._fails(w, same[0], beside):
                    checked = beside.checked(w, same[0])
                    count = sum(division.rigs[w][rig] for rig in same)
                    yield from (FailsWith(count, self._name(one), checked) for one in those)

    def _by_line(self, w: int, rigs: Iterable[Rig]) -> dict[Rig, list[Rig]]:
        """Rigs that differ only in what no check beside a hooklength looks at."""
        needs, found = self.holding.needs(w), dict[Rig, list[Rig]]()
        for rig in rigs:
            parts = zip(needs, rig, strict=True)
            key = tuple(s for need, s in parts if need.ask.kind not in NOT_OF_BOTH)
            found.setdefault(key, []).append(rig)
        return found

    def _fails(self, w: int, rig: Rig, beside: Holding) -> bool:
        return beside.fails(w, rig) and not self.holding.fails(w, rig)

    def _of(self, w: int, division: Division) -> dict[Figures, list[Hooklength]]:
        """The hooklengths of a division that go with the rigs of a want, by their figures."""
        below, found = self.recipes[w].hooklength, dict[Figures, list[Hooklength]]()
        for v, other in enumerate(self.recipes) if below else ():
            if below and other.recipe.stem == below.recipe.stem:
                tied = {**division.rigs[v], **division.later[v]}
                for s in {**division.whole[v], **division.ready_made[v]}:
                    found.setdefault(self._spool(s), []).append((v, s))
                needs = self.holding.needs(v)
                for rig in tied:
                    parts = zip(needs, rig, strict=True)
                    own = [self.holding.figures_of(s) for n, s in parts if n.ask.kind in OF_BOTH]
                    found.setdefault(tuple(own), []).append((v, rig))
        return found

    def _spool(self, stack: int) -> Figures:
        """The figures of a hooklength, and of the spool that it was tied from."""
        spool = self.holding.inventory.spools.get(self.holding.stock[stack].id)
        return (*self.holding.figures_of(stack), spool.id if spool else 0)

    def _fit(self, hooklength: Hooklength) -> Fit:
        v, one = hooklength
        if not isinstance(one, int):
            return self.holding.fit_of(v, one)
        served = Serving(Need(PART, ask_of(self.recipes[v]), 1), 1, self.holding.stock[one], ())
        return fit_from_wallet(self.recipes[v], self.holding.inventory, 1, served)

    def _name(self, hooklength: Hooklength) -> str:
        """What it is, or what it is tied from: "hook 20 barbless spade, nylon 0.08 mm 0.7 kg"."""
        _, one = hooklength
        stacks = (one,) if isinstance(one, int) else one
        return ", ".join(self.holding.stock[s].item.name for s in stacks)
