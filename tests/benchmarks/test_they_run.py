"""Benchmarks are run by hand: here what they build is built at its smallest, so that they can be."""

from pathlib import Path

from tacklebox.matches.before.plan import make_plan
from tacklebox.printing.labels.papers import load_paper
from tests.benchmarks.big_box import RIGS, long_list, make_big_box
from tests.benchmarks.labels import PAPER
from tests.benchmarks.labels_content import marks_of, rigs
from tests.benchmarks.warm import time_answers


def test_a_plan_on_a_big_box(tmp_path: Path) -> None:
    box = make_big_box(tmp_path / "box", 300)
    plan = make_plan(box, long_list(2))
    assert [want.wanted.count for want in plan.wants] == [RIGS, RIGS]
    assert sum(want.tie for want in plan.wants) > 0


def test_labels_as_bare_marks() -> None:
    marks = marks_of(rigs(3), load_paper(PAPER))
    assert len(marks["labels"]) == 3
    assert all(drawing["strokes"] for drawing in marks["drawings"])


def test_answers_of_an_open_desk(tmp_path: Path) -> None:
    box = make_big_box(tmp_path / "box", 100)
    time_answers(box.folder, box.folder, [])
