"""Recipes as the desk answers: listed, shown, started, drawn."""

import io
from pathlib import Path

import pytest

from tacklebox.desk import Desk, as_json, recipes
from tacklebox.errors import AskedWronglyError

FAULTY = 'name = "Mine"\nmakes = "rig"\nmethod = "pole"\nfor = "roach"\npart = []\n'


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return Desk(tmp_path / "box")


def test_a_recipe_of_ones_own_stands_among_the_shipped_ones(desk: Desk) -> None:
    started = recipes.start(desk, "my-own", hooklength=True)
    assert (started.recipe, started.file) == ("my-own", desk.box.recipes / "my-own.toml")
    listed = {r.recipe: r for r in recipes.listed(desk).recipes}
    mine, shipped = listed["my-own"], listed["pole-canal-shot"]
    assert (mine.own, mine.makes, mine.method) == (True, "hooklength", "float")
    assert (shipped.own, shipped.makes, shipped.method) == (False, "rig", "pole")


def test_a_copy_keeps_every_note_and_has_a_name_of_its_own(desk: Desk) -> None:
    from tacklebox.datafiles import shipped_folder

    started = recipes.start(desk, "my-canal-rig", like="pole-canal-shot")
    was = (shipped_folder("recipes") / "pole-canal-shot.toml").read_text(encoding="utf-8")
    now = started.file.read_text(encoding="utf-8")
    changed = [
        pair for pair in zip(was.splitlines(), now.splitlines(), strict=True) if len({*pair}) > 1
    ]
    assert [line.partition("#")[0].strip() for _, line in changed] == ['name = "My canal rig"']
    assert recipes.show(desk, "my-canal-rig").parts == recipes.show(desk, "pole-canal-shot").parts
    again = recipes.start(desk, "my-other", like="my-canal-rig")
    assert recipes.show(desk, again.recipe).own


@pytest.mark.parametrize(
    ("name", "like", "hooklength", "field"),
    [
        ("mine", "no-such-rig", False, "like"),
        ("Mine!", "pole-canal-shot", False, "recipe"),
        ("taken", "pole-canal-shot", False, "recipe"),
        ("mine", "pole-canal-shot", True, "hooklength"),
    ],
)
def test_what_cannot_be_copied_is_refused_by_its_field(
    desk: Desk, name: str, like: str, hooklength: bool, field: str
) -> None:
    recipes.start(desk, "taken")
    with pytest.raises(AskedWronglyError) as refused:
        recipes.start(desk, name, like=like, hooklength=hooklength)
    assert refused.value.field == field
    assert not (desk.box.recipes / "mine.toml").exists()


def test_a_faulty_recipe_is_listed_as_a_fault_beside_the_others(desk: Desk) -> None:
    recipes.start(desk, "good")
    (desk.box.recipes / "bad.toml").write_text(FAULTY, encoding="utf-8")
    found = recipes.listed(desk)
    assert "good" in {r.recipe for r in found.recipes}
    assert ["bad.toml" in fault.what for fault in found.faults] == [True]


def test_what_a_recipe_asks_for_runs_from_rod_to_hook(desk: Desk) -> None:
    shown = recipes.show(desk, "pole-canal-shot")
    parts = {part.part: part for part in shown.parts}
    assert [p.kind for p in shown.parts] == sorted(
        (p.kind for p in shown.parts), key=["chain", "branch", "along", "shot"].index
    )
    assert parts["rig line"].knots[-1] == "double overhand loop"
    assert (parts["float"].where, parts["float"].held) == ("rig line", "two points")
    depth = next(choice for choice in shown.choices if choice.name == "depth")
    assert (depth.lowest, depth.highest, depth.any_of) == ("90 cm", "2 m", ())
    assert shown.hooklengths[0] == "hooklength-fine"


def test_a_branch_says_where_it_hangs(desk: Desk) -> None:
    branches = [p for p in recipes.show(desk, "bomb-running").parts if p.kind == "branch"]
    assert branches
    assert {part.where for part in branches} == {"running link"}


def test_a_drawing_is_given_as_text_and_written_where_asked(desk: Desk, tmp_path: Path) -> None:
    stream = io.BytesIO()
    drawn = recipes.draw(desk, "pole-canal-shot", {"depth": "1.5 m"}, stream)
    assert drawn.svg.lstrip().startswith("<")
    assert stream.getvalue().decode() == drawn.svg
    recipes.draw(desk, "pole-canal-shot", {}, tmp_path / "a.svg")
    with pytest.raises(AskedWronglyError, match="already") as refused:
        recipes.draw(desk, "pole-canal-shot", {}, tmp_path / "a.svg")
    assert refused.value.see == "output.replace"


@pytest.mark.parametrize(
    ("choices", "field"),
    [
        ({"dpeth": "1 m"}, "set.dpeth"),
        ({"depth": "9 m"}, "set.depth"),
        ({"depth": "deep"}, "set.depth"),
        ({"float": "4×99"}, "set.float"),
        ({"hooklength": "none"}, "set.hooklength"),
    ],
)
def test_a_fault_names_the_choice(desk: Desk, choices: dict[str, str], field: str) -> None:
    with pytest.raises(AskedWronglyError) as refused:
        recipes.draw(desk, "pole-canal-shot", choices)
    assert refused.value.field == field


def test_all_of_it_is_known_to_json(desk: Desk) -> None:
    assert as_json(recipes.listed(desk))["recipes"][0]["recipe"]
    assert as_json(recipes.show(desk, "stick-float"))["parts"][0]["kind"] == "chain"
