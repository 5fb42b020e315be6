"""Lines that meet: one step down, and what may be knotted to what (common practice, no source)."""

import math

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.joins import judge_join, judge_step
from tacklebox.trade.judgement import Check, Fact, Outcome
from tacklebox.trade.sources import Basis


def figures(facts: tuple[Fact, ...]) -> dict[str, tuple[object, str, Basis]]:
    """Each figure by its name, with its unit and what it rests on."""
    return {f.name: (f.value, f.unit, f.source.basis) for f in facts}


@pytest.mark.parametrize(
    ("rig_mm", "hooklength_mm", "outcome"),
    [
        # 0.16 − 0.14 is a hair under 0.02 in binary; it is a whole step all the same
        (0.16, 0.14, Outcome.SOUND),
        (0.14, 0.12, Outcome.SOUND),
        (0.14, 0.125, Outcome.DOUBTFUL),
        (0.12, 0.14, Outcome.DOUBTFUL),
        (10.0, 9.0, Outcome.SOUND),
    ],
)
def test_a_step_is_0_02_mm(rig_mm: float, hooklength_mm: float, outcome: Outcome) -> None:
    judged = judge_step(rig_mm, hooklength_mm)
    assert judged.outcome is outcome
    assert judged.key is Check.STEP
    assert judged.is_shown is (outcome is not Outcome.SOUND)


def test_what_a_step_says_and_rests_on() -> None:
    judged = judge_step(0.14, 0.125)
    assert "(0.125 mm) is 0.015 mm finer than the rig line (0.14 mm)" in judged.says
    assert figures(judged.facts) == {
        "rig line's diameter": (0.14, "mm", Basis.PRINTED),
        "hooklength's diameter": (0.125, "mm", Basis.PRINTED),
        "least step": (0.02, "mm", Basis.COMMON),
    }
    assert "is as thick as the rig line (0.14 mm)" in judge_step(0.14, 0.14).says
    assert "0.02 mm thicker than" in judge_step(0.12, 0.14).says


@pytest.mark.parametrize(
    ("upper_mm", "lower_mm", "joined_by", "upper", "outcome"),
    [
        (0.15, 0.10, "knot", "nylon", Outcome.SOUND),
        (0.10, 0.16, "knot", "nylon", Outcome.DOUBTFUL),
        (0.25, 0.12, "water knot", "nylon", Outcome.DOUBTFUL),
        (0.25, 0.125, " Water Knot", "nylon", Outcome.DOUBTFUL),
        (0.10, 0.30, "swivel", "nylon", Outcome.SOUND),
        (0.25, 0.12, "loops", "nylon", Outcome.SOUND),
        # a braid main line to a nylon shock leader, at any ratio
        (0.10, 0.28, "double grinner", "braid", Outcome.SOUND),
        (0.08, 0.40, "knot", "braid", Outcome.SOUND),
    ],
)
def test_joins(
    upper_mm: float, lower_mm: float, joined_by: str, upper: str, outcome: Outcome
) -> None:
    judged = judge_join(upper_mm, lower_mm, joined_by, upper=upper)
    assert judged.outcome is outcome
    assert judged.key is Check.JOIN
    assert bool(judged.remedy) is (outcome is not Outcome.SOUND)


def test_braid_to_braid_is_held_to_the_ratio() -> None:
    judged = judge_join(0.20, 0.10, "knot", upper="braid", lower="braid")
    assert judged.outcome is Outcome.DOUBTFUL
    assert judge_join(0.30, 0.10, "knot", lower="braid").outcome is Outcome.SOUND


def test_what_a_join_says_and_rests_on() -> None:
    judged = judge_join(0.25, 0.125, "knot")
    assert "0.25 mm joined to 0.125 mm by a line-to-line knot: 2.0 to 1" in judged.says
    assert figures(judged.facts) == {
        "upper line's diameter": (0.25, "mm", Basis.PRINTED),
        "lower line's diameter": (0.125, "mm", Basis.PRINTED),
        "widest ratio for a knot": (1.5, "", Basis.COMMON),
    }
    assert judge_join(0.25, 0.125, "loops").says == "0.25 mm joined to 0.125 mm by loops"
    assert "by double grinner, braid to a leader" in (
        judge_join(0.10, 0.28, "double grinner", upper="braid").says
    )


@pytest.mark.parametrize("wrong", ["glue", "palomar"])  # a palomar ties to tackle
def test_a_join_not_known_is_told_those_that_are(wrong: str) -> None:
    with pytest.raises(AskedWronglyError, match="no way to join") as refused:
        judge_join(0.2, 0.1, wrong)
    known = refused.value.right.removeprefix("Known: ").removesuffix(".").split(", ")
    assert known[:3] == ["knot", "loops", "swivel"]
    assert "water knot" in known
    assert all(judge_join(0.15, 0.10, one).outcome is Outcome.SOUND for one in known)


@pytest.mark.parametrize(
    ("upper_mm", "lower_mm", "where"),
    [(10.01, 0.1, "upper line"), (0.1, 0.0, "lower line"), (0.1, math.nan, "lower line")],
)
def test_a_diameter_outside_is_told_with_its_line(
    upper_mm: float, lower_mm: float, where: str
) -> None:
    with pytest.raises(AskedWronglyError, match=r"diameter of .* mm cannot be right") as refused:
        judge_join(upper_mm, lower_mm, "loops")
    assert refused.value.where == where
    assert "up to 10 mm" in refused.value.right


@pytest.mark.parametrize(
    ("rig_mm", "hooklength_mm", "where"),
    [(0.14, 0.0, "hooklength"), (11, 0.1, "rig line"), (0.1, -1.0, "hooklength")],
)
def test_a_step_of_absurd_diameters(rig_mm: float, hooklength_mm: float, where: str) -> None:
    with pytest.raises(AskedWronglyError, match="cannot be right") as refused:
        judge_step(rig_mm, hooklength_mm)
    assert refused.value.where == where
