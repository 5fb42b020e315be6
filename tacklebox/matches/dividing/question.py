"""One group of what is asked for the solver: the fewest doubtful rigs, then the least money, then the
fewest new packets."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from tacklebox.errors import CannotBeDoneError
from tacklebox.matches.dividing.flaws import DOUBTFUL, FAILS, AskedOfStock
from tacklebox.matches.dividing.most_of_each import blocks
from tacklebox.matches.dividing.shares import (
    BoundShares,
    Takes,
    Total,
    Uses,
    share_bound,
    share_part,
)
from tacklebox.matches.dividing.solver import Model, Solver
from tacklebox.matches.dividing.stacks import PartAsk, Stack, packets, simply_taken

INFINITE = 1e30

OfWants = dict[tuple[int, int], int]  # how many rigs, by want and part


@dataclass
class Demand:
    """What loose parts ask for the same amount of the same stacks: so many ``now`` are tied from
    stock, so many ``later``, when what is missing was bought."""

    ask: PartAsk
    now: OfWants = field(default_factory=dict)
    later: OfWants = field(default_factory=dict)


@dataclass(frozen=True)
class BoundDemand:
    """The bound parts of one want, so many now and so many later."""

    want: int
    asked: AskedOfStock
    now: int
    later: int


@dataclass
class SharedStacks:
    """What shares stacks, if only through others."""

    loose: list[Demand] = field(default_factory=list)
    bound: list[BoundDemand] = field(default_factory=list)

    @property
    def key(self) -> tuple[object, ...]:
        """What the answer hangs on, beside the stacks and their prices."""
        loose = ((d.ask, tuple(d.now.items()), tuple(d.later.items())) for d in self.loose)
        return (*loose, *self.bound)

    @property
    def stacks(self) -> Iterable[int]:
        """All that would do for any of it."""
        for demand in self.loose:
            yield from demand.ask.stacks
        for of in self.bound:
            for p in of.asked.bound.parts if of.asked.bound else ():
                yield from of.asked.parts[p].stacks


@dataclass(frozen=True)
class BoundTied:
    """So many rigs of each pattern, and how many of those each stack serves, by part and stack."""

    patterns: Sequence[int]
    serves: Mapping[tuple[int, int], int]


@dataclass(frozen=True)
class Shared:
    """The answer: of each loose demand so many rigs by stack, now and later; of each bound one what is
    tied, now and later. ``proven``: there is none better."""

    loose: Sequence[tuple[Mapping[int, int], Mapping[int, int]]]
    bound: Sequence[tuple[BoundTied | None, BoundTied | None]]
    proven: bool


def at_no_cost_at_all(group: SharedStacks, at_no_cost: Mapping[int, int]) -> Shared | None:
    """The answer where simply taking buys nothing and opens nothing, for then there is none better.

    None where it would, and where parts are bound.
    """
    if group.bound:
        return None
    asks = [
        (demand.ask, sum(of.values()))
        for demand in group.loose
        for of in (demand.now, demand.later)
    ]
    taken = simply_taken(asks, at_no_cost)
    return (
        None if taken is None else Shared(list(zip(taken[::2], taken[1::2], strict=True)), (), True)
    )


class SharingModel:
    """The model of one group."""

    def __init__(
        self,
        stacks: Sequence[Stack],
        on_hand: Sequence[int],
        at_no_cost: Mapping[int, int],
        group: SharedStacks,
        prices: Mapping[int, int],
    ) -> None:
        self.group, self.model = group, Model()
        taken, wished = Uses(on_hand), Uses()
        self.loose = [
            (self._part(d.ask, d.now, taken), self._part(d.ask, d.later, wished))
            for d in group.loose
        ]
        self.bound = [
            (self._bound(of.asked, of.now, taken), self._bound(of.asked, of.later, wished))
            for of in group.bound
        ]
        self.opened: list[int] = []
        self.costs: dict[int, float] = {}
        for s in dict.fromkeys([*taken.of, *wished.of]):
            now, later = taken.most.get(s, 0), wished.most.get(s, 0)
            if now + later > at_no_cost[s]:
                asked = taken.of.get(s, []), wished.of.get(s, [])
                self._stack(stacks[s], asked, now, now + later, prices[s])
        self.spent = self.model.row(0.0, INFINITE, list(self.costs.items())) if self.costs else -1
        self.worse = [self._worse_than(grade) for grade in (DOUBTFUL, FAILS)]

    def _part(self, ask: PartAsk, of: OfWants, uses: Uses) -> dict[int, int]:
        count = sum(of.values())
        return share_part(self.model, ask, Total(count), uses) if count else {}

    def _bound(self, asked: AskedOfStock, count: int, uses: Uses) -> BoundShares | None:
        return share_bound(self.model, asked, Total(count), uses) if count else None

    def _worse_than(self, least: int) -> dict[int, tuple[int, list[int]]]:
        """The row and the columns of each want's rigs that are of that grade or worse."""
        found = {}
        for of, pair in zip(self.group.bound, self.bound, strict=True):
            assert of.asked.bound is not None
            columns = [
                column
                for shares in pair
                if shares
                for column, grade in zip(shares.patterns, of.asked.bound.grades, strict=True)
                if grade >= least
            ]
            if columns:
                row = self.model.row(0.0, INFINITE, [(column, 1.0) for column in columns])
                found[of.want] = row, columns
        return found

    def _stack(
        self,
        stack: Stack,
        asked: tuple[list[Takes], list[Takes]],
        most_now: int,
        most: int,
        price: int,
    ) -> None:
        """What is taken comes from the open rest, from packets there are, from bought ones."""
        taken, wished = asked
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
        model.row(-INFINITE, stack.at_no_cost, takes)

    def _bought(self, most: int, price: int) -> int:
        column = self.model.column(most)
        if price:
            self.costs[column] = float(price)
        return column

    def _opened(self, most: int) -> int:
        self.opened.append(self.model.column(most))
        return self.opened[-1]

    def answer(self, solver: Solver) -> Shared:
        """Ask the solver; raises CannotBeDoneError where it found nothing at all."""
        values, proven = self._least(solver)

        def counted(columns: Mapping[int, int]) -> dict[int, int]:
            return {s: values[column] for s, column in columns.items() if values[column]}

        def tied(shares: BoundShares | None) -> BoundTied | None:
            if shares is None:
                return None
            return BoundTied(
                [values[column] for column in shares.patterns],
                {key: values[column] for key, column in shares.serves.items()},
            )

        return Shared(
            [(counted(now), counted(later)) for now, later in self.loose],
            [(tied(now), tied(later)) for now, later in self.bound],
            proven,
        )

    def _least(self, solver: Solver) -> tuple[Sequence[int], bool]:
        """The columns' values, and whether they are proven the best."""
        solver.take(self.model)
        worse = [row for of_wants in self.worse for row, _ in of_wants.values()]
        opened = dict.fromkeys(self.opened, 1.0)
        for row in worse:  # mostly no rig need be doubtful
            solver.bound_row(row, 0.0)
        best, proven = solver.least(self.costs or opened), True
        if worse and not best.values:
            for row in worse:
                solver.bound_row(row, INFINITE)
            proven = self._fewest_worse(solver)
            best = solver.least(self.costs or opened)
        proven &= best.proven
        if best.values and self.costs and any(best.values[column] for column in opened):
            spent = sum(cost * best.values[column] for column, cost in self.costs.items())
            solver.bound_row(self.spent, spent + 0.5)
            last = solver.least(opened)
            proven &= last.proven
            best = last if last.values else best
        if not best.values:
            raise CannotBeDoneError(
                "no plan was found in all that was looked through.", right="Plan for fewer rigs."
            )
        return best.values, proven

    def _fewest_worse(self, solver: Solver) -> bool:
        """From here on no rig is worse than need be, those of the most important wants first;
        whether that is proven."""
        proven = True
        counts = {of.want: of.now + of.later for of in self.group.bound}
        for of_wants in reversed(self.worse):  # what fails before what is doubtful
            for block in blocks(counts, sorted(of_wants)):
                weight, costs = 1.0, {}
                for w in reversed(block):
                    costs.update(dict.fromkeys(of_wants[w][1], weight))
                    weight *= counts[w] + 1
                answer = solver.least(costs)
                proven &= answer.proven
                for w in block if answer.values else ():
                    row, columns = of_wants[w]
                    solver.bound_row(row, sum(answer.values[column] for column in columns))
        return proven
