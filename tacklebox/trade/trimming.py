"""What an angler can do when a float does not sit as it should: a shot added, taken off, changed."""

from collections.abc import Iterator, Sequence
from itertools import combinations_with_replacement

from tacklebox.trade.balance import FINEST_G, RATED_IN, Group, Place, Tip, equal_mass_g
from tacklebox.trade.shot import SHOT, Load, Shot, weight_material, write_pattern
from tacklebox.trade.water import USUAL_C, share_in_water

WISHED_MM = 3.0  # of tip that is to show (our choice)
STANDS_MM = 5.0  # a remedy is told for a tip that stands about so much too high (our choice)
TRIMMING = ("No 13", "No 12", "No 11", "No 10", "No 8")  # the smallest first
MOST_ADDED = 6
_KNOWN = [shot for shot in SHOT if not shot.must_be_weighed]


def moves_mm(
    mass_g: float, tip: Tip, material: str = RATED_IN, temperature_c: float = USUAL_C
) -> float:
    """How far a weight moves the tip: m (1 − ρw/ρ) over what a mm of it carries, in mm.

    Mass in g; water in °C, 0–30. Raises AskedWronglyError for an unknown material. Source:
    Archimedes' principle.

    >>> round(moves_mm(0.04, Tip(3.0, 60.0)), 1), round(moves_mm(0.04, Tip(1.5, 40.0)), 1)
    (4.9, 19.5)
    """
    share = share_in_water(weight_material(material).density_g_cm3, temperature_c)
    return mass_g * share / tip.lift_g_per_mm(temperature_c)


def trimming_shot(tip: Tip, temperature_c: float = USUAL_C) -> tuple[str, float]:
    """The shot to add under a float that stands about 5 mm too high, and how far it takes it down.

    >>> trimming_shot(Tip(3.0, 60.0))[0], trimming_shot(Tip(1.2, 25.0))[0]
    ('No 10', 'No 13')
    """
    each = [
        (shot.mark, moves_mm(shot.mass_g, tip, temperature_c=temperature_c))
        for shot in _KNOWN
        if shot.mark in TRIMMING
    ]
    return min(each, key=lambda one: abs(one[1] - STANDS_MM))


def to_add(lacks_g: float) -> str | None:
    """One or two shot that make up what is lacking, in g of tin, to half a No 13; where none do, up
    to six, the biggest first. None for less than half a No 13 and for more than two SSG.

    >>> to_add(0.24), to_add(0.03), to_add(2.76), to_add(9.0)
    ('1 No 4 + 1 No 10', '1 No 11', '1 SSG + 1 AAA + 1 No 1 + 1 No 8', None)
    """
    if not FINEST_G <= lacks_g <= 2 * _KNOWN[0].mass_g + FINEST_G:
        return None
    singles: list[tuple[Shot, ...]] = [(shot,) for shot in _KNOWN]
    pairs = list(combinations_with_replacement(_KNOWN, 2))
    picked = min([*singles, *pairs], key=lambda some: (_off(some, lacks_g), len(some)))
    if _off(picked, lacks_g) > FINEST_G:
        picked = _biggest_first(lacks_g)
    return _words(picked)


def _biggest_first(lacks_g: float) -> tuple[Shot, ...]:
    picked: list[Shot] = []
    while len(picked) < MOST_ADDED:
        left = lacks_g - sum(shot.mass_g for shot in picked) + FINEST_G
        fits = [shot for shot in _KNOWN if shot.mass_g <= left + 1e-9]
        if not fits:
            break
        picked.append(fits[0])
    return tuple(picked)


def _off(picked: Sequence[Shot], mass_g: float) -> float:
    return round(abs(sum(shot.mass_g for shot in picked) - mass_g), 9)


def _words(picked: Sequence[Shot]) -> str:
    marks = [shot.mark for shot in picked]
    return write_pattern(tuple(Load(marks.count(m), m, 0.0) for m in dict.fromkeys(marks)))


def to_take_off(
    groups: Sequence[Group],
    over_g: float,
    rated_in: str = RATED_IN,
    temperature_c: float = USUAL_C,
) -> tuple[str, float] | None:
    """What to take off so that a float carries its shot: one of them left out, or changed for a
    smaller size; the words, and how much less it pulls with, in g of ``rated_in``.

    The nearest of those that take off at least so much; None where no single shot does. Droppers
    are left as they are where another shot will do.

    >>> from tacklebox.trade.shot import read_pattern
    >>> to_take_off([Group(Place.LOCK, read_pattern("2 AAA"))], 0.35)
    ('change 1 AAA at the float for a BB', 0.4)
    """
    for droppers in (False, True):
        enough = [
            (words, less)
            for words, less in _lighter(groups, rated_in, temperature_c, droppers=droppers)
            if less >= over_g - 1e-9
        ]
        if enough:
            return min(enough, key=lambda one: one[1])
    return None


_WHERE = {
    Place.LOCK: "at the float",
    Place.UNDER: "under the float",
    Place.BULK: "in the bulk",
    Place.SPREAD: "of those spread",
    Place.DROPPER: "of the droppers",
}


def _lighter(
    groups: Sequence[Group], rated_in: str, temperature_c: float, *, droppers: bool
) -> Iterator[tuple[str, float]]:
    for group in groups:
        if (group.what is Place.DROPPER) != droppers:
            continue
        for load in group.loads:
            if load.kind == "olivette":
                continue
            material, where = group.material_of(load), _WHERE[group.what]
            whole = equal_mass_g(load.mass_g, material, rated_in, temperature_c)
            yield f"take off 1 {load.mark} {where}", whole
            for smaller in _KNOWN:
                if smaller.mass_g < load.mass_g and smaller.mark != load.mark:
                    left = equal_mass_g(smaller.mass_g, material, rated_in, temperature_c)
                    article = "an" if smaller.mark in ("AB", "SSG") else "a"
                    yield f"change 1 {load.mark} {where} for {article} {smaller.mark}", whole - left
