"""The same rig by other means: link angles instead of points, a library's solvers instead of ours.

The float's two coordinates and one angle for each link describe the chain; line is lumped at the
middles of links, where the points of ours lump it at their ends. Tight line only, deep water.
"""

import math
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp  # type: ignore[import-untyped]

from tacklebox.trade.settling.chain import BAIT_CARRIES, BAIT_FILLS, HEAVE_SHARE, places_m
from tacklebox.trade.settling.drag import water_at
from tacklebox.trade.settling.rig import FallingRig
from tacklebox.trade.shot import weight_material

Array = NDArray[np.float64]
G = 9.80665


def sphere_factor(reynolds: Array) -> Array:
    """Clift & Gauvin."""
    wake = 0.417 / (1 + 5070 * reynolds**-0.94)
    return np.asarray(24 / reynolds * (1 + 0.152 * reynolds**0.677) + wake)


def cylinder_factor(reynolds: Array) -> Array:
    """Cheng."""
    early = 0.9 * (1 - np.exp(-1000 / reynolds))
    late = 1.2 * (1 - np.exp(-((reynolds / 4500) ** 0.7)))
    return np.asarray(11 * reynolds**-0.75 + early + late)


class ByAngles:
    """A rig as angles; ``links`` links, spread over its pieces by length."""

    def __init__(self, rig: FallingRig, links: int) -> None:
        rho, mu = rig.water.density_kg_m3, rig.water.viscosity_pa_s
        self.rho, self.mu, self.nu = rho, mu, mu / rho
        long = rig.length_mm / 1000
        cuts = [
            np.linspace(a, b, max(1, round(links * (b - a) / long)), endpoint=False)
            for a, b in pairwise(places_m(rig))
        ]
        self.at = np.concatenate([*cuts, [long]])
        self.l = np.diff(self.at)
        self.n = len(self.l)
        self._line_of(rig)
        # What hangs at the joints: mass, weight; and each body's joint, ½ρA, d/ν, whether a ball.
        self.joint_m, self.joint_w = np.zeros(self.n), np.zeros(self.n)
        self.bodies: list[tuple[int, float, float, bool]] = []
        self._shot_of(rig)
        self._end_of(rig)
        self._float_of(rig)
        self.to_joint = np.tril(np.ones((self.n, self.n)))
        self.to_middle = self.to_joint - np.eye(self.n) / 2

    def _line_of(self, rig: FallingRig) -> None:
        middle = (self.at[1:] + self.at[:-1]) / 2
        ends = np.cumsum([piece.length_mm / 1000 for piece in rig.line])
        which = np.minimum(np.searchsorted(ends, middle), len(rig.line) - 1)
        self.d = np.array([rig.line[n].diameter_mm / 1000 for n in which])
        density = np.array([rig.line[n].density_g_cm3 * 1000 for n in which])
        area = np.pi * self.d**2 / 4
        self.line_m = density * area * self.l
        self.line_w = (density - self.rho) * area * self.l * G
        self.added = self.rho * area * self.l
        self.k0 = 4 / (np.log(16 * self.nu / self.d**2) - 0.577)

    def _shot_of(self, rig: FallingRig) -> None:
        for shot in rig.shot:
            place = (rig.length_mm - shot.above_hook_mm) / 1000
            joint = int(np.argmin(abs(self.at[1:] - place)))
            heavy = 1000 * weight_material(shot.material).density_g_cm3
            for load in shot.loads:
                volume = load.mass_g / 1000 / heavy
                across = (6 * volume / math.pi) ** (1 / 3)
                self.joint_m[joint] += load.count * volume * (heavy + self.rho / 2)
                self.joint_w[joint] += load.count * volume * (heavy - self.rho) * G
                half = load.count * self.rho * math.pi * across**2 / 8
                self.bodies.append((joint, half, across / self.nu, True))

    def _end_of(self, rig: FallingRig) -> None:
        hook, rho = rig.hook, self.rho
        volume = hook.mass_mg * 1e-6 / 7850
        self.joint_m[-1] += volume * (7850 + rho)
        self.joint_w[-1] += volume * (7850 - rho) * G
        wire = hook.wire_mm / 1000
        half = 0.35 * rho * wire * hook.wire_length_mm / 1000
        self.bodies.append((self.n - 1, half, wire / self.nu, False))
        if rig.bait:
            across, length = rig.bait.diameter_mm / 1000, rig.bait.length_mm / 1000
            half = 0.35 * rho * across * length
            speed = rig.bait.sinks_m_s
            cold = water_at(10.0)  # in which it was timed
            slow = float(cylinder_factor(np.array(speed * across / cold.kinematic_m2_s)))
            weight = 0.35 * cold.density_kg_m3 * across * length * slow * speed**2
            filled = BAIT_FILLS * math.pi * across**2 / 4 * length
            self.joint_m[-1] += BAIT_CARRIES * rho * filled + weight / G
            self.joint_w[-1] += weight
            self.bodies.append((self.n - 1, half, across / self.nu, False))

    def _float_of(self, rig: FallingRig) -> None:
        float_, rho = rig.float_, self.rho
        assert float_ is not None
        tip_area = math.pi * (float_.tip.diameter_mm / 1000) ** 2 / 4
        self.body, self.under = float_.body_mm / 1000, float_.under_water_mm / 1000
        self.body_area = math.pi * self.body**2 / 4
        displaced = rho * self.body_area * self.under
        own = (float_.own_mass_g + float_.lock_g) / 1000
        self.sway, self.heave = own + displaced, own + HEAVE_SHARE * displaced
        heavy = 1000 * weight_material(float_.rated_in).density_g_cm3
        cold = water_at(10.0).density_kg_m3  # in which it was rated
        own = float_.own_mass_g / 1000
        displaces = (own + float_.capacity_g / 1000 * (1 - cold / heavy)) * rho / cold
        self.spare = (displaces - own - float_.lock_g / 1000 * (1 - rho / heavy)) * G
        self.tip, self.tip_long = rho * G * tip_area, float_.tip.length_mm / 1000

    def start(self) -> Array:
        """Laid straight and level."""
        first = np.zeros(2 * (self.n + 2))
        first[1] = -self.spare / self.tip
        assert -first[1] <= self.tip_long
        return first

    def rates(self, _: float, state: Array) -> Array:
        """Speeds and accelerations of float and angles."""
        n = self.n
        q, v = state[: n + 2], state[n + 2 :]
        c, s = np.cos(q[2:]), np.sin(q[2:])
        turn = v[2:]
        mass = np.zeros((n + 2, n + 2))
        force = np.zeros(n + 2)
        mass[0, 0], mass[1, 1] = self.sway, self.heave
        side, end = abs(v[0]) + 1e-12, abs(v[1])
        factor = float(cylinder_factor(np.array(side * self.body / self.nu)))
        force[0] = -0.5 * self.rho * self.body * self.under * factor * side * v[0]
        force[1] = -0.5 * self.rho * self.body_area * end * v[1]
        force[1] -= 2 * math.pi * self.mu * self.under * v[1]
        force[1] += self.tip * max(0.0, -q[1]) - self.spare
        for which in (self.to_middle, self.to_joint):
            jx, jz = np.empty((n, n + 2)), np.empty((n, n + 2))
            jx[:, 0], jx[:, 1], jz[:, 0], jz[:, 1] = 1, 0, 0, 1
            jx[:, 2:], jz[:, 2:] = which * (-self.l * s), which * (self.l * c)
            vx, vz = jx @ v, jz @ v
            # What the points gain by turning alone.
            gx, gz = which @ (-self.l * c * turn**2), which @ (-self.l * s * turn**2)
            if which is self.to_middle:
                self._line(mass, force, jx, jz, vx, vz, gx, gz, c, s)
            else:
                self._joints(mass, force, jx, jz, vx, vz, gx, gz)
        return np.concatenate([v, np.linalg.solve(mass, force)])

    def _line(
        self,
        mass: Array,
        force: Array,
        jx: Array,
        jz: Array,
        vx: Array,
        vz: Array,
        gx: Array,
        gz: Array,
        c: Array,
        s: Array,
    ) -> None:
        jn = c[:, None] * jz - s[:, None] * jx
        across, along = c * vz - s * vx, c * vx + s * vz
        fast = abs(across) + 1e-12
        reynolds = fast * self.d / self.nu
        push = 0.5 * self.rho * self.d * self.l * cylinder_factor(reynolds) * fast * across
        slide = np.maximum(self.k0, 0.3 + 0.556 * np.sqrt(reynolds))
        drag = math.pi * self.mu * self.l * slide * along
        mass += (jx.T * self.line_m) @ jx + (jz.T * self.line_m) @ jz
        mass += (jn.T * self.added) @ jn
        force += jx.T @ (push * s - drag * c - self.line_m * gx)
        force += jz.T @ (-push * c - drag * s + self.line_w - self.line_m * gz)
        force -= jn.T @ (self.added * (c * gz - s * gx))

    def _joints(
        self,
        mass: Array,
        force: Array,
        jx: Array,
        jz: Array,
        vx: Array,
        vz: Array,
        gx: Array,
        gz: Array,
    ) -> None:
        fx, fz = -self.joint_m * gx, self.joint_w - self.joint_m * gz
        for joint, half, thick, ball in self.bodies:
            fast = math.hypot(vx[joint], vz[joint]) + 1e-12
            law = sphere_factor if ball else cylinder_factor
            each = half * float(law(np.array(fast * thick))) * fast
            fx[joint] -= each * vx[joint]
            fz[joint] -= each * vz[joint]
        mass += (jx.T * self.joint_m) @ jx + (jz.T * self.joint_m) @ jz
        force += jx.T @ fx + jz.T @ fz

    def hook(
        self, seconds: list[float], method: str = "BDF", rtol: float = 1e-3
    ) -> tuple[Array, Array]:
        """x and z of the hook at those seconds, by scipy's solver of that name."""
        found = solve_ivp(
            self.rates,
            (0, seconds[-1]),
            self.start(),
            method=method,
            t_eval=seconds,
            rtol=rtol,
            atol=rtol / 100,
        )
        assert found.success, found.message
        q = found.y[: self.n + 2]
        x = q[0] + self.l @ np.cos(q[2:])
        z = q[1] + self.l @ np.sin(q[2:])
        return x, z
