"""The strength chain: where a rig breaks, and how sure that is.

Each joint and each plain length of line has a strength, taken as normal with a mean and three
spreads (one standard deviation each): its own, from one knot tied to the next; its spool's, for a
strain that is only printed, since a print that is wrong is wrong for all joints of the spool alike;
and its maker's, since the prints of one maker err together.

A pair of joints has a closed form. More are integrated by the trapezoidal rule, each spool averaged
over its error first; the steps were chosen for 1e-6.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import mul

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Fact
from tacklebox.trade.knots import KNOT_SPREAD, PLAIN_SPREAD, Knot, keeps
from tacklebox.trade.limits import within
from tacklebox.trade.line import material_named
from tacklebox.trade.pulls import PRINTED_SPREAD
from tacklebox.trade.quantities import STRAIN_LIMIT_KG
from tacklebox.trade.sources import MEMORY, PRINTED, Basis, Source

MAKERS_PART = 0.5  # of the variance of a print, what all prints of one maker share (from memory)


@dataclass(frozen=True, slots=True)
class Joint:
    """One place that can break: a knot, a connector or a plain length of line.

    ``mean_kg`` and ``spread_kg`` (one standard deviation) are its strength; ``facts`` the
    figures that went into them, ``called`` its name within the hooklength or what is above it.
    Joints of one ``spool`` share its error, a normal factor of 1 ± ``spool_share`` on their means,
    and joints of one ``maker``, however his name is spelt, that of his, 1 ± ``maker_share``.
    Raises AskedWronglyError unless 0 < mean ≤ 1000 kg, 0 < spread ≤ mean and the shares lie from
    0 to 1.
    """

    name: str
    mean_kg: float
    spread_kg: float
    in_hooklength: bool
    facts: tuple[Fact, ...] = ()
    spool: str = ""
    spool_share: float = 0.0
    maker: str = ""
    maker_share: float = 0.0
    called: str = ""

    def __post_init__(self) -> None:
        within(self.mean_kg, 0, STRAIN_LIMIT_KG, "a strength", "kg", above=True, where=self.name)
        within(self.spread_kg, 0, self.mean_kg, "a spread", "kg", above=True, where=self.name)
        for whose, share in (("spool", self.spool_share), ("maker", self.maker_share)):
            within(100 * share, 0, 100, f"a {whose}'s spread", "%", where=self.name)

    @property
    def makers_print(self) -> str:
        """Whose error it shares: the maker's name, small letters and capitals alike."""
        return self.maker.casefold() if self.maker_share else ""

    @property
    def whole_spread_kg(self) -> float:
        """Its own spread, its spool's and its maker's together, in kg."""
        shared = math.hypot(self.spool_share, self.maker_share)
        return math.hypot(self.spread_kg, self.mean_kg * shared)


@lru_cache(maxsize=4096)  # rigs of one plan are tied of the same lines by the same knots
def line_joint(
    name: str,
    material: str,
    breaks_at_kg: float,
    knot: Knot | None,
    in_hooklength: bool,
    *,
    spool: str = "",
    spool_share: float = PRINTED_SPREAD,
    strain_source: Source = PRINTED,
    maker: str = "",
    called: str = "",
) -> Joint:
    """A knot in a line, or the plain line where ``knot`` is None.

    Mean = strain × what the knot keeps (all of it for plain line). Its own spread is 8 % of that
    for a knot, 5 % for plain line (from memory); ``spool_share`` is the spread of the strain
    itself as a share of it: 15 % for what is printed (from memory), less once it was pulled. Joints
    that name the same ``spool`` share that error; of what is only printed, joints of one ``maker``
    share half of its variance (from memory).

    Range: strain above 0, up to 1000 kg. Raises AskedWronglyError for an unknown material or a
    strain or share outside.

    >>> from tacklebox.trade.knots import knot_named
    >>> joint = line_joint("hook", "nylon", 1.0, knot_named("palomar"), True)
    >>> joint.mean_kg, round(joint.spread_kg, 3), round(joint.whole_spread_kg, 3)
    (0.9, 0.072, 0.153)
    """
    kept = 1.0 if knot is None else keeps(knot, material_named(material).name)
    share = PLAIN_SPREAD if knot is None else KNOT_SPREAD
    facts = [Fact(f"{name}: line's strain", breaks_at_kg, "kg", strain_source)]
    if knot is not None:
        facts.append(Fact(f"{name}: {knot.name} keeps", 100 * kept, "%", knot.source))
    facts.append(Fact(f"{name}: spread", 100 * share, "%", MEMORY))
    if spool_share:
        basis = MEMORY if strain_source.basis is Basis.PRINTED else strain_source
        facts.append(Fact(f"{name}: spread of the spool's strain", 100 * spool_share, "%", basis))
    own, makers, shared = print_errors(name, spool_share, maker, strain_source)
    mean = breaks_at_kg * kept
    every = (*facts, *shared)
    return Joint(name, mean, share * mean, in_hooklength, every, spool, own, maker, makers, called)


def print_errors(
    name: str, share: float, maker: str, source: Source
) -> tuple[float, float, tuple[Fact, ...]]:
    """What of a strain's spread is the spool's own and what its maker's, and the fact of it.

    Both are shares of the strain, and their squares add up to that of ``share``. Nothing is the
    maker's where he is not noted, or where the strain is more than what is printed.
    Range: share 0–1. Source: half of the variance, from memory.

    >>> own, makers, _ = print_errors("loop", 0.15, "A", PRINTED)
    >>> round(own, 4), round(makers, 4)
    (0.1061, 0.1061)
    """
    if not maker or source.basis is not Basis.PRINTED:
        return share, 0.0, ()
    fact = Fact(f"{name}: of its variance maker {maker}'s", 100 * MAKERS_PART, "%", MEMORY)
    return share * math.sqrt(1 - MAKERS_PART), share * math.sqrt(MAKERS_PART), (fact,)


def rated_joint(name: str, rated_kg: float, in_hooklength: bool, source: Source = PRINTED) -> Joint:
    """A swivel, snap link or other connector of that rating in kg, with plain line's spread."""
    facts = (
        Fact(f"{name}: rated", rated_kg, "kg", source),
        Fact(f"{name}: spread", 100 * PLAIN_SPREAD, "%", MEMORY),
    )
    return Joint(name, rated_kg, PLAIN_SPREAD * rated_kg, in_hooklength, facts)


def _below(x: float) -> float:
    """Φ(x), the normal distribution function; exact in both tails."""
    return 0.5 * math.erfc(-x / math.sqrt(2))


def chance_goes_before(a: Joint, b: Joint) -> float:
    """Chance that joint ``a`` breaks before joint ``b`` under the same pull.

    Φ((B − A)/√(σA² + σB²)), stress–strength interference of two normal strengths, σ being the
    whole spreads; of joints of one spool or maker, the error they share counts by the difference of
    their means alone. Source: O'Connor & Kleyner, Practical Reliability Engineering, ch. 5.

    >>> weak, strong = Joint("hook", 1.0, 0.08, True), Joint("swivel", 1.2, 0.06, False)
    >>> round(chance_goes_before(weak, strong), 4)
    0.9772
    """
    spools = _errors(a.mean_kg * a.spool_share, b.mean_kg * b.spool_share, a.spool, b.spool)
    makers = _errors(
        a.mean_kg * a.maker_share, b.mean_kg * b.maker_share, a.makers_print, b.makers_print
    )
    spread = math.hypot(a.spread_kg, b.spread_kg, *spools, *makers)
    return _below((b.mean_kg - a.mean_kg) / spread)


def _errors(of_a: float, of_b: float, a: str, b: str) -> tuple[float, ...]:
    """What two joints err by: apart, or where both have it from one source the difference."""
    return (of_a - of_b,) if a and a == b else (of_a, of_b)


# The trapezoidal rule converges faster than any power for smooth functions that vanish at both
# ends, as all of these do.
_REACH = 6.0  # standard deviations; what lies beyond is below 1e-8 …
_SPOOL_REACH = 5.25  # … and of a spool's error below 2e-7
_STEP = 0.5  # over the pull, in the narrowest whole spread
_SPOOL_STEP = 0.7  # over a spool's error, in the narrowest spread of its joints
_MOST_STEPS = 200_000
# Gauss–Hermite's nodes and weights for a normal error, in standard deviations.
_HERMITE = (
    (-4.512745863399783, 2.2345844007746607e-05),
    (-3.20542900285647, 0.0027891413212317692),
    (-2.07684797867783, 0.04991640676521782),
    (-1.0232556637891326, 0.24409750289493953),
    (0.0, 0.40634920634920635),
    (1.0232556637891326, 0.24409750289493953),
    (2.07684797867783, 0.04991640676521782),
    (3.20542900285647, 0.0027891413212317692),
    (4.512745863399783, 2.2345844007746607e-05),
)
_PEAK, _ROOT_HALF = 1 / math.sqrt(2 * math.pi), math.sqrt(0.5)


def chances_first(joints: Sequence[Joint]) -> tuple[float, ...]:
    """For each joint, the chance that it is the weakest of all and goes first.

    Two joints: closed form. More: ∫ φᵢ(x) ∏ⱼ≠ᵢ (1 − Φⱼ(x)) dx by the trapezoidal rule, where the
    joints of one spool are first averaged over the error they share; a maker's error that several
    spools share is averaged over by Gauss–Hermite's rule. The chances add up to 1 within 1e-6.
    Range: at least one joint, spreads within 1 : 10,000 of one another. Raises AskedWronglyError for
    none.

    >>> even = [Joint(str(n), 1.0, 0.08, False) for n in range(4)]
    >>> [round(chance, 6) for chance in chances_first(even)]
    [0.25, 0.25, 0.25, 0.25]
    """
    if not joints:
        raise AskedWronglyError("a rig with no joints cannot break.", right="Give it some line.")
    if len(joints) == 1:
        return (1.0,)
    if len(joints) == 2:
        first = chance_goes_before(*joints)
        return (first, chance_goes_before(joints[1], joints[0]))
    named = dict.fromkeys(j.makers_print for j in joints)
    makers = [maker for maker in named if _is_shared(maker, joints)]
    return _averaged(joints, makers)


def _is_shared(maker: str, joints: Sequence[Joint]) -> bool:
    """Whether several spools have that maker's error: one spool's is as good as its own."""
    spools = {
        n if not j.spool else j.spool for n, j in enumerate(joints) if j.makers_print == maker
    }
    return bool(maker) and len(spools) > 1


def _averaged(
    joints: Sequence[Joint], makers: Sequence[str], off: Mapping[str, float] | None = None
) -> tuple[float, ...]:
    """The chances averaged over the errors of those makers; ``off`` are those already chosen, in
    standard deviations."""
    off = off or {}
    if not makers:
        return _integrated(tuple(_strength(joint, off) for joint in joints))
    sums = [0.0] * len(joints)
    for node, weight in _HERMITE:
        chances = _averaged(joints, makers[1:], {**off, makers[0]: node})
        sums = [total + weight * chance for total, chance in zip(sums, chances, strict=True)]
    return tuple(sums)


def _strength(joint: Joint, off: Mapping[str, float]) -> "_Strength":
    """A joint's figures; the error of a maker that is in no other spool counts as its spool's."""
    if joint.makers_print in off:
        mean = joint.mean_kg * (1 + joint.maker_share * off[joint.makers_print])
        return _Strength(mean, joint.spread_kg, joint.spool, joint.mean_kg * joint.spool_share)
    shared = math.hypot(joint.spool_share, joint.maker_share)
    return _Strength(joint.mean_kg, joint.spread_kg, joint.spool, joint.mean_kg * shared)


@dataclass(frozen=True, slots=True)
class _Strength:
    """The figures of a joint alone: its mean, its own spread and its spool's, all in kg."""

    mean: float
    own: float
    spool: str
    shared: float

    @property
    def whole(self) -> float:
        return math.hypot(self.own, self.shared)


@lru_cache(maxsize=256)  # one check asks for the same chain more than once
def _integrated(joints: tuple[_Strength, ...]) -> tuple[float, ...]:
    # Joints that begin where the weakest has surely gone have no part in it.
    gone = min(joint.mean + _REACH * joint.whole for joint in joints)
    near = [n for n, joint in enumerate(joints) if joint.mean - _REACH * joint.whole < gone]
    start = min(joints[n].mean - _REACH * joints[n].whole for n in near)
    step = _STEP * min(joints[n].whole for n in near)
    step = max(step, (gone - start) / _MOST_STEPS)
    pulls = [start + step * k for k in range(int((gone - start) / step) + 2)]
    spools: dict[str, list[int]] = {}
    for n in near:
        spools.setdefault(joints[n].spool or f" {n}", []).append(n)
    groups = [_Group({n: joints[n] for n in those}, pulls) for those in spools.values()]
    chances = [0.0] * len(joints)
    for group in groups:
        holding = [step] * len(pulls)
        for other in groups:
            if other is not group:
                holding = list(map(mul, holding, other.holds))
        for n, goes in group.goes.items():
            chances[n] = sum(map(mul, goes, holding))
    return tuple(chances)


class _Group:
    """The joints of one spool, or a single joint: at each pull the chance that all of them
    hold, and for each the density that it goes there and first of them."""

    def __init__(self, joints: Mapping[int, _Strength], pulls: Sequence[float]) -> None:
        self.pulls = pulls
        self.holds = [0.0] * len(pulls)
        self.goes = {n: [0.0] * len(pulls) for n in joints}
        shared = max(joint.shared for joint in joints.values())
        if len(joints) == 1 or not shared:
            self._add(1.0, [(n, joint.mean, joint.whole) for n, joint in joints.items()])
            return
        step = min(1.0, _SPOOL_STEP * min(joint.own for joint in joints.values()) / shared)
        step = max(step, 2 * _SPOOL_REACH / _MOST_STEPS)
        for k in range(-int(_SPOOL_REACH / step), int(_SPOOL_REACH / step) + 1):
            off = k * step
            moved = [(n, joint.mean + off * joint.shared, joint.own) for n, joint in joints.items()]
            self._add(step * _PEAK * math.exp(-0.5 * off * off), moved)

    def _add(self, weight: float, normals: Sequence[tuple[int, float, float]]) -> None:
        """Add independent normal strengths, each (joint, mean, spread), with that weight."""
        first = min(mean - _REACH * spread for _, mean, spread in normals)
        last = min(mean + _REACH * spread for _, mean, spread in normals)
        begin, end = bisect_left(self.pulls, first), bisect_right(self.pulls, last)
        near, exp, erfc = self.pulls[begin:end], math.exp, math.erfc
        all_hold, rates = [weight] * len(near), []
        for n, mean, spread in normals:
            over, peak = 1 / spread, _PEAK / spread
            sigmas = [(x - mean) * over for x in near]
            holds = [0.5 * erfc(z * _ROOT_HALF) for z in sigmas]
            all_hold = list(map(mul, all_hold, holds))
            goes = [peak * exp(-0.5 * z * z) / h for z, h in zip(sigmas, holds, strict=True)]
            rates.append((self.goes[n], goes))
        held = self.holds
        for k in range(begin):
            held[k] += weight
        for k, holding in enumerate(all_hold, begin):
            held[k] += holding
        for sums, rate in rates:
            for k, goes_first in enumerate(map(mul, all_hold, rate), begin):
                sums[k] += goes_first


def chance_hooklength_first(joints: Sequence[Joint]) -> float:
    """Chance that the weakest joint of the hooklength goes before all joints above it.

    ∫ f(x) S(x) dx, with f the density of the hooklength's least strength and S the chance
    that everything above holds: the sum of ``chances_first`` over the hooklength. Raises
    AskedWronglyError when there is no joint in the hooklength, or none above it.

    >>> round(chance_hooklength_first(
    ...     [Joint("hook", 1.0, 0.08, True), Joint("swivel", 1.2, 0.06, False)]), 4)
    0.9772
    """
    weakest_two(joints)
    chances = chances_first(joints)
    return min(1.0, sum(c for c, j in zip(chances, joints, strict=True) if j.in_hooklength))


def weakest_two(joints: Sequence[Joint]) -> tuple[Joint, Joint]:
    """The weakest joint (by its mean) of the hooklength, and the weakest above it.

    Raises AskedWronglyError when either side has none.
    """
    hooklength = [j for j in joints if j.in_hooklength]
    above = [j for j in joints if not j.in_hooklength]
    if not hooklength:
        raise AskedWronglyError(
            "there is no joint in a hooklength, so nothing is made to go first.",
            right="Give the rig a hooklength with its hook knot.",
        )
    if not above:
        raise AskedWronglyError(
            "there is no joint above the hooklength to compare it with.",
            right="Give the rig its rig line or main line.",
        )
    return min(hooklength, key=_mean), min(above, key=_mean)


def _mean(joint: Joint) -> float:
    return joint.mean_kg
