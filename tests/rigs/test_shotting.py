"""How a fitted rig's float sits with what hangs on it, by how deep the recipe is fished."""

from pathlib import Path

import pytest

from tacklebox.errors import ManyFaultsError
from tacklebox.rigs.checking.check import Checked
from tacklebox.rigs.checking.shotting import fitted_groups
from tacklebox.rigs.recipes.file import Choice
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.steps import steps
from tacklebox.rigs.tying.tie import fit_and_check
from tacklebox.trade.balance import Place
from tacklebox.trade.judgement import Check, Judgement, Outcome
from tests.outside import outside
from tests.rigs.boxes import CANAL, SHELF, add, canal_rig, fine_hooklength, make_box

DEEP = [*CANAL[:3], "pole 4×12 tip 1.5 mm × 60 mm", *CANAL[5:]]


def of(checked: Checked, about: str) -> Judgement:
    return next(j for j in checked.judgements if j.about == about)


@outside("a canal rig's stages", "Archimedes by hand", "closed form")
def test_the_float_is_told_stage_by_stage_where_its_tip_is_known(tmp_path: Path) -> None:
    """By Archimedes: with 4×12 all 0.20 g of shot dots it down; a No 10 on a 1.5 mm bristle
    is 19.5 mm (computed by hand)."""
    answer = of(fit_and_check(make_box(tmp_path, *DEEP), canal_rig()), "float's balance")
    assert answer.outcome is Outcome.SOUND
    shown = {f.name.partition(", ")[2]: f.value for f in answer.facts if "tip that" in f.name}
    assert shown["bulk"] == pytest.approx(39.1, abs=0.1)
    assert shown["dropper 1"] == pytest.approx(19.5, abs=0.1)
    line_mg = 0.14 * (7.85e-3 * 150 + 11.3e-3 * 1050)  # 15 cm of 0.10, 1.05 m of 0.12 mm of nylon
    assert shown["line below the float"] == pytest.approx(-line_mg / 1.767, abs=0.1)
    assert "add a No 13 under the float" in answer.says


def sits(tmp_path: Path, **changed: object) -> Judgement:
    """How the canal rig's float sits, its recipe changed."""
    recipe = SHELF.load("pole-canal-shot").model_copy(update=changed)
    fit = fit_and_check(make_box(tmp_path, *DEEP), resolve(recipe, {}, fine_hooklength()))
    return of(fit, "float's balance")


def value(answer: Judgement, name: str) -> object:
    return next(f.value for f in answer.facts if f.name == name)


@outside(
    "a canal rig off bottom, at dead depth and over it",
    "pull of hook, bait and line by hand",
    "closed form",
)
@pytest.mark.parametrize(
    ("fished", "hangs", "end_mm"),
    [
        (None, "line below the float", -1.0),
        ("dead depth", "line below the float", -1.0),
        ("off bottom", "hook, bait and line", -7.3),  # hook 20 8.7 mg, a maggot 2.5 mg more
        ("over 8 in", "line below the float", 18.6),  # the lower No 10 lies: it is at 20 cm
        ("over 2 in", "line below the float", -1.0),
    ],
)
def test_what_lies_on_the_bottom_does_not_load_the_float(
    tmp_path: Path, fished: str | None, hangs: str, end_mm: float
) -> None:
    answer = sits(tmp_path, fished=fished)
    assert value(answer, f"tip that shows, {hangs}") == pytest.approx(end_mm, abs=0.2)
    expected = "at dead depth" if fished is None else fished
    assert set(expected.split()) & set(str(value(answer, "fished")).split())


def test_a_recipes_own_bulk_is_judged(tmp_path: Path) -> None:
    recipe = SHELF.load("pole-canal-shot")
    box = make_box(tmp_path, *DEEP, "shot No 5 tin pack 20", "shot No 11 tin pack 20")

    def bulk(of: str) -> Judgement:
        shot = tuple(
            g.model_copy(update={"of": of}) if g.place == "bulk" else g for g in recipe.shot
        )
        changed = recipe.model_copy(update={"shot": shot})
        return next(
            j
            for j in fit_and_check(box, resolve(changed, {}, fine_hooklength())).judgements
            if j.key is Check.BULK
        )

    assert bulk("2 No 8").outcome is Outcome.SOUND
    assert bulk("No 5 + No 11").line.startswith("the bulk is one No 5 with a trimming shot")


def test_droppers_on_both_sides_of_a_bulk_register_in_their_place_and_are_judged_there(
    tmp_path: Path,
) -> None:
    recipe = SHELF.load("pole-canal-shot")
    box = make_box(tmp_path, *DEEP)

    def changed(of: str, bulk_at: str) -> Checked:
        new = {"bulk": {"at": bulk_at}, "droppers": {"of": of, "at": "10 cm", "apart": "15 cm"}}
        shot = tuple(g.model_copy(update=new[g.place]) for g in recipe.shot)
        return fit_and_check(
            box, resolve(recipe.model_copy(update={"shot": shot}), {}, fine_hooklength())
        )

    straddling = changed("No 8 + No 8 + No 10", "30 cm")  # at 40, 25 and 10 cm
    in_order = [(g.what, [str(load) for load in g.loads]) for g in fitted_groups(straddling.fit)]
    assert [what for what, _ in in_order] == [Place.DROPPER, Place.BULK, Place.DROPPER]
    assert in_order[0][1] == ["1 No 8"]
    assert in_order[2][1] == ["1 No 8", "1 No 10"]
    bulk = {j.key: j for j in straddling.judgements}[Check.BULK]
    assert bulk.outcome is Outcome.SOUND
    assert value(bulk, "above the bulk") == "1 No 8"
    light = {j.key: j for j in changed("No 10 + No 10", "20 cm").judgements}[Check.BULK]
    assert light.outcome is Outcome.DOUBTFUL
    assert "above the bulk" in light.says
    beside = {j.key: j for j in changed("No 10 + No 10", "24 cm").judgements}[Check.BULK]
    assert beside.outcome is Outcome.SOUND  # a centimetre above it: it holds the bulk


def test_how_it_is_fished_may_be_chosen() -> None:
    recipe = SHELF.load("pole-canal-shot")
    choice = Choice(usual="dead depth", any_of=("dead depth", "over 2 in"))
    chosen = recipe.model_copy(
        update={"fished": "fished", "choose": {**recipe.choose, "fished": choice}}
    )
    assert str(resolve(chosen, {}, fine_hooklength()).fished) == "at dead depth"
    over = resolve(chosen, {"fished": "over 2 in"}, fine_hooklength()).fished
    assert over.over_mm == pytest.approx(50.8)
    with pytest.raises(ManyFaultsError, match=r"pole-canal-shot\.toml") as refused:
        resolve(recipe.model_copy(update={"fished": "deep"}), {}, fine_hooklength())
    with pytest.raises(ManyFaultsError) as nothing_hangs:
        resolve(recipe.model_copy(update={"fished": "over 1.2 m"}), {}, fine_hooklength())
    assert any("nothing would hang" in str(f) for f in nothing_hangs.value.faults)
    assert any("fished" in str(f) and "off bottom" in str(f) for f in refused.value.faults)


def test_what_holds_a_float_is_asked_for_and_nothing_of_it_is_taken(tmp_path: Path) -> None:
    box = make_box(tmp_path, *DEEP)
    bare = fit_and_check(box, canal_rig()).fit
    assert bare.gaps == ()  # an angler without any in his box ties all the same
    add(box, "silicone tubing 0.5 mm bore")
    fit = fit_and_check(box, canal_rig(), 2).fit
    tubes = fit.serving("silicone tube")
    assert tubes.item is not None
    assert (tubes.item.item.name, tubes.need.amount, tubes.amount) == ("silicone tube 0.5 mm", 3, 0)
    float_ = next(step for step in steps(fit) if "float" in step)
    assert float_.endswith("top and bottom, held by 3 × silicone tube 0.5 mm.")
    recipe = SHELF.load("pole-canal-shot")
    for said in ("silicone", "3 swivels", "0 silicone tubes", "3 or 4"):
        float_part = recipe.along[0].model_copy(update={"held_by": said})
        with pytest.raises(ManyFaultsError, match=r"holds no float\. Write it like"):
            resolve(recipe.model_copy(update={"along": (float_part,)}), {}, fine_hooklength())
