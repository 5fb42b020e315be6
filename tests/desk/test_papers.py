"""Papers as the desk answers: listed, tested, put right."""

import io
from pathlib import Path

import pytest

from tacklebox.desk import Desk, papers
from tacklebox.errors import AskedWronglyError


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return Desk(tmp_path / "box")


def test_each_paper_has_its_places_and_its_next_free_one(desk: Desk) -> None:
    listed = {p.paper: p for p in papers.listed(desk).papers}
    assert (listed["a4-65"].places, listed["a4-65"].next_free) == (65, 1)


def test_a_faulty_paper_is_a_fault_beside_the_others(desk: Desk) -> None:
    whole = papers.listed(desk)
    desk.box.labels.mkdir(exist_ok=True)
    (desk.box.labels / "bad.toml").write_text("name = 3", encoding="utf-8")
    found = papers.listed(desk)
    assert found.papers == whole.papers
    assert ["bad.toml" in fault.what for fault in found.faults] == [True]


def test_what_was_measured_stays_with_the_box(desk: Desk) -> None:
    kept = papers.keep_measured(desk, "a4-65", left="21 mm", across="99.5 mm")
    assert kept.file == desk.box.labels / "a4-65.toml"
    text = kept.file.read_text(encoding="utf-8")
    for line in ('left = "21 mm"', 'top = "20 mm"', 'across = "99.5 mm"', 'down = "100 mm"'):
        assert line in text


def test_a_test_page_goes_to_a_stream(desk: Desk) -> None:
    page = io.BytesIO()
    assert papers.print_test_page(desk, "a4-65", page).paper == "a4-65"
    assert page.getvalue().startswith(b"%PDF")


def test_a_fault_names_the_measure(desk: Desk) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        papers.keep_measured(desk, "a4-65", down="a bit")
    assert refused.value.field == "down"
