"""Keepnets against the Environment Agency's national fisheries byelaws."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.keepnet import Keepnet, judge_keepnet, keepnet_words

MEASURES = st.floats(1, 20_000)


def failed(
    length: float, apart: float, around: float, hole: float, *, knotless: bool = True
) -> list[str]:
    """What is asked by the rules that the net breaks."""
    net = Keepnet(length, apart, around, hole, knotless)
    return [rule.asks for rule in judge_keepnet(net) if rule.passes is False]


@pytest.mark.parametrize(
    ("measures_mm", "broken"),
    [
        ((2000, 400, 1200, 25), []),  # the byelaws' own figures, each just allowed
        ((1999, 400, 1200, 25), ["at least 200 cm long"]),
        ((2000, 401, 1200, 25), ["rings at most 40 cm apart"]),
        ((2000, 400, 1199, 25), ["rings at least 120 cm around"]),
        ((2000, 400, 1200, 26), ["no hole over 25 mm around"]),
    ],
)
def test_against_the_national_byelaws(
    measures_mm: tuple[float, float, float, float], broken: list[str]
) -> None:
    assert failed(*measures_mm) == broken
    assert failed(*measures_mm, knotless=False) == ["knotless mesh", *broken]


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
        True,
        None,
        None,
    ]


def test_a_venue_may_ask_for_more_never_for_less() -> None:
    (length,) = [r for r in judge_keepnet(Keepnet(2500), 3000) if r.passes is False]
    assert (length.asks, length.by_venue) == ("at least 3 m long", True)
    (length,) = [r for r in judge_keepnet(Keepnet(1500), 1000) if r.passes is False]
    assert (length.asks, length.by_venue) == ("at least 200 cm long", False)
    assert "at least 200 cm long" in keepnet_words(1000)


@pytest.mark.parametrize("measure", [0.0, -1.0, 20_001.0, float("nan")])
def test_no_measure_at_all_is_refused(measure: float) -> None:
    with pytest.raises(AskedWronglyError, match="Measure it again"):
        judge_keepnet(Keepnet(measure))
