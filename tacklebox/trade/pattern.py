"""Which shot will do: patterns from the shot in hand that balance a float, best first.

A pattern keeps the recipe's shape: a share of the load at the float, a bulk, and small
droppers last. Lead that the law forbids is never offered.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.trade.balance import RATED_IN, Group, Tip, slack_g
from tacklebox.trade.nearest import Choice, Problem, Row, nearest_choices
from tacklebox.trade.shot import (
    MOST_SHOT,
    Load,
    pattern_mass_g,
    weight_material,
    write_pattern,
)
from tacklebox.trade.supply import Supply, acts_as_mg, usable_of
from tacklebox.trade.water import USUAL_C, share_in_water


@dataclass(frozen=True, slots=True)
class Shape:
    """What a pattern keeps of its recipe.

    ``float_low``–``float_high`` is the share of the wished load at the float (half to three quarters on
    a waggler: Soar Tackle, "Guide to float shotting & weights"; 0–0 for a pole float),
    ``lock_least`` how many shot lock it at least, ``bulk_least`` how many make the bulk at least,
    ``droppers`` how many there are and ``dropper_most_g`` the mass of the biggest (No 8,
    common practice), ``most_shot`` in all, ``bulk_most_g`` the mass of the biggest in the bulk.
    """

    float_low: float = 0.5
    float_high: float = 0.75
    lock_least: int = 2
    bulk_least: int = 1
    droppers: int = 2
    dropper_most_g: float = 0.06
    most_shot: int = 60
    bulk_most_g: float = 100.0

    def __post_init__(self) -> None:
        if not 0 <= self.float_low <= self.float_high <= 1:
            raise AskedWronglyError(
                f"a share of {self.float_low:g} to {self.float_high:g} at the float makes no sense.",
                right="Both lie between 0 and 1, the smaller first.",
            )
        least = self.lock_least + self.bulk_least + self.droppers
        if not 0 <= least <= self.most_shot <= MOST_SHOT:
            raise AskedWronglyError(
                f"{least} lock shot, bulk shot and droppers do not go into {self.most_shot} shot.",
                right=f"At most {MOST_SHOT} in all.",
            )
        if (
            min(self.lock_least, self.bulk_least, self.droppers) < 0
            or not 0 < self.dropper_most_g <= 100
        ):
            raise AskedWronglyError(
                "a pattern's numbers cannot be below nothing.", right="Give 0 or more."
            )

    @classmethod
    def like(cls, groups: Sequence[Group], leeway: float = 0.1) -> "Shape":
        """The shape of a recipe's own groups, its share at the float give or take ``leeway``,
        at least half as many shot in the bulk and none there more than twice its biggest."""
        mass = dict.fromkeys(("float", "bulk", "dropper"), 0.0)
        shot = dict.fromkeys(mass, 0)
        biggest, biggest_bulk = 0.06, 0.0
        for group in groups:
            what = _place(group.what)
            mass[what] += pattern_mass_g(group.loads)
            shot[what] += sum(load.count for load in group.loads)
            if what == "dropper":
                biggest = max(load.mass_g for load in group.loads)
            if what == "bulk":
                biggest_bulk = max(biggest_bulk, *(load.mass_g for load in group.loads))
        total = sum(mass.values())
        if total <= 0:
            raise AskedWronglyError(
                "there is no shot to take a shape from.", right="Give a pattern."
            )
        share = mass["float"] / total
        low, high = (share - leeway, share + leeway) if shot["float"] else (0.0, 0.0)
        return cls(
            max(0.0, low),
            min(1.0, high),
            min(2, shot["float"]),
            (shot["bulk"] + 1) // 2,
            shot["dropper"],
            biggest,
            bulk_most_g=2 * biggest_bulk or 100.0,
        )


def _place(what: str) -> str:
    if what.startswith("dropper"):
        return "dropper"
    return "float" if what.startswith(("lock", "float")) else "bulk"


@dataclass(frozen=True, slots=True)
class Pattern:
    """A pattern that balances the float: weights at the float, in the bulk, as droppers.

    ``error_mg`` is how far it is off the wished load, in mg of the shot the float is rated
    in (above 0: too heavy); ``error_tip_mm`` the same as tip (above 0: more shows).
    """

    at_float: tuple[tuple[Supply, int], ...]
    bulk: tuple[tuple[Supply, int], ...]
    droppers: tuple[tuple[Supply, int], ...]
    error_mg: float
    error_tip_mm: float

    @property
    def shot(self) -> int:
        """How many shot it takes."""
        return sum(count for part in (self.at_float, self.bulk, self.droppers) for _, count in part)

    def groups(self) -> tuple[Group, ...]:
        """The pattern as groups for ``balance.stages``, from the float down."""
        parts = (("lock shot", self.at_float), ("bulk", self.bulk), ("dropper", self.droppers))
        return tuple(
            Group(
                what,
                tuple(Load(n, s.mark, s.mass_g) for s, n in part if s.material == material),
                material,
            )
            for what, part in parts
            for material in dict.fromkeys(supply.material for supply, _ in part)
        )

    def __str__(self) -> str:
        parts = (("at the float", self.at_float), ("bulk", self.bulk), ("droppers", self.droppers))
        return ", ".join(f"{what} {_write(part)}" for what, part in parts if part)


def _write(picked: Sequence[tuple[Supply, int]]) -> str:
    return write_pattern(tuple(Load(n, supply.mark, supply.mass_g) for supply, n in picked))


def best_patterns(
    capacity_g: float,
    supply: Sequence[Supply],
    shape: Shape | None = None,
    *,
    tip: Tip,
    wished_tip_mm: float = 3.0,
    how_many: int = 3,
    rated_in: str = RATED_IN,
    temperature_c: float = USUAL_C,
) -> tuple[Pattern, ...]:
    """The best patterns, and next-best ones with other shot, that leave ``wished_tip_mm`` showing.

    Best: least error in mg (pull in water, as grams of ``rated_in``) plus 1 mg for each shot used,
    proven by an integer solver with masses to the milligram; the error told is exact.
    Capacity in g, above 0, up to 100; tip wished 0 mm up to its length. Raises AskedWronglyError outside, and
    CannotBeDoneError when the shot in hand cannot make the shape or is further off than the
    float forgives (see ``balance.slack_g``), with the nearest that would.

    >>> from tacklebox.trade.supply import every_size
    >>> best = best_patterns(2.0, every_size(), tip=Tip(3.0, 60.0), wished_tip_mm=0.0)[0]
    >>> best.error_mg, best.shot
    (0.0, 5)
    """
    slack = slack_g(capacity_g)
    if not 0 <= wished_tip_mm <= tip.length_mm:
        raise AskedWronglyError(
            f"a tip of {wished_tip_mm:g} mm cannot show.",
            right=f"Wish for 0 to {tip.length_mm:g} mm.",
        )
    shape = shape or Shape()
    usable = usable_of(supply)
    rated = share_in_water(weight_material(rated_in).density_g_cm3, temperature_c)
    mg_per_mm = 1000 * tip.lift_g_per_mm(temperature_c) / rated
    target_mg = 1000 * capacity_g - wished_tip_mm * mg_per_mm
    if target_mg <= 0:
        raise AskedWronglyError(
            f"with {wished_tip_mm:g} mm of tip showing the float carries no shot at all.",
            right="Wish for less tip.",
        )
    acts_as = acts_as_mg(usable, rated_in, temperature_c)
    small = [n for n, one in enumerate(usable) if one.mass_g <= shape.dropper_most_g + 1e-9]
    _check_numbers(usable, small, shape)
    problem = _problem(usable, acts_as, small, shape, target_mg)
    choices = nearest_choices(problem, how_many)
    if not choices:
        raise _no_shape(usable, acts_as, small, shape, target_mg)
    patterns = [
        _pattern(choice, usable, acts_as, small, target_mg, mg_per_mm) for choice in choices
    ]
    if abs(patterns[0].error_mg) > 1000 * slack:
        raise CannotBeDoneError(
            f"the shot in hand does not balance a float of {capacity_g:g} g.",
            right=f"The nearest, {patterns[0]}, is off by {patterns[0].error_mg:+.0f} mg.",
        )
    return tuple(p for p in patterns if abs(p.error_mg) <= 1000 * slack)


def _check_numbers(usable: Sequence[Supply], small: Sequence[int], shape: Shape) -> None:
    there = sum(
        shape.droppers if (count := usable[n].count) is None else min(count, shape.droppers)
        for n in small
    )
    if there < shape.droppers:
        raise CannotBeDoneError(
            f"there are {there} shot of {shape.dropper_most_g:g} g or less for {shape.droppers} "
            "droppers.",
            right=f"Buy small shot, or ask for {there} droppers.",
        )


def _problem(
    usable: Sequence[Supply],
    acts_as: Sequence[float],
    small: Sequence[int],
    shape: Shape,
    target_mg: float,
) -> Problem:
    """Counts at the float, in the bulk, and as droppers, in that order, with the shape's rows."""
    sizes = len(usable)
    at_float, bulk = range(sizes), range(sizes, 2 * sizes)
    droppers = range(2 * sizes, 2 * sizes + len(small))
    kinds = (*range(sizes), *range(sizes), *small)
    masses = tuple(float(round(acts_as[kind])) for kind in kinds)
    # No count needs to go further than just past the target, nor past what is there.
    most = tuple(
        min(
            shape.droppers if place in droppers else shape.most_shot,
            int(target_mg // masses[place]) + 1,
            shape.most_shot if (count := usable[kind].count) is None else count,
        )
        for place, kind in enumerate(kinds)
    )
    rows = [
        Row(
            shape.float_low * target_mg,
            shape.float_high * target_mg,
            tuple((place, masses[place]) for place in at_float),
        ),
        Row(shape.lock_least, shape.most_shot, tuple((place, 1.0) for place in at_float)),
        Row(shape.bulk_least, shape.most_shot, tuple((place, 1.0) for place in bulk)),
        Row(shape.droppers, shape.droppers, tuple((place, 1.0) for place in droppers)),
        Row(0, shape.most_shot, tuple((place, 1.0) for place in range(len(kinds)))),
    ]
    for kind, one in enumerate(usable):
        if one.count is not None:
            places = tuple((place, 1.0) for place, its in enumerate(kinds) if its == kind)
            rows.append(Row(0, one.count, places))
    if shape.float_high == 0:
        most = (0,) * sizes + most[sizes:]
    small_enough = [one.mass_g <= shape.bulk_most_g + 1e-9 for one in usable]
    kept = tuple(n if fits else 0 for n, fits in zip(most[sizes:], small_enough, strict=False))
    most = (*most[:sizes], *kept, *most[2 * sizes :])
    return Problem(masses, most, target_mg, tuple(rows), kinds)


def _no_shape(
    usable: Sequence[Supply],
    acts_as: Sequence[float],
    small: Sequence[int],
    shape: Shape,
    target_mg: float,
) -> CannotBeDoneError:
    """Why there is no pattern of the shape, with one of another share at the float if any."""
    free = Shape(0, 1, 0, 0, shape.droppers, shape.dropper_most_g, shape.most_shot)
    other = nearest_choices(_problem(usable, acts_as, small, free, target_mg), 1)
    what = (
        f"the shot in hand makes no pattern with {100 * shape.float_low:.0f}–"
        f"{100 * shape.float_high:.0f} % of the load in {shape.lock_least} or more at the float."
    )
    if not other:
        return CannotBeDoneError(what, right="Ask for fewer droppers or more shot.")
    nearest = _pattern(other[0], usable, acts_as, small, target_mg, 1.0)
    return CannotBeDoneError(
        what, right=f"With any share: {nearest}, off by {nearest.error_mg:+.0f} mg."
    )


def _pattern(
    choice: Choice,
    usable: Sequence[Supply],
    acts_as: Sequence[float],
    small: Sequence[int],
    target_mg: float,
    mg_per_mm: float,
) -> Pattern:
    """The pattern of a choice, its error by the exact masses and not the rounded ones."""
    sizes, counts = len(usable), choice.counts
    kinds = (*range(sizes), *range(sizes), *small)
    error = sum(acts_as[kind] * n for kind, n in zip(kinds, counts, strict=True)) - target_mg
    error = 0.0 if abs(error) < 1e-6 else error
    return Pattern(
        _picked(usable, counts[:sizes]),
        _picked(usable, counts[sizes : 2 * sizes]),
        _picked([usable[n] for n in small], counts[2 * sizes :]),
        error,
        -error / mg_per_mm + 0.0,  # no minus nought
    )


def _picked(supply: Sequence[Supply], counts: Sequence[int]) -> tuple[tuple[Supply, int], ...]:
    return tuple((one, count) for one, count in zip(supply, counts, strict=True) if count)


@dataclass(frozen=True, slots=True)
class Replacement:
    """Shot in place of others: what, the error in mg (above 0: heavier) and in mm of tip
    (above 0: more shows; None where no tip was given)."""

    picked: tuple[tuple[Supply, int], ...]
    error_mg: float
    error_tip_mm: float | None

    def __str__(self) -> str:
        return _write(self.picked)


def replacements(
    gone: Sequence[Load],
    supply: Sequence[Supply],
    *,
    material: str = RATED_IN,
    tip: Tip | None = None,
    how_many: int = 3,
    temperature_c: float = USUAL_C,
) -> tuple[Replacement, ...]:
    """What stands in for shot that is gone, nearest first, with its error in mg and mm of tip.

    Compared by pull in water as mass of the ``material`` that is gone; shot of the marks and material that
    are gone is not offered. Raises AskedWronglyError when nothing is gone, CannotBeDoneError
    when there is no other shot.

    >>> from tacklebox.trade.shot import read_pattern
    >>> from tacklebox.trade.supply import every_size
    >>> told = replacements(read_pattern("2 AAA"), every_size())
    >>> [(str(one), one.error_mg) for one in told[:2]]
    [('1 SSG', 0.0), ('2 AB + 1 BB', 0.0)]
    """
    if not gone:
        raise AskedWronglyError("nothing is gone.", right='Say what is, like "2 AAA".')
    marks = {load.mark for load in gone}
    name = weight_material(material).name
    others = [s for s in supply if s.mark not in marks or weight_material(s.material).name != name]
    usable = usable_of(others)
    target_mg = 1000 * pattern_mass_g(tuple(gone))
    acts_as = acts_as_mg(usable, material, temperature_c)
    masses = tuple(float(round(mg)) for mg in acts_as)
    most = tuple(
        min(int(target_mg // mass) + 1, MOST_SHOT if one.count is None else one.count)
        for one, mass in zip(usable, masses, strict=True)
    )
    rows = (Row(1, MOST_SHOT, tuple((n, 1.0) for n in range(len(usable)))),)
    choices = nearest_choices(Problem(masses, most, target_mg, rows), how_many)
    density = weight_material(material).density_g_cm3
    mm_per_mg = (
        None
        if tip is None
        else share_in_water(density, temperature_c) / (1000 * tip.lift_g_per_mm(temperature_c))
    )
    told = []
    for choice in choices:
        error = sum(mg * n for mg, n in zip(acts_as, choice.counts, strict=True)) - target_mg
        error = 0.0 if abs(error) < 1e-6 else error
        moved = None if mm_per_mg is None else 0.0 - error * mm_per_mg
        told.append(Replacement(_picked(usable, choice.counts), error, moved))
    return tuple(told)
