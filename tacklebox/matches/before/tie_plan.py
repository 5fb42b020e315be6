"""Tying a plan: all that it says, from the items it chose, in one transaction."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby

from sqlmodel import func, select

from tacklebox.errors import CannotBeDoneError
from tacklebox.matches.before.day_rules import judge_day
from tacklebox.matches.before.judged_plan import judge_plan
from tacklebox.matches.before.plan import Plan, PlannedWant
from tacklebox.matches.before.rulings import Ruling, Verdict
from tacklebox.matches.files.venue import Venue
from tacklebox.rigs.checking.check import Checked, check
from tacklebox.rigs.fitting import fit
from tacklebox.rigs.tying.tie import Tying, tie
from tacklebox.stock.care.box import Box
from tacklebox.stock.inventory import Inventory
from tacklebox.stock.tables import Action, Kind
from tacklebox.trade.breaks_first import DOUBTFUL_FROM, SOUND_FROM


@dataclass(frozen=True)
class Portion:
    """Rigs of one want that are tied from the same items: how many, and the item of each part."""

    want: PlannedWant
    count: int
    use: Mapping[str, int]


def portions_of(plan: Plan) -> list[Portion]:
    """What is to be tied, by the items that the plan chose, the most important first.

    Hooklengths come after the rigs, whose checks look at the hooklength that stock would serve.
    """
    wants = sorted(plan.wants, key=lambda want: want.resolved.recipe.makes == "hooklength")
    return [portion for want in wants for portion in _portions(want)]


def _portions(want: PlannedWant) -> Iterator[Portion]:
    """The first rig takes the first item of each part, and so on down each part's own list."""
    by_part = {part: [s.id for s, n in items for _ in range(n)] for part, items in want.parts}
    each = [{part: ids[rig] for part, ids in by_part.items()} for rig in range(want.tie)]
    for use, rigs in groupby(each):
        yield Portion(want, len(list(rigs)), use)


def check_portions(
    box: Box,
    portions: Sequence[Portion],
    limits: tuple[float, float] = (SOUND_FROM, DOUBTFUL_FROM),
) -> list[Checked]:
    """Every portion fitted to stock one after the other, and checked; nothing is written."""
    with box.reading() as session:
        inventory = Inventory.read(session, Kind)
    return [check(fit(p.want.resolved, inventory, p.count, p.use), *limits) for p in portions]


def not_allowed(box: Box, venue: Venue, on: date, plan: Plan) -> list[tuple[str, Ruling]]:
    """What the venue does not allow of the day ("") and of what would be tied, by recipe."""
    to_tie = [replace(want, ready=()) for want in plan.wants if want.tie]
    judged = judge_plan(box, venue, replace(plan, wants=tuple(to_tie)))
    rulings = [("", ruling) for ruling in judge_day(venue, on)]
    rulings += [
        (want.resolved.recipe.stem, ruling)
        for want, rulings in zip(to_tie, judged, strict=True)
        for ruling in rulings
    ]
    return [(about, r) for about, r in rulings if r.verdict is Verdict.NOT_ALLOWED]


def tie_portions(
    box: Box,
    portions: Sequence[Portion],
    on: date,
    *,
    because: str = "",
    limits: tuple[float, float] = (SOUND_FROM, DOUBTFUL_FROM),
    as_of: int | None = None,
    progress: Callable[[int], None] | None = None,
) -> list[Tying]:
    """Tie every portion, in one transaction and as one action: all of them or nothing.

    ``limits`` are the chances from which a rig is sound, and to be looked at again; ``as_of`` is
    the last action that the plan knows of; ``progress`` is called with how many are tied by then. Raises
    CannotBeDoneError when another action came since, when stock is short by now, or when a check
    says it fails and no reason to go on is given in ``because``, which is kept with those rigs.
    """
    with box.writing() as session:
        if as_of is not None and (session.exec(select(func.max(Action.id))).one() or 0) != as_of:
            raise CannotBeDoneError(
                "the box was changed while the plan was made; nothing was tied.",
                right="Ask again: it is planned anew.",
            )
        done = []
        for portion in portions:
            try:
                made = tie(
                    box, portion.want.resolved, portion.count, on,
                    use=portion.use, because=because, limits=limits,
                )  # fmt: skip
            except CannotBeDoneError as error:
                raise CannotBeDoneError(
                    f"nothing of the plan was tied: {error.what}", right=error.right, see=error.see
                ) from None
            done.append(made)
            if progress:
                progress(sum(tying.count for tying in done))
    return done
