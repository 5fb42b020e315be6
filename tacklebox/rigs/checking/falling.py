"""A fitted recipe as a rig that falls: its float, line, shot and hook, and how it is fished.

What stock does not serve counts as the recipe asks for it; what not even the recipe says counts as is
usual, and a note says so. A feeder's rig has no float: its hooklength counts, held at its upper end.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.checking.joints import Bond, bonds_of
from tacklebox.rigs.checking.shotting import as_served, first_material, own_mass_of
from tacklebox.rigs.fitting import Fit
from tacklebox.rigs.recipes.resolved import OnLine
from tacklebox.stock.asks import Ask
from tacklebox.stock.tables import Float, Hook, Kind, Line
from tacklebox.trade.balance import Group, Place, Tip
from tacklebox.trade.floats import OwnMass
from tacklebox.trade.hanging import USUAL_BAIT, Depth
from tacklebox.trade.hooks import write_hook_order
from tacklebox.trade.line import material_named
from tacklebox.trade.quantities import Range
from tacklebox.trade.settling.rig import (
    NYLON_G_CM3,
    FallingFloat,
    FallingRig,
    LinePiece,
    Note,
    Weights,
    usual_float,
)
from tacklebox.trade.settling.sizes import (
    FallingBait,
    FallingHook,
    bait_named,
    hook_of_size,
    hook_weighed,
)
from tacklebox.trade.shot import Load
from tacklebox.trade.sources import BY_RECIPE, MEASURED
from tacklebox.trade.units_first import show_length
from tacklebox.trade.water import USUAL_C

USUAL_LINE_MM, USUAL_HOOK = 0.14, "20"  # where neither stock nor recipe says (our choice)
USUAL_TIPS = {"pole": Tip(1.5, 25.0)}  # by the first word of a float's kind (from memory)
OTHER_TIP = Tip(3.0, 60.0)
# Floats whose fall nobody has figures of fall like these (our choice).
FALLS_LIKE = {
    **dict.fromkeys(("avon", "balsa", "chubber", "bolo"), "stick"),
    **dict.fromkeys(("dibber", "flat"), "pole"),
}
LEAST_DEPTH_MM = 100.0  # of water that a rig falls through (our choice)
SHORTEST_MM = 1.0  # a shorter piece of line is none


@dataclass(frozen=True)
class Fished:
    """How a rig is fished: what is on the hook, the water, and how it is set.

    ``over_mm`` as ``FallingRig`` has it; ``hook_mg`` and ``float_g`` are what the angler weighed his
    hook and his float at; ``held``: a tight line keeps the float in its place.
    """

    bait: FallingBait | None = None
    over_mm: float | None = 0.0
    water_c: float = USUAL_C
    wind_m_s: float = 0.0
    hook_mg: float | None = None
    float_g: float | None = None
    held: bool = False


@dataclass(frozen=True)
class Falling:
    """The rig that falls, and what had to be taken as usual for it."""

    rig: FallingRig
    notes: tuple[Note, ...]


def falling_rig(fit: Fit, fished: Fished) -> Falling:
    """The fitted recipe as it falls. Raises AskedWronglyError for figures that make no sense."""
    notes: list[Note] = []
    float_at = next((one for one in fit.resolved.along if one.kind is Kind.FLOAT), None)
    top_mm = float_at.at_mm if float_at else math.inf
    lines = tuple(_lines(fit, top_mm, notes))
    length_mm = sum(piece.length_mm for piece in lines)
    return Falling(
        FallingRig(
            lines,
            _hook(fit, fished.hook_mg, notes),
            fished.bait,
            tuple(_weights(fit, min(top_mm, length_mm))),
            _float(fit, float_at, fished, notes) if float_at else None,
            over_mm=_over_mm(fished, length_mm, notes) if float_at else None,
            temperature_c=fished.water_c,
            wind_m_s=fished.wind_m_s,
        ),
        tuple(notes),
    )


def _over_mm(fished: Fished, length_mm: float, notes: list[Note]) -> float | None:
    """By how much it is over depth; no more than leaves it a little water to fall through."""
    over_mm, most_mm = fished.over_mm, max(0.0, length_mm - LEAST_DEPTH_MM)
    if over_mm is None or over_mm <= most_mm:
        return over_mm
    says = (
        f"{show_length(over_mm)} over depth is more than its {show_length(length_mm)} of line: "
        f"computed for {show_length(LEAST_DEPTH_MM)} of water"
    )
    notes.append(Note("over the line", says))
    return most_mm


def as_recipe_fishes(fit: Fit) -> Fished:
    """The fitted recipe as it says that it is fished, with the usual bait in usual water."""
    how = fit.resolved.fished
    over_mm = None if how.depth is Depth.OFF else how.over_mm
    return Fished(fit.measured.bait(USUAL_BAIT) or bait_named(USUAL_BAIT), over_mm)


def float_to_hook_mm(fit: Fit) -> float:
    """The length from the float down to the hook; 0 for a rig without float."""
    return next((one.at_mm for one in fit.resolved.along if one.kind is Kind.FLOAT), 0.0)


def _lines(fit: Fit, top_mm: float, notes: list[Note]) -> Iterator[LinePiece]:
    """Each line from the float down, or of the hooklength where there is no float."""
    bonds = [bond for bond in bonds_of(fit) if bond.segment.kind is Kind.LINE]
    if math.isinf(top_mm):
        lowest = [bond for bond in bonds if bond.in_hooklength] or bonds[-1:]
        bonds = [bond for bond in lowest if not bond.segment.need.in_place]
    for bond in bonds:
        high = top_mm if bond.segment.need.in_place else min(top_mm, bond.segment.high_mm)
        length = high - bond.segment.low_mm
        if math.isfinite(length) and length >= SHORTEST_MM:
            yield LinePiece(length, _diameter_mm(bond, notes), _density(bond))


def _diameter_mm(bond: Bond, notes: list[Note]) -> float:
    if bond.line_mm is not None:
        return bond.line_mm
    says = f"nobody says how thick the {bond.segment.name} is: {USUAL_LINE_MM:g} mm taken"
    notes.append(Note("line not known", says))
    return USUAL_LINE_MM


def _density(bond: Bond) -> float:
    return (
        material_named(bond.line.material).density_g_cm3
        if isinstance(bond.line, Line)
        else NYLON_G_CM3
    )


def _hook(fit: Fit, weighed_mg: float | None, notes: list[Note]) -> FallingHook:
    bond = next((one for one in bonds_of(fit) if one.segment.kind is Kind.HOOK), None)
    size = ""
    if bond is not None and isinstance(bond.figures, Hook):
        size = bond.figures.size
    elif bond is not None:
        size = _asked_hook(bond.segment.need.ask)
    if not size:
        size = USUAL_HOOK
        notes.append(Note("hook not known", f"nobody says what hook is on it: a {size} taken"))
    if weighed_mg is None and bond is not None and bond.serving.item is not None:
        own = fit.measured.own_mass(bond.serving.item.id)
        weighed_mg = 1000 * own.mean if own else None
    return hook_of_size(size) if weighed_mg is None else hook_weighed(size, weighed_mg)


def _asked_hook(ask: Ask) -> str:
    """The size in the middle of what is asked for."""
    wish = _wish(ask, "size")
    if not isinstance(wish, Range):
        return ""
    ends = [end for end in (wish.low, wish.high) if math.isfinite(end)]
    return write_hook_order(round(sum(ends) / len(ends))) if ends else ""


def _wish(ask: Ask, key: str) -> object:
    return next((wish for name, _, wish in ask.wanted if name == key), None)


def _float(fit: Fit, float_at: OnLine, fished: Fished, notes: list[Note]) -> FallingFloat:
    weighed_g = fished.float_g
    item = fit.serving(float_at.name).item
    if item is not None and isinstance(item.figures, Float):
        figures = item.figures
        carries = fit.measured.capacity(item.id, figures)
        tip = None
        if figures.tip_diameter_mm and figures.tip_length_mm:
            tip = Tip(figures.tip_diameter_mm, figures.tip_length_mm)
        shape = FALLS_LIKE.get(figures.shape, figures.shape)
        if carries is None:
            raise AskedWronglyError(
                f"nobody knows what {item.item.name} takes.",
                where=float_at.name,
                right="Try it in a bucket.",
            )
        own = own_mass_of(fit, item.id, figures, carries.mean)
        if weighed_g is not None:
            own = OwnMass(weighed_g, MEASURED)
        chosen = usual_float(shape, carries.mean, tip or _tip(shape, notes), own=own)
        return replace(chosen, capacity_source=carries.source, held=fished.held)
    shapes = _wish(float_at.need.ask, "shape")
    shape = min(shapes) if isinstance(shapes, frozenset) and shapes else "waggler"
    shape = FALLS_LIKE.get(shape, shape)
    capacity = _wish(float_at.need.ask, "capacity")
    if not isinstance(capacity, Range):
        raise AskedWronglyError(
            "no float is chosen, and the recipe does not say what it carries.",
            where=float_at.name,
            right="Put one in the box.",
            field="use",
        )
    carries_g = capacity.middle if math.isfinite(capacity.middle) else capacity.low
    notes.append(
        Note("float not chosen", f"no float is chosen: one that carries {carries_g:.2g} g taken")
    )
    weighed = OwnMass(weighed_g, MEASURED) if weighed_g is not None else None
    asked = usual_float(shape, carries_g, _tip(shape, notes), own=weighed)
    return replace(asked, capacity_source=BY_RECIPE, held=fished.held)


def _tip(shape: str, notes: list[Note]) -> Tip:
    tip = USUAL_TIPS.get(shape.split(" ")[0], OTHER_TIP)
    says = f"nobody says how thick its tip is: {tip.diameter_mm:g} mm × {tip.length_mm:g} mm taken"
    notes.append(Note("tip not known", says))
    return tip


def _weights(fit: Fit, float_mm: float) -> Iterator[Weights]:
    """All shot by its place, highest first; what is at the float comes at its height."""
    found: dict[float, list[Load]] = {}
    for placed, group in zip(fit.resolved.shot, fit.resolved.recipe.shot, strict=True):
        nominal = Group(Place.BULK, placed.loads, first_material(group.material))
        places = list(placed.positions_mm)
        for load in placed.loads:
            those, places = places[: load.count], places[load.count :]
            served = as_served(fit, nominal, load)
            served = replace(served, material=served.material or nominal.material)
            for place in dict.fromkeys(those):
                count = those.count(place)
                found.setdefault(min(place, float_mm), []).append(replace(served, count=count))
    for place in sorted(found, reverse=True):
        yield Weights(place, tuple(found[place]))


def bulk_moved(rig: FallingRig, by_mm: float) -> FallingRig:
    """The rig with the heaviest place of shot down the line moved, up by so much (down: below 0).

    Raises AskedWronglyError where there is no shot down the line.
    """
    bulk = max(_down_the_line(rig), key=lambda at: at.mass_g)
    moved = replace(bulk, above_hook_mm=bulk.above_hook_mm + by_mm)
    return replace(rig, shot=tuple(moved if at is bulk else at for at in rig.shot))


def strung_out(rig: FallingRig) -> FallingRig:
    """The rig with all its shot down the line as far apart, from the hooklength's loop to the float.

    Raises AskedWronglyError where there is no shot down the line.
    """
    down = _down_the_line(rig)
    single = [replace(load, count=1) for at in down for load in at.loads for _ in range(load.count)]
    low = rig.line[-1].length_mm if len(rig.line) > 1 else min(at.above_hook_mm for at in down)
    step = (rig.length_mm - low) / len(single)
    strung = tuple(
        Weights(low + step * (len(single) - 1 - n), (load,)) for n, load in enumerate(single)
    )
    return replace(rig, shot=(*(at for at in rig.shot if at not in down), *strung))


def bulked(rig: FallingRig, at_mm: float) -> FallingRig:
    """The rig with all its shot down the line in one place, so far above the hook.

    Raises AskedWronglyError where there is no shot down the line.
    """
    down = _down_the_line(rig)
    bulk = Weights(at_mm, tuple(load for at in down for load in at.loads))
    return replace(rig, shot=(*(at for at in rig.shot if at not in down), bulk))


def _down_the_line(rig: FallingRig) -> list[Weights]:
    down = [at for at in rig.shot if at.above_hook_mm < rig.length_mm]
    if not down:
        raise AskedWronglyError(
            f"there is no shot down the line to move; all is at the float, "
            f"{show_length(rig.length_mm)} above the hook.",
            where="shot",
        )
    return down
