"""A match as a form: the day, the hours, the venue, and what is wanted in its order."""

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tacklebox.desk.asking import how_many
from tacklebox.desk.matches import latest_wants, matches_of
from tacklebox.desk.opening import Desk
from tacklebox.desk.own_files import (
    FieldFaultsError,
    keys_as_fields,
    new_name,
    refuse_changed,
    refuse_faults,
)
from tacklebox.desk.venues import venues_of
from tacklebox.desk.wants import resolve_wants
from tacklebox.errors import BenchError

if TYPE_CHECKING:
    from tacklebox.matches.files.feed import Feed
    from tacklebox.matches.files.match import WantedRig

WORDS = ("name", "date", "from", "to", "venue")
FED = ("feed.feeder", "feed.cast_every", "feed.loose", "feed.loose_every")
NEW = 'name = "New"\ndate = "2000-01-01"\nfrom = "10:00"\nto = "15:00"\nvenue = "none"\n'


@dataclass(frozen=True)
class WantRow:
    """One want as it is filled in; ``choose`` reads "depth = 1.2 m, float = 4×12".

    ``was`` is its place in the file, counted from 0, "" for a new one: its notes go with it.
    """

    recipe: str = ""
    count: str = "1"
    spares: str = ""
    choose: str = ""
    place: str = ""
    was: str = ""


@dataclass(frozen=True)
class MatchForm:
    """What stands in a match's file: ``values`` by its keys, ``wants`` in order of importance.

    ``recipes`` and ``venues`` are what there is to choose from; ``version`` is the file's mark. A new one
    wants what the latest match does, which is ``wants_as_at``.
    """

    match: str
    values: Mapping[str, str]
    wants: tuple[WantRow, ...]
    recipes: tuple[str, ...]
    venues: tuple[str, ...]
    version: str
    wants_as_at: str = ""


def form(desk: Desk, match: str = "") -> MatchForm:
    """The form of a match, or one to fill in for a new one.

    Raises AskedWronglyError for a match that is not there or whose file cannot be read.
    """
    from tacklebox.editing import version_of

    recipes = tuple(desk.recipes.names())
    venues = tuple(venues_of(desk).files.names())
    if not match:
        first = {"from": "10:00", "to": "15:00", "venue": venues[0] if venues else ""}
        as_at, latest = latest_wants(desk)
        rows = tuple(_row_of(want) for want in latest) or (WantRow(),)
        return MatchForm("", first, rows, recipes, venues, "", as_at)
    matches = matches_of(desk)
    stem, text = matches.files.read(match)
    own = matches.load(stem)
    values = {
        "name": own.name,
        "date": own.date,
        "from": own.begins,
        "to": own.ends,
        "venue": own.venue,
        "also": "\n".join(own.also),
        **{key: _fed(own.feed, key) for key in FED},
    }
    wants = tuple(_row_of(want, str(number)) for number, want in enumerate(own.want))
    return MatchForm(stem, values, wants, recipes, venues, version_of(text))


def _row_of(want: "WantedRig", was: str = "") -> WantRow:
    return WantRow(
        want.recipe,
        str(want.count),
        str(want.spares or ""),
        ", ".join(f"{name} = {value}" for name, value in want.choose.items()),
        want.place or "",
        was,
    )


def write(
    desk: Desk,
    values: Mapping[str, str],
    wants: Sequence[WantRow],
    match: str = "",
    *,
    version: str = "",
) -> str:
    """Write a match's file from its form and return its name; a new one gets its name from what it
    is called. Notes, clips and what else is said of feed stay; a want's notes go with it.

    Raises AskedWronglyError naming the fields that are wrong ("want 2.count" of the second want),
    and for a file that is no longer what the form was filled from (``version``);
    CannotBeDoneError where it cannot be written.
    """
    from tacklebox.editing import with_tables, with_values
    from tacklebox.matches.files.match import parse_match

    files = matches_of(desk).files
    faults: dict[str, str] = {}
    named = values.get("name", "")
    stem, text = files.read(match) if match else (new_name(named, files, faults), NEW)
    refuse_changed(text, version)
    rows = [_row(desk, number, want, faults) for number, want in enumerate(wants, 1)]
    kept: dict[str, Any] = {key: " ".join(values.get(key, "").split()) or None for key in WORDS}
    kept["date"] = _day(desk, kept["date"])
    kept["also"] = [o.strip() for o in values.get("also", "").splitlines() if o.strip()] or None
    kept |= _feed(values, faults)
    before = len(matches_of(desk).load(stem).want) if match else 0
    rows = [(was if was is not None and was < before else None, own) for was, own in rows]
    changed = with_tables(with_values(text, kept), "want", rows)
    try:
        with keys_as_fields():
            parse_match(changed, stem)
    except FieldFaultsError as error:
        faults = error.by_field | faults
    refuse_faults(faults, "match")
    (files.write_over if match else files.write_new)(stem, changed)
    return stem


def _day(desk: Desk, said: str | None) -> str | None:
    """The day with its year, for it may be read in another one; what is no day is for the file to refuse."""
    from tacklebox.stock.dates import read_day

    try:
        read_day(said or "")
    except BenchError:
        with suppress(BenchError):
            return read_day(said or "", desk.today()).isoformat()
    return said


def _fed(feed: "Feed | None", key: str) -> str:
    value = getattr(feed, key.removeprefix("feed."), None)
    return f"{value:g}" if isinstance(value, float) else str(value or "")


def _feed(values: Mapping[str, str], faults: dict[str, str]) -> dict[str, Any]:
    """The keys of the file's feed; where neither feeder nor loose feed is said there is none."""
    said = {key: values[key].strip() for key in FED if key in values}
    if said and not (said.get("feed.feeder") or said.get("feed.loose")):
        return {"feed": None}
    kept: dict[str, Any] = {}
    for key, words in said.items():
        if key == "feed.feeder" or not words:
            kept[key] = words or None
        elif words.isascii() and words.isdecimal() and len(words) < 6:
            kept[key] = int(words) if key == "feed.loose" else float(words)
        else:
            faults[key] = f'"{words}" is no whole number: write it like 10.'
    return kept


def _row(
    desk: Desk, number: int, want: WantRow, faults: dict[str, str]
) -> tuple[int | None, dict[str, Any]]:
    """One want as the file has it, and what is wrong with it by field."""
    at = f"want {number}"
    choose: dict[str, str] = {}
    for part in want.choose.split(","):
        name, _, value = (
            word.strip() for word in part.strip().partition("=" if "=" in part else " ")
        )
        if part.strip() and not (name and value):
            faults[f"{at}.choose"] = f'"{part.strip()}" chooses nothing: write depth = 1.2 m.'
        elif part.strip():
            choose[name] = value
    if want.recipe:
        try:
            resolve_wants(desk.recipes, [want.recipe], choose)
        except BenchError as error:
            chosen = error.field.startswith("set")
            faults.setdefault(f"{at}.{'choose' if chosen else 'recipe'}", str(error))
    else:
        faults[f"{at}.recipe"] = "Choose a recipe."
    values: dict[str, Any] = {"recipe": want.recipe, "choose": choose, "place": want.place.strip()}
    for key, said in (("count", want.count), ("spares", want.spares)):
        if not said.strip() and key != "count":
            values[key] = None
            continue
        try:
            values[key] = how_many(said)
        except BenchError:
            faults[f"{at}.{key}"] = f'"{said.strip()}" is no number: write it like 4.'
            values[key] = 1
    was = want.was.strip()
    is_place = was.isascii() and was.isdecimal() and len(was) < 6
    return (int(was) if is_place else None), values
