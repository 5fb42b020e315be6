"""Line past its age: told on its spool and its reel, by common practice or as the angler sets it."""

from datetime import date
from pathlib import Path

import pytest

from tacklebox.desk import Desk, ageing, care, low, reels, stock
from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.tying.tie import tie
from tacklebox.stock.finding import find
from tacklebox.stock.line_age import oldest_on_hand
from tests.desk.boxes import copied, make_desk
from tests.rigs.boxes import CANAL, fine_hooklength

LATER = date(2027, 3, 5)  # a year after today
SPOOL = "nylon 0.08 mm 0.7 kg", "", "1 year"
IN_WALLET = "hooklength 20 barbless spade to 0.08 mm 0.7 kg 15 cm", "", "1 year"
HOOKLENGTH, REEL, TOP_KIT = "hooklength line", "line on a reel", "elastic in a top kit"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A year-old spool that hooklengths were tied from, beside one that none were; a loaded reel."""
    folder = tmp_path_factory.mktemp("old") / "box"
    desk = make_desk(folder, *CANAL)
    tie(desk.box, fine_hooklength(), 3, desk.today())
    reels.add(desk, ["feeder reel"])
    reels.load(desk, "feeder reel", "nylon 0.22 mm 6 lb", "100 m", already=True, on="2025-03-05")
    desk.close()
    return folder


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    desk = copied(made, tmp_path)
    desk.today = lambda: LATER
    return desk


def old(desk: Desk) -> list[tuple[str, str, str]]:
    return [(one.item.name, one.reel, one.age) for one in ageing.old_lines(desk)]


def test_hooklength_line_is_renewed_every_season_by_common_practice(desk: Desk) -> None:
    first = ageing.limits(desk)
    assert [(one.what, one.age, one.source) for one in first] == [
        (HOOKLENGTH, "a season", "common practice"),
        (REEL, "", ""),
        (TOP_KIT, "", ""),
    ]
    assert old(desk) == [SPOOL, IN_WALLET]
    assert low.runs_low(desk, {}, {}).past_age == ageing.old_lines(desk)
    desk.today = lambda: date(2027, 3, 4)
    assert old(desk) == []


def test_the_angler_sets_his_own_ages_and_takes_that_back(desk: Desk) -> None:
    ageing.set_limits(desk, {REEL: "2 years", HOOKLENGTH: "never"})
    assert old(desk) == [("nylon 0.22 mm 6 lb", "feeder reel", "2 years")]
    assert ageing.limits(desk)[1].source == "as you set it"
    ageing.set_limits(desk, {REEL: "25 months"})
    assert old(desk) == []
    care.undo(desk)
    care.undo(desk)
    assert old(desk) == [SPOOL, IN_WALLET]
    care.redo(desk)
    ageing.set_limits(desk, {HOOKLENGTH: ""})
    assert old(desk)[1:] == [SPOOL, IN_WALLET]
    assert care.audit(desk).in_order


def test_a_new_spool_leaves_the_old_line_on_top_of_it(desk: Desk) -> None:
    """The oldest goes first: what is left of the old spool stays old until it is used up."""
    stock.buy(desk, "1", on="2027-03-01")
    assert SPOOL in old(desk)
    stock.count(desk, "1", "50 m")
    assert old(desk) == [IN_WALLET]
    with desk.box.reading() as session:
        assert oldest_on_hand(session, find(session, "1")) == date(2027, 3, 1)


def test_an_export_carries_what_was_set(desk: Desk, tmp_path: Path) -> None:
    ageing.set_limits(desk, {REEL: "18 months"})
    reels.load(desk, "feeder reel", "2", "20 m", instead=True, backing="old 0.25")
    care.export(desk, tmp_path / "plain")
    other = Desk(tmp_path / "other")
    care.read_in(other, tmp_path / "plain")
    assert ageing.limits(other) == ageing.limits(desk)
    assert reels.listed(other) == reels.listed(desk)
    assert reels.listed(other)[0].backing == "old 0.25"
    assert care.audit(other).in_order


@pytest.mark.parametrize(
    ("ages", "field"), [({"bait": "a year"}, "what"), ({REEL: "old"}, f"age.{REEL}")]
)
def test_what_is_no_age_is_refused_by_its_field(
    desk: Desk, ages: dict[str, str], field: str
) -> None:
    before = ageing.limits(desk)
    with pytest.raises(AskedWronglyError) as refused:
        ageing.set_limits(desk, {HOOKLENGTH: "never", **ages})
    assert refused.value.field == field
    assert ageing.limits(desk) == before


def test_the_name_of_a_retired_reel_is_free(desk: Desk) -> None:
    reels.retire(desk, "feeder reel")
    reels.add(desk, ["Feeder reel"])
    assert [row.reel for row in reels.listed(desk)] == ["Feeder reel"]
    assert care.audit(desk).in_order
