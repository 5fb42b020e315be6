"""Labels for drawers: what they say, in which letters, and in the QR."""

from pathlib import Path

import pytest

from tacklebox.printing.fonts import X_HEIGHT
from tacklebox.printing.labels.drawers import drawer_label
from tacklebox.printing.labels.layout import lay_out
from tacklebox.printing.labels.papers import load_paper
from tacklebox.printing.labels.qr import LETTERS, MOST_LETTERS
from tacklebox.printing.labels.sheets import Lacks, LeftOff, print_each
from tacklebox.stock.notation import write_notation
from tacklebox.stock.tables import Figures, Item
from tests.printing.reading import text_of
from tests.printing.samples import DRAWERS, drawer_item

(
    LINE,
    HOOK,
    WAGGLER,
    SHOT,
    FEEDER,
    BOMB,
    SWIVEL,
    ELASTIC,
    WINDER,
    OLIVETTE,
    CYRILLIC,
    CROWDED,
    BEAD,
) = DRAWERS
PAPER = load_paper("drawers-60")


@pytest.mark.parametrize(
    ("item", "large"),
    [
        (LINE, "nylon 0.14 mm 4.5 lb"), (HOOK, "hook 18"), (WAGGLER, "waggler 5BB"),
        (SHOT, "shot No 10"), (FEEDER, "cage 30 g"), (BOMB, "bomb 20 g"),
        (SWIVEL, "link swivel 12"), (ELASTIC, "elastic 4"), (WINDER, "winder 18 cm"),
        (OLIVETTE, "olivette 1.5 g"), (BEAD, "bead 4 mm"),
    ],
)  # fmt: skip
def test_kind_and_size_are_large(item: tuple[Item, Figures], large: str) -> None:
    words = drawer_label(*item).words
    assert words.heads[0][0] == large
    laid = lay_out(words, PAPER.label, drawn=False)
    largest = max(laid.lines, key=lambda line: line.size)
    assert largest.runs == ((large, True),)


@pytest.mark.parametrize("words", ["hook 18 barbless spade fine wire", "winder 18 cm 20 mm",
                                   "pole 4×14 slim wire stem", "cage feeder 20 g small"])  # fmt: skip
def test_what_stands_beside_is_as_easy_to_read_or_stands_below(words: str) -> None:
    """x-height 1.2 mm: Regulation (EU) No 1169/2011, annex IV."""
    laid = lay_out(drawer_label(*drawer_item(7, words)).words, PAPER.label, drawn=False)
    assert min(line.size for line in laid.lines) * X_HEIGHT >= 1.2 - 1e-9
    assert laid.left_off == ()


@pytest.mark.parametrize("item", DRAWERS, ids=lambda i: i[0].name[:20])
def test_what_it_is_is_said_whole_with_and_without_a_name_of_its_own(
    item: tuple[Item, Figures],
) -> None:
    stocked, figures = item
    words = drawer_label(stocked, figures).words
    for large, beside in words.heads:
        said = f"{large} {beside} {words.second}".split()
        assert set(write_notation(figures).split()) - {"size", "feeder"} <= set(said)


def test_what_the_label_says(tmp_path: Path) -> None:
    pdf = tmp_path / "drawers.pdf"
    labels = [drawer_label(*item) for item in (LINE, HOOK, OLIVETTE, SWIVEL)]
    report = print_each(labels, lambda label: label, PAPER, pdf)
    line, hook, olivette, swivel = (text_of(pdf, PAPER, place) for place in range(4))
    for words in ("nylon 0.14 mm 4.5 lb", "no. 1", "In drawer 1", "Packet of 100 m", "Minimum 20 m",
                  "clear"):  # fmt: skip
        assert words in line
    for words in ("hook 18", "barbless spade", "no. 2", "In drawer 2", "Packet of 10",
                  "Minimum 20"):  # fmt: skip
        assert words in hook
    for words in ("olivette 1.5 g", "tungsten", "Long olivettes", "no. 10", "In shot box",
                  "Packet of 5"):  # fmt: skip
        assert words in olivette
    assert "Minimum" not in olivette
    assert "no. 107" in swivel
    assert hook.count("hook") == 1  # no words twice
    assert report.left_off == ()


def test_what_the_qr_says() -> None:
    texts = [drawer_label(*item).sayings.fitted() for item in (LINE, OLIVETTE, BEAD)]
    assert [t.text for t in texts] == [
        "NO. 1 NYLON 0.14 MM 4.5 LB CLEAR/DRAWER 1/PACKET OF 100 M/MINIMUM 20 M",
        "NO. 10 OLIVETTE 1.5 G TUNGSTEN/SHOT BOX/PACKET OF 5/LONG OLIVETTES",
        "NO. 3 BEAD 4 MM/PACKET OF 50",
    ]
    for item in DRAWERS:
        for words in drawer_label(*item).sayings.candidates():
            assert len(words.text) <= MOST_LETTERS
            assert set(words.text) <= LETTERS


def test_what_the_qr_letters_cannot_say_is_told(tmp_path: Path) -> None:
    label = drawer_label(*CYRILLIC)
    assert label.sayings.fitted().left_out == ("place", "name")
    report = print_each([label], lambda one: one, PAPER, tmp_path / "drawers.pdf")
    assert {left.what for left in report.left_off if left.why == Lacks.QR} == {"place", "name"}
    assert CYRILLIC[0].name in text_of(tmp_path / "drawers.pdf", PAPER, 0)


def test_short_words_have_a_qr_on_12_mm_tape_and_long_ones_are_told(tmp_path: Path) -> None:
    """Version 2 holds 38 letters (ISO/IEC 18004, table 7) and is the largest for 12 mm."""
    tape = load_paper("tape-12")
    report = print_each([BEAD, LINE], lambda i: drawer_label(*i), tape, tmp_path / "tape.pdf")
    assert LeftOff("no. 1", Lacks.ROOM, "QR") in report.left_off
    assert "no. 3" not in {left.code for left in report.left_off}


def test_a_crowded_label_loses_the_least_important_first(tmp_path: Path) -> None:
    report = print_each(
        [CROWDED], lambda i: drawer_label(*i), load_paper("a4-65"), tmp_path / "crowded.pdf"
    )
    answer = [left.what for left in report.left_off if left.why == Lacks.ROOM]
    assert answer
    kept = ["place", "packet", "minimum"]
    assert [about for about in kept if about in answer] == kept[len(kept) - len(answer) + 1 :]
