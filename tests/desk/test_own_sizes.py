"""His own weighings of hooks and timings of baits: kept, undone, exported; first in every fall."""

from pathlib import Path

import pytest

from tacklebox.desk import Desk, adding, care, checking, measuring, settling
from tacklebox.desk.settling import FallQuestion, Fishing
from tacklebox.errors import AskedWronglyError
from tests.desk.boxes import make_desk

STOCK = (
    "nylon 0.08 mm 0.7 kg 50 m",
    "nylon 0.12 mm 1.6 kg 50 m",
    "hook 20 barbless spade pack 10",
    "hook 18 barbless spade pack 10",
    "pole 4×12 tip 1.5 mm × 60 mm",
)
CANAL = FallQuestion("pole-canal-shot")


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return make_desk(tmp_path / "box", *STOCK)


def ground(desk: Desk, name: str, asked: FallQuestion = CANAL) -> tuple[object, str]:
    """What a fall takes for a hook or a bait, and on what ground."""
    facts = settling.settle(desk, asked).patterns[0].facts
    return next((fact.value, str(fact.source)) for fact in facts if fact.name == name)


def test_a_timing_goes_before_memory_until_it_is_undone(desk: Desk) -> None:
    assert ground(desk, "maggot") == (4.0, "from memory")
    kept = measuring.record_sinking(desk, "Maggots", "1 m 24 s", water="12")
    assert (kept.item, kept.name) == (None, "maggot")
    assert kept.readings[0].words == "sank 100 cm in 24 s, water of 12 °C"
    assert (kept.now[0].what, kept.now[0].unit) == ("it sinks at", "cm/s")
    speed, source = ground(desk, "maggot")
    assert speed == pytest.approx(100 / 24)
    assert source == "own measurement"
    care.undo(desk)
    assert ground(desk, "maggot") == (4.0, "from memory")
    care.redo(desk)
    assert ground(desk, "maggot") == (speed, "own measurement")


def test_several_timings_are_one_whole_way_over_one_whole_time(desk: Desk) -> None:
    for reading in ("1 m in 24 s", "1 m in 26 s", "50 cm in 13 s"):
        measuring.record_sinking(desk, "maggot", reading)
    assert ground(desk, "maggot")[0] == pytest.approx(250 / 63)
    assert [one.number for one in measuring.readings_of(desk, "maggots").readings] == [1, 2, 3]
    assert measuring.withdraw(desk, 3).name == "maggot"
    assert ground(desk, "maggot")[0] == pytest.approx(4.0)


def test_what_is_said_with_the_question_goes_before_what_is_kept(desk: Desk) -> None:
    measuring.record_sinking(desk, "maggot", "1 m 24 s")
    asked = FallQuestion("pole-canal-shot", fishing=Fishing(sinks="1 m in 20 s"))
    assert ground(desk, "maggot", asked)[0] == pytest.approx(5.0)


def test_a_bait_that_only_he_knows_can_be_fished(desk: Desk) -> None:
    asked = FallQuestion("pole-canal-shot", fishing=Fishing(bait="bread"))
    with pytest.raises(AskedWronglyError, match="how fast"):
        settling.settle(desk, asked)
    measuring.record_sinking(desk, "bread", "1 m 12 s")
    assert ground(desk, "bread", asked)[0] == pytest.approx(100 / 12)


@pytest.mark.parametrize(
    "said", ["20 of 20 0.18 g", "20 0.18 g", "20 of hook 20 0.18 g", "20 OF size 20 180 mg"]
)
def test_hooks_weighed_together_are_his_own(desk: Desk, said: str) -> None:
    assert ground(desk, "hook") == (10.0, "from memory")
    kept = measuring.record_hooks(desk, said)
    assert kept.readings[0].words.startswith("20 weighed")
    assert kept.now[0].mean == pytest.approx(9.0)
    assert kept.now[0].unit == "mg"
    mass, source = ground(desk, "hook")
    assert mass == pytest.approx(9.0)
    assert source == "own measurement"


def test_the_static_stages_take_his_own_too(desk: Desk) -> None:
    """Off bottom hook and bait hang on the float in the check as they do at the end of the fall."""

    def facts() -> dict[str, str]:
        judgements = checking.check(desk, "pole-shallow", {}).judgements
        return {
            fact.name: str(fact.source)
            for one in judgements
            for fact in one.facts
            if "under water" in fact.name
        }

    before = facts()
    assert before["bait under water, maggot"] == "from memory"
    measuring.record_sinking(desk, "maggot", "1 m 22 s")
    assert facts()["bait under water, maggot"] == "own measurement"


def own_mass_in_check(desk: Desk) -> tuple[object, str]:
    """What a check in warm water takes the float itself to weigh, and on what ground."""
    judgements = checking.check(desk, "pole-shallow", {}, water="24").judgements
    facts = (fact for one in judgements for fact in one.facts)
    return next((f.value, str(f.source)) for f in facts if f.name == "float's own mass")


def test_a_float_weighed_by_itself_counts_in_falls_and_in_warm_water(desk: Desk) -> None:
    assert ground(desk, "float's own mass") == (0.25, "from memory")
    assert ground(desk, "the float") == ("lies free", "from memory")
    kept = measuring.record_weighing(desk, "pole 4×12", "0.31 g")
    assert kept.readings[0].words == "1 weighed 0.31 g"
    assert [(one.what, one.readings) for one in kept.now] == [("carries", 0), ("one weighs", 1)]
    mass, source = ground(desk, "float's own mass")
    assert mass == pytest.approx(0.31)
    assert source == "own measurement"
    assert own_mass_in_check(desk) == (mass, source)
    assert care.audit(desk).faults == ()
    measuring.withdraw(desk, 1)
    assert ground(desk, "float's own mass") == own_mass_in_check(desk) == (0.25, "from memory")


def test_a_float_s_mass_said_with_the_question_and_what_it_carried(desk: Desk) -> None:
    measuring.record_weighing(desk, "pole 4×12", "0.62 g", count=2)
    asked = FallQuestion("pole-canal-shot", fishing=Fishing(float_mass="0.4 g"))
    said = [note.says for note in settling.settle(desk, asked).patterns[0].notes]
    assert "down to a speck" in said[0]  # as the check says
    assert ground(desk, "float's own mass", asked) == (0.4, "own measurement")
    assert ground(desk, "float's capacity")[1] == "our choice"  # of 0.20 g, its load sinks it
    measuring.record_bucket(desk, "pole 4×12", "0.28 g", as_read=True)
    assert ground(desk, "float's capacity")[1] == "own measurement"


def test_a_load_inside_is_part_of_what_a_float_weighs(desk: Desk) -> None:
    adding.add(desk, "waggler loaded 2+2AAA")
    kept = measuring.record_weighing(desk, "waggler loaded", "6 g")
    assert kept.now[-1].mean == pytest.approx(6.0)
    with pytest.raises(AskedWronglyError, match=r"nominally 5.6 g, is too far off"):
        measuring.record_weighing(desk, "waggler loaded", "40 g")
    measuring.record_weighing(desk, "waggler loaded", "40 g", as_read=True)
    with pytest.raises(AskedWronglyError, match="cannot be right"):
        measuring.record_weighing(desk, "waggler loaded", "0.1 g", count=20, as_read=True)
    assert care.audit(desk).faults == ()


def test_readings_go_through_an_export(desk: Desk, tmp_path: Path) -> None:
    measuring.record_sinking(desk, "maggot", "1 m 24 s", water="12")
    measuring.record_hooks(desk, "20 of 20 0.18 g")
    care.export(desk, tmp_path / "out")
    other = Desk(tmp_path / "other")
    care.read_in(other, tmp_path / "out")
    assert measuring.readings_of(other, "maggot") == measuring.readings_of(desk, "maggot")
    assert measuring.readings_of(other, "hook 20") == measuring.readings_of(desk, "hook 20")
    assert care.audit(other).faults == ()


@pytest.mark.parametrize(
    ("bait", "reading", "says"),
    [
        ("maggot", "soon", "no timing"),
        ("maggot", "1 m in 0 s", "no time"),
        ("maggot", "1 m in 1 s", "too far off"),
        ("maggot", "20 m in 400 s", "way down"),
        (" ", "1 m 24 s", "no bait"),
    ],
)
def test_a_timing_that_cannot_be(desk: Desk, bait: str, reading: str, says: str) -> None:
    with pytest.raises(AskedWronglyError, match=says):
        measuring.record_sinking(desk, bait, reading)
    measuring.record_sinking(desk, "maggot", "1 m in 1.5 s", as_read=True)


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ("some", "no weighing"),
        ("0 of 20 0.2 g", "number weighed together"),
        ("20 of 20 4 g", "too far off"),
        ("1 of 20 0.2 g", "about 20 of them"),
        ("20 of 3 1 g", "nothing in stock"),
    ],
)
def test_a_weighing_that_cannot_be(desk: Desk, said: str, says: str) -> None:
    with pytest.raises(AskedWronglyError, match=says):
        measuring.record_hooks(desk, said)
