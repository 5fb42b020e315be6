"""What an angler asks of a fall: when the bait is down, what it passes, what the tip shows, when to strike.

Each answer is a band from a tight line to a slack one. None of it was ever compared with water.
"""

import math
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from tacklebox.trade.judgement import Fact
from tacklebox.trade.limits import within
from tacklebox.trade.settling.chain import USUAL_LINKS
from tacklebox.trade.settling.drag import LINE_ALONG, LINE_DRAG, SPHERE_DRAG
from tacklebox.trade.settling.fall import Fall, Lie, fall, rest_m
from tacklebox.trade.settling.rig import FallingFloat, FallingRig, Note, hanging_n, nearest_rig
from tacklebox.trade.shot import BY_MARK, Load, write_pattern
from tacklebox.trade.sources import COMMON, MEMORY, PRINTED, Source

HALF, MOST, DOWN = 0.5, 0.9, 0.95  # of the depth: half, nine tenths, as good as all the way
IN_PLACE = 0.95
SEEN_LIMITS_MM = 0.1, 100.0  # what can be a movement that is seen (our choice)
SEEN_MM = 4.0  # one arcminute at 13 m (our choice; replace it by what he can see)
LAYER_MM = 200.0
UNPROVEN = "computed; never compared with a rig in water"


def seen_mm(distance_m: float, arcminutes: float = 1.0) -> float:
    """The least movement of a tip that can be seen at a distance: distance × angle, in mm.

    Distance in m, 0.5 to 100; an eye that reads well parts one minute of arc. Raises
    AskedWronglyError outside. Source: the definition of normal visual acuity.

    >>> round(seen_mm(13.0), 1)
    3.8
    """
    within(distance_m, 0.5, 100, "a distance to the float", "m")
    within(arcminutes, 0.1, 60, "what an eye sees", "arc minutes")
    return 1000 * distance_m * math.tan(math.radians(arcminutes / 60))


@dataclass(frozen=True, slots=True)
class Band:
    """A figure with a tight line and with a slack one; None where it never comes to it."""

    tight: float | None
    slack: float | None

    @property
    def low(self) -> float | None:
        """The lower of the two, None if there is none."""
        return min((v for v in (self.tight, self.slack) if v is not None), default=None)

    @property
    def high(self) -> float | None:
        """The higher of the two; None if either is."""
        if self.tight is None or self.slack is None:
            return None
        return max(self.tight, self.slack)


@dataclass(frozen=True, slots=True)
class InPlace:
    """Shot that has come to its place: which, how far above the hook, when."""

    shot: str
    above_hook_mm: float
    after_s: Band


@dataclass(frozen=True, slots=True)
class Layer:
    """A layer of water that the bait passes: when it comes to it, how long it is in it, how fast.

    ``aside_m`` is how far it is from where the float was cast when it comes to it.
    """

    from_mm: float
    to_mm: float
    enters_s: Band
    takes_s: Band
    speed_cm_s: Band
    aside_m: Band


class TipSays(StrEnum):
    """What the tip can tell of the fall."""

    SETTLES = "settles"  # it goes down by more than can be seen
    NOTHING = "nothing"  # too little goes down the line to be seen at the tip
    NO_FLOAT = "no float"


@dataclass(frozen=True, slots=True)
class Settling:
    """How a rig settles. ``settled_by_s``: by then the tip stands where it should, else strike.

    ``tip_mm`` has one band a second, from 0; ``rest_mm`` is where the tip ends. ``landed``: the bait
    ends on the bed, and ``down_s`` is when it touches. ``notes`` say what was computed otherwise than
    asked. ``slack`` None: only the tight line was asked for.
    """

    rig: FallingRig
    tight: Fall
    slack: Fall | None
    half_s: Band
    most_s: Band
    down_s: Band
    landed: bool
    shot: tuple[InPlace, ...]
    layers: tuple[Layer, ...]
    tip_mm: tuple[Band, ...]
    rest_mm: float | None
    tip_says: TipSays
    settled_by_s: int | None
    seen_mm: float
    notes: tuple[Note, ...]
    facts: tuple[Fact, ...]


def settle(
    rig: FallingRig,
    *,
    seen_mm: float = SEEN_MM,
    layer_mm: float = LAYER_MM,
    links: int = USUAL_LINKS,
    band: bool = True,
) -> Settling:
    """How the rig settles, tight and (with ``band``) slack.

    ``seen_mm`` is the least movement of the tip that he sees, 0.1 to 100; ``layer_mm`` how thick the
    layers are, 20 to 5000. Raises AskedWronglyError outside. A rig that cannot be computed as it
    stands is brought to the nearest that can be. Source: the model of ``sweep`` and ``chain``;
    unproven in water.

    >>> from tacklebox.trade.balance import Tip
    >>> from tacklebox.trade.settling.rig import FallingFloat, LinePiece, Weights
    >>> from tacklebox.trade.settling.sizes import bait_named, hook_of_size
    >>> from tacklebox.trade.shot import read_pattern
    >>> rig = FallingRig(
    ...     (LinePiece(1500, 0.14), LinePiece(300, 0.09)), hook_of_size("20"), bait_named("maggot"),
    ...     (Weights(450, read_pattern("4 No 8 + No 10")), Weights(300, read_pattern("No 10")),
    ...      Weights(150, read_pattern("No 10"))), FallingFloat(2.0, Tip(3, 60), lock_g=1.6))
    >>> answer = settle(rig)
    >>> round(answer.most_s.tight, 1), round(answer.most_s.slack, 1)
    (14.1, 11.4)
    """
    _check(seen_mm, layer_mm)
    near = nearest_rig(rig)
    near_mm = min(1.0, seen_mm / 2)
    tight = fall(near.rig, Lie.TIGHT, links=links, near_mm=near_mm)
    slack = fall(near.rig, Lie.SLACK, links=links, near_mm=near_mm) if band else None
    down = near.rig.down_mm
    half, most, most_of_all = (_reaches(tight, slack, down * part) for part in (HALF, MOST, DOWN))
    lands = Band(tight.lands_s(), slack.lands_s() if slack else None)
    landed = bool(near.rig.lies_mm)  # at dead depth it only just touches, and late
    rest = rests_mm(tight)
    tip = _tip(tight, slack) if near.rig.float_ else ()
    says = _tip_says(tip, rest, seen_mm)
    notes = {note.key: note for one in (tight, slack) if one for note in one.notes}
    settled_by_s = _settled_by(tight, slack, seen_mm)
    return Settling(
        rig=near.rig,
        tight=tight,
        slack=slack,
        half_s=half,
        most_s=most,
        down_s=lands if landed else most_of_all,
        landed=landed,
        shot=_in_place(tight, slack),
        layers=_layers(tight, slack, layer_mm),
        tip_mm=tip,
        rest_mm=rest,
        tip_says=says,
        settled_by_s=settled_by_s if says is TipSays.SETTLES else None,
        seen_mm=seen_mm,
        notes=(
            *near.notes,
            *notes.values(),
            *_streaming(tight, slack),
            *(_under(tight, slack, seen_mm) if settled_by_s is None else ()),
        ),
        facts=facts_of(near.rig),
    )


def _check(seen: float, layer_mm: float) -> None:
    within(seen, *SEEN_LIMITS_MM, "a movement that is seen", "mm")
    within(layer_mm, 20, 5000, "a layer", "mm")


def _reaches(tight: Fall, slack: Fall | None, depth_mm: float, point: int = -1) -> Band:
    return Band(
        tight.reaches_s(depth_mm, point), slack.reaches_s(depth_mm, point) if slack else None
    )


def rests_mm(one: Fall) -> float | None:
    """Where the tip ends, in mm: by what hangs on it, or in moving water as it was last; None
    without float."""
    if one.chain.head is None:
        return None
    return one.tip_mm(one.seconds) if one.flow else 1000 * rest_m(one.rig, one.chain.head)


def _streaming(tight: Fall, slack: Fall | None) -> tuple[Note, ...]:
    """That the water's own motion keeps the bait up, where it does."""
    falls = [one for one in (tight, slack) if one and one.flow]
    if all(one.reaches_s(DOWN * one.rig.down_mm) is not None for one in falls):
        return ()
    deepest = max(one.depth_mm(one.seconds) for one in falls)
    return (Note("streams", f"in this tow the bait comes no deeper than {deepest / 10:.0f} cm"),)


def _under(tight: Fall, slack: Fall | None, seen: float) -> tuple[Note, ...]:
    """That hook and bait keep the tip under, where they came down aside of the float."""
    falls = [one for one in (tight, slack) if one and one.chain.head]
    low = min((one.tip_mm(one.seconds) for one in falls), default=0.0)
    if low > -seen:
        return ()
    says = (
        f"hook and bait draw the tip under and keep it {-low / 10:.0f} cm down: it carries next to "
        "nothing more than the shot. Leave more of it out, or a lighter shot by the hook"
    )
    return (Note("stays under", says),)


def _in_place(tight: Fall, slack: Fall | None) -> tuple[InPlace, ...]:
    found = []
    for at in sorted(tight.rig.shot, key=lambda at: -at.above_hook_mm):
        hangs_mm = tight.rig.length_mm - at.above_hook_mm
        after = _reaches(tight, slack, IN_PLACE * hangs_mm, tight.point_at(at.above_hook_mm))
        found.append(InPlace(write_pattern(at.loads), at.above_hook_mm, after))
    return tuple(found)


def _layers(tight: Fall, slack: Fall | None, layer_mm: float) -> tuple[Layer, ...]:
    down = DOWN * tight.rig.down_mm
    edges = [n * layer_mm for n in range(1 + int(down / layer_mm))]
    if down - edges[-1] > layer_mm / 4 or len(edges) == 1:
        edges.append(down)
    else:
        edges[-1] = down
    found = []
    for top, bottom in pairwise(edges):
        enters, leaves = _reaches(tight, slack, top), _reaches(tight, slack, bottom)
        takes = Band(_between(enters.tight, leaves.tight), _between(enters.slack, leaves.slack))
        speed = Band(
            *((bottom - top) / 10 / took if took else None for took in (takes.tight, takes.slack))
        )
        aside = Band(
            None if enters.tight is None else tight.place(enters.tight)[0],
            None if slack is None or enters.slack is None else slack.place(enters.slack)[0],
        )
        found.append(Layer(top, bottom, enters, takes, speed, aside))
    return tuple(found)


def _between(start: float | None, end: float | None) -> float | None:
    return None if start is None or end is None else end - start


def _tip(tight: Fall, slack: Fall | None) -> tuple[Band, ...]:
    """Second by second for as long as the longer of the two."""
    last = max(one.seconds for one in (tight, slack) if one)
    return tuple(
        Band(tight.tip_mm(float(second)), slack.tip_mm(float(second)) if slack else None)
        for second in range(math.ceil(last) + 1)
    )


def _tip_says(tip: tuple[Band, ...], rest: float | None, seen: float) -> TipSays:
    if rest is None:
        return TipSays.NO_FLOAT
    start = tip[0].tight
    moves = start is not None and start - rest >= seen
    return TipSays.SETTLES if moves else TipSays.NOTHING


def settles_s(one: Fall, low: float, high: float, seen: float) -> float | None:
    """When the tip last comes within what can be seen of where it ends; None: not while followed.

    It ends between ``low`` and ``high``; all in mm.
    """
    tips = [-1000 * row[0] for row in one.track.z]
    off = [tip - min(high, max(low, tip)) for tip in tips]
    if abs(off[-1]) > seen:
        return None
    step = next((n for n in range(len(off) - 1, -1, -1) if abs(off[n]) > seen), None)
    if step is None:
        return 0.0
    share = (abs(off[step]) - seen) / abs(tips[step] - tips[step + 1])
    times = one.track.times
    return times[step] + min(1.0, share) * (times[step + 1] - times[step])


def _settled_by(tight: Fall, slack: Fall | None, seen: float) -> int | None:
    times = []
    for one in (tight, slack):
        high = rests_mm(one) if one else None
        if one and one.chain.head and high is not None:
            low = high
            if one.rig.lies_mm == 0:  # it may end with hook and bait on the float or off it
                low = -1000 * one.chain.head.rests_at_m(hanging_n(one.rig))
            times.append(settles_s(one, min(low, high), high, seen))
    known = [time for time in times if time is not None]
    return math.ceil(max(known)) if known and len(known) == len(times) else None


def facts_of(rig: FallingRig) -> tuple[Fact, ...]:
    """The figures that a fall rests on, each with its ground."""
    facts = [
        Fact("hook", rig.hook.mass_mg, "mg", rig.hook.source),
        *(
            Fact(str(load), load.total_g, "g", _ground(load))
            for at in rig.shot
            for load in at.loads
        ),
        Fact("drag of shot", "", "", SPHERE_DRAG),
        Fact("drag of line across", "", "", LINE_DRAG),
        Fact("drag of line along itself", "", "", LINE_ALONG),
        Fact("how the line lies", "tight or slack", "", COMMON),
        Fact("line that lies still in the water", "", "", MEMORY),
    ]
    if rig.bait:
        facts.insert(0, Fact(rig.bait.name, 100 * rig.bait.sinks_m_s, "cm/s", rig.bait.source))
    if rig.float_:
        facts += [
            Fact("float's capacity", rig.float_.capacity_g, "g", rig.float_.capacity_source),
            Fact("float's own mass", rig.float_.own_mass_g, "g", rig.float_.source),
            Fact("float's body across", rig.float_.body_mm, "mm", MEMORY),
            Fact("float's length under water", rig.float_.under_water_mm, "mm", MEMORY),
            Fact("the float", _kept_by(rig.float_), "", MEMORY),
        ]
    return tuple(facts)


def _kept_by(float_: FallingFloat) -> str:
    return "is held in its place by a tight line" if float_.held else "lies free"


def _ground(load: Load) -> Source:
    """Where the mass of a load is from: his own, the table, or what is printed on an olivette."""
    known = BY_MARK.get(load.mark)
    return load.source or (known.source if known else PRINTED)


@dataclass(frozen=True, slots=True)
class Frame:
    """A fall at one moment, to be drawn: the tip in mm, the points' x and z in m."""

    seconds: float
    tip_mm: float
    x_m: tuple[float, ...]
    z_m: tuple[float, ...]


def frames(one: Fall, every_s: float = 0.5, until_s: float | None = None) -> tuple[Frame, ...]:
    """A fall as still pictures, so many seconds apart: 0.02 s or more.

    Depths are below the float's own end. Raises AskedWronglyError.
    """
    within(every_s, 0.02, 600, "the time between pictures", "s")
    end = min(one.seconds, until_s or one.seconds)
    count = math.floor(end / every_s + 1e-9) + 1
    found = []
    for n in range(count):
        time = n * every_s
        places = one.all_places(time)
        top = places[0][1]
        found.append(
            Frame(time, -1000 * top, tuple(x for x, _ in places), tuple(z - top for _, z in places))
        )
    return tuple(found)
