"""The same answers as by commands, from a desk that stays open.

``python -m tests.benchmarks.run`` prints it after the commands. Seconds of the processor, the best
of several, after a first call that imports and opens what is needed.
"""

import io
from collections.abc import Callable, Sequence
from pathlib import Path

from tacklebox.desk import low, stock
from tacklebox.desk.answers import as_json
from tacklebox.desk.labels import OnPaper, print_rigs
from tacklebox.desk.opening import Desk
from tests.benchmarks.timing import each

ROUNDS = 7


def time_answers(many: Path, box: Path, codes: Sequence[str]) -> None:
    """Print how long each answer takes: of a box of many items, of one with rigs to label."""
    big, small = Desk(many), Desk(box)
    print(f"{'from a desk that stays open':42} {'first':>10} {'then':>10}")
    _time(f"list of {len(stock.listed(big).items):,} items", lambda: stock.listed(big))
    _time("… as JSON", lambda: as_json(stock.listed(big)))
    _time("low, no rigs asked for", lambda: low.runs_low(big, {}, {}))
    wanted = {"pole-canal-shot": "2", "hooklength-fine": "12"}
    _time("low, two recipes", lambda: low.runs_low(small, wanted, {}))
    _time(
        f"sheet of {len(codes)} labels",
        lambda: print_rigs(small, io.BytesIO(), OnPaper(), codes),
    )
    big.close()
    small.close()


def _time(name: str, answer: Callable[[], object]) -> None:
    first = each(answer, 1)
    print(f"{name:42} {first * 1000:7.1f} ms {each(answer, ROUNDS) * 1000:7.1f} ms", flush=True)
