"""Checks: judgements on a fitted recipe, from the trade's figures alone.

No check reads the database; each hands back an outcome, a sentence and its figures.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from tacklebox.rigs.fit import Fit, Serving
from tacklebox.rigs.resolve import Segment
from tacklebox.stock.tables import Float, Hook, Kind, Line, Part, Weight, Winder
from tacklebox.trade.balance import judge_shot_load
from tacklebox.trade.hooks import judge_hook_and_line
from tacklebox.trade.judgement import Judgement, Outcome, worst
from tacklebox.trade.law import judge_lead
from tacklebox.trade.strength import (
    Joint,
    judge_join,
    judge_step,
    judge_strength,
    line_joint,
    rated_joint,
)
from tacklebox.trade.winding import judge_winding


@dataclass(frozen=True)
class _Link:
    """One segment with the item that serves it, and whether it belongs to the hooklength."""

    segment: Segment
    serving: Serving
    in_hooklength: bool

    @property
    def line(self) -> Line | None:
        """The line that serves it, or None."""
        figures = self.serving.item.figures if self.serving.item else None
        return figures if isinstance(figures, Line) else None


@dataclass(frozen=True)
class Checked:
    """A fit with its judgements; the outcome is that of the worst."""

    fit: Fit
    judgements: tuple[Judgement, ...]

    @property
    def outcome(self) -> Outcome:
        """The outcome of all judgements together."""
        return worst([j.outcome for j in self.judgements])

    @property
    def refusals(self) -> tuple[Judgement, ...]:
        """The judgements for which it will not do."""
        return tuple(j for j in self.judgements if j.outcome is Outcome.WILL_NOT_DO)


def check(fit: Fit, sound_from: float = 0.95, look_from: float = 0.80) -> Checked:
    """Every judgement on a fitted recipe, the strength chain first.

    ``sound_from`` and ``look_from`` are the chances that the hooklength goes first from which a
    rig is sound, or to be looked at again.
    """
    links = _links(fit)
    judgements: list[Judgement] = []
    if fit.resolved.recipe.makes == "rig":
        judgements.append(_strength(links, sound_from, look_from))
        judgements += _steps(links)
    judgements += _joins(links)
    judgements += _hook(links)
    judgements += _shot_and_float(fit)
    judgements += _lead(fit)
    judgements += _winder(fit)
    return Checked(fit, tuple(judgements))


def _links(fit: Fit) -> list[_Link]:
    below = _links(fit.hooklength) if fit.hooklength else []
    alone = fit.resolved.recipe.makes == "hooklength"
    own = [_Link(s, fit.serving(s.name), alone) for s in fit.resolved.chain]
    return own + below


def _unknown(links: Sequence[_Link]) -> Iterator[str]:
    """Parts whose strength nobody knows: not served, or no strain printed."""
    for link in links:
        figures = link.serving.item.figures if link.serving.item else None
        if link.segment.kind is Kind.LINE and (
            not isinstance(figures, Line) or figures.breaks_at_kg is None
        ):
            yield link.segment.name


def _joints(links: Sequence[_Link]) -> list[Joint]:
    has_hooklength = any(link.in_hooklength for link in links)
    joints: list[Joint] = []
    for index, link in enumerate(links):
        segment, line = link.segment, link.line
        figures = link.serving.item.figures if link.serving.item else None
        if isinstance(figures, Part) and figures.breaks_at_kg is not None:
            joints.append(rated_joint(segment.name, figures.breaks_at_kg, link.in_hooklength))
        if line is None or line.breaks_at_kg is None:
            continue
        at_hook = index + 1 < len(links) and links[index + 1].segment.kind is Kind.HOOK
        # Without a hooklength, the knot at the hook is what should give first.
        last = link.in_hooklength or (not has_hooklength and at_hook)
        wanted = (
            (segment.top, "top of", link.in_hooklength),
            (None, "", link.in_hooklength),
            (segment.bottom, "bottom of", last),
        )
        for knot, where, gives_first in wanted:
            if where and knot is None:
                continue
            name = (
                f"{knot.name} at the {where} the {segment.name}" if knot else f"the {segment.name}"
            )
            joints.append(line_joint(name, line.material, line.breaks_at_kg, knot, gives_first))
    return joints


def _strength(links: Sequence[_Link], sound_from: float, look_from: float) -> Judgement:
    unknown = list(_unknown(links))
    joints = _joints(links)
    both_sides = {j.in_hooklength for j in joints} == {True, False}
    if unknown or not both_sides:
        missing = ", ".join(unknown) or "what is above the hooklength"
        says = f"nobody knows which goes first: no strain is known of {missing}"
        return Judgement("strength chain", Outcome.LOOK_AGAIN, says)
    return judge_strength(joints, sound_from, look_from)


def _steps(links: Sequence[_Link]) -> Iterator[Judgement]:
    above = [link.line for link in links if not link.in_hooklength and link.line]
    below = [link.line for link in links if link.in_hooklength and link.line]
    if above and below:
        yield judge_step(above[-1].diameter_mm, below[0].diameter_mm)


def _joins(links: Sequence[_Link]) -> Iterator[Judgement]:
    """Lines that meet directly: knotted to one another, or loop to loop."""
    for upper, lower in pairwise(links):
        knot = upper.segment.bottom
        if upper.line and lower.line and knot:
            joined_by = knot.name if knot.use == "line" else "loops"
            yield judge_join(upper.line.diameter_mm, lower.line.diameter_mm, joined_by)


def _hook(links: Sequence[_Link]) -> Iterator[Judgement]:
    for upper, lower in pairwise(links):
        hook = lower.serving.item.figures if lower.serving.item else None
        if upper.line and isinstance(hook, Hook):
            yield judge_hook_and_line(hook.size, upper.line.diameter_mm)


def _shot_and_float(fit: Fit) -> Iterator[Judgement]:
    for thing in fit.resolved.along:
        if thing.kind is not Kind.FLOAT:
            continue
        item = fit.serving(thing.name).item
        if item and isinstance(item.figures, Float):
            yield judge_shot_load(item.figures.capacity_g, _shot_mass_g(fit))
        else:
            says = "no float is chosen, so nobody knows whether the shot suits it"
            yield Judgement("shot and float", Outcome.LOOK_AGAIN, says)


def _shot_mass_g(fit: Fit) -> float:
    """The shot's mass from the items that serve it, nominal where there is none."""
    total = 0.0
    for need in fit.resolved.shot_needs:
        item = fit.serving(need.part).item
        nominal = next(
            load.mass_g
            for group in fit.resolved.shot
            for load in group.loads
            if f"{load.kind} {load.mark}" == need.part
        )
        mass = item.figures.mass_g if item and isinstance(item.figures, Weight) else nominal
        total += need.amount * mass
    return total


def _lead(fit: Fit) -> Iterator[Judgement]:
    for serving in fit.servings:
        figures = serving.item.figures if serving.item else None
        if isinstance(figures, Weight) and figures.material == "lead":
            verdict = judge_lead(figures.material, figures.mass_g, f"{figures.form} {figures.mark}")
            if verdict.outcome is not Outcome.SOUND:
                yield verdict


def _winder(fit: Fit) -> Iterator[Judgement]:
    winder = fit.resolved.winder
    item = fit.serving("winder").item if winder else None
    if item and isinstance(item.figures, Winder) and fit.resolved.length_mm > 0:
        yield judge_winding(fit.resolved.length_mm, item.figures.length_mm)
