"""A venue's board as a form: the water, the rules that are judged, those to read, keepnets."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from tacklebox.desk.opening import Desk
from tacklebox.desk.own_files import (
    FieldFaultsError,
    keys_as_fields,
    new_name,
    refuse_changed,
    refuse_faults,
)
from tacklebox.desk.venues import venues_of
from tacklebox.errors import AskedWronglyError

# The file's keys by the way they are filled in
WORDS = (
    "name", "water", "country", "depths", "notes", "rules.largest_hook", "rules.least_hooklength",
    "rules.greatest_hooklength", "rules.least_main_line", "rules.groundbait_limit",
    "keepnet.length", "keepnet.rings_apart", "keepnet.ring_around", "keepnet.round_rings",
    "keepnet.square_rings", "keepnet.hole_around", "keepnet.fish_per_net",
    "keepnet.silvers_per_net", "keepnet.carp_per_net",
)  # fmt: skip
TICKS = ("overhead_lines", "rules.barbless", "rules.no_braid_main_line", "rules.feeders_run_free")
LISTS = (
    "rules.methods_banned",
    "rules.materials_banned",
    "keepnet.in_carp_nets",
)  # parted by commas
LINES = ("read",)  # a rule a line
NUMBERS = ("keepnet.nets",)
YES_OR_NO = ("close_season",)  # "" where nobody said
NEW = 'name = "New"\nwater = "still water"\n'


@dataclass(frozen=True)
class VenueForm:
    """What stands in a venue's file, by its keys, in words; ``version`` is the mark of that file."""

    venue: str
    values: Mapping[str, str]
    version: str


def form(desk: Desk, venue: str = "") -> VenueForm:
    """The form of a venue, or one to fill in for a new one.

    Raises AskedWronglyError for a venue that is not there or whose file cannot be read.
    """
    from tacklebox.editing import version_of

    if not venue:
        return VenueForm("", {"water": "still water", "country": "England"}, "")
    venues = venues_of(desk)
    stem, text = venues.files.read(venue)
    place = venues.load(stem).model_dump()
    every = (*WORDS, *TICKS, *LISTS, *LINES, *NUMBERS, *YES_OR_NO)
    return VenueForm(stem, {key: _said(key, _value(place, key)) for key in every}, version_of(text))


def write(desk: Desk, values: Mapping[str, str], venue: str = "", *, version: str = "") -> str:
    """Write a venue's file from its form and return its name; a new one gets its name from what it
    is called. Notes in the file and keys that the form has not stay.

    Raises AskedWronglyError naming the fields that are wrong, and for a file that is no longer what
    the form was filled from (``version``); CannotBeDoneError where it cannot be written.
    """
    from tacklebox.editing import with_values
    from tacklebox.matches.files.venue import parse_venue

    files = venues_of(desk).files
    faults: dict[str, str] = {}
    named = values.get("name", "")
    stem, text = files.read(venue) if venue else (new_name(named, files, faults), NEW)
    refuse_changed(text, version)
    kept: dict[str, Any] = {}
    for key, said in values.items():
        try:
            kept[key] = _kept(key, said)
        except AskedWronglyError as error:
            faults[error.field] = f"{error.what} {error.right}"
    changed = with_values(text, kept)
    try:
        with keys_as_fields():
            parse_venue(changed, stem)
    except FieldFaultsError as error:
        faults = error.by_field | faults
    refuse_faults(faults, "venue")
    (files.write_over if venue else files.write_new)(stem, changed)
    return stem


def _value(place: Mapping[str, Any], key: str) -> Any:
    found: Any = place
    for name in key.split("."):
        found = found[name]
    return found


def _said(key: str, value: Any) -> str:
    """A value of the file as the form has it."""
    if key in TICKS:
        return "1" if value else ""
    if key in YES_OR_NO:
        return {True: "yes", False: "no", None: ""}[value]
    if key in LISTS:
        return ", ".join(value)
    if key in LINES:
        return "\n".join(value)
    return "" if value is None else str(value)


def _kept(key: str, said: str) -> Any:
    """What the form says as the file has it; None for what is not said."""
    words = " ".join(said.split())
    if key in TICKS:
        return True if words else None
    if key == "notes":
        return said.replace("\r\n", "\n").strip() or None
    if key in YES_OR_NO:
        return {"yes": True, "no": False}.get(words)
    if key in LISTS:
        return [word.strip() for word in said.split(",") if word.strip()] or None
    if key in LINES:
        return [line.strip() for line in said.splitlines() if line.strip()] or None
    if key in NUMBERS and words:
        if not (words.isascii() and words.isdecimal() and len(words) < 6):
            raise AskedWronglyError(f'"{words}" is no number.', field=key, right="Like: 2.")
        return int(words)
    if key in WORDS or key in NUMBERS:
        return words or None
    raise AskedWronglyError(f'a venue has no "{key}".')
