"""What a fish is left with on the usual rigs, by every single break."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.strength import Joint
from tacklebox.trade.towing import (
    Left,
    Link,
    Piece,
    Rig,
    Thing,
    breaks_by_fish,
    breaks_by_snag,
    weakest_above,
)
from tests.trade.rigs import (
    BEAD,
    HOOK,
    MAIN,
    SWIVEL,
    hooklength,
    knot,
    paternoster,
    plain,
    rubber,
    running,
)


def towed(rig: Rig) -> dict[str, tuple[str, ...]]:
    return {parted.joint.name: parted.tows for parted in breaks_by_fish(rig)}


def lost(rig: Rig) -> dict[str, tuple[str, ...]]:
    return {parted.joint.name: parted.lost for parted in breaks_by_fish(rig)}


def test_a_running_feeder_slides_off_whatever_breaks() -> None:
    assert set(towed(running()).values()) == {()}


def test_a_running_feeder_is_caught_by_a_knot_above_it() -> None:
    rig = running(knot("leader knot", 2.0), plain("shock leader", 4.0))
    by_break = towed(rig)
    assert by_break["main line"] == ("cage feeder",)
    assert by_break["leader knot"] == ()  # the knot itself is gone
    assert towed(running(rubber("float stop")))["main line"] == ("cage feeder",)


def test_lost_is_also_what_slides_off_the_anglers_end() -> None:
    """The swivel's knot parts: feeder and bead run off the bare end above it."""
    by_break = lost(running())
    assert by_break["swivel knot"] == ("cage feeder", "bead", "size 18 hook")
    assert by_break["hooklength's loop"] == ("size 18 hook",)  # the swivel keeps them
    assert by_break["hook knot"] == ("size 18 hook",)
    assert by_break["main line"] == ("cage feeder", "bead", "size 18 hook")


def test_an_in_line_feeder_slides_off_unless_a_bead_is_pushed_into_it() -> None:
    feeder = Thing("feeder", "method feeder", "in line")
    assert set(towed(Rig((MAIN, feeder, SWIVEL, *hooklength()))).values()) == {()}
    seated = Thing("feeder", "method feeder", "in line", seated=True)
    assert towed(Rig((MAIN, seated, SWIVEL, *hooklength())))["main line"] == ("method feeder",)


@pytest.mark.parametrize("held", ["one point", "two points", "in a loop", "on its stem", "fixed"])
@pytest.mark.parametrize("what", ["float", "feeder", "bomb", "lead", "olivette"])
def test_what_is_held_on_the_line_stays_on_it(what: str, held: str) -> None:
    rig = Rig(
        (
            plain("rig line above", 1.9),
            Thing(what, "it", held),
            plain("rig line", 1.8),
            knot("rig line's loop", 1.4),
            *hooklength(),
        )
    )
    by_break = towed(rig)
    assert by_break["rig line above"] == ("it",)
    assert by_break["rig line"] == ()


def test_a_slider_is_kept_by_its_stop_knot() -> None:
    """A break above the stop knot leaves float and knot on the fish's line."""
    slider = Thing("float", "slider", "slides")
    rig = Rig((MAIN, knot("stop knot", 2.2), plain("line", 2.5), slider, SWIVEL, *hooklength()))
    assert towed(rig)["main line"] == ("slider",)
    assert towed(rig)["line"] == ()


def test_breaks_come_weakest_first_and_say_what_is_left() -> None:
    breaks = breaks_by_fish(running())
    assert [p.joint.mean_kg for p in breaks] == sorted(p.joint.mean_kg for p in breaks)
    assert sum(p.chance for p in breaks) == pytest.approx(1, abs=1e-6)
    assert {p.joint.name: p.key for p in breaks} == {
        "hook knot": Left.HOOK,
        "hooklength's loop": Left.SHORT,
        "swivel knot": Left.LINE,
        "main line": Left.LINE,
    }
    stopped = breaks_by_fish(running(rubber("float stop")))
    assert {p.joint.name: p.key for p in stopped}["main line"] is Left.TOWS
    assert "the fish tows the cage feeder" in stopped[-1].says


def test_snagged_weights() -> None:
    breaks = breaks_by_snag(paternoster(1.2), "feeder")
    assert [p.joint.name for p in breaks] == ["feeder link", "paternoster knot", "main line"]
    assert breaks[0].chance > 0.99
    assert (breaks[0].lost, breaks[0].tows, breaks[0].key) == (("feeder",), (), Left.STAYS_ON)
    # a running feeder comes up against the swivel; the hooklength is not loaded
    snagged = breaks_by_snag(running(), "cage feeder")
    assert [p.joint.name for p in snagged] == ["swivel knot", "main line"]
    with pytest.raises(AskedWronglyError, match="cage feeder"):
        breaks_by_snag(running(), "bomb")


def test_the_weakest_above_a_place_of_those_that_are_known() -> None:
    rig = paternoster(1.2)
    above = weakest_above(rig, 2)
    assert above is not None
    assert above.name == "paternoster knot"
    assert weakest_above(rig, 0) is None
    unknown = Rig((plain("main line", None), BEAD, *hooklength()))
    assert weakest_above(unknown, 1) is None
    assert not unknown.is_known
    assert rig.is_known


LINKS: tuple[Piece, ...] = tuple(
    Link((Joint(f"link {n}", kg, 0.08 * kg, False),), Thing("feeder", f"feeder {n}"))
    for n, kg in enumerate((1.0, 1.3, 2.2))
)


@given(st.sampled_from(list(itertools.permutations(LINKS))), st.floats(0.5, 3.0))
def test_permuting_branches_changes_nothing(links: tuple[Piece, ...], kg: float) -> None:
    def rig(branches: tuple[Piece, ...]) -> Rig:
        return Rig((MAIN, knot("paternoster knot", 2.0), *branches, *hooklength(kg)))

    def seen(branches: tuple[Piece, ...]) -> list[object]:
        breaks = breaks_by_fish(rig(branches))
        return [(b.joint, b.chance, set(b.lost), set(b.tows), b.key) for b in breaks]

    assert seen(links) == seen(LINKS)


@pytest.mark.parametrize(
    ("chain", "fault"),
    [
        ((MAIN, SWIVEL), "no hook"),
        ((), "no hook"),
        ((MAIN, HOOK, SWIVEL, HOOK), "2 hooks"),
        ((MAIN, HOOK, SWIVEL), "below the hook"),
        ((HOOK,), "does not begin"),
        (hooklength(), "does not begin"),
        ((MAIN, knot("loop", 1.0, inside=True), SWIVEL, HOOK), "below one of it"),
    ],
)
def test_rigs_that_are_none(chain: tuple[Piece, ...], fault: str) -> None:
    with pytest.raises(AskedWronglyError, match=fault):
        Rig(chain)


def test_no_way_to_hold_a_thing() -> None:
    with pytest.raises(AskedWronglyError, match="no way to hold"):
        Thing("float", "waggler", "glued")
