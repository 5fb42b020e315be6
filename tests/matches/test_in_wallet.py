"""A plan and what runs low count the hooklengths that the wallet holds already."""

from pathlib import Path

import pytest

from tacklebox.matches.before.low import Want, look_ahead
from tacklebox.matches.before.plan import make_plan
from tacklebox.matches.before.tie_plan import portions_of, tie_portions
from tacklebox.matches.dividing.allotting import allot
from tacklebox.matches.files.match import WantedRig
from tacklebox.matches.files.venue import Rules
from tacklebox.rigs.tying.tie import tie
from tacklebox.stock.care.box import Box
from tests.rigs.boxes import DAY, add, fine_hooklength, make_box, on_hand

NAME = "hooklength 20 barbless spade to 0.08 mm 0.7 kg 15 cm"


@pytest.fixture
def box(tmp_path: Path) -> Box:
    """Hooks for ten; six are tied of 15 cm."""
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m", "hook 20 barbless spade pack 10")
    tie(box, fine_hooklength(), 6, DAY)
    return box


def wanted(count: int, **choose: str) -> tuple[WantedRig, object]:
    return (
        WantedRig(recipe="hooklength-fine", count=count, choose=choose),
        fine_hooklength(**choose),
    )


def test_a_plan_takes_from_the_wallet_then_ties_then_buys(box: Box) -> None:
    plan = make_plan(box, [wanted(12)])  # type: ignore[list-item]
    (want,) = plan.wants
    assert [(s.item.name, count) for s, count in want.from_wallet] == [(NAME, 6)]
    assert (want.has, want.tie, want.unmet) == (6, 4, 2)
    assert [(p.item.name, p.packs) for p in plan.purchases] == [("hook 20 barbless spade", 1)]
    forecast = {f.item.name: (f.planned, f.left, f.is_taken) for f in plan.forecasts}
    assert forecast[NAME] == (0, 6, True)
    tie_portions(box, portions_of(plan), DAY)
    assert on_hand(box)[NAME] == 10


def test_hooklengths_serve_one_want_each(box: Box) -> None:
    first, second = make_plan(box, [wanted(4), wanted(5, length="6 in")]).wants  # type: ignore[list-item]
    assert (first.has, first.tie) == (4, 0)
    assert (second.has, second.tie) == (2, 3)


def test_those_that_the_water_does_not_allow_stay_at_home(box: Box) -> None:
    rules = Rules(least_hooklength="16 cm")
    plan = make_plan(box, [wanted(3)], rules)  # type: ignore[list-item]
    (want,) = plan.wants
    assert not want.from_wallet
    assert [(name, rule.words) for name, rule in want.barred] == [
        (NAME, "hooklength at least 16 cm")
    ]


def test_what_runs_low_counts_them(box: Box) -> None:
    outlook = look_ahead(box, [Want(fine_hooklength(), 12)])
    (reach,) = outlook.reaches
    assert (reach.ready, reach.can_tie) == (6, 4)
    assert [stop.part for stop in reach.stopped_by] == ["hook"]
    assert NAME in {f.item.name for f in outlook.forecasts}


def test_what_is_tied_at_home_is_short_but_not_bought(box: Box) -> None:
    from tacklebox.stock.entering import edit_item
    from tacklebox.stock.finding import find
    from tacklebox.stock.ledger import begin

    add(box, "hooklength 18 barbless spade to 0.10 mm 20 cm pack 10", minimum="20")
    with box.writing() as session:
        begin(session, "edit", DAY)
        edit_item(session, find(session, NAME), minimum="10")
    outlook = look_ahead(box, [])
    assert [item.name for item in outlook.short] == [
        NAME,
        "hooklength 18 barbless spade to 0.10 mm 20 cm",
    ]
    assert [p.item.name for p in outlook.purchases] == [
        "hooklength 18 barbless spade to 0.10 mm 20 cm"
    ]


@pytest.mark.parametrize(
    ("want", "serving", "there", "given"),
    [
        ([3], [[1, 2]], {1: 2, 2: 2}, [3]),
        ([4, 3], [[1, 2], [1]], {1: 4, 2: 3}, [4, 3]),  # the first gives way, and loses nothing
        ([3, 3], [[1], [1]], {1: 4}, [3, 1]),
        ([2, 2, 2], [[1], [1, 2], [2, 3]], {1: 2, 2: 2, 3: 2}, [2, 2, 2]),
        ([0, 1], [[], [1]], {1: 1}, [0, 1]),
    ],
)
def test_the_most_for_the_first_then_for_the_next(
    want: list[int], serving: list[list[int]], there: dict[int, int], given: list[int]
) -> None:
    found = allot(want, serving, there)
    assert [sum(one.values()) for one in found] == given
    for item, count in there.items():
        assert sum(one.get(item, 0) for one in found) <= count
