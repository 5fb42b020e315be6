"""Checks as the desk answers: what serves each part, the judgements, and what breaks under each pull."""

import shutil
from pathlib import Path

import pytest

from tacklebox.desk import Desk, as_json, checking, measuring, settling, stock
from tacklebox.desk.checking import RigChecked
from tacklebox.desk.judgements import Judgement
from tacklebox.errors import AskedWronglyError
from tests.rigs.boxes import CANAL, make_box

RIG, DAY = "pole-canal-shot", "2026-03-05"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What the canal rig is tied from, with lead that may not weight a line."""
    box = make_box(tmp_path_factory.mktemp("stock") / "box", *CANAL, "shot AAA lead pack 20")
    box.engine.dispose()
    return box.folder


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    return Desk(Path(shutil.copytree(made, tmp_path / "box")))


def judgement(checked: RigChecked, about: str) -> Judgement:
    return next(j for j in checked.judgements if j.about == about)


def test_each_part_has_what_serves_it_and_what_it_takes(desk: Desk) -> None:
    checked = checking.check(desk, RIG, {"depth": "1.5 m"})
    parts = {part.part: part for part in checked.rig.parts}
    line, float_, elastic = parts["rig line"], parts["float"], parts["elastic"]
    assert line.item is not None
    assert (line.item.number, line.item.name) == (2, "nylon 0.12 mm 1.6 kg")
    assert line.takes is not None
    assert line.takes.unit == "mm"
    assert [other.number for other in float_.others] == [5]
    assert (elastic.takes, elastic.already) == (None, "in the pole")
    assert (checked.missing, checked.rig.chosen["depth"]) == (0, "1.5 m")


def test_a_hooklength_is_looked_at_and_tied_separately(desk: Desk) -> None:
    checked = checking.check(desk, RIG, {})
    assert checked.hooklength is not None
    assert checked.hooklength.recipe == "hooklength-fine"
    assert "hook" in {part.part for part in checked.hooklength.parts}
    assert "hook" not in {part.part for part in checked.rig.parts}


def test_what_is_missing_is_named_with_what_there_is(desk: Desk) -> None:
    checked = checking.check(desk, RIG, {}, count=4)
    gaps = {part.part: part.missing for part in checked.rig.parts if part.missing}
    assert checked.missing == len(gaps) == 2
    assert gaps["float"] == "pole 4×12: 1 left, 4 needed"


def test_an_item_may_be_named_for_a_part_by_number_or_words(desk: Desk) -> None:
    for said in ("5", "tip 1.2"):
        checked = checking.check(desk, RIG, {}, use={"float": said})
        [float_] = [part for part in checked.rig.parts if part.part == "float"]
        assert float_.item is not None
        assert float_.item.number == 5


def test_every_joint_stands_in_order_with_what_its_break_leaves(desk: Desk) -> None:
    checked = checking.check(desk, RIG, {})
    assert checked.outcome == "sound"
    at_hook, *snags = checked.pulls
    assert at_hook.what == "pull at the hook"
    assert [b.holds_kg for b in at_hook.breaks] == sorted(b.holds_kg for b in at_hook.breaks)
    assert sum(b.chance_first for b in at_hook.breaks) == pytest.approx(1, abs=1e-6)
    assert {snag.what for snag in snags} == {"snag at the 2 No 8", "snag at the No 10"}
    assert any("float" in b.tows for b in at_hook.breaks)


def test_own_pulls_change_the_check_until_they_are_withdrawn(desk: Desk) -> None:
    before = checking.check(desk, RIG, {})
    measuring.record_pull(desk, "0.12", "1.9 lb", on=DAY)
    after = judgement(checking.check(desk, RIG, {}), "breaks first")
    assert "by your own pull tests" in after.says
    measuring.withdraw(desk, 1, on=DAY)
    assert checking.check(desk, RIG, {}) == before


def test_shot_weighed_and_a_float_tried_count_in_its_balance(desk: Desk) -> None:
    measuring.record_weighing(desk, "No 8", "1.3 g", count=20, on=DAY)
    measuring.record_bucket(desk, "4", "0.21 g", on=DAY)
    sits = judgement(checking.check(desk, RIG, {}), "shot against float")
    assert "by your own measurement of the float and the No 8" in sits.says
    assert any(str(fact.source) == "own measurement" for fact in sits.facts)


def test_prints_of_one_maker_share_part_of_their_error(desk: Desk) -> None:
    def chance() -> float:
        (pull, *_) = checking.check(desk, RIG, {}).pulls
        return sum(one.chance_first for one in pull.breaks if not one.tows)

    apart = chance()
    for line in ("1", "2"):
        stock.edit(desk, line, maker="A" if line == "1" else "a")
    checked = checking.check(desk, RIG, {})
    (pull, *_) = checked.pulls
    assert {one.maker for one in pull.breaks} == {"A", "a"}
    assert 1 - chance() < (1 - apart) / 2  # what is in doubt is less than half of it
    facts = [str(fact) for fact in judgement(checked, "breaks first").facts]
    assert any("of its variance maker A's 50 % (from memory)" in fact for fact in facts), facts
    for line in ("1", "2"):
        measuring.record_pull(desk, line, "0.7 kg" if line == "1" else "1.6 kg", on=DAY)
    facts = [str(fact) for fact in judgement(checking.check(desk, RIG, {}), "breaks first").facts]
    assert not any("maker" in fact for fact in facts)


def test_limits_of_sound_are_the_anglers(desk: Desk) -> None:
    measuring.record_pull(desk, "0.12", "1 kg", on=DAY)
    breaks = checking.check(desk, RIG, {}).pulls[0].breaks
    percent = 100 * sum(b.chance_first for b in breaks if "hooklength" in b.joint)
    assert 90 < percent < 99.99

    def outcome(sound_from: float, doubtful_from: float) -> str:
        checked = checking.check(
            desk, RIG, {}, sound_from=f"{sound_from:.4f}", doubtful_from=f"{doubtful_from:.4f}"
        )
        return judgement(checked, "breaks first").outcome

    sound = outcome(percent - 0.005, 50)
    doubtful = outcome(percent + 0.005, 50)
    fails = outcome(99.999, percent + 0.005)
    assert len({sound, doubtful, fails}) == 3
    assert sound == "sound"


def test_a_cast_is_judged_where_it_is_told(desk: Desk) -> None:
    with pytest.raises(AskedWronglyError, match="neither feeder nor bomb") as refused:
        checking.check(desk, RIG, {}, distance="40 m")
    assert refused.value.field == "distance"
    with pytest.raises(AskedWronglyError, match="only cast with a distance") as refused:
        checking.check(desk, "bomb-running", {}, load="20 g")
    assert refused.value.field == "load"


def test_lead_that_may_not_weight_a_line_is_named_whatever_the_rig_takes(desk: Desk) -> None:
    assert [lead.name for lead in checking.check(desk, RIG, {}).lead] == ["shot AAA lead"]


@pytest.mark.parametrize(
    ("choices", "said", "field"),
    [
        ({"depth": "9 m"}, {}, "set.depth"),
        ({}, {"use": {"float": "boat"}}, "use.float"),
        ({}, {"use": {"float": "1"}}, "use.float"),
        ({}, {"use": {"flaot": "4"}}, "use.flaot"),
        ({}, {"count": 0}, "count"),
        ({}, {"count": 501}, "count"),
        ({}, {"water": "warm"}, "water"),
        ({}, {"water": "-3"}, "water"),
        ({}, {"distance": "far"}, "distance"),
        ({}, {"sound_from": "101"}, "sound_from"),
        ({}, {"doubtful_from": "0"}, "doubtful_from"),
        ({}, {"sound_from": "70", "doubtful_from": "80"}, "doubtful_from"),
    ],
)
def test_a_fault_names_the_field(
    desk: Desk, choices: dict[str, str], said: dict[str, object], field: str
) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        checking.check(desk, RIG, choices, **said)  # type: ignore[arg-type]
    assert refused.value.field == field


def test_all_of_it_is_known_to_json(desk: Desk) -> None:
    answer = as_json(checking.check(desk, RIG, {}))
    assert answer["judgements"][0]["facts"][0]["source"]["basis"]
    assert answer["rig"]["parts"][0]["asks"]


def test_how_it_falls_only_where_that_is_asked(desk: Desk) -> None:
    assert checking.check(desk, RIG, {}).falls is None
    found = checking.check(desk, RIG, {"depth": "1.3 m"}, water="6", settle=True).falls
    question = settling.FallQuestion(RIG, {"depth": "1.3 m"}, {}, settling.Fishing(water="6"))
    assert found == settling.settle(desk, question)
