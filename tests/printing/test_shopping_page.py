"""The shopping list's page read back."""

from datetime import date
from pathlib import Path

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.before.purchases import Purchase
from tacklebox.printing.pages.shopping_page import print_shopping
from tacklebox.printing.pages.tick_page import LEAST_PT
from tacklebox.stock.tables import Item
from tests.printing.reading import MM, pages_of, words_of_page

DAY = date(2026, 3, 5)


def item(number: int, name: str, pack: int, cents: int | None, kind: str = "hook") -> Item:
    return Item(
        id=number, kind=kind, words=name, name=name, pack_size=pack, pack_price_cents=cents,
        added_on=DAY,
    )  # fmt: skip


HOOKS = Purchase(item(3, "hook 20 barbless spade", 10, 180), 14, 2)
LINE = Purchase(item(1, "nylon 0.08 mm 0.7 kg", 50_000, None, "line"), 400, 1)
SHOT = Purchase(item(7, "shot No 8 tin", 150, 150), 20, 1)


def test_packets_prices_total_and_what_it_is_for(tmp_path: Path) -> None:
    """Two packets at 1.80 and one at 1.50 are 5.10; the line's price is not known."""
    pdf = tmp_path / "buy.pdf"
    aims = {3: "for 4 × hooklength-fine, to keep 10"}
    print_shopping([HOOKS, LINE, SHOT], pdf, heading="To buy for Open", what_for=aims)
    text = words_of_page(pdf)
    for words in (
        "To buy for Open", "packets what a packet price", "2 × 10 hook 20 barbless spade 1.80 3.60",
        "for 4 × hooklength-fine, to keep 10", "1 × 50 m nylon 0.08 mm 0.7 kg", "missing",
        "total 5.10, 1 price missing",
    ):  # fmt: skip
        assert words in text
    (page,) = pages_of(pdf)
    assert min(c["size"] for c in page.letters) >= LEAST_PT - 1e-4
    assert len(page.squares) == 3
    assert all(side / MM > 3 for side in page.squares)


def test_the_total_is_whole_where_all_prices_are_known(tmp_path: Path) -> None:
    print_shopping([HOOKS, SHOT], tmp_path / "buy.pdf")
    assert "total 5.10" in words_of_page(tmp_path / "buy.pdf")
    assert "missing" not in words_of_page(tmp_path / "buy.pdf")


def test_what_comes_singly_is_only_counted(tmp_path: Path) -> None:
    float_ = Purchase(item(9, "pole 4×12", 1, 260, "float"), 2, 2)
    print_shopping([float_], tmp_path / "buy.pdf", what_for={9: "to keep 2"})
    assert "2 pole 4×12 2.60 5.20 to keep 2" in words_of_page(tmp_path / "buy.pdf")


def test_what_it_is_for_is_never_cut_within_a_word(tmp_path: Path) -> None:
    aim = "for 7 × feeder-running-paternoster, 7 × pole-deep-olivette, to keep 4"
    for page in ("a4", "a5"):
        pdf = tmp_path / f"{page}.pdf"
        print_shopping([HOOKS, SHOT], pdf, what_for={3: aim}, page=page)
        assert all(word in words_of_page(pdf).split() for word in aim.split())


def test_a_long_list_goes_on_with_its_head(tmp_path: Path) -> None:
    many = [Purchase(item(n, f"hook {n} barbless eyed", 10, 100), 1, 1) for n in range(1, 81)]
    for page in ("a4", "a5"):
        pdf = tmp_path / f"{page}.pdf"
        aims = {n: f"for {n} × rig" for n in range(1, 81)}
        printed = print_shopping(many, pdf, page=page, what_for=aims)
        assert printed.pages > 1
        pages = [words_of_page(pdf, n) for n in range(printed.pages)]
        assert all("packets what a packet price" in text for text in pages)
        assert all(f"page {n} of {printed.pages}" in text for n, text in enumerate(pages, 1))
        for n in range(1, 81):
            (own,) = [text for text in pages if f"hook {n} barbless eyed" in text]
            assert f"for {n} × rig" in own
        assert "total 80.00" in pages[-1]


def test_what_no_item_meets_is_told(tmp_path: Path) -> None:
    print_shopping([], tmp_path / "buy.pdf", no_item_for=["float of my-rig: float, shape stick"])
    text = words_of_page(tmp_path / "buy.pdf")
    assert "No item in the box would do for float of my-rig: float, shape stick" in text
    assert "total" not in text


def test_nothing_to_buy_is_a_page_that_says_so(tmp_path: Path) -> None:
    assert print_shopping([], tmp_path / "buy.pdf").pages == 1
    assert words_of_page(tmp_path / "buy.pdf") == "To buy Nothing is to be bought."


def test_characters_that_the_font_has_not_are_told(tmp_path: Path) -> None:
    odd = Purchase(item(3, "hook 🐟 20 鯉", 10, 180), 1, 1)
    printed = print_shopping([odd, odd], tmp_path / "buy.pdf", no_item_for=["bead of 🐟: bead ✓魚"])
    assert printed.unknown == "🐟鯉魚"
    assert "hook □ 20 □" in words_of_page(tmp_path / "buy.pdf")
    assert print_shopping([HOOKS], tmp_path / "plain.pdf").unknown == ""


def test_asked_wrongly(tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="no page size"):
        print_shopping([SHOT], tmp_path / "buy.pdf", page="letter")
