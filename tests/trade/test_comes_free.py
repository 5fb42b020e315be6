"""Whether every feeder, bomb and lead comes free, by what it meets on its way off.

Common practice throughout (no source), save where a test names one.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.trade.comes_free import Free, judge_comes_free, ways_off
from tacklebox.trade.judgement import Check, Judgement, Outcome
from tacklebox.trade.passing import Bore, Meets, Obstacle, Rides
from tacklebox.trade.sources import Basis
from tacklebox.trade.strength import Joint
from tacklebox.trade.towing import Link, Piece, Rig, Stretch, Thing, breaks_by_fish
from tests.trade.rigs import (
    BEAD,
    MAIN,
    RUN_RING,
    SWIVEL,
    hooklength,
    knot,
    paternoster,
    plain,
    rubber,
    running,
    swivel,
)

LOOPED = (knot("main line's loop", 1.9), knot("rig line's loop", 1.9), plain("rig line", 2.5))


def judged(rig: Rig, *, asked_by: str = "") -> Judgement:
    (way,) = ways_off(rig)
    return judge_comes_free(rig, way, asked_by=asked_by)


def free(rig: Rig) -> Free:
    (way,) = ways_off(rig)
    return way.free


@pytest.mark.parametrize(
    ("rig", "expected"),
    [
        pytest.param(running(), Free.FREE, id="on the main line itself"),
        pytest.param(running(*LOOPED), Free.STOPPED, id="an eye below a loop"),
        pytest.param(running(*LOOPED, bore=RUN_RING), Free.FREE, id="a run ring below a loop"),
        pytest.param(
            running(knot("leader knot", 2.0), plain("leader", 4.0)), Free.STOPPED, id="on a leader"
        ),
        pytest.param(
            running(swivel("upper swivel", 2.0), plain("line", 2.5), bore=RUN_RING),
            Free.STOPPED,
            id="a run ring below a swivel",
        ),
        pytest.param(running(Thing("shot", "2 BB", "one point")), Free.STOPPED, id="shot above it"),
        pytest.param(running(rubber("float stop")), Free.TRY_IT, id="a rubber stop above it"),
        pytest.param(running(rubber("stop", tried=True)), Free.FREE, id="a stop that was tried"),
        pytest.param(running(*LOOPED, BEAD, bore=RUN_RING), Free.STOPPED, id="a bead above it"),
        pytest.param(running(BEAD), Free.FREE, id="a bead above it on the main line"),
        pytest.param(running(rubber("stop"), BEAD), Free.TRY_IT, id="a bead below a stop"),
        pytest.param(paternoster(1.2), Free.FIXED, id="fixed paternoster"),
        pytest.param(paternoster(1.2, weak=True), Free.WEAK_LINK, id="weak link"),
        pytest.param(
            running(bore=Bore("tube", Rides.TUBE, 0.2)), Free.STOPPED, id="a bore finer than line"
        ),
    ],
)
def test_rigs(rig: Rig, expected: Free) -> None:
    assert free(rig) is expected
    assert (judged(rig).outcome is Outcome.SOUND) is (expected is Free.FREE)
    assert judged(rig).key is Check.COMES_FREE


@pytest.mark.parametrize(
    ("held", "seated", "expected", "words"),
    [
        ("in line", False, Free.FREE, "comes free"),
        ("in line", True, Free.TRY_IT, "if the bead pulls out of it"),
        ("on its stem", False, Free.FIXED, "its own stem or elastic carries the pull"),
        ("in a loop", False, Free.FIXED, "caught in its loop"),
        ("fixed", False, Free.FIXED, "fixed on the line"),
        ("one point", False, Free.FIXED, "fixed on the line"),
    ],
)
def test_feeders_on_the_line(held: str, seated: bool, expected: Free, words: str) -> None:
    rig = Rig((MAIN, Thing("feeder", "feeder", held, seated=seated), SWIVEL, *hooklength()))
    assert free(rig) is expected
    assert words in judged(rig).says


def test_a_feeder_in_a_loop_names_who_argues_that_it_tethers() -> None:
    """fishingmagic.com, articles for and against loop rigs."""
    rig = Rig((MAIN, Thing("feeder", "feeder", "in a loop"), SWIVEL, *hooklength()))
    (fact,) = judged(rig).facts
    assert fact.source.basis is Basis.PUBLISHED
    assert "fishingmagic" in fact.source.citation


@pytest.mark.parametrize(
    ("rig", "outcome"),
    [
        (running(), Outcome.SOUND),
        (running(rubber("stop")), Outcome.DOUBTFUL),  # until he has tried it
        (running(*LOOPED), Outcome.FAILS),
        (paternoster(1.2), Outcome.FAILS),
        (paternoster(1.2, weak=True), Outcome.FAILS),
    ],
)
def test_where_free_running_is_asked_for(rig: Rig, outcome: Outcome) -> None:
    answer = judged(rig, asked_by="the recipe")
    assert answer.outcome is outcome
    assert ("the recipe asks for weights that run free" in answer.says) is (
        outcome is Outcome.FAILS
    )


@given(st.floats(0.5, 50.0))
def test_no_chance_makes_sound_what_does_not_come_free(main_kg: float) -> None:
    """However much stronger the line above: a hooklength of 0.1 kg goes long before it."""
    feeder = Thing("feeder", "feeder", "runs free")
    rig = Rig(
        (
            plain("main line", main_kg),
            knot("loop", main_kg),
            plain("rig line", main_kg),
            feeder,
            SWIVEL,
            *hooklength(0.1),
        )
    )
    assert judged(rig).outcome is Outcome.DOUBTFUL


def test_it_is_judged_where_no_strength_is_known() -> None:
    unknown = Rig((plain("main line", None), knot("loop", None), *running().chain[1:]))
    assert free(unknown) is Free.STOPPED


def test_the_remedy_names_the_ring_that_would_do() -> None:
    """12 × 0.22 mm: our choice of how wide a knot is."""
    stopped = judged(running(*LOOPED))
    assert stopped.line == (
        "The cage feeder does not come free: it does not pass the rig line's loop nor the main "
        "line's loop; run it on the main line itself, or on a run ring of 2.7 mm bore"
    )
    assert judged(running(Thing("shot", "2 BB", "one point"))).remedy.startswith("leave nothing")


def helicopter(*above: Piece) -> Rig:
    """The hooklength's ring runs on the main line; the lead hangs at its end."""
    lead = Thing("bomb", "lead", "runs free", Bore("ring"))
    tail = (Joint("link", 3.0, 0.2, False),)
    return Rig((MAIN, *above, Link(tail, lead, behind=True), SWIVEL, *hooklength()))


def test_a_helicopter_leaves_its_lead_behind_if_the_hooklengths_ring_gets_off() -> None:
    assert free(helicopter()) is Free.FREE
    assert "the hooklength's ring runs off the line and leaves it behind" in (
        judged(helicopter()).says
    )
    assert free(helicopter(rubber("bead above"))) is Free.TRY_IT
    stopped = helicopter(knot("leader knot", 2.0), plain("leader", 3.0))
    assert free(stopped) is Free.STOPPED
    assert (
        "the ring with the hooklength on it does not pass the leader knot" in judged(stopped).says
    )
    tows = {b.joint.name: b.tows for b in breaks_by_fish(stopped)}
    assert tows["main line"] == ("lead",)
    assert tows["swivel knot"] == tows["hooklength's loop"] == ()


@pytest.mark.parametrize(
    ("link_kg", "outcome", "words"),
    [
        (0.6, Outcome.DOUBTFUL, "before the hooklength more than 99 in 100"),
        (1.0, Outcome.DOUBTFUL, "before the hooklength "),
        (2.0, Outcome.FAILS, ""),
        (2.4, Outcome.FAILS, ""),
    ],
)
def test_a_weak_link_is_doubtful_at_best_and_fails_if_it_is_not_weak(
    link_kg: float, outcome: Outcome, words: str
) -> None:
    """The paternoster's knot holds 2 kg, the hooklength 1 kg."""
    answer = judged(paternoster(link_kg, weak=True))
    assert answer.outcome is outcome
    assert words in answer.says
    if outcome is Outcome.FAILS:
        assert "no weaker than the line above it at 4.4 lb" in answer.says
        assert answer.remedy.startswith("take a link that goes below the hooklength's 2.2 lb")


def test_a_weak_link_of_unknown_strength() -> None:
    link = Link((), Thing("feeder", "feeder"), is_known=False, weak=True)
    rig = Rig((MAIN, knot("knot", 2.0), link, *hooklength()))
    answer = judged(rig)
    assert answer.outcome is Outcome.DOUBTFUL
    assert "nobody knows what its weak link holds" in answer.says


def test_a_bomb_on_the_hooklength_is_stopped_by_the_hooklengths_loop() -> None:
    line = Stretch(Obstacle("hooklength line", Meets.LINE), Joint("line", 1.2, 0.06, True), True)
    loop, hook_knot, hook = hooklength()
    rig = Rig((MAIN, SWIVEL, loop, line, Thing("bomb", "bomb", "runs free"), hook_knot, hook))
    assert free(rig) is Free.STOPPED
    assert "the hooklength's loop" in judged(rig).says


def test_each_weight_is_judged_and_floats_and_olivettes_are_not() -> None:
    rig = Rig(
        (
            MAIN,
            Thing("float", "waggler", "one point"),
            Thing("olivette", "olivette 1 g", "one point"),
            Thing("feeder", "feeder", "runs free"),
            Thing("bomb", "bomb", "runs free"),
            SWIVEL,
            *hooklength(),
        )
    )
    assert [way.weight for way in ways_off(rig)] == ["feeder", "bomb"]
    assert {way.free for way in ways_off(rig)} == {Free.STOPPED}  # by the waggler above them
