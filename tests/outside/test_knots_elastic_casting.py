"""Knots, pole elastic, casting and feeding against the published guides."""

import pytest

from tacklebox.trade.casting import even_pull_kg, launch_speed_m_s, shock_leader_kg
from tacklebox.trade.elastic import guide_for
from tacklebox.trade.feeding import caster_pints, pints
from tacklebox.trade.hooks import read_hook_range
from tacklebox.trade.knots import KNOTS, keeps, knot_named
from tacklebox.trade.quantities import Range
from tests.outside import outside

LB = 0.45359237
CHALLENGE = "Sport Fishing magazine, third reader knot challenge"


@outside("mono tied straight to tackle", f"{CHALLENGE}: 75–100 % over 29 knots", "published")
def test_mono_knots() -> None:
    answer = {knot.name: keeps(knot, "nylon") for knot in KNOTS if knot.use in ("tackle", "hook")}
    assert len(answer) >= 5
    assert all(0.75 <= share <= 1.0 for share in answer.values()), answer


@outside(
    "figure-of-eight loop",
    'Toledo-Bend bass tips, "Figure of Eight Loop": about 70 %',
    "published",
)
def test_figure_of_eight() -> None:
    """One writer's figure; anglers hold it stronger than the overhand loop."""
    assert keeps(knot_named("figure-of-eight loop"), "nylon") == pytest.approx(0.70, abs=0.06)


@outside("braid tied straight to tackle", f"{CHALLENGE}: 31–87 % over 30 knots", "published")
def test_braid_knots() -> None:
    tied = [knot for knot in KNOTS if knot.use in ("tackle", "hook")]
    answer = {knot.name: keeps(knot, "braid") for knot in tied}
    assert all(0.31 <= share <= 0.87 for share in answer.values()), answer
    # a knot without a figure of its own lies in the middle of what was found
    middle = max(share for knot, share in answer.items() if knot in ("half blood", "knotless knot"))
    assert middle == pytest.approx((0.31 + 0.87) / 2, abs=0.02)


@outside(
    "pole elastic and what goes with it", "Match Anglers Matches, elastic ratings", "published"
)
@pytest.mark.parametrize(
    ("grades", "rig_mm", "rig_lb", "hooklength_mm", "hooklength_lb", "hooks"),
    [
        ((1, 2), None, (0, 1.5), None, (0, 10 / 16), "24 to 22"),
        ((3, 4), (0.10, 0.12), (1.5, 3), (0.08, 0.10), (1, 2), "22 to 20"),
        ((5, 6), (0.13, 0.15), (2.5, 3.5), (0.12, 0.14), None, "20 to 16"),
        ((8, 10), (0.14, 0.16), (3, 5), None, None, "18 to 14"),
    ],
)
def test_elastic(
    grades: tuple[float, float],
    rig_mm: tuple[float, float] | None,
    rig_lb: tuple[float, float],
    hooklength_mm: tuple[float, float] | None,
    hooklength_lb: tuple[float, float] | None,
    hooks: str,
) -> None:
    def same(band: Range | None, expected: tuple[float, float] | None, unit: float = 1.0) -> bool:
        if band is None or expected is None:
            return band is None and expected is None
        return [band.low, band.high] == pytest.approx([unit * end for end in expected])

    for grade in grades:
        row = guide_for(grade)
        assert row
        assert (row.grades.low, row.grades.high) == grades
        assert same(row.rig_line_mm, rig_mm)
        assert same(row.rig_line_kg, rig_lb, LB)
        assert same(row.hooklength_mm, hooklength_mm)
        assert same(row.hooklength_kg, hooklength_lb, LB)
        assert row.hooks == read_hook_range(hooks)


@outside(
    "shock leader for full-blooded casting",
    'Planet Sea Fishing glossary, "Shock leader": 10 lb for each ounce',
    "published",
)
def test_shock_leader() -> None:
    for ounces in (1, 2, 5):
        assert shock_leader_kg(ounces * 28.349523125) == pytest.approx(10 * ounces * LB)


@outside("the pull of a cast", "ballistics by hand: 50 g, 40 m, 3 m of sweep", "closed form")
def test_a_cast() -> None:
    speed = (9.80665 * 40) ** 0.5
    assert launch_speed_m_s(40) == pytest.approx(speed)
    newtons = 0.050 * (speed**2 / (2 * 3.0) + 9.80665)
    assert even_pull_kg(50, 40, 3.0) == pytest.approx(newtons / 9.80665)


@outside(
    "casters from maggots",
    'angling-guru.info, "Using casters for bait": five pints make about three',
    "published",
)
def test_casters() -> None:
    assert caster_pints(5) == pytest.approx(3)
    assert pints(5 * 568.26125) == pytest.approx(5)
