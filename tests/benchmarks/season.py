"""How long the season takes: 200 matches, eight rigs and a hundred taps each, against as much JSON.

``python -m tests.benchmarks.season`` prints milliseconds, the first time and the median of nine,
and the ratio to ``json.loads`` of the snapshots that it is made from.
"""

import json
import statistics
import tempfile
import time
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

from sqlmodel import select

from tacklebox.desk import Desk, season
from tacklebox.stock.ledger import begin
from tacklebox.stock.made import Debrief, DebriefRig, Tied
from tests.desk.water_box import DAY, make_water_box

MATCHES, TAPS, RIGS = 200, 100, 8


def make(folder: Path) -> Desk:
    """The box of the tests at the water with so many debriefs more."""
    desk = Desk(make_water_box(folder / "box"), today=lambda: DAY)
    with desk.box.writing() as session:
        tied = session.exec(select(Tied)).all()
        for number in range(MATCHES):
            on = DAY - timedelta(days=7 * number + 7)
            action = begin(session, f"debrief {number}", on)
            debrief = Debrief(
                action_id=action.id or 0, match=f"match-{number}", venue=f"venue-{number % 7}", on=on,
                peg=str(number % 30), weight_g=1000.0 + number, place=number % 20 + 1,
                points=float(number % 20), water_c=4.0 + number % 16, record=record(number, on),
            )  # fmt: skip
            session.add(debrief)
            session.flush()
            for n in range(RIGS):
                session.add(
                    DebriefRig(
                        debrief_id=debrief.id or 0,
                        tied_id=tied[n % len(tied)].id or 0,
                        became="back",
                    )
                )
    return desk


def record(number: int, on: date) -> str:
    """A record of so many taps, a change among them every so often."""
    lines = [
        "TACKLEBOX RECORD 1",
        f"record | box/match-{number}/{on}",
        f"match | match-{number}",
        "rigs | A01T",
    ]
    for n in range(1, TAPS + 1):
        at = f"{on} {10 + n // 25:02}:{2 * (n % 25):02}:00"
        did = (
            "change | rig A01T | says bulk lower"
            if n % 30 == 0
            else f"fish | species roach | weighs {20 + 5 * (n % 20)}.0 g | rig A01T"
        )
        did += f" | open k3f9 {n * 110} s"
        lines.append(f"{n} | {at} | {did}")
    return "\n".join([*lines, f"end | {TAPS}", ""])


def median_ms(do: Callable[[], object], times: int = 9) -> float:
    """The median of so many, in ms."""
    taken = []
    for _ in range(times):
        begun = time.perf_counter()
        do()
        taken.append(time.perf_counter() - begun)
    return 1000 * statistics.median(taken)


def main() -> None:
    """Print what each takes."""
    with tempfile.TemporaryDirectory() as folder:
        desk = make(Path(folder))
        with desk.box.reading() as session:
            snapshot = session.exec(select(Tied.snapshot)).first() or "{}"
        plain = median_ms(lambda: [json.loads(snapshot) for _ in range(MATCHES * RIGS)])
        print(f"the first time: {median_ms(lambda: season.season(desk), 1):.0f} ms")
        for by in ("venue", "rig", "peg"):
            taken = median_ms(lambda by=by: season.season(desk, by=by))  # type: ignore[misc]
            print(
                f"season by {by}: {taken:.0f} ms, {taken / plain:.2f} x json.loads ({plain:.0f} ms)"
            )
        taken = median_ms(lambda: season.plots(season.season(desk)))
        print(f"with its plots: {taken:.0f} ms")


if __name__ == "__main__":
    main()
