"""What was tied, debriefed and measured: against the snapshot, the items and the actions it hangs on."""

import json
import sqlite3
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from tacklebox.stock.care.auditing.history import NEVER
from tacklebox.stock.checks import is_as_written
from tacklebox.stock.codes import next_code
from tacklebox.trade.knots import BY_NAME

Fault = tuple[str, str]
_FAILED = ("fails", "will not do")  # the second in boxes of schema 1 and 2
_COME_BACK = "('float', 'feeder', 'winder')"
_BECAME = "('back', 'lost', 'worn out')"
MADE = (
    f"""SELECT 'rig ' || t.code, 'its ' || u.part || ' comes back: ' || u.comes_back || ', it is a '
         || i.kind FROM tieduse u JOIN tied t ON t.id = u.tied_id JOIN item i ON i.id = u.item_id
       WHERE u.comes_back > (i.kind IN {_COME_BACK})
         OR (u.amount > 0 AND u.comes_back < (i.kind IN {_COME_BACK}))""",
    """SELECT 'rig ' || t.code, 'it used ' || u.amount || ' as ' || u.part FROM tieduse u
       JOIN tied t ON t.id = u.tied_id WHERE u.amount < 0""",
    """SELECT 'batch ' || b.code, 'it used ' || u.amount || ' as ' || u.part FROM batchuse u
       JOIN batch b ON b.id = u.batch_id WHERE u.amount < 0""",
    f"""SELECT 'debrief ' || d.match, 'a rig became "' || r.became || '"' FROM debriefrig r
       JOIN debrief d ON d.id = r.debrief_id WHERE r.became NOT IN {_BECAME}""",
    f"""SELECT 'debrief ' || d.match, 'it is of ' || d."on" || ', its action of ' || a."on"
       FROM debrief d JOIN action a ON a.id = d.action_id
       WHERE d."on" <> a."on" AND a."on" <> '{NEVER}'""",
    """SELECT 'debrief ' || d.match, 'it corrects one of another match' FROM debrief d
       JOIN debrief c ON c.id = d.corrects WHERE c.match <> d.match OR c.id >= d.id""",
    """SELECT 'debrief ' || id, 'its match is "' || match || '", it weighed ' || coalesce(weight_g, 0)
         || ' g' FROM debrief WHERE match = '' OR weight_g < 0 OR weight_g > 1000000""",
    """SELECT 'debrief ' || d.match, 'a rig came ' || r.became || ', and then it became ' || s.became
       FROM debriefrig r JOIN debrief d ON d.id = r.debrief_id
       JOIN statechange s ON s.tied_id = r.tied_id AND s.action_id = d.action_id
       WHERE s.became <> CASE r.became WHEN 'back' THEN 'ready' ELSE r.became END
         AND NOT (r.became = 'back' AND s.became = 'changed')""",
    """SELECT 'debrief ' || d.match, 'a rig was ' || r.became || ', and never became it'
       FROM debriefrig r JOIN debrief d ON d.id = r.debrief_id WHERE r.became <> 'back'
         AND NOT EXISTS (SELECT 1 FROM statechange s WHERE s.tied_id = r.tied_id AND s.became = r.became)""",
    """SELECT 'debrief ' || d.match, 'it names a rig twice' FROM debriefrig r
       JOIN debrief d ON d.id = r.debrief_id GROUP BY r.debrief_id, r.tied_id HAVING count(*) > 1""",
    """SELECT 'reel ' || id, 'its name is "' || name || '"' FROM reel WHERE trim(name) = ''""",
    """SELECT 'reel ' || name, 'it is a "' || what || '"' FROM reel WHERE what NOT IN ('reel', 'top kit')""",
    """SELECT 'identity', 'its marks are ' || box || ' and ' || stamp FROM identity
       WHERE id <> 1 OR box GLOB '*[^0-9a-f]*' OR stamp GLOB '*[^0-9a-f]*' OR length(box) <> 32
         OR length(stamp) <> 32""",
    """SELECT 'sheet of ' || paper, 'its next place is ' || next_free FROM sheetinuse
       WHERE next_free < 1 OR paper = ''""",
)
# What a reading of each sort has, and of which kinds of item it is.
_READINGS = {
    "pull": ({"breaks_at_kg"}, ("line",)),
    "weighing": ({"mass_g"}, ("weight", "hook", "float")),
    "bucket": ({"mass_g"}, ("float",)),
    "stretch": ({"mass_g"}, ("elastic",)),
    "sinking": ({"distance_mm", "seconds", "water_c"}, (None,)),
    "taken back": ({"takes_back"}, None),
}
_FIGURES = ("breaks_at_kg", "mass_g", "takes_back", "distance_mm", "seconds", "water_c")
_MOST = {  # what was ever taken as a reading: who ticks "as read" may be far from what is printed
    "breaks_at_kg": (0, 1000),
    "mass_g": (0, 100_000),
    "distance_mm": (50, 10_000),
    "seconds": (0.1, 1000),
    "water_c": (-2, 40),
}
_MOST_TOGETHER = 500


def judge_made(box: sqlite3.Connection) -> Iterator[Fault]:
    """Rigs and batches against what is kept of their tying."""
    rows = box.execute(
        """SELECT 'rig', code, code_number, recipe, kind, tied_on, forced_because, 1, snapshot FROM tied
           UNION ALL SELECT 'batch', code, code_number, recipe, 'hooklength', tied_on, forced_because,
             tied, snapshot FROM batch"""
    )
    for what, code, number, recipe, kind, tied_on, because, count, snapshot in rows:
        where = f"{what} {code}"
        if next_code(number - 1) != (number, code):
            yield where, f"its code is of another number than {number}"
        try:
            kept = json.loads(snapshot)
            if kept.get("unreadable"):  # it stands in for one that was damaged
                continue
            said = {key: kept[key] for key in ("recipe", "kind", "tied_on", "outcome")}
            of_so_many = kept.get("count", 1)
        except (AttributeError, KeyError, TypeError, ValueError):
            continue  # it is told as what cannot be read
        if not is_as_written(kept):
            yield where, "what was tied is not as it was written"
        if (kind, recipe) != (said["kind"], said["recipe"]):
            yield where, f'it is a {kind} "{recipe}", tied was a {said["kind"]} "{said["recipe"]}"'
        if said["tied_on"] and said["tied_on"] != tied_on:
            yield where, f"it is of {tied_on}, tied was it on {said['tied_on']}"
        if because and said["outcome"] not in _FAILED:
            yield where, f'it was forced because "{because!s:.40}", and was {said["outcome"]}'
        if what == "batch" and "count" in kept and of_so_many != count:
            yield where, f"{count} were tied, {of_so_many} are kept of its tying"


@dataclass(frozen=True)
class _Measured:
    """A reading with its item's kind, and the day of its action."""

    id: int
    what: str
    kind: str | None
    knot: str
    count: int
    bait: str
    on: str
    done_on: str | None
    item: int | None
    figures: Mapping[str, float]


def judge_readings(box: sqlite3.Connection) -> Iterator[Fault]:
    """Each reading has the figures of its sort, of an item that can be measured so."""
    of_what: dict[int, tuple[int | None, str]] = {}
    any_done = False  # those of boxes before schema 3 have no action, and come first
    for reading in _measured(box):
        where = f"reading {reading.id}"
        if reading.figures.keys() != _READINGS.get(reading.what, ({"?"}, ()))[0]:
            yield where, f'a "{reading.what!s:.20}" with {", ".join(reading.figures) or "nothing"}'
            continue
        yield from ((where, what) for what in _of_a_reading(reading))
        if reading.done_on is None and any_done:
            yield where, "no action took it"
        any_done = any_done or reading.done_on is not None
        of_what[reading.id] = (reading.item, reading.bait)
        back = reading.figures.get("takes_back")
        if back and of_what.get(int(back)) != (reading.item, reading.bait):
            yield where, f"it takes back reading {back:g}, which cannot be"


def _measured(box: sqlite3.Connection) -> Iterator[_Measured]:
    query = f"""SELECT m.id, m.what, i.kind, m.knot, m.count, m.bait, m."on", a."on", m.item_id,
          {", ".join(f"m.{column}" for column in _FIGURES)}
        FROM measurement m LEFT JOIN item i ON i.id = m.item_id
          LEFT JOIN action a ON a.id = m.action_id
        ORDER BY m.id"""
    for row in box.execute(query):
        number, what, kind, knot, count, bait, on, done_on, item, *cells = row
        held = zip(_FIGURES, cells, strict=True)
        figures = {name: value for name, value in held if value is not None}
        yield _Measured(number, what, kind, knot, count, bait, on, done_on, item, figures)


def _of_a_reading(reading: _Measured) -> Iterator[str]:
    what, figures = reading.what, reading.figures
    kinds = _READINGS[what][1]
    if kinds and reading.kind not in kinds:
        yield f"a {what} of a {reading.kind or 'thing that is no item'}"
    for name, value in figures.items():
        low, high = _MOST.get(name, (1, reading.id - 1))
        if not low <= value <= high:
            yield f"{name} is {value:g}"
    if (reading.count != 1 and what != "weighing") or not 1 <= reading.count <= _MOST_TOGETHER:
        yield f"{reading.count} together"
    if reading.knot and (reading.knot not in BY_NAME or what != "pull"):
        yield f'its knot is "{reading.knot!s:.30}"'
    if (what == "sinking" and not reading.bait) or (reading.bait and reading.item is not None):
        yield f'its bait is "{reading.bait!s:.30}"'
    if reading.done_on not in (None, NEVER, reading.on):
        yield f"it is of {reading.on}, its action of {reading.done_on}"
