"""The plan before a match: ready rigs first, then what to tie from which items, what to buy."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlmodel import func, select

from tacklebox.errors import AskedWronglyError
from tacklebox.matches.before.going_with import FailsWith, GoingWith
from tacklebox.matches.before.holding import Holding, MustMeet
from tacklebox.matches.before.in_wallet import NONE_HELD, in_wallet
from tacklebox.matches.before.losses import (
    AnyItem,
    Forecast,
    forecasts,
    items_to_watch,
    read_losses,
)
from tacklebox.matches.before.purchases import Purchase, purchases, total_cents
from tacklebox.matches.before.ready_rigs import NONE_READY, ready_rigs
from tacklebox.matches.before.rulings import Rule
from tacklebox.matches.before.unmet import Reasons, Stopped
from tacklebox.matches.before.venue_rules import (
    asked_there,
    is_main_line,
    not_barred,
    turned_away,
)
from tacklebox.matches.dividing.division import Division, MostLookedThrough
from tacklebox.matches.dividing.flaws import Rig
from tacklebox.matches.dividing.stacks import PartAsk, Stack, Wanted
from tacklebox.matches.files.match import WantedRig
from tacklebox.matches.files.venue import Rules
from tacklebox.rigs.checking.check import Checked
from tacklebox.rigs.fitting import inventory_for
from tacklebox.rigs.recipes.resolved import Need, Resolved
from tacklebox.stock.asks import Ask
from tacklebox.stock.batches import tied_at_home
from tacklebox.stock.care.box import Box
from tacklebox.stock.inventory import Stocked
from tacklebox.stock.levels import Level, least, to_hand
from tacklebox.stock.tables import Action
from tacklebox.trade.breaks_first import DOUBTFUL_FROM, SOUND_FROM

MOST = 10**9


@dataclass(frozen=True)
class Alike:
    """So many rigs of a want that are tied from the same items, the item of each part by its number."""

    count: int
    use: Mapping[str, int]


@dataclass(frozen=True)
class PlannedWant:
    """One want of the plan: what is ready, what stock ties, from which items, and why no more.

    ``parts`` are the parts with the items that serve them and the number of rigs each serves, and
    ``alike`` says which of them go together in one rig. ``stopped_by`` is why no more can be tied.
    ``from_wallet`` are the hooklengths of the wallet that serve it, with the number of each, and
    ``ready_made`` those to be bought for what is unmet, where that costs less than what they are tied from;
    ``barred`` are ready rigs, and kinds of hooklength, that stay at home, each with the venue's rule;
    ``none_allowed`` says that it lets none be tied either. ``checked`` is what the checks say of
    what is to be tied, or, where nothing in the box holds, of what would be the nearest. ``lacking``
    are the needs of what is unmet, each with the items that would do for it. ``fails_with`` are the
    hooklengths of the plan that are not to go on all of its rigs. ``ready_otherwise`` are ready rigs of the
    recipe with other choices, where those that are as wanted are too few.
    """

    wanted: WantedRig
    resolved: Resolved
    ready: tuple[str, ...]  # codes
    tie: int
    parts: tuple[tuple[str, tuple[tuple[Stocked, int], ...]], ...]
    alike: tuple[Alike, ...] = ()
    stopped_by: tuple[Stopped, ...] = ()
    from_wallet: tuple[tuple[Stocked, int], ...] = ()
    barred: tuple[tuple[str, Rule], ...] = ()
    none_allowed: bool = False
    checked: tuple[Checked, ...] = ()
    lacking: tuple[tuple[Need, frozenset[int]], ...] = ()
    ready_made: tuple[tuple[Stocked, int], ...] = ()
    fails_with: tuple[FailsWith, ...] = ()
    ready_otherwise: tuple[str, ...] = ()  # codes

    @property
    def name(self) -> str:
        """The recipe's file with what was chosen, so that it is not taken for another want."""
        return self._with_chosen(self.resolved.recipe.stem)

    @property
    def called(self) -> str:
        """The same by the recipe's own name."""
        return self._with_chosen(self.resolved.recipe.name)

    def _with_chosen(self, words: str) -> str:
        chosen = ", ".join(f"{name} {value}" for name, value in self.wanted.choose.items())
        return f"{words} ({chosen})" if chosen else words

    @property
    def because(self) -> str:
        """Why no more can be tied, in words."""
        return "; ".join(map(str, self.stopped_by))

    @property
    def holds_in_nothing(self) -> bool:
        """Whether nothing in the box holds in it."""
        return not self.tie and any(checked.refusals for checked in self.checked)

    @property
    def has(self) -> int:
        """How many there are already: ready rigs, and hooklengths in the wallet."""
        return len(self.ready) + sum(count for _, count in self.from_wallet)

    @property
    def unmet(self) -> int:
        """How many are neither there already nor can be tied from stock."""
        return self.wanted.total - self.has - self.tie

    @property
    def to_buy(self) -> int:
        """How many of those are bought ready-made."""
        return sum(count for _, count in self.ready_made)

    @property
    def to_tie_later(self) -> int:
        """How many of those are tied when what they lack was bought."""
        return self.unmet - self.to_buy


@dataclass(frozen=True)
class Plan:
    """The whole plan. ``proven``: every rig to tie holds with the hooklength that stock serves it now, and
    no other plan has more of what is more important, ties fewer, has fewer doubtful rigs, costs less or
    opens fewer packets, in that order. A rig that fails with another hooklength of the plan counts as
    doubtful, and ``fails_with`` tells it. What is ready, and in the wallet, was checked when it was made,
    and is taken as it is.

    ``purchases`` are for what is unmet and for minimums; ``forecasts`` say of all that is planned
    or has a minimum whether it lasts on the day. ``as_of`` is the last action that it knows of.
    """

    wants: tuple[PlannedWant, ...]
    purchases: tuple[Purchase, ...]
    opened: int
    proven: bool
    forecasts: tuple[Forecast, ...] = ()
    as_of: int = 0

    @property
    def total_cents(self) -> int:
        """Cost of all purchases with a known price."""
        return total_cents(self.purchases)


def make_plan(
    box: Box,
    wants: Sequence[tuple[WantedRig, Resolved]],
    rules: Rules | None = None,
    limits: tuple[float, float] = (SOUND_FROM, DOUBTFUL_FROM),
    *,
    despite_checks: bool = False,
    anew: bool = False,
    use: Mapping[str, int] | None = None,
    most: MostLookedThrough | None = None,
) -> Plan:
    """The best plan for the wants, the most important first, of which no rig fails a check; nothing is
    written.

    Ready rigs of the recipe and choices are taken first, the oldest first, each once; those that the
    venue's ``rules`` turn away stay at home, as hooklengths do. The wallet and all other stock are divided by
    ``matches.dividing``: a hooklength is taken from the wallet before it is tied, and substitutes only
    within a recipe's own asks, and only such as the rules allow: what they turn away is neither tied nor
    bought for. What stock does not reach for is bought, ready-made hooklengths where they
    cost less. ``limits`` are the chances from which a rig is sound, and doubtful; ``despite_checks`` rigs
    that fail are tied, too, where nothing holds. Items that no want asks for are bought, too, where they are
    short of their minimum. ``anew`` ties all that is wanted, whatever is ready; ``use`` names the item for a
    part. ``most`` is what is looked through before it is told as not proven. Raises CannotBeDoneError
    when no plan is found.
    """
    wants = [(want, asked_there(resolved, rules)) for want, resolved in wants]
    recipes = [resolved for _, resolved in wants]
    needs = [[n for n in resolved.needs if not n.in_place] for resolved in recipes]
    named = use or {}
    with box.reading() as session:
        watched = items_to_watch(session)
        inventory = inventory_for(session, recipes, named.values())
        ready = [NONE_READY for _ in wants] if anew else ready_rigs(session, wants, rules)
        tied = tied_at_home(session)
        losses = read_losses(session)
        as_of = session.exec(select(func.max(Action.id))).one() or 0
    would_do = {n.ask: inventory.ranked(n.ask, in_place=False) for own in needs for n in own}
    held = [NONE_HELD for _ in wants] if anew else in_wallet(inventory, recipes, rules, tied)
    every = (*would_do.values(), *(those for one in held for those in (one.would_do, one.for_sale)))
    by_id = {s.id: s for those in every for s in those}
    stock = [by_id[number] for number in sorted(by_id)]
    place = {s.id: number for number, s in enumerate(stock)}
    ids_of = {ask: frozenset(s.id for s in those) for ask, those in would_do.items()}
    items: list[AnyItem] = [s.item for s in stock]
    items += [i for i in watched if i.id not in place]  # what no want asks for is bought, too
    serving: dict[tuple[Ask, bool], tuple[int, ...]] = {}

    def serves(w: int, need: Need) -> tuple[int, ...]:
        key = need.ask, is_main_line(wants[w][1], need.part)
        if key not in serving:
            let_in = would_do[need.ask]
            if rules:
                let_in = not_barred(rules, need.ask.kind, let_in, main_line=key[1])
            serving[key] = tuple(place[s.id] for s in let_in)
        only = named.get(need.part)
        return tuple(s for s in serving[key] if stock[s].id == only) if only else serving[key]

    refused_by = [turned_away(rules, resolved) if rules else None for _, resolved in wants]
    asked = [
        Wanted(
            0 if refused_by[w] else want.total - len(ready[w].codes),
            tuple(PartAsk(n.amount, serves(w, n)) for n in needs[w]),
            tuple(place[s.id] for s in held[w].would_do),
            tuple(place[s.id] for s in held[w].for_sale),
        )
        for w, (want, _) in enumerate(wants)
    ]
    wanted_of = _wanted_of(asked)
    stacks = [_stack(item, wanted_of.get(s, 0)) for s, item in enumerate(items)]
    numbers = {number: one.id for number, one in enumerate(stock)}
    holding = Holding(inventory, recipes, asked, numbers, MustMeet(*limits))
    going_with = GoingWith(holding, recipes)
    division = going_with.divide(stacks, asked, despite=despite_checks, most=most)
    served = _served(needs, division, stock)
    reasons = Reasons(rules, stock, _left(stacks, asked, division), holding, division.flaws)
    planned_wants = []
    for w, (want, resolved) in enumerate(wants):
        whole = division.whole[w]
        has = len(ready[w].codes) + sum(whole.values())
        is_met = has + division.tied[w] >= want.total
        stopped_by = () if is_met else reasons.of(w, resolved, needs[w], asked[w], refused_by[w])
        planned_wants.append(
            PlannedWant(
                want,
                resolved,
                ready[w].codes,
                division.tied[w],
                served[w],
                _alike(needs[w], division.rigs[w], stock),
                tuple(stopped_by),
                tuple((stock[s], count) for s, count in whole.items()),
                (*ready[w].not_allowed, *((s.item.name, rule) for s, rule in held[w].not_allowed)),
                reasons.none_allowed(needs[w], asked[w], refused_by[w]),
                tuple(holding.checked(w, rig) for rig in division.rigs[w] or reasons.nearest(w)),
                tuple((n, ids_of[n.ask]) for n in (() if is_met else needs[w])),
                tuple((stock[s], count) for s, count in division.ready_made[w].items()),
                tuple(going_with.failing(w, division)),
                ready[w].otherwise,
            )
        )
    planned = {items[s].id or 0: amount for s, amount in division.taken.items()}
    taken = {stock[s].id for whole in division.whole for s in whole}
    items.sort(key=lambda item: item.id or 0)
    return Plan(
        tuple(planned_wants),
        purchases(items, planned, tied, _ready_made(planned_wants)),
        division.opened,
        division.proven,
        forecasts(items, planned, losses, taken),
        as_of,
    )


def _ready_made(wants: Sequence[PlannedWant]) -> Counter[int]:
    """How many of each item are to be bought ready-made."""
    bought = Counter[int]()
    for want in wants:
        bought.update({stocked.id: count for stocked, count in want.ready_made})
    return bought


def wanted_of(resolved: Resolved, count: int) -> WantedRig:
    """So many of a resolved recipe as a want, where no file says so; more than one match asks for, too."""
    usual = {name: choice.usual for name, choice in resolved.recipe.choose.items()}
    choose = {name: value for name, value in resolved.chosen.items() if value != usual.get(name)}
    return WantedRig.model_construct(
        recipe=resolved.recipe.stem, count=count, spares=0, choose=choose, place=None
    )


def refuse_overlap(wants: Sequence[tuple[WantedRig, Resolved]]) -> None:
    """Raises AskedWronglyError where two wants come to the same rig, the usual choices put in."""
    seen: list[tuple[str, dict[str, str], dict[str, str]]] = []
    for _, resolved in wants:
        below = resolved.hooklength
        # Of the hooklength only its length matters: it is tied and counted apart.
        length = {"hooklength": f"{below.length_mm:.0f}"} if below else {}
        key = resolved.recipe.stem, dict(resolved.chosen), length
        if key in seen:
            raise AskedWronglyError(
                f"{resolved.recipe.name} is wanted twice with the same choices.",
                where=f"want {len(seen) + 1}",
                right="Put the counts together, or choose another size.",
            )
        seen.append(key)


def _wanted_of(asked: Sequence[Wanted]) -> dict[int, int]:
    """The most that may be asked of each stack."""
    most: dict[int, int] = {}
    for want in asked:
        for s in want.for_sale:
            most[s] = most.get(s, 0) + want.count
        for part in want.parts:
            for s in part.stacks:
                most[s] = most.get(s, 0) + want.count * part.amount
    return most


def _stack(item: AnyItem, most: int) -> Stack:
    """The item as a stack. Of what is not counted, plenty and low serve whatever is asked, and one packet
    of what is out would."""
    if item.level == Level.OUT:
        return Stack(0, max(most, 1), item.pack_price_cents, 1)
    single = 1 if item.level else item.pack_size  # no packet of what is plenty is opened
    return Stack(to_hand(item), single, item.pack_price_cents, least(item))


def _left(stacks: Sequence[Stack], asked: Sequence[Wanted], division: Division) -> list[int]:
    left = [s.on_hand for s in stacks]
    for (w, p, s), count in division.serves.items():
        left[s] -= count * asked[w].parts[p].amount
    return left


def _alike(
    needs: Sequence[Need], rigs: Mapping[Rig, int], stock: Sequence[Stocked]
) -> tuple[Alike, ...]:
    return tuple(
        Alike(count, {need.part: stock[s].id for need, s in zip(needs, rig, strict=True)})
        for rig, count in rigs.items()
    )


def _served(
    needs: Sequence[Sequence[Need]], division: Division, stock: Sequence[Stocked]
) -> list[tuple[tuple[str, tuple[tuple[Stocked, int], ...]], ...]]:
    """For each want its parts that stock serves, in their order, each with its items."""
    items: dict[tuple[int, int], list[tuple[Stocked, int]]] = {}
    for (w, p, s), count in division.serves.items():
        items.setdefault((w, p), []).append((stock[s], count))
    return [
        tuple((need.part, tuple(items[w, p])) for p, need in enumerate(own) if (w, p) in items)
        for w, own in enumerate(needs)
    ]
