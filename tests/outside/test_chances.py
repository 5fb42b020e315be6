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
