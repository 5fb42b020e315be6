"""A QR's words and modules against ISO/IEC 18004."""

import random
import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from qrcode import util
from qrcode.constants import ERROR_CORRECT_M
from qrcode.main import QRCode

from tacklebox.printing.labels.layout import HEAD_MM, INSET_MM, place_qr
from tacklebox.printing.labels.qr import (
    LEAST_MODULE_MM,
    LETTERS,
    MOST_LETTERS,
    QrWords,
    qr_shape,
    qr_words,
    rig_sayings,
)
from tacklebox.printing.labels.qr_mask import MASKS, penalties
from tacklebox.printing.labels.typesetting import Rectangle
from tacklebox.rigs.recipes.file import Shelf
from tacklebox.rigs.tying.snapshot import Snapshot
from tests.outside import outside
from tests.printing.samples import ALL, CYRILLIC, EMOJI, FEEDER, FINE, POLE, WAGGLER


@outside("what a QR code holds", "ISO/IEC 18004, table of capacities", "published")
def test_capacity_against_iso_18004() -> None:
    """Table 7: level M holds 20, 38, 61, 90 alphanumeric in versions 1 to 4; 17 + 4 × version a side."""
    for version, capacity in enumerate((20, 38, 61, 90), start=1):
        assert qr_shape("A" * capacity).modules == 17 + 4 * version
        assert QrWords("A" * capacity).modules == 17 + 4 * version
        assert qr_shape("A" * (capacity + 1)).modules == 21 + 4 * version


@outside("letters that a QR code packs closely", "ISO/IEC 18004, alphanumeric mode", "published")
def test_letters_against_iso_18004() -> None:
    """Table 5: the 45 characters of the alphanumeric mode; in byte mode 90 would not fit."""
    assert sorted(LETTERS) == sorted("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")
    text = "".join(sorted(LETTERS)) * 2
    assert qr_shape(text).modules == 33


@outside("a QR code's masks and penalties", "the library qrcode", "library")
def test_masks_and_penalties_against_qrcode() -> None:
    """Its penalties are counted module by module; on symbols of chance, some nearly all dark."""
    for number, mask in enumerate(MASKS):
        theirs = util.mask_func(number)
        assert all(mask(i, j) == theirs(i, j) for i in range(33) for j in range(33))
    chance = random.Random(5)
    for turn in range(40):
        side = chance.choice((21, 25, 29, 33))
        grid = [[chance.random() < turn / 40 for _ in range(side)] for _ in range(side)]
        by_rows, by_columns = (
            int("0".join("".join(str(int(module)) for module in row) for row in rows), 2)
            for rows in (grid, zip(*grid, strict=True))
        )
        assert penalties(by_rows, by_columns, side) == util.lost_point(grid)


@given(st.text(sorted(LETTERS), min_size=1, max_size=MOST_LETTERS))
def test_any_qr_is_as_qrcode_draws_it(text: str) -> None:
    """The mask too, although it is chosen otherwise."""
    theirs = QRCode(error_correction=ERROR_CORRECT_M, border=0)
    theirs.add_data(util.QRData(text, mode=util.MODE_ALPHA_NUM))
    theirs.make(fit=True)
    shape = qr_shape(text)
    dark = {(x + n, y) for x, y, length in shape.runs for n in range(length)}
    cells = enumerate(theirs.get_matrix())
    assert dark == {(x, y) for y, row in cells for x, module in enumerate(row) if module}


@pytest.mark.parametrize("snapshot", ALL, ids=lambda s: s.code)
def test_words_fit_version_4(snapshot: Snapshot) -> None:
    words = qr_words(snapshot)
    assert len(words.text) <= MOST_LETTERS
    assert set(words.text) <= LETTERS
    assert qr_shape(words.text).modules <= 33


def test_what_the_words_are() -> None:
    """In full where they have room, else in short, else as jotted."""
    assert qr_words(replace(FINE, name="Fine")).text == (
        "A09D 15 CM HOOKLENGTH/NYLON 0.08 MM 0.7 KG/HOOK 20 BARBLESS SPADE/5 MAR 2026/FINE"
    )
    assert qr_words(FINE).text == (
        "A09D 15CM HOOKLENGTH/0.08 0.7KG/20 BARBLESS SPADE/5MAR26/FINE HOOKLENGTH"
    )
    assert qr_words(FEEDER).text == (
        "A07H 30G CAGE/.20 3.6KG/100CM .12 1.6KG/16BARBLESS/5MAR26/RUNNING PATERNOSTER FEEDER"
    )
    assert qr_words(POLE).text == (
        "A01T 4X12 POLE 1.2M/.12 1.6KG/15CM .08 .7KG/20 BARBLESS SPADE/2NO8 50/2NO10 20-35CM/5MAR26"
    )
    assert qr_words(WAGGLER) == QrWords(
        "A05L 5BB 1.8M/.14 4.5LB/20CM .12 1.6KG/18BARBLESS/2AAA/4NO8+2NO10 60/2NO10 30-45CM/5MAR26",
        ("kind", "name"),
    )


@pytest.mark.parametrize("recipe", Shelf().names())
def test_every_shipped_recipe_has_all_figures_and_the_date_in_its_qr(
    shipped: dict[str, Snapshot], recipe: str
) -> None:
    snapshot = shipped[recipe]
    words = qr_words(snapshot)
    assert set(words.left_out) <= {"kind", "name"}
    assert words.text.startswith(f"{snapshot.code} ")
    assert "25NOV26" in words.text or "25 NOV 2026" in words.text  # tightened where it must be
    for said in (snapshot.rig_line, snapshot.hooklength, snapshot.hook, snapshot.shot):
        figures = re.findall(r"\d+(?:\.\d+)?", said.replace("0.", "."))
        assert all(figure in words.text for figure in figures), (said, words.text)


def test_a_shorter_qr_says_all_of_it_too() -> None:
    """Where the fullest has no room, one of a smaller version is tried; never one that says less."""
    fullest, tightest = rig_sayings(FINE).candidates()
    assert len(tightest.text) < len(fullest.text)
    assert tightest.left_out == ()
    for said in ("A09D", "15CM", "HOOKLENGTH", ".08", ".7KG", "20BARBLESS", "5MAR26"):
        assert said in tightest.text
    assert len(rig_sayings(WAGGLER).candidates()) == 1


def test_a_name_that_the_set_cannot_say_is_left_out_and_named() -> None:
    for snapshot in (CYRILLIC, EMOJI):
        assert "name" in qr_words(snapshot).left_out


def test_accents_and_quotes_are_said_plainly() -> None:
    snapshot = replace(FINE, name='Été\'s "fine" one', purpose="", hook="20")
    assert "/ETES FINE ONE" in qr_words(snapshot).text


@given(st.text(max_size=300), st.text(max_size=300), st.text(max_size=100))
def test_whatever_is_written_fits(name: str, shot: str, size: str) -> None:
    words = qr_words(replace(WAGGLER, name=name, shot=shot, size=size))
    assert len(words.text) <= MOST_LETTERS
    assert set(words.text) <= LETTERS
    assert words.text.startswith("A05L")


@given(
    st.sampled_from([21, 25, 29, 33]),
    st.floats(20, 200),
    st.floats(8, 60),
    st.floats(INSET_MM, 4),
    st.booleans(),
)
def test_border_and_least_module_always_hold(
    modules: int, width: float, height: float, inset: float, strip: bool
) -> None:
    """Section 9.1 of ISO/IEC 18004: four modules of quiet zone on every side."""
    place = place_qr(modules, Rectangle(0, 0, width, height), inset, strip=strip)
    if place is None:
        side = LEAST_MODULE_MM * (modules + 8)
        assert side > min(height - (0 if strip else HEAD_MM), width / 2) - 2 * inset
        return
    assert place.module >= 0.33
    assert place.kept_clear.width == pytest.approx((modules + 8) * place.module)
    assert place.kept_clear.x >= width / 2 - 1e-6
    assert place.kept_clear.right <= width + 1e-6
    assert place.kept_clear.y >= -1e-6
    assert place.kept_clear.top <= height + 1e-6
    assert place.x + modules * place.module <= width - inset + 1e-6
    assert inset - 1e-6 <= place.y <= height - inset - modules * place.module + 1e-6


def test_the_depth_stays_where_the_water_s_has_no_room() -> None:
    rig = replace(WAGGLER, plumbed="6 ft 7 in", over="3 1/2 in over depth")
    said = qr_words(rig)
    assert said.left_out == ("plumbed depth", "kind", "name")
    assert "6FT 7IN" not in said.text
