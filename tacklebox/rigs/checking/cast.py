"""The cast of a fitted rig: its feeder or bomb, with load, on the line that bears it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.checking.joints import Bond, Joints, chain_of, joints_by_bond
from tacklebox.rigs.fitting import Fit
from tacklebox.rigs.recipes.resolved import Resolved, Segment
from tacklebox.stock.tables import Feeder, Kind
from tacklebox.trade.casting import LEADER_LEAST_MM, SWEEP_M, judge_casting
from tacklebox.trade.judgement import Check, Judgement, Outcome
from tacklebox.trade.sources import MEASURED, PRINTED, Basis
from tacklebox.trade.strength import Joint


@dataclass(frozen=True)
class Cast:
    """A cast to be judged: how far in m, the feeder's load in g, the rod-tip travel in m."""

    distance_m: float
    load_g: float = 0.0
    sweep_m: float = SWEEP_M


def judge_cast(fit: Fit, cast: Cast) -> Iterator[Judgement]:
    """Whether the line that bears the cast stands it after its weakest knot: a leader of the
    recipe's own, else main line and all below it; and the link that the weight hangs from.

    Raises AskedWronglyError for a rig with neither feeder nor bomb.
    """
    weights = [name for name, _ in _weights(fit.resolved)]
    if not weights:
        raise AskedWronglyError(
            f"{fit.resolved.recipe.name} has neither feeder nor bomb to cast.",
            field="distance",
            right="Leave it out, or name a feeder rig.",
        )
    items = [item.figures for name in weights if (item := fit.serving(name).item)]
    masses = [figures.mass_g for figures in items if isinstance(figures, Feeder)]
    known = [mass for mass in masses if mass is not None]
    bearing = list(_bearing(fit))
    if len(masses) < len(weights) or not bearing:
        says = "nobody knows whether the line stands it: the feeder or the main line is missing"
        yield Judgement("casting", Outcome.DOUBTFUL, says, key=Check.CASTING)
        return
    if len(known) < len(masses):
        says = "nobody knows whether the line stands it: what the feeder weighs is not known"
        yield Judgement("casting", Outcome.DOUBTFUL, says, key=Check.CASTING)
        return
    line, weakest = min(bearing, key=lambda pair: pair[1].mean_kg)
    pulled = any(fact.source.basis is Basis.MEASURED for fact in weakest.facts)
    yield judge_casting(
        weakest.mean_kg,
        sum(known),
        cast.load_g,
        cast.distance_m,
        cast.sweep_m,
        line=line,
        line_source=MEASURED if pulled else PRINTED,
    )


def _weights(resolved: Resolved) -> Iterator[tuple[str, str]]:
    """Each feeder and bomb with the part of the chain that bears it in the end."""
    yield from ((a.name, a.on) for a in resolved.along if a.kind is Kind.FEEDER)
    yield from ((s.name, s.name) for s in resolved.chain if s.kind is Kind.FEEDER)
    for branch in resolved.branches:
        root = _root(resolved, branch.hangs_from)
        yield from ((s.name, root) for s in branch.chain if s.kind is Kind.FEEDER)


def _root(resolved: Resolved, name: str) -> str:
    """The part of the chain that bears a branch in the end."""
    for thing in resolved.along:
        if thing.name == name:
            return thing.on
    for branch in resolved.branches:
        if any(segment.name == name for segment in branch.chain):
            return _root(resolved, branch.hangs_from)
    return name


def _bearing(fit: Fit) -> Iterator[tuple[str, Joint]]:
    """The joints that the cast loads, each with the line or part that it is in."""
    resolved = fit.resolved
    names = [segment.name for segment in resolved.chain]
    loaded = max(names.index(root) for _, root in _weights(resolved))
    above = [s for s in resolved.chain[: loaded + 1] if s.kind is Kind.LINE]
    leader = next((s for s in reversed(above[1:]) if s.length_mm >= LEADER_LEAST_MM), None)
    first = names.index(leader.name) if leader else 0
    for joints in joints_by_bond(chain_of(fit, resolved.chain[first : loaded + 1])):
        is_leader = leader is not None and joints.bond.segment.name == leader.name
        yield from _named(joints, without_top=is_leader)
    for branch in resolved.branches:
        if any(segment.kind is Kind.FEEDER for segment in branch.chain):
            for joints in joints_by_bond(_as_far_as_the_weight(fit, branch.chain)):
                yield from _named(joints)


def _named(joints: Joints, *, without_top: bool = False) -> Iterator[tuple[str, Joint]]:
    """A leader's upper knot is on the reel in the cast."""
    for joint in joints.known:
        if not (without_top and joint is joints.top):
            yield joints.bond.segment.name, joint


def _as_far_as_the_weight(fit: Fit, chain: Sequence[Segment]) -> tuple[Bond, ...]:
    last = max(n for n, segment in enumerate(chain) if segment.kind is Kind.FEEDER)
    return chain_of(fit, chain[: last + 1])
