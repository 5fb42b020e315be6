"""Losses counted match by match from the ledger; the chance to run out, by hand."""

from datetime import date, timedelta
from pathlib import Path

import pytest

from tacklebox.matches import losses
from tacklebox.matches.losses import read_losses
from tacklebox.matches.low import Want, look_ahead
from tacklebox.stock.box import Box
from tacklebox.stock.ledger import begin, find, move
from tacklebox.stock.tables import Why
from tacklebox.stock.undo import undo_last
from tests.rigs.boxes import DAY, add, canal_rig, fine_hooklength, make_box

HOOK = "hook 20 barbless spade"


def lose(box: Box, name: str, amount: int, days_later: int) -> None:
    with box.writing() as session:
        action = begin(session, "lost", DAY + timedelta(days_later))
        move(session, action, find(session, name), -amount, Why.LOST)


def counted(box: Box, name: str) -> tuple[float, int]:
    with box.reading() as session:
        rate = read_losses(session).rate_of(find(session, name))
    return rate.shape, rate.history


def test_each_day_with_a_loss_is_a_match(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    lose(box, HOOK, 2, 1)
    lose(box, HOOK, 1, 1)
    lose(box, "shot No 8", 4, 8)
    assert counted(box, HOOK) == (2 + 3, 2)
    assert counted(box, "shot No 8") == (2 + 4, 2)


def test_an_item_is_older_than_its_first_match(tmp_path: Path) -> None:
    box = make_box(tmp_path, f"{HOOK} pack 10")
    lose(box, HOOK, 2, -30)  # before the day it was added: its own loss counts
    assert counted(box, HOOK) == (2 + 2, 1)
    add(box, "shot No 9 tin pack 20")
    assert counted(box, "shot No 9") == (2, 0)


def test_line_is_counted_in_started_metres(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    lose(box, "nylon 0.08", 2300, 1)
    assert counted(box, "nylon 0.08") == (1 + 3, 1)


def test_what_was_undone_was_not_lost(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    lose(box, HOOK, 2, 1)
    undo_last(box, date(2026, 4, 1))
    assert counted(box, HOOK) == (2, 0)
    undo_last(box, date(2026, 4, 1))
    assert counted(box, HOOK) == (4, 1)


def test_chance_to_run_out_by_hand(tmp_path: Path) -> None:
    """Before history hooks are lost by NB(2, 1/2): P(X > k) = (k + 3) / 2^(k + 2)."""
    box = make_box(tmp_path)
    (told,) = [
        f for f in look_ahead(box, [Want(fine_hooklength(), 8)]).forecasts if f.item.name == HOOK
    ]
    assert (told.planned, told.left, told.rate.history) == (8, 2, 0)
    assert told.runs_out == pytest.approx(5 / 16)


def test_only_what_is_planned_or_kept(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    assert look_ahead(box, []).forecasts == ()
    add(box, "hook 18 barbless spade pack 10", keep_at_least="5")
    assert [f.item.name for f in look_ahead(box, []).forecasts] == ["hook 18 barbless spade"]


def test_short_of_the_plan_runs_out_first(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    told = look_ahead(box, [Want(fine_hooklength(), 30), Want(canal_rig(), 1)]).forecasts
    assert (told[0].item.name, told[0].left, told[0].runs_out) == (HOOK, -20, 1.0)
    assert [f.runs_out for f in told] == sorted((f.runs_out for f in told), reverse=True)


def test_only_the_last_movements_are_looked_through(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ten items were added, then hooks lost on three days: five movements back are all three,
    two movements back only the last two, and no more days count than those."""
    box = make_box(tmp_path)
    for amount in (1, 2, 3):
        lose(box, HOOK, amount, 7 * amount)
    monkeypatch.setattr(losses, "RECENT", 5)
    assert counted(box, HOOK) == (2 + 1 + 2 + 3, 3)
    monkeypatch.setattr(losses, "RECENT", 2)
    assert counted(box, HOOK) == (2 + 2 + 3, 2)
    assert counted(box, "shot No 8 tin") == (2, 2)
    undo_last(box, date(2026, 4, 1))  # the last two are now the loss of 3 and what takes it back
    assert counted(box, HOOK) == (2, 0)
