"""Hooklengths of the wallet serve a rig's hooklength recipe, and the rig is checked with their figures."""

from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.checking.check import Checked
from tacklebox.rigs.checking.joints import bonds_of, joints_of
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.describe import describe
from tacklebox.rigs.tying.tie import fit_and_check, tie
from tacklebox.rigs.tying.tied import mark_lost
from tacklebox.rigs.wallet import ask_of
from tacklebox.stock.care.audit import audit
from tacklebox.stock.care.box import Box
from tacklebox.stock.care.undo import undo_last
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.measuring import record_pull
from tacklebox.stock.tables import Item, Kind
from tacklebox.trade.judgement import Check, Outcome
from tacklebox.trade.knots import knot_named
from tests.rigs.boxes import DAY, SHELF, add, canal_rig, fine_hooklength, make_box, on_hand

BOUGHT = "hooklength 20 barbless spade to 0.08 mm 0.9 kg 6 in pack 10"


@pytest.fixture
def box(tmp_path: Path) -> Box:
    return make_box(tmp_path)


def served_by(checked: Checked) -> str:
    below = checked.fit.hooklength
    assert below is not None
    held = below.in_wallet
    return held.item.item.name if held and held.item else ""


def hooklength_joints(checked: Checked) -> dict[str, float]:
    joints = joints_of(bonds_of(checked.fit))
    return {j.name: round(j.mean_kg, 3) for j in joints if j.in_hooklength}


def test_bought_ones_hold_what_is_printed(box: Box) -> None:
    add(box, BOUGHT)
    checked = fit_and_check(box, canal_rig())
    assert served_by(checked) == BOUGHT.removesuffix(" pack 10")
    assert hooklength_joints(checked) == {"hooklength line": 0.9}


def test_tied_ones_hold_by_their_knots_and_by_pulls_of_their_spool(box: Box) -> None:
    alone = fit_and_check(box, canal_rig())
    tie(box, fine_hooklength(), 2, DAY)
    checked = fit_and_check(box, canal_rig())
    assert served_by(checked).endswith("0.7 kg 15 cm")
    assert hooklength_joints(checked) == hooklength_joints(alone)
    with box.writing() as session:
        record_pull(session, session.get_one(Item, 1), 0.5, "", DAY)
    assert hooklength_joints(fit_and_check(box, canal_rig()))["hooklength line"] < 0.6


def test_a_strong_bought_one_fails_the_rig(box: Box) -> None:
    add(box, "hooklength 20 barbless spade to 0.08 mm 1.5 kg 15 cm pack 10")
    judged = fit_and_check(box, canal_rig()).judgements
    assert {j.key: j.outcome for j in judged}[Check.BREAKS_FIRST] is not Outcome.SOUND


def test_with_fewer_than_rigs_it_is_hook_and_line(box: Box) -> None:
    tie(box, fine_hooklength(), 2, DAY)
    assert served_by(fit_and_check(box, canal_rig(), 2))
    checked = fit_and_check(box, canal_rig(), 3)
    assert not served_by(checked)
    assert checked.fit.hooklength is not None
    assert checked.fit.hooklength.servings[0].item is not None


def test_the_label_says_what_goes_with_the_rig(box: Box) -> None:
    add(box, BOUGHT)
    made = describe(fit_and_check(box, canal_rig()), "A01T", DAY)
    assert (made.hooklength, made.hook) == ("6 in nylon 0.08 mm 0.9 kg", "20 barbless spade")


def test_one_is_named_for_the_rig_or_its_line_is(box: Box) -> None:
    number = add(box, BOUGHT).id or 0
    assert served_by(fit_and_check(box, canal_rig(), use={"hooklength": number}))
    assert not served_by(fit_and_check(box, canal_rig(), use={"hooklength line": 1}))
    with pytest.raises(AskedWronglyError, match="is not what hooklength asks for"):
        fit_and_check(box, canal_rig(), use={"hooklength": 3})


@pytest.mark.parametrize(
    ("words", "serves"),
    [
        ("20 barbless spade to 0.08 mm 15 cm", True),
        ("20 barbless spade to 0.08 mm 6 in", True),
        ("20 barbless spade to 0.08 mm 16 cm", False),
        ("20 barbless spade to 0.08 mm", False),  # of no length that is known
        ("20 spade to 0.08 mm 15 cm", False),
        ("20 barbless spade to 1.5 lb 15 cm", False),
        ("18 barbless spade to 0.08 mm 15 cm", False),
        ("20 barbless spade to 0.12 mm 15 cm", False),
        ("20 barbless spade to 0.08 mm 15 cm with a band", False),
    ],
)
def test_what_serves_a_hooklength_recipe(box: Box, words: str, serves: bool) -> None:
    item = add(box, f"hooklength {words} pack 10")
    with box.reading() as session:
        ask = ask_of(fine_hooklength())
        inventory = Inventory.read_for(session, [ask])
    assert [s.id for s in inventory.ranked(ask, in_place=False)] == ([item.id] if serves else [])
    assert inventory.by_kind.keys() == {Kind.HOOKLENGTH}


def test_a_band_is_asked_for_by_a_recipe_that_ties_one_on(tmp_path: Path) -> None:
    box = make_box(
        tmp_path, "nylon 0.16 mm 3 kg 50 m", "hook 16 eyed barbless pack 10", "bait band pack 10"
    )
    banded = resolve(SHELF.load("hooklength-pellet"))
    assert banded.chain[0].bottom == knot_named("knotless knot")
    done = tie(box, banded, 3, DAY)
    assert done.item is not None
    assert done.item.name.endswith("50 cm band")
    plain = resolve(SHELF.load("hooklength-method"))
    with box.reading() as session:
        inventory = Inventory.read(session, [Kind.HOOKLENGTH])
    assert inventory.ranked(ask_of(banded), in_place=False)
    assert not inventory.ranked(ask_of(plain), in_place=False)


def test_a_rig_may_be_tied_with_a_hooklength_from_the_wallet(box: Box) -> None:
    """The oldest go first; where the wallet has too few, hook and line are taken."""
    add(box, "winder 13 cm 18 mm", name="more winders", packs=2)
    tie(box, fine_hooklength(), 1, DAY)
    before = on_hand(box)
    (rig,) = tie(box, canal_rig(), 1, DAY, with_hooklength=True).rigs
    name = "hooklength 20 barbless spade to 0.08 mm 0.7 kg 15 cm"
    after = on_hand(box)
    assert (before[name], after[name]) == (1, 0)
    assert after["hook 20 barbless spade"] == before["hook 20 barbless spade"]
    undo_last(box, DAY)
    assert on_hand(box)[name] == 1
    mark_lost(box, ["A01T"], DAY)
    tie(box, canal_rig(), 1, DAY, with_hooklength=True)
    assert on_hand(box)["hook 20 barbless spade"] == before["hook 20 barbless spade"] - 1
    assert audit(box.database).faults == ()
    with pytest.raises(AskedWronglyError, match="no hooklength goes with"):
        tie(box, fine_hooklength(), 1, DAY, with_hooklength=True)
    assert rig.code == "A02R"
