"""Keepnets: what the byelaws of England, and those of Wales alike, ask of one."""

import math
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.law import Country, byelaws_of
from tacklebox.trade.limits import within
from tacklebox.trade.quantities import write_length
from tacklebox.trade.units_first import given_length


@dataclass(frozen=True, slots=True)
class KeepnetRule:
    """What is asked of a keepnet, in mm; what stands here is what the byelaws ask.

    Least length, widest ring spacing (the distance from the top frame to the first ring left out
    of account), least ring and greatest mesh size around; how wide round rings are at least across,
    and square or oblong ones on their shorter side (0: not asked). The mesh must be knotless, and
    not of metal. Sources: National fisheries byelaws, Environment Agency; Natural Resources Wales
    says the same.
    """

    length_mm: float = 2000.0
    rings_apart_mm: float = 400.0
    ring_around_mm: float = 1200.0
    hole_around_mm: float = 25.0
    round_rings_mm: float = 0.0
    square_rings_mm: float = 0.0

    @property
    def laxer(self) -> tuple[str, ...]:
        """The fields that ask for less than the byelaws do; a round ring is π times as far around
        as across.

        >>> KeepnetRule(length_mm=1500, round_rings_mm=400).laxer
        ('length_mm',)
        """
        laxer = {
            "length_mm": self.length_mm < BYELAW.length_mm,
            "rings_apart_mm": self.rings_apart_mm > BYELAW.rings_apart_mm,
            "ring_around_mm": self.ring_around_mm < BYELAW.ring_around_mm,
            "hole_around_mm": self.hole_around_mm > BYELAW.hole_around_mm,
            "round_rings_mm": 0 < self.round_rings_mm < BYELAW.ring_around_mm / math.pi,
        }
        return tuple(name for name, is_laxer in laxer.items() if is_laxer)


BYELAW = KeepnetRule()
MOST_MM = 20_000.0


@dataclass(frozen=True, slots=True)
class Keepnet:
    """A keepnet as it was measured, in mm; None is what nobody measured or looked at.

    ``ring_around_mm`` and ``hole_around_mm`` are circumferences, ``round_mm`` is the diameter of
    round rings, ``square_mm`` the shorter side of square or oblong ones. ``rings_apart_mm`` is the
    widest gap from ring to ring; that from the top frame to the first ring does not count.
    """

    length_mm: float | None = None
    rings_apart_mm: float | None = None
    ring_around_mm: float | None = None
    hole_around_mm: float | None = None
    knotless: bool | None = None
    round_mm: float | None = None
    square_mm: float | None = None
    metal: bool | None = None


@dataclass(frozen=True, slots=True)
class NetRule:
    """One rule on a keepnet: what it asks, what the net has ("" if nobody knows), and whether it passes.

    ``by_venue`` says that the venue asks for more than the byelaw.
    """

    asks: str
    has: str
    passes: bool | None
    by_venue: bool = False


def judge_keepnet(net: Keepnet, asked: KeepnetRule = BYELAW) -> tuple[NetRule, ...]:
    """Every rule on a keepnet, in the byelaws' order: mesh, length, rings; then a venue's on rings.

    ``asked`` is what a venue asks; where it asks for less than the byelaws, they count. A measure
    that equals the limit passes. Where only the diameter of a round ring is known, it is π times
    as far around; a square ring is at least four times its shorter side around. Raises
    AskedWronglyError for a measure of 0 or less, or above 20 m, and for rings that are told twice.
    Source: National fisheries byelaws, Environment Agency; Natural Resources Wales says the same.

    >>> [rule.passes for rule in judge_keepnet(Keepnet(1900, 400, 1200, 25, True, metal=False))]
    [True, True, True, False, True, True]
    >>> judge_keepnet(Keepnet(2500), KeepnetRule(length_mm=3000))[3]
    NetRule(asks='at least 3 m long', has='250 cm long', passes=False, by_venue=True)
    """
    _refuse_impossible(net)
    length = max(BYELAW.length_mm, asked.length_mm)
    apart = min(BYELAW.rings_apart_mm, asked.rings_apart_mm)
    hole = min(BYELAW.hole_around_mm, asked.hole_around_mm)
    has_hole, has_apart = net.hole_around_mm, net.rings_apart_mm
    return (
        NetRule(
            "knotless mesh",
            "" if net.knotless is None else "no knots" if net.knotless else "knotted mesh",
            net.knotless,
        ),
        NetRule(
            "no mesh of metal",
            "" if net.metal is None else "metal mesh" if net.metal else "no metal",
            None if net.metal is None else not net.metal,
        ),
        NetRule(
            f"no hole over {hole:g} mm around",
            "" if has_hole is None else f"holes {has_hole:g} mm around",
            _at_most(has_hole, hole),
            by_venue=hole < BYELAW.hole_around_mm,
        ),
        NetRule(
            f"at least {given_length(write_length(length), length, least=True)} long",
            "" if net.length_mm is None else f"{write_length(net.length_mm)} long",
            _at_least(net.length_mm, length),
            by_venue=length > BYELAW.length_mm,
        ),
        NetRule(
            f"rings at most {given_length(write_length(apart), apart, least=False)} apart below the first",
            "" if has_apart is None else f"rings {write_length(has_apart)} apart",
            _at_most(has_apart, apart),
            by_venue=apart < BYELAW.rings_apart_mm,
        ),
        _judge_around(net, max(BYELAW.ring_around_mm, asked.ring_around_mm)),
        *_judge_across(net, asked),
    )


def _refuse_impossible(net: Keepnet) -> None:
    rings = (net.ring_around_mm, net.round_mm, net.square_mm)
    measures = (net.length_mm, net.rings_apart_mm, net.hole_around_mm, *rings)
    for measure in measures:
        if measure is not None:
            within(measure, 0, MOST_MM, "a measure", "mm", above=True, hint="Measure it again.")
    if net.round_mm is not None and (net.ring_around_mm or net.square_mm):
        raise AskedWronglyError(
            "a round ring is told by its width alone.", right="Leave out the other measure."
        )
    if (
        net.square_mm
        and net.ring_around_mm
        and not _at_least(net.ring_around_mm, 4 * net.square_mm)
    ):
        raise AskedWronglyError(
            f"a ring of {write_length(net.ring_around_mm)} around has no side of "
            f"{write_length(net.square_mm)} for its shorter one.",
            right="Measure it again.",
        )


def _judge_around(net: Keepnet, least: float) -> NetRule:
    asks = f"rings at least {given_length(write_length(least), least, least=True)} around"
    by_venue = least > BYELAW.ring_around_mm
    around = net.ring_around_mm or (net.round_mm and math.pi * net.round_mm)
    if around:
        has, passes = f"rings {write_length(around)} around", _at_least(around, least)
        return NetRule(asks, has, passes, by_venue)
    if net.square_mm and _at_least(4 * net.square_mm, least):
        has = f"rings at least {write_length(4 * net.square_mm)} around"
        return NetRule(asks, has, True, by_venue)
    return NetRule(asks, "", None, by_venue)


def _judge_across(net: Keepnet, asked: KeepnetRule) -> tuple[NetRule, ...]:
    """A venue's rules on how wide rings are: each where the rings are, or may be, of that shape."""
    shapes = (
        ("round", "across", asked.round_rings_mm, net.round_mm, net.square_mm),
        ("square", "on the shorter side", asked.square_rings_mm, net.square_mm, net.round_mm),
    )
    return tuple(
        NetRule(
            f"{shape} rings at least {given_length(write_length(least), least, least=True)} {across}",
            "" if has is None else f"{shape} rings {write_length(has)} {across}",
            _at_least(has, least),
            by_venue=True,
        )
        for shape, across, least, has, other in shapes
        if least and other is None
    )


def _at_most(has: float | None, most: float) -> bool | None:
    return None if has is None else has <= most or math.isclose(has, most)


def _at_least(has: float | None, least: float) -> bool | None:
    return None if has is None else has >= least or math.isclose(has, least)


def keepnet_words(asked: KeepnetRule = BYELAW, country: Country | None = None) -> str:
    """The byelaw in a sentence, with what a venue asks for beyond it.

    >>> keepnet_words(KeepnetRule(length_mm=3000))[:61]
    'Keepnet of knotless mesh, no mesh of metal, at least 3 m long'
    """
    rules = judge_keepnet(Keepnet(), asked)
    mesh, metal, hole, length, *rings = (rule.asks for rule in rules)
    by = " and the venue" if any(rule.by_venue for rule in rules) else ""
    rest = ", ".join((metal, length, *rings, hole))
    return f"Keepnet of {mesh}, {rest} ({byelaws_of(country)}{by})."
