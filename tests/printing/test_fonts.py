"""The typeface's measures against its own outlines, and what it cannot print."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont

from tacklebox.printing import fonts
from tests.outside import outside


@outside("heights of letters", "the font's own outlines by fontTools", "library")
@pytest.mark.parametrize("name", fonts.FONTS)
def test_heights_against_the_outlines(name: str) -> None:
    units = 2048
    font = ImageFont.truetype(str(fonts.FOLDER / f"{name}.ttf"), units)

    def box(letter: str) -> tuple[float, float, float, float]:
        return font.getbbox(letter, anchor="ls")

    assert -box("x")[1] / units == fonts.X_HEIGHT
    assert -box("X")[1] / units == fonts.CAP_HEIGHT
    assert all(-box(letter)[1] / units <= fonts.ABOVE for letter in "ÅÉŰЙΆŽ")
    assert all(box(letter)[3] / units <= fonts.BELOW for letter in "gjpqyQçщц,;()ş")


@outside("widths of letters", "the font's own outlines by fontTools", "library")
@pytest.mark.parametrize("name", fonts.FONTS)
def test_widths_against_the_outlines(name: str) -> None:
    font = ImageFont.truetype(
        str(fonts.FOLDER / f"{name}.ttf"), 2048, layout_engine=ImageFont.Layout.BASIC
    )
    for text in ("Hooklength 20 cm", "4×14", "Удочка", "Ωμέγα"):
        without_kerning = sum(font.getlength(letter) for letter in text) / 2048
        assert fonts.width_of(text, name == fonts.BOLD) == pytest.approx(without_kerning, abs=0.01)


@outside(
    "smallest type on a label", "Regulation (EU) No 1169/2011, article 13 and annex IV", "published"
)
def test_smallest_type_against_eu_1169_2011() -> None:
    """Annex IV: the x-height of the smallest packs is 0.9 mm; with this typeface 4.7 pt."""
    smallest = fonts.SMALLEST_MM
    assert smallest * fonts.X_HEIGHT == pytest.approx(0.9)
    assert smallest * 72 / 25.4 == pytest.approx(4.67, abs=0.01)


@pytest.mark.parametrize(
    "text",
    ["Größe Łódź œuvre Ørsted ğüş", "Ωμέγα Άνω", "Поплавок Їжак Ђ", "½ × 4 – “so” ‘it’ is…", "éé"],
)
def test_european_alphabets_print_whole(text: str) -> None:
    assert fonts.printable(text) == (unicodedata.normalize("NFC", text), "")


@pytest.mark.parametrize(
    ("text", "shown", "missing"),
    [
        ("🐟", "□", "🐟"),
        ("👍🏽 ok", "□□ ok", "👍🏽"),
        ("釣り", "□□", "釣り"),
        ("שלום", "□□□□", "שלום"),
        ("a\u200db\u202e\ufeffc", "abc", ""),
        ("tab\tnew\nline\x00", "tab new line", ""),
        ("", "", ""),
    ],
)
def test_what_no_font_has_is_told(text: str, shown: str, missing: str) -> None:
    assert fonts.printable(text) == (shown, missing)


@given(st.text(max_size=200))
def test_whatever_is_written_prints_as_characters_of_the_font(text: str) -> None:
    shown, missing = fonts.printable(text)
    assert fonts.printable(shown) == (shown, "")
    assert set(missing) <= set(unicodedata.normalize("NFC", text))
    assert fonts.width_of(shown) >= 0
