"""Whether the hooklength breaks first: how sure that is, and what a pull test would change."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Check, Fact, Judgement, Outcome
from tacklebox.trade.knots import PLAIN_SPREAD
from tacklebox.trade.sources import INTERFERENCE, OUR_CHOICE, Source, weakest
from tacklebox.trade.strength import Joint, chance_hooklength_first, weakest_two
from tacklebox.trade.units_first import show_both_strains, show_strain

SOUND_FROM = 0.90  # chance that the hooklength breaks first (our choice, may be set)
DOUBTFUL_FROM = 0.50
PULLS = (2, 3, 5)  # of each spool: what an angler may be asked for (our choice)
_NUMBERS = {2: "two pulls", 3: "three pulls", 5: "five pulls"}


def write_times(chance: float) -> str:
    """A chance in whole times, never rounded up: in 10, from 90 % in 100.

    >>> write_times(0.9996), write_times(0.968), write_times(0.89), write_times(0.04)
    ('more than 99 times in 100', '96 times in 100', '8 times in 10', 'less than once in 10')
    """
    share = write_share(chance)
    number, _, of = share.rpartition(" in ")
    if number in ("1", "less than 1"):
        return f"{number.replace('1', 'once')} in {of}"
    return f"{number} times in {of}"


def write_share(chance: float) -> str:
    """The same within a sentence: "96 in 100".

    >>> write_share(0.9996), write_share(0.968), write_share(0.89), write_share(0.04)
    ('more than 99 in 100', '96 in 100', '8 in 10', 'less than 1 in 10')
    """
    hundredths = math.floor(100 * chance + 1e-9)
    if hundredths >= 90:
        return "more than 99 in 100" if chance > 0.99 else f"{hundredths} in 100"
    return f"{hundredths // 10} in 10" if hundredths >= 10 else "less than 1 in 10"


def write_chance(chance: float) -> str:
    """A chance to a tenth of a per cent, never rounded up: for who asks for it exactly.

    >>> write_chance(0.9996), write_chance(0.94999), write_chance(0.0)
    ('over 99.9 %', '94.9 %', 'under 0.1 %')
    """
    tenths = math.floor(1000 * chance + 1e-9)
    if tenths >= 999:
        return "over 99.9 %"
    return f"{tenths / 10:.1f} %" if tenths >= 1 else "under 0.1 %"


def by_chance(chance: float, sound_from: float, doubtful_from: float) -> Outcome:
    """The outcome of a chance by the two limits.

    >>> by_chance(0.95, 0.90, 0.50).value, by_chance(0.6, 0.90, 0.50).value
    ('sound', 'doubtful')
    """
    if chance >= sound_from:
        return Outcome.SOUND
    return Outcome.DOUBTFUL if chance >= doubtful_from else Outcome.FAILS


def check_limits(sound_from: float, doubtful_from: float) -> None:
    """Raises AskedWronglyError unless 0 < doubtful ≤ sound < 1."""
    if not 0 < doubtful_from <= sound_from < 1:
        raise AskedWronglyError(
            f"limits of {sound_from:g} (sound) and {doubtful_from:g} (doubtful) are out of order.",
            right="Both lie between 0 and 1, the one for sound the higher.",
        )


@dataclass(frozen=True, slots=True)
class PullTest:
    """What so many plain pulls of each of those spools would make the chance, were they to hold
    just what is known of them now."""

    pulls: int
    spools: tuple[str, ...]
    chance: float


def spool_share_after(share: float, pulls: int) -> float:
    """What is left of a spool's spread, as a share, after so many plain pulls.

    1/σ² = 1/σ₀² + n/0.05², as ``pulls.posterior`` has it for pulls that hold what is printed. Shares
    0–1, pulls from 0.

    >>> round(spool_share_after(0.15, 2), 4), spool_share_after(0.15, 0)
    (0.0344, 0.15)
    """
    return share if not pulls else (share**-2 + pulls / PLAIN_SPREAD**2) ** -0.5


def after_pulls(joints: Sequence[Joint], spools: Iterable[str], pulls: int) -> list[Joint]:
    """The joints as known after so many plain pulls of each of those spools."""
    pulled = set(spools)

    def known(joint: Joint) -> Joint:
        if joint.spool not in pulled:
            return joint
        share = math.hypot(joint.spool_share, joint.maker_share)
        return replace(joint, spool_share=spool_share_after(share, pulls), maker_share=0.0)

    return [known(joint) for joint in joints]


def pull_test(joints: Sequence[Joint], sound_from: float = SOUND_FROM) -> PullTest | None:
    """The fewest pulls of each spool known by its print that make a rig sound; where five do not,
    what five make of it. None where pulls are not what is in doubt.

    The spools are those of the weakest in the hooklength and of the weakest above it, and of all
    others that may go before either. Source: as ``chance_hooklength_first``.

    >>> low = Joint("loop", 1.9, 0.15, True, spool="5 lb", spool_share=0.15)
    >>> high = Joint("knot", 2.4, 0.19, False, spool="6 lb", spool_share=0.15)
    >>> test = pull_test([low, high])
    >>> test.pulls, test.spools, round(test.chance, 2)
    (2, ('5 lb', '6 lb'), 0.97)
    """
    low, high = weakest_two(joints)
    if low.mean_kg >= high.mean_kg:
        return None
    near = high.mean_kg + 2 * high.whole_spread_kg
    unsure = [j for j in joints if j.spool and math.hypot(j.spool_share, j.maker_share) > 0.05]
    spools = tuple(dict.fromkeys(j.spool for j in unsure if j.mean_kg <= near))
    if not spools:
        return None
    for pulls in PULLS:
        chance = chance_hooklength_first(after_pulls(joints, spools, pulls))
        if chance >= sound_from:
            break
    return PullTest(pulls, spools, chance)


def judge_breaks_first(
    joints: Sequence[Joint],
    sound_from: float = SOUND_FROM,
    doubtful_from: float = DOUBTFUL_FROM,
    *,
    first: str = "hooklength",
    with_remedy: bool = True,
) -> Judgement:
    """Whether the hooklength breaks first, and how sure that is.

    Outcome by ``chance_hooklength_first``: sound from ``sound_from``, doubtful from
    ``doubtful_from``, else fails. ``first`` is what is made to go first, the "hook knot" of a rig
    without a hooklength; without its remedy it is judged in half the time. Raises AskedWronglyError
    for a rig without joints on both sides, or limits out of order.

    >>> judge_breaks_first([Joint("loop", 0.5, 0.04, True, called="its loop"),
    ...     Joint("rig line's loop", 1.134, 0.09, False)]).says
    'Hooklength breaks first, more than 99 times in 100. Weakest: its loop, 1.1 lb; above it 2.5 lb'
    """
    check_limits(sound_from, doubtful_from)
    low, high = weakest_two(joints)
    chance = chance_hooklength_first(joints)
    outcome = by_chance(chance, sound_from, doubtful_from)
    only = "" if chance >= doubtful_from else " only"
    says = (
        f"{first.capitalize()} breaks first{only or ','} {write_times(chance)}. Weakest: "
        f"{low.called or low.name}, {show_strain(low.mean_kg)}; above it "
        f"{show_strain(high.mean_kg)}"
    )
    method = Fact("chance", write_chance(chance), "", weakest(_sources(joints)))
    facts = (
        *dict.fromkeys(fact for joint in joints for fact in joint.facts),
        method,
        Fact("method", "stress–strength interference, normal strengths", "", INTERFERENCE),
        Fact("sound from", write_chance(sound_from), "", OUR_CHOICE),
        Fact("doubtful from", write_chance(doubtful_from), "", OUR_CHOICE),
    )
    return Judgement(
        "breaks first",
        outcome,
        says,
        "∫ f(x) S(x) dx: f density of the hooklength's least strength, S all above holding",
        facts,
        Check.BREAKS_FIRST,
        _remedy(joints, sound_from) if with_remedy and outcome is not Outcome.SOUND else "",
        f"{write_chance(chance)}: {low.name} at {show_both_strains(low.mean_kg)} against "
        f"{high.name} at {show_both_strains(high.mean_kg)}",
    )


def _sources(joints: Sequence[Joint]) -> list[Source]:
    return [fact.source for joint in joints for fact in joint.facts] or [OUR_CHOICE]


def _remedy(joints: Sequence[Joint], sound_from: float) -> str:
    """What would make it surer: pulls, or other line."""
    test = pull_test(joints, sound_from)
    other = "a stronger line above or a finer hooklength would"
    if test is None:
        return f"{other} make it surer"
    each = " of each" if len(test.spools) > 1 else ""
    spools = " and ".join(test.spools)
    words = f"{_NUMBERS[test.pulls]}{each} ({spools}) would make this {write_share(test.chance)}"
    if test.chance >= sound_from:
        return f"{words}, if they hold what is printed"
    return f"even {words}; {other}"
