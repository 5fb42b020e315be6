"""Plans and ``low`` on a big box: against the bare solver on the same models, against an import.

Run with ``python -m tests.benchmarks.matches``. No pass or fail: it prints a table. A plan is of
40 wants of 10 rigs over 2,000 items, once with packets begun, once with little in each.
"""

import gc
import shutil
import sys
import tempfile
import time
from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from unittest import mock

import highspy

from tacklebox.matches.before.plan import Plan, make_plan
from tacklebox.matches.dividing.division import divide
from tacklebox.stock.care.box import Box
from tests.benchmarks.big_box import RIGS, long_list, make_big_box
from tests.benchmarks.timing import HEAD, compare

ITEMS, WANTS, ROUNDS = 2000, 40, 7
SOLVER_CALLS = ("passModel", "run", "getSolution")
RECIPES = Path(__file__).parents[2] / "recipes"


@dataclass(frozen=True)
class PlanTimes:
    """Seconds of a whole plan and of its parts, and how often the solver ran.

    All by the processor's clock, so that what else the machine does falls out. ``plan`` is from an open
    box to the plan: the box read, stock divided, rigs checked. ``checks`` are those of its rigs, which tell
    what is cut out; ``division`` is all of dividing without them: what is served without the solver, the
    models built anew as cuts are found, the rigs put together from the answers. ``solver`` is the bare
    solver on the models of all that plainly serving leaves, with the same cuts, its own three calls alone:
    a model in, the run, the answer out. It is timed apart, since ours answers some of those models without
    it: ``runs`` and ``bare_runs`` are how often each asks it.
    """

    plan: float
    checks: float
    division: float
    solver: float
    runs: int
    bare_runs: int


def timed_plan(box: Box) -> tuple[PlanTimes, Plan]:
    """A plan, and what its parts took."""
    took, plan = _times_of(box)
    with mock.patch("tacklebox.matches.dividing.division.at_no_cost_at_all", _left_to_the_solver):
        bare, same = _times_of(box)
    assert [w.tie for w in same.wants] == [w.tie for w in plan.wants]
    assert (same.total_cents, same.opened) == (plan.total_cents, plan.opened)
    sums = {name: sum(each) for name, each in took.items()}
    division = sums["divide"] - sums["checks"]
    solver = sum(sum(bare[name]) for name in SOLVER_CALLS)
    runs, bare_runs = len(took["run"]), len(bare["run"])
    return PlanTimes(sums["plan"], sums["checks"], division, solver, runs, bare_runs), plan


def _left_to_the_solver(*_: object) -> None:
    """Nothing is answered without it."""


def _times_of(box: Box) -> tuple[dict[str, list[float]], Plan]:
    wants = long_list(WANTS)
    times: dict[str, list[float]] = {}

    def timed(name: str, call: Callable[..., Any]) -> Callable[..., Any]:
        def run(*case: Any, **more: Any) -> Any:
            begun = time.process_time()
            answer = call(*case, **more)
            times.setdefault(name, []).append(time.process_time() - begun)
            return answer

        return run

    with ExitStack() as patches:
        for name in SOLVER_CALLS:
            call = timed(name, getattr(highspy.Highs, name))
            patches.enter_context(mock.patch.object(highspy.Highs, name, call))

        def divided(stacks: Any, asked: Any, judge: Any, **more: Any) -> Any:
            checks = timed("checks", lambda w, rig: list(judge(w, rig)))
            return timed("divide", divide)(stacks, asked, checks, **more)

        patches.enter_context(mock.patch("tacklebox.matches.before.going_with.divide", divided))
        plan = timed("plan", make_plan)(box, wants)
    return times, plan


def time_plans(folder: Path) -> None:
    """Print the best of ROUNDS: the whole plan, its checks, the division, the bare solver."""
    print(f"{'plan of 40 × 10':18}{'plan':>8}{'checks':>9}{'division':>10}{'solver':>9}", end="")
    print(f"{'runs':>9}{'division / solver':>19}")
    for name, scarce in (("packets begun", False), ("little in each", True)):
        (folder / name).mkdir()
        box = make_big_box(folder / name / "box", ITEMS, scarce=scarce)
        rounds = [timed_plan(box) for _ in range(ROUNDS)]
        took, plan = min(rounds, key=lambda one: one[0].plan)
        solver = min(one.solver for one, _ in rounds)
        print(
            f"{name:18}{took.plan * 1000:5.0f} ms{took.checks * 1000:6.0f} ms"
            f"{took.division * 1000:7.0f} ms{solver * 1000:6.0f} ms{took.runs:5} of {took.bare_runs}"
            f"{took.division / solver:19.2f}   tied {sum(want.tie for want in plan.wants)} of "
            f"{WANTS * RIGS}, all proven: {plan.proven}",
            flush=True,
        )


def names_of_many(box: Path) -> list[str]:
    """So many recipes of the box's own, copied from those shipped, as ``low`` is asked for them."""
    names: list[str] = []
    for copy in range(WANTS):
        for file in sorted(RECIPES.glob("*.toml")):
            if len(names) < WANTS:
                shutil.copy(file, box / "recipes" / f"{file.stem}-{copy}.toml")
                names.append(f"{file.stem}-{copy}={RIGS}")
    return names


def main() -> None:
    """Print the tables."""
    python = sys.executable
    gc.set_threshold(200_000, 20, 20)  # as a command sets it
    with tempfile.TemporaryDirectory() as name:
        time_plans(Path(name))
        box = Path(name) / "packets begun" / "box"
        low = [python, "-m", "tacklebox", "--box", str(box), "low"]
        imported = [python, "-c", "import sqlmodel"]
        print(HEAD)
        compare("low, 2,000 items / import sqlmodel", low, imported, 1.5)
        compare("… 40 recipes × 10", [*low, *names_of_many(box)], imported, 1.5)


if __name__ == "__main__":
    main()
