"""Keepnets against the Environment Agency's national fisheries byelaws."""

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.keepnet import keepnet_faults, keepnet_words


@pytest.mark.parametrize(
    ("measures_mm", "faults"),
    [
        ((2000, 400, 1200, 25), 0),  # the byelaw's own figures, each just allowed
        ((1999, 400, 1200, 25), 1),
        ((2000, 401, 1200, 25), 1),
        ((2000, 400, 1199, 25), 1),
        ((2000, 400, 1200, 26), 1),
        ((1000, 900, 900, 30), 4),
    ],
)
def test_against_the_national_byelaws(
    measures_mm: tuple[float, float, float, float], faults: int
) -> None:
    assert len(keepnet_faults(*measures_mm)) == faults


def test_a_venue_may_ask_for_more_never_for_less() -> None:
    assert keepnet_faults(2500, 400, 1200, 25, 3000) == ["it is 250 cm long: at least 3 m"]
    assert keepnet_faults(1500, 400, 1200, 25, 1000) == ["it is 150 cm long: at least 200 cm"]
    assert "at least 200 cm long" in keepnet_words(1000)


def test_no_measure_at_all_is_refused() -> None:
    with pytest.raises(AskedWronglyError):
        keepnet_faults(0, 400, 1200, 25)
