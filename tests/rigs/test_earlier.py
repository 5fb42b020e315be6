"""Recipe files as they were shipped before: an angler's copies of them are read for good."""

from pathlib import Path

import pytest

from tacklebox.rigs.checking.check import check
from tacklebox.rigs.fitting import unfitted
from tacklebox.rigs.recipes.file import Shelf, parse_recipe
from tacklebox.rigs.recipes.resolving import resolve
from tacklebox.trade.judgement import Check, Outcome

FILES = sorted(Path(__file__).with_name("earlier").glob("*/*.toml"))
# Whether every weight comes free, of those that ask for it. The first ones hung their feeders below a
# loop in the line, which no eye passes; a helicopter's bead was not tried by hand.
COMES_FREE = {
    "version-1/feeder-running-paternoster": Outcome.DOUBTFUL,
    "version-1/feeder-in-line": Outcome.DOUBTFUL,
    "version-1/bomb-running": Outcome.DOUBTFUL,
    "version-3/feeder-running-paternoster": Outcome.SOUND,
    "version-3/feeder-helicopter": Outcome.DOUBTFUL,
}


def test_every_one_is_kept() -> None:
    assert len(FILES) == 19
    assert len({file.parent.name for file in FILES}) == 3


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
    known = COMES_FREE.get(f"{file.parent.name}/{file.stem}")
    assert free == ([known] if known else [])
