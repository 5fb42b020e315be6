"""Whether a float keeps its place on the line: locked, fixed top and bottom, or meant to slide."""

from tacklebox.trade.judgement import Check, Fact, Judgement, Outcome
from tacklebox.trade.pictured import HeldBetween
from tacklebox.trade.sources import BY_RECIPE, COMMON
from tacklebox.trade.units_first import show_length

BESIDE_MM = 50.0  # a shot or stop so near to a float is one that locks it (our choice)
_FORMULA = "a shot or stop on both sides of it, or a stop above and a shot that parks it"


def judge_locked(name: str, *, above: bool, below: bool) -> Judgement:
    """Whether a float that is fixed by its bottom end only, or its adaptor, keeps its place.

    It does with shot or stops on both sides, ``above`` and ``below`` it; else it slides, and that
    is doubtful. Source: common practice.

    >>> judge_locked("float", above=True, below=True).outcome.value
    'sound'
    >>> judge_locked("float", above=False, below=True).line
    'the float slides: there is neither shot nor stop above it; pinch one on there'
    """
    facts = (
        Fact("shot or stop above it", "yes" if above else "no", "", BY_RECIPE),
        Fact("shot or stop below it", "yes" if below else "no", "", BY_RECIPE),
        Fact("a waggler is locked on both sides", "usual", "", COMMON),
    )
    pictured = HeldBetween(name, above=above, below=below)
    if above and below:
        return Judgement(
            "float's place",
            Outcome.SOUND,
            f"the {name} is locked on both sides",
            _FORMULA,
            facts,
            Check.FLOAT_HELD,
            dull=True,
            pictured=pictured,
        )
    where = " or ".join(
        side for side, stopped in (("above", above), ("below", below)) if not stopped
    )
    return Judgement(
        "float's place",
        Outcome.DOUBTFUL,
        f"the {name} slides: there is neither shot nor stop {where} it",
        _FORMULA,
        facts,
        Check.FLOAT_HELD,
        "pinch one on there" if above or below else "pinch one on at each side",
        pictured=pictured,
    )


def judge_slider(
    name: str, *, stopped: bool, parked_at_mm: float | None, hooklength_mm: float
) -> Judgement:
    """Whether a float that is meant to slide stops at its depth and parks clear of the hook.

    ``stopped``: a stop above it sets the depth. ``parked_at_mm`` is how far from the hook the
    topmost shot or stop below it is, None for none: further than the hooklength is long, else the
    hooklength wraps round it in the cast. Lengths in mm, from 0. Source: common practice.

    >>> judge_slider("slider", stopped=True, parked_at_mm=900, hooklength_mm=300).outcome.value
    'sound'
    """
    facts = (
        Fact("stop above it", "yes" if stopped else "no", "", BY_RECIPE),
        Fact("hooklength", hooklength_mm, "mm", BY_RECIPE),
        Fact("a slider parks above the hooklength", "usual", "", COMMON),
    )
    faults = []
    if not stopped:
        faults.append(("nothing stops it at the depth", "tie a stop knot on above it"))
    if parked_at_mm is None:
        faults.append(("nothing parks it above the hook", "pinch a shot on below it"))
    elif parked_at_mm <= hooklength_mm:
        at, length = show_length(parked_at_mm), show_length(hooklength_mm)
        faults.append((f"it parks {at} from a hook on {length}", "park it further up"))
    says = f"the {name} " + (
        "slides up to its stop"
        if not faults
        else "is meant to slide, but " + " and ".join(fault for fault, _ in faults)
    )
    return Judgement(
        "float's place",
        Outcome.DOUBTFUL if faults else Outcome.SOUND,
        says,
        _FORMULA,
        facts,
        Check.FLOAT_HELD,
        " and ".join(remedy for _, remedy in faults),
        dull=True,
    )
