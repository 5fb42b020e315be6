"""Bait for a match: what its file says of feeding, in kilograms, litres and pints."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo, field_validator, model_validator

from tacklebox.errors import AskedWronglyError
from tacklebox.trade import feeding as f
from tacklebox.trade.quantities import read_volume_ml
from tacklebox.trade.sources import Basis
from tacklebox.trade.units_first import show_mass


class Feed(BaseModel):
    """The table ``[feed]`` of a match file; what it does not say is as usual."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)

    feeder: str | None = Field(default=None, min_length=1, max_length=40)
    cast_every: float | None = None  # minutes
    share: float | None = None  # percent of groundbait in the feeder
    density: float | None = None  # g of wet groundbait to the ml
    water: float | None = None  # ml to 100 g dry
    loose: int | None = None  # maggots, or what else is counted, each time
    loose_every: float | None = None  # minutes
    per_pint: float | None = None  # of them

    @field_validator("*")
    @classmethod
    def _is_in_range(cls, value: str | float | None, info: ValidationInfo) -> str | float | None:
        name = str(info.field_name)
        try:
            if isinstance(value, str):
                f.check_figure(name, read_volume_ml(value), value)
            elif value is not None:
                f.check_figure(name, value)
        except AskedWronglyError as error:
            raise ValueError(str(error)) from None
        return value

    @model_validator(mode="after")
    def _feeds_something(self) -> "Feed":
        if self.feeder is None and self.loose is None:
            raise ValueError('nothing is fed; give feeder = "40 ml", or loose = 10, or both')
        return self


FEED_KEYS = tuple(Feed.model_fields)


class Usual(NamedTuple):
    """A figure that is taken where nobody says another, in the unit it is said in."""

    value: float
    basis: Basis


USUAL = {
    "cast_every": Usual(f.CAST_EVERY_MIN, Basis.COMMON),
    "share": Usual(100 * f.HALF, Basis.COMMON),
    "density": Usual(f.WET_G_PER_ML, Basis.MEMORY),
    "water": Usual(100 * f.WATER_ML_PER_G, Basis.MEMORY),
    "loose_every": Usual(f.LOOSE_EVERY_MIN, Basis.COMMON),
    "per_pint": Usual(f.MAGGOTS_PER_PINT, Basis.MEMORY),
}


@dataclass(frozen=True)
class Bait:
    """What a match takes: groundbait in g dry and ml of water, loose feed in pints and by count.

    ``share`` is the percentage of groundbait in the feeder, ``per_pint`` how many go to the pint.
    """

    feed: Feed
    casts: int
    feeder_ml: float
    share: float
    groundbait: f.Groundbait
    times: int  # that loose feed is thrown in by hand
    loose: int  # in all, by hand
    per_pint: float

    @property
    def feeder_pints(self) -> float:
        """Loose feed for the feeder."""
        return f.pints(self.groundbait.loose_feed_ml)

    @property
    def loose_pints(self) -> float:
        """Loose feed by hand."""
        return f.pints_of(self.loose, self.per_pint)

    def rests_on(self, names: Sequence[str]) -> Basis:
        """What a figure rests on that comes of those: as given, or the weakest of the usual ones."""
        firmness = list(Basis)
        used = (USUAL[name].basis for name in names if getattr(self.feed, name) is None)
        return min(used, key=firmness.index, default=Basis.GIVEN)

    @property
    def words(self) -> tuple[str, ...]:
        """What to take, a line each."""
        words = []
        if self.groundbait.dry_g:
            dry, litres = self.groundbait.dry_g, self.groundbait.water_ml / 1000
            words.append(
                f"groundbait {show_mass(round(dry, -1))} dry, with {litres:.2f} l of water "
                f"({self.casts} casts of {self.feeder_ml:g} ml)"
            )
        if self.feeder_pints:
            words.append(f"loose feed {self.feeder_pints:.1f} pints for the feeder")
        if self.loose:
            words.append(f"loose feed {self.loose_pints:.1f} pints by hand ({self.loose})")
        return tuple(words)

    @property
    def from_memory(self) -> bool:
        """Whether a density or a count of ours is in it."""
        counted = ("per_pint",) if self.loose else ()
        weighed = ("density", "water") if self.feed.feeder is not None else ()
        return self.rests_on((*counted, *weighed)) is Basis.MEMORY


def bait_for(feed: Feed, hours: float) -> Bait:
    """What so many hours take, the usual figures put in where the feed does not say its own.

    Raises AskedWronglyError for hours out of their range, and for more loose feed than can be
    reckoned, naming the field "loose"; see ``trade.feeding``.
    """
    figures = {
        name: usual.value if (said := getattr(feed, name)) is None else said
        for name, usual in USUAL.items()
    }
    casts, feeder_ml, mix = 0, 0.0, f.Groundbait(0.0, 0.0, 0.0, 0.0)
    if feed.feeder is not None:
        casts, feeder_ml = f.times_in(hours, figures["cast_every"]), read_volume_ml(feed.feeder)
        mix = f.feeder_mix(
            casts, feeder_ml, figures["share"] / 100, figures["density"], figures["water"] / 100
        )
    times = loose = 0
    if feed.loose is not None:
        times = f.times_in(hours, figures["loose_every"])
        try:
            loose = f.fed_in_all(feed.loose, times)
        except AskedWronglyError as error:
            raise error.in_field("loose") from None
    return Bait(feed, casts, feeder_ml, figures["share"], mix, times, loose, figures["per_pint"])
