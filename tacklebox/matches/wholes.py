"""Least cost in whole numbers, proven by a solver (HiGHS)."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from tacklebox.errors import CannotBeDoneError

MOST_SECONDS = 60.0


@dataclass
class Model:
    """Columns that take whole numbers, and rows that hold between them."""

    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    rows: list[tuple[float, float, list[int], list[float]]] = field(default_factory=list)

    def column(self, high: float) -> int:
        """A new column, from 0 up."""
        self.low.append(0.0)
        self.high.append(high)
        return len(self.low) - 1

    def row(self, low: float, high: float, factors: Sequence[tuple[int, float]]) -> int:
        """low ≤ Σ factor × column ≤ high; hands back the row's number."""
        self.rows.append((low, high, [c for c, _ in factors], [f for _, f in factors]))
        return len(self.rows) - 1


class Solver:
    """The solver, for one model after the other; every answer is proven to the last whole number."""

    def __init__(self, most_seconds: float = MOST_SECONDS) -> None:
        import highspy

        self._highs = _quiet(highspy.Highs)
        self._most_seconds = most_seconds
        for option, value in (
            ("output_flag", False),
            ("threads", 1),
            ("mip_rel_gap", 0.0),
            ("mip_abs_gap", 0.999),  # every question has a whole answer
        ):
            self._highs.setOptionValue(option, value)

    def take(self, model: Model) -> None:
        """Put a model in the place of the last one."""
        import highspy
        import numpy as np

        count = len(model.low)
        lp = highspy.HighsLp()
        lp.num_col_, lp.num_row_ = count, len(model.rows)
        lp.col_cost_ = np.zeros(count)
        lp.col_lower_, lp.col_upper_ = np.array(model.low), np.array(model.high)
        lp.row_lower_ = np.array([r[0] for r in model.rows])
        lp.row_upper_ = np.array([r[1] for r in model.rows])
        lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        lp.a_matrix_.start_ = np.cumsum([0, *(len(r[2]) for r in model.rows)])
        lp.a_matrix_.index_ = np.array([c for r in model.rows for c in r[2]])
        lp.a_matrix_.value_ = np.array([f for r in model.rows for f in r[3]], dtype=float)
        lp.integrality_ = [highspy.HighsVarType.kInteger] * count
        self._highs.passModel(lp)

    def bound_row(self, row: int, high: float) -> None:
        """From here on the row lies between 0 and that."""
        self._highs.changeRowBounds(row, 0.0, high)

    def fix(self, column: int, value: int) -> None:
        """From here on the column has that value."""
        self._highs.changeColBounds(column, float(value), float(value))

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

        highs = self._highs
        for column, cost in costs.items():
            highs.changeColCost(column, cost)
        highs.setOptionValue("time_limit", highs.getRunTime() + seconds)  # it counts all its runs
        highs.run()
        proven = highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
        status = highs.getInfo().primal_solution_status
        found = status == highspy.SolutionStatus.kSolutionStatusFeasible
        values = [round(v) for v in highs.getSolution().col_value] if found else []
        for column in costs:
            highs.changeColCost(column, 0.0)
        return values, proven


def _quiet(highs: Any) -> Any:
    """The solver greets when its callbacks are set, so it is silenced just before."""

    class Quiet(highs):  # type: ignore[misc]
        def enableCallbacks(self) -> None:  # noqa: N802
            self.silent()
            super().enableCallbacks()

    return Quiet()
