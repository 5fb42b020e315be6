"""The cast of a fitted rig: its feeder or bomb, with load, on its main line."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.checking.joints import Bond
from tacklebox.rigs.fitting import Fit
from tacklebox.stock.tables import Feeder, Kind
from tacklebox.trade.casting import SWEEP_M, judge_casting
from tacklebox.trade.judgement import Judgement, Outcome
from tacklebox.trade.sources import MEASURED, PRINTED, Basis


@dataclass(frozen=True)
class Cast:
    """A cast to be judged: how far in m, the feeder's load in g, the sweep of the rod end in m."""

    distance_m: float
    load_g: float = 0.0
    sweep_m: float = SWEEP_M


def judge_cast(fit: Fit, bonds: Sequence[Bond], cast: Cast) -> Iterator[Judgement]:
    """Whether the main line stands the cast after its weakest knot.

    Raises AskedWronglyError for a rig with neither feeder nor bomb.
    """
    weights = [thing.name for thing in fit.resolved.along if thing.kind is Kind.FEEDER]
    for side in fit.resolved.sides:
        weights += [part.name for part in side.chain if part.kind is Kind.FEEDER]
    if not weights:
        raise AskedWronglyError(
            f"{fit.resolved.recipe.stem} has neither feeder nor bomb to cast.",
            where="--distance",
            right="Leave it out, or name a feeder rig.",
        )
    items = [item.figures for name in weights if (item := fit.serving(name).item)]
    masses = [figures.mass_g for figures in items if isinstance(figures, Feeder)]
    main = next(bond for bond in bonds if bond.segment.kind is Kind.LINE)
    joints = [joint for joint in (main.top(), main.plain(), main.bottom()) if joint]
    if len(masses) < len(weights) or not joints:
        says = "nobody knows whether the line stands it: the feeder or the main line is missing"
        yield Judgement("casting", Outcome.LOOK_AGAIN, says)
        return
    weakest = min(joints, key=lambda joint: joint.mean_kg)
    pulled = any(fact.source.basis is Basis.MEASURED for fact in weakest.facts)
    yield judge_casting(
        weakest.mean_kg,
        sum(masses),
        cast.load_g,
        cast.distance_m,
        cast.sweep_m,
        line_source=MEASURED if pulled else PRINTED,
    )
