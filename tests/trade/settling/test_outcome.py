"""What is read off a fall: the worked rig, the static stages, bands, what must hold of any answer."""

from dataclasses import replace
from itertools import pairwise

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.balance import Group, Place, Tip, carries_at_g, stages
from tacklebox.trade.hanging import Depth, FishedDepth, LineBelow, hanging_below
from tacklebox.trade.settling.chain import chain_of
from tacklebox.trade.settling.fall import Fall, Lie, fall, nearest_seconds
from tacklebox.trade.settling.outcome import (
    Band,
    Settling,
    TipSays,
    frames,
    seen_mm,
    settle,
    settles_s,
)
from tacklebox.trade.settling.rig import (
    FallingFloat,
    FallingRig,
    LinePiece,
    Weights,
    carries_n,
    hanging_n,
    pull_n,
)
from tacklebox.trade.settling.sizes import bait_named, hook_of_size
from tacklebox.trade.shot import read_pattern
from tacklebox.trade.sources import Basis
from tests.trade.settling.chains import worked_rig


@pytest.fixture(scope="module")
def worked() -> Settling:
    return settle(worked_rig())


def two(band: Band) -> tuple[float | None, float | None]:
    return band.tight, band.slack


def test_worked_rig_comes_down_as_worked(worked: Settling) -> None:
    """The figures of the trial run that the model was written down from."""
    assert two(worked.half_s) == pytest.approx((11.2, 9.3), abs=0.1)
    assert two(worked.most_s) == pytest.approx((21.0, 18.4), abs=0.1)
    full = 0.98 * worked.rig.down_mm
    assert worked.tight.reaches_s(full) == pytest.approx(25.5, abs=0.1)
    assert worked.slack is not None
    assert worked.slack.reaches_s(full) == pytest.approx(22.2, abs=0.1)


def test_worked_rig_has_its_shot_in_place_as_worked(worked: Settling) -> None:
    assert [two(one.after_s) for one in worked.shot] == [
        pytest.approx((6.4, 3.6), abs=0.1),
        pytest.approx((14.5, 10.4), abs=0.1),
        pytest.approx((15.8, 12.5), abs=0.1),
    ]


@pytest.mark.parametrize(
    ("second", "tip_mm"), [(0, 49), (2, 46), (5, 28), (10, 14), (15, 8), (20, 4.9)]
)
def test_worked_rig_shows_its_tip_as_worked(worked: Settling, second: int, tip_mm: float) -> None:
    assert worked.tip_mm[second].tight == pytest.approx(tip_mm, abs=0.6)


@pytest.mark.parametrize(
    ("second", "x", "z"), [(5, 1.34, 0.31), (10, 1.08, 0.79), (15, 0.94, 1.24), (20, 0.83, 1.57)]
)
def test_worked_rig_takes_its_bait_as_worked(
    worked: Settling, second: int, x: float, z: float
) -> None:
    assert worked.tight.place(second)[0] == pytest.approx(x, abs=0.01)
    assert worked.tight.depth_mm(second) / 1000 == pytest.approx(z, abs=0.01)


def test_weight_near_the_hook_brings_it_down_sooner() -> None:
    low = tuple(
        Weights(place, read_pattern(shot))
        for place, shot in ((450, "4 No 8 + No 10"), (300, "No 10"), (150, "No 10"))
    )
    assert two(settle(worked_rig(shot=low)).most_s) == pytest.approx((14.2, 11.5), abs=0.1)


@pytest.mark.parametrize(
    ("change", "more"),
    [
        ({"float_": replace(worked_rig().float_, held=True)}, 0.08),  # type: ignore[type-var]
        ({"temperature_c": 5.0}, 0.04),
        ({"temperature_c": 20.0}, -0.06),
        ({"hook": hook_of_size("24")}, 0.09),
        ({"hook": hook_of_size("16")}, -0.09),
        ({"line": (LinePiece(1500, 0.10), LinePiece(300, 0.09))}, -0.03),
        ({"line": (LinePiece(1500, 0.18), LinePiece(300, 0.09))}, 0.03),
    ],
    ids=["held", "5 °C", "20 °C", "hook 24", "hook 16", "line 0.10", "line 0.18"],
)
def test_what_moves_the_time_to_nine_tenths(
    worked: Settling, change: dict[str, object], more: float
) -> None:
    changed = settle(worked_rig(**change), band=False).most_s.tight
    assert changed is not None
    assert worked.most_s.tight is not None
    assert changed / worked.most_s.tight - 1 == pytest.approx(more, abs=0.016)


def test_all_at_the_float_tells_nothing() -> None:
    float_ = FallingFloat(2.0, Tip(3.0, 60.0), lock_g=1.96)
    found = settle(worked_rig(shot=(), float_=float_), links=10)
    assert found.tip_says is TipSays.NOTHING
    assert "no shot" in [note.key for note in found.notes]


def test_laid_straight_no_shot_is_a_step(worked: Settling) -> None:
    heights = [worked.tight.tip_mm(second / 4) for second in range(80)]
    falls = [before - after for before, after in pairwise(heights)]
    assert max(falls) < 2.5  # mm in a quarter of a second; a step of the bulk would be 34 mm


@pytest.mark.parametrize("over_mm", [None, -150.0, 0.0, 80.0, 300.0])
@pytest.mark.parametrize("lie", Lie)
def test_the_fall_ends_where_the_static_stages_end(lie: Lie, over_mm: float | None) -> None:
    rig = worked_rig(over_mm=over_mm)
    found = fall(rig, lie, seconds=90.0, links=20)
    answer = settle(rig, band=False, links=10)
    assert found.tip_mm(90.0) == pytest.approx(answer.rest_mm, abs=0.15 if over_mm != 0 else 1.7)


@pytest.mark.parametrize("shot", ["4 No 8 + No 10", "4 No 8", "2 No 8 + 2 No 10"])
def test_a_rig_alone_ends_as_archimedes_says(shot: str) -> None:
    """Shot, hook, bait and line against what the tip carries, each mm of it ρ g π d²/4."""
    rig = worked_rig(shot=(Weights(700, read_pattern(shot)),))
    assert rig.float_ is not None
    share = 1 - rig.water.density_kg_m3 / 7290  # at 10 °C, where the float was rated
    wanting_n = (rig.float_.capacity_g - rig.float_.lock_g) / 1000 * share * 9.80665
    per_mm = rig.water.density_kg_m3 * 9.80665 * 3.14159265 * 0.0015**2 / 1000
    expected = (wanting_n - hanging_n(rig)) / per_mm
    assert settle(rig, band=False).rest_mm == pytest.approx(expected, rel=1e-6)


def test_on_the_bed_it_is_down_when_it_touches() -> None:
    found = settle(worked_rig(over_mm=100.0), links=20)
    assert found.landed
    assert found.down_s.tight == found.tight.lands_s()
    assert not settle(worked_rig(over_mm=0.0), band=False, links=10).landed


def test_layers_follow_one_another(worked: Settling) -> None:
    assert worked.layers[0].from_mm == 0
    assert worked.layers[-1].to_mm == pytest.approx(0.95 * 1800)
    for above, below in pairwise(worked.layers):
        assert above.to_mm == below.from_mm
        for lie in ("tight", "slack"):
            start, took = getattr(above.enters_s, lie), getattr(above.takes_s, lie)
            assert start + took == pytest.approx(getattr(below.enters_s, lie))
    slowest = min(layer.speed_cm_s.tight or 0 for layer in worked.layers)
    assert slowest == worked.layers[-1].speed_cm_s.tight


def test_settled_by_is_when_the_tip_last_could_be_seen_to_move(worked: Settling) -> None:
    assert worked.settled_by_s is not None
    assert worked.rest_mm is not None
    for second in range(worked.settled_by_s, len(worked.tip_mm)):
        for height in two(worked.tip_mm[second]):
            assert height is not None
            assert abs(height - worked.rest_mm) <= worked.seen_mm
    before = worked.tip_mm[worked.settled_by_s - 1]
    assert any(abs((h or 0) - worked.rest_mm) > worked.seen_mm for h in two(before))


def test_sharper_eyes_wait_longer() -> None:
    usual, sharper = (settle(worked_rig(), seen_mm=seen, band=False, links=10) for seen in (4, 1))
    assert usual.settled_by_s is not None
    assert sharper.settled_by_s is not None
    assert sharper.settled_by_s > usual.settled_by_s


def test_a_tip_that_never_comes_near_is_not_settled(worked: Settling) -> None:
    assert settles_s(worked.tight, 40.0, 40.0, 4.0) is None
    assert settles_s(worked.tight, 25.0, 25.0, 100.0) == 0.0


def test_at_dead_depth_a_bristle_may_end_with_the_bait_on_it_or_off_it() -> None:
    float_ = FallingFloat(0.38, Tip(0.8, 150.0), 0.12, own_mass_g=0.4, body_mm=5, under_water_mm=60)
    rig = FallingRig(
        (LinePiece(1000, 0.10), LinePiece(150, 0.07)),
        hook_of_size("20"),
        bait_named("maggot"),
        (Weights(500, read_pattern("4 No 10")), Weights(200, read_pattern("2 No 11"))),
        float_,
        over_mm=0.0,
    )
    found = settle(rig, links=10)
    assert found.rest_mm is not None
    # Hook and bait alone are more than what is seen: the tip is not waited for to come up again.
    assert found.rest_mm - (found.tip_mm[-1].tight or 0) > found.seen_mm
    assert found.settled_by_s is not None


def test_band_of_what_is_never_reached() -> None:
    assert Band(None, 3.0).low == 3.0
    assert Band(None, 3.0).high is None
    assert Band(None, None).low is None
    assert Band(2.0, 3.0).high == 3.0


def test_only_the_tight_line_at_once() -> None:
    found = settle(worked_rig(), band=False, links=20)
    assert found.slack is None
    assert found.half_s.tight is not None
    assert found.half_s.slack is None
    assert found.settled_by_s is not None


def test_figures_say_where_they_are_from(worked: Settling) -> None:
    grounds = {fact.name: fact.source.basis for fact in worked.facts}
    assert grounds["maggot"] is Basis.MEMORY
    assert grounds["4 No 8"] is Basis.PUBLISHED
    assert grounds["how the line lies"] is Basis.COMMON


def test_frames_are_the_fall(worked: Settling) -> None:
    drawn = frames(worked.tight, 1.0)
    assert [frame.seconds for frame in drawn] == [float(n) for n in range(len(drawn))]
    assert drawn[5].tip_mm == pytest.approx(worked.tight.tip_mm(5.0))
    assert drawn[5].z_m[-1] == pytest.approx(worked.tight.depth_mm(5.0) / 1000)
    assert len(drawn[0].x_m) == worked.tight.chain.points
    assert frames(worked.tight, 1.0, until_s=3.0) == drawn[:4]


def test_seen_from_a_distance() -> None:
    assert seen_mm(13.0) == pytest.approx(3.8, abs=0.02)
    assert seen_mm(26.0) == pytest.approx(2 * seen_mm(13.0))


@pytest.mark.parametrize(
    "ask",
    [
        lambda: seen_mm(0.0),
        lambda: settle(worked_rig(), seen_mm=0.0),
        lambda: settle(worked_rig(), layer_mm=1.0),
        lambda: fall(worked_rig(), seconds=0.0),
        lambda: fall(worked_rig(), seconds=86400.0),
        lambda: fall(worked_rig(), seconds=float("nan")),
        lambda: fall(worked_rig(), links=2),
        lambda: nearest_seconds(float("nan")),
    ],
)
def test_questions_that_make_no_sense(ask: object) -> None:
    with pytest.raises(AskedWronglyError):
        ask()  # type: ignore[operator]


def test_frames_too_close_together(worked: Settling) -> None:
    with pytest.raises(AskedWronglyError, match="between pictures"):
        frames(worked.tight, 0.0)


@pytest.mark.parametrize(("asked", "nearest"), [(0.0, 1.0), (-5.0, 1.0), (86400.0, 600.0)])
def test_times_are_brought_near(asked: float, nearest: float) -> None:
    found, notes = nearest_seconds(asked)
    assert found == nearest
    assert [note.key for note in notes] == ["time"]


def test_deep_cold_and_strung_with_forty_shot() -> None:
    """Bounded in steps and in memory, and told if it stops early."""
    rig = FallingRig(
        line=(LinePiece(3700, 0.25), LinePiece(300, 0.25)),
        hook=hook_of_size("20"),
        bait=bait_named("maggot"),
        shot=tuple(Weights(100.0 * (n + 1) - 50, read_pattern("No 10")) for n in range(39)),
        float_=FallingFloat(4.0, Tip(3.0, 100.0), lock_g=2.3),
        temperature_c=0.0,
    )
    for lie in Lie:
        found: Fall = fall(rig, lie)
        assert found.track.ended == "done"
        assert not found.notes
        assert len(found.track.times) < 2000
        assert found.reaches_s(0.95 * 4000) is not None


def test_a_rig_that_is_not_at_rest_in_time_says_so() -> None:
    rig = FallingRig((LinePiece(7900, 0.10), LinePiece(100, 0.07)), hook_of_size("24"))
    rig = replace(rig, float_=FallingFloat(0.1, Tip(0.8, 60.0), 0.05))
    found = fall(rig, links=8)
    assert [note.key for note in found.notes] == ["not at rest"]
    assert "600 s" in found.notes[0].says


GROUPS = (
    Group(Place.LOCK, read_pattern("4 BB")),
    Group(Place.BULK, read_pattern("4 No 8 + No 10")),
    Group(Place.DROPPER, read_pattern("2 No 10")),
)


@pytest.mark.parametrize("temperature_c", [4.0, 10.0, 22.0])
@pytest.mark.parametrize(
    ("over_mm", "fished"),
    [
        (None, FishedDepth(Depth.OFF)),
        (0.0, FishedDepth(Depth.DEAD)),
        (150.0, FishedDepth(Depth.OVER, 150.0)),
    ],
)
def test_the_end_agrees_with_the_static_stages(
    over_mm: float | None, fished: FishedDepth, temperature_c: float
) -> None:
    rig = worked_rig(over_mm=over_mm, temperature_c=temperature_c)
    assert rig.float_ is not None
    lines = [LineBelow(0.14, 1.14, 300.0, 1800.0), LineBelow(0.09, 1.14, 0.0, 300.0)]
    hanging = hanging_below(fished, lines, 1800.0, hook="20", temperature_c=temperature_c)
    last = stages(
        2.0,
        rig.float_.tip,
        GROUPS,
        hanging=hanging,
        temperature_c=temperature_c,
        own_g=rig.float_.own_mass_g,
    )[-1]
    assert settle(rig, band=False, links=10).rest_mm == pytest.approx(last.shows_mm, abs=0.01)
    assert carries_n(rig.float_, rig.water) / pull_n(1.0, 7.29, rig.water) == pytest.approx(
        carries_at_g(2.0, temperature_c, own_g=2.5), rel=1e-9
    )


def test_loads_may_differ_in_what_they_are_made_of() -> None:
    mixed = (*read_pattern("4 No 8"), replace(read_pattern("No 10")[0], material="lead"))
    rig = worked_rig(shot=(Weights(700, mixed), *worked_rig().shot[1:]))
    tin = worked_rig(shot=(Weights(700, read_pattern("4 No 8 + No 10")), *worked_rig().shot[1:]))
    heavier = hanging_n(rig) - hanging_n(tin)
    share = rig.water.density_kg_m3 * (1 / 7290 - 1 / 11340)
    assert heavier == pytest.approx(0.04e-3 * share * 9.80665, rel=1e-6)
    assert sum(chain_of(rig).weight_n) == pytest.approx(hanging_n(rig))
