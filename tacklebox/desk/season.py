"""What the season says: weights, places, points, what was lost, and what came after a change."""

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError, nearest_word

if TYPE_CHECKING:
    from tacklebox.matches.after.season import AddedUp, Outing, WaterChange
    from tacklebox.outputs import Target

COLUMNS = (
    "match", "day", "venue", "peg", "section", "place", "points", "water C", "weight g", "fish",
    "rigs", "lost cents", "methods", "rig names", "hooklengths", "baits", "species",
    "fish on rigs", "changes",
)  # fmt: skip
TOO_FEW = "too few to say"
SAYS_NOT = "Counts alone: fish come in shoals, and peg, day and change go together."


@dataclass(frozen=True)
class ChangeShown:
    """A change at the water, fish before and after it with the minutes of each, and one line of chance."""

    match: str
    at: str
    words: str
    before: int
    before_min: float
    after: int
    after_min: float
    chance: str


@dataclass(frozen=True)
class MatchFished:
    """One match of the season; what was weighed in in g and in words."""

    match: str
    on: date
    venue: str
    peg: str
    section: str
    place: int | None
    points: float | None
    water_c: float | None
    weight_g: float | None
    weight: str
    fish: int
    rigs: tuple[str, ...]
    lost_cents: int
    lost: str
    unpriced: int
    methods: tuple[str, ...]
    rig_names: tuple[str, ...]
    hooklengths: tuple[str, ...]
    baits: tuple[str, ...]
    species: tuple[str, ...]  # each with how many, and their weight in g where it was said
    fish_on_rigs: tuple[str, ...]
    changes: tuple[str, ...]


@dataclass(frozen=True)
class SeasonRow:
    """What matches of one kind add up to, in words and in g."""

    name: str
    matches: int
    mean_g: float | None
    mean: str
    best_g: float | None
    best: str
    mean_place: float | None
    points: float
    fish: int
    lost_cents: int
    lost: str


@dataclass(frozen=True)
class SeasonShown:
    """The matches, the earliest first, what they add up to, and the changes that were tapped."""

    by: str
    ways: tuple[str, ...]
    year: int | None
    years: tuple[int, ...]
    venue: str
    venues: tuple[str, ...]
    matches: tuple[MatchFished, ...]
    rows: tuple[SeasonRow, ...]
    changes: tuple[ChangeShown, ...]
    lost: str
    says_not: str


def season(
    desk: Desk,
    *,
    by: str = "venue",
    year: str = "",
    venue: str = "",
    to: "Target | None" = None,
    overwrite: bool = False,
) -> SeasonShown:
    """What the season says; ``to`` takes its matches as CSV.

    Raises AskedWronglyError for a way to put matches together that is none, a year or venue of which
    there is no debrief, and a file that is there already; CannotBeDoneError where it cannot be written.
    """
    from tacklebox.matches.after.season import By, grouped, read_season
    from tacklebox.outputs import Output, csv_with, try_outputs

    ways = tuple(By)
    if by not in ways:
        raise AskedWronglyError(
            f'matches are not put together by "{by}".', field="by", right=nearest_word(by, ways)
        )
    if to is not None:
        try_outputs([Output(to, csv_with(COLUMNS), overwrite, "csv")])
    read = read_season(desk.box, year=year.strip())
    wanted = _year(year, read.years)
    venues = sorted({one.debrief.venue for one in read.outings})
    if venue and venue not in venues:
        raise AskedWronglyError(
            f'no debrief is of a match at "{venue}".',
            field="venue",
            right=nearest_word(venue, venues) if venues else "",
        )
    found = [one for one in read.outings if venue in ("", one.debrief.venue)]
    answer = SeasonShown(
        by,
        ways,
        wanted,
        read.years,
        venue,
        tuple(venues),
        tuple(map(_match, found)),
        tuple(map(_row, grouped(found, By(by)))),
        tuple(_change(one.debrief.match, change) for one in found for change in one.changes),
        _lost(sum(one.lost_cents for one in found), sum(one.unpriced for one in found)),
        SAYS_NOT,
    )
    if to is not None:
        _write_csv(answer.matches, to, overwrite=overwrite)
    return answer


def plots(
    found: SeasonShown, called: Mapping[str, str] | None = None
) -> tuple[tuple[str, str], ...]:
    """Plots of the weights and of what was lost, match by match, and of what those put together say: a title
    and an SVG of each; the tables beside them have the same. ``called`` has the names of files in words."""
    from tacklebox.printing.drawing.bars import Bars, bars_svg
    from tacklebox.printing.drawing.plot import Plot, plot_svg
    from tacklebox.trade.quantities import KG_PER_LB
    from tacklebox.trade.units_first import IMPERIAL, first

    unit, share = ("lb", 1000 * KG_PER_LB) if first() == IMPERIAL else ("kg", 1000.0)
    weighed = tuple((m.on, m.weight_g / share) for m in found.matches if m.weight_g is not None)
    lost = tuple((m.on, m.lost_cents / 100) for m in found.matches)
    both = ((f"Weighed in, {unit}", unit, weighed), ("Tackle lost, at prices of today", "", lost))
    names = called or {}
    mean = tuple(
        (names.get(r.name, r.name), r.mean_g / share, r.mean)
        for r in found.rows
        if r.mean_g is not None
    )
    fish = tuple(
        (names.get(r.name, r.name), float(r.fish), str(r.fish)) for r in found.rows if r.fish
    )
    by = ((f"Weighed in by {found.by}, mean, {unit}", mean), (f"Fish tapped by {found.by}", fish))
    return (
        *((title, plot_svg(Plot(title, unit, points))) for title, unit, points in both if points),
        *((title, bars_svg(Bars(title, rows))) for title, rows in by if rows),
    )


def _year(said: str, years: Sequence[int]) -> int | None:
    if not said.strip():
        return None
    known = [str(year) for year in years]
    if said.strip() not in known:
        raise AskedWronglyError(
            f'of "{said.strip()}" there is no debrief.',
            field="year",
            right=f"There are {', '.join(known)}." if known else "Debrief a match first.",
        )
    return int(said)


def at_peg(desk: Desk, venue: str, peg: str, *, before: date) -> tuple[MatchFished, ...]:
    """What was fished at that peg before a day, the latest first."""
    from tacklebox.matches.after.season import at_peg as find
    from tacklebox.matches.after.season import read_season

    every = read_season(desk.box, venue=venue).outings
    return tuple(map(_match, find(every, venue, peg, before=before)))


def _match(one: "Outing") -> MatchFished:
    debrief = one.debrief
    return MatchFished(
        debrief.match,
        debrief.on,
        debrief.venue,
        debrief.peg,
        debrief.section,
        debrief.place,
        debrief.points,
        debrief.water_c,
        debrief.weight_g,
        _weight(debrief.weight_g),
        sum(heap.fish for heap in one.tally.rigs),
        tuple(rig.code for rig in one.rigs),
        one.lost_cents,
        _lost(one.lost_cents, one.unpriced),
        one.unpriced,
        tuple(dict.fromkeys(rig.method for rig in one.rigs)),
        tuple(dict.fromkeys(rig.name for rig in one.rigs)),
        tuple(dict.fromkeys(rig.hooklength for rig in one.rigs if rig.hooklength)),
        tuple(said for about, said in one.tally.day if about == "bait"),
        tuple(
            f"{heap.name or 'not said'} {heap.fish}"
            + (f" {heap.weighs_g:.0f} g" if heap.weighed else "")
            for heap in one.tally.species
        ),
        tuple(f"{heap.name or 'not said'} {heap.fish}" for heap in one.tally.rigs),
        tuple(
            f"{c.at:%H:%M} {c.words}: {c.before} in {c.before_min:.0f} min, then {c.after} in "
            f"{c.after_min:.0f} min"
            for c in one.changes
        ),
    )


def _row(group: "AddedUp") -> SeasonRow:
    return SeasonRow(
        group.name,
        group.matches,
        group.mean_g,
        _weight(group.mean_g),
        group.best_g,
        _weight(group.best_g),
        group.mean_place,
        group.points,
        group.fish,
        group.lost_cents,
        _lost(group.lost_cents, group.unpriced),
    )


def _change(match: str, change: "WaterChange") -> ChangeShown:
    return ChangeShown(
        match,
        f"{change.at:%H:%M}",
        change.words,
        change.before,
        change.before_min,
        change.after,
        change.after_min,
        _chance(change.chance),
    )


def _chance(chance: float | None) -> str:
    """One line of how likely chance alone would do as much."""
    if chance is None:
        return TOO_FEW
    if chance > 0.5:
        return "no more than before"
    if chance < 0.01:
        return "chance alone: less than 1 time in 100"
    times = round(100 * chance)
    return f"chance alone: about {times} time{'' if times == 1 else 's'} in 100"


def _weight(weight_g: float | None) -> str:
    from tacklebox.desk.debrief_words import weight_words

    return weight_words(weight_g)


def _lost(cents: int, unpriced: int) -> str:
    """What was lost at the prices that are known, and how many are not: "2.10, 3 prices missing"."""
    from tacklebox.stock.amounts import write_price

    known = write_price(cents) if cents or not unpriced else ""
    missing = f"{unpriced} price{'' if unpriced == 1 else 's'} missing" if unpriced else ""
    return ", ".join(filter(None, (known, missing)))


def _write_csv(matches: Sequence[MatchFished], to: "Target", *, overwrite: bool) -> None:
    from tacklebox.outputs import csv_with, write_aside

    with write_aside(to, csv_with(COLUMNS), overwrite=overwrite) as aside:
        text = io.TextIOWrapper(aside, encoding="utf-8", newline="")
        writer = csv.writer(text)
        writer.writerow(COLUMNS)
        for one in matches:
            weight = "" if one.weight_g is None else f"{one.weight_g:.0f}"
            writer.writerow(
                [_plain(one.match), one.on.isoformat(), _plain(one.venue), _plain(one.peg),
                 _plain(one.section), one.place or "", one.points if one.points is not None else "",
                 one.water_c if one.water_c is not None else "", weight, one.fish,
                 " ".join(one.rigs), one.lost_cents,
                 *(_plain("; ".join(many)) for many in
                   (one.methods, one.rig_names, one.hooklengths, one.baits, one.species, one.fish_on_rigs,
                    one.changes))]
            )  # fmt: skip
        text.flush()
        text.detach()


def _plain(words: str) -> str:
    """Words as they stand in a list."""
    from tacklebox.stock.care.cells import cell_of_list

    return cell_of_list(words)
