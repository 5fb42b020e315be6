"""The columns of a model that say how many rigs each stack serves, and how much of it they take."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from tacklebox.matches.dividing.flaws import AskedOfStock
from tacklebox.matches.dividing.solver import Model
from tacklebox.matches.dividing.stacks import PartAsk, Stacks


@dataclass
class Uses:
    """What is asked of each stack: the columns with what one of each takes, and the most of all."""

    of: dict[int, list[tuple[int, float]]] = field(default_factory=dict)
    most: dict[int, int] = field(default_factory=dict)

    def add(self, stack: int, column: int, amount: int) -> None:
        """A column that says how many rigs take so much each."""
        self.of.setdefault(stack, []).append((column, float(amount)))

    def add_most(self, stacks: Stacks, amount: int) -> None:
        """So much at most of each of those stacks."""
        for s in stacks:
            self.most[s] = self.most.get(s, 0) + amount


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
    columns = {s: model.column(total.most) for s in part.stacks}
    for s, column in columns.items():
        uses.add(s, column, part.amount)
    uses.add_most(part.stacks, part.amount * total.most)
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
        part = asked.parts[p]
        uses.add_most(part.stacks, part.amount * total.most)
        for number, stacks in enumerate(bound.classes[place]):
            of_class = [
                column
                for column, pattern in zip(patterns, bound.patterns, strict=True)
                if pattern[place] == number
            ]
            for s in stacks:
                serves[p, s] = model.column(total.most)
                uses.add(s, serves[p, s], part.amount)
            model.row(
                0.0,
                0.0,
                [*((serves[p, s], 1.0) for s in stacks), *((column, -1.0) for column in of_class)],
            )
    return BoundShares(patterns, serves)
