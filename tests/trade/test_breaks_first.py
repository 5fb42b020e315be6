"""Whether the hooklength breaks first: the limits, the words, and what a pull test would change."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats  # type: ignore[import-untyped]

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.breaks_first import (
    DOUBTFUL_FROM,
    SOUND_FROM,
    after_pulls,
    judge_breaks_first,
    pull_test,
    spool_share_after,
    write_chance,
    write_share,
    write_times,
)
from tacklebox.trade.judgement import Check, Judgement, Outcome
from tacklebox.trade.knots import knot_named
from tacklebox.trade.pulls import Pull, strain_from_pulls
from tacklebox.trade.quantities import KG_PER_LB, read_strain_kg
from tacklebox.trade.sources import Basis
from tacklebox.trade.strength import Joint, chance_hooklength_first, line_joint

LOOP, WHIPPING = knot_named("figure-of-eight loop"), knot_named("spade knot")
HOOK = Joint("hook knot", 1.0, 0.08, True)
ABOVE = Joint("rig line's loop", 1.2, 0.06, False)


def pair(above_lb: float, below_lb: float, *, bottom: str) -> list[Joint]:
    """Rig line that ends in that knot, over a hooklength with a loop and a spade hook, by print."""
    above = [
        line_joint(f"rig line {knot}", "nylon", above_lb * KG_PER_LB, knot, False, spool="rig line")
        for knot in (None, knot_named(bottom))
    ]
    below = [
        line_joint(f"its {knot}", "nylon", below_lb * KG_PER_LB, knot, True, spool="hooklength")
        for knot in (LOOP, None, WHIPPING)
    ]
    return [*above, *below]


# Common practice (no source): these pairs are fished every week.
PAIRS = [(6, 5), (5, 4), (4, 3), (3, 2.5), (2.5, 2)]


@pytest.mark.parametrize(("above_lb", "below_lb"), PAIRS)
@pytest.mark.parametrize("bottom", ["half blood", "grinner", "double overhand loop"])
def test_no_ordinary_pair_fails_and_two_pulls_of_each_make_it_sound(
    above_lb: float, below_lb: float, bottom: str
) -> None:
    joints = pair(above_lb, below_lb, bottom=bottom)
    by_print = judge_breaks_first(joints)
    assert by_print.outcome in (Outcome.SOUND, Outcome.DOUBTFUL)
    pulled = after_pulls(joints, ("rig line", "hooklength"), 2)
    assert judge_breaks_first(pulled).outcome is Outcome.SOUND
    if by_print.outcome is Outcome.DOUBTFUL:
        assert "two pulls of each (rig line and hooklength) would make this" in by_print.remedy


def test_what_is_promised_of_pulls_is_what_they_bring() -> None:
    """The pulls made, just as printed: the same chance as was told beforehand."""
    joints = pair(6, 5, bottom="half blood")
    test = pull_test(joints)
    assert test is not None
    assert test.pulls == 2
    shares = {
        lb: strain_from_pulls(lb * KG_PER_LB, [Pull(lb * KG_PER_LB)] * 2) for lb in (6.0, 5.0)
    }
    pulled = [
        line_joint(
            j.name,
            "nylon",
            kg.mean,
            knot,
            j.in_hooklength,
            spool=j.spool,
            spool_share=kg.spread / kg.mean,
            strain_source=kg.source,
        )
        for j, knot in zip(
            joints, (None, knot_named("half blood"), LOOP, None, WHIPPING), strict=True
        )
        for kg in (shares[5.0 if j.in_hooklength else 6.0],)
    ]
    assert chance_hooklength_first(pulled) == pytest.approx(test.chance, abs=1e-9)
    assert judge_breaks_first(joints).remedy == (
        "two pulls of each (rig line and hooklength) would make this "
        f"{write_share(test.chance)}, if they hold what is printed"
    )


def test_where_no_pull_is_enough_other_line_is_the_remedy() -> None:
    low = line_joint("its loop", "nylon", 2.0, LOOP, True, spool="2 kg")
    high = line_joint("loop", "nylon", 2.1, LOOP, False, spool="2.1 kg")
    judged = judge_breaks_first([low, high])
    assert judged.outcome is Outcome.DOUBTFUL
    assert judged.remedy.startswith("even five pulls of each (2 kg and 2.1 kg) would make this ")
    assert judged.remedy.endswith("a stronger line above or a finer hooklength would")


def test_a_hooklength_stronger_than_the_rig_line_fails_and_no_pull_is_asked_for() -> None:
    low = line_joint("its loop", "nylon", 2.2, LOOP, True, spool="2.2 kg")
    high = line_joint("loop", "nylon", 2.0, LOOP, False, spool="2 kg")
    judged = judge_breaks_first([low, high])
    assert judged.outcome is Outcome.FAILS
    assert judged.says.startswith("Hooklength breaks first only 3 times in 10")
    assert judged.remedy == "a stronger line above or a finer hooklength would make it surer"
    assert pull_test([low, high]) is None


def test_no_pull_is_asked_for_of_what_was_pulled() -> None:
    low = line_joint("its loop", "nylon", 1.9, LOOP, True, spool="fine", spool_share=0.03)
    high = line_joint("loop", "nylon", 2.0, LOOP, False, spool="strong", spool_share=0.03)
    assert pull_test([low, high]) is None
    half = line_joint("loop", "nylon", 2.35, LOOP, False, spool="strong")
    test = pull_test([low, half])
    assert test is not None
    assert test.spools == ("strong",)
    assert "two pulls (strong) would make this" in judge_breaks_first([low, half]).remedy


def test_one_spool_on_both_sides_is_named_once() -> None:
    test = pull_test(
        [
            line_joint("hook", "nylon", 1.0, knot_named("half blood"), True, spool="3 fine"),
            line_joint("top", "nylon", 1.0, knot_named("grinner"), False, spool="3 fine"),
        ]
    )
    assert test is not None
    assert test.spools == ("3 fine",)


@given(st.floats(0.01, 0.3), st.integers(0, 9))
def test_what_pulls_leave_of_a_spread_is_the_posteriors(share: float, pulls: int) -> None:
    """Normal with known variances (scipy's grid would say the same): precisions add up."""
    expected = 1 / math.sqrt(1 / share**2 + pulls / 0.05**2)
    assert spool_share_after(share, pulls) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("chance", "times", "share"),
    [
        (1.0, "more than 99 times in 100", "more than 99 in 100"),
        (0.9901, "more than 99 times in 100", "more than 99 in 100"),
        (0.99, "99 times in 100", "99 in 100"),
        (0.9699, "96 times in 100", "96 in 100"),
        (0.90, "90 times in 100", "90 in 100"),
        (0.8999, "8 times in 10", "8 in 10"),
        (0.50, "5 times in 10", "5 in 10"),
        (0.1999, "once in 10", "1 in 10"),
        (0.0999, "less than once in 10", "less than 1 in 10"),
        (0.0, "less than once in 10", "less than 1 in 10"),
    ],
)
def test_chances_in_whole_times(chance: float, times: str, share: str) -> None:
    assert (write_times(chance), write_share(chance)) == (times, share)


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (1.0, "over 99.9 %"),
        (0.999, "over 99.9 %"),
        (0.9989, "99.8 %"),
        (0.9499, "94.9 %"),
        (0.001, "0.1 %"),
        (0.0009, "under 0.1 %"),
    ],
)
def test_exact_chances_are_never_rounded_up(chance: float, words: str) -> None:
    assert write_chance(chance) == words


@pytest.mark.parametrize(
    ("above_kg", "outcome"),
    # σ together is √(0.08² + 0.06²) = 0.1 kg; 90 % lies at 1.2816 σ, 50 % at 0
    [
        (1.129, Outcome.SOUND),
        (1.128, Outcome.DOUBTFUL),
        (1.001, Outcome.DOUBTFUL),
        (0.999, Outcome.FAILS),
    ],
)
def test_outcome_at_the_limits_against_scipy(above_kg: float, outcome: Outcome) -> None:
    chance = stats.norm.cdf((above_kg - 1.0) / 0.1)
    expected = {Outcome.SOUND: 0.90, Outcome.DOUBTFUL: 0.50, Outcome.FAILS: 0.0}[outcome]
    assert chance >= expected
    assert judge_breaks_first([HOOK, Joint("loop", above_kg, 0.06, False)]).outcome is outcome
    assert (SOUND_FROM, DOUBTFUL_FROM) == (0.90, 0.50)  # our choice


def test_the_angler_may_set_the_limits() -> None:
    rig = [HOOK, Joint("loop", 1.1, 0.06, False)]  # 84 %
    assert judge_breaks_first(rig, 0.8, 0.6).outcome is Outcome.SOUND
    assert judge_breaks_first(rig, 0.95, 0.85).outcome is Outcome.FAILS
    chance = chance_hooklength_first(rig)
    assert judge_breaks_first(rig, chance, 0.5).outcome is Outcome.SOUND
    assert judge_breaks_first(rig, 0.99, chance).outcome is Outcome.DOUBTFUL
    assert judge_breaks_first(rig, 0.9, 0.9).outcome is Outcome.FAILS


@pytest.mark.parametrize("limits", [(1.0, 0.8), (0.95, 0.0), (0.8, 0.9), (math.nan, 0.8)])
def test_limits_out_of_order_are_told(limits: tuple[float, float]) -> None:
    with pytest.raises(AskedWronglyError, match=r"\(sound\) and .* out of order") as refused:
        judge_breaks_first([HOOK, ABOVE], *limits)
    assert "between 0 and 1" in refused.value.right


def judged_of_print() -> Judgement:
    return judge_breaks_first(
        [
            line_joint("hook", "nylon", 1.2, knot_named("palomar"), True, called="its hook knot"),
            line_joint("loop", "nylon", 5.0, LOOP, False),
        ]
    )


def test_the_verdict_is_one_line() -> None:
    judged = judged_of_print()
    assert judged.line == (
        "Hooklength breaks first, more than 99 times in 100. Weakest: its hook knot, 2.4 lb; "
        "above it 8.3 lb"
    )
    assert judged.key is Check.BREAKS_FIRST
    assert "%" not in judged.line
    assert judged.why == "over 99.9 %: hook at 1.08 kg (2.4 lb) against loop at 3.75 kg (8.3 lb)"
    alone = judge_breaks_first([HOOK, ABOVE], first="hook knot")
    assert alone.says.startswith("Hook knot breaks first, 97 times in 100. Weakest: hook knot, ")


def test_a_judgement_rests_on_its_weakest_figure() -> None:
    """What a knot keeps is from memory, so is all that is computed with it."""
    judged = judged_of_print()
    assert judged.rests_on is Basis.MEMORY
    by_name = {fact.name: fact for fact in judged.facts}
    assert by_name["chance"].source.basis is Basis.MEMORY
    assert by_name["sound from"].source.basis is Basis.CHOICE
    assert by_name["method"].source.basis is Basis.PUBLISHED


@given(st.floats(1.0, 8.0), st.floats(1.0, 8.0))
def test_pounds_and_kilograms_give_the_same_outcome(hooklength_lb: float, rig_lb: float) -> None:
    def judged(hooklength_kg: float, rig_kg: float) -> tuple[Outcome, str]:
        both = judge_breaks_first(
            [
                line_joint("hook knot", "nylon", hooklength_kg, knot_named("grinner"), True),
                line_joint("loop", "nylon", rig_kg, knot_named("overhand loop"), False),
            ]
        )
        return both.outcome, both.line

    read = (read_strain_kg(f"{hooklength_lb:.2f} lb"), read_strain_kg(f"{rig_lb:.2f} lb"))
    in_kg = (round(hooklength_lb, 2) * KG_PER_LB, round(rig_lb, 2) * KG_PER_LB)
    assert judged(*read) == judged(*in_kg)


@pytest.mark.parametrize(("joints", "missing"), [([ABOVE], "no joint in a"), ([HOOK], "no joint")])
def test_rigs_that_cannot_be_judged(joints: list[Joint], missing: str) -> None:
    with pytest.raises(AskedWronglyError, match=missing):
        judge_breaks_first(joints)
