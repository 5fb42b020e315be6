"""A plan and what runs low count the hooklengths that the wallet holds already."""

from pathlib import Path

import pytest

from tacklebox.matches.before.low import Want, look_ahead
from tacklebox.matches.before.plan import Plan, make_plan
from tacklebox.matches.before.shopping import make_shopping
from tacklebox.matches.before.tie_plan import portions_of, tie_portions, tie_so_many
from tacklebox.matches.dividing.allotting import allot
from tacklebox.matches.files.match import WantedRig
from tacklebox.matches.files.venue import Rules
from tacklebox.rigs.tying.tie import tie
from tacklebox.stock.care.box import Box
from tacklebox.stock.entering import edit_item
from tacklebox.stock.finding import find
from tacklebox.stock.ledger import begin
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


def packets_to_buy(plan: Plan) -> list[tuple[str, int, int | None]]:
    return [(p.item.name, p.packs, p.cost_cents) for p in plan.purchases]


def test_ready_made_ones_are_bought_where_nothing_ties_them(tmp_path: Path) -> None:
    """There is no line of 0.08 mm: three of a packet are left, nine more take one packet of ten."""
    box = make_box(tmp_path, "hook 20 barbless spade pack 10")
    add(box, f"{NAME} pack 10", amount="3", pack_price_cents=220)
    plan = make_plan(box, [wanted(12)])  # type: ignore[list-item]
    (want,) = plan.wants
    assert (want.has, want.tie, want.unmet, want.to_buy) == (3, 0, 9, 9)
    assert packets_to_buy(plan) == [(NAME, 1, 220)]
    assert (plan.opened, plan.proven) == (1, True)
    shopping = make_shopping(plan)
    assert list(shopping.what_for.values()) == ["for 9 × Fine hooklength"]
    assert shopping.no_item_for == ()
    outlook = look_ahead(box, [Want(fine_hooklength(), 12)])
    assert [(r.ready, r.can_tie, r.to_buy) for r in outlook.reaches] == [(3, 0, 9)]
    assert outlook.shopping == shopping


@pytest.mark.parametrize(
    ("hooks", "ready_made", "bought"), [(180, 220, 0), (220, 180, 2), (180, 180, 0)]
)
def test_the_cheaper_is_bought(tmp_path: Path, hooks: int, ready_made: int, bought: int) -> None:
    """Ten hooks for twelve: a packet of hooks, or one of hooklengths; at the same price they are tied."""
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    add(box, "hook 20 barbless spade pack 10", pack_price_cents=hooks)
    add(box, f"{NAME} pack 10", packs=0, pack_price_cents=ready_made)
    plan = make_plan(box, [wanted(12)])  # type: ignore[list-item]
    (want,) = plan.wants
    assert (want.tie, want.unmet, want.to_buy) == (10, 2, bought)
    assert packets_to_buy(plan) == [
        (NAME if bought else "hook 20 barbless spade", 1, min(hooks, ready_made))
    ]
    assert list(make_shopping(plan).what_for.values()) == ["for 2 × Fine hooklength"]


def test_tying_comes_before_sparing_a_minimum(tmp_path: Path) -> None:
    """Four hooks of a minimum of four, and ready-made ones cost less than hooks: all four are tied, then
    hooks are bought again, for a minimum says what to buy again, not what to leave alone."""
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    add(box, "hook 20 barbless spade pack 10", amount="4", minimum="4", pack_price_cents=180)
    add(box, f"{NAME} pack 10", packs=0, pack_price_cents=120)
    plan = make_plan(box, [wanted(4)])  # type: ignore[list-item]
    assert (plan.wants[0].tie, plan.wants[0].to_buy) == (4, 0)
    assert packets_to_buy(plan) == [("hook 20 barbless spade", 1, 180)]
    assert list(make_shopping(plan).what_for.values()) == ["for a minimum of 4"]
    (reach,) = look_ahead(box, [Want(fine_hooklength(), 4)]).reaches
    assert (reach.can_tie, reach.to_buy) == (4, 0)
    assert sum(tying.count for tying in tie_so_many(box, fine_hooklength(), 4, DAY)) == 4
    again = look_ahead(box, [Want(fine_hooklength(), 4)])
    assert again.reaches[0].ready == 4
    assert [(p.item.name, p.packs) for p in again.purchases] == [("hook 20 barbless spade", 1)]


def test_what_is_bought_for_the_minimum_serves_too(tmp_path: Path) -> None:
    """Three of a minimum of ten: the packet for it has seven more than the minimum and the match need."""
    box = make_box(tmp_path)
    add(box, f"{NAME} pack 10", amount="3", minimum="10", pack_price_cents=500)
    plan = make_plan(box, [wanted(15)])  # type: ignore[list-item]
    (want,) = plan.wants
    assert (want.has, want.tie, want.to_buy) == (3, 10, 2)
    (purchase,) = plan.purchases
    assert (purchase.short, purchase.for_minimum, purchase.packs) == (7, 5, 1)
    assert purchase.what_for(["2"]) == "for 2, and a minimum of 10"


def test_what_is_tied_at_home_is_bought_only_at_a_price(box: Box) -> None:
    """Two at 0.50 are less than a packet of hooks at 1.80."""
    plan = make_plan(box, [wanted(12)])  # type: ignore[list-item]
    assert plan.wants[0].ready_made == ()
    with box.writing() as session:
        begin(session, "edit", DAY)
        edit_item(session, find(session, "hook 20 barbless spade"), price="1.80")
        edit_item(session, find(session, NAME), price="0.50")
    plan = make_plan(box, [wanted(12)])  # type: ignore[list-item]
    assert [(s.item.name, count) for s, count in plan.wants[0].ready_made] == [(NAME, 2)]


def test_what_the_water_does_not_allow_is_not_bought(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    add(box, f"{NAME} pack 10", packs=0, pack_price_cents=100)
    (want,) = make_plan(box, [wanted(12)], Rules(least_hooklength="16 cm")).wants  # type: ignore[list-item]
    assert want.to_buy == 0
