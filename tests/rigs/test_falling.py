"""A fitted recipe as the rig that falls, against the recipe's own figures."""

from dataclasses import replace
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.checking.falling import (
    Falling,
    Fished,
    bulk_moved,
    bulked,
    falling_rig,
    strung_out,
)
from tacklebox.rigs.fitting import unfitted
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.tie import fit_and_check
from tacklebox.trade.settling.rig import FallingRig
from tacklebox.trade.settling.sizes import bait_named
from tests.rigs.boxes import CANAL, SHELF, canal_rig, fine_hooklength, make_box

DEEP = [*CANAL[:3], "pole 4×12 tip 1.5 mm × 60 mm", *CANAL[5:]]


def canal(tmp_path: Path, fished: Fished | None = None) -> Falling:
    fit = fit_and_check(make_box(tmp_path, *DEEP), canal_rig()).fit
    return falling_rig(fit, fished or Fished())


def waggler(**wishes: str) -> Resolved:
    return resolve(SHELF.load("waggler-insert-bulk"), wishes, fine_hooklength())


def test_line_shot_hook_and_float_are_the_recipes_as_stock_serves_them(tmp_path: Path) -> None:
    falling = canal(tmp_path, Fished(bait_named("maggot"), water_c=6.0))
    rig = falling.rig
    assert [(p.length_mm, p.diameter_mm) for p in rig.line] == [(1050, 0.12), (150, 0.08)]
    assert rig.hook.size == "20"
    assert [at.above_hook_mm for at in rig.shot] == [500, 350, 200]
    assert [at.mass_g for at in rig.shot] == pytest.approx([0.12, 0.04, 0.04])
    assert all(load.material == "tin" for at in rig.shot for load in at.loads)
    assert rig.float_ is not None
    assert not rig.float_.held
    assert (rig.float_.tip.diameter_mm, rig.float_.tip.length_mm) == (1.5, 60)
    assert rig.float_.capacity_g == pytest.approx(0.20)
    assert (rig.over_mm, rig.temperature_c, rig.depth_mm) == (0.0, 6.0, 1200)
    assert falling.notes == ()


def test_what_stock_does_not_serve_counts_as_the_recipe_asks() -> None:
    falling = falling_rig(unfitted(waggler(depth="2 m", float="4BB")), Fished())
    assert [(p.length_mm, p.diameter_mm) for p in falling.rig.line] == [(1850, 0.16), (150, 0.09)]
    assert falling.rig.hook.size == "20"
    assert falling.rig.float_ is not None
    assert falling.rig.float_.capacity_g == pytest.approx(1.6)
    assert {note.key for note in falling.notes} == {"float not chosen", "tip not known"}
    at_float = [at for at in falling.rig.shot if at.above_hook_mm == 2000]
    assert sum(at.mass_g for at in at_float) == pytest.approx(1.2)


def test_a_hook_that_was_weighed_is_the_anglers(tmp_path: Path) -> None:
    hook = canal(tmp_path, Fished(hook_mg=9.0)).rig.hook
    assert (hook.mass_mg, str(hook.source)) == (9.0, "own measurement")


@pytest.mark.parametrize("recipe", ["feeder-window", "feeder-helicopter", "bomb-running"])
def test_without_a_float_the_hooklength_is_what_falls(recipe: str) -> None:
    file = SHELF.load(recipe)
    below = resolve(SHELF.load(file.hooklengths[0]), {})
    rig = falling_rig(unfitted(resolve(file, {}, below)), Fished()).rig
    assert rig.float_ is None
    assert rig.length_mm == pytest.approx(below.length_mm)
    assert rig.over_mm is None


@pytest.mark.parametrize("recipe", SHELF.names())
def test_every_shipped_recipe_falls(recipe: str) -> None:
    file = SHELF.load(recipe)
    below = resolve(SHELF.load(file.hooklengths[0]), {}) if file.hooklengths else None
    rig = falling_rig(unfitted(resolve(file, {}, below)), Fished(bait_named("maggot"))).rig
    assert rig.length_mm >= 20


def test_a_bulk_is_moved_strung_out_and_put_together(tmp_path: Path) -> None:
    rig = canal(tmp_path).rig
    assert bulk_moved(rig, -100).shot[0].above_hook_mm == 400
    strung = strung_out(rig)
    places = [at.above_hook_mm for at in strung.shot]
    assert places == pytest.approx([150 + 1050 / 4 * n for n in (3, 2, 1, 0)])
    assert sum(at.mass_g for at in strung.shot) == pytest.approx(sum(at.mass_g for at in rig.shot))
    assert [at.above_hook_mm for at in bulked(rig, 300).shot] == [300]
    with pytest.raises(AskedWronglyError, match="no shot down the line"):
        strung_out(canal_without_shot(tmp_path / "other"))


def canal_without_shot(folder: Path) -> FallingRig:
    return replace(canal(folder).rig, shot=())
