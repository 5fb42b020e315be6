"""Bait for a match: what its file says of feeding, in kilograms, litres and pints."""

from dataclasses import dataclass

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo, field_validator, model_validator

from tacklebox.errors import AskedWronglyError
from tacklebox.trade import feeding as f
from tacklebox.trade.quantities import read_volume_ml, write_mass


class Feed(BaseModel):
    """The table ``[feed]`` of a match file; the keys are the options of ``tacklebox feed``."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)

    feeder: str | None = Field(default=None, min_length=1, max_length=40)
    cast_every: float = 5.0  # minutes
    share: float | None = None  # percent of groundbait in the feeder
    density: float | None = None  # g of wet groundbait to the ml
    water: float | None = None  # ml to 100 g dry
    loose: int | None = None  # particles each time
    loose_every: float = 2.0  # minutes
    per_pint: float | None = None  # particles

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


@dataclass(frozen=True)
class Bait:
    """What a match takes: groundbait in g dry and ml of water, particles in pints and by count."""

    casts: int
    feeder_ml: float
    dry_g: float
    water_ml: float
    feeder_pints: float
    loose: int
    loose_pints: float
    from_memory: bool  # whether a density or a count of ours is in it

    @property
    def words(self) -> tuple[str, ...]:
        """What to take, a line each."""
        told = []
        if self.dry_g:
            told.append(
                f"groundbait {write_mass(round(self.dry_g, -1))} dry, with {self.water_ml / 1000:.2f} l"
                f" of water ({self.casts} casts of {self.feeder_ml:g} ml)"
            )
        if self.feeder_pints:
            told.append(f"particles {self.feeder_pints:.1f} pints for the feeder")
        if self.loose:
            told.append(f"particles {self.loose_pints:.1f} pints to feed by hand ({self.loose})")
        return tuple(told)


def bait_for(feed: Feed, hours: float) -> Bait:
    """What so many hours take by the figures of the match file.

    Raises AskedWronglyError for hours out of their range, and for more particles than can be
    reckoned; see ``trade.feeding``.
    """
    casts, feeder_ml, mix = 0, 0.0, f.Groundbait(0.0, 0.0, 0.0, 0.0)
    if feed.feeder is not None:
        casts, feeder_ml = f.times_in(hours, feed.cast_every), read_volume_ml(feed.feeder)
        mix = f.feeder_mix(
            casts,
            feeder_ml,
            f.HALF if feed.share is None else feed.share / 100,
            f.WET_G_PER_ML if feed.density is None else feed.density,
            f.WATER_ML_PER_G if feed.water is None else feed.water / 100,
        )
    loose = 0
    if feed.loose:
        try:
            loose = f.fed_loose(feed.loose, f.times_in(hours, feed.loose_every))
        except AskedWronglyError as error:
            raise error.at("loose") from None
    unweighed = feed.feeder is not None and (feed.density is None or feed.water is None)
    return Bait(
        casts,
        feeder_ml,
        mix.dry_g,
        mix.water_ml,
        f.pints(mix.particles_ml),
        loose,
        f.particle_pints(loose, feed.per_pint or f.MAGGOTS_PER_PINT),
        unweighed or bool(loose and feed.per_pint is None),
    )
