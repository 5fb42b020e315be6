"""A box for the tests of matches as processes: a pond, a match on it, tackle for one canal rig."""

from datetime import date, timedelta
from pathlib import Path

from tacklebox.matches.files.match import write_starting_match
from tacklebox.matches.files.venue import write_starting_venue
from tacklebox.stock.care.box import open_box
from tests.rigs.boxes import add, keep_short_rig

SOON = str(date.today() + timedelta(days=10))
CANAL = (
    "nylon 0.08 mm 0.7 kg 50 m",
    "nylon 0.12 mm 1.6 kg 50 m",
    "pole 4×12",
    "shot No 8 tin pack 20",
    "shot No 10 tin pack 20",
    "winder 13 cm 18 mm",
)


def make_match_box(folder: Path, hooks: str = "10") -> Path:
    """The starting files of a venue and a match; of its rigs one of three can be tied."""
    box = open_box(folder)
    keep_short_rig(folder)
    add(box, "hook 20 barbless spade pack 10", pack_price_cents=180, amount=hooks)
    for words in CANAL:
        add(box, words)
    write_starting_venue(folder / "venues", "pond")
    write_starting_match(folder / "matches", "open", "pond", date.fromisoformat(SOON))
    return folder


def spring_match(day: str, short: int) -> str:
    """The file of a match that has been: one canal rig and so many short ones."""
    head = f'name = "Spring open"\ndate = "{day}"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"\n'
    wants = (("pole-canal-shot", 1), ("short-rig", short))
    return head + "".join(f'[[want]]\nrecipe = "{stem}"\ncount = {n}\n' for stem, n in wants)


def change(file: Path, *pairs: tuple[str, str]) -> None:
    """Edit a file by hand: put the second of each pair for the first, which must be there."""
    text = file.read_text(encoding="utf-8")
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    file.write_text(text, encoding="utf-8")
