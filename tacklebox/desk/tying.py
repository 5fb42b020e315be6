"""Tying from stock: rigs get codes, and the count of stock stays true."""

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tacklebox.desk.asking import items_to_use, past_day, resolved_recipe
from tacklebox.desk.opening import Desk
from tacklebox.desk.settings import chances_of
from tacklebox.desk.stock import Moved, moved
from tacklebox.desk.venues import asked_at
from tacklebox.errors import AskedWronglyError, StockShortError

if TYPE_CHECKING:
    from tacklebox.desk.judgements import Caution, Judgement, Outcome
    from tacklebox.rigs.recipes.resolved import Resolved
    from tacklebox.rigs.tying.tie import Tying


@dataclass(frozen=True)
class RigsTied:
    """What was tied, what the checks said of it, and what is left of what was used.

    ``codes`` are the rigs'; hooklengths have one for all that are tied from the same, and
    ``hooklengths`` is what they were added to.
    """

    recipe: str
    name: str
    count: int
    codes: tuple[str, ...]
    outcome: "Outcome"
    judgements: "tuple[Judgement, ...]"
    left: tuple[Moved, ...]
    cautions: "tuple[Caution, ...]"
    hooklengths: tuple[Moved, ...] = ()


def tie(
    desk: Desk,
    recipe: str,
    choices: Mapping[str, str],
    *,
    count: int = 1,
    use: Mapping[str, str] | None = None,
    because: str = "",
    with_hooklength: bool = False,
    venue: str = "",
    sound_from: str = "",
    doubtful_from: str = "",
    on: str = "",
    entered_late: bool = False,
) -> RigsTied:
    """Tie so many from stock: the rigs and every movement in one transaction, or nothing.

    A part may be tied from several items, where one does not reach or does not hold.
    ``with_hooklength`` puts one on each rig, all from the same items: from the wallet where that has
    enough, else of hook and line. A ``venue`` may ask that weights come free. Hooklengths may be tied on a
    day before their hook and line came into the box where those were there, and ``entered_late``. Raises
    AskedWronglyError for what is not known or is outside its range, StockShortError where stock is short,
    with the choices for which it is not, CannotBeDoneError where a check fails and ``because`` gives no
    reason to go on, which is kept.
    """
    from tacklebox.matches.before.tie_plan import tie_so_many
    from tacklebox.rigs.tying.tie import could_be_tied
    from tacklebox.rigs.tying.tie import tie as tie_alike

    limits = chances_of(desk, sound_from, doubtful_from)
    day = past_day(desk, on)
    resolved = asked_at(desk, resolved_recipe(desk.recipes, recipe, choices), venue)
    items = items_to_use(desk, use or {})
    try:
        if with_hooklength:
            done = [
                tie_alike(
                    desk.box, resolved, count, day,
                    use=items, because=because, limits=limits, with_hooklength=True,
                )
            ]  # fmt: skip
        else:
            done = tie_so_many(
                desk.box, resolved, count, day,
                use=items, because=because, limits=limits, entered_late=entered_late,
            )  # fmt: skip
    except StockShortError as short:

        def serves(chosen: Mapping[str, str]) -> bool:
            other = asked_at(desk, resolved_recipe(desk.recipes, recipe, chosen), venue)
            return could_be_tied(
                desk.box, other, count, use=items, limits=limits, with_hooklength=with_hooklength
            )

        raise _with_other_choices(short, resolved, choices, serves) from None
    return _answer(done)


def _with_other_choices(
    short: StockShortError,
    resolved: "Resolved",
    choices: Mapping[str, str],
    serves: Callable[[Mapping[str, str]], bool],
) -> StockShortError:
    """The fault with what else could be chosen, one choice at a time, so that stock ``serves`` it."""
    below = resolved.hooklength
    chosen = {**(below.chosen if below else {}), **resolved.chosen}
    offered = {**(below.recipe.choose if below else {}), **resolved.recipe.choose}
    would = []
    for name, choice in offered.items():
        for value in choice.any_of:
            with suppress(AskedWronglyError):  # that other choices do not go with
                if value != chosen[name] and serves({**choices, name: value}):
                    would.append((name, value))
    if not would:
        return short
    words = " or ".join(f"{name} {value}" for name, value in would)
    first, value = would[0]
    return StockShortError(
        short.what, right=f"With {words} there is enough.", see=f"tie.choose {first}={value}"
    )


def _answer(done: "Sequence[Tying]") -> RigsTied:
    from tacklebox.trade.judgement import worst
    from tacklebox.trade.law import cautions_for

    recipe = done[0].checked.fit.resolved.recipe
    left = {item.id or 0: item for tying in done for item in tying.left}  # as the last left it
    added = {tying.item.id: tying.item for tying in done if tying.item}
    return RigsTied(
        recipe.stem,
        recipe.name,
        sum(tying.count for tying in done),
        tuple(one.code for tying in done for one in tying.made),
        worst([tying.checked.outcome for tying in done]),
        tuple(dict.fromkeys(j for tying in done for j in tying.checked.judgements)),
        tuple(moved(item) for item in left.values()),
        cautions_for(recipe.method, recipe.makes),
        tuple(moved(item) for item in added.values()),
    )
