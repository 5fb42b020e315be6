"""The shot pattern's time against the bare solver on the same models.

Run with ``python -m tests.benchmarks.solver``. No pass or fail: it prints a table.
"""

import tempfile
import time
from pathlib import Path
from unittest import mock

import highspy

from tacklebox.trade.balance import Tip
from tacklebox.trade.pattern import best_patterns
from tacklebox.trade.shape import Shape
from tacklebox.trade.supply import Supply, every_size

ROUNDS = 5
# Every size as it might be weighed: off its nominal mass by up to 6 %, the same each time.
SUPPLY = tuple(
    Supply(one.mark, round(one.mass_g * (1 + ((17 * n) % 13 - 6) / 100), 5), count=60)
    for n, one in enumerate(every_size())
)


def shape_for(capacity_g: float) -> Shape:
    """A pole float's below a gram, else a waggler's."""
    return Shape(0, 0, lock_least=0) if capacity_g < 1 else Shape()


def models_of(capacity_g: float, folder: Path) -> list[Path]:
    """The models that one search solves, as files."""
    written: list[Path] = []
    run = highspy.Highs.run

    def run_and_write(solver: highspy.Highs) -> object:
        path = folder / f"{capacity_g}-{len(written)}.mps"
        solver.writeModel(str(path))
        written.append(path)
        return run(solver)

    with mock.patch.object(highspy.Highs, "run", run_and_write):
        best_patterns(capacity_g, SUPPLY, shape_for(capacity_g), tip=Tip(3.0, 40.0), how_many=1)
    return written


def bare(models: list[Path]) -> float:
    """Seconds that the solver alone takes for the models, reading them left out."""
    took = 0.0
    for path in models:
        solver = highspy.Highs()  # type: ignore[no-untyped-call]
        solver.setOptionValue("output_flag", False)
        solver.setOptionValue("threads", 1)
        solver.setOptionValue("mip_rel_gap", 0.0)
        solver.readModel(str(path))
        begun = time.perf_counter()
        solver.run()
        took += time.perf_counter() - begun
    return took


def main() -> None:
    """Print the table: every size of shot, weighed, 60 of each; the best pattern alone."""
    print(f"{'capacity':>10} {'ours':>10} {'bare':>10} {'ratio':>6}")
    with tempfile.TemporaryDirectory() as name:
        for capacity in (0.4, 1.2, 2.0, 4.0, 8.0):
            models = models_of(capacity, Path(name))
            ours, theirs = [], []
            for _ in range(ROUNDS):
                begun = time.perf_counter()
                best_patterns(capacity, SUPPLY, shape_for(capacity), tip=Tip(3.0, 40.0), how_many=1)
                ours.append(time.perf_counter() - begun)
                theirs.append(bare(models))
            best, other = min(ours), min(theirs)
            print(
                f"{capacity:8g} g {best * 1000:7.0f} ms {other * 1000:7.0f} ms {best / other:6.2f}"
            )


if __name__ == "__main__":
    main()
