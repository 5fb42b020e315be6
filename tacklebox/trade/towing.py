"""A rig as a chain from rod to hook, and what a fish would be left with for every single break.

In the chain are places that can break, stops, things on the line, and links that hang from it. A
break leaves the fish with all that is below it, save what slides off the broken end, and the angler
with all above, save what slides off his.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.passing import Bore, Meets, Obstacle, Passes, passes
from tacklebox.trade.strength import Joint, chances_first

RUNS = ("runs free", "in line", "slides")  # the line passes through; it can slide along it
STAYS = ("one point", "two points", "in a loop", "on its stem", "fixed")
HELD = (*RUNS, *STAYS)
WEIGHTS = ("feeder", "bomb", "lead")  # that a fish must be able to lose
HEAVY = (*WEIGHTS, "float", "olivette")  # what no fish should tow


@dataclass(frozen=True, slots=True)
class Stretch:
    """A place in the chain that can break: a knot, a connector, a plain length of line.

    ``obstacle`` is what a thing that runs on the line meets there; ``joint`` its strength, None
    where nobody knows it.
    """

    obstacle: Obstacle
    joint: Joint | None
    in_hooklength: bool = False

    @property
    def name(self) -> str:
        """What it is called."""
        return self.joint.name if self.joint else self.obstacle.name

    @property
    def is_line(self) -> bool:
        """Whether it is plain line, part of which is left below a break of it."""
        return self.obstacle.meets is Meets.LINE


@dataclass(frozen=True, slots=True)
class Stop:
    """A stop that does not part the line: a float stop, a connector without a rating."""

    obstacle: Obstacle


@dataclass(frozen=True, slots=True)
class Thing:
    """Something on the line: what it is ("float", "feeder", "bomb", "hook" …), its name, how it
    is held (one of ``HELD``; a hook's is "fixed") and, where it runs, what it runs on.

    ``seated``: a bead or swivel is pushed into it and must pull out before it runs.
    """

    what: str
    name: str
    held: str = "fixed"
    bore: Bore | None = None
    seated: bool = False

    def __post_init__(self) -> None:
        if self.held not in HELD:
            raise AskedWronglyError(
                f'"{self.held}" is no way to hold a thing on the line.',
                where=self.name,
                right="Known: " + ", ".join(HELD) + ".",
            )

    @property
    def runs(self) -> bool:
        """Whether the line runs through it."""
        return self.held in RUNS


@dataclass(frozen=True, slots=True)
class Link:
    """A branch with its own joints and what hangs from it; it is fixed to the chain, unless the
    thing's ``held`` says that it runs on the line.

    ``is_known``: all its strengths are known. ``weak``: it is meant to go before anything else.
    ``behind``: the hooklength's ring runs on the line instead, and leaves the weight behind.
    """

    joints: tuple[Joint, ...]
    thing: Thing
    is_known: bool = True
    weak: bool = False
    behind: bool = False

    @property
    def name(self) -> str:
        """The name of what hangs from it."""
        return self.thing.name

    @property
    def what(self) -> str:
        """What hangs from it."""
        return self.thing.what

    @property
    def runs(self) -> bool:
        """Whether the link runs on the line rather than being fixed to it."""
        return self.thing.runs


Piece = Stretch | Stop | Thing | Link


@dataclass(frozen=True, slots=True)
class Rig:
    """A chain from rod to hook; the hook is its last piece.

    Raises AskedWronglyError for a rig without hook, with a second hook or one that is not
    at the end, that does not begin with line above the hooklength, or that has a joint of the
    hooklength above one that is not.
    """

    chain: tuple[Piece, ...]

    def __post_init__(self) -> None:
        hooks = [n for n, p in enumerate(self.chain) if isinstance(p, Thing) and p.what == "hook"]
        if not hooks:
            raise AskedWronglyError("the rig has no hook.", right="Its last piece is the hook.")
        if len(hooks) > 1:
            raise AskedWronglyError(
                f"the rig has {len(hooks)} hooks.", right="One hook is what this judges."
            )
        if hooks[0] != len(self.chain) - 1:
            raise AskedWronglyError(
                "there is something below the hook.", right="The hook is the last piece."
            )
        first = self.chain[0]
        if not isinstance(first, Stretch) or first.in_hooklength:
            raise AskedWronglyError(
                "the rig does not begin with line above its hooklength.",
                right="The first piece is the rig line or main line.",
            )
        inside = [p.in_hooklength for p in self.chain if isinstance(p, Stretch)]
        if inside != sorted(inside):
            raise AskedWronglyError(
                "a joint above the hooklength stands below one of it.",
                right="The chain runs from rod to hook.",
            )

    @property
    def joints(self) -> tuple[Joint, ...]:
        """The joints that a pull at the hook loads, from rod to hook; no links."""
        return tuple(p.joint for p in self.chain if isinstance(p, Stretch) and p.joint)

    @property
    def is_known(self) -> bool:
        """Whether every strength in it is known, those of its links too."""
        stretches = all(p.joint for p in self.chain if isinstance(p, Stretch))
        return stretches and all(p.is_known for p in self.chain if isinstance(p, Link))


class Left(StrEnum):
    """What a break leaves the fish with, least bad first."""

    STAYS_ON = "the line, for it is still on"
    HOOK = "the hook alone"
    SHORT = "the hook and a short length"
    LINE = "the hook and the line below the break"
    TOWS = "something to tow"


@dataclass(frozen=True, slots=True)
class Break:
    """One break: where, the chance that it is the one that goes, what the angler loses from the rod
    down, what the fish tows (floats, feeders, weights), what it is left with, and a sentence on it."""

    joint: Joint
    chance: float
    lost: tuple[str, ...]
    tows: tuple[str, ...]
    key: Left
    says: str


@dataclass(frozen=True, slots=True)
class Met:
    """What a thing that runs meets on its way off the line and does not pass for certain."""

    obstacle: Obstacle
    passes: Passes


def met_between(rig: Rig, place: int, end: int) -> tuple[Met, ...]:
    """What the thing at ``place`` of the chain meets on its way to the break at ``end``, nearest
    first; empty where it slides off. A bead or another thing that runs is carried along as far as it
    comes itself."""
    step = 1 if end > place else -1
    piece = rig.chain[place]
    bore = bore_of(piece)
    met = []
    broken = rig.chain[end]
    last = end + step if isinstance(broken, Stretch) and broken.is_line else end
    for n in range(place + step, last, step):
        on_way = rig.chain[n]
        if isinstance(on_way, Thing | Link):
            if bore_of(on_way).name == bore.name:  # it is on the same ring
                continue
            held = met_between(rig, n, end) if on_way.runs else ()
            if on_way.runs and not held:
                continue
            worst = Passes.NO if not on_way.runs or _is_stopped(held) else Passes.TRY_IT
            met.append(Met(Obstacle(on_way.name, Meets.SHOT), worst))
            continue
        way = passes(bore, on_way.obstacle)
        if way is not Passes.YES:
            met.append(Met(on_way.obstacle, way))
    return tuple(met)


def _is_stopped(met: Sequence[Met]) -> bool:
    return any(one.passes is Passes.NO for one in met)


def bore_of(piece: Piece) -> Bore:
    """What a thing or link runs on the line by; an eye unless something else was said."""
    thing = piece.thing if isinstance(piece, Link) else piece
    assert isinstance(thing, Thing)
    return thing.bore or Bore(thing.name)


def slides_off(rig: Rig, place: int, broken: int) -> bool:
    """Whether the thing at ``place`` comes off the end of the line at a break, for certain."""
    piece = rig.chain[place]
    if not isinstance(piece, Thing | Link) or not piece.runs:
        return False
    seated = isinstance(piece, Thing) and piece.seated
    return not seated and not met_between(rig, place, broken)


def _break_at(rig: Rig, broken: int, chance: float) -> Break:
    """What follows when the stretch at that place in the chain parts."""
    stretch = rig.chain[broken]
    assert isinstance(stretch, Stretch)
    assert stretch.joint is not None
    below = range(broken + 1, len(rig.chain))
    things = [(n, p) for n, p in enumerate(rig.chain) if isinstance(p, Thing | Link)]
    tows = [
        p.name
        for n, p in things
        if n > broken and p.what in HEAVY and not slides_off(rig, n, broken)
    ]
    lost = [p.name for n, p in things if n > broken or slides_off(rig, n, broken)]
    if tows:
        key, left = Left.TOWS, f"the fish tows the {' and the '.join(tows)}"
    elif not any(isinstance(rig.chain[n], Stretch) for n in below):
        key, left = Left.HOOK, "the fish keeps the hook alone"
    elif stretch.in_hooklength:
        key, left = Left.SHORT, "the fish keeps the hook and the short length below the break"
    else:
        key, left = Left.LINE, "the fish keeps the hook and the line below the break"
    says = f"if the {stretch.name} goes, {left}"
    return Break(stretch.joint, chance, tuple(lost), tuple(tows), key, says)


def breaks_by_fish(rig: Rig) -> tuple[Break, ...]:
    """Every single break under a pull at the hook, weakest joint first.

    The chance of each is that its joint is the weakest of the chain (see
    ``strength.chances_first``). Every strength must be known.

    >>> main, knot = Joint("main line", 2.0, 0.1, False), Joint("swivel knot", 1.7, 0.14, False)
    >>> rig = Rig((Stretch(Obstacle("main line", Meets.LINE), main),
    ...     Thing("feeder", "cage feeder", "runs free"), Thing("bead", "bead", "runs free"),
    ...     Stretch(Obstacle("swivel", Meets.SWIVEL), knot),
    ...     Stretch(Obstacle("loop", Meets.KNOT), Joint("loop", 1.0, 0.08, True), True),
    ...     Thing("hook", "size 18 hook")))
    >>> for parted in breaks_by_fish(rig):
    ...     print(parted.says, parted.lost)
    if the loop goes, the fish keeps the hook alone ('size 18 hook',)
    if the swivel knot goes, the fish keeps the hook and the line below the break \
('cage feeder', 'bead', 'size 18 hook')
    if the main line goes, the fish keeps the hook and the line below the break \
('cage feeder', 'bead', 'size 18 hook')
    """
    places = [n for n, piece in enumerate(rig.chain) if isinstance(piece, Stretch)]
    chances = chances_first(rig.joints)
    breaks = [_break_at(rig, n, chance) for n, chance in zip(places, chances, strict=True)]
    return tuple(sorted(breaks, key=lambda parted: parted.joint.mean_kg))


def breaks_by_snag(rig: Rig, name: str) -> tuple[Break, ...]:
    """Every single break when the angler pulls on that weight, snagged; weakest first.

    Loaded are the joints above the weight, its link, and for a weight that runs on the line
    the first thing below that it comes up against; of one at the line's end, its own knot. What
    hangs below a joint of the link goes with it. A fish on the hook tows as in
    ``breaks_by_fish``; when the link parts it tows nothing. Every strength must be known. Raises
    AskedWronglyError for a name that is on no weight of the rig.
    """
    place = next((n for n, p in enumerate(rig.chain) if name == _name_of(p)), None)
    if place is None:
        heavy = [_name_of(piece) for piece in rig.chain if getattr(piece, "what", "") in HEAVY]
        raise AskedWronglyError(
            f'there is no "{name}" on the rig.', right="On it: " + ", ".join(heavy) + "."
        )
    loaded = list(_loaded_by_snag(rig, place))
    piece = rig.chain[place]
    link = piece.joints if isinstance(piece, Link) else ()
    chain = [p.joint for n in loaded if isinstance(p := rig.chain[n], Stretch) and p.joint]
    chances = chances_first([*chain, *link])
    breaks = [_break_at(rig, n, chance) for n, chance in zip(loaded, chances, strict=False)]
    for joint, chance in zip(link, chances[len(loaded) :], strict=True):
        lost = sorted(p.name for p in rig.chain if isinstance(p, Link) and joint in p.joints)
        given = f"the {' and the '.join(lost)} {'are' if len(lost) > 1 else 'is'} given up"
        says = f"if the {joint.name} goes, {given} and the fish stays on the line"
        breaks.append(Break(joint, chance, tuple(lost), (), Left.STAYS_ON, says))
    return tuple(sorted(breaks, key=lambda parted: parted.joint.mean_kg))


def _loaded_by_snag(rig: Rig, place: int) -> Iterator[int]:
    """The stretches above a snagged weight, and those below it that it pulls on if it runs."""
    yield from (n for n in range(place) if isinstance(rig.chain[n], Stretch))
    piece = rig.chain[place]
    if not isinstance(piece, Thing | Link) or not piece.runs:
        return
    bore = bore_of(piece)
    at_end = isinstance(piece, Link) and piece.behind  # the line itself ends at the weight
    for n in range(place + 1, len(rig.chain)):
        below = rig.chain[n]
        if isinstance(below, Stretch):
            yield n
            if at_end or passes(bore, below.obstacle) is not Passes.YES:
                return


def _name_of(piece: Piece) -> str:
    return piece.name if isinstance(piece, Thing | Link) else ""


def weakest_above(rig: Rig, place: int) -> Joint | None:
    """The weakest joint of the chain above a place in it, by its mean, of those that are known."""
    above = [p.joint for p in rig.chain[:place] if isinstance(p, Stretch) and p.joint]
    return min(above, key=lambda joint: joint.mean_kg, default=None)
