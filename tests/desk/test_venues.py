"""Waters and their rules, as the desk answers for them."""

from datetime import date
from pathlib import Path

import pytest

from tacklebox.desk import Desk, as_json, venues
from tacklebox.desk.rulings import About, Verdict
from tacklebox.desk.venues import KeepnetAsked
from tacklebox.errors import AskedWronglyError
from tests.desk.boxes import TODAY, desk_at

CANAL, FINE = "pole-canal-shot", "hooklength-fine"


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A desk with the starting file of a venue, "pond", and a weir on a river."""
    made = desk_at(tmp_path)
    venues.start(made, "pond")
    weir = 'name = "The weir"\nwater = "river"\noverhead_lines = true\nread = ["No shouting."]\n'
    (tmp_path / "venues" / "weir.toml").write_text(weir, encoding="utf-8")
    return made


def test_a_new_venue_is_a_file_of_ones_own(tmp_path: Path) -> None:
    desk = desk_at(tmp_path)
    assert venues.listed(desk).venues == ()
    started = venues.start(desk, "pond")
    assert (started.venue, started.file) == ("pond", tmp_path / "venues" / "pond.toml")
    with pytest.raises(AskedWronglyError, match="already"):
        venues.start(desk, "pond")


def test_a_faulty_file_hides_no_other(desk: Desk, tmp_path: Path) -> None:
    (tmp_path / "venues" / "faulty.toml").write_text("name = 1", encoding="utf-8")
    called = [venues.called(desk, name) for name in ("weir", "faulty", "nowhere", "../weir")]
    assert called == ["The weir", "faulty", "nowhere", "../weir"]
    found = venues.listed(desk)
    assert [(v.venue, v.water) for v in found.venues] == [
        ("pond", "still water"),
        ("weir", "river"),
    ]
    assert [fault.what.partition(":")[0] for fault in found.faults] == ["faulty.toml"]


def test_a_venue_is_shown_with_its_rules(desk: Desk) -> None:
    pond, weir = venues.show(desk, "pond"), venues.show(desk, "weir")
    said = {rule.rule: rule.says for rule in pond.rules}
    assert (said["largest hook"], said["barbless"]) == ("10", "yes")
    assert any("3 m long" in words for words in pond.keepnets)
    assert (weir.overhead_lines, weir.rules, weir.check_yourself) == (True, (), ("No shouting.",))
    assert "come first" in weir.comes_first


def test_a_rig_and_the_day_are_judged(desk: Desk) -> None:
    found = venues.judge(desk, "pond", [CANAL], on="1 July")
    assert (found.on, found.allowed) == (date(2026, 7, 1), True)
    (rig,) = found.rigs
    assert rig.recipe == CANAL
    by_rule = {ruling.rule.about: ruling.verdict for ruling in rig.rulings}
    assert by_rule[About.BARBS] is Verdict.ALLOWED
    assert found.day.verdict is Verdict.CHECK_YOURSELF  # the keepnet, at least


def test_one_thing_that_is_not_allowed_is_enough(desk: Desk) -> None:
    found = venues.judge(desk, "pond", [CANAL], on="2026-07-01", groundbait="3 kg")
    assert (found.day.verdict, found.allowed) == (Verdict.NOT_ALLOWED, False)
    (over,) = [r for r in found.day.rulings if r.verdict is Verdict.NOT_ALLOWED]
    assert (over.rule.about, over.remedy) == (About.GROUNDBAIT, "leave 1 kg at home")


def test_without_a_day_it_is_today(desk: Desk) -> None:
    found = venues.judge(desk, "weir")
    assert (found.on, found.allowed) == (TODAY, True)
    assert found.overhead_lines.startswith("Keep at least 30 m")
    assert not venues.judge(desk, "weir", on="2026-04-01").allowed  # the close season


def test_a_rig_named_twice_is_judged_once(desk: Desk) -> None:
    assert [r.recipe for r in venues.judge(desk, "pond", [FINE, CANAL, FINE]).rigs] == [FINE, CANAL]


@pytest.mark.parametrize("recipes", [[], [CANAL], [CANAL, FINE]])
def test_a_choice_that_no_rig_knows_is_refused(desk: Desk, recipes: list[str]) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        venues.judge(desk, "pond", recipes, {"dept": "1 m"})
    assert refused.value.field == "set.dept"


@pytest.mark.parametrize(
    ("said", "field"),
    [({"on": "soon"}, "on"), ({"on": "2026-W10-4"}, "on"), ({"groundbait": "much"}, "groundbait")],
)
def test_a_fault_names_its_field(desk: Desk, said: dict[str, str], field: str) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        venues.judge(desk, "pond", on=said.get("on", ""), groundbait=said.get("groundbait", ""))
    assert refused.value.field == field


GOOD = KeepnetAsked(length="2.5 m", rings="30 cm", round="45 cm", hole="20 mm", knotless=True,
                    metal=False)  # fmt: skip


def test_a_keepnet_by_the_byelaws(desk: Desk) -> None:
    found = venues.judge_keepnet(desk, GOOD)
    assert [r.verdict for r in found.rulings] == 6 * [Verdict.ALLOWED]
    assert (found.venue, found.allowed) == ("", True)


def test_a_keepnet_by_a_venue_that_asks_for_more(desk: Desk) -> None:
    """The venue asks for 3 m, the national byelaws for 2 m."""
    found = venues.judge_keepnet(desk, GOOD, "pond")
    (short,) = [r for r in found.rulings if r.verdict is Verdict.NOT_ALLOWED]
    assert (short.says, short.remedy) == ("250 cm long", "at least 3 m long")
    assert not found.allowed


def test_what_nobody_measured_is_to_be_checked(desk: Desk) -> None:
    found = venues.judge_keepnet(desk, KeepnetAsked(knotless=False))
    assert [r.verdict for r in found.rulings] == [
        Verdict.NOT_ALLOWED, *5 * [Verdict.CHECK_YOURSELF],
    ]  # fmt: skip


def test_how_many_nets_at_a_time(desk: Desk) -> None:
    found = venues.judge_keepnet(desk, KeepnetAsked(square="30 cm", nets=3), "pond")
    assert [r.verdict for r in found.rulings].count(Verdict.NOT_ALLOWED) == 2  # 30 cm wide, three


@pytest.mark.parametrize(
    ("net", "field"),
    [
        (KeepnetAsked(hole="big"), "hole"),
        (KeepnetAsked(length="99 m"), "length"),
        (KeepnetAsked(nets=0), "nets"),
        (KeepnetAsked(nets=21), "nets"),
    ],
)
def test_a_measure_that_no_keepnet_has(desk: Desk, net: KeepnetAsked, field: str) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        venues.judge_keepnet(desk, net)
    assert refused.value.field == field


def test_the_first_venue_asked_for_says_how_to_begin(tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="nor any other yet") as refused:
        venues.show(desk_at(tmp_path), "pond")
    assert refused.value.see == "venues.start"


def test_json_holds_the_rule_by_its_key(desk: Desk) -> None:
    answer = as_json(venues.judge(desk, "weir", on="2026-04-01"))
    assert answer["day"]["rulings"][0]["rule"] == {"about": "close season", "words": "close season"}
    assert answer["day"]["verdict"] == "not allowed"
