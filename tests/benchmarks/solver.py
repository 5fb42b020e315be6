"""The shot pattern's time against the bare solver on the same models, and over random problems.

Ours begins at a pattern that was found by hand, the bare solver at nothing.

Run with ``python -m tests.benchmarks.solver``. No pass or fail: it prints a table.
"""

import contextlib
import tempfile
import time
from pathlib import Path
from random import Random
from unittest import mock

import highspy

from tacklebox.errors import CannotBeDoneError
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


RANDOM = 300
POLES = (Shape(0, 0, lock_least=0), Shape(0, 0, lock_least=0, bulk_least=4, droppers=3))
WAGGLERS = (Shape(), Shape(0.6, 0.85, droppers=3), Shape(0.7, 0.9, bulk_least=3))


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


def random_box(random: Random) -> tuple[Supply, ...]:
    """Forty sizes, each weighed up to a tenth off its nominal mass; some few, some of tungsten."""
    known = random.choices(every_size(), k=40)
    return tuple(
        Supply(
            f"{one.mark} {n}",
            round(one.mass_g * random.uniform(0.9, 1.1), 5),
            random.choice(["tin", "tin", "tin", "tungsten"]),
            random.choice([None, 10, 30, 60]),
        )
        for n, one in enumerate(known)
    )


def random_problems() -> None:
    """Seconds for the best pattern alone from forty sizes, over random boxes, floats and shapes."""
    took = []
    for seed in range(RANDOM + 1):
        random = Random(seed)
        box = random_box(random)
        capacity = random.uniform(0.2, 1.0) if random.random() < 0.4 else random.uniform(1.0, 8.0)
        shape = random.choice(POLES if capacity < 1 else WAGGLERS)
        tip = random.choice([Tip(1.2, 40.0), Tip(3.0, 60.0)])
        begun = time.perf_counter()
        with contextlib.suppress(CannotBeDoneError):
            best_patterns(capacity, box, shape, tip=tip, wished_tip_mm=1.0, how_many=1)
        took.append(time.perf_counter() - begun)
    took = sorted(took[1:])  # the first loads the solver
    print(
        f"the best of {RANDOM} random problems of 40 sizes: median {took[RANDOM // 2]:.3f} s, "
        f"95th of 100 {took[95 * RANDOM // 100]:.3f} s, longest {took[-1]:.3f} s"
    )


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
    random_problems()


if __name__ == "__main__":
    main()
