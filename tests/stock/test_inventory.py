"""Reading only what is asked for gives the same as reading all and looking."""

from collections.abc import Mapping

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tacklebox.rigs.fitting import Fit, fit
from tacklebox.rigs.recipes.file import Shelf
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.stock.asks import read_ask
from tacklebox.stock.care.box import Box
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.tables import Kind
from tests.rigs.boxes import CANAL, make_box

MANY = (
    *CANAL,
    *(f"nylon 0.{n:02} mm {0.0065 * n * n:.2f} kg 100 m" for n in range(8, 24)),
    *("nylon 0.14 mm 3 lb 100 m", "nylon 0.10 mm 50 m"),
    *("fluorocarbon 0.12 mm 1.4 kg green 50 m", "braid 0.10 mm 6 kg 100 m"),
    *(f"hook {size} {end} pack 10" for size in (10, 16, 18, 22) for end in ("spade", "eyed")),
    *("hook 18 barbless spade fine wire pack 10", "hook 1/0 pack 10", "hook 20 barbed pack 10"),
    *("waggler 5BB insert", "waggler 3AAA", "stick 6 No 4", "pole 0.4 g tip 1.5 mm"),
    *("shot AAA tin pack 20", "shot BB tin pack 20", "shot No 4 tin pack 20", "olivette 0.4 g pack 5"),
    *("feeder cage 30 g", "feeder cage 1 oz", "feeder method 30 g 45 ml", "bomb 20 g"),
    *("swivel size 14 12 kg pack 10", "link swivel size 12 pack 10", "bead 4 mm pack 10"),
    *("elastic 5 green 3 m", "elastic 8 3 m", "winder 18 cm 20 mm"),
)  # fmt: skip

ASKS: Mapping[Kind, Mapping[str, tuple[str, ...]]] = {
    Kind.LINE: {
        "diameter": ("0.10 mm", "0.10 to 0.14 mm", "at least 0.2 mm", "at most 0.1 mm"),
        "strain": ("at least 1.6 kg", "3 lb", "at most 2 kg"),
        "material": ("nylon", "fluorocarbon or braid"),
        "colour": ("green",),
    },
    Kind.HOOK: {
        "size": ("20", "18 to 22", "at most 16", "at least 18", "1/0"),
        "end": ("spade", "eyed or spade"),
        "barb": ("barbless",),
        "wire": ("fine",),
    },
    Kind.FLOAT: {
        "shape": ("waggler", "pole", "stick or pole"),
        "capacity": ("4×12", "5BB", "0.1 to 0.5 g"),
        "tip": ("1.2 mm", "at least 1 mm"),
    },
    Kind.WEIGHT: {
        "form": ("shot", "olivette"),
        "mark": ("AAA", "No 8 or No 10"),
        "mass": ("0.4 g", "at most 0.1 g"),
        "material": ("tin",),
    },
    Kind.FEEDER: {
        "shape": ("cage", "method or bomb"),
        "mass": ("30 g", "1 oz", "20 to 28 g"),
        "volume": ("at least 40 ml",),
    },
    Kind.PART: {
        "sort": ("swivel", "link swivel", "bead or connector"),
        "size": ("14", "4 mm"),
        "strain": ("at least 5 kg",),
    },
    Kind.ELASTIC: {"grade": ("4", "5 to 8"), "colour": ("green",)},
    Kind.WINDER: {"length": ("18 cm", "at most 15 cm"), "width": ("at least 18 mm",)},
}


@pytest.fixture(scope="module")
def box(tmp_path_factory: pytest.TempPathFactory) -> Box:
    return make_box(tmp_path_factory.mktemp("many") / "box", *MANY)


@st.composite
def asks(draw: st.DrawFn) -> tuple[Kind, dict[str, str]]:
    kind = draw(st.sampled_from(list(ASKS)))
    keys = draw(st.lists(st.sampled_from(list(ASKS[kind])), unique=True, max_size=3))
    return kind, {key: draw(st.sampled_from(ASKS[kind][key])) for key in keys}


@settings(deadline=None)
@given(st.lists(asks(), min_size=1, max_size=3))
def test_what_is_left_out_meets_no_ask(box: Box, said: list[tuple[Kind, dict[str, str]]]) -> None:
    wanted = [read_ask(kind, words) for kind, words in said]
    with box.reading() as session:
        narrow, whole = Inventory.read_for(session, wanted), Inventory.read(session)
    for ask in wanted:
        answer = [s.id for s in narrow.by_kind[ask.kind] if ask.matches(s.figures)]
        assert answer == [s.id for s in whole.by_kind[ask.kind] if ask.matches(s.figures)]
        assert answer == [s.id for s in ask.among(whole.by_kind[ask.kind])]
    for kind, stock in narrow.by_kind.items():
        those = [ask for ask in wanted if ask.kind is kind]
        assert all(
            any(ask.matches(s.figures) or ask.unnoted(s.figures) for ask in those) for s in stock
        )


def test_every_ask_here_finds_something(box: Box) -> None:
    """Else the test above would prove nothing of it."""
    with box.reading() as session:
        whole = Inventory.read(session)
    for kind, keys in ASKS.items():
        for key, words in keys.items():
            for text in words:
                ask = read_ask(kind, {key: text})
                assert any(ask.matches(s.figures) for s in whole.by_kind[kind]), str(ask)


def test_items_that_are_named_are_read_too(box: Box) -> None:
    ask = read_ask(Kind.LINE, {"diameter": "0.08 mm"})
    with box.reading() as session:
        lines = Inventory.read_for(session, [ask], {3, 11}).by_kind[Kind.LINE]
    assert [s.id for s in lines if not ask.matches(s.figures)] == []
    assert 11 in {s.id for s in lines}
    assert 3 not in {s.id for s in lines}  # a hook is no line


def served(fitted: Fit) -> list[tuple[str, int | None, list[int], str]]:
    below = served(fitted.hooklength) if fitted.hooklength else []
    own = [
        (s.need.part, s.item.id if s.item else None, [o.id for o in s.others], s.gap)
        for s in fitted.servings
    ]
    return own + below


def recipes() -> list[Resolved]:
    shelf, answer = Shelf(), []
    for name in shelf.names():
        recipe = shelf.load(name)
        below = resolve(shelf.load(recipe.hooklengths[0]), {}) if recipe.hooklengths else None
        answer.append(resolve(recipe, {}, below))
    return answer


@pytest.mark.parametrize("resolved", recipes(), ids=lambda r: r.recipe.stem)
def test_each_shipped_recipe_is_served_the_same(box: Box, resolved: Resolved) -> None:
    needs = [*resolved.needs, *(resolved.hooklength.needs if resolved.hooklength else ())]
    with box.reading() as session:
        narrow = Inventory.read_for(session, [need.ask for need in needs])
        whole = Inventory.read(session)
    assert served(fit(resolved, narrow, 2)) == served(fit(resolved, whole, 2))
