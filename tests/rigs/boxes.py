"""A small box for tests of fitting and tying. All invented."""

from datetime import date
from pathlib import Path

from tacklebox.boxfolder import DATABASE_NAME
from tacklebox.rigs.recipes.file import Shelf, parse_recipe
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.stock.care import schema
from tacklebox.stock.care.box import Box, open_box
from tacklebox.stock.entering import NewItem, add_item
from tacklebox.stock.ledger import begin
from tacklebox.stock.notation import read_notation
from tacklebox.stock.tables import Item
from tests.copied_boxes import Original, is_empty

DAY = date(2026, 3, 5)
SHELF = Shelf()
CANAL = (
    "nylon 0.08 mm 0.7 kg 50 m",
    "nylon 0.12 mm 1.6 kg 50 m",
    "hook 20 barbless spade pack 10",
    "pole 4×12",
    "pole 4×12 tip 1.2 mm",
    "shot No 8 tin pack 20",
    "shot No 10 tin pack 20",
    "winder 13 cm 18 mm",
    "elastic 4 6 m",
    "connector pack 4",
)
_ORIGINALS: dict[tuple[int, tuple[str, ...]], Original] = {}

SHORT_RIG = """name = "Short rig"
makes = "rig"
method = "float"
for = "whatever holds of any rig"
[choose.length]
usual = "15 cm"
from = "10 cm"
to = "50 cm"
[[part]]
name = "line"
is = "line"
material = "nylon"
diameter = "0.08 to 0.09 mm"
length = "length"
top = "palomar"
bottom = "spade knot"
[[part]]
name = "hook"
is = "hook"
size = "20"
end = "spade"
"""


def make_box(folder: Path, *words: str) -> Box:
    """A box with one packet of each item, in that order; made once for the same words, then copied."""
    same = (schema.SCHEMA_VERSION, words or CANAL)
    if is_empty(folder) and same in _ORIGINALS:
        folder.mkdir(parents=True, exist_ok=True)
        _ORIGINALS[same].copy(folder / DATABASE_NAME)
        return open_box(folder)
    was_empty, box = is_empty(folder), open_box(folder)
    for said in words or CANAL:
        add(box, said)
    if was_empty:
        _ORIGINALS[same] = Original(box)
    return box


def add(box: Box, words: str, **more: object) -> Item:
    """Add one item; one packet unless said otherwise."""
    with box.writing() as session:
        new = NewItem(read_notation(words), **more)  # type: ignore[arg-type]
        return add_item(session, begin(session, "add", DAY), new)


def canal_rig(**wishes: str) -> Resolved:
    """The shipped canal pole rig with its fine hooklength."""
    return resolve(SHELF.load("pole-canal-shot"), wishes, fine_hooklength())


def fine_hooklength(**wishes: str) -> Resolved:
    """The shipped fine hooklength."""
    return resolve(SHELF.load("hooklength-fine"), wishes)


def short_rig(**wishes: str) -> Resolved:
    """A rig of hook and line alone, for what holds of any rig; it takes what a fine hooklength takes."""
    return resolve(parse_recipe(SHORT_RIG, "short-rig"), wishes)


def keep_short_rig(folder: Path) -> None:
    """Put its recipe into the box in that folder."""
    (folder / "recipes").mkdir(parents=True, exist_ok=True)
    (folder / "recipes" / "short-rig.toml").write_text(SHORT_RIG, encoding="utf-8")


def on_hand(box: Box) -> dict[str, int]:
    """What is on hand of each item, by name."""
    from tacklebox.stock.finding import load

    with box.reading() as session:
        return {item.name: item.on_hand for item in load(session)}
