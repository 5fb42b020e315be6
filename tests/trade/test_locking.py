"""Floats that keep their place, and sliders that are meant not to (common practice, no source)."""

import pytest

from tacklebox.trade.judgement import Check, Outcome
from tacklebox.trade.locking import judge_locked, judge_slider


@pytest.mark.parametrize(
    ("above", "below", "outcome", "line"),
    [
        (True, True, Outcome.SOUND, "the float is locked on both sides"),
        (
            True,
            False,
            Outcome.DOUBTFUL,
            "the float slides: there is neither shot nor stop below it; pinch one on there",
        ),
        (
            False,
            False,
            Outcome.DOUBTFUL,
            "the float slides: there is neither shot nor stop above or below it; "
            "pinch one on at each side",
        ),
    ],
)
def test_a_waggler_is_locked_on_both_sides(
    above: bool, below: bool, outcome: Outcome, line: str
) -> None:
    judged = judge_locked("float", above=above, below=below)
    assert (judged.outcome, judged.line, judged.key) == (outcome, line, Check.FLOAT_HELD)
    assert judged.is_shown is (outcome is not Outcome.SOUND)


@pytest.mark.parametrize(
    ("stopped", "parked_at_mm", "outcome", "words"),
    [
        (True, 900.0, Outcome.SOUND, "slides up to its stop"),
        (False, 900.0, Outcome.DOUBTFUL, "nothing stops it at the depth; tie a stop knot"),
        (True, None, Outcome.DOUBTFUL, "nothing parks it above the hook"),
        (True, 300.0, Outcome.DOUBTFUL, "parks 30 cm from a hook on 30 cm; park it further up"),
        (False, None, Outcome.DOUBTFUL, "at the depth and nothing parks it"),
    ],
)
def test_a_slider_has_a_stop_above_and_parks_above_the_hooklength(
    stopped: bool, parked_at_mm: float | None, outcome: Outcome, words: str
) -> None:
    judged = judge_slider("slider", stopped=stopped, parked_at_mm=parked_at_mm, hooklength_mm=300.0)
    assert judged.outcome is outcome
    assert words in judged.line
