"""The strength chain at its limits, in its words, and in the figures it hands over."""

import math

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Fact, Outcome
from tacklebox.trade.knots import knot_named
from tacklebox.trade.sources import (
    COMMON,
    INTERFERENCE,
    LOOP_KNOT,
    MEASURED,
    PRINTED,
    Basis,
)
from tacklebox.trade.strength import (
    Joint,
    chance_goes_before,
    chance_hooklength_first,
    chances_first,
    judge_join,
    judge_step,
    judge_strength,
    line_joint,
    rated_joint,
    weakest_two,
    write_chance,
)

HOOK = Joint("hook knot", 1.0, 0.08, True)
LOOP = Joint("loop", 1.2, 0.06, False)


def figures(facts: tuple[Fact, ...]) -> dict[str, tuple[object, str, Basis]]:
    """Each figure by its name, with its unit and what it rests on."""
    return {
        f.name: (
            f.value if isinstance(f.value, str) else pytest.approx(f.value),
            f.unit,
            f.source.basis,
        )
        for f in facts
    }


@pytest.mark.parametrize(
    ("mean_kg", "spread_kg", "share"),
    [(1000.0, 80.0, 0.15), (1e-6, 1e-7, 0.15), (1.0, 1.0, 0.15), (1.0, 0.08, 1.0)],
)
def test_the_strongest_and_the_vaguest_joint_are_still_joints(
    mean_kg: float, spread_kg: float, share: float
) -> None:
    joint = Joint("top knot", mean_kg, spread_kg, False, (), "spool", share)
    assert joint.whole_spread_kg == pytest.approx(math.hypot(spread_kg, mean_kg * share))


@pytest.mark.parametrize(
    ("mean_kg", "spread_kg", "share", "right"),
    [
        (1000.1, 1.0, 0.0, "above 0, up to 1000 kg"),
        (0.0, 0.0, 0.0, "above 0, up to 1000 kg"),
        (1.0, 1.001, 0.0, "above 0, up to the strength itself"),
        (1.0, 0.0, 0.0, "above 0, up to the strength itself"),
        (1.0, 0.1, 1.01, "from 0 to 100 %"),
        (1.0, 0.1, -0.01, "from 0 to 100 %"),
        (1.0, 0.1, math.nan, "from 0 to 100 %"),
    ],
)
def test_a_joint_outside_the_limits_is_told_where_they_lie(
    mean_kg: float, spread_kg: float, share: float, right: str
) -> None:
    with pytest.raises(AskedWronglyError, match="makes no sense") as told:
        Joint("top knot", mean_kg, spread_kg, False, (), "", share)
    assert told.value.where == "top knot"
    assert right in told.value.right


def test_a_share_is_told_in_per_cent() -> None:
    with pytest.raises(AskedWronglyError, match="a spool's spread of 150 % makes no sense"):
        Joint("top knot", 1.0, 0.1, False, (), "", 1.5)


def test_a_knots_figures_are_handed_over_with_their_sources() -> None:
    joint = line_joint("loop", "nylon", 2.0, knot_named("figure-of-eight loop"), False)
    assert figures(joint.facts) == {
        "loop: line's strain": (2.0, "kg", Basis.PRINTED),
        "loop: figure-of-eight loop keeps": (70.0, "%", LOOP_KNOT.basis),
        "loop: spread": (8.0, "%", Basis.MEMORY),
        "loop: spread of the spool's strain": (15.0, "%", Basis.MEMORY),
    }


def test_an_own_strain_is_measured_and_so_is_its_spread() -> None:
    joint = line_joint(
        "main", "nylon", 2.0, None, False, spool="4 nylon", spool_share=0.03, strain_source=MEASURED
    )
    assert joint.spool == "4 nylon"
    assert figures(joint.facts) == {
        "main: line's strain": (2.0, "kg", Basis.MEASURED),
        "main: spread": (5.0, "%", Basis.MEMORY),
        "main: spread of the spool's strain": (3.0, "%", Basis.MEASURED),
    }
    exact = line_joint("main", "nylon", 2.0, None, False, spool_share=0.0)
    assert list(figures(exact.facts)) == ["main: line's strain", "main: spread"]


def test_a_connectors_figures() -> None:
    joint = rated_joint("swivel", 10.0, False, MEASURED)
    assert (joint.mean_kg, joint.spread_kg, joint.in_hooklength) == (10.0, 0.5, False)
    assert figures(joint.facts) == {
        "swivel: rated": (10.0, "kg", Basis.MEASURED),
        "swivel: spread": (5.0, "%", Basis.MEMORY),
    }
    assert rated_joint("swivel", 10.0, False).facts[0].source == PRINTED


def test_joints_of_no_named_spool_err_apart() -> None:
    """σ² = 0.08² + 0.06² + 0.15² + 0.18²: neither error is the other's."""
    weak = Joint("hook", 1.0, 0.08, True, (), "", 0.15)
    strong = Joint("loop", 1.2, 0.06, False, (), "", 0.15)
    sigma = math.sqrt(0.08**2 + 0.06**2 + 0.15**2 + 0.18**2)
    expected = 0.5 * (1 + math.erf(0.2 / sigma / math.sqrt(2)))
    assert chance_goes_before(weak, strong) == pytest.approx(expected, abs=1e-12)
    lines = [line_joint(str(kg), "nylon", kg, None, kg < 1.1) for kg in (1.0, 1.2)]
    sigma = math.hypot(*(line.whole_spread_kg for line in lines))
    expected = 0.5 * (1 + math.erf(0.2 / sigma / math.sqrt(2)))
    assert chance_goes_before(*lines) == pytest.approx(expected, abs=1e-12)


def test_one_joint_is_sure_to_go_first() -> None:
    assert chances_first([HOOK]) == (1.0,)


def test_joints_of_an_exact_spool_are_independent() -> None:
    named = [Joint(str(n), 1.0 + n / 20, 0.08, n < 2, (), "spool", 0.0) for n in range(4)]
    apart = [Joint(str(n), 1.0 + n / 20, 0.08, n < 2) for n in range(4)]
    assert chances_first(named) == pytest.approx(chances_first(apart), abs=1e-7)


def test_a_joint_far_above_all_others_never_goes_first() -> None:
    chances = chances_first([HOOK, LOOP, Joint("swivel", 100.0, 5.0, False)])
    assert chances[2] == 0.0
    assert chances[0] == pytest.approx(chance_goes_before(HOOK, LOOP), abs=1e-7)


@pytest.mark.parametrize(
    ("chance", "words"),
    [(0.999, "over 99.9 %"), (0.9989, "99.8 %"), (0.001, "0.1 %"), (0.00099, "under 0.1 %")],
)
def test_chances_at_the_ends_of_what_is_told(chance: float, words: str) -> None:
    assert write_chance(chance) == words


def test_the_weakest_of_each_side_by_their_means() -> None:
    knot, trace = Joint("knot", 0.9, 0.5, True), Joint("trace", 1.0, 0.01, True)
    main, loop = Joint("main", 2.0, 0.1, False), Joint("loop", 1.4, 0.1, False)
    assert weakest_two([trace, main, knot, loop]) == (knot, loop)


def test_a_rig_with_one_side_only_is_told_what_it_wants() -> None:
    with pytest.raises(AskedWronglyError, match="nothing is made to go first") as told:
        chance_hooklength_first([LOOP])
    assert "hooklength with its hook knot" in told.value.right
    with pytest.raises(AskedWronglyError, match="to compare it with") as told:
        chance_hooklength_first([HOOK])
    assert "rig line or main line" in told.value.right
    with pytest.raises(AskedWronglyError) as told:
        chances_first([])
    assert "some line" in told.value.right


@pytest.mark.parametrize("times", [0.05, 30.0])
def test_a_rig_so_many_times_as_strong_goes_at_the_same_places(times: float) -> None:
    """Chances have no unit: the steps of the integral must follow the strengths."""
    figures = [
        (0.96, 0.077, True, "fine"),
        (0.84, 0.067, True, "fine"),
        (1.05, 0.084, False, "fine"),
        (1.15, 0.092, False, ""),
        (2.20, 0.200, False, ""),
    ]

    def chances(times: float) -> tuple[float, ...]:
        return chances_first(
            [
                Joint(str(n), times * mean, times * own, inside, (), spool, 0.15)
                for n, (mean, own, inside, spool) in enumerate(figures)
            ]
        )

    assert chances(times) == pytest.approx(chances(1.0), abs=1e-9)


@pytest.mark.parametrize("limits", [(0.9, 0.9), (0.999, 0.001)])
def test_limits_may_meet(limits: tuple[float, float]) -> None:
    assert judge_strength([HOOK, LOOP], *limits).outcome in (Outcome.SOUND, Outcome.LOOK_AGAIN)


@pytest.mark.parametrize("limits", [(1.0, 0.8), (0.95, 0.0), (0.8, 0.9), (math.nan, 0.8)])
def test_limits_out_of_order_are_told(limits: tuple[float, float]) -> None:
    with pytest.raises(AskedWronglyError, match=r"\(sound\) and .* out of order") as told:
        judge_strength([HOOK, LOOP], *limits)
    assert "between 0 and 1" in told.value.right


def test_a_chance_just_at_a_limit_is_within_it() -> None:
    chance = chance_hooklength_first([HOOK, LOOP])
    assert judge_strength([HOOK, LOOP], chance, 0.5).outcome is Outcome.SOUND
    assert judge_strength([HOOK, LOOP], 0.99, chance).outcome is Outcome.LOOK_AGAIN


def test_what_a_judgement_of_strength_says() -> None:
    hook = line_joint("hook knot", "nylon", 1.0, None, True, spool="3 fine")
    loop = line_joint("loop", "nylon", 1.25, None, False, spool="4 strong")
    told = judge_strength([hook, loop])
    assert told.about == "strength chain"
    assert "its weakest, hook knot at 1 kg" in told.says
    assert "is 0.25 kg (20 %) below the weakest above, loop at 1.25 kg" in told.says
    assert told.says.endswith(
        "; prints may be 15 % out: a pull test of 3 fine and of 4 strong would say more"
    )
    assert told.formula.startswith("∫ f(x) S(x) dx")
    assert figures(told.facts)["method"] == (
        "stress–strength interference, normal strengths",
        "",
        INTERFERENCE.basis,
    )
    assert [f.name.partition(":")[0] for f in told.facts] == ["hook knot"] * 3 + ["loop"] * 3 + [
        "method"
    ]


def test_a_hooklength_stronger_than_the_rig_is_told_as_above() -> None:
    """No pull test helps: the hooklength is the stronger, whatever the print."""
    hook = line_joint("hook knot", "nylon", 1.25, None, True, spool="3 fine")
    loop = line_joint("loop", "nylon", 1.0, None, False, spool="4 strong")
    told = judge_strength([hook, loop])
    assert told.outcome is Outcome.WILL_NOT_DO
    assert "is 0.25 kg (20 %) above the weakest above" in told.says
    assert "would say more" not in told.says
    equal = judge_strength([hook, line_joint("loop", "nylon", 1.25, None, False, spool="4")])
    assert "0.00 kg (0 %) below" in equal.says
    assert "would say more" not in equal.says


def test_no_pull_test_is_asked_for_where_the_knots_are_the_doubt() -> None:
    """A spool known to 4 % says less than its knots' own 8 %."""
    fine = knot_named("half blood")
    hook = line_joint("hook", "nylon", 1.0, fine, True, spool="3 fine", spool_share=0.04)
    loop = line_joint("loop", "nylon", 1.05, fine, False, spool="4 strong", spool_share=0.04)
    told = judge_strength([hook, loop])
    assert told.outcome is not Outcome.SOUND
    assert told.says.endswith(")")


def test_one_spool_on_both_sides_is_named_once() -> None:
    blood, grinner = knot_named("half blood"), knot_named("grinner")
    told = judge_strength(
        [
            line_joint("hook", "nylon", 1.0, blood, True, spool="3 fine"),
            line_joint("top", "nylon", 1.0, grinner, False, spool="3 fine"),
        ]
    )
    assert told.says.endswith("a pull test of 3 fine would say more")


def test_what_a_step_says_and_rests_on() -> None:
    told = judge_step(0.14, 0.125)
    assert told.about == "step down to the hooklength"
    assert told.formula == "rig line − hooklength"
    assert "(0.125 mm) is 0.015 mm finer than the rig line (0.14 mm)" in told.says
    assert figures(told.facts) == {
        "rig line's diameter": (0.14, "mm", Basis.PRINTED),
        "hooklength's diameter": (0.125, "mm", Basis.PRINTED),
        "least step": (0.02, "mm", COMMON.basis),
    }
    assert "0.000 mm finer than" in judge_step(0.14, 0.14).says
    assert "0.020 mm thicker than" in judge_step(0.12, 0.14).says


def test_what_a_join_says_and_rests_on() -> None:
    told = judge_join(0.25, 0.125, "knot")
    assert told.about == "join between lines"
    assert told.formula == "thick ÷ thin"
    assert "0.25 mm joined to 0.125 mm by a line-to-line knot: 2.0 to 1" in told.says
    assert figures(told.facts) == {
        "upper line's diameter": (0.25, "mm", Basis.PRINTED),
        "lower line's diameter": (0.125, "mm", Basis.PRINTED),
        "widest ratio for a knot": (1.5, "", COMMON.basis),
    }
    assert judge_join(0.25, 0.125, "loops").says == "0.25 mm joined to 0.125 mm by loops"
    assert judge_join(0.25, 0.125, " Water Knot").outcome is Outcome.LOOK_AGAIN


def test_a_join_not_known_is_told_those_that_are() -> None:
    with pytest.raises(AskedWronglyError, match="glue") as told:
        judge_join(0.2, 0.1, "glue")
    known = told.value.right.removeprefix("Known: ").removesuffix(".").split(", ")
    assert known[:3] == ["knot", "loops", "swivel"]
    assert "water knot" in known
    assert "palomar" not in known
    assert all(judge_join(0.15, 0.10, one).outcome is Outcome.SOUND for one in known)


@pytest.mark.parametrize(
    ("upper_mm", "lower_mm", "where"),
    [(10.01, 0.1, "upper line"), (0.1, 0.0, "lower line"), (0.1, math.nan, "lower line")],
)
def test_a_diameter_outside_is_told_with_its_line(
    upper_mm: float, lower_mm: float, where: str
) -> None:
    with pytest.raises(AskedWronglyError, match=r"diameter of .* mm makes no sense") as told:
        judge_join(upper_mm, lower_mm, "loops")
    assert told.value.where == where
    assert "up to 10 mm" in told.value.right
    with pytest.raises(AskedWronglyError) as told:
        judge_step(0.14, 0.0)
    assert told.value.where == "hooklength"
    with pytest.raises(AskedWronglyError) as told:
        judge_step(11, 0.1)
    assert told.value.where == "rig line"
    assert judge_step(10.0, 9.0).outcome is Outcome.SOUND
