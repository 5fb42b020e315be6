"""Hooklengths that are there already: a batch with a code and a label, and nothing taken from stock."""

import io
import shutil
from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from tacklebox.desk import Desk, adding, care, hooklengths, labels, rigs, stock, tying
from tacklebox.errors import AskedWronglyError
from tests.desk.boxes import TODAY
from tests.rigs.boxes import make_box

FINE = "hooklength 20 barbless spade to 0.08 mm 0.7 kg 15 cm"
STOUT = "16 barbless spade to 0.12 mm 6 in"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two are tied; three with a strain alone are bought, of no batch."""
    folder = tmp_path_factory.mktemp("wallet") / "box"
    make_box(folder, "nylon 0.08 mm 0.7 kg 50 m", "hook 20 barbless spade pack 30").engine.dispose()
    desk = Desk(folder, today=lambda: TODAY)
    tying.tie(desk, "hooklength-fine", {}, count=2)
    adding.add(desk, "3 x hooks to nylon 18 to 3 lb barbless")
    desk.close()
    return folder


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    return Desk(Path(shutil.copytree(made, tmp_path / "box")), today=lambda: TODAY)


def on_hand(desk: Desk) -> dict[str, int]:
    return {row.name: row.on_hand.value for row in stock.listed(desk).items}


def test_they_become_a_batch_and_nothing_is_taken(desk: Desk) -> None:
    before = on_hand(desk)
    (added,) = hooklengths.add(desk, {STOUT: "12"}, place="wallet 2")
    assert (added.batch.code, added.batch.left, added.batch.tied_on) == ("A02R", 12, None)
    assert (added.item.on_hand.value, added.item.place) == (12, "wallet 2")
    assert on_hand(desk) == before | {added.item.name: 12}
    shown = hooklengths.show(desk, "A02R")
    assert (shown.made.looked_for, shown.made.size, shown.made.count) == ("16 · 0.12", "6 in", 12)
    assert shown.made.in_tray_before
    assert care.audit(desk).in_order
    care.undo(desk)
    assert on_hand(desk) == before
    care.redo(desk)
    assert on_hand(desk)[added.item.name] == 12
    assert care.audit(desk).in_order


def test_they_have_a_wallet_label(desk: Desk) -> None:
    hooklengths.add(desk, {STOUT: "12"})
    printed = io.BytesIO()
    labels.print_rigs(desk, printed, labels.OnPaper("wallet-60"), ["A02R"])
    words = pdfplumber.open(printed).pages[0].extract_text()
    for said in ("16 · 0.12", "6 in", "12", "before, or bought", "A02R"):
        assert said in words


def test_what_is_just_the_same_is_more_of_that_item(desk: Desk) -> None:
    added = hooklengths.add(desk, {FINE: "4", STOUT: "3"}, on="2025-05-01")
    assert [str(one.batch.tied_on) for one in added] == ["2025-05-01"] * 2
    row = next(one for one in hooklengths.listed(desk) if one.item.name == FINE)
    # The oldest first: they were tied before those that the box knew.
    assert [(batch.code, batch.left) for batch in row.batches] == [("A02R", 4), ("A01T", 2)]
    assert row.item.on_hand.value == 6
    rigs.strip(desk, ["A02R=4"])
    assert on_hand(desk)[FINE] == 2
    assert care.audit(desk).in_order


def test_the_words_may_say_how_many(desk: Desk) -> None:
    before = on_hand(desk)
    said = {"ten 18s to 0.10 at six inches": "", "a dozen 16 to 0.12 4in": "", STOUT: "5"}
    added = hooklengths.add(desk, said)
    assert [(one.item.name, one.batch.tied) for one in added] == [
        ("hooklength 18 to 0.10 mm 6 in", 10),
        ("hooklength 16 to 0.12 mm 4 in", 12),
        ("hooklength 16 barbless spade to 0.12 mm 6 in", 5),
    ]
    care.undo(desk)
    assert on_hand(desk) == before


def test_those_that_are_counted_already_are_asked_about(desk: Desk) -> None:
    item = str(next(i.number for i in stock.listed(desk).items if "3 lb" in i.name))
    with pytest.raises(AskedWronglyError, match=r"3 of .* are in stock already, of no batch"):
        hooklengths.add(desk, {item: "2"})
    (added,) = hooklengths.add(desk, {item: "2"}, counted="yes")
    assert (added.item.on_hand.value, added.batch.left, added.were_counted) == (3, 2, True)
    with pytest.raises(AskedWronglyError, match=r"1 of .* are of no batch, not 2"):
        hooklengths.add(desk, {item: "2"}, counted="yes")
    (more,) = hooklengths.add(desk, {item: "2"}, counted="no")
    assert more.item.on_hand.value == 5
    assert care.audit(desk).in_order
    care.undo(desk)
    care.undo(desk)
    (row,) = [one for one in hooklengths.listed(desk) if str(one.item.number) == item]
    assert (row.batches, row.in_packets) == ((), 3)
    assert care.audit(desk).in_order


@pytest.mark.parametrize(
    ("wanted", "more", "says"),
    [
        ({"1": "3"}, {}, "is no hooklength"),
        ({"hook 18 barbless spade": "3"}, {}, "is no hooklength"),
        ({"18 to": "3"}, {}, "18 to"),
        ({FINE: "0"}, {}, "no number of hooklengths"),
        ({FINE: "1000"}, {}, "cannot be added at once"),
        ({"5 hooklengths 18 to 0.10 mm 6 in": "3"}, {}, "says how many"),
        ({"501 hooklengths 18 to 0.10 mm 6 in": ""}, {}, "501 hooklengths cannot be added at once"),
        ({FINE: "3"}, {"on": "2099-01-01"}, "2099"),
        ({FINE: "3"}, {"counted": "perhaps"}, "is no answer"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_kept(
    desk: Desk, wanted: dict[str, str], more: dict[str, Any], says: str
) -> None:
    before = on_hand(desk)
    with pytest.raises(AskedWronglyError, match=says):
        hooklengths.add(desk, {STOUT: "2"} | wanted, **more)
    assert on_hand(desk) == before
    assert care.audit(desk).in_order
