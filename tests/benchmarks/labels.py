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

from tests.benchmarks.timing import compare, in_turn, once

HERE = Path(__file__).parent
PAPER = "strips-180"
ROUNDS, AT_MOST = 5, 0.6


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
    sizes = []
    for command in commands:
        once(command)
        sizes.append(target.stat().st_size)
    return [
        Measured(
            labels,
            statistics.median(ran.seconds for ran in runs),
            max(ran.megabytes for ran in runs),
            size,
        )
        for runs, size in zip(in_turn(rounds, *commands), sizes, strict=True)
    ]


def make(folder: Path, labels: int, name: str) -> tuple[Path, Path]:
    """Rigs to print, and the same labels as bare marks."""
    rigs, marks = folder / f"{name}-rigs.json", folder / f"{name}-marks.json"
    once([sys.executable, "-m", "tests.benchmarks.labels_content", PAPER, str(labels),
          str(rigs), str(marks)])  # fmt: skip
    return rigs, marks


def both(rigs: Path, marks: Path, target: Path) -> tuple[list[str], list[str]]:
    """The commands that print them: ours, and the bare script."""
    ours = [sys.executable, "-m", "tests.benchmarks.labels_ours", PAPER, str(rigs), str(target)]
    return ours, [sys.executable, str(HERE / "labels_bare.py"), str(marks), str(target)]


def compare_many(folder: Path, labels: int = 1000) -> None:
    """A line of the table of all benchmarks."""
    ours, bare = both(*make(folder, labels, "many"), folder / "many.pdf")
    compare(f"{labels:,} labels / bare script", ours, bare, AT_MOST, rounds=ROUNDS)


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--labels", type=int, default=1000)
    parser.add_argument("--slow", type=int, default=100)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        target = folder / "labels.pdf"
        commands = both(*make(folder, asked.labels, "all"), target)
        _, few = make(folder, asked.slow, "few")
        print(f"{'':30} {'labels':>6} {'time':>10} {'a label':>10} {'memory':>9} {'a label':>9}")
        one, other = measure(asked.labels, target, *commands, rounds=ROUNDS)
        ratio = one.seconds / other.seconds
        print(
            one.row("tacklebox", f"{ratio:.2f} × the bare script (at most {AT_MOST})"), flush=True
        )
        print(other.row("bare ReportLab and qrcode"), flush=True)
        others: tuple[tuple[str, bool, Callable[[Path, Path], list[str]]], ...] = (
            ("fpdf2", find_spec("fpdf") is not None, _other("fpdf2")),
            ("WeasyPrint", find_spec("weasyprint") is not None, _other("weasyprint")),
            ("LibreOffice", shutil.which("soffice") is not None, _other("libreoffice")),
        )
        for what, is_present, command in others:
            if not is_present:
                print(f"{what:30} not installed")
                continue
            try:
                (measured,) = measure(asked.slow, target, command(few, target))
            except (SystemExit, FileNotFoundError):  # an office program without a writer
                print(f"{what:30} makes no PDF of labels here")
                continue
            share = measured.seconds / measured.labels / (one.seconds / one.labels)
            print(measured.row(what, f"{share:.1f} × ours for each label"), flush=True)
    print("memory at most 200 MB, PDF at most 8 kB for each label")


def _other(tool: str) -> Callable[[Path, Path], list[str]]:
    return lambda marks, target: [
        sys.executable, str(HERE / "labels_others.py"), tool, str(marks), str(target),
    ]  # fmt: skip


if __name__ == "__main__":
    main()
