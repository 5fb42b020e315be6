"""Least cost in whole numbers, proven by a solver (HiGHS)."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from tacklebox.trade.solving import new_solver

MOST_NODES = 20_000


@dataclass
class Model:
    """Columns that take whole numbers, and rows that hold between them."""

    high: list[float] = field(default_factory=list)  # of each column
    rows: list[tuple[float, float]] = field(default_factory=list)  # their ends
    starts: list[int] = field(default_factory=lambda: [0])  # of each row's factors
    factors: list[tuple[int, float]] = field(default_factory=list)

    def column(self, high: float) -> int:
        """A new column, from 0 up."""
        self.high.append(high)
        return len(self.high) - 1

    def row(self, low: float, high: float, factors: Sequence[tuple[int, float]]) -> int:
        """low ≤ Σ factor × column ≤ high; hands back the row's number."""
        self.rows.append((low, high))
        self.factors += factors
        self.starts.append(len(self.factors))
        return len(self.rows) - 1


@dataclass(frozen=True)
class SolverAnswer:
    """The columns' values, where any were found; whether they are ``proven`` the best, or it is
    ``impossible`` that there are any."""

    values: tuple[int, ...]
    proven: bool
    impossible: bool = False


class Solver:
    """The solver, for one model after the other.

    What it looks through is counted: after so many nodes, in all its answers together, what is
    found by then is handed back as not proven.
    """

    def __init__(self, most_nodes: int = MOST_NODES) -> None:
        self.nodes_left = most_nodes
        self._made: Any = None
        self._costs: Mapping[int, float] = {}

    @property
    def _highs(self) -> Any:
        """Made when it is first asked, for it takes long to load."""
        if self._made is None:
            self._made = new_solver(0.999)  # every question has a whole answer
        return self._made

    def take(self, model: Model) -> None:
        """Put a model in the place of the last one."""
        import highspy
        import numpy as np

        self._costs = {}
        columns, factors = zip(*model.factors, strict=True) if model.factors else ((), ())
        zeros = np.zeros(len(model.high))
        lows, highs = np.array(model.rows, dtype=float).reshape(-1, 2).T
        self._highs.passModel(
            len(model.high), len(model.rows), len(factors),
            highspy.MatrixFormat.kRowwise.value, highspy.ObjSense.kMinimize.value, 0.0,
            zeros, zeros, np.array(model.high, dtype=float), lows, highs,
            np.array(model.starts, dtype=np.int32), np.array(columns, dtype=np.int32),
            np.array(factors, dtype=float),
            np.full(len(model.high), highspy.HighsVarType.kInteger.value, dtype=np.int32),
        )  # fmt: skip

    def bound_row(self, row: int, high: float) -> None:
        """From here on the row lies between 0 and that."""
        self._highs.changeRowBounds(row, 0.0, high)

    def least(self, costs: Mapping[int, float]) -> SolverAnswer:
        """The columns' values at the least Σ cost × column, or the best found in the nodes left."""
        import highspy
        import numpy as np

        highs, changed = self._highs, dict.fromkeys(self._costs, 0.0) | dict(costs)
        columns = np.fromiter(changed, dtype=np.int32)
        highs.changeColsCost(len(changed), columns, np.fromiter(changed.values(), dtype=float))
        self._costs = costs
        highs.setOptionValue("mip_max_nodes", max(self.nodes_left, 0))
        highs.run()
        info, status = highs.getInfo(), highs.getModelStatus()
        self.nodes_left -= max(info.mip_node_count, 0)
        found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
        values = map(round, highs.getSolution().col_value) if found else ()
        return SolverAnswer(
            tuple(values),
            status == highspy.HighsModelStatus.kOptimal,
            status == highspy.HighsModelStatus.kInfeasible,
        )
