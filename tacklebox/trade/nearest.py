"""Whole numbers of pieces whose masses come nearest to a target, proven best by HiGHS.

The cost of a choice is |Σ mass × count − target| in mg plus a small charge per piece, so
that of two equally near choices the one with fewer pieces wins.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

PER_PIECE_MG = 0.05  # sixty pieces weigh as much as an error of 3 mg


@dataclass(frozen=True, slots=True)
class Row:
    """A bound on a weighted sum of counts: low ≤ Σ factor × count ≤ high."""

    low: float
    high: float
    factors: tuple[tuple[int, float], ...]  # (which count, factor)


@dataclass(frozen=True, slots=True)
class Choice:
    """Counts in the order of the pieces, the signed error and the cost, both in mg."""

    counts: tuple[int, ...]
    error_mg: float
    cost_mg: float = field(compare=False)


@dataclass(frozen=True, slots=True)
class Problem:
    """Pieces by mass (mg) and the most of each, the target (mg), and the rows to keep."""

    masses_mg: tuple[float, ...]
    most: tuple[int, ...]
    target_mg: float
    rows: tuple[Row, ...] = ()

    def choice(self, counts: Sequence[int]) -> Choice:
        """The choice that these counts are; whether they keep the rows is not looked at."""
        mass = sum(m * n for m, n in zip(self.masses_mg, counts, strict=True))
        error = mass - self.target_mg
        return Choice(tuple(counts), error, abs(error) + PER_PIECE_MG * sum(counts))


def nearest_choices(problem: Problem, how_many: int) -> tuple[Choice, ...]:
    """The best choices, cheapest first, each proven by the solver; fewer where there are no
    more, none where the rows cannot be kept.

    After each solution a row is added that asks for at least one other count.

    >>> best = nearest_choices(Problem((400.0, 200.0), (3, 9), 1600.0), 2)
    >>> [choice.counts for choice in best]
    [(3, 2), (2, 4)]
    """
    from highspy import Highs, HighsModelStatus, HighsVarType

    solver = Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", PER_PIECE_MG / 10)
    infinity = solver.inf

    def add_column(cost: float, high: float, *, whole: bool) -> int:
        column = int(solver.getNumCol())
        solver.addCol(cost, 0.0, high, 0, [], [])
        if whole:
            solver.changeColIntegrality(column, HighsVarType.kInteger)
        return column

    def add_row(low: float, high: float, factors: Sequence[tuple[int, float]]) -> None:
        columns, values = [c for c, _ in factors], [v for _, v in factors]
        solver.addRow(low, high, len(columns), columns, values)

    pieces = [add_column(PER_PIECE_MG, most, whole=True) for most in problem.most]
    over = add_column(1.0, infinity, whole=False)
    under = add_column(1.0, infinity, whole=False)
    weighed = list(zip(pieces, problem.masses_mg, strict=True))
    add_row(problem.target_mg, problem.target_mg, [*weighed, (over, -1.0), (under, 1.0)])
    for row in problem.rows:
        add_row(row.low, row.high, row.factors)

    found: list[Choice] = []
    while len(found) < how_many:
        solver.run()
        if solver.getModelStatus() != HighsModelStatus.kOptimal:
            break
        values = list(solver.getSolution().col_value)
        counts = [round(values[column]) for column in pieces]
        found.append(problem.choice(counts))
        differs = []
        for column, count, most in zip(pieces, counts, problem.most, strict=True):
            if count < most:  # more of it: count ≥ here + 1 where the switch is on
                switch = add_column(0.0, 1.0, whole=True)
                add_row(0.0, infinity, [(column, 1.0), (switch, -(count + 1.0))])
                differs.append((switch, 1.0))
            if count > 0:  # fewer of it
                switch = add_column(0.0, 1.0, whole=True)
                add_row(-infinity, most, [(column, 1.0), (switch, most - count + 1.0)])
                differs.append((switch, 1.0))
        add_row(1.0, infinity, differs)
    return tuple(found)
