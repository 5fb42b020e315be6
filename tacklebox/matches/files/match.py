"""Match files: the day, the hours, the venue, and what is wanted, as an angler writes them."""

import datetime
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import time
from pathlib import Path
from typing import Annotated

from pydantic import Field, ValidationInfo, field_validator

from tacklebox.datafiles import DataFiles, StrictModel, check_name, named_after, parse_toml
from tacklebox.errors import AskedWronglyError, KeyFaultError, ManyFaultsError
from tacklebox.matches.files.clips import CLIP_KEYS, Clip
from tacklebox.matches.files.feed import FEED_KEYS, Bait, Feed, bait_for
from tacklebox.stock.dates import read_day, write_day
from tacklebox.trade.feeding import FIGURES

Text = Annotated[str, Field(min_length=1, max_length=400)]
FIRST = "matches.start"
MOST_OF_ONE = 100
_HOUR = re.compile(r"(\d{1,2})[:.](\d{2})", re.ASCII)  # some write a dot for the colon
_SECOND = "what comes after midnight is a second match, on the next day"


class WantedRig(StrictModel):
    """So many rigs or hooklengths of a recipe with its choices, and spares beside them."""

    recipe: Text
    count: int = Field(ge=1, le=MOST_OF_ONE)
    spares: int = Field(default=0, ge=0, le=MOST_OF_ONE)
    choose: dict[str, Text] = Field(default_factory=dict)
    place: Text | None = None  # where they lie, for the pack list

    @property
    def total(self) -> int:
        """What is to be taken, spares included."""
        return self.count + self.spares


class Match(StrictModel):
    """A whole match file; ``want`` stands in order of importance."""

    stem: str
    name: Text
    date: Text
    begins: Text = Field(alias="from")
    ends: Text = Field(alias="to")
    venue: Text
    want: tuple[WantedRig, ...] = Field(min_length=1, max_length=60)
    feed: Feed | None = None
    clip: tuple[Clip, ...] = Field(default=(), max_length=20)
    also: tuple[Text, ...] = Field(default=(), max_length=60)  # to take along, in words

    @property
    def day(self) -> datetime.date:
        """The day of the match."""
        return datetime.date.fromisoformat(self.date)

    @property
    def hours(self) -> float:
        """How long it lasts, in hours."""
        begins, ends = time.fromisoformat(self.begins), time.fromisoformat(self.ends)
        return (ends.hour - begins.hour) + (ends.minute - begins.minute) / 60

    @property
    def fed_hours(self) -> float:
        """The hours to feed for. Raises AskedWronglyError for a match too short to reckon feed."""
        least = FIGURES["hours"].low
        if self.hours < least:
            raise AskedWronglyError(
                f"it lasts {60 * self.hours:.0f} minutes, from {self.begins} to {self.ends}.",
                where=f"{self.stem}.toml, to",
                right=f"Feed is reckoned for {60 * least:.0f} minutes or more.",
            )
        return self.hours

    @property
    def bait(self) -> Bait | None:
        """What its feed takes. Raises AskedWronglyError for more than can be reckoned."""
        if self.feed is None:
            return None
        hours = self.fed_hours
        try:
            return bait_for(self.feed, hours)
        except AskedWronglyError as error:
            key = f"feed.{error.field}" if error.field else "feed"
            raise AskedWronglyError(
                error.what, where=f"{self.stem}.toml, {key}", right=error.right
            ) from None

    @property
    def groundbait_g(self) -> float | None:
        """The dry groundbait that its feed takes, in g; None where it feeds none."""
        return (self.bait.groundbait.dry_g or None) if self.bait else None

    @field_validator("date")
    @classmethod
    def _is_a_date(cls, value: str) -> str:
        """As in ISO 8601, however it is written."""
        try:
            return read_day(value).isoformat()
        except AskedWronglyError as error:
            raise ValueError(str(error)) from None

    @field_validator("begins", "ends")
    @classmethod
    def _is_an_hour(cls, value: str, info: ValidationInfo) -> str:
        """As HH:MM, however it is written."""
        found = _HOUR.fullmatch(value.strip())
        hour, minute = (int(digits) for digits in found.groups()) if found else (99, 99)
        if (hour, minute) == (24, 0) and info.field_name == "ends":
            raise ValueError(f'"{value}" is on the next day; end it at "23:59": {_SECOND}')
        if hour > 23 or minute > 59:
            raise ValueError(f'"{value}" is no hour; write it like "10:00"')
        written = f"{hour:02}:{minute:02}"
        begins = info.data.get("begins")
        if begins and written <= begins:
            raise ValueError(
                f"it ends at {written}, not after it begins at {begins}; where it goes on past "
                f'midnight, end it at "23:59": {_SECOND}'
            )
        return written


_KEYS = {
    "": ("name", "date", "from", "to", "venue", "also", "want", "feed", "clip"),
    "want": ("recipe", "count", "spares", "choose", "place"),
    "feed": FEED_KEYS,
    "clip": CLIP_KEYS,
}
_LIKE = {
    "date": "2026-06-20",
    "from": "10:00",
    "to": "15:00",
    "venue": "the-pond",
    "recipe": "pole-canal-shot",
    "feeder": "40 ml",
}


def parse_match(text: str, stem: str) -> Match:
    """A match from its TOML text.

    Raises ManyFaultsError naming file, key and what was expected, also where two wants overlap:
    the same recipe with the same choices.
    """
    match = parse_toml(Match, text, stem, "match", _KEYS, _LIKE)
    seen: dict[tuple[str, tuple[tuple[str, str], ...]], int] = {}
    faults = []
    for number, want in enumerate(match.want, 1):
        key = want.recipe.strip(), tuple(sorted(want.choose.items()))
        if key in seen:
            faults.append(
                KeyFaultError(
                    f'"want {number}": {want.recipe} is wanted already, the same, as want '
                    f"{seen[key]}. Put the counts together, or choose another size.",
                    f"want {number}",
                )
            )
        seen.setdefault(key, number)
    if faults:
        raise ManyFaultsError(f"{stem}.toml: this match cannot be read.", faults)
    return match


@dataclass(frozen=True)
class Matches:
    """The matches of a box, in its folder ``matches``."""

    folder: Path

    @property
    def files(self) -> DataFiles:
        """The match files."""
        return DataFiles("matches", "match", self.folder, FIRST)

    def load(self, name: str) -> Match:
        """The match of that name. Raises AskedWronglyError if there is none or it is faulty."""
        stem, text = self.files.read(name)
        return parse_match(text, stem)


def refuse_past(match: Match, today: datetime.date) -> None:
    """Raises AskedWronglyError for a match that is over: there is nothing left to plan."""
    if match.day < today:
        raise AskedWronglyError(
            f"the match was on {write_day(match.day, with_year=True)}, which is past.",
            where=f"{match.stem}.toml, date",
            right=f"Give it a day from {write_day(today)} on, or debrief it.",
        )


STARTING = """\
# A match and what to take to it. Text after # is a note.

name = "{name}"
date = "{day}"
from = "10:00"
to = "15:00"
venue = "{venue}"                 # a file in the folder venues of your box
also = ["landing net", "keepnet", "rod licence"]    # stands on the pack list as it is

# What you want to take, the most important first. Spares are tied beside the count.
"""
EXAMPLE = """\
# This is an example: name your own recipes.
[[want]]
recipe = "pole-canal-shot"
count = 2
spares = 1
[want.choose]                     # what is chosen; leave it out for the usual
depth = "1.2 m"

[[want]]
recipe = "hooklength-fine"
count = 6
spares = 4
place = "hooklength wallet"       # where they lie, for the pack list
"""
STARTING_FOOT = """
# Distances to clip up at, and feed, for the pack list. Take the # away where you want them.
# [[clip]]
# distance = "35 m"
# sticks = "12 ft"                # the distance sticks stand so far apart
# turn = "80 cm"                  # won by a turn of the reel's handle

# [feed]                          # how it is fed
# feeder = "40 ml"
# cast_every = 5                  # minutes
# loose = 10                      # so many maggots by hand each time
# loose_every = 2                 # minutes
"""


def write_starting_match(
    folder: Path, name: str, venue: str, day: datetime.date, wants: Sequence[WantedRig] = ()
) -> Path:
    """Write the commented starting file as ``name.toml``, with an example where nothing is wanted.

    Raises as ``DataFiles.write_new``."""
    from tacklebox.editing import with_tables

    called = named_after(check_name(name, "match"))
    head = STARTING.format(name=called, day=day, venue=check_name(venue, "venue"))
    rows = [(None, want.model_dump(exclude_defaults=True)) for want in wants]
    wanted = with_tables("", "want", rows).lstrip("\n") if rows else EXAMPLE
    return Matches(folder).files.write_new(name, head + wanted + STARTING_FOOT)
