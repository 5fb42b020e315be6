"""Losses counted match by match from the ledger; the chance to run out, by hand."""

from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from scipy import stats  # type: ignore[import-untyped]
from sqlalchemy import event

from tacklebox.matches.after.account import Account
from tacklebox.matches.after.debrief import write_debrief
from tacklebox.matches.before import losses
from tacklebox.matches.before.losses import read_losses
from tacklebox.matches.before.low import Want, look_ahead
from tacklebox.matches.files.match import Match, parse_match
from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import mark_lost, strip_rigs
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.undo import redo_last, undo_last
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.tables import Why
from tests.outside import outside
from tests.rigs.boxes import DAY, add, canal_rig, fine_hooklength, make_box, on_hand, short_rig

HOOK = "hook 20 barbless spade"
LINE, WINDER = "nylon 0.08 mm 0.7 kg", "winder 13 cm 18 mm"
LATER = date(2026, 7, 1)


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
    redo_last(box, date(2026, 4, 1))
    assert counted(box, HOOK) == (4, 1)


@outside("chance to run out at a match", "the negative binomial by hand", "closed form")
def test_chance_to_run_out_by_hand(tmp_path: Path) -> None:
    """Before history hooks are lost by NB(2, 1/2): P(X > k) = (k + 3) / 2^(k + 2)."""
    box = make_box(tmp_path)
    (answer,) = [
        f for f in look_ahead(box, [Want(fine_hooklength(), 8)]).forecasts if f.item.name == HOOK
    ]
    assert (answer.planned, answer.left, answer.rate.history) == (8, 2, 0)
    assert answer.runs_out == pytest.approx(5 / 16)


def test_only_what_is_planned_or_kept(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    assert look_ahead(box, []).forecasts == ()
    add(box, "hook 18 barbless spade pack 10", minimum="5")
    assert [f.item.name for f in look_ahead(box, []).forecasts] == ["hook 18 barbless spade"]


def test_short_of_the_plan_runs_out_first(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    answer = look_ahead(box, [Want(fine_hooklength(), 30), Want(canal_rig(), 1)]).forecasts
    assert (answer[0].item.name, answer[0].left, answer[0].runs_out) == (HOOK, -20, 1.0)
    assert [f.runs_out for f in answer] == sorted((f.runs_out for f in answer), reverse=True)


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


def a_match(day: str = "2026-06-20", stem: str = "open") -> Match:
    head = f'name = "O"\ndate = "{day}"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"\n'
    return parse_match(f'{head}[[want]]\nrecipe = "short-rig"\ncount = 6\n', stem)


def chance(box: Box, wanted: int) -> float:
    answer = look_ahead(box, [Want(fine_hooklength(), wanted)]).forecasts
    return next(f.runs_out for f in answer if f.item.name == HOOK)


def test_what_was_tied_into_lost_rigs_is_lost(tmp_path: Path) -> None:
    """Six short rigs lost: a hook each, and their line; hooks are then lost by NB(2 + 6, 2/3)."""
    box = make_box(tmp_path)
    start = on_hand(box)
    codes = [rig.code for rig in tie(box, short_rig(), 6, DAY).rigs]
    metres = -((on_hand(box)[LINE] - start[LINE]) // 1000)
    before = chance(box, 2)  # two of four hooks are left
    write_debrief(box, a_match(), Account(lost=codes), LATER)
    assert counted(box, HOOK) == (2 + 6, 1)
    assert counted(box, LINE) == (1 + metres, 1)
    assert chance(box, 2) == pytest.approx(stats.nbinom.sf(2, 8, 2 / 3))
    assert chance(box, 2) > before
    write_debrief(box, a_match("2026-06-27", "next"), Account(tackle_lost={HOOK: "1"}), LATER)
    assert counted(box, HOOK) == (2 + 6 + 1, 2)


def test_a_lost_rig_counts_with_all_but_its_winder(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    (rig,) = tie(box, canal_rig(), 1, DAY).rigs
    write_debrief(box, a_match(), Account(lost=[rig.code], tackle_lost={"shot No 8": "3"}), LATER)
    assert counted(box, "shot No 8 tin") == (2 + 2 + 3, 1)
    assert counted(box, "4×12 tip") == (0.5, 1)  # the other float is on the rig
    assert sum(counted(box, name)[0] for name in ("pole 4×12", "4×12 tip")) == 0.5 + 1 + 0.5
    assert counted(box, WINDER) == (0.2, 1)


def test_spent_and_taken_apart_is_not_lost(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    one, two = (rig.code for rig in tie(box, short_rig(), 2, DAY).rigs)
    write_debrief(box, a_match(), Account(worn_out=[one]), LATER)
    strip_rigs(box, [two], LATER)
    assert counted(box, HOOK) == (2, 1)


def test_rigs_marked_lost_count_on_that_day(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    one, two, three = (rig.code for rig in tie(box, short_rig(), 3, DAY).rigs)
    mark_lost(box, [one, two], date(2026, 6, 20))
    assert counted(box, HOOK) == (2 + 2, 1)
    write_debrief(box, a_match(), Account(lost=[three]), LATER)
    assert counted(box, HOOK) == (2 + 3, 1)  # the same day is one match
    undo_last(box, LATER)
    assert counted(box, HOOK) == (2 + 2, 1)
    redo_last(box, LATER)  # still on the day of the match
    assert counted(box, HOOK) == (2 + 3, 1)


def test_a_correction_counts_in_place_of_the_first(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    one, two = (rig.code for rig in tie(box, short_rig(), 2, DAY).rigs)
    write_debrief(box, a_match(), Account(lost=[one, two]), LATER)
    write_debrief(box, a_match("2026-06-21"), Account(lost=[two]), LATER, correct=True)
    with box.reading() as session:
        losses_read = read_losses(session)
        item = find(session, HOOK)
    assert losses_read.days == (date(2026, 6, 21),)
    assert losses_read.by_item[item.id or 0] == {date(2026, 6, 21): 1}
    undo_last(box, LATER)
    assert counted(box, HOOK) == (2 + 2, 1)
    redo_last(box, LATER)
    write_debrief(box, a_match("2026-06-21"), Account(back=[one]), LATER, correct=True)
    assert counted(box, HOOK) == (2, 1)


def test_rigs_lost_long_ago_are_not_looked_through(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    box = make_box(tmp_path)
    one, two = (rig.code for rig in tie(box, short_rig(), 2, DAY).rigs)
    mark_lost(box, [one], date(2026, 6, 20))
    lose(box, "shot No 8", 1, 200)
    mark_lost(box, [two], date(2026, 9, 27))
    assert counted(box, HOOK) == (2 + 2, 3)
    monkeypatch.setattr(losses, "RECENT", 1)  # from the loss of shot on
    assert counted(box, HOOK) == (2 + 1, 2)


def test_rigs_lost_long_ago_are_not_even_read(tmp_path: Path) -> None:
    """SQLite begins with the recent debriefs and changes, not with all rigs or all they took."""
    box = make_box(tmp_path)
    asked: list[tuple[str, tuple[object, ...]]] = []

    def listen(*expected: Any) -> None:
        asked.append((expected[2], expected[3]))

    event.listen(box.engine, "before_cursor_execute", listen)
    counted(box, HOOK)
    event.remove(box.engine, "before_cursor_execute", listen)
    about_rigs = [(sql, values) for sql, values in asked if "tieduse" in sql]
    assert len(about_rigs) == 2
    with box.engine.connect() as connection:
        for sql, values in about_rigs:
            plan = connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {sql}", values).all()
            steps = [row[3] for row in plan]
            assert steps[0].startswith(("SEARCH debriefrig", "SEARCH statechange"))
            assert not any(step.startswith("SCAN") for step in steps)
