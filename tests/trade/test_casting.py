"""Casting against textbook ballistics and the published shock-leader rule."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.casting import (
    even_pull_kg,
    handle_turns,
    heaviest_cast_g,
    judge_casting,
    launch_speed_m_s,
    shock_leader_kg,
    wraps,
)
from tacklebox.trade.judgement import Outcome
from tacklebox.trade.quantities import G_PER_OZ, KG_PER_LB, STANDARD_GRAVITY
from tacklebox.trade.sources import Basis
from tests.outside import outside

distances = st.floats(5.0, 120.0)


@outside("how far a cast flies", "its flight stepped in time", "other way")
@pytest.mark.parametrize("distance_m", [10.0, 40.0, 100.0])
def test_launch_speed_flies_that_far(distance_m: float) -> None:
    """Stepping the flight in time at 45° lands at the distance (ballistics without drag)."""
    speed = launch_speed_m_s(distance_m)
    x, y, up, step = 0.0, 0.0, speed * math.sin(math.pi / 4), 1e-4
    across = speed * math.cos(math.pi / 4)
    while y >= 0.0:
        x += across * step
        y += up * step - STANDARD_GRAVITY * step**2 / 2
        up -= STANDARD_GRAVITY * step
    assert x == pytest.approx(distance_m, rel=1e-3)


@outside("the pull of a cast", "its work against the energy at launch", "closed form")
@given(st.floats(5.0, 150.0), distances, st.floats(1.0, 5.0))
def test_even_pull_by_energy(mass_g: float, distance_m: float, sweep_m: float) -> None:
    """Work of the pull less that of gravity over the sweep is the energy at launch."""
    newtons = even_pull_kg(mass_g, distance_m, sweep_m) * STANDARD_GRAVITY
    kg = mass_g / 1000
    work = (newtons - kg * STANDARD_GRAVITY) * sweep_m
    assert work == pytest.approx(kg * launch_speed_m_s(distance_m) ** 2 / 2)


@outside("strain of a shock leader", 'Planet Sea Fishing glossary, "Shock leader"', "published")
def test_full_rule_against_planet_sea_fishing() -> None:
    # 10 lb of strain for each ounce cast
    for ounces in (1, 2, 5):
        assert shock_leader_kg(ounces * G_PER_OZ) / KG_PER_LB == pytest.approx(10 * ounces)


@pytest.mark.parametrize(
    ("line_kg", "full_blooded", "outcome", "word"),
    # 50 g at 40 m, sweep 3 m: 0.383 kg even pull, five times 1.917, twice 0.767; rule 8.0 kg
    [
        (1.92, False, Outcome.SOUND, "holds 4.2 lb after its knot"),
        (1.91, False, Outcome.DOUBTFUL, "shock leader of 5 lb or more"),
        (0.77, False, Outcome.DOUBTFUL, "no more than 20 g"),
        (0.76, False, Outcome.FAILS, "may part"),
        (8.1, True, Outcome.SOUND, "holds 17.9 lb"),
        (7.9, True, Outcome.DOUBTFUL, "full-blooded casting asks for 17.6 lb"),
        (1.91, True, Outcome.FAILS, "shock leader of 18 lb or more"),
    ],
)
def test_outcomes_at_their_limits(
    line_kg: float, full_blooded: bool, outcome: Outcome, word: str
) -> None:
    judged = judge_casting(line_kg, 30.0, 20.0, 40.0, full_blooded=full_blooded)
    assert judged.outcome is outcome
    assert word in judged.line


def test_the_beach_rule_stays_off_a_lobbed_feeder() -> None:
    judged = judge_casting(2.5, 30.0, 20.0, 40.0)
    assert not any("shock" in fact.name for fact in judged.facts)
    assert "full-blooded" not in judged.line
    assert judged.rests_on is Basis.MEMORY  # the five times


def test_a_cast_names_the_line_that_bears_it_and_whose_sweep_it_is() -> None:
    judged = judge_casting(4.0, 30.0, 20.0, 40.0, 2.5, line="leader")
    assert "the leader holds 8.8 lb" in judged.says
    bases = {fact.name: fact.source.basis for fact in judged.facts}
    assert bases["rod-tip travel"] is Basis.GIVEN
    assert bases["even pull"] is Basis.CHOICE


@given(st.floats(0.5, 4.0), distances)
def test_the_heaviest_cast_is_just_sound(line_kg: float, distance_m: float) -> None:
    heaviest = heaviest_cast_g(line_kg, distance_m)
    assert judge_casting(line_kg, heaviest * 0.999, 0.0, distance_m).outcome is Outcome.SOUND
    assert judge_casting(line_kg, heaviest * 1.001, 0.0, distance_m).outcome is Outcome.DOUBTFUL


def test_measuring_distance() -> None:
    assert wraps(36.576) == pytest.approx(10)  # sticks 12 ft apart, 120 ft
    assert wraps(20.0, 4.0) == 5
    assert handle_turns(40.0, 80.0) == 50


@pytest.mark.parametrize("bad", [0.0, -5.0, float("nan"), float("inf")])
def test_absurd_casts_are_refused(bad: float) -> None:
    with pytest.raises(AskedWronglyError, match="weight to cast"):
        even_pull_kg(bad, 40.0)
    with pytest.raises(AskedWronglyError, match="cast"):
        even_pull_kg(50.0, bad)
    with pytest.raises(AskedWronglyError, match="sweep"):
        even_pull_kg(50.0, 40.0, bad)
    with pytest.raises(AskedWronglyError, match="main line"):
        judge_casting(bad, 30.0, 20.0, 40.0)
    with pytest.raises(AskedWronglyError, match="retrieve"):
        handle_turns(40.0, bad)
    with pytest.raises(AskedWronglyError, match="spacing"):
        wraps(40.0, bad)
