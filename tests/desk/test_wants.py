"""One reading of what is wanted: counts, and one rule for what is chosen."""

from pathlib import Path

import pytest

from tacklebox.desk.wants import resolve_wants, want_in_words, wants_of
from tacklebox.errors import AskedWronglyError
from tests.desk.boxes import make_desk
from tests.rigs.boxes import SHELF

CANAL, FINE, WAGGLER = "pole-canal-shot", "hooklength-fine", "waggler-insert-bulk"


def test_wants_keep_their_order_and_count(tmp_path: Path) -> None:
    wants = wants_of(make_desk(tmp_path), {FINE: "500", CANAL: " 2 "}, {})
    assert [(w.resolved.recipe.stem, w.count) for w in wants] == [(FINE, 500), (CANAL, 2)]


@pytest.mark.parametrize(
    ("name", "stem"),
    [
        ("Pellet waggler", "waggler-pellet"),
        ("pole pellet rigs", "pole-pellet"),
        ("method hooklengths", "hooklength-method"),
        ("Canal pole, shot", CANAL),
    ],
)
def test_a_recipe_is_wanted_by_its_title_or_its_words(tmp_path: Path, name: str, stem: str) -> None:
    (want,) = wants_of(make_desk(tmp_path), {name: "half a dozen"}, {})
    assert (want.resolved.recipe.stem, want.count) == (stem, 6)


@pytest.mark.parametrize(
    ("name", "offered"),
    [
        ("margin pole", ["pole-margin-strong"]),
        ("canal rig", [CANAL, "waggler-canal"]),
        ("pelet waggler", ["waggler-pellet"]),
        ("pole deep olivete", ["pole-deep-olivette"]),
    ],
)
def test_what_may_be_several_recipes_or_was_mistyped_is_asked(
    tmp_path: Path, name: str, offered: list[str]
) -> None:
    with pytest.raises(AskedWronglyError, match="there is no recipe") as refused:
        wants_of(make_desk(tmp_path), {name: "1"}, {})
    assert refused.value.right == "Did you mean " + " or ".join(f'"{o}"' for o in offered) + "?"


def test_a_number_may_stand_before_what_is_wanted(tmp_path: Path) -> None:
    desk = make_desk(tmp_path)
    said = ["three pole pellet rigs", "4 pole-canal-shot", "a dozen of hooklength-fine"]
    wants = wants_of(desk, dict(want_in_words(one) for one in said), {})
    assert [(w.resolved.recipe.stem, w.count) for w in wants] == [
        ("pole-pellet", 3),
        (CANAL, 4),
        (FINE, 12),
    ]


@pytest.mark.parametrize("said", ["0", "501", "-1", "2.5", "lots", "", "٣", "²", "9" * 5000])
def test_what_is_no_count(tmp_path: Path, said: str) -> None:
    with pytest.raises(AskedWronglyError, match="is no count") as refused:
        wants_of(make_desk(tmp_path), {FINE: said}, {})
    assert (refused.value.field, refused.value.right) == (
        f"wanted.{FINE}",
        "A whole number from 1 to 500.",
    )
    assert len(refused.value.what) < 50


def test_a_choice_goes_to_every_recipe_that_knows_it() -> None:
    asked = {"depth": "1.5 m"}
    canal, waggler, fine = resolve_wants(SHELF, [CANAL, WAGGLER, FINE], asked)
    assert (canal.chosen["depth"], waggler.chosen["depth"]) == ("1.5 m", "1.5 m")
    assert "depth" not in fine.chosen


def test_a_choice_of_the_hooklength_goes_on_to_it() -> None:
    canal, fine = resolve_wants(SHELF, [CANAL, FINE], {"length": "20 cm"})
    assert canal.hooklength is not None
    assert canal.hooklength.chosen["length"] == fine.chosen["length"] == "20 cm"


@pytest.mark.parametrize("names", [[CANAL], [FINE], [CANAL, FINE]])
def test_a_choice_that_none_knows_is_refused(names: list[str]) -> None:
    known = {CANAL: "dpeth", FINE: "lenght"}[names[0]]
    with pytest.raises(AskedWronglyError) as refused:
        resolve_wants(SHELF, names, {known: "2 m"})
    assert refused.value.field == f"set.{known}"
    assert refused.value.what == f'"{known}" is not chosen in {" or ".join(names)}.'
    assert refused.value.right == f'Did you mean "{"depth" if known == "dpeth" else "length"}"?'


def test_a_choice_for_nothing_is_refused(tmp_path: Path) -> None:
    with pytest.raises(AskedWronglyError, match="no recipe is named") as refused:
        wants_of(make_desk(tmp_path), {}, {"depth": "2 m"})
    assert refused.value.field == "set.depth"


def test_a_value_that_one_of_them_cannot_have_is_refused() -> None:
    with pytest.raises(AskedWronglyError, match=r"pole-canal-shot.*depth cannot be 9 m"):
        resolve_wants(SHELF, [FINE, CANAL], {"depth": "9 m"})


def test_a_hooklength_that_goes_with_none_is_refused() -> None:
    with pytest.raises(AskedWronglyError, match='"hooklength-feeder" does not go with') as refused:
        resolve_wants(SHELF, [CANAL], {"hooklength": "hooklength-feeder"})
    assert refused.value.field == "set.hooklength"
