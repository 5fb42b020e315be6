"""Whole numbers of pieces whose masses come nearest to a target, proven best by HiGHS.

The cost of a choice is |Σ mass × count − target| in mg plus a small charge per piece, so
that of two equally near choices the one with fewer pieces wins.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

PER_PIECE_MG = 1.0  # a milligram nearer is not worth another shot (common practice)
PROVEN_TO_MG = 0.01


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
    """Pieces by mass (mg) and the most of each, the target (mg), and the rows to keep.

    ``kinds`` gives a number to each piece; pieces of one kind may stand in several places.
    Empty: each piece is a kind of its own.
    """

    masses_mg: tuple[float, ...]
    most: tuple[int, ...]
    target_mg: float
    rows: tuple[Row, ...] = ()
    kinds: tuple[int, ...] = ()

    def places(self) -> list[list[int]]:
        """The pieces of each kind."""
        together: dict[int, list[int]] = {}
        for piece, kind in enumerate(self.kinds or range(len(self.masses_mg))):
            together.setdefault(kind, []).append(piece)
        return list(together.values())

    def choice(self, counts: Sequence[int]) -> Choice:
        """The choice that these counts are; whether they keep the rows is not looked at."""
        mass = sum(m * n for m, n in zip(self.masses_mg, counts, strict=True))
        error = mass - self.target_mg
        return Choice(tuple(counts), error, abs(error) + PER_PIECE_MG * sum(counts))


def nearest_choices(problem: Problem, how_many: int) -> tuple[Choice, ...]:
    """The best choices, cheapest first, each proven by the solver; fewer where there are no
    more, none where the rows cannot be kept.

    After each solution a row is added that asks for at least one kind in another number.

    >>> best = nearest_choices(Problem((400.0, 200.0), (3, 9), 1600.0), 2)
    >>> [choice.counts for choice in best]
    [(3, 2), (2, 4)]
    """
    from highspy import Highs, HighsModelStatus, HighsVarType

    class Quiet(Highs):
        """The solver greets when its callbacks are set, so it is silenced just before."""

        def enableCallbacks(self) -> None:  # noqa: N802
            self.silent()
            super().enableCallbacks()  # type: ignore[no-untyped-call]

    solver = Quiet()  # type: ignore[no-untyped-call]
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", PROVEN_TO_MG)
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

    cost = [*((piece, PER_PIECE_MG) for piece in pieces), (over, 1.0), (under, 1.0)]
    found: list[Choice] = []
    while len(found) < how_many:
        solver.run()
        if solver.getModelStatus() != HighsModelStatus.kOptimal:
            break
        values = list(solver.getSolution().col_value)
        counts = [round(values[column]) for column in pieces]
        found.append(problem.choice(counts))
        differs = []
        for places in problem.places():
            here = sum(counts[place] for place in places)
            most = sum(problem.most[place] for place in places)
            pieces_of_kind = [(pieces[place], 1.0) for place in places]
            if here < most:  # more of the kind: at least here + 1 where the switch is on
                switch = add_column(0.0, 1.0, whole=True)
                add_row(0.0, infinity, [*pieces_of_kind, (switch, -(here + 1.0))])
                differs.append((switch, 1.0))
            if here > 0:  # fewer of it
                switch = add_column(0.0, 1.0, whole=True)
                add_row(-infinity, most, [*pieces_of_kind, (switch, most - here + 1.0)])
                differs.append((switch, 1.0))
        add_row(1.0, infinity, differs)
        add_row(found[-1].cost_mg - PROVEN_TO_MG, infinity, cost)
    return tuple(found)
