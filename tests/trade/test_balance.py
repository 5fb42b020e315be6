"""Water against IAPWS-95, pull of shot in water, and how floats settle."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.balance import (
    Group,
    Tip,
    equal_mass_g,
    judge_balance,
    judge_shot_load,
    one_size_either_way_mm,
    slack_g,
    stages,
)
from tacklebox.trade.judgement import Outcome
from tacklebox.trade.shot import SHOT, Load, read_pattern
from tacklebox.trade.water import pull_in_water_g, share_in_water, water_density_kg_m3

INSERT = Tip(3.0, 60.0)
WAGGLER = [
    Group("lock shot", read_pattern("2 AAA")),
    Group("bulk", read_pattern("4 No 8 + 2 No 10")),
    Group("dropper", read_pattern("2 No 10")),
]


@pytest.mark.parametrize("temperature_c", [0.01, 2, 4, 6, 8, 10, 12, 15, 18, 20, 22, 25, 28, 30])
def test_water_density_against_iapws95(temperature_c: float) -> None:
    from iapws import IAPWS95  # type: ignore[import-untyped]

    expected = IAPWS95(T=temperature_c + 273.15, P=0.101325).rho
    assert water_density_kg_m3(temperature_c) == pytest.approx(expected, abs=0.02)


@pytest.mark.parametrize("temperature_c", [-0.1, 30.1, float("nan")])
def test_water_nobody_fishes_is_refused(temperature_c: float) -> None:
    with pytest.raises(AskedWronglyError, match="0 and 30"):
        water_density_kg_m3(temperature_c)


def test_pull_in_water_against_the_published_densities() -> None:
    # lead 11.34, tin 7.29 g/cm³: Due West Anglers, "Don't overlook split shot"
    assert share_in_water(11.34) == pytest.approx(0.912, abs=0.0005)
    assert share_in_water(7.29) == pytest.approx(0.863, abs=0.0005)
    assert share_in_water(19.25) == pytest.approx(0.948, abs=0.0005)
    less = pull_in_water_g(2.0, 11.34) - pull_in_water_g(2.0, 7.29)
    assert 0.06 < less < 0.12  # more than a No 8


def test_pull_of_a_shot_against_its_sphere() -> None:
    """A shot as a sphere of its mass: weight less the weight of the water its volume displaces."""
    from fluids.geometry import V_from_h  # the volume of a full spherical tank is a sphere's

    for shot in SHOT:
        diameter_cm = (6 * shot.mass_g / (math.pi * 7.29)) ** (1 / 3)
        volume_cm3 = V_from_h(
            h=diameter_cm,
            D=diameter_cm,
            L=0.0,
            horizontal=False,
            sideA="spherical",
            sideB="spherical",
            sideA_a=diameter_cm / 2,
            sideB_a=diameter_cm / 2,
        )
        displaced_g = volume_cm3 * water_density_kg_m3() / 1000
        assert pull_in_water_g(shot.mass_g, 7.29) == pytest.approx(shot.mass_g - displaced_g)


@pytest.mark.parametrize("density", [0.0, 0.5, 0.97, -3.0, float("nan"), float("inf")])
def test_what_does_not_sink_is_no_weight(density: float) -> None:
    with pytest.raises(AskedWronglyError, match="does not sink"):
        pull_in_water_g(1.0, density)


def test_one_no_10_moves_the_tip_by_the_handbook_figures() -> None:
    # computed by hand from Archimedes: 4.9 mm on a 3 mm tip, 19.5 mm on a 1.5 mm bristle
    for tip, moves_mm in ((Tip(3.0, 60.0), 4.9), (Tip(1.5, 60.0), 19.5)):
        before, after = stages(0.08, tip, [Group("dropper", read_pattern("No 10"))])[1], None
        after = stages(0.08, tip, [Group("dropper", read_pattern("2 No 10"))])[2]
        assert before.shows_mm - after.shows_mm == pytest.approx(moves_mm, abs=0.05)


def test_insert_waggler_shows_its_stages() -> None:
    """Common practice: a good length before the bulk registers, a speck at the end."""
    told = stages(2.0, INSERT, WAGGLER)
    assert [stage.what for stage in told] == [
        "float alone",
        "lock shot",
        "bulk",
        "dropper 1",
        "dropper 2",
    ]
    assert told[0].shows_mm == 60
    assert told[1].shows_mm > 40
    assert told[1].says == "a good length of tip shows"
    assert 0 <= told[-1].shows_mm < 1
    assert told[-1].says == "a speck shows"
    assert judge_balance(2.0, INSERT, WAGGLER).outcome is Outcome.SOUND


def test_lead_swapped_for_tin_is_noticed() -> None:
    lead = [Group(group.what, group.loads, "lead") for group in WAGGLER]
    told = judge_balance(2.0, INSERT, lead, rated_in="tin")
    assert told.outcome is Outcome.WILL_NOT_DO
    assert "as lead it pulls 0.11 g more" in told.says
    high = judge_balance(2.0, INSERT, WAGGLER, rated_in="lead")
    assert high.outcome is Outcome.LOOK_AGAIN
    assert "rides high" in high.says
    assert "less than the same mass of lead" in high.says


@pytest.mark.parametrize(
    ("shot_g", "outcome", "word"),
    [
        (2.0, "sound", "dots down"),
        (1.9, "sound", "dots down"),
        (2.1, "sound", "dots down"),
        (1.89, "look again", "rides high"),
        (2.11, "will not do", "sinks"),
        (0.0, "look again", "rides high"),
    ],
)
def test_shot_load_at_its_limits(shot_g: float, outcome: str, word: str) -> None:
    told = judge_shot_load(2.0, shot_g)
    assert told.outcome.value == outcome
    assert word in told.says


def test_small_floats_may_be_off_by_a_no_10() -> None:
    assert judge_shot_load(0.2, 0.24).outcome is Outcome.SOUND
    assert judge_shot_load(0.2, 0.25).outcome is Outcome.WILL_NOT_DO


@pytest.mark.parametrize("capacity_g", [0.0, -1.0, 101.0, float("nan"), float("inf")])
def test_absurd_capacities_are_refused(capacity_g: float) -> None:
    with pytest.raises(AskedWronglyError, match="capacity"):
        judge_shot_load(capacity_g, 1.0)
    with pytest.raises(AskedWronglyError, match="capacity"):
        stages(capacity_g, INSERT, WAGGLER)


def test_other_nonsense_is_refused() -> None:
    with pytest.raises(AskedWronglyError, match="shot makes no sense"):
        judge_shot_load(2.0, -1.0)
    with pytest.raises(AskedWronglyError, match="no shot"):
        judge_balance(2.0, INSERT, [])
    for diameter_mm, length_mm in ((0.1, 60.0), (3.0, 1.0), (float("nan"), 60.0)):
        with pytest.raises(AskedWronglyError, match="tip"):
            Tip(diameter_mm, length_mm)


marks = st.sampled_from([shot.mark for shot in SHOT])
counts = st.dictionaries(marks, st.integers(1, 6), min_size=1, max_size=5)
capacities = st.floats(0.1, 10.0)


def loads(pattern: dict[str, int]) -> tuple[Load, ...]:
    return tuple(load for mark, n in pattern.items() for load in read_pattern(f"{n} {mark}"))


@given(capacities, counts, marks)
def test_more_shot_never_shows_more_tip(
    capacity_g: float, pattern: dict[str, int], extra: str
) -> None:
    less = stages(capacity_g, INSERT, [Group("bulk", loads(pattern))])
    more = stages(capacity_g, INSERT, [Group("bulk", (*loads(pattern), *read_pattern(extra)))])
    assert more[-1].shows_mm <= less[-1].shows_mm
    shown = [stage.shows_mm for stage in stages(capacity_g, INSERT, WAGGLER)]
    assert shown == sorted(shown, reverse=True)


@given(capacities, st.floats(0.0, 12.0))
def test_judgement_of_the_load_agrees_with_what_shows(capacity_g: float, shot_g: float) -> None:
    told = judge_shot_load(capacity_g, shot_g).outcome
    slack = slack_g(capacity_g)
    assume(abs(abs(shot_g - capacity_g) - slack) > 1e-6)
    assert (told is Outcome.SOUND) == (abs(shot_g - capacity_g) < slack)


@given(st.floats(0.01, 50), st.sampled_from(["lead", "tin", "tungsten"]), st.floats(0, 30))
def test_swapping_the_material_and_back_changes_nothing(
    mass_g: float, material: str, temperature_c: float
) -> None:
    there = equal_mass_g(mass_g, material, "tin", temperature_c)
    assert equal_mass_g(there, "tin", material, temperature_c) == pytest.approx(mass_g)


def test_one_size_either_way() -> None:
    smaller, bigger = one_size_either_way_mm("No 8", INSERT)
    assert smaller == pytest.approx(1.22, abs=0.01)  # No 9 is 0.01 g lighter
    assert bigger == pytest.approx(-2.44, abs=0.01)  # No 7 is 0.02 g heavier
    assert one_size_either_way_mm("SSG", INSERT)[1] is None
    assert one_size_either_way_mm("No 13", INSERT)[0] is None
