"""Items found by what is said, and lists of them."""

import pytest

from tacklebox.errors import AskedWronglyError
from tacklebox.stock.asks import read_filters
from tacklebox.stock.care.box import Box
from tacklebox.stock.finding import find, list_items, load, search
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.tables import Kind
from tests.stock.entered import add


@pytest.mark.parametrize(
    ("said", "names"),
    [
        ("2", "hook 20 barbless"),
        ("hook 18", "hook 18 barbless spade"),
        ("hooks size 20", "hook 20 barbless"),
        ("0.14", "nylon 0.14 mm 4 lb"),
        ("winder 18 cm", "winder 18 cm 20 mm"),
        ("quiver tip 1oz", "part 'quiver tip 1 oz'"),
        ("methods", "feeder method 40 g"),
    ],
)
def test_found_by_what_is_said(box: Box, said: str, names: str) -> None:
    for words in (
        "hook 18 barbless spade pack 10",
        "hook 20 barbless pack 10",
        "nylon 0.14 mm 4 lb 100 m",
        "winder 13 cm 18 mm",
        "winder 18 cm 20 mm",
        "part 'quiver tip 1 oz'",
        "feeder method 40 g",
    ):
        add(box, words)
    with box.reading() as session:
        assert find(session, said).name == names


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("2.2 lb line", "nylon 0.10 mm 1 kg"),
        ("point one nylon", "nylon 0.10 mm 1 kg"),
        ("14 g bombs", "bomb 1/2 oz"),
        ("BB's", "shot BB tin"),
        ("eighteen to point ten", "hooklength 18 to 0.10 mm"),
        ("swan shot", "shot SSG tin"),
    ],
)
def test_found_by_what_the_words_mean(box: Box, said: str, name: str) -> None:
    for words in (
        "nylon 0.10 1 kg",
        "nylon 0.12 3 lb",
        "1/2 oz bomb",
        "shot BB",
        "shot SSG",
        "18 to 0.10",
    ):
        add(box, words)
    with box.reading() as session:
        assert find(session, said).name == name


def test_words_in_the_order_said_mean_more_than_the_same_words_anywhere(box: Box) -> None:
    """Be they of the name that the angler gave or of the figures."""
    add(box, "hook 18 pack 10", name="The big carp hook")
    add(box, "hook 16 pack 10", name="Carp hook, big")
    add(box, "winder 13 cm 18 mm", name="blue")
    add(box, "winder 18 cm 20 mm", name="red")
    with box.reading() as session:
        assert find(session, "Big carp").id == 1
        assert find(session, "Winder 18 cm").id == 4


def test_a_figure_is_found_whatever_it_is_written_as(box: Box) -> None:
    for words in (
        *("nylon 0.18 mm 4 1/2 lb", "nylon 0.20 mm 4.5 lb", "nylon 0.12 mm 3 lb", "bomb 3/4 oz"),
        *("feeder cage 0.75 oz", "waggler 2.5 g", "waggler 2 1/2 g", "silicone tube 0.5 mm"),
        *("hook 1/0", "bomb 1 1/2 oz", "pole 4x14 0.5 g"),
    ):
        add(box, words)
    with box.reading() as session:
        items = list_items(session)
    for said, ids in {
        "4.5 lb": [1, 2],
        "4 1/2 lb": [1, 2],
        "4½lb nylon": [1, 2],
        "four and a half pounds": [1, 2],
        "4lb 8oz": [1, 2],
        ".12": [3],
        "0.120": [3],
        "3.0 lb": [3],
        "3/4 oz": [4, 5],
        "0.75oz": [4, 5],
        "bomb 0.75 ounce": [4],
        "2 1/2 g": [6, 7],
        "2,5 gram waggler": [6, 7],
        "0.50 mm": [8],
        "1/2 mm tube": [8],
        "1/0": [9],
        "1.5 oz": [10],
        "4x14 .5g": [11],
        "pole 1/2 g": [11],
        "4.25 lb": [],
    }.items():
        assert [item.id for item in search(items, said)] == ids, said


def test_several_that_fit_are_named(box: Box) -> None:
    add(box, "hook 18 pack 10")
    add(box, "hook 20 pack 10")
    with box.reading() as session, pytest.raises(AskedWronglyError, match="fits 2 items"):
        find(session, "hook")


def test_of_very_many_that_fit_six_are_named(box: Box) -> None:
    for size in range(10, 24, 2):
        add(box, f"hook {size} pack 10")
    with (
        box.reading() as session,
        pytest.raises(AskedWronglyError, match="fits 7 items") as refused,
    ):
        find(session, "hook")
    assert refused.value.right.endswith("5 hook 18; 6 hook 20; and 1 more.")


def test_filter_by_figures(box: Box) -> None:
    for words in (
        "nylon 0.10 mm 1.1 kg 50 m",
        "nylon 0.14 mm 4 lb 100 m",
        "nylon 0.20 mm 3.6 kg 100 m",
    ):
        add(box, words)
    ask = read_filters(Kind.LINE, ["diameter 0.12 to 0.16 mm", "strain at least 3 lb"])
    with box.reading() as session:
        stock = Inventory.read(session, [Kind.LINE]).by_kind[Kind.LINE]
    assert [s.item.name for s in stock if ask.matches(s.figures)] == ["nylon 0.14 mm 4 lb"]


def test_what_is_read_is_not_written(box: Box) -> None:
    add(box, "hook 18 pack 10")
    with box.reading() as session:
        find(session, "1").name = "changed"
        session.flush()
    with box.reading() as session:
        assert find(session, "1").name == "hook 18"


def test_lists_are_of_all_or_of_a_kind(box: Box) -> None:
    for words in ("hook 18 pack 10", "nylon 0.12 mm 50 m", "hook 20 pack 10"):
        add(box, words)
    with box.reading() as session:
        for listed in (list_items(session), load(session)):
            assert [item.id for item in listed] == [1, 2, 3]
            assert [item.measured for item in listed] == [False, True, False]
        for of_kind in (list_items(session, "hook"), load(session, "hook")):
            assert [item.name for item in of_kind] == ["hook 18", "hook 20"]


@pytest.mark.parametrize(
    ("text", "ids"),
    [
        ("DRAWER fine", [1]),
        ("hook 18", [2]),
        ("4×12", [3]),
        ("4x12", [3]),
        ("drawer", [1, 2]),
        ("drawer pole", []),
        ("", [1, 2, 3]),
    ],
)
def test_a_search_is_for_every_word_wherever_it_stands(box: Box, text: str, ids: list[int]) -> None:
    add(box, "nylon 0.12 mm 50 m", name="Fine line", place="drawer 2")
    add(box, "hook 18 pack 10", place="Drawer 3")
    add(box, "pole 4×12")
    with box.reading() as session:
        assert [item.id for item in search(list_items(session), text)] == ids


def test_what_is_meant_by_number_name_or_words(box: Box) -> None:
    add(box, "hook 18 pack 10", name="18s")
    add(box, "hook 18 barbless pack 10", name="Wide gape")
    add(box, "winder 13 cm 18 mm")
    with box.reading() as session:
        assert find(session, "#2").id == 2
        assert find(session, " 18s ").id == 1  # a name, not a number
        assert find(session, "WIDE  gape").id == 2
        assert find(session, "hook 18").id == 1  # to the letter, though both have the words
        for said, answer in (("9", "no item 9"), ("9" * 12, "nothing in"), ("٣", "nothing in")):
            with pytest.raises(AskedWronglyError, match=answer) as error:
                find(session, said)
            assert error.value.see == "stock.listed"
        with pytest.raises(AskedWronglyError, match='"hook" fits 2 items') as error:
            find(session, "hook")
        assert "by its number: 1 18s; 2 Wide gape." in error.value.right
