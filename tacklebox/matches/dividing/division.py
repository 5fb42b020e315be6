"""Dividing stock among what is to be tied, over all wants at once, proven best by a solver.

First the wants in their order: as many of the first as can be, then of the second, and so on.
Then the least money: for what the rest needs, and for what is to be kept. Then the fewest new
packets opened.

What has no say in an answer is decided before the solver is asked: a stack that reaches for
all that could be asked of it serves whatever it would do for, and parts that share no stack, not even
through others, are divided apart.
"""

import time
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from tacklebox.matches.dividing.most_tied import most_tied
from tacklebox.matches.dividing.solver import Model, Solver
from tacklebox.matches.dividing.stacks import (
    KeptAnswers,
    PartAsk,
    Stack,
    Wanted,
    amounts_asked,
    linked,
    packets,
    plainly_served,
)

PACKET_SECONDS = 3.0
INFINITE = 1e30

Share = tuple[int, int, int]  # a want, one of its parts, and a stack


@dataclass(frozen=True)
class Division:
    """The best division. ``tied`` counts rigs of each want that stock serves; ``serves`` says
    how many of them, by (want, part, stack); ``packs`` are to be bought, by stack; ``taken`` is what
    all of it takes, bought or not, by stack; ``opened`` are new packets, bought ones too; pieces
    that come singly are no packets.

    That no other division ties more or costs less is always proven; ``proven_fewest`` says
    whether it is proven, too, that none opens fewer packets."""

    tied: tuple[int, ...]
    serves: dict[Share, int]
    packs: dict[int, int]
    taken: dict[int, int]
    cost_cents: int
    opened: int
    proven_fewest: bool


def divide(
    stacks: Sequence[Stack], wants: Sequence[Wanted], kept: KeptAnswers | None = None
) -> Division:
    """Divide the stacks among the wants, the most important first.

    A want with a part that no stack would do for is not tied and nothing is bought for it.
    Packets of unknown price count as the dearest of known price, so that none looks free.
    ``kept`` are answers of an earlier division, kept for a next one of the same stacks.
    Raises CannotBeDoneError when no plan is proven best in time.
    """
    kept = kept or KeptAnswers()
    kept.forget_other_than(stacks)
    tied = most_tied(stacks, wants, kept)
    return _cheapest(stacks, wants, tied, kept)


@dataclass
class _Demand:
    """What asks for the same amount of the same stacks: so many ``now`` are tied from stock, by
    (want, part), so many ``later``, when what is missing was bought."""

    ask: PartAsk
    now: dict[tuple[int, int], int] = field(default_factory=dict)
    later: int = 0


def _cheapest(
    stacks: Sequence[Stack], wants: Sequence[Wanted], tied: Sequence[int], kept: KeptAnswers
) -> Division:
    """The least money for what is missing and what is to be kept, then the fewest new packets."""
    missing = [w.count - t if w.can_be_bought_for else 0 for w, t in zip(wants, tied, strict=True)]
    amounts = amounts_asked(wants, [t + m for t, m in zip(tied, missing, strict=True)])
    prices = _prices(stacks, (s for of in amounts for s in of))
    free = plainly_served(amounts, [s.at_no_cost for s in stacks])
    taken: dict[int, int] = {}
    for of, s in free.items():
        taken[s] = taken.get(s, 0) + amounts[of]
    serves: dict[Share, int] = {}
    demands: dict[PartAsk, _Demand] = {}
    for w, want in enumerate(wants):
        for p, part in enumerate(want.parts if tied[w] + missing[w] else ()):
            if part.stacks not in free:
                demand = demands.setdefault(part, _Demand(part))
                demand.later += missing[w]
                if tied[w]:
                    demand.now[w, p] = tied[w]
            elif tied[w]:
                serves[w, p, free[part.stacks]] = tied[w]
    roots = linked(part.stacks for part in demands)
    groups: dict[int, list[_Demand]] = {}
    for part, demand in demands.items():
        groups.setdefault(roots[part.stacks[0]], []).append(demand)
    until, proven, solver = time.monotonic() + PACKET_SECONDS, True, None
    for group in groups.values():
        question = _Question(stacks, group, prices)
        asked_for = tuple((d.ask, tuple(d.now.items()), d.later) for d in group)
        asked_at = tuple(prices[s] for d in group for s in d.ask.stacks)
        if (asked_for, asked_at) not in kept.answers:
            solver = solver or Solver()
            is_proven = question.answer(solver, until)
            kept.answers[asked_for, asked_at] = question.values, is_proven
        question.values, is_proven = kept.answers[asked_for, asked_at]
        proven &= is_proven
        question.add_to(serves, taken)
    return _division(stacks, tied, serves, taken, proven)


def _division(
    stacks: Sequence[Stack],
    tied: Sequence[int],
    serves: Mapping[Share, int],
    taken: Mapping[int, int],
    proven: bool,
) -> Division:
    packs = {s: n for s, stack in enumerate(stacks) if (n := stack.packs_for(taken.get(s, 0)))}
    cost = sum((stacks[s].price_cents or 0) * n for s, n in packs.items())
    opened = sum(stacks[s].opened_by(amount) for s, amount in taken.items())
    return Division(
        tuple(tied), dict(sorted(serves.items())), packs, dict(taken), cost, opened, proven
    )


class _Uses:
    """What is asked of each stack: the columns with what one of each takes, and the most of all."""

    def __init__(self) -> None:
        self.of: dict[int, list[tuple[int, float]]] = {}
        self.most: dict[int, int] = {}

    def add(self, stack: int, column: int, amount: int, count: int) -> None:
        """So many rigs at most, of so much each."""
        self.of.setdefault(stack, []).append((column, float(amount)))
        self.most[stack] = self.most.get(stack, 0) + amount * count


class _Question:
    """One group of demands for the solver: least money, then fewest packets."""

    def __init__(
        self, stacks: Sequence[Stack], group: Sequence[_Demand], prices: Mapping[int, int]
    ) -> None:
        self.group, self.model = group, Model()
        self.now: dict[tuple[int, int], int] = {}
        self.later: dict[tuple[int, int], int] = {}
        taken, wished = _Uses(), _Uses()
        for d, demand in enumerate(group):
            for count, columns, uses in (
                (sum(demand.now.values()), self.now, taken),
                (demand.later, self.later, wished),
            ):
                if not count:
                    continue
                shares = []
                for s in demand.ask.stacks:
                    columns[d, s] = self.model.column(count)
                    shares.append((columns[d, s], 1.0))
                    uses.add(s, columns[d, s], demand.ask.amount, count)
                self.model.row(count, count, shares)
        self.opened: list[int] = []
        self.costs: dict[int, float] = {}
        for s in dict.fromkeys([*taken.of, *wished.of]):
            self._stack(stacks[s], taken, wished, s, prices.get(s, 0))
        if self.costs:
            self.spent = self.model.row(0.0, INFINITE, list(self.costs.items()))

    def _stack(self, stack: Stack, now: "_Uses", later: "_Uses", s: int, price: int) -> None:
        """What is taken comes from the open rest, from packets there are, from bought ones."""
        taken, wished = now.of.get(s, []), later.of.get(s, [])
        most_now = now.most.get(s, 0)
        most = most_now + later.most.get(s, 0)
        model, used, pack = self.model, [*taken, *wished], -float(stack.pack)
        if most_now > stack.on_hand and (wished or stack.minimum):
            model.row(0.0, stack.on_hand, taken)
        bought = opened = 0
        if wished or stack.minimum:
            bought = packets(most, stack.spare, stack.pack)
        if stack.pack > 1:
            opened = packets(most, stack.open_rest, stack.pack)
        if stack.minimum:  # what is bought is not opened all
            if bought:
                model.row(-INFINITE, stack.spare, [*used, (self._bought(bought, price), pack)])
            if opened:
                model.row(-INFINITE, stack.open_rest, [*used, (self._opened(opened), pack)])
            return
        takes = list(used)
        if opened > bought:
            takes.append((self._opened(min(opened, stack.on_hand // stack.pack)), pack))
        if bought:
            takes.append((self._bought(bought, price), pack))
            if stack.pack > 1:
                self.opened.append(takes[-1][0])
        if most > stack.at_no_cost:
            model.row(-INFINITE, stack.at_no_cost, takes)

    def _bought(self, most: int, price: int) -> int:
        column = self.model.column(most)
        if price:
            self.costs[column] = float(price)
        return column

    def _opened(self, most: int) -> int:
        self.opened.append(self.model.column(most))
        return self.opened[-1]

    def answer(self, solver: Solver, until: float) -> bool:
        """Ask the solver; whether the fewest packets were proven in time, too."""
        solver.take(self.model)
        self.values: list[int] = []
        if self.costs:
            self.values = solver.least(self.costs)
            spent = sum(cost * self.values[column] for column, cost in self.costs.items())
            solver.bound_row(self.spent, spent + 0.5)
            if not self.opened:
                return True
        seconds = max(until - time.monotonic(), 0.0)
        fewest, proven = solver.least_within(dict.fromkeys(self.opened, 1.0), seconds)
        self.values = fewest or self.values or solver.least({})
        return proven

    def add_to(self, serves: dict[Share, int], taken: dict[int, int]) -> None:
        """Add who serves what, each part from its nearest, and what is taken of each stack."""
        for d, demand in enumerate(self.group):
            left = {}
            for s in demand.ask.stacks:
                now, later = (
                    self.values[columns[d, s]] if (d, s) in columns else 0
                    for columns in (self.now, self.later)
                )
                left[s] = now
                if now + later:
                    taken[s] = taken.get(s, 0) + (now + later) * demand.ask.amount
            for (w, p), count in demand.now.items():
                still = count
                for s in left:
                    served = min(still, left[s])
                    if served:
                        serves[w, p, s] = served
                        left[s] -= served
                        still -= served


def _prices(stacks: Sequence[Stack], of: Iterable[int]) -> dict[int, int]:
    """The price of a packet of each; an unknown one counts as the dearest that is known."""
    known = {s: stacks[s].price_cents for s in of}
    dearest = max((cents or 0 for cents in known.values()), default=0) or 1
    return {s: dearest if cents is None else cents for s, cents in known.items()}
