"""Tying from stock: rigs get codes, and the count of stock stays true."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.desk.asking import chances, items_to_use, past_day, resolved_recipe
from tacklebox.desk.opening import Desk
from tacklebox.desk.stock import Moved, moved

if TYPE_CHECKING:
    from tacklebox.desk.judgements import Caution, Judgement, Outcome
    from tacklebox.rigs.tying.tie import Tying


@dataclass(frozen=True)
class RigsTied:
    """What was tied, what the checks said of it, and what is left of what was used.

    ``codes`` are the rigs'; hooklengths have one for all, and ``hooklength`` is what they were added to.
    """

    recipe: str
    name: str
    count: int
    codes: tuple[str, ...]
    outcome: "Outcome"
    judgements: "tuple[Judgement, ...]"
    left: tuple[Moved, ...]
    cautions: "tuple[Caution, ...]"
    hooklength: Moved | None = None


def tie(
    desk: Desk,
    recipe: str,
    choices: Mapping[str, str],
    *,
    count: int = 1,
    use: Mapping[str, str] | None = None,
    because: str = "",
    sound_from: str = "",
    doubtful_from: str = "",
    on: str = "",
) -> RigsTied:
    """Tie so many from stock: the rigs and every movement in one transaction, or nothing.

    Raises AskedWronglyError for what is not known or is outside its range, CannotBeDoneError where
    stock is short, or a check fails and ``because`` gives no reason to go on, which is kept.
    """
    from tacklebox.rigs.tying import tie as tying

    limits = chances(sound_from, doubtful_from)
    day = past_day(desk, on)
    resolved = resolved_recipe(desk.recipes, recipe, choices)
    items = items_to_use(desk, use or {})
    done = tying.tie(desk.box, resolved, count, day, use=items, because=because, limits=limits)
    return _answer(done)


def _answer(done: "Tying") -> RigsTied:
    from tacklebox.trade.law import cautions_for

    recipe = done.checked.fit.resolved.recipe
    return RigsTied(
        recipe.stem,
        recipe.name,
        done.count,
        tuple(one.code for one in done.made),
        done.checked.outcome,
        done.checked.judgements,
        tuple(moved(item) for item in done.left),
        cautions_for(recipe.method, recipe.makes),
        moved(done.item) if done.item else None,
    )
