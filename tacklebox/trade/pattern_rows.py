"""A pattern's shape as columns and rows for the solver.

Columns: how many of each size at the float, under it, in the bulk, as droppers. The bulk is of one
size, none lighter than a dropper; a switch for each size says which it is.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tacklebox.trade.first_guess import Bounds, Sizes, guesses
from tacklebox.trade.nearest import Problem, Row
from tacklebox.trade.shape import HEAVIER, Shape
from tacklebox.trade.supply import Supply


@dataclass(frozen=True, slots=True)
class Columns:
    """Which sizes may stand where, as indices into what is usable; ``acts_as`` their pull in mg."""

    at_float: tuple[int, ...]
    under: tuple[int, ...]
    bulk: tuple[int, ...]
    droppers: tuple[int, ...]
    acts_as: tuple[float, ...]

    @classmethod
    def of(cls, usable: Sequence[Supply], acts_as: Sequence[float], shape: Shape) -> "Columns":
        """The columns that a shape has. Where no shot sits at the float, one that trims may."""
        shot = [n for n, one in enumerate(usable) if one.kind == "shot"]
        kind = "olivette" if shape.olivette else "shot"
        in_bulk = (n for n, one in enumerate(usable) if one.kind == kind)
        return cls(
            tuple(shot) if shape.float_high else (),
            () if shape.float_high else tuple(n for n in shot if usable[n].trims),
            tuple(
                n
                for n in in_bulk
                if shape.olivette or usable[n].mass_g <= HEAVIER * shape.bulk_most_g
            ),
            tuple(n for n in shot if usable[n].mass_g <= HEAVIER * shape.dropper_most_g),
            tuple(acts_as),
        )

    @property
    def kinds(self) -> tuple[int, ...]:
        """The size of each column, in the solver's order."""
        return (*self.at_float, *self.under, *self.bulk, *self.droppers)

    def ranges(self) -> tuple[range, range, range, range]:
        """Where the columns of each part stand."""
        ends, start = [], 0
        for part in (self.at_float, self.under, self.bulk, self.droppers):
            ends.append(range(start, start + len(part)))
            start += len(part)
        return ends[0], ends[1], ends[2], ends[3]

    def split(self, counts: Sequence[int]) -> tuple[tuple[tuple[int, int], ...], ...]:
        """Counts as (size, count) for each part."""
        kinds = self.kinds
        return tuple(tuple((kinds[n], counts[n]) for n in part) for part in self.ranges())


def problem_of(
    usable: Sequence[Supply], columns: Columns, shape: Shape, target_mg: float, how_many: int
) -> Problem:
    """What the solver is asked: the counts of every column that come nearest to the target."""
    kinds = columns.kinds
    masses = tuple(columns.acts_as[kind] for kind in kinds)
    at_float, under, bulk, droppers = columns.ranges()

    def most_of(column: int) -> int:
        # Just past the target is enough for the best, one more for each next-best.
        count = usable[kinds[column]].count
        return min(
            shape.droppers if column in droppers else 1 if column in under else shape.most_shot,
            int(target_mg // masses[column]) + how_many,
            shape.most_shot if count is None else count,
        )

    most = tuple(most_of(column) for column in range(len(kinds)))
    switches = range(len(kinds), len(kinds) + len(bulk) + len(droppers))
    is_bulk = dict(zip(bulk, switches, strict=False))
    is_dropper = dict(zip(droppers, switches[len(bulk) :], strict=True))
    rows = [
        _sum(droppers, shape.droppers, shape.droppers),
        _sum(range(len(kinds)), 0, shape.most_shot),
        _sum(bulk, shape.bulk_least, shape.most_shot if shape.bulk_least else 0),
        _sum(tuple(is_bulk.values()), 0, 1),
        _sum(under, 0, 1),
    ]
    if at_float:
        share = tuple((column, masses[column]) for column in at_float)
        rows.append(Row(shape.float_low * target_mg, shape.float_high * target_mg, share))
        rows.append(_sum(at_float, shape.lock_least, shape.most_shot))
    for column, switch in (*is_bulk.items(), *is_dropper.items()):
        rows.append(Row(-shape.most_shot, 0, ((column, 1.0), (switch, -float(most[column])))))
    for column, switch in is_dropper.items():
        lighter = [is_bulk[b] for b in bulk if masses[b] < masses[column] - 1e-9]
        rows.append(_sum([switch, *lighter], 0, 1))
    rows += _in_stock(usable, kinds)
    starts = _starts(usable, columns, shape, target_mg, how_many)
    return Problem(masses, most, target_mg, tuple(rows), kinds, len(switches), starts)


def _starts(
    usable: Sequence[Supply], columns: Columns, shape: Shape, target_mg: float, how_many: int
) -> tuple[tuple[int, ...], ...]:
    """Guesses as counts of every column, the switches after them."""
    stock = [shape.most_shot if one.count is None else one.count for one in usable]
    top = columns.at_float or columns.under
    sizes = Sizes(columns.acts_as, stock, top, columns.bulk, columns.droppers)
    bounds = Bounds(
        target_mg,
        (shape.float_low * target_mg, shape.float_high * target_mg)
        if columns.at_float
        else (0.0, target_mg),
        (shape.lock_least, shape.most_shot) if columns.at_float else (0, 1),
        (shape.bulk_least, shape.most_shot if shape.bulk_least else 0),
        shape.droppers,
        shape.most_shot,
    )
    return tuple(
        (
            *(guess.top.get(size, 0) for size in top),
            *(guess.bulk.get(size, 0) for size in columns.bulk),
            *(guess.droppers.get(size, 0) for size in columns.droppers),
            *(int(size in guess.bulk) for size in columns.bulk),
            *(int(size in guess.droppers) for size in columns.droppers),
        )
        for guess in guesses(sizes, bounds, how_many)
    )


def _sum(columns: Sequence[int], low: float, high: float) -> Row:
    return Row(low, high, tuple((column, 1.0) for column in columns))


def _in_stock(usable: Sequence[Supply], kinds: Sequence[int]) -> Iterator[Row]:
    for kind, one in enumerate(usable):
        if one.count is not None:
            yield _sum([c for c, its in enumerate(kinds) if its == kind], 0, one.count)
