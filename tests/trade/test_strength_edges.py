"""The strength chain at its limits, in its words, and in the figures it hands over."""

import math

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Fact
from tacklebox.trade.knots import knot_named
from tacklebox.trade.sources import MEASURED, PRINTED, Basis
from tacklebox.trade.strength import (
    Joint,
    chance_goes_before,
    chance_hooklength_first,
    chances_first,
    line_joint,
    rated_joint,
    weakest_two,
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
        (1000.1, 1.0, 0.0, "Above 0, up to 1000 kg"),
        (0.0, 0.0, 0.0, "Above 0, up to 1000 kg"),
        (1.0, 1.001, 0.0, "Above 0, up to 1 kg"),
        (1.0, 0.0, 0.0, "Above 0, up to 1 kg"),
        (1.0, 0.1, 1.01, "From 0 to 100 %"),
        (1.0, 0.1, -0.01, "From 0 to 100 %"),
        (1.0, 0.1, math.nan, "From 0 to 100 %"),
    ],
)
def test_a_joint_outside_the_limits_is_told_where_they_lie(
    mean_kg: float, spread_kg: float, share: float, right: str
) -> None:
    with pytest.raises(AskedWronglyError, match="cannot be right") as refused:
        Joint("top knot", mean_kg, spread_kg, False, (), "", share)
    assert refused.value.where == "top knot"
    assert right in refused.value.right


def test_a_share_is_told_in_per_cent() -> None:
    with pytest.raises(AskedWronglyError, match="a spool's spread of 150 % cannot be right"):
        Joint("top knot", 1.0, 0.1, False, (), "", 1.5)


def test_a_knots_figures_are_handed_over_with_their_sources() -> None:
    joint = line_joint("loop", "nylon", 2.0, knot_named("figure-of-eight loop"), False)
    assert figures(joint.facts) == {
        "loop: line's strain": (2.0, "kg", Basis.PRINTED),
        "loop: figure-of-eight loop keeps": (75.0, "%", Basis.MEMORY),
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


def test_the_weakest_of_each_side_by_their_means() -> None:
    knot, trace = Joint("knot", 0.9, 0.5, True), Joint("trace", 1.0, 0.01, True)
    main, loop = Joint("main", 2.0, 0.1, False), Joint("loop", 1.4, 0.1, False)
    assert weakest_two([trace, main, knot, loop]) == (knot, loop)


def test_a_rig_with_one_side_only_is_told_what_it_wants() -> None:
    with pytest.raises(AskedWronglyError, match="nothing is made to go first") as refused:
        chance_hooklength_first([LOOP])
    assert "hooklength with its hook knot" in refused.value.right
    with pytest.raises(AskedWronglyError, match="to compare it with") as refused:
        chance_hooklength_first([HOOK])
    assert "rig line or main line" in refused.value.right
    with pytest.raises(AskedWronglyError) as refused:
        chances_first([])
    assert "some line" in refused.value.right


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
