"""Labels as the desk answers: whose, on which paper, from which place, and what they do not bear."""

import io
import shutil
from dataclasses import replace
from pathlib import Path

import pdfplumber
import pytest

from tacklebox.desk import Desk, hooklengths, labels, rigs
from tacklebox.desk.labels import OnPaper
from tacklebox.errors import AskedWronglyError, BenchError
from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import strip_rigs
from tacklebox.stock.care.box import open_box
from tests.rigs.boxes import CANAL, DAY, add, canal_rig, fine_hooklength

STICKY = OnPaper("a4-65")


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two canal rigs, the second taken apart since, and two batches of hooklengths after them."""
    box = open_box(tmp_path_factory.mktemp("tied") / "box")
    for words in CANAL:
        add(box, words, packs=2)
    tie(box, canal_rig(), 2, DAY)
    strip_rigs(box, ["A02R"], DAY)
    with box.writing():
        tie(box, fine_hooklength(), 2, DAY)
        tie(box, fine_hooklength(length="20 cm"), 5, DAY)
    box.engine.dispose()
    return box.folder


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    return Desk(Path(shutil.copytree(made, tmp_path / "box")))


def test_all_without_a_label_get_one_and_then_none_does(desk: Desk) -> None:
    printed = labels.print_rigs(desk, io.BytesIO(), OnPaper("a4-65"))
    assert (printed.codes, printed.sheets) == (("A01T", "A03P", "A04N"), 1)
    assert [of_paper.next_free for of_paper in printed.on] == [4]
    again = labels.print_rigs(desk, io.BytesIO(), OnPaper())
    assert (again.codes, again.sheets) == ((), 0)


def test_without_a_paper_each_goes_on_the_one_that_fits(desk: Desk) -> None:
    """A rig on a winder of 13 cm and two batches for the wallet, in one file."""
    stream = io.BytesIO()
    printed = labels.print_rigs(desk, stream, OnPaper())
    assert [(p.paper, p.labels) for p in printed.on] == [("strips-130", 1), ("wallet-60", 2)]
    with pdfplumber.open(stream) as read:
        pages = [str(page.extract_text()) for page in read.pages]
    assert ["A01T" in text for text in pages] == [True, False]
    assert all(code in pages[1] for code in ("A03P", "A04N"))
    assert all(rig.labelled_on for rig in rigs.listed(desk))
    wallet = [batch for one in hooklengths.listed(desk) for batch in one.batches]
    assert [(batch.code, bool(batch.labelled_on)) for batch in wallet] == [
        ("A03P", True),
        ("A04N", True),
    ]


def test_codes_may_be_typed_badly_and_in_one_word(desk: Desk) -> None:
    printed = labels.print_rigs(desk, io.BytesIO(), OnPaper(), ["a01t, ao3p"])
    assert printed.codes == ("A01T", "A03P")


def test_the_last_tying_goes_on_where_the_sheet_was_left(desk: Desk) -> None:
    labels.print_rigs(desk, io.BytesIO(), STICKY, ["A01T"])
    printed = labels.print_rigs(
        desk, io.BytesIO(), replace(STICKY, start="next", skip=[3]), last=True, on="2026-03-06"
    )
    assert (printed.codes, printed.on[0].next_free) == (("A03P", "A04N"), 5)


def test_what_no_label_bears_is_told_once_for_all(desk: Desk) -> None:
    printed = labels.print_rigs(desk, io.BytesIO(), STICKY, ["A03P", "A04N"])
    [missing] = printed.not_on_label
    assert (missing.why, missing.on_all, missing.codes) == ("no room", True, ("A03P", "A04N"))
    assert missing.words == "no room for " + ", ".join(missing.what)


def test_drawers_by_number_by_words_and_by_kind(desk: Desk) -> None:
    paper = OnPaper("drawers-60")
    named = labels.print_items(desk, io.BytesIO(), paper, ["3", "winder"])
    assert named.codes == ("no. 3", "no. 8")
    lines = labels.print_items(desk, io.BytesIO(), paper, kind="line")
    assert lines.codes == ("no. 1", "no. 2")
    assert len(labels.print_items(desk, io.BytesIO(), paper).codes) == 12


@pytest.mark.parametrize(
    ("paper", "codes", "last", "field", "what"),
    [
        (replace(STICKY, start="66"), [], False, "start", "place 66 is not on the paper"),
        (OnPaper(start="first"), [], False, "start", '"first" is no place'),
        (OnPaper(start="²"), [], False, "start", "is no place"),
        (replace(STICKY, skip=[70]), [], False, "skip", "place 70"),
        (OnPaper(start="3"), [], False, "start", "no paper is named"),
        (OnPaper(skip=[3]), [], False, "skip", "no paper is named"),
        (OnPaper("a4-66"), [], False, "paper", "there is no paper"),
        (OnPaper(), ["A01T"], True, "last", "last tying"),
        (OnPaper(), ["A02R"], False, "code", "it needs no label"),
        (OnPaper(), ["A01W"], False, "code", "mistyped"),
    ],
)
def test_a_fault_names_the_field_and_prints_nothing(
    desk: Desk, paper: OnPaper, codes: list[str], last: bool, field: str, what: str
) -> None:
    stream = io.BytesIO()
    with pytest.raises(AskedWronglyError, match=what) as refused:
        labels.print_rigs(desk, stream, paper, codes, last=last)
    assert refused.value.field == field
    assert stream.getvalue() == b""
    assert len(labels.print_rigs(desk, stream, OnPaper()).codes) == 3


@pytest.mark.parametrize(
    ("items", "kind", "place", "field"),
    [
        ([], "hok", "", "kind"),
        ([], "feeder", "", "kind"),
        ([], "", "drawer 9", "place"),
        (["3"], "hook", "", "item"),
        (["wibble"], "", "", "item"),
    ],
)
def test_drawers_that_are_not_there(
    desk: Desk, items: list[str], kind: str, place: str, field: str
) -> None:
    with pytest.raises(BenchError) as refused:
        labels.print_items(desk, io.BytesIO(), OnPaper("drawers-60"), items, kind=kind, place=place)
    assert refused.value.field == field


def test_an_empty_box_says_how_to_begin(tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        labels.print_items(Desk(tmp_path / "new"), io.BytesIO(), OnPaper("drawers-60"))
    assert refused.value.see == "stock.add"
