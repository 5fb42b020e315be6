"""The bag: what is ticked is what was taken; what came home is said, or asked, and moves no stock."""

from datetime import timedelta
from pathlib import Path

import pytest

from tacklebox.boxfolder import KINDS
from tacklebox.desk import Desk, bag, bank, care, changes, debriefs, packing, stock
from tacklebox.desk.debriefs import DebriefAnswers
from tacklebox.errors import AskedWronglyError, ManyFaultsError
from tests.desk.boxes import change
from tests.desk.water_box import DAY, make_water_box


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return Desk(make_water_box(tmp_path / "box"), today=lambda: DAY - timedelta(days=1))


def keys(found: bag.Bag) -> list[str]:
    return [line.key for line in found.lines if line.ticked]


def taken_home(desk: Desk, *ticks: str) -> None:
    """Ticked the evening before; now it is the day of the match."""
    bag.put(desk, "club", into=ticks)
    desk.today = lambda: DAY


def test_every_line_of_the_list_is_ticked_by_a_key_of_its_own(desk: Desk) -> None:
    listed = packing.pack(desk, "club")
    every = [e.key for section in listed.sections for e in section.entries if e.tick]
    assert len(every) == len(set(every)) > 8
    assert "" not in every  # nothing is still to be tied
    found = bag.put(desk, "club", into=["all"], of=listed)
    assert keys(found) == every
    assert bag.ticked(desk, "club") == set(every)
    assert found.taken < len(every)  # a rule that was looked at is not taken


@pytest.mark.parametrize("said", ["rig A02R", "A02R", "a02r", "2"])
def test_a_line_is_named_by_its_key_its_code_or_its_number(desk: Desk, said: str) -> None:
    assert keys(bag.put(desk, "club", into=[said])) == ["rig A02R"]
    assert keys(bag.put(desk, "club", out=[said])) == []


def test_what_fits_no_line_or_several_is_told(desk: Desk) -> None:
    for said, right in (("teapot", "Say"), ("shot", "fits"), ("99", "Say"), ("", "Say")):
        with pytest.raises(AskedWronglyError, match="no line of the bag") as refused:
            bag.put(desk, "club", into=[said])
        assert refused.value.field == "tick"
        assert right in refused.value.right
    assert bag.ticked(desk, "club") == frozenset()


def test_ticks_are_kept_though_amounts_change_and_move_nothing(desk: Desk) -> None:
    before, seen = stock.listed(desk), changes.state(desk)
    bag.put(desk, "club", into=["all"])
    assert (stock.listed(desk), changes.state(desk)) == (before, seen)
    ticked = bag.ticked(desk, "club")
    stock.take(desk, "No 10", "3", why="lost")
    assert bag.ticked(desk, "club") == ticked
    assert all(line.on_list for line in bag.show(desk, "club").lines)


def test_what_is_no_longer_on_the_list_stays_in_the_bag_until_it_is_taken_out(desk: Desk) -> None:
    from tacklebox.desk import rigs

    bag.put(desk, "club", into=["A01T", "A02R"])
    rigs.strip(desk, ["A02R"])
    (gone,) = [line for line in bag.show(desk, "club").lines if not line.on_list]
    assert (gone.rig, gone.ticked) == ("A02R", True)
    assert keys(bag.put(desk, "club", out=["A02R"])) == ["rig A01T"]


def test_two_who_tick_at_a_time_write_over_nothing(desk: Desk) -> None:
    bench, phone = desk, Desk(desk.folder, today=desk.today)
    bag.put(bench, "club", into=["A01T"])
    bag.put(phone, "club", into=["A02R"])
    assert keys(bag.put(bench, "club", into=["A01T"])) == ["rig A01T", "rig A02R"]


def test_a_rig_in_the_bag_is_asked_about_and_never_passed_over(desk: Desk) -> None:
    taken_home(desk, "A01T", "A02R")
    with pytest.raises(AskedWronglyError, match="A02R: in the bag, and nothing is said of it"):
        debriefs.write(desk, "club", DebriefAnswers(back=["A01T"]))
    assert debriefs.show(desk, "club") is None
    shown = debriefs.write(desk, "club", DebriefAnswers(back=["A01T"], not_taken=["a02r"]))
    assert {line.rig: line.became for line in shown.bag} == {
        "A01T": bag.Home.HOME, "A02R": bag.Home.NOT_TAKEN,
    }  # fmt: skip
    changed = debriefs.write(
        desk, "club", DebriefAnswers(lost=["A02R"]), correct=True, only_changes=True
    )
    assert changed.bag[1].became is bag.Home.LOST
    with pytest.raises(AskedWronglyError, match="nothing is said of it"):
        debriefs.write(desk, "club", DebriefAnswers(back=["A01T"]), correct=True)


def test_a_rig_that_was_stripped_since_is_not_asked_about(desk: Desk) -> None:
    from tacklebox.desk import rigs

    taken_home(desk, "A01T", "A02R")
    rigs.strip(desk, ["A02R"])
    assert debriefs.write(desk, "club", DebriefAnswers(back=["A01T"])).back == ("A01T",)


def test_what_else_came_home_is_said_or_asked_and_is_no_movement(desk: Desk) -> None:
    hooklengths = next(
        one for one in packing.pack(desk, "club").sections if one.heading == "Hooklengths"
    )
    key = next(entry.key for entry in hooklengths.entries if entry.key)
    taken_home(desk, "A01T", key, "No 10 shot", "No 8 shot")
    item = key.rpartition(" ")[2]
    said = DebriefAnswers(back=["A01T"], tackle_lost={item: "1"}, not_home=["No 10 shot"])
    shown = debriefs.write(desk, "club", said)
    became = {line.key: line.became for line in shown.bag}
    assert became == {
        "rig A01T": bag.Home.HOME, key: bag.Home.NOT_SAID, "spare No 8 shot": bag.Home.NOT_SAID,
        "spare No 10 shot": bag.Home.NOT_HOME,
    }  # fmt: skip
    assert next(line.gone for line in shown.bag if line.key == key) == "1 lost"
    assert len(bag.show(desk, "club").not_said) == 2
    before = stock.listed(desk)
    assert bag.home(desk, "club", came=[key, "No 8 shot"]).not_said == ()
    assert stock.listed(desk) == before
    assert care.audit(desk).in_order
    care.undo(desk)
    assert all(line.became is not bag.Home.LOST for line in bag.show(desk, "club").lines)


def test_what_came_home_is_refused_before_the_day_of_a_rig_and_said_twice(desk: Desk) -> None:
    bag.put(desk, "club", into=["A01T", "No 10 shot"])
    with pytest.raises(AskedWronglyError, match="has not come yet"):
        bag.home(desk, "club", came=["all"])
    desk.today = lambda: DAY
    with pytest.raises(AskedWronglyError, match="is a rig"):
        bag.home(desk, "club", came=["A01T"])
    with pytest.raises(AskedWronglyError, match="as home and as not home"):
        bag.home(desk, "club", came=["all"], not_home=["No 10 shot"])
    wrong = DebriefAnswers(back=["A01T"], came_home=["teapot"])
    with pytest.raises(AskedWronglyError, match="no line of the bag"):
        debriefs.write(desk, "club", wrong)
    assert debriefs.show(desk, "club") is None  # all of it, or nothing


def test_the_record_brings_back_what_was_in_the_bag_or_fished(desk: Desk) -> None:
    taken_home(desk, "A01T")
    head = f"TACKLEBOX RECORD 1\nrecord | {desk.box.mark().box}/club/{DAY}\nmatch | club\nrigs | A01T A02R\n"
    found = bank.read_record(desk, "club", f"{head}end | 0\n")
    assert found.answers.back == ("A01T",)
    fished = f"{head}1 | {DAY} 11:00:00 | fish | rig A02R\nend | 1\n"
    assert bank.read_record(desk, "club", fished).answers.back == ("A01T", "A02R")


def test_a_bag_goes_with_the_box_and_one_that_is_damaged_is_told(
    desk: Desk, tmp_path: Path
) -> None:
    taken_home(desk, "A01T", "No 10 shot")
    assert "bags" in KINDS
    care.export(desk, tmp_path / "export")
    other = Desk(tmp_path / "other", today=desk.today)
    care.read_in(other, tmp_path / "export")
    assert bag.ticked(other, "club") == bag.ticked(desk, "club") != frozenset()
    change(desk.box.folder / "bags" / "club.toml", ('key = "rig A01T"', "key = 7"))
    with pytest.raises(AskedWronglyError, match=r"club\.toml"):
        bag.show(desk, "club")
    file = desk.box.folder / "bags" / "club.toml"
    file.write_text('[[line]]\nkey = "a"\n' * 201)
    with pytest.raises(ManyFaultsError, match='"line": there are too many, at most 200'):
        bag.show(desk, "club")
    file.unlink()
    file.mkdir()
    with pytest.raises(AskedWronglyError, match="this is a folder"):
        bag.show(desk, "club")
