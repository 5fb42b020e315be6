"""Benchmarks: whole processes against a reference run beside them, calls against the bare solver.

Run with ``python -m tests.benchmarks.run``. No pass or fail: it prints tables.
"""

import gc
import json
import subprocess
import sys
import tempfile
from multiprocessing import Process
from pathlib import Path

from tests.benchmarks import labels
from tests.benchmarks.timing import HEAD, compare, each, once

BARE_LABELS = Path(__file__).with_name("bare_labels.py")
MANY_ITEMS, SHEET = 2000, 65


def make_box(folder: Path, items: int) -> Path:
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
    return folder / "box"


def make_rigs(folder: Path) -> Path:
    """A demo box with 65 rigs that have no label yet."""
    run = [sys.executable, "-m", "tacklebox"]
    subprocess.run([*run, "demo", "--into", str(folder / "demo")], check=True, stdout=-3)
    box = folder / "demo" / "box"
    run += ["--box", str(box)]
    for item in ("pole 4×12", "winder 13 cm", "waggler 5BB insert", "winder 18 cm", "hook 20",
                 "adaptor", "shot No 10", "shot No 8", "shot AAA"):  # fmt: skip
        subprocess.run([*run, "stock", "give", item, "199"], check=True, stdout=-3)
    subprocess.run([*run, "stock", "give", "nylon 0.10 mm", "60 m"], check=True, stdout=-3)
    for recipe, count in (
        ("pole-canal-shot", 50),
        ("waggler-insert-bulk", 15),
    ):
        subprocess.run([*run, "tie", recipe, "-n", str(count)], check=True, stdout=-3)
    return box


def unlabelled(box: Path) -> list[str]:
    """The codes of rigs that have no label yet."""
    answer = [sys.executable, "-m", "tacklebox", "--box", str(box), "rigs", "list", "--json"]
    listed = json.loads(subprocess.run(answer, check=True, capture_output=True).stdout)
    return [rig["code"] for rig in listed if rig["labelled_on"] is None]


def marks_of(pdf: Path, box: Path, codes: list[str], target: Path) -> None:
    """The words of a sheet, line by line, and its QR texts, for the bare script to draw again."""
    import pdfplumber

    from tacklebox.printing.labels.qr import qr_words
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.rigs.tying.tied import tied_with
    from tacklebox.stock.care.box import open_box

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


def time_commands(folder: Path) -> tuple[Path, list[str]]:
    """Print the times of commands; hands back a box, and the codes of the rigs of its labels."""
    python = sys.executable
    print(HEAD)
    run = [python, "-m", "tacklebox"]
    compare(
        "tacklebox --help / import typer", [*run, "--help"], [python, "-c", "import typer"], 1.1
    )
    many = make_box(folder, MANY_ITEMS)
    compare(
        f"list of {MANY_ITEMS:,} / import sqlmodel",
        [*run, "--box", str(many), "stock", "list"],
        [python, "-c", "import sqlmodel"],
        1.15,
    )
    box = make_rigs(folder)
    codes = unlabelled(box)
    assert len(codes) == SHEET
    sheet = [*run, "--box", str(box), "labels", *codes, "--paper", "a4-65"]
    sheet += ["--replace", "--to", str(folder / "l.pdf")]
    once(sheet)
    marks = Process(target=marks_of, args=(folder / "l.pdf", box, codes, folder / "marks.json"))
    marks.start()
    marks.join()
    bare = [python, str(BARE_LABELS), str(folder / "marks.json"), str(folder / "bare.pdf")]
    compare(f"sheet of {SHEET} labels / bare script", sheet, bare, 1.3)
    labels.compare_many(folder)
    return box, codes


def time_checks(box: Path) -> None:
    """How long a full check of each shipped rig takes once it is fitted."""
    from tacklebox.desk.asking import resolved_recipe
    from tacklebox.rigs.checking.check import check
    from tacklebox.rigs.recipes.file import Shelf
    from tacklebox.rigs.tying.tie import fit_and_check
    from tacklebox.stock.care.box import open_box
    from tacklebox.trade import strength

    def afresh() -> None:
        strength._integrated.cache_clear()
        check(fitted)

    shelf, opened = Shelf(), open_box(box)
    worst, name = 0.0, ""
    for recipe in shelf.names():
        fitted = fit_and_check(opened, resolved_recipe(shelf, recipe, {})).fit
        worst, name = max((worst, name), (each(afresh, 200), recipe))
    print(f"slowest full check, fitted: {worst * 1000:.2f} ms ({name}; at most 5)")


def main() -> None:
    """Print the tables."""
    gc.set_threshold(200_000, 20, 20)  # as a command sets it
    with tempfile.TemporaryDirectory() as name:
        box, codes = time_commands(Path(name))
        # Imported late: the peak memory of a child starts at what its parent has.
        from tests.benchmarks import matches, warm

        time_checks(box)
        matches.time_plans(Path(name))
        warm.time_answers(Path(name) / "packets begun" / "box", box, codes)


if __name__ == "__main__":
    main()
