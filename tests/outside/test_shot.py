"""Split shot and its densities against the published guide."""

import pytest

from tacklebox.trade.bulk import judge_bulk
from tacklebox.trade.shape import Shape
from tacklebox.trade.shot import BY_MARK, pattern_mass_g, read_pattern, weight_material
from tests.outside import outside

SOAR = 'Soar Tackle knowledge base, "Guide to float shotting & weights"'
DUE_WEST = 'Due West Anglers, "Don\'t overlook split shot"; tables of elements'


@outside("masses of the twelve published sizes of shot", SOAR, "published")
@pytest.mark.parametrize(
    ("mark", "mass_g"),
    [("SSG", 1.6), ("AAA", 0.8), ("BB", 0.4), ("No 1", 0.3), ("No 4", 0.2), ("No 6", 0.1),
     ("No 8", 0.06), ("No 9", 0.05), ("No 10", 0.04), ("No 11", 0.03), ("No 12", 0.02),
     ("No 13", 0.01)],
)  # fmt: skip
def test_masses(mark: str, mass_g: float) -> None:
    assert BY_MARK[mark].mass_g == pytest.approx(mass_g, abs=1e-9)
    assert BY_MARK[mark].source.citation == SOAR


@outside("which shot equal which", SOAR, "published")
@pytest.mark.parametrize(
    ("one", "same_as"),
    [("1 SSG", "2 AAA"), ("1 AAA", "2 BB"), ("1 BB", "2 No 4"), ("1 No 1", "3 No 6"),
     ("1 No 4", "2 No 6"), ("1 No 6", "2 No 9"), ("1 No 8", "2 No 11"), ("1 No 10", "2 No 12"),
     ("1 No 12", "2 No 13")],
)  # fmt: skip
def test_equals(one: str, same_as: str) -> None:
    assert pattern_mass_g(read_pattern(one)) == pytest.approx(pattern_mass_g(read_pattern(same_as)))


@outside("the guide's worked float of 6 No 4", SOAR, "published")
def test_worked_example() -> None:
    for pattern in ("6 No 4", "19 No 8 + 3 No 12"):
        assert pattern_mass_g(read_pattern(pattern)) == pytest.approx(1.2)


@outside("half to three quarters of a waggler's capacity at the float", SOAR, "published")
def test_share_at_the_float() -> None:
    assert (Shape().float_low, Shape().float_high) == (1 / 2, 3 / 4)


@outside("densities of lead and tin", DUE_WEST, "published")
def test_densities() -> None:
    assert weight_material("lead").density_g_cm3 == pytest.approx(11.342, abs=0.005)
    assert weight_material("tin").density_g_cm3 == pytest.approx(7.287, abs=0.005)
    # of the metal 19.25: an olivette's alloy is lighter, and heavier than lead
    assert 11.342 < weight_material("tungsten").density_g_cm3 < 19.25


@outside(
    "strung out, each shot no heavier than the one above it",
    'Black Country Fishing, "Shot"',
    "published",
)
@pytest.mark.parametrize(("above", "outcome"), [("No 6", "sound"), ("No 10", "doubtful")])
def test_heavier_above_lighter(above: str, outcome: str) -> None:
    judged = judge_bulk(read_pattern("4 No 8"), (), read_pattern(above))
    assert judged.outcome.value == outcome
    cited = [fact.source.citation for fact in judged.facts]
    assert 'Black Country Fishing, "Shot"' in cited
