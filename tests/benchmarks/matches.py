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
RECIPES = Path(__file__).parents[2] / "recipes"


def timed_plan(box: Box) -> tuple[float, float, float, int, Plan]:
    """Seconds of a plan, of its division, of the bare solver within that; the solver's runs.

    All by the processor's clock, so that what else the machine does falls out. The division is
    without the checks of its rigs, which tell what is cut out. The bare solver's time is that of its
    own three calls, on the same models with the same cuts: a model in, the run, the answer out.
    """
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
        for name in ("passModel", "run", "getSolution"):
            call = timed(name, getattr(highspy.Highs, name))
            patches.enter_context(mock.patch.object(highspy.Highs, name, call))

        def divided(stacks: Any, asked: Any, judge: Any, **more: Any) -> Any:
            checks = timed("checks", lambda w, rig: list(judge(w, rig)))
            return timed("divide", divide)(stacks, asked, checks, **more)

        patches.enter_context(mock.patch("tacklebox.matches.before.plan.divide", divided))
        plan = timed("plan", make_plan)(box, wants)
    solver = sum(sum(times[name]) for name in ("passModel", "run", "getSolution"))
    divided_s = sum(times["divide"]) - sum(times["checks"])
    return sum(times["plan"]), divided_s, solver, len(times["run"]), plan


def time_plans(folder: Path) -> None:
    """Print the best of ROUNDS: the whole plan, the division, the bare solver on the same models."""
    print(f"{'plan of 40 × 10':20}{'plan':>9}{'division':>10}{'solver':>9}{'runs':>6}", end="")
    print(f"{'division / solver':>19}{'plan / solver':>15}")
    for name, scarce in (("packets begun", False), ("little in each", True)):
        (folder / name).mkdir()
        box = make_big_box(folder / name / "box", ITEMS, scarce=scarce)
        best = min((timed_plan(box) for _ in range(ROUNDS)), key=lambda answer: answer[0])
        took, division, solver, runs, plan = best
        print(
            f"{name:20}{took * 1000:6.0f} ms{division * 1000:7.0f} ms{solver * 1000:6.0f} ms"
            f"{runs:6}{division / solver:19.2f}{took / solver:15.2f}   tied "
            f"{sum(line.tie for line in plan.wants)} of {WANTS * RIGS}, all proven: "
            f"{plan.proven}",
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
