"""What a resolved recipe is: its chain from rod to hook, what is on it, and what it needs."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from tacklebox.rigs.recipes.file import Recipe
from tacklebox.rigs.recipes.plumbed import PlumbedDepth
from tacklebox.stock.asks import Ask
from tacklebox.stock.tables import Kind
from tacklebox.trade.hanging import DEPTH_NOT_SAID, FishedDepth
from tacklebox.trade.knots import LOOP_MM, Knot, eaten_mm
from tacklebox.trade.shot import Load, write_pattern
from tacklebox.trade.units_first import show_length

COMES_BACK = (Kind.FLOAT, Kind.FEEDER, Kind.WINDER)  # to stock, when a rig is stripped


@dataclass(frozen=True)
class Need:
    """One thing that stock must serve: for one rig, ``amount`` of an item that meets ``ask``.

    ``part`` names it. ``in_place``: it is on the reel or pole already, or at hand as silicone is, and
    is not taken.
    """

    part: str
    ask: Ask
    amount: int
    in_place: bool = False

    @property
    def comes_back(self) -> bool:
        """Whether it goes back to stock when the rig is stripped."""
        return self.ask.kind in COMES_BACK


@dataclass(frozen=True)
class Segment:
    """A part of a chain, with its finished length (mm; 0 for what is no line) and its knots."""

    name: str
    kind: Kind
    need: Need
    length_mm: float = 0.0
    top: Knot | None = None
    bottom: Knot | None = None
    loop_mm: float = LOOP_MM
    low_mm: float = 0.0  # distance of its lower end from the hook

    @property
    def high_mm(self) -> float:
        """Distance of its upper end from the hook."""
        return self.low_mm + self.length_mm

    @property
    def cut_mm(self) -> float:
        """What is cut from the spool: the finished length and what the knots eat."""
        return self.length_mm + sum(eaten_mm(k, self.loop_mm) for k in (self.top, self.bottom) if k)


@dataclass(frozen=True)
class Branch:
    """A side branch: its chain from the line outwards and where it hangs.

    ``bears_hook``: the hook or the hooklength is at its end. ``weak``: it is a weak link.
    """

    name: str
    hangs_from: str
    chain: tuple[Segment, ...]
    bears_hook: bool = False
    weak: bool = False


@dataclass(frozen=True)
class OnLine:
    """Something on a line, at a distance from the hook; ``held_by`` is what holds a float there."""

    name: str
    kind: Kind
    need: Need
    on: str
    held: str
    at_mm: float
    bore_mm: float | None = None
    is_seated: bool = False
    is_tried: bool = False
    held_by: Need | None = None


@dataclass(frozen=True)
class PlacedShot:
    """A group of weights with the distance of each from the hook, highest first."""

    place: str
    loads: tuple[Load, ...]
    positions_mm: tuple[float, ...]

    @property
    def words(self) -> str:
        """The group as an angler writes it."""
        pattern = write_pattern(self.loads)
        low, high = (show_length(self.positions_mm[end]) for end in (-1, 0))
        if self.place == "at the float":
            return f"{pattern} at the float"
        if low == high:
            return f"{pattern} at {low}"
        spread = "spread " if self.place == "spread" else ""
        figure, _, unit = low.partition(" ")
        return f"{pattern} {spread}{figure if high.partition(' ')[2] == unit else low}–{high}"


@dataclass(frozen=True)
class Resolved:
    """A recipe with its choices made: chain rod to hook, what is on it, and what it needs.

    ``free_running_by`` names who asks, beside the recipe itself, that its weights come free.
    """

    recipe: Recipe
    chosen: Mapping[str, str]
    chain: tuple[Segment, ...]
    along: tuple[OnLine, ...]
    branches: tuple[Branch, ...]
    shot: tuple[PlacedShot, ...]
    shot_needs: tuple[Need, ...]
    winder: Need | None
    hooklength: "Resolved | None"
    fished: FishedDepth = DEPTH_NOT_SAID
    plumbed: PlumbedDepth = field(default_factory=PlumbedDepth)
    free_running_by: str = ""

    @property
    def hook_branch(self) -> Branch | None:
        """The branch that bears the hook or hooklength; None where the chain itself does."""
        return next((branch for branch in self.branches if branch.bears_hook), None)

    @property
    def branch_at_mm(self) -> float:
        """How far from the hook that branch hangs: what is nearer on the chain is its tail."""
        branch = self.hook_branch
        if branch is None:
            return 0.0
        below = self.hooklength.length_mm if self.hooklength else 0.0
        return below + sum(segment.length_mm for segment in branch.chain)

    @property
    def length_mm(self) -> float:
        """Length of the chain that is tied, without the hooklength and what is on the reel."""
        return sum(s.length_mm for s in self.chain if not s.need.in_place)

    @property
    def needs(self) -> tuple[Need, ...]:
        """Everything stock must serve for one of it, rod to hook; without the hooklength."""
        segments = [*self.chain, *(s for branch in self.branches for s in branch.chain)]
        winder = [self.winder] if self.winder else []
        holding = {a.held_by.part: a.held_by for a in self.along if a.held_by}
        along = (*(a.need for a in self.along), *holding.values())
        return (*(s.need for s in segments), *along, *self.shot_needs, *winder)

    @property
    def shot_mass_g(self) -> float:
        """Mass of all shot and olivettes on the line, in g."""
        return sum(load.total_g for group in self.shot for load in group.loads)
