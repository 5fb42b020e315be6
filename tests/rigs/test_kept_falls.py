"""How a rig falls, kept with it when it is tied: against the model itself; what is kept is read again."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from tacklebox.rigs.checking.falling import as_recipe_fishes, falling_rig
from tacklebox.rigs.fitting import Fit, unfitted
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.falls import LINKS, NO_FLOAT, kept_fall
from tacklebox.rigs.tying.snapshot import Snapshot
from tacklebox.rigs.tying.tie import fit_and_check, tie
from tacklebox.stock.care.box import Box
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin, move
from tacklebox.stock.tables import Why
from tacklebox.trade.settling.outcome import settle
from tests.rigs.boxes import CANAL, DAY, SHELF, canal_rig, fine_hooklength, make_box

DEEP = [*CANAL[:3], "pole 4×12 tip 1.5 mm × 60 mm", *CANAL[5:]]


@pytest.fixture
def box(tmp_path: Path) -> Box:
    return make_box(tmp_path, *DEEP)


def test_what_is_kept_is_the_models(box: Box) -> None:
    fit = fit_and_check(box, canal_rig()).fit
    [rig] = tie(box, canal_rig(), 1, DAY).rigs
    kept = Snapshot.from_json(rig.snapshot).fall
    found = settle(falling_rig(fit, as_recipe_fishes(fit)).rig, links=LINKS)
    assert kept is not None
    assert found.settled_by_s is not None
    assert kept.settled_by_s == found.settled_by_s
    assert kept.says == f"settled by {found.settled_by_s} s, else strike"
    assert (kept.bait, kept.fished, kept.deep_mm, kept.has_bed) == (
        "maggot",
        "at dead depth",
        1200,
        True,
    )
    for track, one in ((kept.tight, found.tight), (kept.slack, found.slack)):
        assert one is not None
        assert track[0] == (0.0, round(1000 * one.place(0.0)[0]), 0)
        second, aside, deep = track[len(track) // 2]
        assert deep == pytest.approx(one.depth_mm(second), abs=1)
        assert aside == pytest.approx(1000 * one.place(second)[0], abs=1)
    assert sum(shot_g for _, _, shot_g in kept.rig) == pytest.approx(0.20)
    assert kept.rig[-1][1] == pytest.approx(kept.tight[-1][2], abs=1)
    assert kept.notes == tuple(note.says for note in found.notes)


def test_it_is_read_as_it_was_kept_and_older_rigs_have_none(box: Box) -> None:
    [rig] = tie(box, canal_rig(), 1, DAY).rigs
    snapshot = Snapshot.from_json(rig.snapshot)
    assert Snapshot.from_json(snapshot.to_json()) == snapshot
    raw = json.loads(rig.snapshot)
    del raw["fall"]
    assert Snapshot.from_json(json.dumps(raw)) == replace(snapshot, fall=None)


def test_rigs_tied_together_are_computed_once(box: Box, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[Fit] = []
    monkeypatch.setattr("tacklebox.rigs.tying.tie.kept_fall", asked.append)
    with box.writing() as session:
        bought = begin(session, "buy", DAY)
        for name in ("pole", "winder"):
            move(session, bought, find(session, name), 1, Why.BOUGHT)
    tie(box, canal_rig(), 2, DAY)
    assert len(asked) == 1


def test_without_a_float_the_words_say_why(box: Box) -> None:
    recipe = SHELF.load("feeder-running-paternoster")
    below = resolve(SHELF.load(recipe.hooklengths[0]))
    kept = kept_fall(fit_and_check(box, resolve(recipe, {}, below)).fit)
    assert kept is not None
    assert (kept.says, kept.settled_by_s, kept.tight) == (NO_FLOAT, None, ())
    assert kept_fall(fit_and_check(box, fine_hooklength()).fit) is None


def test_what_cannot_be_computed_says_why(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A hook of which nobody knows what it weighs."""
    monkeypatch.setattr("tacklebox.trade.settling.sizes._HOOKS", {})
    kept = kept_fall(fit_and_check(make_box(tmp_path), canal_rig()).fit)
    assert kept is not None
    assert kept.says == "not computed: what a hook of size 20 weighs is not known"
    assert kept.tight == ()


def test_words_for_every_end() -> None:
    """A rig with all its shot at the float; one whose hook and bait draw it under and come to lie aside."""
    pellet = kept_fall(unfitted(resolve(SHELF.load("waggler-pellet"), {}, fine_hooklength())))
    assert pellet is not None
    assert pellet.settled_by_s is None
    assert pellet.says.startswith("the tip tells nothing of the fall")
    olivette = kept_fall(unfitted(resolve(SHELF.load("pole-deep-olivette"), {}, fine_hooklength())))
    assert olivette is not None
    assert olivette.settled_by_s is None
    assert olivette.says.startswith("hook and bait draw the tip under")
