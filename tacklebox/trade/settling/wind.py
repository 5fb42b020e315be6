"""Water that the wind moves: downwind at the top, back beneath it; and how far that drags a bait."""

import math
from dataclasses import dataclass, replace

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.settling.chain import USUAL_LINKS
from tacklebox.trade.settling.fall import MOST_SECONDS, Lie, fall
from tacklebox.trade.settling.outcome import DOWN, Band
from tacklebox.trade.settling.rig import FallingRig, Note, nearest_rig
from tacklebox.trade.settling.sweep import Flow
from tacklebox.trade.sources import published

DRIFT_SHARE = 0.0275  # of the wind's speed, at the surface; 2.5 to 3 % is published
WIND_DRIFT = published("American Meteorological Society, Glossary of Meteorology, wind drift")
LEAST_TOW_S, TOW_S = 10.0, 20.0  # how long the tow is followed once the bait is down


def drift_m_s(wind_m_s: float, share: float = DRIFT_SHARE) -> float:
    """How fast the wind moves the water's surface: 0.0275 of its own speed, in m/s.

    Wind in m/s, up to 30 either way; share from 0 to 0.05. Raises AskedWronglyError outside. Source:
    AMS Glossary of Meteorology (2.5 to 3 %); small waters with trees about them move less.

    >>> round(drift_m_s(4.0), 3)
    0.11
    """
    if not -30 <= wind_m_s <= 30 or not 0 <= share <= 0.05:
        raise AskedWronglyError(
            f"a wind of {wind_m_s:g} m/s makes no sense.", where="wind", right="Up to 30 m/s."
        )
    return wind_m_s * share


def tow_m_s(surface_m_s: float, share_of_depth: float) -> float:
    """How fast still water that the wind moves goes at a depth: u₀ (1 − s)(1 − 3 s), in m/s.

    ``share_of_depth`` s is 0 at the top, 1 at the bed; held to that. The sum over the depth is nothing: what
    goes downwind at the top comes back below a third of the depth, fastest at two thirds, at a third of
    the speed of the top. Follows from a viscosity that is the same at all depths (our choice; real waters
    turn over more at mid-depth), no slip at the bed and as much water back as forth.

    >>> tow_m_s(0.09, 0.0), round(tow_m_s(0.09, 2 / 3), 3), tow_m_s(0.09, 1.0)
    (0.09, -0.03, -0.0)
    """
    s = min(1.0, max(0.0, share_of_depth))
    return surface_m_s * (1 - s) * (1 - 3 * s)


def wind_flow(surface_m_s: float, depth_m: float) -> Flow:
    """The water's motion at a depth in m, for water so deep. Raises ValueError unless above 0."""
    if depth_m <= 0:
        raise ValueError("a depth is more than 0")

    def flow(z: float) -> float:
        return tow_m_s(surface_m_s, z / depth_m)

    return flow


@dataclass(frozen=True, slots=True)
class Tow:
    """How far the wind's tow takes the rig, in m downwind (below 0: upwind), tight and slack.

    Loose feed that sinks evenly lands under where it was thrown: the water goes as far back as forth.
    ``dragged_m`` is how much further downwind the bait then is than in water that stands still,
    ``float_m`` the same of the float; ``after_s`` when. ``per_minute_m`` is how fast the bait goes on.
    """

    surface_m_s: float
    after_s: Band
    float_m: Band
    dragged_m: Band
    per_minute_m: Band
    notes: tuple[Note, ...]


def tow(rig: FallingRig, *, share: float = DRIFT_SHARE, links: int = USUAL_LINKS) -> Tow:
    """How far the bait is dragged from where it was fed by the time that it is down.

    The rig's own wind and depth are used (its line's length where it hangs clear of the bed); a float
    that is held stays. The pull of the reel line and the wind on the tip are left out. Raises
    AskedWronglyError for a wind above 30 m/s.
    """
    surface = drift_m_s(rig.wind_m_s, share)
    near = nearest_rig(rig)
    depth_m = near.rig.depth_mm / 1000
    flow = wind_flow(surface, depth_m)
    found = []
    for lie in Lie:
        still = fall(replace(near.rig, wind_m_s=0.0), lie, links=links)
        after = still.reaches_s(DOWN * near.rig.down_mm) or still.seconds
        until = min(MOST_SECONDS, math.ceil(after) + TOW_S)
        moved = fall(near.rig, lie, links=links, seconds=until, flow=flow)
        down = min(moved.reaches_s(DOWN * near.rig.down_mm) or after, until - LEAST_TOW_S)
        hook, top = (moved.place(down, p)[0] - still.place(down, p)[0] for p in (-1, 0))
        gone = moved.place(until)[0] - moved.place(down)[0]
        found.append((down, top, hook, 60 * gone / (until - down)))
    after_s, float_m, dragged_m, per_minute_m = (
        Band(tight, slack) for tight, slack in zip(*found, strict=True)
    )
    return Tow(surface, after_s, float_m, dragged_m, per_minute_m, near.notes)
