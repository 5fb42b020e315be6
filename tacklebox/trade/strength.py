"""The strength chain: where a rig breaks, and how sure that is.

Each joint and each plain length of line has a strength, taken as normal with a mean and two
spreads (one standard deviation each): its own, from one knot tied to the next, and its spool's,
for a strain that is only printed; if the print is wrong it is wrong for all joints of the spool
alike. The rig is made so that, if anything goes, the hooklength goes first.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import mul

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Fact, Judgement, Outcome
from tacklebox.trade.knots import BY_NAME, KNOT_SPREAD, KNOTS, PLAIN_SPREAD, Knot, keeps
from tacklebox.trade.line import material_named
from tacklebox.trade.pulls import PRINTED_SPREAD
from tacklebox.trade.quantities import STRAIN_LIMIT_KG, write_strain
from tacklebox.trade.sources import COMMON, INTERFERENCE, MEMORY, PRINTED, Basis, Source

SOUND_FROM = 0.95  # chance that the hooklength goes first; common practice, may be set
LOOK_FROM = 0.80
LEAST_STEP_MM = 0.02  # hooklength below rig line (common practice)
WIDEST_JOIN = 1.5  # diameters, for a line-to-line knot (common practice)
JOINS = ("knot", "loops", "swivel")


@dataclass(frozen=True, slots=True)
class Joint:
    """One place that can break: a knot, a connector or a plain length of line.

    ``mean_kg`` and ``spread_kg`` (one standard deviation) are its strength; ``facts`` the
    figures that went into them. Joints of one ``spool`` share its error: a normal factor of
    1 ± ``spool_share`` on their means. Raises AskedWronglyError unless 0 < mean ≤ 1000 kg,
    0 < spread ≤ mean and 0 ≤ share ≤ 1.
    """

    name: str
    mean_kg: float
    spread_kg: float
    in_hooklength: bool
    facts: tuple[Fact, ...] = ()
    spool: str = ""
    spool_share: float = 0.0

    def __post_init__(self) -> None:
        if not 0 < self.mean_kg <= STRAIN_LIMIT_KG:
            raise AskedWronglyError(
                f"a strength of {self.mean_kg:g} kg makes no sense.",
                where=self.name,
                right=f"It lies above 0, up to {STRAIN_LIMIT_KG:g} kg.",
            )
        if not 0 < self.spread_kg <= self.mean_kg:
            raise AskedWronglyError(
                f"a spread of {self.spread_kg:g} kg makes no sense.",
                where=self.name,
                right="It lies above 0, up to the strength itself.",
            )
        if not 0 <= self.spool_share <= 1:
            raise AskedWronglyError(
                f"a spool's spread of {100 * self.spool_share:g} % makes no sense.",
                where=self.name,
                right="It lies from 0 to 100 %.",
            )

    @property
    def whole_spread_kg(self) -> float:
        """Its own spread and its spool's together, in kg."""
        return math.hypot(self.spread_kg, self.mean_kg * self.spool_share)


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
) -> Joint:
    """A knot in a line, or the plain line where ``knot`` is None.

    Mean = strain × what the knot keeps (all of it for plain line). Its own spread is 8 % of that
    for a knot, 5 % for plain line (from memory); ``spool_share`` is the spread of the strain
    itself as a share of it: 15 % for what is printed (from memory), less once it was pulled. Joints
    that name the same ``spool`` share that error.

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
    mean = breaks_at_kg * kept
    return Joint(name, mean, share * mean, in_hooklength, tuple(facts), spool, spool_share)


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
    whole spreads; of one spool's joints, the error they share counts by the difference of their
    means alone. Source: O'Connor & Kleyner, Practical Reliability Engineering, ch. 5.

    >>> weak, strong = Joint("hook", 1.0, 0.08, True), Joint("swivel", 1.2, 0.06, False)
    >>> round(chance_goes_before(weak, strong), 4)
    0.9772
    """
    shared_a, shared_b = a.mean_kg * a.spool_share, b.mean_kg * b.spool_share
    shared = (shared_a - shared_b,) if a.spool and a.spool == b.spool else (shared_a, shared_b)
    return _below((b.mean_kg - a.mean_kg) / math.hypot(a.spread_kg, b.spread_kg, *shared))


# The trapezoidal rule converges faster than any power for smooth functions that vanish at both
# ends, as all of these do.
_REACH = 6.0  # standard deviations; what lies beyond is below 1e-8 …
_SPOOL_REACH = 5.25  # … and of a spool's error below 2e-7
_STEP = 0.5  # over the pull, in the narrowest whole spread
_SPOOL_STEP = 0.55  # over a spool's error, in the narrowest spread of its joints
_MOST_STEPS = 200_000
_PEAK, _ROOT_HALF = 1 / math.sqrt(2 * math.pi), math.sqrt(0.5)


def chances_first(joints: Sequence[Joint]) -> tuple[float, ...]:
    """For each joint, the chance that it is the weakest of all and goes first.

    Two joints: closed form. More: ∫ φᵢ(x) ∏ⱼ≠ᵢ (1 − Φⱼ(x)) dx by the trapezoidal rule, where the
    joints of one spool are first averaged over the error they share; the chances add up to 1
    within 1e-6. Range: at least one joint, spreads within 1 : 10,000 of one another. Raises
    AskedWronglyError for none.

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
    return _integrated(
        tuple(_Strength(j.mean_kg, j.spread_kg, j.spool, j.mean_kg * j.spool_share) for j in joints)
    )


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


def write_chance(chance: float) -> str:
    """A chance in words, never rounded up: "95.4 %", "over 99.9 %", "under 0.1 %".

    >>> write_chance(0.9996), write_chance(0.94999), write_chance(0.0)
    ('over 99.9 %', '94.9 %', 'under 0.1 %')
    """
    tenths = math.floor(1000 * chance + 1e-9)
    if tenths >= 999:
        return "over 99.9 %"
    return f"{tenths / 10:.1f} %" if tenths >= 1 else "under 0.1 %"


def judge_strength(
    joints: Sequence[Joint], sound_from: float = SOUND_FROM, look_from: float = LOOK_FROM
) -> Judgement:
    """Whether the hooklength goes first, and how sure that is.

    Outcome by ``chance_hooklength_first``: sound from ``sound_from``, look again from
    ``look_from``, else will not do. Raises AskedWronglyError for a rig without joints on
    both sides, or limits out of order.

    >>> judge_strength([Joint("hook knot", 1.0, 0.08, True),
    ...     Joint("rig line's loop", 1.2, 0.06, False)]).outcome.value
    'sound'
    """
    if not 0 < look_from <= sound_from < 1:
        raise AskedWronglyError(
            f"limits of {sound_from:g} (sound) and {look_from:g} (look again) are out of order.",
            right="Both lie between 0 and 1, the one for sound the higher.",
        )
    low, high = weakest_two(joints)
    chance = chance_hooklength_first(joints)
    if chance >= sound_from:
        outcome = Outcome.SOUND
    else:
        outcome = Outcome.LOOK_AGAIN if chance >= look_from else Outcome.WILL_NOT_DO
    gap = high.mean_kg - low.mean_kg
    share = 100 * abs(gap) / max(high.mean_kg, low.mean_kg)
    step = f"{abs(gap):.2f} kg ({share:.0f} %) {'below' if gap >= 0 else 'above'}"
    says = (
        f"the hooklength goes first with a chance of {write_chance(chance)}: its weakest, "
        f"{low.name} at {write_strain(low.mean_kg)}, is {step} the weakest above, "
        f"{high.name} at {write_strain(high.mean_kg)}"
    )
    if outcome is not Outcome.SOUND:
        says += _doubt(low, high)
    method = Fact("method", "stress–strength interference, normal strengths", "", INTERFERENCE)
    facts = (*dict.fromkeys(fact for joint in joints for fact in joint.facts), method)
    formula = "∫ f(x) S(x) dx: f density of the hooklength's least strength, S all above holding"
    return Judgement("strength chain", outcome, says, formula, facts)


def _doubt(low: Joint, high: Joint) -> str:
    """Which spools of the two are known by their print alone, where that is most of the doubt."""
    printed = [j.spool for j in (low, high) if j.mean_kg * j.spool_share > j.spread_kg]
    if not printed or high.mean_kg <= low.mean_kg:
        return ""
    return (
        f"; prints may be {100 * PRINTED_SPREAD:.0f} % out: a pull test of "
        f"{' and of '.join(dict.fromkeys(printed))} would say more"
    )


def _checked_mm(diameter_mm: float, what: str) -> float:
    if not 0 < diameter_mm <= 10:
        raise AskedWronglyError(
            f"a diameter of {diameter_mm:g} mm makes no sense.",
            where=what,
            right="It lies above 0, up to 10 mm.",
        )
    return diameter_mm


def judge_step(rig_line_mm: float, hooklength_mm: float) -> Judgement:
    """Whether the hooklength is a clear step, 0.02 mm, finer than the rig line.

    Arguments: diameters in mm, 0–10. Raises AskedWronglyError outside. Source: common
    practice.

    >>> judge_step(0.14, 0.12).outcome.value, judge_step(0.14, 0.13).outcome.value
    ('sound', 'look again')
    """
    step = _checked_mm(rig_line_mm, "rig line") - _checked_mm(hooklength_mm, "hooklength")
    sound = step >= LEAST_STEP_MM - 1e-9
    lies = "finer than" if step >= 0 else "thicker than"
    says = (
        f"the hooklength ({hooklength_mm:.3g} mm) is {abs(step):.3f} mm {lies} the rig line "
        f"({rig_line_mm:.3g} mm); {LEAST_STEP_MM:.2f} mm finer is usual"
    )
    facts = (
        Fact("rig line's diameter", rig_line_mm, "mm", PRINTED),
        Fact("hooklength's diameter", hooklength_mm, "mm", PRINTED),
        Fact("least step", LEAST_STEP_MM, "mm", COMMON),
    )
    outcome = Outcome.SOUND if sound else Outcome.LOOK_AGAIN
    return Judgement("step down to the hooklength", outcome, says, "rig line − hooklength", facts)


def judge_join(upper_mm: float, lower_mm: float, joined_by: str) -> Judgement:
    """Whether two lines of these diameters may be joined that way.

    ``joined_by`` is "loops", "swivel", "knot" or the name of a line-to-line knot. A knot
    between lines further apart than 1.5 : 1 holds badly. Diameters in mm, 0–10. Raises
    AskedWronglyError outside, or for another join. Source: common practice.

    >>> judge_join(0.25, 0.12, "knot").outcome.value, judge_join(0.25, 0.12, "loops").outcome.value
    ('look again', 'sound')
    """
    named = BY_NAME.get(joined_by.strip().lower())
    if joined_by not in JOINS and (named is None or named.use != "line"):
        known = [*JOINS, *(knot.name for knot in KNOTS if knot.use == "line")]
        raise AskedWronglyError(
            f'"{joined_by}" is no way to join two lines.', right="Known: " + ", ".join(known) + "."
        )
    by_knot = joined_by not in ("loops", "swivel")
    thick, thin = sorted(
        (_checked_mm(upper_mm, "upper line"), _checked_mm(lower_mm, "lower line")), reverse=True
    )
    ratio = thick / thin
    facts = (
        Fact("upper line's diameter", upper_mm, "mm", PRINTED),
        Fact("lower line's diameter", lower_mm, "mm", PRINTED),
        Fact("widest ratio for a knot", WIDEST_JOIN, "", COMMON),
    )
    says = f"{upper_mm:.3g} mm joined to {lower_mm:.3g} mm by "
    says += "a line-to-line knot" if joined_by == "knot" else joined_by
    sound = not by_knot or ratio <= WIDEST_JOIN + 1e-9
    if not sound:
        says += (
            f": {ratio:.1f} to 1 is too far apart for a knot to hold well; use loops or a swivel"
        )
    outcome = Outcome.SOUND if sound else Outcome.LOOK_AGAIN
    return Judgement("join between lines", outcome, says, "thick ÷ thin", facts)
