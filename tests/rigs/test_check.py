"""What the check says of a fitted recipe: strength, towing, elastic, balance, lead."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.checking.breaks import all_breaks
from tacklebox.rigs.checking.cast import Cast
from tacklebox.rigs.checking.chain import rig_of
from tacklebox.rigs.checking.check import Checked, check
from tacklebox.rigs.fitting import Fit
from tacklebox.rigs.recipes.file import Recipe, parse_recipe
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.tie import fit_and_check
from tacklebox.stock.care.box import Box
from tacklebox.stock.finding import find
from tacklebox.stock.measuring import record_bucket, record_pull, record_stretch, record_weighing
from tacklebox.trade.judgement import Judgement, Outcome
from tacklebox.trade.strength import chance_hooklength_first
from tests.long.length import so_many
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
    "float stop 1 mm pack 20",
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
in_place = true
diameter = "0.22 mm"
bottom = "half blood"
[[part]]
name = "swivel"
is = "swivel"
[[part]]
name = "hooklength"
is = "hooklength"
"""
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


HOOKLENGTH = """
name = "A hooklength"
makes = "hooklength"
method = "float"
for = "tests"
[[part]]
name = "hooklength line"
is = "line"
diameter = "0.08 mm"
length = "15 cm"
top = "figure-of-eight loop"
bottom = "KNOT"
[[part]]
name = "hook"
is = "hook"
end = "END"
"""


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


def test_breaks_at_the_hook_are_the_joints_of_the_strength_chain(canal: Checked) -> None:
    rig = rig_of(canal.fit)
    assert rig is not None
    (at_hook, *snags) = all_breaks(canal.fit)
    first = [b.chance for b in at_hook.breaks if b.joint.in_hooklength]
    assert sum(first) == pytest.approx(chance_hooklength_first(rig.joints), abs=1e-6)
    means = [b.joint.mean_kg for b in at_hook.breaks]
    assert means == sorted(means)
    assert [s.pull for s in snags] == [
        "snag at the 2 No 8",
        "snag at the No 10",
    ]
    assert {"float", "2 No 8", "hook"} <= set(at_hook.breaks[-1].lost)


def test_elastic_against_the_published_guide(canal: Checked) -> None:
    """Match Anglers Matches, elastic ratings: grades 3–4 go with 0.10–0.12 mm and hooks 22–20."""
    answer = of(canal, "elastic")
    assert answer.outcome is Outcome.SOUND
    assert any("Match Anglers Matches" in str(f.source) for f in answer.facts)
    answer = of(check(with_figures(canal.fit, "elastic", grade=5.0)), "elastic")
    assert answer.outcome is Outcome.DOUBTFUL
    assert "light for it" in answer.says


def test_lead_for_tin_is_noticed_and_small_lead_is_lawful(tmp_path: Path) -> None:
    words = [w.replace("tin", "lead") for w in CANAL]
    checked = fit_and_check(make_box(tmp_path, *words), canal_rig())
    answer = of(checked, "shot against float")
    assert "as lead it pulls about 0.01 g more than tin" in answer.says
    assert not any(j.about == "lead" for j in checked.judgements)


def test_lead_that_a_recipe_asks_for_is_named_with_the_regulation(tmp_path: Path) -> None:
    """GOV.UK, Freshwater rod fishing rules: over 0.06 g it may not be used, in stock or not."""
    recipe = SHELF.load("pole-canal-shot")
    groups = (
        recipe.shot[0].model_copy(update={"of": "2 No 6", "material": "lead"}),
        recipe.shot[1],
    )
    asking = recipe.model_copy(update={"shot": groups})
    answer = of(fit_and_check(make_box(tmp_path), resolve(asking, {}, fine_hooklength())), "lead")
    assert answer.outcome is Outcome.FAILS
    assert "lead may be used only up to 0.06 g" in answer.says
    assert "the law of the land come first" in answer.says


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=so_many(40, 20))
@given(st.floats(0.9, 3.0), st.floats(1.0, 1.5))
def test_a_stronger_rig_line_never_lowers_the_chance(
    canal: Checked, strain_kg: float, more: float
) -> None:
    """Through the whole check: the chance that the hooklength goes first only grows."""

    def chance(kg: float) -> float:
        rig = rig_of(with_figures(canal.fit, "rig line", breaks_at_kg=kg))
        assert rig is not None
        return chance_hooklength_first(rig.joints)

    assert chance(strain_kg * more) >= chance(strain_kg) - 1e-6


ON_LINE = """
[[along]]
name = "feeder"
is = "feeder"
on = "main line"
held = "runs free"
"""
ON_LINK = """
[[along]]
name = "ring"
is = "ring"
on = "main line"
held = "runs free"
[[branch]]
name = "link"
from = "ring"
[[branch.part]]
name = "link line"
is = "line"
diameter = "0.18 mm"
length = "10 cm"
top = "half blood"
bottom = "half blood"
[[branch.part]]
name = "feeder"
is = "feeder"
"""
SHOCK_LEADER = LEADER.replace("0.20 mm", "0.28 mm").replace("KNOT", "double grinner")


@pytest.mark.parametrize(
    ("text", "line", "holds_kg"),
    [
        (FEEDER_RIG + ON_LINE, "main line", 0.80 * 4.3),  # at its half blood
        (FEEDER_RIG + ON_LINK, "link line", 0.80 * 2.4),
        # a leader of its own bears the cast, its upper knot on the reel ...
        (
            SHOCK_LEADER.replace("50 cm", "9 m") + ON_LINE.replace("main line", "leader"),
            "leader",
            0.80 * 6.8,
        ),
        # ... and a short line does not: main line and knots are loaded too
        (SHOCK_LEADER + ON_LINE.replace("main line", "leader"), "main line", 0.80 * 4.3),
    ],
)
def test_a_cast_is_judged_by_the_line_that_bears_it(
    tmp_path: Path, text: str, line: str, holds_kg: float
) -> None:
    """Even pull by textbook ballistics: m (a + g), a = g R / 2 s, with R = 40 m and s = 3 m."""
    box = make_box(tmp_path, *FEEDER_BOX, "nylon 0.28 mm 6.8 kg 100 m", "ring 4 mm pack 10")
    answer = of(fit_and_check(box, written(text), cast=Cast(40.0)), "casting")
    facts = {fact.name: fact.value for fact in answer.facts}
    assert facts["even pull"] == pytest.approx(0.030 * (40 / 6 + 1), rel=1e-9)
    assert facts[f"{line} after its knot"] == pytest.approx(holds_kg)


def test_only_what_is_cast_can_be_judged(tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="neither feeder nor bomb"):
        fit_and_check(make_box(tmp_path), canal_rig(), cast=Cast(40.0))


@pytest.mark.parametrize(("water_c", "kg_m3"), [(4.0, 999.97), (25.0, 997.05)])
def test_the_water_of_a_check_is_as_warm_as_told(
    tmp_path: Path, water_c: float, kg_m3: float
) -> None:
    """Densities: IAPWS-95."""
    answer = of(
        fit_and_check(make_box(tmp_path), canal_rig(), water_c=water_c), "shot against float"
    )
    density = next(f.value for f in answer.facts if f.name.startswith("density of water"))
    assert float(density) == pytest.approx(kg_m3, abs=0.02)


def test_a_rig_is_judged_in_the_order_of_what_matters(canal: Checked) -> None:
    assert [j.about for j in canal.judgements] == [
        "breaks first",
        "step down to the hooklength",
        "join between lines",
        "hook and line",
        "hook knot",
        "elastic",
        "shot against float",
        "bulk",
        "order of shot",
        "winder",
    ]
    assert canal.outcome is Outcome.SOUND
    assert canal.refusals == ()


def test_a_hooklength_alone_is_judged_by_what_it_has(tmp_path: Path) -> None:
    checked = fit_and_check(make_box(tmp_path), fine_hooklength())
    assert [j.about for j in checked.judgements] == ["hook and line", "hook knot"]


def test_the_worst_judgement_counts_and_each_refusal_is_named(canal: Checked) -> None:
    weak = check(with_figures(canal.fit, "rig line", breaks_at_kg=0.4))
    assert weak.outcome is Outcome.FAILS
    assert [j.about for j in weak.refusals] == ["breaks first"]
    doubtful = check(with_figures(canal.fit, "rig line", diameter_mm=0.09))
    assert doubtful.outcome is Outcome.DOUBTFUL
    assert doubtful.refusals == ()


def test_without_a_strain_nobody_knows_and_the_parts_are_named(canal: Checked) -> None:
    fitted = with_figures(canal.fit, "rig line", breaks_at_kg=None)
    answer = of(check(fitted), "breaks first")
    assert answer.outcome is Outcome.DOUBTFUL
    assert answer.says.endswith("no breaking strain is known of rig line")
    assert fitted.hooklength is not None
    below = with_figures(fitted.hooklength, "hooklength line", breaks_at_kg=None)
    answer = of(check(replace(fitted, hooklength=below)), "breaks first")
    assert answer.says.endswith("no breaking strain is known of rig line, hooklength line")


def test_a_hooklength_on_bare_elastic_has_nothing_above_to_compare(tmp_path: Path) -> None:
    recipe = SHELF.load("pole-canal-shot")
    parts = tuple(part for part in recipe.part if part.name in ("elastic", "hooklength"))
    bare = recipe.model_copy(update={"part": parts, "along": (), "shot": ()})
    answer = fit_and_check(make_box(tmp_path), resolve(bare, {}, fine_hooklength()))
    assert of(answer, "breaks first").outcome is Outcome.DOUBTFUL
    assert (
        "no breaking strain is known of what is above the hooklength"
        in of(answer, "breaks first").says
    )
    assert not any(j.about == "step down to the hooklength" for j in answer.judgements)


@pytest.mark.parametrize(("knot", "by"), [("water knot", "water knot"), ("half blood", "loops")])
def test_a_leader_is_the_line_above_the_hooklength(feeders: Box, knot: str, by: str) -> None:
    """It is what the hooklength steps down from, and is joined to the main line by its own knot."""
    answer = fit_and_check(feeders, written(LEADER.replace("KNOT", knot)))
    assert "the rig line (0.20 mm)" in of(answer, "step down to the hooklength").says
    joins = [j.says for j in answer.judgements if j.about == "join between lines"]
    assert joins == [f"0.22 mm joined to 0.20 mm by {by}"]


def test_an_elastic_is_weighed_against_all_that_hangs_below(canal: Checked) -> None:
    facts = {fact.name: fact.value for fact in of(canal, "elastic").facts}
    assert facts["elastic's grade"] == 4
    assert facts["rig line"] == 0.12
    assert facts["hooklength"] == 0.08
    assert facts["hook size"] == "20"
    unknown = check(with_figures(canal.fit, "elastic", grade=31.0))
    assert of(unknown, "elastic").outcome is Outcome.FAILS
    assert "the guide runs from 1 to 20" in of(unknown, "elastic").says


def test_an_elastic_is_weighed_against_the_rig_line_alone_where_no_more_is_in_stock(
    tmp_path: Path,
) -> None:
    checked = fit_and_check(make_box(tmp_path, CANAL[1], *CANAL[3:]), canal_rig())
    answer = [fact.name for fact in of(checked, "elastic").facts]
    assert answer == ["elastic's grade", "rig line", "rig line usual from", "rig line usual to"]


def test_an_elastic_with_strains_alone_is_weighed_by_those(canal: Checked) -> None:
    """The guide's grades 1 and 2 are told by strain: rig lines up to 1.5 lb, hooklengths to 10 oz."""
    soft = with_figures(canal.fit, "elastic", grade=2.0)
    facts = {fact.name: (fact.value, fact.unit) for fact in of(check(soft), "elastic").facts}
    assert facts["rig line"] == (1.6, "kg")
    assert facts["hooklength"] == (0.7, "kg")


@pytest.mark.parametrize(
    ("asked", "expected"),
    [
        (("2 No 4", "2 No 6"), ["shot No 4", "shot No 6"]),  # of No 6 there is none in stock
        (("2 No 6", "No 6"), ["shot No 6"]),
    ],
)
def test_lead_that_is_fitted_or_asked_for_is_told_once(
    tmp_path: Path, asked: tuple[str, str], expected: list[str]
) -> None:
    recipe = SHELF.load("pole-canal-shot")
    groups = tuple(
        group.model_copy(update={"of": loads, "material": " Lead"})
        for group, loads in zip(recipe.shot, asked, strict=True)
    )
    asking = resolve(recipe.model_copy(update={"shot": groups}), {}, fine_hooklength())
    words = [w.replace("No 8 tin", "No 4 lead") for w in CANAL]
    checked = fit_and_check(make_box(tmp_path, *words), asking)
    assert [
        j.says.partition(" of ")[0] for j in checked.judgements if j.about == "lead"
    ] == expected


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
    answer = of(check(with_figures(canal.fit, "winder", length_mm=20.0)), "winder")
    assert answer.outcome is Outcome.DOUBTFUL
    assert "39 turns" in answer.says


def test_own_measurements_are_told_in_the_line_itself(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    with box.writing() as session:
        record_pull(session, find(session, "0.12"), 1.5, "", DAY)
        record_weighing(session, find(session, "No 10"), 0.8, 20, DAY, as_read=True)
        record_bucket(session, find(session, "4"), 0.21, DAY)
    checked = fit_and_check(box, canal_rig())
    own = {j.about: j.says.rpartition("; ")[2] for j in checked.judgements if "your own" in j.says}
    assert own == {
        "breaks first": "by your own pull tests",
        "shot against float": "by your own measurement of the float and the No 10",
    }


def test_own_pulls_of_the_main_line_count_in_a_cast(feeders: Box) -> None:
    with feeders.writing() as session:
        record_pull(session, find(session, "0.22"), 4.0, "", DAY)
    checked = fit_and_check(feeders, written(FEEDER_RIG + ON_LINE), cast=Cast(30.0))
    for about in ("breaks first", "casting"):
        assert of(checked, about).says.endswith("; by your own pull tests")


def test_an_elastic_whose_pull_was_measured_is_set_against_the_hooklengths_weakest(
    tmp_path: Path,
) -> None:
    """0.08 mm at 0.7 kg keeps 0.525 kg in its loop; half of that is sound (our choice)."""
    box = make_box(tmp_path)
    with box.writing() as session:
        record_stretch(session, find(session, "elastic"), 250.0, DAY)
    answer = of(fit_and_check(box, canal_rig()), "elastic")
    assert answer.outcome is Outcome.SOUND
    assert "pulls 0.6 lb at 3 to 4 times its length" in answer.says
    assert "its loop, holds 1.2 lb" in answer.says
    with box.writing() as session:
        record_stretch(session, find(session, "elastic"), 350.0, DAY)  # 0.3 kg on average
    answer = of(fit_and_check(box, canal_rig()), "elastic")
    assert answer.outcome is Outcome.DOUBTFUL
    assert not any("Match Anglers" in str(fact.source) for fact in answer.facts)


@pytest.mark.parametrize(
    ("end", "knot", "outcome"),
    [
        ("spade", "spade knot", Outcome.SOUND),
        ("eyed", "knotless knot", Outcome.SOUND),
        ("spade", "knotless knot", Outcome.FAILS),
    ],
)
def test_a_knotless_knot_on_a_spade_hook_fails(
    tmp_path: Path, end: str, knot: str, outcome: Outcome
) -> None:
    """Common practice (no source): it needs an eye."""
    below = parse_recipe(HOOKLENGTH.replace("KNOT", knot).replace("END", end), "mine")
    words = [w.replace("spade", end) for w in CANAL]
    answer = of(fit_and_check(make_box(tmp_path, *words), resolve(below)), "hook knot")
    assert answer.outcome is outcome


@pytest.mark.parametrize(
    ("fish", "outcome"), [("", Outcome.DOUBTFUL), ('fish = "carp"', Outcome.SOUND)]
)
def test_a_recipe_for_carp_takes_thicker_line(tmp_path: Path, fish: str, outcome: Outcome) -> None:
    """Common practice (no source): a size 16 goes with 0.17 mm for carp, with 0.15 mm else."""
    text = HOOKLENGTH.replace("KNOT", "knotless knot").replace("END", "eyed")
    below = parse_recipe(fish + text.replace("0.08", "0.17"), "mine")
    box = make_box(tmp_path, "nylon 0.17 mm 3.2 kg 50 m", "hook 16 barbless eyed pack 10")
    assert of(fit_and_check(box, resolve(below)), "hook and line").outcome is outcome
