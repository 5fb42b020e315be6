"""What hangs below a float: how it is said, and what it pulls."""

import math

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.hanging import (
    DEPTH_NOT_SAID,
    NOTHING,
    Depth,
    FishedDepth,
    LineBelow,
    hanging_below,
    read_fished,
    usual_hanging,
)
from tacklebox.trade.sources import BY_RECIPE, COMMON
from tests.outside import outside

RIG = [LineBelow(0.14, 1.14, 150.0, math.inf), LineBelow(0.10, 1.14, 0.0, 150.0)]


@pytest.mark.parametrize(
    ("words", "depth", "over_mm"),
    [
        ("off bottom", Depth.OFF, 0),
        ("Off the bottom", Depth.OFF, 0),
        ("off-bottom", Depth.OFF, 0),
        ("dead depth", Depth.DEAD, 0),
        ("at dead depth", Depth.DEAD, 0),
        ("on the bottom", Depth.DEAD, 0),
        ("over 2 in", Depth.OVER, 50.8),
        ("2 in over", Depth.OVER, 50.8),
        ("over depth by 2 in", Depth.OVER, 50.8),
        ("5 cm over depth", Depth.OVER, 50),
        ("over by 5 cm", Depth.OVER, 50),
        ("just off bottom", Depth.OFF, 0),
        ("2 in off bottom", Depth.OFF, 0),
        ("off bottom by an inch", Depth.OFF, 0),
        ("off the deck", Depth.OFF, 0),
        ("an inch off", Depth.OFF, 0),
        ("just touching", Depth.DEAD, 0),
        ("on the deck", Depth.DEAD, 0),
        ("two inch over", Depth.OVER, 50.8),
        ("an inch over depth", Depth.OVER, 25.4),
        ("a foot over", Depth.OVER, 304.8),
        ("half a foot over", Depth.OVER, 152.4),
        ("laid on 6 in", Depth.OVER, 152.4),
        ("laying on six inches", Depth.OVER, 152.4),
        ("6 in laid on", Depth.OVER, 152.4),
        ("6 inches on the bottom", Depth.OVER, 152.4),
        ("over by two inches", Depth.OVER, 50.8),
    ],
)
def test_how_deep_as_anglers_say_it(words: str, depth: Depth, over_mm: float) -> None:
    answer = read_fished(words)
    assert (answer.depth, answer.source) == (depth, BY_RECIPE)
    assert answer.over_mm == pytest.approx(over_mm)


def test_a_length_stays_as_it_was_said() -> None:
    assert str(read_fished("over 2 in")) == "2 in over depth"
    assert str(DEPTH_NOT_SAID) == "at dead depth"
    assert DEPTH_NOT_SAID.source is COMMON


@pytest.mark.parametrize(
    "words",
    ["", "deep", "over", "just over", "over 2", "over 0 cm", "over 4 m", "2 in", "a bit over"],
)
def test_what_is_no_depth_is_refused(words: str) -> None:
    with pytest.raises(AskedWronglyError):
        read_fished(words)


@outside("a line under water", "its volume by hand", "closed form")
def test_a_line_under_water_against_its_volume() -> None:
    """Nylon 1.14 g/cm³ (Klust); by hand: 1.35 m of 0.14 mm is 20.78 mm³ and pulls 2.92 mg."""
    line = LineBelow(0.14, 1.14, 150.0, 1500.0)
    assert line.pull_mg(0.0, 5000.0) == pytest.approx(20.782 * (1.14 - 0.9997), abs=0.005)
    assert line.pull_mg(0.0, 1500.0) == pytest.approx(
        line.pull_mg(0, 800) + line.pull_mg(800, 1500)
    )
    assert line.pull_mg(1500.0, 2000.0) == 0.0
    assert LineBelow(0.10, 0.97, 0.0, 1000.0).pull_mg(0.0, 1000.0) < 0  # braid floats


def test_what_lies_on_the_bottom_does_not_load_the_float() -> None:
    off = hanging_below(FishedDepth(Depth.OFF), RIG, 1500.0, hook="20")
    dead = hanging_below(FishedDepth(Depth.DEAD), RIG, 1500.0, hook="20")
    over = hanging_below(FishedDepth(Depth.OVER, 400.0), RIG, 1500.0, hook="20")
    assert (dead.hook_mg, dead.bait_mg) == (0.0, 0.0)
    assert dead.line_mg == off.line_mg
    assert over.line_mg == pytest.approx(RIG[0].pull_mg(400.0, 1500.0))
    assert over.pull_g < dead.pull_g < off.pull_g
    assert (off.words, dead.words) == ("hook, bait and line", "line below the float")


def test_the_handbooks_two_rigs() -> None:
    """About 19 mg on a small waggler rig, 13 mg on a canal pole rig (computed there)."""
    waggler = [LineBelow(0.16, 1.14, 200.0, math.inf), LineBelow(0.12, 1.14, 0.0, 200.0)]
    canal = [LineBelow(0.10, 1.14, 150.0, math.inf), LineBelow(0.08, 1.14, 0.0, 150.0)]
    off = FishedDepth(Depth.OFF)
    assert 1000 * hanging_below(off, waggler, 1800.0, hook="18").pull_g == pytest.approx(19, abs=1)
    assert 1000 * hanging_below(off, canal, 1200.0, hook="20").pull_g == pytest.approx(13, abs=1)


def test_what_nobody_knows_is_left_out_and_said() -> None:
    off = hanging_below(FishedDepth(Depth.OFF), RIG, 1500.0, hook="2/0")
    assert (off.hook_mg, off.left_out) == (0.0, ("hook",))
    assert [f.value for f in off.facts if f.name == "left out"] == ["hook"]
    assert hanging_below(FishedDepth(Depth.OFF), RIG, 1500.0).left_out == ("hook",)
    assert hanging_below(FishedDepth(Depth.DEAD), RIG, 1500.0).left_out == ()
    bare = hanging_below(FishedDepth(Depth.OFF), RIG, 1500.0, hook="20", bait=None)
    assert (bare.bait_mg, bare.bait) == (0.0, "no bait")
    assert NOTHING.facts == ()


def test_a_bait_that_is_not_known_is_refused() -> None:
    with pytest.raises(AskedWronglyError, match="trout"):
        hanging_below(FishedDepth(Depth.OFF), RIG, 1500.0, hook="20", bait="trout")


def test_a_rig_of_which_nothing_is_known() -> None:
    off = 1000 * usual_hanging(FishedDepth(Depth.OFF)).pull_g
    assert off == pytest.approx(13, abs=1.5)
    assert 1000 * usual_hanging(DEPTH_NOT_SAID).pull_g == pytest.approx(2.4, abs=0.1)
