"""Which shot will do: patterns from the shot in hand that balance a float, best first.

A pattern keeps the recipe's shape: a share of the load at the float, a bulk of equal shot, and
small droppers last. Lead that may not be used is never offered.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.trade.balance import RATED_IN, Group, Place, Tip, carries_at_g
from tacklebox.trade.dotting import slack_g
from tacklebox.trade.hanging import NOTHING, Hanging
from tacklebox.trade.limits import within, write_rounded
from tacklebox.trade.nearest import MOST_NODES, NearChoice, nearest_choices
from tacklebox.trade.pattern_rows import Columns, problem_of
from tacklebox.trade.shape import Shape
from tacklebox.trade.shot import Load, weight_material, write_pattern
from tacklebox.trade.supply import Supply, acts_as_mg, usable_of
from tacklebox.trade.water import USUAL_C, share_in_water

# A pattern is proven the best to this: 0.3 mm of a bristle of 1 mm, which nobody sees (our
# choice). With shot of 40 sizes the proof to a thousandth takes several times as long.
PROVEN_TO_MG = 0.25
Picked = tuple[tuple[Supply, int], ...]


@dataclass(frozen=True, slots=True)
class Pattern:
    """A pattern that balances the float: weights at the float, in the bulk, as droppers.

    ``under`` is a trimming shot under a float that has no other shot there. ``error_mg`` is how far
    it is off the wished load, in mg of the shot the float is rated in (above 0: too heavy);
    ``error_tip_mm`` the same as tip (above 0: more shows). ``proven``: that none is better but those
    told before it. ``bulk_is`` says whether what is between float and droppers sits together.
    """

    at_float: Picked
    bulk: Picked
    droppers: Picked
    error_mg: float
    error_tip_mm: float
    under: Picked = ()
    proven: bool = field(default=True, compare=False)
    bulk_is: Place = Place.BULK

    @property
    def _parts(self) -> tuple[tuple[Place, Picked], ...]:
        return (
            (Place.LOCK, self.at_float),
            (Place.UNDER, self.under),
            (self.bulk_is, self.bulk),
            (Place.DROPPER, self.droppers),
        )

    @property
    def shot(self) -> int:
        """How many shot it takes."""
        return sum(count for _, part in self._parts for _, count in part)

    def groups(self) -> tuple[Group, ...]:
        """The pattern as groups for ``balance.stages``, from the float down; of each, the heavier
        above the lighter."""
        return tuple(
            Group(what, tuple(_load(supply, n) for supply, n in part))
            for what, part in self._parts
            if part
        )

    def __str__(self) -> str:
        called = {Place.LOCK: "at the float", Place.DROPPER: "droppers"}
        return ", ".join(
            f"{called.get(what, what.value)} {write_picked(part)}"
            for what, part in self._parts
            if part
        )


def _load(supply: Supply, count: int) -> Load:
    return Load(count, supply.mark, supply.mass_g, supply.kind, material=supply.material)


def write_picked(picked: Sequence[tuple[Supply, int]]) -> str:
    """Shot that was picked, as an angler writes it."""
    return write_pattern(tuple(_load(supply, n) for supply, n in picked))


def best_patterns(
    capacity_g: float,
    supply: Sequence[Supply],
    shape: Shape | None = None,
    *,
    tip: Tip,
    wished_tip_mm: float = 3.0,
    hanging: Hanging = NOTHING,
    how_many: int = 3,
    rated_in: str = RATED_IN,
    temperature_c: float = USUAL_C,
    most_nodes: int = MOST_NODES,
    own_g: float | None = None,
) -> tuple[Pattern, ...]:
    """The best patterns, and next-best ones with other shot, that leave ``wished_tip_mm`` showing.

    Best: least error in mg (pull in water, as mg of ``rated_in``, by true masses) plus 1 mg for each
    shot used, by an integer solver, which proves each to 0.25 mg or says that it did not within
    ``most_nodes``.
    Capacity in g, above 0, up to 100; ``own_g`` is what the float itself weighs, as in
    ``carries_at_g``; tip wished 0 mm up to its length. What hangs beside the shot
    is left for. Raises AskedWronglyError outside, and CannotBeDoneError when the shot in hand cannot
    make the shape or is further off than ``dotting.slack_g``, with the nearest that would.

    >>> from tacklebox.trade.supply import every_size
    >>> best = best_patterns(2.0, every_size(), tip=Tip(3.0, 60.0), wished_tip_mm=0.0)[0]
    >>> str(best), best.error_mg, best.proven
    ('at the float 1 AAA + 1 AB + 1 No 6, bulk 2 No 4, droppers 2 No 9', 0.0, True)
    """
    slack_mg = 1000 * slack_g(capacity_g)
    within(wished_tip_mm, 0, tip.length_mm, "a tip that shows", "mm")
    shape = shape or Shape()
    usable = usable_of(supply)
    rated = share_in_water(weight_material(rated_in).density_g_cm3, temperature_c)
    mg_per_mm = 1000 * tip.lift_g_per_mm(temperature_c) / rated
    carries_mg = 1000 * carries_at_g(capacity_g, temperature_c, rated_in, own_g)
    target_mg = carries_mg - wished_tip_mm * mg_per_mm - 1000 * hanging.pull_g / rated
    if target_mg <= 0:
        raise AskedWronglyError(
            f"with {write_rounded(wished_tip_mm)} mm of tip showing the float carries no shot at all.",
            right="Wish for less tip.",
        )
    acts_as = acts_as_mg(usable, rated_in, temperature_c)
    columns = Columns.of(usable, acts_as, shape)
    _check_numbers(usable, columns, shape)
    found = nearest_choices(
        problem_of(usable, columns, shape, target_mg, how_many),
        how_many,
        most_nodes,
        PROVEN_TO_MG,
    )
    if not found.choices:
        if not found.proven_whole:
            raise CannotBeDoneError(
                "no pattern was found yet, and none is proven impossible.",
                right="Ask with fewer sizes of shot, or another shape.",
            )
        raise _no_shape(usable, acts_as, shape, target_mg)
    patterns = [_pattern(choice, usable, columns, shape, mg_per_mm) for choice in found.choices]
    near = tuple(p for p in patterns if abs(p.error_mg) <= slack_mg)
    if not near:
        best = patterns[0]
        sure = "The nearest" if best.proven else "The nearest found, not proven the best"
        raise CannotBeDoneError(
            f"the shot in hand does not balance a float of {write_rounded(capacity_g)} g.",
            right=f"{sure}, {best}, is off by {best.error_mg:+.0f} mg.",
        )
    return near


def _check_numbers(usable: Sequence[Supply], columns: Columns, shape: Shape) -> None:
    small = [usable[n] for n in columns.droppers]
    have = sum(
        shape.droppers if one.count is None else min(one.count, shape.droppers) for one in small
    )
    if have < shape.droppers:
        raise CannotBeDoneError(
            f"there are {have} shot of {shape.dropper_most_g:g} g or less for {shape.droppers} "
            "droppers.",
            right=f"Buy small shot, or ask for {have} droppers.",
        )
    if shape.bulk_least and not columns.bulk:
        what = "olivette" if shape.olivette else f"shot of {shape.bulk_most_g:g} g or less"
        raise CannotBeDoneError(
            f"there is no {what} to make the bulk of.", right="Buy some, or keep another shape."
        )


def _no_shape(
    usable: Sequence[Supply], acts_as: Sequence[float], shape: Shape, target_mg: float
) -> CannotBeDoneError:
    """Why there is no pattern of the shape, with one of another share at the float if any."""
    free = shape.with_any_share()
    columns = Columns.of(usable, acts_as, free)
    other = nearest_choices(problem_of(usable, columns, free, target_mg, 1), 1).choices
    lock = (
        f" with {100 * shape.float_low:.0f}–{100 * shape.float_high:.0f} % of the load in "
        f"{shape.lock_least} or more at the float"
        if shape.float_high
        else ""
    )
    what = (
        f"the shot in hand makes no pattern{lock}, a bulk of {shape.bulk_least} or more of one size "
        f"and {shape.droppers} droppers no heavier."
    )
    if not other:
        return CannotBeDoneError(what, right="Ask for fewer droppers or more shot.")
    nearest = _pattern(other[0], usable, columns, free, 1.0)
    return CannotBeDoneError(
        what, right=f"With any share: {nearest}, off by {nearest.error_mg:+.0f} mg."
    )


def _pattern(
    choice: NearChoice, usable: Sequence[Supply], columns: Columns, shape: Shape, mg_per_mm: float
) -> Pattern:
    at_float, under, bulk, droppers = (
        tuple((usable[kind], n) for kind, n in part if n) for part in columns.split(choice.counts)
    )
    error = 0.0 if abs(choice.error_mg) < 1e-6 else choice.error_mg
    return Pattern(
        at_float,
        bulk,
        droppers,
        error,
        -error / mg_per_mm + 0.0,  # no minus nought
        under,
        choice.proven,
        shape.bulk_is,
    )
