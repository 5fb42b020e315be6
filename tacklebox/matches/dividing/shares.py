"""The columns of a model that say how many rigs each stack serves, and how much of it they take."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field

from tacklebox.matches.dividing.flaws import AskedOfStock
from tacklebox.matches.dividing.solver import Model
from tacklebox.matches.dividing.stacks import PartAsk

Takes = tuple[int, float]  # a column, and what one of it takes


@dataclass
class Uses:
    """What is asked of each stack: the columns with what one of each takes, and the most of all.

    Of a stack ``by_rigs`` each rig takes one, whatever it asks for. ``reach`` is what each stack has at
    most, where it is known: what is not enough for one rig gets no column.
    """

    reach: Sequence[int] | None = None
    by_rigs: Collection[int] = ()
    of: dict[int, list[Takes]] = field(default_factory=dict)
    most: dict[int, int] = field(default_factory=dict)

    def column(self, model: Model, stack: int, amount: int, most: int) -> int | None:
        """A new column: so many rigs at most take that amount each; None where there is not enough."""
        if self.reach is not None:
            most = min(most, self.reach[stack] // amount)
        if not most:
            return None
        column = model.column(most)
        takes = 1.0 if stack in self.by_rigs else float(amount)
        self.of.setdefault(stack, []).append((column, takes))
        self.most[stack] = self.most.get(stack, 0) + amount * most
        return column


@dataclass(frozen=True)
class Total:
    """How many rigs there are: so many, or as a column says, which is no more."""

    most: int
    column: int | None = None

    def is_sum_of(self, model: Model, columns: Sequence[int]) -> None:
        """Those columns add up to it."""
        factors = [(column, 1.0) for column in columns]
        if self.column is None:
            model.row(self.most, self.most, factors)
        else:
            model.row(0.0, 0.0, [*factors, (self.column, -1.0)])


def share_part(model: Model, part: PartAsk, total: Total, uses: Uses) -> dict[int, int]:
    """The columns of one loose part, by stack."""
    columns = {}
    for s in part.stacks:
        column = uses.column(model, s, part.amount, total.most)
        if column is not None:
            columns[s] = column
    total.is_sum_of(model, list(columns.values()))
    return columns


@dataclass(frozen=True)
class BoundShares:
    """The columns of bound parts: how many rigs are of each pattern, and by part and stack."""

    patterns: tuple[int, ...]
    serves: dict[tuple[int, int], int]


def share_bound(model: Model, asked: AskedOfStock, total: Total, uses: Uses) -> BoundShares:
    """The columns of a want's bound parts: what a class serves, its patterns take."""
    bound = asked.bound
    assert bound is not None
    patterns = tuple(model.column(total.most) for _ in bound.patterns)
    total.is_sum_of(model, patterns)
    serves: dict[tuple[int, int], int] = {}
    for place, p in enumerate(bound.parts):
        amount = asked.parts[p].amount
        of_class: list[list[tuple[int, float]]] = [[] for _ in bound.classes[place]]
        for column, pattern in zip(patterns, bound.patterns, strict=True):
            of_class[pattern[place]].append((column, -1.0))
        for stacks, taken in zip(bound.classes[place], of_class, strict=True):
            for s in stacks:
                served = uses.column(model, s, amount, total.most)
                if served is not None:
                    serves[p, s] = served
                    taken.append((served, 1.0))
            model.row(0.0, 0.0, taken)
    return BoundShares(patterns, serves)
