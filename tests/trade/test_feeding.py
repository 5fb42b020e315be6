"""Feed for a day: published figures and arithmetic by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.feeding import caster_pints, feeder_mix, pints, pints_of, times_in
from tests.outside import outside


@outside(
    "casters from five pints of maggots", 'angling-guru.info, "Using casters for bait"', "published"
)
def test_against_published_maggots_and_casters() -> None:
    """angling-guru.info, "Using casters for bait": five pints of maggots, about three of casters."""
    assert caster_pints(5) == pytest.approx(3)


@pytest.mark.parametrize(
    ("hours", "every_min", "times"), [(5, 5, 60), (5, 2, 150), (5.5, 4, 82), (0.25, 20, 0)]
)
def test_how_often(hours: float, every_min: float, times: int) -> None:
    assert times_in(hours, every_min) == times


def test_a_steady_loose_feed_for_five_hours() -> None:
    """Common practice: ten maggots every two minutes; 1,500, a little over half a pint."""
    assert pints_of(10 * times_in(5, 2), 2500) == pytest.approx(0.6)


@outside("millilitres to the pint", "NIST SP 811, appendix B", "published")
def test_the_pint_against_nist() -> None:
    assert pints(568.26125) == pytest.approx(1)


@given(st.integers(0, 500), st.floats(1, 500), st.floats(0, 1), st.floats(0.2, 2), st.floats(0, 3))
def test_nothing_is_lost_in_the_bucket(
    casts: int, feeder_ml: float, share: float, density: float, water: float
) -> None:
    mix = feeder_mix(casts, feeder_ml, share, density, water)
    assert mix.dry_g + mix.water_ml == pytest.approx(mix.wet_g)
    assert mix.water_ml == pytest.approx(mix.dry_g * water, abs=1e-6)
    filled = mix.wet_g / density + mix.loose_feed_ml
    assert filled == pytest.approx(casts * feeder_ml)


@pytest.mark.parametrize(
    ("call", "expected"),
    [
        (lambda: times_in(0, 5), "a match of 0 h"),
        (lambda: times_in(5, 0), "an interval"),
        (lambda: feeder_mix(60, 0), "a feeder"),
        (lambda: feeder_mix(60, 40, 1.5), "a share"),
        (lambda: feeder_mix(60, 40, 0.5, float("nan")), "groundbait"),
        (lambda: pints_of(100, 0), "a pint"),
        (lambda: caster_pints(-1), "maggots"),
    ],
)
def test_nonsense_is_refused(call: "object", expected: str) -> None:
    assert callable(call)
    with pytest.raises(AskedWronglyError, match=expected):
        call()
