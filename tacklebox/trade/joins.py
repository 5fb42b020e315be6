"""Lines that meet: the step down to the hooklength, and what may be knotted to what."""

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Check, Fact, Judgement, Outcome
from tacklebox.trade.knots import BY_NAME, KNOTS
from tacklebox.trade.limits import within
from tacklebox.trade.line import material_named
from tacklebox.trade.pictured import CutAcross
from tacklebox.trade.quantities import write_diameter
from tacklebox.trade.sources import COMMON, PRINTED

LEAST_STEP_MM = 0.02  # hooklength below rig line (common practice)
WIDEST_JOIN = 1.5  # diameters, for a knot between two lines of one stiffness (common practice)
JOINS = ("knot", "loops", "swivel")
BRAID = material_named("braid").name


def _checked_mm(diameter_mm: float, what: str) -> float:
    return within(diameter_mm, 0, 10, "a diameter", "mm", above=True, where=what)


def judge_step(rig_line_mm: float, hooklength_mm: float) -> Judgement:
    """Whether the hooklength is a clear step, 0.02 mm, finer than the rig line.

    Arguments: diameters in mm, 0–10. Raises AskedWronglyError outside. Source: common
    practice.

    >>> judge_step(0.14, 0.12).outcome.value, judge_step(0.14, 0.13).outcome.value
    ('sound', 'doubtful')
    """
    step = _checked_mm(rig_line_mm, "rig line") - _checked_mm(hooklength_mm, "hooklength")
    sound = step >= LEAST_STEP_MM - 1e-9
    lies = f"{write_diameter(abs(step))} {'finer' if step > 0 else 'thicker'} than"
    says = (
        f"the hooklength ({write_diameter(hooklength_mm)}) is "
        f"{lies if abs(step) > 1e-9 else 'as thick as'} the rig line "
        f"({write_diameter(rig_line_mm)}); {LEAST_STEP_MM:.2f} mm finer is usual"
    )
    facts = (
        Fact("rig line's diameter", rig_line_mm, "mm", PRINTED),
        Fact("hooklength's diameter", hooklength_mm, "mm", PRINTED),
        Fact("least step", LEAST_STEP_MM, "mm", COMMON),
    )
    outcome = Outcome.SOUND if sound else Outcome.DOUBTFUL
    return Judgement(
        "step down to the hooklength",
        outcome,
        says,
        "rig line − hooklength",
        facts,
        Check.STEP,
        dull=True,
        pictured=CutAcross(
            (("rig line", rig_line_mm), ("hooklength", hooklength_mm)),
            max(rig_line_mm - LEAST_STEP_MM, 0.0),
        ),
    )


def judge_join(
    upper_mm: float,
    lower_mm: float,
    joined_by: str,
    *,
    upper: str = "nylon",
    lower: str = "nylon",
) -> Judgement:
    """Whether two lines of these diameters may be joined that way.

    ``joined_by`` is "loops", "swivel", "knot" or the name of a line-to-line knot. A knot between
    lines further apart than 1.5 : 1 holds badly, but braid may be knotted to a leader of nylon at
    any ratio, since that join must pass the rod rings. ``upper`` and ``lower`` are their
    materials. Diameters in mm, 0–10. Raises AskedWronglyError outside, or for another join or
    material. Source: common practice.

    >>> judge_join(0.25, 0.12, "knot").outcome.value, judge_join(0.25, 0.12, "loops").outcome.value
    ('doubtful', 'sound')
    >>> judge_join(0.10, 0.25, "double grinner", upper="braid").outcome.value
    'sound'
    """
    named = BY_NAME.get(joined_by.strip().lower())
    if joined_by not in JOINS and (named is None or named.use != "line"):
        known = [*JOINS, *(knot.name for knot in KNOTS if knot.use == "line")]
        raise AskedWronglyError(
            f'"{joined_by}" is no way to join two lines.', right="Known: " + ", ".join(known) + "."
        )
    by_knot = joined_by not in ("loops", "swivel")
    thick, thin = sorted(
        (_checked_mm(upper_mm, "upper line"), _checked_mm(lower_mm, "lower line")), reverse=True
    )
    braid_to_other = (material_named(upper).name == BRAID) != (material_named(lower).name == BRAID)
    ratio = thick / thin
    facts = (
        Fact("upper line's diameter", upper_mm, "mm", PRINTED),
        Fact("lower line's diameter", lower_mm, "mm", PRINTED),
        Fact("widest ratio for a knot", WIDEST_JOIN, "", COMMON),
    )
    says = f"{write_diameter(upper_mm)} joined to {write_diameter(lower_mm)} by "
    says += "a line-to-line knot" if joined_by == "knot" else joined_by
    if not by_knot or braid_to_other or ratio <= WIDEST_JOIN + 1e-9:
        outcome, remedy = Outcome.SOUND, ""
        says += ", braid to a leader" if by_knot and braid_to_other else ""
    else:
        outcome, remedy = Outcome.DOUBTFUL, "use loops or a swivel"
        says += f": {ratio:.1f} to 1 is too far apart for a knot to hold well"
    return Judgement(
        "join between lines",
        outcome,
        says,
        "thick ÷ thin",
        facts,
        Check.JOIN,
        remedy,
        dull=True,
        pictured=CutAcross((("upper line", upper_mm), ("lower line", lower_mm))),
    )
