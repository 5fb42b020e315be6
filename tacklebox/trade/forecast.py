"""How much may be lost at a match: a gamma prior on the loss rate, a negative binomial forecast.

Pieces lost at one match are taken as Poisson with a rate λ that is not known. λ has a gamma
distribution; each match with its loss sharpens it, and the next match's loss is then negative
binomial. Lengths are counted in started metres.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.limits import within
from tacklebox.trade.sources import MEMORY, Basis, Source, published

GAMMA_POISSON = published("Gelman and others, Bayesian Data Analysis, 3rd ed., section 2.6")

# Lost at one match before anything is known (from memory); it weighs as much as one match.
PRIOR_MEAN = {
    **{"hook": 2.0, "hooklength": 2.0, "weight": 2.0},
    **{"float": 0.5, "feeder": 1.0, "part": 0.5, "line": 1.0},
}
PRIOR_MEAN_ELSE = 0.2
PRIOR_MATCHES = 1.0
MOST = 10_000_000  # pieces or metres
MOST_REMEMBERED = 4096  # answers: many items share a history, and how much is left


@dataclass(frozen=True, slots=True)
class LossRate:
    """What is known of the loss at one match: λ ~ gamma(``shape``, rate ``matches``).

    ``history`` is the number of the angler's own matches in it; 0 means a prior alone.
    """

    shape: float
    matches: float
    history: int

    @property
    def mean(self) -> float:
        """The loss to be expected at one match, shape / matches."""
        return self.shape / self.matches

    @property
    def basis(self) -> Source:
        """What it rests on: the angler's own losses, or a modest prior from memory."""
        if not self.history:
            return MEMORY
        return Source(Basis.MEASURED, f"{self.history} match{'' if self.history == 1 else 'es'}")


@lru_cache(maxsize=MOST_REMEMBERED)
def loss_rate(kind: str, lost: int, matches: int) -> LossRate:
    """The loss rate of one item after so many matches at which so much of it was lost in all.

    Formula: gamma(a + lost, b + matches), with b = 1 match and a the prior's mean for the kind
    (hooks, hooklengths and shot 2, feeders and line in metres 1, floats and small parts 0.5, else 0.2; from
    memory). Arguments: kind of item; pieces or metres lost and matches, from 0. Raises
    AskedWronglyError below 0, or for a loss without a match. Source: Gelman and others,
    Bayesian Data Analysis, 3rd ed., section 2.6.

    >>> loss_rate("hook", 0, 0).mean
    2.0
    >>> loss_rate("hook", 18, 3).mean  # (2 + 18) / (1 + 3)
    5.0
    """
    within(lost, 0, MOST, "a number lost")
    within(matches, 0, MOST, "a number of matches")
    if lost and not matches:
        raise AskedWronglyError("something was lost, but at no match.", right="Count the matches.")
    prior = PRIOR_MEAN.get(kind, PRIOR_MEAN_ELSE) * PRIOR_MATCHES
    return LossRate(prior + lost, PRIOR_MATCHES + matches, matches)


@lru_cache(maxsize=MOST_REMEMBERED)
def chance_of_losing_more(rate: LossRate, than: int) -> float:
    """The chance that at the next match more is lost than that: P(X > than).

    X is negative binomial, P(X = x) = Γ(r+x) / (Γ(r) x!) · p^r · (1−p)^x, with r the shape and
    p = matches / (matches + 1). Below 0 the chance is 1. Sums the shorter tail up to where it adds
    nothing, so that small chances keep their digits. Source as for ``loss_rate``.

    >>> round(chance_of_losing_more(LossRate(1.0, 1.0, 0), 2), 12)  # (1/2)³
    0.125
    """
    if than < 0:
        return 1.0
    r, mean = rate.shape, rate.mean
    p = rate.matches / (rate.matches + 1)
    if than + 1 > mean:
        return min(_upper_tail(r, p, than + 1), 1.0)
    return max(1.0 - _lower_tail(r, p, than), 0.0)


def _chance_of(r: float, p: float, x: int) -> float:
    ways = math.lgamma(r + x) - math.lgamma(r) - math.lgamma(x + 1)
    return math.exp(ways + r * math.log(p) + x * math.log1p(-p))


def _upper_tail(r: float, p: float, start: int) -> float:
    """Σ P(X = x) from start up: beyond the mode each term is a falling share of the last."""
    term, total, x = _chance_of(r, p, start), 0.0, start
    while True:
        total += term
        share = (r + x) / (x + 1) * (1 - p)
        if term == 0.0 or (share < 1 and term * share / (1 - share) < total * 1e-15):
            return total
        term *= share
        x += 1


def _lower_tail(r: float, p: float, end: int) -> float:
    """Σ P(X = x) from end down to 0; below the mean each term is smaller than the one above."""
    term, total = _chance_of(r, p, end), 0.0
    for x in range(end, -1, -1):
        total += term
        if term < total * 1e-17:
            break
        term *= x / ((r + x - 1) * (1 - p)) if x else 0.0
    return total
