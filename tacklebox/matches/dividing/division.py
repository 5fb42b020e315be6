"""Dividing stock among what is to be tied, over all wants at once, proven best by a solver.

First the wants in their order: as many of the first as can be, then of the second, and so on; of those
as many as can be from what serves one whole, in the same order, and only the rest is tied. Then as few
doubtful rigs as can be, of the first want, and so on. Then the least money: for what the rest needs, be
it to tie it or ready-made, and for what is to be kept. Then the fewest new packets opened; then the fewest
bought ready-made.

Whether a rig holds is asked of those that a division comes to. What they are found to fail by, or to
be doubtful by, is a flaw of all rigs that have it; the stock is divided again by the flaws that are
known, until no rig has a new one. Such a division is the best of all: each before it let in more.

What has no say in an answer is decided before the solver is asked: a stack that reaches for
all that could be asked of it serves whatever it would do for, and parts that share no stack, not even
through others, are divided apart. What simply taking serves out of packets that are open, and that no
minimum holds back, buys and opens nothing, so that nothing is better.
"""

from collections import Counter
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from tacklebox.matches.dividing.allotting import allot
from tacklebox.matches.dividing.filling import FilledRigs
from tacklebox.matches.dividing.flaws import AskedOfStock, Flaws, Judge, Rig, TooManyPatternsError
from tacklebox.matches.dividing.grouping import groups_of
from tacklebox.matches.dividing.most_of_each import MostOfEach, most_of_each
from tacklebox.matches.dividing.question import (
    Shared,
    SharedStacks,
    SharingModel,
    at_no_cost_at_all,
)
from tacklebox.matches.dividing.solver import MOST_NODES, Solver
from tacklebox.matches.dividing.stacks import (
    Stack,
    Wanted,
)

MOST_FLAWS = 400

Share = tuple[int, int, int]  # a want, one of its parts, and a stack
Rigs = Mapping[Rig, int]  # so many of each, in the order they are tied


@dataclass(frozen=True)
class Division:
    """The best division. ``whole`` are, want by want, how many each stack serves whole; ``rigs`` are those
    that stock ties, ``later`` those that can be tied when what is missing was bought, ``ready_made`` how
    many of each stack are to be bought that serve whole; ``packs`` are to be bought, by stack; ``taken`` is
    what tying takes, bought or not, by stack; ``opened`` are new packets, bought ones too; pieces that come
    singly are no packets.

    ``proven``: no rig fails, and no other division has more of what is wanted, ties fewer of that, has fewer
    doubtful rigs, costs less or opens fewer packets, in that order. ``despite`` flaws, rigs may fail, but no
    more than need be.
    """

    whole: tuple[Mapping[int, int], ...]
    rigs: tuple[Rigs, ...]
    later: tuple[Rigs, ...]
    ready_made: tuple[Mapping[int, int], ...]
    packs: Mapping[int, int]
    taken: Mapping[int, int]
    cost_cents: int
    opened: int
    proven: bool
    flaws: Flaws

    @property
    def tied(self) -> tuple[int, ...]:
        """How many rigs of each want stock ties."""
        return tuple(sum(rigs.values()) for rigs in self.rigs)

    @property
    def serves(self) -> dict[Share, int]:
        """How many of those each stack serves, by want, part and stack."""
        found: dict[Share, int] = {}
        for w, rigs in enumerate(self.rigs):
            for rig, count in rigs.items():
                for p, s in enumerate(rig):
                    found[w, p, s] = found.get((w, p, s), 0) + count
        return dict(sorted(found.items()))


@dataclass(frozen=True)
class MostLookedThrough:
    """What is looked through before a division is handed back as not proven: the solver's nodes, and
    flaws. Counts, so that the same question has the same answer on every machine."""

    nodes: int = MOST_NODES
    flaws: int = MOST_FLAWS


def divide(
    stacks: Sequence[Stack],
    wants: Sequence[Wanted],
    judge: Judge | None = None,
    *,
    despite: bool = False,
    most: MostLookedThrough | None = None,
) -> Division:
    """Divide the stacks among the wants, the most important first.

    ``judge`` tells the flaws of a rig; ``despite`` them, what fails may be tied, but nothing that
    fails where something holds. A want with a part that no stack would do for, or of which no rig
    holds, is not tied and nothing is bought for it but what serves whole. Packets of unknown price
    count as the dearest of known price, so that none looks free. Raises CannotBeDoneError when no plan
    is found at all.
    """
    most = most or MostLookedThrough()
    flaws = Flaws(wants, despite=despite)
    dividing = _Dividing(stacks, wants, flaws, Solver(most.nodes))
    judged: set[tuple[int, Rig]] = set()

    def found_in(rigs: Iterable[tuple[int, Rig]]) -> bool:
        """Whether those of the rigs that were not judged yet have flaws that nobody knew."""
        fresh = [one for one in rigs if one not in judged] if judge else []
        judged.update(fresh)
        found = [
            flaws.add(w, flaw) for w, rig in fresh for flaw in (judge(w, rig) if judge else ())
        ]
        return any(found)

    found_in(_nearest(wants))  # mostly they are in the division, too: that saves dividing again
    best = None
    while True:
        try:
            best = dividing.best()
        except TooManyPatternsError:
            if best is None:  # without any flaw there are not
                flaws.forget()
                judged.clear()
                continue
            return dividing.only_what_holds(best)
        if not found_in(best.every_rig):
            return dividing.division(best)
        if flaws.added > most.flaws:
            return dividing.only_what_holds(best)


def _nearest(wants: Sequence[Wanted]) -> Iterator[tuple[int, Rig]]:
    """Of each want the rig that is nearest to what it asks for."""
    for w, want in enumerate(wants):
        if want.count and all(part.stacks for part in want.parts):
            yield w, tuple(part.stacks[0] for part in want.parts)


@dataclass(frozen=True)
class _Best:
    """The best rigs by the flaws that are known, and what serves whole beside them."""

    whole: Sequence[Mapping[int, int]]
    rigs: Sequence[Rigs]
    later: Sequence[Rigs]
    ready_made: Sequence[Mapping[int, int]]
    proven: bool

    @property
    def every_rig(self) -> Iterator[tuple[int, Rig]]:
        """Each with the number of its want."""
        for every in (self.rigs, self.later):
            for w, rigs in enumerate(every):
                yield from ((w, rig) for rig in rigs)


class _Dividing:
    """One stock and its wants, divided anew as more flaws are known; what is answered is not asked again."""

    def __init__(
        self, stacks: Sequence[Stack], wants: Sequence[Wanted], flaws: Flaws, solver: Solver
    ) -> None:
        self.stacks, self.wants, self.flaws, self.solver = stacks, wants, flaws, solver
        self.on_hand = [stack.on_hand for stack in stacks]
        asked = set[int]().union(*{part.stacks for one in wants for part in one.parts})
        self.prices = _prices(stacks, asked.union(*(one.for_sale for one in wants)))
        self.at_no_cost = {s: stacks[s].at_no_cost for s in asked}
        short = ((s, stack.packs_for(0)) for s, stack in enumerate(stacks) if stack.minimum)
        self.short = {s: packs for s, packs in short if packs}  # of their minimum
        self._most: dict[Hashable, Any] = {}
        self._last: tuple[Sequence[AskedOfStock], MostOfEach] | None = None
        self._answers: dict[Hashable, Shared] = {}

    def best(self) -> _Best:
        """The best by the flaws that are known."""
        everyone = range(len(self.wants))
        of_each = self._of_each([self.flaws.asked(w, graded=False) for w in everyone])
        asked = [self.flaws.asked(w) for w in everyone]
        counts = list(zip(asked, of_each.counts, of_each.whole, strict=True))
        tied = [count - whole for _, count, whole in counts]
        missing = [one.count - count if one.can_be_tied else 0 for one, count, _ in counts]
        either = {
            w: one.count - counted
            for w, (one, counted) in enumerate(zip(self.wants, of_each.counts, strict=True))
            if one.for_sale and one.count > counted
        }
        filled = FilledRigs(asked, tied, missing, either)
        proven = of_each.proven
        for group in groups_of(filled, self.wants, self.at_no_cost):
            key = group.key
            if key not in self._answers:
                self._answers[key] = self._answer(group)
            proven &= self._answers[key].proven
            filled.add(group, self._answers[key])
        now, later = filled.rigs(filled.now), filled.rigs(filled.later)
        return _Best(self._whole(of_each), now, later, filled.ready_made, proven)

    def _answer(self, group: SharedStacks) -> Shared:
        """What serves a group best; the solver is asked where simply taking would buy or open."""
        simply = at_no_cost_at_all(group, self.at_no_cost)
        if simply is not None:
            return simply
        return SharingModel(self.stacks, self.on_hand, self.at_no_cost, group, self.prices).answer(
            self.solver
        )

    def _of_each(self, asked: Sequence[AskedOfStock]) -> MostOfEach:
        """The most of each want; as it was, where no want asks otherwise."""
        if self._last is None or any(a is not b for a, b in zip(self._last[0], asked, strict=True)):
            self._last = asked, most_of_each(self.on_hand, asked, self.solver, self._most)
        return self._last[1]

    def only_what_holds(self, best: _Best) -> Division:
        """The division without the rigs that fail; whether it is the best, nobody knows."""

        def holding(every: Sequence[Rigs]) -> list[Rigs]:
            return [
                {
                    rig: count
                    for rig, count in rigs.items()
                    if self.flaws.despite
                    or not any(f.fails and f.is_in(rig) for f in self.flaws.known.get(w, ()))
                }
                for w, rigs in enumerate(every)
            ]

        now, later = holding(best.rigs), holding(best.later)
        return self.division(_Best(best.whole, now, later, best.ready_made, False))

    def _whole(self, of_each: MostOfEach) -> list[Mapping[int, int]]:
        """The stacks that serve whole, each want's nearest first."""
        those = [one.whole for one in self.wants]
        on_hand = {s: self.on_hand[s] for every in those for s in every}
        every = allot(of_each.whole, those, on_hand)
        return [{s: count for s, count in given.items() if count} for given in every]

    def division(self, best: _Best) -> Division:
        """All that it takes and costs."""
        taken: dict[int, int] = {}
        for every in (best.rigs, best.later):
            for one, rigs in zip(self.wants, every, strict=True):
                for rig, count in rigs.items():
                    for part, s in zip(one.parts, rig, strict=True):
                        taken[s] = taken.get(s, 0) + part.amount * count
        packs = self.short | {s: self.stacks[s].packs_for(amount) for s, amount in taken.items()}
        opened = sum(self.stacks[s].opened_by(amount) for s, amount in taken.items())
        ready_made: Counter[int] = Counter()
        for bought in best.ready_made:
            ready_made.update(bought)
        for s, many in ready_made.items():
            packs[s], unpacked = self.stacks[s].ready_made(many)
            opened += unpacked
        packs = {s: packs[s] for s in sorted(packs) if packs[s]}
        cost = sum((self.stacks[s].price_cents or 0) * n for s, n in packs.items())
        return Division(
            tuple(best.whole),
            tuple(best.rigs),
            tuple(best.later),
            tuple(best.ready_made),
            packs,
            taken,
            cost,
            opened,
            best.proven,
            self.flaws,
        )


def _prices(stacks: Sequence[Stack], of: Iterable[int]) -> dict[int, int]:
    """The price of a packet of each; an unknown one counts as the dearest that is known."""
    known = {s: stacks[s].price_cents for s in of}
    dearest = max((cents or 0 for cents in known.values()), default=0) or 1
    return {s: dearest if cents is None else cents for s, cents in known.items()}
