"""Law, byelaws and cautions against what they say."""

from datetime import date, timedelta

import pytest

from tacklebox.trade.keepnet import BYELAW, Keepnet, judge_keepnet
from tacklebox.trade.law import (
    LICENCE,
    in_close_season,
    lead_may_not_be_supplied,
    lead_may_not_be_used,
    power_lines,
)
from tests.outside import outside

BYELAWS = "National fisheries byelaws, Environment Agency"


@outside(
    "lead that may not be supplied",
    "SI 1986/1992, regulation 4: over 0.06 g and up to 28.35 g",
    "published",
)
@pytest.mark.parametrize(
    ("mass_g", "may_not"),
    [(0.06, False), (0.062, True), (28.34, True), (28.35, True), (28.4, False)],
)
def test_supply_of_lead(mass_g: float, may_not: bool) -> None:
    assert lead_may_not_be_supplied(mass_g) is may_not


@outside(
    "lead that may not be used",
    "GOV.UK, Freshwater rod fishing rules: 0.06 g or less, or more than 28.35 g; for Wales, Natural "
    "Resources Wales, Fishing with rods and lead",
    "published",
)
@pytest.mark.parametrize(
    ("mass_g", "may_not"), [(0.06, False), (0.062, True), (28.34, True), (28.4, False)]
)
def test_use_of_lead(mass_g: float, may_not: bool) -> None:
    assert lead_may_not_be_used(mass_g) is may_not


@outside("the coarse close season's days", BYELAWS, "published")
def test_close_season() -> None:
    first, last = date(2026, 3, 15), date(2026, 6, 15)
    day = date(2026, 1, 1)
    while day.year == 2026:
        assert in_close_season(day) is (first <= day <= last), day
        day += timedelta(days=1)


@outside(
    "keepnets: length, ring spacing, ring, hole, knots, metal",
    f"{BYELAWS}; Natural Resources Wales says the same",
    "published",
)
@pytest.mark.parametrize(
    ("net", "fails"),
    [
        (Keepnet(2000, 400, 1200, 25, True, metal=False), 0),
        (Keepnet(1990, 400, 1200, 25, True, metal=False), 1),
        (Keepnet(2000, 410, 1200, 25, True, metal=False), 1),
        (Keepnet(2000, 400, 1190, 25, True, metal=False), 1),
        (Keepnet(2000, 400, 1200, 26, True, metal=False), 1),
        (Keepnet(2000, 400, 1200, 25, False, metal=False), 1),
        (Keepnet(2000, 400, 1200, 25, True, metal=True), 1),
    ],
)
def test_keepnets(net: Keepnet, fails: int) -> None:
    assert sum(rule.passes is False for rule in judge_keepnet(net)) == fails
    assert (BYELAW.round_rings_mm, BYELAW.square_rings_mm) == (0, 0)  # they ask for neither


@outside(
    "distance from power lines", "Energy Networks Association, angler safety: 30 m", "published"
)
def test_power_lines() -> None:
    assert "at least 30 m from overhead power lines" in power_lines().says


@outside(
    "age from which a rod licence is needed",
    "GOV.UK, national rod fishing byelaws: 13",
    "published",
)
def test_rod_licence() -> None:
    assert LICENCE.says == "A rod licence is needed from the age of 13."
