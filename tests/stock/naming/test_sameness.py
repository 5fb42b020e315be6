"""Whether two phrases name one thing: by SI, with what rounding alone can hide."""

import pytest

from tacklebox.stock.naming.reading import described
from tacklebox.stock.naming.sameness import Same, fits, same


@pytest.mark.parametrize(
    ("one", "other", "sure"),
    [
        ("2.2 lb nylon 0.10", "nylon 0.10 2.2lb", Same.YES),
        ("2.20 lb nylon 0.10", "nylon 0.10 2.2lb", Same.YES),
        ("hook 18 to 0.10 10 in", "hook 18 to 0.10 25.4 cm", Same.YES),
        ("2.2 lb nylon 0.10", "nylon 0.10 1 kg", Same.PERHAPS),
        ("1/2 oz bomb", "14 g bomb", Same.PERHAPS),
        ("3/8 oz bomb", "10 g bomb", Same.NO),  # 10.63 g: 10 g is another weight
        ("2.2 lb nylon 0.10", "nylon 0.10 2.25 lb", Same.NO),
        ("2.2 lb nylon 0.10", "nylon 0.10 0.95 kg", Same.NO),
        ("2.2 lb nylon 0.10", "fluorocarbon 0.10 2.2 lb", Same.NO),
        ("2.2 lb nylon", "nylon 0.10 2.2 lb", Same.NO),
        ("hook 18", "hook 18 spade", Same.NO),
        ("hook 18 maggot", "hook 18", Same.NO),
        ("hook 18", "shot No 8", Same.NO),
        ("hook 18, off the bargain table", "hook 18", Same.PERHAPS),
        ("hook 18 maggot, off the bargain table", "hook 18", Same.NO),
        ("hook 18 (Tom)", "hook 18", Same.NO),
    ],
)
def test_how_sure_it_is_that_two_are_one(one: str, other: str, sure: Same) -> None:
    assert same(described(one), described(other)) is sure
    assert same(described(other), described(one)) is sure


@pytest.mark.parametrize(
    ("asked", "item", "is_so"),
    [
        ("hook 18", "hook 18 barbless spade", True),
        ("2.2 lb line", "braid 0.06 1 kg", True),  # the nylon of it was assumed
        ("2.2 lb nylon", "braid 0.06 1 kg", False),
        ("hook 18 barbless", "hook 18", False),
        ("swivel 12", "hook 12", False),
    ],
)
def test_what_is_among_what_the_words_may_mean(asked: str, item: str, is_so: bool) -> None:
    assert fits(described(asked), described(item)) is is_so
