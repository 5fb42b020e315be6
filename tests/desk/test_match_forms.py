"""A match as a form: written, read again, its wants in another order, faults by field."""

from dataclasses import replace
from pathlib import Path

import pytest

from tacklebox.desk import Desk, match_forms, matches, plans
from tacklebox.desk.match_forms import WantRow
from tacklebox.desk.own_files import FieldFaultsError
from tacklebox.errors import AskedWronglyError
from tests.rigs.boxes import make_box

DAY = {
    "name": "Sunday at the pond",
    "date": "6 December 2099",
    "from": "9.30",
    "to": "14:30",
    "venue": "pond",
    "also": "landing net\nrod licence",
}
WANTS = (
    WantRow("pole-canal-shot", "2", "1", "depth = 1.5 m"),
    WantRow("hooklength-fine", "6", place="wallet"),
)


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    make_box(tmp_path / "box").engine.dispose()
    return Desk(tmp_path / "box")


def test_a_new_match_is_written_and_read_again(desk: Desk) -> None:
    name = match_forms.write(desk, DAY, WANTS)
    assert name == "sunday-at-the-pond"
    form = match_forms.form(desk, name)
    assert {key: form.values[key] for key in DAY} == DAY | {"date": "2099-12-06", "from": "09:30"}
    assert [replace(row, was="") for row in form.wants] == list(WANTS)
    assert matches.listed(desk).faults == ()


def test_what_is_chosen_needs_no_sign(desk: Desk) -> None:
    want = replace(WANTS[0], choose="depth 4 foot 6, float 4x14")
    form = match_forms.form(desk, match_forms.write(desk, DAY, [want]))
    assert form.wants[0].choose == "depth = 4 foot 6, float = 4x14"


@pytest.mark.parametrize("was", ["7", "99999999999999999999", "²", "x", "-1"])
def test_a_row_that_the_file_has_not_is_a_new_one(desk: Desk, was: str) -> None:
    for match in ("", "sunday-at-the-pond"):
        name = match_forms.write(desk, DAY, [replace(want, was=was) for want in WANTS], match)
        assert len(match_forms.form(desk, name).wants) == len(WANTS)


def test_feed_is_written_read_and_taken_away_again(desk: Desk) -> None:
    fed = {"feed.feeder": "40 ml", "feed.cast_every": "6", "feed.loose": "", "feed.loose_every": ""}
    name = match_forms.write(desk, DAY | fed, WANTS)
    form = match_forms.form(desk, name)
    assert {key: form.values[key] for key in fed} == fed
    loose = dict.fromkeys(fed, "") | {"feed.loose": "12"}
    match_forms.write(desk, {**form.values, **loose}, form.wants, name)
    assert match_forms.form(desk, name).values["feed.loose"] == "12"
    match_forms.write(desk, DAY | dict.fromkeys(fed, ""), form.wants, name)
    file = desk.box.folder / "matches" / f"{name}.toml"
    assert "feed" not in file.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("field", "words"),
    [("feed.feeder", "a lot"), ("feed.cast_every", "often"), ("feed.loose", "-3"),
     ("feed.loose", "a few"), ("feed.loose_every", "0")],
)  # fmt: skip
def test_feed_that_cannot_be_is_told_at_its_field(desk: Desk, field: str, words: str) -> None:
    with pytest.raises(FieldFaultsError) as refused:
        match_forms.write(desk, DAY | {"feed.loose": "10", field: words}, WANTS)
    assert set(refused.value.by_field) == {field}


def test_wants_change_places_with_their_notes_and_the_rest_of_the_file_stays(desk: Desk) -> None:
    file = matches.start(desk, "open", venue="pond", on="2099-12-06").file
    form = match_forms.form(desk, "open")
    swapped = (form.wants[1], replace(form.wants[0], count="4"), WantRow("stick-float", "2"))
    match_forms.write(desk, form.values, swapped, "open", version=form.version)
    again = match_forms.form(desk, "open")
    assert [row.recipe for row in again.wants] == [
        "hooklength-fine", "pole-canal-shot", "stick-float",
    ]  # fmt: skip
    assert again.wants[1].count == "4"
    text = file.read_text(encoding="utf-8")
    for note in ("# for the pack list", "# What you want to take", "# [feed]"):
        assert note in text or note == "# for the pack list"
    assert text.index('place = "hooklength wallet"') < text.index("depth =")


@pytest.mark.parametrize(
    ("row", "field"),
    [
        (WantRow("pole-canal-shott", "2"), "want 3.recipe"),
        (WantRow("", "2"), "want 3.recipe"),
        (WantRow("stick-float", "some"), "want 3.count"),
        (WantRow("stick-float", "0"), "want 3.count"),
        (WantRow("stick-float", "2", "x"), "want 3.spares"),
        (WantRow("stick-float", "2", choose="dpeth = 2 m"), "want 3.choose"),
        (WantRow("stick-float", "2", choose="2 m"), "want 3.choose"),
        (WantRow("stick-float", "2", choose="deep"), "want 3.choose"),
        (WANTS[0], "want 3"),
    ],
)
def test_a_want_that_cannot_be_is_told_at_its_field(desk: Desk, row: WantRow, field: str) -> None:
    with pytest.raises(FieldFaultsError) as refused:
        match_forms.write(desk, DAY, (*WANTS, row))
    assert set(refused.value.by_field) == {field}
    assert matches.listed(desk).matches == ()


def test_faults_of_the_day_stand_beside_those_of_wants(desk: Desk) -> None:
    with pytest.raises(FieldFaultsError) as refused:
        match_forms.write(
            desk,
            DAY | {"name": "", "date": "soon", "to": "25:00", "venue": ""},
            [WantRow("stick-float", "x"), WantRow("pole-canal-shot", "two")],
        )
    assert set(refused.value.by_field) == {"name", "date", "to", "venue", "want 1.count"}


def test_a_match_that_was_changed_meanwhile_is_not_written_over(desk: Desk) -> None:
    name = match_forms.write(desk, DAY, WANTS)
    form = match_forms.form(desk, name)
    match_forms.write(desk, DAY | {"also": ""}, WANTS, name, version=form.version)
    with pytest.raises(AskedWronglyError, match="changed elsewhere"):
        match_forms.write(desk, DAY, WANTS, name, version=form.version)


def test_it_is_planned_once_its_venue_is_there(desk: Desk) -> None:
    from tacklebox.desk import venue_forms

    venue_forms.write(desk, {"name": "Pond", "water": "still water"})
    name = match_forms.write(desk, DAY, WANTS)
    assert [want.tie for want in plans.plan(desk, name).wants] != []
