"""What was taken to a match: ready rigs of its wants, and what an earlier debrief said."""

from contextlib import suppress
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.after.account import Account
from tacklebox.matches.after.debrief import refuse_coming, write_debrief
from tacklebox.matches.after.taken import Taken, what_was_taken
from tacklebox.matches.files.match import Match, WantedRig, parse_match
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.tying.tie import tie
from tacklebox.rigs.tying.tied import mark_lost
from tacklebox.stock.care.box import Box
from tacklebox.trade.quantities import G_PER_OZ, WEIGHED_LIMIT_G, read_weighed_g
from tacklebox.trade.units_first import show_weighed
from tests.rigs.boxes import DAY, canal_rig, make_box, short_rig

TODAY = date(2026, 7, 1)
HOOK, SHOT = "hook 20 barbless spade", "shot No 8 tin"


def match(day: str = "2026-06-20") -> Match:
    head = f'name = "O"\ndate = "{day}"\nfrom = "10:00"\nto = "15:00"\nvenue = "pond"\n'
    return parse_match(f'{head}[[want]]\nrecipe = "short-rig"\ncount = 2\n', "open")


def taken(box: Box, *wants: Resolved | None, day: str = "2026-06-20") -> Taken:
    asked = [(WantedRig(recipe="short-rig", count=2), resolved) for resolved in wants]
    return what_was_taken(box, match(day), asked)


def test_ready_rigs_of_the_wants_that_were_tied_by_then(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    tie(box, short_rig(), 2, DAY)  # A01T, A02R
    tie(box, short_rig(length="20 cm"), 1, DAY)  # A03P, not wanted
    tie(box, canal_rig(), 1, DAY)  # A04N
    tie(box, short_rig(), 1, date(2026, 6, 21))  # a day too late
    mark_lost(box, ["A01T"], DAY)
    answer = taken(box, short_rig(), canal_rig())
    assert [(g.name, g.codes) for g in answer.groups] == [
        ("Short rig, length 15 cm", ("A02R",)),
        ("Canal pole, shot, 4×12, depth 1.2 m", ("A04N",)),
    ]
    assert [item.name for item in answer.tackle] == [HOOK, SHOT, "shot No 10 tin"]
    assert answer.others == ("A03P",)
    assert (answer.before, answer.only_back) == (None, {})


def test_a_recipe_that_is_gone_counts_by_its_name(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    tie(box, short_rig(), 1, DAY)
    tie(box, short_rig(length="20 cm"), 1, DAY)
    assert [g.codes for g in taken(box, None).groups] == [("A01T", "A02R")]


def test_what_an_earlier_debrief_told_is_taken_too(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    tie(box, short_rig(), 3, DAY)
    tie(box, canal_rig(), 1, DAY)
    first = Account(["A01T"], ["A02R"], ["A04N"], ["A01T"], {HOOK: "3", "connector": "1"})
    write_debrief(box, match(), first, TODAY)
    answer = taken(box, short_rig())
    assert [g.codes for g in answer.groups] == [("A01T", "A02R", "A03P"), ("A04N",)]
    assert answer.before is not None
    assert dict(answer.before.became) == {"A01T": "back", "A02R": "lost", "A04N": "worn out"}
    assert answer.before.did_well == {"A01T"}
    items = {item.name: item for item in answer.tackle}
    assert "connector" in items  # no hook nor shot, but told of before
    assert answer.had(items[HOOK]) == 7  # four are left, three come back
    assert [(item.name, amount) for item, amount in answer.before.lost] == [
        (HOOK, 3),
        ("connector", 1),
    ]
    assert answer.before.account == first


def test_a_match_that_is_still_to_come() -> None:
    refuse_coming(match(), date(2026, 6, 20))
    with pytest.raises(AskedWronglyError, match="has not come yet"):
        refuse_coming(match(), date(2026, 6, 19))


@pytest.mark.parametrize("weight_g", [5443.1, 5400.0, 85.0, 999.7, 22679.6, 136077.7, 0.0])
def test_a_weight_is_read_back_as_it_was_written(weight_g: float) -> None:
    """To the 10 g, and the ounce, to which it is told; small ones to the gram."""
    near = 5.0 if weight_g >= 999.5 else 0.5
    assert read_weighed_g(show_weighed(weight_g)) == pytest.approx(weight_g, abs=near)
    if weight_g:
        imperial = show_weighed(weight_g).partition("(")[2].removesuffix(")")
        assert read_weighed_g(imperial) == pytest.approx(weight_g, abs=G_PER_OZ / 2)


@pytest.mark.parametrize(
    ("said", "ounces"),
    [
        ("12 lb 8", 200), ("12-8", 200), ("12 lb 8 oz", 200), ("12lb8", 200), ("0-8", 8),
        ("12 lb 7,5", 199.5), ("0", 0), ("0 kg", 0), ("0.0 kg", 0), ("0 lb 0 oz", 0), ("0-0", 0),
    ],
)  # fmt: skip
def test_weights_in_pounds_and_ounces(said: str, ounces: float) -> None:
    assert read_weighed_g(said) == pytest.approx(ounces * G_PER_OZ, rel=1e-12)


@given(st.text("0123456789 -–.,()lbozkgLK", max_size=90) | st.text(max_size=90))
def test_any_words_are_a_weight_or_told_to_be_none(said: str) -> None:
    """Any other error fails the test."""
    with suppress(AskedWronglyError):
        assert 0 <= read_weighed_g(said) <= WEIGHED_LIMIT_G


@given(st.integers(0, 600), st.integers(0, 15))
def test_pounds_and_ounces_are_told_as_they_were_said(pounds: int, ounces: int) -> None:
    answer = show_weighed(read_weighed_g(f"{pounds}-{ounces}"))
    words = " ".join(f"{n} {unit}" for n, unit in ((pounds, "lb"), (ounces, "oz")) if n)
    assert answer.startswith(f"{words} (" if words else "0 kg (a blank)")
