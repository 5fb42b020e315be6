"""Shot patterns against full enumeration and another solver, and what is proven of them."""

import subprocess
import sys
from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.trade.balance import Group, Place, Tip, stages
from tacklebox.trade.hanging import Hanging
from tacklebox.trade.nearest import MOST_NODES, Problem, Row, nearest_choices
from tacklebox.trade.pattern import PROVEN_TO_MG, Pattern, best_patterns
from tacklebox.trade.pattern_rows import Columns, problem_of
from tacklebox.trade.shape import Shape
from tacklebox.trade.shot import SHOT, read_pattern
from tacklebox.trade.supply import Supply, acts_as_mg, every_size, usable_of
from tests.long.length import so_many
from tests.outside import outside

INSERT, BRISTLE = Tip(3.0, 60.0), Tip(1.2, 40.0)
POLE = Shape(0, 0, lock_least=0)


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
    sizes = draw(st.lists(st.integers(100, 9000), min_size=2, max_size=3, unique=True))
    masses = tuple(mass / 10 for mass in sizes) * 2  # weighed shot is no whole number of mg
    most = tuple(draw(st.integers(0, 3)) for _ in masses)
    target = float(draw(st.integers(50, 3000)))
    low = draw(st.integers(0, 600)) / 1000  # no bound nearer to a sum than the solver can tell
    upper = range(len(sizes))
    rows = [
        Row(low * target, (low + 0.4) * target, tuple((n, masses[n]) for n in upper)),
        Row(draw(st.integers(0, 2)), 9, tuple((n, 1.0) for n in range(len(sizes), len(masses)))),
    ]
    return Problem(masses, most, target, tuple(rows), tuple(range(len(sizes))) * 2)


@outside("the best choices of pieces", "every choice there is", "other way")
@settings(max_examples=so_many(60, 30), deadline=None)
@given(problems())
def test_solver_against_full_enumeration(problem: Problem) -> None:
    expected = by_enumeration(problem, 4)
    whole = nearest_choices(problem, 4)
    found = whole.choices
    assert whole.proven_whole
    assert all(choice.proven for choice in found)
    assert [choice.cost_mg for choice in found] == pytest.approx(expected, abs=0.02)
    for choice in found:
        for row in problem.rows:
            total = sum(factor * choice.counts[n] for n, factor in row.factors)
            assert row.low - 1e-3 <= total <= row.high + 1e-3
        assert all(n <= most for n, most in zip(choice.counts, problem.most, strict=True))


@outside("the best patterns from a small box", "every way to place every shot", "other way")
def test_best_pattern_against_enumerating_the_stock() -> None:
    """From a small box of weighed shot, the best and next-best by every way to place every shot:
    a bulk of one size, none lighter than a dropper."""
    box = [
        Supply("AAA", 0.8137, count=2),
        Supply("BB", 0.3951, count=2),
        Supply("No 8", 0.0613, count=4),
        Supply("No 10", 0.0392, count=3),
    ]
    shape = Shape(0.5, 0.95, lock_least=2, bulk_least=2, droppers=2)
    costs: dict[tuple[int, ...], float] = {}
    stock = [one.count or 0 for one in box]
    for lock in product(*(range(n + 1) for n in stock)):
        for size, count in product(range(4), range(2, 5)):
            for small in ((2, 0), (1, 1), (0, 2)):
                bulk = [count if n == size else 0 for n in range(4)]
                total = [a + b for a, b in zip(lock, bulk, strict=True)]
                total[2] += small[0]
                total[3] += small[1]
                heaviest_dropper = box[2].mass_g if small[0] else box[3].mass_g
                at_float = sum(n * s.mass_g for n, s in zip(lock, box, strict=True))
                if (
                    any(n > most for n, most in zip(total, stock, strict=True))
                    or box[size].mass_g < heaviest_dropper
                    or box[size].mass_g > 0.23
                    or sum(lock) < 2
                    or not 1.0 <= at_float <= 1.9
                ):
                    continue
                mass = sum(n * s.mass_g for n, s in zip(total, box, strict=True))
                costs[tuple(total)] = 1000 * abs(mass - 2.0) + sum(total)
    found = best_patterns(2.0, box, shape, tip=INSERT, wished_tip_mm=0.0, how_many=5)
    expected = sorted(costs.values())[:5]
    got = [abs(pattern.error_mg) + pattern.shot for pattern in found]
    assert got == pytest.approx(expected[: len(got)], abs=0.105)
    assert len(got) >= 3


def by_cp_sat(box: list[Supply], shape: Shape, target_mg: float) -> float:
    """The least cost by OR-tools' CP-SAT, in whole tenths of a microgram."""
    from ortools.sat.python import cp_model

    model, unit, most = cp_model.CpModel(), 10_000, 40
    masses = [round(1000 * one.mass_g * unit) for one in box]
    sizes = range(len(box))

    def counts(name: str, high: int) -> list[cp_model.IntVar]:
        return [model.new_int_var(0, high, f"{name}{n}") for n in sizes]

    lock = counts("lock", most if shape.float_high else 0)
    under, bulk = counts("under", 0 if shape.float_high else 1), counts("bulk", most)
    small, of = counts("small", shape.droppers), [model.new_bool_var(f"of{n}") for n in sizes]
    model.add(sum(small) == shape.droppers)
    model.add(sum(under) <= 1)
    model.add(sum(of) == 1)
    model.add(sum(bulk) >= shape.bulk_least)
    model.add(sum(lock) >= shape.lock_least)
    model.add(sum([*lock, *under, *bulk, *small]) <= shape.most_shot)
    for n, one in enumerate(box):
        model.add(bulk[n] <= most * of[n])
        if one.mass_g > 1.15 * shape.bulk_most_g:
            model.add(bulk[n] == 0)
        if one.mass_g > 1.15 * shape.dropper_most_g:
            model.add(small[n] == 0)
        if not one.trims:
            model.add(under[n] == 0)
        if one.count is not None:
            model.add(lock[n] + under[n] + bulk[n] + small[n] <= one.count)
        for bigger, other in enumerate(box):
            if other.mass_g > one.mass_g:
                model.add(small[bigger] == 0).only_enforce_if(of[n])
    target = round(target_mg * unit)
    at_float = sum(m * n for m, n in zip(masses, lock, strict=True))
    if shape.float_high:
        model.add(at_float >= round(shape.float_low * target))
        model.add(at_float <= round(shape.float_high * target))
    whole = sum(
        m * (a + b + c + d) for m, a, b, c, d in zip(masses, lock, under, bulk, small, strict=True)
    )
    error = model.new_int_var(0, 2 * target, "error")
    model.add(error >= whole - target)
    model.add(error >= target - whole)
    model.minimize(error + unit * sum([*lock, *under, *bulk, *small]))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = 60
    assert solver.solve(model) == cp_model.OPTIMAL
    return solver.objective_value / unit


@st.composite
def weighed_boxes(draw: st.DrawFn) -> list[Supply]:
    """A box of weighed shot: each size up to 7 % off its nominal mass, in hundredths of a mg."""
    marks = draw(st.lists(st.sampled_from(SHOT[:-1]), min_size=8, max_size=12, unique=True))
    off = [draw(st.integers(-700, 700)) / 10_000 for _ in marks]
    return [
        Supply(s.mark, round(s.mass_g * (1 + o), 5), count=draw(st.sampled_from([6, 20, None])))
        for s, o in zip(marks, off, strict=True)
    ]


@outside("the best pattern from weighed shot", "OR-tools' CP-SAT on another model", "library")
@settings(max_examples=so_many(12, 6), deadline=None)
@given(weighed_boxes(), st.sampled_from([0.3, 0.5, 1.0, 2.0, 3.2]))
def test_true_masses_against_cp_sat(box: list[Supply], capacity_g: float) -> None:
    """OR-tools' CP-SAT, another solver and another model, on masses as they were weighed."""
    shape = POLE if capacity_g < 1 else Shape()
    try:
        best = best_patterns(capacity_g, box, shape, tip=BRISTLE, wished_tip_mm=0.0, how_many=1)
    except CannotBeDoneError:
        return
    assert best[0].proven
    cost = abs(best[0].error_mg) + best[0].shot
    assert cost == pytest.approx(by_cp_sat(box, shape, 1000 * capacity_g), abs=PROVEN_TO_MG + 0.005)


def test_true_masses_beat_whole_milligrams() -> None:
    """On a fine bristle half a milligram of each of many shot is millimetres of tip."""
    box = [Supply("No 10", 0.0386, count=20), Supply("No 11", 0.0294, count=20)]
    best = best_patterns(0.35, box, POLE, tip=BRISTLE, wished_tip_mm=0.0, how_many=1)[0]
    off = min(
        abs(0.0386 * a + 0.0294 * b - 0.35) * 1000 + a + b
        for a in range(12)
        for b in range(14)
        if a + b >= 4
    )
    assert abs(best.error_mg) + best.shot <= off + 5  # the shape may ask for another pattern


def used(pattern: Pattern) -> dict[str, int]:
    counts: dict[str, int] = {}
    for part in (pattern.at_float, pattern.bulk, pattern.droppers):
        for supply, n in part:
            counts[supply.mark] = counts.get(supply.mark, 0) + n
    return counts


@settings(max_examples=so_many(25, 13), deadline=None)
@given(st.floats(0.8, 5.0), st.floats(0.0, 8.0))
def test_patterns_balance_the_float_as_the_stages_see_it(capacity_g: float, wish_mm: float) -> None:
    found = best_patterns(capacity_g, every_size(), tip=INSERT, wished_tip_mm=wish_mm, how_many=2)
    for pattern in found:
        end = stages(capacity_g, INSERT, pattern.groups())[-1]
        assert end.shows_mm == pytest.approx(wish_mm + pattern.error_tip_mm, abs=0.01)
        assert sum(n for _, n in pattern.droppers) == 2
        assert all(supply.mass_g <= 0.06 for supply, _ in pattern.droppers)
        assert len(pattern.bulk) == 1
        assert pattern.bulk[0][1] >= 2
        assert pattern.bulk[0][0].mass_g >= max(supply.mass_g for supply, _ in pattern.droppers)
        assert sum(n for _, n in pattern.at_float) >= 2
    assert len({str(pattern) for pattern in found}) == len(found)


def test_counts_in_stock_are_kept() -> None:
    box = [Supply(s.mark, s.mass_g, count=3) for s in SHOT]
    for pattern in best_patterns(4.0, box, Shape(0.5, 0.9), tip=INSERT, how_many=4):
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
        Group(Place.LOCK, read_pattern("2 AAA")),
        Group(Place.BULK, read_pattern("4 No 8 + 2 No 10")),
        Group(Place.DROPPER, read_pattern("2 No 10")),
    ]
    shape = Shape.like(groups)
    assert (shape.float_low, shape.float_high) == pytest.approx((0.7, 0.9))
    assert (shape.lock_least, shape.bulk_least, shape.droppers) == (2, 3, 2)
    assert shape.dropper_most_g == pytest.approx(0.04)
    pole = Shape.like([Group(Place.BULK, read_pattern("olivette 0.4g")), groups[2]])
    assert (pole.float_high, pole.lock_least) == (0.0, 0)
    assert pole.olivette
    with pytest.raises(CannotBeDoneError, match="no olivette"):
        best_patterns(0.5, every_size(), pole, tip=Tip(1.5, 40.0))
    olivette = Supply("0.4 g", 0.4, "tungsten", kind="olivette")
    box = [*every_size(), olivette]
    for pattern in best_patterns(0.5, box, pole, tip=Tip(1.5, 40.0), how_many=2):
        assert pattern.at_float == ()
        assert pattern.bulk == ((olivette, 1),)
    spread = Shape.like([Group(Place.SPREAD, read_pattern("8 No 8"))])
    assert (spread.bulk_is, spread.bulk_least, spread.droppers) == (Place.SPREAD, 4, 0)
    best = best_patterns(0.5, every_size(), spread, tip=INSERT)[0]
    assert "spread" in str(best)
    assert best.groups()[-1].what is Place.SPREAD


def test_droppers_hang_the_heavier_above_whatever_they_are_of() -> None:
    box = [
        Supply("No 4", 0.2),
        Supply("No 9", 0.05, "tin", 1),
        Supply("No 8", 0.058, "lead", 1),
        Supply("No 10", 0.04, "lead", 1),
    ]
    shape = Shape(0, 0, lock_least=0, droppers=3)
    pattern = best_patterns(0.75, box, shape, tip=INSERT)[0]
    (droppers,) = [g for g in pattern.groups() if g.what is Place.DROPPER]
    assert [(load.mark, load.material) for load in droppers.loads] == [
        ("No 8", "lead"),
        ("No 9", "tin"),
        ("No 10", "lead"),
    ]


def test_what_hangs_beside_the_shot_is_left_for() -> None:
    bare = best_patterns(0.5, every_size(), POLE, tip=BRISTLE)[0]
    hung = best_patterns(0.5, every_size(), POLE, tip=BRISTLE, hanging=Hanging(line_mg=34.5))[0]
    lighter = sum(g.mass_g for g in bare.groups()) - sum(g.mass_g for g in hung.groups())
    assert lighter == pytest.approx(0.04, abs=0.011)  # 34.5 mg of pull are a No 10 of tin


def test_an_answer_that_is_not_proven_says_so() -> None:
    """After so many of the solver's nodes; the same answer each time."""
    box = [Supply(s.mark, s.mass_g * 1.0137, count=30) for s in SHOT]
    few = [best_patterns(8.0, box, tip=BRISTLE, how_many=3, most_nodes=1) for _ in range(2)]
    assert few[0] == few[1]
    assert [p.proven for p in few[0]].count(False) <= 1
    assert not few[0][-1].proven or len(few[0]) == 3
    assert all(p.proven for p in best_patterns(8.0, box, tip=BRISTLE, how_many=2))


def test_forty_sizes_are_proven_in_a_quarter_of_the_nodes_allowed() -> None:
    """The best alone, of forty sizes as they might be weighed: by nodes, for time is the machine's."""
    sizes = [
        Supply(f"{s.mark} {t}", round(s.mass_g * (0.9 + (7 * n + 5 * t) % 23 / 100), 5), count=30)
        for t in range(3)
        for n, s in enumerate(every_size())
    ][:40]
    for capacity in (0.4, 1.2, 2.0, 3.2, 8.0):
        shape = POLE if capacity < 1 else None
        (best,) = best_patterns(
            capacity, sizes, shape, tip=INSERT, how_many=1, most_nodes=MOST_NODES // 4
        )
        assert best.proven, capacity


@settings(max_examples=so_many(15, 8), deadline=None)
@given(weighed_boxes(), st.sampled_from([0.3, 1.0, 3.2]), st.integers(0, 3))
def test_what_the_search_begins_at_keeps_every_rule(
    box: list[Supply], target_g: float, droppers: int
) -> None:
    """A start that broke a rule would be dropped by the solver without a word."""
    shape = replace(POLE if target_g < 1 else Shape(), droppers=droppers)
    usable = usable_of(box)
    acts_as = acts_as_mg(usable, "tin", 10.0)
    columns = Columns.of(usable, acts_as, shape)
    problem = problem_of(usable, columns, shape, 1000 * target_g, 3)
    pieces = len(problem.masses_mg)
    contents = [problem.content(start[:pieces]) for start in problem.starts]
    assert len(set(contents)) == len(contents)
    costs = [problem.choice(start[:pieces]).cost_mg for start in problem.starts]
    assert costs == pytest.approx(sorted(costs), abs=1e-3)
    for start in problem.starts:
        assert all(0 <= n <= most for n, most in zip(start, problem.most, strict=False))
        for row in problem.rows:
            assert row.low - 1e-6 <= sum(f * start[n] for n, f in row.factors) <= row.high + 1e-6


def test_full_boxes_have_something_to_begin_at() -> None:
    for target_mg in (300.0, 1200.0, 3200.0):
        shape = POLE if target_mg < 1000 else Shape()
        usable = usable_of(every_size())
        columns = Columns.of(usable, acts_as_mg(usable, "tin", 10.0), shape)
        assert len(problem_of(usable, columns, shape, target_mg, 3).starts) == 3


def test_no_refusal_is_said_before_it_is_proven() -> None:
    """Nothing found in the nodes allowed is not the same as nothing there."""
    hard = Problem(
        tuple(float(3 + 2 * n) for n in range(8)),
        (9,) * 8,
        500.0,
        (Row(50.25, 50.75, tuple((n, 1.0 + n / 7) for n in range(8))),),
    )
    found = nearest_choices(hard, 1, most_nodes=0)
    assert found.choices or not found.proven_whole
    none = nearest_choices(Problem((5.0,), (2,), 10.0, (Row(3, 9, ((0, 1.0),)),)), 1)
    assert (none.choices, none.proven_whole) == ((), True)


def test_what_cannot_be_is_told_with_the_nearest() -> None:
    with pytest.raises(CannotBeDoneError, match="2 droppers"):
        best_patterns(2.0, [Supply("BB", 0.4)], tip=INSERT)
    box = [Supply("BB", 0.4, count=4), Supply("No 10", 0.04, count=3)]
    with pytest.raises(CannotBeDoneError, match=r"0\.2 g or less to make the bulk of"):
        best_patterns(2.5, box[:1], Shape(droppers=0), tip=INSERT)
    box = [Supply("BB", 0.4, count=4), Supply("No 10", 0.04, count=6)]
    with pytest.raises(CannotBeDoneError, match=r"The nearest, .* is off by -\d+ mg"):
        best_patterns(2.5, box, tip=INSERT, wished_tip_mm=0.0)
    with pytest.raises(CannotBeDoneError, match="With any share"):
        best_patterns(2.0, [Supply("No 8", 0.06, count=8)], tip=INSERT, wished_tip_mm=0.0)
    with pytest.raises(CannotBeDoneError, match="no shot to choose"):
        best_patterns(2.0, [Supply("BB", 0.4, count=0)], tip=INSERT)


def test_nonsense_is_refused() -> None:
    with pytest.raises(AskedWronglyError, match="capacity"):
        best_patterns(-1.0, every_size(), tip=INSERT)
    with pytest.raises(AskedWronglyError, match="a tip that shows of"):
        best_patterns(2.0, every_size(), tip=INSERT, wished_tip_mm=70.0)
    with pytest.raises(AskedWronglyError, match="no shot at all"):
        best_patterns(0.1, every_size(), tip=INSERT, wished_tip_mm=50.0)
    with pytest.raises(AskedWronglyError, match="cannot be right"):
        best_patterns(2.0, [Supply("BB", float("nan"))], tip=INSERT)
    with pytest.raises(AskedWronglyError, match="cannot be right"):
        Shape(0.8, 0.5)
    with pytest.raises(AskedWronglyError, match="do not go into"):
        Shape(most_shot=3)


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
