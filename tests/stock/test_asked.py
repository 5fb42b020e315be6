"""What a recipe asks for, as figures and in words, of every part of every shipped recipe."""

import pytest

from tacklebox.desk.asking import resolved_recipe
from tacklebox.rigs.recipes.file import Shelf
from tacklebox.stock.asked import figures_asked
from tacklebox.stock.asks import read_ask
from tacklebox.stock.notation import write_notation
from tacklebox.stock.tables import Kind


@pytest.mark.parametrize("name", Shelf().names())
def test_figures_asked_meet_the_ask(name: str) -> None:
    """All but words of which several would do: nobody knows which it is."""
    for need in resolved_recipe(Shelf(), name, {}).needs:
        one = [
            (k, t, w) for k, t, w in need.ask.wanted if not isinstance(w, frozenset) or len(w) == 1
        ]
        assert type(need.ask)(need.ask.kind, tuple(one)).matches(figures_asked(need.ask)), need


@pytest.mark.parametrize(
    ("kind", "key", "said", "usual"),
    [
        (Kind.HOOK, "barb", "unbarbed", "barbless"),
        (Kind.HOOK, "size", "eighteen", "18"),
        (Kind.LINE, "strain", "four pound", "4 lb"),
        (Kind.LINE, "diameter", "point one four", "0.14 mm"),
        (Kind.HOOKLENGTH, "length", "six inches", "6 in"),
        (Kind.HOOKLENGTH, "bait", "hair rig or banded", "hair or band"),
        (Kind.FLOAT, "shape", "insert waggler or loafer", "waggler insert or chubber"),
        (Kind.FLOAT, "capacity", "3 swan", "3SSG"),
        (Kind.WEIGHT, "mark", "double b", "BB"),
        (Kind.FEEDER, "mass", "half ounce", "1/2 oz"),
        (Kind.PART, "sort", "snap swivel", "link swivel"),
    ],
)
def test_an_ask_may_be_said_as_anglers_do(kind: Kind, key: str, said: str, usual: str) -> None:
    ((_, _, wanted),) = read_ask(kind, {key: said}).wanted
    ((_, _, meant),) = read_ask(kind, {key: usual}).wanted
    assert wanted == meant


@pytest.mark.parametrize(
    ("kind", "asks", "words"),
    [
        (Kind.LINE, {"material": "nylon", "diameter": "0.13 to 0.15 mm"}, "nylon 0.13 to 0.15 mm"),
        (Kind.LINE, {"strain": "at least 4 lb", "diameter": "0.14 mm"}, "0.14 mm at least 4 lb"),
        (Kind.HOOK, {"size": "18", "end": "spade"}, "hook 18 spade"),
        (Kind.FLOAT, {"shape": "waggler insert", "capacity": "5BB"}, "waggler 5BB insert"),
        (
            Kind.FEEDER,
            {"shape": "cage or open-end", "mass": "30 g"},
            "feeder cage or open-end 30 g",
        ),
        (Kind.ELASTIC, {"grade": "4 to 6"}, "elastic 4–6"),
        (Kind.ELASTIC, {"grade": "5"}, "elastic 5"),
        (Kind.WEIGHT, {"form": "olivette", "mass": "0.75 g"}, "olivette 0.75 g"),
    ],
)
def test_an_ask_in_the_words_of_stock(kind: Kind, asks: dict[str, str], words: str) -> None:
    assert write_notation(figures_asked(read_ask(kind, asks))) == words
