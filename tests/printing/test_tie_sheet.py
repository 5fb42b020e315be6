"""Tie sheets: figures by hand, and the page read back."""

import io
import resource
from dataclasses import replace
from datetime import date
from pathlib import Path

import pdfplumber
import pytest
from reportlab.graphics.shapes import Line, PolyLine, String

from tacklebox.errors import AskedWronglyError, CannotBeDoneError
from tacklebox.printing import fonts
from tacklebox.printing.drawing.fall import draw_kept
from tacklebox.printing.pages.tie_sheet import print_tie_sheets, write_tie_sheets
from tacklebox.rigs.checking.check import Checked
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.falls import NO_FLOAT, kept_fall
from tacklebox.rigs.tying.snapshot import KeptFall
from tacklebox.rigs.tying.steps import cuts, shot_places, steps, takings, totals
from tacklebox.rigs.tying.tie import fit_and_check
from tacklebox.stock.care.box import Box
from tacklebox.trade.judgement import Judgement, Outcome
from tests.outside import outside
from tests.printing.reading import MM, pages_of, words_of_page
from tests.rigs.boxes import SHELF, add, canal_rig, fine_hooklength, make_box

DAY = date(2026, 3, 5)


@pytest.fixture(scope="module")
def box(tmp_path_factory: pytest.TempPathFactory) -> Box:
    made = make_box(tmp_path_factory.mktemp("box"))
    for words in (
        "nylon 0.18 mm 2.7 kg 50 m",
        "nylon 0.20 mm 3.6 kg 50 m",
        "nylon 0.14 mm 2 kg 50 m",
    ):
        add(made, words, place="drawer 1")
    for words in ("swivel size 14 12 kg pack 10", "link swivel size 12 10 kg pack 10",
                  "bead 4 mm pack 20", "feeder cage 30 g 40 ml", "winder 18 cm 20 mm"):  # fmt: skip
        add(made, words, place="drawer 3")
    return made


@pytest.fixture(scope="module")
def canal(box: Box) -> Checked:
    return fit_and_check(box, canal_rig(), 1)


@pytest.fixture(scope="module")
def feeder(box: Box) -> Checked:
    recipe = SHELF.load("feeder-running-paternoster")
    below = resolve(SHELF.load(recipe.hooklengths[0]))
    return fit_and_check(box, resolve(recipe, {}, below), 1)


def test_cut_lengths_by_hand(canal: Checked) -> None:
    """Depth 120 + 50 - hooklength 15 = 155 cm; each loop eats 8 + 2 × 2 cm (from memory)."""
    (rig_line,) = cuts(canal.fit)
    assert rig_line.finished_mm == 1550
    assert rig_line.cut_mm == 1790
    assert (
        rig_line.words
        == "155 cm finished + 12 cm double overhand loop + 12 cm double overhand loop"
    )


def test_every_cut_is_the_sum_it_tells(feeder: Checked) -> None:
    assert [c.part for c in cuts(feeder.fit)] == ["link line"]
    for cut in cuts(feeder.fit):
        assert cut.cut_mm == pytest.approx(cut.finished_mm + sum(mm for _, mm in cut.knots))


def test_shot_places_by_hand(canal: Checked) -> None:
    assert shot_places(canal.fit) == [
        ("Pinch on 2 No 8", "50 cm from the hook"),
        ("Pinch on 2 No 10, droppers", "35, 20 cm from the hook"),
    ]


def test_what_runs_is_threaded_before_the_knot_below_it(feeder: Checked) -> None:
    done = steps(feeder.fit)
    assert done[0].startswith("Make up the feeder link for the running link")
    order = [next(i for i, s in enumerate(done) if words in s) for words in (
        "Make up the feeder link", "Thread on the running link", "Thread on the bead",
        "to the main line: grinner", "Put on the hooklength",
    )]  # fmt: skip
    assert order == sorted(order)
    assert "with the feeder link on it" in done[order[1]]


def test_a_hooklength_is_tied_loop_to_hook(box: Box) -> None:
    done = steps(fit_and_check(box, fine_hooklength(), 3).fit)
    assert done[0].startswith("Tie a figure-of-eight loop at the top of the hooklength line")
    assert "spade knot" in done[1]


def test_taken_is_what_the_rigs_need(canal: Checked) -> None:
    taken = {t.name: t for t in takings(canal.fit)}
    assert taken["No 8 shot"].amount == 2
    assert taken["nylon 0.12 mm 1.6 kg"].words == "1.79 m"
    assert not any("elastic" in name for name in taken)  # in the pole already


def test_totals_are_sums(canal: Checked, feeder: Checked) -> None:
    both = totals([takings(canal.fit), takings(canal.fit), takings(feeder.fit)])
    shot = [t for t in both if t.name == "No 8 shot"]
    assert [t.amount for t in shot] == [4]
    places = [t.place for t in both if not t.gap]
    assert places == sorted(places, key=lambda p: (p == "", p))


def test_what_is_missing_is_said(box: Box, tmp_path: Path) -> None:
    many = fit_and_check(box, canal_rig(), 40)
    assert many.fit.gaps
    print_tie_sheets([many], tmp_path / "sheet.pdf", DAY)
    text = words_of_page(tmp_path / "sheet.pdf")
    for gap in many.fit.gaps:
        assert f"missing {gap.need.part}: {gap.gap}" in text
    assert "no place" not in text


@pytest.mark.parametrize(("page", "pages"), [("a4", 1), ("a5", 1)])
def test_the_page_says_all_of_it(
    canal: Checked, feeder: Checked, tmp_path: Path, page: str, pages: int
) -> None:
    pdf = tmp_path / "sheet.pdf"
    assert print_tie_sheets([canal, feeder], pdf, DAY, page=page).pages == pages
    text = words_of_page(pdf)
    for words in ("To take, for all of it", "No 8 shot: 2", "drawer 3 bead 4 mm: 1", "Canal pole, shot",
                  "Tie 1, for small roach", "179 cm", "Pinch on 2 No 8, 50 cm from the hook",
                  "35, 20 cm", "Put on the hooklength: Fine hooklength, 15 cm.",
                  f"Checks: {canal.outcome.value}", "overhead power lines", "free-running feeders",
                  "Running paternoster feeder"):  # fmt: skip
        assert words in text
    assert text.count("overhead power lines") == 1


def test_the_checks_take_three_lines_and_what_is_not_sound_comes_first(
    canal: Checked, tmp_path: Path
) -> None:
    """Of six verdicts that are shown; a dull one that is sound is not."""

    def verdict(says: str, outcome: Outcome, *, dull: bool = False) -> Judgement:
        return Judgement("any", outcome, says, dull=dull)

    many = replace(
        canal,
        judgements=(
            verdict("good", Outcome.SOUND),
            verdict("dull", Outcome.SOUND, dull=True),
            verdict("perhaps", Outcome.DOUBTFUL),
            verdict("good too", Outcome.SOUND),
            verdict("bad", Outcome.FAILS),
            verdict("good as well", Outcome.SOUND),
        ),
    )
    print_tie_sheets([many], tmp_path / "sheet.pdf", DAY)
    text = words_of_page(tmp_path / "sheet.pdf")
    said = ["fails Bad.", "doubtful Perhaps.", "sound Good."]
    assert [text.index(words) for words in said] == sorted(text.index(words) for words in said)
    assert "Dull" not in text


@pytest.mark.parametrize("page", ["a4", "a5"])
@pytest.mark.parametrize("letters", [30, 150, 400])
def test_long_checks_take_three_lines_too(
    canal: Checked, tmp_path: Path, page: str, letters: int
) -> None:
    """Three that are not sound, and one that is: as many in words as have room, those that are not sound
    at least by name."""
    names = ("breaks first", "hook and line", "step down to the hooklength", "float")
    words = ("word " * 100)[:letters]
    judged = [
        Judgement(name, Outcome.SOUND if name == "float" else Outcome.DOUBTFUL, f"{n} {words}",
                  remedy=f"remedy {n}")
        for n, name in enumerate(names, start=1)
    ]  # fmt: skip
    sheet = replace(canal, judgements=tuple(judged))
    print_tie_sheets([sheet], tmp_path / "sheet.pdf", DAY, page=page)
    with pdfplumber.open(tmp_path / "sheet.pdf") as pages:
        paper = pages.pages[0]
        beside = paper.crop((0, 0, 0.64 * float(paper.width), paper.height))
        lines = (beside.extract_text() or "").splitlines()
    begin = next(n for n, line in enumerate(lines) if line.startswith("Checks:"))
    end = next(n for n, line in enumerate(lines) if line.startswith(("Falls.", "Mind.")))
    checks = lines[begin + 1 : end]
    assert 1 <= len(checks) <= 3
    told = " ".join(checks)
    for n, name in enumerate(names[:3], start=1):
        assert f"{n} word" in told or name in told


def test_words_keep_clear_of_the_drawing(canal: Checked, tmp_path: Path) -> None:
    judged = Judgement("breaks first", Outcome.DOUBTFUL, "in " * 60)
    print_tie_sheets([replace(canal, judgements=(judged,))], tmp_path / "sheet.pdf", DAY)
    with pdfplumber.open(tmp_path / "sheet.pdf") as pages:
        ends = [word["x1"] for word in pages.pages[0].extract_words() if word["text"] == "in"]
    drawn_from = (
        10 + 0.64 * 190
    )  # mm: of what lies between the margins, 36 in 100 are the drawing's
    assert drawn_from - 10 < max(ends) / MM < drawn_from - 3.5


def test_a_feeders_caution_is_there_only_with_a_feeder(canal: Checked, tmp_path: Path) -> None:
    print_tie_sheets([canal], tmp_path / "sheet.pdf", DAY)
    text = words_of_page(tmp_path / "sheet.pdf")
    assert "overhead power lines" in text
    assert "free-running" not in text


def test_many_rigs_share_pages_and_each_keeps_together(
    canal: Checked, box: Box, tmp_path: Path
) -> None:
    hooklengths = fit_and_check(box, fine_hooklength(), 7)
    pdf = tmp_path / "sheet.pdf"
    rigs = [canal, hooklengths] * 6
    printed = print_tie_sheets(rigs, pdf, DAY)
    assert printed.pages <= len(rigs) / 3
    texts = [words_of_page(pdf, number) for number in range(printed.pages)]
    assert sum(text.count("Canal pole, shot, depth") for text in texts) == 6
    for text in texts:  # what begins on a page ends on it
        assert text.count("Put together") == text.count("Checks:")


@outside("page sizes", "ISO 216", "published")
@pytest.mark.parametrize(("page", "size"), [("a4", (210, 297)), ("a5", (148, 210))])
def test_page_sizes_against_iso_216(
    canal: Checked, tmp_path: Path, page: str, size: tuple[float, float]
) -> None:
    pdf = tmp_path / "sheet.pdf"
    print_tie_sheets([canal], pdf, DAY, page=page)
    first = pages_of(pdf)[0]
    assert (first.width / MM, first.height / MM) == pytest.approx(size, abs=0.1)
    edge = 9.5 * MM
    for letter in first.letters:
        assert edge < letter["x0"] < letter["x1"] < first.width - edge
        assert edge < letter["top"] < letter["bottom"] < first.height - edge
        assert letter["size"] / MM * fonts.X_HEIGHT >= 0.9 - 1e-3
        assert "+DejaVuSansCondensed" in letter["fontname"]
    assert b"/PrintScaling /None" in pdf.read_bytes()


def test_one_box_to_tick_for_each_rig(box: Box, tmp_path: Path) -> None:
    sheets = tmp_path / "sheet.pdf"
    print_tie_sheets([fit_and_check(box, fine_hooklength(), 7)], sheets, DAY)
    squares = [side for side in pages_of(sheets)[0].squares if abs(side - 6 * MM) < 0.1]
    assert len(squares) == 7


def test_the_same_gives_the_same_bytes(canal: Checked, tmp_path: Path) -> None:
    for name in ("a", "b"):
        print_tie_sheets([canal], tmp_path / name, DAY)
    assert (tmp_path / "a").read_bytes() == (tmp_path / "b").read_bytes()


def test_an_open_file_and_a_stream_get_what_a_place_on_the_disk_gets(
    canal: Checked, tmp_path: Path
) -> None:
    print_tie_sheets([canal], tmp_path / "sheet.pdf", DAY)
    file, stream = io.BytesIO(b"older, and longer than nothing"), io.BytesIO()
    assert write_tie_sheets([canal], file, DAY).pages == 1
    print_tie_sheets([canal], stream, DAY)
    assert file.getvalue() == stream.getvalue() == (tmp_path / "sheet.pdf").read_bytes()


def test_a_disk_that_fills_up_names_the_file_asked_for(canal: Checked, tmp_path: Path) -> None:
    """By a limit of a thousand bytes to a file."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, before[1]))
    try:
        with pytest.raises(CannotBeDoneError) as error:
            print_tie_sheets([canal], tmp_path / "sheet.pdf", DAY)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
    assert str(error.value).startswith(f"{tmp_path / 'sheet.pdf'}: the file cannot be written")
    assert list(tmp_path.iterdir()) == []


def test_characters_that_the_font_has_not_are_told(box: Box, tmp_path: Path) -> None:
    recipe = canal_rig().recipe.model_copy(update={"name": "Rig 🐟", "purpose": "鯉 and carp"})
    odd = fit_and_check(box, resolve(recipe, {}, fine_hooklength()), 1)
    printed = print_tie_sheets([odd], tmp_path / "odd.pdf", DAY)
    assert printed.unknown == "🐟鯉"
    assert "Rig □" in words_of_page(tmp_path / "odd.pdf")


def test_asked_wrongly(canal: Checked, tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="no rig to tie"):
        print_tie_sheets([], tmp_path / "x.pdf", DAY)
    with pytest.raises(AskedWronglyError, match='Did you mean "a5"'):
        print_tie_sheets([canal], tmp_path / "x.pdf", DAY, page="a55")
    (tmp_path / "x.pdf").write_text("mine")
    with pytest.raises(AskedWronglyError, match="left as it is"):
        print_tie_sheets([canal], tmp_path / "x.pdf", DAY)
    assert (tmp_path / "x.pdf").read_text() == "mine"


def test_how_it_falls_is_on_the_sheet(tmp_path: Path, canal: Checked, feeder: Checked) -> None:
    """When it has settled, as computed, and a section; words where there is no float."""
    target = tmp_path / "sheet.pdf"
    print_tie_sheets([canal, feeder], target, DAY)
    fall = kept_fall(canal.fit)
    assert fall is not None
    text = words_of_page(target)
    assert f"Settled by {fall.settled_by_s} s, else strike." in text
    assert "never compared with a" in text
    assert text.count("The bait's way on a tight line") == 1
    assert "How it falls. No float, so nothing tells when it has settled" in text


def test_the_line_of_the_bed_strikes_no_second_through() -> None:
    rig = ((0, 0, 0.0), (0, 1200, 0.0))
    tight = tuple((float(s), 400 - 20 * s, 80 * s) for s in range(16))  # on the bed at 15 s
    drawing = draw_kept(
        KeptFall("", 11, has_bed=True, deep_mm=1200.0, rig=rig, tight=tight), 200, 100
    )
    (bed,) = (s.y1 for s in drawing.contents if isinstance(s, Line) and s.strokeWidth == 1.2)
    feet = {s.text: s.y for s in drawing.contents if isinstance(s, String)}
    assert {"5 s", "10 s", "15 s"} <= feet.keys()
    for second in ("5 s", "10 s", "15 s"):  # a figure stands 0.73 of its size high
        assert not feet[second] <= bed <= feet[second] + 0.73 * 8
        assert feet[second] >= 0


def test_the_small_section_is_to_scale(canal: Checked) -> None:
    fall = kept_fall(canal.fit)
    assert fall is not None
    drawing = draw_kept(fall, 200, 100)
    tight = next(s for s in drawing.contents if isinstance(s, PolyLine) and s.strokeWidth == 1.0)
    x, y = tight.points[::2], tight.points[1::2]
    _, first_x, first_deep = fall.tight[0]
    _, last_x, last_deep = fall.tight[-1]
    scale = (y[0] - y[-1]) / (last_deep - first_deep)
    assert (x[0] - x[-1]) / (first_x - last_x) == pytest.approx(scale, rel=0.02)
    assert drawing.height <= 100.001
    with pytest.raises(ValueError, match="no float"):
        draw_kept(KeptFall(NO_FLOAT), 200, 100)
