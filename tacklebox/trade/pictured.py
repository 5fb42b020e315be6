"""What a judgement can be drawn from: the figures alone, without a word of how."""

from dataclasses import dataclass
from enum import StrEnum

TURNS = "turns"  # the unit of what is counted on a winder


@dataclass(frozen=True, slots=True)
class CutAcross:
    """Lines by their names and diameters in mm, to be drawn to one scale; the last is usually no thicker
    than ``at_most_mm``, 0 where that is no matter."""

    lines: tuple[tuple[str, float], ...]
    at_most_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class UsualBand:
    """What is usual, from ``low`` to ``high``; ``own`` is one that counts here, ``value`` a figure that
    is looked for in it alone."""

    name: str
    low: float
    high: float
    own: bool = True
    value: float | None = None


@dataclass(frozen=True, slots=True)
class OnBands:
    """Figures among bands of what is usual, all in ``unit``; ``value`` is looked for in all of them."""

    name: str
    value: float | None
    unit: str
    bands: tuple[UsualBand, ...]


class ShotPart(StrEnum):
    """What a shot is to a bulk."""

    ABOVE = "above it"
    BULK = "bulk"
    TRIMS = "trims it"
    BELOW = "below it"


@dataclass(frozen=True, slots=True)
class Pinched:
    """One weight on the line; its mass in g."""

    kind: str
    mark: str
    mass_g: float
    part: ShotPart


@dataclass(frozen=True, slots=True)
class ShotInOrder:
    """The weights of a line, from the float down."""

    shot: tuple[Pinched, ...]


@dataclass(frozen=True, slots=True)
class OnTheWay:
    """One thing that is met: what it is, how wide in mm where that is known, and whether it is passed."""

    name: str
    meets: str
    width_mm: float | None
    passes: str


@dataclass(frozen=True, slots=True)
class WayPast:
    """What a bore meets on its way off, nearest first; its width in mm where it is known."""

    bore: str
    bore_mm: float | None
    met: tuple[OnTheWay, ...]


@dataclass(frozen=True, slots=True)
class ShankEnd:
    """A hook's shank end, and the knot that is to hold on it."""

    size: str
    end: str
    knot: str


@dataclass(frozen=True, slots=True)
class HeldBetween:
    """A float, and whether shot or a stop holds it from above and below."""

    name: str
    above: bool
    below: bool


Pictured = CutAcross | OnBands | ShotInOrder | WayPast | ShankEnd | HeldBetween
