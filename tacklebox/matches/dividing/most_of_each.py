"""The most of each want, from what serves whole and from what stock ties, proven by a solver.

First as many of the first want as can be, then of the second, and so on. Then, of each in the same order,
as many as can be from what serves whole, so that as few are tied.
"""

from collections.abc import Collection, Hashable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from tacklebox.errors import CannotBeDoneError
from tacklebox.matches.dividing.allotting import allot
from tacklebox.matches.dividing.flaws import AskedOfStock
from tacklebox.matches.dividing.shares import Total, Uses, share_bound, share_part
from tacklebox.matches.dividing.solver import Model, Solver
from tacklebox.matches.dividing.stacks import (
    PartAsk,
    Stacks,
    linked,
    plainly_served,
    simply_taken,
)

MOST_WEIGHT = 100_000  # of one want beside another, small beside the solver's tolerance

Counts = Mapping[int, int]  # by want
GroupAnswer = tuple[tuple[int, ...], tuple[int, ...], bool]


@dataclass(frozen=True)
class MostOfEach:
    """The most of each want, in their order, how many of those are ``whole``, and whether that was proven."""

    counts: tuple[int, ...]
    whole: tuple[int, ...]
    proven: bool


@dataclass
class _Scarce:
    """What of one want stock may not reach for: loose parts, its bound ones, and what serves it whole."""

    parts: list[PartAsk] = field(default_factory=list)
    bound: AskedOfStock | None = None
    whole: Stacks = ()
    can_be_tied: bool = True

    @property
    def stacks(self) -> list[Stacks]:
        bound = self.bound
        parts = [bound.parts[p] for p in bound.bound.parts] if bound and bound.bound else []
        return [
            *(part.stacks for part in (*self.parts, *parts)),
            *([self.whole] * bool(self.whole)),
        ]

    @property
    def key(self) -> Hashable:
        return tuple(self.parts), self.bound, self.whole, self.can_be_tied


_Group = dict[int, _Scarce]  # by want


def most_of_each(
    on_hand: Sequence[int],
    asked: Sequence[AskedOfStock],
    solver: Solver,
    answers: dict[Hashable, GroupAnswer],
) -> MostOfEach:
    """The most of each want, in their order.

    Where simply taking meets all, that is the answer; what shares no stack is answered apart.
    ``answers`` are those of earlier divisions of the same stacks, and of this one after it.
    """
    plenty = _served_whole(on_hand, asked)
    left = [one.whole if one.whole not in plenty else () for one in asked]
    counts = [
        0 if one.whole in plenty else _most(on_hand, one, whole)
        for one, whole in zip(asked, left, strict=True)
    ]
    whole = [sum(given.values()) for given in allot(counts, left, _of_those(on_hand, left))]
    proven = True
    for group in _scarce(on_hand, asked, counts):
        if _can_all_be_tied(on_hand, group, _tied(counts, whole)):
            continue
        members = sorted(group)
        key = tuple((w, counts[w], group[w].key) for w in members)
        if key not in answers:
            answers[key] = _of_group(solver, on_hand, asked, list(counts), whole, members)
        had, of_those, is_proven = answers[key]
        proven &= is_proven
        for w, most, taken in zip(members, had, of_those, strict=True):
            counts[w], whole[w] = most, taken
    for w, one in enumerate(asked):
        if one.whole in plenty:
            counts[w] = whole[w] = one.count
    return MostOfEach(tuple(counts), tuple(whole), proven)


def _served_whole(on_hand: Sequence[int], asked: Sequence[AskedOfStock]) -> Collection[Stacks]:
    """What serves whole all that could be asked of it."""
    amounts: dict[Stacks, int] = {}
    for one in asked:
        if one.whole:
            amounts[one.whole] = amounts.get(one.whole, 0) + one.count
    return plainly_served(amounts, on_hand) if amounts else {}


def _most(on_hand: Sequence[int], one: AskedOfStock, whole: Stacks) -> int:
    """The most that there can be, were there no other want."""
    if one.can_be_tied:
        return one.count
    return min(one.count, sum(on_hand[s] for s in whole))


def _of_those(on_hand: Sequence[int], whole: Sequence[Stacks]) -> dict[int, int]:
    return {s: on_hand[s] for those in whole for s in those}


def _tied(counts: Sequence[int], whole: Sequence[int]) -> list[int]:
    return [count - min(count, taken) for count, taken in zip(counts, whole, strict=True)]


def _of_group(
    solver: Solver,
    on_hand: Sequence[int],
    asked: Sequence[AskedOfStock],
    counts: list[int],
    whole: Sequence[int],
    members: Sequence[int],
) -> GroupAnswer:
    """The most of each want of a group, and how many of those are whole; whether that is proven.

    A few wants at a time, beside those before them, whose counts are known by then; the solver is
    asked where taking does not meet all, and weights let the order decide.
    """
    proven = True
    for block in blocks(counts, members):
        so_far = {w: counts[w] for w in members if w <= block[-1]}
        for group in _scarce(on_hand, asked, [so_far.get(w, 0) for w in range(len(asked))]):
            own = [w for w in block if w in group]
            if own and not _can_all_be_tied(on_hand, group, _tied(counts, whole)):
                proven &= _lower_own(solver, on_hand, group, counts, own)
    taken = list(whole)
    of_members = [counts[w] if w in members else 0 for w in range(len(asked))]
    for group in _scarce(on_hand, asked, of_members):
        if any(of.whole for of in group.values()):
            proven &= _most_whole(solver, on_hand, group, counts, taken)
    return tuple(counts[w] for w in members), tuple(taken[w] for w in members), proven


def blocks(counts: Mapping[int, int] | Sequence[int], members: Sequence[int]) -> list[list[int]]:
    """Those wants in their order, so many together as weights allow."""
    found: list[list[int]] = []
    product = MOST_WEIGHT + 1
    for w in members:
        product *= counts[w] + 1
        if product > MOST_WEIGHT:
            found.append([])
            product = counts[w] + 1
        found[-1].append(w)
    return found


def _scarce(
    on_hand: Sequence[int], asked: Sequence[AskedOfStock], counts: Sequence[int]
) -> list[_Group]:
    """What of each want stock may not reach for, wants together that share a stack."""
    amounts: dict[Stacks, int] = {}
    bound: list[tuple[Stacks, int]] = []
    tied = [count if one.can_be_tied else 0 for one, count in zip(asked, counts, strict=True)]
    for one, count in zip(asked, tied, strict=True):
        for _, part in one.loose if count else ():
            amounts[part.stacks] = amounts.get(part.stacks, 0) + count * part.amount
        if count and one.bound:
            parts = (one.parts[p] for p in one.bound.parts)
            bound += [(part.stacks, count * part.amount) for part in parts]
    served_plainly = plainly_served(amounts, on_hand, bound)
    scarce: dict[int, _Scarce] = {}
    for w, one in enumerate(asked):
        loose = [part for _, part in one.loose if part.stacks not in served_plainly] * bool(tied[w])
        its = _Scarce(loose, one if one.bound and tied[w] else None, one.whole, bool(tied[w]))
        if counts[w] and its.stacks:
            scarce[w] = its
    # A want stands or falls with all its parts, so that it links their stacks, too.
    links = [tuple(those[0] for those in of.stacks) for of in scarce.values()]
    roots = linked([*links, *(those for of in scarce.values() for those in of.stacks)])
    groups: dict[int, _Group] = {}
    for w, of in scarce.items():
        groups.setdefault(roots[of.stacks[0][0]], {})[w] = of
    return list(groups.values())


def _can_all_be_tied(on_hand: Sequence[int], group: _Group, tied: Sequence[int]) -> bool:
    """Whether simply taking already meets all; where parts are bound that is not asked."""
    if any(tied[w] and (of.bound or not of.can_be_tied) for w, of in group.items()):
        return False
    asks = [(part, tied[w]) for w, of in group.items() for part in of.parts]
    return simply_taken(asks, on_hand) is not None


class _Pools:
    """Stacks that do the same for all that is asked of a group are one, by the rigs that they serve.

    So are those of which everything that is asked takes the same, or of which there is enough for one
    rig alone. What is not enough for any is left out.
    """

    def __init__(self, on_hand: Sequence[int], group: _Group) -> None:
        self._on_hand = on_hand
        self.rigs: dict[int, int] = {}  # that a pool serves, by the stack that stands for it
        self._kept: set[int] = set()
        pools: dict[Hashable, int] = {}
        for s, amounts in _asked_of(on_hand, group).items():
            rigs = on_hand[s] // min(amounts.values())
            if rigs > 1 and len(set(amounts.values())) > 1:
                self._kept.add(s)
                continue
            stands = pools.setdefault(frozenset(amounts), s)
            self._kept.add(stands)
            self.rigs[stands] = self.rigs.get(stands, 0) + rigs

    def _those(self, those: Stacks, amount: int) -> Stacks:
        return tuple(s for s in those if s in self._kept and self._on_hand[s] >= amount)

    def part(self, part: PartAsk) -> PartAsk:
        """The part as asked of those that stand for their pools."""
        return PartAsk(part.amount, self._those(part.stacks, part.amount))

    def bound(self, asked: AskedOfStock) -> AskedOfStock:
        """The bound parts as asked of those that stand for their pools."""
        bound = asked.bound
        assert bound is not None
        classes = tuple(
            tuple(self._those(stacks, asked.parts[p].amount) for stacks in of)
            for p, of in zip(bound.parts, bound.classes, strict=True)
        )
        return replace(asked, bound=replace(bound, classes=classes))

    def has(self, stack: int) -> int:
        """What there is of it, or of its pool."""
        return self.rigs.get(stack, self._on_hand[stack])


def _asked_of(on_hand: Sequence[int], group: _Group) -> dict[int, dict[Hashable, int]]:
    """What a group asks of each stack that has enough for one rig, and how much of it."""
    found: dict[int, dict[Hashable, int]] = {}

    def note(ask: Hashable, those: Stacks, amount: int) -> None:
        for s in those:
            if on_hand[s] >= amount:
                found.setdefault(s, {})[ask] = amount

    for w, of in group.items():
        if of.whole:
            note(("whole", of.whole), of.whole, 1)
        for part in of.parts:
            note(part, part.stacks, part.amount)
        if of.bound and (bound := of.bound.bound):
            for p, classes in zip(bound.parts, bound.classes, strict=True):
                for number, those in enumerate(classes):
                    note((w, p, number), those, of.bound.parts[p].amount)
    return found


class _GroupModel:
    """The model of a group: so many of each want, or, of its ``own``, as many as a column says."""

    def __init__(
        self, on_hand: Sequence[int], group: _Group, counts: Sequence[int], own: Collection[int]
    ) -> None:
        self.model = Model()
        self.most = {w: self.model.column(counts[w]) for w in own}
        self.tied: dict[int, int] = {}  # how many are tied of what could be whole
        pools = _Pools(on_hand, group)
        self._uses = Uses(by_rigs=pools.rigs)
        known: dict[PartAsk, int] = {}
        for w, of in group.items():
            total = Total(counts[w], self.most.get(w))
            if of.whole:
                total = self._beside_whole(w, of, total, pools)
            for part in of.parts:
                if total.column is not None:
                    share_part(self.model, pools.part(part), total, self._uses)
                else:
                    known[part] = known.get(part, 0) + counts[w]
            if of.bound:
                share_bound(self.model, pools.bound(of.bound), total, self._uses)
        for part, count in known.items():
            share_part(self.model, pools.part(part), Total(count), self._uses)
        for s, takes in self._uses.of.items():
            self.model.row(0.0, pools.has(s), takes)

    def _beside_whole(self, w: int, of: _Scarce, total: Total, pools: _Pools) -> Total:
        """How many are tied beside what serves whole."""
        tied = self.model.column(total.most if of.can_be_tied else 0)
        whole = pools.part(PartAsk(1, of.whole)).stacks
        columns = (self._uses.column(self.model, s, 1, total.most) for s in whole)
        total.is_sum_of(self.model, [tied, *(c for c in columns if c is not None)])
        self.tied[w] = tied
        return Total(total.most, tied)


def _lower_own(
    solver: Solver,
    on_hand: Sequence[int],
    group: _Group,
    counts: list[int],
    own: Sequence[int],
) -> bool:
    """Lower its own wants to the most of each, while the group's other wants keep their counts;
    whether that is proven."""
    asking = _GroupModel(on_hand, group, counts, own)
    weight, costs = 1.0, {}
    for w in reversed(own):  # one more of a want outweighs all of those after it
        costs[asking.most[w]] = -weight
        weight *= counts[w] + 1
    solver.take(asking.model)
    values, proven = _least(solver, costs)
    for w, column in asking.most.items():
        counts[w] = values[column]
    return proven


def _most_whole(
    solver: Solver, on_hand: Sequence[int], group: _Group, counts: Sequence[int], whole: list[int]
) -> bool:
    """Of each want as many whole as can be, its count kept, in their order; whether that is proven."""
    asking = _GroupModel(on_hand, group, counts, ())
    rows = {w: asking.model.row(0.0, counts[w], [(c, 1.0)]) for w, c in asking.tied.items()}
    solver.take(asking.model)
    proven = True
    for block in blocks(counts, sorted(rows)):
        weight, costs = 1.0, {}
        for w in reversed(block):
            costs[asking.tied[w]] = weight
            weight *= counts[w] + 1
        values, is_proven = _least(solver, costs)
        proven &= is_proven
        for w in block:
            tied = values[asking.tied[w]]
            solver.bound_row(rows[w], tied)
            whole[w] = counts[w] - tied
    return proven


def _least(solver: Solver, costs: Mapping[int, float]) -> tuple[tuple[int, ...], bool]:
    answer = solver.least(costs)
    if not answer.values:
        raise CannotBeDoneError(
            "no plan was found in all that was looked through.", right="Plan for fewer rigs."
        )
    return answer.values, answer.proven
