"""What slides over what: the bore of a thing on the line against what it meets there."""

from dataclasses import dataclass
from enum import StrEnum

from tacklebox.trade.judgement import Fact
from tacklebox.trade.limits import within
from tacklebox.trade.sources import BY_RECIPE, COMMON, MEMORY, OUR_CHOICE

KNOT_WIDTHS = 12.0  # a knot with its tags is so many diameters of its line wide (our choice)
RUN_RING_MM = 3.0  # bore of a large-bore run ring that nobody measured (from memory)
BORE_LIMIT_MM = 30.0


class Rides(StrEnum):
    """What a thing has its line run through."""

    EYE = "eye"  # of a swivel, a snap link, a bead
    RUN_RING = "run ring"
    TUBE = "tube"  # through a feeder, a bomb, a boom


class Meets(StrEnum):
    """What is met on a line."""

    LINE = "line"
    KNOT = "knot"  # a loop or a knot between lines, with its tags
    SWIVEL = "swivel"  # or any part that is tied in
    SHOT = "shot"  # or whatever else is pinched or locked on the line
    RUBBER = "rubber"  # a rubber stop, a push-fit bead: it gives way under pull


class Passes(StrEnum):
    """Whether the one slides over the other, best first."""

    YES = "passes"
    TRY_IT = "try it by hand"
    NO = "does not pass"


@dataclass(frozen=True, slots=True)
class Bore:
    """The bore of a thing that runs on a line; ``mm`` where it is known, above 0 and up to 30.

    Raises AskedWronglyError outside.
    """

    name: str
    rides: Rides = Rides.EYE
    mm: float | None = None

    def __post_init__(self) -> None:
        if self.mm is not None:
            within(self.mm, 0, BORE_LIMIT_MM, "a bore", "mm", above=True, where=self.name)

    @property
    def width_mm(self) -> float | None:
        """Its bore in mm as far as it is known: that of a run ring is, more or less."""
        return RUN_RING_MM if self.mm is None and self.rides is Rides.RUN_RING else self.mm


@dataclass(frozen=True, slots=True)
class Obstacle:
    """What a bore meets: of a line or a knot in it, the line's diameter in mm where it is known;
    ``tried`` says that the angler pulled it over by hand."""

    name: str
    meets: Meets
    line_mm: float | None = None
    tried: bool = False


def knot_width_mm(line_mm: float) -> float:
    """How wide a knot in that line is with its tags, in mm: 12 × the line's diameter.

    Line in mm, above 0. Source: our choice.

    >>> round(knot_width_mm(0.22), 2)
    2.64
    """
    return KNOT_WIDTHS * line_mm


def passes(bore: Bore, obstacle: Obstacle) -> Passes:
    """Whether a bore slides over what it meets.

    Plain line always, unless it is thicker than the bore. The eye of a swivel or snap link passes
    no loop and no knot; a bore that is known passes a knot up to its own width (see
    ``knot_width_mm``), and that of a run ring is known. Nothing passes a swivel or what is locked
    on the line. Rubber gives way: it has to be tried by hand. Sources: common practice; how wide a
    knot is, our choice.

    >>> loop = Obstacle("the main line's loop", Meets.KNOT, 0.22)
    >>> passes(Bore("link swivel"), loop).value
    'does not pass'
    >>> passes(Bore("run ring", Rides.RUN_RING), loop).value
    'passes'
    """
    if obstacle.meets in (Meets.SWIVEL, Meets.SHOT):
        return Passes.NO
    if obstacle.meets is Meets.RUBBER:
        return Passes.YES if obstacle.tried else Passes.TRY_IT
    width, line_mm = bore.width_mm, obstacle.line_mm
    if obstacle.meets is Meets.LINE:
        too_thick = width is not None and line_mm is not None and line_mm >= width
        return Passes.NO if too_thick else Passes.YES
    if width is None:
        return Passes.NO
    if line_mm is None:
        return Passes.TRY_IT
    return Passes.YES if knot_width_mm(line_mm) <= width + 1e-9 else Passes.NO


def facts_of(bore: Bore, obstacles: tuple[Obstacle, ...]) -> tuple[Fact, ...]:
    """The figures that ``passes`` went by."""
    knots = [o for o in obstacles if o.meets is Meets.KNOT]
    if not knots:
        return ()
    if bore.width_mm is None:
        return (Fact(f"{bore.name}'s eye passes a loop or knot", "no", "", COMMON),)
    source = BY_RECIPE if bore.mm is not None else MEMORY
    widths = (
        Fact(f"{o.name} is wide", knot_width_mm(o.line_mm), "mm", OUR_CHOICE)
        for o in knots
        if o.line_mm is not None
    )
    return (Fact(f"bore of the {bore.name}", bore.width_mm, "mm", source), *widths)
