"""The depth as it was plumbed, and how much over it a rig is fished: what that makes of a recipe's depth."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from tacklebox.errors import AskedWronglyError
from tacklebox.rigs.recipes.file import Recipe
from tacklebox.stock.naming.tokens import as_said
from tacklebox.trade.hanging import (
    DEPTH_NOT_SAID,
    Depth,
    FishedDepth,
    read_fished,
)
from tacklebox.trade.quantities import MM_PER_INCH, read_length_mm, write_length
from tacklebox.trade.units_first import IMPERIAL, feet_and_inches, first, show_length

Read = TypeVar("Read")
DEPTH, PLUMBED, OVER = "depth", "plumbed", "over"
_IMPERIAL = re.compile(r"['\"′″]|\b(?:ft|foot|feet|in|inch|inches|yds?|yards?)\b")


@dataclass(frozen=True)
class PlumbedDepth:
    """The water's depth as it was said, "" where nobody said it; ``fished``: how deep the rig is fished
    there, None where it is not said otherwise than by the recipe."""

    words: str = ""
    fished: FishedDepth | None = None


def takes_depth(recipe: Recipe) -> bool:
    """Whether the recipe has a depth that is chosen, so that it can be plumbed."""
    choice = recipe.choose.get(DEPTH)
    return choice is not None and not choice.any_of


def plumb(recipe: Recipe, wishes: Mapping[str, str]) -> tuple[dict[str, str], PlumbedDepth]:
    """The wishes with the depth that follows from what was plumbed, and that itself.

    The depth is the water's and what is fished over it; off bottom it stays as chosen. A depth that is
    wished for is kept. Raises AskedWronglyError for what is no depth.
    """
    others = dict(wishes)
    if not takes_depth(recipe):
        return others, PlumbedDepth()
    words, over = (
        "" if name in recipe.choose else as_said(others.pop(name, "")) for name in (PLUMBED, OVER)
    )
    fished = _in_choice(OVER, _read_over, over) if over else None
    if words and DEPTH not in others:
        deep_mm = _in_choice(PLUMBED, read_length_mm, words)
        how = fished or _by_recipe(recipe, others)
        if how.depth is not Depth.OFF:
            others[DEPTH] = _as_told(deep_mm, how.over_mm, words)
    return others, PlumbedDepth(words, fished)


def _as_told(deep_mm: float, over_mm: float, words: str) -> str:
    """The depth in the units that are told first, else in those that the water's was said in: as that
    was said where it is the same, else to a quarter inch or a centimetre."""
    depth_mm = deep_mm + over_mm
    if first() == IMPERIAL:
        return show_length(depth_mm)
    if not first() and not over_mm:
        return words
    if not first() and _IMPERIAL.search(words):
        quarters = round(depth_mm / MM_PER_INCH * 4)
        if abs(quarters * MM_PER_INCH / 4 - depth_mm) < 1:
            return feet_and_inches(quarters)
    return write_length(round(depth_mm, -1) if over_mm else depth_mm)


def _by_recipe(recipe: Recipe, wishes: Mapping[str, str]) -> FishedDepth:
    """How the recipe says that it is fished, with what is wished for where it is chosen."""
    if recipe.fished is None:
        return DEPTH_NOT_SAID
    choice = recipe.choose.get(recipe.fished)
    return read_fished(wishes.get(recipe.fished, choice.usual) if choice else recipe.fished)


def _read_over(said: str) -> FishedDepth:
    """How it is fished: "2 in", "two inch over", "dead depth", "off bottom"."""
    try:
        return read_fished(said)
    except AskedWronglyError:
        return read_fished(f"over {said}")


def _in_choice(name: str, read: Callable[[str], Read], said: str) -> Read:
    try:
        return read(said)
    except AskedWronglyError as error:
        raise error.in_field(f"set.{name}") from None
