"""A glance at a box before it is first written to: what can be known of damage without reading all of it.

It reads the schema, the first page of each table and the box's own mark; of a box of up to ``SMALL`` bytes,
as an angler's is for years, every page's shape (``PRAGMA quick_check``). A figure that became another is
found by the audit alone, which reads everything.
"""

import sqlite3
from collections.abc import Iterator

from tacklebox.stock.care.triggers import RULES

SMALL = 1_000_000
_OURS = {rule.split()[2]: " ".join(rule.split()) for rule in RULES}
_AMOUNTS = """SELECT name FROM item WHERE typeof(on_hand) <> 'integer' OR typeof(pack_size) <> 'integer'
    OR pack_size < 1 OR on_hand < 0 OR typeof(name) <> 'text' LIMIT 1"""


def seen_at_a_glance(box: sqlite3.Connection) -> str:
    """What is damaged in an open box, in a sentence's words; "" where nothing is seen.

    Raises sqlite3.DatabaseError where SQLite itself sees it.
    """
    try:
        return next(_damage(box), "")
    except UnicodeDecodeError:  # of what SQLite says of a schema whose text is none
        return "the text of its tables is none"


def _damage(box: sqlite3.Connection) -> Iterator[str]:
    pages, size = (box.execute(f"PRAGMA {of}").fetchone()[0] for of in ("page_count", "page_size"))
    if pages * size <= SMALL:
        said = box.execute("PRAGMA quick_check(1)").fetchone()[0]
        if said != "ok":
            yield said
    made = box.execute("SELECT type, name, sql FROM sqlite_master").fetchall()
    rules = {name: " ".join(str(sql).split()) for kind, name, sql in made if kind == "trigger"}
    yield from (f"the rule {name} is not ours" for name in rules.keys() - _OURS.keys())
    yield from (f"the rule {name} is missing" for name in _OURS.keys() - rules.keys())
    yield from (f"the rule {name} was changed" for name in rules if rules[name] != _OURS[name])
    yield from (f"the view {name} is not ours" for kind, name, _ in made if kind == "view")
    for name in (name for kind, name, _ in made if kind == "table"):
        box.execute(f'SELECT 1 FROM "{name}" LIMIT 1').fetchone()
    marks = box.execute("SELECT typeof(box), typeof(stamp), typeof(changes) FROM identity")
    if marks.fetchall() != [("text", "text", "integer")]:
        yield "the box has no mark of its own"
    wrong = box.execute(_AMOUNTS).fetchone()
    if wrong:
        yield f"the figures of {wrong[0]!r:.60} are none"
