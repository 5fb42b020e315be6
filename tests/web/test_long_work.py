"""What a page tells while it waits: how far a list has come that is being put in."""

from pathlib import Path

import pytest

from tacklebox.desk import Desk, adding
from tacklebox.stock.care.waiting import Progress
from tacklebox.web import long_work
from tacklebox.web.long_work import USUAL, LongWork


def test_it_is_told_how_far_a_list_has_come(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Progress, "every_s", 0.0)
    desk = Desk(tmp_path / "box")
    told = list[str]()
    desk.notice = lambda _: told.append(work.now())
    work = LongWork(desk)
    assert work.now() == USUAL
    file = tmp_path / "list.csv"
    file.write_text("item\n" + "".join(f"hook {size} spade\n" for size in (10, 12, 14, 16)))
    adding.import_csv(desk, file)
    of_rows = [words for words in told if words != USUAL and "4" in words]
    assert len(of_rows) > 1
    assert len(set(of_rows)) == len(of_rows)  # each says another


def test_what_was_said_long_ago_is_of_work_that_has_ended(monkeypatch: pytest.MonkeyPatch) -> None:
    now = [100.0]
    monkeypatch.setattr(long_work, "monotonic", lambda: now[0])
    said = list[str]()
    desk = Desk(notice=said.append)
    work = LongWork(desk)
    desk.notice("Row 3 of 9.")
    assert work.now() == "Row 3 of 9."
    assert said == ["Row 3 of 9."]  # whoever was told before still is
    now[0] += long_work.GOOD_FOR_S
    assert work.now() == USUAL
