"""``low``, the plan and ``tie`` agree: on random boxes, and on what an angler has."""

import random
from pathlib import Path

import pytest
from sqlmodel import select

from tacklebox.errors import CannotBeDoneError
from tacklebox.matches.before.low import Want, look_ahead
from tacklebox.matches.before.plan import make_plan
from tacklebox.matches.before.tie_plan import portions_of, tie_portions, tie_so_many
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import tied_with
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.undo import undo_last
from tacklebox.stock.finding import load
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.made import TiedUse
from tacklebox.stock.tables import Item, Kind, Why
from tacklebox.trade.judgement import Outcome
from tests.long.length import so_many
from tests.matches.test_plan import wanted
from tests.rigs.boxes import DAY, add, canal_rig, fine_hooklength, make_box

SPOOLS = [
    f"nylon {diameter} mm {strain} kg 50 m"
    for diameter, strain in (
        ("0.10", "0.7"), ("0.10", "0.9"), ("0.11", "0.8"), ("0.11", "1.0"), ("0.12", "0.75"), ("0.12", "1.6"),
    )
]  # fmt: skip


def box_of_spools(folder: Path) -> Box:
    box = make_box(folder, "elastic 4 6 m", "connector pack 4")
    for words in ("nylon 0.08 mm 0.7 kg 50 m", "nylon 0.09 mm 0.8 kg 50 m", *SPOOLS):
        add(box, words, pack_price_cents=300)
    for words in ("hook 20 barbless spade pack 10", "hook 20 barbless spade bronze pack 10",
                  "pole 4×12", "pole 4×12 tip 1.2 mm", "shot No 8 tin pack 20",
                  "shot No 8 lead pack 20", "shot No 10 tin pack 20", "winder 13 cm 18 mm",
                  "winder 15 cm 18 mm"):  # fmt: skip
        add(box, words)
    return box


def stir(box: Box, dice: random.Random) -> None:
    """Another amount of everything, little of each."""
    with box.writing() as session:
        action = begin(session, "count", DAY)
        for item in session.exec(select(Item).where(Item.kind != Kind.HOOKLENGTH)).all():
            amount = (
                dice.choice([0, 1700, 1900, 3700, 5500]) if item.measured else dice.randint(0, 5)
            )
            if amount != item.on_hand:
                move(session, action, item, amount - item.on_hand, Why.COUNTED)


def amounts(box: Box) -> dict[int, int]:
    with box.reading() as session:
        return {item.id or 0: item.on_hand for item in load(session)}


def most_that_ties(box: Box, rig: Resolved, most: int) -> int:
    """By tying: the most that ``tie`` does at once; it is undone again."""
    for count in range(most, 0, -1):
        try:
            tie_so_many(box, rig, count, DAY)
        except CannotBeDoneError:
            continue
        undo_last(box, DAY)
        return count
    return 0


def test_they_agree_on_random_boxes(tmp_path: Path) -> None:
    box = box_of_spools(tmp_path)
    reached = []
    for seed in range(so_many(200, 5)):
        dice = random.Random(seed)
        stir(box, dice)
        for rig in (canal_rig(), fine_hooklength()):
            count = dice.randint(1, 6)
            outlook = look_ahead(box, [Want(rig, count)])
            plan = make_plan(box, [wanted(rig, count)])
            assert outlook.proven
            assert plan.proven
            assert outlook.reaches[0].can_tie == plan.wants[0].tie
            assert most_that_ties(box, rig, count) == plan.wants[0].tie, seed
            assert outlook.purchases == plan.purchases
            reached.append(plan.wants[0].tie)
            before = amounts(box)
            done = tie_portions(box, portions_of(plan), DAY)
            assert all(tying.checked.outcome is not Outcome.FAILS for tying in done)
            assert sum(tying.count for tying in done) == plan.wants[0].tie
            if done:
                again = look_ahead(box, [Want(rig, count)]).reaches[0]
                assert (again.ready, again.can_tie) == (plan.wants[0].tie, 0)
                undo_last(box, DAY)
            assert amounts(box) == before
    assert len(set(reached)) > 2
    assert audit(box.database).faults == ()


def test_five_rigs_that_two_spools_of_good_line_tie_are_tied(tmp_path: Path) -> None:
    """A rig takes 1.79 m. The weak line, which opens no packet, would go before the hooklength."""
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m", "hook 20 barbless spade pack 10",
                   "shot No 8 tin pack 150", "shot No 10 tin pack 150", "elastic 4 6 m",
                   "connector pack 4")  # fmt: skip
    add(box, "pole 4×12", packs=5)
    add(box, "winder 13 cm 18 mm", packs=5)
    add(box, "nylon 0.10 mm 0.6 kg 50 m", amount="40 m", pack_price_cents=100)
    good = [
        add(box, "nylon 0.12 mm 1.6 kg 50 m", amount="5.5 m", pack_price_cents=300).id,
        add(box, "nylon 0.11 mm 1.4 kg 50 m", amount="4 m", pack_price_cents=300).id,
    ]
    plan = make_plan(box, [wanted(canal_rig(), 5)])
    assert (plan.wants[0].tie, plan.purchases, plan.proven) == (5, (), True)
    assert {c.outcome for c in plan.wants[0].checked} == {Outcome.SOUND}
    done = tie_so_many(box, canal_rig(), 5, DAY)
    assert sorted(tying.count for tying in done) == [2, 3]
    with box.reading() as session:
        uses = session.exec(select(TiedUse.item_id).where(TiedUse.part == "rig line")).all()
    assert sorted(uses.count(number) for number in good) == [2, 3]
    undo_last(box, DAY)
    assert {rig.state for rig in tied_with(box)} == {"untied"}
    with pytest.raises(CannotBeDoneError, match="5 can be tied; nothing was tied") as refused:
        tie_so_many(box, canal_rig(), 6, DAY)
    assert "float: pole 4×12: 5 left, 6 needed" in refused.value.what


def test_what_is_ready_counts(tmp_path: Path) -> None:
    """Ten hooks, three tied: seven are left, of which four are wanted still."""
    box = make_box(tmp_path)
    tie(box, fine_hooklength(), 3, DAY)
    (reach,) = look_ahead(box, [Want(fine_hooklength(), 7)]).reaches
    assert (reach.ready, reach.can_tie, reach.stopped_by) == (3, 4, ())
    (reach,) = look_ahead(box, [Want(fine_hooklength(), 12)]).reaches
    assert (reach.ready, reach.can_tie) == (3, 7)


def test_the_nearest_is_tied_from_where_it_reaches_and_is_sound(tmp_path: Path) -> None:
    """Though another spool is begun and the nearest is not."""
    box = make_box(tmp_path)
    add(box, "nylon 0.10 mm 1.2 kg 50 m", amount="40 m")
    nearest = add(box, "nylon 0.11 mm 1.6 kg 50 m").id
    (done,) = tie_so_many(box, canal_rig(), 1, DAY)
    assert done.checked.fit.serving("rig line").item.id == nearest  # type: ignore[union-attr]
