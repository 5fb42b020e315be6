"""Labels read back from the PDF: text in its own label, type large enough, QR as said."""

import random
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from pdfminer.pdftypes import PDFStream, resolve1
from PIL import ImageFilter

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.printing import fonts
from tacklebox.printing.labels import print_labels
from tacklebox.printing.layout import INSET_MM
from tacklebox.printing.papers import Paper, list_papers, load_paper
from tacklebox.printing.qr import qr_words
from tests.printing.reading import (
    MM,
    cut_out,
    letters_of,
    place_of,
    qr_texts,
    rendered,
    text_of,
)
from tests.printing.samples import (
    ALL,
    CYRILLIC,
    EMOJI,
    FEEDER,
    FINE,
    GREEK,
    LONG,
    ONE_WORD,
    RIGS,
    WAGGLER,
)

STICKY = load_paper("a4-65")
STRIPS = load_paper("strips-180")
PAPERS = list_papers()


@pytest.fixture(params=PAPERS, ids=lambda p: p.stem)
def paper(request: pytest.FixtureRequest) -> Paper:
    assert isinstance(request.param, Paper)
    return request.param


@pytest.fixture(params=[True, False], ids=["qr", "no qr"])
def qr(request: pytest.FixtureRequest) -> bool:
    return bool(request.param)


def test_a_label_says_what_it_must(tmp_path: Path) -> None:
    pdf = tmp_path / "labels.pdf"
    print_labels([WAGGLER, FEEDER, FINE], STICKY, pdf)
    waggler, feeder, hooklength = (text_of(pdf, STICKY, n) for n in range(3))
    for said in ("A05L", "5BB", "waggler insert", "Insert waggler, bulk and droppers",
                 "0.14 mm 4.5 lb", "20 cm 0.12 mm", "18 barbless", "2 AAA",
                 "30–45 cm", "1.8 m", "5 Mar 26"):  # fmt: skip
        assert said in waggler
    for said in ("A07H", "30 g", "cage feeder", "100 cm", "16 barbless", "0.20 mm", "5 Mar 2026"):
        assert said in feeder
    for said in ("A09D", "15 cm", "Fine hooklength", "0.08 mm", "20 barbless", "5 Mar 2026"):
        assert said in hooklength


def test_every_letter_lies_inside_its_own_label(tmp_path: Path, paper: Paper, qr: bool) -> None:
    pdf = tmp_path / "labels.pdf"
    print_labels(ALL, paper, pdf, qr=qr)
    used = set()
    for number, page in enumerate(letters_of(pdf)):
        for letter in page:
            ink_top = letter["bottom"] - (fonts.CAP_HEIGHT + fonts.BELOW) * letter["size"]
            inside = [
                place
                for place in range(paper.places)
                for left, top, right, bottom in [place_of(paper, place)]
                if letter["x0"] >= (left + INSET_MM) * MM - 0.01
                and letter["x1"] <= (right - INSET_MM) * MM + 0.1
                and ink_top >= (top + INSET_MM) * MM - 0.01
                and letter["bottom"] <= (bottom - INSET_MM) * MM + 0.6
            ]
            assert len(inside) == 1, letter["text"]
            used.add(number * paper.places + inside[0])
    assert used == set(range(len(ALL)))


def test_no_type_under_the_rule_for_small_packs(tmp_path: Path, paper: Paper, qr: bool) -> None:
    """Regulation (EU) No 1169/2011, article 13 (3), annex IV: x-height at least 0.9 mm."""
    pdf = tmp_path / "labels.pdf"
    print_labels(ALL, paper, pdf, qr=qr)
    sizes = {letter["size"] / MM for page in letters_of(pdf) for letter in page}
    assert min(sizes) * fonts.X_HEIGHT >= 0.9 - 1e-4


def test_what_is_looked_for_first_is_largest(tmp_path: Path, paper: Paper, qr: bool) -> None:
    """Capitals of 1/200 of an arm's length of 60 cm (US FAA, as cited in human-factors handbooks)."""
    pdf = tmp_path / "labels.pdf"
    print_labels(RIGS, paper, pdf, qr=qr)
    pages = letters_of(pdf)
    for place, snapshot in enumerate(RIGS):
        page = pages[place // paper.places]
        left, top, right, bottom = place_of(paper, place)
        here = [
            c
            for c in page
            if left * MM < c["x0"] < right * MM and top * MM < c["top"] + 3 < bottom * MM
        ]
        largest = max(c["size"] for c in here)
        said = "".join(c["text"] for c in here if c["size"] > largest - 0.01).replace(" ", "")
        twice = 2 if paper.label.fold else 1  # on both sides of the winder
        assert said == twice * snapshot.size.replace(" ", "")
        assert largest / MM * fonts.CAP_HEIGHT >= 3.0 - 1e-3


def test_no_text_lies_on_other_text(tmp_path: Path, paper: Paper, qr: bool) -> None:
    pdf = tmp_path / "labels.pdf"
    print_labels(ALL, paper, pdf, qr=qr)
    for page in letters_of(pdf):
        letters = sorted((c for c in page if c["text"].strip()), key=lambda c: float(c["x0"]))
        for i, a in enumerate(letters):
            for b in letters[i + 1 :]:
                if b["x0"] > a["x1"] - 0.3:
                    break
                down = min(_base(a), _base(b)) - max(_top(a), _top(b))
                assert down < 0.1, (a["text"], b["text"])


def _base(letter: dict[str, float]) -> float:
    return letter["bottom"] - fonts.BELOW * letter["size"]


def _top(letter: dict[str, float]) -> float:
    return _base(letter) - fonts.CAP_HEIGHT * letter["size"]


def test_no_ink_but_the_cut_lines_outside_the_labels(tmp_path: Path, paper: Paper) -> None:
    pdf = tmp_path / "labels.pdf"
    print_labels(ALL, paper, pdf)
    dpi = 100
    image = rendered(pdf, dpi)
    edge = 0.4 if paper.cut else 0.0
    for place in range(paper.places):
        left, top, right, bottom = place_of(paper, place)
        outer = (left - edge, top - edge, right + edge, bottom + edge)
        x, y, to_x, to_y = (round(side * dpi / 25.4) for side in outer)
        image.paste(255, (x, y, to_x, to_y))
    assert image.getextrema() == (255, 255)


@pytest.mark.parametrize("dpi", [200, 300, 600])
def test_every_qr_is_read_as_the_label_says(tmp_path: Path, paper: Paper, dpi: int) -> None:
    pdf = tmp_path / "labels.pdf"
    report = print_labels(ALL, paper, pdf)
    told = dict(report.left_off)
    pages = [rendered(pdf, dpi, page) for page in range(report.pages)]
    for place, snapshot in enumerate(ALL):
        label = cut_out(pages[place // paper.places], place_of(paper, place), dpi)
        if "QR" in told.get(snapshot.code, "").partition("not in")[0]:
            assert paper.label.height < 33 * 0.33 + 2 * INSET_MM
            assert qr_texts(label) == []
        else:
            assert qr_texts(label) == [qr_words(snapshot).text]


def test_every_qr_is_read_blurred_and_3_percent_out_of_scale(tmp_path: Path) -> None:
    pdf = tmp_path / "labels.pdf"
    print_labels(ALL, STICKY, pdf)
    image = rendered(pdf, 300)
    for place, snapshot in enumerate(ALL):
        label = cut_out(image, place_of(STICKY, place), 300)
        bad = label.resize((round(label.width * 1.03), label.height))
        bad = bad.filter(ImageFilter.GaussianBlur(1.2))
        assert qr_texts(bad) == [qr_words(snapshot).text]


def test_page_is_exact_and_asks_for_no_scaling(tmp_path: Path, paper: Paper) -> None:
    pdf = tmp_path / "labels.pdf"
    print_labels([WAGGLER], paper, pdf)
    with pdfplumber.open(pdf) as read:
        left, low, right, high = read.pages[0].mediabox
        preferences = resolve1(read.doc.catalog["ViewerPreferences"])
    assert (left, low) == (0, 0)
    assert right / MM == pytest.approx(paper.page.width, abs=0.1)
    assert high / MM == pytest.approx(paper.page.height, abs=0.1)
    assert preferences["PrintScaling"].name == "None"


def test_fonts_are_embedded(tmp_path: Path) -> None:
    pdf = tmp_path / "labels.pdf"
    print_labels(ALL, STRIPS, pdf)
    described = [o for o in _objects(pdf) if str(o.get("Type")) == "/'FontDescriptor'"]
    names = {re.sub(r"^\w{6}\+", "", o["FontName"].name) for o in described}
    assert names == set(fonts.FONTS)
    assert all(isinstance(resolve1(o["FontFile2"]), PDFStream) for o in described)
    used = {c["fontname"] for page in letters_of(pdf) for c in page}
    assert all(re.fullmatch(r"\w{6}\+DejaVuSansCondensed(-Bold)?", name) for name in used), used


def _objects(pdf: Path) -> list[dict[str, Any]]:
    with pdfplumber.open(pdf) as read:
        numbers = [n for xref in read.doc.xrefs for n in xref.get_objids()]
        found = [read.doc.getobj(n) for n in numbers]
    return [o for o in found if isinstance(o, dict)]


def test_without_qr_its_room_is_used(tmp_path: Path) -> None:
    sizes = []
    for qr in (True, False):
        pdf = tmp_path / f"{qr}.pdf"
        print_labels([WAGGLER], STICKY, pdf, qr=qr)
        smallest = min(c["size"] for c in letters_of(pdf)[0])
        sizes.append(smallest)
    assert sizes[1] > sizes[0]


def test_code_and_name_stay_whatever_the_name(tmp_path: Path, paper: Paper) -> None:
    pdf = tmp_path / "labels.pdf"
    report = print_labels([LONG, ONE_WORD], paper, pdf)
    told = dict(report.left_off)
    for place, snapshot in enumerate((LONG, ONE_WORD)):
        text = text_of(pdf, paper, place)
        assert snapshot.code in text
        assert snapshot.name.split()[0][:12] in text
        if "…" in text:
            assert "the end of the name" in told[snapshot.code]


def test_names_of_three_alphabets_are_printed_and_what_no_font_has_is_told(tmp_path: Path) -> None:
    pdf = tmp_path / "labels.pdf"
    report = print_labels([CYRILLIC, GREEK, EMOJI], STICKY, pdf)
    assert CYRILLIC.name in text_of(pdf, STICKY, 0)
    assert GREEK.name in text_of(pdf, STICKY, 1)
    assert 'Dad\'s "lucky" □ wäggler □□' in text_of(pdf, STICKY, 2)
    told = dict(report.left_off)
    assert "🐟" in told[EMOJI.code]
    assert "font" not in told[CYRILLIC.code] + told[GREEK.code]


def test_what_has_no_room_is_told_by_code(tmp_path: Path) -> None:
    crowded = replace(WAGGLER, shot=WAGGLER.shot + ", 3 No 11 as droppers 10 cm–20 cm" * 3)
    report = print_labels([FINE, crowded], STICKY, tmp_path / "labels.pdf")
    assert [code for code, what in report.left_off if "no room" in what] == [crowded.code]
    assert "no room for shot, date" in dict(report.left_off)[crowded.code]


def test_a_qr_that_cannot_be_fine_enough_is_left_off_and_told(tmp_path: Path) -> None:
    low = STRIPS.model_copy(update={"label": STRIPS.label.model_copy(update={"height": 12.0})})
    pdf = tmp_path / "labels.pdf"
    report = print_labels([WAGGLER], low, pdf)
    assert report.left_off == (("A05L", "no room for QR"),)
    assert qr_texts(rendered(pdf, 300)) == []


def test_a_part_used_sheet_goes_on_where_told(tmp_path: Path) -> None:
    pdf = tmp_path / "labels.pdf"
    report = print_labels([WAGGLER, FEEDER, FINE], STICKY, pdf, start=63, skip=[64])
    assert (report.pages, report.labels, report.next_free) == (2, 3, 2)
    assert [text_of(pdf, STICKY, n)[-4:] != "" for n in (62, 63, 64, 65)] == [
        True, False, True, True,
    ]  # fmt: skip
    assert "A05L" in text_of(pdf, STICKY, 62)
    assert "A07H" in text_of(pdf, STICKY, 64)
    assert "A09D" in text_of(pdf, STICKY, 65)


def test_the_next_free_place_is_no_spoiled_one(tmp_path: Path) -> None:
    report = print_labels([WAGGLER], STICKY, tmp_path / "labels.pdf", start=3, skip=[4, 5])
    assert report.next_free == 6


def test_a_full_sheet_is_followed_by_a_new_one(tmp_path: Path) -> None:
    report = print_labels([WAGGLER] * 65, STICKY, tmp_path / "labels.pdf")
    assert (report.pages, report.next_free) == (1, 1)


@pytest.mark.parametrize("start", [0, -1, 66])
def test_a_start_beyond_the_sheet_is_refused(tmp_path: Path, start: int) -> None:
    with pytest.raises(AskedWronglyError, match="1 to 65") as error:
        print_labels([WAGGLER], STICKY, tmp_path / "labels.pdf", start=start)
    assert f"place {start} is not on the paper a4-65" in str(error.value)
    assert list(tmp_path.iterdir()) == []


def test_nothing_to_print_is_refused(tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="no rig"):
        print_labels([], STICKY, tmp_path / "labels.pdf")


def test_a_file_that_is_there_is_kept_unless_told(tmp_path: Path) -> None:
    target = tmp_path / "labels.pdf"
    target.write_text("mine")
    with pytest.raises(AskedWronglyError, match="left as it is"):
        print_labels([WAGGLER], STICKY, target)
    assert target.read_text() == "mine"
    print_labels([WAGGLER], STICKY, target, overwrite=True)
    assert target.read_bytes().startswith(b"%PDF")
    assert list(tmp_path.iterdir()) == [target]


def test_nothing_is_half_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(CannotBeDoneError, match="cannot be written"):
        print_labels([WAGGLER], STICKY, tmp_path / "no" / "labels.pdf")
    with pytest.raises(AskedWronglyError, match="folder"):
        print_labels([WAGGLER], STICKY, tmp_path)
    monkeypatch.setattr(Path, "replace", _full_disk)
    with pytest.raises(CannotBeDoneError, match="No space left"):
        print_labels([WAGGLER], STICKY, tmp_path / "labels.pdf")
    assert list(tmp_path.iterdir()) == []


def _full_disk(_aside: Path, _target: Path) -> None:
    raise OSError(28, "No space left on device")


def test_the_same_rigs_give_the_same_bytes(tmp_path: Path) -> None:
    for paper in (STICKY, STRIPS):
        one, two = tmp_path / f"{paper.stem}-1.pdf", tmp_path / f"{paper.stem}-2.pdf"
        print_labels(ALL, paper, one)
        print_labels(ALL, paper, two)
        assert one.read_bytes() == two.read_bytes()


def test_less_than_8_kb_for_a_label(tmp_path: Path) -> None:
    rng = random.Random(4)
    many = [replace(rng.choice(RIGS), code=f"A{n:03d}") for n in range(65)]
    for paper in (STICKY, STRIPS):
        pdf = tmp_path / f"{paper.stem}.pdf"
        print_labels(many, paper, pdf)
        assert pdf.stat().st_size / len(many) < 8000


def test_pages_of_a_long_run(tmp_path: Path) -> None:
    pdf = tmp_path / "labels.pdf"
    report = print_labels([replace(FINE, code=f"A{n:03d}") for n in range(70)], STICKY, pdf)
    assert report.pages == 2
    with pdfplumber.open(pdf) as read:
        assert len(read.pages) == 2
    assert "A069" in text_of(pdf, STICKY, 69)


def test_progress_is_told_after_each_label(tmp_path: Path) -> None:
    told: list[int] = []
    print_labels([WAGGLER, FEEDER, FINE], STICKY, tmp_path / "labels.pdf", progress=told.append)
    assert told == [1, 2, 3]
