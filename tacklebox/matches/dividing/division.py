"""Dividing stock among what is to be tied, over all wants at once, proven best by a solver.

First the wants in their order: as many of the first as can be, then of the second, and so on; of those
as many as can be from what serves one whole, in the same order, and only the rest is tied. Then as few
doubtful rigs as can be, of the first want, and so on. Then the least money: for what the rest needs, and
for what is to be kept. Then the fewest new packets opened.

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
from dataclasses import dataclass, field
from typing import Any

from tacklebox.matches.dividing.allotting import allot
from tacklebox.matches.dividing.flaws import AskedOfStock, Flaws, Judge, Rig, TooManyPatternsError
from tacklebox.matches.dividing.most_of_each import MostOfEach, most_of_each
from tacklebox.matches.dividing.question import (
    BoundDemand,
    BoundTied,
    Demand,
    Shared,
    SharedStacks,
    SharingModel,
    at_no_cost_at_all,
)
from tacklebox.matches.dividing.solver import MOST_NODES, Solver
from tacklebox.matches.dividing.stacks import (
    PartAsk,
    Stack,
    Stacks,
    Wanted,
    linked,
    plainly_served,
)

MOST_FLAWS = 400

Share = tuple[int, int, int]  # a want, one of its parts, and a stack
Rigs = Mapping[Rig, int]  # so many of each, in the order they are tied


@dataclass(frozen=True)
class Division:
    """The best division. ``whole`` are, want by want, how many each stack serves whole; ``rigs`` are those
    that stock ties, ``later`` those that can be tied when what is missing was bought; ``packs`` are to be
    bought, by stack; ``taken`` is what tying takes, bought or not, by stack; ``opened`` are new packets,
    bought ones too; pieces that come singly are no packets.

    ``proven``: no rig fails, and no other division has more of what is wanted, ties fewer of that, has fewer
    doubtful rigs, costs less or opens fewer packets, in that order. ``despite`` flaws, rigs may fail, but no
    more than need be.
    """

    whole: tuple[Mapping[int, int], ...]
    rigs: tuple[Rigs, ...]
    later: tuple[Rigs, ...]
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
    holds, is not tied and nothing is bought for it. Packets of unknown price count as the dearest
    of known price, so that none looks free. Raises CannotBeDoneError when no plan is found at all.
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
        self.prices = _prices(stacks, asked)
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
        filled = _FilledRigs(asked, tied, missing)
        proven = of_each.proven
        for group in self._groups(filled):
            key = group.key
            if key not in self._answers:
                self._answers[key] = self._answer(group)
            proven &= self._answers[key].proven
            filled.add(group, self._answers[key])
        now, later = filled.rigs(filled.now), filled.rigs(filled.later)
        return _Best(self._whole(of_each), now, later, proven)

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

        return self.division(_Best(best.whole, holding(best.rigs), holding(best.later), False))

    def _whole(self, of_each: MostOfEach) -> list[Mapping[int, int]]:
        """The stacks that serve whole, each want's nearest first."""
        those = [one.whole for one in self.wants]
        on_hand = {s: self.on_hand[s] for every in those for s in every}
        every = allot(of_each.whole, those, on_hand)
        return [{s: count for s, count in given.items() if count} for given in every]

    def _groups(self, filled: "_FilledRigs") -> list[SharedStacks]:
        """What is left for the solver, in groups that share no stack; the rest is filled."""
        wanted = list(zip(filled.asked, filled.now.counts, filled.later.counts, strict=True))
        amounts: dict[Stacks, int] = {}
        beside: list[tuple[Stacks, int]] = []
        for one, now, later in wanted:
            for _, part in one.loose if now + later else ():
                amounts[part.stacks] = amounts.get(part.stacks, 0) + (now + later) * part.amount
            for p in one.bound.parts if one.bound and now + later else ():
                beside.append((one.parts[p].stacks, (now + later) * one.parts[p].amount))
        free = plainly_served(amounts, self.at_no_cost, beside)
        demands: dict[PartAsk, Demand] = {}
        bound: list[BoundDemand] = []
        for w, (one, now, later) in enumerate(wanted):
            for p, part in one.loose if now + later else ():
                if part.stacks in free:
                    filled.now.parts[w, p] = filled.later.parts[w, p] = [free[part.stacks]]
                    continue
                demand = demands.setdefault(part, Demand(part))
                for count, of in ((now, demand.now), (later, demand.later)):
                    if count:
                        of[w, p] = count
            if one.bound and now + later:
                bound.append(BoundDemand(w, one, now, later))
        links = {of.want: tuple(SharedStacks(bound=[of]).stacks) for of in bound}
        roots = linked([*(part.stacks for part in demands), *links.values()])
        groups: dict[int, SharedStacks] = {}
        for part, demand in demands.items():
            groups.setdefault(roots[part.stacks[0]], SharedStacks()).loose.append(demand)
        for one_bound in bound:
            root = roots[links[one_bound.want][0]]
            groups.setdefault(root, SharedStacks()).bound.append(one_bound)
        return list(groups.values())

    def division(self, best: _Best) -> Division:
        """All that it takes and costs."""
        taken: dict[int, int] = {}
        for every in (best.rigs, best.later):
            for one, rigs in zip(self.wants, every, strict=True):
                for rig, count in rigs.items():
                    for part, s in zip(one.parts, rig, strict=True):
                        taken[s] = taken.get(s, 0) + part.amount * count
        packs = self.short | {s: self.stacks[s].packs_for(amount) for s, amount in taken.items()}
        packs = {s: packs[s] for s in sorted(packs) if packs[s]}
        cost = sum((self.stacks[s].price_cents or 0) * n for s, n in packs.items())
        opened = sum(self.stacks[s].opened_by(amount) for s, amount in taken.items())
        return Division(
            tuple(best.whole),
            tuple(best.rigs),
            tuple(best.later),
            packs,
            taken,
            cost,
            opened,
            best.proven,
            self.flaws,
        )


@dataclass
class _Rows:
    """So many rigs of each want, and the stacks of each part in turn; one alone serves all."""

    counts: Sequence[int]
    parts: dict[tuple[int, int], list[int]] = field(default_factory=dict)


class _FilledRigs:
    """The rigs of every want as they are filled, part by part: now and later."""

    def __init__(
        self, asked: Sequence[AskedOfStock], now: Sequence[int], later: Sequence[int]
    ) -> None:
        self.asked, self.now, self.later = asked, _Rows(now), _Rows(later)

    def add(self, group: SharedStacks, shared: Shared) -> None:
        """What serves one group, each part from its nearest."""
        for demand, (now, later) in zip(group.loose, shared.loose, strict=True):
            for rows, of, counts in (
                (self.now, demand.now, now),
                (self.later, demand.later, later),
            ):
                each = [s for s, count in counts.items() for _ in range(count)]
                begin = 0
                for key, count in of.items():
                    rows.parts[key] = each[begin : begin + count]
                    begin += count
        for bound, (tied_now, tied_later) in zip(group.bound, shared.bound, strict=True):
            for rows, tied in ((self.now, tied_now), (self.later, tied_later)):
                if tied:
                    for p, those in _bound_parts(bound.asked, tied):
                        rows.parts[bound.want, p] = those

    def rigs(self, rows: _Rows) -> list[Rigs]:
        """The rigs of each want, the same together."""
        found: list[Rigs] = []
        for w, (one, count) in enumerate(zip(self.asked, rows.counts, strict=True)):
            every = [rows.parts[w, p] for p in range(len(one.parts))] if count else []
            each = (those if len(those) > 1 else those * count for those in every)
            found.append(
                Counter(zip(*each, strict=True)) if every else Counter({(): count} if count else {})
            )
        return found


def _bound_parts(asked: AskedOfStock, tied: BoundTied) -> Iterator[tuple[int, list[int]]]:
    """The stacks of each bound part, rig by rig: of each class what serves it, in turn."""
    bound = asked.bound
    assert bound is not None
    for place, (p, classes) in enumerate(zip(bound.parts, bound.classes, strict=True)):
        left = [
            iter([s for s in those for _ in range(tied.serves.get((p, s), 0))]) for those in classes
        ]
        yield (
            p,
            [
                next(left[pattern[place]])
                for pattern, count in zip(bound.patterns, tied.patterns, strict=True)
                for _ in range(count)
            ],
        )


def _prices(stacks: Sequence[Stack], of: Iterable[int]) -> dict[int, int]:
    """The price of a packet of each; an unknown one counts as the dearest that is known."""
    known = {s: stacks[s].price_cents for s in of}
    dearest = max((cents or 0 for cents in known.values()), default=0) or 1
    return {s: dearest if cents is None else cents for s, cents in known.items()}
