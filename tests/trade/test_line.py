"""Line stress against handbook tenacities, and the slips of the pen."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from tacklebox.trade.line import (
    MATERIALS,
    Material,
    diameter_of_go_mm,
    diameter_of_x_mm,
    in_band,
    likely_meanings,
    material_named,
    stress_mpa,
)
from tacklebox.trade.quantities import KG_PER_LB, STANDARD_GRAVITY


def words(material: str, diameter_mm: float, breaks_at_kg: float) -> list[str]:
    answer = likely_meanings(material_named(material), diameter_mm, breaks_at_kg)
    return [meaning.words for meaning in answer]


@pytest.mark.parametrize(
    ("material", "cn_per_tex"),
    # Tenacities from memory of fibre handbooks: high-tenacity polyamide 60–90 cN/tex, gel-spun
    # polyethylene 250–370 cN/tex. 1 cN/tex × density in g/cm³ = 10 MPa.
    [("nylon", 60), ("nylon", 90), ("braid", 250), ("braid", 370)],
)
def test_bands_against_handbook_tenacities(material: str, cn_per_tex: float) -> None:
    made_of = material_named(material)
    mpa = cn_per_tex * 10 * made_of.density_g_cm3
    diameter_mm = 0.2
    kg = mpa * 3.141592653589793 * diameter_mm**2 / 4 / STANDARD_GRAVITY
    assert stress_mpa(diameter_mm, kg) == pytest.approx(mpa)
    assert made_of.low_mpa <= mpa <= made_of.high_mpa


def test_main_line_of_0010_mm_is_a_slip_for_010() -> None:
    assert stress_mpa(0.010, 1.9) == pytest.approx(237_000, rel=0.01)
    answer = words("nylon", 0.010, 1.9)
    assert answer[0] == "0.10 mm at 0.862 kg (1.9 lb, not kg)"
    assert "0.10 mm at 1.9 kg (braid, not nylon)" in answer


@pytest.mark.parametrize(
    ("material", "diameter_mm", "breaks_at_kg", "meaning"),
    [
        ("nylon", 1.4, 1.8, "0.14 mm at 1.8 kg"),
        ("nylon", 0.14, 4.0, "0.14 mm at 1.81 kg (4 lb, not kg)"),
        ("nylon", 0.14, 4.0, "0.14 mm at 4 kg (braid, not nylon)"),
        ("fluorocarbon", 0.16, 0.5, "0.16 mm at 1.1 kg (1.1 kg, not lb)"),
        ("nylon", 6.0, 1.2, "0.152 mm at 1.2 kg (thousandths of an inch, not mm)"),
        ("nylon", 0.0055, 1.8, "0.14 mm at 1.8 kg (inches, not mm)"),
        ("nylon", 0.8, 1.2, "0.148 mm at 1.2 kg (a gō number, not mm)"),
        ("nylon", 6.0, 1.2, "0.127 mm at 1.2 kg (an X number, not mm)"),
        ("nylon", 0.16, 0.18, "0.16 mm at 1.8 kg"),
        ("nylon", 6.0, 3.6, "0.127 mm at 1.63 kg (an X number, not mm; 3.6 lb, not kg)"),
    ],
)
def test_slips(material: str, diameter_mm: float, breaks_at_kg: float, meaning: str) -> None:
    assert meaning in words(material, diameter_mm, breaks_at_kg)


@pytest.mark.parametrize(("diameter_mm", "lb"), [(0.10, 3.0), (0.12, 4.5), (0.14, 6.0)])
def test_high_tenacity_nylon_is_taken_without_a_question(diameter_mm: float, lb: float) -> None:
    """Common practice (no source): hooklength nylon is sold at these strains."""
    assert words("nylon", diameter_mm, lb * KG_PER_LB) == []


def test_honest_figures_raise_no_question() -> None:
    assert words("nylon", 0.14, 1.8) == []
    assert words("braid", 0.12, 8.0) == []  # understated diameter: a remark elsewhere, no slip


diameters = st.sampled_from([0.08, 0.1, 0.12, 0.15, 0.18, 0.2, 0.25])
stresses = st.floats(0.2, 0.8)


@given(st.sampled_from(MATERIALS), diameters, stresses, st.sampled_from([0.1, 10.0]))
def test_a_decimal_slip_of_an_honest_line_is_always_found(
    material: Material, diameter_mm: float, share: float, slip: float
) -> None:
    mpa = material.low_mpa + share * (material.high_mpa - material.low_mpa)
    kg = mpa * 3.141592653589793 * diameter_mm**2 / 4 / STANDARD_GRAVITY
    assume(not in_band(material, diameter_mm * slip, kg))
    answer = likely_meanings(material, diameter_mm * slip, kg)
    assert any(meaning.diameter_mm == pytest.approx(diameter_mm) for meaning in answer)
    for meaning in answer:
        assert 0.03 <= meaning.diameter_mm <= 2.0
        fits = [m for m in MATERIALS if in_band(m, meaning.diameter_mm, meaning.breaks_at_kg)]
        assert fits


def test_number_systems() -> None:
    # Japan Fishing Tackle Manufacturers Association, standard thickness of lines
    assert [diameter_of_go_mm(n) for n in (0.8, 1.0, 1.2)] == [0.148, 0.165, 0.185]
    assert diameter_of_x_mm(4) == pytest.approx(0.1778)  # 7 thousandths of an inch
    for wrong in (0.0, 101.0):
        with pytest.raises(ValueError, match="gō"):
            diameter_of_go_mm(wrong)
