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
from tacklebox.matches.dividing.stacks import PartAsk, Stack, Stacks, packets, simply_taken

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


@dataclass(frozen=True)
class TiedOrBought:
    """So many of a want that stock does not reach for: each is tied later, of these loose parts and of
    the want's bound ones, or bought ready-made."""

    want: int
    count: int
    asked: AskedOfStock
    parts: tuple[tuple[int, PartAsk], ...]
    for_sale: Stacks

    @property
    def stacks(self) -> Stacks:
        """All that would do for any of it."""
        return (*self.for_sale, *(s for _, part in self.parts for s in part.stacks))


@dataclass
class SharedStacks:
    """What shares stacks, if only through others."""

    loose: list[Demand] = field(default_factory=list)
    bound: list[BoundDemand] = field(default_factory=list)
    tied_or_bought: list[TiedOrBought] = field(default_factory=list)

    @property
    def key(self) -> tuple[object, ...]:
        """What the answer hangs on, beside the stacks and their prices."""
        loose = ((d.ask, tuple(d.now.items()), tuple(d.later.items())) for d in self.loose)
        return (*loose, *self.bound, *self.tied_or_bought)

    @property
    def stacks(self) -> Iterable[int]:
        """All that would do for any of it."""
        for demand in self.loose:
            yield from demand.ask.stacks
        for either in self.tied_or_bought:
            yield from either.stacks
        for of in self.bound:
            for p in of.asked.bound.parts if of.asked.bound else ():
                yield from of.asked.parts[p].stacks


@dataclass(frozen=True)
class BoundTied:
    """So many rigs of each pattern, and how many of those each stack serves, by part and stack."""

    patterns: Sequence[int]
    serves: Mapping[tuple[int, int], int]


@dataclass(frozen=True)
class PartlyBought:
    """So many are tied later, each loose part served by so many of each stack; the others are bought
    ready-made, so many of each stack."""

    tied: int
    parts: Mapping[int, Mapping[int, int]]
    bought: Mapping[int, int]


@dataclass(frozen=True)
class Shared:
    """The answer: of each loose demand so many rigs by stack, now and later; of each bound one what is
    tied, now and later; how many are bought ready-made. ``proven``: there is none better."""

    loose: Sequence[tuple[Mapping[int, int], Mapping[int, int]]]
    bound: Sequence[tuple[BoundTied | None, BoundTied | None]] = ()
    tied_or_bought: Sequence[PartlyBought] = ()
    proven: bool = True


def at_no_cost_at_all(group: SharedStacks, at_no_cost: Mapping[int, int]) -> Shared | None:
    """The answer where simply taking buys nothing and opens nothing, for then there is none better.

    None where it would, and where parts are bound or something may be bought ready-made.
    """
    if group.bound or group.tied_or_bought:
        return None
    asks = [
        (demand.ask, sum(of.values()))
        for demand in group.loose
        for of in (demand.now, demand.later)
    ]
    taken = simply_taken(asks, at_no_cost)
    return None if taken is None else Shared(list(zip(taken[::2], taken[1::2], strict=True)))


class _TiedOrBoughtColumns:
    """The columns of what is tied later or bought ready-made."""

    def __init__(self, model: Model, of: TiedOrBought, wished: Uses) -> None:
        self.of = of
        self.tied = model.column(of.count if of.asked.can_be_tied else 0)
        self.bought = {s: model.column(of.count) for s in of.for_sale}
        each = [(column, 1.0) for column in (self.tied, *self.bought.values())]
        model.row(of.count, of.count, each)
        total = Total(of.count, self.tied)
        self.parts = {p: share_part(model, part, total, wished) for p, part in of.parts}


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
        self.opened: list[int] = []
        self.costs: dict[int, float] = {}
        self.either = [_TiedOrBoughtColumns(self.model, of, wished) for of in group.tied_or_bought]
        tied = {one.of.want: one.tied for one in self.either}
        self.bound = [
            (
                self._bound(of.asked, Total(of.now), taken),
                self._bound(of.asked, Total(of.later, tied.get(of.want)), wished),
            )
            for of in group.bound
        ]
        for s in dict.fromkeys(s for one in self.either for s in one.bought):
            self._ready_made(stacks[s], s, prices[s])
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

    def _bound(self, asked: AskedOfStock, total: Total, uses: Uses) -> BoundShares | None:
        return share_bound(self.model, asked, total, uses) if total.most else None

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
                found[of.want] = self._row_of(columns)
        for one in self.either:
            asked = one.of.asked
            if asked.bound is None and asked.grade >= least:
                found[one.of.want] = self._row_of([one.tied])
        return found

    def _row_of(self, columns: list[int]) -> tuple[int, list[int]]:
        return self.model.row(0.0, INFINITE, [(column, 1.0) for column in columns]), columns

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

    def _ready_made(self, stack: Stack, s: int, price: int) -> None:
        """What serves whole comes from bought packets, those bought for the minimum first."""
        model, pack = self.model, -float(stack.pack)
        those = [one for one in self.either if s in one.bought]
        used = [(one.bought[s], 1.0) for one in those]
        most, least = sum(one.of.count for one in those), stack.packs_for(0)
        bought = self._bought(packets(most, least * stack.pack, stack.pack), price)
        model.row(-INFINITE, least * stack.pack, [*used, (bought, pack)])
        if stack.pack > 1:
            opened = self._opened(packets(most, 0, stack.pack))
            model.row(-INFINITE, 0.0, [*used, (opened, pack)])

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

        def partly(one: _TiedOrBoughtColumns) -> PartlyBought:
            parts = {p: counted(columns) for p, columns in one.parts.items()}
            return PartlyBought(values[one.tied], parts, counted(one.bought))

        return Shared(
            [(counted(now), counted(later)) for now, later in self.loose],
            [(tied(now), tied(later)) for now, later in self.bound],
            [partly(one) for one in self.either],
            proven,
        )

    def _least(self, solver: Solver) -> tuple[Sequence[int], bool]:
        """The columns' values, and whether they are proven the best."""
        solver.take(self.model)
        worse = [row for of_wants in self.worse for row, _ in of_wants.values()]
        ready_made = [column for one in self.either for column in one.bought.values()]
        outweighs = 1.0 + sum(one.of.count for one in self.either)
        # Of what is alike in money and packets, the most is tied.
        opened = dict.fromkeys(self.opened, outweighs) | dict.fromkeys(ready_made, 1.0)
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
        counts = {of.want: of.count for of in self.group.tied_or_bought}
        counts |= {of.want: of.now + of.later for of in self.group.bound}
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
