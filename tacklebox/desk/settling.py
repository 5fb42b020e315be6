"""How a rig falls: when the bait is down, what the tip shows, when to strike; bites, feeders, tow.

Nothing in it was ever compared with water: every answer says so.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.desk.asking import in_field
from tacklebox.desk.settling_asked import (
    FallingPattern,
    FallQuestion,
    Fishing,
    beside_of,
    pattern_of,
    seen_of,
    until_of,
)
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.desk.opening import Desk
    from tacklebox.outputs import Target
    from tacklebox.trade.judgement import Fact
    from tacklebox.trade.settling.bite import Bite, LayerBite, TipAt
    from tacklebox.trade.settling.fall import Fall
    from tacklebox.trade.settling.outcome import Band, InPlace, Layer, Settling, TipSays
    from tacklebox.trade.settling.rig import Note

__all__ = ["Band", "FallQuestion", "Fishing", "Note", "bite", "drawn", "settle", "swing", "tow"]

MOST_BESIDE = 5
DEEPEST_BITE = 0.95  # of how deep the bait can come


@dataclass(frozen=True)
class BaitAt:
    """Where the bait is so many seconds after the cast, in cm, with a tight line and a slack one:
    how deep below the float's end, and how far from where the float was cast."""

    seconds: int
    deep_cm: "Band"
    aside_cm: "Band"


@dataclass(frozen=True)
class Fell:
    """How one pattern settles. ``what`` is otherwise with it; ``settled_by_s``: by then the tip stands
    where it should, else strike; None where it cannot be said. ``notes`` say what was computed
    otherwise than asked."""

    what: str
    recipe: str
    name: str
    chosen: Mapping[str, str]
    fished: str
    length_mm: float
    depth_mm: float
    bait: str
    settled_by_s: int | None
    half_s: "Band"
    nine_tenths_s: "Band"
    down_s: "Band"
    landed: bool
    shot: "tuple[InPlace, ...]"
    layers: "tuple[Layer, ...]"
    tip_says: "TipSays"
    rest_mm: float | None
    tip_mm: "tuple[Band, ...]"
    bait_at: tuple[BaitAt, ...]
    notes: "tuple[Note, ...]"
    facts: "tuple[Fact, ...]"


@dataclass(frozen=True)
class Settles:
    """One pattern or several side by side; ``unproven`` is to be shown wherever a figure is."""

    patterns: tuple[Fell, ...]
    water_c: float
    wind_m_s: float
    seen_mm: float
    unproven: str


@dataclass(frozen=True)
class HeldBite:
    """A bait held from a depth on: after how long the tip is wrong by what can be seen.

    ``most_off_mm`` is the furthest that it then stands too high, or below 0 too low, up to there.
    ``tip`` is with a tight line; ``layers`` say where such bites are seen and where they are not.
    """

    recipe: str
    depth_mm: float
    taken_s: "Band"
    seen_after_s: "Band"
    most_off_mm: "Band"
    tip: "tuple[TipAt, ...]"
    layers: "tuple[LayerBite, ...]"
    seen_mm: float
    notes: "tuple[Note, ...]"
    unproven: str


@dataclass(frozen=True)
class SwungDown:
    """A hooklength behind a feeder that lies: when the bait is down after it, and how far from it."""

    recipe: str
    length_mm: float
    depth_mm: float
    bait: str
    feeder_s: float
    bait_after_s: "Band"
    bait_m: "Band"
    notes: "tuple[Note, ...]"
    unproven: str


@dataclass(frozen=True)
class Towed:
    """How far the wind's tow drags the bait from where it was fed, downwind, by when it is down."""

    recipe: str
    wind_m_s: float
    surface_m_s: float
    after_s: "Band"
    float_m: "Band"
    dragged_m: "Band"
    per_minute_m: "Band"
    notes: "tuple[Note, ...]"
    unproven: str


def settle(
    desk: "Desk",
    asked: FallQuestion,
    beside: Sequence[str] = (),
    *,
    to: "Target | None" = None,
    overwrite: bool = False,
) -> Settles:
    """How a rig settles, and beside it others of which something is otherwise; drawn where it is to go.

    ``beside`` as ``settling_asked.beside_of``. Raises AskedWronglyError, naming the field, and as
    ``write_aside``.
    """
    return drawn(desk, asked, beside, to=to, overwrite=overwrite)[0]


def drawn(
    desk: "Desk",
    asked: FallQuestion,
    beside: Sequence[str] = (),
    *,
    to: "Target | None" = None,
    overwrite: bool = False,
    bite_at: str = "",
) -> tuple[Settles, str]:
    """As ``settle``, and the drawing as SVG: the water in section, and the tip over time; with
    ``bite_at`` the curve of a bait held from that depth on."""
    from tacklebox.outputs import SVG, write_aside
    from tacklebox.printing.drawing.fall import fall_svg

    patterns = patterns_of(desk, asked, beside)
    found = [_computed(pattern, seen_of(asked.fishing)) for pattern in patterns]
    answer = _answer(patterns, found, asked.fishing)
    held = held_bite(found[0], bite_at) if bite_at.strip() else None
    svg = fall_svg(found, [pattern.what for pattern in patterns], held)
    if to is not None:
        with write_aside(to, SVG, overwrite=overwrite) as aside:
            aside.write(svg.encode())
    return answer, svg


def patterns_of(desk: "Desk", asked: FallQuestion, beside: Sequence[str]) -> list[FallingPattern]:
    """The rigs that are to fall, the one that was asked for first."""
    if len(beside) > MOST_BESIDE:
        raise AskedWronglyError(
            f"{len(beside)} patterns beside the first are too many.",
            field="beside",
            right=f"Up to {MOST_BESIDE}.",
        )
    others = [words for words in beside if words.strip()]
    return [pattern_of(desk, asked), *(beside_of(desk, asked, words) for words in others)]


def _computed(pattern: FallingPattern, seen: float) -> "Settling":
    from tacklebox.trade.settling.outcome import settle as settle_rig

    return settle_rig(pattern.rig, seen_mm=seen)


def _answer(
    patterns: Sequence[FallingPattern], found: "Sequence[Settling]", fishing: Fishing
) -> Settles:
    from tacklebox.trade.settling.outcome import UNPROVEN

    until, said = until_of(fishing)
    return Settles(
        tuple(_fell(one, two, until, said) for one, two in zip(patterns, found, strict=True)),
        patterns[0].rig.temperature_c,
        patterns[0].rig.wind_m_s,
        found[0].seen_mm,
        UNPROVEN,
    )


def _fell(
    pattern: FallingPattern, found: "Settling", until: float | None, said: "tuple[Note, ...]"
) -> Fell:
    falls = [one for one in (found.tight, found.slack) if one]
    last = math.ceil(max(one.seconds for one in falls) if until is None else until)
    return Fell(
        what=pattern.what,
        recipe=pattern.recipe,
        name=pattern.name,
        chosen=pattern.chosen,
        fished=pattern.fished if found.rig.float_ else "",
        length_mm=found.rig.length_mm,
        depth_mm=found.rig.depth_mm,
        bait=found.rig.bait.name if found.rig.bait else "bare hook",
        settled_by_s=found.settled_by_s,
        half_s=found.half_s,
        nine_tenths_s=found.most_s,
        down_s=found.down_s,
        landed=found.landed,
        shot=found.shot,
        layers=found.layers,
        tip_says=found.tip_says,
        rest_mm=found.rest_mm,
        tip_mm=found.tip_mm[: last + 1],
        bait_at=tuple(_bait_at(found, second) for second in range(last + 1)),
        notes=(*pattern.notes, *found.notes, *said),
        facts=found.facts,
    )


def _bait_at(found: "Settling", second: int) -> BaitAt:
    from tacklebox.trade.settling.outcome import Band

    def band(read: "object") -> Band:
        assert callable(read)
        return Band(read(found.tight), read(found.slack) if found.slack else None)

    return BaitAt(
        second,
        band(lambda one: one.depth_mm(float(second)) / 10),
        band(lambda one: 100 * one.place(float(second))[0]),
    )


def _bite_depth_mm(found: "Settling", said: str) -> tuple[float, "list[Note]"]:
    """Where a bait is held, at the most where it comes to, and what is said of it."""
    from tacklebox.trade.quantities import read_length_mm
    from tacklebox.trade.settling.rig import Note
    from tacklebox.trade.units_first import show_length

    depth_mm = in_field("bite_at", read_length_mm, said)
    nearest = min(depth_mm, DEEPEST_BITE * found.rig.down_mm)
    if nearest == depth_mm:
        return depth_mm, []
    says = f"the bait comes no deeper than {show_length(nearest)}: a bite there computed"
    return nearest, [Note("deeper than the bait", says)]


def held_bite(found: "Settling", depth: str) -> "Bite | None":
    """A bait held from a depth on with a tight line. Raises AskedWronglyError, naming the field."""
    return _held(found, found.tight, _bite_depth_mm(found, depth)[0])


def bite(desk: "Desk", asked: FallQuestion, depth: str) -> HeldBite:
    """A fish that takes the bait at a depth and holds it still: what the tip shows, and in which
    layers such bites are not seen. Raises AskedWronglyError for a depth that the bait never comes to."""
    from tacklebox.trade.settling.bite import bites_by_layer
    from tacklebox.trade.settling.outcome import UNPROVEN, Band

    pattern = pattern_of(desk, asked)
    found = _computed(pattern, seen_of(asked.fishing))
    depth_mm, said = _bite_depth_mm(found, depth)
    tight, slack = (_held(found, one, depth_mm) for one in (found.tight, found.slack))
    both = (tight, slack)
    return HeldBite(
        asked.recipe,
        depth_mm,
        Band(*(one.taken_s if one else None for one in both)),
        Band(*(one.seen_after_s if one else None for one in both)),
        Band(*(one.most_off_mm if one else None for one in both)),
        tight.tip if tight else (),
        bites_by_layer(found),
        found.seen_mm,
        (*pattern.notes, *found.notes, *said),
        UNPROVEN,
    )


def _held(found: "Settling", one: "Fall | None", depth_mm: float) -> "Bite | None":
    from tacklebox.trade.settling.bite import bite as bite_of

    def held(fall: "Fall") -> "Bite | None":
        return bite_of(fall, depth_mm, seen_mm=found.seen_mm)

    return in_field("bite_at", held, one) if one else None


def swing(desk: "Desk", asked: FallQuestion, depth: str, *, sinks: str = "") -> SwungDown:
    """How the hooklength of a feeder's rig swings down, and when the bait arrives after the feeder.

    ``depth`` of the water; ``sinks``: how fast the feeder goes down, counted ("3 m in 4 s"). Raises
    AskedWronglyError for a rig with a float.
    """
    from tacklebox.desk.settling_asked import speed_m_s
    from tacklebox.trade.quantities import read_length_mm
    from tacklebox.trade.settling.feeder import FEEDER_SINKS_M_S, FeederTail
    from tacklebox.trade.settling.feeder import swing as swing_of
    from tacklebox.trade.settling.outcome import UNPROVEN

    pattern = pattern_of(desk, asked)
    rig = pattern.rig
    if rig.float_ is not None:
        raise AskedWronglyError(
            f"{asked.recipe} has a float, no feeder.", field="recipe", right="Name a feeder rig."
        )
    tail = FeederTail(
        rig.length_mm,
        rig.line[-1].diameter_mm,
        rig.hook,
        rig.bait,
        in_field("depth", read_length_mm, depth),
        in_field("feeder_sinks", speed_m_s, sinks) if sinks else FEEDER_SINKS_M_S,
        rig.temperature_c,
    )
    found = swing_of(tail)
    return SwungDown(
        asked.recipe,
        tail.length_mm,
        tail.depth_mm,
        rig.bait.name if rig.bait else "bare hook",
        found.feeder_s,
        found.bait_after_s,
        found.bait_m,
        (*pattern.notes, *found.notes),
        UNPROVEN,
    )


def tow(desk: "Desk", asked: FallQuestion) -> Towed:
    """How far the wind's tow drags the bait from where it was fed. Raises AskedWronglyError, too
    where no wind is said."""
    from tacklebox.trade.settling.outcome import UNPROVEN
    from tacklebox.trade.settling.wind import tow as tow_of

    pattern = pattern_of(desk, asked)
    if pattern.rig.wind_m_s == 0:
        raise AskedWronglyError(
            "without wind there is no tow.",
            field="wind",
            right='Say how hard it blows, like "4 m/s".',
        )
    found = tow_of(pattern.rig)
    return Towed(
        asked.recipe,
        pattern.rig.wind_m_s,
        found.surface_m_s,
        found.after_s,
        found.float_m,
        found.dragged_m,
        found.per_minute_m,
        (*pattern.notes, *found.notes),
        UNPROVEN,
    )
