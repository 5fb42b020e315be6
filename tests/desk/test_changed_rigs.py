"""Rigs that were changed at the water: written as what they are now, both kept, stock as it is."""

import io
import json
import re
from pathlib import Path

import pytest

from tacklebox.desk import Desk, adding, bank, care, debriefs, hooklengths, plans, rigs, stock
from tacklebox.desk.debriefs import DebriefAnswers
from tacklebox.errors import AskedWronglyError, BenchError, CannotBeDoneError
from tests.desk.water_box import DAY, make_water_box


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return Desk(make_water_box(tmp_path / "box"), today=lambda: DAY)


def on_hand(desk: Desk) -> dict[str, int]:
    return {item.name: item.on_hand.value for item in stock.listed(desk).items}


def taken(desk: Desk, before: dict[str, int]) -> dict[str, int]:
    return {name: before[name] - now for name, now in on_hand(desk).items() if before[name] != now}


def hooklength(desk: Desk) -> str:
    return str(debriefs.form(desk, "club").hooklengths[0].item)


def test_the_old_one_is_kept_and_the_new_one_made_from_it(desk: Desk) -> None:
    before = on_hand(desk)
    done = rigs.change(desk, "a01t", depth="1.1 m")
    old, new = rigs.show(desk, "A01T"), rigs.show(desk, done.now.code)
    assert (old.state, old.changed_into, old.made.set_for) == ("changed", new.code, "depth 1.2 m")
    assert (new.state, new.made.made_from, new.made.changed) == ("ready", "A01T", "depth 1.1 m")
    assert (new.made.set_for, new.made.outcome, new.falls) == ("depth 1.1 m", "", "")
    assert [m.from_hook_mm for m in new.made.marks if m.what == "float"] == [1100]
    assert new.labelled_on is None
    assert taken(desk, before) == {}  # what passes over is moved by nobody
    assert care.audit(desk).in_order
    assert rigs.draw(desk, new.code)
    assert [rig.code for rig in rigs.listed(desk)] == ["A02R", new.code]
    assert plans.plan(desk, "club").wants[0].ready == ("A02R",)  # it is not as wanted any more


def test_a_hooklength_comes_from_the_wallet_and_all_above_it_stands_so_much_higher(
    desk: Desk,
) -> None:
    hooklengths.add(desk, {"20 to 0.08 25 cm": "2"}, counted="no")
    longer = next(item for item in stock.listed(desk).items if "25 cm" in item.name)
    before, old = on_hand(desk), rigs.show(desk, "A01T").made
    new = rigs.change(desk, "A01T", hooklength=str(longer.number)).now.made
    assert taken(desk, before) == {longer.name: 1}
    assert new.hooklength.startswith("25 cm")
    assert new.set_for == "depth 130 cm"  # by hand: 120 cm, and 10 cm more of hooklength
    assert new.shot == "2 No 8 at 60 cm, 2 No 10 30 cm–45 cm"
    places = [[m.from_hook_mm for m in made.marks if m.what != "hook"] for made in (old, new)]
    assert [high - low for low, high in zip(*places, strict=True)] == [100] * len(places[0])
    assert care.audit(desk).in_order


def test_shot_is_read_and_what_was_pinched_on_besides_is_taken(desk: Desk) -> None:
    before = on_hand(desk)
    new = rigs.change(desk, "A01T", shot_now="3 No 8 at 40 cm, 1 No 10 20 cm").now.made
    shot = [(m.kind, m.from_hook_mm) for m in new.marks if m.what == "shot"]
    assert shot == [("No 8", 400)] * 3 + [("No 10", 200)]
    assert taken(desk, before) == {
        "shot No 8 tin": 1
    }  # two were on it; what came off is not put back
    assert care.audit(desk).in_order


def test_another_float_is_taken_and_the_one_before_is_back_in_stock(desk: Desk) -> None:
    adding.add(desk, "pole 4×14")
    before = on_hand(desk)
    new = rigs.change(desk, "A01T", carries="4×14").now
    assert (new.made.size, new.made.carries, new.made.sizes) == (
        "4×14",
        "pole 4×14",
        {"float": "4×14"},
    )
    assert [(m.words, m.from_hook_mm) for m in new.made.marks if m.what == "float"] == [
        ("pole 4×14", 1200),
    ]  # fmt: skip
    assert taken(desk, before) == {"pole 4×12": -1, "pole 4×14": 1}
    assert care.audit(desk).in_order
    (ended,) = rigs.strip(desk, [new.code])
    assert {one.name for one in ended.back} == {"pole 4×14", "winder 13 cm 18 mm"}
    assert care.audit(desk).in_order
    care.undo(desk)
    care.undo(desk)
    assert on_hand(desk) == before


@pytest.mark.parametrize(
    ("change", "is_as_wanted"),
    [
        ({"note": "a size 16 on it"}, False),
        ({"shot_now": "3 No 8 at 40 cm"}, False),
        ({"depth": "1.2 m"}, True),
    ],
)
def test_what_is_no_longer_as_the_recipe_has_it_is_ready_for_no_match(
    desk: Desk, change: dict[str, str], is_as_wanted: bool
) -> None:
    code = rigs.change(desk, "A01T", **change).now.code
    assert (code in plans.plan(desk, "club").wants[0].ready) is is_as_wanted


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({}, "note"),
        ({"depth": "teapot"}, "depth"),
        ({"depth": "9 m"}, "depth"),
        ({"depth": "5 cm"}, "depth"),
        ({"shot_now": "teapot"}, "shot_now"),
        ({"shot_now": "2 No 8 at 9 m"}, "shot_now"),
        ({"shot_now": "No 99 at 20 cm"}, "shot_now"),
        ({"shot_now": "1 SSG at 20 cm"}, "shot_now"),  # there is none
        ({"hooklength": "teapot"}, "hooklength"),
        ({"note": "x" * 201}, "note"),
        ({"carries": "teapot"}, "carries"),
        ({"carries": "hook 20"}, "carries"),
    ],
)
def test_what_cannot_be_is_told_and_nothing_is_changed(
    desk: Desk, change: dict[str, str], field: str
) -> None:
    before = on_hand(desk), rigs.listed(desk, every=True)
    with pytest.raises(AskedWronglyError) as refused:
        rigs.change(desk, "A01T", **change)
    assert refused.value.field == field
    assert (on_hand(desk), rigs.listed(desk, every=True)) == before


@pytest.mark.parametrize(
    ("said", "shot"),
    [
        ("2 No 8 @ 50cm", [("No 8", 500)] * 2),
        ("bulk 3 no8 at 40 cm, No 11 dropper 10 cm", [*[("No 8", 400)] * 3, ("No 11", 100)]),
        ("2 No 10 from 20 to 35 cm", [("No 10", 350), ("No 10", 200)]),
        ("2 8s at 1 ft 6 in", [("No 8", 457.2)] * 2),
        ("olivette 0.4 g at 60 cm", [("0.4 g", 600)]),
    ],
)
def test_shot_is_said_as_anglers_say_it(said: str, shot: list[tuple[str, float]]) -> None:
    from tacklebox.rigs.tying.changed import _placed

    marks = [mark for words in said.split(",") for mark in _placed(words.strip())]
    assert [(mark.kind, round(mark.from_hook_mm, 1)) for mark in marks] == shot


def test_a_hooklength_that_is_not_there_is_not_put_on(desk: Desk) -> None:
    item = hooklength(desk)
    stock.take(desk, item, "4", why="lost")
    with pytest.raises(CannotBeDoneError, match="only 0"):
        rigs.change(desk, "A01T", hooklength=item)
    assert rigs.show(desk, "A01T").state == "ready"


def test_a_debrief_writes_it_and_undo_takes_both_back(desk: Desk) -> None:
    before, item = on_hand(desk), hooklength(desk)
    said = DebriefAnswers(
        back=["A01T", "A02R"],
        changed={"A01T": {"depth": "1.1 m", "hooklength": item}, "A02R": {"note": ""}},
    )
    shown = debriefs.write(desk, "club", said)
    assert shown.back == ("A01T", "A02R")
    assert list(shown.changed) == ["A01T"]
    assert sum(taken(desk, before).values()) == 1
    assert care.audit(desk).in_order
    corrected = debriefs.write(
        desk, "club", DebriefAnswers(lost=["A02R"], peg="4"), correct=True, only_changes=True
    )
    assert (corrected.lost, list(corrected.changed)) == (("A02R",), ["A01T"])
    assert care.audit(desk).in_order
    with pytest.raises(BenchError, match="A01T is changed already"):
        debriefs.write(desk, "club", DebriefAnswers(lost=["A01T"]), correct=True, only_changes=True)
    care.undo(desk)
    care.undo(desk)
    assert on_hand(desk) == before
    assert [rig.code for rig in rigs.listed(desk)] == ["A01T", "A02R"]
    care.redo(desk)
    assert rigs.show(desk, "A01T").state == "changed"
    assert care.audit(desk).in_order


@pytest.mark.parametrize(
    ("said", "what"),
    [
        (
            DebriefAnswers(lost=["A01T"], changed={"A01T": {"note": "x"}}),
            "not said to have come back",
        ),
        (
            DebriefAnswers(back=["A01T"], changed={"A01T": {"depth": "9 m"}}),
            "A01T: 9 m is no depth",
        ),
        (DebriefAnswers(back=["A01T"], changed={"A77X": {"depth": "1 m"}}), "mistyped"),
    ],
)
def test_of_a_debrief_that_cannot_be_written_nothing_is(
    desk: Desk, said: DebriefAnswers, what: str
) -> None:
    with pytest.raises(AskedWronglyError, match=what) as refused:
        debriefs.write(desk, "club", said)
    assert refused.value.field == "changed"
    assert debriefs.show(desk, "club") is None
    assert [rig.code for rig in rigs.listed(desk)] == ["A01T", "A02R"]


def test_what_was_tapped_of_a_rig_fills_the_form(desk: Desk) -> None:
    item = hooklength(desk)
    head = f"TACKLEBOX RECORD 1\nrecord | {desk.box.mark().box}/club/{DAY}\nmatch | club\nrigs | A01T A02R\n"
    taps = (
        f"1 | {DAY} 11:00:00 | change | rig A01T | depth 1.3 m",
        f"2 | {DAY} 11:10:00 | change | rig A01T | depth 1.1 m",
        f"3 | {DAY} 11:20:00 | change | rig A01T | item {item} | is 20 to 0.08 | says hooklength",
        f"4 | {DAY} 11:30:00 | change | rig A02R | shot 3 No 8 at 40 cm",
        f"5 | {DAY} 11:40:00 | lost | rig A02R",
        f"6 | {DAY} 11:50:00 | change | rig A01T | says Bulk the shot, and lower.",
    )
    found = bank.read_record(desk, "club", head + "\n".join(taps) + "\nend | 6\n")
    assert (found.faults, found.remarks) == ((), ())
    assert found.answers.changed == {"A01T": {"depth": "1.1 m", "hooklength": item}}
    assert found.changes[-1] == "11:50 A01T: Bulk the shot, and lower."
    shown = debriefs.write(desk, "club", found.answers)
    assert rigs.show(desk, shown.changed["A01T"]).made.set_for == "depth 1.1 m"
    assert shown.record.count("| depth 1.1 m") == 1


def test_a_float_that_was_put_on_at_the_water_comes_home_on_its_rig(desk: Desk) -> None:
    adding.add(desk, "pole 4×14")
    before = on_hand(desk)
    page = io.BytesIO()
    bank.page(desk, "club", page)
    facts = json.loads(re.search(rb'id="facts">(.*?)</script>', page.getvalue()).group(1))  # type: ignore[union-attr]
    (other,) = [one for one in facts["carried"] if one["name"] == "pole 4×14"]
    own = facts["rigs"][0]["carries"]
    assert (other["kind"], facts["rigs"][0]["carries_name"]) == ("float", "pole 4×12")
    head = f"TACKLEBOX RECORD 1\nrecord | {desk.box.mark().box}/club/{DAY}\nmatch | club\nrigs | A01T A02R\n"
    on = f"{DAY} 11:00:00 | change | rig A01T | item {other['item']} | is x | float pole 4×14"
    back = f"{DAY} 12:00:00 | change | rig A01T | item {own} | is x | float pole 4×12"
    deeper = f"{DAY} 12:10:00 | change | rig A01T | depth 1.1 m"
    to_and_fro = bank.read_record(
        desk, "club", f"{head}1 | {on}\n2 | {back}\n3 | {deeper}\nend | 3\n"
    )
    assert to_and_fro.answers.changed == {"A01T": {"depth": "1.1 m"}}
    unknown = bank.read_record(
        desk, "club", f"{head}1 | {on.replace('item ', 'item 9')}\nend | 1\n"
    )
    assert unknown.answers.changed == {"A01T": {"carries": "pole 4×14"}}  # by its words
    hook = bank.read_record(
        desk, "club", f"{head}1 | {DAY} 11:00:00 | change | rig A01T | float hook 20\nend | 1\n"
    )
    assert hook.answers.changed == {"A01T": {"carries": "hook 20 barbless spade"}}
    with pytest.raises(AskedWronglyError, match="no float"):
        debriefs.write(desk, "club", hook.answers)
    found = bank.read_record(desk, "club", f"{head}1 | {on}\nend | 1\n")
    assert (found.faults, found.remarks, found.changes) == (
        (),
        (),
        ("11:00 A01T: float pole 4×14",),
    )
    shown = debriefs.write(desk, "club", found.answers)
    assert rigs.show(desk, shown.changed["A01T"]).made.carries == "pole 4×14"
    assert taken(desk, before) == {"pole 4×12": -1, "pole 4×14": 1}
    assert care.audit(desk).in_order
