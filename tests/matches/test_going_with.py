"""Rigs with the hooklengths of the same plan: what fails with one of them is told, and comes last."""

import random
from dataclasses import replace
from pathlib import Path

import pytest

from tacklebox.desk import plans
from tacklebox.matches.before.plan import Plan, make_plan
from tacklebox.rigs.checking.check import check
from tacklebox.rigs.fitting import fit, fit_from_wallet, inventory_for, wallet_serving
from tacklebox.stock.care.box import Box
from tacklebox.trade.judgement import Outcome
from tests.long.length import so_many
from tests.matches.test_agreeing import box_of_spools, stir
from tests.matches.test_plan import wanted
from tests.matches.test_sound import box_with
from tests.rigs.boxes import add, canal_rig, fine_hooklength

NEAREST = "hooklength 20 barbless spade to 0.08 mm 0.7 kg 15 cm pack 10"
STRONGER = "hooklength 20 barbless spade to 0.08 mm 1.3 kg 15 cm pack 10"
THIN = "nylon 0.11 mm 1.4 kg 50 m"  # it holds with the nearest, not with the stronger
ENOUGH = 10**9


def rig_line(plan: Plan) -> set[str]:
    return {stocked.item.name for stocked, _ in dict(plan.wants[0].parts)["rig line"]}


@pytest.fixture
def box(tmp_path: Path) -> Box:
    """Thin line on a spool that is open, one hooklength for it, and five stronger ones."""
    made = box_with(tmp_path)
    add(made, THIN, amount="20 m")
    add(made, NEAREST, amount="1")
    add(made, STRONGER, amount="5")
    return made


def test_a_rig_that_fails_with_a_hooklength_of_the_plan_says_so(box: Box) -> None:
    alone = make_plan(box, [wanted(canal_rig(), 2)])
    assert (alone.wants[0].tie, alone.wants[0].fails_with) == (2, ())
    plan = make_plan(box, [wanted(canal_rig(), 2), wanted(fine_hooklength(), 4)])
    rig, hooklength = plan.wants
    assert (rig.tie, hooklength.has, plan.proven) == (2, 4, True)
    (told,) = rig.fails_with
    assert (told.count, told.hooklength) == (
        2,
        "hooklength 20 barbless spade to 0.08 mm 1.3 kg 15 cm",
    )
    assert [judgement.about for judgement in told.checked.refusals] == ["breaks first"]
    (one,) = make_plan(box, [wanted(canal_rig(), 2), wanted(fine_hooklength(), 1)]).wants[:1]
    assert one.fails_with == ()  # the nearest is enough


def test_what_holds_with_all_of_them_comes_first(box: Box) -> None:
    """Though it opens a packet, and costs one, for 49 m of it are to be kept."""
    add(box, "nylon 0.12 mm 2.0 kg 50 m", minimum="49 m", pack_price_cents=300)
    alone = make_plan(box, [wanted(canal_rig(), 2)])
    assert rig_line(alone) == {"nylon 0.11 mm 1.4 kg"}
    plan = make_plan(box, [wanted(canal_rig(), 2), wanted(fine_hooklength(), 4)])
    assert rig_line(plan) == {"nylon 0.12 mm 2.0 kg"}
    assert (plan.wants[0].fails_with, plan.proven) == ((), True)


def test_it_is_told_in_words(box: Box) -> None:
    plan = make_plan(box, [wanted(canal_rig(), 2), wanted(fine_hooklength(), 4)])
    words = [one.words for one in plans.fails_with(plan.wants[0])]
    assert words == [
        "2 of them would fail with hooklength 20 barbless spade to 0.08 mm 1.3 kg 15 cm: breaks first"
    ]


def failing_pairs(box: Box, plan: Plan) -> set[tuple[str, str]]:
    """The rig line and the hooklength of all that fails together, each checked anew."""
    rig, hooklength = plan.wants
    with box.reading() as session:
        inventory = inventory_for(session, [want.resolved for want in plan.wants])
    inventory.reserved = {s.id: -ENOUGH for of in inventory.by_kind.values() for s in of}
    names = {s.id: s.item.name for of in inventory.by_kind.values() for s in of}
    below = hooklength.resolved
    every = {
        stocked.item.name: fit_from_wallet(
            below, inventory, 1, wallet_serving(below, inventory.copy(), 1, stocked.id)
        )
        for stocked, _ in (*hooklength.from_wallet, *hooklength.ready_made)
    }
    for alike in hooklength.alike:
        tied_from = ", ".join(names[item] for item in alike.use.values())
        every[tied_from] = fit(below, inventory.copy(), 1, alike.use)
    return {
        (names[alike.use["rig line"]], name)
        for alike in rig.alike
        for name, on_it in every.items()
        if check(
            replace(fit(rig.resolved, inventory.copy(), 1, alike.use), hooklength=on_it)
        ).outcome
        is Outcome.FAILS
    }


def test_all_that_fails_together_is_told(tmp_path: Path) -> None:
    box = box_of_spools(tmp_path)
    add(box, NEAREST, amount="1")
    add(box, "hooklength 20 barbless spade to 0.08 mm 0.8 kg 15 cm pack 10", amount="4")
    found = 0
    for seed in range(17, 17 + so_many(100, 4)):
        dice = random.Random(seed)
        stir(box, dice)
        wants = [wanted(canal_rig(), dice.randint(1, 4)), wanted(fine_hooklength(), 6)]
        plan = make_plan(box, wants)
        pairs = failing_pairs(box, plan)
        told = plan.wants[0].fails_with
        assert {one.hooklength for one in told} == {name for _, name in pairs}, seed
        found += len(pairs)
    assert found
