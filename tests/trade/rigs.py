"""Small rigs for tests of what breaks and what comes free. All invented."""

from tacklebox.trade.passing import Bore, Meets, Obstacle, Rides
from tacklebox.trade.strength import Joint
from tacklebox.trade.towing import Link, Piece, Rig, Stop, Stretch, Thing

HOOK = Thing("hook", "size 18 hook")


def _stretch(name: str, kg: float | None, share: float, meets: Meets, inside: bool) -> Stretch:
    joint = None if kg is None else Joint(name, kg, share * kg, inside)
    return Stretch(Obstacle(name, meets, 0.22), joint, inside)


def plain(name: str, kg: float | None, *, inside: bool = False) -> Stretch:
    """Plain line of 0.22 mm, over which everything slides."""
    return _stretch(name, kg, 0.05, Meets.LINE, inside)


def knot(name: str, kg: float | None, *, inside: bool = False) -> Stretch:
    """A loop, or a knot between lines, in line of 0.22 mm."""
    return _stretch(name, kg, 0.08, Meets.KNOT, inside)


def swivel(name: str, kg: float | None, *, inside: bool = False) -> Stretch:
    """A knot with the swivel it is tied to."""
    return _stretch(name, kg, 0.08, Meets.SWIVEL, inside)


def rubber(name: str, *, tried: bool = False) -> Stop:
    """A rubber stop on the line."""
    return Stop(Obstacle(name, Meets.RUBBER, tried=tried))


def hooklength(kg: float = 1.0) -> tuple[Piece, ...]:
    """A hooklength with its loop and its hook."""
    return (
        knot("hooklength's loop", kg, inside=True),
        knot("hook knot", kg * 1.05, inside=True),
        HOOK,
    )


MAIN, SWIVEL = plain("main line", 2.5), swivel("swivel knot", 2.1)
BEAD = Thing("bead", "bead", "runs free")
RUN_RING = Bore("run ring", Rides.RUN_RING)


def running(*above: Piece, bore: Bore | None = None) -> Rig:
    """A feeder that runs on the main line, a bead and a swivel below it."""
    feeder = Thing("feeder", "cage feeder", "runs free", bore)
    return Rig((MAIN, *above, feeder, BEAD, SWIVEL, *hooklength()))


def paternoster(link_kg: float, *, weak: bool = False) -> Rig:
    """A feeder on a link that is fixed to the main line."""
    joint = Joint("feeder link", link_kg, 0.08 * link_kg, False)
    link = Link((joint,), Thing("feeder", "feeder"), weak=weak)
    return Rig((MAIN, knot("paternoster knot", 2.0), link, *hooklength()))
