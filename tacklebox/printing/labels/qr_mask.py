"""The mask of a QR: the one of eight that ISO/IEC 18004 finds least like what readers mistake.

A symbol is one whole number, row after row with a light gap behind each, so that each feature is
counted in all places at once.
"""

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache

# ISO/IEC 18004, table 10: where each mask turns a module, by row and column.
MASKS: tuple[Callable[[int, int], bool], ...] = (
    lambda i, j: (i + j) % 2 == 0,
    lambda i, _: i % 2 == 0,
    lambda _, j: j % 3 == 0,
    lambda i, j: (i + j) % 3 == 0,
    lambda i, j: (i // 2 + j // 3) % 2 == 0,
    lambda i, j: i * j % 2 + i * j % 3 == 0,
    lambda i, j: (i * j % 2 + i * j % 3) % 2 == 0,
    lambda i, j: ((i + j) % 2 + i * j % 3) % 2 == 0,
)
FINDER_LIKE = "10111010000"  # 1:1:3:1:1 beside four light modules

Grid = Sequence[Sequence[bool | None]]
BothWays = tuple[int, int]  # read by rows, and by columns


def best_mask(symbol: Grid, mask: int) -> int:
    """The mask with the fewest penalties, for a symbol that is drawn with any one of them.

    As is usual, what says the mask itself counts as light.
    """
    side = len(symbol)
    counted, masks = _turned_by(side)
    plain = [x & c ^ m for x, c, m in zip(_both_ways(symbol), counted, masks[mask], strict=True)]
    found = [penalties(plain[0] ^ rows, plain[1] ^ columns, side) for rows, columns in masks]
    return found.index(min(found))


def penalties(by_rows: int, by_columns: int, side: int) -> int:
    """ISO/IEC 18004, section 7.8.3: runs, blocks, what looks like a finder, too dark or too light."""
    whole = _whole(side)
    dark = by_rows.bit_count()
    found = 10 * int(abs(dark / side**2 * 100 - 50) / 5)
    found += 3 * sum(_blocks(x, side) for x in (by_rows, whole & ~by_rows))
    for x in (by_rows, by_columns):
        light = whole & ~x
        found += _runs(x) + _runs(light) + 40 * _finder_like(x, light)
    return found


def _runs(x: int) -> int:
    """3 for each run of five, 1 more for each module more."""
    fives = x & x >> 1 & x >> 2 & x >> 3 & x >> 4
    return fives.bit_count() + 2 * (fives & ~(fives << 1)).bit_count()


def _blocks(x: int, side: int) -> int:
    """Blocks of two by two."""
    pairs = x & x >> 1
    return (pairs & pairs >> side + 1).bit_count()


def _finder_like(dark: int, light: int) -> int:
    found = 0
    for pattern in (FINDER_LIKE, FINDER_LIKE[::-1]):
        places = -1
        for at, module in enumerate(pattern):
            places &= (dark if module == "1" else light) >> at
        found += places.bit_count()
    return found


@lru_cache(maxsize=4)
def _whole(side: int) -> int:
    return _number([[True] * side] * side)


@lru_cache(maxsize=4)
def _turned_by(side: int) -> tuple[BothWays, tuple[BothWays, ...]]:
    """In a symbol of that size, all but what says the mask, and what each mask turns."""
    every = range(side)
    data = [[_is_data(i, j, side) for j in every] for i in every]
    counted = [[not _says_mask(i, j, side) for j in every] for i in every]
    masks = [[[data[i][j] and mask(i, j) for j in every] for i in every] for mask in MASKS]
    return _both_ways(counted), tuple(map(_both_ways, masks))


def _is_data(i: int, j: int, side: int) -> bool:
    """Versions 1 to 4: neither finders with what says the mask, nor alignment, nor timing."""
    in_corner = (i < 9 and (j < 9 or j >= side - 8)) or (i >= side - 8 and j < 9)
    in_alignment = side > 21 and abs(i - (side - 7)) <= 2 and abs(j - (side - 7)) <= 2
    return not (in_corner or in_alignment or i == 6 or j == 6)


def _says_mask(i: int, j: int, side: int) -> bool:
    along, across = (j, i) if i == 8 else (i, j)
    return across == 8 and (along < 6 or 6 < along < 9 or along >= side - 8)


def _both_ways(grid: Grid) -> BothWays:
    return _number(grid), _number(zip(*grid, strict=True))


def _number(rows: Iterable[Iterable[bool | None]]) -> int:
    return int("0".join("".join("1" if module else "0" for module in row) for row in rows), 2)
