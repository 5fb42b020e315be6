"""The forecast of losses against scipy.stats, and by hand."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, stats  # type: ignore[import-untyped]

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.forecast import LossRate, chance_of_losing_more, loss_rate
from tacklebox.trade.sources import Basis
from tests.outside import outside

SHAPES = st.floats(0.1, 5000)
MATCHES = st.floats(1, 500)


@outside("chance to lose more", "scipy.stats.nbinom", "library")
@given(SHAPES, MATCHES, st.integers(0, 3000))
def test_against_scipy_negative_binomial(shape: float, matches: float, than: int) -> None:
    ours = chance_of_losing_more(LossRate(shape, matches, 1), than)
    theirs = float(stats.nbinom.sf(than, shape, matches / (matches + 1)))
    assert ours == pytest.approx(theirs, rel=1e-8, abs=1e-12)


@outside(
    "chance to lose more, not by the closed form",
    "Poisson weighed by gamma, integrated by scipy",
    "library",
)
@pytest.mark.parametrize("than", [0, 1, 3, 8])
@pytest.mark.parametrize(("kind", "lost", "matches"), [("hook", 0, 0), ("float", 3, 7)])
def test_against_scipy_poisson_weighed_by_gamma(
    kind: str, lost: int, matches: int, than: int
) -> None:
    """Not the closed form: the Poisson tail integrated over the gamma posterior."""
    rate = loss_rate(kind, lost, matches)
    gamma = stats.gamma(rate.shape, scale=1 / rate.matches)
    chance, _ = integrate.quad(
        lambda q: float(stats.poisson.sf(than, gamma.ppf(q))), 0, 1, epsabs=1e-10
    )
    assert chance_of_losing_more(rate, than) == pytest.approx(chance, abs=1e-7)


@outside("a loss rate after matches", "Bayes' theorem integrated by scipy", "other way")
@pytest.mark.parametrize("matches", [0, 1, 5, 40])
def test_posterior_against_bayes_by_integration(matches: int) -> None:
    """Not by its own shape: the prior for hooks, mean 2 and worth one match, weighed by the Poisson
    likelihood of what was lost, integrated by scipy."""
    lost = 3 * matches

    def weight(rate: float) -> float:
        likelihood = stats.poisson.pmf(lost, rate * matches) if matches else 1.0
        return float(stats.gamma.pdf(rate, 2.0) * likelihood)

    whole, _ = integrate.quad(weight, 0, 60, points=(1, 2, 3, 4, 6), limit=200)
    mean, _ = integrate.quad(lambda r: r * weight(r), 0, 60, points=(1, 2, 3, 4, 6), limit=200)
    square, _ = integrate.quad(
        lambda r: r * r * weight(r), 0, 60, points=(1, 2, 3, 4, 6), limit=200
    )
    rate = loss_rate("hook", lost, matches)
    assert rate.mean == pytest.approx(mean / whole, rel=1e-6)
    spread = math.sqrt(rate.shape) / rate.matches
    assert spread == pytest.approx(math.sqrt(square / whole - (mean / whole) ** 2), rel=1e-5)


def test_more_matches_outweigh_the_prior() -> None:
    assert loss_rate("hook", 0, 99).mean == pytest.approx(0.02)
    assert loss_rate("hook", 500, 100).mean == pytest.approx(5, abs=0.05)


def test_what_it_rests_on() -> None:
    assert loss_rate("hook", 0, 0).basis.basis is Basis.MEMORY
    assert loss_rate("hook", 4, 2).basis.basis is Basis.MEASURED
    assert str(loss_rate("hook", 4, 2).basis) == "own measurement: 2 matches"
    assert str(loss_rate("hook", 4, 1).basis) == "own measurement: 1 match"


@given(SHAPES, MATCHES, st.integers(-2, 500))
def test_more_left_is_never_a_greater_chance(shape: float, matches: float, than: int) -> None:
    rate = LossRate(shape, matches, 1)
    first, second = chance_of_losing_more(rate, than), chance_of_losing_more(rate, than + 1)
    assert 0 <= second <= first + 1e-12 <= 1 + 1e-12


def test_nothing_left_at_all_is_certain() -> None:
    assert chance_of_losing_more(loss_rate("hook", 0, 0), -1) == 1.0


@pytest.mark.parametrize(("lost", "matches"), [(-1, 1), (1, -1), (3, 0)])
def test_nonsense_is_refused(lost: int, matches: int) -> None:
    with pytest.raises(AskedWronglyError):
        loss_rate("hook", lost, matches)
