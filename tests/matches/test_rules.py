"""Venue files and their rules: facts of two clubs' match rules, byelaws, and cases by hand."""

from datetime import date
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError, ManyFaultsError
from tacklebox.matches.before.day_rules import judge_day, judge_net
from tacklebox.matches.before.rulings import About, InBox, Rule, Ruling, Verdict, worst_verdict
from tacklebox.matches.before.venue_rules import judge_rig
from tacklebox.matches.files.venue import STARTING, Venue, Venues, parse_venue, write_starting_venue
from tacklebox.rigs.recipes.file import parse_recipe
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.tie import fit_and_check
from tacklebox.stock.care.box import Box
from tacklebox.trade.keepnet import Keepnet
from tests.outside import outside
from tests.rigs.boxes import SHELF, add, canal_rig, fine_hooklength, make_box

ALLOWED, CHECK_YOURSELF, NOT = Verdict.ALLOWED, Verdict.CHECK_YOURSELF, Verdict.NOT_ALLOWED


def venue(rules: str = "", water: str = "still water") -> Venue:
    return parse_venue(f'name = "A water"\nwater = "{water}"\n[rules]\n{rules}', "a-water")


def judged(box: Box, rules: str, resolved: Resolved) -> list[Ruling]:
    return judge_rig(venue(rules), fit_and_check(box, resolved).fit)


def shipped(name: str, hooklength: str, **wishes: str) -> Resolved:
    return resolve(SHELF.load(name), wishes, resolve(SHELF.load(hooklength), {}))


def fixed_paternoster() -> Resolved:
    """The shipped running paternoster with its feeder hung from the swivel."""
    recipe = SHELF.load("feeder-running-paternoster")
    (branch,) = recipe.branch
    fixed = recipe.model_copy(
        update={"branch": (branch.model_copy(update={"hangs_from": "swivel"}),)}
    )
    return resolve(fixed, {}, fine_hooklength())


@outside(
    "free-running feeders as a rule",
    "match rules of Asfordby & Melton SoA and of Kernow Coarse Fishery",
    "published",
)
def test_against_two_clubs_all_feeders_free_running(tmp_path: Path) -> None:
    """Match rules of Asfordby & Melton SoA and of Kernow Coarse Fishery: all feeders free-running."""
    box, rule = make_box(tmp_path), "feeders_run_free = true"
    (ruling,) = judged(box, rule, fixed_paternoster())
    assert (ruling.verdict, ruling.part) == (NOT, "feeder")
    assert ruling.remedy == "hang it from a link that runs on the main line"
    running = shipped("feeder-running-paternoster", "hooklength-feeder")
    assert [r.verdict for r in judged(box, rule, running)] == [ALLOWED]
    in_line = shipped("feeder-in-line", "hooklength-method")
    assert [r.verdict for r in judged(box, rule, in_line)] == [ALLOWED]
    assert [r.verdict for r in judged(box, rule, canal_rig())] == [ALLOWED]  # no feeder in it


@outside(
    "two kilos of groundbait",
    "rules of Cheshire Oaks Fisheries and of Kernow Coarse Fishery",
    "published",
)
@pytest.mark.parametrize(
    ("mass_g", "verdict"), [(2000, ALLOWED), (2001, NOT), (None, CHECK_YOURSELF)]
)
def test_against_two_fisheries_two_kilos_of_groundbait(
    mass_g: float | None, verdict: Verdict
) -> None:
    """Rules of Cheshire Oaks Fisheries and of Kernow Coarse Fishery: 2 kg at most."""
    rulings = judge_day(venue('groundbait_limit = "2 kg"'), None, mass_g)
    assert [r.verdict for r in rulings if r.rule.about is About.GROUNDBAIT] == [verdict]


@outside(
    "a venue's day in the close season",
    "National fisheries byelaws, Environment Agency",
    "published",
)
@pytest.mark.parametrize(
    ("water", "day", "verdict"),
    [
        ("river", date(2026, 3, 14), ALLOWED),
        ("river", date(2026, 3, 15), NOT),
        ("river", date(2026, 6, 15), NOT),
        ("river", date(2026, 6, 16), ALLOWED),
        ("still water", date(2026, 5, 1), CHECK_YOURSELF),
        ("canal", date(2026, 5, 1), CHECK_YOURSELF),
        ("canal", date(2026, 7, 1), ALLOWED),
    ],
)
def test_against_the_national_byelaws_close_season(water: str, day: date, verdict: Verdict) -> None:
    ruling = judge_day(venue(water=water), day)[0]
    assert ruling.verdict is verdict
    if verdict is not ALLOWED:
        assert "come first" in ruling.says


@pytest.mark.parametrize(
    ("keys", "verdict", "words"),
    [
        ("", CHECK_YOURSELF, "Broads"),
        ("close_season = true", NOT, "15 March to 15 June"),
        ("close_season = false", ALLOWED, "as the venue's file says"),
        ('country = "Wales"', CHECK_YOURSELF, "Natural Resources Wales"),
        ('country = "England"', CHECK_YOURSELF, "Environment Agency"),
        ('country = "elsewhere"', CHECK_YOURSELF, "law there"),
    ],
)
def test_a_still_water_is_open_only_where_the_venue_says_so(
    keys: str, verdict: Verdict, words: str
) -> None:
    lake = parse_venue(f'name = "L"\nwater = "still water"\n{keys}\n', "lake")
    ruling = judge_day(lake, date(2026, 5, 1))[0]
    assert ruling.verdict is verdict
    assert words in ruling.says


def test_a_river_is_never_open_by_what_a_file_says() -> None:
    with pytest.raises(ManyFaultsError, match=r"r\.toml"):
        parse_venue('name = "R"\nwater = "river"\nclose_season = false\n', "r")


@pytest.mark.parametrize(
    ("rules", "verdict", "part"),
    [
        ('largest_hook = "20"', ALLOWED, "hook"),
        ('largest_hook = "22"', NOT, "hook"),
        ("barbless = true", ALLOWED, "hook"),
        ("no_braid_main_line = true", ALLOWED, "rig line"),
        ('least_main_line = "3 lb"', ALLOWED, "rig line"),  # 1.6 kg is 3.5 lb
        ('least_main_line = "4 lb"', NOT, "rig line"),
        ('least_hooklength = "15 cm"', ALLOWED, "hooklength-fine"),
        ('least_hooklength = "16 cm"', NOT, "hooklength-fine"),
        ('greatest_hooklength = "15 cm"', ALLOWED, "hooklength-fine"),
        ('greatest_hooklength = "14 cm"', NOT, "hooklength-fine"),
        ('methods_banned = ["pole"]', NOT, "pole-canal-shot"),
        ('methods_banned = ["feeder"]', ALLOWED, "pole-canal-shot"),
        ('materials_banned = ["tin"]', NOT, "2 No 8"),
    ],
)  # fmt: skip
def test_each_rule_on_the_canal_rig(
    tmp_path: Path, rules: str, verdict: Verdict, part: str
) -> None:
    box = make_box(tmp_path)
    rulings = judged(box, rules, canal_rig())
    assert worst_verdict(rulings) is verdict
    worst = next(r for r in rulings if r.verdict is verdict)
    assert worst.part == part or rules.startswith("materials")
    assert worst.remedy if verdict is NOT else not worst.remedy


ASKS_FOR_ALL = """
name = "Of all sorts"
makes = "rig"
method = "float"
for = "tests"
hooklengths = ["hooklength-any"]
[[part]]
name = "rig line"
is = "line"
diameter = "0.10 to 0.20 mm"
length = "1 m"
top = "figure-of-eight loop"
bottom = "figure-of-eight loop"
[[part]]
name = "hooklength"
is = "hooklength"
[[along]]
name = "float"
is = "float"
on = "rig line"
held = "two points"
at = "80 cm"
"""
ANY_HOOKLENGTH = """
name = "Any"
makes = "hooklength"
method = "float"
for = "tests"
[[part]]
name = "hooklength line"
is = "line"
diameter = "0.08 to 0.09 mm"
length = "20 cm"
top = "figure-of-eight loop"
bottom = "half blood"
[[part]]
name = "hook"
is = "hook"
"""


@pytest.mark.parametrize(
    ("item", "rules", "verdict", "part", "remedy"),
    [
        ("hook 16 barbed eyed", "barbless = true", NOT, "hook", "barbless"),
        ("hook 16 barbless eyed", "barbless = true", ALLOWED, "hook", ""),
        ("hook 16 eyed", "barbless = true", CHECK_YOURSELF, "hook", "barbless"),  # not told
        ("hook 8 barbless eyed", 'largest_hook = "10"', NOT, "hook", "10 or smaller"),
        ("braid 0.10 mm 6 kg 50 m", "no_braid_main_line = true", NOT, "rig line", "nylon"),
        ("nylon 0.16 mm 2 kg 50 m", "no_braid_main_line = true", ALLOWED, "rig line", ""),
        ("braid 0.10 mm 6 kg 50 m", 'materials_banned = ["braid"]', NOT, "rig line", "another"),
        ("fluorocarbon 0.09 mm 0.5 kg 50 m", 'materials_banned = ["fluorocarbon"]', NOT,
         "hooklength line", "another"),
        ("nylon 0.16 mm 2 kg 50 m", 'materials_banned = ["fluorocarbon"]', ALLOWED, "rig line", ""),
        ("waggler 4BB insert", 'methods_banned = ["waggler"]', NOT, "float", "another"),
        ("stick 6 No 4", 'methods_banned = ["waggler"]', ALLOWED, "float", ""),
    ],
)  # fmt: skip
def test_each_rule_on_what_serves(
    tmp_path: Path, item: str, rules: str, verdict: Verdict, part: str, remedy: str
) -> None:
    box = make_box(tmp_path, "winder 13 cm 18 mm")
    add(box, item, pack_size=10_000)
    below = resolve(parse_recipe(ANY_HOOKLENGTH, "hooklength-any"), {})
    rig = resolve(parse_recipe(ASKS_FOR_ALL, "of-all-sorts"), {}, below)
    (ruling,) = [r for r in judged(box, rules, rig) if r.part == part]
    assert ruling.verdict is verdict, ruling
    assert remedy in ruling.remedy
    assert bool(ruling.remedy) is (verdict is not ALLOWED)


@pytest.mark.parametrize(
    ("banned", "recipe", "hooklength", "verdict"),
    [
        ("method feeder", "feeder-in-line", "hooklength-method", NOT),
        ("cage feeder", "feeder-in-line", "hooklength-method", ALLOWED),
        ("cage feeder", "feeder-running-paternoster", "hooklength-feeder", NOT),
        ("bomb", "bomb-running", "hooklength-feeder", NOT),
        ("feeder", "bomb-running", "hooklength-feeder", NOT),
        ("pole", "bomb-running", "hooklength-feeder", ALLOWED),
    ],
)
def test_methods_and_kinds_of_feeder(
    tmp_path: Path, banned: str, recipe: str, hooklength: str, verdict: Verdict
) -> None:
    box = make_box(tmp_path, "cage feeder 30 g", "method feeder 30 g", "bomb 20 g")
    rulings = judged(box, f'methods_banned = ["{banned}"]', shipped(recipe, hooklength))
    assert worst_verdict(rulings) is verdict, rulings


def with_net(keys: str) -> Venue:
    return parse_venue(f'name = "A water"\nwater = "canal"\n[keepnet]\n{keys}', "a-water")


def test_a_keepnet_by_byelaws_and_by_a_venue() -> None:
    """National fisheries byelaws; a venue that asks for more is named."""
    net = Keepnet(2500, 400, 1200, 25, True, metal=False)
    assert {r.verdict for r in judge_net(None, net)} == {ALLOWED}
    assert judge_net(venue(), net) == judge_net(None, net)
    asks_more = judge_net(with_net('length = "3 m"'), net)
    (ruling,) = [r for r in asks_more if r.verdict is NOT]
    assert (ruling.says, ruling.remedy) == ("250 cm long", "at least 3 m long")
    assert "A water" in ruling.rule.words
    assert all("National fisheries byelaws" in r.rule.words for r in asks_more if r is not ruling)
    unknown = [
        r for r in judge_net(None, Keepnet(2500, 400, 1200, 25)) if r.verdict is CHECK_YOURSELF
    ]
    assert ["knotless" in unknown[0].rule.words, "metal" in unknown[1].rule.words] == [True, True]


@pytest.mark.parametrize(("nets", "verdict"), [(2, ALLOWED), (3, NOT), (None, CHECK_YOURSELF)])
def test_how_many_keepnets_and_how_full(nets: int | None, verdict: Verdict) -> None:
    rulings = judge_net(with_net('nets = 2\nfish_per_net = "60 lb"'), Keepnet(), nets)
    (number,) = [r for r in rulings if "at a time" in r.rule.words]
    assert number.verdict is verdict
    (fish,) = [r for r in rulings if "60 lb" in r.rule.words]
    assert fish.verdict is CHECK_YOURSELF


def test_the_day_tells_the_measures_of_byelaws_and_venue() -> None:
    answer = with_net('round_rings = "18 in"\nnets = 1\nfish_per_net = "60 lb"')
    measures, nets, fish = [r.rule.words for r in judge_day(answer, None)]
    for words in ("knotless", "at least 200 cm long", "round rings at least 45.7 cm across"):
        assert words in measures
    assert (nets, fish) == ("At most 1 keepnet at a time", "At most 60 lb of fish in a keepnet")


@pytest.mark.parametrize(
    ("keys", "expected"),
    [
        ('length = "6 ft 6 in"', '"keepnet.length": 6 ft 6 in is less strict than'),  # 1.98 m
        ('rings_apart = "41 cm"', '"keepnet.rings_apart"'),
        ('ring_around = "119 cm"', '"keepnet.ring_around"'),
        ('round_rings = "38 cm"', '"keepnet.round_rings"'),
        ('hole_around = "26 mm"', '"keepnet.hole_around"'),
        ("knotless = false", "knotted mesh is against the national byelaws"),
        ("metal = true", "mesh of metal is against the national byelaws"),
        ('length = "long"', '"keepnet.length"'),
        ('square_rings = "21 m"', "no keepnet measures 21 m"),
        ('fish_per_net = "60"', '"keepnet.fish_per_net"'),
        ("nets = 0", "keepnet.nets"),
        ('lenght = "3 m"', 'Did you mean "length"?'),
    ],
)
def test_keepnet_rules_that_make_no_sense_are_refused(keys: str, expected: str) -> None:
    with pytest.raises(ManyFaultsError, match=r"a-water\.toml") as error:
        with_net(keys)
    assert expected in str(error.value)


def test_what_would_pass_names_what_is_in_the_box(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m", "nylon 0.10 mm 1.1 kg 50 m",
                   "nylon 0.12 mm 1.7 kg 50 m")  # fmt: skip
    (ruling,) = judged(box, 'least_main_line = "1.5 kg"', canal_rig())
    assert ruling.verdict is NOT
    assert ruling.in_box == InBox(3, "nylon 0.12 mm 1.7 kg")


@pytest.mark.parametrize(
    ("strain", "verdict", "says"),
    [
        ("1.6 kg", NOT, "nylon 0.12 mm 1.6 kg"),
        ("1.79 kg", NOT, "nylon 0.12 mm 1.79 kg"),
        ("1.8 kg", CHECK_YOURSELF, "1.8 kg (4 lb): see whether its packet says 4 lb"),
        ("4 lb", ALLOWED, ""),
    ],
)
def test_what_would_pass_is_said_as_the_venue_says_it(
    tmp_path: Path, strain: str, verdict: Verdict, says: str
) -> None:
    box = make_box(tmp_path, f"nylon 0.12 mm {strain} 50 m")
    (ruling,) = judged(box, 'least_main_line = "4 lb"', canal_rig())
    assert ruling.verdict is verdict
    assert says in ruling.says
    assert ruling.remedy == ("" if verdict is ALLOWED else "4 lb or more")


def test_what_is_not_known_is_never_passed(tmp_path: Path) -> None:
    box = make_box(tmp_path, "winder 13 cm 18 mm")
    (ruling,) = judged(box, 'least_main_line = "3 lb"', canal_rig())  # asks for no strain
    assert ruling.verdict is CHECK_YOURSELF
    (ruling,) = judged(box, "no_braid_main_line = true", canal_rig())  # asks for nylon
    assert ruling.verdict is ALLOWED
    (ruling,) = judged(box, 'largest_hook = "22"', canal_rig())  # asks for size 20
    assert ruling.verdict is NOT


def test_a_spool_at_home_says_nothing_of_the_reel(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.22 mm 8 lb 100 m")
    rig = shipped("feeder-running-paternoster", "hooklength-feeder")
    (ruling,) = judged(box, 'least_main_line = "6 lb"', rig)
    assert (ruling.verdict, ruling.part) == (CHECK_YOURSELF, "main line")
    add(box, "nylon 0.20 mm 7 lb 150 m", place="reel 1")
    (ruling,) = judged(box, 'least_main_line = "6 lb"', rig)
    assert (ruling.verdict, ruling.says) == (ALLOWED, "nylon 0.20 mm 7 lb")


def test_a_hooklength_alone_is_judged_by_what_it_has(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    rules = 'least_hooklength = "20 cm"\nno_braid_main_line = true\nfeeders_run_free = true'
    rulings = judged(box, rules, fine_hooklength())
    assert sorted(r.verdict for r in rulings) == sorted([NOT, ALLOWED, ALLOWED])


@pytest.mark.parametrize(
    ("rules", "expected"),
    [
        ('least_hooklength = "40 cm"\ngreatest_hooklength = "30 cm"', "no hooklength can pass"),
        ('methods_banned = ["pole", "float", "feeder"]', "no method"),
        ('materials_banned = ["nylon", "fluorocarbon", "braid"]', "no line"),
        ('no_braid_main_line = true\nmaterials_banned = ["nylon", "fluorocarbon"]', "no main line"),
        ('largest_hook = "big"', "rules.largest_hook"),
        ('least_main_line = "4"', "rules.least_main_line"),
        ('methods_banned = ["polle"]', "pole"),
        ('barbles = true', 'Did you mean "barbless"?'),
        ("barbless = 1", "barbless"),
    ],
)  # fmt: skip
def test_rules_that_make_no_sense_are_refused(rules: str, expected: str) -> None:
    with pytest.raises(ManyFaultsError, match=r"a-water\.toml") as error:
        venue(rules)
    assert expected in str(error.value)


def test_the_starting_file_is_a_venue_and_is_never_overwritten(tmp_path: Path) -> None:
    write_starting_venue(tmp_path, "pond")
    assert Venues(tmp_path).load("pond") == parse_venue(
        STARTING.replace("My venue", "Pond"), "pond"
    )
    with pytest.raises(AskedWronglyError, match="already"):
        write_starting_venue(tmp_path, "pond")
    with pytest.raises(AskedWronglyError, match="no venue name"):
        write_starting_venue(tmp_path, "../pond")


def test_plain_words_are_left_to_the_angler() -> None:
    answer = parse_venue('name = "A"\nwater = "canal"\nread = ["No shouting."]', "a")
    assert Ruling(Rule(About.IN_WORDS, "No shouting."), CHECK_YOURSELF) in judge_day(answer, None)


def test_what_would_pass_passes_the_other_rules_too(tmp_path: Path) -> None:
    """Neither in words nor as another item is something banned offered for the braid."""
    box = make_box(tmp_path, "braid 0.10 mm 6 kg 50 m", "fluorocarbon 0.12 mm 1.4 kg 50 m",
                   "nylon 0.20 mm 3.6 kg 50 m")  # fmt: skip
    below = resolve(parse_recipe(ANY_HOOKLENGTH, "hooklength-any"), {})
    rig = resolve(parse_recipe(ASKS_FOR_ALL, "of-all-sorts"), {}, below)
    fitted = fit_and_check(box, rig, 1, {"rig line": 1}).fit
    serving = fitted.serving("rig line")
    assert serving.item is not None
    rules = 'no_braid_main_line = true\nmaterials_banned = ["fluorocarbon"]'
    answer = {r.rule.words: r.remedy for r in judge_rig(venue(rules), fitted)}
    assert answer["no braid as main line"].startswith("nylon")
    assert "fluorocarbon" not in answer["no braid as main line"]
