"""A box with two canal rigs and four hooklengths tied for a match on Sunday 29 November 2026."""

import shutil
from datetime import date, timedelta
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from tacklebox.desk import Desk, match_forms, stock, tie_plan, venue_forms
from tacklebox.desk.match_forms import WantRow
from tests.rigs.boxes import make_box

DAY = date(2026, 11, 29)


def make_water_box(folder: Path, on: date = DAY) -> Path:
    """The box, its venue "canal", its match "club", all that is wanted tied three days before."""
    return Path(shutil.copytree(Path(_made(on).name) / "box", folder))


@cache
def _made(on: date) -> "TemporaryDirectory[str]":
    """The box as it is made once in a run, and copied from then on."""
    made = TemporaryDirectory(prefix="tacklebox-water-", ignore_cleanup_errors=True)
    _make(Path(made.name) / "box", on)
    return made


def _make(folder: Path, on: date) -> None:
    make_box(folder).engine.dispose()
    desk = Desk(folder, today=lambda: on - timedelta(days=3))
    venue = venue_forms.write(
        desk,
        {
            "name": "Canal",
            "water": "canal",
            "overhead_lines": "yes",
            "keepnet.fish_per_net": "20 lb",
        },
    )
    wants = [WantRow("pole-canal-shot", "2"), WantRow("hooklength-fine", "4")]
    day = {
        "name": "Club", "date": on.isoformat(), "from": "10:00", "to": "15:00",
        "venue": venue, "feed.loose": "10",
    }  # fmt: skip
    match_forms.write(desk, day, wants)
    for item in stock.listed(desk).items:
        stock.buy(desk, item.name, packs=2)
    tie_plan.tie(desk, "club")
    desk.close()
