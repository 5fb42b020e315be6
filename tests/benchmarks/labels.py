"""A thousand rig labels with drawing and QR: time, memory, size, and what else would make them.

``python -m tests.benchmarks.labels`` prints a table; no pass or fail. ``--labels`` and ``--slow`` give
other numbers of labels, the latter for the tools that lay out pages themselves.
"""

import argparse
import shutil
import statistics
import sys
import tempfile
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

from tests.benchmarks.run import once

HERE = Path(__file__).parent
PAPER = "strips-180"
ROUNDS = 5


@dataclass(frozen=True)
class Measured:
    """One way to make labels: seconds and peak megabytes of its whole process, bytes of its PDF."""

    labels: int
    seconds: float
    megabytes: float
    size: int

    def row(self, name: str, ratio: str = "") -> str:
        """A line of the table."""
        return (
            f"{name:30} {self.labels:6} {self.seconds:8.2f} s "
            f"{self.seconds / self.labels * 1000:7.1f} ms {self.megabytes:6.0f} MB "
            f"{self.size / self.labels / 1000:6.2f} kB  {ratio}"
        )


def measure(labels: int, target: Path, *commands: Sequence[str], rounds: int = 1) -> list[Measured]:
    """Run the commands in turn, so that what else the machine does falls on all of them."""
    took: list[list[tuple[float, float]]] = [[] for _ in commands]
    sizes = [0 for _ in commands]
    for _ in range(rounds):
        for index, command in enumerate(commands):
            took[index].append(once(command))
            sizes[index] = target.stat().st_size
            target.unlink()
    return [
        Measured(labels, statistics.median(t for t, _ in runs), max(m for _, m in runs), size)
        for runs, size in zip(took, sizes, strict=True)
    ]


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--labels", type=int, default=1000)
    parser.add_argument("--slow", type=int, default=100)
    asked = parser.parse_args()
    python = sys.executable
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        rigs, marks, few = (folder / f"{what}.json" for what in ("rigs", "marks", "few"))
        make = [python, "-m", "tests.benchmarks.labels_content", PAPER]
        once([*make, str(asked.labels), str(rigs), str(marks)])
        once([*make, str(asked.slow), str(folder / "few_rigs.json"), str(few)])
        target = folder / "labels.pdf"
        print(f"{'':30} {'labels':>6} {'time':>10} {'a label':>10} {'memory':>9} {'a label':>9}")
        ours = [python, "-m", "tests.benchmarks.labels_ours", PAPER, str(rigs), str(target)]
        bare = [python, str(HERE / "labels_bare.py"), str(marks), str(target)]
        one, other = measure(asked.labels, target, ours, bare, rounds=ROUNDS)
        ratio = one.seconds / other.seconds
        print(one.row("tacklebox", f"{ratio:.2f} × the bare script (at most 0.6)"), flush=True)
        print(other.row("bare ReportLab and qrcode"), flush=True)
        others: tuple[tuple[str, bool, Callable[[Path, Path], list[str]]], ...] = (
            ("fpdf2", find_spec("fpdf") is not None, _other("fpdf2")),
            ("WeasyPrint", find_spec("weasyprint") is not None, _other("weasyprint")),
            ("LibreOffice", shutil.which("soffice") is not None, _other("libreoffice")),
        )
        for what, there, command in others:
            if not there:
                print(f"{what:30} not installed")
                continue
            try:
                (measured,) = measure(asked.slow, target, command(few, target))
            except (SystemExit, FileNotFoundError) as failed:  # an office program without a writer
                print(f"{what:30} makes no PDF of it here: {failed}")
                continue
            each = measured.seconds / measured.labels / (one.seconds / one.labels)
            print(measured.row(what, f"{each:.1f} × ours for each label"), flush=True)
    print("memory at most 200 MB, PDF at most 8 kB for each label")


def _other(tool: str) -> Callable[[Path, Path], list[str]]:
    return lambda marks, target: [
        sys.executable, str(HERE / "labels_others.py"), tool, str(marks), str(target),
    ]  # fmt: skip


if __name__ == "__main__":
    main()
