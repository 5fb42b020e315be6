"""Desks with an invented box, for the tests of what is asked of them."""

import shutil
from datetime import date
from pathlib import Path

from tacklebox.desk import Desk
from tests.rigs.boxes import add, make_box

TODAY = date(2026, 3, 5)
MATCH_DAY = "2026-06-20"  # a Saturday
CANAL = (
    "nylon 0.08 mm 0.7 kg 50 m",
    "nylon 0.12 mm 1.6 kg 50 m",
    "pole 4×12",
    "shot No 8 tin pack 20",
    "shot No 10 tin pack 20",
    "winder 13 cm 18 mm",
)


def make_desk(folder: Path, *words: str) -> Desk:
    """A desk with a box of one packet of each item, in that order; today is TODAY."""
    make_box(folder, *words).engine.dispose()
    return desk_at(folder)


def desk_at(folder: Path) -> Desk:
    """A desk with the box in the folder; today is TODAY."""
    return Desk(folder, today=lambda: TODAY)


def make_match_box(folder: Path, hooks: str = "10") -> None:
    """The starting files of the pond and of the match "open" on it, which wants three canal rigs
    and ten hooklengths; stock ties one rig, and as many hooklengths as there are hooks."""
    from tacklebox.matches.files.match import write_starting_match
    from tacklebox.matches.files.venue import write_starting_venue

    box = make_box(folder, *CANAL)
    add(box, "hook 20 barbless spade pack 10", pack_price_cents=180, amount=hooks)
    box.engine.dispose()
    write_starting_venue(folder / "venues", "pond")
    write_starting_match(folder / "matches", "open", "pond", date.fromisoformat(MATCH_DAY))


def copied(made: Path, to: Path) -> Desk:
    """A desk with a copy of a box."""
    return desk_at(Path(shutil.copytree(made, to / "box")))


def change(file: Path, *pairs: tuple[str, str]) -> None:
    """Edit a file by hand: put the second of each pair for the first, which must be there."""
    text = file.read_text(encoding="utf-8")
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    file.write_text(text, encoding="utf-8")
