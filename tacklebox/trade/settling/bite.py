"""A fish that takes the bait on the drop and holds it still: what the tip then shows.

The hook stays where it was taken; all else falls on. The tip differs from what it should show by what
the fish carries, or by what it keeps from falling. A fish that swims off with the bait shows sooner, and
more: that is not computed.
"""

import math
from bisect import bisect_left
from dataclasses import dataclass
from itertools import pairwise

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.limits import within
from tacklebox.trade.settling.fall import Fall
from tacklebox.trade.settling.outcome import LAYER_MM, SEEN_MM, Band, Settling
from tacklebox.trade.settling.solver import Course, Path, follow
from tacklebox.trade.settling.sweep import Place

HOLDS_S = 10.0  # how long a fish is given to hold a bait (our choice)
EVERY_S = 0.25


@dataclass(frozen=True, slots=True)
class TipAt:
    """The tip so many seconds after the cast: as it should be, and as it is; in mm."""

    seconds: float
    should_mm: float
    shows_mm: float


@dataclass(frozen=True, slots=True)
class Bite:
    """A bait held from a depth on, with a tight or a slack line.

    ``seen_after_s``: how long after the take the tip is first wrong by what can be seen; None: not
    while the fish holds it. ``most_off_mm``: the furthest the tip then stands too high (or, below 0,
    too low) up to there.
    """

    depth_mm: float
    taken_s: float
    seen_after_s: float | None
    most_off_mm: float
    tip: tuple[TipAt, ...]


def bite(
    one: Fall, depth_mm: float, *, holds_s: float = HOLDS_S, seen_mm: float = SEEN_MM
) -> Bite | None:
    """The bait of a fall held still from a depth on; None if it never comes so deep.

    Depth in mm below the float's end, 0 or more; the fish holds for up to 120 s. The take is at the
    step of the fall nearest to that depth. Raises AskedWronglyError outside, and for a rig
    without float, whose tip nobody sees.
    """
    if one.rig.float_ is None:
        raise AskedWronglyError("there is no float to show a bite.", where="float")
    within(depth_mm, 0, 20_000, "a depth", "mm", where="depth")
    within(holds_s, 0.5, 120, "a hold of the bait", "s")
    taken = one.reaches_s(depth_mm)
    if taken is None:
        return None
    times = one.track.times
    step = min(bisect_left(times, taken), len(times) - 1)
    if step and taken - times[step - 1] < times[step] - taken:
        step -= 1
    held = _held_from(one, step, holds_s)
    start = times[step]
    count = math.floor(holds_s / EVERY_S)
    tip = tuple(
        TipAt(
            start + n * EVERY_S, one.tip_mm(start + n * EVERY_S), held.tip_mm(start + n * EVERY_S)
        )
        for n in range(count + 1)
    )
    off = [at.shows_mm - at.should_mm for at in tip]
    first = next((n for n, amount in enumerate(off) if abs(amount) >= seen_mm), None)
    return Bite(
        depth_mm=one.depth_mm(start),
        taken_s=start,
        seen_after_s=None if first is None else _crossed(off, first, seen_mm) * EVERY_S,
        most_off_mm=max(off[: len(off) if first is None else first + 1], key=abs),
        tip=tip,
    )


def _held_from(one: Fall, step: int, holds_s: float) -> Fall:
    """The rest of a fall with the hook kept where it is at that step."""
    now = one.track.motion(step)
    place: Place = (now.x[-1], now.z[-1])
    now.vx[-1] = now.vz[-1] = 0.0
    start = one.track.times[step]
    paths: dict[int, Path] = {one.chain.points - 1: lambda _: place}
    if one.kept_in_place is not None:
        paths[0] = one.kept_in_place
    course = Course(start + holds_s, paths, bed_m=one.bed_m, flow=one.flow, start_s=start)
    track = follow(one.chain, now, course)
    return Fall(one.rig, one.lie, one.chain, track, one.bed_m)


def _crossed(off: list[float], first: int, seen: float) -> float:
    """How many parts of time until the difference can be seen."""
    if first == 0:
        return 0.0
    before, after = abs(off[first - 1]), abs(off[first])
    return first - (after - seen) / (after - before) if after > before else float(first)


@dataclass(frozen=True, slots=True)
class LayerBite:
    """Bites in a layer of water: after how long they are seen, None where they stay unseen."""

    from_mm: float
    to_mm: float
    seen_after_s: Band

    @property
    def unseen(self) -> bool:
        """Whether a fish that holds the bait there may go unseen, tight or slack."""
        return self.seen_after_s.high is None


def bites_by_layer(
    answer: Settling, *, layer_mm: float = LAYER_MM, holds_s: float = HOLDS_S
) -> tuple[LayerBite, ...]:
    """In which layers a fish that holds the bait still shows at the float, and after how long.

    The bait is taken in the middle of each layer of the fall, or, in the last, of what is left of it. Layers
    from 20 mm. Raises AskedWronglyError as ``bite`` does.
    """
    within(layer_mm, 20, 5000, "a layer", "mm")
    down = answer.rig.down_mm
    count = max(1, round(down / layer_mm))
    edges = [down * n / count for n in range(count + 1)]
    found = []
    for top, bottom in pairwise(edges):
        middle = (top + bottom) / 2
        seen = [
            _seen_after(one, middle, holds_s, answer.seen_mm) if one else None
            for one in (answer.tight, answer.slack)
        ]
        found.append(LayerBite(top, bottom, Band(*seen)))
    return tuple(found)


def _seen_after(one: Fall, depth_mm: float, holds_s: float, seen: float) -> float | None:
    found = bite(one, depth_mm, holds_s=holds_s, seen_mm=seen)
    return found.seen_after_s if found else None
