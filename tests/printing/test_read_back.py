"""Every shipped paper with rigs and with drawers, with QR and without, printed and read back."""

import functools
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from pdfminer.pdftypes import PDFStream, resolve1
from PIL import ImageFilter
from PIL.Image import Image

from tacklebox.printing import fonts
from tacklebox.printing.labels.drawers import drawer_label
from tacklebox.printing.labels.layout import INSET_MM, Layout, lay_out
from tacklebox.printing.labels.papers import Paper, list_papers
from tacklebox.printing.labels.sheets import Label, Lacks, PrintReport, print_each, rig_label
from tests.long.length import WHOLE
from tests.printing.reading import MM, cut_out, letters_of, place_of, qr_texts, rendered
from tests.printing.samples import ALL, DRAWERS, RIGS

PAPERS = {paper.stem: paper for paper in list_papers()[0]}
THINGS: dict[str, tuple[Label, ...]] = {
    "rigs": tuple(rig_label(snapshot) for snapshot in ALL),
    "drawers": tuple(drawer_label(item, figures) for item, figures in DRAWERS),
}
TAILED = set("gjpqy,;()QЦцщруфӀ₋μγρηχφψξζςβ")  # letters that reach below the baseline


@dataclass(frozen=True)
class Sheet:
    """A printed sheet, and what was meant to be on it."""

    paper: Paper
    labels: tuple[Label, ...]
    path: Path
    report: PrintReport

    @functools.cached_property
    def letters(self) -> list[list[Any]]:
        """All letters, by page."""
        return letters_of(self.path)

    def letters_on(self, place: int) -> list[Any]:
        """The letters whose left end lies on that label."""
        left, top, right, bottom = (side * MM for side in place_of(self.paper, place))
        return [
            c
            for c in self.letters[place // self.paper.places]
            if left <= c["x0"] < right and top <= c["bottom"] - 3 < bottom
        ]

    def left_off(self, place: int, why: str) -> set[str]:
        """What the report says was left off that label."""
        code = self.labels[place].words.code
        return {left.what for left in self.report.left_off if (left.code, left.why) == (code, why)}


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str, str, bool], Sheet]:
    """Prints a sheet once for all tests."""

    @functools.cache
    def sheet(stem: str, things: str, qr: bool) -> Sheet:
        path = tmp_path_factory.mktemp("sheets") / f"{stem}-{things}-{qr}.pdf"
        labels = THINGS[things]
        report = print_each(labels, lambda label: label, PAPERS[stem], path, qr=qr)
        return Sheet(PAPERS[stem], labels, path, report)

    return sheet


@pytest.fixture(params=[f"{stem} {things}" for stem in PAPERS for things in THINGS])
def named(request: pytest.FixtureRequest) -> tuple[str, str]:
    stem, things = str(request.param).split()
    return stem, things


@pytest.fixture(params=[True, False], ids=["qr", "no qr"])
def sheet(
    request: pytest.FixtureRequest,
    printed: Callable[[str, str, bool], Sheet],
    named: tuple[str, str],
) -> Sheet:
    return printed(*named, bool(request.param))


@pytest.fixture
def with_qr(printed: Callable[[str, str, bool], Sheet], named: tuple[str, str]) -> Sheet:
    return printed(*named, True)


def test_every_letter_lies_inside_its_own_label(sheet: Sheet) -> None:
    paper = sheet.paper
    edges = [place_of(paper, place) for place in range(paper.places)]
    used = set()
    for number, page in enumerate(sheet.letters):
        for letter in page:
            ink_top = _top(letter)
            ink_low = letter["bottom"] if letter["text"] in TAILED else _base(letter)
            inside = [
                place
                for place, (left, top, right, bottom) in enumerate(edges)
                if letter["x0"] >= (left + INSET_MM) * MM - 0.01
                and letter["x1"] <= (right - INSET_MM) * MM + 0.1
                and ink_top >= (top + INSET_MM) * MM - 0.01
                and ink_low <= (bottom - INSET_MM) * MM + 0.1
            ]
            assert len(inside) == 1, letter
            used.add(number * paper.places + inside[0])
    assert used == set(range(len(sheet.labels)))


def test_no_type_under_the_rule_for_small_packs(sheet: Sheet) -> None:
    """Regulation (EU) No 1169/2011, article 13 (3), annex IV: x-height at least 0.9 mm."""
    sizes = {letter["size"] / MM for page in sheet.letters for letter in page}
    assert min(sizes) * fonts.X_HEIGHT >= 0.9 - 1e-4


def test_no_text_lies_on_other_text(sheet: Sheet) -> None:
    for page in sheet.letters:
        letters = sorted(
            (c["x0"], c["x1"], _top(c), _base(c), c["text"]) for c in page if c["text"].strip()
        )
        for i, (_, ends, top, base, text) in enumerate(letters):
            for begins, _, other_top, other_base, other in letters[i + 1 :]:
                if begins > ends - 0.3:
                    break
                assert min(base, other_base) - max(top, other_top) < 0.1, (text, other)


def _base(letter: dict[str, float]) -> float:
    return letter["bottom"] - fonts.BELOW * letter["size"]


def _top(letter: dict[str, float]) -> float:
    return _base(letter) - fonts.CAP_HEIGHT * letter["size"]


def test_what_is_looked_for_first_is_largest(sheet: Sheet) -> None:
    """Capitals of 1/200 of an arm's length of 60 cm (US FAA, as cited in human-factors handbooks).

    All shipped papers allow them for rigs; on a drawer's label the shortest words of what it is may
    be wider than a small label.
    """
    for place, label in enumerate(sheet.labels):
        here = sheet.letters_on(place)
        largest = max(c["size"] for c in here)
        said = "".join(c["text"] for c in here if c["size"] > largest - 0.01).replace(" ", "")
        heads = {large.replace(" ", "") for large, _ in label.words.heads}
        if sheet.paper.label.fold:  # on both sides of the winder
            heads |= {front + back for front in heads for back in heads}
        capitals = largest / MM * fonts.CAP_HEIGHT
        if capitals < 3.0 - 1e-3:
            code, shortest = (
                fonts.width_of(words, True)
                for words in (label.words.code, label.words.heads[-1][0])
            )
            free = sheet.paper.label.width - 2 * INSET_MM - 2.6 * code
            assert sheet.labels is THINGS["drawers"]
            assert free < shortest * 3.1 / fonts.CAP_HEIGHT or sheet.paper.label.height < 20
            continue
        assert said in heads, said


def test_fonts_are_embedded(with_qr: Sheet) -> None:
    described = [o for o in _objects(with_qr.path) if str(o.get("Type")) == "/'FontDescriptor'"]
    names = {re.sub(r"^\w{6}\+", "", o["FontName"].name) for o in described}
    assert names == set(fonts.FONTS)
    assert all(isinstance(resolve1(o["FontFile2"]), PDFStream) for o in described)
    used = {c["fontname"] for page in with_qr.letters for c in page}
    assert all(re.fullmatch(r"\w{6}\+DejaVuSansCondensed(-Bold)?", name) for name in used), used


def _objects(pdf: Path) -> list[dict[str, Any]]:
    with pdfplumber.open(pdf) as read:
        numbers = [n for xref in read.doc.xrefs for n in xref.get_objids()]
        found = [read.doc.getobj(n) for n in numbers]
    return [o for o in found if isinstance(o, dict)]


def test_page_is_exact_and_asks_for_no_scaling(with_qr: Sheet) -> None:
    paper = with_qr.paper
    with pdfplumber.open(with_qr.path) as read:
        boxes = [page.mediabox for page in read.pages]
        preferences = resolve1(read.doc.catalog["ViewerPreferences"])
    assert len(boxes) == -(-len(with_qr.labels) // paper.places)
    for left, low, right, high in boxes:
        assert (left, low) == (0, 0)
        assert right / MM == pytest.approx(paper.page.width, abs=0.1)
        assert high / MM == pytest.approx(paper.page.height, abs=0.1)
    assert preferences["PrintScaling"].name == "None"


def test_no_ink_but_the_cut_lines_outside_the_labels(with_qr: Sheet) -> None:
    dpi, paper = 100, with_qr.paper
    image = rendered(with_qr.path, dpi)
    edge = 0.4 if paper.cut else 0.0
    for place in range(paper.places):
        left, top, right, bottom = place_of(paper, place)
        outer = (left - edge, top - edge, right + edge, bottom + edge)
        x, y, to_x, to_y = (round(side * dpi / 25.4) for side in outer)
        image.paste(255, (x, y, to_x, to_y))
    assert image.getextrema() == (255, 255)


def _as_it_is(label: Image, _dpi: int) -> Image:
    return label


def _blurred(label: Image, dpi: int) -> Image:
    """As by wet ink or a shaking hand: edges smeared over about a tenth of a millimetre."""
    return label.filter(ImageFilter.GaussianBlur(0.1 * dpi / 25.4))


def _3_percent_wider(label: Image, _dpi: int) -> Image:
    return label.resize((round(label.width * 1.03), label.height))


def _3_percent_lower(label: Image, _dpi: int) -> Image:
    return label.resize((label.width, round(label.height * 0.97)))


Look = tuple[int, Callable[[Image, int], Image], bool]
DISTURBED = (_blurred, _3_percent_wider, _3_percent_lower)


def looks(paper: Paper, place: int) -> Iterator[Look]:
    """How a label is looked at: dpi, what is done to its picture, and whether for every kind of code.

    In the short form each label is disturbed in one way and each fourth is looked at for other codes:
    by turns, so that every paper and every one of the labels has its turn at all of them.
    """
    turn = place + list(PAPERS).index(paper.stem)
    yield 200, _as_it_is, False
    yield 300, _as_it_is, WHOLE or turn % 4 == 0
    for disturb in DISTURBED if WHOLE else (DISTURBED[turn % 3],):
        yield 300, disturb, False
    if WHOLE:
        yield 600, _as_it_is, False


def test_every_qr_is_read_as_the_label_says_or_told_to_have_no_room(with_qr: Sheet) -> None:
    """At each resolution, after a blur, and with a scale error both ways; and no other code."""
    paper = with_qr.paper
    pages = functools.cache(lambda page, dpi: rendered(with_qr.path, dpi, page))
    read = 0
    for place, label in enumerate(with_qr.labels):
        texts = {words.text for words in label.sayings.candidates()}
        has_room = "QR" not in with_qr.left_off(place, Lacks.ROOM)
        for dpi, disturb, all_codes in looks(paper, place):
            page = pages(place // paper.places, dpi)
            cut = disturb(cut_out(page, place_of(paper, place), dpi), dpi)
            found = qr_texts(cut, all_codes=all_codes)
            assert (len(found) == 1 and found[0] in texts) if has_room else found == []
        read += has_room
    if paper.label.height < 37 * 0.33:  # version 3 with its border; not all words fit version 2
        assert read < len(with_qr.labels)
    else:
        assert read == len(with_qr.labels)


def test_without_qr_its_room_is_used(named: tuple[str, str]) -> None:
    """No label says less or is drawn narrower without QR; many rigs say more or have larger type or drawing.

    The others, and most drawers' labels, have so few words that their type is the largest with QR too.
    """
    size, labels = PAPERS[named[0]].label, THINGS[named[1]]
    gained = 0
    for label in labels:
        modules = [text.modules for text in label.sayings.candidates()]
        drawn = label.rig is not None
        with_, without = (lay_out(label.words, size, m, drawn=drawn) for m in (modules, ()))
        lost = set(without.left_off) - set(with_.left_off)
        if lost:  # only for the sake of larger type
            assert lost <= {f.about for f in label.words.fields if f.only_with_room}
            assert _mean(without) > _mean(with_)
        wide = [laid.drawing.width if laid.drawing else 0.0 for laid in (with_, without)]
        assert wide[1] >= wide[0]
        if with_.qr is None:
            assert without == replace(with_, left_off=with_.left_off[1:])
            continue
        says_more = len(without.left_off) < len(with_.left_off)
        gained += says_more or wide[1] > wide[0] or _mean(without) > _mean(with_)
    if named[1] == "rigs" and named[0] != "tape-12":
        assert gained >= len(labels) / 3


def _mean(laid: Layout) -> float:
    """The mean type size of a layout's letters."""
    letters = [(len(text), line.size) for line in laid.lines for text, _ in line.runs]
    return sum(n * size for n, size in letters) / sum(n for n, _ in letters)


def test_the_12_mm_tape_has_room_for_version_2_alone() -> None:
    """ISO/IEC 18004: 25 modules a side and a border of four; version 3 has 29."""
    assert (25 + 8) * 0.33 <= 12 < (29 + 8) * 0.33
    (low,) = (p for p in PAPERS.values() if p.label.height < 37 * 0.33)
    assert low.stem == "tape-12"


def test_the_samples_are_the_fullest_and_the_plainest() -> None:
    said = [len(label.words.fields) for label in THINGS["rigs"][: len(RIGS)]]
    assert (min(said), max(said)) == (5, 8)
