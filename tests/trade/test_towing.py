"""What a fish is left towing on the usual rigs, by every single break."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.trade.judgement import Outcome
from tacklebox.trade.strength import Joint
from tacklebox.trade.towing import (
    Link,
    Piece,
    Rig,
    Stop,
    Stretch,
    Thing,
    breaks_by_fish,
    breaks_by_snag,
    judge_towing,
)

HOOK = Thing("hook", "size 18 hook")


def line(name: str, kg: float, *, knot: bool = True, inside: bool = False) -> Stretch:
    """A knot (nothing slides past) or plain line, with the usual spread."""
    joint = Joint(name, kg, (0.08 if knot else 0.05) * kg, inside)
    return Stretch(joint, lets_past=not knot)


def hooklength(kg: float = 1.0) -> tuple[Piece, ...]:
    return (
        line("hooklength's loop", kg, inside=True),
        line("hook knot", kg * 1.05, inside=True),
        HOOK,
    )


MAIN, SWIVEL = line("main line", 2.5, knot=False), line("swivel knot", 2.1)


def running(*above: Piece) -> Rig:
    feeder = Thing("feeder", "cage feeder", "runs free")
    return Rig((MAIN, *above, feeder, Stop("bead"), SWIVEL, *hooklength()))


def paternoster(link_kg: float) -> Rig:
    link = Link((Joint("feeder link", link_kg, 0.08 * link_kg, False),), Thing("feeder", "feeder"))
    return Rig((MAIN, line("paternoster knot", 2.0), link, *hooklength()))


def towed(rig: Rig) -> dict[str, tuple[str, ...]]:
    return {parted.joint.name: parted.tows for parted in breaks_by_fish(rig)}


def test_a_running_feeder_slides_off_whatever_breaks() -> None:
    assert set(towed(running()).values()) == {()}
    told = judge_towing(running())
    assert told.outcome is Outcome.SOUND
    assert "runs free and slides off the broken end" in told.says


def test_a_running_feeder_is_caught_by_a_knot_above_it() -> None:
    rig = running(line("leader knot", 2.0), line("shock leader", 4.0, knot=False))
    by_break = towed(rig)
    assert by_break["main line"] == ("cage feeder",)
    assert by_break["leader knot"] == ()  # the knot itself is gone
    says = next(p.says for p in breaks_by_fish(rig) if p.joint.name == "main line")
    assert "cannot slide past the leader knot" in says
    stopped = running(Stop("float stop"))
    assert towed(stopped)["main line"] == ("cage feeder",)


def test_an_in_line_feeder_slides_off() -> None:
    feeder = Thing("feeder", "method feeder", "in line")
    rig = Rig((MAIN, feeder, SWIVEL, *hooklength()))
    assert set(towed(rig).values()) == {()}
    assert "has the line running through it" in judge_towing(rig).says


def test_a_paternoster_is_given_up_by_a_weak_link() -> None:
    weak = judge_towing(paternoster(1.2))
    assert weak.outcome is Outcome.SOUND
    assert "given up without the fish" in weak.says
    assert towed(paternoster(1.2))["main line"] == ("feeder",)
    assert towed(paternoster(1.2))["hooklength's loop"] == ()
    strong = judge_towing(paternoster(3.0))
    assert strong.outcome is Outcome.WILL_NOT_DO
    assert "tethers the fish" in strong.says


@pytest.mark.parametrize(
    ("held", "outcome", "reason"),
    [
        ("fixed", Outcome.WILL_NOT_DO, "is fixed and stays on the line"),
        ("in a loop", Outcome.LOOK_AGAIN, "caught in its loop"),
    ],
)
def test_fixed_and_looped_feeders(held: str, outcome: Outcome, reason: str) -> None:
    rig = Rig((MAIN, Thing("bomb", "bomb", held), SWIVEL, *hooklength()))
    told = judge_towing(rig)
    assert told.outcome is outcome
    assert reason in told.says
    assert towed(rig)["main line"] == ("bomb",)


@pytest.mark.parametrize("held", ["one point", "two points"])
def test_a_float_stays_on_the_line_above_the_hooklength(held: str) -> None:
    rig = Rig(
        (
            line("float rig's top", 1.9, knot=False),
            Thing("float", "waggler", held),
            line("rig line", 1.8, knot=False),
            line("rig line's loop", 1.4),
            *hooklength(),
        )
    )
    by_break = towed(rig)
    assert by_break["float rig's top"] == ("waggler",)
    assert by_break["rig line"] == ()
    assert judge_towing(rig).outcome is Outcome.SOUND  # the hooklength goes long before


def test_a_float_above_a_weak_line_is_refused() -> None:
    weak_top = line("top knot", 0.9)
    rig = Rig((weak_top, Thing("float", "pole float", "two points"), *hooklength(1.2)))
    told = judge_towing(rig)
    assert told.outcome is Outcome.WILL_NOT_DO
    assert "the fish tows the pole float" in told.says


def test_breaks_come_weakest_first_and_say_what_is_lost() -> None:
    told = breaks_by_fish(running())
    assert [p.joint.mean_kg for p in told] == sorted(p.joint.mean_kg for p in told)
    assert sum(p.chance for p in told) == pytest.approx(1, abs=1e-6)
    by_name = {p.joint.name: p for p in told}
    assert by_name["hook knot"].lost == ("size 18 hook",)
    assert "the hook alone" in by_name["hook knot"].says
    assert by_name["main line"].lost == ("cage feeder", "size 18 hook")


def test_snagged_weights() -> None:
    told = breaks_by_snag(paternoster(1.2), "feeder")
    assert [p.joint.name for p in told] == ["feeder link", "paternoster knot", "main line"]
    assert told[0].chance > 0.99
    assert told[0].lost == ("feeder",)
    assert told[0].tows == ()
    # a running feeder comes up against the swivel knot; the hooklength is not loaded
    snagged = breaks_by_snag(running(), "cage feeder")
    assert [p.joint.name for p in snagged] == ["swivel knot", "main line"]
    with pytest.raises(AskedWronglyError, match="cage feeder"):
        breaks_by_snag(running(), "bomb")


LINKS: tuple[Piece, ...] = tuple(
    Link((Joint(f"link {n}", kg, 0.08 * kg, False),), Thing("feeder", f"feeder {n}"))
    for n, kg in enumerate((1.0, 1.3, 2.2))
)


@given(st.sampled_from(list(itertools.permutations(LINKS))), st.floats(0.5, 3.0))
def test_permuting_side_branches_changes_nothing(links: tuple[Piece, ...], kg: float) -> None:
    def rig(branches: tuple[Piece, ...]) -> Rig:
        return Rig((MAIN, line("paternoster knot", 2.0), *branches, *hooklength(kg)))

    assert judge_towing(rig(links)) == judge_towing(rig(LINKS))
    assert breaks_by_fish(rig(links)) == breaks_by_fish(rig(LINKS))


@pytest.mark.parametrize(
    ("chain", "fault"),
    [
        ((MAIN, SWIVEL), "no hook"),
        ((), "no hook"),
        ((MAIN, HOOK, SWIVEL, HOOK), "2 hooks"),
        ((MAIN, HOOK, SWIVEL), "below the hook"),
        ((HOOK,), "does not begin"),
        (hooklength(), "does not begin"),
        ((MAIN, line("loop", 1.0, inside=True), SWIVEL, HOOK), "below one of it"),
    ],
)
def test_rigs_that_are_none(chain: tuple[Piece, ...], fault: str) -> None:
    with pytest.raises(AskedWronglyError, match=fault):
        Rig(chain)


def test_other_nonsense() -> None:
    with pytest.raises(AskedWronglyError, match="no way to hold"):
        Thing("float", "waggler", "glued")
    with pytest.raises(AskedWronglyError, match="needs a strength"):
        Link((), Thing("feeder", "feeder"))
