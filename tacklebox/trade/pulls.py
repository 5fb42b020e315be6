"""The angler's own measurements, weighed against what is printed.

What is printed is the prior, a normal with a spread; each reading is a measurement with a
spread of its own. The posterior is again normal, in closed form:
1/σ² = 1/σ₀² + Σ 1/σᵢ², mean = σ² (μ₀/σ₀² + Σ yᵢ/σᵢ²).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.floats import CAPACITY_LIMIT_G
from tacklebox.trade.knots import KNOT_SPREAD, PLAIN_SPREAD, Knot, keeps
from tacklebox.trade.limits import within
from tacklebox.trade.line import material_named
from tacklebox.trade.quantities import MASS_LIMIT_G, STRAIN_LIMIT_KG
from tacklebox.trade.sources import MEASURED, PRINTED, SHOT_GUIDE, Source

PRINTED_SPREAD = 0.15  # of what is printed: a line's strain, a shot's or float's mass (memory)
KNOT_PRIOR_SPREAD = 0.10  # of a knot's middle value, from angler to angler (from memory)
SCALE_G = 0.01  # a pocket scale's spread at one weighing (from memory)
STRETCH_SPREAD = 0.10  # of an elastic's pull, read at three to four lengths (from memory)
BUCKET_G = 0.02  # a capacity is found to one No 12 (from memory)


@dataclass(frozen=True, slots=True)
class Estimate:
    """A figure as far as it is known: mean and spread (one standard deviation), in the
    unit of the figure; how many readings are in it, and what it rests on."""

    mean: float
    spread: float
    readings: int
    source: Source


@dataclass(frozen=True, slots=True)
class Pull:
    """One pull test on a spool: what the balance showed, in kg, and the knot it was
    tied with (None for plain line)."""

    breaks_at_kg: float
    knot: Knot | None = None


def posterior(
    prior: tuple[float, float] | None, readings: Sequence[tuple[float, float]]
) -> tuple[float, float]:
    """Mean and spread of a normal figure after readings, each (value, spread).

    1/σ² = 1/σ₀² + Σ 1/σᵢ²; mean = σ² (μ₀/σ₀² + Σ yᵢ/σᵢ²). With ``prior`` None nothing was known
    before. All spreads above 0. Raises AskedWronglyError for a spread that is not, a figure that is
    not finite, or nothing at all to go by. Source: conjugate normal, any text on
    Bayesian statistics.

    >>> mean, spread = posterior((2.0, 0.3), [(1.7, 0.1), (1.8, 0.1)])
    >>> round(mean, 4), round(spread, 4)
    (1.7632, 0.0688)
    """
    known = [*([prior] if prior else []), *readings]
    if not known:
        raise AskedWronglyError(
            "there is nothing to go by.", right="Give a printed figure or a reading."
        )
    if not all(math.isfinite(value) and 0 < spread < math.inf for value, spread in known):
        raise AskedWronglyError(
            "a figure or its spread cannot be right.", right="Spreads lie above 0."
        )
    precision = math.fsum(spread**-2 for _, spread in known)
    mean = math.fsum(value * spread**-2 for value, spread in known) / precision
    return mean, precision**-0.5


def strain_from_pulls(
    printed_kg: float | None, pulls: Sequence[Pull], material: str = "nylon"
) -> Estimate:
    """A line's strain, in kg, from what is printed and the angler's own pulls.

    Prior: printed, spread 15 % of it (from memory). Plain pull: spread 5 %; knotted: the
    reading divided by what the knot keeps, spread 8 %; shares of the mean reading of that
    kind. Range: strains above 0, up to 1000 kg. Raises AskedWronglyError outside, and when there is
    neither print nor pull.

    >>> tested = strain_from_pulls(2.0, [Pull(1.7), Pull(1.8)])
    >>> round(tested.mean, 2), round(tested.spread, 2), tested.source.basis.value
    (1.76, 0.06, 'own measurement')
    """
    name = material_named(material).name
    for kg in [*([] if printed_kg is None else [printed_kg]), *(p.breaks_at_kg for p in pulls)]:
        _check(kg, STRAIN_LIMIT_KG, "strain", "kg")
    plain = [pull.breaks_at_kg for pull in pulls if pull.knot is None]
    knotted = [p.breaks_at_kg / keeps(p.knot, name) for p in pulls if p.knot is not None]
    prior = None if printed_kg is None else (printed_kg, PRINTED_SPREAD * printed_kg)
    mean, spread = posterior(prior, [*_each(plain, PLAIN_SPREAD), *_each(knotted, KNOT_SPREAD)])
    return Estimate(mean, spread, len(pulls), MEASURED if pulls else PRINTED)


def _each(readings: Sequence[float], share: float) -> list[tuple[float, float]]:
    """Readings with one spread for all: a share of each reading alone would favour low ones."""
    if not readings:
        return []
    spread = share * math.fsum(readings) / len(readings)
    return [(reading, spread) for reading in readings]


def _check(value: float, limit: float, what: str, unit: str) -> None:
    within(value, 0, limit, f"a {what}", unit, above=True)


def knot_from_pulls(
    knot: Knot, material: str, knotted_kg: Sequence[float], line: Estimate
) -> Estimate:
    """The share of the line's strength that the angler's own knot keeps.

    Prior: the knot's middle value, spread 10 % of it (from memory). The mean of n knotted
    pulls ȳ over the line's strain L is one measurement, spread ȳ/L · √(0.08²/n + (σL/L)²): the
    line's uncertainty is in all pulls alike and does not average out. ``line`` must not rest on the same
    pulls. Range: pulls above 0, up to 1000 kg. Raises AskedWronglyError outside.

    >>> from tacklebox.trade.knots import knot_named
    >>> mine = knot_from_pulls(
    ...     knot_named("half blood"), "nylon", [1.4, 1.5, 1.45], strain_from_pulls(2.0, [Pull(2.0)]))
    >>> 0.73 < mine.mean < 0.85
    True
    """
    middle = keeps(knot, material_named(material).name)
    prior = (middle, KNOT_PRIOR_SPREAD * middle)
    if not knotted_kg:
        return Estimate(*prior, 0, knot.source)
    for kg in knotted_kg:
        _check(kg, STRAIN_LIMIT_KG, "pull", "kg")
    _check(line.mean, STRAIN_LIMIT_KG, "strain", "kg")
    number = len(knotted_kg)
    share = math.fsum(knotted_kg) / number / line.mean
    spread = share * math.hypot(KNOT_SPREAD / math.sqrt(number), line.spread / line.mean)
    return Estimate(*posterior(prior, [(share, spread)]), number, MEASURED)


def knotted_from_pulls(
    knot: Knot, material: str, knotted_kg: Sequence[float], line: Estimate
) -> Estimate:
    """What the angler's own knot holds in one line, in kg, from pulls on that line with it.

    Prior: the line's strain × what the knot keeps, spread that of both together (the knot's 10 %,
    from memory); each knotted pull a measurement, spread 8 % of their mean. ``line`` must not rest on
    the same pulls. Range: pulls above 0, up to 1000 kg. Raises AskedWronglyError outside.

    >>> from tacklebox.trade.knots import knot_named
    >>> holds = knotted_from_pulls(
    ...     knot_named("half blood"), "nylon", [1.4, 1.5], strain_from_pulls(2.0, []))
    >>> round(holds.mean, 2), holds.source.basis.value
    (1.46, 'own measurement')
    """
    kept = keeps(knot, material_named(material).name)
    for kg in knotted_kg:
        _check(kg, STRAIN_LIMIT_KG, "pull", "kg")
    prior = (line.mean * kept, kept * math.hypot(line.spread, KNOT_PRIOR_SPREAD * line.mean))
    mean, spread = posterior(prior, _each(knotted_kg, KNOT_SPREAD))
    return Estimate(mean, spread, len(knotted_kg), MEASURED if knotted_kg else line.source)


def shot_from_weighings(
    nominal_g: float,
    weighings: Sequence[tuple[int, float]],
    *,
    scale_g: float = SCALE_G,
    source: Source = SHOT_GUIDE,
) -> Estimate:
    """Mass of one shot, in g, from its nominal mass and weighings of (count, g in all).

    Prior: nominal, spread 15 % (from memory); a weighing of n together tells one to
    ``scale_g`` / n. Range: masses above 0; counts from 1. Raises AskedWronglyError outside.

    >>> weighed = shot_from_weighings(0.06, [(20, 1.32)])
    >>> round(weighed.mean, 3), round(weighed.spread, 4)
    (0.066, 0.0005)
    """
    _check(nominal_g, MASS_LIMIT_G, "shot", "g")
    for count, total_g in weighings:
        _check(total_g, MASS_LIMIT_G, "weighing", "g")
        if count < 1:
            raise AskedWronglyError(f"{count} shot cannot be weighed.", right="Weigh about twenty.")
    readings = [(total_g / count, scale_g / count) for count, total_g in weighings]
    mean, spread = posterior((nominal_g, PRINTED_SPREAD * nominal_g), readings)
    return Estimate(mean, spread, len(weighings), MEASURED if weighings else source)


def own_mass_from_weighings(
    weighings: Sequence[tuple[int, float]], *, scale_g: float = SCALE_G
) -> Estimate:
    """Mass of one hook or float, in g, from weighings of (count, g in all); none is printed on it.

    A weighing of n together says one to ``scale_g`` / n. Range: masses above 0, counts from 1. Raises
    AskedWronglyError outside, and for none.

    >>> weighed = own_mass_from_weighings([(20, 0.2)])
    >>> round(1000 * weighed.mean, 1), round(1000 * weighed.spread, 1)
    (10.0, 0.5)
    """
    for count, total_g in weighings:
        _check(total_g, MASS_LIMIT_G, "weighing", "g")
        if count < 1:
            raise AskedWronglyError(
                f"{count} cannot be weighed.", right="Weigh twenty hooks, or a float."
            )
    readings = [(total_g / count, scale_g / count) for count, total_g in weighings]
    mean, spread = posterior(None, readings)
    return Estimate(mean, spread, len(weighings), MEASURED)


def capacity_from_bucket(
    printed_g: float | None, measured_g: Sequence[float], *, source: Source = PRINTED
) -> Estimate:
    """A float's capacity, in g, from its mark and what it took in a bucket.

    Prior: the mark, spread 15 % (from memory); each measurement to 0.02 g, one No 12.
    Range: above 0, up to 100 g. Raises AskedWronglyError outside, and when there is neither.

    >>> round(capacity_from_bucket(2.0, [1.86, 1.88]).mean, 2)
    1.87
    """
    for mass_g in [*([] if printed_g is None else [printed_g]), *measured_g]:
        _check(mass_g, CAPACITY_LIMIT_G, "float capacity", "g")
    prior = None if printed_g is None else (printed_g, PRINTED_SPREAD * printed_g)
    mean, spread = posterior(prior, [(mass_g, BUCKET_G) for mass_g in measured_g])
    return Estimate(mean, spread, len(measured_g), MEASURED if measured_g else source)


def stretch_from_readings(readings_kg: Sequence[float]) -> Estimate:
    """What an elastic pulls at three to four times its length, in kg, from readings of it.

    Each reading has a spread of 10 % (from memory: three lengths or four). Range: above 0, up to
    1000 kg. Raises AskedWronglyError outside, and for none.

    >>> round(stretch_from_readings([0.22, 0.26]).mean, 2)
    0.24
    """
    for kg in readings_kg:
        _check(kg, STRAIN_LIMIT_KG, "pull", "kg")
    mean, spread = posterior(None, _each(readings_kg, STRETCH_SPREAD))
    return Estimate(mean, spread, len(readings_kg), MEASURED)
