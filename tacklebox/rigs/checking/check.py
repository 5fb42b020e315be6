"""Checks: judgements on a fitted recipe, from the trade's figures alone.

No check reads the database; each hands back an outcome, a sentence and its figures.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from tacklebox.rigs.checking.breaks import tree_of
from tacklebox.rigs.checking.cast import Cast, judge_cast
from tacklebox.rigs.checking.joints import Bond, bonds_of, joints_of
from tacklebox.rigs.checking.shotting import judge_float
from tacklebox.rigs.fitting import Fit
from tacklebox.stock.tables import Elastic, Hook, Line, Weight, Winder
from tacklebox.trade.elastic import HARDEST, SOFTEST, judge_elastic
from tacklebox.trade.hooks import judge_hook_and_line
from tacklebox.trade.judgement import Fact, Judgement, Outcome, worst
from tacklebox.trade.law import judge_lead
from tacklebox.trade.sources import Basis
from tacklebox.trade.strength import (
    LOOK_FROM,
    SOUND_FROM,
    judge_join,
    judge_step,
    judge_strength,
)
from tacklebox.trade.towing import judge_towing
from tacklebox.trade.water import USUAL_C
from tacklebox.trade.winding import judge_winding


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


def check(
    fit: Fit,
    sound_from: float = SOUND_FROM,
    look_from: float = LOOK_FROM,
    *,
    water_c: float = USUAL_C,
    cast: Cast | None = None,
) -> Checked:
    """Every judgement on a fitted recipe, the strength chain first.

    ``sound_from`` and ``look_from`` are the chances that the hooklength goes first from which a
    rig is sound, or to be looked at again; the same limits hold for what a fish is left towing.
    ``water_c`` is the water's temperature in °C; a ``cast`` is judged where one is told.
    """
    bonds = bonds_of(fit)
    judgements: list[Judgement] = []
    if fit.resolved.recipe.makes == "rig":
        judgements += _strength(fit, bonds, sound_from, look_from)
        judgements += _steps(bonds)
    judgements += _joins(bonds)
    judgements += _hook(bonds)
    judgements += _elastic(bonds)
    judgements += judge_float(fit, water_c)
    if cast:
        judgements += judge_cast(fit, bonds, cast)
    judgements += _lead(fit)
    judgements += _winder(fit)
    return Checked(fit, tuple(_with_own(j) for j in judgements))


def _with_own(judgement: Judgement) -> Judgement:
    """Says in the line itself what of the angler's own measuring it rests on."""
    own = [f for f in judgement.facts if f.source.basis is Basis.MEASURED]
    if not own or judgement.about == "winder":
        return judgement
    what = {
        "strength chain": "by your own pull tests",
        "casting": "by your own pull tests",
    }.get(judgement.about, "by your own measurement of " + " and ".join(map(_named, own)))
    return replace(judgement, says=f"{judgement.says}; {what}")


def _named(fact: Fact) -> str:
    """What was measured: "the float", "the AAA shot"."""
    return f"the {fact.name.partition(chr(39))[0].removesuffix(' each')}"


def _strength(
    fit: Fit, bonds: Sequence[Bond], sound_from: float, look_from: float
) -> Iterator[Judgement]:
    unknown = [bond.segment.name for bond in bonds if not bond.is_known]
    joints = [joint for _, joint, _ in joints_of(bonds)]
    both_sides = {j.in_hooklength for j in joints} == {True, False}
    if unknown or not both_sides:
        missing = ", ".join(unknown) or "what is above the hooklength"
        says = (
            f"nobody knows which goes first, nor what a fish would be left towing: no strain is "
            f"known of {missing}"
        )
        yield Judgement("strength chain", Outcome.LOOK_AGAIN, says)
        return
    yield judge_strength(joints, sound_from, look_from)
    rig = tree_of(fit, bonds)
    if rig is not None:
        yield judge_towing(rig, sound_from, look_from)
    elif fit.resolved.sides:
        says = "nobody knows what a fish would be left towing: no strain is known on a side branch"
        yield Judgement("left towing", Outcome.LOOK_AGAIN, says)


def _steps(bonds: Sequence[Bond]) -> Iterator[Judgement]:
    above, below = _lines(bonds)
    if above and below:
        yield judge_step(above[-1].diameter_mm, below[0].diameter_mm)


def _lines(bonds: Sequence[Bond]) -> tuple[list[Line], list[Line]]:
    """The lines above the hooklength, and those in it."""
    above = [bond.line for bond in bonds if not bond.in_hooklength and bond.line]
    below = [bond.line for bond in bonds if bond.in_hooklength and bond.line]
    return above, below


def _joins(bonds: Sequence[Bond]) -> Iterator[Judgement]:
    """Lines that meet directly: knotted to one another, or loop to loop."""
    for upper, lower in pairwise(bonds):
        knot = upper.segment.bottom
        if upper.line and lower.line and knot:
            joined_by = knot.name if knot.use == "line" else "loops"
            yield judge_join(upper.line.diameter_mm, lower.line.diameter_mm, joined_by)


def _hook(bonds: Sequence[Bond]) -> Iterator[Judgement]:
    for upper, lower in pairwise(bonds):
        hook = lower.serving.item.figures if lower.serving.item else None
        if upper.line and isinstance(hook, Hook):
            yield judge_hook_and_line(hook.size, upper.line.diameter_mm)


def _elastic(bonds: Sequence[Bond]) -> Iterator[Judgement]:
    """Pole elastic against the line below it, where the box knows what is in the pole."""
    figures = [bond.serving.item.figures for bond in bonds if bond.serving.item]
    elastic = next((f for f in figures if isinstance(f, Elastic)), None)
    if elastic is None:
        return
    if not SOFTEST <= elastic.grade <= HARDEST:
        says = f"the guide knows no grade {elastic.grade:g}; judge it by eye"
        yield Judgement("elastic", Outcome.LOOK_AGAIN, says)
        return
    above, below = _lines(bonds)
    hook = next((f for f in figures if isinstance(f, Hook)), None)
    rig_line, hooklength = above[-1] if above else None, below[0] if below else None
    yield judge_elastic(
        elastic.grade,
        rig_line_mm=rig_line.diameter_mm if rig_line else None,
        rig_line_kg=rig_line.breaks_at_kg if rig_line else None,
        hooklength_mm=hooklength.diameter_mm if hooklength else None,
        hooklength_kg=hooklength.breaks_at_kg if hooklength else None,
        hook=hook.size if hook else None,
    )


def _lead(fit: Fit) -> Iterator[Judgement]:
    """Lead that the regulations forbid: in what is fitted, or in what the recipe asks for."""
    told = set()
    for serving in fit.servings:
        figures = serving.item.figures if serving.item else None
        if isinstance(figures, Weight) and figures.material == "lead":
            told.add(serving.need.part)
            verdict = judge_lead(figures.material, figures.mass_g, f"{figures.form} {figures.mark}")
            if verdict.outcome is not Outcome.SOUND:
                yield verdict
    for placed, group in zip(fit.resolved.shot, fit.resolved.recipe.shot, strict=True):
        for load in placed.loads if (group.material or "").strip().lower() == "lead" else ():
            part = f"{load.kind} {load.mark}"
            verdict = judge_lead("lead", load.mass_g, part)
            if part not in told and verdict.outcome is not Outcome.SOUND:
                told.add(part)
                yield verdict


def _winder(fit: Fit) -> Iterator[Judgement]:
    winder = fit.resolved.winder
    item = fit.serving("winder").item if winder else None
    if item and isinstance(item.figures, Winder) and fit.resolved.length_mm > 0:
        yield judge_winding(fit.resolved.length_mm, item.figures.length_mm)
