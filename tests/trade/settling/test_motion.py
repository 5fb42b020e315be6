"""The chain's motion against closed forms and the library ``fluids``: one case, one source."""

import math
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import pytest
from fluids.drag import Clift_Gauvin, integrate_drag_sphere
from scipy.optimize import brentq  # type: ignore[import-untyped]
from scipy.special import ellipk, j0, jn_zeros  # type: ignore[import-untyped]

from tacklebox.trade.balance import Tip
from tacklebox.trade.quantities import STANDARD_GRAVITY
from tacklebox.trade.settling.chain import Chain, float_head, half_link
from tacklebox.trade.settling.drag import line_across_coefficient, sphere_diameter_m
from tacklebox.trade.settling.rig import FallingFloat, pull_n
from tacklebox.trade.settling.solver import Course, Track, follow
from tacklebox.trade.settling.sweep import Motion
from tests.outside import outside
from tests.trade.settling.chains import (
    TIN_G_CM3,
    WATER,
    even_chain,
    in_vacuum,
    longest_off,
    shot_on_dragless_line,
)


def at_rest(x: list[float], z: list[float]) -> Motion:
    n = len(x)
    return Motion(x, z, [0.0] * n, [0.0] * n, [0.0] * (n - 1))


def held_at(x: float, z: float) -> Callable[[float], tuple[float, float]]:
    return lambda _: (x, z)


def crossings(times: list[float], values: list[float]) -> list[float]:
    """When a value goes through nothing, by straight lines between the steps."""
    steps = pairwise(zip(times, values, strict=True))
    return [s - a / (b - a) * (t - s) for (s, a), (t, b) in steps if a * b < 0]


def drop(seconds: float, *, added: bool) -> Track:
    chain = shot_on_dragless_line([10.0], [0, 0.06], added=added)
    course = Course(seconds, {0: held_at(0, 0)}, accuracy_m=1e-5)
    return follow(chain, at_rest([0, 0], [0, 0]), course)


@outside("a No 8 that falls free", "the library fluids", "library")
def test_free_no_8_against_fluids() -> None:
    found = integrate_drag_sphere(
        D=sphere_diameter_m(0.06, TIN_G_CM3),
        rhop=1000 * TIN_G_CM3,
        rho=WATER.density_kg_m3,
        mu=WATER.viscosity_pa_s,
        t=1.0,
        V=0,
        Method="Clift_Gauvin",
        distance=True,
    )
    track = drop(1.0, added=False)
    assert (track.vz[-1][1], track.z[-1][1]) == pytest.approx(found, rel=1e-3)
    assert track.z[-1][1] == pytest.approx(0.6461, rel=2e-3)


def test_free_no_8_with_the_water_it_moves() -> None:
    assert drop(1.0, added=True).z[-1][1] == pytest.approx(0.6433, rel=2e-3)


def test_no_11_above_no_8_sink_together() -> None:
    chain = shot_on_dragless_line([0.1], [0.03, 0.06])
    course = Course(5.0)
    found = follow(chain, at_rest([0, 0], [0, 0.1]), course)
    assert list(found.vz[-1]) == pytest.approx([0.6485] * 2, rel=1e-3)
    # The line holds back what the No 11 falls slower by: its drag at that speed less its weight.
    area = 0.5 * WATER.density_kg_m3 * math.pi * sphere_diameter_m(0.03, TIN_G_CM3) ** 2 / 4
    reynolds = 0.6485 * sphere_diameter_m(0.03, TIN_G_CM3) / WATER.kinematic_m2_s
    pull = area * Clift_Gauvin(reynolds) * 0.6485**2 - pull_n(0.03, TIN_G_CM3, WATER)
    assert pull == pytest.approx(49.8e-6, rel=0.01)
    assert found.pulls[0] == pytest.approx(49.8e-6, rel=0.01)


def test_no_10_swung_from_level() -> None:
    chain = shot_on_dragless_line([0.3], [0, 0.04])
    course = Course(0.5, {0: held_at(0, 0)}, accuracy_m=1e-5)
    found = follow(chain, at_rest([0, 0.3], [0, 0]), course)
    angle = math.atan2(found.z[-1][1], found.x[-1][1])
    assert angle == pytest.approx(0.8698, rel=1e-3)


@outside("a pendulum from 90°", "4 √(L/g) K, the elliptic integral", "closed form")
def test_pendulum_in_vacuum_against_the_elliptic_integral() -> None:
    chain = in_vacuum([1.0], [1.0, 1.0])
    course = Course(2.5, {0: held_at(0, 0)}, steady_s=0.002)
    found = follow(chain, at_rest([0, 1.0], [0, 0]), course)
    turns = crossings(found.times, [v[1] for v in found.vz])
    period = 4 * math.sqrt(1 / STANDARD_GRAVITY) * float(ellipk(0.5))
    assert period == pytest.approx(2.3682, rel=1e-4)
    assert turns[3] == pytest.approx(period, rel=1e-3)  # down, up, down and back
    assert longest_off(chain, found) < 1e-9


@outside("a heavy chain that swings", "its first mode, 2.405/2 √(g/L)", "closed form")
def test_heavy_chain_against_its_first_mode() -> None:
    zero = float(jn_zeros(0, 1)[0])
    chain = even_chain(1.0, 40, 1.0)
    x = [0.005 * float(j0(zero * math.sqrt(1 - at))) for at in chain.at_m]
    z = [0.0]
    for k, long in enumerate(chain.lengths_m):
        z.append(z[-1] + math.sqrt(long**2 - (x[k + 1] - x[k]) ** 2))
    course = Course(1.3, {0: held_at(x[0], 0)}, steady_s=0.004)
    found = follow(chain, at_rest(x, z), course)
    first, second = crossings(found.times, [v[-1] for v in found.x])
    period = 2 * math.pi / (zero / 2 * math.sqrt(STANDARD_GRAVITY))
    assert period == pytest.approx(1.6687, rel=1e-4)
    assert 2 * (second - first) == pytest.approx(period, rel=5e-3)


def test_folded_chain_falls_faster_than_free() -> None:
    """v² = g y (2 − y)/(1 − y) of a chain of 1 m by its energy: 0.9 m in 0.3759 s."""
    long = 1 / 40
    x = [0.0] * 21 + [long] * 20
    z = [long * n for n in range(21)] + [long * (40 - n + 1) for n in range(21, 41)]
    top = z[-1]
    chain = even_chain(1.0, 40, 1.0)
    course = Course(
        0.42, {0: held_at(0, 0)}, steady_s=2.5e-4, done=lambda _, now: now.z[-1] - top > 0.9
    )
    found = follow(chain, at_rest(x, z), course)
    took = crossings(found.times, [v[-1] - top - 0.9 for v in found.z])[0]
    assert took == pytest.approx(0.3759, rel=0.02)
    assert took < math.sqrt(2 * 0.9 / STANDARD_GRAVITY) == pytest.approx(0.428, rel=1e-3)
    assert longest_off(chain, found) < 1e-9


@outside("a line hung at both ends", "the catenary", "closed form")
def test_hanging_line_against_the_catenary() -> None:
    links, apart = 40, 0.6
    rise = math.sqrt(1 / links**2 - (apart / links) ** 2)
    chain = replace(
        even_chain(1.0, links, 1e-5), halves=(half_link(1 / links, 0.00014, WATER),) * links
    )
    start = at_rest(
        [apart * n / links for n in range(links + 1)],
        [rise * min(n, links - n) for n in range(links + 1)],
    )
    course = Course(60.0, {0: held_at(0, 0), links: held_at(apart, 0)})
    found = follow(chain, start, course)
    scale = brentq(lambda a: 2 * a * math.sinh(apart / 2 / a) - 1, 0.05, 5)
    sag = scale * (math.cosh(apart / 2 / scale) - 1)
    assert sag == pytest.approx(0.3628, rel=1e-3)
    assert max(found.z[-1]) == pytest.approx(sag, rel=2e-3)


def test_towed_line_lies_where_its_drag_bears_its_weight() -> None:
    links, speed, thick = 20, 0.03, 0.00014
    grams = math.pi * thick**2 / 4 * 1.14e6
    weight_n = pull_n(grams, 1.14, WATER)
    share = [0.5 / links, *[1 / links] * (links - 1), 0.5 / links]
    chain = Chain(
        tuple(n / links for n in range(links + 1)),
        (1 / links,) * links,
        (half_link(1 / links, thick, WATER),) * links,
        tuple(grams / 1000 * s for s in share),
        tuple(weight_n * s for s in share),
    )

    def across_n_m(v: float) -> float:
        reynolds = v * thick / WATER.kinematic_m2_s
        return 0.5 * WATER.density_kg_m3 * thick * line_across_coefficient(reynolds) * v**2

    lies = brentq(lambda a: weight_n * math.cos(a) - across_n_m(speed * math.sin(a)), 0.01, 1.5)
    assert lies == pytest.approx(0.1195, rel=1e-3)
    start = at_rest(
        [-at * math.cos(0.3) for at in chain.at_m], [at * math.sin(0.3) for at in chain.at_m]
    )
    found = follow(chain, start, Course(120.0, {0: lambda t: (speed * t, 0.0)}))
    x, z = found.x[-1], found.z[-1]
    assert math.atan2(z[-1] - z[0], x[0] - x[-1]) == pytest.approx(lies, rel=5e-3)


def test_tip_of_a_float_that_wants_a_tenth_of_a_gram() -> None:
    pulls_mg = pull_n(0.1, TIN_G_CM3, WATER) / STANDARD_GRAVITY * 1e6
    assert pulls_mg == pytest.approx(86.3, rel=1e-3)
    head = float_head(FallingFloat(2.0, Tip(3.0, 60.0), lock_g=1.9), WATER)
    assert -1000 * head.rests_at_m() == pytest.approx(12.21, rel=1e-3)


def test_a_float_bobs_as_its_mass_and_tip_say() -> None:
    head = float_head(FallingFloat(2.0, Tip(3.0, 60.0), lock_g=1.9), WATER)
    head = replace(head, heave_kg=0.0, sway_kg=0.0, end=0.0, skin=0.0)
    chain = replace(in_vacuum([0.1], [4.68e-3, 1e-12]), weight_n=(0.0, 0.0), head=head)
    rest = head.rests_at_m()
    start = at_rest([0, 0], [rest - 0.01, rest + 0.09])
    found = follow(chain, start, Course(2.5, steady_s=0.004))
    down, up, *_ = crossings(found.times, [v[0] for v in found.vz])
    assert 2 * (up - down) == pytest.approx(1.633, rel=1e-3)
