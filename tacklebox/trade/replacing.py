"""What stands in for shot that is gone, nearest first."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.balance import RATED_IN, Tip
from tacklebox.trade.first_guess import Bounds, Sizes, guesses
from tacklebox.trade.nearest import NearChoice, Problem, Row, nearest_choices
from tacklebox.trade.pattern import Picked, write_picked
from tacklebox.trade.shot import MOST_SHOT, Load, pattern_mass_g, weight_material
from tacklebox.trade.supply import Supply, acts_as_mg, usable_of
from tacklebox.trade.water import USUAL_C, share_in_water


@dataclass(frozen=True, slots=True)
class Replacement:
    """Shot in place of others: what, the error in mg (above 0: heavier) and in mm of tip
    (above 0: more shows; None where no tip was given). ``proven``: that none is nearer but those
    told before it."""

    picked: Picked
    error_mg: float
    error_tip_mm: float | None
    proven: bool = field(default=True, compare=False)

    def __str__(self) -> str:
        return write_picked(self.picked)


def replacements(
    gone: Sequence[Load],
    supply: Sequence[Supply],
    *,
    material: str = RATED_IN,
    tip: Tip | None = None,
    how_many: int = 3,
    temperature_c: float = USUAL_C,
) -> tuple[Replacement, ...]:
    """What stands in for shot that is gone, nearest first and none skipped.

    Nearest: least error in mg plus 1 mg for each shot, by true masses; of equally near ones that of
    fewer sizes first. Compared by pull in water as
    mass of the ``material`` that is gone; shot of the marks and material that are gone is not
    offered. Raises AskedWronglyError when nothing is gone, CannotBeDoneError when there is no other
    shot.

    >>> from tacklebox.trade.shot import read_pattern
    >>> from tacklebox.trade.supply import every_size
    >>> nearest = replacements(read_pattern("2 AAA"), every_size())
    >>> [(str(one), one.error_mg) for one in nearest[:2]]
    [('1 SSG', 0.0), ('2 AB + 1 BB', 0.0)]
    """
    if not gone:
        raise AskedWronglyError("nothing is gone.", right='Say what is, like "2 AAA".')
    marks = {load.mark for load in gone}
    kinds = {"shot", *(load.form for load in gone)} - {"olivette"}  # styls only for styls
    name = weight_material(material).name
    others = [
        one
        for one in supply
        if one.kind in kinds
        and (one.mark not in marks or weight_material(one.material).name != name)
    ]
    usable = usable_of(others)
    target_mg = 1000 * pattern_mass_g(tuple(gone))
    masses = tuple(acts_as_mg(usable, material, temperature_c))
    most = tuple(
        min(int(target_mg // mass) + how_many, MOST_SHOT if one.count is None else one.count)
        for one, mass in zip(usable, masses, strict=True)
    )
    rows = (Row(1, MOST_SHOT, tuple((n, 1.0) for n in range(len(usable)))),)
    sizes = Sizes(masses, most, range(len(usable)), (), ())
    bounds = Bounds(target_mg, (0.0, math.inf), (1, MOST_SHOT), (0, 0), 0, MOST_SHOT)
    starts = tuple(
        tuple(guess.top.get(n, 0) for n in range(len(usable)))
        for guess in guesses(sizes, bounds, how_many)
    )
    found = nearest_choices(Problem(masses, most, target_mg, rows, starts=starts), how_many)
    mm_per_mg = None
    if tip is not None:
        share = share_in_water(weight_material(material).density_g_cm3, temperature_c)
        mm_per_mg = share / (1000 * tip.lift_g_per_mm(temperature_c))
    stands_in = []
    for choice in sorted(found.choices, key=_nearest_and_plainest):
        error = 0.0 if abs(choice.error_mg) < 1e-6 else choice.error_mg
        moved = None if mm_per_mg is None else 0.0 - error * mm_per_mg
        picked = tuple((one, n) for one, n in zip(usable, choice.counts, strict=True) if n)
        stands_in.append(Replacement(picked, error, moved, choice.proven))
    return tuple(stands_in)


def _nearest_and_plainest(choice: NearChoice) -> tuple[float, int]:
    return round(choice.cost_mg, 3), sum(1 for count in choice.counts if count)
