"""Water against IAPWS, pull of shot in water, and how floats settle."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.balance import (
    Group,
    Place,
    Tip,
    carries_at_g,
    equal_mass_g,
    stages,
)
from tacklebox.trade.hanging import Hanging
from tacklebox.trade.shot import SHOT, Load, read_pattern
from tacklebox.trade.water import (
    pull_in_water_g,
    share_in_water,
    skin_n_m,
    water_density_kg_m3,
)
from tests.outside import outside

INSERT, BRISTLE = Tip(3.0, 60.0), Tip(1.2, 40.0)
WAGGLER = [
    Group(Place.LOCK, read_pattern("2 AAA")),
    Group(Place.BULK, read_pattern("4 No 8 + 2 No 10")),
    Group(Place.DROPPER, read_pattern("2 No 10")),
]


@outside("density of water over all temperatures", "IAPWS-95 by the library iapws", "library")
@pytest.mark.parametrize("temperature_c", [0.01, 2, 4, 6, 8, 10, 12, 15, 18, 20, 22, 25, 28, 30])
def test_water_density_against_iapws95(temperature_c: float) -> None:
    from iapws import IAPWS95  # type: ignore[import-untyped]

    expected = IAPWS95(T=temperature_c + 273.15, P=0.101325).rho
    assert water_density_kg_m3(temperature_c) == pytest.approx(expected, abs=0.02)


@outside("skin of water over all temperatures", "IAPWS R1-76(2014) by the library iapws", "library")
@pytest.mark.parametrize("temperature_c", [0.01, 4, 10, 15, 20, 25, 30])
def test_water_skin_against_iapws(temperature_c: float) -> None:
    """IAPWS R1-76(2014) as the library iapws has it; 0.074 N/m at 10 °C."""
    from iapws._iapws import _Tension  # type: ignore[import-untyped]

    assert skin_n_m(temperature_c) == pytest.approx(_Tension(temperature_c + 273.15), rel=1e-9)
    assert skin_n_m(10.0) == pytest.approx(0.074, abs=0.0005)


@pytest.mark.parametrize("temperature_c", [-0.1, 30.1, float("nan")])
def test_water_nobody_fishes_is_refused(temperature_c: float) -> None:
    for asked in (water_density_kg_m3, skin_n_m):
        with pytest.raises(AskedWronglyError, match="From 0 to 30"):
            asked(temperature_c)


@outside(
    "two grams of lead against two of tin under water",
    'Due West Anglers, "Don\'t overlook split shot", by hand',
    "closed form",
)
def test_pull_in_water_against_the_published_densities() -> None:
    # lead 11.34, tin 7.29 g/cm³: Due West Anglers, "Don't overlook split shot"
    assert share_in_water(11.34) == pytest.approx(0.912, abs=0.0005)
    assert share_in_water(7.29) == pytest.approx(0.863, abs=0.0005)
    less = pull_in_water_g(2.0, 11.34) - pull_in_water_g(2.0, 7.29)
    assert 0.06 < less < 0.12  # more than a No 8


@outside("pull of a shot of known size", "its volume, IAPWS-95", "library")
@pytest.mark.parametrize(
    ("diameter_mm", "tin_g", "lead_g"),
    # A shot's own size measured with a gauge: volume π d³/6, tin 7.29 and lead 11.34 g/cm³.
    [(2.0, 0.030536, 0.047501), (3.8, 0.209445, 0.325803), (5.9, 0.783949, 1.219476)],
)
def test_pull_of_a_shot_of_known_size_against_archimedes(
    diameter_mm: float, tin_g: float, lead_g: float
) -> None:
    """From its diameter, not from its mass: weight less that of the water in its place, IAPWS-95."""
    from iapws import IAPWS95

    displaced_g = math.pi / 6 * diameter_mm**3 * IAPWS95(T=283.15, P=0.101325).rho * 1e-6
    assert pull_in_water_g(tin_g, 7.29) == pytest.approx(tin_g - displaced_g, rel=1e-4)
    assert pull_in_water_g(lead_g, 11.34) == pytest.approx(lead_g - displaced_g, rel=1e-4)


@pytest.mark.parametrize("density", [0.0, 0.5, 0.97, -3.0, float("nan"), float("inf")])
def test_what_does_not_sink_is_no_weight(density: float) -> None:
    with pytest.raises(AskedWronglyError, match="does not sink"):
        pull_in_water_g(1.0, density)


@outside("the water's skin on a tip", "σ π d by hand", "closed form")
def test_the_skin_of_the_water_on_a_tip() -> None:
    """σ π d by hand with 0.0742 N/m: 71 mg on 3 mm, 29 mg on 1.2 mm; 10 and 25 mm of tip."""
    for tip, pulls_mg, moves_mm in ((INSERT, 71, 10), (BRISTLE, 29, 25)):
        most = tip.skin_most_mm()
        assert most == pytest.approx(moves_mm, abs=0.5)
        assert 1000 * most * tip.lift_g_per_mm() == pytest.approx(pulls_mg, abs=0.5)
        assert tip.skin_usual_mm() == pytest.approx(most / 3)


@outside("how far a No 10 moves the tip", "Archimedes by hand", "closed form")
def test_one_no_10_moves_the_tip_by_the_handbook_figures() -> None:
    # computed by hand from Archimedes: 4.9 mm on a 3 mm tip, 19.5 mm on a 1.5 mm bristle
    for tip, moves_mm in ((Tip(3.0, 60.0), 4.9), (Tip(1.5, 60.0), 19.5)):
        before = stages(0.08, tip, [Group(Place.DROPPER, read_pattern("No 10"))])[1]
        after = stages(0.08, tip, [Group(Place.DROPPER, read_pattern("2 No 10"))])[2]
        assert before.shows_mm - after.shows_mm == pytest.approx(moves_mm, abs=0.05)


@outside("a tenth of a gram on a 3 mm tip", "Archimedes by hand", "closed form")
def test_a_tenth_of_a_gram_wanting_on_a_thick_tip() -> None:
    """By hand: 0.1 g of tin pulls 86.3 mg, which 12.21 mm of a 3 mm tip carry at 10 °C."""
    assert stages(2.0, INSERT, [Group(Place.BULK, (Load(1, "1.9 g", 1.9, "olivette"),))])[
        -1
    ].shows_mm == pytest.approx(12.21, abs=0.02)


def test_insert_waggler_shows_its_stages() -> None:
    """Common practice: a good length before the bulk registers, a speck at the end."""
    answer = stages(2.0, INSERT, WAGGLER)
    assert [stage.what for stage in answer] == [
        "float alone",
        "lock shot",
        "bulk",
        "dropper 1",
        "dropper 2",
    ]
    assert answer[0].shows_mm == 60
    assert answer[1].shows_mm > 40
    assert answer[1].says == "a good length of tip shows"
    assert 0 <= answer[-1].shows_mm < 1
    assert answer[-1].says == "a speck shows"


@outside("what 13 and 19 mg that hang move the tip", "Archimedes by hand", "closed form")
def test_what_hangs_beside_the_shot_registers_last() -> None:
    """13 mg on a bristle of 1.2 mm are 11 mm of it, 19 mg on 3 mm 2.7 mm (by hand)."""
    for tip, pull_mg, moves_mm in ((BRISTLE, 13.0, 11.5), (INSERT, 19.0, 2.7)):
        group = [Group(Place.DROPPER, read_pattern("4 No 10"))]
        bare = stages(0.2, tip, group)[-1]
        hung = stages(0.2, tip, group, hanging=Hanging(line_mg=pull_mg))[-1]
        assert hung.what == "line below the float"
        assert bare.shows_mm - hung.shows_mm == pytest.approx(moves_mm, abs=0.05)


def test_droppers_of_mixed_material_register_in_their_order_down_the_line() -> None:
    loads = (
        Load(1, "No 8", 0.06, material="lead"),
        Load(1, "No 9", 0.05, material="tin"),
        Load(1, "No 10", 0.04, material="lead"),
    )
    answer = stages(0.4, INSERT, [Group(Place.DROPPER, loads)])[1:]
    assert [stage.added for stage in answer] == ["No 8", "No 9", "No 10"]
    steps = [0.06 * 0.9118 / 0.8629, 0.05, 0.04 * 0.9118 / 0.8629]  # densities as above
    registered = [sum(steps[: n + 1]) for n in range(3)]
    assert [stage.registered_g for stage in answer] == pytest.approx(registered, rel=1e-3)


@outside(
    "a float's own buoyancy in warm and cold water",
    "a body of fixed volume in water by IAPWS-95",
    "library",
)
@pytest.mark.parametrize(("capacity_g", "own_g"), [(2.0, 2.5), (0.2, 0.3), (8.0, 4.0)])
@pytest.mark.parametrize("temperature_c", [2, 10, 20, 28])
def test_a_floats_own_buoyancy_against_iapws(
    capacity_g: float, own_g: float, temperature_c: float
) -> None:
    """A body of fixed volume that carries the capacity in tin at 10 °C, weighed anew in water of
    another density (IAPWS-95)."""
    from iapws import IAPWS95

    def density(celsius: float) -> float:
        return float(IAPWS95(T=celsius + 273.15, P=0.101325).rho) / 1000

    def tin_pull(mass_g: float, celsius: float) -> float:
        return mass_g - mass_g / 7.29 * density(celsius)

    volume_cm3 = (own_g + tin_pull(capacity_g, 10)) / density(10)
    carries = carries_at_g(capacity_g, temperature_c, own_g=own_g)
    floats_g = volume_cm3 * density(temperature_c) - own_g
    assert tin_pull(carries, temperature_c) == pytest.approx(floats_g, abs=2e-4)


def test_a_float_carries_less_in_warm_water() -> None:
    assert carries_at_g(2.0, 10.0) == pytest.approx(2.0)
    carried = [carries_at_g(2.0, temperature_c) for temperature_c in (4.0, 10.0, 18.0, 26.0)]
    assert carried == sorted(carried, reverse=True)
    cold, warm = (stages(2.0, INSERT, WAGGLER, temperature_c=t)[3].shows_mm for t in (5.0, 25.0))
    assert warm < cold


@pytest.mark.parametrize("capacity_g", [0.0, -1.0, 101.0, float("nan"), float("inf")])
def test_absurd_capacities_are_refused(capacity_g: float) -> None:
    with pytest.raises(AskedWronglyError, match="capacity"):
        stages(capacity_g, INSERT, WAGGLER)


def test_other_nonsense_is_refused() -> None:
    for diameter_mm, length_mm in ((0.1, 60.0), (3.0, 1.0), (float("nan"), 60.0)):
        with pytest.raises(AskedWronglyError, match="tip"):
            Tip(diameter_mm, length_mm)


marks = st.sampled_from([shot.mark for shot in SHOT])
counts = st.dictionaries(marks, st.integers(1, 6), min_size=1, max_size=5)
capacities = st.floats(0.1, 10.0)


def loads(pattern: dict[str, int]) -> tuple[Load, ...]:
    return tuple(load for mark, n in pattern.items() for load in read_pattern(f"{n} {mark}"))


@given(capacities, counts, marks, st.floats(0, 30))
def test_more_shot_never_shows_more_tip(
    capacity_g: float, pattern: dict[str, int], extra: str, temperature_c: float
) -> None:
    def end(more: tuple[Load, ...]) -> float:
        group = Group(Place.BULK, (*loads(pattern), *more))
        return stages(capacity_g, INSERT, [group], temperature_c=temperature_c)[-1].shows_mm

    assert end(read_pattern(extra)) <= end(())
    shown = [stage.shows_mm for stage in stages(capacity_g, INSERT, WAGGLER)]
    assert shown == sorted(shown, reverse=True)


@given(st.floats(0.01, 50), st.sampled_from(["lead", "tin", "tungsten"]), st.floats(0, 30))
def test_swapping_the_material_and_back_changes_nothing(
    mass_g: float, material: str, temperature_c: float
) -> None:
    as_tin_g = equal_mass_g(mass_g, material, "tin", temperature_c)
    assert equal_mass_g(as_tin_g, "tin", material, temperature_c) == pytest.approx(mass_g)
