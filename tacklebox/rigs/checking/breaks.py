"""What breaks on a fitted rig under each pull, and what a fish would be left towing."""

from collections.abc import Iterator
from dataclasses import dataclass

from tacklebox.rigs.checking.chain import rig_of
from tacklebox.rigs.fitting import Fit
from tacklebox.trade.towing import (
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
        found.append(Breaks(f"snag at the {name}", breaks_by_snag(rig, name)))
    return tuple(found)


def _weights(rig: Rig) -> Iterator[str]:
    for piece in rig.chain:
        if isinstance(piece, Thing | Link) and piece.what in (*WEIGHTS, "shot", "olivette"):
            yield piece.name
