"""Tackle that is looked for as anglers ask for it."""

import pytest

from tacklebox.desk import Desk, stock
from tests.desk.boxes import copied, make_desk

BOX = (
    *("feeder cage 30 g large", "feeder cage 20 g small", "feeder method 30 g"),
    *("hook 20 barbless spade pack 10", "hook 18 eyed pack 10", "18 to 0.10 6 in pack 10"),
    *("copolymer 0.14 mm 4 lb 100 m", "waggler pellet 6 g", "waggler 3BB insert", "bomb 1 oz"),
    *("elastic hollow 8-10", "pole 4x14 wire stem", "winder 18 cm"),
)
CAGES = ["feeder cage 30 g large", "feeder cage 20 g small"]


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    made = tmp_path_factory.mktemp("looked_for")
    make_desk(made, *BOX)
    return copied(made, tmp_path_factory.mktemp("copy"))


@pytest.mark.parametrize(
    ("said", "names"),
    [
        ("have I any big cage feeders", CAGES[:1]),
        ("got any cages left?", CAGES),
        ("find me the little cage", CAGES[1:]),
        ("where did i put the 20s", ["hook 20 barbless spade"]),
        ("point one four", ["nylon 0.14 mm 4 lb copolymer"]),
        ("pelet waggler", ["waggler 6 g pellet"]),
        ("anything in 3bb", ["waggler 3BB insert"]),
        ("ellastic hollow", ["elastic 8–10 hollow"]),
        ("have I any 4 by 14s", ["pole 4×14 wire stem"]),
        ("show me the hooklengths to 0.10", ["hooklength 18 to 0.10 mm 6 in"]),
        ("what have we in eighteen centimetre winders", ["winder 18 cm 20 mm"]),
        ("hook lengths to 4oz", []),
        ("any swivels", []),
    ],
)
def test_found_as_it_is_asked_for(desk: Desk, said: str, names: list[str]) -> None:
    assert [row.name for row in stock.listed(desk, said).items] == names
