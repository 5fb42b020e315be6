"""Labels read back from the PDF: text, boxes, fonts, decoded QR."""

import re
from dataclasses import replace
from pathlib import Path

import pdfplumber
import pypdfium2
import pytest
import zxingcpp
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.printing import fonts
from tacklebox.printing.labels import print_labels
from tacklebox.printing.papers import Paper, load_paper
from tacklebox.printing.qr import dark_runs
from tacklebox.printing.wording import QR_ALPHABET, QR_MOST, qr_text
from tacklebox.rigs.snapshot import Snapshot
from tests.printing.samples import ALL, FEEDER, FOREIGN, HOOKLENGTH, LONG, WAGGLER

PAPERS = [load_paper("a4-65"), load_paper("strips-180")]
MM = 72 / 25.4


@pytest.fixture(params=PAPERS, ids=lambda p: p.stem)
def paper(request: pytest.FixtureRequest) -> Paper:
    assert isinstance(request.param, Paper)
    return request.param


def words_of(page: pdfplumber.page.Page, paper: Paper, index: int) -> str:
    place = paper.place(index)
    box = (
        place.left_mm * MM,
        place.top_mm * MM,
        (place.left_mm + place.width_mm) * MM,
        (place.top_mm + place.height_mm) * MM,
    )
    text = page.within_bbox(box).extract_text()
    return " ".join(str(text).split())


def test_a_label_says_what_it_must(tmp_path: Path) -> None:
    report = print_labels([WAGGLER, FEEDER, HOOKLENGTH], PAPERS[0], tmp_path / "x.pdf")
    assert report.left_off == ()
    with pdfplumber.open(tmp_path / "x.pdf") as pdf:
        waggler, feeder, hooklength = (words_of(pdf.pages[0], PAPERS[0], i) for i in range(3))
    for said in ("A05L", "5BB", "Insert waggler", "0.14 mm", "20 cm", "0.12 mm", "hook 18 barbless",
                 "2 AAA at the", "4 No 8 + 2 No 10", "depth 1.8 m", "2026-03-05"):  # fmt: skip
        assert said in waggler
    for said in ("A07H", "30 g", "feeder cage", "hook 18", "2026-03-05"):
        assert said in feeder
    for said in ("A09D", "15 cm", "Fine hooklength", "0.08 mm", "hook 20", "2026-03-05"):
        assert said in hooklength


def test_every_letter_lies_inside_its_own_label_and_is_large_enough(
    tmp_path: Path, paper: Paper
) -> None:
    """The x at least 0.9 mm high: Regulation (EU) No 1169/2011, article 13 and annex IV."""
    print_labels(ALL, paper, tmp_path / "x.pdf")
    places = [paper.place(i) for i in range(len(ALL))]
    found = set()
    with pdfplumber.open(tmp_path / "x.pdf") as pdf:
        page = pdf.pages[0]
        for letter in page.chars:
            inside = [
                i
                for i, p in enumerate(places)
                if p.left_mm * MM - 0.01 <= letter["x0"]
                and letter["x1"] <= (p.left_mm + p.width_mm) * MM + 0.01
                and p.top_mm * MM - 0.01 <= letter["top"]
                and letter["bottom"] <= (p.top_mm + p.height_mm) * MM + 1.2
            ]
            assert len(inside) == 1, letter["text"]
            found.add(inside[0])
            assert letter["size"] * fonts.X_HEIGHT / MM >= 0.9 - 1e-6
    assert found == set(range(len(ALL)))


def test_no_line_of_text_runs_into_another(tmp_path: Path, paper: Paper) -> None:
    print_labels(ALL, paper, tmp_path / "x.pdf")
    with pdfplumber.open(tmp_path / "x.pdf") as pdf:
        letters = [c for c in pdf.pages[0].chars if c["text"].strip()]
    for i, a in enumerate(letters):
        for b in letters[i + 1 : i + 400]:
            across = min(a["x1"], b["x1"]) - max(a["x0"], b["x0"])
            # From cap height to baseline, so that a tail may reach beside the next line.
            a_top, b_top = (c["bottom"] - c["size"] * 0.97 for c in (a, b))
            down = min(a["bottom"] - a["size"] * 0.24, b["bottom"] - b["size"] * 0.24) - max(
                a_top, b_top
            )
            assert not (across > 0.6 and down > 0.6), (a["text"], b["text"])


def test_what_is_looked_for_first_has_capitals_of_3_mm(tmp_path: Path, paper: Paper) -> None:
    """1/200 of an arm's length of 60 cm: FAA, as cited in human-factors handbooks."""
    print_labels([WAGGLER], paper, tmp_path / "x.pdf")
    with pdfplumber.open(tmp_path / "x.pdf") as pdf:
        largest = max(pdf.pages[0].chars, key=lambda c: float(c["size"]))
    assert largest["text"] in "5B"
    assert largest["size"] * fonts.CAP_HEIGHT / MM >= 3.0 - 1e-6


def test_page_size_fonts_and_no_scaling(tmp_path: Path, paper: Paper) -> None:
    """ISO 216: A4 is 210 × 297 mm."""
    print_labels(ALL, paper, tmp_path / "x.pdf")
    with pdfplumber.open(tmp_path / "x.pdf") as pdf:
        page = pdf.pages[0]
        assert page.width / MM == pytest.approx(210, abs=0.1)
        assert page.height / MM == pytest.approx(297, abs=0.1)
        assert {re.sub(r"^[A-Z]{6}\+", "", c["fontname"]) for c in page.chars} <= {
            fonts.REGULAR,
            fonts.BOLD,
        }
        assert all("+" in c["fontname"] for c in page.chars)  # a subset is embedded
    raw = (tmp_path / "x.pdf").read_bytes()
    assert b"/PrintScaling /None" in raw
    assert b"/FontFile2" in raw


@pytest.mark.parametrize("dpi", [200, 300, 600])
def test_every_qr_is_decoded_to_the_labels_words(tmp_path: Path, paper: Paper, dpi: int) -> None:
    print_labels(ALL, paper, tmp_path / "x.pdf")
    image = pypdfium2.PdfDocument(tmp_path / "x.pdf")[0].render(scale=dpi / 72).to_pil()
    for index, snapshot in enumerate(ALL):
        place = paper.place(index)
        box = (
            place.left_mm,
            place.top_mm,
            place.left_mm + place.width_mm,
            place.top_mm + place.height_mm,
        )
        crop = image.crop(tuple(round(side * dpi / 25.4) for side in box))
        (code,) = zxingcpp.read_barcodes(crop, formats=zxingcpp.BarcodeFormat.QRCode)
        assert code.text == qr_text(snapshot)


def test_the_qr_holds_plain_words() -> None:
    text = qr_text(WAGGLER)
    assert text.startswith("A05L WAG 5BB INSERT HL 20CM 0.12MM 1.6KG H18 BL SPADE L 0.14MM")
    for snapshot in ALL:
        assert len(qr_text(snapshot)) <= QR_MOST
        assert set(qr_text(snapshot)) <= QR_ALPHABET
    assert QR_ALPHABET == set(zip_alphabet())


def zip_alphabet() -> str:
    """ISO/IEC 18004, table of the alphanumeric mode, in the order of its values 0 to 44."""
    return "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"


def test_version_4_at_level_m_holds_90_letters() -> None:
    """ISO/IEC 18004: 4-M holds 90 alphanumeric characters in 33 × 33 modules."""
    assert dark_runs("A" * 90)[0] == 33
    assert dark_runs("A" * 91)[0] == 37


def test_without_qr_its_room_is_used(tmp_path: Path) -> None:
    crowded = replace(
        WAGGLER, name="Insert waggler for the far bank, bulk and droppers, late season"
    )
    with_qr = print_labels([crowded], PAPERS[0], tmp_path / "x.pdf")
    without = print_labels([crowded], PAPERS[0], tmp_path / "y.pdf", qr=False)
    assert with_qr.left_off
    assert without.left_off == ()


def test_what_is_left_off_is_told(tmp_path: Path) -> None:
    report = print_labels([LONG, FOREIGN], PAPERS[0], tmp_path / "x.pdf")
    told = dict(report.left_off)
    assert any(code == LONG.code and "date" in what for code, what in report.left_off)
    assert any("🎣" in what for code, what in report.left_off if code == FOREIGN.code), told


def test_a_part_used_sheet_goes_on_where_told(tmp_path: Path, paper: Paper) -> None:
    last = paper.per_page
    report = print_labels([WAGGLER, FEEDER], paper, tmp_path / "x.pdf", start=last)
    assert (report.pages, report.next_free) == (2, 2)
    with pdfplumber.open(tmp_path / "x.pdf") as pdf:
        assert "A05L" in words_of(pdf.pages[0], paper, last - 1)
        assert "A07H" in words_of(pdf.pages[1], paper, 0)


@pytest.mark.parametrize("start", [0, -1, 66])
def test_a_start_beyond_the_sheet(tmp_path: Path, start: int) -> None:
    with pytest.raises(AskedWronglyError, match="From 1 to 65"):
        print_labels([WAGGLER], PAPERS[0], tmp_path / "x.pdf", start=start)


def test_a_file_that_is_there_is_kept(tmp_path: Path) -> None:
    target = tmp_path / "x.pdf"
    target.write_text("mine")
    with pytest.raises(AskedWronglyError, match="left as it is"):
        print_labels([WAGGLER], PAPERS[0], target)
    assert target.read_text() == "mine"
    print_labels([WAGGLER], PAPERS[0], target, overwrite=True)
    assert target.read_bytes().startswith(b"%PDF")


def test_nothing_half_written_where_nothing_can_be(tmp_path: Path) -> None:
    with pytest.raises(CannotBeDoneError, match="cannot be written"):
        print_labels([WAGGLER], PAPERS[0], tmp_path / "no" / "x.pdf")
    assert list(tmp_path.iterdir()) == []


def test_the_same_rigs_give_the_same_bytes(tmp_path: Path) -> None:
    for name in ("x.pdf", "y.pdf"):
        print_labels(ALL, PAPERS[1], tmp_path / name)
    assert (tmp_path / "x.pdf").read_bytes() == (tmp_path / "y.pdf").read_bytes()


def test_less_than_8_kb_for_each_label(tmp_path: Path, paper: Paper) -> None:
    many = [replace(s, code=f"A{i:03d}") for i in range(20) for s in (WAGGLER, FEEDER, HOOKLENGTH)]
    print_labels(many, paper, tmp_path / "x.pdf")
    assert (tmp_path / "x.pdf").stat().st_size / len(many) < 8000


@pytest.mark.parametrize("face", [fonts.REGULAR, fonts.BOLD])
def test_letter_heights_are_the_fonts_own(face: str) -> None:
    font = TTFont(Path(fonts.__file__).with_name("fonts") / f"{face}.ttf")
    glyphs = font.getGlyphSet()
    for letter, share in (("x", fonts.X_HEIGHT), ("H", fonts.CAP_HEIGHT)):
        pen = BoundsPen(glyphs)
        glyphs[letter].draw(pen)
        assert pen.bounds[3] / font["head"].unitsPerEm == pytest.approx(share)


def test_letters_of_three_alphabets_are_printed() -> None:
    said = "Größe Ωμέγα Поплавок œuvre Łódź"
    assert fonts.printable(said) == (said, "")


def test_samples_are_snapshots() -> None:
    assert all(Snapshot.from_json(s.to_json()) == s for s in ALL)
