"""One field that finds anything: items, rigs and batches by a code that may be badly typed, recipes,
venues, matches."""

from dataclasses import dataclass

from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError

MOST = 20  # of each sort


@dataclass(frozen=True)
class FoundThing:
    """One thing that was found: its ``sort``, what finds it there (``key``), and what it is in words."""

    sort: str  # "item", "rig", "batch", "recipe", "venue", "match"
    key: str
    words: str


@dataclass(frozen=True)
class Findings:
    """What was found, of each sort the first ones; ``more`` is how many others there are."""

    things: tuple[FoundThing, ...]
    more: int


def find(desk: Desk, words: str) -> Findings:
    """What the words name anywhere in the box; nothing for no words."""
    wanted = words.lower().replace("×", "x").split()
    if not wanted:
        return Findings((), 0)
    sorts = [_made(desk, words), _items(desk, words), _files(desk, wanted)]
    things = tuple(one for sort in sorts for one in sort[:MOST])
    return Findings(things, sum(map(len, sorts)) - len(things))


def _made(desk: Desk, typed: str) -> list[FoundThing]:
    """The rig or batch of the code, else those whose codes are nearest to what was typed."""
    from tacklebox.rigs.tying.snapshot import Snapshot
    from tacklebox.rigs.tying.tied import batches_with, find_labelled, tied_with
    from tacklebox.stock.codes import near_codes
    from tacklebox.stock.made import Batch, Tied

    if len(typed.split()) > 2 or len(typed) > 12:
        return []
    try:
        made, snapshot = find_labelled(desk.box, typed)
        return [_made_thing(made.code, isinstance(made, Batch), snapshot.name)]
    except AskedWronglyError:
        pass
    every: list[Tied | Batch] = [*tied_with(desk.box), *batches_with(desk.box)]
    known = {one.code: one for one in every}
    return [
        _made_thing(
            code, isinstance(known[code], Batch), Snapshot.from_json(known[code].snapshot).name
        )
        for code in near_codes(typed, list(known))
    ]


def _made_thing(code: str, is_batch: bool, name: str) -> FoundThing:
    return FoundThing("batch" if is_batch else "rig", code, f"{code} · {name}")


def _items(desk: Desk, words: str) -> list[FoundThing]:
    from tacklebox.desk.stock import listed

    return [
        FoundThing("item", str(row.number), f"{row.name}: {row.on_hand}")
        for row in listed(desk, words).items
    ]


def _files(desk: Desk, wanted: list[str]) -> list[FoundThing]:
    """Recipes, venues and matches in whose name or purpose every word occurs."""
    from tacklebox.desk import matches, recipes, venues

    named = [
        *(("recipe", r.recipe, r.name, r.purpose) for r in recipes.listed(desk).recipes),
        *(("venue", v.venue, v.name, v.water) for v in venues.listed(desk).venues),
        *(("match", m.match, m.name, m.venue) for m in matches.listed(desk).matches),
    ]
    return [
        FoundThing(sort, key, name)
        for sort, key, name, more in named
        if all(word in f"{key} {name} {more}".lower().replace("×", "x") for word in wanted)
    ]
