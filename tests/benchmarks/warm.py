"""The same answers as by commands, from a desk that stays open.

``python -m tests.benchmarks.run`` prints it after the commands. Seconds of the processor, the best
of several, after a first call that imports and opens what is needed.
"""

import io
import json
from collections.abc import Callable, Sequence
from datetime import date, timedelta
from pathlib import Path

from tacklebox.desk import checking, low, plans, stock
from tacklebox.desk.answers import as_json
from tacklebox.desk.labels import OnPaper, print_rigs
from tacklebox.desk.opening import Desk
from tacklebox.matches.files.venue import write_starting_venue
from tests.benchmarks.big_box import long_list
from tests.benchmarks.timing import each

ROUNDS = 7
MATCH, WANTS = "long-list", 40


def time_answers(many: Path, box: Path, codes: Sequence[str]) -> None:
    """Print how long each answer takes: of a box of many items, of one with rigs to label."""
    big, small = Desk(many), Desk(box)
    _want_much(many)
    print(f"{'from a desk that stays open':42} {'first':>10} {'then':>10}")
    _time(f"list of {len(stock.listed(big).items):,} items", lambda: stock.listed(big))
    _time("… as JSON", lambda: as_json(stock.listed(big)))
    _time("low, no rigs asked for", lambda: low.runs_low(big, {}, {}))
    _time("check, pole-canal-shot", lambda: checking.check(small, "pole-canal-shot", {}))
    _time("… fitted from many items", lambda: checking.check(big, "pole-canal-shot", {}))
    _time(f"plan of {WANTS} × 10", lambda: plans.plan(big, MATCH))
    wanted = {"pole-canal-shot": "2", "hooklength-fine": "12"}
    _time("low, two recipes", lambda: low.runs_low(small, wanted, {}))
    _time(
        f"sheet of {len(codes)} labels",
        lambda: print_rigs(small, io.BytesIO(), OnPaper(), codes),
    )
    big.close()
    small.close()


def _want_much(box: Path) -> None:
    """A match in the box that is still to come, with a long list of rigs."""
    write_starting_venue(box / "venues", "pond")
    soon = date.today() + timedelta(days=10)
    head = f'name = "Open"\ndate = "{soon}"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"\n'
    wants = []
    for wanted, _ in long_list(WANTS):
        chosen = ", ".join(f"{key} = {json.dumps(said)}" for key, said in wanted.choose.items())
        wants.append(
            f'[[want]]\nrecipe = "{wanted.recipe}"\ncount = {wanted.count}\nchoose = {{ {chosen} }}\n'
        )
    (box / "matches").mkdir(exist_ok=True)
    (box / "matches" / f"{MATCH}.toml").write_text(head + "".join(wants), encoding="utf-8")


def _time(name: str, answer: Callable[[], object]) -> None:
    first = each(answer, 1)
    print(f"{name:42} {first * 1000:7.1f} ms {each(answer, ROUNDS) * 1000:7.1f} ms", flush=True)
