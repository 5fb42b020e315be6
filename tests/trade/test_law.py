"""Lead by the text of the two rules, the close season by the byelaws, and the cautions."""

from datetime import date

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Outcome
from tacklebox.trade.law import (
    CLOSE_SEASON,
    LICENCE,
    Country,
    Season,
    byelaws_of,
    cautions,
    in_close_season,
    judge_lead,
    lead_may_not_be_supplied,
    lead_may_not_be_used,
    lead_trade,
    power_lines,
    season_at,
)
from tacklebox.trade.quantities import G_PER_OZ
from tacklebox.trade.shot import SHOT
from tacklebox.trade.units_first import IMPERIAL, in_units
from tests.outside import outside


@outside(
    "lead weights at both limits",
    "SI 1986/1992, regulation 4; GOV.UK, Freshwater rod fishing rules",
    "published",
)
@pytest.mark.parametrize(
    ("mass_g", "forbidden"),
    [(0.001, False), (0.06, False), (3 * 0.02, False), (0.0601, True), (0.061, True), (1.0, True),
     (28.35, True), (G_PER_OZ, True), (28.36, False), (56.7, False)],
)  # fmt: skip
def test_lead_weights_against_regulation_4_and_the_rod_fishing_rules(
    mass_g: float, forbidden: bool
) -> None:
    """SI 1986/1992, regulation 4 (supply): over 0.06 g and up to 28.35 g. GOV.UK, Freshwater rod
    fishing rules (use): only 0.06 g or less, or more than 28.35 g."""
    assert lead_may_not_be_supplied(mass_g) is forbidden
    assert lead_may_not_be_used(mass_g) is forbidden


@outside(
    "sizes of lead shot left", "GOV.UK, Freshwater rod fishing rules: No 14 to No 8", "published"
)
def test_lead_shot_against_the_rod_fishing_rules() -> None:
    """GOV.UK, Freshwater rod fishing rules: the sizes left are No 14 to No 8."""
    allowed = [shot.mark for shot in SHOT if not lead_may_not_be_used(shot.mass_g)]
    assert (allowed[0], allowed[-1]) == ("No 8", "No 14")
    assert all(mark.startswith("No ") and 8 <= int(mark[3:]) <= 14 for mark in allowed)
    assert len(allowed) == 7


def test_a_sentence_on_use_cites_the_rule_on_use_and_defers() -> None:
    answer = judge_lead("Lead", 0.4, "BB shot")
    assert answer.outcome is Outcome.FAILS
    assert "Freshwater rod fishing rules" in answer.says
    assert "SI 1986/1992" not in answer.says
    assert "law of the land" in answer.says
    small = judge_lead("lead", 0.06, "No 8 shot")
    assert small.outcome is Outcome.SOUND
    assert "law of the land" in small.says
    assert judge_lead("tungsten", 0.4, "olivette").outcome is Outcome.SOUND
    assert "SI 1986/1992" in lead_trade().source.citation
    assert "supplied" in lead_trade().says


@pytest.mark.parametrize(
    ("country", "cited", "not_cited"),
    [
        (Country.ENGLAND, "GOV.UK", "Natural Resources Wales"),
        (Country.WALES, "Natural Resources Wales", "GOV.UK"),
    ],
)
def test_wales_has_its_own_authority(country: Country, cited: str, not_cited: str) -> None:
    says = judge_lead("lead", 0.4, "BB shot", country=country).says
    assert cited in says
    assert not_cited not in says
    assert ("Environment Agency" in byelaws_of(country)) is (country is Country.ENGLAND)
    assert ("Natural Resources Wales" in byelaws_of(country)) is (country is Country.WALES)


def test_where_the_country_is_not_known_both_are_cited() -> None:
    for words in (byelaws_of(None), judge_lead("lead", 0.4, "BB shot").says):
        assert "Natural Resources Wales" in words
    assert "Environment Agency" in byelaws_of(None)


def test_a_source_stands_only_by_the_figure_it_gives() -> None:
    assert not [f for f in judge_lead("tin", 0.4, "BB shot").facts if f.unit == "g"]
    given = {f.value: f.source.citation for f in judge_lead("lead", 0.4, "BB shot").facts}
    assert given[0.4] == "by the item"
    assert "GOV.UK" in given[0.06]
    assert "GOV.UK" in given[28.35]


@pytest.mark.parametrize("mass_g", [0.0, -1.0, float("nan"), float("inf")])
def test_absurd_masses_are_refused(mass_g: float) -> None:
    for asked in (lead_may_not_be_used, lead_may_not_be_supplied):
        with pytest.raises(AskedWronglyError, match="cannot be right"):
            asked(mass_g)


def test_unknown_material_is_refused() -> None:
    with pytest.raises(AskedWronglyError, match="no weight material"):
        judge_lead("cheese", 0.4, "BB shot")


@outside("days of the close season", "National fisheries byelaws, Environment Agency", "published")
def test_close_season_against_the_national_byelaws() -> None:
    """National fisheries byelaws, Environment Agency: 15 March to 15 June inclusive."""
    closed = [day for day in range(1, 32) if in_close_season(date(2026, 3, day))]
    assert closed == list(range(15, 32))
    assert in_close_season(date(2027, 5, 1))
    assert in_close_season(date(2026, 6, 15))
    assert not in_close_season(date(2026, 6, 16))
    assert "15 March to 15 June" in CLOSE_SEASON.says


MAY, JULY = date(2026, 5, 1), date(2026, 7, 1)


@outside(
    "waters that keep the close season",
    "National fisheries byelaws: running water; the Broads and some SSSIs",
    "published",
)
@pytest.mark.parametrize(
    ("day", "running", "keeps_it", "country", "expected"),
    [
        (JULY, True, None, None, Season.OUTSIDE),
        (JULY, False, True, None, Season.OUTSIDE),
        (MAY, True, None, None, Season.CLOSED),
        (MAY, True, False, Country.WALES, Season.CLOSED),
        (MAY, False, None, None, Season.ASK),  # never simply open: it may be a Broad or an SSSI
        (MAY, False, None, Country.ENGLAND, Season.ASK),
        (MAY, False, True, Country.ENGLAND, Season.CLOSED),
        (MAY, False, False, Country.ENGLAND, Season.OPEN_BY_VENUE),
        (MAY, True, None, Country.ELSEWHERE, Season.ASK),
        (JULY, False, None, Country.ELSEWHERE, Season.ASK),
    ],
)
def test_which_water_keeps_the_close_season(
    day: date, running: bool, keeps_it: bool | None, country: Country | None, expected: Season
) -> None:
    """National fisheries byelaws: running water all of it; the Norfolk and Suffolk Broads and some
    SSSIs on still waters too."""
    assert season_at(day, running=running, keeps_it=keeps_it, country=country) is expected


def test_cautions_say_what_and_who() -> None:
    """30 m: Energy Networks Association; age 13: GOV.UK, national rod fishing byelaws."""
    assert "30 m" in power_lines().says
    assert "Energy Networks Association" in power_lines().source.citation
    assert "age of 13" in LICENCE.says
    assert "Broads" in CLOSE_SEASON.says
    assert "Natural Resources Wales" in CLOSE_SEASON.says
    assert all(caution.says.endswith(".") and str(caution.source) for caution in cautions())


def test_a_figure_of_the_law_stands_as_the_law_gives_it_and_his_unit_beside() -> None:
    with in_units(IMPERIAL):
        assert "at least 30 m (33 yd) from" in power_lines().says
        assert "over 0.06 g and up to 28.35 g (1 oz) for" in lead_trade().says
        assert "above 28.35 g (1 oz) (" in judge_lead("lead", 0.8, "AAA shot").says
