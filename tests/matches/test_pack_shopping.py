"""What each purchase of a plan is for, by hand."""

from pathlib import Path

from tacklebox.matches.before.plan import make_plan
from tacklebox.matches.before.purchases import Shopping
from tacklebox.matches.before.shopping import make_shopping
from tacklebox.matches.files.match import WantedRig
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.stock.care.box import Box
from tests.rigs.boxes import add, fine_hooklength, make_box


def listed(box: Box, *wants: tuple[Resolved, int]) -> Shopping:
    asked = [(WantedRig(recipe=r.recipe.stem, count=n), r) for r, n in wants]
    return make_shopping(make_plan(box, asked))


def test_for_the_wants_and_to_keep(tmp_path: Path) -> None:
    """Four hooks, six wanted and ten to keep: twelve short, two packets of ten at 1.80."""
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    add(box, "hook 20 barbless spade pack 10", amount="4", pack_price_cents=180, minimum="10")
    answer = listed(box, (fine_hooklength(), 6))
    assert [(p.item.name, p.packs) for p in answer.purchases] == [("hook 20 barbless spade", 2)]
    assert dict(answer.what_for) == {2: "for 2 × Fine hooklength, and a minimum of 10"}
    assert (answer.total_cents, answer.no_item_for) == (360, ())


def test_only_to_keep(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    add(box, "hook 20 barbless spade pack 10", amount="4", minimum="3")
    assert dict(listed(box, (fine_hooklength(), 2)).what_for) == {2: "for a minimum of 3"}


def test_what_no_item_meets_is_told(tmp_path: Path) -> None:
    box = make_box(tmp_path, "nylon 0.08 mm 0.7 kg 50 m")
    answer = listed(box, (fine_hooklength(), 2))
    assert answer.purchases == ()
    assert [ask.partition(":")[0] for ask in answer.no_item_for] == ["hook of Fine hooklength"]
