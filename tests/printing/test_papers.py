"""Papers by their own arithmetic."""

from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from tacklebox.errors import AskedWronglyError, ManyFaultsError
from tacklebox.printing.labels.papers import Paper, list_papers, load_paper, parse_paper
from tests.outside import outside

TEXT = """
name = "Mine"
[page]
width = "210 mm"
height = "297 mm"
[label]
width = "38.1 mm"
height = "21.2 mm"
[grid]
columns = 5
rows = 13
left = "4.75 mm"
top = "10.7 mm"
across = "40.6 mm"
"""


PAGES = {  # width, height in mm
    "a4": (210.0, 297.0),  # ISO 216
    "letter": (215.9, 279.4),  # ANSI/ASME Y14.1, size A: 8.5 × 11 in
}
SHIPPED = {  # labels to a page
    "a4-21": 21, "a4-24": 24, "a4-65": 65, "letter-30": 30, "strips-130": 18, "strips-180": 15,
    "strips-180-folded": 8, "strips-260": 7, "wallet-60": 39, "tape-12": 1, "tape-24": 1,
    "tape-58": 1, "drawers-60": 27, "drawers-95": 10,
}  # fmt: skip


@outside("sizes of shipped papers", "ISO 216; ANSI/ASME Y14.1", "published")
def test_shipped_papers_against_iso_216_and_ansi() -> None:
    papers = {p.stem: p for p in list_papers()[0]}
    assert {stem: p.places for stem, p in papers.items()} == SHIPPED
    for stem, paper in papers.items():
        page = (paper.page.width, paper.page.height)
        if stem.startswith("tape-"):
            assert page == (paper.label.width, paper.label.height) == (90, float(stem[5:]))
        else:
            size = PAGES["letter" if stem.startswith("letter") else "a4"]
            assert sorted(page) == pytest.approx(sorted(size))


def test_strips_fit_usual_winders() -> None:
    """Winders are 13 to 26 cm long and 15 to 25 mm wide (common practice)."""
    strips = [p.label for p in list_papers()[0] if p.stem.startswith("strips-")]
    assert {round(strip.width) for strip in strips} == {130, 180, 260}
    for strip in strips:
        assert 15 <= (strip.fold or strip.height) <= 25


def test_labels_lie_in_the_middle_of_the_page() -> None:
    for paper in list_papers()[0]:
        right = paper.page.width - paper.corner_of(paper.places - 1)[0] - paper.label.width
        bottom = paper.corner_of(paper.places - 1)[1]
        assert right == pytest.approx(paper.grid.left, abs=0.1)
        assert bottom == pytest.approx(paper.grid.top, abs=0.1)


MEASURES = st.integers(0, 3200).map(lambda tenths: tenths / 10)


@st.composite
def described(draw: st.DrawFn) -> dict[str, Any]:
    """Papers around the size of a page, many of them a little too large for it."""
    columns, rows = draw(st.integers(1, 6)), draw(st.integers(1, 14))
    width, height = draw(st.integers(200, 700)) / 10, draw(st.integers(80, 400)) / 10
    return {
        "stem": "x",
        "name": "x",
        "page": {"width": draw(MEASURES), "height": draw(MEASURES)},
        "label": {"width": width, "height": height, "corner": draw(st.integers(0, 60)) / 10},
        "grid": {
            "columns": columns,
            "rows": rows,
            "left": draw(st.integers(0, 200)) / 10,
            "top": draw(st.integers(0, 200)) / 10,
            "across": width + draw(st.integers(-5, 40)) / 10,
            "down": height + draw(st.integers(-5, 40)) / 10,
        },
    }


@given(described())
def test_a_paper_that_passes_places_every_label_on_the_page_with_no_overlap(
    raw: dict[str, Any],
) -> None:
    try:
        paper = Paper.model_validate(raw)
    except ValidationError:
        assert not _sound(raw)
        return
    width, height = paper.label.width, paper.label.height
    corners = [paper.corner_of(place) for place in range(paper.places)]
    assert len(set(corners)) == paper.places
    for x, y in corners:
        assert -0.01 <= x <= paper.page.width - width + 0.01
        assert -0.01 <= y <= paper.page.height - height + 0.01
    for xs, size in (
        (sorted({x for x, _ in corners}), width),
        (sorted({y for _, y in corners}), height),
    ):
        assert all(b - a >= size - 0.01 for a, b in pairwise(xs))


def _sound(raw: dict[str, Any]) -> bool:
    """The same arithmetic by counting on from label to label, in tenths of a millimetre."""
    grid, label, page = raw["grid"], raw["label"], raw["page"]
    sides = (
        ("left", "columns", "across", "width"),
        ("top", "rows", "down", "height"),
    )
    for start, count, step, side in sides:
        starts = [round(10 * grid[start]) + n * round(10 * grid[step]) for n in range(grid[count])]
        size = round(10 * label[side])
        if starts[-1] + size > round(10 * page[side]):
            return False
        if any(b - a < size for a, b in pairwise(starts)):
            return False
    return bool(20 * label["corner"] <= 10 * min(label["width"], label["height"]))


@pytest.mark.parametrize(
    ("written", "instead", "expected"),
    [
        ("columns = 5", "columns = 6",
         "4.75 + 5 × 40.6 + 38.1 = 245.85 mm is more than the page's width of 210 mm"),
        ("rows = 13", "rows = 14",
         "10.7 + 13 × 21.2 + 21.2 = 307.5 mm is more than the page's height of 297 mm"),
        ('across = "40.6 mm"', 'across = "30 mm"', "labels of width 38.1 mm every 30 mm lie over"),
        ('width = "38.1 mm"', 'width = "380 mm"', "is more than the page's width"),
        ('height = "21.2 mm"', 'height = "3 mm"', "at least 20 × 8 mm"),
        ('height = "21.2 mm"', 'height = "21.2 mm"\ncorner = "11 mm"', "2 × 11 mm of corner"),
        ('height = "21.2 mm"', 'height = "21.2 mm"\nfold = "5 mm"', "a fold 5 mm below the top"),
        ('left = "4.75 mm"', 'left = "-4 mm"', '"grid.left": "-4 mm" is no length'),
        ('left = "4.75 mm"', "left = 4", '"grid.left": 4 should be text in quotes'),
        ('left = "4.75 mm"', 'left = "4"', '"grid.left"'),
        ('height = "297 mm"', 'height = "3 km"', '"page.height"'),
        ("rows = 13", "rows = 0", '"grid.rows"'),
        ("rows = 13", "lines = 13", '"grid.lines" is no key of a paper'),
        ("rows = 13", "rows = 13\nlefft = '1 mm'", 'Did you mean "left"?'),
        ("[grid]", "[grit]", 'Did you mean "grid"?'),
    ],
)  # fmt: skip
def test_a_paper_that_cannot_be_tells_the_sum_or_key(
    written: str, instead: str, expected: str
) -> None:
    assert written in TEXT
    with pytest.raises(ManyFaultsError) as error:
        parse_paper(TEXT.replace(written, instead), "mine")
    assert expected in str(error.value)
    assert "mine.toml" in str(error.value)


def test_labels_edge_to_edge_need_no_pitch() -> None:
    paper = parse_paper(TEXT.replace('across = "40.6 mm"', ""), "mine")
    assert (paper.across, paper.down) == (38.1, 21.2)


def test_an_own_paper_wins_over_the_shipped_one(tmp_path: Path) -> None:
    (tmp_path / "a4-65.toml").write_text(TEXT)
    assert load_paper("a4-65", tmp_path).name == "Mine"
    assert "Mine" in [p.name for p in list_papers(tmp_path)[0]]
    assert load_paper("strips-180", tmp_path).cut


def test_unknown_papers_and_names_that_lead_out(tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match='Did you mean "a4-65"'):
        load_paper("a4-66")
    for name in ("../a4-65", "a/b", "", "x" * 300, "🐟", 'a"b'):
        with pytest.raises(AskedWronglyError, match="no paper name"):
            load_paper(name, tmp_path)


def test_a_file_that_is_too_large_is_refused(tmp_path: Path) -> None:
    (tmp_path / "big.toml").write_text(TEXT + "#" * 70_000)
    with pytest.raises(AskedWronglyError, match="64 kB"):
        load_paper("big", tmp_path)
