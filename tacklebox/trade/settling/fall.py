"""One fall of one rig, and reading times, places and the tip off it.

Depths are counted from the float's own end, as a rig is measured, so that hook and shot are all the way
down at the lengths they are tied at; only the bed is where it is.
"""

import math
from bisect import bisect_left
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.limits import within
from tacklebox.trade.settling.chain import USUAL_LINKS, Chain, FloatHead, chain_of
from tacklebox.trade.settling.flow import drift_m_s, wind_flow
from tacklebox.trade.settling.rig import FallingRig, Note, hanging_n
from tacklebox.trade.settling.solver import Course, Path, Track, follow, laid
from tacklebox.trade.settling.sweep import Flow, Motion

SLACK_SPREAD = 0.4  # of its length, over which a slack line lies on the water (common practice)
MOST_SECONDS = 600.0
NEARLY = 0.98  # of its depth, where the hook may be left to itself
STILL_M_S, STILL_FOR_S = 3e-4, 3.0  # a float that turns is still for a moment only
LEAST_S = 5.0
FEWEST_LINKS, MOST_LINKS = 4, 400
MOST_KEPT = 16  # falls that are kept for whoever asks again, at half a megabyte each as a rule


class Lie(StrEnum):
    """How the line lies on the water when the fall begins: the two edges of a band."""

    TIGHT = "tight"
    SLACK = "slack"


SPREAD = {Lie.TIGHT: 1.0, Lie.SLACK: SLACK_SPREAD}


@dataclass(frozen=True, slots=True)
class Fall:
    """A rig's fall, tight or slack, step by step.

    ``bed_m``: how deep the bed is under the float's end, None where the rig hangs clear of it.
    ``flow`` is the water's own motion, ``kept_in_place`` what holds the line's upper end.
    """

    rig: FallingRig
    lie: Lie
    chain: Chain
    track: Track
    bed_m: float | None
    notes: tuple[Note, ...] = ()
    flow: Flow | None = None
    kept_in_place: Path | None = None

    @property
    def seconds(self) -> float:
        """How long it was followed."""
        return self.track.times[-1]

    def place(self, seconds: float, point: int = -1) -> tuple[float, float]:
        """Where a point is then, x and z in m; the hook unless said otherwise."""
        step, share = self._step(seconds)
        (x0, x1), (z0, z1) = (
            (kept[step - 1][point], kept[step][point]) for kept in (self.track.x, self.track.z)
        )
        return x0 + share * (x1 - x0), z0 + share * (z1 - z0)

    def all_places(self, seconds: float) -> list[tuple[float, float]]:
        """Where every point is then, from float to hook, x and z in m."""
        step, share = self._step(seconds)
        (x0, x1), (z0, z1) = ((kept[step - 1], kept[step]) for kept in (self.track.x, self.track.z))
        return [
            (xa + share * (xb - xa), za + share * (zb - za))
            for xa, xb, za, zb in zip(x0, x1, z0, z1, strict=True)
        ]

    def _step(self, seconds: float) -> tuple[int, float]:
        times = self.track.times
        if len(times) == 1:
            return 0, 0.0
        step = min(max(1, bisect_left(times, seconds)), len(times) - 1)
        share = (seconds - times[step - 1]) / (times[step] - times[step - 1])
        return step, min(1.0, max(0.0, share))

    def tip_mm(self, seconds: float) -> float:
        """What of the tip shows then, in mm; below 0 where its end is under."""
        return -1000 * self.place(seconds, 0)[1]

    def depth_mm(self, seconds: float, point: int = -1) -> float:
        """How deep a point is below the float's end then, in mm."""
        return 1000 * (self.place(seconds, point)[1] - self.place(seconds, 0)[1])

    def reaches_s(self, depth_mm: float, point: int = -1) -> float | None:
        """When a point first comes to that depth below the float's end, or to the bed; None: never."""
        z, times = self.track.z, self.track.times
        before = 0.0
        for step, row in enumerate(z):
            deep = row[point] - row[0]
            on_bed = self.bed_m is not None and row[point] >= self.bed_m - 1e-6
            if deep * 1000 >= depth_mm:
                if step == 0 or deep <= before:
                    return times[step]
                share = (depth_mm / 1000 - before) / (deep - before)
                return times[step - 1] + share * (times[step] - times[step - 1])
            if on_bed:
                return times[step]
            before = deep
        return None

    def lands_s(self) -> float | None:
        """When the hook is on the bed; None where it is not."""
        if self.bed_m is None:
            return None
        found = (
            time
            for time, row in zip(self.track.times, self.track.z, strict=True)
            if row[-1] >= self.bed_m - 1e-6
        )
        return next(found, None)

    def point_at(self, above_hook_mm: float) -> int:
        """The point nearest to that place on the line."""
        place = (self.rig.length_mm - above_hook_mm) / 1000
        at = self.chain.at_m
        return min(range(len(at)), key=lambda n: abs(at[n] - place))


def rest_m(rig: FallingRig, head: FloatHead) -> float:
    """How high the tip stands in the end, in m: what hangs on the float against what it carries.

    What lies on the bed does not hang. 0 for a load that the float only just carries, or that sinks
    it. Source: Archimedes' principle.

    >>> from tacklebox.trade.balance import Tip
    >>> from tacklebox.trade.settling.chain import float_head
    >>> from tacklebox.trade.settling.rig import FallingFloat, LinePiece, Weights
    >>> from tacklebox.trade.settling.sizes import bait_named, hook_of_size
    >>> from tacklebox.trade.shot import read_pattern
    >>> rig = FallingRig(
    ...     (LinePiece(1800, 0.14),), hook_of_size("20"), bait_named("maggot"),
    ...     (Weights(900, read_pattern("4 No 8 + No 10")), Weights(300, read_pattern("2 No 10"))),
    ...     FallingFloat(2.0, Tip(3, 60), lock_g=1.6))
    >>> round(1000 * rest_m(rig, float_head(rig.float_, rig.water)), 1)
    2.7
    """
    return -head.rests_at_m(hanging_n(rig, rig.lies_mm))


def bed_under_m(rig: FallingRig, head: FloatHead | None) -> float | None:
    """How deep the bed is, in m below where the float's base is with just its tip's end out.

    The depth was plumbed with the float as it settles, its tip out by what it then shows. None for a
    rig that hangs clear.
    """
    if rig.over_mm is None:
        return None
    return rig.depth_mm / 1000 - (rest_m(rig, head) if head else 0.0)


def fall(
    rig: FallingRig,
    lie: Lie = Lie.TIGHT,
    *,
    seconds: float | None = None,
    links: int = USUAL_LINKS,
    near_mm: float = 1.0,
) -> Fall:
    """Let a rig that ``nearest_rig`` has been through fall.

    ``seconds`` None: until the hook is all but down and the tip within ``near_mm`` of where it ends.
    Links from 4 to 400; a time above 0, up to 600 s (``nearest_seconds`` brings others there). A fall
    with more steps than it may have, or that is not at rest after 600 s, ends early and says so in a
    note. The last few falls are kept, and are not to be changed. Raises AskedWronglyError.
    """
    within(links, FEWEST_LINKS, MOST_LINKS, "a line's links", hint=f"{USUAL_LINKS} is usual.")
    if seconds is not None:
        within(seconds, 0, MOST_SECONDS, "a fall", "s", above=True)
    return _followed(rig, lie, seconds, links, near_mm)


@lru_cache(maxsize=MOST_KEPT)
def _followed(rig: FallingRig, lie: Lie, seconds: float | None, links: int, near_mm: float) -> Fall:
    """The fall; one that was asked for lately is found again."""
    chain = chain_of(rig, links)
    bed_m = bed_under_m(rig, chain.head)
    start = laid(chain, SPREAD[lie])
    until = MOST_SECONDS if seconds is None else seconds
    flow = wind_flow(drift_m_s(rig.wind_m_s), rig.depth_mm / 1000) if rig.wind_m_s else None
    course = Course(until, bed_m=bed_m, flow=flow)
    if seconds is None:
        course = Course(
            until, bed_m=bed_m, flow=flow, done=_at_rest(rig, chain, bed_m, near_mm / 1000)
        )
    kept = None
    if chain.head is None or chain.head.held:
        kept = course.paths[0] = _kept_in_place(chain.head, start)
    track = follow(chain, start, course)
    return Fall(rig, lie, chain, track, bed_m, _early(track, seconds), flow, kept)


def forget_falls() -> None:
    """Let the next fall be computed anew, for whoever times it."""
    _followed.cache_clear()


def _kept_in_place(head: FloatHead | None, start: Motion) -> Path:
    """A float that is held rides up and down in its place; without one the line's end stays."""
    place = (start.x[0], start.z[0] if head is None else None)
    return lambda _: place


def _at_rest(
    rig: FallingRig, chain: Chain, bed_m: float | None, near_m: float
) -> Callable[[float, Motion], bool]:
    """Whether hook and tip are as good as where they end, or nothing moves any more.

    At dead depth the tip may end with hook and bait on it or off it; in wind all drifts on.
    """
    down_m = NEARLY * rig.down_mm / 1000
    must_lie = rig.lies_mm is not None and rig.lies_mm > 0
    drifts = rig.wind_m_s != 0
    high, low = math.inf, -math.inf
    if chain.head:
        high = rest_m(rig, chain.head) + near_m
        low = high - 2 * near_m
        if rig.lies_mm == 0:
            low = -chain.head.rests_at_m(hanging_n(rig)) - near_m

    moved_s = 0.0

    def done(time_s: float, now: Motion) -> bool:
        nonlocal moved_s
        if max(map(abs, now.vz)) > STILL_M_S or (not drifts and max(map(abs, now.vx)) > STILL_M_S):
            moved_s = time_s
        if time_s < LEAST_S:
            return False
        if time_s - moved_s > STILL_FOR_S:
            return True
        on_bed = bed_m is not None and now.z[-1] >= bed_m - 1e-6
        deep = not must_lie and now.z[-1] - now.z[0] >= down_m
        return not drifts and (on_bed or deep) and low < -now.z[0] < high

    return done


def _early(track: Track, seconds: float | None) -> tuple[Note, ...]:
    after = f"after {track.times[-1]:.0f} s"
    if track.ended == "steps":
        return (Note("too many steps", f"stopped {after}: the fall takes too many steps"),)
    if track.ended == "lost":
        return (Note("no further", f"stopped {after}: the fall could not be followed further"),)
    if track.ended == "time" and seconds is None:
        return (Note("not at rest", f"stopped {after}: the rig is not at rest by then"),)
    return ()


def nearest_seconds(seconds: float) -> tuple[float, tuple[Note, ...]]:
    """A time to look at the fall for, brought between 1 s and 10 minutes, with words if it was not.

    Raises AskedWronglyError for a time that is no number.

    >>> nearest_seconds(86400.0)[0], nearest_seconds(20.0)
    (600.0, (20.0, ()))
    """
    if math.isnan(seconds):
        raise AskedWronglyError("a time is a number of seconds.", where="time")
    nearest = min(MOST_SECONDS, max(1.0, seconds))
    if nearest == seconds:
        return seconds, ()
    return nearest, (Note("time", f"{seconds:g} s is no time to watch: {nearest:g} s computed"),)
