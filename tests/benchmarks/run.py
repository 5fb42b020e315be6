"""Benchmarks: whole-process ratios against a reference run beside them, and peak memory.

Run with ``python -m tests.benchmarks.run``. No pass or fail: it prints a table.
"""

import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from multiprocessing import Process
from pathlib import Path

from tacklebox.printing.labels.qr import qr_words
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tied import tied_with
from tacklebox.stock.care.box import open_box

ROUNDS = 9
BARE_LABELS = Path(__file__).with_name("bare_labels.py")


def once(command: Sequence[str]) -> tuple[float, float]:
    """Wall seconds and peak megabytes of one run of the command."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    begun = time.perf_counter()
    process = subprocess.Popen(command, stdout=-3, stderr=-3, env=environment)
    _, status, usage = os.wait4(process.pid, 0)
    took = time.perf_counter() - begun
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"{command} ended with {process.returncode}")
    return took, usage.ru_maxrss / 1024


def compare(name: str, command: Sequence[str], reference: Sequence[str], most: float) -> None:
    """Run both in turn, so that what else the machine does falls on both."""
    once(command), once(reference)
    times: list[float] = []
    others: list[float] = []
    peak = 0.0
    for _ in range(ROUNDS):
        took, memory = once(command)
        times.append(took)
        peak = max(peak, memory)
        others.append(once(reference)[0])
    ours, theirs = statistics.median(times), statistics.median(others)
    print(
        f"{name:34} {ours * 1000:7.0f} ms {theirs * 1000:7.0f} ms "
        f"{ours / theirs:6.2f} (at most {most}) {peak:5.0f} MB",
        flush=True,
    )


def make_box(folder: Path, items: int) -> None:
    """A box of so many items, through the CSV import."""
    rows = ["item,name,pack,price,minimum,packs"]
    for n in range(items):
        size = 10 + n % 15
        rows.append(f"hook {size} barbless spade,hook {size} no. {n},10,1.80,5,1")
    (folder / "stock.csv").write_text("\n".join(rows), encoding="utf-8")
    tacklebox = [sys.executable, "-m", "tacklebox", "--box", str(folder / "box")]
    subprocess.run(
        [*tacklebox, "stock", "import", str(folder / "stock.csv")], check=True, stdout=-3
    )


def make_rigs(folder: Path) -> Path:
    """A demo box with 65 rigs and hooklengths that have no label yet."""
    run = [sys.executable, "-m", "tacklebox"]
    subprocess.run([*run, "demo", "--into", str(folder / "demo")], check=True, stdout=-3)
    box = folder / "demo" / "box"
    run += ["--box", str(box)]
    for item in ("pole 4×12", "winder 13 cm", "waggler 5BB insert", "winder 18 cm", "hook 20",
                 "adaptor", "shot No 10", "shot No 8"):  # fmt: skip
        subprocess.run([*run, "stock", "give", item, "99"], check=True, stdout=-3)
    subprocess.run([*run, "stock", "give", "nylon 0.10 mm", "60 m"], check=True, stdout=-3)
    for recipe, count in (
        ("pole-canal-shot", 30),
        ("waggler-insert-bulk", 10),
        ("hooklength-fine", 25),
    ):
        subprocess.run([*run, "tie", recipe, "-n", str(count)], check=True, stdout=-3)
    return box


def marks_of(pdf: Path, box: Path, codes: list[str], target: Path) -> None:
    """The words of a sheet, line by line, and its QR texts, for the bare script to draw again."""
    import pdfplumber

    rigs = [rig for rig in tied_with(open_box(box)) if rig.code in codes]
    symbols = [qr_words(Snapshot.from_json(rig.snapshot)).text for rig in rigs]
    with pdfplumber.open(pdf) as opened:
        page = opened.pages[0]
        lines = page.extract_text_lines(return_chars=True, x_tolerance=2)
    drawn = [
        [line["x0"], float(page.height) - line["bottom"], line["chars"][0]["size"], line["text"]]
        for line in lines
    ]
    target.write_text(json.dumps({"lines": drawn, "symbols": symbols}), encoding="utf-8")


def time_checks(box: Path) -> None:
    """How long a full check of each shipped rig takes once it is fitted."""
    from tacklebox.cli.common import resolved_recipe
    from tacklebox.rigs.checking.check import check
    from tacklebox.rigs.recipes.file import Shelf
    from tacklebox.rigs.tying.tie import fit_and_check
    from tacklebox.stock.care.box import open_box
    from tacklebox.trade import strength

    shelf, opened = Shelf(), open_box(box)
    worst, name = 0.0, ""
    for recipe in shelf.names():
        fitted = fit_and_check(opened, resolved_recipe(shelf, recipe, {})).fit
        begun = time.perf_counter()
        for _ in range(200):
            strength._integrated.cache_clear()
            check(fitted)
        took = (time.perf_counter() - begun) / 200
        worst, name = max((worst, name), (took, recipe))
    print(f"slowest full check, fitted: {worst * 1000:.2f} ms ({name}; at most 5)")


def main() -> None:
    """Print the table."""
    python = sys.executable
    print(f"{'':34} {'ours':>10} {'reference':>10} {'ratio':>6}")
    compare(
        "tacklebox --help / import typer",
        [python, "-m", "tacklebox", "--help"],
        [python, "-c", "import typer"],
        1.1,
    )
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        make_box(folder, 2000)
        compare(
            "list of 2,000 / import sqlmodel",
            [python, "-m", "tacklebox", "--box", str(folder / "box"), "stock", "list"],
            [python, "-c", "import sqlmodel"],
            1.15,
        )
        box = make_rigs(folder)
        tied = [python, "-m", "tacklebox", "--box", str(box), "rigs", "list", "--json"]
        listed = json.loads(subprocess.run(tied, check=True, capture_output=True).stdout)
        codes = [rig["code"] for rig in listed if rig["labelled_on"] is None]
        assert len(codes) == 65
        labels = [python, "-m", "tacklebox", "--box", str(box), "labels", *codes]
        sheet = [*labels, "--replace", "--to", str(folder / "l.pdf")]
        once(sheet)
        # In a process of its own: a child's peak memory starts at what its parent has.
        marks = Process(target=marks_of, args=(folder / "l.pdf", box, codes, folder / "marks.json"))
        marks.start()
        marks.join()
        bare = [python, str(BARE_LABELS), str(folder / "marks.json"), str(folder / "bare.pdf")]
        compare("sheet of 65 labels / bare script", sheet, bare, 1.3)
        time_checks(box)


if __name__ == "__main__":
    main()
