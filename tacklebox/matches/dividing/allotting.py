"""What serves whole is allotted to the wants: the most to the first, then to the second, and so on."""

from collections.abc import Mapping, Sequence
from itertools import pairwise


def allot(
    wanted: Sequence[int], serving: Sequence[Sequence[int]], on_hand: Mapping[int, int]
) -> list[dict[int, int]]:
    """So many of each item for each want: the most for the first, then the most for the second, and so on.

    ``serving`` are the items that would do for each, the best first; ``on_hand`` is how many there are
    of each. An earlier want gives way to a later one where another item serves it as well; it never
    gets fewer.

    >>> allot([4, 3], [[1, 2], [1]], {1: 4, 2: 3})
    [{1: 1, 2: 3}, {1: 3}]
    """
    given: list[dict[int, int]] = [dict.fromkeys(items, 0) for items in serving]
    left = dict(on_hand)
    for w, count in enumerate(wanted):
        while (missing := count - sum(given[w].values())) > 0:
            path = _path(w, serving, given, left)
            if not path:
                break
            passed_on = [given[v][item] for (_, item), (v, _) in pairwise(path)]
            many = min(missing, left[path[-1][1]], *passed_on)
            for (v, item), follower in zip(path, [*path[1:], None], strict=True):
                given[v][item] += many
                if follower:
                    given[follower[0]][item] -= many
            left[path[-1][1]] -= many
    return given


def _path(
    first: int,
    serving: Sequence[Sequence[int]],
    given: Sequence[Mapping[int, int]],
    left: Mapping[int, int],
) -> list[tuple[int, int]]:
    """Who takes what from whom, want after want, down to an item of which some are left."""
    reached: dict[int, list[tuple[int, int]]] = {first: []}
    waiting = [first]
    for w in waiting:
        for item in serving[w]:
            if left[item] > 0:
                return [*reached[w], (w, item)]
        for item in serving[w]:
            for v in range(len(given)):
                if v not in reached and given[v].get(item):
                    reached[v] = [*reached[w], (w, item)]
                    waiting.append(v)
    return []
