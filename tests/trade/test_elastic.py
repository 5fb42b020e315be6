"""Elastic against the published guide (Match Anglers Matches, elastic ratings)."""

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.elastic import guide_for, judge_elastic, judge_elastic_pull
from tacklebox.trade.judgement import Outcome
from tacklebox.trade.quantities import KG_PER_LB
from tacklebox.trade.sources import Basis
from tests.outside import outside

# grade, rig line mm, rig line lb, hooklength mm, hooklength lb, hooks; as the guide has it
PUBLISHED = [
    (1, None, 1.5, None, 10 / 16, ("24", "22")),
    (2, None, 1.5, None, 10 / 16, ("24", "22")),
    (3, (0.10, 0.12), 3.0, (0.08, 0.10), 2.0, ("22", "20")),
    (4, (0.10, 0.12), 1.5, (0.08, 0.10), 1.0, ("22", "20")),
    (5, (0.13, 0.15), 2.5, (0.12, 0.14), None, ("20", "16")),
    (6, (0.13, 0.15), 3.5, (0.12, 0.14), None, ("20", "16")),
    (8, (0.14, 0.16), 3.0, None, None, ("18", "14")),
    (10, (0.14, 0.16), 5.0, None, None, ("18", "14")),
]


@outside("all that the elastic guide pairs", "Match Anglers Matches, elastic ratings", "published")
@pytest.mark.parametrize(
    ("grade", "rig_mm", "rig_lb", "hooklength_mm", "hooklength_lb", "hooks"), PUBLISHED
)
def test_all_that_the_guide_pairs_is_sound(
    grade: int,
    rig_mm: tuple[float, float] | None,
    rig_lb: float,
    hooklength_mm: tuple[float, float] | None,
    hooklength_lb: float | None,
    hooks: tuple[str, str],
) -> None:
    for end in (0, 1):
        by_mm = judge_elastic(
            grade,
            rig_line_mm=rig_mm[end] if rig_mm else None,
            rig_line_kg=rig_lb * KG_PER_LB,
            hooklength_mm=hooklength_mm[end] if hooklength_mm else None,
            hooklength_kg=hooklength_lb * KG_PER_LB if hooklength_lb else None,
            hook=hooks[end],
        )
        assert by_mm.outcome is Outcome.SOUND, by_mm.says
        assert any(fact.source.basis is Basis.PUBLISHED for fact in by_mm.facts)
    by_strain = judge_elastic(grade, rig_line_kg=rig_lb * KG_PER_LB)
    assert by_strain.outcome is Outcome.SOUND


@pytest.mark.parametrize(
    ("grade", "rig_mm", "hook", "word"),
    [
        (3, 0.16, None, "heavy"),
        (10, 0.10, None, "light"),
        (5, 0.14, "22", "smaller"),
        (5, 0.14, "12", "bigger"),
    ],
)
def test_outside_the_guide_is_a_remark_with_its_reason(
    grade: float, rig_mm: float, hook: str | None, word: str
) -> None:
    answer = judge_elastic(grade, rig_line_mm=rig_mm, hook=hook)
    assert answer.outcome is Outcome.DOUBTFUL
    assert word in answer.says
    assert "measure its pull at 3 to 4 times its length" in answer.remedy


def test_strain_serves_where_the_guide_has_no_diameter() -> None:
    answer = judge_elastic(1, rig_line_mm=0.08, rig_line_kg=2.0 * KG_PER_LB)
    assert "2 lb" in answer.says
    assert judge_elastic(8, hooklength_mm=0.14).outcome is Outcome.DOUBTFUL  # the guide is silent


def test_between_two_rows_both_count() -> None:
    row = guide_for(7)
    assert row.hooklength_mm is None  # grades 8–10 have none
    assert judge_elastic(7, rig_line_mm=0.13, hook="14").outcome is Outcome.SOUND


@pytest.mark.parametrize("grade", [0.0, -3.0, float("inf"), float("nan")])
def test_grades_that_do_not_exist(grade: float) -> None:
    with pytest.raises(AskedWronglyError, match="Grades run"):
        judge_elastic(grade)


def test_absurd_figures() -> None:
    with pytest.raises(AskedWronglyError, match="rig line"):
        judge_elastic(5, rig_line_mm=-0.1)
    with pytest.raises(AskedWronglyError, match="no hook size"):
        judge_elastic(5, hook="99")


def test_above_the_published_guide_it_rests_on_memory_and_says_so() -> None:
    """From memory (no source): grade 12 on 0.20 mm with 0.16 mm and a size 12 for carp."""
    answer = judge_elastic(12, rig_line_mm=0.20, hooklength_mm=0.16, hook="12")
    assert answer.outcome is Outcome.SOUND
    assert "from memory" in answer.says
    assert not any("Match Anglers" in str(fact.source) for fact in answer.facts)
    assert judge_elastic(12, rig_line_mm=0.12, hook="12").outcome is Outcome.DOUBTFUL
    for grade in (21, 31, 0.5):
        beyond = judge_elastic(grade, rig_line_mm=0.25)
        assert beyond.outcome is Outcome.FAILS
        assert "measure its pull" in beyond.remedy
        with pytest.raises(AskedWronglyError, match="runs from grade 1 to 20") as refused:
            guide_for(grade)
        assert "Measure its pull" in refused.value.right


@pytest.mark.parametrize(
    ("pull_kg", "outcome"),
    [
        (0.30, Outcome.SOUND),
        (0.31, Outcome.DOUBTFUL),
        (0.60, Outcome.DOUBTFUL),
        (0.61, Outcome.FAILS),
    ],
)
def test_a_measured_pull_is_set_against_the_hooklengths_weakest(
    pull_kg: float, outcome: Outcome
) -> None:
    """Half of it is our choice: a hooklength that holds 0.6 kg, at its limits."""
    judged = judge_elastic_pull(pull_kg, 0.60, "its loop")
    assert judged.outcome is outcome
    assert "its loop, holds 1.3 lb" in judged.says
    assert ("softer elastic" in judged.remedy) is (outcome is not Outcome.SOUND)


@pytest.mark.parametrize("bad", [0.0, -1.0, float("nan"), 1001.0])
def test_absurd_pulls_of_elastic(bad: float) -> None:
    with pytest.raises(AskedWronglyError, match="elastic's pull"):
        judge_elastic_pull(bad, 0.6, "its loop")
    with pytest.raises(AskedWronglyError, match="its loop"):
        judge_elastic_pull(0.3, bad, "its loop")
