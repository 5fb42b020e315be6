"""What runs low, by hand arithmetic."""

import random
from datetime import date
from pathlib import Path

import pytest

from tacklebox.matches.before.low import Want, look_ahead
from tacklebox.matches.before.purchases import Purchase, unpriced, write_total
from tacklebox.rigs.fitting import fit
from tacklebox.stock.care.box import Box
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.tables import Item
from tests.rigs.boxes import add, canal_rig, fine_hooklength, make_box

# One fine hooklength of 15 cm takes 15 + (8 + 4) + 8 = 35 cm of line and a hook.
ONE_HOOKLENGTH_MM = 350
DAY = date(2026, 3, 5)


def test_below_what_is_kept(tmp_path: Path) -> None:
    box = make_box(tmp_path, "waggler 5BB insert")
    add(box, "hook 20 barbless spade pack 10", minimum="20", pack_price_cents=180)
    add(box, "hook 18 barbless spade pack 10", minimum="10", pack_price_cents=180)
    outlook = look_ahead(box, [])
    assert [i.name for i in outlook.short] == ["hook 20 barbless spade"]
    (purchase,) = outlook.purchases
    assert (purchase.short, purchase.packs, purchase.cost_cents) == (10, 1, 180)


def test_how_far_stock_reaches_and_what_to_buy(tmp_path: Path) -> None:
    box = make_box(tmp_path)  # 10 hooks, 50 m of 0.08 mm
    outlook = look_ahead(box, [Want(fine_hooklength(), 25)])
    (reach,) = outlook.reaches
    assert reach.can_tie == 10
    assert reach.stopped_by[0].part == "hook"
    assert outlook.runs_out_first is not None
    assert outlook.runs_out_first.name == "hook 20 barbless spade"
    (purchase,) = outlook.purchases
    assert (purchase.item.name, purchase.short, purchase.packs) == ("hook 20 barbless spade", 15, 2)


def test_line_for_the_missing_ones_is_bought_too(tmp_path: Path) -> None:
    box = make_box(tmp_path, "hook 20 barbless spade pack 10")
    add(box, "nylon 0.08 mm 0.7 kg 50 m", amount="4 m", pack_price_cents=320)
    outlook = look_ahead(box, [Want(fine_hooklength(), 25)])
    assert outlook.reaches[0].can_tie == 10
    bought = {p.item.name: (p.short, p.packs) for p in outlook.purchases}
    assert bought == {
        "hook 20 barbless spade": (15, 2),
        "nylon 0.08 mm 0.7 kg": (25 * ONE_HOOKLENGTH_MM - 4000, 1),
    }
    assert outlook.shopping.total_cents == 320  # the hooks' price is not known


def test_wants_share_what_there_is_in_their_order(tmp_path: Path) -> None:
    box = make_box(tmp_path)
    short, long = fine_hooklength(length="10 cm"), fine_hooklength(length="50 cm")
    first, second = look_ahead(box, [Want(short, 7), Want(long, 7)]).reaches
    assert (first.can_tie, second.can_tie) == (7, 3)


def test_a_part_goes_over_to_the_next_item(tmp_path: Path) -> None:
    box = make_box(tmp_path)  # two kinds of 4×12 floats, one each
    add(box, "winder 18 cm 20 mm", packs=5)
    outlook = look_ahead(box, [Want(canal_rig(), 3)])
    assert outlook.reaches[0].can_tie == 2
    assert "float" in {stop.part for stop in outlook.reaches[0].stopped_by}
    (purchase,) = outlook.purchases  # one, of either, for both are of unknown price
    assert (purchase.item.words.startswith("pole 4×12"), purchase.packs) == (True, 1)


def test_what_is_kept_is_kept_beside_what_is_tied(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    add(box, "hook 20 barbless spade pack 10", packs=2, minimum="15")
    outlook = look_ahead(box, [Want(fine_hooklength(), 8)])
    assert outlook.reaches[0].can_tie == 8
    assert outlook.short == ()
    assert [(p.short, p.packs) for p in outlook.purchases] == [(3, 1)]


def test_what_the_box_never_knew_is_told(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    outlook = look_ahead(box, [Want(fine_hooklength(), 2)])
    assert outlook.shopping.no_item_for == ("hook of Fine hooklength: hook 20 barbless spade",)
    assert outlook.runs_out_first is None


def random_box(folder: Path, seed: int) -> Box:
    """Lines, hooks, floats and shot round the asks of the canal rig, some begun, one on a reel."""
    dice = random.Random(seed)
    box = make_box(folder, "winder 13 cm 18 mm")
    for number in range(40):
        words = dice.choice(
            [
                f"nylon {dice.choice(['0.08', '0.09', '0.10', '0.11', '0.12'])} mm 0.7 kg 50 m",
                f"hook {dice.choice([18, 20, 22])} barbless spade pack 10",
                f"pole 4×{dice.choice([10, 12, 14])}",
                f"shot No {dice.choice([8, 10])} tin pack 20",
            ]
        )
        amount = f"{dice.randint(1, 4)} m" if words.startswith("nylon") else str(dice.randint(1, 9))
        place = "reel 1" if number == 7 else "drawer"
        add(box, words, name=f"no. {number}", amount=amount, place=place)
    return box


@pytest.mark.parametrize("seed", range(3))
def test_what_is_looked_up_is_ranked_as_whole_kinds_are(tmp_path: Path, seed: int) -> None:
    """Asks that are looked up by SQL find what is found in all of the box."""
    box = random_box(tmp_path, seed)
    rig = canal_rig()
    sizes = [canal_rig(float=size) for size in ("4×10", "4×14")]
    asks = [n.ask for one in (rig, *sizes, fine_hooklength()) for n in one.needs if not n.in_place]
    with box.reading() as session:
        whole, few = Inventory.read(session), Inventory.read_for(session, asks)
    servings = fit(rig, whole.copy(), 1).servings
    for serving in servings:
        if not serving.need.in_place:
            ids = [s.id for s in (*([serving.item] if serving.item else []), *serving.others)]
            found = few.ranked(serving.need.ask, in_place=False)
            assert [s.id for s in found if s.item.on_hand >= serving.amount] == ids


def test_what_is_bought_says_what_for(tmp_path: Path) -> None:
    """8 hooks of 10 for the rigs, 4 to be kept: two short of it, one packet. 12 for 10: all."""
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    add(box, "hook 20 barbless spade pack 10", minimum="4")
    shopping = look_ahead(box, [Want(fine_hooklength(), 8)]).shopping
    (purchase,) = shopping.purchases
    assert (purchase.short, purchase.for_minimum) == (2, 2)
    assert list(shopping.what_for.values()) == ["for a minimum of 4"]
    shopping = look_ahead(box, [Want(fine_hooklength(), 12)]).shopping
    (purchase,) = shopping.purchases
    assert (purchase.short, purchase.for_minimum, purchase.packs) == (6, 4, 1)
    assert list(shopping.what_for.values()) == ["for 2 × Fine hooklength, and a minimum of 4"]


@pytest.mark.parametrize(
    ("cents", "words"),
    [
        ([675, None, None], "6.75, 2 prices missing"),
        ([675, None], "6.75, 1 price missing"),
        ([None, None], "2 prices missing"),
        ([None], "1 price missing"),
        ([0, None], "0.00, 1 price missing"),
        ([300, 375], "6.75"),
        ([], "0.00"),
    ],
)
def test_a_total_in_words(cents: list[int | None], words: str) -> None:
    bought = [
        Purchase(
            Item(
                kind="hook", words="h", name="h", pack_size=1, pack_price_cents=c, added_on=DAY
            ),
            1,
            1,
        )
        for c in cents
    ]  # fmt: skip
    assert write_total(bought) == words
    assert unpriced(bought) == cents.count(None)
