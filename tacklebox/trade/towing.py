"""What a fish would be left towing for every single break above the hook.

A rig is a chain from rod to hook: places that can break, stops, things on the line, and
links that hang from it. A break leaves the fish with all that is below it, save what can
slide off the broken end.
"""

import math
from dataclasses import dataclass, replace

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Fact, Judgement, Outcome
from tacklebox.trade.quantities import write_strain_kg
from tacklebox.trade.sources import INTERFERENCE, published
from tacklebox.trade.strength import (
    LOOK_FROM,
    SOUND_FROM,
    Joint,
    chance_hooklength_first,
    chances_first,
    write_chance,
)

RUNS = ("runs free", "in line")  # the line passes through; it can slide along it
STAYS = ("one point", "two points", "in a loop", "fixed")
HELD = (*RUNS, *STAYS)
HEAVY = ("float", "feeder", "bomb", "olivette")  # what no fish should tow
LOOP_DEBATE = published("fishingmagic.com, articles for and against loop rigs")

_WHY = {
    "runs free": "runs free and slides off the broken end",
    "in line": "has the line running through it and slides off the broken end",
    "one point": "is locked on the line between its shot and stays on it",
    "two points": "is held top and bottom and stays on the line",
    "in a loop": "is caught in its loop and stays on the line",
    "fixed": "is fixed and stays on the line",
}


@dataclass(frozen=True, slots=True)
class Stretch:
    """A place in the chain that can break: a knot, a connector, a plain length of line.

    ``lets_past`` says whether a thing that runs on the line slides over it: plain line does,
    a knot or swivel does not.
    """

    joint: Joint
    lets_past: bool = True


@dataclass(frozen=True, slots=True)
class Stop:
    """A stop that does not part the line: a bead, a float stop, a gripped shot."""

    name: str


@dataclass(frozen=True, slots=True)
class Thing:
    """Something on the line: what it is ("float", "feeder", "bomb", "hook" …), its name,
    and how it is held (one of ``HELD``; a hook's is "fixed")."""

    what: str
    name: str
    held: str = "fixed"

    def __post_init__(self) -> None:
        if self.held not in HELD:
            raise AskedWronglyError(
                f'"{self.held}" is no way to hold a thing on the line.',
                where=self.name,
                right="Known: " + ", ".join(HELD) + ".",
            )


@dataclass(frozen=True, slots=True)
class Link:
    """A side branch with its own joints and what hangs from it; it is fixed to the chain,
    unless the thing's ``held`` says that the link runs on the line."""

    joints: tuple[Joint, ...]
    thing: Thing

    def __post_init__(self) -> None:
        if not self.joints:
            raise AskedWronglyError(
                "a link needs a strength.",
                where=self.thing.name,
                right="Give its line or its knots.",
            )

    @property
    def weakest(self) -> Joint:
        """The joint of the link with the least mean strength."""
        return min(self.joints, key=lambda joint: joint.mean_kg)

    @property
    def runs(self) -> bool:
        """Whether the link runs on the line rather than being fixed to it."""
        return self.thing.held in RUNS


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
        inside = [joint.in_hooklength for joint in self.joints]
        first = self.chain[0]
        if not isinstance(first, Stretch) or first.joint.in_hooklength:
            raise AskedWronglyError(
                "the rig does not begin with line above its hooklength.",
                right="The first piece is the rig line or main line.",
            )
        if inside != sorted(inside):
            raise AskedWronglyError(
                "a joint above the hooklength stands below one of it.",
                right="The chain runs from rod to hook.",
            )

    @property
    def joints(self) -> tuple[Joint, ...]:
        """The joints that a pull at the hook loads, from rod to hook; no links."""
        return tuple(piece.joint for piece in self.chain if isinstance(piece, Stretch))


@dataclass(frozen=True, slots=True)
class Break:
    """One break: where, the chance that it is the one that goes, what the angler loses,
    what the fish tows (floats, feeders, weights) and the sentence with the reason."""

    joint: Joint
    chance: float
    lost: tuple[str, ...]
    tows: tuple[str, ...]
    says: str


def _blocker(rig: Rig, broken: int, thing: int) -> str:
    """The lowest piece between a break and a thing that the thing cannot slide past."""
    for piece in reversed(rig.chain[broken + 1 : thing]):
        if isinstance(piece, Stop):
            return piece.name
        if isinstance(piece, Stretch) and not piece.lets_past:
            return piece.joint.name
        if isinstance(piece, Link) and not piece.runs:
            return f"link of the {piece.thing.name}"
        if isinstance(piece, Thing) and piece.held in STAYS:
            return piece.name
    return ""


def _fate(rig: Rig, broken: int, place: int) -> tuple[str, bool, str]:
    """Of the heavy thing at ``place`` below a break: its name, whether it is towed, why."""
    piece = rig.chain[place]
    if isinstance(piece, Link) and not piece.runs:
        name, weakest = piece.thing.name, piece.weakest
        line = min(_above(rig, place), key=lambda joint: joint.mean_kg)
        weaker = weakest.mean_kg < line.mean_kg
        return (
            name,
            True,
            f"the {name} hangs from its link; the link at {write_strain_kg(weakest.mean_kg)} is "
            f"{'weaker' if weaker else 'no weaker'} than the {line.name} at "
            f"{write_strain_kg(line.mean_kg)}, so snagged it is "
            f"{'given up without the fish' if weaker else 'not given up and tethers the fish'}",
        )
    if isinstance(piece, Link):
        piece = piece.thing
    assert isinstance(piece, Thing)
    if piece.held in STAYS:
        return piece.name, True, f"the {piece.name} {_WHY[piece.held]}"
    blocker = _blocker(rig, broken, place)
    if blocker:
        return piece.name, True, f"the {piece.name} cannot slide past the {blocker}"
    return piece.name, False, f"the {piece.name} {_WHY[piece.held]}"


def _is_heavy(piece: Piece) -> bool:
    what = piece.thing.what if isinstance(piece, Link) else getattr(piece, "what", "")
    return what in HEAVY


def _break_at(rig: Rig, broken: int, chance: float) -> Break:
    """What follows when the stretch at that place in the chain parts."""
    stretch = rig.chain[broken]
    assert isinstance(stretch, Stretch)
    below = range(broken + 1, len(rig.chain))
    fates = sorted(_fate(rig, broken, place) for place in below if _is_heavy(rig.chain[place]))
    tows = tuple(name for name, towed, _ in fates if towed)
    lost = tuple(
        sorted(
            piece.thing.name if isinstance(piece, Link) else piece.name
            for piece in rig.chain[broken + 1 :]
            if isinstance(piece, Link | Thing)
        )
    )
    if tows:
        left = f"the fish tows the {' and the '.join(tows)}"
    elif not any(isinstance(rig.chain[place], Stretch) for place in below):
        left = "the fish keeps the hook alone"
    else:
        where = "short length" if stretch.joint.in_hooklength else "line"
        left = f"the fish keeps the hook and the {where} below the break"
    why = "".join(f"; {reason}" for _, _, reason in fates)
    return Break(
        stretch.joint, chance, lost, tows, f"if the {stretch.joint.name} goes, {left}{why}"
    )


def breaks_by_fish(rig: Rig) -> tuple[Break, ...]:
    """Every single break under a pull at the hook, weakest joint first.

    The chance of each is that its joint is the weakest of the chain (see
    ``strength.chances_first``).

    >>> main, knot = Joint("main line", 2.0, 0.1, False), Joint("swivel knot", 1.7, 0.14, False)
    >>> rig = Rig((Stretch(main), Thing("feeder", "cage feeder", "runs free"), Stop("bead"),
    ...     Stretch(knot, lets_past=False), Stretch(Joint("hook knot", 1.0, 0.08, True)),
    ...     Thing("hook", "size 18 hook")))
    >>> for parted in breaks_by_fish(rig)[:2]:
    ...     print(parted.says)
    if the hook knot goes, the fish keeps the hook alone
    if the swivel knot goes, the fish keeps the hook and the line below the break
    >>> breaks_by_fish(rig)[2].says.partition("; ")[2]
    'the cage feeder runs free and slides off the broken end'
    """
    places = [n for n, piece in enumerate(rig.chain) if isinstance(piece, Stretch)]
    chances = chances_first(rig.joints)
    told = [_break_at(rig, n, chance) for n, chance in zip(places, chances, strict=True)]
    return tuple(sorted(told, key=lambda parted: parted.joint.mean_kg))


def breaks_by_snag(rig: Rig, name: str) -> tuple[Break, ...]:
    """Every single break when the angler pulls on that weight, snagged; weakest first.

    Loaded are the joints above the weight, its link, and for a weight that runs on the line
    the first knot below that it comes up against. A fish on the hook tows
    as in ``breaks_by_fish``; when the link parts it tows nothing. Raises AskedWronglyError for a
    name that is on no weight of the rig.
    """
    place = next((n for n, p in enumerate(rig.chain) if name == _name_of(p)), None)
    if place is None:
        heavy = [_name_of(piece) for piece in rig.chain if _is_heavy(piece)]
        raise AskedWronglyError(
            f'there is no "{name}" on the rig.', right="On it: " + ", ".join(heavy) + "."
        )
    loaded = [n for n in range(place) if isinstance(rig.chain[n], Stretch)]
    piece = rig.chain[place]
    held = piece.thing.held if isinstance(piece, Link) else getattr(piece, "held", "")
    if held in RUNS:
        for n in range(place + 1, len(rig.chain)):
            below = rig.chain[n]
            if isinstance(below, Stretch):
                loaded.append(n)
                if not below.lets_past:
                    break
    link = piece.joints if isinstance(piece, Link) else ()
    chain = [p.joint for n in loaded if isinstance(p := rig.chain[n], Stretch)]
    chances = chances_first([*chain, *link])
    told = [_break_at(rig, n, chance) for n, chance in zip(loaded, chances, strict=False)]
    for joint, chance in zip(link, chances[len(loaded) :], strict=True):
        says = f"if the {joint.name} goes, the {name} is given up and the fish stays on the line"
        told.append(Break(joint, chance, (name,), (), says))
    return tuple(sorted(told, key=lambda parted: parted.joint.mean_kg))


def _name_of(piece: Piece) -> str:
    if isinstance(piece, Link):
        return piece.thing.name
    return piece.name if isinstance(piece, Thing) else ""


def judge_towing(
    rig: Rig, sound_from: float = SOUND_FROM, look_from: float = LOOK_FROM
) -> Judgement:
    """Whether any break is likely to leave the fish towing a float, a feeder or a weight.

    Sound where no break does, or where the chance that such a break goes first is at most 1 −
    ``sound_from``; look again up to 1 − ``look_from``. A weight on a link must besides hang from
    one that goes before the line above, by the same limits; a weight caught in a loop is look again
    at best, one that is fixed will not do. Source: common practice; loops: fishingmagic.com.
    """
    breaks = breaks_by_fish(rig)
    towing = [parted for parted in breaks if parted.tows]
    facts = tuple(
        Fact(f"chance that the {p.joint.name} goes first", write_chance(p.chance), "", INTERFERENCE)
        for p in breaks
    )
    about, formula = "left towing", "chance that a break which leaves the fish towing goes first"
    if not towing:
        says = "no break leaves the fish towing more than line"
        sliding = [p.says for p in breaks if "slides off" in p.says]
        says += f": {sliding[0]}" if sliding else ""
        return Judgement(about, Outcome.SOUND, says, formula, facts)
    spared = max(0.0, 1 - math.fsum(parted.chance for parted in towing))
    given_up = min(_given_up(rig, place) for place in range(len(rig.chain)))
    outcome = _by_chance(min(spared, given_up), sound_from, look_from)
    stays = {
        p.held for p in rig.chain if isinstance(p, Thing) and p.what in HEAVY and p.what != "float"
    }
    if "fixed" in stays:
        outcome = Outcome.WILL_NOT_DO
    elif "in a loop" in stays and outcome is Outcome.SOUND:
        outcome = Outcome.LOOK_AGAIN
        facts += (Fact("weights in a loop", "argued to tether", "", LOOP_DEBATE),)
    worst = max(towing, key=lambda parted: parted.chance)
    says = f"{worst.says}; that no such break goes first has a chance of {write_chance(spared)}"
    if given_up < 1:
        says += f", that the link goes before the line above it {write_chance(given_up)}"
    return Judgement(about, outcome, says, formula, facts)


def _above(rig: Rig, place: int) -> list[Joint]:
    """The joints of the chain above a place in it."""
    return [piece.joint for piece in rig.chain[:place] if isinstance(piece, Stretch)]


def _given_up(rig: Rig, place: int) -> float:
    """Chance that a snagged weight's link goes before all line above it; 1 without a link
    that is fixed."""
    link = rig.chain[place]
    if not (isinstance(link, Link) and _is_heavy(link)) or link.runs:
        return 1.0
    first = [replace(joint, in_hooklength=True) for joint in link.joints]
    above = [replace(joint, in_hooklength=False) for joint in _above(rig, place)]
    return chance_hooklength_first([*first, *above])


def _by_chance(held: float, sound_from: float, look_from: float) -> Outcome:
    if held >= sound_from:
        return Outcome.SOUND
    return Outcome.LOOK_AGAIN if held >= look_from else Outcome.WILL_NOT_DO
