"""How long a choice that is moved takes to new verdicts and drawing, over every recipe that is shipped.

Each choice of each recipe is moved to each of its words: what it may be, the steps of its slider, each
hooklength. Every answer is asked for once, so that none is kept yet. Part of ``tests.benchmarks.pages``.
"""

import statistics
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlencode

import httpx

from tacklebox.desk import Desk, recipes
from tests.benchmarks.served import Took, asked

SHOWN = 5


def moves(box: Path) -> Iterator[str]:
    """The address of each answer."""
    desk = Desk(box)
    for one in recipes.listed(desk).recipes:
        shown = recipes.show(desk, one.recipe)
        ways = {c.name: (*c.any_of, *c.steps) or (c.usual,) for c in shown.choices}
        for name, words in (ways | {"hooklength": tuple(shown.hooklengths)}).items():
            for said in words:
                yield f"/recipes/{one.recipe}/answer?{urlencode({f'choose-{name}': said})}"
    desk.close()


def time_choices(client: httpx.Client, pid: int, box: Path) -> None:
    """Print the median, the 99th and the slowest of all, by the wall and by the server's processor."""
    every: list[tuple[Took, str]] = []
    recipe = ""
    for path in moves(box):
        if path.split("/")[2] != recipe:  # its first answer reads the recipe
            recipe = path.split("/")[2]
            asked(client, pid, f"/recipes/{recipe}/answer")
        every.append((asked(client, pid, path), path))
    for clock in ("wall", "processor"):
        took = sorted((getattr(one, clock), path) for one, path in every)
        of = [ms for ms, _ in took]
        print(
            f"{len(of)} moves by the {clock}: median {statistics.median(of):.0f} ms, "
            f"99th {of[int(len(of) * 0.99) - 1]:.0f} ms (at most 120 ms); the slowest:"
        )
        for ms, path in took[-SHOWN:]:
            print(f"  {ms:4.0f} ms {path}")
