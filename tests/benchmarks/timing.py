"""Times of whole processes beside a reference, and of calls."""

import os
import statistics
import subprocess
import time
from collections.abc import Callable, Sequence
from typing import NamedTuple

ROUNDS = 9


class Ran(NamedTuple):
    """One run of a command: seconds by the wall's clock, of the processor, peak megabytes."""

    seconds: float
    processor: float
    megabytes: float


def environment() -> dict[str, str]:
    """That of a program as it is installed: read from its compiled files."""
    return {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}


def once(command: Sequence[str]) -> Ran:
    """Run a command. Raises SystemExit where it fails."""
    begun = time.perf_counter()
    process = subprocess.Popen(command, stdout=-3, stderr=-3, env=environment())
    _, status, usage = os.wait4(process.pid, 0)
    took = time.perf_counter() - begun
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"{command[0]} … ended with {process.returncode}")
    return Ran(took, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024)


def in_turn(rounds: int, *commands: Sequence[str]) -> list[list[Ran]]:
    """Run the commands in turn, so that what else the machine does falls on all of them."""
    runs: list[list[Ran]] = [[] for _ in commands]
    for _ in range(rounds):
        for command, ran in zip(commands, runs, strict=True):
            ran.append(once(command))
    return runs


def compare(
    name: str,
    command: Sequence[str],
    reference: Sequence[str],
    most: float,
    rounds: int = ROUNDS,
) -> None:
    """Print medians of both by the wall's clock, their ratio, and the ratio by the processor's."""
    once(command), once(reference)
    ours, theirs = in_turn(rounds, command, reference)
    wall, processor = (
        [statistics.median(getattr(ran, clock) for ran in runs) for runs in (ours, theirs)]
        for clock in ("seconds", "processor")
    )
    print(
        f"{name:34} {wall[0] * 1000:7.0f} ms {wall[1] * 1000:7.0f} ms {wall[0] / wall[1]:6.2f} "
        f"{processor[0] / processor[1]:9.2f}   at most {most:4} "
        f"{max(ran.megabytes for ran in ours):5.0f} MB",
        flush=True,
    )


HEAD = f"{'':34} {'ours':>10} {'reference':>10} {'ratio':>6} {'processor':>9}"


def each(call: Callable[[], object], rounds: int) -> float:
    """Seconds of the processor for one call, the best of so many: what else the machine does falls out."""
    took = []
    for _ in range(rounds):
        begun = time.process_time()
        call()
        took.append(time.process_time() - begun)
    return min(took)
