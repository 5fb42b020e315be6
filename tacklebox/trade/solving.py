"""The solver of whole numbers (HiGHS), set up the same way for every question."""

from typing import Any


def new_solver(nearer_than: float) -> Any:
    """A silent solver on one thread: the same question always has the same answer.

    An answer counts as the best where no other costs less by ``nearer_than`` or more.

    >>> new_solver(0.5).getNumCol()
    0
    """
    from highspy import Highs

    class Silent(Highs):
        """The solver greets when its callbacks are set, so it is silenced just before."""

        def enableCallbacks(self) -> None:  # noqa: N802
            self.silent()
            super().enableCallbacks()  # type: ignore[no-untyped-call]

    solver = Silent()  # type: ignore[no-untyped-call]
    for option, value in (
        ("threads", 1),
        ("random_seed", 0),
        ("mip_rel_gap", 0.0),
        ("mip_abs_gap", nearer_than),
        # Jumping about for a first answer takes longer than such small questions take without it.
        ("mip_heuristic_run_feasibility_jump", False),
    ):
        solver.setOptionValue(option, value)
    return solver
