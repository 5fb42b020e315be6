"""Quadrature for chances against numpy."""

import math

import pytest
from numpy.polynomial import hermite_e

from tacklebox.trade.strength import _HERMITE
from tests.outside import outside


@outside(
    "nodes and weights for a maker's error", "numpy.polynomial.hermite_e.hermegauss", "library"
)
def test_gauss_hermite() -> None:
    nodes, weights = hermite_e.hermegauss(len(_HERMITE))
    assert [node for node, _ in _HERMITE] == pytest.approx(list(nodes), abs=1e-9)
    expected = [weight / math.sqrt(2 * math.pi) for weight in weights]
    assert [weight for _, weight in _HERMITE] == pytest.approx(expected, rel=1e-9)


@outside("chance of as many fish after a change", "scipy.stats.binomtest", "library")
@pytest.mark.parametrize(
    ("before", "after", "before_min", "after_min"),
    [(1, 5, 60, 60), (0, 9, 120, 30), (12, 3, 45, 90), (0, 0, 10, 10), (200, 260, 150, 150),
     (3, 40, 200, 7.5), (400, 3, 30, 270), (2500, 40, 30, 1400), (2000, 2100, 300, 300)],
)  # fmt: skip
def test_chance_of_as_many_fish_after_a_change(
    before: int, after: int, before_min: float, after_min: float
) -> None:
    from scipy.stats import binomtest  # type: ignore[import-untyped]

    from tacklebox.trade.chance import chance_of_as_many, too_few

    share = after_min / (before_min + after_min)
    expected = (
        binomtest(after, before + after, share, alternative="greater").pvalue
        if before + after
        else 1
    )
    found = chance_of_as_many(before, after, before_min, after_min)
    assert found == pytest.approx(expected, rel=1e-9)
    assert too_few(before + after, before_min, after_min) == (share ** (before + after) > 0.05)
