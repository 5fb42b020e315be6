"""Dividing stock among rigs that must hold: against everything tried, and against CP-SAT on larger cases."""

import itertools
import random
from collections.abc import Iterator, Sequence
from typing import Any, Protocol

import pytest

from tacklebox.matches.dividing.division import Division, MostLookedThrough, divide
from tacklebox.matches.dividing.flaws import DOUBTFUL, FAILS, SOUND, Flaw, Flaws, Rig
from tacklebox.matches.dividing.stacks import PartAsk, Stack, Wanted
from tests.outside import outside

Uses = tuple[int, ...]
Value = tuple[Uses, Uses, int, int]  # tied, doubtful, cost, opened


class Graded(Protocol):
    """What says of a rig how good it is."""

    def grade(self, w: int, rig: Rig) -> int:
        """Sound, doubtful, or that it fails."""


class Known:
    """The flaws of a case, told as a check tells them: those that a rig has."""

    def __init__(self, flaws: dict[int, list[Flaw]]) -> None:
        self.flaws, self.asked = flaws, 0

    def judge(self, w: int, rig: Rig) -> Iterator[Flaw]:
        self.asked += 1
        return (flaw for flaw in self.flaws.get(w, []) if flaw.is_in(rig))

    def grade(self, w: int, rig: Rig) -> int:
        return max((FAILS if f.fails else DOUBTFUL for f in self.judge(w, rig)), default=SOUND)


def random_case(dice: random.Random) -> tuple[list[Stack], list[Wanted], Known]:
    """A few spools and packets, wants that share them, and what does not go together."""
    stacks = [
        Stack(dice.randint(0, 5), dice.randint(1, 4), dice.randint(1, 5), dice.choice([0, 0, 3]))
        for _ in range(dice.randint(2, 4))
    ]
    numbers = range(len(stacks))

    def part() -> PartAsk:
        would = dice.sample(numbers, dice.randint(1, min(3, len(stacks))))
        return PartAsk(dice.randint(1, 2), tuple(would))

    wants = [
        Wanted(dice.randint(1, 3), tuple(part() for _ in range(dice.randint(1, 3))))
        for _ in range(dice.randint(1, 2))
    ]
    flaws: dict[int, list[Flaw]] = {}
    for w, want in enumerate(wants):
        for _ in range(dice.randint(0, 4)):
            parts = sorted(dice.sample(range(len(want.parts)), dice.randint(1, len(want.parts))))
            of = ((p, frozenset({dice.choice(want.parts[p].stacks)})) for p in parts)
            flaws.setdefault(w, []).append(Flaw(dice.random() < 0.6, tuple(of)))
    return stacks, wants, Known(flaws)


def ways(want: Wanted, w: int, count: int, known: Graded, stacks: int) -> set[tuple[Uses, int]]:
    """What so many rigs that hold can take of the stacks, and how many of them are doubtful."""
    each = set()
    for rig in itertools.product(*(part.stacks for part in want.parts)):
        grade = known.grade(w, rig)
        if grade < FAILS:
            used = [0] * stacks
            for part, s in zip(want.parts, rig, strict=True):
                used[s] += part.amount
            each.add((tuple(used), grade))
    found: set[tuple[Uses, int]] = {((0,) * stacks, 0)}
    for _ in range(count):
        found = {(plus(used, more), few + one) for used, few in found for more, one in each}
    return found


def plus(one: Uses, other: Uses) -> Uses:
    return tuple(a + b for a, b in zip(one, other, strict=True))


Together = set[tuple[Uses, Uses]]  # what is taken, and how many are doubtful of each want


def all_ways(
    wants: Sequence[Wanted], counts: Sequence[int], known: Graded, stacks: int
) -> Together:
    found: Together = {((0,) * stacks, ())}
    for w, (want, count) in enumerate(zip(wants, counts, strict=True)):
        own = ways(want, w, count, known, stacks)
        found = {
            (plus(used, more), (*doubtful, few)) for used, doubtful in found for more, few in own
        }
    return found


def by_trying_everything(stacks: Sequence[Stack], wants: Sequence[Wanted], known: Graded) -> Value:
    many = len(stacks)
    whole = [want.count if ways(want, w, 1, known, many) else 0 for w, want in enumerate(wants)]
    for tied in itertools.product(*(range(n, -1, -1) for n in whole)):
        now = {
            way
            for way in all_ways(wants, tied, known, many)
            if all(u <= s.on_hand for u, s in zip(way[0], stacks, strict=True))
        }
        if now:
            break
    later = all_ways(wants, [n - t for n, t in zip(whole, tied, strict=True)], known, many)
    return tied, *min((plus(x, y), *told(stacks, a, b)) for a, x in now for b, y in later)


def told(stacks: Sequence[Stack], now: Uses, later: Uses) -> tuple[int, int]:
    cost = opened = 0
    for stack, a, b in zip(stacks, now, later, strict=True):
        short = a + b + stack.minimum - stack.on_hand
        cost += (stack.price_cents or 0) * -(-max(short, 0) // stack.pack)
        if stack.pack > 1:
            opened += -(-max(a + b - stack.on_hand % stack.pack, 0) // stack.pack)
    return cost, opened


def value_of(found: Division, known: Graded) -> Value:
    """What a division comes to, by its rigs."""
    doubtful = [
        sum(
            count * (known.grade(w, rig) == DOUBTFUL)
            for rigs in both
            for rig, count in rigs.items()
        )
        for w, both in enumerate(zip(found.rigs, found.later, strict=True))
    ]
    return found.tied, tuple(doubtful), found.cost_cents, found.opened


def is_true(
    stacks: Sequence[Stack], wants: Sequence[Wanted], known: Graded, found: Division
) -> None:
    """Every rig of it holds and is served by what would do, and no stack gives more than it has."""
    used = [0] * len(stacks)
    for every in (found.rigs, found.later):
        for w, rigs in enumerate(every):
            for rig, count in rigs.items():
                assert count > 0
                assert known.grade(w, rig) < FAILS
                for part, s in zip(wants[w].parts, rig, strict=True):
                    assert s in part.stacks
                    used[s] += part.amount * count if every is found.rigs else 0
    assert all(u <= s.on_hand for u, s in zip(used, stacks, strict=True))


@outside("rigs that hold, tied from stock", "every way to tie them", "other way")
@pytest.mark.parametrize("block", range(10))
def test_the_best_of_everything_that_holds(block: int) -> None:
    """Forty boxes in a block, four hundred in all."""
    for seed in range(40 * block, 40 * block + 40):
        stacks, wants, known = random_case(random.Random(seed))
        found = divide(stacks, wants, known.judge)
        is_true(stacks, wants, known, found)
        assert found.proven
        assert (seed, value_of(found, known)) == (seed, by_trying_everything(stacks, wants, known))


def larger_case(dice: random.Random) -> tuple[list[Stack], list[Wanted], Known]:
    """Ten stacks among six wants of three parts, with pairs and threes that do not go together."""
    stacks = [
        Stack(
            dice.randint(0, 12),
            dice.choice([1, 4, 8]),
            dice.randint(80, 400),
            dice.choice([0, 0, 0, 4]),
        )
        for _ in range(10)
    ]
    wants, flaws = [], {}
    for w in range(6):
        parts = tuple(
            PartAsk(dice.randint(1, 3), tuple(dice.sample(range(10), dice.randint(2, 4))))
            for _ in range(3)
        )
        wants.append(Wanted(dice.randint(1, 5), parts))
        flaws[w] = [
            Flaw(
                dice.random() < 0.6,
                tuple(
                    (p, frozenset(dice.sample(parts[p].stacks, dice.randint(1, 2))))
                    for p in sorted(dice.sample(range(3), dice.choice([1, 2, 2, 3])))
                ),
            )
            for _ in range(4)
        ]
    return stacks, wants, Known(flaws)


@outside(
    "rigs that hold, among many wants", "OR-tools' CP-SAT, a rig of each kind at a time", "library"
)
@pytest.mark.parametrize("seed", range(6))
def test_against_cp_sat_on_larger_cases(seed: int) -> None:
    cp_model = pytest.importorskip("ortools.sat.python.cp_model")
    stacks, wants, known = larger_case(random.Random(seed))
    found = divide(stacks, wants, known.judge)
    is_true(stacks, wants, known, found)
    assert found.proven
    assert value_of(found, known) == by_cp_sat(cp_model, stacks, wants, known)


def by_cp_sat(cp: Any, stacks: Sequence[Stack], wants: Sequence[Wanted], known: Known) -> Value:
    """How many of every rig that holds, now and later: the same questions, one after the other."""
    model = cp.CpModel()
    now: list[Any] = [0] * len(stacks)
    every: list[Any] = [0] * len(stacks)
    tied, doubtful = [], []
    for w, want in enumerate(wants):
        rigs = [
            (rig, grade)
            for rig in itertools.product(*(part.stacks for part in want.parts))
            if (grade := known.grade(w, rig)) < FAILS
        ]
        first, then = (
            [model.new_int_var(0, want.count, "") for _ in rigs] for _ in ("now", "later")
        )
        tied.append(sum(first))
        model.add(sum(first) + sum(then) == (want.count if rigs else 0))
        doubtful.append(
            sum(a + b for (_, grade), a, b in zip(rigs, first, then, strict=True) if grade)
        )
        for (rig, _), a, b in zip(rigs, first, then, strict=True):
            for part, s in zip(want.parts, rig, strict=True):
                now[s] += a * part.amount
                every[s] += (a + b) * part.amount
    packs = [model.new_int_var(0, 500, "") for _ in stacks]
    opened = [model.new_int_var(0, 500, "") for _ in stacks]
    for s, stack in enumerate(stacks):
        model.add(now[s] <= stack.on_hand)
        model.add(every[s] + stack.minimum <= stack.on_hand + stack.pack * packs[s])
        if stack.pack > 1:
            model.add(every[s] <= stack.open_rest + stack.pack * opened[s])
    cost = sum(p * (s.price_cents or 0) for p, s in zip(packs, stacks, strict=True))

    def least(of: Any) -> int:
        model.minimize(of)
        solver = cp.CpSolver()
        solver.parameters.num_workers = 1
        assert solver.solve(model) == cp.OPTIMAL
        best: int = round(solver.objective_value)
        model.add(of == best)
        return best

    most = tuple(-least(-t) for t in tied)
    return most, tuple(map(least, doubtful)), least(cost), least(sum(opened))


def test_where_too_much_must_be_looked_through_it_is_not_told_as_proven() -> None:
    """Every rig of it holds all the same, and the same question has the same answer."""
    unproven = 0
    for seed in range(4):
        stacks, wants, known = larger_case(random.Random(seed))
        few = MostLookedThrough(nodes=20_000, flaws=seed)
        found, again = (divide(stacks, wants, known.judge, most=few) for _ in range(2))
        is_true(stacks, wants, known, found)
        assert (found.rigs, found.later, found.proven) == (again.rigs, again.later, again.proven)
        best = divide(stacks, wants, known.judge)
        assert best.proven
        if found.proven:
            assert value_of(found, known) == value_of(best, known)
        unproven += not found.proven
    assert unproven > 1


def test_what_fails_comes_last_where_it_is_asked_for_all_the_same() -> None:
    """Of five rigs the good spool ties two; the doubtful one two more; one is left to what fails."""
    stacks = [Stack(2, 10, 100), Stack(2, 10, 100), Stack(9, 10, 100)]
    wants = [Wanted(5, (PartAsk(1, (2, 1, 0)),))]
    flaws = [Flaw(False, ((0, frozenset({1})),)), Flaw(True, ((0, frozenset({2})),))]
    known = Known({0: flaws})
    found = divide(stacks, wants, known.judge, despite=True)
    assert (found.tied, found.rigs[0]) == ((5,), {(0,): 2, (1,): 2, (2,): 1})
    assert divide(stacks, wants, known.judge).tied == (4,)
    nothing = Known({0: [Flaw(True, ())]})
    assert (divide(stacks, wants, nothing.judge).tied, found.packs) == ((0,), {})


def test_flaws_that_differ_in_one_part_are_one() -> None:
    wants = [Wanted(1, (PartAsk(1, (0, 1)), PartAsk(1, (2, 3))))]
    flaws = Flaws(wants)
    assert flaws.add(0, Flaw(True, ((0, frozenset({0})), (1, frozenset({2})))))
    assert flaws.add(0, Flaw(True, ((0, frozenset({1})), (1, frozenset({2})))))
    assert flaws.known[0] == [Flaw(True, ((0, frozenset({0, 1})), (1, frozenset({2}))))]
    assert not flaws.add(0, Flaw(False, ((0, frozenset({1})), (1, frozenset({2})))))
    bound = flaws.asked(0).bound
    assert bound is None or bound.patterns == ((1,),)


def test_too_many_patterns_are_said_not_to_be_proven(monkeypatch: pytest.MonkeyPatch) -> None:
    """What the nearest rigs have already leaves more than one: those that hold are tied, unproven."""
    monkeypatch.setattr("tacklebox.matches.dividing.flaws.MOST_PATTERNS", 1)
    stacks = [Stack(3, 1, 1), Stack(3, 1, 1)]
    wants = [Wanted(2, (PartAsk(1, (0, 1)), PartAsk(1, (0, 1))))]
    known = Known({0: [Flaw(True, ((0, frozenset({0})), (1, frozenset({0}))))]})
    found = divide(stacks, wants, known.judge)
    assert not found.proven
    assert all(known.grade(0, rig) < FAILS for rig in found.rigs[0])
