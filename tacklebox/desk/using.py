"""Which recipes an item would serve."""

from dataclasses import dataclass

from tacklebox.desk.asking import resolved_recipe
from tacklebox.desk.opening import Desk
from tacklebox.desk.stock import find_item
from tacklebox.errors import BenchError


@dataclass(frozen=True)
class CanServe:
    """A recipe, and the parts of it that the item would serve with its usual choices."""

    recipe: str
    name: str
    parts: tuple[str, ...]


def recipes_for(desk: Desk, item: str) -> tuple[CanServe, ...]:
    """The recipes that can use an item, by name; a recipe that cannot be read is left out."""
    from tacklebox.stock.tables import FIGURES

    with desk.box.reading() as session:
        found = find_item(session, item)
        figures = session.get_one(FIGURES[found.kind], found.id)
    answer = []
    for name in desk.recipes.names():
        try:
            resolved = resolved_recipe(desk.recipes, name, {})
        except BenchError:
            continue
        parts = [
            need.part
            for need in resolved.needs
            if need.ask.kind == found.kind and need.ask.matches(figures)
        ]
        if parts:
            recipe = resolved.recipe
            answer.append(CanServe(recipe.stem, recipe.name, tuple(dict.fromkeys(parts))))
    return tuple(answer)
