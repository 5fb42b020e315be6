"""A fall to be played in the angler's own time: the rig at each quarter of a second."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.desk.settling import held_bite, patterns_of
from tacklebox.desk.settling_asked import FallingPattern, FallQuestion, seen_of

if TYPE_CHECKING:
    from tacklebox.desk.opening import Desk
    from tacklebox.trade.settling.outcome import Settling

EVERY_S = 0.25
MOST_FRAMES = 480


@dataclass(frozen=True)
class Still:
    """The rig at one moment with a tight line: each point along it, from the float down to the hook,
    as x and depth below the float's end, in mm."""

    tip_mm: float
    x_mm: tuple[int, ...]
    z_mm: tuple[int, ...]


@dataclass(frozen=True)
class SlackAt:
    """Tip and bait at one moment with a slack line, in mm."""

    tip_mm: float
    x_mm: int
    z_mm: int


@dataclass(frozen=True)
class PlayedPattern:
    """One pattern; ``shot`` are the points that bear shot. ``slack`` is empty where only the tight line was
    asked for."""

    what: str
    settled_by_s: int | None
    has_float: bool
    deep_mm: float
    has_bed: bool
    shot: tuple[int, ...]
    stills: tuple[Still, ...]
    slack: tuple[SlackAt, ...]


@dataclass(frozen=True)
class PlayedBite:
    """What the tip of the first pattern shows at a moment while a fish holds the bait."""

    seconds: float
    tip_mm: float


@dataclass(frozen=True)
class Played:
    """Patterns side by side, ``every_s`` seconds from still to still.

    ``marks`` are of the depth, in mm and in words; ``bite`` is the tip's curve, where a bait held from a
    depth on was asked for.
    """

    patterns: tuple[PlayedPattern, ...]
    marks: tuple[tuple[float, str], ...]
    every_s: float
    bite: tuple[PlayedBite, ...]
    unproven: str


def played(
    desk: "Desk",
    asked: FallQuestion,
    beside: Sequence[str] = (),
    *,
    band: bool = True,
    bite_at: str = "",
) -> Played:
    """The fall of each pattern, still by still; without ``band`` the tight line alone, sooner.

    ``bite_at`` is the depth from which on a fish holds the bait. Raises as ``settling.settle``.
    """
    from tacklebox.trade.settling.outcome import UNPROVEN, settle
    from tacklebox.trade.units_first import depth_marks

    seen = seen_of(asked.fishing)
    patterns = patterns_of(desk, asked, beside)
    found = [settle(one.rig, seen_mm=seen, band=band) for one in patterns]
    held = held_bite(found[0], bite_at) if bite_at.strip() else None
    return Played(
        tuple(_played(one, fell) for one, fell in zip(patterns, found, strict=True)),
        depth_marks(max(one.rig.down_mm for one in found)),
        EVERY_S,
        tuple(PlayedBite(at.seconds, round(at.shows_mm, 1)) for at in held.tip) if held else (),
        UNPROVEN,
    )


def _played(pattern: FallingPattern, found: "Settling") -> PlayedPattern:
    from tacklebox.trade.settling.outcome import frames

    until = EVERY_S * MOST_FRAMES
    stills = frames(found.tight, EVERY_S, until)
    slack = frames(found.slack, EVERY_S, until) if found.slack else ()
    rig = found.rig
    return PlayedPattern(
        pattern.what,
        found.settled_by_s,
        rig.float_ is not None,
        rig.down_mm,
        found.tight.bed_m is not None,
        tuple(
            found.tight.point_at(at.above_hook_mm)
            for at in rig.shot
            if at.above_hook_mm < rig.length_mm
        ),
        tuple(Still(round(f.tip_mm, 1), _mm(f.x_m), _mm(f.z_m)) for f in stills),
        tuple(
            SlackAt(round(f.tip_mm, 1), round(1000 * f.x_m[-1]), round(1000 * f.z_m[-1]))
            for f in slack
        ),
    )


def _mm(lengths_m: Sequence[float]) -> tuple[int, ...]:
    return tuple(round(1000 * one) for one in lengths_m)
