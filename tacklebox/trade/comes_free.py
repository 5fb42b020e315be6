"""Whether a fish can lose every feeder, bomb and lead after a break above it.

Judged by what each weight meets on its way off the broken end, never by how often such a break
goes first.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from tacklebox.trade.breaks_first import SOUND_FROM, write_chance, write_share
from tacklebox.trade.judgement import Check, Fact, Judgement, Outcome
from tacklebox.trade.passing import Meets, Obstacle, Passes, facts_of, knot_width_mm, passes
from tacklebox.trade.pictured import OnTheWay, WayPast
from tacklebox.trade.sources import COMMON, INTERFERENCE, published, weakest
from tacklebox.trade.strength import Joint, chance_hooklength_first
from tacklebox.trade.towing import (
    WEIGHTS,
    Link,
    Met,
    Rig,
    Stretch,
    Thing,
    bore_of,
    met_between,
    weakest_above,
)
from tacklebox.trade.units_first import show_strain

LOOP_DEBATE = published("fishingmagic.com, articles for and against loop rigs")


class Free(StrEnum):
    """Whether a weight comes off, and if not why; best first."""

    FREE = "comes free"
    TRY_IT = "try it by hand"
    STOPPED = "stopped on its way"
    WEAK_LINK = "fixed, on a weak link"
    FIXED = "fixed"


@dataclass(frozen=True, slots=True)
class WayOff:
    """The way of one weight off the broken end, were the line to part furthest above it."""

    place: int
    weight: str
    free: Free
    met: tuple[Met, ...] = ()


def ways_off(rig: Rig) -> tuple[WayOff, ...]:
    """The way off of every feeder, bomb and lead on a rig, from the rod down."""
    return tuple(
        _way_off(rig, place, piece)
        for place, piece in enumerate(rig.chain)
        if isinstance(piece, Thing | Link) and piece.what in WEIGHTS
    )


def _way_off(rig: Rig, place: int, piece: Thing | Link) -> WayOff:
    if not piece.runs:
        weak = isinstance(piece, Link) and piece.weak
        return WayOff(place, piece.name, Free.WEAK_LINK if weak else Free.FIXED)
    met = met_between(rig, place, 0)
    free = Free.FREE
    if any(one.passes is Passes.NO for one in met):
        free = Free.STOPPED
    elif met or (isinstance(piece, Thing) and piece.seated):
        free = Free.TRY_IT
    return WayOff(place, piece.name, free, met)


def judge_comes_free(
    rig: Rig, way: WayOff, *, asked_by: str = "", sound_from: float = SOUND_FROM
) -> Judgement:
    """Whether one weight of a rig comes free.

    Sound where it runs and passes all that is above it. Else doubtful, with the remedy; where
    ``asked_by`` (the recipe, or a venue's rule) asks for weights that run free it fails, save
    for what gives way under pull and was not tried yet. A weak link gives up a snagged weight and
    is doubtful at best; one that is no weaker than the line above it fails. Source: common
    practice; of feeders in a loop, fishingmagic.com.
    """
    piece = rig.chain[way.place]
    assert isinstance(piece, Thing | Link)
    outcome = Outcome.SOUND if way.free is Free.FREE else Outcome.DOUBTFUL
    if asked_by and way.free in (Free.STOPPED, Free.FIXED, Free.WEAK_LINK):
        outcome = Outcome.FAILS
    says, remedy, facts = _words(rig, way, piece, sound_from)
    outlasted = (
        piece.weak and _outlasted(rig, way.place, piece) if isinstance(piece, Link) else None
    )
    if outlasted:
        outcome = Outcome.FAILS
        says, remedy = _too_strong(rig, way, outlasted)
    if asked_by and outcome is Outcome.FAILS:
        says += f", and {asked_by} asks for weights that run free"
    formula = "what its bore meets on its way off the broken end"
    pictured = _way_past(rig, way) if piece.runs else None
    return Judgement(
        "comes free", outcome, says, formula, facts, Check.COMES_FREE, remedy, pictured=pictured
    )


def _way_past(rig: Rig, way: WayOff) -> WayPast:
    """What its bore meets between its place and the rod, what it passes too."""
    bore = bore_of(rig.chain[way.place])
    hinder = {one.obstacle.name: one.passes for one in way.met}
    met = []
    for piece in reversed(rig.chain[: way.place]):
        if isinstance(piece, Thing | Link):
            if piece.name in hinder:
                met.append(OnTheWay(piece.name, Meets.SHOT, None, hinder[piece.name]))
            continue  # it runs, and is carried along
        one = piece.obstacle
        wide = one.line_mm
        if wide is not None and one.meets is Meets.KNOT:
            wide = knot_width_mm(wide)
        met.append(OnTheWay(one.name, one.meets, wide, passes(bore, one)))
    return WayPast(bore.name, bore.width_mm, tuple(met))


_Words = tuple[str, str, tuple[Fact, ...]]


def _words(rig: Rig, way: WayOff, piece: Thing | Link, sound_from: float) -> _Words:
    """What is said of a weight's way off, what would make it better, and the figures."""
    name = f"the {way.weight}"
    facts = _facts(rig, way)
    if way.free is Free.FREE:
        return f"{_capital(name)} comes free{_how(piece)}", "", facts
    if way.free is Free.WEAK_LINK and isinstance(piece, Link):
        return _weak_link(rig, way, piece, sound_from)
    if way.free is Free.FIXED:
        return _fixed(piece, facts)
    bore = bore_of(piece).name
    runs = "it" if bore == way.weight else f"the {bore}"
    if isinstance(piece, Link) and piece.behind:
        runs = f"the {bore} with the hooklength on it"
    stopped = [one.obstacle for one in way.met if one.passes is Passes.NO]
    if way.free is Free.STOPPED:
        by = _listed(stopped)
        says = f"{_capital(name)} does not come free: {runs} does not pass the {by}"
        return says, _past(stopped), facts
    doubtful = [one.obstacle for one in way.met]
    if not doubtful:  # its bead is pushed in
        says = f"{_capital(name)} comes free if the bead pulls out of it"
        return says, "try it by hand, and note it in the recipe", facts
    says = f"{_capital(name)} comes free if {runs} pulls over the {_listed(doubtful)}"
    return says, "try it by hand, and note it in the recipe", facts


def _how(piece: Thing | Link) -> str:
    if isinstance(piece, Link) and piece.behind:
        return ": the hooklength's ring runs off the line and leaves it behind"
    return ""


def _fixed(piece: Thing | Link, facts: tuple[Fact, ...]) -> _Words:
    name = f"The {piece.name}"
    held = piece.thing.held if isinstance(piece, Link) else piece.held
    remedy = "hang it from a link that runs on the main line"
    if held == "in a loop":
        facts = (*facts, Fact("a feeder in a loop", "argued to tether", "", LOOP_DEBATE))
        return f"{name} does not come free for certain: it is caught in its loop", remedy, facts
    if held == "on its stem":
        through = "take one that the line runs right through"
        return (
            f"{name} does not come free: its own stem or elastic carries the pull",
            through,
            facts,
        )
    where = "hangs from a fixed point" if isinstance(piece, Link) else "is fixed on the line"
    return f"{name} does not come free: it {where}", remedy, facts


def _weak_link(rig: Rig, way: WayOff, link: Link, sound_from: float) -> _Words:
    name = f"The {way.weight}"
    chance = _goes_before_the_hooklength(rig, link)
    if chance is None:
        says = f"{name} does not come free, and nobody knows what its weak link holds"
        return says, "hang it from a link that runs on the main line", ()
    lowest = min(link.joints, key=lambda joint: joint.mean_kg)
    figures = tuple(fact for joint in link.joints for fact in joint.facts)
    rests_on = weakest([COMMON, *(fact.source for fact in figures)])
    facts = (
        *figures,
        Fact("chance that the link goes before the hooklength", write_chance(chance), "", rests_on),
        Fact("method", "stress–strength interference, normal strengths", "", INTERFERENCE),
    )
    says = (
        f"{name} does not come free: its weak link at {show_strain(lowest.mean_kg)} gives it up "
        f"when it is snagged, before the hooklength {write_share(chance)}"
    )
    remedy = "hang it from a link that runs on the main line"
    if chance < sound_from:
        remedy = "take a weaker link, or one that runs on the main line"
    return says, remedy, facts


def _goes_before_the_hooklength(rig: Rig, link: Link) -> float | None:
    """Chance that a weak link goes before the hooklength's weakest; None where nobody knows."""
    below = [p for p in rig.chain if isinstance(p, Stretch) and p.in_hooklength]
    joints = [p.joint for p in below if p.joint]
    if not link.is_known or not link.joints or not joints or len(joints) < len(below):
        return None
    return chance_hooklength_first(
        [
            *(replace(joint, in_hooklength=True) for joint in link.joints),
            *(replace(joint, in_hooklength=False) for joint in joints),
        ]
    )


def _outlasted(rig: Rig, place: int, link: Link) -> tuple[Joint, Joint] | None:
    """A weak link's weakest joint and the weakest of the line above it, where the link is no weaker."""
    above = weakest_above(rig, place)
    weakest: Joint | None = min(link.joints, key=lambda j: j.mean_kg, default=None)
    return (weakest, above) if above and weakest and weakest.mean_kg >= above.mean_kg else None


def _too_strong(rig: Rig, way: WayOff, outlasted: tuple[Joint, Joint]) -> tuple[str, str]:
    weakest, above = (show_strain(joint.mean_kg) for joint in outlasted)
    says = (
        f"The {way.weight} does not come free: its weak link at {weakest} is no weaker than the line "
        f"above it at {above}, and gives nothing up"
    )
    below = [p.joint for p in rig.chain if isinstance(p, Stretch) and p.in_hooklength and p.joint]
    if not below:
        return says, "take a link weaker than the hooklength"
    lowest = show_strain(min(joint.mean_kg for joint in below))
    return (
        says,
        f"take a link that goes below the hooklength's {lowest}, or one that runs on the line",
    )


def _past(stopped: Sequence[Obstacle]) -> str:
    """What would let it come off past what stops it."""
    if all(one.meets is Meets.KNOT for one in stopped):
        known = [one.line_mm for one in stopped if one.line_mm]
        wide = ""
        if len(known) == len(stopped):
            wide = f" of {math.ceil(10 * knot_width_mm(max(known)) - 1e-6) / 10:g} mm bore"
        return f"run it on the main line itself, or on a run ring{wide}"
    return "leave nothing above it on the line that it cannot pass"


def _facts(rig: Rig, way: WayOff) -> tuple[Fact, ...]:
    piece = rig.chain[way.place]
    if way.free in (Free.FIXED, Free.WEAK_LINK):
        return ()
    on_way = tuple(p.obstacle for p in rig.chain[1 : way.place] if isinstance(p, Stretch))
    return facts_of(bore_of(piece), on_way)


def _listed(obstacles: Sequence[Obstacle]) -> str:
    return " nor the ".join(dict.fromkeys(one.name for one in obstacles))


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]
