"""What is asked of a rig: nonsense refused in words, oddities brought to the nearest that falls."""

from dataclasses import replace

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.balance import Tip
from tacklebox.trade.floats import OwnMass
from tacklebox.trade.settling.chain import chain_of, places_m, share_links
from tacklebox.trade.settling.outcome import settle
from tacklebox.trade.settling.rig import (
    FallingFloat,
    FallingRig,
    LinePiece,
    Weights,
    hanging_n,
    just_carries_g,
    nearest_rig,
    usual_float,
)
from tacklebox.trade.settling.sizes import (
    BAITS,
    FallingBait,
    FallingHook,
    bait_named,
    bait_timed,
    hook_of_size,
    hook_weighed,
    loose_feed_lands_s,
)
from tacklebox.trade.shot import read_pattern
from tacklebox.trade.sources import MEASURED, Basis
from tests.trade.settling.chains import worked_rig

NO_8 = read_pattern("No 8")


def keys(rig: FallingRig) -> list[str]:
    return [note.key for note in nearest_rig(rig).notes]


def test_a_rig_as_it_is_fished_needs_no_words() -> None:
    assert nearest_rig(worked_rig()).notes == ()
    assert nearest_rig(worked_rig()).rig == worked_rig()


def test_no_shot_is_said_and_computed() -> None:
    found = settle(worked_rig(shot=()), band=False, links=10)
    assert [note.key for note in found.notes] == ["no shot"]
    assert found.down_s.tight is not None


def test_no_float_is_line_held_at_its_end() -> None:
    found = settle(worked_rig(float_=None), band=False, links=10)
    assert [note.key for note in found.notes] == ["no float"]
    assert found.tight.place(10.0, 0) == pytest.approx((0, 0), abs=1e-6)
    assert found.rest_mm is None
    assert found.settled_by_s is None
    assert found.tip_mm == ()


def test_a_float_that_sinks_is_computed_as_one_that_just_carries() -> None:
    rig = worked_rig(float_=FallingFloat(1.8, Tip(3.0, 60.0), lock_g=1.6))
    near = nearest_rig(rig)
    assert [note.key for note in near.notes] == ["float sinks"]
    assert "sinks its float, about 0.2 g too much" in near.notes[0].says
    assert near.rig.float_ is not None
    assert near.rig.float_.capacity_g > just_carries_g(rig) > 1.8
    found = settle(rig, band=False, links=10)
    assert found.rest_mm == pytest.approx(3, abs=1e-6)
    assert found.settled_by_s is not None
    barely = replace(rig.float_, capacity_g=just_carries_g(rig) + 1e-9)  # type: ignore[type-var]
    assert keys(replace(rig, float_=barely)) == []
    assert settle(replace(rig, float_=barely), band=False, links=10).rest_mm == pytest.approx(
        0, abs=1e-3
    )


def test_hook_bait_and_line_can_be_too_much_by_themselves() -> None:
    """Shot to the float's mark, and the rest sinks it: 14.8 mg, as on many a rig."""
    rig = worked_rig(float_=FallingFloat(1.96, Tip(3.0, 60.0), lock_g=1.6))
    assert keys(rig) == ["float sinks"]
    assert keys(replace(rig, over_mm=50.0)) == ["float sinks"]
    assert just_carries_g(rig) > just_carries_g(replace(rig, over_mm=0.0)) > 1.96


def test_a_bait_that_floats_counts_as_weightless() -> None:
    rig = worked_rig(bait=FallingBait("bread", -0.01, 6.0, 6.0))
    near = nearest_rig(rig)
    assert [note.key for note in near.notes] == ["bait floats"]
    assert "bread floats" in near.notes[0].says
    assert near.rig.bait is not None
    assert near.rig.bait.weight_n() == 0


def test_a_bulk_below_the_hook_goes_to_the_hook() -> None:
    near = nearest_rig(worked_rig(shot=(Weights(-100.0, NO_8), Weights(500.0, NO_8))))
    assert [note.key for note in near.notes] == ["shot below hook"]
    assert [at.above_hook_mm for at in near.rig.shot] == [0.0, 500.0]


def test_shot_above_the_float_goes_to_the_float() -> None:
    near = nearest_rig(worked_rig(shot=(Weights(2500.0, NO_8), Weights(500.0, NO_8))))
    assert [note.key for note in near.notes] == ["shot above float"]
    assert near.rig.float_ is not None
    assert near.rig.float_.lock_g == pytest.approx(1.66)
    assert keys(worked_rig(shot=(Weights(1800.0, NO_8), Weights(500.0, NO_8)))) == []


def test_a_depth_past_the_line_hangs_off_the_bottom() -> None:
    rig = worked_rig(over_mm=-700.0)
    near = nearest_rig(rig)
    assert [note.key for note in near.notes] == ["off bottom"]
    assert "70 cm" in near.notes[0].says
    assert settle(rig, band=False, links=10).tight.lands_s() is None


def test_what_lies_does_not_hang() -> None:
    rig = worked_rig()
    assert hanging_n(rig) > hanging_n(rig, 0.0) > hanging_n(rig, 300.0) > hanging_n(rig, 1700.0)
    assert hanging_n(rig, 0.0) == pytest.approx(hanging_n(rig, 249.0), rel=1e-3)  # line only
    assert hanging_n(rig, 1800.0) == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize(
    ("make", "where"),
    [
        (lambda: LinePiece(0.0, 0.14), "line"),
        (lambda: LinePiece(1000, 0.0), "line"),
        (lambda: LinePiece(1000, float("nan")), "line"),
        (lambda: LinePiece(1000, 0.14, 8.0), "line"),
        (lambda: replace(worked_rig(), line=()), "line"),
        (lambda: replace(worked_rig(), line=(LinePiece(10, 0.14),)), "line"),
        (lambda: replace(worked_rig(), over_mm=1790.0), "depth"),
        (lambda: replace(worked_rig(), over_mm=float("nan")), "depth"),
        (lambda: replace(worked_rig(), wind_m_s=99.0), "wind"),
        (lambda: Weights(float("inf"), NO_8), "shot"),
        (lambda: Weights(100.0, ()), "shot"),
        (lambda: replace(worked_rig(), shot=(Weights(10, read_pattern("200 No 8")),) * 2), "shot"),
        (lambda: FallingFloat(0.0, Tip(3, 60)), "float"),
        (lambda: FallingFloat(2.0, Tip(3, 60), lock_g=-1.0), "float"),
        (lambda: FallingFloat(2.0, Tip(3, 60), own_mass_g=0.0), "float"),
        (lambda: FallingFloat(2.0, Tip(3, 60), body_mm=0.0), "float"),
        (lambda: FallingHook("20", 0.0, 0.3, 12.0), "hook"),
        (lambda: FallingHook("20", 10.0, 0.0, 12.0), "hook"),
        (lambda: FallingBait("maggot", 4.0, 3.0, 11.0), "bait"),
        (lambda: FallingBait("maggot", 0.04, 0.0, 11.0), "bait"),
        (lambda: bait_named("bread punch"), "bait"),
        (lambda: bait_timed("maggot", 1.0, 0.0), "bait"),
        (lambda: bait_timed("maggot", 0.0, 24.0), "bait"),
        (lambda: hook_of_size("4"), "hook"),
        (lambda: hook_of_size("2/0"), "hook"),
        (lambda: hook_weighed("20", 0.0), "hook"),
    ],
)
def test_figures_that_make_no_sense(make: object, where: str) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        make()  # type: ignore[operator]
    assert refused.value.where == where
    assert refused.value.what


def test_water_that_is_not_fished_and_materials_not_known() -> None:
    with pytest.raises(AskedWronglyError, match=r"water of .* cannot be right"):
        worked_rig(temperature_c=35.0)
    with pytest.raises(AskedWronglyError, match="no weight material"):
        Weights(100.0, NO_8, "gold")
    with pytest.raises(AskedWronglyError, match="no weight material"):
        FallingFloat(2.0, Tip(3, 60), rated_in="gold")


def test_what_he_measured_goes_before_what_is_known() -> None:
    timed = bait_timed("Maggot", 1.0, 24.0)
    assert timed.sinks_m_s == pytest.approx(1 / 24)
    assert timed.source.basis is Basis.MEASURED
    assert timed.length_mm == bait_named("maggot").length_mm
    assert bait_timed("bread punch", 1.0, 12.0).name == "bread punch"
    assert hook_weighed("20", 9.0).mass_mg == 9.0


def test_published_pellets_and_the_rest_from_memory() -> None:
    grounds = {bait.name: bait.source.basis for bait in BAITS}
    assert grounds["3 mm pellet"] is grounds["5 mm pellet"] is Basis.PUBLISHED
    assert grounds["maggot"] is grounds["caster"] is Basis.MEMORY


def test_a_float_nobody_weighed() -> None:
    waggler = usual_float("waggler insert", 2.0, Tip(3, 60), 1.6)
    assert waggler == FallingFloat(2.0, Tip(3, 60), 1.6)
    weighed = usual_float("waggler", 2.0, Tip(3, 60), own=OwnMass(3.1, MEASURED))
    assert (weighed.own_mass_g, weighed.source) == (3.1, MEASURED)
    with pytest.raises(AskedWronglyError, match="no kind of float") as refused:
        usual_float("wagler", 2.0, Tip(3, 60))
    assert "waggler" in refused.value.right


def test_bigger_hooks_are_heavier() -> None:
    masses = [hook_of_size(str(size)).mass_mg for size in range(26, 7, -1)]
    assert masses == sorted(masses)
    assert len(set(masses)) == len(masses)


def test_loose_feed_takes_its_time() -> None:
    assert loose_feed_lands_s(bait_named("maggot"), 2.0) == pytest.approx(50)
    with pytest.raises(ValueError, match="more than 0"):
        loose_feed_lands_s(FallingBait("bread", -0.01, 6, 6), 2.0)


def test_points_stand_at_shot_knots_and_ends() -> None:
    rig = worked_rig()
    assert places_m(rig) == pytest.approx([0, 0.9, 1.3, 1.5, 1.55, 1.8])
    chain = chain_of(rig, 40)
    assert chain.points == 41
    assert chain.at_m[-1] == pytest.approx(1.8)
    for place in places_m(rig):
        assert min(abs(at - place) for at in chain.at_m) < 1e-9


def test_two_shot_in_one_place_are_one_point() -> None:
    rig = worked_rig(shot=(Weights(500.0, NO_8), Weights(500.0, NO_8), Weights(500.05, NO_8)))
    assert len(places_m(rig)) == 4
    one = worked_rig(shot=(Weights(500.0, read_pattern("3 No 8")),))
    assert sum(chain_of(rig).mass_kg) == pytest.approx(sum(chain_of(one).mass_kg))


def test_every_span_has_a_link() -> None:
    assert share_links([1.0, 0.001, 0.5], 3) == [1, 1, 1]
    assert share_links([1.0, 0.001, 0.5], 2) == [1, 1, 1]
    assert sum(share_links([0.3, 0.4, 1.1], 40)) == 40
