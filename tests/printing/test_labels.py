"""Labels read back from the PDF: text in its own label, type large enough, QR as said."""

import random
from dataclasses import replace
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.printing.labels.papers import Paper, list_papers, load_paper
from tacklebox.printing.labels.sheets import Lacks, LeftOff, print_labels
from tacklebox.printing.labels.wording import fields
from tests.printing.reading import (
    MM,
    cut_out,
    letters_of,
    pages_of,
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
    POLE,
    RIGS,
    WAGGLER,
)

STICKY = load_paper("a4-65")
LARGE = load_paper("drawers-95")
STRIPS = load_paper("strips-180")
PAPERS = list_papers()[0]


@pytest.fixture(params=PAPERS, ids=lambda p: p.stem)
def paper(request: pytest.FixtureRequest) -> Paper:
    assert isinstance(request.param, Paper)
    return request.param


def test_a_label_says_what_it_must(tmp_path: Path) -> None:
    pdf = tmp_path / "labels.pdf"
    print_labels([WAGGLER, FEEDER, FINE], STICKY, pdf)
    waggler, feeder, hooklength = (text_of(pdf, STICKY, n) for n in range(3))
    for said in ("A05L", "5BB", "waggler insert", "0.14 mm 4.5 lb", "20 cm 0.12 mm", "18 barbless",
                 "2 AAA", "30–45 cm", "1.8 m"):  # fmt: skip
        assert said in waggler
    for said in ("A07H", "30 g", "cage feeder", "100 cm", "16 barbless", "0.20 mm", "5 Mar 26"):
        assert said in feeder
    for said in ("A09D", "15 cm", "Fine hooklength", "0.08 mm", "20 barbless", "5 Mar 2026"):
        assert said in hooklength


def test_the_code_stays_whatever_the_name_and_a_long_name_is_cut(
    tmp_path: Path, paper: Paper
) -> None:
    pdf = tmp_path / "labels.pdf"
    report = print_labels([LONG, ONE_WORD], paper, pdf)
    for place, snapshot in enumerate((LONG, ONE_WORD)):
        text = text_of(pdf, paper, place)
        assert snapshot.code in text
        named = snapshot.name.split()[0][:4] in text
        assert named == ("…" in text)
        assert named != (LeftOff(snapshot.code, Lacks.ROOM, "name") in report.left_off)


def test_names_of_three_alphabets_are_printed_and_what_no_font_has_is_told(tmp_path: Path) -> None:
    pdf = tmp_path / "labels.pdf"
    report = print_labels([CYRILLIC, GREEK, EMOJI], LARGE, pdf)
    for place, name in enumerate((CYRILLIC.name, GREEK.name, 'Dad\'s "lucky" □ wäggler □□')):
        assert set(name.split()) <= set(text_of(pdf, LARGE, place).split())
    lacking = [(left.code, left.what) for left in report.left_off if left.why == Lacks.CHARACTER]
    assert lacking == [(EMOJI.code, char) for char in "🐟👍🏽"]


def test_what_has_no_room_is_told_by_code(tmp_path: Path) -> None:
    crowded = replace(WAGGLER, shot=WAGGLER.shot + ", 3 No 11 as droppers 10 cm–20 cm" * 3)
    report = print_labels([FINE, crowded], STICKY, tmp_path / "labels.pdf")
    answer = {
        snapshot.code: [
            x.what for x in report.left_off if (x.code, x.why) == (snapshot.code, Lacks.ROOM)
        ]
        for snapshot in (FINE, crowded)
    }
    assert answer == {
        FINE.code: ["drawing", "purpose"],
        crowded.code: ["drawing", "shot", "date", "name", "purpose"],
    }


def test_what_is_read_first_comes_first(tmp_path: Path) -> None:
    pole = replace(POLE, elastic="elastic 4")
    pdf = tmp_path / "strips.pdf"
    print_labels([pole], STRIPS, pdf)
    laid = "".join(c["text"] for c in letters_of(pdf)[0])
    order = ("A01T", "4×12", "Depth", "Line", "Hooklength", "Hook 20", "Elastic 4", "Shot", "Tied",
             "Canal pole", "small roach")  # fmt: skip
    places = [laid.replace(" ", "").index(said.replace(" ", "")) for said in order]
    assert places == sorted(places)


def test_all_that_a_label_would_hold_is_on_it_or_told(tmp_path: Path, paper: Paper) -> None:
    """Each field's words, QR and drawing are there, or the report names them."""
    pdf = tmp_path / "labels.pdf"
    report = print_labels(RIGS, paper, pdf)
    pages = [rendered(pdf, 200, number) for number in range(report.pages)]
    for place, (snapshot, (said, drawn)) in enumerate(
        zip(RIGS, said_and_drawn(pdf, paper, len(RIGS)), strict=True)
    ):
        answer = {x.what for x in report.left_off if (x.code, x.why) == (snapshot.code, Lacks.ROOM)}
        for field in fields(snapshot):
            wordings = (
                (field.heading, field.full),
                (field.heading, field.short),
                (field.least_heading, field.least),
            )
            is_said = any("".join(words).replace(" ", "") in said for words in wordings)
            assert is_said != (field.about in answer), (field, said)
        assert drawn != ("drawing" in answer)
        label = cut_out(pages[place // paper.places], place_of(paper, place), 200)
        assert (qr_texts(label) == []) == ("QR" in answer)


def said_and_drawn(pdf: Path, paper: Paper, count: int) -> list[tuple[str, bool]]:
    """Each label's letters in the order they were laid, without blanks, and whether lines are drawn."""
    pages, found = pages_of(pdf), []
    for place in range(count):
        left, top, right, bottom = (side * MM for side in place_of(paper, place))
        page = pages[place // paper.places]

        def inside(
            x: float, y: float, *, box: tuple[float, ...] = (left, top, right, bottom)
        ) -> bool:
            return box[0] + 2 <= x <= box[2] - 2 and box[1] + 2 <= y <= box[3] - 2

        letters = "".join(
            c["text"]
            for c in page.letters
            if inside(c["x0"], c["top"]) and inside(c["x1"], c["bottom"])
        )
        lines = [
            shape
            for shape in page.shapes
            if len(shape) == 2 and inside(*shape[0]) and inside(*shape[1])
        ]  # those to cut along reach further
        found.append((letters.replace(" ", ""), bool(lines)))
    return found


def test_a_qr_that_cannot_be_fine_enough_is_left_off_and_told(tmp_path: Path) -> None:
    low = STRIPS.model_copy(update={"label": STRIPS.label.model_copy(update={"height": 12.0})})
    pdf = tmp_path / "labels.pdf"
    report = print_labels([WAGGLER], low, pdf)
    assert LeftOff("A05L", Lacks.ROOM, "QR") in report.left_off
    assert not [left for left in report.left_off if left.why == Lacks.QR]
    assert qr_texts(rendered(pdf, 300), all_codes=True) == []


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
    with pytest.raises(AskedWronglyError, match="nothing to print"):
        print_labels([], STICKY, tmp_path / "labels.pdf")


def test_a_file_that_is_there_is_kept_unless_told(tmp_path: Path) -> None:
    target = tmp_path / "labels.pdf"
    target.write_text("%PDF-mine")
    with pytest.raises(AskedWronglyError, match="left as it is"):
        print_labels([WAGGLER], STICKY, target)
    assert target.read_text() == "%PDF-mine"
    print_labels([WAGGLER], STICKY, target, overwrite=True)
    assert target.read_bytes().startswith(b"%PDF")
    assert list(tmp_path.iterdir()) == [target]


def test_nothing_is_half_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(CannotBeDoneError, match="cannot be written"):
        print_labels([WAGGLER], STICKY, tmp_path / "no" / "labels.pdf")
    with pytest.raises(AskedWronglyError, match="folder"):
        print_labels([WAGGLER], STICKY, tmp_path)
    monkeypatch.setattr("os.link", _full_disk)
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
    assert len(pages_of(pdf)) == 2
    assert "A069" in text_of(pdf, STICKY, 69)


def test_progress_is_told_after_each_label(tmp_path: Path) -> None:
    answer: list[int] = []
    print_labels([WAGGLER, FEEDER, FINE], STICKY, tmp_path / "labels.pdf", progress=answer.append)
    assert answer == [1, 2, 3]
