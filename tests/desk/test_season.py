"""The season: matches put together, what was lost at its price, fish before and after a change; by hand."""

import csv
import io
from datetime import date
from pathlib import Path

import pytest

from tacklebox.desk import Desk, bank, care, debriefs, match_forms, season, stock
from tacklebox.desk.debriefs import DebriefAnswers
from tacklebox.errors import AskedWronglyError
from tacklebox.matches.after.home_made import cost_of_batches
from tests.desk.boxes import copied
from tests.desk.water_box import DAY, make_water_box

TAPS = """3 | 2026-11-29 12:00:00 | change | rig A01T | says bulk lower
{fish}
90 | 2026-11-29 14:00:00 | day | bait pinkie
end | 90
"""


def record(desk: Desk) -> str:
    """One fish in the first two hours, nine in the two after the bulk went lower."""
    times = [
        "10:00",
        "12:10",
        "12:20",
        "12:30",
        "12:40",
        "12:50",
        "13:00",
        "13:10",
        "13:20",
        "13:30",
    ]
    fish = [
        f"{n} | 2026-11-29 {at}:00 | fish | species roach | rig A01T | weighs 100 g"
        for n, at in enumerate(times, 10)
    ]
    head = f"TACKLEBOX RECORD 1\nrecord | {desk.box.mark().box}/club/2026-11-29\nmatch | club\n"
    return head + "rigs | A01T A02R\n" + TAPS.format(fish="\n".join(fish))


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three matches: one in March at peg 14 and one in May at 20, of no rigs; "club" with a record."""
    folder = make_water_box(tmp_path_factory.mktemp("made") / "box")
    desk = Desk(folder, today=lambda: DAY)
    stock.edit(desk, "hook 20", price="2.00")
    stock.edit(desk, "pole 4×12", price="3.00")
    wanted = match_forms.form(desk, "club")
    for name, day in (("Spring", "2026-03-29"), ("May", "2025-05-10")):
        match_forms.write(desk, {**wanted.values, "name": name, "date": day}, wanted.wants)
    spring = DebriefAnswers(weight="2 kg", peg="14", place="4", points="9", water="7")
    debriefs.write(desk, "spring", spring)
    may = DebriefAnswers(weight="6 kg", peg="20", section="A", place="1", points="12", water="14")
    debriefs.write(desk, "may", may)
    found = bank.read_record(desk, "club", record(desk))
    said = DebriefAnswers(weight="4 kg", peg="14", place="2", points="11", water="8", lost=["A02R"],
                          tackle_lost={"hook 20": "3"})  # fmt: skip
    debriefs.write(desk, "club", bank.filled(found, said))
    desk.close()
    return folder


@pytest.fixture
def desk(made: Path, tmp_path: Path) -> Desk:
    found = copied(made, tmp_path)
    found.today = lambda: DAY
    return found


def test_a_venue_adds_up_by_hand(desk: Desk) -> None:
    found = season.season(desk)
    (row,) = found.rows
    assert (row.name, row.matches, row.mean_g, row.best_g) == ("canal", 3, 4000, 6000)
    assert row.mean_place == pytest.approx((4 + 1 + 2) / 3)
    assert (row.points, row.fish) == (32, 10)
    assert [one.match for one in found.matches] == ["may", "spring", "club"]
    assert found.years == (2026, 2025)


@pytest.mark.parametrize(
    ("by", "rows"),
    [
        ("peg", [("canal, peg 14", 2, 3000), ("canal, peg 20", 1, 6000)]),
        ("section", [("A", 1, 6000)]),
        ("method", [("pole", 1, 4000)]),
        ("bait", [("pinkie", 1, 4000)]),
        ("water", [("5 to 10 °C", 2, 3000), ("10 to 15 °C", 1, 6000)]),
    ],
)
def test_matches_are_put_together_by_what_is_asked(
    desk: Desk, by: str, rows: list[tuple[str, int, float]]
) -> None:
    found = season.season(desk, by=by)
    assert [(row.name, row.matches, row.mean_g) for row in found.rows] == rows


@pytest.mark.parametrize("by", ["rig", "hooklength", "method"])
def test_fish_that_were_tapped_for_a_rig_count_for_it(desk: Desk, by: str) -> None:
    found = season.season(desk, by=by)
    assert [(row.matches, row.fish) for row in found.rows] == [(1, 10)]


def test_one_year_and_one_venue(desk: Desk) -> None:
    assert [one.match for one in season.season(desk, year="2025").matches] == ["may"]
    assert len(season.season(desk, venue="canal").matches) == 3
    for wrong in ({"year": "2020"}, {"year": "x"}, {"venue": "pond"}, {"by": "moon"}):
        with pytest.raises(AskedWronglyError) as refused:
            season.season(desk, **wrong)  # type: ignore[arg-type]
        assert refused.value.field == next(iter(wrong))


def test_hooklengths_that_were_tied_at_home_cost_what_was_tied_into_them(desk: Desk) -> None:
    item = next(i.number for i in stock.listed(desk).items if i.name.startswith("hooklength"))
    with desk.box.reading() as session:
        assert cost_of_batches(session, [item]) == {}  # the line has no price
    stock.edit(desk, "nylon 0.08", price="10.00")
    with desk.box.reading() as session:
        # by hand: four hooks of ten at 2.00, and 1.4 m of 50 m at 10.00
        assert cost_of_batches(session, [item]) == {item: (4, 80 + 28)}
    before = season.season(desk).matches[-1].lost_cents
    hooklengths = DebriefAnswers(tackle_lost={"hook 20": "3", str(item): "2"})
    debriefs.write(desk, "club", hooklengths, correct=True, only_changes=True)
    club = season.season(desk).matches[-1]
    assert (club.lost_cents - before, club.unpriced) == (54, 3)  # half of that
    assert club.lost.endswith(", 3 prices missing")
    read = season.season(desk)
    assert read.lost.endswith(f", {sum(one.unpriced for one in read.matches)} prices missing")
    assert any(row.lost.endswith("missing") for row in read.rows)


def test_what_was_lost_is_told_at_the_price_of_today(desk: Desk) -> None:
    club = season.season(desk).matches[-1]
    # by hand: three hooks of a packet of ten at 2.00, and the float of the rig that was lost
    assert club.lost_cents == 3 * 20 + 300
    assert club.unpriced > 0


def test_a_change_is_told_with_its_counts_and_chance(desk: Desk) -> None:
    (change,) = season.season(desk).changes
    assert (change.at, change.words) == ("12:00", "bulk lower")
    assert (change.before, change.before_min, change.after, change.after_min) == (1, 120, 9, 120)
    # by hand: P(X >= 9) of ten at a half is (10 + 1) / 1024
    assert change.chance == "chance alone: about 1 time in 100"


def test_a_peg_has_its_history(desk: Desk) -> None:
    found = season.at_peg(desk, "canal", "14", before=date(2026, 11, 29))
    assert [(one.match, one.weight_g) for one in found] == [("spring", 2000)]
    page = io.BytesIO()
    care.undo(desk)
    bank.page(desk, "club", page)
    assert "14: <span" in page.getvalue().decode()


def test_the_matches_are_written_for_a_spreadsheet(desk: Desk, tmp_path: Path) -> None:
    file = tmp_path / "season.csv"
    season.season(desk, to=file)
    rows = list(csv.DictReader(file.read_text(encoding="utf-8").splitlines()))
    assert [row["weight g"] for row in rows] == ["6000", "2000", "4000"]
    assert [row["baits"] for row in rows] == ["", "", "pinkie"]
    assert rows[2]["species"] == "roach 10 1000 g"
    assert rows[2]["fish on rigs"] == "A01T 10"
    assert rows[2]["changes"] == "12:00 bulk lower: 1 in 120 min, then 9 in 120 min"
    assert (rows[2]["methods"], rows[2]["rig names"]) == ("pole", "Canal pole, shot")
    with pytest.raises(AskedWronglyError, match="there already"):
        season.season(desk, to=file)


def test_plots_have_axes_and_a_title(desk: Desk) -> None:
    found = season.plots(season.season(desk, by="peg"))
    for title, drawn in found:
        assert title
        assert 'role="img"' in drawn
    assert [drawn.count("<circle") for _, drawn in found] == [3, 3, 0, 0]
    assert [drawn.count("<rect") for _, drawn in found] == [0, 0, 2, 1]
    assert season.plots(season.season(desk, year="2025"))


def test_of_a_box_without_debriefs_nothing_is_said(tmp_path: Path) -> None:
    found = season.season(Desk(tmp_path / "box"))
    assert (found.matches, found.rows, season.plots(found)) == ((), (), ())
