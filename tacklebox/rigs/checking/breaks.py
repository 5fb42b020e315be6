"""What breaks on a fitted rig under each pull, and what a fish would be left towing."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

from tacklebox.rigs.checking.chain import rig_of
from tacklebox.rigs.checking.joints import bonds_of, joints_by_bond
from tacklebox.rigs.fitting import Fit
from tacklebox.trade.towing import (
    HEAVY,
    WEIGHTS,
    Break,
    Link,
    Rig,
    Thing,
    breaks_by_fish,
    breaks_by_snag,
)


@dataclass(frozen=True)
class Breaks:
    """Every break under one pull, weakest joint first: at the hook, or at a snagged weight."""

    pull: str
    breaks: tuple[Break, ...]


def all_breaks(fit: Fit) -> tuple[Breaks, ...]:
    """What breaks under a pull at the hook, and when each weight on the rig is snagged.

    Empty for a hooklength alone, and while a strength is not known.
    """
    rig = rig_of(fit)
    if rig is None or not rig.is_known:
        return ()
    found = [Breaks("pull at the hook", breaks_by_fish(rig))]
    for name in dict.fromkeys(_weights(rig)):
        found.append(Breaks(f"snag at the {name.removeprefix('1 ')}", breaks_by_snag(rig, name)))
    return tuple(found)


def _weights(rig: Rig) -> Iterator[str]:
    for piece in rig.chain:
        if isinstance(piece, Thing | Link) and piece.what in (*WEIGHTS, "shot", "olivette"):
            yield piece.name


def places_mm(fit: Fit) -> dict[str, float]:
    """How far above the hook each joint is that a pull at the hook loads, by its name; of plain line
    the middle of what is above all that is on it. Endless for line that runs on to the reel."""
    found: dict[str, float] = {}
    on_line = {thing.name: thing.at_mm for thing in fit.resolved.along}
    for joints in joints_by_bond(bonds_of(fit)):
        segment = joints.bond.segment
        low, high = segment.low_mm, segment.high_mm
        if joints.bond.is_on_line:
            low = high = on_line[segment.name]
        elif segment.need.in_place:
            high = inf
        on_it = [thing.at_mm for thing in fit.resolved.along if thing.on == segment.name]
        for joint, at_mm in (
            (joints.top, high),
            (joints.plain, (max([low, *on_it]) + high) / 2),
            (joints.bottom, low),
        ):
            if joint:
                found[joint.name] = at_mm
    return found


def heavy_by_name(fit: Fit) -> dict[str, str]:
    """What each float, feeder, bomb and olivette of a rig is, by the name that breaks call it by."""
    rig = rig_of(fit)
    things = [p for p in rig.chain if isinstance(p, Thing | Link)] if rig else []
    return {thing.name: thing.what for thing in things if thing.what in HEAVY}
