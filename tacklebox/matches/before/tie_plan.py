"""Tying a plan: all that it says, from the items it chose, in one transaction."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from sqlmodel import func, select

from tacklebox.errors import CannotBeDoneError, StockShortError
from tacklebox.matches.before.day_rules import judge_day
from tacklebox.matches.before.judged_plan import judge_plan
from tacklebox.matches.before.plan import Plan, PlannedWant, make_plan, wanted_of
from tacklebox.matches.before.rulings import Ruling, Verdict
from tacklebox.matches.files.venue import Venue
from tacklebox.rigs.checking.check import Checked, check
from tacklebox.rigs.fitting import fit, inventory_for
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.rigs.tying.tie import MOST_AT_ONCE, Tying, fit_and_check, tie
from tacklebox.stock.care.box import Box
from tacklebox.stock.tables import Action
from tacklebox.trade.breaks_first import DOUBTFUL_FROM, SOUND_FROM
from tacklebox.trade.judgement import Outcome
from tacklebox.trade.limits import within


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
    return [Portion(want, alike.count, alike.use) for want in wants for alike in want.alike]


def check_portions(
    box: Box,
    portions: Sequence[Portion],
    limits: tuple[float, float] = (SOUND_FROM, DOUBTFUL_FROM),
) -> list[Checked]:
    """Every portion fitted to stock one after the other, and checked; nothing is written."""
    with box.reading() as session:
        named = {item for p in portions for item in p.use.values()}
        inventory = inventory_for(session, [p.want.resolved for p in portions], named)
    return [
        check(fit(p.want.resolved, inventory, p.count, p.use, hooklengths=1), *limits)
        for p in portions
    ]


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


def tie_so_many(
    box: Box,
    resolved: Resolved,
    count: int,
    on: date,
    *,
    use: Mapping[str, int] | None = None,
    because: str = "",
    limits: tuple[float, float] = (SOUND_FROM, DOUBTFUL_FROM),
    entered_late: bool = False,
) -> list[Tying]:
    """Tie so many of one recipe, all of them or nothing, as one action.

    They are tied from the nearest items where those reach for all and every check is sound; else stock
    is divided as for a match, so that a part may come from several items. ``use`` names the item for a
    part. Raises StockShortError when stock does not reach, CannotBeDoneError when nothing in the box holds
    and no reason to go on is given in ``because``.
    """
    within(count, 1, MOST_AT_ONCE, "a number to tie at once", field="count")
    nearest = fit_and_check(box, resolved, count, use, limits, hooklengths=1)
    reaches = not nearest.fit.gaps
    if reaches and nearest.outcome is Outcome.SOUND:
        return [tie(box, resolved, count, on, use=use, limits=limits, entered_late=entered_late)]
    despite = bool(because.strip())
    wanted = [(wanted_of(resolved, count), resolved)]
    plan = make_plan(box, wanted, None, limits, despite_checks=despite, anew=True, use=use)
    (want,) = plan.wants
    if reaches and (want.holds_in_nothing or not _is_better(want, nearest)):
        # As good from the nearest; where all fails, that is what says so.
        return [
            tie(
                box, resolved, count, on,
                use=use, because=because, limits=limits, entered_late=entered_late,
            )
        ]  # fmt: skip
    if want.tie < count:
        missing = list(_missing(box, nearest, use or {})) or list(map(str, want.stopped_by))
        raise StockShortError(
            f"stock is short for {count} × {resolved.recipe.name}, {want.tie} can be tied; nothing was "
            "tied." + "".join(f"\n  {line}" for line in missing)
        )
    return tie_portions(
        box,
        portions_of(plan),
        on,
        because=because,
        limits=limits,
        as_of=plan.as_of,
        entered_late=entered_late,
    )


def _missing(box: Box, nearest: Checked, use: Mapping[str, int]) -> Iterator[str]:
    """The parts that all that would do for them does not reach for, and what there is."""
    fitted = nearest.fit
    with box.reading() as session:
        inventory = inventory_for(session, [fitted.resolved], use.values())
    for serving in fitted.gaps:
        need, only = serving.need, use.get(serving.need.part)
        would = inventory.ranked(need.ask, in_place=False)
        lefts = (inventory.left(stocked) for stocked in would if only in (None, stocked.id))
        if sum(max(left, 0) // need.amount for left in lefts) < fitted.count:
            yield f"{need.part}: {serving.gap}"


def _is_better(want: PlannedWant, nearest: Checked) -> bool:
    """Whether any rig of it is better than all would be from the nearest items."""
    if not want.tie:
        return False
    best = min(want.checked, key=lambda checked: list(Outcome).index(checked.outcome))
    return list(Outcome).index(best.outcome) < list(Outcome).index(nearest.outcome)


def tie_portions(
    box: Box,
    portions: Sequence[Portion],
    on: date,
    *,
    because: str = "",
    limits: tuple[float, float] = (SOUND_FROM, DOUBTFUL_FROM),
    as_of: int | None = None,
    progress: Callable[[int], None] | None = None,
    entered_late: bool = False,
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
                    use=portion.use, because=because, limits=limits, entered_late=entered_late,
                )  # fmt: skip
            except CannotBeDoneError as error:
                raise CannotBeDoneError(
                    f"nothing of the plan was tied: {error.what}", right=error.right, see=error.see
                ) from None
            done.append(made)
            if progress:
                progress(sum(tying.count for tying in done))
    return done
