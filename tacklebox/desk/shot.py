"""Shot for a float: which balances it, and what replaces shot that is gone."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.desk.asking import celsius, count_of, in_field, resolved_recipe
from tacklebox.desk.opening import Desk
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.rigs.fitting import Fit
    from tacklebox.trade.balance import Tip
    from tacklebox.trade.hanging import Hanging
    from tacklebox.trade.pattern import Pattern
    from tacklebox.trade.shape import Shape
    from tacklebox.trade.supply import Supply


MOST_SHOWN = 10


@dataclass(frozen=True)
class ShotCount:
    """So many weights of one size."""

    mark: str
    material: str
    mass_g: float
    count: int


@dataclass(frozen=True)
class TipSeen:
    """What shows of the tip once something has registered."""

    what: str
    shows_mm: float
    says: str


@dataclass(frozen=True)
class Balanced:
    """One pattern that balances the float. ``error_mg`` above 0 is too heavy; ``proven``: no
    pattern is better but those told before it."""

    words: str
    at_float: tuple[ShotCount, ...]
    under: tuple[ShotCount, ...]
    bulk: tuple[ShotCount, ...]
    droppers: tuple[ShotCount, ...]
    shot: int
    error_mg: float
    error_tip_mm: float
    proven: bool
    stages: tuple[TipSeen, ...]


@dataclass(frozen=True)
class Balance:
    """The patterns for a float, best first, and what they were made for.

    ``skin_mm``: by so much, up or down, the water's skin usually holds the tip, the same for every
    pattern. ``to_trim``: what to add where it stands ``trims_mm`` too high.
    """

    mark: str
    capacity_g: float
    inside_g: float
    shot_g: float
    give_g: float  # it may carry so much more or less than its mark says
    source: str
    tip_diameter_mm: float
    tip_length_mm: float
    tip_is_usual: bool
    shows_mm: float
    shape: str
    fished: str
    hangs_mg: float
    left_out: tuple[str, ...]  # of what hangs, what nobody knows the mass of
    patterns: tuple[Balanced, ...]
    skin_mm: float
    to_trim: str
    trims_mm: float


@dataclass(frozen=True)
class StandIn:
    """Shot in place of what is gone; ``error_tip_mm`` None where no tip was told."""

    words: str
    shot: tuple[ShotCount, ...]
    error_mg: float
    error_tip_mm: float | None
    proven: bool


@dataclass(frozen=True)
class Replaced:
    """What was missing, and what stands in for it, nearest first."""

    instead_of: str
    material: str
    stand_ins: tuple[StandIn, ...]


def balance_float(
    desk: Desk,
    capacity: str,
    *,
    tip: str = "",
    inside: str = "",
    show: str = "3 mm",
    fished: str = "",
    like: str = "",
    any_size: bool = False,
    material: str = "tin",
    water: str = "",
    show_best: int = 3,
) -> Balance:
    """The best patterns for a float from the shot in the box, or from every size if ``any_size``.

    ``tip`` is its diameter and length, ``inside`` the load in a loaded float, ``show`` how much tip is
    wished; ``fished`` how deep, ``like`` a recipe whose shape is kept. Raises AskedWronglyError for
    words that are not understood, CannotBeDoneError where no shot in hand will do.
    """
    from tacklebox.trade.balance import Tip, stages
    from tacklebox.trade.floats import (
        give_g,
        inside_g,
        left_for_shot_g,
        one_sort_capacity,
        usual_own_mass_g,
    )
    from tacklebox.trade.pattern import best_patterns
    from tacklebox.trade.quantities import read_length_mm, read_mass_g
    from tacklebox.trade.sources import ASKED, weakest
    from tacklebox.trade.trimming import trimming_shot

    water_c = celsius(water)
    carries = in_field("capacity", one_sort_capacity, capacity)
    load_g = in_field("inside", read_mass_g, inside) if inside else 0.0
    takes_g = in_field("inside", lambda load: left_for_shot_g(carries.mass_g, load), load_g)
    own_g = usual_own_mass_g(takes_g, load_g + inside_g(carries.mark))
    wished_mm = 0.0 if show.strip() == "0" else in_field("show", read_length_mm, show)
    usual = Tip(1.5, 25.0) if _is_pole(carries.mark) else Tip(3.0, 60.0)
    watched = in_field("tip", _read_tip, tip) if tip else usual
    shape, shape_words, fit = _shape(desk, like, carries.mark)
    hangs = _hangs(fit, fished, water_c)
    found = best_patterns(
        takes_g,
        _supply(desk, any_size, material, shape, fit),
        shape,
        tip=watched,
        wished_tip_mm=wished_mm,
        hanging=hangs,
        how_many=count_of(show_best, MOST_SHOWN, "show_best"),
        temperature_c=water_c,
        own_g=own_g,
    )
    sits = [
        stages(takes_g, watched, one.groups(), hanging=hangs, temperature_c=water_c, own_g=own_g)
        for one in found
    ]
    seen = [tuple(TipSeen(s.what, s.shows_mm, s.says) for s in each) for each in sits]
    trim, trims_mm = trimming_shot(watched, water_c)
    return Balance(
        carries.mark,
        carries.mass_g,
        load_g,
        takes_g,
        give_g(carries.mark, carries.mass_g)[0],
        str(weakest([carries.source, ASKED]) if inside else carries.source),
        watched.diameter_mm,
        watched.length_mm,
        not tip,
        wished_mm,
        shape_words,
        str(hangs.fished),
        1000 * hangs.pull_g,
        hangs.left_out,
        tuple(_balanced(one, each) for one, each in zip(found, seen, strict=True)),
        watched.skin_usual_mm(water_c),
        trim,
        trims_mm,
    )


def replace_shot(
    desk: Desk,
    instead_of: str,
    *,
    tip: str = "",
    any_size: bool = False,
    material: str = "tin",
    water: str = "",
    show_best: int = 3,
) -> Replaced:
    """What stands in for shot that is gone, from the box or from every size if ``any_size``.

    Raises AskedWronglyError for words that are not understood, CannotBeDoneError where there is
    no other shot.
    """
    from tacklebox.trade.replacing import replacements
    from tacklebox.trade.shot import read_pattern, write_pattern

    loads = in_field("shot", read_pattern, instead_of)
    found = replacements(
        loads,
        _supply(desk, any_size, "tin"),
        material=material,
        tip=in_field("tip", _read_tip, tip) if tip else None,
        how_many=count_of(show_best, MOST_SHOWN, "show_best"),
        temperature_c=celsius(water),
    )
    stand_ins = tuple(
        StandIn(str(one), _weights(one.picked), one.error_mg, one.error_tip_mm, one.proven)
        for one in found
    )
    return Replaced(write_pattern(loads), material, stand_ins)


def _read_tip(text: str) -> "Tip":
    from tacklebox.trade.balance import Tip
    from tacklebox.trade.quantities import read_length_mm

    sizes = text.lower().replace("×", "x").split("x")
    if len(sizes) != 2:
        raise AskedWronglyError(
            f'"{text}" is no size of a tip.',
            right='Write its diameter and its length, like "3 mm × 60 mm".',
        )
    return Tip(read_length_mm(sizes[0]), read_length_mm(sizes[1]))


def _is_pole(mark: str) -> bool:
    """Wagglers are marked in shot, pole floats like 4×14 or in grams (common practice)."""
    return "×" in mark or mark.endswith(" g")


def _shape(desk: Desk, like: str, capacity: str) -> "tuple[Shape, str, Fit | None]":
    """The shape of a recipe's own shotting, for the float's size where it offers that, with the
    recipe as stock serves it; else the usual shape."""
    from tacklebox.rigs.checking.shotting import groups_of
    from tacklebox.rigs.recipes.choices import same_size
    from tacklebox.rigs.tying.tie import fit_and_check
    from tacklebox.trade.shape import Shape

    if not like and _is_pole(capacity):
        return Shape(0, 0, lock_least=0), "a pole float's, none of it at the float", None
    if not like:
        return Shape(), "a waggler's, half to three quarters of it at the float", None
    recipe = in_field("like", desk.recipes.load, like)
    wish = {
        key: option
        for key, choice in recipe.choose.items()
        for option in choice.any_of
        if same_size(option, capacity)
    }
    fit = fit_and_check(desk.box, resolved_recipe(desk.recipes, like, wish)).fit
    groups = groups_of(fit.resolved)
    if not groups:
        raise AskedWronglyError(
            f"{like} has no shot to take a shape from.",
            field="like",
            right="Name a recipe of a float rig.",
        )
    return Shape.like(groups), f"that of {like}", fit


def _hangs(fit: "Fit | None", fished: str, water: float) -> "Hanging":
    """What hangs beside the shot: of the recipe that is named, else of a usual rig."""
    from tacklebox.rigs.checking.shotting import hanging_of
    from tacklebox.stock.tables import Kind
    from tacklebox.trade.hanging import DEPTH_NOT_SAID, read_fished, usual_hanging

    how = in_field("fished", read_fished, fished) if fished else None
    floats = [a.at_mm for a in fit.resolved.along if a.kind is Kind.FLOAT] if fit else []
    if fit and floats:
        return hanging_of(fit, floats[0], water, how)
    return usual_hanging(how or DEPTH_NOT_SAID, water)


def _supply(
    desk: Desk,
    any_size: bool,
    material: str,
    shape: "Shape | None" = None,
    fit: "Fit | None" = None,
) -> "Sequence[Supply]":
    """Shot in the box, or of every size; with a recipe's own olivettes where those make its bulk."""
    from tacklebox.rigs.checking.shotting import groups_of
    from tacklebox.stock.shot_supply import shot_in_stock
    from tacklebox.trade.shot import weight_material
    from tacklebox.trade.supply import Supply, every_size

    name = in_field("material", weight_material, material).name
    if not any_size:
        with desk.box.reading() as session:
            return shot_in_stock(session)
    if shape is None or not shape.olivette or fit is None:
        return every_size(name)
    olivettes = [
        Supply(load.mark, load.mass_g, group.material_of(load), kind="olivette")
        for group in groups_of(fit.resolved)
        for load in group.loads
        if load.kind == "olivette"
    ]
    return (*every_size(name), *olivettes)


def _weights(picked: "Sequence[tuple[Supply, int]]") -> tuple[ShotCount, ...]:
    return tuple(ShotCount(s.mark, s.material, s.mass_g, n) for s, n in picked)


def _balanced(pattern: "Pattern", seen: tuple[TipSeen, ...]) -> Balanced:
    return Balanced(
        str(pattern),
        _weights(pattern.at_float),
        _weights(pattern.under),
        _weights(pattern.bulk),
        _weights(pattern.droppers),
        pattern.shot,
        pattern.error_mg,
        pattern.error_tip_mm,
        pattern.proven,
        seen,
    )
