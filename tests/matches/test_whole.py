"""What serves a want whole, as the wallet does, beside what stock ties: against everything tried."""

import itertools
import random
from collections.abc import Sequence
from dataclasses import replace

import pytest

from tacklebox.matches.dividing.division import divide
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
Value = tuple[Uses, Uses, Uses, int, int]  # had, whole, doubtful, cost, opened


def case_with_whole(dice: random.Random) -> Case:
    """A case of what is tied, and up to three more stacks that serve some of the wants whole."""
    stacks, wants, known = random_case(dice)
    while len(wants) < 2:
        stacks, wants, known = random_case(dice)
    begin = len(stacks)
    stacks += [Stack(dice.randint(0, 3), 1) for _ in range(dice.randint(1, 3))]
    those = range(begin, len(stacks))
    for w, want in enumerate(wants):
        would = tuple(dice.sample(those, dice.randint(0, len(those))))
        parts = want.parts
        if dice.random() < 0.2:
            parts = (*parts[:-1], PartAsk(1, ()))
        wants[w] = replace(want, parts=parts, whole=would)
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
    missing = [(want.count - n) * can for want, n, can in zip(wants, had, can_be_tied, strict=True)]
    later = all_ways(wants, missing, known, many)
    return had, whole, *min((plus(x, y), *told(stacks, a, b)) for a, x in now for b, y in later)


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
    tied, *rest = value_of(found, known)
    return plus(tied, whole), whole, *rest  # type: ignore[return-value]


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
