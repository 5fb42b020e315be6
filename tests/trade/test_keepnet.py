"""Keepnets against the national fisheries byelaws, which Natural Resources Wales repeats."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.keepnet import Keepnet, KeepnetRule, judge_keepnet, keepnet_words
from tacklebox.trade.law import Country
from tacklebox.trade.units_first import in_units
from tests.outside import outside

MEASURES = st.floats(1, 20_000)


def failed(
    length: float,
    apart: float,
    around: float,
    hole: float,
    *,
    knotless: bool = True,
    metal: bool = False,
) -> list[str]:
    """What is asked by the rules that the net breaks."""
    net = Keepnet(length, apart, around, hole, knotless, metal=metal)
    return [rule.asks for rule in judge_keepnet(net) if rule.passes is False]


@outside(
    "keepnets just within and just outside",
    "National fisheries byelaws; Natural Resources Wales",
    "published",
)
@pytest.mark.parametrize(
    ("measures_mm", "broken"),
    [
        ((2000, 400, 1200, 25), []),  # the byelaws' own figures, each just allowed
        ((1999, 400, 1200, 25), ["at least 200 cm long"]),
        ((2000, 401, 1200, 25), ["rings at most 40 cm apart below the first"]),
        ((2000, 400, 1199, 25), ["rings at least 120 cm around"]),
        ((2000, 400, 1200, 26), ["no hole over 25 mm around"]),
    ],
)
def test_against_the_national_byelaws(
    measures_mm: tuple[float, float, float, float], broken: list[str]
) -> None:
    """National fisheries byelaws, Environment Agency, and Natural Resources Wales: no knotted mesh,
    no mesh of metal, no hole over 25 mm internal circumference, at least 2.0 m long, rings no more
    than 40 cm apart, that from the top frame left out of account, at least 120 cm in circumference."""
    assert failed(*measures_mm) == broken
    assert failed(*measures_mm, knotless=False) == ["knotless mesh", *broken]
    assert failed(*measures_mm, metal=True) == ["no mesh of metal", *broken]
    both = failed(*measures_mm, knotless=False, metal=True)
    assert both == ["knotless mesh", "no mesh of metal", *broken]


def test_the_distance_from_the_top_frame_is_left_out() -> None:
    (rule,) = [r for r in judge_keepnet(Keepnet(rings_apart_mm=400)) if "apart" in r.asks]
    assert rule.asks.endswith("below the first")
    assert rule.passes
    assert "apart below the first" in keepnet_words()


def test_his_unit_stands_beside_and_whoever_keeps_to_it_keeps_to_the_byelaw() -> None:
    with in_units("imperial"):
        said = keepnet_words()
    for one in ("200 cm (78 3/4 in) long", "40 cm (15 1/2 in) apart", "120 cm (47 1/4 in) around"):
        assert one in said


def test_wales_is_told_by_its_own_authority() -> None:
    assert "Natural Resources Wales" in keepnet_words(country=Country.WALES)
    assert "Environment Agency" not in keepnet_words(country=Country.WALES)
    assert "Natural Resources Wales" not in keepnet_words(country=Country.ENGLAND)


@given(MEASURES, MEASURES, MEASURES, MEASURES, st.booleans())
def test_a_longer_net_with_closer_rings_and_finer_mesh_never_breaks_more(
    length: float, apart: float, around: float, hole: float, knotless: bool
) -> None:
    worse = set(failed(length, apart, around, hole, knotless=knotless))
    better = set(failed(20_000, apart / 2, 20_000, hole / 2, knotless=knotless))
    assert better <= worse


def test_what_was_not_measured_neither_passes_nor_fails() -> None:
    assert [r.passes for r in judge_keepnet(Keepnet(length_mm=3000))] == [
        None,
        None,
        None,
        True,
        None,
        None,
    ]


@pytest.mark.parametrize(
    ("asked", "net", "asks"),
    [
        (KeepnetRule(length_mm=3000), Keepnet(2999), "at least 3 m long"),
        (KeepnetRule(rings_apart_mm=300), Keepnet(rings_apart_mm=301),
         "rings at most 30 cm apart below the first"),
        (KeepnetRule(hole_around_mm=20), Keepnet(hole_around_mm=21), "no hole over 20 mm around"),
        (KeepnetRule(ring_around_mm=1300), Keepnet(ring_around_mm=1299),
         "rings at least 130 cm around"),
        (KeepnetRule(ring_around_mm=1500), Keepnet(round_mm=477), "rings at least 150 cm around"),
        (KeepnetRule(round_rings_mm=450), Keepnet(round_mm=449),
         "round rings at least 45 cm across"),
        (KeepnetRule(square_rings_mm=400), Keepnet(square_mm=399),
         "square rings at least 40 cm on the shorter side"),
    ],
)  # fmt: skip
def test_a_venue_may_ask_for_more(asked: KeepnetRule, net: Keepnet, asks: str) -> None:
    (broken,) = [r for r in judge_keepnet(net, asked) if r.passes is False]
    assert (broken.asks, broken.by_venue) == (asks, True)
    assert not [r for r in judge_keepnet(net) if r.passes is False]  # the byelaws let it pass
    assert asks in keepnet_words(asked)
    assert "and the venue" in keepnet_words(asked)


def test_a_venue_never_asks_for_less() -> None:
    (length,) = [r for r in judge_keepnet(Keepnet(1500), KeepnetRule(1000)) if r.passes is False]
    assert (length.asks, length.by_venue) == ("at least 200 cm long", False)
    assert keepnet_words(KeepnetRule(1000)) == keepnet_words()
    laxer = KeepnetRule(1999, 401, 1199, 26, 381)  # 1200 / π is 381.97
    assert len(laxer.laxer) == 5
    assert KeepnetRule(2000, 400, 1200, 25, 382, 1).laxer == ()


@pytest.mark.parametrize(
    ("net", "passes"),
    [
        (Keepnet(round_mm=382), True),  # π × 382 is 1200.1
        (Keepnet(round_mm=381), False),
        (Keepnet(square_mm=300), True),  # four sides of 30 cm
        (Keepnet(square_mm=299), None),  # it may be oblong
        (Keepnet(1200, square_mm=299, ring_around_mm=1200), True),
        (Keepnet(1200, square_mm=250, ring_around_mm=1199), False),
    ],
)
def test_how_far_around_from_how_wide(net: Keepnet, passes: bool | None) -> None:
    (around,) = [r for r in judge_keepnet(net) if "rings at least" in r.asks]
    assert around.passes is passes


def test_a_rule_on_round_rings_is_none_on_square_ones() -> None:
    asked = KeepnetRule(round_rings_mm=450, square_rings_mm=400)
    assert [r.passes for r in judge_keepnet(Keepnet(square_mm=400), asked)[6:]] == [True]
    assert [r.passes for r in judge_keepnet(Keepnet(round_mm=449), asked)[6:]] == [False]
    assert [r.passes for r in judge_keepnet(Keepnet(3000), asked)[6:]] == [None, None]


@pytest.mark.parametrize(
    "net",
    [
        Keepnet(round_mm=400, square_mm=400),
        Keepnet(round_mm=400, ring_around_mm=1257),
        Keepnet(square_mm=400, ring_around_mm=1500),
    ],
)
def test_rings_that_contradict_one_another_are_refused(net: Keepnet) -> None:
    with pytest.raises(AskedWronglyError):
        judge_keepnet(net)


@pytest.mark.parametrize("measure", [0.0, -1.0, 20_001.0, float("nan")])
def test_no_measure_at_all_is_refused(measure: float) -> None:
    with pytest.raises(AskedWronglyError, match="Measure it again"):
        judge_keepnet(Keepnet(measure))
