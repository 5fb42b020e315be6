"""How a hooklength swings down behind a feeder that lies on the bed, and when the bait is down after it.

The feeder sinks straight down at its own speed and stops; the hooklength trails above it, and falls.
Tight, the cast laid it out straight behind the feeder; slack, it lay over 0.4 of its length.
"""

from dataclasses import dataclass

from tacklebox.trade.limits import within
from tacklebox.trade.settling.chain import chain_of
from tacklebox.trade.settling.drag import water_at
from tacklebox.trade.settling.fall import SPREAD, Fall, Lie
from tacklebox.trade.settling.outcome import Band
from tacklebox.trade.settling.rig import FallingRig, LinePiece, Note, nearest_rig
from tacklebox.trade.settling.sizes import FallingBait, FallingHook
from tacklebox.trade.settling.solver import Course, follow, laid
from tacklebox.trade.water import USUAL_C

FEEDER_SINKS_M_S = 1.0  # from memory; he counts it down
TAIL_LINKS = 20
MOST_S = 300.0


@dataclass(frozen=True, slots=True)
class FeederTail:
    """A hooklength behind a feeder: its line, hook and bait, the depth, how fast the feeder sinks.

    Lengths in mm: the hooklength 20 to 5000, the depth 200 to 20 000. The feeder sinks at 0.1 to 5
    m/s. Raises AskedWronglyError outside.
    """

    length_mm: float
    diameter_mm: float
    hook: FallingHook
    bait: FallingBait | None
    depth_mm: float
    sinks_m_s: float = FEEDER_SINKS_M_S
    temperature_c: float = USUAL_C

    def __post_init__(self) -> None:
        LinePiece(self.length_mm, self.diameter_mm)
        within(self.length_mm, 20, 5000, "a hooklength", "mm", where="hooklength")
        within(self.depth_mm, 200, 20_000, "a depth", "mm", where="depth")
        hint = "Count it down: most take about a second for each metre."
        within(self.sinks_m_s, 0.1, 5, "a feeder's sinking", "m/s", where="feeder", hint=hint)
        water_at(self.temperature_c)


@dataclass(frozen=True, slots=True)
class Swing:
    """When the feeder is down, in s, and how long after it the bait is; both falls, to be drawn.

    ``bait_m``: how far from the feeder the bait ends. None: it was not down after five minutes.
    """

    feeder_s: float
    bait_after_s: Band
    bait_m: Band
    tight: Fall
    slack: Fall
    notes: tuple[Note, ...]


def swing(tail: FeederTail, links: int = TAIL_LINKS) -> Swing:
    """How the hooklength swings down behind the feeder, and when the bait arrives after it.

    A bait that floats never comes down: it counts as one without weight, under its hook.

    >>> from tacklebox.trade.settling.sizes import bait_named, hook_of_size
    >>> found = swing(FeederTail(500, 0.12, hook_of_size("18"), bait_named("maggot"), 3000))
    >>> found.feeder_s, found.bait_after_s.high < 15
    (3.0, True)
    """
    rig = FallingRig(
        (LinePiece(tail.length_mm, tail.diameter_mm),),
        tail.hook,
        tail.bait,
        temperature_c=tail.temperature_c,
    )
    near = nearest_rig(rig)
    chain = chain_of(near.rig, links)
    bed = tail.depth_mm / 1000
    down_s = bed / tail.sinks_m_s

    def path(seconds: float) -> tuple[float, float]:
        return 0.0, min(bed, tail.sinks_m_s * seconds)

    falls = {}
    for lie in Lie:
        start = laid(chain, SPREAD[lie])
        course = Course(
            down_s + MOST_S,
            {0: path},
            bed_m=bed,
            done=lambda _, now: now.z[-1] >= bed - 1e-6,
        )
        falls[lie] = Fall(near.rig, lie, chain, follow(chain, start, course), bed)
    after = Band(*(_after(falls[lie].lands_s(), down_s) for lie in Lie))
    ends = Band(*(abs(falls[lie].place(falls[lie].seconds)[0]) for lie in Lie))
    notes = tuple(note for note in near.notes if note.key == "bait floats")
    return Swing(down_s, after, ends, falls[Lie.TIGHT], falls[Lie.SLACK], notes)


def _after(bait_s: float | None, feeder_s: float) -> float | None:
    return None if bait_s is None else bait_s - feeder_s
