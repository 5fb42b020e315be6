"""Bites on the drop, the wind's tow, a feeder's hooklength: worked figures and what must hold."""

from dataclasses import replace

import pytest
from scipy.integrate import quad  # type: ignore[import-untyped]

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.balance import Tip
from tacklebox.trade.settling.bite import bite, bites_by_layer
from tacklebox.trade.settling.fall import Lie
from tacklebox.trade.settling.feeder import FeederTail, swing
from tacklebox.trade.settling.flow import drift_m_s, tow_m_s, wind_flow
from tacklebox.trade.settling.outcome import Settling, settle
from tacklebox.trade.settling.rig import FallingFloat, FallingRig, LinePiece
from tacklebox.trade.settling.sizes import FallingBait, bait_named, hook_of_size
from tacklebox.trade.settling.wind import tow
from tests.trade.settling.chains import worked_rig


@pytest.fixture(scope="module")
def worked() -> Settling:
    return settle(worked_rig())


def off_after(worked: Settling, seconds: float) -> float:
    found = bite(worked.tight, worked.tight.depth_mm(6.0), holds_s=9.0)
    assert found is not None
    at = min(found.tip, key=lambda one: abs(one.seconds - found.taken_s - seconds))
    return at.shows_mm - at.should_mm


@pytest.mark.parametrize(("after_s", "off_mm"), [(2, 1.4), (5, 3.0), (8, 6.0)])
def test_bite_on_the_worked_rig_shows_as_worked(
    worked: Settling, after_s: float, off_mm: float
) -> None:
    """Taken at 6 s: the tip stands so much higher than it should, by the trial run."""
    assert off_after(worked, after_s) == pytest.approx(off_mm, abs=0.4)


def test_bite_with_all_at_the_float_shows_nothing() -> None:
    float_ = FallingFloat(2.0, Tip(3.0, 60.0), lock_g=1.96)
    one = settle(worked_rig(shot=(), float_=float_), band=False).tight
    found = bite(one, one.depth_mm(6.0))
    assert found is not None
    assert found.seen_after_s is None
    assert abs(found.most_off_mm) < 0.2


def test_a_bite_is_seen_once_it_can_be(worked: Settling) -> None:
    found = bite(worked.tight, 400.0, seen_mm=2.0)
    later = bite(worked.tight, 400.0, seen_mm=3.0)
    assert found is not None
    assert later is not None
    assert found.seen_after_s is not None
    assert later.seen_after_s is not None
    assert 0 < found.seen_after_s < later.seen_after_s
    assert found.tip[0].shows_mm == pytest.approx(found.tip[0].should_mm)


def test_no_bite_deeper_than_the_bait_comes(worked: Settling) -> None:
    assert bite(worked.tight, 5000.0) is None


def test_the_held_hook_stays_where_it_was_taken() -> None:
    one = settle(worked_rig(), band=False, links=20).tight
    found = bite(one, 900.0, holds_s=20.0)
    assert found is not None
    assert found.depth_mm == pytest.approx(900.0, abs=30)
    # In the end the fish carries what is below its own depth: the tip never comes to its mark.
    last = found.tip[-1]
    assert last.shows_mm > last.should_mm + 4


def test_layers_say_where_bites_stay_unseen(worked: Settling) -> None:
    found = bites_by_layer(worked, layer_mm=600.0)
    assert [(layer.from_mm, layer.to_mm) for layer in found] == [
        pytest.approx((0, 600)),
        pytest.approx((600, 1200)),
        pytest.approx((1200, 1800)),
    ]
    assert [layer.unseen for layer in found] == [False, False, True]


@pytest.mark.parametrize(
    ("depth_mm", "holds_s"), [(-1.0, 10.0), (float("nan"), 10.0), (400.0, 0.0), (400.0, 1000.0)]
)
def test_bites_that_make_no_sense(worked: Settling, depth_mm: float, holds_s: float) -> None:
    with pytest.raises(AskedWronglyError):
        bite(worked.tight, depth_mm, holds_s=holds_s)


def test_no_bite_shows_without_float() -> None:
    one = settle(replace(worked_rig(), float_=None), band=False, links=10).tight
    with pytest.raises(AskedWronglyError, match="no float"):
        bite(one, 400.0)


def test_layers_too_thin(worked: Settling) -> None:
    with pytest.raises(AskedWronglyError, match="layer"):
        bites_by_layer(worked, layer_mm=1.0)


def test_the_water_goes_as_far_back_as_forth() -> None:
    total, _ = quad(lambda share: tow_m_s(0.1, share), 0, 1)
    assert total == pytest.approx(0, abs=1e-12)
    assert min(tow_m_s(0.1, n / 1000) for n in range(1001)) == pytest.approx(-0.1 / 3, rel=1e-4)
    assert wind_flow(0.1, 2.0)(5.0) == wind_flow(0.1, 2.0)(2.0) == 0
    assert wind_flow(0.1, 2.0)(-1.0) == 0.1


def test_loose_feed_lands_under_where_it_was_thrown() -> None:
    flow, sinks, depth = wind_flow(0.1, 1.8), 0.04, 1.8
    drifts, _ = quad(lambda t: flow(sinks * t), 0, depth / sinks)
    assert drifts == pytest.approx(0, abs=1e-9)


def test_surface_drifts_as_published() -> None:
    assert 0.025 * 4 <= drift_m_s(4.0) <= 0.03 * 4


def test_a_free_float_drags_the_bait_downwind_a_held_one_lets_it_go_back() -> None:
    rig = worked_rig(wind_m_s=3.0)
    free = tow(rig, links=10)
    assert rig.float_ is not None
    held = tow(replace(rig, float_=replace(rig.float_, held=True)), links=10)
    assert 0 < free.float_m.low < 0.0825 * free.after_s.high  # type: ignore[operator]
    assert free.per_minute_m.low > 0  # type: ignore[operator]
    assert held.dragged_m.high < 0  # type: ignore[operator]
    assert held.float_m.high == pytest.approx(0, abs=1e-6)


def test_no_wind_no_tow() -> None:
    found = tow(worked_rig(), links=10)
    assert found.float_m.tight == pytest.approx(0, abs=1e-3)
    assert found.dragged_m.tight == pytest.approx(0, abs=1e-3)


@pytest.mark.parametrize(("wind", "share"), [(31.0, 0.03), (3.0, 0.06), (float("nan"), 0.03)])
def test_winds_that_make_no_sense(wind: float, share: float) -> None:
    with pytest.raises(AskedWronglyError):
        drift_m_s(wind, share)
    with pytest.raises(ValueError, match="depth"):
        wind_flow(0.1, 0.0)


def tail(length_mm: float, depth_mm: float = 2500.0, **changes: object) -> FeederTail:
    made = FeederTail(length_mm, 0.12, hook_of_size("18"), bait_named("maggot"), depth_mm)
    return replace(made, **changes)  # type: ignore[arg-type]


def test_a_longer_hooklength_swings_down_later() -> None:
    times = [swing(tail(long), links=10).bait_after_s.tight for long in (300, 600, 1000)]
    assert all(time is not None for time in times)
    assert times == sorted(times)  # type: ignore[type-var]


def test_the_bait_sinks_about_its_hooklength_at_about_its_speed() -> None:
    """Above a feeder that lies, the line hangs slack: hook and bait sink by themselves."""
    found = swing(tail(1000, 4000.0), links=10)
    alone = swing(tail(1000, 4000.0, diameter_mm=0.05), links=10).bait_after_s.tight
    assert alone is not None
    assert 1.0 / 0.15 < alone < 1.0 / 0.04
    assert found.feeder_s == pytest.approx(4.0)
    assert found.bait_m.high < 0.1  # type: ignore[operator]


def test_a_faster_bait_is_down_sooner() -> None:
    slow, quick = (
        swing(tail(500, bait=bait_named(name)), links=10).bait_after_s.tight
        for name in ("pinkie", "4 mm pellet")
    )
    assert slow is not None
    assert quick is not None
    assert quick < slow


def test_a_bait_that_floats_waits_for_its_hook() -> None:
    found = swing(tail(300, bait=FallingBait("bread", -0.02, 8.0, 8.0)), links=10)
    assert [note.key for note in found.notes] == ["bait floats"]
    assert found.tight.lie is Lie.TIGHT


@pytest.mark.parametrize(
    "changes",
    [
        {"length_mm": 5.0},
        {"length_mm": 9000.0},
        {"depth_mm": 10.0},
        {"sinks_m_s": 0.0},
        {"temperature_c": 40.0},
        {"diameter_mm": 2.0},
    ],
)
def test_feeders_that_make_no_sense(changes: dict[str, object]) -> None:
    with pytest.raises(AskedWronglyError):
        tail(**{"length_mm": 500.0, **changes})  # type: ignore[arg-type]


def test_line_alone_falls_too() -> None:
    rig = FallingRig((LinePiece(1000, 0.10),), hook_of_size("20"))
    found = settle(rig, links=10)
    assert found.down_s.tight is not None
    assert {note.key for note in found.notes} == {"no shot", "no float"}


@pytest.mark.parametrize("wind", [1.0, 4.0, -4.0])
def test_a_rig_settles_in_wind_too(wind: float) -> None:
    found = settle(worked_rig(wind_m_s=wind), links=10)
    still = settle(worked_rig(), links=10)
    assert found.settled_by_s is not None
    assert found.rest_mm is not None
    assert still.rest_mm is not None
    streams = [note.key for note in found.notes] == ["streams"]
    assert streams == (found.down_s.tight is None) == (abs(wind) > 2)
    # What the tow carries does not hang on the float.
    assert found.rest_mm > still.rest_mm - 0.1
