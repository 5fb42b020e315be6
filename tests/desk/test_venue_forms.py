"""A venue's board as a form: written, read again, what is wrong by its field, notes kept."""

from pathlib import Path

import pytest

from tacklebox.desk import Desk, venue_forms, venues
from tacklebox.desk.own_files import FieldFaultsError
from tacklebox.errors import AskedWronglyError
from tacklebox.matches.files.venue import parse_venue

BOARD = {
    "name": "Bottom Pond, match lake",
    "water": "still water",
    "country": "England",
    "depths": "80 cm to 2.5 m",
    "overhead_lines": "1",
    "close_season": "no",
    "rules.largest_hook": "10",
    "rules.barbless": "1",
    "rules.methods_banned": "method feeder, pole",
    "read": "No keepnets in July.\n\nLanding nets from the hut.",
    "keepnet.nets": "2",
    "keepnet.length": "3.5 m",
}


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return Desk(tmp_path / "box")


def test_a_new_venue_is_named_after_what_it_is_called_and_read_again(desk: Desk) -> None:
    name = venue_forms.write(desk, BOARD)
    assert name == "bottom-pond-match-lake"
    said = venue_forms.form(desk, name).values
    assert {key: said[key] for key in BOARD if key != "read"} == {
        key: value for key, value in BOARD.items() if key != "read"
    }
    assert said["read"].splitlines() == ["No keepnets in July.", "Landing nets from the hut."]
    assert [rule.says for rule in venues.show(desk, name).rules if "arbless" in rule.rule]
    assert venue_forms.write(desk, BOARD) == "bottom-pond-match-lake-2"


def test_a_venue_says_which_fish_go_into_which_net_and_how_much(desk: Desk) -> None:
    from tacklebox.matches.files.venue import Venues

    nets = {"keepnet.fish_per_net": "60 lb", "keepnet.silvers_per_net": "40 lb",
            "keepnet.in_carp_nets": "carp, f1s, Tench"}  # fmt: skip
    name = venue_forms.write(desk, BOARD | nets)
    own = Venues(desk.box.folder / "venues").load(name).keepnet
    assert {fish for fish, net in own.net_of.items() if net == "carp"} == {"carp", "F1", "tench"}
    assert own.most_g("silvers") == pytest.approx(40 * 453.59237)
    assert own.most_g("carp") == pytest.approx(60 * 453.59237)
    assert any("f1s" in words for words in own.words(None))
    usual = Venues(desk.box.folder / "venues").load(venue_forms.write(desk, BOARD)).keepnet
    assert {fish for fish, net in usual.net_of.items() if net == "carp"} == {"carp", "F1", "barbel"}
    assert usual.most_g("carp") is None
    with pytest.raises(FieldFaultsError) as refused:
        venue_forms.write(desk, BOARD | {"keepnet.in_carp_nets": "teapot"})
    assert list(refused.value.by_field) == ["keepnet.in_carp_nets"]


def test_notes_in_the_file_stay_and_what_is_emptied_goes(desk: Desk) -> None:
    file = venues.start(desk, "canal").file
    form = venue_forms.form(desk, "canal")
    changed = dict(form.values) | {"rules.largest_hook": "", "depths": "1 m to 2 m"}
    venue_forms.write(desk, changed, "canal", version=form.version)
    text = file.read_text(encoding="utf-8")
    assert "largest_hook" not in text
    assert 'depths = "1 m to 2 m"' in text
    assert "# Keepnets, where the venue asks for more" in text
    kept = list((desk.box.folder).rglob("1.toml"))
    assert ["largest_hook" in path.read_text(encoding="utf-8") for path in kept] == [True]


def test_faults_stand_at_their_fields_and_nothing_is_written(desk: Desk) -> None:
    wrong = {
        "rules.largest_hook": "teapot",
        "keepnet.length": "1 m",
        "rules.methods_banned": "dynamite",
    }
    with pytest.raises(FieldFaultsError) as refused:
        venue_forms.write(desk, BOARD | wrong)
    assert set(refused.value.by_field) == {"rules.largest_hook", "rules.methods_banned"}
    assert venues.listed(desk).venues == ()
    with pytest.raises(FieldFaultsError) as refused:
        venue_forms.write(desk, BOARD | {"keepnet.length": "1 m"})
    assert set(refused.value.by_field) == {"keepnet.length"}
    every = {"keepnet.nets": "some", "name": "?!", "rules.largest_hook": "teapot"}
    with pytest.raises(FieldFaultsError) as refused:
        venue_forms.write(desk, BOARD | every)  # all of them at once
    assert set(refused.value.by_field) == set(every)
    assert "rules.largest_hook" not in refused.value.by_field["rules.largest_hook"]


def test_beside_a_field_no_key_of_the_file_is_named(desk: Desk) -> None:
    """As the form calls its fields; in the file the keys are what helps."""
    for wrong, says in (
        ({"rules.least_hooklength": "1 m", "rules.greatest_hooklength": "50 cm"},
         "1 m is above the greatest hooklength, 50 cm: no hooklength can pass both."),
        ({"rules.materials_banned": "nylon, fluorocarbon", "rules.no_braid_main_line": "1"},
         "no main line is left: all others are among the banned materials."),
        ({"rules.methods_banned": "teapot"},
         "Else write it in words among the rules that only you can judge."),
    ):  # fmt: skip
        with pytest.raises(FieldFaultsError) as refused:
            venue_forms.write(desk, BOARD | wrong)
        (said,) = refused.value.by_field.values()
        assert said.endswith(says)
    with pytest.raises(AskedWronglyError, match='under "read"'):
        parse_venue('name = "Pond"\nwater = "canal"\n[rules]\nmethods_banned = ["teapot"]', "pond")


def test_notes_keep_their_lines(desk: Desk) -> None:
    name = venue_forms.write(desk, BOARD | {"notes": "mind the ducks\r\ngate shuts at six\r\n"})
    assert venue_forms.form(desk, name).values["notes"] == "mind the ducks\ngate shuts at six"


def test_a_file_that_was_changed_meanwhile_is_not_written_over(desk: Desk) -> None:
    name = venue_forms.write(desk, BOARD)
    form = venue_forms.form(desk, name)
    venue_forms.write(desk, BOARD | {"notes": "first"}, name, version=form.version)
    with pytest.raises(AskedWronglyError, match="changed elsewhere"):
        venue_forms.write(desk, BOARD | {"notes": "second"}, name, version=form.version)
    assert venue_forms.form(desk, name).values["notes"] == "first"
