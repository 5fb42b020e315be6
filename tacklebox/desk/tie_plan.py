"""Tying all that a plan says, as one action, with its tie sheets and labels.

The order is a rule: what can be wrong with a file is looked for first, for nothing is tied whose
labels could not be printed. Tie sheets need no codes and are laid out before the tying, so that
nothing is tied where they fail, and take their place once all is tied. Labels bear the codes and
come last; where they fail, the rigs are tied all the same, and it is told how to print them.
"""

from collections.abc import Mapping, Sequence
from contextlib import nullcontext
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tacklebox.desk.asking import page_size, past_day
from tacklebox.desk.labels import (
    LabelsPrinted,
    NotNotedError,
    OnPaper,
    Papers,
    papers_for,
    print_snapshots,
)
from tacklebox.desk.notices import each_second
from tacklebox.desk.opening import Desk
from tacklebox.desk.plans import FailsWithOne, Prepared, fails_with, prepare
from tacklebox.desk.settings import chances_of
from tacklebox.desk.stock import Moved, moved
from tacklebox.errors import BenchError, CannotBeDoneError

if TYPE_CHECKING:
    from datetime import date

    from tacklebox.matches.before.plan import PlannedWant
    from tacklebox.matches.before.rulings import Ruling
    from tacklebox.outputs import Target
    from tacklebox.printing.pages.tick_page import Printed as Printed
    from tacklebox.rigs.recipes.resolved import Resolved
    from tacklebox.rigs.tying.tie import Tying
    from tacklebox.trade.judgement import Judgement as Judgement
    from tacklebox.trade.judgement import Outcome
    from tacklebox.trade.law import Caution as Caution


@dataclass(frozen=True)
class ToPrint:
    """Files that are wanted with the tying: labels on a paper, tie sheets on a page."""

    labels: "Target | None" = None
    on_paper: OnPaper = field(default_factory=OnPaper)
    sheets: "Target | None" = None
    page: str = "a4"
    replace: bool = False


@dataclass(frozen=True)
class TiedOfPlan:
    """Rigs of one recipe with the same choices, and the checks of them that are not sound.

    Hooklengths that were tied together have one code. ``fails_with`` are the hooklengths of the plan that
    are not to go on all of them.
    """

    recipe: str
    name: str  # with what is chosen
    chosen: Mapping[str, str]
    count: int
    codes: tuple[str, ...]
    outcome: "Outcome"
    doubts: "tuple[Judgement, ...]"
    fails_with: tuple[FailsWithOne, ...]


@dataclass(frozen=True)
class StaysUnmet:
    """A want of which so many are neither ready nor tied, and why."""

    recipe: str
    name: str
    count: int
    because: str


@dataclass(frozen=True)
class PlanTied:
    """What was tied for a match, and what of it was not.

    ``not_allowed`` says that some of what is unmet is turned away by the venue, ``fails`` that nothing
    in the box holds in some of it; ``left`` are the items that were used, as they are now.
    """

    match: str
    name: str
    tied: tuple[TiedOfPlan, ...]
    ready: int
    unmet: tuple[StaysUnmet, ...]
    not_allowed: bool
    fails: bool
    left: tuple[Moved, ...]
    cautions: "tuple[Caution, ...]"
    sheets: "Printed | None" = None
    labels: LabelsPrinted | None = None


def tie(
    desk: Desk,
    match: str,
    wanted: ToPrint | None = None,
    *,
    because: str = "",
    despite_rules: bool = False,
    sound_from: str = "",
    doubtful_from: str = "",
    on: str = "",
) -> PlanTied:
    """Tie all that the plan of a match says, from the items it chose: everything at once, or nothing.

    ``because`` is why to tie what fails a check, too, where nothing holds; ``despite_rules`` ties what
    the venue does not allow, too. Raises AskedWronglyError as ``plans.plan``, and for what cannot be printed;
    CannotBeDoneError where the venue, a check or the stock is against it, and where the box was
    changed meanwhile.
    """
    from tacklebox.matches.before.tie_plan import portions_of
    from tacklebox.rigs.tying.owed import labels_owed

    printing = wanted or ToPrint()
    limits, day = chances_of(desk, sound_from, doubtful_from), past_day(desk, on)
    papers = _tried(desk, printing)
    despite_checks = bool(because.strip())
    prepared = prepare(
        desk, match, limits, despite_rules=despite_rules, despite_checks=despite_checks
    )
    if not portions_of(prepared.plan):
        return _answer(prepared, [])
    if not despite_rules:
        _refuse_not_allowed(desk, prepared)
    with labels_owed(desk.box) if papers else nullcontext():
        done, sheets = _tie(desk, prepared, printing, limits, day, because)
        labels = _print_labels(desk, printing, papers, done, day) if papers else None
    return _answer(prepared, done, sheets, labels)


def _tried(desk: Desk, wanted: ToPrint) -> Papers | None:
    """Whether all files can be written where they are wanted; what the labels go on.

    Raises AskedWronglyError for a page, paper or place that is none, and as writing would.
    """
    from tacklebox.outputs import PDF, Output, try_outputs

    if wanted.sheets is not None:
        page_size(wanted.page)
    papers = papers_for(desk, wanted.on_paper) if wanted.labels is not None else None
    files = (("labels", wanted.labels), ("sheets", wanted.sheets))
    try_outputs([Output(to, PDF, wanted.replace, field) for field, to in files if to is not None])
    return papers


def _refuse_not_allowed(desk: Desk, prepared: Prepared) -> None:
    from tacklebox.matches.before.tie_plan import not_allowed
    from tacklebox.trade.law import DEFERS

    match, venue = prepared.match, prepared.venue
    found = not_allowed(desk.box, venue, match.day, prepared.plan)
    if found:
        lines = "".join(f"\n  {_in_words(about, ruling)}" for about, ruling in found)
        raise CannotBeDoneError(
            f"{venue.name} does not allow this; nothing was tied.{lines}",
            right="\nAsk for what would pass in the recipe, or change the want; at this water "
            f"{DEFERS}.",
            see="tie_plan.despite_rules",
        )


def _in_words(about: str, ruling: "Ruling") -> str:
    words = ": ".join(w for w in (about, ruling.rule.words, ruling.part, ruling.says) if w)
    return words + (f"; would pass: {ruling.remedy}" if ruling.remedy else "")


def _tie(
    desk: Desk,
    prepared: Prepared,
    wanted: ToPrint,
    limits: tuple[float, float],
    day: "date",
    because: str,
) -> "tuple[list[Tying], Printed | None]":
    """The tie sheets laid out, then all tied, then the sheets in their place."""
    from tacklebox.matches.before.tie_plan import check_portions, portions_of, tie_portions
    from tacklebox.outputs import PDF, write_aside

    portions, sheets = portions_of(prepared.plan), wanted.sheets
    with write_aside(sheets, PDF, overwrite=wanted.replace) if sheets else nullcontext() as aside:
        printed = None
        if aside is not None:
            from tacklebox.printing.pages.tie_sheet import write_tie_sheets

            checked = check_portions(desk.box, portions, limits)
            printed = write_tie_sheets(checked, aside, day, page=wanted.page)
        done = tie_portions(
            desk.box,
            portions,
            day,
            because=because,
            limits=limits,
            as_of=prepared.plan.as_of,
            progress=each_second(desk, sum(portion.count for portion in portions), "tied"),
        )
    return done, printed


def _print_labels(
    desk: Desk, wanted: ToPrint, papers: Papers, done: "Sequence[Tying]", day: "date"
) -> LabelsPrinted:
    from tacklebox.rigs.tying.snapshot import Snapshot

    made = [one for tying in done for one in tying.made]
    snapshots = [Snapshot.from_json(one.snapshot) for one in made]
    assert wanted.labels is not None
    try:
        return print_snapshots(
            desk, snapshots, wanted.labels, papers, day, tied_by=made[0].action_id
        )
    except NotNotedError:
        raise
    except BenchError as error:
        raise CannotBeDoneError(
            f"{sum(tying.count for tying in done)} are tied, but their labels were not printed: {error}",
            see=f"labels.last_on {on_it}" if (on_it := papers.wanted.paper) else "labels.last",
        ) from None


def _answer(
    prepared: Prepared,
    done: "Sequence[Tying]",
    sheets: "Printed | None" = None,
    labels: LabelsPrinted | None = None,
) -> PlanTied:
    from tacklebox.trade.law import cautions_for

    wants = prepared.plan.wants
    left = {item.id or 0: item for tying in done for item in tying.left}  # as the last left it
    recipes = [want.resolved.recipe for want in wants if want.tie and done]
    cautions = [c for recipe in recipes for c in cautions_for(recipe.method, recipe.makes)]
    return PlanTied(
        prepared.match.stem,
        prepared.match.name,
        _tied(done, wants),
        sum(want.has for want in wants),
        tuple(
            StaysUnmet(want.resolved.recipe.stem, want.called, want.unmet, want.because)
            for want in wants
            if want.unmet
        ),
        any(want.none_allowed for want in wants),
        any(want.holds_in_nothing for want in wants),
        tuple(moved(item) for _, item in sorted(left.items())),
        tuple(dict.fromkeys(cautions)),
        sheets,
        labels,
    )


def _tied(done: "Sequence[Tying]", wants: "Sequence[PlannedWant]") -> tuple[TiedOfPlan, ...]:
    """What was tied, the same of two portions together."""
    from tacklebox.trade.judgement import Outcome, worst

    found: dict[tuple[str, str], list[Tying]] = {}
    for tying in done:
        found.setdefault(_recipe_and_name(tying.checked.fit.resolved), []).append(tying)
    failing: dict[tuple[str, str], tuple[FailsWithOne, ...]] = {}
    for want in wants:
        key = _recipe_and_name(want.resolved)
        failing[key] = failing.get(key, ()) + fails_with(want)
    return tuple(
        TiedOfPlan(
            stem,
            name,
            dict(same[0].checked.fit.resolved.chosen),
            sum(tying.count for tying in same),
            tuple(made.code for tying in same for made in tying.made),
            worst([tying.checked.outcome for tying in same]),
            tuple(
                dict.fromkeys(
                    j
                    for tying in same
                    for j in tying.checked.judgements
                    if j.outcome is not Outcome.SOUND
                )
            ),
            failing.get((stem, name), ()),
        )
        for (stem, name), same in found.items()
    )


def _recipe_and_name(resolved: "Resolved") -> tuple[str, str]:
    chosen = "".join(f", {name} {value}" for name, value in resolved.chosen.items())
    return resolved.recipe.stem, f"{resolved.recipe.name}{chosen}"
