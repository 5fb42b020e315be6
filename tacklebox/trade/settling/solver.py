"""How a chain falls in time: second-order backward differences with steps as long as they may be.

A step is right once Newton's method has met every equation at its end, links that are tight pull (or
hang slack), and no point is below the bed. How far the place it found lies from where the points
were heading says how long the next may be.
"""

from array import array
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from math import cbrt, hypot

from tacklebox.trade.settling.chain import Chain
from tacklebox.trade.settling.sweep import HOLDS, Flow, Held, Motion, Past, Place, newton

USUAL_ACCURACY_M = 1e-3
LONGEST_STEP_S = 0.25
LATE_STEP_SHARE = 1 / 40  # of the time gone by, where that is longer: late, all creeps
FIRST_STEP_S = 1e-3
SHORTEST_STEP_S = 1e-8
MOST_STEPS = 6000
MOST_PASSES = 10  # in a row without a link or point changing its part
MOST_CHANGES = 20  # of parts in one step, and as many as there are links
ROUGH_M = 2e-4  # a pass that moves nothing further shows which links are tight
CLOSE_M = 5e-6  # a pass that moves nothing further ends the step …
LENGTHS_KEPT = 1e-10  # … if no link is longer or shorter by a larger share
SLACKENS = 1e-7  # a link that would push with this share of all weight hangs slack
LIFTS = 1e-6  # a point that is pulled up with this share of all weight leaves the bed

Done = Callable[[float, Motion], bool]
Path = Callable[[float], Place]


@dataclass(slots=True)
class Track:
    """Every step of a fall: times in s, places in m, speeds in m/s, one value for each point.

    ``ended``: "time", "done", "steps" (there were too many) or "lost" (no step could be found);
    ``pulls``: each link's tension at the end, in N.
    """

    times: list[float] = field(default_factory=list)
    x: list["array[float]"] = field(default_factory=list)
    z: list["array[float]"] = field(default_factory=list)
    vx: list["array[float]"] = field(default_factory=list)
    vz: list["array[float]"] = field(default_factory=list)
    pulls: list[float] = field(default_factory=list)
    ended: str = "time"
    passes: int = 0

    def add(self, time_s: float, now: Motion) -> None:
        """One more step."""
        self.times.append(time_s)
        for kept, values in zip(
            (self.x, self.z, self.vx, self.vz), (now.x, now.z, now.vx, now.vz), strict=True
        ):
            kept.append(array("d", values))

    def motion(self, step: int) -> Motion:
        """All points at that step, tensions unknown."""
        x, z, vx, vz = self.x[step], self.z[step], self.vx[step], self.vz[step]
        return Motion(list(x), list(z), list(vx), list(vz), [0.0] * (len(x) - 1))


@dataclass(frozen=True, slots=True)
class Course:
    """What a fall runs under: for how long, how exact, which points are held and what is below.

    ``paths`` gives, for points that are held or moved, where they are at a time. ``longest_s`` None: a
    quarter of a second, late more; ``steady_s`` sets every step alike, for checks.
    """

    until_s: float
    paths: dict[int, Path] = field(default_factory=dict)
    bed_m: float | None = None
    flow: Flow | None = None
    done: Done | None = None
    accuracy_m: float = USUAL_ACCURACY_M
    longest_s: float | None = None
    steady_s: float | None = None
    start_s: float = 0.0


def laid(chain: Chain, spread: float = 1.0) -> Motion:
    """The chain laid level on the water from the float on, its points spread over that share of it.

    ``spread`` 1 is a tight line. All lies level with the float's base, which stands as high as the
    lock shot leaves it.

    >>> from tacklebox.trade.settling.chain import Chain
    >>> laid(Chain((0.0, 0.5, 1.0), (0.5, 0.5), (), (), ()), 0.4).x
    [0.0, 0.2, 0.4]
    """
    top = chain.head.rests_at_m() if chain.head else 0.0
    n = chain.points
    return Motion(
        [spread * at for at in chain.at_m], [top] * n, [0.0] * n, [0.0] * n, [0.0] * (n - 1)
    )


def follow(chain: Chain, start: Motion, course: Course) -> Track:
    """Let the chain fall from ``start`` under ``course``."""
    return _Run(chain, start, course).track()


class _Run:
    """One fall under way."""

    def __init__(self, chain: Chain, start: Motion, course: Course) -> None:
        self.chain, self.course = chain, course
        self.now, self.time = start.copy(), course.start_s
        self.before: Motion | None = None
        self.weight_n = sum(map(abs, chain.weight_n))
        self.last_s = 0.0
        self.first_order = 2
        self.tight = [
            hypot(start.x[k + 1] - start.x[k], start.z[k + 1] - start.z[k]) > long - 1e-9
            for k, long in enumerate(chain.lengths_m)
        ]
        self.landed: dict[int, Place] = {}
        self.kept = Track()
        self.kept.add(self.time, self.now)

    def track(self) -> Track:
        """Run to the end."""
        course, kept = self.course, self.kept
        step = course.steady_s or FIRST_STEP_S
        while self.time < course.until_s - 1e-9:
            if len(kept.times) > MOST_STEPS:
                kept.ended = "steps"
                break
            if course.done and course.done(self.time, self.now):
                kept.ended = "done"
                break
            longest = course.longest_s or max(LONGEST_STEP_S, LATE_STEP_SHARE * self.time)
            step = min(step, longest, course.until_s - self.time)
            went = self._go(step)
            if went is None:
                kept.ended = "lost"
                break
            step = went if course.steady_s is None else course.steady_s
        lengths = self.chain.lengths_m
        kept.pulls = [pull * long for pull, long in zip(self.now.pull, lengths, strict=True)]
        return kept

    def _go(self, step: float) -> float | None:
        """One step, shortened until it can be made; how long the next may be."""
        course = self.course
        while step > SHORTEST_STEP_S:
            past, heads = self._past(step), self._ahead(step)
            found = self._solve(step, past, heads)
            if found is None:
                step /= 2
                continue
            now, tight, landed = found
            off = max(_furthest(now.x, heads.x), _furthest(now.z, heads.z), 1e-12)
            share = cbrt(course.accuracy_m / off)
            if course.steady_s is None and off > 1.5 * course.accuracy_m and step > 2e-4:
                step *= max(0.3, 0.8 * share)
                continue
            self._accept(step, now, tight, landed)
            return step * min(2.0, 0.9 * share)
        return None

    def _past(self, step: float) -> Past:
        """What the step starts from: first order at the start and after a jolt, else second."""
        now, before = self.now, self.before
        if before is None or self.first_order > 0:
            return Past(step, now.x, now.z, now.vx, now.vz)
        ratio = step / self.last_s
        lead = (1 + 2 * ratio) / (1 + ratio)
        a, b = (1 + ratio) / lead, -ratio * ratio / (1 + ratio) / lead

        def blend(one: list[float], other: list[float]) -> list[float]:
            return [a * p + b * q for p, q in zip(one, other, strict=True)]

        return Past(
            step / lead,
            blend(now.x, before.x),
            blend(now.z, before.z),
            blend(now.vx, before.vx),
            blend(now.vz, before.vz),
        )

    def _ahead(self, step: float) -> Motion:
        """Where all would be if it went on as it goes."""
        now, before = self.now, self.before
        ratio = step / self.last_s if before else 0.0
        old = before or now
        vx = [v + ratio * (v - u) for v, u in zip(now.vx, old.vx, strict=True)]
        vz = [v + ratio * (v - u) for v, u in zip(now.vz, old.vz, strict=True)]
        half = step / 2
        return Motion(
            [p + half * (v + w) for p, v, w in zip(now.x, now.vx, vx, strict=True)],
            [p + half * (v + w) for p, v, w in zip(now.z, now.vz, vz, strict=True)],
            vx,
            vz,
            now.pull[:],
        )

    def _solve(
        self, step: float, past: Past, heads: Motion
    ) -> tuple[Motion, list[bool], dict[int, Place]] | None:
        """The end of the step with what is tight and what lies; None if it is not found."""
        now, tight, landed = heads.copy(), self.tight[:], dict(self.landed)
        gamma = past.gamma
        now.x = [p + gamma * v for p, v in zip(past.x, now.vx, strict=True)]
        now.z = [p + gamma * v for p, v in zip(past.z, now.vz, strict=True)]
        fixed = {n: path(self.time + step) for n, path in self.course.paths.items()}
        passes, changes = 0, len(tight) + MOST_CHANGES
        while passes < MOST_PASSES and changes:
            passes += 1
            held = {**landed, **fixed}
            moved = newton(self.chain, now, past, tight, held, self.course.flow)
            self.kept.passes += 1
            if not moved < 10:
                return None
            if moved < ROUGH_M:
                changed = self._links(now, gamma, tight, held)
                changed = self._bed(now, past, landed, fixed) or changed
                if changed:
                    passes, changes = 0, changes - 1
                elif moved < CLOSE_M and self._kept_lengths(now, tight):
                    return now, tight, landed
        return None

    def _links(self, now: Motion, gamma: float, tight: list[bool], held: Held) -> bool:
        """Slacken links that would push, tighten those that are too long; whether any changed."""
        changed = False
        lengths, pull, x, z = self.chain.lengths_m, now.pull, now.x, now.z
        mass, noise = self.chain.mass_kg, 4 * LENGTHS_KEPT / gamma**2
        for k, long in enumerate(lengths):
            if tight[k]:
                unsure = noise * min(mass[k], mass[k + 1]) * long
                if pull[k] * long < -SLACKENS * self.weight_n - unsure:
                    tight[k], pull[k], changed = False, 0.0, True
            elif hypot(x[k + 1] - x[k], z[k + 1] - z[k]) > long * (1 + LENGTHS_KEPT) and not (
                _still(held.get(k)) and _still(held.get(k + 1))
            ):
                tight[k] = changed = True
        return changed

    def _bed(
        self, now: Motion, past: Past, landed: dict[int, Place], fixed: dict[int, Place]
    ) -> bool:
        """Stop points that come to the bed, free those that are lifted; whether any changed."""
        bed = self.course.bed_m
        if bed is None:
            return False
        changed = False
        for n, depth in enumerate(now.z):
            if n in fixed:
                continue
            if n not in landed:
                if depth > bed + 1e-9:
                    landed[n], changed = (None, bed), True
            elif HOLDS * (now.vz[n] - (bed - past.z[n]) / past.gamma) < -LIFTS * self.weight_n:
                del landed[n]
                changed = True
        return changed

    def _kept_lengths(self, now: Motion, tight: list[bool]) -> bool:
        x, z = now.x, now.z
        return all(
            not tight[k]
            or abs(hypot(x[k + 1] - x[k], z[k + 1] - z[k]) - long) <= LENGTHS_KEPT * long
            for k, long in enumerate(self.chain.lengths_m)
        )

    def _accept(
        self, step: float, now: Motion, tight: list[bool], landed: dict[int, Place]
    ) -> None:
        before = self.now
        if tight != self.tight or landed.keys() != self.landed.keys():
            self.first_order = 2
        elif self.first_order:
            self.first_order -= 1
        for n, (at_x, at_z) in landed.items():
            if at_x is None:  # it has just come down, and stays where it is
                landed[n] = (now.x[n], at_z)
                for k in (n - 1, n):
                    if 0 <= k < len(tight) and _still(landed.get(k)) and _still(landed.get(k + 1)):
                        tight[k], now.pull[k] = False, 0.0
            now.vx[n] = now.vz[n] = 0.0
        self.before, self.now, self.last_s = before, now, step
        self.tight, self.landed = tight, landed
        self.time += step
        self.kept.add(self.time, now)


def _still(place: Place | None) -> bool:
    return place is not None and place[0] is not None and place[1] is not None


def _furthest(one: Sequence[float], other: Sequence[float]) -> float:
    return max([abs(p - q) for p, q in zip(one, other, strict=True)])
