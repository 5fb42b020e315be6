"""What the check says of a fitted recipe: strength, towing, elastic, balance, lead."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.checking.breaks import all_breaks, tree_of
from tacklebox.rigs.checking.cast import Cast
from tacklebox.rigs.checking.check import Checked, check
from tacklebox.rigs.fitting import Fit
from tacklebox.rigs.recipes.file import Recipe, parse_recipe
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.tie import fit_and_check
from tacklebox.stock.care.box import Box
from tacklebox.stock.ledger import find
from tacklebox.stock.measured import record_bucket, record_pull, record_weighing
from tacklebox.trade.judgement import Judgement, Outcome
from tacklebox.trade.strength import chance_hooklength_first
from tests.rigs.boxes import CANAL, DAY, SHELF, canal_rig, fine_hooklength, make_box

FEEDER_BOX = (
    "nylon 0.22 mm 4.3 kg 200 m",
    "nylon 0.20 mm 3.6 kg 100 m",
    "nylon 0.18 mm 2.4 kg 100 m",
    "nylon 0.12 mm 1.6 kg 50 m",
    "hook 16 barbless spade pack 10",
    "feeder cage 30 g",
    "bomb 20 g",
    "swivel size 14 12 kg pack 20",
    "link swivel size 12 10 kg pack 10",
    "bead 4 mm pack 50",
    "stop 1 mm pack 20",
    "winder 18 cm 20 mm",
)
FEEDER_RIG = """
name = "A feeder rig"
makes = "rig"
method = "feeder"
for = "tests"
hooklengths = ["hooklength-feeder"]
[[part]]
name = "main line"
is = "line"
there = true
diameter = "0.22 mm"
bottom = "half blood"
[[part]]
name = "swivel"
is = "swivel"
[[part]]
name = "hooklength"
is = "hooklength"
"""
PATERNOSTER = (
    FEEDER_RIG
    + """
[[side]]
name = "link"
from = "swivel"
[[side.part]]
name = "link line"
is = "line"
diameter = "LINK mm"
length = "20 cm"
top = "half blood"
bottom = "half blood"
[[side.part]]
name = "feeder"
is = "feeder"
shape = "cage"
"""
)
LOCKED = (
    FEEDER_RIG
    + """
[[along]]
name = "bomb"
is = "bomb"
on = "main line"
held = "HELD"
"""
)
LEADER = FEEDER_RIG.replace(
    """bottom = "half blood"
""",
    """bottom = "KNOT"
[[part]]
name = "leader"
is = "line"
diameter = "0.20 mm"
length = "50 cm"
top = "KNOT"
bottom = "half blood"
""",
)


def feeder_rig(recipe: Recipe) -> Resolved:
    return resolve(recipe, {}, resolve(SHELF.load("hooklength-feeder")))


def written(text: str) -> Resolved:
    return feeder_rig(parse_recipe(text, "mine"))


def with_figures(fit: Fit, part: str, **figures: object) -> Fit:
    """The fit with other figures of the item that serves the part."""
    servings = []
    for serving in fit.servings:
        if serving.need.part == part and serving.item is not None:
            other = serving.item.figures.model_copy(update=figures)
            serving = replace(serving, item=replace(serving.item, figures=other))
        servings.append(serving)
    return replace(fit, servings=tuple(servings))


def of(checked: Checked, about: str) -> Judgement:
    return next(j for j in checked.judgements if j.about == about)


@pytest.fixture
def feeders(tmp_path: Path) -> Box:
    return make_box(tmp_path, *FEEDER_BOX)


@pytest.fixture(scope="module")
def canal(tmp_path_factory: pytest.TempPathFactory) -> Checked:
    box = make_box(tmp_path_factory.mktemp("canal"))
    return fit_and_check(box, canal_rig(), use={"float": 4})


def test_a_running_feeder_slides_off_a_broken_trace_but_not_past_a_loop(feeders: Box) -> None:
    fitted = fit_and_check(feeders, feeder_rig(SHELF.load("feeder-running-paternoster"))).fit
    told = all_breaks(fitted)
    assert [t.pull for t in told] == ["pull at the hook", "snag at the feeder"]
    at_hook = {b.joint.name: b for b in told[0].breaks}
    assert at_hook["trace"].tows == ()
    assert "runs free and slides off" in at_hook["trace"].says
    assert at_hook["main line"].tows == ("feeder",)
    assert "cannot slide past the figure-of-eight loop" in at_hook["main line"].says
    snagged = told[1].breaks
    assert "link line" in snagged[0].joint.name
    assert snagged[0].lost == ("feeder",)
    assert sum(b.chance for b in snagged) == pytest.approx(1, abs=1e-6)
    assert "hooklength" not in " ".join(b.joint.name for b in snagged)


def test_breaks_at_the_hook_are_the_joints_of_the_strength_chain(canal: Checked) -> None:
    rig = tree_of(canal.fit)
    assert rig is not None
    (at_hook, *snags) = all_breaks(canal.fit)
    first = [b.chance for b in at_hook.breaks if b.joint.in_hooklength]
    assert sum(first) == pytest.approx(chance_hooklength_first(rig.joints), abs=1e-6)
    means = [b.joint.mean_kg for b in at_hook.breaks]
    assert means == sorted(means)
    assert [s.pull for s in snags] == ["snag at the 2 No 8", "snag at the 2 No 10"]
    assert {"float", "2 No 8", "hook"} <= set(at_hook.breaks[-1].lost)


@pytest.mark.parametrize(
    ("link", "outcome", "words"),
    [
        ("0.12", Outcome.SOUND, "given up without the fish"),
        ("0.22", Outcome.WILL_NOT_DO, "tethers the fish"),
    ],
)
def test_a_paternoster_link_is_weaker_than_the_main_line(
    feeders: Box, link: str, outcome: Outcome, words: str
) -> None:
    """Common practice (no source): a snagged feeder is given up by its weaker link."""
    told = of(fit_and_check(feeders, written(PATERNOSTER.replace("LINK", link))), "left towing")
    assert told.outcome is outcome
    assert words in told.says


@pytest.mark.parametrize(
    ("held", "outcome", "words"),
    [
        ("runs free", Outcome.SOUND, "runs free and slides off"),
        ("in line", Outcome.SOUND, "has the line running through it"),
        ("one point", Outcome.WILL_NOT_DO, "is fixed and stays on the line"),
    ],
)
def test_running_in_line_and_locked_bombs(
    feeders: Box, held: str, outcome: Outcome, words: str
) -> None:
    told = of(fit_and_check(feeders, written(LOCKED.replace("HELD", held))), "left towing")
    assert told.outcome is outcome
    assert words in told.says


def test_a_stop_above_a_running_bomb_holds_it(feeders: Box) -> None:
    text = LOCKED.replace("HELD", "runs free") + 'at = "2 m"\n'
    text += '[[along]]\nname = "float stop"\nis = "stop"\non = "main line"\nheld = "one point"\n'
    text += 'at = "3 m"\n'
    told = of(fit_and_check(feeders, written(text)), "left towing")
    assert "cannot slide past the float stop" in told.says


def test_nobody_knows_what_is_towed_without_the_links_strain(tmp_path: Path) -> None:
    words = [w.replace("nylon 0.18 mm 2.4 kg", "nylon 0.18 mm") for w in FEEDER_BOX]
    recipe = PATERNOSTER.replace("LINK", "0.18")
    told = of(fit_and_check(make_box(tmp_path, *words), written(recipe)), "left towing")
    assert told.outcome is Outcome.LOOK_AGAIN
    assert "no strain is known on a side branch" in told.says


def test_elastic_against_the_published_guide(tmp_path: Path) -> None:
    """Match Anglers Matches, elastic ratings: grades 3–4 go with 0.10–0.12 mm and hooks 22–20."""
    told = of(fit_and_check(make_box(tmp_path / "a"), canal_rig()), "elastic")
    assert told.outcome is Outcome.SOUND
    assert any("Match Anglers Matches" in str(f.source) for f in told.facts)
    hard = [w.replace("elastic 4", "elastic 5") for w in CANAL]
    told = of(fit_and_check(make_box(tmp_path / "b", *hard), canal_rig()), "elastic")
    assert told.outcome is Outcome.LOOK_AGAIN
    assert "light for it" in told.says


def test_lead_for_tin_is_noticed_and_small_lead_is_lawful(tmp_path: Path) -> None:
    words = [w.replace("tin", "lead") for w in CANAL]
    checked = fit_and_check(make_box(tmp_path, *words), canal_rig())
    told = of(checked, "shot against float")
    assert "as lead it pulls 0.01 g more than tin" in told.says
    assert not any(j.about == "lead" for j in checked.judgements)


def test_lead_that_a_recipe_asks_for_is_named_with_the_regulation(tmp_path: Path) -> None:
    """GOV.UK, Freshwater rod fishing rules: over 0.06 g it may not be used, in stock or not."""
    recipe = SHELF.load("pole-canal-shot")
    groups = (
        recipe.shot[0].model_copy(update={"of": "2 No 6", "material": "lead"}),
        recipe.shot[1],
    )
    asking = recipe.model_copy(update={"shot": groups})
    told = of(fit_and_check(make_box(tmp_path), resolve(asking, {}, fine_hooklength())), "lead")
    assert told.outcome is Outcome.WILL_NOT_DO
    assert "lead may be used only up to 0.06 g" in told.says
    assert "the law of the land come first" in told.says


@pytest.mark.parametrize(
    ("limits", "outcome"),
    [
        ((0.95, 0.80), Outcome.SOUND),
        ((0.99, 0.80), Outcome.LOOK_AGAIN),
        ((0.999, 0.99), Outcome.WILL_NOT_DO),
    ],
)
def test_the_angler_sets_what_is_sound(
    tmp_path: Path, limits: tuple[float, float], outcome: Outcome
) -> None:
    words = ["nylon 0.09 mm 0.98 kg 50 m", "nylon 0.12 mm 1.6 kg 50 m", *CANAL[2:]]
    fitted = fit_and_check(make_box(tmp_path, *words), canal_rig()).fit
    told = of(check(fitted, *limits), "strength chain")
    assert told.outcome is outcome


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=40)
@given(st.floats(0.9, 3.0), st.floats(1.0, 1.5))
def test_a_stronger_rig_line_never_lowers_the_chance(
    canal: Checked, strain_kg: float, more: float
) -> None:
    """Through the whole check: the chance that the hooklength goes first only grows."""

    def chance(kg: float) -> float:
        rig = tree_of(with_figures(canal.fit, "rig line", breaks_at_kg=kg))
        assert rig is not None
        return chance_hooklength_first(rig.joints)

    assert chance(strain_kg * more) >= chance(strain_kg) - 1e-6


def test_a_cast_is_judged_by_the_main_lines_weakest_knot(tmp_path: Path) -> None:
    """Even pull by textbook ballistics: m (a + g), a = g R / 2 s, with R = 40 m and s = 3 m."""
    resolved = resolve(SHELF.load("bomb-running"), {}, fine_hooklength())
    told = of(fit_and_check(make_box(tmp_path, *FEEDER_BOX), resolved, cast=Cast(40.0)), "casting")
    assert told.outcome is Outcome.SOUND
    facts = {fact.name: fact.value for fact in told.facts}
    assert facts["even pull"] == pytest.approx(0.020 * (40 / 6 + 1), rel=1e-9)
    assert facts["main line after its knot"] == pytest.approx(0.70 * 4.3)
    with pytest.raises(AskedWronglyError, match="neither feeder nor bomb"):
        fit_and_check(make_box(tmp_path / "canal"), canal_rig(), cast=Cast(40.0))


@pytest.mark.parametrize(("water_c", "kg_m3"), [(4.0, 999.97), (25.0, 997.05)])
def test_the_water_of_a_check_is_as_warm_as_told(
    tmp_path: Path, water_c: float, kg_m3: float
) -> None:
    """Densities: IAPWS-95."""
    told = of(fit_and_check(make_box(tmp_path), canal_rig(), water_c=water_c), "shot against float")
    density = next(f.value for f in told.facts if f.name.startswith("density of water"))
    assert float(density) == pytest.approx(kg_m3, abs=0.02)


def test_a_feeder_in_a_loop_is_look_again_at_best(tmp_path: Path) -> None:
    """fishingmagic.com, articles for and against loop rigs: it is argued to tether."""
    recipe = SHELF.load("feeder-in-line")
    looped = tuple(
        thing.model_copy(update={"held": "in a loop"}) if thing.is_ == "feeder" else thing
        for thing in recipe.along
    )
    assert looped != recipe.along
    below = resolve(SHELF.load("hooklength-middle"), {})
    resolved = resolve(recipe.model_copy(update={"along": looped}), {}, below)
    box = make_box(tmp_path, *FEEDER_BOX, "feeder method 30 g")
    told = of(fit_and_check(box, resolved), "left towing")
    assert told.outcome is Outcome.LOOK_AGAIN
    assert "in its loop" in told.says


def test_a_rig_is_judged_in_the_order_of_what_matters(canal: Checked) -> None:
    assert [j.about for j in canal.judgements] == [
        "strength chain",
        "left towing",
        "step down to the hooklength",
        "join between lines",
        "hook and line",
        "elastic",
        "shot against float",
        "winder",
    ]
    assert canal.outcome is Outcome.SOUND
    assert canal.refusals == ()


def test_a_hooklength_alone_is_judged_by_what_it_has(tmp_path: Path) -> None:
    checked = fit_and_check(make_box(tmp_path), fine_hooklength())
    assert [j.about for j in checked.judgements] == ["hook and line"]


def test_the_worst_judgement_counts_and_each_refusal_is_named(canal: Checked) -> None:
    weak = check(with_figures(canal.fit, "rig line", breaks_at_kg=0.4))
    assert weak.outcome is Outcome.WILL_NOT_DO
    assert [j.about for j in weak.refusals] == ["strength chain", "left towing"]
    doubtful = check(with_figures(canal.fit, "rig line", diameter_mm=0.09))
    assert doubtful.outcome is Outcome.LOOK_AGAIN
    assert doubtful.refusals == ()


def test_without_a_strain_nobody_knows_and_the_parts_are_named(canal: Checked) -> None:
    fitted = with_figures(canal.fit, "rig line", breaks_at_kg=None)
    told = of(check(fitted), "strength chain")
    assert told.outcome is Outcome.LOOK_AGAIN
    assert told.says.endswith("no strain is known of rig line")
    assert fitted.hooklength is not None
    below = with_figures(fitted.hooklength, "hooklength line", breaks_at_kg=None)
    told = of(check(replace(fitted, hooklength=below)), "strength chain")
    assert told.says.endswith("no strain is known of rig line, hooklength line")


def test_a_hooklength_on_bare_elastic_has_nothing_above_to_compare(tmp_path: Path) -> None:
    recipe = SHELF.load("pole-canal-shot")
    parts = tuple(part for part in recipe.part if part.name in ("elastic", "hooklength"))
    bare = recipe.model_copy(update={"part": parts, "along": (), "shot": ()})
    told = fit_and_check(make_box(tmp_path), resolve(bare, {}, fine_hooklength()))
    assert of(told, "strength chain").outcome is Outcome.LOOK_AGAIN
    assert "no strain is known of what is above the hooklength" in of(told, "strength chain").says
    assert not any(j.about == "step down to the hooklength" for j in told.judgements)


@pytest.mark.parametrize(
    ("limits", "outcome"),
    [
        ((0.8, 0.5), Outcome.SOUND),
        ((0.9, 0.8), Outcome.LOOK_AGAIN),
        ((0.95, 0.9), Outcome.WILL_NOT_DO),
    ],
)
def test_the_limits_hold_for_what_is_left_towing_too(
    feeders: Box, limits: tuple[float, float], outcome: Outcome
) -> None:
    """The link of 0.20 mm goes before the main line with a chance of 82 %."""
    fitted = fit_and_check(feeders, written(PATERNOSTER.replace("LINK", "0.20"))).fit
    assert of(check(fitted, *limits), "left towing").outcome == outcome


@pytest.mark.parametrize(("knot", "by"), [("water knot", "water knot"), ("half blood", "loops")])
def test_a_leader_is_the_line_above_the_hooklength(feeders: Box, knot: str, by: str) -> None:
    """It is what the hooklength steps down from, and is joined to the main line by its own knot."""
    told = fit_and_check(feeders, written(LEADER.replace("KNOT", knot)))
    assert "the rig line (0.2 mm)" in of(told, "step down to the hooklength").says
    joins = [j.says for j in told.judgements if j.about == "join between lines"]
    assert joins == [f"0.22 mm joined to 0.2 mm by {by}"]


def test_an_elastic_is_weighed_against_all_that_hangs_below(canal: Checked) -> None:
    facts = {fact.name: fact.value for fact in of(canal, "elastic").facts}
    assert facts["elastic's grade"] == 4
    assert facts["rig line"] == 0.12
    assert facts["hooklength"] == 0.08
    assert facts["hook size"] == "20"
    unknown = check(with_figures(canal.fit, "elastic", grade=31.0))
    assert of(unknown, "elastic").outcome is Outcome.LOOK_AGAIN
    assert "knows no grade 31" in of(unknown, "elastic").says
    for grade in (1.0, 30.0):  # where the guide's own words begin and end
        known = check(with_figures(canal.fit, "elastic", grade=grade))
        assert "makers" in of(known, "elastic").says or of(known, "elastic").facts


def test_an_elastic_is_weighed_against_the_rig_line_alone_where_no_more_is_in_stock(
    tmp_path: Path,
) -> None:
    checked = fit_and_check(make_box(tmp_path, CANAL[1], *CANAL[3:]), canal_rig())
    told = [fact.name for fact in of(checked, "elastic").facts]
    assert told == ["elastic's grade", "rig line", "rig line usual from", "rig line usual to"]


def test_an_elastic_with_strains_alone_is_weighed_by_those(canal: Checked) -> None:
    """The guide's grades 1 and 2 are told by strain: rig lines up to 1.5 lb, hooklengths to 10 oz."""
    soft = with_figures(canal.fit, "elastic", grade=2.0)
    facts = {fact.name: (fact.value, fact.unit) for fact in of(check(soft), "elastic").facts}
    assert facts["rig line"] == (1.6, "kg")
    assert facts["hooklength"] == (0.7, "kg")


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        (("2 No 4", "2 No 6"), ["shot No 4", "shot No 6"]),  # of No 6 there is none in stock
        (("2 No 6", "No 6"), ["shot No 6"]),
    ],
)
def test_lead_that_is_fitted_or_asked_for_is_told_once(
    tmp_path: Path, asked: tuple[str, str], told: list[str]
) -> None:
    recipe = SHELF.load("pole-canal-shot")
    groups = tuple(
        group.model_copy(update={"of": loads, "material": " Lead"})
        for group, loads in zip(recipe.shot, asked, strict=True)
    )
    asking = resolve(recipe.model_copy(update={"shot": groups}), {}, fine_hooklength())
    words = [w.replace("No 8 tin", "No 4 lead") for w in CANAL]
    checked = fit_and_check(make_box(tmp_path, *words), asking)
    assert [j.says.partition(" of ")[0] for j in checked.judgements if j.about == "lead"] == told


@pytest.mark.parametrize(("material", "banned"), [("lead", True), ("tin", False)])
def test_where_a_recipe_leaves_the_choice_what_is_fitted_counts(
    tmp_path: Path, material: str, banned: bool
) -> None:
    recipe = SHELF.load("pole-canal-shot")
    either = recipe.shot[0].model_copy(update={"of": "2 No 4", "material": "tin or lead"})
    asking = recipe.model_copy(update={"shot": (either, recipe.shot[1])})
    words = [w.replace("No 8 tin", f"No 4 {material}") for w in CANAL]
    checked = fit_and_check(make_box(tmp_path, *words), resolve(asking, {}, fine_hooklength()))
    assert any(j.about == "lead" for j in checked.judgements) is banned


def test_a_long_rig_on_a_short_winder(canal: Checked) -> None:
    told = of(check(with_figures(canal.fit, "winder", length_mm=20.0)), "winder")
    assert told.outcome is Outcome.LOOK_AGAIN
    assert "39 turns" in told.says


def test_own_measurements_are_told_in_the_line_itself(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    with box.writing() as session:
        record_pull(session, find(session, "0.12"), 1.5, "", DAY)
        record_weighing(session, find(session, "No 10"), 0.8, 20, DAY, as_read=True)
        record_bucket(session, find(session, "4"), 0.21, DAY)
    checked = fit_and_check(box, canal_rig())
    own = {j.about: j.says.rpartition("; ")[2] for j in checked.judgements if "your own" in j.says}
    assert own == {
        "strength chain": "by your own pull tests",
        "shot against float": "by your own measurement of the float and the No 10",
    }


def test_own_pulls_of_the_main_line_count_in_a_cast(feeders: Box) -> None:
    with feeders.writing() as session:
        record_pull(session, find(session, "0.22"), 4.0, "", DAY)
    rig = feeder_rig(SHELF.load("feeder-running-paternoster"))
    checked = fit_and_check(feeders, rig, cast=Cast(30.0))
    for about in ("strength chain", "casting"):
        assert of(checked, about).says.endswith("; by your own pull tests")
