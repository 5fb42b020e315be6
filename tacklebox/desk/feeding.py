"""How much groundbait, water and loose feed a match takes, against the venue's limit."""

from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

from tacklebox.desk.asking import in_field
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.matches.before.rulings import Ruling
    from tacklebox.matches.files.feed import Bait, Feed
    from tacklebox.matches.files.match import Match
    from tacklebox.matches.files.venue import Venue


@dataclass(frozen=True)
class FeedAsked:
    """What is said of feeding, in words: figures as plain numbers, the feeder with its unit.

    What is empty is as the match's file says, else as usual.
    """

    hours: str = ""
    feeder: str = ""  # what it holds
    cast_every: str = ""  # minutes
    share: str = ""  # percent of groundbait in the feeder
    density: str = ""  # g of wet groundbait to the ml
    water: str = ""  # ml to 100 g dry
    loose: str = ""  # maggots, or what else is counted, by hand each time
    loose_every: str = ""  # minutes
    per_pint: str = ""  # of them


@dataclass(frozen=True)
class FeedFigure:
    """One figure of the answer, what it rests on, and how many that is of what is counted."""

    key: str
    what: str
    value: float
    unit: str
    words: str
    rests_on: str
    count: int | None = None


@dataclass(frozen=True)
class FeedNeeded:
    """What a match takes, figure by figure, and what the venue says to the groundbait."""

    hours: float
    venue: str  # its name, "" where none is known
    figures: tuple[FeedFigure, ...]
    cited: tuple[str, ...]
    limit: "Ruling | None"
    allowed: bool
    comes_first: str


def feed_needed(
    desk: Desk, asked: FeedAsked, *, match: str = "", venue: str = "", casters: bool = False
) -> FeedNeeded:
    """How much groundbait, water and loose feed a match takes, or so many hours without one.

    With ``casters`` the loose feed is casters, and the maggots that turn into them are told too.
    Raises AskedWronglyError for a figure that cannot be, naming its field, where nothing is fed,
    and where nobody knows how long.
    """
    from tacklebox.matches.before.day_rules import judge_groundbait
    from tacklebox.matches.before.rulings import Verdict
    from tacklebox.trade.feeding import CASTERS
    from tacklebox.trade.law import DEFERS

    said = {f.name: text for f in fields(asked) if (text := getattr(asked, f.name).strip())}
    figures = {name: _read(name, text) for name, text in said.items()}
    planned = _match(desk, match) if match else None
    if planned is None and "hours" not in figures:
        raise AskedWronglyError(
            "nobody knows how long.", field="hours", right="Say so, or name a match."
        )
    place = _venue(desk, venue or (planned.venue if planned else ""))
    hours = figures.pop("hours", None)
    lasts = float(hours) if hours is not None else planned.fed_hours if planned else 0.0
    feed = _put_together(planned.feed if planned else None, figures)
    bait = _reckoned(feed, lasts, planned if "loose" not in figures else None)
    limit = judge_groundbait(place, bait.groundbait.dry_g) if place else None
    return FeedNeeded(
        lasts,
        place.name if place else "",
        tuple(_figures(bait, casters=casters)),
        (CASTERS.citation,) if casters else (),
        limit,
        limit is None or limit.verdict is not Verdict.NOT_ALLOWED,
        DEFERS,
    )


def _read(name: str, text: str) -> str | float:
    """A figure as a match's file holds it: the feeder in words, all else as a number."""
    from tacklebox.trade.feeding import check_figure
    from tacklebox.trade.quantities import read_number, read_volume_ml

    def read(words: str) -> str | float:
        if name == "feeder":
            check_figure(name, read_volume_ml(words), words)
            return words
        value = check_figure(
            name, -1.0 if words.startswith(("-", "−")) else read_number(words), words
        )
        if name != "loose":
            return value
        if value != int(value):
            raise AskedWronglyError(f"{words} is no count.", right="A whole number.")
        return int(value)

    return in_field(name, read, text)


def _match(desk: Desk, name: str) -> "Match":
    from tacklebox.matches.files.match import Matches

    return in_field("match", Matches(desk.box.folder / "matches").load, name)


def _venue(desk: Desk, name: str) -> "Venue | None":
    from tacklebox.matches.files.venue import Venues

    return in_field("venue", Venues(desk.box.folder / "venues").load, name) if name else None


def _put_together(own: "Feed | None", figures: "dict[str, str | float]") -> "Feed":
    """What is said, over what the match's file says."""
    from tacklebox.matches.files.feed import Feed

    whole = (own.model_dump() if own else {}) | figures
    if whole.get("feeder") is None and whole.get("loose") is None:
        raise AskedWronglyError(
            "nothing is fed.",
            field="feeder",
            right='Say what it holds, like "40 ml", or how much is fed loose, like 10, or both.',
        )
    return Feed.model_validate(whole)


def _reckoned(feed: "Feed", hours: float, file: "Match | None") -> "Bait":
    from tacklebox.matches.files.feed import bait_for

    try:
        return bait_for(feed, hours)
    except AskedWronglyError as error:
        if file is None or not error.field:
            raise
        where = f"{file.stem}.toml, feed.{error.field}"
        raise AskedWronglyError(error.what, where=where, right=error.right) from None


def _figures(bait: "Bait", *, casters: bool) -> Iterator[FeedFigure]:
    in_feeder: tuple[str, ...] = ()
    if bait.feed.feeder is not None:
        in_feeder = ("cast_every", "share")
        yield from _groundbait(bait)
        pints = bait.feeder_pints
        yield _loose(bait, "in_feeder", "loose feed in the feeder", pints, in_feeder)
    by_hand: tuple[str, ...] = ()
    if bait.feed.loose is not None:
        by_hand = ("loose_every",)
        words = f"{bait.times}, {bait.feed.loose} each"
        basis = bait.rests_on(by_hand)
        yield FeedFigure("times_by_hand", "times fed by hand", bait.times, "", words, basis)
        yield _loose(bait, "by_hand", "loose feed by hand", bait.loose_pints, by_hand)
    in_all = _loose(
        bait,
        "loose_feed",
        "loose feed in all",
        bait.feeder_pints + bait.loose_pints,
        (*in_feeder, *by_hand),
    )
    yield in_all
    if casters:
        from tacklebox.trade.feeding import CASTER_PINTS

        pints = in_all.value / CASTER_PINTS
        words, rests_on = f"{pints:.2f} pints *", in_all.rests_on
        yield FeedFigure("maggots_to_turn", "maggots to turn", pints, "pints", words, rests_on)


def _groundbait(bait: "Bait") -> Iterator[FeedFigure]:
    mix, wet = bait.groundbait, ("cast_every", "share", "density")
    dry = bait.rests_on((*wet, "water"))
    casts, share = bait.rests_on(("cast_every",)), bait.rests_on(("share",))
    kg, litres = f"{mix.dry_g / 1000:.2f} kg", f"{mix.water_ml / 1000:.2f} l"
    wet_kg, percent = f"{mix.wet_g / 1000:.2f} kg", f"{bait.share:g} %"
    yield FeedFigure("casts", "casts", bait.casts, "", str(bait.casts), casts)
    yield FeedFigure("dry", "groundbait, dry", mix.dry_g, "g", kg, dry)
    yield FeedFigure("water", "water to it", mix.water_ml, "ml", litres, dry)
    yield FeedFigure("wet", "groundbait, wet", mix.wet_g, "g", wet_kg, bait.rests_on(wet))
    yield FeedFigure("share", "groundbait in the mix", bait.share, "%", percent, share)


def _loose(
    bait: "Bait", key: str, what: str, pints: float, rests_on: tuple[str, ...]
) -> FeedFigure:
    count, basis = round(pints * bait.per_pint), bait.rests_on((*rests_on, "per_pint"))
    return FeedFigure(key, what, pints, "pints", f"{pints:.2f} pints, {count}", basis, count)
