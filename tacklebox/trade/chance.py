"""Whether more fish after a change than before it are more than chance."""

from math import exp, lgamma, log

from tacklebox.trade.limits import within

RARE = 0.05  # what chance does less often than this is worth a second look (our choice)
MOST_FISH = 5000
MOST_MIN = 1440


def chance_of_as_many(before: int, after: int, before_min: float, after_min: float) -> float:
    """How likely as many fish after a change would be, or more, if they went on coming as they did.

    Where fish come by chance at one rate all the while, each of the n that came fell after the change
    with p = after_min / (before_min + after_min): P(X ≥ after), X ~ binomial(n, p). Counts from 0 to
    5000, times above 0 up to 1440 min. Raises AskedWronglyError outside. Fish come in shoals, so that
    chance alone does more than this says.

    Source: Przyborowski & Wilenski, Homogeneity of results in testing samples from Poisson series,
    Biometrika 31 (1940), 313–323 (from memory).

    >>> round(chance_of_as_many(1, 5, 60, 60), 4)  # (6 + 1) / 2⁶
    0.1094
    >>> chance_of_as_many(0, 0, 60, 60)
    1.0
    """
    n = within(before, 0, MOST_FISH, "fish before") + within(after, 0, MOST_FISH, "fish after")
    within(before_min, 0, MOST_MIN, "a time before", "min", above=True)
    within(after_min, 0, MOST_MIN, "a time after", "min", above=True)
    p = after_min / (before_min + after_min)
    if after == 0:
        return 1.0
    rises = after > n * p  # the smaller tail is added up, from its greatest term on
    k = after if rises else after - 1
    term = exp(
        lgamma(n + 1) - lgamma(k + 1) - lgamma(n - k + 1) + k * log(p) + (n - k) * log(1 - p)
    )
    total = 0.0
    while 0 <= k <= n:  # each term from the one before, so that none overflows
        total += term
        term *= (n - k) / (k + 1) * p / (1 - p) if rises else k / (n - k + 1) * (1 - p) / p
        k += 1 if rises else -1
    return min(1.0, total if rises else 1 - total)


def too_few(n: int, before_min: float, after_min: float) -> bool:
    """Whether so few came that not even all of them after the change would be rare: pⁿ > 0.05.

    >>> too_few(4, 60, 60), too_few(5, 60, 60)
    (True, False)
    """
    return (after_min / (before_min + after_min)) ** n > RARE
