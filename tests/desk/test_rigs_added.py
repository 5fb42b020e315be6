"""Rigs that are there already: codes and labels for a tray tied before, and nothing taken from stock."""

from datetime import timedelta
from pathlib import Path

import pytest

from tacklebox.desk import Desk, care, debriefs, labels, rigs, stock
from tacklebox.errors import AlreadyDoneError, AskedWronglyError
from tests.desk.boxes import CANAL, copied, make_desk

RIG = "pole-canal-shot"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("tray") / "box"
    make_desk(folder, *CANAL).close()
    return folder


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    return copied(made, tmp_path)


def on_hand(desk: Desk) -> list[int]:
    return [row.on_hand.value for row in stock.listed(desk).items]


def test_a_tray_gets_codes_and_takes_nothing(desk: Desk) -> None:
    before = on_hand(desk)
    added = rigs.add(desk, {RIG: "3", "feeder-window": "2"}, {"depth": "1.5 m"})
    assert [(one.recipe, len(one.codes)) for one in added] == [(RIG, 3), ("feeder-window", 2)]
    listed = rigs.listed(desk)
    assert [rig.code for rig in listed] == [code for one in added for code in one.codes]
    assert all(rig.made.in_tray_before and rig.tied_on is None for rig in listed)
    assert on_hand(desk) == before
    assert care.audit(desk).in_order
    care.undo(desk)  # all of it is one action
    assert rigs.listed(desk) == ()
    assert care.audit(desk).in_order


def test_a_part_is_as_the_recipe_asks_unless_its_item_is_named(desk: Desk) -> None:
    rigs.add(desk, {RIG: "1"}, {})
    rigs.add(desk, {RIG: "1"}, {}, use={"rig line": "2"}, on="2025-05-01")
    asked, named = rigs.listed(desk)
    assert (asked.made.rig_line, asked.made.carries) == ("nylon 0.10 to 0.12 mm", "pole 4×12")
    assert asked.made.elastic == "elastic 3–4"
    assert asked.made.hook == "20 spade barbless" or asked.made.hook == "20 barbless spade"
    assert named.made.rig_line == "nylon 0.12 mm 1.6 kg"
    assert (named.made.tied_on, str(named.tied_on)) == ("2025-05-01", "2025-05-01")
    assert care.audit(desk).in_order


def test_stripped_or_lost_it_gives_back_nothing(desk: Desk) -> None:
    before = on_hand(desk)
    first, second = rigs.add(desk, {RIG: "2"}, {}, use={"float": "3"})[0].codes
    (stripped,) = rigs.strip(desk, [first])
    assert (stripped.back, stripped.in_tray_before) == ((), True)
    rigs.lose(desk, [second])
    assert on_hand(desk) == before
    assert care.audit(desk).in_order


def test_a_lost_one_is_no_loss_of_stock(desk: Desk) -> None:
    from tacklebox.matches.before.losses import read_losses

    rigs.lose(desk, rigs.add(desk, {RIG: "2"}, {}, use={"rig line": "2"})[0].codes)
    with desk.box.reading() as session:
        assert read_losses(session).by_item == {}


def test_it_is_ready_for_a_match_and_labelled(desk: Desk, tmp_path: Path) -> None:
    from tacklebox.matches.before.ready_rigs import ready_rigs
    from tacklebox.matches.files.match import WantedRig
    from tacklebox.matches.files.venue import Rules
    from tests.rigs.boxes import canal_rig

    codes = rigs.add(desk, {RIG: "2"}, {"plumbed": "1.4 m", "over": "2 in"})[0].codes
    want = WantedRig(recipe=RIG, count=2, choose={}), canal_rig(depth="1.45 m")
    with desk.box.reading() as session:
        for rules in (None, Rules(barbless=True)):
            assert ready_rigs(session, [want], rules)[0].codes == codes
    printed = labels.print_rigs(desk, tmp_path / "labels.pdf", labels.OnPaper("a4-21"), last=True)
    assert printed.codes == codes


def test_its_label_says_the_depth_and_that_it_was_there(desk: Desk) -> None:
    from tacklebox.printing.labels.wording import fields

    rigs.add(desk, {RIG: "1"}, {"plumbed": "5 ft", "over": "2 in"})
    rigs.add(desk, {RIG: "1"}, {}, on="2025-05-01")
    rigs.add(desk, {RIG: "1"}, {"plumbed": "4ft"})
    first, second, third = (
        {f.about: f.full for f in fields(rig.made)} for rig in rigs.listed(desk)
    )
    assert first["set for"] == "5 ft 2 in (5 ft, 2 in over)"
    assert third["set for"] == "4 ft (at dead depth)"
    assert (first["date"], second["date"]) == ("before, or bought", "1 May 2025")
    assert (first["line"], second["set for"]) == ("nylon 0.10 to 0.12 mm", "1.2 m")


def test_an_export_carries_it(desk: Desk, tmp_path: Path) -> None:
    rigs.add(desk, {RIG: "2"}, {"plumbed": "5 ft"}, use={"rig line": "2"})
    care.export(desk, tmp_path / "plain")
    other = Desk(tmp_path / "other")
    care.read_in(other, tmp_path / "plain")
    assert rigs.listed(other) == rigs.listed(desk)


@pytest.mark.parametrize(
    ("wanted", "more", "field"),
    [
        ({}, {}, "wanted"),
        ({RIG: "0"}, {}, f"wanted.{RIG}"),
        ({RIG: "some"}, {}, f"wanted.{RIG}"),
        ({"hooklength-fine": "10"}, {}, "wanted.hooklength-fine"),
        ({RIG: "1"}, {"use": {"rig line": "3"}}, "use.rig line"),
        ({RIG: "1"}, {"use": {"no part": "2"}}, "use.no part"),
        ({RIG: "1"}, {"on": "2027-01-01"}, "on"),
    ],
)
def test_what_cannot_be_is_refused_whole(
    desk: Desk, wanted: dict[str, str], more: dict[str, object], field: str
) -> None:
    both = {"feeder-window": "1", **wanted} if wanted else {}
    with pytest.raises(AskedWronglyError) as refused:
        rigs.add(desk, both, {}, **more)  # type: ignore[arg-type]
    assert refused.value.field == field
    assert rigs.listed(desk) == ()


def test_what_is_sent_twice_is_done_once(desk: Desk) -> None:
    rigs.add(desk.keyed("form 3"), {RIG: "1"}, {})
    with pytest.raises(AlreadyDoneError):
        rigs.add(desk.keyed("form 3"), {RIG: "1"}, {})
    assert len(rigs.listed(desk)) == 1


def test_one_of_which_nobody_knows_the_day_may_have_been_at_any_match(desk: Desk) -> None:
    rigs.add(desk, {RIG: "1"}, {})
    rigs.add(desk, {RIG: "1"}, {}, on=desk.today().isoformat())
    unknown, today = (row.code for row in rigs.listed(desk))
    before = desk.today() - timedelta(days=3)
    (desk.box.folder / "matches").mkdir(exist_ok=True)
    (desk.box.folder / "matches" / "canal.toml").write_text(
        f'name = "Open"\ndate = "{before}"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"\n'
        f'[[want]]\nrecipe = "{RIG}"\ncount = 1\n',
        encoding="utf-8",
    )
    with pytest.raises(AskedWronglyError, match=f"{today} was tied"):
        debriefs.write(desk, "canal", debriefs.DebriefAnswers(lost=[today]))
    assert debriefs.write(desk, "canal", debriefs.DebriefAnswers(lost=[unknown])).lost == (unknown,)
    assert care.audit(desk).in_order
