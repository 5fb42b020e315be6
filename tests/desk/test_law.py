"""Lead in the box and the cautions, as the desk answers."""

from pathlib import Path

import pytest

from tacklebox.desk import Desk, law, stock
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


@pytest.mark.parametrize(
    ("words", "on_hand", "says"),
    [
        ("shot AAA lead pack 20", "60", "0.8 g: in England and Wales lead may be used only up to"),
        ("shot BB lead", "plenty", "0.4 g"),  # by the tub
        ("shot No 8 lead pack 20", "60", ""),
        ("shot AAA tin pack 20", "60", ""),
    ],
)
def test_lead_that_may_not_weight_a_line_is_bought_and_not_without_a_word(
    words: str, on_hand: str, says: str, tmp_path: Path
) -> None:
    make_box(tmp_path / "box", words).engine.dispose()
    desk = Desk(tmp_path / "box")
    bought = stock.buy(desk, "1", packs=2)
    shown = stock.show(desk, "1")
    assert str(bought.on_hand) == str(shown.item.on_hand) == on_hand
    assert (bought.forbidden_lead, bought.supply) == (shown.forbidden_lead, shown.supply)
    assert bool(bought.forbidden_lead) == bool(says)
    if bought.forbidden_lead:
        assert says in bought.forbidden_lead.says
        assert "may not be supplied in Great Britain (SI 1986/1992" in bought.supply
    else:
        assert bought.supply == ""
