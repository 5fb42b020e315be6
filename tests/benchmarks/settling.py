"""How fast a rig's fall is computed: against scipy's LSODA on link angles, slack, by points, in memory.

Run with ``python -m tests.benchmarks.settling``. No pass or fail: it prints a table. Times are of the
processor, the best of several rounds; LSODA's is of one.
"""

import subprocess
import sys
import time
import tracemalloc
from pathlib import Path
from tempfile import TemporaryDirectory

from tacklebox.desk import Desk, as_json
from tacklebox.desk.playing import played
from tacklebox.desk.settling import FallQuestion
from tacklebox.trade.balance import Tip
from tacklebox.trade.settling.chain import chain_of
from tacklebox.trade.settling.fall import SPREAD, Lie, fall, forget_falls
from tacklebox.trade.settling.outcome import settle
from tacklebox.trade.settling.rig import FallingFloat, FallingRig, LinePiece, Weights
from tacklebox.trade.settling.sizes import bait_named, hook_of_size
from tacklebox.trade.settling.solver import Course, Track, follow, laid
from tacklebox.trade.shot import read_pattern
from tests.trade.settling.angles import ByAngles
from tests.trade.settling.chains import worked_rig

ROUNDS = 5
SECONDS = 20.0

DEEP_AND_COLD = FallingRig(
    line=(LinePiece(3700, 0.25), LinePiece(300, 0.25)),
    hook=hook_of_size("20"),
    bait=bait_named("maggot"),
    shot=tuple(Weights(100.0 * (n + 1) - 50, read_pattern("No 10")) for n in range(40)),
    float_=FallingFloat(4.0, Tip(3.0, 100.0), lock_g=2.3),
    temperature_c=0.0,
)


def timed(rig: FallingRig, links: int, lie: Lie) -> tuple[float, Track]:
    """Seconds of the processor for 20 s of fall, and the fall."""
    chain = chain_of(rig, links)
    best = float("inf")
    for _ in range(ROUNDS):
        begun = time.process_time()
        track = follow(chain, laid(chain, SPREAD[lie]), Course(SECONDS))
        best = min(best, time.process_time() - begun)
    return best, track


def by_lsoda(links: int) -> float:
    """Seconds of the processor that scipy's LSODA takes for the same rig and time."""
    model = ByAngles(worked_rig(), links)
    begun = time.process_time()
    model.hook([SECONDS], "LSODA")
    return time.process_time() - begun


def imports(module: str) -> float:
    """Seconds that a fresh interpreter takes to import it, less those of importing nothing."""

    def took(code: str) -> float:
        begun = time.perf_counter()
        subprocess.run([sys.executable, "-c", code], check=True)
        return time.perf_counter() - begun

    return min(took(f"import {module}") for _ in range(ROUNDS)) - min(
        took("pass") for _ in range(ROUNDS)
    )


def first_answers() -> None:
    """What a page waits for after a choice has moved: the tight line of each shipped rig with a float,
    at its usual depth, fitted, checked, followed and cut into stills."""
    with TemporaryDirectory() as folder:
        desk = Desk(Path(folder) / "box")
        took = {}
        for name in desk.recipes.names():
            recipe = desk.recipes.load(name)
            if recipe.makes != "rig" or recipe.method not in ("float", "pole"):
                continue
            best = float("inf")
            for _ in range(ROUNDS):
                forget_falls()
                begun = time.process_time()
                as_json(played(desk, FallQuestion(name), band=False))
                best = min(best, time.process_time() - begun)
            took[name] = 1000 * best
    slowest = max(took, key=lambda name: took[name])
    print(
        f"first answer of a page, {len(took)} rigs: {min(took.values()):.0f} to "
        f"{took[slowest]:.0f} ms ({slowest})"
    )


def main() -> None:
    """Print the tables."""
    print(f"{SECONDS:g} s of fall, the worked rig")
    print(f"{'points':>8} {'tight':>9} {'slack':>9} {'slack/tight':>12} {'steps':>11}")
    tight_ms = {}
    for links in (10, 20, 40, 80):
        tight, one = timed(worked_rig(), links, Lie.TIGHT)
        slack, other = timed(worked_rig(), links, Lie.SLACK)
        tight_ms[links] = 1000 * tight
        steps = f"{len(one.times)}, {len(other.times)}"
        print(
            f"{links + 1:8} {1000 * tight:6.0f} ms {1000 * slack:6.0f} ms {slack / tight:12.1f} {steps:>11}"
        )
    for links in (20, 40):
        lsoda = by_lsoda(links)
        share = tight_ms[links] / 1000 / lsoda
        print(f"LSODA, {links + 1} points: {1000 * lsoda:.0f} ms, ours {share:.3f} of it")
    begun = time.process_time()
    settle(worked_rig())
    print(f"both edges with all answers: {1000 * (time.process_time() - begun):.0f} ms")
    for lie in Lie:
        tracemalloc.start()
        found = fall(DEEP_AND_COLD, lie)
        most = tracemalloc.get_traced_memory()[1] / 1e6
        tracemalloc.stop()
        print(
            f"4 m, 40 shot, 0.25 mm, 0 °C, {lie}: {found.seconds:.0f} s of fall, "
            f"{len(found.track.times)} steps, {most:.1f} MB, ended by {found.track.ended}"
        )
    first_answers()
    for module in ("tacklebox.trade.settling.outcome", "numpy"):
        print(f"import {module}: {1000 * imports(module):.0f} ms")


if __name__ == "__main__":
    main()
