"""A recipe looked at before it is tied: what the checks say and its drawing, of one and the same fit."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.desk.asking import count_of, resolved_recipe
from tacklebox.desk.checking import RigChecked, answer_of
from tacklebox.desk.opening import Desk
from tacklebox.desk.recipes import ON_SCREEN
from tacklebox.desk.venues import asked_at

if TYPE_CHECKING:
    from tacklebox.rigs.recipes.resolved import Resolved


@dataclass(frozen=True)
class LookedAt:
    """What the checks say of a recipe as stock serves it now, and how it looks then."""

    checked: RigChecked
    svg: str


def look(
    desk: Desk, recipe: str, choices: Mapping[str, str], *, count: int = 1, venue: str = ""
) -> LookedAt:
    """Check a recipe and draw it, for a ``venue`` as ``checking.check`` does.

    Raises AskedWronglyError for a recipe, choice or venue that is not there.
    """
    resolved = asked_at(desk, resolved_recipe(desk.recipes, recipe, choices), venue)
    return look_at(desk, resolved, count)


def look_at(desk: Desk, resolved: "Resolved", count: int = 1) -> LookedAt:
    """The same of a recipe that need not be in the box yet."""
    from tacklebox.printing.drawing.rig import drawing_svg
    from tacklebox.rigs.tying.describe import describe
    from tacklebox.rigs.tying.tie import MOST_AT_ONCE, fit_and_check

    checked = fit_and_check(desk.box, resolved, count_of(count, MOST_AT_ONCE))
    svg = drawing_svg(describe(checked, "", desk.today()), *ON_SCREEN)
    return LookedAt(answer_of(desk, checked), svg)
