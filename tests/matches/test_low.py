"""What runs low, by hand arithmetic."""

from pathlib import Path

from tacklebox.matches.low import Want, look_ahead
from tests.rigs.boxes import add, canal_rig, fine_hooklength, make_box

# One fine hooklength of 15 cm takes 15 + (8 + 4) + 8 = 35 cm of line and a hook.
ONE_HOOKLENGTH_MM = 350


def test_below_what_is_kept(tmp_path: Path) -> None:
    box = make_box(tmp_path, "waggler 5BB insert")
    add(box, "hook 20 barbless spade pack 10", keep_at_least="20", pack_price_cents=180)
    add(box, "hook 18 barbless spade pack 10", keep_at_least="10", pack_price_cents=180)
    outlook = look_ahead(box, [])
    assert [i.name for i in outlook.below_keep] == ["hook 20 barbless spade"]
    (purchase,) = outlook.purchases
    assert (purchase.short, purchase.packs, purchase.cost_cents) == (10, 1, 180)


def test_how_far_stock_reaches_and_what_to_buy(tmp_path: Path) -> None:
    box = make_box(tmp_path)  # 10 hooks, 50 m of 0.08 mm
    outlook = look_ahead(box, [Want(fine_hooklength(), 25)])
    (reach,) = outlook.reaches
    assert reach.can_tie == 10
    assert reach.stopped_by[0].need.part == "hook"
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
    assert outlook.total_cents == 320  # the hooks' price is not known


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
    assert "float" in {g.need.part for g in outlook.reaches[0].stopped_by}
    assert [p.item.name for p in outlook.purchases] == ["pole 4×12"]


def test_what_is_kept_is_kept_beside_what_is_tied(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    add(box, "hook 20 barbless spade pack 10", packs=2, keep_at_least="15")
    outlook = look_ahead(box, [Want(fine_hooklength(), 8)])
    assert outlook.reaches[0].can_tie == 8
    assert outlook.below_keep == ()
    assert [(p.short, p.packs) for p in outlook.purchases] == [(3, 1)]


def test_what_the_box_never_knew_is_told(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    outlook = look_ahead(box, [Want(fine_hooklength(), 2)])
    assert outlook.unknown == ("hook: hook, size 20, end spade, barb barbless",)
    assert outlook.runs_out_first is None
