"""Recipe files as they were shipped before: an angler's copies of them are read for good."""

from pathlib import Path

import pytest

from tacklebox.rigs.checking.check import check
from tacklebox.rigs.fitting import unfitted
from tacklebox.rigs.recipes.file import Shelf, parse_recipe
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.trade.judgement import Check, Outcome

FILES = sorted(Path(__file__).with_name("earlier").glob("*/*.toml"))
LOOPED = ("feeder-running-paternoster", "feeder-in-line", "bomb-running")


def test_every_one_is_kept() -> None:
    assert len(FILES) == 15
    assert len({file.parent.name for file in FILES}) == 2


@pytest.mark.parametrize("file", FILES, ids=lambda file: f"{file.parent.name}-{file.stem}")
def test_an_earlier_recipe_is_read_with_every_choice_and_judged(file: Path) -> None:
    recipe = parse_recipe(file.read_text(encoding="utf-8"), file.stem)
    below = resolve(Shelf().load(recipe.hooklengths[0])) if recipe.hooklengths else None
    for key, choice in recipe.choose.items():
        for value in (*choice.any_of, choice.low, choice.high):
            if value is not None:
                assert resolve(recipe, {key: value}, below).needs
    checked = check(unfitted(resolve(recipe, {}, below)))
    free = [j.outcome for j in checked.judgements if j.key is Check.COMES_FREE]
    # They hung their feeders below a loop in the line, which no eye passes.
    assert free == ([Outcome.DOUBTFUL] if file.stem in LOOPED else [])
