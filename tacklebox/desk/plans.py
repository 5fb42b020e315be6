"""The plan before a match: what is ready, what to tie from which items, what to buy, what the venue says."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from tacklebox.desk.asking import in_field
from tacklebox.desk.forecasts import OnTheDay, on_the_day
from tacklebox.desk.matches import matches_of
from tacklebox.desk.opening import Desk
from tacklebox.desk.settings import chances_of
from tacklebox.desk.shopping import ListFiles, ShoppingList, shopping_heading, shopping_list
from tacklebox.desk.venues import Judged, judged, overhead_lines, venues_of
from tacklebox.desk.wants import wants_of_match
from tacklebox.errors import AskedWronglyError

if TYPE_CHECKING:
    from tacklebox.matches.before.plan import Plan, PlannedWant
    from tacklebox.matches.before.rulings import Ruling
    from tacklebox.matches.files.match import Match
    from tacklebox.matches.files.venue import Venue
    from tacklebox.trade.judgement import Judgement as Judgement


@dataclass(frozen=True)
class Barred:
    """A ready rig, or a kind of hooklength, that stays at home, and the venue's rule for which it does."""

    code: str
    rule: str


@dataclass(frozen=True)
class PartFrom:
    """An item that a part is tied from, and for how many rigs."""

    part: str
    item: int
    name: str
    rigs: int


@dataclass(frozen=True)
class Hooklengths:
    """Hooklengths that serve a want, from the wallet or bought ready-made: of which item, and how many."""

    item: int
    name: str
    count: int


@dataclass(frozen=True)
class FailsWithOne:
    """So many rigs to tie that fail with a hooklength of the same plan, and by which checks."""

    rigs: int
    hooklength: str  # its name, or what it is tied from
    fails: "tuple[Judgement, ...]"

    @property
    def words(self) -> str:
        """The same in words."""
        about = ", ".join(dict.fromkeys(judgement.about for judgement in self.fails))
        return f"{self.rigs} of them would fail with {self.hooklength}: {about}"


@dataclass(frozen=True)
class WantInPlan:
    """One want: what is ready, what is in the wallet, what is tied and from what, what stays unmet and why.

    ``doubtful`` are the checks of what is to be tied that are not sound, each once; ``fails`` are those
    of what would be the nearest, where nothing in the box holds; ``ready_otherwise`` are ready rigs of the
    recipe with other choices, where those as wanted are too few.
    """

    recipe: str
    name: str  # with what is chosen
    called: str  # the same by the recipe's own name
    chosen: Mapping[str, str]
    wanted: int
    ready: tuple[str, ...]
    from_wallet: tuple[Hooklengths, ...]
    has: int  # ready, and in the wallet
    barred: tuple[Barred, ...]
    tie: int
    unmet: int
    because: str
    ready_made: tuple[Hooklengths, ...]  # to be bought for what is unmet
    parts: tuple[PartFrom, ...]
    fails: "tuple[Judgement, ...]"
    doubtful: "tuple[Judgement, ...]"
    fails_with: tuple[FailsWithOne, ...]  # of the hooklengths of the plan
    ready_otherwise: tuple[str, ...]  # codes
    venue_says: Judged


@dataclass(frozen=True)
class MatchPlan:
    """The whole plan of a match. ``proven``: every rig to tie holds with the hooklength that stock serves
    it, and no other plan has more of what is more important, ties fewer, has fewer doubtful rigs, costs
    less or opens fewer packets, in that order. What fails with another hooklength of the plan says so."""

    match: str
    name: str
    on: date
    begins: str
    ends: str
    hours: float
    venue: str
    venue_name: str
    overhead_lines: str  # the caution, "" where none are noted
    wants: tuple[WantInPlan, ...]
    shopping: ShoppingList
    on_the_day: OnTheDay
    packets_opened: int
    proven: bool
    day: Judged
    comes_first: str

    @property
    def how_sure(self) -> str:
        """What is proven of it, in words."""
        holds = "every rig to tie holds"
        if any(want.fails_with for want in self.wants):
            holds += ", but not with each of these hooklengths"
        words = (
            f"Proven: {holds}, and no other plan has more of what is more important, then "
            "ties fewer, then has fewer doubtful rigs, then costs less, then opens fewer packets."
        )
        if not self.proven:
            words = (
                f"{holds[0].upper()}{holds[1:]}. Not proven the best plan: there are more ways than are "
                "looked through."
            )
        if any(want.has for want in self.wants):
            words += " What is ready, and in the wallet, is taken as it was made."
        return words


@dataclass(frozen=True)
class Prepared:
    """A match with its venue and its plan, for all that is asked of it."""

    match: "Match"
    venue: "Venue"
    plan: "Plan"


def plan(desk: Desk, match: str, files: ListFiles | None = None) -> MatchPlan:
    """The best plan for a match that is still to come, judged by its venue.

    ``files`` take its shopping list. Raises AskedWronglyError for a match, venue or recipe that is
    none or faulty, and a match that is past; CannotBeDoneError when no plan is found.
    """
    from tacklebox.matches.before.day_rules import judge_day
    from tacklebox.matches.before.judged_plan import judge_plan
    from tacklebox.matches.before.shopping import make_shopping
    from tacklebox.trade.law import DEFERS

    files = files or ListFiles()
    files.refuse()
    prepared = prepare(desk, match)
    own, venue, made = prepared.match, prepared.venue, prepared.plan
    day = judge_day(venue, own.day, own.groundbait_g)
    rulings = judge_plan(desk.box, venue, made)
    shopping = make_shopping(made)
    return MatchPlan(
        own.stem,
        own.name,
        own.day,
        own.begins,
        own.ends,
        own.hours,
        venue.stem,
        venue.name,
        overhead_lines(venue),
        tuple(_want(want, says) for want, says in zip(made.wants, rulings, strict=True)),
        shopping_list(desk, shopping, shopping_heading(own), files),
        on_the_day(made.forecasts, planned_only=True),
        made.opened,
        made.proven,
        judged(day),
        DEFERS,
    )


def prepare(
    desk: Desk,
    match: str,
    limits: tuple[float, float] | None = None,
    *,
    despite_rules: bool = False,
    despite_checks: bool = False,
) -> Prepared:
    """A match that is still to come, its venue and its plan.

    ``limits`` are the chances from which a rig is sound, and doubtful; ``despite_rules`` plans as
    if the venue had none; ``despite_checks`` what fails is planned, too, where nothing holds. Raises as
    ``plan``.
    """
    from tacklebox.matches.before.plan import make_plan
    from tacklebox.matches.files.match import refuse_past

    own = in_field("match", matches_of(desk).load, match)
    refuse_past(own, desk.today())
    try:
        venue = venues_of(desk).load(own.venue)
    except AskedWronglyError as error:
        raise error.at(f"{own.stem}.toml, venue") from None
    rules = None if despite_rules else venue.rules
    wants = wants_of_match(desk, own)
    made = make_plan(
        desk.box,
        wants,
        rules,
        limits or chances_of(desk, "", ""),
        despite_checks=despite_checks,
    )
    return Prepared(own, venue, made)


def fails_with(want: "PlannedWant") -> tuple[FailsWithOne, ...]:
    """The hooklengths of the plan that are not to go on all of its rigs."""
    return tuple(
        FailsWithOne(one.count, one.hooklength, one.checked.refusals) for one in want.fails_with
    )


def _want(want: "PlannedWant", rulings: "Sequence[Ruling]") -> WantInPlan:
    from tacklebox.trade.judgement import Outcome

    checks = dict.fromkeys(j for checked in want.checked for j in checked.judgements)
    return WantInPlan(
        want.resolved.recipe.stem,
        want.name,
        want.called,
        dict(want.resolved.chosen),
        want.wanted.total,
        want.ready,
        tuple(Hooklengths(s.id, s.item.name, count) for s, count in want.from_wallet),
        want.has,
        tuple(Barred(code, rule.words) for code, rule in want.barred),
        want.tie,
        want.unmet,
        want.because,
        tuple(Hooklengths(s.id, s.item.name, count) for s, count in want.ready_made),
        tuple(
            PartFrom(part, stocked.id, stocked.item.name, rigs)
            for part, items in want.parts
            for stocked, rigs in items
        ),
        tuple(j for j in checks if j.outcome is Outcome.FAILS),
        tuple(j for j in checks if j.outcome is Outcome.DOUBTFUL),
        fails_with(want),
        want.ready_otherwise,
        judged(rulings),
    )


def to_buy(desk: Desk, match: str, files: ListFiles | None = None) -> ShoppingList:
    """What to buy for a match: whole packets, prices, what each is for.

    Raises as ``plan``, and as ``shopping_list`` for its files.
    """
    from tacklebox.matches.before.shopping import make_shopping

    files = files or ListFiles()
    files.refuse()
    prepared = prepare(desk, match)
    shopping = make_shopping(prepared.plan)
    return shopping_list(desk, shopping, shopping_heading(prepared.match), files)
