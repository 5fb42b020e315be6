"""Shot patterns against full enumeration, and what stands in for shot that is gone."""

import subprocess
import sys
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.trade.balance import Group, Tip, stages
from tacklebox.trade.nearest import Problem, Row, nearest_choices
from tacklebox.trade.pattern import Pattern, Shape, best_patterns, replacements
from tacklebox.trade.shot import SHOT, read_pattern
from tacklebox.trade.supply import Supply, every_size

INSERT = Tip(3.0, 60.0)


def by_enumeration(problem: Problem, how_many: int) -> list[float]:
    """The least costs over all counts that keep the rows, one for each content of kinds."""
    best: dict[tuple[int, ...], float] = {}
    for counts in product(*(range(most + 1) for most in problem.most)):
        if all(
            row.low - 1e-9 <= sum(f * counts[n] for n, f in row.factors) <= row.high + 1e-9
            for row in problem.rows
        ):
            content = tuple(sum(counts[n] for n in places) for places in problem.places())
            cost = problem.choice(counts).cost_mg
            best[content] = min(cost, best.get(content, cost))
    return sorted(best.values())[:how_many]


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    """Small problems with two places for each size and rows as a float's shape has them."""
    sizes = draw(st.lists(st.sampled_from(range(10, 900)), min_size=2, max_size=3, unique=True))
    masses = tuple(float(mass) for mass in sizes) * 2
    most = tuple(draw(st.integers(0, 3)) for _ in masses)
    target = float(draw(st.integers(50, 3000)))
    low = draw(st.integers(0, 600)) / 1000  # no bound nearer to a sum than the solver can tell
    upper = range(len(sizes))
    rows = [
        Row(low * target, (low + 0.4) * target, tuple((n, masses[n]) for n in upper)),
        Row(draw(st.integers(0, 2)), 9, tuple((n, 1.0) for n in range(len(sizes), len(masses)))),
    ]
    return Problem(masses, most, target, tuple(rows), tuple(range(len(sizes))) * 2)


@settings(max_examples=60, deadline=None)
@given(problems())
def test_solver_against_full_enumeration(problem: Problem) -> None:
    expected = by_enumeration(problem, 4)
    found = nearest_choices(problem, 4)
    assert [choice.cost_mg for choice in found] == pytest.approx(expected, abs=0.02)
    for choice in found:
        for row in problem.rows:
            total = sum(factor * choice.counts[n] for n, factor in row.factors)
            assert row.low - 1e-3 <= total <= row.high + 1e-3
        assert all(n <= most for n, most in zip(choice.counts, problem.most, strict=True))


def test_best_pattern_against_enumerating_the_stock() -> None:
    """From a small box, the best and next-best by every way to place every shot."""
    box = [
        Supply("AAA", 0.80, count=2),
        Supply("BB", 0.40, count=2),
        Supply("No 8", 0.06, count=4),
        Supply("No 10", 0.04, count=3),
    ]
    shape = Shape(0.5, 0.85, lock_least=2, bulk_least=1, droppers=2)
    costs: dict[tuple[int, ...], float] = {}
    for lock in product(*(range(s.count + 1 if s.count else 1) for s in box)):
        for bulk in product(
            *(range((s.count or 0) - n + 1) for s, n in zip(box, lock, strict=True))
        ):
            for small in ((2, 0), (1, 1), (0, 2)):
                total = [a + b for a, b in zip(lock, bulk, strict=True)]
                total[2] += small[0]
                total[3] += small[1]
                if any(n > (s.count or 0) for n, s in zip(total, box, strict=True)):
                    continue
                at_float = sum(n * s.mass_g for n, s in zip(lock, box, strict=True))
                if sum(lock) < 2 or sum(bulk) < 1 or not 1.0 <= at_float <= 1.7:
                    continue
                mass = sum(n * s.mass_g for n, s in zip(total, box, strict=True))
                costs[tuple(total)] = 1000 * abs(mass - 2.0) + sum(total)
    found = best_patterns(2.0, box, shape, tip=INSERT, wished_tip_mm=0.0, how_many=5)
    expected = sorted(costs.values())[:5]
    got = [abs(pattern.error_mg) + pattern.shot for pattern in found]
    assert got == pytest.approx(expected[: len(got)], abs=0.02)
    assert len(got) >= 3


def used(pattern: Pattern) -> dict[str, int]:
    counts: dict[str, int] = {}
    for part in (pattern.at_float, pattern.bulk, pattern.droppers):
        for supply, n in part:
            counts[supply.mark] = counts.get(supply.mark, 0) + n
    return counts


@settings(max_examples=25, deadline=None)
@given(st.floats(0.8, 5.0), st.floats(0.0, 8.0))
def test_patterns_balance_the_float_as_the_stages_see_it(capacity_g: float, wish_mm: float) -> None:
    found = best_patterns(capacity_g, every_size(), tip=INSERT, wished_tip_mm=wish_mm, how_many=2)
    for pattern in found:
        end = stages(capacity_g, INSERT, pattern.groups())[-1]
        assert end.shows_mm == pytest.approx(wish_mm + pattern.error_tip_mm, abs=0.01)
        assert sum(n for _, n in pattern.droppers) == 2
        assert all(supply.mass_g <= 0.06 for supply, _ in pattern.droppers)
        assert sum(n for _, n in pattern.at_float) >= 2
    assert len({str(pattern) for pattern in found}) == len(found)


def test_counts_in_stock_are_kept() -> None:
    box = [Supply(s.mark, s.mass_g, count=3) for s in SHOT]
    for pattern in best_patterns(4.0, box, tip=INSERT, how_many=4):
        assert all(n <= 3 for n in used(pattern).values())


def test_banned_lead_is_never_offered() -> None:
    box = [*every_size("lead"), *every_size("tin")]
    for pattern in best_patterns(2.0, box, tip=INSERT, how_many=4):
        for part in (pattern.at_float, pattern.bulk, pattern.droppers):
            assert all(supply.material == "tin" or supply.mass_g <= 0.06 for supply, _ in part)
    with pytest.raises(CannotBeDoneError, match="lead that may not be used"):
        best_patterns(2.0, [Supply("AAA", 0.8, "lead", 5)], tip=INSERT)


def test_lead_counts_for_its_pull_where_it_is_allowed() -> None:
    box = [Supply("AAA", 0.8), Supply("No 8", 0.06, "lead"), Supply("No 10", 0.04, "lead")]
    pattern = best_patterns(2.0, box, Shape(0.5, 0.9), tip=INSERT, wished_tip_mm=0.0)[0]
    shown = stages(2.0, INSERT, pattern.groups())[-1].shows_mm
    assert shown == pytest.approx(pattern.error_tip_mm, abs=1e-6)


def test_the_shape_of_a_recipe() -> None:
    groups = [
        Group("lock shot", read_pattern("2 AAA")),
        Group("bulk", read_pattern("4 No 8 + 2 No 10")),
        Group("dropper", read_pattern("2 No 10")),
    ]
    shape = Shape.like(groups)
    assert (shape.float_low, shape.float_high) == pytest.approx((0.7, 0.9))
    assert (shape.lock_least, shape.bulk_least, shape.droppers) == (2, 3, 2)
    assert shape.dropper_most_g == pytest.approx(0.04)
    pole = Shape.like([Group("bulk", read_pattern("olivette 0.4g")), groups[2]])
    assert (pole.float_high, pole.lock_least) == (0.0, 0)
    for pattern in best_patterns(0.5, every_size(), pole, tip=Tip(1.5, 40.0), how_many=2):
        assert pattern.at_float == ()


def test_two_aaa_are_replaced() -> None:
    """The published guide: SSG = 2 AAA, AAA = 2 BB, BB = 2 No 4 (Soar Tackle, as in shot.py)."""
    told = replacements(read_pattern("2 AAA"), every_size(), tip=INSERT)
    assert str(told[0]) == "1 SSG"
    assert told[0].error_mg == 0
    box = [Supply("BB", 0.4, count=3), Supply("No 1", 0.3, count=9)]
    near = replacements(read_pattern("2 AAA"), box, tip=INSERT, how_many=2)
    assert str(near[0]) == "1 BB + 4 No 1"
    box = [Supply("BB", 0.4, count=3)]
    light = replacements(read_pattern("2 AAA"), box, tip=INSERT)[0]
    assert (str(light), light.error_mg) == ("3 BB", -400)
    assert light.error_tip_mm == pytest.approx(48.9, abs=0.1)  # 0.4 g × 0.863 on a 3 mm tip


def test_lead_in_place_of_tin_pulls_more() -> None:
    box = [Supply("No 8", 0.06, "lead")]
    told = replacements(read_pattern("1 No 8"), box, tip=INSERT, how_many=1)[0]
    assert told.error_mg == pytest.approx(3.4, abs=0.05)  # 0.06 × 0.912 / 0.863 = 0.0634


def test_what_cannot_be_is_told_with_the_nearest() -> None:
    with pytest.raises(CannotBeDoneError, match="2 droppers"):
        best_patterns(2.0, [Supply("BB", 0.4)], tip=INSERT)
    box = [Supply("BB", 0.4, count=4), Supply("No 10", 0.04, count=3)]
    with pytest.raises(CannotBeDoneError, match=r"The nearest, .* is off by -\d+ mg"):
        best_patterns(2.5, box, tip=INSERT, wished_tip_mm=0.0)
    with pytest.raises(CannotBeDoneError, match="With any share"):
        best_patterns(2.0, [Supply("No 8", 0.06, count=8)], tip=INSERT, wished_tip_mm=0.0)
    with pytest.raises(CannotBeDoneError, match="no shot to choose"):
        best_patterns(2.0, [Supply("BB", 0.4, count=0)], tip=INSERT)


def test_nonsense_is_refused() -> None:
    with pytest.raises(AskedWronglyError, match="capacity"):
        best_patterns(-1.0, every_size(), tip=INSERT)
    with pytest.raises(AskedWronglyError, match="cannot show"):
        best_patterns(2.0, every_size(), tip=INSERT, wished_tip_mm=70.0)
    with pytest.raises(AskedWronglyError, match="no shot at all"):
        best_patterns(0.1, every_size(), tip=INSERT, wished_tip_mm=50.0)
    with pytest.raises(AskedWronglyError, match="makes no sense"):
        best_patterns(2.0, [Supply("BB", float("nan"))], tip=INSERT)
    with pytest.raises(AskedWronglyError, match="makes no sense"):
        Shape(0.8, 0.5)
    with pytest.raises(AskedWronglyError, match="do not go into"):
        Shape(most_shot=3)
    with pytest.raises(AskedWronglyError, match="nothing is gone"):
        replacements((), every_size())


def test_the_solver_is_imported_late_and_prints_nothing() -> None:
    script = (
        "import sys\n"
        "from tacklebox.trade.balance import Tip\n"
        "from tacklebox.trade.pattern import best_patterns\n"
        "from tacklebox.trade.supply import every_size\n"
        "heavy = {'highspy', 'numpy', 'scipy'} & set(sys.modules)\n"
        "assert not heavy, heavy\n"
        "best_patterns(2.0, every_size(), tip=Tip(3.0, 60.0))\n"
        "assert 'highspy' in sys.modules\n"
    )
    ran = subprocess.run([sys.executable, "-c", script], capture_output=True, check=False)
    assert (ran.returncode, ran.stdout, ran.stderr) == (0, b"", b"")
