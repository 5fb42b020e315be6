"""A fitted rig as a chain from rod to hook: what can break, what is on the line, what hangs from it.

It is built where no strength is known too, for what comes free does not hang on strengths.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import dropwhile

from tacklebox.rigs.checking.joints import Bond, bonds_of, chain_of, joints_by_bond, tail_of
from tacklebox.rigs.fitting import Fit
from tacklebox.rigs.recipes.resolved import Branch, OnLine, PlacedShot, Segment
from tacklebox.stock.naming.kin import general
from tacklebox.stock.tables import Feeder, Figures, Kind, Part
from tacklebox.trade.passing import Bore, Meets, Obstacle, Rides
from tacklebox.trade.shot import Load, write_pattern
from tacklebox.trade.strength import Joint, rated_joint
from tacklebox.trade.towing import HEAVY, RUNS, WEIGHTS, Link, Piece, Rig, Stop, Stretch, Thing

_RIDES = {
    "ring": Rides.RUN_RING,
    "run ring": Rides.RUN_RING,
    "tube": Rides.TUBE,
    "sleeve": Rides.TUBE,
}
_AT_SAME_PLACE_MM = 0.5


def rig_of(fit: Fit) -> Rig | None:
    """The fitted rig as a chain; None for a hooklength alone, or where nothing that can break is
    above the hooklength."""
    if fit.resolved.recipe.makes != "rig":
        return None
    # Above the first line, in the elastic or its connector, nothing can break that is known.
    pieces = tuple(dropwhile(lambda piece: not isinstance(piece, Stretch), _pieces(fit)))
    stretches = [piece for piece in pieces if isinstance(piece, Stretch)]
    if not stretches or stretches[0].in_hooklength or not stretches[-1].in_hooklength:
        return None
    return Rig(pieces)


def _pieces(fit: Fit) -> Iterator[Piece]:
    """From rod to hook. Plain line counts as above what is on it: a break there leaves most."""
    branches = {id(one): _Branches(one) for one in (fit, fit.hooklength) if one}
    for joints in joints_by_bond(bonds_of(fit)):
        bond, segment = joints.bond, joints.bond.segment
        own = branches[id(bond.fit)]
        if segment.kind is Kind.HOOK:
            yield Thing("hook", segment.name)
            return
        if segment.kind is Kind.LINE:
            if segment.top and not bond.is_bought:
                yield _knot(bond, joints.top, segment.top.use)
            yield _stretch(bond, joints.plain, Obstacle(segment.name, Meets.LINE, bond.line_mm))
            yield from own.on_line(segment.name)
            if segment.bottom and bond.is_loaded_below and not bond.is_bought:
                yield _knot(bond, joints.bottom, segment.bottom.use)
        elif segment.kind is Kind.FEEDER:
            yield Thing(_what(segment.kind, bond.figures), segment.name, "on its stem")
        elif joints.plain is not None:
            yield _stretch(bond, joints.plain, Obstacle(segment.name, Meets.SWIVEL))
        elif not bond.is_on_line:  # a connector without a rating still stops what slides
            yield Stop(Obstacle(segment.name, Meets.SWIVEL))
        if not bond.is_on_line:
            yield from own.hanging_from(segment.name)


def _stretch(bond: Bond, joint: Joint | None, obstacle: Obstacle) -> Stretch:
    return Stretch(obstacle, joint, joint.in_hooklength if joint else bond.in_hooklength)


def _knot(bond: Bond, joint: Joint | None, use: str) -> Stretch:
    name = f"{bond.segment.name}'s {'loop' if use == 'loop' else 'knot'}"
    return _stretch(bond, joint, Obstacle(name, Meets.KNOT, bond.line_mm))


class _Branches:
    """What is on the lines of one fit, a rig's or a hooklength's, and what hangs from its parts."""

    def __init__(self, fit: Fit) -> None:
        self.fit, self.resolved = fit, fit.resolved
        self.along = {thing.name: thing for thing in fit.resolved.along}
        hooks = fit.resolved.hook_branch
        self.branches = [branch for branch in fit.resolved.branches if branch is not hooks]
        self.tail = tail_of(fit.resolved)
        self.bearer = hooks.hangs_from if hooks else ""

    def on_line(self, line: str) -> list[Piece]:
        """What is on a line, from above down, with what hangs from it."""
        placed: list[tuple[float, Piece]] = []
        for thing in self.resolved.along:
            if thing.on == line:
                placed.extend((thing.at_mm, piece) for piece in self._with_branches(thing))
        for group in self.resolved.shot:
            placed.extend(self._shot_on(line, group))
        # Python's sort keeps the file's order where two things are at the same place.
        return [piece for _, piece in sorted(placed, key=lambda pair: -pair[0])]

    def _with_branches(self, thing: OnLine) -> list[Piece]:
        """A thing and what hangs from it; what only bears branches counts as part of those."""
        own, links = self._thing(thing), list(self.hanging_from(thing.name))
        is_weight = isinstance(own, Thing) and own.what in HEAVY
        return [own, *links] if is_weight or not links else [*links]

    def _thing(self, thing: OnLine) -> Piece:
        figures = _figures(self.fit, thing.name)
        sort = _sort(self.fit, thing.name)
        if sort == "stop" or (sort == "bead" and thing.held not in RUNS):
            return Stop(Obstacle(thing.name, Meets.RUBBER, tried=thing.is_tried))
        what = _what(thing.kind, figures)
        held = thing.held
        if what in WEIGHTS and held in ("one point", "two points"):
            held = "fixed"  # a weight that is locked on the line is a fixed rig
        seated = thing.is_seated and not thing.is_tried
        return Thing(what or sort, thing.name, held, self._bore(thing), seated)

    def _bore(self, thing: OnLine) -> Bore:
        rides = _RIDES.get(_sort(self.fit, thing.name), Rides.EYE)
        if thing.kind is Kind.FEEDER and thing.held == "in line":
            rides = Rides.TUBE
        return Bore(thing.name, rides, thing.bore_mm)

    def _shot_on(self, line: str, group: PlacedShot) -> Iterator[tuple[float, Piece]]:
        """The shot of a group on one line, loads that are together as one."""
        names = [s.name for s in self.resolved.chain if s.kind is Kind.LINE]
        places: dict[float, list[Load]] = {}
        positions = iter(group.positions_mm)
        for load in group.loads:
            for _ in range(load.count):
                places.setdefault(next(positions), []).append(replace(load, count=1))
        for at, loads in places.items():
            on = next((n for n in names if self._bears(n, at)), None)
            if on == line:
                counted = _counted(loads)
                kinds = {load.kind for load in loads}
                what = "olivette" if kinds == {"olivette"} else "shot"
                yield at, Thing(what, write_pattern(counted), "one point")

    def _bears(self, name: str, at_mm: float) -> bool:
        line = next(s for s in self.resolved.chain if s.name == name)
        if line.need.in_place and not line.length_mm:  # it runs on to the reel
            return at_mm >= line.low_mm - _AT_SAME_PLACE_MM
        return line.low_mm - _AT_SAME_PLACE_MM <= at_mm <= line.high_mm + _AT_SAME_PLACE_MM

    def hanging_from(self, name: str) -> Iterator[Piece]:
        """What hangs from a part of the rig itself: its branches, and theirs; below what bears the
        hook's branch, the tail of the chain."""
        bearer = self.along.get(name)
        held = bearer.held if bearer and bearer.held in (*RUNS, "in a loop") else "fixed"
        bore = self._bore(bearer) if bearer else None
        rated = self._rating(name) if bearer else ()
        for branch in self.branches:
            if branch.hangs_from == name:
                yield from self._links(branch, rated, held, bore)
        if name == self.bearer:
            for thing, joints, known in self._weights_of(self.tail, ()):
                hung = Thing(thing.what, thing.name, held, bore)
                yield Link(joints, hung, known, behind=held in RUNS)

    def _rating(self, name: str) -> tuple[Joint, ...]:
        figures = _figures(self.fit, name)
        if isinstance(figures, Part) and figures.breaks_at_kg is not None:
            return (rated_joint(name, figures.breaks_at_kg, False),)
        return ()

    def _links(
        self, branch: Branch, above: tuple[Joint, ...], held: str, bore: Bore | None
    ) -> Iterator[Link]:
        """Everything that hangs from a branch, by the joints on its way: the branch's own as far as
        it, and those of the branches that bear it."""
        for thing, joints, known in self._weights_of(branch.chain, above):
            hung = Thing(thing.what, thing.name, held, bore)
            yield Link(joints, hung, known, weak=branch.weak)
        bonds = chain_of(self.fit, branch.chain)
        for number, segment in enumerate(branch.chain):
            on_way = joints_by_bond(bonds[: number + 1])
            joints = (*above, *(joint for one in on_way for joint in one.known))
            for other in self.branches:
                if other.hangs_from == segment.name:
                    yield from self._links(other, joints, held, bore)

    def _weights_of(
        self, chain: Sequence[Segment], above: tuple[Joint, ...]
    ) -> Iterator[tuple[Thing, tuple[Joint, ...], bool]]:
        """The feeders and floats of a branch with the joints on the way to each, and whether all
        of those are known; where it has none, what is at its end."""
        bonds = chain_of(self.fit, chain)
        carried = [s for s in chain if s.kind in (Kind.FEEDER, Kind.FLOAT)] or list(chain[-1:])
        for segment in carried:
            on_way = bonds[: chain.index(segment) + 1]
            joints = (*above, *(j for one in joints_by_bond(on_way) for j in one.known))
            known = all(bond.is_known for bond in on_way)
            thing = Thing(_what(segment.kind, _figures(self.fit, segment.name)), segment.name)
            yield thing, joints, known


def _counted(loads: Sequence[Load]) -> tuple[Load, ...]:
    """Equal loads as one."""
    return tuple(replace(load, count=n) for load, n in Counter(loads).items())


def _figures(fit: Fit, part: str) -> Figures | None:
    item = fit.serving(part).item
    return item.figures if item else None


def _sort(fit: Fit, part: str) -> str:
    """The sort of a small part: of what serves it, else as it is asked for; "" for another kind."""
    serving = fit.serving(part)
    if serving.item and isinstance(serving.item.figures, Part):
        sort = serving.item.figures.sort
        return sort if sort in _RIDES else general(sort)
    wishes = {key: wish for key, _, wish in serving.need.ask.wanted}
    wish = wishes.get("sort", frozenset())
    return next(iter(wish)) if isinstance(wish, frozenset) and len(wish) == 1 else ""


def _what(kind: Kind, figures: Figures | None) -> str:
    if isinstance(figures, Feeder):
        return "bomb" if general(figures.shape) == "bomb" else "feeder"
    return str(kind)
