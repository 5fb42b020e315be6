"""The shipped recipes on tackle bought at the pairs that anglers fish.

Common practice (no source): 6 lb to 5, 5 to 4, 4 to 3, 3 to 2.5, 2.5 to 2; 0.14 to 0.12 mm.
"""

from collections.abc import Iterator

import pytest

from tacklebox.rigs.checking.check import Checked
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.tie import fit_and_check
from tacklebox.stock.care.box import Box
from tacklebox.trade.floats import read_capacity
from tacklebox.trade.judgement import Check, Outcome
from tests.rigs.boxes import SHELF, make_box

RIGS = [name for name in SHELF.names() if SHELF.load(name).makes == "rig"]
HOOKLENGTHS = [name for name in SHELF.names() if SHELF.load(name).makes == "hooklength"]
LINES = {0.08: 2.0, 0.10: 2.5, 0.12: 3.0, 0.14: 4.0, 0.16: 5.0, 0.18: 6.0, 0.20: 7.0}  # mm: lb
STRONGER = {0.22: 8.0, 0.25: 10.0}
MARKS = ("AAA", "BB", "No 1", "No 3", "No 4", "No 5", *(f"No {n}" for n in range(6, 14)))
GUIDES = (
    *(Check.ELASTIC, Check.HOOK_AND_LINE, Check.HOOK_KNOT),
    *(Check.STEP, Check.JOIN, Check.BULK, Check.SHOT_ORDER),
)
TIPS = {"waggler insert": 2.5, "waggler straight": 4.0, "waggler loaded": 4.0, "stick": 3.0}


def tip_of(shape: str, mark: str) -> float:
    """A usual diameter of its tip, in mm (common practice): of a pole float the finer, the less it
    carries."""
    carries = read_capacity(mark).mass_g
    if shape in TIPS:
        return TIPS[shape]
    return next(
        mm for most, mm in ((0.15, 1.0), (0.3, 1.2), (1.2, 1.5), (9, 2.0)) if carries <= most
    )


def floats() -> Iterator[str]:
    for name in RIGS:
        recipe = SHELF.load(name)
        for thing in recipe.along:
            if thing.is_ == "float":
                shape = str(thing.asks["shape"])
                shape = "waggler straight" if shape == "waggler" else shape
                for mark in recipe.choose["float"].any_of:
                    yield f"{shape} {mark} tip {tip_of(shape, mark):g} mm × 60 mm pack 9"


def weights() -> Iterator[str]:
    for name in RIGS:
        recipe = SHELF.load(name)
        parts = [*recipe.part, *(part for branch in recipe.branch for part in branch.part)]
        asked = [*((a.is_, a.asks) for a in recipe.along), *((p.is_, p.asks) for p in parts)]
        for is_, asks in asked:
            if is_ in ("feeder", "bomb"):
                shape = str(asks.get("shape", "bomb")).split(" or ")[0]
                for mass in recipe.choose[is_].any_of:
                    yield f"{shape if shape == 'bomb' else f'feeder {shape}'} {mass} pack 9"


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Box:
    """All that the recipes ask for, lines at the pairs."""
    return make_box(
        tmp_path_factory.mktemp("shop"),
        *(f"nylon {mm:.2f} mm {lb:g} lb 300 m" for mm, lb in {**LINES, **STRONGER}.items()),
        *(
            f"hook {n} barbless {end} pack 90"
            for n in range(12, 24, 2)
            for end in ("spade", "eyed")
        ),
        *dict.fromkeys(floats()),
        *dict.fromkeys(weights()),
        *(f"shot {mark} tin pack 200" for mark in MARKS),
        *(f"olivette {g:g} g tungsten pack 9" for g in (0.6, 0.8, 1.2, 1.5, 2.5)),
        *(f"elastic {grade} 9 m" for grade in (4, 5, 14)),
        "swivel size 14 12 kg pack 90",
        "link swivel size 12 10 kg pack 90",
        "run ring 4 mm pack 90",
        "bead 4 mm pack 90",
        "float stop 1 mm pack 90",
        "adaptor pack 90",
        "bait band pack 90",
        "connector pack 90",
        "silicone tube 0.5 mm pack 90",
        "winder 13 cm 18 mm pack 90",
        "winder 18 cm 20 mm pack 90",
    )


def checked(shop: Box, name: str, hooklength: str = "", **wishes: str) -> Checked:
    recipe = SHELF.load(name)
    goes_with = hooklength or next(iter(recipe.hooklengths), "")
    below = resolve(SHELF.load(goes_with)) if goes_with else None
    return fit_and_check(shop, resolve(recipe, wishes, below))


def test_at_least_twenty_four_rigs_that_match_anglers_tie() -> None:
    assert len(RIGS) >= 24
    assert {SHELF.load(name).method for name in RIGS} == {"float", "feeder", "pole"}
    wanted = ("helicopter", "waggler-pellet", "slider", "shallow", "maggot", "fixed-paternoster")
    assert all(any(word in name for name in RIGS) for word in wanted)
    assert any("band" in name for name in HOOKLENGTHS)


@pytest.mark.parametrize("name", RIGS + HOOKLENGTHS)
def test_everything_is_to_be_had_and_nothing_fails(shop: Box, name: str) -> None:
    for goes_with in SHELF.load(name).hooklengths or ("",):
        found = checked(shop, name, goes_with)
        both = [found.fit, *([found.fit.hooklength] if found.fit.hooklength else [])]
        assert [s.gap for fit in both for s in fit.servings if s.gap] == []
        assert found.refusals == ()
        assert all(judgement.key for judgement in found.judgements)
        outside = [
            j.says for j in found.judgements if j.key in GUIDES and j.outcome is not Outcome.SOUND
        ]
        assert outside == [], goes_with


def test_at_most_four_are_doubtful_for_anything_but_what_breaks_first(shop: Box) -> None:
    doubtful = {
        name: [j.key for j in checked(shop, name).judgements if j.outcome is not Outcome.SOUND]
        for name in RIGS
    }
    others = {n: [k for k in keys if k is not Check.BREAKS_FIRST] for n, keys in doubtful.items()}
    others = {name: keys for name, keys in others.items() if keys}
    assert len(others) <= 4
    assert set(others) == {"feeder-fixed-paternoster", "feeder-helicopter"}
    assert all(keys == [Check.COMES_FREE] for keys in others.values())


def test_what_the_prints_leave_doubtful_the_pulls_that_are_named_make_sound(shop: Box) -> None:
    for name in RIGS:
        first = next(j for j in checked(shop, name).judgements if j.key is Check.BREAKS_FIRST)
        assert first.outcome is not Outcome.FAILS
        if first.outcome is Outcome.DOUBTFUL:
            assert first.remedy.startswith("two pulls of each"), (name, first.line)


@pytest.mark.parametrize("name", [n for n in RIGS if "float" in SHELF.load(n).choose])
def test_every_size_of_float_dots_down_shallow_and_deep(shop: Box, name: str) -> None:
    choose = SHELF.load(name).choose
    depth = choose["depth"]
    for size in choose["float"].any_of:
        for set_at in (depth.low, depth.usual, depth.high):
            assert set_at
            found = checked(shop, name, float=size, depth=set_at)
            (sits,) = (j for j in found.judgements if j.about == "float's balance")
            assert sits.outcome is Outcome.SOUND, (size, set_at, sits.says)


@pytest.mark.parametrize("name", [n for n in RIGS if SHELF.load(n).shot])
def test_shot_that_someone_would_pinch_on(name: str) -> None:
    """Common practice (no source): few; a bulk of several equal shot, none lighter than a dropper;
    strung out, each no heavier than the one above; of a waggler's up to five sixths at the float."""
    recipe = SHELF.load(name)
    below = resolve(SHELF.load(recipe.hooklengths[0]))
    for size in recipe.choose["float"].any_of:
        resolved = resolve(recipe, {"float": size}, below)
        loads = {group.place: group.loads for group in resolved.shot}
        assert sum(load.count for group in loads.values() for load in group) <= 12
        droppers = [load.mass_g for load in loads.get("droppers", ())]
        bulk = loads.get("bulk", ())
        assert all(load.mass_g >= max(droppers, default=0) - 1e-9 for load in bulk)
        assert len(bulk) <= 1
        assert all(load.count > 1 or load.kind == "olivette" for load in bulk)
        for place in ("spread", "droppers"):
            masses = [load.mass_g for load in loads.get(place, ())]
            assert masses == sorted(masses, reverse=True)
        locked = sum(load.total_g for load in loads.get("at the float", ()))
        down = sum(load.total_g for group in resolved.shot for load in group.loads) - locked
        if locked and down and recipe.fish is None:
            assert 0.5 <= locked / (locked + down) <= 5 / 6 + 0.02
