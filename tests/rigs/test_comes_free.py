"""Whether what is cast comes free, from whole recipes: by the check, and by a venue's rule alike.

Common practice throughout (no source).
"""

from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError, ManyFaultsError
from tacklebox.matches.before.rulings import About, Verdict
from tacklebox.matches.before.venue_rules import asked_there, judge_rig, turned_away
from tacklebox.matches.files.venue import Rules, Venue
from tacklebox.rigs.checking.breaks import all_breaks
from tacklebox.rigs.checking.chain import rig_of
from tacklebox.rigs.checking.check import Checked
from tacklebox.rigs.recipes.file import parse_recipe
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.rigs.tying.tie import fit_and_check
from tacklebox.stock.care.box import Box
from tacklebox.trade.judgement import Check, Judgement, Outcome
from tacklebox.trade.towing import Link
from tests.rigs.boxes import SHELF, add, make_box

BOX = (
    "nylon 0.22 mm 4.3 kg 200 m",
    "nylon 0.20 mm 3.6 kg 100 m",
    "nylon 0.18 mm 2.4 kg 100 m",
    "nylon 0.12 mm 1.6 kg 50 m",
    "hook 16 barbless spade pack 10",
    "feeder cage 30 g pack 10",
    "feeder method 30 g pack 10",
    "bomb 20 g pack 10",
    "swivel size 14 12 kg pack 20",
    "link swivel size 12 10 kg pack 10",
    "ring 4 mm pack 10",
    "bead 4 mm pack 50",
    "float stop 1 mm pack 20",
)
HEAD = """
name = "A feeder rig"
makes = "rig"
method = "feeder"
for = "tests"
hooklengths = ["hooklength-feeder"]
"""
MAIN = """
[[part]]
name = "main line"
is = "line"
in_place = true
diameter = "0.22 mm"
bottom = "half blood"
"""
SWIVEL = """
[[part]]
name = "swivel"
is = "swivel"
"""
LOOPED = (
    MAIN.replace("half blood", "figure-of-eight loop")
    + """
[[part]]
name = "rig line"
is = "line"
diameter = "0.20 mm"
length = "60 cm"
top = "figure-of-eight loop"
bottom = "half blood"
"""
)
PLACE = """
[[part]]
name = "hooklength"
is = "hooklength"
"""
LINK = """
[[branch]]
name = "link"
from = "FROM"
[[branch.part]]
name = "link line"
is = "line"
diameter = "0.18 mm"
length = "20 cm"
top = "half blood"
bottom = "half blood"
[[branch.part]]
name = "feeder"
is = "feeder"
shape = "cage"
"""


def along(name: str, is_: str, held: str, on: str = "main line", more: str = "") -> str:
    return f'[[along]]\nname = "{name}"\nis = "{is_}"\non = "{on}"\nheld = "{held}"\n{more}\n'


def feeder(held: str, on: str = "main line", more: str = "") -> str:
    return along("feeder", "feeder", held, on, f'shape = "cage"\n{more}')


def ring(kind: str, on: str = "main line", more: str = "") -> str:
    return along("running link", kind, "runs free", on, more) + LINK.replace("FROM", "running link")


BELOW = SWIVEL + PLACE
LEFT_FREE = feeder("runs free", more='at = "2 m"')
RIG_LINE = LOOPED + BELOW
IN_CHAIN = '[[part]]\nname = "feeder"\nis = "feeder"\nshape = "cage"\n'
TRIED = "tried_by_hand = true"


def stop(more: str = "") -> str:
    return along("float stop", "stop", "one point", more=f'at = "3 m"\n{more}')


def in_line(more: str = "") -> str:
    return MAIN + BELOW + feeder("in line", more=more)


RIGS = [
    ("feeder on the main line", MAIN + BELOW + feeder("runs free"), "free"),
    ("feeder below a loop", RIG_LINE + feeder("runs free", "rig line"), "stopped"),
    ("link swivel below a loop", RIG_LINE + ring("link swivel", "rig line"), "stopped"),
    ("link swivel on the main line", MAIN + BELOW + ring("link swivel"), "free"),
    ("run ring below a loop", RIG_LINE + ring("ring", "rig line"), "free"),
    ("run ring too small", RIG_LINE + ring("ring", "rig line", 'bore = "2 mm"'), "stopped"),
    ("a stop above it", MAIN + BELOW + LEFT_FREE + stop(), "by hand"),
    ("a stop that was tried", MAIN + BELOW + LEFT_FREE + stop(TRIED), "free"),
    ("in line", in_line(), "free"),
    ("in line with a push-fit bead", in_line('seat = "push fit"'), "by hand"),
    ("push-fit bead, tried", in_line(f'seat = "push fit"\n{TRIED}'), "free"),
    ("on its stem", MAIN + BELOW + feeder("on its stem"), "fixed"),
    ("in a loop", MAIN + BELOW + feeder("in a loop"), "fixed"),
    ("locked on the line", MAIN + BELOW + feeder("one point"), "fixed"),
    ("fixed paternoster", MAIN + BELOW + LINK.replace("FROM", "swivel"), "fixed"),
    ("feeder in the chain", MAIN + IN_CHAIN + BELOW, "fixed"),
]


@pytest.fixture
def box(tmp_path: Path) -> Box:
    return make_box(tmp_path, *BOX)


def written(text: str, head: str = HEAD) -> Resolved:
    return resolve(parse_recipe(head + text, "mine"), {}, resolve(SHELF.load("hooklength-feeder")))


def comes_free(checked: Checked) -> list[Judgement]:
    return [j for j in checked.judgements if j.key is Check.COMES_FREE]


def venue(**rules: bool) -> Venue:
    return Venue(stem="lake", name="Lake", water="still water", rules=Rules(**rules))  # type: ignore[arg-type]


@pytest.mark.parametrize(("text", "expected"), [r[1:] for r in RIGS], ids=[r[0] for r in RIGS])
def test_check_and_venue_say_the_same(box: Box, text: str, expected: str) -> None:
    resolved = written(text)
    checked = fit_and_check(box, resolved)
    (judged,) = comes_free(checked)
    assert judged.outcome is (Outcome.SOUND if expected == "free" else Outcome.DOUBTFUL)
    assert bool(judged.remedy) is (expected != "free")
    (by_recipe,) = comes_free(fit_and_check(box, written(text, "free_running = true" + HEAD)))
    (asked,) = comes_free(fit_and_check(box, asked_there(resolved, Rules(feeders_run_free=True))))
    fails = expected in ("stopped", "fixed")
    for answer in (by_recipe, asked):
        assert (answer.outcome is Outcome.FAILS) is fails
    rulings = judge_rig(venue(feeders_run_free=True), checked.fit)
    (ruling,) = (r for r in rulings if r.rule.about is About.FREE_RUNNING)
    verdicts = {"free": Verdict.ALLOWED, "by hand": Verdict.CHECK_YOURSELF}
    assert ruling.verdict is verdicts.get(expected, Verdict.NOT_ALLOWED)
    assert (ruling.part, ruling.says) == ("feeder", asked.says)
    away = turned_away(Rules(feeders_run_free=True), resolved)
    assert (away is not None) is fails


def test_what_breaks_agrees_with_what_comes_free(box: Box) -> None:
    (at_hook, snagged) = all_breaks(fit_and_check(box, written(dict_of("stopped"))).fit)
    tows = {b.joint.name: b.tows for b in at_hook.breaks}
    assert tows["main line"] == ("feeder",)
    assert tows["rig line"] == ()
    assert snagged.pull == "snag at the feeder"
    free = fit_and_check(box, written(RIGS[0][1])).fit
    assert {b.tows for b in all_breaks(free)[0].breaks} == {()}


def dict_of(expected: str) -> str:
    return next(text for _, text, outcome in RIGS if outcome == expected)


def test_a_bomb_on_the_hooklength_is_judged(box: Box) -> None:
    """It is stopped by the hooklength's own loop."""
    text = (
        'name = "A hooklength"\nmakes = "hooklength"\nmethod = "feeder"\nfor = "tests"\n'
        '[[part]]\nname = "hooklength line"\nis = "line"\ndiameter = "0.12 mm"\nlength = "60 cm"\n'
        'top = "figure-of-eight loop"\nbottom = "spade knot"\n'
        '[[part]]\nname = "hook"\nis = "hook"\n'
        + along("bomb", "bomb", "runs free", "hooklength line")
    )
    below = resolve(parse_recipe(text, "bombed"))
    rig = resolve(parse_recipe(HEAD + MAIN + SWIVEL + PLACE, "mine"), {}, below)
    (judged,) = comes_free(fit_and_check(box, rig))
    assert judged.outcome is Outcome.DOUBTFUL
    assert "does not pass the hooklength line's loop" in judged.says


def test_a_feeder_with_a_branch_below_it_is_judged_and_so_is_the_branch(box: Box) -> None:
    text = (
        MAIN
        + SWIVEL
        + PLACE
        + feeder("in a loop")
        + """
[[branch]]
name = "bomb below"
from = "feeder"
[[branch.part]]
name = "bomb"
is = "bomb"
"""
    )
    judged = comes_free(fit_and_check(box, written(text)))
    assert [j.says.split(" does")[0] for j in judged] == ["The feeder", "The bomb"]
    assert {j.outcome for j in judged} == {Outcome.DOUBTFUL}


def test_a_branch_off_a_branch_counts_the_joints_on_its_way_alone(box: Box) -> None:
    """The second link hangs from a swivel half way down the first."""
    text = (
        MAIN
        + SWIVEL
        + PLACE
        + """
[[branch]]
name = "first"
from = "swivel"
[[branch.part]]
name = "upper link"
is = "line"
diameter = "0.20 mm"
length = "20 cm"
top = "half blood"
bottom = "half blood"
[[branch.part]]
name = "side swivel"
is = "swivel"
[[branch.part]]
name = "lower link"
is = "line"
diameter = "0.18 mm"
length = "20 cm"
top = "half blood"
bottom = "half blood"
[[branch.part]]
name = "feeder"
is = "feeder"
shape = "cage"
[[branch]]
name = "second"
from = "side swivel"
[[branch.part]]
name = "bomb"
is = "bomb"
"""
    )
    fit = fit_and_check(box, written(text)).fit
    rig = rig_of(fit)
    assert rig is not None
    links = {piece.name: piece for piece in rig.chain if isinstance(piece, Link)}
    assert not any("lower" in joint.name for joint in links["bomb"].joints)
    assert any("lower" in joint.name for joint in links["feeder"].joints)
    assert any(joint.name == "side swivel" for joint in links["bomb"].joints)
    snagged = next(p for p in all_breaks(fit) if p.pull == "snag at the feeder")
    lost = {b.joint.name: b.lost for b in snagged.breaks}
    assert lost["upper link"] == lost["side swivel"] == ("bomb", "feeder")  # both hang from it
    assert lost["lower link"] == ("feeder",)


WEAK = LINK.replace('from = "FROM"', 'from = "swivel"\nweak_link = true')


@pytest.mark.parametrize(
    ("diameter", "outcome"), [("0.12", Outcome.DOUBTFUL), ("0.22", Outcome.FAILS)]
)
def test_a_weak_link_is_weaker_than_the_line_or_fails(
    box: Box, diameter: str, outcome: Outcome
) -> None:
    text = MAIN + SWIVEL + PLACE + WEAK.replace("0.18", diameter)
    (judged,) = comes_free(fit_and_check(box, written(text)))
    assert judged.outcome is outcome
    assert "weak link" in judged.line
    (asked,) = comes_free(fit_and_check(box, written(text, "free_running = true" + HEAD)))
    assert asked.outcome is Outcome.FAILS


@pytest.mark.parametrize(
    ("line", "link", "words"),
    [
        ('strain = "4 to 6 lb"', 'strain = "8 to 10 lb"', "at least 8 lb"),
        ('strain = "at least 5 lb"', 'strain = "8 lb"', ""),  # what stock serves decides
        ('strain = "5 lb"', 'strain = "5 lb"', "not weaker than the main line"),
        ('strain = "5 lb"', 'strain = "3 lb"', ""),
        ('diameter = "0.20 mm"', 'diameter = "0.22 to 0.26 mm"', "at least 0.22 mm"),
        ('diameter = "0.20 mm"', 'diameter = "0.20 mm"', ""),
        ('diameter = "0.10 mm"\nmaterial = "braid"', 'diameter = "0.20 mm"', ""),
    ],
)
def test_a_weak_link_that_is_asked_to_be_stronger_than_the_line_is_no_recipe(
    line: str, link: str, words: str
) -> None:
    weak = WEAK.replace('diameter = "0.18 mm"', link)
    text = MAIN.replace('diameter = "0.22 mm"', line) + SWIVEL + PLACE + weak
    if not words:
        written(text)
        return
    with pytest.raises(ManyFaultsError) as refused:
        written(text)
    assert words in str(refused.value)
    assert "branch 1 (link)" in str(refused.value)
    assert not str(refused.value).count("part:")


HELICOPTER = MAIN + """
[[part]]
name = "lead swivel"
is = "link swivel"
[[part]]
name = "feeder"
is = "feeder"
shape = "cage"
""" + along("hooklength ring", "swivel", "runs free", more='at = "5 cm"') + """
[[branch]]
name = "hook side"
from = "hooklength ring"
[[branch.part]]
name = "hooklength"
is = "hooklength"
"""  # fmt: skip


def test_a_helicopter_comes_free_by_the_hooklengths_ring(box: Box) -> None:
    checked = fit_and_check(box, written(HELICOPTER))
    (judged,) = comes_free(checked)
    assert judged.outcome is Outcome.SOUND
    assert "leaves it behind" in judged.says
    assert checked.judgements[0].key is Check.BREAKS_FIRST
    tows = {b.joint.name: b.tows for b in all_breaks(checked.fit)[0].breaks}
    assert set(tows.values()) == {()}
    lost = {b.joint.name: b.lost for b in all_breaks(checked.fit)[0].breaks}
    assert "feeder" in lost["half blood at the bottom of the main line"]
    assert "feeder" not in lost["figure-of-eight loop at the top of the hooklength line"]
    snagged = all_breaks(checked.fit)[1]
    assert snagged.pull == "snag at the feeder"
    assert not any("hooklength" in b.joint.name for b in snagged.breaks)  # the lead alone is pulled
    assert {"main line", "half blood at the bottom of the main line"} <= {
        b.joint.name for b in snagged.breaks
    }
    stopped = HELICOPTER + along("top stop", "stop", "one point", more='at = "50 cm"')
    (judged,) = comes_free(fit_and_check(box, written(stopped)))
    assert judged.outcome is Outcome.DOUBTFUL
    assert "if the hooklength ring with the hooklength on it pulls over the top stop" in judged.says


def test_a_hooklength_on_a_fixed_branch_leaves_the_lead_fixed(box: Box) -> None:
    fixed = HELICOPTER.replace('from = "hooklength ring"', 'from = "lead swivel"').replace(
        along("hooklength ring", "swivel", "runs free", more='at = "5 cm"'), ""
    )
    (judged,) = comes_free(fit_and_check(box, written(fixed)))
    assert judged.outcome is Outcome.DOUBTFUL
    assert "hangs from a fixed point" in judged.says


HOOK_SIDE = """
[[branch]]
name = "hook side"
from = "swivel"
[[branch.part]]
name = "second"
is = "hooklength"
"""
OFF_A_SIDE = HOOK_SIDE.replace('from = "swivel"', 'from = "link line"')
BAD = [
    (MAIN + BELOW + ring("ring", more='bore = "0 mm"'), "bore"),
    (MAIN + BELOW + ring("ring", more='bore = "50 mm"'), "bore of 50 mm cannot be right"),
    (MAIN + BELOW + LINK.replace("FROM", "feeder"), "hangs from itself"),
    (MAIN + BELOW + HOOK_SIDE, "the hooklength is in two places"),
    (MAIN + SWIVEL, "there is no hook"),
    (MAIN + PLACE + SWIVEL, "not the last part"),
    (MAIN + BELOW + along("ring", "hooklength", "runs free"), "more than one hook"),
    (MAIN + SWIVEL + along("ring", "hook", "runs free"), "no thing on a line"),
    (
        MAIN + SWIVEL + LINK.replace("FROM", "swivel") + OFF_A_SIDE,
        "hangs from a branch of a branch",
    ),
    (MAIN + BELOW + feeder("glued"), "held"),
]


@pytest.mark.parametrize(("text", "words"), BAD, ids=[words for _, words in BAD])
def test_recipes_that_cannot_be_are_refused_in_words(text: str, words: str) -> None:
    with pytest.raises((ManyFaultsError, AskedWronglyError)) as refused:
        written(text)
    assert words in str(refused.value)


def test_the_step_is_judged_between_lines_of_one_sort(box: Box) -> None:
    """Braid of 8 kg is finer than nylon of 2 kg (common practice): its diameter says nothing."""

    def judged(main: str) -> list[Judgement]:
        text = MAIN.replace('diameter = "0.22 mm"', main) + SWIVEL + PLACE
        checked = fit_and_check(box, written(text))
        return [j for j in checked.judgements if j.key is Check.STEP]

    add(box, "braid 0.10 mm 8 kg 150 m")
    assert judged('material = "braid"') == []
    assert [j.outcome for j in judged('diameter = "0.22 mm"')] == [Outcome.SOUND]


def test_what_suits_a_hook_is_said_of_nylon_alone(box: Box) -> None:
    add(box, "braid 0.08 mm 4 kg 20 m")

    def judged(line: str) -> list[Check | None]:
        text = (
            'name = "A hooklength"\nmakes = "hooklength"\nmethod = "feeder"\nfor = "tests"\n'
            f'[[part]]\nname = "hooklength line"\nis = "line"\n{line}\nlength = "60 cm"\n'
            'top = "figure-of-eight loop"\nbottom = "spade knot"\n'
            '[[part]]\nname = "hook"\nis = "hook"\n'
        )
        below = resolve(parse_recipe(text, "own"))
        rig = resolve(parse_recipe(HEAD + MAIN + SWIVEL + PLACE, "mine"), {}, below)
        return [j.key for j in fit_and_check(box, rig).judgements]

    assert Check.HOOK_AND_LINE in judged('diameter = "0.12 mm"')
    assert Check.HOOK_AND_LINE not in judged('material = "braid"')
