"""Rigs at the edges of what is fished: light and heavy, short and deep, cold and warm; floats carry all."""

from tacklebox.trade.balance import Tip
from tacklebox.trade.settling.rig import FallingFloat, FallingRig, LinePiece, Weights
from tacklebox.trade.settling.sizes import FallingBait, bait_named, hook_of_size
from tacklebox.trade.shot import read_pattern
from tests.trade.settling.chains import worked_rig

HEAVY_BAIT = FallingBait("heavy bait", 0.3, 8.0, 8.0)
LIGHT_BAIT = FallingBait("light bait", 0.005, 3.0, 11.0)
Places = tuple[tuple[float, str], ...]


def edge(
    line: tuple[tuple[float, float], ...],
    hook: str,
    bait: FallingBait,
    shot: Places,
    lock_g: float = 1.0,
    *,
    tip: tuple[float, float] = (3.0, 250.0),
    own_mass_g: float = 2.5,
    water_c: float = 10.0,
    material: str = "tin",
) -> FallingRig:
    """A rig by its pieces of line (length, diameter) and shot (above the hook, which)."""
    placed = tuple(Weights(above, read_pattern(marks), material) for above, marks in shot)
    down_g = sum(at.mass_g for at in placed)
    return FallingRig(
        tuple(LinePiece(length, diameter) for length, diameter in line),
        hook_of_size(hook),
        bait,
        placed,
        FallingFloat(lock_g + down_g + 0.05, Tip(*tip), lock_g, own_mass_g=own_mass_g),
        temperature_c=water_c,
    )


MAGGOT, PINKIE, CASTER = (bait_named(name) for name in ("maggot", "pinkie", "caster"))
EDGES = {
    "4 m, 40 shot, 0.25 mm, 0 °C": edge(
        ((3700, 0.25), (300, 0.25)),
        "20",
        MAGGOT,
        tuple((100.0 * n + 50, "No 10") for n in range(40)),
        2.3,
        tip=(3.0, 400.0),
        water_c=0.0,
    ),
    "one shot": edge(((1500, 0.12), (150, 0.10)), "18", MAGGOT, ((300, "No 8"),)),
    "one dust shot": edge(((900, 0.10), (100, 0.08)), "22", PINKIE, ((150, "No 13"),), 0.3),
    "no shot down the line": edge(((1200, 0.12), (300, 0.10)), "20", MAGGOT, ()),
    "a bulk alone": edge(((1800, 0.14), (200, 0.12)), "18", CASTER, ((500, "6 No 8"),)),
    "4 m, heavy": edge(
        ((3700, 0.16), (300, 0.14)),
        "14",
        HEAVY_BAIT,
        ((900, "2 AAA"), (450, "BB")),
        3.0,
        tip=(4.0, 400.0),
        own_mass_g=8.0,
    ),
    "2.5 m, light": edge(
        ((2300, 0.10), (200, 0.07)), "24", LIGHT_BAIT, ((1000, "No 12"), (500, "No 13")), 0.4
    ),
    "30 °C": worked_rig(temperature_c=30.0),
    "0 °C": worked_rig(temperature_c=0.0),
    "shallow, a pellet": edge(
        ((450, 0.16), (150, 0.14)), "16", bait_named("4 mm pellet"), ((200, "3 No 8"),)
    ),
    "lead, strung out": edge(
        ((1600, 0.13), (200, 0.10)),
        "18",
        MAGGOT,
        ((1400, "No 8"), (1000, "No 8"), (600, "No 9"), (250, "No 10")),
        material="lead",
    ),
    "a big hook": edge(
        ((1000, 0.18), (200, 0.16)), "12", bait_named("5 mm pellet"), ((200, "AAA"),)
    ),
    "20 cm": edge(((150, 0.08), (50, 0.06)), "26", PINKIE, ((80, "No 13"),), 0.1, own_mass_g=0.2),
    "styls, a heavy bait": edge(
        ((1100, 0.12), (150, 0.10)), "18", HEAVY_BAIT, ((400, "5 styl No 10"), (200, "No 11"))
    ),
    "fine line, all at the loop": edge(
        ((1200, 0.06), (100, 0.05)), "24", PINKIE, ((100, "6 No 11"),), 0.5
    ),
    "all by the hook": edge(
        ((2000, 0.20), (150, 0.17)), "14", MAGGOT, ((150, "SSG"),), 2.0, tip=(4.0, 300.0)
    ),
}
