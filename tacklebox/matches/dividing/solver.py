"""Least cost in whole numbers, proven by a solver (HiGHS)."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from tacklebox.errors import CannotBeDoneError
from tacklebox.trade.solving import new_solver

MOST_SECONDS = 60.0


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


class Solver:
    """The solver, for one model after the other; every answer is proven to the last whole number."""

    def __init__(self, most_seconds: float = MOST_SECONDS) -> None:
        self._highs = new_solver(0.999)  # every question has a whole answer
        self._most_seconds = most_seconds

    def take(self, model: Model) -> None:
        """Put a model in the place of the last one."""
        import highspy
        import numpy as np

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

    def least(self, costs: Mapping[int, float]) -> list[int]:
        """The columns' values at the least Σ cost × column.

        Raises CannotBeDoneError when that is not proven in the time given.
        """
        values, proven = self.least_within(costs, self._most_seconds)
        if not proven:
            raise CannotBeDoneError(
                f"no best plan was proven within {self._most_seconds:g} s.",
                right="Plan for fewer rigs.",
            )
        return values

    def least_within(self, costs: Mapping[int, float], seconds: float) -> tuple[list[int], bool]:
        """The best values found in that time, none at all perhaps, and whether they are proven."""
        import highspy
        import numpy as np

        highs = self._highs
        columns = np.array(list(costs), dtype=np.int32)
        highs.changeColsCost(len(costs), columns, np.array(list(costs.values()), dtype=float))
        highs.setOptionValue("time_limit", highs.getRunTime() + seconds)  # it counts all its runs
        highs.run()
        proven = highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
        status = highs.getInfo().primal_solution_status
        found = status == highspy.SolutionStatus.kSolutionStatusFeasible
        values = np.rint(highs.getSolution().col_value).astype(int).tolist() if found else []
        highs.changeColsCost(len(costs), columns, np.zeros(len(costs)))
        return values, proven
