"""Dividing stock: against full enumeration on small cases, against CP-SAT on larger ones."""

import itertools
import random
from collections.abc import Iterator, Sequence
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.matches.dividing.division import Division, divide
from tacklebox.matches.dividing.stacks import (
    PartAsk,
    Stack,
    Wanted,
    linked,
    plainly_served,
)
from tests.long.length import so_many
from tests.outside import outside

Uses = tuple[int, ...]


def ways(want: Wanted, count: int, stacks: int) -> Iterator[Uses]:
    """Every use of the stacks by so many rigs of one want, each part of each rig from any stack."""
    choices = [
        set(itertools.combinations_with_replacement(part.stacks, count)) for part in want.parts
    ]
    for combined in itertools.product(*choices):
        used = [0] * stacks
        for part, served in zip(want.parts, combined, strict=True):
            for s in served:
                used[s] += part.amount
        yield tuple(used)


def all_ways(wants: Sequence[Wanted], counts: Sequence[int], stacks: int) -> set[Uses]:
    found: set[Uses] = {(0,) * stacks}
    for want, count in zip(wants, counts, strict=True):
        every = set(ways(want, count, stacks)) if count else {(0,) * stacks}
        found = {tuple(map(sum, zip(a, b, strict=True))) for a in found for b in every}
    return found


def by_enumeration(stacks: Sequence[Stack], wants: Sequence[Wanted]) -> tuple[Uses, int, int]:
    """(tied, cost, opened) by trying everything; prices must be known."""

    def fits(used: Uses) -> bool:
        return all(u <= s.on_hand for u, s in zip(used, stacks, strict=True))

    whole = [w.count if all(p.stacks for p in w.parts) else 0 for w in wants]
    orders = itertools.product(*(range(n, -1, -1) for n in whole))  # the best order comes first
    tied, now = next(
        (counts, fitting)
        for counts in orders
        if (fitting := [u for u in all_ways(wants, counts, len(stacks)) if fits(u)])
    )
    later = all_ways(wants, [n - t for n, t in zip(whole, tied, strict=True)], len(stacks))
    best = min(cost_of(stacks, a, b) for a in now for b in later)
    return tied, *best


def cost_of(stacks: Sequence[Stack], now: Uses, later: Uses) -> tuple[int, int]:
    cost = opened = 0
    for stack, a, b in zip(stacks, now, later, strict=True):
        short = a + b + stack.minimum - stack.on_hand
        cost += (stack.price_cents or 0) * -(-max(short, 0) // stack.pack)
        if stack.pack > 1:
            opened += -(-max(a + b - stack.on_hand % stack.pack, 0) // stack.pack)
    return cost, opened


def is_true(stacks: Sequence[Stack], wants: Sequence[Wanted], found: Division) -> None:
    """What it says can be done: every part of every tied rig is served, no stack gives too much."""
    used = [0] * len(stacks)
    for (w, p, s), count in found.serves.items():
        assert s in wants[w].parts[p].stacks
        used[s] += count * wants[w].parts[p].amount
    assert all(u <= s.on_hand for u, s in zip(used, stacks, strict=True))
    for w, want in enumerate(wants):
        for p in range(len(want.parts)):
            served = sum(n for (a, b, _), n in found.serves.items() if (a, b) == (w, p))
            assert served == found.tied[w]


@st.composite
def small_cases(draw: st.DrawFn) -> tuple[list[Stack], list[Wanted]]:
    stacks = draw(
        st.lists(
            st.builds(
                Stack,
                st.integers(0, 7),
                st.integers(1, 4),
                st.integers(1, 5),
                st.just(0) | st.integers(0, 6),
            ),
            min_size=1,
            max_size=3,
        )
    )
    choice = st.sets(st.integers(0, len(stacks) - 1), max_size=3).map(lambda s: tuple(sorted(s)))
    some = st.sets(st.integers(0, len(stacks) - 1), min_size=1).map(lambda s: tuple(sorted(s)))
    part = st.builds(PartAsk, st.integers(1, 3), some | choice)
    want = st.builds(Wanted, st.integers(1, 2), st.lists(part, min_size=1, max_size=2).map(tuple))
    return stacks, draw(st.lists(want, min_size=1, max_size=3))


@outside("stock divided among wants", "every way to divide it", "other way")
@settings(max_examples=so_many(250, 120), deadline=None)
@given(small_cases())
def test_against_full_enumeration(case: tuple[list[Stack], list[Wanted]]) -> None:
    stacks, wants = case
    found = divide(stacks, wants)
    assert (found.tied, found.cost_cents, found.opened) == by_enumeration(stacks, wants)
    is_true(stacks, wants, found)
    assert found.proven


def random_case(seed: int, stacks: int, wants: int) -> tuple[list[Stack], list[Wanted]]:
    dice = random.Random(seed)
    before = [
        Stack(
            dice.randint(0, 30),
            dice.choice([1, 5, 10]),
            dice.randint(80, 400),
            dice.choice([0, 0, 0, 5]),
        )
        for _ in range(stacks)
    ]

    def part() -> PartAsk:
        first, many = dice.randrange(stacks), dice.randint(1, 4)
        return PartAsk(
            dice.randint(1, 4), tuple((first + n) % stacks for n in dice.sample(range(6), many))
        )

    return before, [
        Wanted(dice.randint(1, 6), tuple(part() for _ in range(3))) for _ in range(wants)
    ]


@outside("stock divided among many wants", "OR-tools' CP-SAT", "library")
@pytest.mark.parametrize(
    ("seed", "stacks", "wants"),
    [*((seed, 12, 8) for seed in range(8)), *((seed, 60, 16) for seed in range(4))],
)
def test_against_cp_sat_on_larger_cases(seed: int, stacks: int, wants: int) -> None:
    cp_model = pytest.importorskip("ortools.sat.python.cp_model")
    case = random_case(seed, stacks, wants)
    found = divide(*case)
    is_true(*case, found)
    assert found.proven
    assert (found.tied, found.cost_cents, found.opened) == by_cp_sat(cp_model, *case)


def by_cp_sat(cp: Any, stacks: Sequence[Stack], wants: Sequence[Wanted]) -> tuple[Uses, int, int]:
    """The same three questions asked of OR-Tools, one after the other."""
    model = cp.CpModel()
    now: list[Any] = [0] * len(stacks)
    every: list[Any] = [0] * len(stacks)
    tied = [model.new_int_var(0, w.count, "") for w in wants]
    for want, t in zip(wants, tied, strict=True):
        for part in want.parts if all(p.stacks for p in want.parts) else ():
            first = {s: model.new_int_var(0, want.count, "") for s in part.stacks}
            then = {s: model.new_int_var(0, want.count, "") for s in part.stacks}
            model.add(sum(first.values()) == t)
            model.add(sum(then.values()) == want.count - t)
            for s in part.stacks:
                now[s] += first[s] * part.amount
                every[s] += (first[s] + then[s]) * part.amount
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
    return most, least(cost), least(sum(opened))


def test_a_substitute_is_kept_for_the_want_that_has_no_other() -> None:
    """Taking in order would give the first want the hooks that the second needs."""
    stacks = [Stack(2, 10, 100), Stack(2, 10, 100)]
    wants = [Wanted(2, (PartAsk(1, (0, 1)),)), Wanted(2, (PartAsk(1, (0,)),))]
    assert divide(stacks, wants).tied == (2, 2)


def test_the_more_important_want_comes_first() -> None:
    stacks = [Stack(3, 10, 100)]
    wants = [Wanted(2, (PartAsk(1, (0,)),)), Wanted(3, (PartAsk(1, (0,)),))]
    found = divide(stacks, wants)
    assert (found.tied, found.packs, found.cost_cents) == ((2, 1), {0: 1}, 100)


def test_an_open_packet_is_used_before_a_new_one() -> None:
    stacks = [Stack(10, 10, 100), Stack(14, 10, 100)]
    found = divide(stacks, [Wanted(4, (PartAsk(1, (0, 1)),))])
    assert (found.serves, found.opened) == ({(0, 0, 1): 4}, 0)


def test_an_unknown_price_is_not_taken_for_free() -> None:
    stacks = [Stack(0, 10, 90), Stack(0, 10, None), Stack(0, 10, 100)]
    found = divide(stacks, [Wanted(1, (PartAsk(1, (0, 1)), PartAsk(1, (2,))))])
    assert found.packs == {0: 1, 2: 1}


def test_what_no_item_would_do_for_is_not_bought_for() -> None:
    found = divide([Stack(0, 10, 90)], [Wanted(1, (PartAsk(1, (0,)), PartAsk(1, ())))])
    assert (found.tied, found.packs, found.serves) == ((0,), {}, {})


def test_what_is_to_be_kept_counts_as_money() -> None:
    """Either stack would do; only the first must be bought again to keep what is to be kept."""
    stacks = [Stack(10, 1, 100, minimum=10), Stack(10, 1, 300)]
    found = divide(stacks, [Wanted(2, (PartAsk(1, (0, 1)),))])
    assert (found.serves, found.packs, found.cost_cents) == ({(0, 0, 1): 2}, {}, 0)
    found = divide([stacks[0], Stack(1, 1, 300)], [Wanted(2, (PartAsk(1, (0, 1)),))])
    assert (found.packs, found.cost_cents, found.tied) == ({0: 1}, 100, (2,))


def test_what_is_below_what_is_to_be_kept_is_bought_whoever_asks() -> None:
    """3 of 25 are there, in packets of 10: three packets, and 8 of them are to spare."""
    stacks = [Stack(3, 10, 100, minimum=25), Stack(0, 10, 90)]
    found = divide(stacks, [Wanted(9, (PartAsk(1, (0, 1)),))])
    assert (found.tied, found.packs, found.cost_cents) == ((3,), {0: 3, 1: 1}, 390)
    assert divide(stacks, []).packs == {0: 3}


def test_what_is_settled_without_a_solver() -> None:
    """Stack 0 reaches for both that it would do for; without them, stack 1 reaches for the third."""
    asked = {(1, 0): 4, (0, 2): 3, (1,): 5, (2,): 9}
    assert plainly_served(asked, [7, 6, 8]) == {(1, 0): 0, (0, 2): 0, (1,): 1}
    assert plainly_served(asked, [6, 6, 8]) == {}


def test_what_stands_together() -> None:
    groups = linked([(4, 1), (2, 3), (1, 2), (7,)])
    assert len({groups[s] for s in (1, 2, 3, 4)}) == 1
    assert groups[7] == 7
