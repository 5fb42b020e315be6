"""Whether a rig fits its winder."""

from tacklebox.trade.judgement import Check, Fact, Judgement, Outcome
from tacklebox.trade.pictured import TURNS, OnBands, UsualBand
from tacklebox.trade.sources import BY_ITEM, BY_RECIPE, MEMORY
from tacklebox.trade.units_first import show_length

# Turns that lie well on a winder, and the most before the line slips off (from memory).
TURNS_EASY = 20
TURNS_MOST = 40


def turns_on_winder(length_mm: float, winder_mm: float) -> float:
    """Turns of a rig on a winder: length / (2 × the winder's length).

    Both in mm, both more than 0. Raises ValueError otherwise. Formula: geometry, the winder's
    thickness left out.

    >>> turns_on_winder(3600.0, 180.0)
    10.0
    """
    if length_mm <= 0 or winder_mm <= 0:
        raise ValueError("lengths must be more than 0")
    return length_mm / (2 * winder_mm)


def judge_winding(length_mm: float, winder_mm: float) -> Judgement:
    """Sound up to 20 turns, doubtful up to 40, else it fails (turns from memory).

    >>> judge_winding(3600.0, 180.0).outcome.value
    'sound'
    """
    turns = turns_on_winder(length_mm, winder_mm)
    facts = (
        Fact("rig length", length_mm, "mm", BY_RECIPE),
        Fact("winder length", winder_mm, "mm", BY_ITEM),
        Fact("easy turns", TURNS_EASY, "", MEMORY),
        Fact("most turns", TURNS_MOST, "", MEMORY),
    )
    says = f"{show_length(length_mm)} on a winder of {show_length(winder_mm)} is {turns:.0f} turns"
    outcome = Outcome.SOUND
    if turns > TURNS_MOST:
        outcome, says = Outcome.FAILS, f"{says}; over {TURNS_MOST} do not stay on"
    elif turns > TURNS_EASY:
        outcome, says = Outcome.DOUBTFUL, f"{says}; over {TURNS_EASY} lie badly"
    lies = (
        UsualBand("lie well", 0.0, TURNS_EASY),
        UsualBand("lie badly", TURNS_EASY, TURNS_MOST, own=False),
    )
    pictured = OnBands("turns on it", turns, TURNS, lies)
    formula = "length / (2 × winder length)"
    return Judgement(
        "winder", outcome, says, formula, facts, Check.WINDER, dull=True, pictured=pictured
    )
