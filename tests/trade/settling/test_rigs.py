"""Whole rigs: against another formulation, against themselves, and what must always hold."""

import math
from bisect import bisect_left
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.trade.balance import Tip
from tacklebox.trade.settling.chain import chain_of
from tacklebox.trade.settling.rig import FallingFloat, FallingRig, LinePiece, Weights
from tacklebox.trade.settling.sizes import bait_named, hook_of_size
from tacklebox.trade.settling.solver import Course, Track, follow, laid
from tacklebox.trade.shot import read_pattern
from tests.long.length import WHOLE, so_many
from tests.outside import outside
from tests.trade.settling.angles import ByAngles
from tests.trade.settling.chains import drag_w, energy_j, hook_at, longest_off, worked_rig
from tests.trade.settling.edges import EDGES

WHOLE_ONLY = pytest.mark.skipif(not WHOLE, reason="minutes; TACKLEBOX_LONG=1")
SECONDS = [float(second) for second in range(21)]

STRUNG_OUT = worked_rig(
    shot=tuple(
        Weights(place, read_pattern(shot))
        for place, shot in (
            (1500, "No 8"),
            (1200, "No 8"),
            (900, "No 8"),
            (600, "No 10"),
            (300, "No 12"),
        )
    )
)
CANAL = FallingRig(
    line=(LinePiece(1000, 0.10), LinePiece(150, 0.07)),
    hook=hook_of_size("22"),
    bait=bait_named("pinkie"),
    shot=(
        Weights(500, read_pattern("4 No 10"), "lead"),
        Weights(300, read_pattern("No 12")),
        Weights(150, read_pattern("No 13")),
    ),
    float_=FallingFloat(0.4, Tip(2.5, 90.0), 0.12, own_mass_g=0.4, body_mm=5, under_water_mm=60),
    temperature_c=18.0,
)
RIGS = {"bulk": worked_rig(), "strung out": STRUNG_OUT, "canal": CANAL}


@cache
def fall(rig: FallingRig, links: int = 40, spread: float = 1.0, until: float = 20.0) -> Track:
    chain = chain_of(rig, links)
    return follow(chain, laid(chain, spread), Course(until))


def arrives(rig: FallingRig, share: float, links: int = 40, spread: float = 1.0) -> float:
    """When the hook has come down that share of its depth."""
    down = share * rig.length_mm / 1000
    chain = chain_of(rig, links)
    course = Course(200.0, done=lambda _, now: now.z[-1] - now.z[0] > down)
    found = follow(chain, laid(chain, spread), course)
    deep = [z[-1] - z[0] for z in found.z]
    step = bisect_left(deep, down)
    part = (down - deep[step - 1]) / (deep[step] - deep[step - 1])
    return found.times[step - 1] + part * (found.times[step] - found.times[step - 1])


def furthest_apart(found: Track, x: list[float], z: list[float]) -> float:
    return max(
        math.dist(hook_at(found, second), place)
        for second, place in zip(SECONDS[1:], list(zip(x, z, strict=True))[1:], strict=True)
    )


@outside("a rig that falls", "link angles solved by scipy", "library")
@pytest.mark.parametrize("name", RIGS)
def test_against_link_angles_and_scipy(name: str) -> None:
    x, z = ByAngles(RIGS[name], 24).hook(SECONDS)
    assert furthest_apart(fall(RIGS[name], 80), list(x), list(z)) < 0.010


@outside("a rig that falls", "scipy's BDF, LSODA and Radau", "library")
@pytest.mark.long
@pytest.mark.skipif(not WHOLE, reason="minutes; TACKLEBOX_LONG=1")
@pytest.mark.parametrize("method", ["BDF", "LSODA", "Radau"])
@pytest.mark.parametrize("name", RIGS)
def test_against_all_stiff_solvers_of_scipy(name: str, method: str) -> None:
    x, z = ByAngles(RIGS[name], 40).hook(SECONDS, method)
    assert furthest_apart(fall(RIGS[name]), list(x), list(z)) < 0.010


@outside("depth of the hook at the edges", "link angles solved by scipy", "library")
@pytest.mark.parametrize(
    "name",
    [
        pytest.param(name, marks=[] if n == 0 else [pytest.mark.long, WHOLE_ONLY])
        for n, name in enumerate(EDGES)
    ],
)
def test_depth_at_the_edges_against_link_angles_and_scipy(name: str) -> None:
    """Within 2 % of the depth at each second, laid straight."""
    rig = EDGES[name]
    _, z = ByAngles(rig, 28).hook(SECONDS)
    found = fall(rig)
    off = max(
        abs(hook_at(found, second)[1] - deep)
        for second, deep in zip(SECONDS[1:], z[1:], strict=True)
    )
    assert off < 0.02 * rig.length_mm / 1000


def test_more_points_come_nearer_as_their_square() -> None:
    fine = arrives(RIGS["bulk"], 0.9, 120)
    off = [arrives(RIGS["bulk"], 0.9, links) / fine - 1 for links in (20, 40)]
    assert 0 < off[1] < 0.008
    assert off[1] < off[0] / 2.5 < 0.012


def test_shorter_steps_come_nearer() -> None:
    rig = RIGS["bulk"]
    chain = chain_of(rig, 20)

    def hook(accuracy_m: float) -> tuple[float, float]:
        course = Course(12.0, accuracy_m=accuracy_m)
        return hook_at(follow(chain, laid(chain), course), 10.0)

    exact = hook(1e-6)
    off = [math.dist(hook(accuracy), exact) for accuracy in (1e-3, 1e-4, 1e-5)]
    assert off[0] < 1e-3
    assert off[1] < off[0] / 2
    assert off[2] < off[1] / 2


@pytest.mark.parametrize("spread", [1.0, 0.4])
@pytest.mark.parametrize("name", RIGS)
def test_lengths_are_kept(name: str, spread: float) -> None:
    found = fall(RIGS[name], spread=spread)
    assert found.ended == "time"
    assert longest_off(chain_of(RIGS[name]), found) < 1e-9


@pytest.mark.parametrize("name", RIGS)
def test_a_tight_line_stays_tight(name: str) -> None:
    chain, found = chain_of(RIGS[name]), fall(RIGS[name])
    shortest = min(
        math.hypot(x[k + 1] - x[k], z[k + 1] - z[k]) / long
        for x, z in zip(found.x, found.z, strict=True)
        for k, long in enumerate(chain.lengths_m)
    )
    assert shortest > 1 - 1e-9


@pytest.mark.parametrize("spread", [1.0, 0.4])
@pytest.mark.parametrize("name", RIGS)
def test_still_water_gives_no_energy(name: str, spread: float) -> None:
    chain, found = chain_of(RIGS[name]), fall(RIGS[name], spread=spread)
    left = [energy_j(chain, found.motion(step)) for step in range(len(found.times))]
    assert all(after < before for before, after in pairwise(left))


@pytest.mark.parametrize(("accuracy_m", "wrong"), [(1e-3, 8e-3), (1e-5, 5e-4)])
@pytest.mark.parametrize("name", RIGS)
def test_energy_goes_into_drag(name: str, accuracy_m: float, wrong: float) -> None:
    chain = chain_of(RIGS[name], 20)
    found = follow(chain, laid(chain), Course(20.0, accuracy_m=accuracy_m))
    motions = [found.motion(step) for step in range(len(found.times))]
    spent = energy_j(chain, motions[0]) - energy_j(chain, motions[-1])
    takes = [drag_w(chain, now) for now in motions]
    pairs = zip(pairwise(found.times), pairwise(takes), strict=True)
    taken = sum((t - s) * (p + q) / 2 for (s, t), (p, q) in pairs)
    assert taken == pytest.approx(spent, rel=wrong)


def test_left_is_as_right() -> None:
    chain = chain_of(RIGS["strung out"])
    right = laid(chain)
    left = replace(right, x=[-x for x in right.x])
    one, other = (follow(chain, start, Course(15.0)) for start in (right, left))
    assert one.times == other.times
    for xs, zs, others_x, others_z in zip(one.x, one.z, other.x, other.z, strict=True):
        assert list(xs) == pytest.approx([-x for x in others_x], abs=1e-9)
        assert list(zs) == pytest.approx(list(others_z), abs=1e-9)


SHOT = st.sampled_from(["No 8", "No 10", "2 No 10", "3 No 8"])


@st.composite
def rigs(draw: st.DrawFn) -> FallingRig:
    """Float rigs as they are fished, all their shot within what the float carries."""
    long = draw(st.integers(60, 250)) * 10.0
    hooklength = draw(st.sampled_from([100.0, 150.0, 200.0, 300.0]))
    thick = draw(st.sampled_from([0.10, 0.12, 0.14, 0.16]))
    shot = tuple(
        Weights(round(draw(st.floats(0.1, 0.9)) * long), read_pattern(draw(SHOT)))
        for _ in range(draw(st.integers(1, 4)))
    )
    down = sum(at.mass_g for at in shot)
    lock = draw(st.floats(0.5, 4.0)) * down
    return FallingRig(
        line=(LinePiece(long - hooklength, thick), LinePiece(hooklength, thick - 0.03)),
        hook=hook_of_size(draw(st.sampled_from(["22", "20", "18", "16"]))),
        bait=bait_named(draw(st.sampled_from(["maggot", "pinkie", "caster"]))),
        shot=shot,
        float_=FallingFloat(lock + down + 0.05, Tip(3.0, 250.0), lock),
        temperature_c=draw(st.floats(1.0, 20.0)),
    )


@settings(max_examples=so_many(200, 4), deadline=None)
@given(rigs(), st.sampled_from([1.0, 0.4]))
def test_warmer_water_is_never_slower(rig: FallingRig, spread: float) -> None:
    warmer = replace(rig, temperature_c=rig.temperature_c + 8)
    assert arrives(warmer, 0.9, 20, spread) < 1.01 * arrives(rig, 0.9, 20, spread)


@settings(max_examples=so_many(200, 4), deadline=None)
@given(rigs(), st.sampled_from(["No 12", "No 10", "No 8"]))
def test_more_weight_near_the_hook_is_never_later(rig: FallingRig, mark: str) -> None:
    more = (*rig.shot, Weights(100.0, read_pattern(mark)))
    lower = replace(rig, shot=more)
    assert rig.float_ is not None
    carried = replace(rig.float_, capacity_g=rig.float_.capacity_g + more[-1].mass_g)
    lower = replace(lower, float_=carried)
    assert arrives(lower, 0.9, 20) < 1.01 * arrives(rig, 0.9, 20)
