"""How far the wind's tow drags a bait from where it was fed."""

import math
from dataclasses import dataclass, replace

from tacklebox.trade.settling.chain import USUAL_LINKS
from tacklebox.trade.settling.fall import MOST_SECONDS, Lie, fall
from tacklebox.trade.settling.flow import drift_m_s
from tacklebox.trade.settling.outcome import DOWN, Band
from tacklebox.trade.settling.rig import FallingRig, Note, nearest_rig

LEAST_TOW_S, TOW_S = 10.0, 20.0  # how long the tow is followed once the bait is down


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


def tow(rig: FallingRig, *, links: int = USUAL_LINKS) -> Tow:
    """How far the bait is dragged from where it was fed by the time that it is down.

    The rig's own wind and depth are used (its line's length where it hangs clear of the bed); a float
    that is held stays. The pull of the reel line and the wind on the tip are left out.
    """
    near = nearest_rig(rig)
    found = []
    for lie in Lie:
        still = fall(replace(near.rig, wind_m_s=0.0), lie, links=links)
        after = still.reaches_s(DOWN * near.rig.down_mm) or still.seconds
        until = min(MOST_SECONDS, math.ceil(after) + TOW_S)
        moved = fall(near.rig, lie, links=links, seconds=until)
        down = min(moved.reaches_s(DOWN * near.rig.down_mm) or after, until - LEAST_TOW_S)
        hook, top = (moved.place(down, p)[0] - still.place(down, p)[0] for p in (-1, 0))
        gone = moved.place(until)[0] - moved.place(down)[0]
        found.append((down, top, hook, 60 * gone / (until - down)))
    after_s, float_m, dragged_m, per_minute_m = (
        Band(tight, slack) for tight, slack in zip(*found, strict=True)
    )
    surface = drift_m_s(near.rig.wind_m_s)
    return Tow(surface, after_s, float_m, dragged_m, per_minute_m, near.notes)
