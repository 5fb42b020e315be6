"""What a kill or a second program leaves: labels that were owed, places on a sheet that nobody shares."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tacklebox.boxfolder import LABELS_OWED
from tacklebox.desk import Desk, hooklengths, labels, rigs, stock, tie_plan, tying
from tacklebox.desk.labels import OnPaper
from tacklebox.errors import CannotBeDoneError
from tacklebox.printing.labels import sheets
from tacklebox.stock.care import waiting
from tests.cli.match_boxes import make_match_box


class Killed(BaseException):
    """What ends the program there."""


@pytest.fixture
def box(tmp_path: Path) -> Path:
    return make_match_box(tmp_path / "box", hooks="30")


def killed(*_: object, **__: object) -> None:
    raise Killed


def test_labels_that_were_broken_off_are_told_until_they_are_printed(
    box: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    wanted = tie_plan.ToPrint(labels=tmp_path / "labels.pdf")
    with monkeypatch.context() as patched:
        patched.setattr(sheets, "print_runs", killed)
        with pytest.raises(Killed):
            tie_plan.tie(Desk(box), "open", wanted)
    (rig,), (wallet,) = rigs.listed(Desk(box)), hooklengths.listed(Desk(box))
    codes = f"{rig.code}, {wallet.batches[0].code}"
    for _ in range(2):
        stock.listed(Desk(box, notice=said.append))
    told = f"No label was printed for {codes}: that was broken off after tying."
    assert said == [told, told]
    labels.print_rigs(Desk(box), tmp_path / "labels.pdf", OnPaper(), last=True)
    stock.listed(Desk(box, notice=said.append))
    assert said == [told, told]
    assert not (box / LABELS_OWED).exists()


def test_a_kill_before_the_tying_owes_nothing(
    box: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patched:
        patched.setattr("tacklebox.matches.before.tie_plan.tie_portions", killed)
        with pytest.raises(Killed):
            tie_plan.tie(Desk(box), "open", tie_plan.ToPrint(labels=tmp_path / "labels.pdf"))
    assert (box / LABELS_OWED).exists()
    said: list[str] = []
    stock.listed(Desk(box, notice=said.append))
    assert said == []
    assert not (box / LABELS_OWED).exists()


def test_a_tying_with_its_labels_leaves_no_word(box: Path, tmp_path: Path) -> None:
    tie_plan.tie(Desk(box), "open", tie_plan.ToPrint(labels=tmp_path / "labels.pdf"))
    assert not (box / LABELS_OWED).exists()


@pytest.mark.parametrize("put", [os.mkfifo, Path.mkdir, lambda word: word.write_bytes(b"9" * 5000)])
def test_what_is_no_word_of_labels_is_passed_by(
    box: Path, tmp_path: Path, put: Callable[[Path], Any]
) -> None:
    put(box / LABELS_OWED)
    said: list[str] = []
    stock.listed(Desk(box, notice=said.append))
    tied = tie_plan.tie(Desk(box), "open", tie_plan.ToPrint(labels=tmp_path / "labels.pdf"))
    assert (said, bool(tied.tied)) == ([], True)


Print = Callable[[Desk, Path], Any]
RIGS: Print = lambda desk, to: labels.print_rigs(  # noqa: E731
    desk, to, OnPaper("a4-65", "next", replace=True), last=True
)
ITEMS: Print = lambda desk, to: labels.print_items(  # noqa: E731
    desk, to, OnPaper("a4-65", "next", replace=True), ["1"]
)


@pytest.mark.parametrize(("print_them", "by"), [(RIGS, "print_runs"), (ITEMS, "print_each")])
def test_two_that_print_on_one_sheet_never_share_a_place(
    box: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, print_them: Print, by: str
) -> None:
    """While one prints from the next place on, the other waits until it is noted."""
    first, second = Desk(box), Desk(box)
    tying.tie(first, "short-rig", {}, count=2)
    monkeypatch.setattr(waiting, "ALONE_MS", 10)
    monkeypatch.setattr(waiting, "PATIENCE_MS", 30)
    really, places = getattr(sheets, by), []

    def while_another_asks(*args: Any, **more: Any) -> Any:
        with monkeypatch.context() as patched:
            patched.setattr(sheets, by, really)
            with pytest.raises(CannotBeDoneError, match="try again in a moment"):
                print_them(second, tmp_path / "second.pdf")
        return really(*args, **more)

    with monkeypatch.context() as patched:
        patched.setattr(sheets, by, while_another_asks)
        places.append(print_them(first, tmp_path / "first.pdf").on[0].next_free)
    places.append(print_them(second, tmp_path / "second.pdf").on[0].next_free)
    assert places[1] == 2 * places[0] - 1
    assert not list(tmp_path.glob(".printing*"))
