"""The wallet as the desk answers, and the labels of its batches."""

import io
import shutil
from pathlib import Path

import pdfplumber
import pytest

from tacklebox.desk import (
    Desk,
    adding,
    as_json,
    care,
    checking,
    hooklengths,
    labels,
    rigs,
    stock,
    tying,
)
from tacklebox.errors import AskedWronglyError
from tests.desk.boxes import TODAY
from tests.rigs.boxes import make_box


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Ten of 15 cm and four of 6 in are tied; three with a strain alone are bought."""
    folder = tmp_path_factory.mktemp("wallet") / "box"
    make_box(folder, "nylon 0.08 mm 0.7 kg 50 m", "hook 20 barbless spade pack 30").engine.dispose()
    desk = Desk(folder, today=lambda: TODAY)
    tying.tie(desk, "hooklength-fine", {}, count=10)
    tying.tie(desk, "hooklength-fine", {"length": "6 in"}, count=4)
    adding.add(desk, "3 x hooks to nylon 18 to 3 lb barbless")
    desk.close()
    return folder


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    return Desk(Path(shutil.copytree(made, tmp_path / "box")), today=lambda: TODAY)


def test_they_are_listed_by_hook_and_line_then_by_length(desk: Desk) -> None:
    rows = hooklengths.listed(desk)
    assert [(r.looked_for, r.length, r.strain, r.item.on_hand.value) for r in rows] == [
        ("20 · 0.08", "15 cm", "0.7 kg", 10),
        ("20 · 0.08", "6 in", "0.7 kg", 4),
        ("18 · 3 lb", "", "3 lb", 3),
    ]
    assert [[(b.code, b.tied, b.left) for b in r.batches] for r in rows] == [
        [("A01T", 10, 10)],
        [("A02R", 4, 4)],
        [],
    ]
    assert [r.in_packets for r in rows] == [0, 0, 3]


def test_a_batch_is_shown_by_its_code(desk: Desk) -> None:
    shown = hooklengths.show(desk, "ao2-r")
    assert (shown.batch.recipe, shown.batch.tied, shown.made.size) == ("hooklength-fine", 4, "6 in")
    assert as_json(shown)["made"]["looked_for"] == "20 · 0.08"
    with pytest.raises(AskedWronglyError, match="no rig has the code"):
        hooklengths.show(desk, "K8ML")
    with pytest.raises(AskedWronglyError, match="a batch of hooklengths, not a rig") as refused:
        rigs.show(desk, "A01T")
    assert refused.value.see == "hooklengths.show A01T"


def test_one_label_bears_hook_and_line_large_then_length_strain_and_count(desk: Desk) -> None:
    stream = io.BytesIO()
    printed = labels.print_rigs(desk, stream, labels.OnPaper("wallet-60"), ["A01T"])
    assert printed.codes == ("A01T",)
    with pdfplumber.open(stream) as read:
        words = read.pages[0].extract_words(extra_attrs=["size"])
    by_word: dict[str, float] = {}
    for word in words:
        by_word[word["text"]] = max(word["size"], by_word.get(word["text"], 0.0))
    assert by_word["20"] == by_word["0.08"] == max(by_word.values())
    assert by_word["A01T"] < by_word["20"]
    assert {"15", "cm", "0.7", "kg", "Count", "10"} <= by_word.keys()
    again = labels.print_rigs(desk, io.BytesIO(), labels.OnPaper())
    assert again.codes == ("A02R",)


def test_a_rig_is_checked_with_what_is_in_the_wallet(desk: Desk) -> None:
    for words in ("nylon 0.12 mm 1.6 kg 50 m", "pole 4×12", "winder 13 cm 18 mm"):
        adding.add(desk, words)
    checked = checking.check(desk, "pole-canal-shot", {})
    assert checked.hooklength is not None
    [part] = checked.hooklength.parts
    assert (part.part, part.already, part.takes) == ("hooklength", "in the wallet", None)
    assert part.item is not None
    assert part.item.name.endswith("15 cm")


def test_an_undone_tying_says_whose_label_to_throw_out(desk: Desk) -> None:
    labels.print_rigs(desk, io.BytesIO(), labels.OnPaper(), ["A02R"])
    undone = care.undo(desk)
    assert undone.labels_to_throw_out == ("A02R",)
    assert care.audit(desk).in_order


@pytest.mark.parametrize(
    ("words", "what"),
    [
        ("hooklength to 0.10 mm", "size"),  # its hook is missing
        ("hooklength 18 barbless", "thick"),  # its line is
    ],
)
def test_a_hooklength_of_which_half_is_missing_is_refused(
    desk: Desk, words: str, what: str
) -> None:
    before = len(stock.listed(desk).items)
    with pytest.raises(AskedWronglyError, match=what):
        adding.add(desk, words)
    assert len(stock.listed(desk).items) == before
