"""Still water that the wind moves: downwind at the top, back beneath it."""

from tacklebox.trade.limits import within
from tacklebox.trade.settling.sweep import Flow
from tacklebox.trade.sources import published

DRIFT_SHARE = 0.0275  # of the wind's speed, at the surface; 2.5 to 3 % is published
WIND_DRIFT = published("American Meteorological Society, Glossary of Meteorology, wind drift")


def drift_m_s(wind_m_s: float, share: float = DRIFT_SHARE) -> float:
    """How fast the wind moves the water's surface: 0.0275 of its own speed, in m/s.

    Wind in m/s, up to 30 either way; share from 0 to 0.05. Raises AskedWronglyError outside. Source:
    AMS Glossary of Meteorology (2.5 to 3 %); small waters with trees about them move less.

    >>> round(drift_m_s(4.0), 3)
    0.11
    """
    within(wind_m_s, -30, 30, "a wind", "m/s", where="wind")
    within(share, 0, 0.05, "a share of the wind", where="wind")
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
