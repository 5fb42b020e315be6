"""The normal posterior against integration on a grid, and how own readings count."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats  # type: ignore[import-untyped]

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.knots import knot_named
from tacklebox.trade.pulls import (
    Pull,
    capacity_from_bucket,
    knot_from_pulls,
    posterior,
    shot_from_weighings,
    strain_from_pulls,
)
from tacklebox.trade.quantities import KG_PER_LB
from tacklebox.trade.sources import Basis
from tests.outside import outside


@outside("a figure after pull tests", "the posterior summed over a grid", "other way")
@pytest.mark.parametrize(
    ("prior", "readings"),
    [
        ((2.0, 0.3), [(1.7, 0.1)]),
        ((2.0, 0.3), [(1.7, 0.085), (1.82, 0.091), (1.65, 0.13)]),
        ((4.5, 0.675), [(4.9, 0.39)] * 5),
        ((0.06, 0.009), [(0.066, 0.0005)]),
    ],
)
def test_posterior_against_grid_integration(
    prior: tuple[float, float], readings: list[tuple[float, float]]
) -> None:
    x = np.linspace(prior[0] - 8 * prior[1], prior[0] + 8 * prior[1], 400_001)
    density = stats.norm.pdf(x, *prior)
    for value, spread in readings:
        density = density * stats.norm.pdf(value, x, spread)
    density = density / np.trapezoid(density, x)
    mean = np.trapezoid(x * density, x)
    spread = np.sqrt(np.trapezoid((x - mean) ** 2 * density, x))
    assert posterior(prior, readings) == pytest.approx((mean, spread), rel=1e-6)


readings = st.lists(st.floats(1.0, 3.0), min_size=1, max_size=8)


@given(st.floats(1.0, 3.0), readings)
def test_pulls_narrow_and_pull_towards_themselves(printed_kg: float, kg: list[float]) -> None:
    answer = strain_from_pulls(printed_kg, [Pull(one) for one in kg])
    average = sum(kg) / len(kg)
    assert min(printed_kg, average) - 1e-9 <= answer.mean <= max(printed_kg, average) + 1e-9
    assert answer.spread < 0.15 * printed_kg
    assert answer.spread <= 0.05 * average / len(kg) ** 0.5 + 1e-12


@given(st.floats(1.0, 3.0), readings)
def test_order_of_pulls_changes_nothing(printed_kg: float, kg: list[float]) -> None:
    answer = strain_from_pulls(printed_kg, [Pull(one) for one in kg])
    again = strain_from_pulls(printed_kg, [Pull(one) for one in sorted(kg)])
    assert (again.mean, again.spread) == pytest.approx((answer.mean, answer.spread))


def test_without_pulls_the_print_stands() -> None:
    answer = strain_from_pulls(2.0, [])
    assert (answer.mean, answer.spread, answer.readings) == pytest.approx((2.0, 0.3, 0))
    assert answer.source.basis is Basis.PRINTED


def test_without_print_the_pulls_stand() -> None:
    answer = strain_from_pulls(None, [Pull(1.8), Pull(2.2)])
    assert (answer.mean, answer.spread) == pytest.approx((2.0, 0.1 / 2**0.5))
    with pytest.raises(AskedWronglyError, match="nothing to go by"):
        strain_from_pulls(None, [])


def test_a_knotted_pull_counts_for_the_line_and_for_less() -> None:
    half_blood = knot_named("tucked half blood")  # keeps 0.85
    knotted = strain_from_pulls(2.0, [Pull(1.7, half_blood)])
    plain = strain_from_pulls(2.0, [Pull(2.0)])
    assert knotted.mean == pytest.approx(2.0)
    assert knotted.spread > plain.spread
    braid = strain_from_pulls(5.0, [Pull(3.75, knot_named("palomar"))], "braid")
    assert braid.mean == pytest.approx(5.0)


def test_pounds_and_kilograms_give_the_same() -> None:
    in_lb = strain_from_pulls(4 * KG_PER_LB, [Pull(3.5 * KG_PER_LB)])
    in_kg = strain_from_pulls(4.0, [Pull(3.5)])  # the same figures taken as another unit
    assert in_lb.mean == pytest.approx(in_kg.mean * KG_PER_LB)


def test_the_line_s_own_doubt_stays_in_a_knot() -> None:
    knot = knot_named("grinner")
    sure = strain_from_pulls(2.0, [Pull(2.0)] * 50)
    unsure = strain_from_pulls(2.0, [])
    pulls = [1.6] * 100
    assert knot_from_pulls(knot, "nylon", pulls, sure).mean == pytest.approx(0.80, abs=0.005)
    doubtful = knot_from_pulls(knot, "nylon", pulls, unsure)
    assert doubtful.spread > 0.06  # a hundred pulls do not make up for an untested line
    assert knot_from_pulls(knot, "nylon", [], sure).mean == 0.87


def test_weighing_twenty_shot_overrides_the_table() -> None:
    answer = shot_from_weighings(0.06, [(20, 1.32)])
    assert answer.mean == pytest.approx(0.066, rel=0.005)
    assert answer.source.basis is Basis.MEASURED
    assert shot_from_weighings(0.06, []).source.basis is Basis.PUBLISHED


def test_a_bucket_overrides_the_mark() -> None:
    answer = capacity_from_bucket(2.0, [1.86, 1.88])
    assert answer.mean == pytest.approx(1.87, abs=0.002)
    assert capacity_from_bucket(None, [0.4]).mean == pytest.approx(0.4)


@pytest.mark.parametrize("bad", [0.0, -1.0, float("nan"), float("inf")])
def test_absurd_readings_are_refused(bad: float) -> None:
    with pytest.raises(AskedWronglyError, match="cannot be right"):
        strain_from_pulls(2.0, [Pull(bad)])
    with pytest.raises(AskedWronglyError, match="cannot be right"):
        strain_from_pulls(bad, [])
    with pytest.raises(AskedWronglyError, match="cannot be right"):
        shot_from_weighings(0.06, [(20, bad)])
    with pytest.raises(AskedWronglyError, match="cannot be right"):
        capacity_from_bucket(2.0, [bad])
    with pytest.raises(AskedWronglyError, match="cannot be right"):
        posterior((2.0, bad), [])
    with pytest.raises(AskedWronglyError, match="cannot be weighed"):
        shot_from_weighings(0.06, [(0, 1.0)])
