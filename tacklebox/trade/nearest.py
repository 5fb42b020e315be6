"""Whole numbers of pieces whose masses come nearest to a target, proven best by HiGHS.

The cost of a choice is |Σ mass × count − target| in mg plus a small charge per piece, so
that of two equally near choices the one with fewer pieces wins. Masses are taken as they are,
not rounded. The search is given so many nodes of the solver's tree, not so much time, so that
the same question always has the same answer.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from tacklebox.trade.solving import new_solver

PER_PIECE_MG = 1.0  # a milligram nearer is not worth another shot (our choice)
PROVEN_TO_MG = 1e-3
MOST_NODES = 4_000  # for one question, about two seconds of the solver (our choice)

# What the solver tries in vain on problems of a few pieces among many sizes: a quarter of its time.
# Its presolve would also take away the count of all pieces, on which it branches best; most of its
# cuts cost more than they spare.
_SET = {
    "mip_heuristic_run_feasibility_jump": False,
    "mip_heuristic_run_rins": False,
    "mip_allow_restart": False,
    "presolve": "off",
    "mip_pool_soft_limit": 50,
}


@dataclass(frozen=True, slots=True)
class Row:
    """A bound on a weighted sum of counts: low ≤ Σ factor × count ≤ high."""

    low: float
    high: float
    factors: tuple[tuple[int, float], ...]  # (which count, factor)


@dataclass(frozen=True, slots=True)
class NearChoice:
    """Counts in the order of the pieces, the signed error and the cost, both in mg.

    ``proven``: that nothing costs less but the choices offered before it, to ``to_mg``.
    """

    counts: tuple[int, ...]
    error_mg: float
    cost_mg: float = field(compare=False)
    proven: bool = field(default=True, compare=False)


@dataclass(frozen=True, slots=True)
class Problem:
    """Pieces by mass (mg) and the most of each, the target (mg), and the rows to keep.

    ``kinds`` gives a number to each piece; pieces of one kind may stand in several places.
    Empty: each piece is a kind of its own. ``switches`` are so many more columns, after the
    pieces, that are 0 or 1 and weigh and cost nothing: rows tie them to the pieces. ``starts``
    are counts of all columns to begin the search at, cheapest first; they spare time and decide
    nothing.
    """

    masses_mg: tuple[float, ...]
    most: tuple[int, ...]
    target_mg: float
    rows: tuple[Row, ...] = ()
    kinds: tuple[int, ...] = ()
    switches: int = 0
    starts: tuple[tuple[int, ...], ...] = ()

    def places(self) -> list[list[int]]:
        """The pieces of each kind."""
        by_kind: dict[int, list[int]] = {}
        for piece, kind in enumerate(self.kinds or range(len(self.masses_mg))):
            by_kind.setdefault(kind, []).append(piece)
        return list(by_kind.values())

    def content(self, counts: Sequence[int]) -> tuple[int, ...]:
        """How many of each kind, wherever they stand."""
        return tuple(sum(counts[place] for place in places) for places in self.places())

    def choice(self, counts: Sequence[int], *, proven: bool = True) -> NearChoice:
        """The choice that these counts are; whether they keep the rows is not looked at."""
        mass = sum(m * n for m, n in zip(self.masses_mg, counts, strict=True))
        error = mass - self.target_mg
        return NearChoice(tuple(counts), error, abs(error) + PER_PIECE_MG * sum(counts), proven)


@dataclass(frozen=True, slots=True)
class Found:
    """The choices found, cheapest first. ``proven_whole``: whether that there are no others, or
    none at all, was proven where fewer were found than asked for."""

    choices: tuple[NearChoice, ...]
    proven_whole: bool


def nearest_choices(
    problem: Problem,
    how_many: int,
    most_nodes: int = MOST_NODES,
    to_mg: float = PROVEN_TO_MG,
) -> Found:
    """The best choices, cheapest first, each with whether the solver proved it.

    After each solution a row is added that asks for at least one kind in another number. All
    searches of one question share ``most_nodes``; when they are used up, the best choice found so
    far is told as not proven, and nothing is looked for after it. ``to_mg``: two choices whose costs
    are nearer than that may stand in either order.

    >>> best = nearest_choices(Problem((400.0, 200.0), (3, 9), 1600.0), 2)
    >>> [(choice.counts, choice.proven) for choice in best.choices]
    [((3, 2), True), ((2, 4), True)]
    """
    from highspy import HighsModelStatus

    search, nodes_left = _Search(problem, to_mg), most_nodes
    found: list[NearChoice] = []
    while len(found) < how_many:
        status, counts, nodes = search.run(nodes_left)
        nodes_left -= nodes
        if counts is not None:
            proven = status == HighsModelStatus.kOptimal
            found.append(problem.choice(counts, proven=proven))
        if status != HighsModelStatus.kOptimal or counts is None:
            return Found(_in_order(found), status == HighsModelStatus.kInfeasible)
        search.ask_for_another(counts, found[-1].cost_mg)
        nodes_left = max(nodes_left, 1)
    return Found(_in_order(found), True)


def _in_order(found: list[NearChoice]) -> tuple[NearChoice, ...]:
    return tuple(sorted(found, key=lambda choice: choice.cost_mg))


class _Search:
    """The solver with the problem in it."""

    def __init__(self, problem: Problem, to_mg: float) -> None:
        from highspy import HighsVarType

        self.problem, self.to_mg = problem, to_mg
        self.starts = list(problem.starts)
        self.solver = new_solver(to_mg)
        for option, value in _SET.items():
            self.solver.setOptionValue(option, value)
        self.whole = HighsVarType.kInteger
        infinity = self.solver.inf
        self.pieces = [self._column(PER_PIECE_MG, most) for most in problem.most]
        for _ in range(problem.switches):
            self._column(0.0, 1.0)
        over = self._column(1.0, infinity, whole=False)
        under = self._column(1.0, infinity, whole=False)
        pieces = self._column(0.0, sum(problem.most))
        self._row(0.0, 0.0, [*((piece, 1.0) for piece in self.pieces), (pieces, -1.0)])
        weighed = list(zip(self.pieces, problem.masses_mg, strict=True))
        target = problem.target_mg
        self._row(target, target, [*weighed, (over, -1.0), (under, 1.0)])
        for row in problem.rows:
            self._row(row.low, row.high, row.factors)
        self.cost = [*((piece, PER_PIECE_MG) for piece in self.pieces), (over, 1.0), (under, 1.0)]

    def _column(self, cost: float, high: float, *, whole: bool = True) -> int:
        column = int(self.solver.getNumCol())
        self.solver.addCol(cost, 0.0, high, 0, [], [])
        if whole:
            self.solver.changeColIntegrality(column, self.whole)
        return column

    def _row(self, low: float, high: float, factors: Sequence[tuple[int, float]]) -> None:
        columns, values = [c for c, _ in factors], [v for _, v in factors]
        self.solver.addRow(low, high, len(columns), columns, values)

    def run(self, most_nodes: int) -> tuple[object, list[int] | None, int]:
        """How the search ended, the counts of the best solution if there is one, the nodes used."""
        from highspy import SolutionStatus

        self.solver.setOptionValue("mip_max_nodes", most_nodes)
        if self.starts:
            self._begin_at(self.starts[0])
        self.solver.run()
        info = self.solver.getInfo()
        nodes = max(int(info.mip_node_count), 0)
        if info.primal_solution_status != SolutionStatus.kSolutionStatusFeasible:
            return self.solver.getModelStatus(), None, nodes
        values = list(self.solver.getSolution().col_value)
        counts = [round(values[column]) for column in self.pieces]
        return self.solver.getModelStatus(), counts, nodes

    def _begin_at(self, start: Sequence[int]) -> None:
        """Give the solver a solution; the columns after the start's follow from it."""
        import numpy as np

        self.solver.setSolution(
            len(start), np.arange(len(start), dtype=np.int32), np.array(start, dtype=np.float64)
        )

    def ask_for_another(self, counts: Sequence[int], cost_mg: float) -> None:
        """A row that leaves these counts out, and one that leaves out what is cheaper."""
        infinity = self.solver.inf
        content, pieces = self.problem.content(counts), len(self.pieces)
        self.starts = [s for s in self.starts if self.problem.content(s[:pieces]) != content]
        differs = []
        for places in self.problem.places():
            here = sum(counts[place] for place in places)
            most = sum(self.problem.most[place] for place in places)
            pieces_of_kind = [(self.pieces[place], 1.0) for place in places]
            if here < most:  # more of the kind: at least here + 1 where the switch is on
                switch = self._column(0.0, 1.0)
                self._row(0.0, infinity, [*pieces_of_kind, (switch, -(here + 1.0))])
                differs.append((switch, 1.0))
            if here > 0:  # fewer of it
                switch = self._column(0.0, 1.0)
                self._row(-infinity, most, [*pieces_of_kind, (switch, most - here + 1.0)])
                differs.append((switch, 1.0))
        self._row(1.0, infinity, differs)
        self._row(cost_mg - self.to_mg, infinity, self.cost)
