"""A cast as the desk judges it, against textbook ballistics."""

from pathlib import Path

import pytest

from tacklebox.desk import Desk, casting, measuring
from tacklebox.errors import AskedWronglyError
from tests.rigs.boxes import make_box

DAY = "2026-03-05"


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    make_box(tmp_path / "box", "nylon 0.22 mm 4.3 kg 150 m").engine.dispose()
    return Desk(tmp_path / "box")


def test_the_pull_is_that_of_textbook_ballistics(desk: Desk) -> None:
    """50 g over 40 m: v² = gR, a = v²/2s = g·40/6, pull = m(a + g) = 50 g × (40/6 + 1)."""
    judged = casting.judge_cast(
        desk, "0.22", "30 g", "40 m", load="20 g", knot="grinner", line_per_turn="80 cm"
    )
    facts = {fact.name: fact for fact in judged.judgement.facts}
    assert facts["even pull"].value == pytest.approx(0.050 * (40 / 6 + 1))
    assert facts["main line after its knot"].value == pytest.approx(4.3 * 0.87)
    assert str(facts["main line after its knot"].source) == "as printed on the packet"
    assert judged.handle_turns == pytest.approx(50)
    assert judged.wraps == pytest.approx(40 / 3.6576)


def test_a_line_that_was_pulled_counts_by_its_pulls(desk: Desk) -> None:
    measuring.record_pull(desk, "0.22", "3.4 kg", on=DAY)
    judged = casting.judge_cast(desk, "0.22", "30 g", "40 m").judgement
    held = next(fact for fact in judged.facts if fact.name == "main line after its knot")
    assert str(held.source) == "own measurement"


def test_a_line_may_be_given_by_its_strain(desk: Desk) -> None:
    judged = casting.judge_cast(desk, "1 kg", "30 g", "40 m", load="20 g")
    assert judged.judgement.outcome != "sound"
    assert judged.handle_turns is None


@pytest.mark.parametrize(
    ("said", "field"),
    [
        ({"line": "2 kgg"}, "line"),
        ({"line": "hook 20"}, "line"),
        ({"mass": "no"}, "mass"),
        ({"distance": "4 km"}, "distance"),
        ({"load": "some"}, "load"),
        ({"knot": "granny"}, "knot"),
        ({"material": "wire"}, "material"),
        ({"rod_tip_travel": "far"}, "rod_tip_travel"),
        ({"sticks": "12"}, "sticks"),
        ({"line_per_turn": "a lot"}, "line_per_turn"),
    ],
)
def test_a_fault_names_the_field(desk: Desk, said: dict[str, str], field: str) -> None:
    words = {"line": "2 kg", "mass": "30 g", "distance": "40 m"} | said
    with pytest.raises(AskedWronglyError) as refused:
        casting.judge_cast(desk, **words)
    assert refused.value.field == field
