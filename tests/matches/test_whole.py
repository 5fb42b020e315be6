"""What serves a want whole, as the wallet does, beside what stock ties: against everything tried."""

import itertools
import random
from collections.abc import Sequence
from dataclasses import replace

import pytest

from tacklebox.matches.dividing.division import divide
from tacklebox.matches.dividing.flaws import Flaw
from tacklebox.matches.dividing.stacks import PartAsk, Stack, Wanted
from tests.long.length import so_many
from tests.matches.test_flaws import (
    Known,
    Uses,
    all_ways,
    is_true,
    plus,
    random_case,
    told,
    value_of,
    ways,
)
from tests.outside import outside

Case = tuple[list[Stack], list[Wanted], Known]
Value = tuple[Uses, Uses, Uses, int, int, int]  # had, whole, doubtful, cost, opened, ready-made


def case_with_whole(dice: random.Random) -> Case:
    """A case of what is tied, and up to three more stacks that serve some of the wants whole, or of which
    packets can be bought that do."""
    stacks, wants, known = random_case(dice)
    while len(wants) < 2:
        stacks, wants, known = random_case(dice)
    begin = len(stacks)
    stacks += [
        Stack(dice.randint(0, 3), dice.randint(1, 3), dice.randint(0, 15), dice.choice([0, 0, 4]))
        for _ in range(dice.randint(1, 3))
    ]
    those = range(begin, len(stacks))
    for w, want in enumerate(wants):
        would = tuple(dice.sample(those, dice.randint(0, len(those))))
        parts = want.parts
        if dice.random() < 0.2:
            parts = (*parts[:-1], PartAsk(1, ()))
        if dice.random() < 0.1:
            known.flaws.setdefault(w, []).append(Flaw(False, ()))
        for_sale = tuple(s for s in would if dice.random() < 0.5)
        wants[w] = replace(want, parts=parts, whole=would, for_sale=for_sale)
    return stacks, wants, known


def can_serve(stacks: Sequence[Stack], wants: Sequence[Wanted], whole: Sequence[int]) -> bool:
    """Whether so many of each want can be served whole, tried in every way."""

    def serve(left: dict[int, int], pieces: list[int]) -> bool:
        if not pieces:
            return True
        w, *rest = pieces
        return any(left[s] > 0 and serve({**left, s: left[s] - 1}, rest) for s in wants[w].whole)

    on_hand = {s: stacks[s].on_hand for want in wants for s in want.whole}
    return serve(on_hand, [w for w, many in enumerate(whole) for _ in range(many)])


def by_trying_everything(stacks: Sequence[Stack], wants: Sequence[Wanted], known: Known) -> Value:
    many = len(stacks)
    can_be_tied = [bool(ways(want, w, 1, known, many)) for w, want in enumerate(wants)]

    def tying(counts: Sequence[int]) -> set[tuple[Uses, Uses]]:
        if any(n and not can for n, can in zip(counts, can_be_tied, strict=True)):
            return set()
        return {
            way
            for way in all_ways(wants, counts, known, many)
            if all(u <= s.on_hand for u, s in zip(way[0], stacks, strict=True))
        }

    for had in itertools.product(*(range(want.count, -1, -1) for want in wants)):
        found = next(
            (
                (whole, now)
                for whole in itertools.product(*(range(n, -1, -1) for n in had))
                if can_serve(stacks, wants, whole)
                and (now := tying([n - h for n, h in zip(had, whole, strict=True)]))
            ),
            None,
        )
        if found:
            break
    assert found
    whole, now = found
    missing = [want.count - n for want, n in zip(wants, had, strict=True)]
    best = None
    for tied in itertools.product(
        *(range(n * can, -1, -1) for n, can in zip(missing, can_be_tied, strict=True))
    ):
        later = all_ways(wants, tied, known, many)
        for ready_made in ways_to_buy(wants, missing, tied, can_be_tied, many):
            for a, x in now:
                for b, y in later:
                    value = plus(x, y), *cost_of_all(stacks, a, b, ready_made), sum(ready_made)
                    best = value if best is None else min(best, value)
    assert best
    return had, whole, *best


def ways_to_buy(
    wants: Sequence[Wanted],
    missing: Sequence[int],
    tied: Sequence[int],
    can_be_tied: Sequence[bool],
    stacks: int,
) -> set[Uses]:
    """How many pieces of each stack can be bought for those that are not tied later."""
    found: set[Uses] = {(0,) * stacks}
    for want, count, later, can in zip(wants, missing, tied, can_be_tied, strict=True):
        if not want.for_sale:
            if can and later < count:
                return set()
            continue
        each = itertools.combinations_with_replacement(want.for_sale, count - later)
        own = {tuple(those.count(s) for s in range(stacks)) for those in each}
        found = {plus(one, other) for one in found for other in own}
    return found


def cost_of_all(
    stacks: Sequence[Stack], now: Uses, later: Uses, ready_made: Uses
) -> tuple[int, int]:
    """As of what is tied alone, and for ready-made ones, which are not used up: the packets that have
    them, or that the minimum needs."""
    cost, opened = told(stacks, now, later)
    for stack, pieces in zip(stacks, ready_made, strict=True):
        for_minimum = -(-max(stack.minimum - stack.on_hand, 0) // stack.pack)
        packs = -(-pieces // stack.pack)
        cost += max(packs - for_minimum, 0) * (stack.price_cents or 0)
        opened += packs * (stack.pack > 1)
    return cost, opened


def value(stacks: Sequence[Stack], wants: Sequence[Wanted], known: Known) -> Value:
    """What the division comes to; that it can be done is looked at on the way."""
    found = divide(stacks, wants, known.judge)
    is_true(stacks, wants, known, found)
    used: dict[int, int] = {}
    for want, given in zip(wants, found.whole, strict=True):
        for s, count in given.items():
            assert count > 0
            assert s in want.whole
            used[s] = used.get(s, 0) + count
    assert all(count <= stacks[s].on_hand for s, count in used.items())
    assert found.proven
    whole = tuple(sum(given.values()) for given in found.whole)
    ready_made = [sum(bought.values()) for bought in found.ready_made]
    for w, (want, bought) in enumerate(zip(wants, found.ready_made, strict=True)):
        assert set(bought) <= set(want.for_sale)
        if want.for_sale:
            missing = want.count - whole[w] - found.tied[w]
            assert ready_made[w] + sum(found.later[w].values()) == missing
    tied, *rest = value_of(found, known)
    return plus(tied, whole), whole, *rest, sum(ready_made)  # type: ignore[return-value]


@outside("hooklengths taken from the wallet, tied or bought for", "every way to do it", "other way")
@pytest.mark.parametrize("block", range(4))
def test_the_best_of_everything(block: int) -> None:
    many = so_many(400, 30)
    for seed in range(many * block, many * block + many):
        case = case_with_whole(random.Random(seed))
        assert (seed, value(*case)) == (seed, by_trying_everything(*case))


def test_what_can_be_tied_leaves_the_wallet_to_what_cannot() -> None:
    """Either would be served by the three of the wallet; only the first can be tied."""
    stacks = [Stack(9, 10), Stack(3, 1)]
    wants = [Wanted(3, (PartAsk(1, (0,)),), (1,)), Wanted(3, (PartAsk(1, ()),), (1,))]
    found = divide(stacks, wants)
    assert (found.whole, found.tied, found.proven) == (({}, {1: 3}), (3, 0), True)


def test_as_few_are_tied_as_can_be() -> None:
    """The first want leaves two of the nearest to the second, which nothing else serves."""
    stacks = [Stack(9, 10), Stack(3, 1), Stack(2, 1)]
    wants = [Wanted(4, (PartAsk(1, (0,)),), (1, 2)), Wanted(2, (PartAsk(1, ()),), (1,))]
    found = divide(stacks, wants)
    assert (found.whole, found.tied) == (({1: 1, 2: 2}, {1: 2}), (1, 0))


@pytest.mark.parametrize(
    ("hooks", "ready_made", "bought", "packs"),
    [
        (180, 150, 2, {1: 1}),  # one packet of either: ready-made is less
        (150, 180, 0, {0: 1}),
        (150, 150, 0, {0: 1}),  # alike in money and packets: tied
    ],
)
def test_what_costs_less_is_bought(
    hooks: int, ready_made: int, bought: int, packs: dict[int, int]
) -> None:
    stacks = [Stack(4, 10, hooks), Stack(0, 10, ready_made)]
    found = divide(stacks, [Wanted(6, (PartAsk(1, (0,)),), (1,), (1,))])
    assert (found.tied, sum(found.ready_made[0].values())) == ((4,), bought)
    assert (found.packs, found.proven) == (packs, True)


def test_ready_made_where_there_is_nothing_to_tie_them_from() -> None:
    stacks = [Stack(3, 8, 200, minimum=5)]
    found = divide(stacks, [Wanted(12, (PartAsk(1, ()),), (0,), (0,))])
    assert (found.whole, found.ready_made) == (({0: 3},), ({0: 9},))
    assert (found.packs, found.cost_cents, found.opened) == ({0: 2}, 400, 2)
