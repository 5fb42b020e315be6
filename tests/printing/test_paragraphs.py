"""Words as markup: by table."""

import pytest

from tacklebox.printing.fonts import BOLD
from tacklebox.printing.pages.paragraphs import as_markup


@pytest.mark.parametrize(
    ("words", "kept"),
    [
        ("1.2 mm × 25 mm tip", "1.2_mm_×_25_mm tip"),
        ("4 × shot No 8 tin", "4_×_shot No_8 tin"),
        ("hook 20 barbless", "hook_20 barbless"),
        ("over 99.9 % of 12 lb", "over 99.9_% of 12_lb"),
        ("0.5 l of water, 3 grains, 2 more", "0.5_l of water, 3 grains, 2 more"),
        ("a < b & c", "a &lt; b &amp; c"),
    ],
)
def test_a_figure_stays_with_its_unit(words: str, kept: str) -> None:
    assert as_markup(words) == kept.replace("_", "\N{NO-BREAK SPACE}")


def test_what_comes_first_is_bold() -> None:
    assert as_markup("left", "12 <") == f'<font name="{BOLD}">12 &lt;</font>  left'
