"""Keepnets: what the national byelaws of England and Wales ask of one."""

import math
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.law import FISHERY_BYELAWS
from tacklebox.trade.quantities import write_length
from tacklebox.trade.sources import Source


@dataclass(frozen=True, slots=True)
class KeepnetRule:
    """Measures in mm: least length, widest ring spacing, least ring and greatest mesh size around.

    Source: Environment Agency, national fisheries byelaws. The net must be knotless too.
    """

    length_mm: float = 2000.0
    rings_apart_mm: float = 400.0
    ring_around_mm: float = 1200.0
    hole_around_mm: float = 25.0
    source: Source = FISHERY_BYELAWS


BYELAW = KeepnetRule()
MOST_MM = 20_000.0


@dataclass(frozen=True, slots=True)
class Keepnet:
    """A keepnet as it was measured, in mm; None is what nobody measured or looked at.

    ``ring_around_mm`` and ``hole_around_mm`` are circumferences.
    """

    length_mm: float | None = None
    rings_apart_mm: float | None = None
    ring_around_mm: float | None = None
    hole_around_mm: float | None = None
    knotless: bool | None = None


@dataclass(frozen=True, slots=True)
class NetRule:
    """One rule on a keepnet: what it asks, what the net has ("" if nobody knows), and whether it passes.

    ``by_venue`` says that the venue asks for more than the byelaw.
    """

    asks: str
    has: str
    passes: bool | None
    by_venue: bool = False


def judge_keepnet(net: Keepnet, least_length_mm: float = 0.0) -> tuple[NetRule, ...]:
    """Every rule on a keepnet, in the byelaws' order: mesh, length, rings.

    ``least_length_mm`` is the venue's least length in mm; it counts where it is above the byelaw's
    2 m. A measure that equals the limit passes. Raises AskedWronglyError for a measure of 0 or
    less, or above 20 m. Source: Environment Agency, national fisheries byelaws.

    >>> [rule.passes for rule in judge_keepnet(Keepnet(1900, 400, 1200, 25, True))]
    [True, True, False, True, True]
    >>> judge_keepnet(Keepnet(2500), 3000)[2]
    NetRule(asks='at least 3 m long', has='250 cm long', passes=False, by_venue=True)
    """
    measures = (net.length_mm, net.rings_apart_mm, net.ring_around_mm, net.hole_around_mm)
    if not all(m is None or 0 < m <= MOST_MM for m in measures):
        raise AskedWronglyError(
            "a keepnet's measures are above 0, up to 20 m.", right="Measure it again."
        )
    length, apart, around, hole = measures
    least = max(BYELAW.length_mm, least_length_mm)
    knots = "" if net.knotless is None else "no knots" if net.knotless else "knotted mesh"
    return (
        NetRule("knotless mesh", knots, net.knotless),
        NetRule(
            f"no hole over {BYELAW.hole_around_mm:g} mm around",
            "" if hole is None else f"holes {hole:g} mm around",
            _at_most(hole, BYELAW.hole_around_mm),
        ),
        NetRule(
            f"at least {write_length(least)} long",
            "" if length is None else f"{write_length(length)} long",
            _at_least(length, least),
            by_venue=least > BYELAW.length_mm,
        ),
        NetRule(
            f"rings at most {write_length(BYELAW.rings_apart_mm)} apart",
            "" if apart is None else f"rings {write_length(apart)} apart",
            _at_most(apart, BYELAW.rings_apart_mm),
        ),
        NetRule(
            f"rings at least {write_length(BYELAW.ring_around_mm)} around",
            "" if around is None else f"rings {write_length(around)} around",
            _at_least(around, BYELAW.ring_around_mm),
        ),
    )


def _at_most(has: float | None, most: float) -> bool | None:
    return None if has is None else has <= most or math.isclose(has, most)


def _at_least(has: float | None, least: float) -> bool | None:
    return None if has is None else has >= least or math.isclose(has, least)


def keepnet_words(least_length_mm: float = 0.0) -> str:
    """The byelaw in a sentence, with a venue's greater length where it asks for one.

    >>> keepnet_words(3000).startswith("Keepnet knotless, at least 3 m long")
    True
    """
    length = write_length(max(BYELAW.length_mm, least_length_mm))
    return (
        f"Keepnet knotless, at least {length} long, rings at most "
        f"{write_length(BYELAW.rings_apart_mm)} apart and at least "
        f"{write_length(BYELAW.ring_around_mm)} around, no hole over {BYELAW.hole_around_mm:g} mm "
        f"around ({BYELAW.source.citation})."
    )
