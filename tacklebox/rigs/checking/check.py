"""Checks: judgements on a fitted recipe, from the trade's figures alone.

No check reads the database; each hands back an outcome, a sentence and its figures.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from tacklebox.rigs.checking.cast import Cast, judge_cast
from tacklebox.rigs.checking.chain import rig_of
from tacklebox.rigs.checking.joints import Bond, bonds_of, joints_of
from tacklebox.rigs.checking.places import judge_places
from tacklebox.rigs.checking.shotting import judge_float
from tacklebox.rigs.fitting import Fit
from tacklebox.stock.notation import write_notation
from tacklebox.stock.tables import Elastic, Hook, Line, Weight, Winder
from tacklebox.trade.breaks_first import DOUBTFUL_FROM, SOUND_FROM, judge_breaks_first
from tacklebox.trade.comes_free import judge_comes_free, ways_off
from tacklebox.trade.elastic import judge_elastic, judge_elastic_pull
from tacklebox.trade.hooks import judge_hook_and_line, judge_hook_knot
from tacklebox.trade.joins import BRAID, judge_join, judge_step
from tacklebox.trade.judgement import Check, Fact, Judgement, Outcome, worst
from tacklebox.trade.law import judge_lead
from tacklebox.trade.sources import Basis
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
        """The judgements for which it fails."""
        return tuple(j for j in self.judgements if j.outcome is Outcome.FAILS)


def check(
    fit: Fit,
    sound_from: float = SOUND_FROM,
    doubtful_from: float = DOUBTFUL_FROM,
    *,
    water_c: float = USUAL_C,
    cast: Cast | None = None,
) -> Checked:
    """Every judgement on a fitted recipe, what breaks first before all others.

    ``sound_from`` and ``doubtful_from`` are the chances that the hooklength breaks first from which
    a rig is sound, or doubtful. ``water_c`` is the water's temperature in °C; a ``cast`` is judged
    where one is given.
    """
    every = judging(fit, sound_from, doubtful_from, water_c, cast)
    return Checked(fit, tuple(judgement for judgements in every for judgement in judgements))


def judging(
    fit: Fit,
    sound_from: float = SOUND_FROM,
    doubtful_from: float = DOUBTFUL_FROM,
    water_c: float = USUAL_C,
    cast: Cast | None = None,
    *,
    with_remedies: bool = True,
    of_hooklength_on_rig: bool = False,
) -> Iterator[Iterator[Judgement]]:
    """As ``check``: one check after the other, each with its judgements as it comes to them.

    ``of_hooklength_on_rig``: only those that hang on both, all of them for a rig whose hooklength is another.
    Without remedies it takes less time, and the outcomes are the same. None looks at what serves a
    part before it is asked, nor at what another found.
    """
    bonds = bonds_of(fit)
    if fit.resolved.recipe.makes == "rig":
        yield _in_words(_breaks_first(bonds, sound_from, doubtful_from, with_remedies))
        yield _in_words(j for _, j in judge_weights(fit, sound_from))
        yield _in_words(_steps(bonds))
    yield _in_words(_joins(bonds))
    if of_hooklength_on_rig:
        yield _in_words(_elastic(fit, bonds))
        return
    yield _in_words(_hook(fit, bonds))
    yield _in_words(_elastic(fit, bonds))
    yield _in_words(judge_places(fit))
    yield _in_words(judge_float(fit, water_c))
    if cast:
        yield _in_words(judge_cast(fit, cast))
    yield _in_words(_lead(fit))
    yield _in_words(_winder(fit))


def _in_words(judgements: Iterable[Judgement]) -> Iterator[Judgement]:
    return map(_with_own, judgements)


_BY_PULLS = (Check.BREAKS_FIRST, Check.CASTING)


def _with_own(judgement: Judgement) -> Judgement:
    """Says in the line itself what of the angler's own measuring it rests on."""
    own = [f for f in judgement.facts if f.source.basis is Basis.MEASURED]
    if not own or judgement.key in (Check.WINDER, Check.ELASTIC):
        return judgement
    what = "by your own measurement of " + " and ".join(map(_named, own))
    if judgement.key in _BY_PULLS:
        what = "by your own pull tests"
    return replace(judgement, says=f"{judgement.says}; {what}")


def _named(fact: Fact) -> str:
    """What was measured: "the float", "the AAA shot"."""
    return f"the {fact.name.partition(chr(39))[0].removesuffix(' each')}"


def _breaks_first(
    bonds: Sequence[Bond], sound_from: float, doubtful_from: float, with_remedy: bool
) -> Iterator[Judgement]:
    unknown = [bond.segment.name for bond in bonds if not bond.is_known]
    joints = joints_of(bonds)
    if unknown or {j.in_hooklength for j in joints} != {True, False}:
        missing = ", ".join(unknown) or "what is above the hooklength"
        yield Judgement(
            "breaks first",
            Outcome.DOUBTFUL,
            f"nobody knows which breaks first: no breaking strain is known of {missing}",
            key=Check.BREAKS_FIRST,
            remedy="pull it, or read it off the spool",
        )
        return
    first = "hooklength" if any(bond.in_hooklength for bond in bonds) else "hook knot"
    yield judge_breaks_first(
        joints, sound_from, doubtful_from, first=first, with_remedy=with_remedy
    )


def judge_weights(fit: Fit, sound_from: float = SOUND_FROM) -> Iterator[tuple[str, Judgement]]:
    """Each feeder, bomb and lead by its name, and whether it comes free."""
    rig = rig_of(fit)
    resolved = fit.resolved
    asked_by = "the recipe" if resolved.recipe.free_running else resolved.free_running_by
    if rig is None:
        return
    for way in ways_off(rig):
        judged = judge_comes_free(rig, way, asked_by=asked_by, sound_from=sound_from)
        yield way.weight, judged


def _steps(bonds: Sequence[Bond]) -> Iterator[Judgement]:
    above, below = _lines(bonds)
    if not above or not below or BRAID in (above[-1].material, below[0].material):
        return  # braid is finer than nylon of its strain: their diameters say nothing
    upper, lower = above[-1].diameter_mm, below[0].diameter_mm
    if upper is None or lower is None:
        yield _thickness_unknown(Check.STEP, above[-1], below[0])
        return
    yield judge_step(upper, lower)


def _thickness_unknown(check: Check, *lines: Line) -> Judgement:
    """Line that is known by its strain alone: what rests on its diameter nobody knows."""
    which = " and ".join(write_notation(line) for line in lines if line.diameter_mm is None)
    says = f"nobody knows, for the diameter of {which} is not known; measure it, or read its label"
    about = {Check.STEP: "step down to the hooklength", Check.JOIN: "join between lines"}
    return Judgement(about.get(check, check.value), Outcome.DOUBTFUL, says, key=check)


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
            thick, fine = upper.line.diameter_mm, lower.line.diameter_mm
            if thick is None or fine is None:
                yield _thickness_unknown(Check.JOIN, upper.line, lower.line)
                continue
            yield judge_join(
                thick, fine, joined_by, upper=upper.line.material, lower=lower.line.material
            )


def _hook(fit: Fit, bonds: Sequence[Bond]) -> Iterator[Judgement]:
    fish = fit.resolved.recipe.fish
    if fit.hooklength and fish is None:
        fish = fit.hooklength.resolved.recipe.fish
    for upper, lower in pairwise(bonds):
        hook = lower.figures
        if not isinstance(hook, Hook):
            continue
        nylon = upper.line if upper.line and upper.line.material != BRAID else None
        if nylon and nylon.diameter_mm is None:
            yield _thickness_unknown(Check.HOOK_AND_LINE, nylon)
        elif nylon and nylon.diameter_mm:  # what suits a hook is said of nylon
            yield judge_hook_and_line(hook.size, nylon.diameter_mm, fish or "")
        tied_with = None if upper.is_bought else upper.segment.bottom
        knotted = tied_with and judge_hook_knot(tied_with, hook.end, hook.size)
        if knotted:
            yield knotted


def _elastic(fit: Fit, bonds: Sequence[Bond]) -> Iterator[Judgement]:
    """Pole elastic against what is below it, where the box knows what is in the pole: by its own
    pull where that was measured, else by the guide."""
    items = [bond.serving.item for bond in bonds if bond.serving.item]
    item = next((one for one in items if isinstance(one.figures, Elastic)), None)
    if item is None:
        return
    assert isinstance(item.figures, Elastic)
    pull, below = fit.measured.stretch(item.id), [j for j in joints_of(bonds) if j.in_hooklength]
    if pull is not None and below:
        low = min(below, key=lambda joint: joint.mean_kg)
        yield judge_elastic_pull(pull.mean, low.mean_kg, low.called or low.name)
        return
    above, lines = _lines(bonds)
    hook = next((one.figures for one in items if isinstance(one.figures, Hook)), None)
    rig_line, hooklength = above[-1] if above else None, lines[0] if lines else None
    yield judge_elastic(
        item.figures.grade,
        rig_line_mm=rig_line.diameter_mm if rig_line else None,
        rig_line_kg=rig_line.breaks_at_kg if rig_line else None,
        hooklength_mm=hooklength.diameter_mm if hooklength else None,
        hooklength_kg=hooklength.breaks_at_kg if hooklength else None,
        hook=hook.size if hook else None,
    )


def _lead(fit: Fit) -> Iterator[Judgement]:
    """Lead that the regulations forbid: in what is fitted, or in what the recipe asks for."""
    judged = set()
    for serving in fit.servings:
        figures = serving.item.figures if serving.item else None
        if isinstance(figures, Weight) and figures.material == "lead":
            judged.add(serving.need.part)
            verdict = judge_lead(figures.material, figures.mass_g, f"{figures.form} {figures.mark}")
            if verdict.outcome is not Outcome.SOUND:
                yield verdict
    for placed, group in zip(fit.resolved.shot, fit.resolved.recipe.shot, strict=True):
        for load in placed.loads if (group.material or "").strip().lower() == "lead" else ():
            part = f"{load.kind} {load.mark}"
            verdict = judge_lead("lead", load.mass_g, part, mass_source=load.mass_source)
            if part not in judged and verdict.outcome is not Outcome.SOUND:
                judged.add(part)
                yield verdict


def _winder(fit: Fit) -> Iterator[Judgement]:
    winder = fit.resolved.winder
    item = fit.serving("winder").item if winder else None
    if item and isinstance(item.figures, Winder) and fit.resolved.length_mm > 0:
        yield judge_winding(fit.resolved.length_mm, item.figures.length_mm)
