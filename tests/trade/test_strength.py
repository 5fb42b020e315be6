"""Break chances against scipy, a Monte Carlo of a million rigs, and their own properties."""

from dataclasses import replace
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, stats  # type: ignore[import-untyped]

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.knots import knot_named
from tacklebox.trade.pulls import PRINTED_SPREAD, Pull, strain_from_pulls
from tacklebox.trade.sources import MEASURED
from tacklebox.trade.strength import (
    Joint,
    chance_goes_before,
    chance_hooklength_first,
    chances_first,
    line_joint,
    rated_joint,
)
from tests.long.length import so_many
from tests.outside import outside

means = st.floats(0.2, 20.0)
shares = st.floats(0.005, 0.3)


@st.composite
def joints(draw: st.DrawFn, least: int = 1, most: int = 8) -> list[Joint]:
    """Joints with at least one in the hooklength and one above it, some of one spool."""
    figures = st.tuples(
        means, st.floats(0.02, 0.3), st.sampled_from(["", "", "spool A", "spool B"])
    )
    inside = draw(st.lists(figures, min_size=least, max_size=most // 2))
    above = draw(st.lists(figures, min_size=least, max_size=most // 2))
    share = draw(st.floats(0.02, 0.15))
    return [
        Joint(
            f"{side} {n}", mean, own * mean, side == "hooklength", (), spool, (spool and share) or 0
        )
        for side, those in (("hooklength", inside), ("above", above))
        for n, (mean, own, spool) in enumerate(those)
    ]


RIG = [
    Joint("hook knot", 0.96, 0.077, True),
    Joint("hooklength's loop", 0.84, 0.067, True),
    Joint("plain hooklength", 1.20, 0.060, True),
    Joint("rig line's loop", 1.05, 0.084, False),
    Joint("plain rig line", 1.50, 0.075, False),
    Joint("swivel", 6.0, 0.3, False),
]


@outside("which of two joints goes first", "scipy.stats.norm", "library")
@given(means, shares, means, shares)
def test_two_joints_against_scipy(a: float, s: float, b: float, t: float) -> None:
    one, two = Joint("one", a, a * s, True), Joint("two", b, b * t, False)
    expected = stats.norm.cdf((b - a) / np.hypot(a * s, b * t))
    assert chance_goes_before(one, two) == pytest.approx(expected, rel=1e-9, abs=1e-300)
    assert chances_first([one, two])[0] == pytest.approx(expected, abs=1e-12)


@outside("which of many joints goes first", "quadrature by scipy", "library")
def test_many_joints_against_scipy_quadrature() -> None:
    for n, chance in enumerate(chances_first(RIG)):

        def density(x: float, n: int = n) -> float:
            others = [j for m, j in enumerate(RIG) if m != n]
            holds = np.prod([stats.norm.sf(x, j.mean_kg, j.spread_kg) for j in others])
            return float(stats.norm.pdf(x, RIG[n].mean_kg, RIG[n].spread_kg) * holds)

        expected, _ = integrate.quad(density, 0.2, 2.0, epsabs=1e-12, limit=200)
        assert chance == pytest.approx(expected, abs=1e-8)


@outside("which of many joints goes first", "a million rigs broken at random", "other way")
def test_many_joints_against_monte_carlo_of_a_million() -> None:
    random = np.random.default_rng(20)
    strengths = random.normal(
        [[j.mean_kg] for j in RIG], [[j.spread_kg] for j in RIG], (len(RIG), 1_000_000)
    )
    shares_first = np.bincount(strengths.argmin(axis=0), minlength=len(RIG)) / 1_000_000
    # Four standard errors of a share of a million draws are at most 0.002.
    assert chances_first(RIG) == pytest.approx(tuple(shares_first), abs=0.002)
    hooklength = sum(shares_first[n] for n, j in enumerate(RIG) if j.in_hooklength)
    assert chance_hooklength_first(RIG) == pytest.approx(hooklength, abs=0.002)


SPOOLS = [
    Joint("hook knot", 0.96, 0.077, True, (), "fine", 0.15),
    Joint("hooklength's loop", 0.84, 0.067, True, (), "fine", 0.15),
    Joint("plain hooklength", 1.20, 0.060, True, (), "fine", 0.15),
    Joint("rig line's loop", 1.05, 0.084, False, (), "strong", 0.047),
    Joint("plain rig line", 1.50, 0.075, False, (), "strong", 0.047),
    Joint("rig line's own loop", 1.15, 0.092, False, (), "fine", 0.15),
    Joint("swivel", 1.4, 0.07, False),
]


@outside("joints of one spool", "a million rigs broken at random", "other way")
def test_shared_spools_against_monte_carlo_of_a_million() -> None:
    random = np.random.default_rng(21)
    spools = {"fine": random.normal(size=1_000_000), "strong": random.normal(size=1_000_000)}
    strengths = np.array(
        [
            j.mean_kg * (1 + j.spool_share * spools.get(j.spool, 0.0))
            + random.normal(0, j.spread_kg, 1_000_000)
            for j in SPOOLS
        ]
    )
    shares_first = np.bincount(strengths.argmin(axis=0), minlength=len(SPOOLS)) / 1_000_000
    assert chances_first(SPOOLS) == pytest.approx(tuple(shares_first), abs=0.002)


@outside("joints of one spool", "a grid of errors summed by scipy", "library")
def test_shared_spools_against_scipy_grid() -> None:
    """One spool on both sides: given its error, the joints are independent."""
    rig = [joint for joint in SPOOLS if joint.spool == "fine"]
    pulls, errors = np.linspace(-0.5, 3.0, 1401)[:, None], np.linspace(-6.5, 6.5, 261)[None, :]
    strengths = [stats.norm(j.mean_kg * (1 + j.spool_share * errors), j.spread_kg) for j in rig]
    holds = [strength.sf(pulls) for strength in strengths]
    for n, chance in enumerate(chances_first(rig)):
        others = np.prod([h for m, h in enumerate(holds) if m != n], axis=0)
        density = strengths[n].pdf(pulls) * others * stats.norm.pdf(errors)
        inner = integrate.simpson(density, x=pulls[:, 0], axis=0)
        assert chance == pytest.approx(integrate.simpson(inner, x=errors[0]), abs=1e-6)


@outside("two joints of shared spools", "scipy.stats.norm", "library")
@given(means, shares, means, shares, st.floats(0.0, 0.3), st.booleans())
def test_two_joints_of_shared_spools_against_scipy(
    a: float, s: float, b: float, t: float, share: float, one_spool: bool
) -> None:
    one = Joint("one", a, a * s, True, (), "spool", share)
    two = Joint("two", b, b * t, False, (), "spool" if one_spool else "other", share)
    off = np.array([a, -b]) * share
    variance = (a * s) ** 2 + (b * t) ** 2 + (off.sum() ** 2 if one_spool else (off**2).sum())
    expected = stats.norm.cdf((b - a) / np.sqrt(variance))
    assert chance_goes_before(one, two) == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize(("hooklength_kg", "rig_kg"), [(1.6, 2.04), (0.7, 0.95), (2.5, 3.6)])
def test_a_pull_just_as_printed_makes_a_rig_surer(hooklength_kg: float, rig_kg: float) -> None:
    def chance(spread: float) -> float:
        loop = knot_named("figure-of-eight loop")
        sides = [
            (("hooklength", hooklength_kg, True), knot_named("knotless knot")),
            (("rig line", rig_kg, False), loop),
        ]
        rig = [
            line_joint(f"{name} {tied}", "nylon", kg, tied, inside, spool=name, spool_share=spread)
            for (name, kg, inside), knot in sides
            for tied in (loop, None, knot)
        ]
        return chance_hooklength_first(rig)

    pulled = strain_from_pulls(1.0, [Pull(1.0)]).spread
    assert pulled < PRINTED_SPREAD
    assert chance(pulled) > chance(PRINTED_SPREAD)


@settings(deadline=None, max_examples=so_many(40, 20))
@given(joints())
def test_chances_add_up_to_one(rig: list[Joint]) -> None:
    chances = chances_first(rig)
    assert sum(chances) == pytest.approx(1, abs=1e-6)
    assert all(-1e-12 <= chance <= 1 + 1e-6 for chance in chances)


@pytest.mark.parametrize("ratio", [1e-4, 1e-2, 1.0])
def test_chances_add_up_with_very_unequal_spreads(ratio: float) -> None:
    rig = [Joint(str(n), 2.0 + n / 10, 0.5 * ratio ** (n % 2), n < 2) for n in range(6)]
    assert sum(chances_first(rig)) == pytest.approx(1, abs=1e-6)


@settings(deadline=None, max_examples=so_many(40, 20))
@given(joints(), st.randoms())
def test_order_of_joints_changes_nothing(rig: list[Joint], random: Random) -> None:
    shuffled = list(rig)
    random.shuffle(shuffled)
    assert chance_hooklength_first(shuffled) == pytest.approx(
        chance_hooklength_first(rig), abs=1e-9
    )


@settings(deadline=None, max_examples=so_many(40, 20))
@given(joints(), st.floats(1.0, 3.0))
def test_stronger_main_line_never_lowers_the_chance(rig: list[Joint], stronger: float) -> None:
    better = [
        j
        if j.in_hooklength
        else replace(j, mean_kg=j.mean_kg * stronger, spread_kg=j.spread_kg * stronger)
        for j in rig
    ]
    # As near as the chance itself is figured.
    assert chance_hooklength_first(better) >= chance_hooklength_first(rig) - 1e-6


def test_line_joint_means_and_spreads() -> None:
    knotted = line_joint("hook", "nylon", 2.0, knot_named("figure-of-eight loop"), True)
    assert (knotted.mean_kg, knotted.spread_kg) == pytest.approx((1.5, 0.12))
    plain = line_joint("main", "mono", 2.0, None, False)
    assert (plain.mean_kg, plain.spread_kg) == pytest.approx((2.0, 0.1))
    tested = line_joint("hook", "nylon", 2.0, knot_named("palomar"), True, spool_share=0.05)
    assert tested.whole_spread_kg == pytest.approx(np.hypot(0.08 * 1.8, 0.9 * 0.1))
    # A print may be 15 % out, whatever is tied with it.
    assert knotted.whole_spread_kg == pytest.approx(1.5 * np.hypot(0.08, 0.15))
    braid = line_joint("main", "braid", 5.0, knot_named("palomar"), False)
    assert braid.mean_kg == pytest.approx(3.75)
    assert rated_joint("swivel", 10.0, False).spread_kg == pytest.approx(0.5)


def test_rigs_that_cannot_be_judged() -> None:
    hook, main = Joint("hook", 1.0, 0.1, True), Joint("main", 2.0, 0.1, False)
    with pytest.raises(AskedWronglyError, match="no joint in a hooklength"):
        chance_hooklength_first([main, main])
    with pytest.raises(AskedWronglyError, match="no joint above"):
        chance_hooklength_first([hook])
    with pytest.raises(AskedWronglyError, match="no joints"):
        chances_first([])


@pytest.mark.parametrize(
    ("mean_kg", "spread_kg"),
    [
        (0, 0.1),
        (-1, 0.1),
        (float("nan"), 0.1),
        (float("inf"), 1),
        (1, 0),
        (1, float("nan")),
        (1, 2),
    ],
)
def test_absurd_joints_are_refused_by_name(mean_kg: float, spread_kg: float) -> None:
    with pytest.raises(AskedWronglyError, match="top knot"):
        Joint("top knot", mean_kg, spread_kg, False)


OF_ONE_MAKER = [
    Joint("hook knot", 0.96, 0.077, True, (), "fine", 0.106, "A", 0.106),
    Joint("hooklength's loop", 0.84, 0.067, True, (), "fine", 0.106, "A", 0.106),
    Joint("rig line's loop", 1.05, 0.084, False, (), "strong", 0.106, "A", 0.106),
    Joint("plain rig line", 1.50, 0.075, False, (), "strong", 0.106, "A", 0.106),
    Joint("main line's knot", 1.20, 0.096, False, (), "reel", 0.106, "B", 0.106),
    Joint("swivel", 1.6, 0.08, False),
]


def test_makers_errors_against_monte_carlo_of_a_million() -> None:
    random = np.random.default_rng(22)
    spools = {name: random.normal(size=1_000_000) for name in ("fine", "strong", "reel")}
    makers = {name: random.normal(size=1_000_000) for name in ("A", "B")}
    strengths = np.array(
        [
            j.mean_kg
            * (
                1
                + j.spool_share * spools.get(j.spool, 0.0)
                + j.maker_share * makers.get(j.maker, 0.0)
            )
            + random.normal(0, j.spread_kg, 1_000_000)
            for j in OF_ONE_MAKER
        ]
    )
    first = np.bincount(strengths.argmin(axis=0), minlength=len(OF_ONE_MAKER)) / 1_000_000
    assert chances_first(OF_ONE_MAKER) == pytest.approx(tuple(first), abs=0.002)
    assert sum(chances_first(OF_ONE_MAKER)) == pytest.approx(1, abs=1e-6)


@given(means, shares, means, shares, st.floats(0.0, 0.2), st.floats(0.0, 0.2))
def test_two_joints_of_one_maker_against_scipy(
    a: float, s: float, b: float, t: float, spool: float, maker: float
) -> None:
    one = Joint("one", a, a * s, True, (), "fine", spool, "A", maker)
    two = Joint("two", b, b * t, False, (), "strong", spool, "A", maker)
    variance = (a * s) ** 2 + (b * t) ** 2 + (a**2 + b**2) * spool**2 + ((a - b) * maker) ** 2
    expected = stats.norm.cdf((b - a) / np.sqrt(variance))
    assert chance_goes_before(one, two) == pytest.approx(expected, abs=1e-12)


def test_the_nodes_of_a_makers_error_against_numpy() -> None:
    """numpy.polynomial.hermite_e.hermegauss, 20 nodes: the nine here give the same."""
    nodes, weights = np.polynomial.hermite_e.hermegauss(20)
    expected = np.zeros(4)
    for node, weight in zip(nodes, weights / weights.sum(), strict=True):
        factor = (
            1 + 0.106 * node
        )  # of the maker's error; the spool's is a share of the mean as printed
        moved = [
            replace(
                j,
                mean_kg=j.mean_kg * factor,
                spool_share=j.spool_share / factor,
                maker="",
                maker_share=0.0,
            )
            for j in OF_ONE_MAKER[:4]
        ]
        expected += weight * np.array(chances_first(moved))
    assert chances_first(OF_ONE_MAKER[:4]) == pytest.approx(tuple(expected), abs=2e-5)


def test_one_maker_on_both_sides_makes_a_rig_surer() -> None:
    def chance(hooklength: str, rig_line: str) -> float:
        loop = knot_named("figure-of-eight loop")
        sides = (("hooklength", 5.0, True, hooklength), ("rig line", 6.0, False, rig_line))
        return chance_hooklength_first(
            [
                line_joint(f"{name} {knot}", "nylon", kg, knot, inside, spool=name, maker=maker)
                for name, kg, inside, maker in sides
                for knot in (loop, None)
            ]
        )

    assert chance("A", "A") > chance("A", "B") + 0.02
    assert chance("A", "B") == pytest.approx(chance("", ""), abs=1e-9)


def test_a_makers_error_is_half_of_what_a_print_may_err_and_none_of_what_was_pulled() -> None:
    """Half is from memory (no source)."""
    printed = line_joint("main", "nylon", 2.0, None, False, spool="1", maker="A")
    assert printed.spool_share == pytest.approx(printed.maker_share)
    assert np.hypot(printed.spool_share, printed.maker_share) == pytest.approx(PRINTED_SPREAD)
    unnamed = line_joint("main", "nylon", 2.0, None, False, spool="1")
    assert printed.whole_spread_kg == pytest.approx(unnamed.whole_spread_kg)
    pulled = line_joint(
        "main", "nylon", 2.0, None, False, spool_share=0.03, strain_source=MEASURED, maker="A"
    )
    assert (pulled.spool_share, pulled.maker_share) == (0.03, 0.0)
    with pytest.raises(AskedWronglyError, match="a maker's spread of 150 %"):
        Joint("main", 1.0, 0.1, False, maker="A", maker_share=1.5)
