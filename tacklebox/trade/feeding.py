"""Bait and feed for a day: what goes out in a feeder, and what is fed loose by hand.

Counts to the pint and densities differ between baits and mixes: those here are from memory and
stand only until the angler counts and weighs his own.
"""

import math
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.limits import within, write_figure
from tacklebox.trade.quantities import ML_PER_PINT
from tacklebox.trade.sources import published

HALF = 0.5  # share of groundbait in a feeder's mix (common practice: half and half)
CAST_EVERY_MIN = 5.0  # with a feeder (common practice)
LOOSE_EVERY_MIN = 2.0  # about a dozen maggots each time: a usual start (common practice)
MAGGOTS_PER_PINT = 2750.0  # 2,500 to 3,000 (from memory)
WET_G_PER_ML = 0.9  # groundbait in a feeder, pressed lightly (from memory)
WATER_ML_PER_G = 0.6  # to a gram of dry groundbait (from memory)
CASTER_PINTS = 3 / 5
CASTERS = published('angling-guru.info, "Using casters for bait"')
MOST = 1_000_000.0  # maggots, or casts (our choice)


@dataclass(frozen=True, slots=True)
class Limits:
    """What a figure may be, as the angler gives it: in these units, both ends included."""

    low: float
    high: float
    unit: str


# By the names that feed is asked for by, and that a match's ``[feed]`` has for keys, in their units.
FIGURES = {
    "hours": Limits(0.25, 24, "hours"),
    "feeder": Limits(1, 500, "ml"),
    "cast_every": Limits(0.1, 1440, "minutes"),
    "share": Limits(0, 100, "percent"),
    "density": Limits(0.2, 2, "g to the ml"),
    "water": Limits(0, 300, "ml to 100 g"),
    "loose": Limits(0, MOST, "each time"),
    "loose_every": Limits(0.1, 1440, "minutes"),
    "per_pint": Limits(10, 100_000, "to the pint"),
}


def check_figure(name: str, value: float, typed: str = "") -> float:
    """The figure of that name in ``FIGURES``, in the unit it is given in there.

    ``typed`` is how it was written, where that was more than a number. Raises AskedWronglyError for
    one out of its range.

    >>> check_figure("share", 40)
    40
    """
    limits = FIGURES[name]
    return within(value, limits.low, limits.high, unit=limits.unit, typed=typed)


def fed_in_all(each: int, times: int) -> int:
    """How many maggots, or what else is counted, are fed by hand in all: each time · times.

    Arguments: both from 0. Raises AskedWronglyError for more than 1,000,000.

    >>> fed_in_all(10, 150)
    1500
    """
    if each * times > MOST:
        raise AskedWronglyError(
            f"{each} each time, {times} times, are over {write_figure(MOST)}.",
            right=f"At most {MOST // times:.0f} each time.",
        )
    return each * times


def times_in(hours: float, every_min: float) -> int:
    """How often something is done in so many hours, once each so many minutes.

    ⌊60 · hours / every⌋. Arguments: 0.25 to 24 h; 0.1 to 1440 min. Raises AskedWronglyError
    otherwise.

    >>> times_in(5, 5)  # five hours at a cast each five minutes
    60
    """
    within(hours, 0.25, 24, "a match", "h")
    within(every_min, 0.1, 1440, "an interval", "min")
    return math.floor(60 * hours / every_min + 1e-9)


@dataclass(frozen=True, slots=True)
class Groundbait:
    """Groundbait for a day: dry as it is bought, the water to it, and wet as it is cast."""

    dry_g: float
    water_ml: float
    wet_g: float
    loose_feed_ml: float  # what goes into the feeder beside it


def feeder_mix(
    casts: int,
    feeder_ml: float,
    share: float = HALF,
    wet_g_per_ml: float = WET_G_PER_ML,
    water_ml_per_g: float = WATER_ML_PER_G,
) -> Groundbait:
    """What so many feeders full take: wet = casts · volume · share · density, dry = wet / (1 + water).

    Arguments: casts from 0; the feeder's volume in ml, 1 to 500; the share of groundbait in the
    mix by volume, 0 to 1; wet density 0.2 to 2 g/ml; water to dry, 0 to 3 ml/g (1 ml weighs 1 g).
    Raises AskedWronglyError otherwise. Half and half is common practice, the densities from memory.

    >>> mix = feeder_mix(60, 40, 0.5, 0.8, 0.6)
    >>> round(mix.wet_g), round(mix.dry_g), round(mix.water_ml), mix.loose_feed_ml
    (960, 600, 360, 1200.0)
    """
    within(casts, 0, MOST, "a number of casts")
    within(feeder_ml, 1, 500, "a feeder", "ml")
    within(share, 0, 1, "a share")
    within(wet_g_per_ml, 0.2, 2, "groundbait", "g/ml")
    within(water_ml_per_g, 0, 3, "water", "ml to the gram")
    wet = casts * feeder_ml * share * wet_g_per_ml
    dry = wet / (1 + water_ml_per_g)
    return Groundbait(dry, wet - dry, wet, casts * feeder_ml * (1 - share))


def pints(volume_ml: float) -> float:
    """A volume in imperial pints of 568.261 25 ml (NIST SP 811, appendix B).

    >>> round(pints(1136.5225), 9)
    2.0
    """
    return volume_ml / ML_PER_PINT


def pints_of(count: float, per_pint: float = MAGGOTS_PER_PINT) -> float:
    """Pints that so many maggots, or what else is counted, fill: count / per pint.

    Arguments: count from 0; how many to the pint, 10 to 100 000 (maggots about 2,500 to 3,000,
    from memory). Raises AskedWronglyError otherwise.

    >>> pints_of(5500)
    2.0
    """
    within(count, 0, MOST, "a count")
    return count / within(per_pint, 10, 100_000, "a pint", "maggots")


def caster_pints(maggot_pints: float) -> float:
    """Pints of casters that so many pints of maggots turn into: about three for each five.

    Argument: pints from 0. Raises AskedWronglyError otherwise. Source: angling-guru.info,
    "Using casters for bait".

    >>> round(caster_pints(5), 9)
    3.0
    """
    return CASTER_PINTS * within(maggot_pints, 0, 1000, "maggots", "pints")
