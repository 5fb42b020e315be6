"""What was taken to a match: ready rigs of its wants, and what an earlier debrief said."""

from datetime import date
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.debrief import Told, debrief
from tacklebox.matches.match import Match, WantedRig, parse_match
from tacklebox.matches.taken import Taken, refuse_coming, what_was_taken, write_weight
from tacklebox.rigs.resolved import Resolved
from tacklebox.rigs.tie import tie
from tacklebox.rigs.tied import mark_lost
from tacklebox.stock.box import Box
from tacklebox.trade.quantities import read_mass_g
from tests.rigs.boxes import DAY, canal_rig, fine_hooklength, make_box

TODAY = date(2026, 7, 1)
HOOK, SHOT = "hook 20 barbless spade", "shot No 8 tin"


def match(day: str = "2026-06-20") -> Match:
    head = f'name = "O"\ndate = "{day}"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"\n'
    return parse_match(f'{head}[[want]]\nrecipe = "hooklength-fine"\ncount = 2\n', "open")


def taken(box: Box, *wants: Resolved | None, day: str = "2026-06-20") -> Taken:
    asked = [(WantedRig(recipe="hooklength-fine", count=2), resolved) for resolved in wants]
    return what_was_taken(box, match(day), asked)


def test_ready_rigs_of_the_wants_that_were_tied_by_then(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    tie(box, fine_hooklength(), 2, DAY)  # A01T, A02R
    tie(box, fine_hooklength(length="20 cm"), 1, DAY)  # A03P, not wanted
    tie(box, canal_rig(), 1, DAY)  # A04N
    tie(box, fine_hooklength(), 1, date(2026, 6, 21))  # a day too late
    mark_lost(box, ["A01T"], DAY)
    told = taken(box, fine_hooklength(), canal_rig())
    assert [(g.name, g.codes) for g in told.groups] == [
        ("Fine hooklength, 15 cm", ("A02R",)),
        ("Canal pole, shot, 4×12, depth 120 cm", ("A04N",)),
    ]
    assert [item.name for item in told.loose] == [HOOK, SHOT, "shot No 10 tin"]
    assert told.before is None


def test_a_recipe_that_is_gone_counts_by_its_name(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    tie(box, fine_hooklength(), 1, DAY)
    tie(box, fine_hooklength(length="20 cm"), 1, DAY)
    assert [g.codes for g in taken(box, None).groups] == [("A01T", "A02R")]


def test_what_an_earlier_debrief_told_is_taken_too(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    tie(box, fine_hooklength(), 3, DAY)
    tie(box, canal_rig(), 1, DAY)
    first = Told(["A01T"], ["A02R"], ["A04N"], ["A01T"], {HOOK: "3", "connector": "1"})
    debrief(box, match(), first, TODAY)
    told = taken(box, fine_hooklength())
    assert [g.codes for g in told.groups] == [("A01T", "A02R", "A03P"), ("A04N",)]
    assert told.before is not None
    assert dict(told.before.became) == {"A01T": "back", "A02R": "lost", "A04N": "spent"}
    assert told.before.did_well == {"A01T"}
    items = {item.name: item for item in told.loose}
    assert "connector" in items  # no hook nor shot, but told of before
    assert told.had(items[HOOK]) == 7  # four are left, three come back
    assert {items[HOOK].id: 3, items["connector"].id: 1} == told.before.lost


def test_a_match_that_is_still_to_come() -> None:
    refuse_coming(match(), date(2026, 6, 20))
    with pytest.raises(AskedWronglyError, match="has not come yet"):
        refuse_coming(match(), date(2026, 6, 19))


@pytest.mark.parametrize("weight_g", [5443.1, 5400.0, 85.0, 22679.6])
def test_a_weight_is_read_back_as_it_was_written(weight_g: float) -> None:
    assert read_mass_g(write_weight(weight_g)) == pytest.approx(weight_g, rel=1e-7)
