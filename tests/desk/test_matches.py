"""Matches of the box: which there are, and how a new one is begun."""

from datetime import date
from pathlib import Path

import pytest

from tacklebox.desk import Desk, match_forms, matches, recipes, venues
from tacklebox.desk.rulings import About
from tacklebox.errors import AskedWronglyError
from tests.desk.boxes import MATCH_DAY, change, desk_at


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A desk with the starting file of the venue "pond"."""
    made = desk_at(tmp_path)
    venues.start(made, "pond")
    return made


def test_a_new_match_is_a_file_of_ones_own(desk: Desk, tmp_path: Path) -> None:
    started = matches.start(desk, "open", venue="pond", on="Saturday 20 June")
    assert (started.match, started.file) == ("open", tmp_path / "matches" / "open.toml")
    assert started.on == date(2026, 6, 20)
    assert (started.is_past, started.has_venue, started.not_allowed) == (False, True, ())
    with pytest.raises(AskedWronglyError, match="already"):
        matches.start(desk, "open", venue="pond", on=MATCH_DAY)


def wants_of(desk: Desk, match: str) -> list[tuple[str, int, dict[str, str]]]:
    wants = matches.matches_of(desk).load(match).want
    return [(want.recipe, want.count, want.choose) for want in wants]


def test_it_wants_what_is_asked_else_as_the_latest_else_his_own_recipes(desk: Desk) -> None:
    first = matches.start(desk, "open", venue="pond", on=MATCH_DAY)
    assert (first.wants_as_at, first.wants_own, first.is_example) == ("", False, True)
    first.file.unlink()
    recipes.start(desk, "my-fine", like="hooklength-fine")
    recipes.start(desk, "my-whip", like="whip-to-hand")
    own = matches.start(desk, "open", venue="pond", on=MATCH_DAY)
    assert (own.wants_as_at, own.wants_own, own.is_example) == ("", True, False)
    assert wants_of(desk, "open") == [("my-whip", 2, {}), ("my-fine", 6, {})]
    matches.start(
        desk, "second", venue="pond", on="2026-06-21",
        wanted={"pole-canal-shot": "4", "hooklength-fine": "10"},
        choices={"depth": "5 ft", "hook": "20"},
    )  # fmt: skip
    asked = [
        ("pole-canal-shot", 4, {"depth": "5 ft", "hook": "20"}),
        ("hooklength-fine", 10, {"hook": "20"}),
    ]
    assert wants_of(desk, "second") == asked
    third = matches.start(desk, "third", venue="pond", on=MATCH_DAY)
    assert (third.wants_as_at, third.wants_own, third.is_example) == ("second", False, False)
    assert wants_of(desk, "third") == asked
    assert [row.recipe for row in match_forms.form(desk).wants] == [name for name, _, _ in asked]
    with pytest.raises(AskedWronglyError, match="no count"):
        matches.start(desk, "more", venue="pond", on="", wanted={"pole-canal-shot": "101"})


def test_its_venue_may_come_later(tmp_path: Path) -> None:
    desk = desk_at(tmp_path)
    started = matches.start(desk, "open", venue="weir.toml", on=MATCH_DAY)
    assert (started.venue, started.has_venue) == ("weir", False)


def test_a_day_that_is_closed_or_past_is_told_at_once(desk: Desk, tmp_path: Path) -> None:
    change(tmp_path / "venues" / "pond.toml", ('"still water"', '"river"'))
    closed = matches.start(desk, "spring", venue="pond", on="2026-05-01")
    assert [ruling.rule.about for ruling in closed.not_allowed] == [About.CLOSE_SEASON]
    assert matches.start(desk, "autumn", venue="pond", on="2025-10-01").is_past


def test_a_venue_that_cannot_be_read_does_not_stop_a_start(desk: Desk, tmp_path: Path) -> None:
    (tmp_path / "venues" / "pond.toml").write_text("name = 1", encoding="utf-8")
    assert matches.start(desk, "open", venue="pond", on=MATCH_DAY).has_venue


@pytest.mark.parametrize(("venue", "on"), [("The Pond", MATCH_DAY), ("pond", "soon"), ("pond", "")])
def test_what_cannot_be_is_refused(desk: Desk, venue: str, on: str) -> None:
    if on:
        with pytest.raises(AskedWronglyError):
            matches.start(desk, "open", venue=venue, on=on)
    else:  # without a day it is today
        assert matches.start(desk, "open", venue=venue, on=on).on == date(2026, 3, 5)


def test_matches_are_listed_the_earliest_first(desk: Desk, tmp_path: Path) -> None:
    matches.start(desk, "late", venue="pond", on=MATCH_DAY)
    matches.start(desk, "early", venue="pond", on="2026-03-14")
    (tmp_path / "matches" / "faulty.toml").write_text("name = 1", encoding="utf-8")
    found = matches.listed(desk)
    assert [(m.match, m.begins, m.debriefed) for m in found.matches] == [
        ("early", "10:00", False),
        ("late", "10:00", False),
    ]
    assert [fault.what.partition(":")[0] for fault in found.faults] == ["faulty.toml"]
