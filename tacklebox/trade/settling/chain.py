"""A rig as a chain of points joined by links that do not stretch: lengths, masses, weights.

Point 0 is the float's base, the last the hook; there is one at each shot and at each knot between
two lines. Everything is in SI units, x along the surface, z down, z of the float 0 where just the end
of its tip is at the surface.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple

from tacklebox.trade.quantities import STANDARD_GRAVITY
from tacklebox.trade.settling.drag import (
    SHORT_SHARE,
    Water,
    sphere_diameter_m,
    still_along_factor,
)
from tacklebox.trade.settling.rig import FallingFloat, FallingRig, LinePiece, carries_n, pull_n
from tacklebox.trade.settling.sizes import STEEL_G_CM3, FallingBait, FallingHook
from tacklebox.trade.shot import weight_material

USUAL_LINKS = 40
LAST_SPAN_TIMES = 1.5  # as many links to the last span's length, which bends most (our choice)
SAME_PLACE_M = 1e-4
HOOK_SHOWS = 0.7  # share of a hook's wire that the water meets; the bait hides the rest (memory)
BAIT_FILLS = 0.75  # of its cylinder (from memory)
BAIT_CARRIES = 1.7  # own and added mass, in masses of the water in its place (from memory)
HEAVE_SHARE = 0.05  # of the water that a float displaces, moved with it up and down (from memory)


class HalfLink(NamedTuple):
    """What one half of a link lends to the point at its end, as factors of the laws of drag.

    ``across``: ½ ρw d ℓ/2; ``thick``: d/ν, s/m; ``along``: π μ ℓ/2; ``still``: K₀; ``added``: water
    that moves with it across itself, kg.
    """

    across: float
    thick: float
    along: float
    still: float
    added: float


class Body(NamedTuple):
    """Something solid at a point: ½ ρw A (times how many), its d/ν, and whether it is a ball."""

    area: float
    thick: float
    ball: bool


@dataclass(frozen=True, slots=True)
class FloatHead:
    """The float as the chain's first point feels it.

    ``spare_n``: what it still carries with its lock shot on, in N; ``tip_n_m`` and ``body_n_m``: what
    each metre of tip or body loses when it comes out of the water; ``sway_kg``, ``heave_kg``: masses
    sideways and up and down, water included. A head that is held does not move sideways.
    """

    spare_n: float
    tip_n_m: float
    body_n_m: float
    tip_m: float
    sway_kg: float
    heave_kg: float
    side: Body
    end: float  # ½ ρw A of its end
    skin: float  # N s/m
    held: bool

    def pull_n(self, depth_m: float) -> tuple[float, float]:
        """The force down on it at z, and how that changes with each metre of z.

        With the tip's end under water it is lifted by all it can carry, however deep it is.
        """
        out = -depth_m
        if out <= 0:
            return -self.spare_n, 0.0
        if out <= self.tip_m:
            return self.tip_n_m * out - self.spare_n, -self.tip_n_m
        clear = self.tip_n_m * self.tip_m + self.body_n_m * (out - self.tip_m)
        return clear - self.spare_n, -self.body_n_m

    def rests_at_m(self, load_n: float = 0.0) -> float:
        """The z at which it rests with that load on its base: 0 where it carries just that.

        Loads above what it carries would sink it; 0 is given for them too.
        """
        left = self.spare_n - load_n
        if left <= 0:
            return 0.0
        if left <= self.tip_n_m * self.tip_m:
            return -left / self.tip_n_m
        return -self.tip_m - (left - self.tip_n_m * self.tip_m) / self.body_n_m


@dataclass(frozen=True, slots=True)
class Chain:
    """Points and links, from float to hook.

    ``at_m``: each point's distance from the float along the line. ``mass_kg`` is what moves in every
    direction alike, added mass of balls included; ``weight_n`` the pull in water. ``head`` None: the
    first point has no float.
    """

    at_m: tuple[float, ...]
    lengths_m: tuple[float, ...]
    halves: tuple[HalfLink, ...]
    mass_kg: tuple[float, ...]
    weight_n: tuple[float, ...]
    bodies: Mapping[int, tuple[Body, ...]] = field(default_factory=dict)
    head: FloatHead | None = None

    @property
    def points(self) -> int:
        """How many points there are."""
        return len(self.at_m)


def half_link(length_m: float, diameter_m: float, water: Water) -> HalfLink:
    """Half a link of that length and thickness, both in m, in that water."""
    half = length_m / 2
    return HalfLink(
        across=0.5 * water.density_kg_m3 * diameter_m * half,
        thick=diameter_m / water.kinematic_m2_s,
        along=math.pi * water.viscosity_pa_s * half,
        still=still_along_factor(diameter_m, water),
        added=water.density_kg_m3 * math.pi * diameter_m**2 / 4 * half,
    )


def share_links(spans_m: Sequence[float], links: int) -> list[int]:
    """How many links each span between two given points gets: at least one, then by length; the last,
    above the hook, as if it were half as long again.

    >>> share_links([0.9, 0.4, 0.2, 0.2], 18)
    [9, 4, 2, 3]
    """
    counts = [1] * len(spans_m)
    weighs_m = [*spans_m[:-1], LAST_SPAN_TIMES * spans_m[-1]]
    for _ in range(links - len(spans_m)):
        longest = max(range(len(spans_m)), key=lambda n: weighs_m[n] / counts[n])
        counts[longest] += 1
    return counts


def places_m(rig: FallingRig) -> list[float]:
    """The points that must be there, from the float down: ends, knots between lines, shot."""
    long_m = rig.length_mm / 1000
    knots, at = [0.0], 0.0
    for piece in rig.line:
        at += piece.length_mm / 1000
        knots.append(at)
    wanted = sorted([*knots, *(long_m - w.above_hook_mm / 1000 for w in rig.shot)])
    kept = [wanted[0]]
    for place in wanted[1:]:
        if place - kept[-1] > SAME_PLACE_M:
            kept.append(place)
    kept[-1] = knots[-1]
    return kept


def chain_of(rig: FallingRig, links: int = USUAL_LINKS) -> Chain:
    """The chain of a rig that ``nearest_rig`` has been through, in about so many links.

    >>> from tacklebox.trade.settling.sizes import hook_of_size
    >>> chain_of(FallingRig((LinePiece(1000, 0.10),), hook_of_size("20")), 10).points
    11
    """
    water = rig.water
    places = places_m(rig)
    spans = [low - high for high, low in pairwise(places)]
    at = [0.0]
    for start, span, count in zip(places, spans, share_links(spans, links), strict=False):
        at += [start + span * (step + 1) / count for step in range(count)]
    lengths = tuple(low - high for high, low in pairwise(at))
    mass, weight = [0.0] * len(at), [0.0] * len(at)
    halves = []
    for n, length in enumerate(lengths):
        piece = _piece_at(rig.line, (at[n] + at[n + 1]) / 2)
        diameter = piece.diameter_mm / 1000
        half_g = math.pi * diameter**2 / 4 * length / 2 * 1e6 * piece.density_g_cm3
        for point in (n, n + 1):
            mass[point] += half_g / 1000
            weight[point] += pull_n(half_g, piece.density_g_cm3, water)
        halves.append(half_link(length, diameter, water))
    bodies: dict[int, tuple[Body, ...]] = {}
    for shot in rig.shot:
        place = rig.length_mm / 1000 - shot.above_hook_mm / 1000
        point = min(range(len(at)), key=lambda n: abs(at[n] - place))
        for load in shot.loads:
            density = shot.density_of(load)
            ball, moved_kg = _balls(load.count, load.mass_g, density, water)
            mass[point] += moved_kg
            weight[point] += pull_n(load.total_g, density, water)
            bodies[point] = (*bodies.get(point, ()), ball)
    ends = [_hook(rig.hook, water), *([_bait(rig.bait, water)] if rig.bait else [])]
    mass[-1] += sum(moved_kg for _, moved_kg, _ in ends)
    weight[-1] += sum(weight_n for _, _, weight_n in ends)
    bodies[len(at) - 1] = (*bodies.get(len(at) - 1, ()), *(body for body, _, _ in ends))
    head = float_head(rig.float_, water) if rig.float_ else None
    return Chain(tuple(at), lengths, tuple(halves), tuple(mass), tuple(weight), bodies, head)


def _piece_at(line: Sequence[LinePiece], place_m: float) -> LinePiece:
    end_m = 0.0
    for piece in line:
        end_m += piece.length_mm / 1000
        if place_m < end_m:
            return piece
    return line[-1]


def _balls(count: int, mass_g: float, density: float, water: Water) -> tuple[Body, float]:
    """So many equal balls that touch, each with its own drag; and the mass that moves with them.

    A ball carries half the water of its own size with it.
    """
    diameter = sphere_diameter_m(mass_g, density)
    area = count * 0.5 * water.density_kg_m3 * math.pi * diameter**2 / 4
    share = 1 + 0.5 * water.density_kg_m3 / (1000 * density)
    return Body(area, diameter / water.kinematic_m2_s, ball=True), count * mass_g / 1000 * share


def _hook(hook: FallingHook, water: Water) -> tuple[Body, float, float]:
    """A hook as a length of wire: drag, mass that moves, weight in water."""
    wire, length = hook.wire_mm / 1000, hook.wire_length_mm / 1000
    area = 0.5 * water.density_kg_m3 * wire * length * HOOK_SHOWS
    share = 1 + water.density_kg_m3 / (1000 * STEEL_G_CM3)
    body = Body(area, wire / water.kinematic_m2_s, ball=False)
    return body, hook.mass_mg * 1e-6 * share, pull_n(hook.mass_mg / 1000, STEEL_G_CM3, water)


def _bait(bait: FallingBait, water: Water) -> tuple[Body, float, float]:
    """A bait as a short cylinder: drag, mass that moves, weight in water."""
    across, length = bait.diameter_mm / 1000, bait.length_mm / 1000
    area = 0.5 * water.density_kg_m3 * across * length * SHORT_SHARE
    weight_n = bait.weight_n()
    fills = BAIT_FILLS * math.pi * across**2 / 4 * length
    moved_kg = BAIT_CARRIES * water.density_kg_m3 * fills + weight_n / STANDARD_GRAVITY
    return Body(area, across / water.kinematic_m2_s, ball=False), moved_kg, weight_n


def float_head(float_: FallingFloat, water: Water) -> FloatHead:
    """The float with its lock shot on, as the chain feels it.

    >>> from tacklebox.trade.balance import Tip
    >>> from tacklebox.trade.settling.drag import water_at
    >>> head = float_head(FallingFloat(2.0, Tip(3.0, 60.0), lock_g=1.6), water_at(10.0))
    >>> round(-1000 * head.rests_at_m(), 1)
    48.8
    """
    lock = weight_material(float_.lock_material).density_g_cm3
    per_m2 = water.density_kg_m3 * STANDARD_GRAVITY
    tip_area = math.pi * (float_.tip.diameter_mm / 1000) ** 2 / 4
    body, under = float_.body_mm / 1000, float_.under_water_mm / 1000
    body_area = math.pi * body**2 / 4
    displaced_kg = water.density_kg_m3 * body_area * under
    own_kg = (float_.own_mass_g + float_.lock_g) / 1000
    return FloatHead(
        spare_n=carries_n(float_, water) - pull_n(float_.lock_g, lock, water),
        tip_n_m=per_m2 * tip_area,
        body_n_m=per_m2 * body_area,
        tip_m=float_.tip.length_mm / 1000,
        sway_kg=own_kg + displaced_kg,
        heave_kg=own_kg + HEAVE_SHARE * displaced_kg,
        side=Body(
            0.5 * water.density_kg_m3 * body * under, body / water.kinematic_m2_s, ball=False
        ),
        end=0.5 * water.density_kg_m3 * body_area,
        skin=2 * math.pi * water.viscosity_pa_s * under,
        held=float_.held,
    )
