"""Papers by their own arithmetic."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError, ManyFaultsError
from tacklebox.printing.papers import Paper, list_papers, load_paper, parse_paper

A4 = load_paper("a4-65")
TEXT = """
name = "x"
page = "210 × 297 mm"
label = "38.1 × 21.2 mm"
columns = 5
rows = 13
left = "4.75 mm"
top = "10.7 mm"
across = "40.6 mm"
down = "21.2 mm"
"""


def test_shipped_papers_come_out() -> None:
    papers = list_papers()
    assert {p.stem for p in papers} >= {"a4-65", "strips-180"}
    assert A4.per_page == 65
    assert A4.label == (38.1, 21.2)
    assert A4.page == (210.0, 297.0)  # ISO 216, A4


def overlap(paper: Paper) -> bool:
    places = [paper.place(i) for i in range(paper.per_page)]
    for i, a in enumerate(places):
        for b in places[i + 1 :]:
            apart = (
                a.left_mm + a.width_mm <= b.left_mm + 0.06
                or b.left_mm + b.width_mm <= a.left_mm + 0.06
                or a.top_mm + a.height_mm <= b.top_mm + 0.06
                or b.top_mm + b.height_mm <= a.top_mm + 0.06
            )
            if not apart:
                return True
    return False


MEASURE = st.integers(0, 3000).map(lambda n: n / 10)


@given(
    page=st.tuples(MEASURE, MEASURE),
    label=st.tuples(MEASURE, MEASURE),
    columns=st.integers(1, 6),
    rows=st.integers(1, 8),
    left=MEASURE,
    top=MEASURE,
    across=MEASURE,
    down=MEASURE,
)
def test_a_paper_that_passes_places_every_label_on_the_page_without_overlap(
    **measures: object,
) -> None:
    paper = Paper.model_construct(stem="x", name="x", corner=0.0, cut_marks=False, **measures)  # type: ignore[arg-type]
    places = [paper.place(i) for i in range(paper.per_page)]
    inside = all(
        p.left_mm + p.width_mm <= paper.page[0] + 0.06
        and p.top_mm + p.height_mm <= paper.page[1] + 0.06
        for p in places
    )
    if paper.faults():
        assert not inside or overlap(paper) or min(paper.label) < 8
    else:
        assert inside
        assert not overlap(paper)


@pytest.mark.parametrize(
    ("there", "instead", "told"),
    [
        ("columns = 5", "columns = 6", "4.75 + 5 × 40.6 + 38.1 = 245.85 mm"),
        ('across = "40.6 mm"', 'across = "30 mm"', "labels would overlap: across is 30 mm"),
        ('label = "38.1 × 21.2 mm"', 'label = "380 × 21 mm"', "380"),
        ('label = "38.1 × 21.2 mm"', 'label = "3 × 21 mm"', "less than 8 mm"),
        ('left = "4.75 mm"', 'left = "-4 mm"', '"left": -4 mm is less than nothing'),
        ('left = "4.75 mm"', "left = 4", "should be a length in quotes"),
        ('page = "210 × 297 mm"', 'page = "A4"', "should be a size in quotes"),
        ("rows = 13", "rows = 0", '"rows"'),
        ("rows = 13", "lines = 13", '"lines" is no key of a paper'),
    ],
)
def test_a_paper_that_cannot_be_says_which_sum_fails(there: str, instead: str, told: str) -> None:
    with pytest.raises(ManyFaultsError) as error:
        parse_paper(TEXT.replace(there, instead), "mine")
    assert told in str(error.value)
    assert "mine.toml" in str(error.value)


def test_unknown_paper() -> None:
    with pytest.raises(AskedWronglyError, match='Did you mean "a4-65"'):
        load_paper("a4-66")
    with pytest.raises(AskedWronglyError, match="no paper name"):
        load_paper("../a4-65")
