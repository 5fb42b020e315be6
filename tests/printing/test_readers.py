"""What the tests read off a page by one reader, another finds too: each letter, its place and its size."""

from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from tacklebox.printing.labels.papers import load_paper
from tacklebox.printing.labels.sheets import print_labels
from tacklebox.printing.pages.pack_page import print_pack_list
from tests.printing.reading import Read, pages_of, text_of
from tests.printing.samples import ALL
from tests.printing.test_pack_page import LONG

NUMBERS = ("x0", "x1", "top", "bottom", "size")


def by_the_other(path: Path) -> list[Any]:
    with pdfplumber.open(path) as read:
        return [(page.width, page.height, page.chars, page.rects) for page in read.pages]


def same(ours: list[Read], theirs: list[Any]) -> None:
    for page, (width, height, chars, _) in zip(ours, theirs, strict=True):
        assert (page.width, page.height) == pytest.approx((width, height), abs=0.01)
        assert len(page.letters) == len(chars) > 20
        for letter, char in zip(page.letters, chars, strict=True):
            assert letter == {key: pytest.approx(char[key], abs=1e-3) for key in NUMBERS} | {
                key: char[key] for key in ("text", "fontname")
            }


@pytest.mark.parametrize("stem", ["a4-65", "strips-180-folded", "tape-12"])
def test_labels(stem: str, tmp_path: Path) -> None:
    pdf = tmp_path / "labels.pdf"
    print_labels(ALL, load_paper(stem), pdf)
    same(pages_of(pdf), by_the_other(pdf))


def test_pages_to_tick(tmp_path: Path) -> None:
    pdf = tmp_path / "pack.pdf"
    print_pack_list(LONG, pdf)
    ours, theirs = pages_of(pdf), by_the_other(pdf)
    same(ours, theirs)
    for page, (*_, rects) in zip(ours, theirs, strict=True):
        sides = [rect["width"] for rect in rects if abs(rect["width"] - rect["height"]) < 0.1]
        assert sorted(page.squares) == pytest.approx(sorted(sides), abs=0.01)


def test_only_a_labels_own_words_are_taken_for_its(tmp_path: Path) -> None:
    paper = load_paper("a4-65")
    print_labels(ALL, paper, tmp_path / "labels.pdf")
    for place, snapshot in enumerate(ALL):
        words = text_of(tmp_path / "labels.pdf", paper, place)
        assert [other.code for other in ALL if other.code in words] == [snapshot.code]
