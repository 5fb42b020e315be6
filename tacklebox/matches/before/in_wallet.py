"""Hooklengths that the wallet holds already for what is wanted, and those that its water does not allow."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from sqlmodel import Session

from tacklebox.matches.before.rulings import Rule
from tacklebox.matches.before.venue_rules import barred_by, turned_away
from tacklebox.matches.files.venue import Rules
from tacklebox.rigs import wallet
from tacklebox.rigs.recipes.resolved import Resolved
from tacklebox.stock.inventory import Inventory, Stocked
from tacklebox.stock.tables import Kind


@dataclass(frozen=True)
class InWallet:
    """What of the wallet serves a want, the nearest to its ask first, and what stays at home with the
    venue's rule."""

    served: tuple[tuple[Stocked, int], ...] = ()
    not_allowed: tuple[tuple[Stocked, Rule], ...] = ()

    @property
    def count(self) -> int:
        """How many there are for it."""
        return sum(count for _, count in self.served)


NONE_HELD = InWallet()


def in_wallet(
    session: Session, wants: Sequence[tuple[int, Resolved]], rules: Rules | None = None
) -> list[InWallet]:
    """For each want, so many of a recipe, the hooklengths that serve it; each serves one want.

    Of the first want as many as can be, then of the second, and so on.
    """
    asks = {
        w: wallet.ask_of(resolved)
        for w, (_, resolved) in enumerate(wants)
        if resolved.recipe.makes == "hooklength"
    }
    if not asks:
        return [InWallet() for _ in wants]
    inventory = Inventory.read_for(session, asks.values())
    let_in: list[list[Stocked]] = []
    at_home: list[list[tuple[Stocked, Rule]]] = []
    for w, (_, resolved) in enumerate(wants):
        every = inventory.ranked(asks[w], in_place=False) if w in asks else []
        ruled = [(s, rules and _rule_against(rules, resolved, s, inventory)) for s in every]
        let_in.append([s for s, rule in ruled if not rule])
        at_home.append([(s, rule) for s, rule in ruled if rule and inventory.left(s) > 0])
    stocked = {s.id: s for every in let_in for s in every}
    allotted = allot(
        [count for count, _ in wants],
        [[s.id for s in every] for every in let_in],
        {number: inventory.left(s) for number, s in stocked.items()},
    )
    return [
        InWallet(tuple((stocked[number], n) for number, n in given.items() if n), tuple(barred))
        for given, barred in zip(allotted, at_home, strict=True)
    ]


def _rule_against(
    rules: Rules, resolved: Resolved, stocked: Stocked, inventory: Inventory
) -> Rule | None:
    if ruling := turned_away(rules, resolved):
        return ruling.rule
    for kind, part in (
        (Kind.HOOK, wallet.as_hook(stocked)),
        (Kind.LINE, wallet.as_line(stocked, inventory)),
    ):
        if rule := barred_by(rules, kind, part.figures, main_line=False):
            return rule
    return None


def allot(
    wanted: Sequence[int], serving: Sequence[Sequence[int]], on_hand: Mapping[int, int]
) -> list[dict[int, int]]:
    """So many of each item for each want: the most for the first, then the most for the second, and so on.

    ``serving`` are the items that would do for each, the best first; ``on_hand`` is how many there are
    of each. An earlier want gives way to a later one where another item serves it as well; it never
    gets fewer.

    >>> allot([4, 3], [[1, 2], [1]], {1: 4, 2: 3})
    [{1: 1, 2: 3}, {1: 3}]
    """
    given: list[dict[int, int]] = [dict.fromkeys(items, 0) for items in serving]
    left = dict(on_hand)
    for w, count in enumerate(wanted):
        while (missing := count - sum(given[w].values())) > 0:
            path = _path(w, serving, given, left)
            if not path:
                break
            passed_on = [given[v][item] for (_, item), (v, _) in pairwise(path)]
            many = min(missing, left[path[-1][1]], *passed_on)
            for (v, item), follower in zip(path, [*path[1:], None], strict=True):
                given[v][item] += many
                if follower:
                    given[follower[0]][item] -= many
            left[path[-1][1]] -= many
    return given


def _path(
    first: int,
    serving: Sequence[Sequence[int]],
    given: Sequence[Mapping[int, int]],
    left: Mapping[int, int],
) -> list[tuple[int, int]]:
    """Who takes what from whom, want after want, down to an item of which some are left."""
    reached: dict[int, list[tuple[int, int]]] = {first: []}
    waiting = [first]
    for w in waiting:
        for item in serving[w]:
            if left[item] > 0:
                return [*reached[w], (w, item)]
        for item in serving[w]:
            for v in range(len(given)):
                if v not in reached and given[v].get(item):
                    reached[v] = [*reached[w], (w, item)]
                    waiting.append(v)
    return []
