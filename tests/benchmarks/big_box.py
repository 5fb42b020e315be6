"""A big box and a long list of wants for the benchmarks of plans. All invented, the same each time."""

import csv
import itertools
import random
from collections.abc import Callable
from datetime import date
from pathlib import Path

from tacklebox.desk.asking import resolved_recipe
from tacklebox.matches.files.match import WantedRig
from tacklebox.rigs.recipes.file import Shelf
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.csv_file import COLUMNS, import_items
from tacklebox.trade.quantities import read_length_mm

DAY = date(2026, 3, 5)
RIGS = 10  # of each want
WANTED = (  # what the box has tackle for, however many recipes are shipped
    *("bomb-running", "feeder-in-line", "feeder-running-paternoster"),
    *("hooklength-feeder", "hooklength-fine", "hooklength-method"),
    *("hooklength-middle", "hooklength-strong"),
    *("pole-canal-shot", "pole-deep-olivette", "pole-margin-strong"),
    *("stick-float", "waggler-insert-bulk", "waggler-spread"),
)


def make_big_box(folder: Path, items: int, *, scarce: bool = False) -> Box:
    """A box of so many items of every kind, most packets begun; ``scarce``: little in each."""
    dice = random.Random(1)
    makers: list[tuple[int, Callable[[random.Random], tuple[str, str, int]]]] = [
        (24, _line), (24, _hooks), (18, _float), (10, _shot), (9, _feeder), (11, _part), (4, _winder),
    ]  # fmt: skip
    every = [maker for share, maker in makers for _ in range(share)]
    file = folder.parent / "big-box.csv"
    with file.open("w", encoding="utf-8", newline="") as out:
        writer = csv.DictWriter(out, COLUMNS)
        writer.writeheader()
        for number in range(items):
            words, unit, pack = every[number % len(every)](dice)
            has = dice.randint(1, pack) + dice.randint(0, 2) * pack
            if scarce:
                has = 1 + dice.randint(0, 2) * pack // 16
            writer.writerow(
                {
                    "item": words,
                    "name": f"{words.split(' ')[0]} {number}",
                    "pack": f"{pack}{unit}",
                    "price": f"{dice.randint(60, 600) / 100:.2f}",
                    "minimum": f"{pack // 2}{unit}" if pack > 1 and dice.random() < 0.25 else "",
                    "amount": f"{has}{unit}",
                }
            )
    box = open_box(folder)
    import_items(box, file, DAY, as_printed=True)
    return box


def _line(dice: random.Random) -> tuple[str, str, int]:
    diameter = dice.randint(7, 24) / 100
    strain = 62 * diameter**2 + dice.randint(0, 10) / 50  # about 610 to 800 MPa
    return f"nylon {diameter:.2f} mm {strain:.2f} kg", " m", dice.choice([50, 100])


def _hooks(dice: random.Random) -> tuple[str, str, int]:
    size, end = dice.choice([24, 22, 20, 18, 16, 14, 12, 10]), dice.choice(["spade", "eyed"])
    return f"hook {size} {dice.choice(['barbless', 'barbed'])} {end}", "", 10


def _float(dice: random.Random) -> tuple[str, str, int]:
    pole = [f"pole {m}" for m in ("4×10", "4×12", "4×14", "4×16", "0.75 g", "1 g", "1.5 g")]
    waggler = [f"waggler {m} {k}" for m in ("4BB", "5BB", "6BB") for k in ("insert", "straight")]
    stick = [f"stick {m}" for m in ("4 No 4", "6 No 4", "8 No 4")]
    return dice.choice(pole + waggler + stick), "", 1


def _shot(dice: random.Random) -> tuple[str, str, int]:
    if dice.random() < 0.2:
        return f"olivette {dice.choice(['0.5', '0.6', '0.8', '1.2'])} g tungsten", "", 5
    mark = dice.choice(
        ["No 1", "BB", "AAA", "No 4", "No 6", "No 8", "No 9", "No 10", "No 11", "No 12"]
    )
    return f"shot {mark} tin", "", dice.choice([20, 40])


def _feeder(dice: random.Random) -> tuple[str, str, int]:
    shape = dice.choice(["cage feeder", "open-end feeder", "method feeder", "bomb"])
    return f"{shape} {dice.choice([10, 20, 25, 30, 35, 40])} g", "", 1


def _part(dice: random.Random) -> tuple[str, str, int]:
    sort = dice.choice(["swivel size 14 12 kg", "link swivel", "bead 4 mm", "float adaptor"])
    return sort, "", dice.choice([5, 10])


def _winder(dice: random.Random) -> tuple[str, str, int]:
    return f"winder {dice.choice([13, 15, 18, 26])} cm {dice.choice([18, 20])} mm", "", 10


def long_list(wants: int) -> list[tuple[WantedRig, Resolved]]:
    """So many wants of those recipes, no two the same, RIGS of each."""
    shelf, found = Shelf(), []
    for name, step in itertools.islice(itertools.product(WANTED, range(3)), 100):
        chosen = {}
        for key, choice in shelf.load(name).choose.items():
            if choice.any_of:
                chosen[key] = choice.any_of[step % len(choice.any_of)]
            elif choice.low and choice.high:
                low, high = read_length_mm(choice.low), read_length_mm(choice.high)
                chosen[key] = f"{low + (high - low) * step / 3:.0f} mm"
        found.append(
            (
                WantedRig(recipe=name, count=RIGS, choose=chosen),
                resolved_recipe(shelf, name, dict(chosen)),
            )
        )
    return found[:wants]
