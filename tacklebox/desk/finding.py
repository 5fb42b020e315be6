"""One field that finds anything: items, rigs and batches by a code that may be badly typed, recipes,
venues, matches, reels and top kits."""

from dataclasses import dataclass
from difflib import get_close_matches
from typing import TYPE_CHECKING

from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.desk.reels import ReelRow

MOST = 20  # of each sort
_NEAR = 0.75  # of a mistyped word's letters
_TALK = frozenset(
    "a all any anything are did do does find for got have i in is it me my of on put show some "
    "somewhere that the them there those to was what where which with".split()
)


@dataclass(frozen=True)
class FoundThing:
    """One thing that was found: its ``sort``, what finds it there (``key``), and what it is in words.

    ``nearest_to``: its code is only the nearest to what was typed, which is none.
    """

    sort: str  # "item", "rig", "batch", "recipe", "venue", "match", "reel", "top kit"
    key: str
    words: str
    nearest_to: str = ""


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
    if not any(sorts):
        sorts = [[], *_nearly(desk, words)]
    elif not sorts[-1]:  # "canal poles" are floats, and a recipe's
        sorts[-1] = _files(desk, [word.removesuffix("s") for word in _without_talk(words)])
    things = tuple(one for sort in sorts for one in sort[:MOST])
    return Findings(things, sum(map(len, sorts)) - len(things))


def _nearly(desk: Desk, words: str) -> tuple[list[FoundThing], list[FoundThing]]:
    """What is found of words with talk around them, in the plural, in letters for figures or mistyped."""
    from tacklebox.desk.stock import listed
    from tacklebox.stock.naming.tokens import as_said

    plain = _without_talk(words)
    single = [word.removesuffix("s") for word in plain]
    names = [row.name.lower() for row in listed(desk).items]
    names += [said for _, said in _every_file(desk)]
    known = sorted({word for name in names for word in name.replace(",", " ").split()})
    mended = [(get_close_matches(word, known, 1, _NEAR) or [word])[0] for word in single]
    for tried in (plain, single, as_said(" ".join(plain)).split(), mended):
        items, files = _items(desk, " ".join(tried)) if tried else [], _files(desk, tried)
        if tried and (items or files):
            return items, files
    return [], []


def _without_talk(words: str) -> list[str]:
    return [word for word in words.lower().replace("?", " ").split() if word not in _TALK]


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
            code,
            isinstance(known[code], Batch),
            Snapshot.from_json(known[code].snapshot).name,
            typed.strip(),
        )
        for code in near_codes(typed, list(known))
    ]


def _made_thing(code: str, is_batch: bool, name: str, nearest_to: str = "") -> FoundThing:
    return FoundThing("batch" if is_batch else "rig", code, f"{code} · {name}", nearest_to)


def _items(desk: Desk, words: str) -> list[FoundThing]:
    from tacklebox.desk.stock import listed

    return [
        FoundThing("item", str(row.number), f"{row.name}: {row.on_hand}")
        for row in listed(desk, words).items
    ]


def _files(desk: Desk, wanted: list[str]) -> list[FoundThing]:
    """Recipes, venues, matches and reels in whose name or purpose every word occurs."""
    every = _every_file(desk) if wanted else []
    return [thing for thing, said in every if all(word in said for word in wanted)]


def _on_reel(row: "ReelRow") -> str:
    return f"{row.reel}: {row.loaded} of {row.item.name}" if row.item else f"{row.reel}: nothing"


def _every_file(desk: Desk) -> list[tuple[FoundThing, str]]:
    """Recipes, venues, matches, reels and top kits, each with all that is said of it."""
    from tacklebox.desk import matches, recipes, reels, venues

    named = [
        *(("recipe", r.recipe, r.name, r.purpose) for r in recipes.listed(desk).recipes),
        *(("venue", v.venue, v.name, v.water) for v in venues.listed(desk).venues),
        *(("match", m.match, m.name, m.venue) for m in matches.listed(desk).matches),
        *((r.what, r.reel, _on_reel(r), r.what) for r in reels.listed(desk)),
    ]
    return [
        (FoundThing(sort, key, name), f"{key} {name} {more}".lower().replace("×", "x"))
        for sort, key, name, more in named
    ]
