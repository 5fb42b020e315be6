"""Lead against the text of SI 1986/1992, and the cautions."""

from datetime import date

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Outcome
from tacklebox.trade.law import (
    CAUTIONS,
    CLOSE_SEASON,
    POWER_LINES,
    in_close_season,
    judge_lead,
    lead_is_banned,
)
from tacklebox.trade.quantities import G_PER_OZ
from tacklebox.trade.shot import SHOT


def test_banned_sizes_against_si_1986_1992() -> None:
    # Angling Times: of lead shot only No 8 and smaller is allowed
    allowed = [shot.mark for shot in SHOT if not lead_is_banned(shot.mass_g)]
    assert allowed == ["No 8", "No 9", "No 10", "No 11", "No 12", "No 13"]
    assert lead_is_banned(28.35)
    assert lead_is_banned(G_PER_OZ)  # the ounce itself
    assert not lead_is_banned(28.36)
    assert lead_is_banned(0.061)
    assert not lead_is_banned(3 * 0.02)  # 0.06 after rounding in binary


def test_lead_is_named_with_the_regulation_and_defers() -> None:
    told = judge_lead("Lead", 0.4, "BB shot")
    assert told.outcome is Outcome.WILL_NOT_DO
    assert "SI 1986/1992" in told.says
    assert "law of the land" in told.says
    small = judge_lead("lead", 0.06, "No 8 shot")
    assert small.outcome is Outcome.SOUND
    assert "law of the land" in small.says
    assert judge_lead("tungsten", 0.4, "olivette").outcome is Outcome.SOUND


@pytest.mark.parametrize("mass_g", [0.0, -1.0, float("nan"), float("inf")])
def test_absurd_masses_are_refused(mass_g: float) -> None:
    with pytest.raises(AskedWronglyError, match="makes no sense"):
        lead_is_banned(mass_g)


def test_unknown_material_is_refused() -> None:
    with pytest.raises(AskedWronglyError, match="no weight material"):
        judge_lead("cheese", 0.4, "BB shot")


def test_close_season_against_the_national_byelaws() -> None:
    closed = [day for day in range(1, 32) if in_close_season(date(2026, 3, day))]
    assert closed == list(range(15, 32))
    assert in_close_season(date(2027, 5, 1))
    assert in_close_season(date(2026, 6, 15))
    assert not in_close_season(date(2026, 6, 16))
    assert "15 March to 15 June" in CLOSE_SEASON.says


def test_cautions_say_what_and_who() -> None:
    assert "30 m" in POWER_LINES.says
    assert all(caution.says.endswith(".") and str(caution.source) for caution in CAUTIONS)
