"""Matches: which there are, and a starting file for a new one."""

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from tacklebox.desk.answers import Fault
from tacklebox.desk.asking import any_day, in_field
from tacklebox.desk.opening import Desk
from tacklebox.desk.venues import venues_of
from tacklebox.desk.wants import wanted_rigs
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.matches.before.rulings import Ruling
    from tacklebox.matches.files.match import Matches, WantedRig


MOST_OWN = 8  # recipes of his own that a match is begun with


@dataclass(frozen=True)
class MatchName:
    """A match as it stands in a list."""

    match: str
    name: str
    on: date
    begins: str
    ends: str
    venue: str
    debriefed: bool


@dataclass(frozen=True)
class MatchList:
    """All matches, the earliest first, and what is wrong with those that cannot be read."""

    matches: tuple[MatchName, ...]
    faults: tuple[Fault, ...]


@dataclass(frozen=True)
class MatchStarted:
    """A starting file that was written, and what stands against the day: it is past, or closed.

    ``wants_as_at`` is the match whose wants it took over; ``wants_own``: it wants each recipe of his own;
    ``is_example``: what it wants is none of his.
    """

    match: str
    file: Path
    on: date
    is_past: bool
    venue: str
    has_venue: bool  # whether the box has a file of it
    wants_as_at: str
    wants_own: bool
    is_example: bool
    not_allowed: "tuple[Ruling, ...]"


def listed(desk: Desk) -> MatchList:
    """The matches of the box, and which of them are debriefed."""
    from tacklebox.matches.before.losses import debriefed_matches

    matches = matches_of(desk)
    found, faults = matches.files.load_each(matches.load)
    with desk.box.reading() as session:
        done = debriefed_matches(session)
    return MatchList(
        tuple(
            MatchName(m.stem, m.name, m.day, m.begins, m.ends, m.venue, m.stem in done)
            for m in sorted(found, key=lambda m: (m.day, m.begins))
        ),
        tuple(Fault.of(error) for error in faults),
    )


def coming(desk: Desk) -> MatchName | None:
    """The next match that is neither past nor debriefed; None where there is none."""
    today = desk.today()
    return next((m for m in listed(desk).matches if m.on >= today and not m.debriefed), None)


def start(
    desk: Desk,
    match: str,
    *,
    venue: str,
    on: str,
    wanted: Mapping[str, str] | None = None,
    choices: Mapping[str, str] | None = None,
) -> MatchStarted:
    """Write a commented starting file for a match, whether or not its venue has a file yet.

    So many of each recipe are ``wanted``, the most important first, with the ``choices`` that it knows;
    else what the latest match in the box wants, or a few of each recipe of his own. Raises
    AskedWronglyError for a name that is none or is taken, and a day that is none; as ``wanted_rigs`` for
    what is wanted.
    """
    from tacklebox.datafiles import check_name
    from tacklebox.matches.files.match import write_starting_match

    day = any_day(desk, on)
    place = in_field("venue", lambda name: check_name(name, "venue"), venue)
    as_at, wants_own, wants = "", False, wanted_rigs(desk, wanted or {}, choices or {})
    if not wants:
        as_at, wants = latest_wants(desk)
    if not wants:
        wants = _own_recipes(desk)
        wants_own = bool(wants)
    folder = matches_of(desk).folder
    path = in_field(
        "match", lambda name: write_starting_match(folder, name, place, day, wants), match
    )
    has_venue = place in venues_of(desk).files.names()
    against = _against(desk, place, day) if has_venue else ()
    past = day < desk.today()
    return MatchStarted(
        path.stem, path, day, past, place, has_venue, as_at, wants_own, not wants, against
    )


def _own_recipes(desk: Desk) -> "tuple[WantedRig, ...]":
    """A few of each recipe of his own that can be read, rigs first, whose number he then puts right."""
    from tacklebox.matches.files.match import WantedRig

    recipes = []
    for name in filter(desk.recipes.is_own, desk.recipes.names()):
        with suppress(AskedWronglyError):
            recipes.append(desk.recipes.load(name))
    recipes.sort(key=lambda recipe: recipe.makes == "hooklength")
    return tuple(
        WantedRig(recipe=recipe.stem, count=6 if recipe.makes == "hooklength" else 2)
        for recipe in recipes[:MOST_OWN]
    )


def latest_wants(desk: Desk) -> "tuple[str, tuple[WantedRig, ...]]":
    """The latest match of the box that can be read, and what it wants: mostly the next wants the same."""
    matches = matches_of(desk)
    found, _ = matches.files.load_each(matches.load)
    latest = max(found, key=lambda m: (m.day, m.begins), default=None)
    return (latest.stem, latest.want) if latest else ("", ())


def _against(desk: Desk, venue: str, day: date) -> "tuple[Ruling, ...]":
    """What the venue does not allow on the day; a file that cannot be read is told by the plan."""
    from tacklebox.matches.before.day_rules import judge_day
    from tacklebox.matches.before.rulings import Verdict

    with suppress(AskedWronglyError):
        rulings = judge_day(venues_of(desk).load(venue), day)
        return tuple(r for r in rulings if r.verdict is Verdict.NOT_ALLOWED)
    return ()


def matches_of(desk: Desk) -> "Matches":
    """The matches of the box."""
    from tacklebox.matches.files.match import Matches

    return Matches(desk.box.folder / "matches")
