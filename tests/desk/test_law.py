"""Lead in the box and the cautions, as the desk answers."""

from pathlib import Path

from tacklebox.desk import Desk, law
from tests.rigs.boxes import make_box


def test_lead_that_may_not_weight_a_line_is_named_with_the_rule(tmp_path: Path) -> None:
    """GOV.UK, Freshwater rod fishing rules: up to 0.06 g it may, over that it may not."""
    make_box(
        tmp_path / "box", "shot AAA lead pack 20", "shot No 8 lead pack 20", "shot BB tin pack 20"
    ).engine.dispose()
    [lead] = law.law(Desk(tmp_path / "box")).lead
    assert (lead.item.name, lead.item.on_hand.value) == ("shot AAA lead", 20)
    assert "Freshwater rod fishing rules" in lead.judgement.says


def test_the_cautions_are_there_without_any_lead(tmp_path: Path) -> None:
    found = law.law(Desk(tmp_path / "box"))
    assert found.lead == ()
    assert {caution.about for caution in found.cautions} >= {"power lines", "close season", "lead"}
    assert "law of the land" in found.comes_first
