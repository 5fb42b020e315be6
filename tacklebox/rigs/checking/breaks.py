"""The tree of a fitted rig, from rod to hook with its side branches, for what breaks and
what a fish would be left towing."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import chain as joined
from itertools import dropwhile

from tacklebox.rigs.checking.joints import Bond, bonds_of, chain_of, joints_of
from tacklebox.rigs.fitting import Fit
from tacklebox.rigs.recipes.resolved import Hanging, OnLine, Resolved
from tacklebox.stock.tables import Feeder, Figures, Kind, Part
from tacklebox.trade.shot import write_pattern
from tacklebox.trade.strength import Joint, rated_joint
from tacklebox.trade.towing import (
    RUNS,
    Break,
    Link,
    Piece,
    Rig,
    Stop,
    Stretch,
    Thing,
    breaks_by_fish,
    breaks_by_snag,
)


@dataclass(frozen=True)
class Breaks:
    """Every break under one pull, weakest joint first: at the hook, or at a snagged weight."""

    pull: str
    breaks: tuple[Break, ...]


def tree_of(fit: Fit, bonds: Sequence[Bond] | None = None) -> Rig | None:
    """The fitted rig as a tree; None while a strength in it is not known or nothing is above
    its hooklength."""
    if fit.resolved.recipe.makes != "rig":
        return None
    bonds = bonds_of(fit) if bonds is None else bonds
    sides = [*joined.from_iterable(_side_bonds(fit, side) for side in fit.resolved.sides)]
    if not all(bond.is_known for bond in (*bonds, *sides)):
        return None
    # Above the first joint, in the elastic or its connector, nothing can break that is known.
    pieces = tuple(dropwhile(lambda piece: not isinstance(piece, Stretch), _pieces(fit, bonds)))
    joints = [piece.joint for piece in pieces if isinstance(piece, Stretch)]
    if not joints or joints[0].in_hooklength or not joints[-1].in_hooklength:
        return None
    return Rig(pieces)


def all_breaks(fit: Fit) -> tuple[Breaks, ...]:
    """What breaks under a pull at the hook, and when each weight on the rig is snagged.

    Empty where ``tree_of`` knows no tree.
    """
    rig = tree_of(fit)
    if rig is None:
        return ()
    told = [Breaks("pull at the hook", breaks_by_fish(rig))]
    for name in dict.fromkeys(_weights(rig)):
        told.append(Breaks(f"snag at the {name}", breaks_by_snag(rig, name)))
    return tuple(told)


def _weights(rig: Rig) -> Iterator[str]:
    for piece in rig.chain:
        thing = piece.thing if isinstance(piece, Link) else piece
        if isinstance(thing, Thing) and thing.what in ("feeder", "bomb", "weights"):
            yield thing.name


def _pieces(fit: Fit, bonds: Sequence[Bond]) -> Iterator[Piece]:
    """From rod to hook. Plain line counts as above what is on it: a break there leaves most."""
    resolved = fit.resolved
    hanging = _links(fit)
    on_lines = _things_by_line(fit, hanging)
    all_joints = list(joints_of(bonds))
    for bond in bonds:
        segment = bond.segment
        if segment.kind is Kind.HOOK:
            yield Thing("hook", segment.name)
            return
        own = [(joint, plain) for of, joint, plain in all_joints if of is bond]
        is_line = segment.kind is Kind.LINE
        knot_below = own[-1][0] if is_line and own and segment.bottom else None
        for joint, is_plain in own:
            if joint is not knot_below:
                yield Stretch(joint, lets_past=is_plain)
        if not own:  # a connector without a rating still stops what slides
            yield Stop(segment.name)
        belongs = any(segment is one for one in resolved.chain)
        if belongs:
            yield from on_lines.get(segment.name, ())
        if knot_below is not None:
            yield Stretch(knot_below, lets_past=False)
        if belongs:
            yield from hanging.get(segment.name, ())


def _things_by_line(fit: Fit, hanging: Mapping[str, list[Piece]]) -> dict[str, list[Piece]]:
    """What is on each line, from above down, links that run on it and weights included."""
    resolved = fit.resolved
    placed: dict[str, list[tuple[float, Piece]]] = {}
    for thing in resolved.along:
        pieces = hanging.get(thing.name) or [_thing(fit, thing)]
        placed.setdefault(thing.on, []).extend((thing.at_mm, piece) for piece in pieces)
    for group in resolved.shot:
        if not group.positions_mm:
            continue
        at = group.positions_mm[0]
        words = write_pattern(group.loads)
        where = next((s.name for s in resolved.chain if s.low_mm - 0.5 <= at <= s.high_mm), None)
        if where is not None:
            placed.setdefault(where, []).append((at, Thing("weights", words, "one point")))
    # Python's sort keeps the file's order where two things are at the same place.
    return {line: [p for _, p in sorted(on, key=lambda t: -t[0])] for line, on in placed.items()}


def _thing(fit: Fit, thing: OnLine) -> Piece:
    figures = _figures(fit, thing.name)
    if isinstance(figures, Part) and figures.sort == "stop":
        return Stop(thing.name)
    what = _what(thing.kind, figures)
    held = thing.held
    if what in ("feeder", "bomb") and held not in (*RUNS, "in a loop"):
        held = "fixed"  # a weight that is locked on the line is a fixed rig
    return Thing(what, thing.name, held)


def _figures(fit: Fit, part: str) -> Figures | None:
    item = fit.serving(part).item
    return item.figures if item else None


def _what(kind: Kind, figures: Figures | None) -> str:
    if isinstance(figures, Feeder):
        return "bomb" if figures.shape == "bomb" else "feeder"
    return str(kind)


def _links(fit: Fit) -> dict[str, list[Piece]]:
    """The side branches by the part of the rig itself that they hang from."""
    found: dict[str, list[Piece]] = {}
    for side in fit.resolved.sides:
        root, joints, held = _bearer(fit, side)
        found.setdefault(root, []).append(_link(fit, side, joints, held))
    return found


def _link(fit: Fit, side: Hanging, above: tuple[Joint, ...], held: str) -> Piece:
    bonds = _side_bonds(fit, side)
    own = (replace(joint, in_hooklength=False) for _, joint, _ in joints_of(bonds))
    joints = (*above, *own)
    last = side.chain[-1]
    thing = Thing(_what(last.kind, _figures(fit, last.name)), last.name, held)
    return Link(joints, thing) if joints else thing


def _side_bonds(fit: Fit, side: Hanging) -> tuple[Bond, ...]:
    return chain_of(fit, side.chain)


def _bearer(fit: Fit, side: Hanging) -> tuple[str, tuple[Joint, ...], str]:
    """The part of the rig that bears a side in the end, the joints on the way to it, and how
    that part is held on the line."""
    resolved = fit.resolved
    for thing in resolved.along:
        if thing.name == side.hangs_from:
            figures = _figures(fit, thing.name)
            rated: tuple[Joint, ...] = ()
            if isinstance(figures, Part) and figures.breaks_at_kg is not None:
                rated = (rated_joint(thing.name, figures.breaks_at_kg, False),)
            return thing.name, rated, thing.held if thing.held in RUNS else "fixed"
    bearing = _side_with(resolved, side.hangs_from)
    if bearing is None:
        return side.hangs_from, (), "fixed"
    root, joints, held = _bearer(fit, bearing)
    own = tuple(joint for _, joint, _ in joints_of(_side_bonds(fit, bearing)))
    return root, (*joints, *own), held


def _side_with(resolved: Resolved, part: str) -> Hanging | None:
    return next((s for s in resolved.sides if any(p.name == part for p in s.chain)), None)
