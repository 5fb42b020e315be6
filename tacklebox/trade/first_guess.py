"""Good patterns found by hand, for the solver to begin at: it then only has to prove them the best.

Of each part only simple handfuls are tried: so many of one size and two more at the float, so many
of one size and one more as droppers. Paired over the target they come within a milligram nearly
always, where the solver's own search for a first pattern took most of its time.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tacklebox.trade.nearest import PER_PIECE_MG

if TYPE_CHECKING:
    import numpy as np

    Numbers = np.ndarray[Any, np.dtype[Any]]

MOST_PAIRINGS = 60  # of a handful at the float with what hangs below, a millisecond each
KEPT = 20  # of each pairing, some of which the stock may not reach


@dataclass(frozen=True, slots=True)
class Sizes:
    """The sizes that there are: pull in mg and how many, and which may stand where."""

    pull_mg: Sequence[float]
    stock: Sequence[int]
    top: Sequence[int]
    bulk: Sequence[int]
    droppers: Sequence[int]


@dataclass(frozen=True, slots=True)
class Bounds:
    """The target in mg, what of it may be at the float, and the least and most shot of each part."""

    target_mg: float
    top_mg: tuple[float, float]
    top: tuple[int, int]
    bulk: tuple[int, int]
    droppers: int
    most_shot: int


@dataclass(frozen=True, slots=True)
class Guess:
    """Shot by size in each part, each as (size, count), and what it costs in mg."""

    cost_mg: float
    top: dict[int, int]  # at the float, or under it
    bulk: dict[int, int]
    droppers: dict[int, int]

    def content(self) -> tuple[tuple[int, int], ...]:
        """How many of each size in all."""
        return tuple(sorted(_added(self.top, self.bulk, self.droppers).items()))

    def in_order(self) -> tuple[float, int]:
        """The cheapest first, and of those the one of fewer sizes."""
        return round(self.cost_mg, 3), len(self.top) + len(self.bulk) + len(self.droppers)


@dataclass(frozen=True, slots=True)
class _Handfuls:
    """Sums of ``times`` of one size and some others, in rising order."""

    sums: "Numbers"
    sizes: "Numbers"  # of each handful: the size that is repeated, then the others
    times: int

    def counts(self, which: int) -> dict[int, int]:
        first, *others = (int(size) for size in self.sizes[which])
        return _added({first: self.times}, *({size: 1} for size in others))


def guesses(sizes: Sizes, bounds: Bounds, how_many: int) -> list[Guess]:
    """Up to so many patterns of different content that keep the shape and the stock, cheapest first.

    Nothing is proven of them, and none may be found where there is one.

    >>> sizes = Sizes((800.0, 200.0, 40.0), (9, 9, 9), (0, 1), (1,), (2,))
    >>> bounds = Bounds(2080.0, (1000.0, 1700.0), (2, 9), (2, 9), 2, 40)
    >>> [(g.cost_mg, g.top, g.bulk, g.droppers) for g in guesses(sizes, bounds, 1)]
    [(6.0, {0: 2}, {1: 2}, {2: 2})]
    """
    found: dict[tuple[tuple[int, int], ...], Guess] = {}
    tops: dict[int, _Handfuls | None] = {}
    droppers = _handfuls(sizes, sizes.droppers, bounds.droppers, others=1)
    if droppers is None:
        return []
    least = bounds.top[0] + bounds.bulk[0] + bounds.droppers
    pairings = 0
    for shot in range(least, bounds.most_shot + 1):
        for at_float, bulk in _numbers(sizes, bounds, shot - bounds.droppers):
            pairings += 1
            if at_float not in tops:
                tops[at_float] = _at_float(sizes, bounds, at_float)
            top = tops[at_float]
            for guess in _paired(sizes, bounds, top, droppers, bulk) if top else ():
                known = found.get(guess.content())
                if known is None or guess.in_order() < known.in_order():
                    found[guess.content()] = guess
        best = sorted(found.values(), key=Guess.in_order)[:how_many]
        enough = len(best) == how_many and best[-1].cost_mg <= PER_PIECE_MG * (shot + 1)
        if enough or pairings >= MOST_PAIRINGS:
            break
    return sorted(found.values(), key=Guess.in_order)[:how_many]


def _numbers(sizes: Sizes, bounds: Bounds, shot: int) -> Iterator[tuple[int, int]]:
    """So many shot at the float and in the bulk, where together they can reach the target."""
    most_of = {
        part: max((sizes.pull_mg[n] for n in those), default=0.0)
        for part, those in (("float", sizes.top), ("bulk", sizes.bulk), ("drop", sizes.droppers))
    }
    for at_float in range(bounds.top[0], min(bounds.top[1], shot) + 1):
        bulk = shot - at_float
        if not bounds.bulk[0] <= bulk <= bounds.bulk[1]:
            continue
        float_mg = min(at_float * most_of["float"], bounds.top_mg[1])
        below_mg = bulk * most_of["bulk"] + bounds.droppers * most_of["drop"]
        if float_mg + below_mg >= bounds.target_mg - shot and float_mg >= bounds.top_mg[0]:
            yield at_float, bulk


def _handfuls(sizes: Sizes, those: Sequence[int], shot: int, *, others: int) -> _Handfuls | None:
    """All handfuls of so many shot that the stock has, so many of them of any size."""
    import numpy as np

    pull, stock = np.array(sizes.pull_mg), np.array(sizes.stock)
    if shot == 0:
        return _Handfuls(np.zeros(1), np.zeros((1, 0), dtype=int), 0)
    free = min(others, shot - 1)
    each = np.array(those, dtype=int)
    if not len(each):
        return None
    picks = np.stack(np.meshgrid(*[each] * (1 + free), indexing="ij"), axis=-1).reshape(
        -1, 1 + free
    )
    if free == 2:
        picks = picks[picks[:, 1] <= picks[:, 2]]
    times = np.array([shot - free, *[1] * free])
    here = np.stack(
        [((picks == picks[:, [n]]) * times).sum(axis=1) for n in range(1 + free)], axis=1
    )
    picks = picks[(here <= stock[picks]).all(axis=1)]
    if not len(picks):
        return None
    sums = (pull[picks] * times).sum(axis=1)
    order = np.argsort(sums, kind="stable")
    return _Handfuls(sums[order], picks[order], shot - free)


def _at_float(sizes: Sizes, bounds: Bounds, shot: int) -> _Handfuls | None:
    """The handfuls at the float that are the share of the load that they may be."""
    top = _handfuls(sizes, sizes.top, shot, others=2)
    if top is None:
        return None
    low, high = bounds.top_mg
    fits = (top.sums >= low - 1e-9) & (top.sums <= high + 1e-9)
    return _Handfuls(top.sums[fits], top.sizes[fits], top.times) if fits.any() else None


def _paired(
    sizes: Sizes, bounds: Bounds, top: _Handfuls, droppers: _Handfuls, bulk: int
) -> Iterator[Guess]:
    """The nearest of every handful at the float with every bulk and droppers below it."""
    import numpy as np

    below, of_bulk = _below(sizes, droppers, bulk)
    if below is None:
        return
    lacks = bounds.target_mg - below
    right = np.searchsorted(top.sums, lacks).clip(0, len(top.sums) - 1)
    left = (right - 1).clip(0)
    nearer = np.where(np.abs(top.sums[left] - lacks) < np.abs(top.sums[right] - lacks), left, right)
    off = np.abs(top.sums[nearer] - lacks)
    at_float = top.times + max(0, top.sizes.shape[1] - 1)
    shot = at_float + bulk + bounds.droppers
    best = np.unravel_index(np.argsort(off, axis=None, kind="stable")[:KEPT], off.shape)
    for row, column in zip(*best, strict=True):
        if not np.isfinite(off[row, column]):
            return
        parts = (
            top.counts(nearer[row, column]) if at_float else {},
            {of_bulk[row]: bulk} if bulk else {},
            droppers.counts(column) if bounds.droppers else {},
        )
        if all(n <= sizes.stock[size] for size, n in _added(*parts).items()):
            yield Guess(float(off[row, column]) + PER_PIECE_MG * shot, *parts)


def _below(sizes: Sizes, droppers: _Handfuls, bulk: int) -> tuple["Numbers | None", list[int]]:
    """What hangs below the float: a row for each size of the bulk, a column for each handful of
    droppers, endless where a dropper is heavier than the bulk."""
    import numpy as np

    if bulk == 0:
        return droppers.sums[None, :], [0]
    pull = np.array(sizes.pull_mg)
    of_bulk = [size for size in sizes.bulk if sizes.stock[size] >= bulk]
    if not of_bulk:
        return None, []
    masses = pull[of_bulk]
    sums = bulk * masses[:, None] + droppers.sums[None, :]
    if droppers.sizes.shape[1]:
        heaviest = pull[droppers.sizes].max(axis=1)
        sums[heaviest[None, :] > masses[:, None] + 1e-9] = np.inf
    return sums, of_bulk


def _added(*parts: dict[int, int]) -> dict[int, int]:
    whole: dict[int, int] = {}
    for part in parts:
        for size, n in part.items():
            whole[size] = whole.get(size, 0) + n
    return whole
