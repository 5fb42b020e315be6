"""Reading what was asked: each fault names the field that it lies in."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import TYPE_CHECKING, TypeVar

from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.desk.opening import Desk
    from tacklebox.rigs.recipes.file import Shelf
    from tacklebox.rigs.recipes.resolved import Resolved

S = TypeVar("S")
T = TypeVar("T")


def in_field(name: str, read: Callable[[S], T], given: S) -> T:
    """What is read from what a field was given; a fault names the field."""
    try:
        return read(given)
    except AskedWronglyError as error:
        raise error.in_field(name) from None


def past_day(desk: "Desk", said: str, field: str = "on") -> date:
    """The day on which something was done, today where nothing is said."""
    from tacklebox.stock.dates import read_past_date

    return in_field(field, lambda text: read_past_date(text, desk.today()), said)


def resolved_recipe(shelf: "Shelf", name: str, choices: Mapping[str, str]) -> "Resolved":
    """A recipe with its choices made, and its hooklength's.

    A choice that the rig does not know is its hooklength's; one that neither knows is a fault.
    """
    from tacklebox.rigs.recipes.resolving import resolve

    recipe = shelf.load(name)
    if not recipe.hooklengths:
        return resolve(recipe, dict(choices))
    own = dict(choices)
    wanted = own.pop("hooklength", recipe.hooklengths[0])
    if wanted not in recipe.hooklengths:
        raise AskedWronglyError(
            f'"{wanted}" does not go with {recipe.stem}.',
            field="set.hooklength",
            right="Choose one of: " + ", ".join(recipe.hooklengths) + ".",
        )
    below = shelf.load(wanted)
    passed_on = {k: own.pop(k) for k in list(own) if k not in recipe.choose and k in below.choose}
    return resolve(recipe, own, resolve(below, passed_on))
