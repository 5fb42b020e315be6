"""Waters and their rules: what may be fished there, and with which keepnets."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from tacklebox.desk.answers import Fault
from tacklebox.desk.asking import any_day, count_of, in_field
from tacklebox.desk.opening import Desk
from tacklebox.desk.wants import resolve_wants
from tacklebox.errors import BenchError

if TYPE_CHECKING:
    from tacklebox.matches.before.rulings import Ruling, Verdict
    from tacklebox.matches.files.venue import Rules, Venue, Venues
    from tacklebox.rigs.recipes.resolved import Resolved

MOST_NETS = 20


def asked_at(desk: Desk, resolved: "Resolved", venue: str) -> "Resolved":
    """The recipe as it is checked for a venue, which may ask that weights come free; "" for none.

    Raises AskedWronglyError for a venue that is none.
    """
    from tacklebox.matches.before.venue_rules import asked_there

    if not venue.strip():
        return resolved
    return asked_there(resolved, in_field("venue", venues_of(desk).load, venue.strip()).rules)


@dataclass(frozen=True)
class VenueName:
    """A venue as it stands in a list."""

    venue: str
    name: str
    water: str
    depths: str


@dataclass(frozen=True)
class VenueList:
    """All venues by name, and what is wrong with those that cannot be read."""

    venues: tuple[VenueName, ...]
    faults: tuple[Fault, ...]


@dataclass(frozen=True)
class VenueStarted:
    """A starting file that was written."""

    venue: str
    file: Path


@dataclass(frozen=True)
class RuleSaid:
    """One of a venue's rules that are judged, as its file says it."""

    rule: str
    says: str


@dataclass(frozen=True)
class VenuePage:
    """A venue with its rules and cautions; ``check_yourself`` are those that no program can judge."""

    venue: str
    name: str
    water: str
    country: str
    depths: str
    overhead_lines: bool
    notes: str
    rules: tuple[RuleSaid, ...]
    keepnets: tuple[str, ...]
    check_yourself: tuple[str, ...]
    comes_first: str


@dataclass(frozen=True)
class Judged:
    """What the rules say of a rig, of the day or of a keepnet; the verdict is that of the worst."""

    verdict: "Verdict"
    rulings: "tuple[Ruling, ...]"


@dataclass(frozen=True)
class JudgedRig:
    """What the rules say of one recipe, as stock serves it."""

    recipe: str
    verdict: "Verdict"
    rulings: "tuple[Ruling, ...]"


@dataclass(frozen=True)
class JudgedVenue:
    """A day at a venue, and rigs for it, by the venue's rules."""

    venue: str
    name: str
    water: str
    on: date
    overhead_lines: str  # the caution, "" where none are noted
    day: Judged
    rigs: tuple[JudgedRig, ...]
    allowed: bool
    comes_first: str


@dataclass(frozen=True)
class KeepnetAsked:
    """A keepnet as it was measured, in words; what is empty or None nobody measured."""

    length: str = ""
    rings: str = ""  # from ring to ring
    ring: str = ""  # all around
    round: str = ""  # a round ring, across
    square: str = ""  # a square or oblong ring, its shorter side
    hole: str = ""  # of the mesh, all around
    knotless: bool | None = None
    metal: bool | None = None
    nets: int | None = None  # at a time


@dataclass(frozen=True)
class JudgedKeepnet:
    """A keepnet by the byelaws, and by a venue's rules where one is named."""

    venue: str
    verdict: "Verdict"
    rulings: "tuple[Ruling, ...]"
    allowed: bool
    comes_first: str


def listed(desk: Desk) -> VenueList:
    """The venues of the box."""
    venues = venues_of(desk)
    found, faults = venues.files.load_each(venues.load)
    return VenueList(
        tuple(VenueName(v.stem, v.name, v.water, v.depths or "") for v in found),
        tuple(Fault.of(error) for error in faults),
    )


def start(desk: Desk, venue: str) -> VenueStarted:
    """Write a commented starting file for a venue.

    Raises AskedWronglyError for a name that is none or is taken.
    """
    from tacklebox.matches.files.venue import write_starting_venue

    path = in_field(
        "named_venue", lambda name: write_starting_venue(venues_of(desk).folder, name), venue
    )
    return VenueStarted(path.stem, path)


def show(desk: Desk, venue: str) -> VenuePage:
    """A venue, its rules and its cautions. Raises AskedWronglyError if there is none or it is faulty."""
    from tacklebox.trade.law import DEFERS

    found = in_field("named_venue", venues_of(desk).load, venue)
    return VenuePage(
        found.stem,
        found.name,
        found.water,
        found.country or "",
        found.depths or "",
        found.overhead_lines,
        found.notes or "",
        tuple(_said(found.rules)),
        found.keepnet.words(found.under),
        found.read,
        DEFERS,
    )


def judge(
    desk: Desk,
    venue: str,
    recipes: Sequence[str] = (),
    choices: Mapping[str, str] | None = None,
    *,
    on: str = "",
    groundbait: str = "",
) -> JudgedVenue:
    """A day at a venue by its rules, and rigs as stock serves them; ``groundbait`` is dry.

    Raises AskedWronglyError for a venue, recipe, choice or figure that is none.
    """
    from tacklebox.matches.before.day_rules import judge_day
    from tacklebox.matches.before.rulings import Verdict as Verdict
    from tacklebox.trade.law import DEFERS
    from tacklebox.trade.quantities import read_mass_g

    place = in_field("named_venue", venues_of(desk).load, venue)
    day = any_day(desk, on)
    mass_g = in_field("groundbait", read_mass_g, groundbait) if groundbait else None
    of_day = judged(judge_day(place, day, mass_g))
    rigs = _judged_rigs(desk, place, recipes, choices or {})
    return JudgedVenue(
        place.stem,
        place.name,
        place.water,
        day,
        overhead_lines(place),
        of_day,
        rigs,
        all(v is not Verdict.NOT_ALLOWED for v in (of_day.verdict, *(r.verdict for r in rigs))),
        DEFERS,
    )


def _judged_rigs(
    desk: Desk, place: "Venue", names: Sequence[str], choices: Mapping[str, str]
) -> tuple[JudgedRig, ...]:
    from tacklebox.matches.before.venue_rules import judge_rig
    from tacklebox.rigs.tying.tie import fit_and_check

    rigs = resolve_wants(desk.recipes, list(dict.fromkeys(names)), choices)
    found = []
    for rig in rigs:
        answer = judged(judge_rig(place, fit_and_check(desk.box, rig).fit))
        found.append(JudgedRig(rig.recipe.stem, answer.verdict, answer.rulings))
    return tuple(found)


def judge_keepnet(desk: Desk, net: KeepnetAsked, venue: str = "") -> JudgedKeepnet:
    """A keepnet by the byelaws, and by the rules of a venue where one is named.

    Raises AskedWronglyError for a measure that no keepnet has, or a venue that is none.
    """
    from tacklebox.matches.before.day_rules import judge_net
    from tacklebox.matches.before.rulings import Verdict as Verdict
    from tacklebox.trade.keepnet import Keepnet
    from tacklebox.trade.law import DEFERS

    place = in_field("venue", venues_of(desk).load, venue) if venue else None
    mm = {f.name: _measure(f.name, getattr(net, f.name)) for f in fields(net) if f.default == ""}
    measured = Keepnet(
        mm["length"], mm["rings"], mm["ring"], mm["hole"], net.knotless, mm["round"], mm["square"],
        net.metal,
    )  # fmt: skip
    nets = None if net.nets is None else count_of(net.nets, MOST_NETS, "nets")
    answer = judged(judge_net(place, measured, nets))
    allowed = answer.verdict is not Verdict.NOT_ALLOWED
    name = place.name if place else ""
    return JudgedKeepnet(name, answer.verdict, answer.rulings, allowed, DEFERS)


def _measure(field: str, said: str) -> float | None:
    from tacklebox.trade.keepnet import MOST_MM
    from tacklebox.trade.limits import within
    from tacklebox.trade.quantities import read_length_mm

    def read(text: str) -> float:
        return within(read_length_mm(text), 0, MOST_MM, unit="mm", above=True, typed=text)

    return in_field(field, read, said) if said else None


def venues_of(desk: Desk) -> "Venues":
    """The venues of the box."""
    from tacklebox.matches.files.venue import Venues

    return Venues(desk.box.folder / "venues")


def called(desk: Desk, venue: str) -> str:
    """What a venue is called, without its rules being read; where its file tells no name, as its file."""
    from tacklebox.datafiles import DataFiles
    from tacklebox.reading_toml import read_toml

    try:
        _, text = DataFiles("venues", "venue", desk.box.folder / "venues").read(venue)
        name = read_toml(text).get("name")
    except (BenchError, ValueError):  # the venues' page says what is wrong
        return venue
    return name if isinstance(name, str) and name.strip() else venue


def judged(rulings: "Sequence[Ruling]") -> Judged:
    """The rulings with the verdict of all together."""
    from tacklebox.matches.before.rulings import worst_verdict

    return Judged(worst_verdict(rulings), tuple(rulings))


def overhead_lines(place: "Venue") -> str:
    """The caution for a venue where power lines are noted, "" elsewhere."""
    from tacklebox.trade.law import power_lines

    return power_lines().says if place.overhead_lines else ""


def _said(rules: "Rules") -> "list[RuleSaid]":
    found = []
    for key, value in rules:
        if value:
            words = ", ".join(value) if isinstance(value, tuple) else value
            found.append(RuleSaid(key.replace("_", " "), "yes" if value is True else str(words)))
    return found
