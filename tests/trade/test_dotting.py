"""Whether a float dots down, and that what is told to do then does it."""

import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.balance import DOTTED_MM, Group, Place, Tip, stages
from tacklebox.trade.dotting import judge_balance, judge_load, slack_g
from tacklebox.trade.hanging import DEPTH_NOT_SAID, Hanging
from tacklebox.trade.judgement import Fact, Judgement, Outcome
from tacklebox.trade.shot import SHOT, Load, read_pattern
from tacklebox.trade.sources import ASKED, MEASURED, MEMORY, PRINTED, Basis
from tacklebox.trade.trimming import moves_mm, to_add, to_take_off, trimming_shot

INSERT, BRISTLE = Tip(3.0, 60.0), Tip(1.2, 40.0)
WAGGLER = [
    Group(Place.LOCK, read_pattern("2 AAA")),
    Group(Place.BULK, read_pattern("4 No 8 + 2 No 10")),
    Group(Place.DROPPER, read_pattern("2 No 10")),
]


def one_weight(mass_g: float, material: str = "tin") -> list[Group]:
    return [Group(Place.BULK, (Load(1, f"{mass_g} g", mass_g, "olivette"),), material)]


def fact(answer: Judgement, name: str) -> Fact:
    (found,) = [f for f in answer.facts if f.name == name]
    return found


@pytest.mark.parametrize(
    ("shot_g", "outcome", "word"),
    [
        (2.0, Outcome.SOUND, "dots down"),
        (1.9, Outcome.SOUND, "dots down"),
        (2.1, Outcome.SOUND, "dots down"),
        (1.89, Outcome.DOUBTFUL, "rides high"),
        (2.11, Outcome.FAILS, "sinks"),
        (0.001, Outcome.DOUBTFUL, "rides high"),
    ],
)
def test_shot_load_at_its_limits(shot_g: float, outcome: Outcome, word: str) -> None:
    answer = judge_load(2.0, one_weight(shot_g))
    assert answer.outcome is outcome
    assert word in answer.says


def test_small_floats_may_be_off_by_a_no_10() -> None:
    assert judge_load(0.2, one_weight(0.24)).outcome is Outcome.SOUND
    assert judge_load(0.2, one_weight(0.25)).outcome is Outcome.FAILS


def test_lead_swapped_for_tin_is_noticed() -> None:
    lead = [Group(group.what, group.loads, "lead") for group in WAGGLER]
    answer = judge_balance(2.0, INSERT, lead, rated_in="tin")
    assert answer.outcome is Outcome.FAILS
    assert "as lead it pulls about 0.1 g more" in answer.says
    high = judge_balance(2.0, INSERT, WAGGLER, rated_in="lead")
    assert high.outcome is Outcome.DOUBTFUL
    assert "rides high" in high.says
    assert "less than lead" in high.says


def test_the_skin_is_one_offset_and_makes_no_two_patterns_equal() -> None:
    """Everyone sees a No 13 on a bristle: it moves the tip by less than the skin may, and yet the
    answers differ."""
    answer, shown = [], []
    for pattern in ("9 No 12", "9 No 12 + No 13"):
        judged = judge_balance(0.2, BRISTLE, [Group(Place.BULK, read_pattern(pattern))])
        answer.append(judged.says)
        shown.append(float(fact(judged, "tip that shows, bulk").value))
    assert shown[0] - shown[1] == pytest.approx(7.6, abs=0.1)
    assert BRISTLE.skin_usual_mm() > shown[0] - shown[1]
    assert answer[0].split(",")[1] != answer[1].split(",")[1]
    assert all("give or take 8 mm by the water's skin" in says for says in answer)


@pytest.mark.parametrize(
    ("pattern", "outcome"),
    [
        ("2 AAA", Outcome.DOUBTFUL),
        ("2 AAA + 8 No 10", Outcome.DOUBTFUL),
        ("2 AAA + 9 No 10", Outcome.SOUND),
        ("2 AAA + BB", Outcome.SOUND),
        ("2 AAA + BB + No 10", Outcome.DOUBTFUL),
        ("2 AAA + BB + No 4", Outcome.FAILS),
        ("3 AAA", Outcome.FAILS),
    ],
)
def test_every_answer_ends_with_what_can_be_done(pattern: str, outcome: Outcome) -> None:
    groups = [Group(Place.LOCK, read_pattern(pattern))]
    for answer in (judge_balance(2.0, INSERT, groups), judge_load(2.0, groups)):
        assert re.search(r"\. (Add|Take|Change|Fish|If it stands|Try) .+$", answer.says), (
            answer.says
        )
    assert judge_balance(2.0, INSERT, groups).outcome is outcome


@given(st.floats(0.15, 3.0), st.floats(0.0, 0.999), st.sampled_from([INSERT, BRISTLE]))
def test_what_is_to_be_added_dots_the_float_down(capacity_g: float, part: float, tip: Tip) -> None:
    """To half a No 13 of the 3 mm that are wished for."""
    groups = one_weight(max(0.01, capacity_g * part))
    answer = judge_balance(capacity_g, tip, groups)
    assume(answer.outcome is Outcome.DOUBTFUL)
    add = re.search(r"Add (.+) under the float", answer.says)
    assert add or "smaller float" in answer.says
    if add:
        more = [*groups, Group(Place.UNDER, read_pattern(add.group(1)))]
        after = stages(capacity_g, tip, more)[-1].shows_mm
        assert after == pytest.approx(3.0, abs=moves_mm(0.0051, tip))


KNOWN_G = [shot.mass_g for shot in SHOT if not shot.must_be_weighed]


@given(st.floats(0.006, 3.2))
def test_what_is_to_be_added_makes_up_what_is_lacking(lacks_g: float) -> None:
    words = to_add(lacks_g)
    assert words
    loads = read_pattern(words)
    assert abs(sum(load.total_g for load in loads) - lacks_g) <= 0.005 + 1e-6
    two_do = any(abs(a + b - lacks_g) <= 0.005 for a in KNOWN_G for b in [0.0, *KNOWN_G])
    assert sum(load.count for load in loads) <= (2 if two_do else 6)


def test_what_is_taken_off_is_on_the_rig_and_enough() -> None:
    groups = [
        Group(Place.LOCK, read_pattern("2 AAA")),
        Group(Place.BULK, read_pattern("4 No 8")),
        Group(Place.DROPPER, read_pattern("2 No 10")),
    ]
    for over_g, words in (
        (0.05, "change 1 No 8 in the bulk for a No 13"),
        (0.06, "take off 1 No 8 in the bulk"),
    ):
        answer = to_take_off(groups, over_g)
        assert answer
        assert (answer[0], round(answer[1], 6)) == (words, over_g)
    assert to_take_off(groups, 0.9) is None
    only = to_take_off([Group(Place.DROPPER, read_pattern("2 No 10"))], 0.04)
    assert only
    assert only[0] == "take off 1 No 10 of the droppers"
    assert to_take_off(one_weight(1.0), 0.1) is None  # an olivette is not changed by sizes of shot


@pytest.mark.parametrize(
    ("tip", "mark", "down_mm"), [(INSERT, "No 10", 4.9), (BRISTLE, "No 13", 7.6)]
)
def test_the_trimming_shot_and_how_far_it_takes_the_tip(
    tip: Tip, mark: str, down_mm: float
) -> None:
    assert trimming_shot(tip)[0] == mark
    assert trimming_shot(tip)[1] == pytest.approx(down_mm, abs=0.05)
    says = judge_balance(2.0, tip, [Group(Place.BULK, read_pattern("2 AAA + BB"))]).says
    assert f"If it stands {down_mm:.0f} mm high, add a {mark} under the float" in says


@pytest.mark.parametrize(
    ("shape", "words"),
    [
        ("waggler insert", "fish a bigger float, a 6BB (about 2.4 g)"),
        ("stick", "fish a bigger float, a 12 No 4 (about 2.4 g)"),
        ("pole", "fish a bigger float, one of 2.5 g"),
        ("", "fish a bigger float, one of 2.5 g"),
    ],
)
def test_another_float_is_one_that_is_sold(shape: str, words: str) -> None:
    groups = [Group(Place.LOCK, read_pattern("2 AAA + 4 No 4"))]
    for answer in (
        judge_balance(2.0, INSERT, groups, shape=shape),
        judge_load(2.0, groups, shape=shape),
    ):
        assert answer.says.lower().endswith(words.lower())
        assert "about 0.4 g too much" in answer.says
    smaller = judge_load(8.0, groups, shape=shape).says
    assert "Fish a smaller float, " + words.rpartition("float, ")[2] in smaller


@pytest.mark.parametrize(
    ("over_mg", "outcome"),
    [(0, Outcome.SOUND), (4.9, Outcome.SOUND), (5.1, Outcome.DOUBTFUL), (39, Outcome.DOUBTFUL),
     (41, Outcome.FAILS)],
)  # fmt: skip
def test_a_float_is_set_no_finer_than_half_a_no_13(over_mg: float, outcome: Outcome) -> None:
    assert judge_balance(0.2, BRISTLE, one_weight(0.2 + over_mg / 1000)).outcome is outcome


def test_what_a_judgement_rests_on() -> None:
    answer = judge_balance(
        2.0,
        INSERT,
        WAGGLER,
        capacity_source=MEASURED,
        hanging=Hanging(DEPTH_NOT_SAID, 3.0),
        tip_source=ASKED,
    )
    assert fact(answer, "float's capacity").source is MEASURED
    assert fact(answer, "dotted down up to").source.basis is Basis.CHOICE
    assert fact(answer, "dotted down up to").value == DOTTED_MM
    assert fact(answer, "and usually does by").source is MEMORY
    computed = fact(answer, "tip that shows, dropper 2").source
    assert (computed.basis, computed.citation) == (Basis.COMMON, "computed")  # fished: not said
    printed = judge_balance(2.0, INSERT, WAGGLER, capacity_source=PRINTED)
    assert fact(printed, "tip that shows, dropper 2").source.basis is Basis.PRINTED
    assert fact(judge_load(2.0, WAGGLER), "may be off by").source.basis is Basis.CHOICE
    assert fact(judge_load(2.0, WAGGLER), "all of it pulls as").source.basis is Basis.PRINTED
    no_14 = [Group(Place.BULK, read_pattern("2 No 14"))]
    basis = fact(judge_balance(0.2, BRISTLE, no_14), "tip that shows, bulk").source.basis
    assert basis is Basis.CHOICE
    warm = judge_balance(2.0, INSERT, WAGGLER, temperature_c=20)
    assert fact(warm, "carries at 20 °C").source.basis is Basis.MEMORY


@pytest.mark.parametrize("capacity_g", [0.0, -1.0, 101.0, float("nan"), float("inf")])
def test_absurd_capacities_are_refused(capacity_g: float) -> None:
    with pytest.raises(AskedWronglyError, match="capacity"):
        judge_load(capacity_g, one_weight(1.0))


def test_a_rig_without_shot_is_refused() -> None:
    with pytest.raises(AskedWronglyError, match="no shot"):
        judge_balance(2.0, INSERT, [])


@given(st.floats(0.1, 10.0), st.floats(0.001, 12.0))
def test_judgement_of_the_load_agrees_with_what_shows(capacity_g: float, shot_g: float) -> None:
    answer = judge_load(capacity_g, one_weight(shot_g)).outcome
    slack = slack_g(capacity_g)
    assume(abs(abs(shot_g - capacity_g) - slack) > 1e-6)
    assert (answer is Outcome.SOUND) == (abs(shot_g - capacity_g) < slack)
