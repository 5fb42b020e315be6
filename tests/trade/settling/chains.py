"""Chains made by hand for the checks: without water, without drag, with one shot."""

import math
from bisect import bisect_left
from dataclasses import replace

from tacklebox.trade.balance import Tip
from tacklebox.trade.quantities import STANDARD_GRAVITY
from tacklebox.trade.settling.chain import Body, Chain, HalfLink
from tacklebox.trade.settling.drag import sphere_diameter_m, water_at
from tacklebox.trade.settling.rig import FallingFloat, FallingRig, LinePiece, Weights, pull_n
from tacklebox.trade.settling.sizes import bait_named, hook_of_size
from tacklebox.trade.settling.solver import Track
from tacklebox.trade.settling.sweep import Motion, body_force, half_link_force
from tacklebox.trade.shot import read_pattern

TIN_G_CM3 = 7.29
NO_DRAG = HalfLink(0.0, 0.0, 0.0, 0.0, 0.0)
WATER = water_at(10.0)


def in_vacuum(lengths_m: list[float], masses_kg: list[float]) -> Chain:
    """A chain of points with these masses, nothing but gravity acting on them."""
    at = [math.fsum(lengths_m[:n]) for n in range(len(lengths_m) + 1)]
    return Chain(
        tuple(at),
        tuple(lengths_m),
        (NO_DRAG,) * len(lengths_m),
        tuple(masses_kg),
        tuple(mass * STANDARD_GRAVITY for mass in masses_kg),
    )


def even_chain(length_m: float, links: int, kg_m: float) -> Chain:
    """A chain of even weight in a vacuum."""
    half = kg_m * length_m / links / 2
    masses = [half, *[2 * half] * (links - 1), half]
    return in_vacuum([length_m / links] * links, masses)


def ball(mass_g: float, *, added: bool = True) -> tuple[float, float, Body]:
    """A shot of tin: the mass that moves, in kg, its weight in N, its drag."""
    diameter = sphere_diameter_m(mass_g, TIN_G_CM3)
    area = 0.5 * WATER.density_kg_m3 * math.pi * diameter**2 / 4
    water_kg = WATER.density_kg_m3 * mass_g / TIN_G_CM3 / 1e6
    moves = mass_g / 1000 + (water_kg / 2 if added else 0.0)
    body = Body(area, diameter / WATER.kinematic_m2_s, ball=True)
    return moves, pull_n(mass_g, TIN_G_CM3, WATER), body


def shot_on_dragless_line(
    lengths_m: list[float], shot_g: list[float], *, added: bool = True
) -> Chain:
    """Shot, one at each point (0: nothing, or nearly so), on line that neither weighs nor drags."""
    at = [math.fsum(lengths_m[:n]) for n in range(len(lengths_m) + 1)]
    masses, weights, bodies = [], [], {}
    for n, grams in enumerate(shot_g):
        if not grams:
            masses.append(1e-12)
            weights.append(0.0)
            continue
        moves, weight, body = ball(grams, added=added)
        masses.append(moves)
        weights.append(weight)
        bodies[n] = (body,)
    return Chain(
        tuple(at),
        tuple(lengths_m),
        (NO_DRAG,) * len(lengths_m),
        tuple(masses),
        tuple(weights),
        bodies,
    )


def worked_rig(**changes: object) -> FallingRig:
    """The rig whose figures are worked in full: 1.8 m, 5BB, a bulk of 4 No 8 at 90 cm.

    Its hooklength is 30 cm long.
    """
    rig = FallingRig(
        line=(LinePiece(1500, 0.14), LinePiece(300, 0.09)),
        hook=hook_of_size("20"),
        bait=bait_named("maggot"),
        shot=(
            Weights(900, read_pattern("4 No 8 + No 10")),
            Weights(500, read_pattern("No 10")),
            Weights(250, read_pattern("No 10")),
        ),
        float_=FallingFloat(2.0, Tip(3.0, 60.0), lock_g=1.6),
    )
    return replace(rig, **changes)  # type: ignore[arg-type]


def longest_off(chain: Chain, track: Track) -> float:
    """By how much any link was ever longer than it is, as a share of its length."""
    return max(
        math.hypot(x[k + 1] - x[k], z[k + 1] - z[k]) / long - 1
        for x, z in zip(track.x, track.z, strict=True)
        for k, long in enumerate(chain.lengths_m)
    )


def hook_at(track: Track, seconds: float) -> tuple[float, float]:
    """Where the hook is, by straight lines between the steps."""
    step = max(1, bisect_left(track.times, seconds))
    before, after = track.times[step - 1], track.times[step]
    share = (seconds - before) / (after - before)
    (x0, x1), (z0, z1) = ((kept[step - 1][-1], kept[step][-1]) for kept in (track.x, track.z))
    return x0 + share * (x1 - x0), z0 + share * (z1 - z0)


def energy_j(chain: Chain, now: Motion) -> float:
    """Of motion and of height, water that moves along included."""
    moving = sum(
        m * (vx**2 + vz**2) / 2 for m, vx, vz in zip(chain.mass_kg, now.vx, now.vz, strict=True)
    )
    for k, half in enumerate(chain.halves):
        dx, dz = now.x[k + 1] - now.x[k], now.z[k + 1] - now.z[k]
        long = math.hypot(dx, dz)
        for n in (k, k + 1):
            across = (dx * now.vz[n] - dz * now.vx[n]) / long
            moving += half.added * across**2 / 2
    height = -sum(w * z for w, z in zip(chain.weight_n, now.z, strict=True))
    head = chain.head
    if head:
        moving += (head.sway_kg * now.vx[0] ** 2 + head.heave_kg * now.vz[0] ** 2) / 2
        out = max(0.0, -now.z[0])
        height += head.spare_n * now.z[0] + head.tip_n_m * out**2 / 2
        assert out <= head.tip_m
    return moving + height


def drag_w(chain: Chain, now: Motion) -> float:
    """What drag takes from the chain at that moment, in W."""
    taken = 0.0
    for k, half in enumerate(chain.halves):
        dx, dz = now.x[k + 1] - now.x[k], now.z[k + 1] - now.z[k]
        long = math.hypot(dx, dz)
        for n in (k, k + 1):
            speed = (now.vx[n], now.vz[n])
            fx, fz, *_ = half_link_force(half, (dx / long, dz / long), speed, (0, 0), 0.0)
            taken += fx * speed[0] + fz * speed[1]
    for n, bodies in chain.bodies.items():
        fx, fz, *_ = body_force(bodies, now.vx[n], now.vz[n])
        taken += fx * now.vx[n] + fz * now.vz[n]
    head = chain.head
    if head:
        taken += body_force((head.side,), now.vx[0], 0.0)[0] * now.vx[0]
        taken += (head.end * abs(now.vz[0]) + head.skin) * now.vz[0] ** 2
    return taken
