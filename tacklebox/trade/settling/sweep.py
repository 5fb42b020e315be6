"""One step of Newton's method on all speeds and tensions of a chain, point by point.

For each point M a = W − D + λ_k d_k − λ_{k−1} d_{k−1}, d_k the link to the next point, λ_k its tension
over its length; for each tight link d · d = ℓ². Going up from the hook, each point's change of speed
is written in terms of the point above it, δv = p + Q δv_above; going down from the float, all become
known. The work is in proportion to the points.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import expm1, sqrt

from tacklebox.trade.settling.chain import Body, Chain, FloatHead, HalfLink
from tacklebox.trade.settling.drag import (
    SPHERE_SLOPE,
    line_across_coefficient,
    line_wake,
    sphere_coefficient,
)

SLOWEST = 1e-12  # m/s and Re, so that no law divides by nothing
HOLDS = 1e5  # N s/m, with which a point that is held resists; a rig's forces are below 0.1 N

# Points that are held: where, along x and z; None where they are free to move.
Place = tuple[float | None, float | None]
Held = Mapping[int, Place]
Flow = Callable[[float], float]  # how fast the water moves along x at that z
Row = tuple[float, float, float, float, float]  # force x, z; its slope xx, xz, zz


@dataclass(slots=True)
class Motion:
    """Where all points are, how fast they move, and each link's tension over its length."""

    x: list[float]
    z: list[float]
    vx: list[float]
    vz: list[float]
    pull: list[float]

    def copy(self) -> "Motion":
        """The same, to be changed without changing this one."""
        return Motion(self.x[:], self.z[:], self.vx[:], self.vz[:], self.pull[:])


@dataclass(slots=True)
class Past:
    """What a step makes of what was: x = x* + γ v and a = (v − v*)/γ at its end."""

    gamma: float
    x: list[float]
    z: list[float]
    vx: list[float]
    vz: list[float]


def half_link_force(
    half: HalfLink,
    direction: tuple[float, float],
    speed: tuple[float, float],
    gain: tuple[float, float],
    rate: float,
) -> Row:
    """What half a link asks of the point at its end: drag and the water it moves along with it.

    ``speed`` is through the water, ``gain`` the acceleration, ``rate`` how it changes with the speed
    (1/γ). In N, and N s/m for the slopes.
    """
    across, thick, along, still, added = half
    ex, ez = direction
    ux, uz = speed
    vn, vt = ex * uz - ez * ux, ex * ux + ez * uz
    fast = abs(vn)
    reynolds = fast * thick + SLOWEST
    root = sqrt(reynolds)
    creeping = 11 / (root * sqrt(root))
    wake = 0.9 - 1.2 * expm1(-((reynolds / 4500) ** 0.7)) if reynolds < 25 else line_wake(reynolds)
    slide = 0.3 + 0.556 * root
    slide = along * (slide if slide > still else still)
    push = across * fast
    normal = push * (creeping + wake) * vn + added * (ex * gain[1] - ez * gain[0])
    stiff = push * (1.25 * creeping + 2 * wake) + added * rate
    tangent = slide * vt
    return (
        ex * tangent - ez * normal,
        ez * tangent + ex * normal,
        ez * ez * stiff + ex * ex * slide,
        ex * ez * (slide - stiff),
        ex * ex * stiff + ez * ez * slide,
    )


def body_force(bodies: tuple[Body, ...], ux: float, uz: float) -> Row:
    """The drag of all that is solid at a point, and its slopes; a little less steep than it is."""
    fast = sqrt(ux * ux + uz * uz) + SLOWEST
    factor = slope = 0.0
    for area, thick, ball in bodies:
        reynolds = fast * thick
        law = sphere_coefficient if ball else line_across_coefficient
        each = area * law(reynolds) * fast
        factor += each
        slope += each * SPHERE_SLOPE
    bend = slope / (fast * fast)
    return (
        factor * ux,
        factor * uz,
        factor + bend * ux * ux,
        bend * ux * uz,
        factor + bend * uz * uz,
    )


def head_force(
    head: FloatHead, z: float, ux: float, vz: float, gain: tuple[float, float], gamma: float
) -> Row:
    """What the float asks of the chain's first point, less what lifts it."""
    lift, change = head.pull_n(z)
    side = body_force((head.side,), ux, 0.0)
    end = head.end * abs(vz)
    return (
        side[0] + head.sway_kg * gain[0],
        (end + head.skin) * vz + head.heave_kg * gain[1] - lift,
        side[2] + head.sway_kg / gamma,
        0.0,
        2 * end + head.skin + head.heave_kg / gamma - change * gamma,
    )


def hold(place: Place, past: Past, n: int, vx: float, vz: float) -> Row:
    """The force that keeps a point where it is held."""
    at_x, at_z = place
    rx = rz = axx = azz = 0.0
    if at_x is not None:
        rx, axx = HOLDS * (vx - (at_x - past.x[n]) / past.gamma), HOLDS
    if at_z is not None:
        rz, azz = HOLDS * (vz - (at_z - past.z[n]) / past.gamma), HOLDS
    return rx, rz, axx, 0.0, azz


def solid_force(chain: Chain, now: Motion, past: Past, held: Held, n: int, ux: float) -> Row:
    """What is fixed to a point asks of it: shot, hook and bait, the float, what holds it."""
    vx, vz = now.vx[n], now.vz[n]
    row: Row = (0.0, 0.0, 0.0, 0.0, 0.0)
    if n in chain.bodies:
        row = body_force(chain.bodies[n], ux, vz)
    if n == 0 and chain.head:
        rate = 1 / past.gamma
        gain = ((vx - past.vx[0]) * rate, (vz - past.vz[0]) * rate)
        row = _sum(row, head_force(chain.head, now.z[0], ux, vz, gain, past.gamma))
    if n in held:
        row = _sum(row, hold(held[n], past, n, vx, vz))
    return row


def _sum(one: Row, other: Row) -> Row:
    a, b, c, d, e = one
    f, g, h, i, j = other
    return a + f, b + g, c + h, d + i, e + j


def newton(
    chain: Chain, now: Motion, past: Past, tight: list[bool], held: Held, flow: Flow | None
) -> float:
    """Move all speeds, places and tensions of ``now`` one step nearer to the equations.

    Returns the furthest that any point was moved, in m.
    """
    x, z, vx, vz, pull = now.x, now.z, now.vx, now.vz, now.pull
    wx, wz, gamma = past.vx, past.vz, past.gamma
    rate = 1 / gamma
    mass, weight, halves, lengths = chain.mass_kg, chain.weight_n, chain.halves, chain.lengths_m
    through = vx if flow is None else [v - flow(depth) for v, depth in zip(vx, z, strict=True)]
    solid = {0, *chain.bodies, *held}
    ups: list[tuple[float, ...]] = []
    # What the links and points below lend to the point at hand: force left over and slopes.
    left_x = left_z = sxx = sxz = szz = 0.0
    for k in range(len(lengths) - 1, -1, -1):
        j = k + 1
        dx, dz = x[j] - x[k], z[j] - z[k]
        long = lengths[k] if tight[k] else sqrt(dx * dx + dz * dz) + SLOWEST
        toward = (dx / long, dz / long)
        gx, gz = (vx[j] - wx[j]) * rate, (vz[j] - wz[j]) * rate
        fx, fz, axx, axz, azz = half_link_force(
            halves[k], toward, (through[j], vz[j]), (gx, gz), rate
        )
        m = mass[j]
        rx, rz = left_x - m * gx - fx, left_z - m * gz - fz + weight[j]
        axx, axz, azz = sxx + axx + m * rate, sxz + axz, szz + azz + m * rate
        if j in solid:
            fx, fz, bxx, bxz, bzz = solid_force(chain, now, past, held, j, through[j])
            rx, rz, axx, axz, azz = rx - fx, rz - fz, axx + bxx, axz + bxz, azz + bzz
        gain = ((vx[k] - wx[k]) * rate, (vz[k] - wz[k]) * rate)
        fx, fz, sxx, sxz, szz = half_link_force(halves[k], toward, (through[k], vz[k]), gain, rate)
        left_x, left_z = -fx, -fz
        if not tight[k]:
            det = axx * azz - axz * axz
            ups.append(((azz * rx - axz * rz) / det, (axx * rz - axz * rx) / det))
            continue
        taut = pull[k]
        bend = gamma * taut
        rx, rz, axx, azz = rx - taut * dx, rz - taut * dz, axx + bend, azz + bend
        det = axx * azz - axz * axz
        bxx, bxz, bzz = azz / det, -axz / det, axx / det
        px, pz = bxx * rx + bxz * rz, bxz * rx + bzz * rz
        gx, gz = bxx * dx + bxz * dz, bxz * dx + bzz * dz
        give = 1 / (dx * gx + dz * gz)
        over = (dx * dx + dz * dz - long * long) / 2 * rate
        t0 = (dx * px + dz * pz + over) * give
        tx, tz = (bend * gx - dx) * give, (bend * gz - dz) * give
        px, pz = px - gx * t0, pz - gz * t0
        qxx, qxz = bend * bxx - gx * tx, bend * bxz - gx * tz
        qzx, qzz = bend * bxz - gz * tx, bend * bzz - gz * tz
        ups.append((px, pz, qxx, qxz, qzx, qzz, t0, tx, tz))
        left_x += taut * dx + bend * px + dx * t0
        left_z += taut * dz + bend * pz + dz * t0
        sxx += bend - bend * qxx - dx * tx
        sxz -= bend * qxz + dx * tz
        szz += bend - bend * qzz - dz * tz
    below = (left_x, left_z, sxx, sxz, szz)
    ux, uz = _top(chain, now, past, held, through[0], below)
    return _move(now, past, ups, ux, uz)


def _top(
    chain: Chain, now: Motion, past: Past, held: Held, through: float, below: Row
) -> tuple[float, float]:
    """The first point's change of speed, all below it being written in terms of it."""
    rate, mass = 1 / past.gamma, chain.mass_kg[0]
    left_x, left_z, axx, axz, azz = below
    gx, gz = (now.vx[0] - past.vx[0]) * rate, (now.vz[0] - past.vz[0]) * rate
    fx, fz, bxx, bxz, bzz = solid_force(chain, now, past, held, 0, through)
    rx, rz = left_x - mass * gx - fx, left_z - mass * gz - fz + chain.weight_n[0]
    axx, axz, azz = axx + bxx + mass * rate, axz + bxz, azz + bzz + mass * rate
    det = axx * azz - axz * axz
    return (azz * rx - axz * rz) / det, (axx * rz - axz * rx) / det


def _move(now: Motion, past: Past, ups: list[tuple[float, ...]], ux: float, uz: float) -> float:
    """Go down from the float, whose change of speed is known, and change all; the furthest move."""
    x, z, vx, vz, pull = now.x, now.z, now.vx, now.vz, now.pull
    from_x, from_z, gamma = past.x, past.z, past.gamma
    furthest = 0.0
    last = len(x) - 1
    for n in range(last + 1):
        if n:
            up = ups[last - n]
            if len(up) == 2:
                ux, uz = up
            else:
                px, pz, qxx, qxz, qzx, qzz, t0, tx, tz = up
                pull[n - 1] += t0 + tx * ux + tz * uz
                ux, uz = px + qxx * ux + qxz * uz, pz + qzx * ux + qzz * uz
        vx[n] += ux
        vz[n] += uz
        x[n] = from_x[n] + gamma * vx[n]
        z[n] = from_z[n] + gamma * vz[n]
        move = abs(ux) + abs(uz)
        if move > furthest:
            furthest = move
    return furthest * gamma
