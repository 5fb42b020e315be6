"""What hangs below a float beside its shot: hook, bait and line; and what lies on the bottom.

A rig is fished off bottom, at dead depth, or over depth by so much. What lies on the bottom does
not load the float: at dead depth the hook and its bait, over depth the laid-on line too.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import inf, pi

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Fact
from tacklebox.trade.limits import within
from tacklebox.trade.line import material_named
from tacklebox.trade.quantities import STANDARD_GRAVITY, read_length_mm
from tacklebox.trade.settling.sizes import (
    STEEL_G_CM3,
    FallingBait,
    FallingHook,
    bait_named,
    hook_of_size,
)
from tacklebox.trade.sources import (
    BY_RECIPE,
    COMMON,
    FIBRE_DENSITIES,
    MEMORY,
    PRINTED,
    Basis,
    Source,
    weakest,
)
from tacklebox.trade.units_first import show_length
from tacklebox.trade.water import USUAL_C, pull_in_water_g, water_density_kg_m3

NOT_KNOWN = Source(Basis.GIVEN, "nobody knows what it weighs")
USUAL_BAIT = "maggot"  # where nobody says (our choice)


class Depth(StrEnum):
    """How deep a rig is fished."""

    OFF = "off bottom"
    DEAD = "dead depth"
    OVER = "over depth"


@dataclass(frozen=True, slots=True)
class FishedDepth:
    """How deep a rig is fished: ``over_mm`` of line lie on the bottom, 0 unless over depth.
    ``said``: that length as it was said. ``source``: who says so."""

    depth: Depth
    over_mm: float = 0.0
    said: str = ""
    source: Source = BY_RECIPE

    def __str__(self) -> str:
        if self.depth is Depth.OVER:
            return f"{self.said or show_length(self.over_mm)} over depth"
        return f"at {self.depth}" if self.depth is Depth.DEAD else str(self.depth)


# Most match rigs are at dead depth or just over (common practice).
DEPTH_NOT_SAID = FishedDepth(Depth.DEAD, source=COMMON)
_BED = r"(?:the )?(?:bottom|deck|bed)"
_OFF = re.compile(rf"^(?:just |.+ )?off(?: {_BED})?(?: by .+)?$")
_DEAD = re.compile(rf"^(?:dead depth|dead|just touching|on {_BED})$")
_OVER = re.compile(
    rf"^(?:over(?: depth)?(?: by)? |(?:laid|laying|lay) on(?: by)? )(?P<after>.+)$"
    rf"|^(?P<before>.+?) (?:over(?: depth)?|laid on|on {_BED})$"
)
MOST_OVER_MM = 3000.0


def read_fished(text: str) -> FishedDepth:
    """How deep a rig is fished, as an angler says it.

    "off bottom", "dead depth", "over 2 in", "two inch over", "over depth by 5 cm", "laid on 6 in".
    Range: over by more than 0, up to 3 m. Raises AskedWronglyError.

    >>> str(read_fished("over 2 in")), str(read_fished("dead depth")), read_fished("5 cm over").over_mm
    ('2 in over depth', 'at dead depth', 50.0)
    """
    plain = " ".join(text.lower().replace("-", " ").split()).removeprefix("at ")
    if _OFF.match(plain):
        return FishedDepth(Depth.OFF)
    if _DEAD.match(plain):
        return FishedDepth(Depth.DEAD)
    right = 'Write "off bottom", "dead depth" or "over 2 in".'
    over = _OVER.match(plain)
    if not over:
        raise AskedWronglyError(f'"{text}" is no depth that a rig is fished at.', right=right)
    said = over.group("after") or over.group("before")
    length = read_length_mm(said)
    within(length, 0, MOST_OVER_MM, "a length over depth", "mm", typed=said, hint=right)
    return FishedDepth(Depth.OVER, length, said)


@dataclass(frozen=True, slots=True)
class LineBelow:
    """Line below the float: its diameter in mm, its material's density in g/cm³, and from where
    to where it runs above the hook, in mm."""

    diameter_mm: float
    density_g_cm3: float
    low_mm: float
    high_mm: float

    def pull_mg(self, from_mm: float, to_mm: float, temperature_c: float = USUAL_C) -> float:
        """What it pulls under water between two heights above the hook: (ρ − ρw) π d²/4 · length,
        in mg; below 0 where it floats.

        >>> round(LineBelow(0.14, 1.14, 0.0, 2000.0).pull_mg(0.0, 1500.0), 2)
        3.24
        """
        length = max(0.0, min(self.high_mm, to_mm) - max(self.low_mm, from_mm))
        excess = self.density_g_cm3 - water_density_kg_m3(temperature_c) / 1000
        return excess * pi * self.diameter_mm**2 / 4 * length


@dataclass(frozen=True, slots=True)
class Hanging:
    """What hangs below a float beside its shot, as pull under water in mg. ``left_out`` names what
    nobody knows the mass of."""

    fished: FishedDepth = DEPTH_NOT_SAID
    line_mg: float = 0.0
    hook_mg: float = 0.0
    bait_mg: float = 0.0
    bait: str = USUAL_BAIT
    left_out: tuple[str, ...] = ()
    hook_source: Source = MEMORY
    bait_source: Source = MEMORY

    @property
    def pull_g(self) -> float:
        """All of it together, in g."""
        return (self.line_mg + self.hook_mg + self.bait_mg) / 1000

    @property
    def words(self) -> str:
        """What of it hangs: "hook, bait and line"."""
        return "hook, bait and line" if self.fished.depth is Depth.OFF else "line below the float"

    @property
    def facts(self) -> tuple[Fact, ...]:
        """The figures behind it."""
        if self == NOTHING:
            return ()
        facts = [Fact("fished", str(self.fished), "", self.fished.source)]
        if self.fished.depth is Depth.OFF:
            facts += [
                Fact("hook under water", self.hook_mg, "mg", self.hook_source),
                Fact(f"bait under water, {self.bait}", self.bait_mg, "mg", self.bait_source),
            ]
        facts.append(
            Fact(
                "line that hangs, under water",
                self.line_mg,
                "mg",
                weakest([FIBRE_DENSITIES, PRINTED]),
            )
        )
        facts += [Fact("left out", what, "", NOT_KNOWN) for what in self.left_out]
        return tuple(facts)


NOTHING = Hanging()


def hanging_below(
    fished: FishedDepth,
    lines: Sequence[LineBelow],
    float_at_mm: float,
    *,
    hook: str | FallingHook | None = None,
    bait: str | FallingBait | None = USUAL_BAIT,
    temperature_c: float = USUAL_C,
) -> Hanging:
    """What hangs below a float that is set so far above the hook.

    Of the line what lies above ``fished.over_mm``; hook and bait only off bottom. Lengths in mm;
    hook size as printed, left out where nobody knows what it weighs; ``bait`` None for a bare hook;
    either as he measured it himself, where he did;
    water in °C, 0–30. Raises AskedWronglyError for a bait not known. Sources: densities of the
    line's materials; masses of hook and bait from memory, see ``settling.sizes``.

    >>> rig = [LineBelow(0.14, 1.14, 150.0, 2000.0), LineBelow(0.10, 1.14, 0.0, 150.0)]
    >>> off = hanging_below(FishedDepth(Depth.OFF), rig, 1500.0, hook="20")
    >>> round(1000 * off.pull_g, 1)
    14.3
    >>> round(1000 * hanging_below(FishedDepth(Depth.DEAD), rig, 1500.0, hook="20").pull_g, 1)
    3.1
    """
    line = sum(one.pull_mg(fished.over_mm, float_at_mm, temperature_c) for one in lines)
    if fished.depth is not Depth.OFF:
        return Hanging(fished, line)
    known = hook if isinstance(hook, FallingHook) else _hook(hook)
    hook_mg = known.mass_mg if known else 0.0
    pull = pull_in_water_g(hook_mg / 1000, STEEL_G_CM3, temperature_c) * 1000
    baited = bait_named(bait) if isinstance(bait, str) else bait
    weighs = baited.weight_n() / STANDARD_GRAVITY * 1e6 if baited else 0.0
    return Hanging(
        fished,
        line,
        pull,
        weighs,
        baited.name if baited else "no bait",
        () if known else ("hook",),
        known.source if known else MEMORY,
        baited.source if baited else MEMORY,
    )


def _hook(size: str | None) -> FallingHook | None:
    """A hook as it is from memory, None where nobody knows what it weighs."""
    if size is None:
        return None
    try:
        return hook_of_size(size)
    except AskedWronglyError:
        return None


def usual_hanging(fished: FishedDepth, temperature_c: float = USUAL_C) -> Hanging:
    """What hangs below a float of which nothing is known: 1.5 m of 0.12 mm nylon, a hook 20 and a
    maggot (our choice).

    >>> how = DEPTH_NOT_SAID, FishedDepth(Depth.OFF)
    >>> [round(1000 * usual_hanging(one).pull_g, 1) for one in how]
    [2.4, 13.6]
    """
    line = LineBelow(0.12, material_named("nylon").density_g_cm3, 0.0, inf)
    depth_mm = 1500.0 + fished.over_mm
    return hanging_below(fished, [line], depth_mm, hook="20", temperature_c=temperature_c)
