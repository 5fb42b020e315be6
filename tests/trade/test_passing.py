"""What a bore passes (common practice, no source; how wide a knot is, our choice)."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.passing import (
    KNOT_WIDTHS,
    RUN_RING_MM,
    Bore,
    Meets,
    Obstacle,
    Passes,
    Rides,
    facts_of,
    knot_width_mm,
    passes,
)
from tacklebox.trade.sources import Basis

EYE, RING, TUBE = Bore("swivel"), Bore("ring", Rides.RUN_RING), Bore("feeder", Rides.TUBE)


@pytest.mark.parametrize(
    ("bore", "meets", "line_mm", "answer"),
    [
        (EYE, Meets.LINE, 0.30, Passes.YES),
        (EYE, Meets.KNOT, 0.10, Passes.NO),  # not even a loop in the finest line
        (TUBE, Meets.KNOT, 0.20, Passes.NO),
        (RING, Meets.KNOT, 0.22, Passes.YES),
        (RING, Meets.KNOT, 0.25, Passes.YES),
        (RING, Meets.KNOT, 0.26, Passes.NO),
        (RING, Meets.KNOT, None, Passes.TRY_IT),
        (RING, Meets.SWIVEL, None, Passes.NO),
        (RING, Meets.SHOT, None, Passes.NO),
        (RING, Meets.RUBBER, None, Passes.TRY_IT),
        (EYE, Meets.RUBBER, None, Passes.TRY_IT),
        (Bore("feeder", Rides.TUBE, 2.5), Meets.KNOT, 0.20, Passes.YES),
        (Bore("swivel", Rides.EYE, 2.0), Meets.KNOT, 0.20, Passes.NO),
        (Bore("tube", Rides.TUBE, 0.2), Meets.LINE, 0.22, Passes.NO),
    ],
)
def test_what_passes_what(bore: Bore, meets: Meets, line_mm: float | None, answer: Passes) -> None:
    assert passes(bore, Obstacle("it", meets, line_mm)) is answer


def test_rubber_that_was_pulled_over_by_hand_passes() -> None:
    assert passes(EYE, Obstacle("stop", Meets.RUBBER, tried=True)) is Passes.YES
    assert passes(EYE, Obstacle("shot", Meets.SHOT, tried=True)) is Passes.NO


@given(st.floats(0.05, 0.5), st.floats(0.5, 10.0), st.floats(1.0, 3.0))
def test_a_wider_bore_or_a_finer_line_never_passes_less(
    line_mm: float, bore_mm: float, more: float
) -> None:
    order = list(Passes)
    loop = Obstacle("loop", Meets.KNOT, line_mm)
    plain = order.index(passes(Bore("tube", Rides.TUBE, bore_mm), loop))
    wider = order.index(passes(Bore("tube", Rides.TUBE, bore_mm * more), loop))
    finer = order.index(
        passes(Bore("tube", Rides.TUBE, bore_mm), Obstacle("loop", Meets.KNOT, line_mm / more))
    )
    assert wider <= plain
    assert finer <= plain


@pytest.mark.parametrize("bad", [0.0, -1.0, 30.1, math.nan, math.inf])
def test_a_bore_that_is_none(bad: float) -> None:
    with pytest.raises(AskedWronglyError, match=r"bore of .* cannot be right") as refused:
        Bore("run ring", Rides.RUN_RING, bad)
    assert refused.value.where == "run ring"


def test_the_figures_that_decide_name_whose_they_are() -> None:
    loop = Obstacle("loop", Meets.KNOT, 0.22)
    bases = {fact.name: (fact.value, fact.source.basis) for fact in facts_of(RING, (loop,))}
    assert bases == {
        "bore of the ring": (RUN_RING_MM, Basis.MEMORY),
        "loop is wide": (pytest.approx(KNOT_WIDTHS * 0.22), Basis.CHOICE),
    }
    (given,) = (f for f in facts_of(Bore("ring", mm=4.0), (loop,)) if f.name.startswith("bore"))
    assert given.source.basis is Basis.GIVEN
    (eye,) = facts_of(EYE, (loop,))
    assert eye.source.basis is Basis.COMMON
    assert facts_of(EYE, (Obstacle("line", Meets.LINE, 0.2),)) == ()
    assert knot_width_mm(0.25) == pytest.approx(RUN_RING_MM)
