"""The most of each want that stock ties, the most important first, proven by a solver."""

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field

from tacklebox.errors import CannotBeDoneError
from tacklebox.matches.dividing.flaws import AskedOfStock
from tacklebox.matches.dividing.shares import Total, Uses, share_bound, share_part
from tacklebox.matches.dividing.solver import Model, Solver
from tacklebox.matches.dividing.stacks import PartAsk, Stack, Stacks, linked, plainly_served

MOST_WEIGHT = 100_000  # of one want beside another, small beside the solver's tolerance


@dataclass(frozen=True)
class MostTied:
    """The most of each want, in their order, and whether that was proven."""

    counts: tuple[int, ...]
    proven: bool


@dataclass
class _Scarce:
    """What of one want stock may not reach for: loose parts, and whether its bound ones are in it."""

    parts: list[PartAsk] = field(default_factory=list)
    bound: AskedOfStock | None = None

    @property
    def stacks(self) -> list[Stacks]:
        bound = self.bound
        parts = [bound.parts[p] for p in bound.bound.parts] if bound and bound.bound else []
        return [part.stacks for part in (*self.parts, *parts)]

    @property
    def key(self) -> Hashable:
        return tuple(self.parts), self.bound


_Group = dict[int, _Scarce]  # by want


def most_tied(
    stacks: Sequence[Stack],
    asked: Sequence[AskedOfStock],
    solver: Solver,
    answers: dict[Hashable, tuple[tuple[int, ...], bool]],
) -> MostTied:
    """The most of each want, in their order.

    Where simply taking meets all, that is the answer; what shares no stack is answered apart.
    ``answers`` are those of earlier divisions of the same stacks, and of this one after it.
    """
    counts = [one.count if one.can_be_met else 0 for one in asked]
    proven = True
    for group in _scarce(stacks, asked, counts):
        if not _can_all_be_tied(stacks, group, counts):
            members = sorted(group)
            key = tuple((w, counts[w], group[w].key) for w in members)
            if key not in answers:
                is_proven = _lower(solver, stacks, asked, counts, members)
                answers[key] = tuple(counts[w] for w in members), is_proven
            found, is_proven = answers[key]
            proven &= is_proven
            for w, most in zip(members, found, strict=True):
                counts[w] = most
    return MostTied(tuple(counts), proven)


def _lower(
    solver: Solver,
    stacks: Sequence[Stack],
    asked: Sequence[AskedOfStock],
    counts: list[int],
    members: Sequence[int],
) -> bool:
    """Lower the counts of a group of wants to what can be tied; whether that is proven the most.

    A few wants at a time, beside those before them, whose counts are known by then; the solver is
    asked where taking does not meet all, and weights let the order decide.
    """
    proven = True
    for block in blocks(counts, members):
        so_far = {w: counts[w] for w in members if w <= block[-1]}
        for group in _scarce(stacks, asked, [so_far.get(w, 0) for w in range(len(asked))]):
            own = [w for w in block if w in group]
            if own and not _can_all_be_tied(stacks, group, counts):
                proven &= _lower_own(solver, stacks, group, counts, own)
    return proven


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
    stacks: Sequence[Stack], asked: Sequence[AskedOfStock], counts: Sequence[int]
) -> list[_Group]:
    """The parts of each want that stock may not reach for, wants together that share a stack."""
    amounts: dict[Stacks, int] = {}
    bound: list[tuple[Stacks, int]] = []
    for one, count in zip(asked, counts, strict=True):
        for _, part in one.loose if count else ():
            amounts[part.stacks] = amounts.get(part.stacks, 0) + count * part.amount
        if count and one.bound:
            parts = (one.parts[p] for p in one.bound.parts)
            bound += [(part.stacks, count * part.amount) for part in parts]
    served_plainly = plainly_served(amounts, [s.on_hand for s in stacks], bound)
    scarce: dict[int, _Scarce] = {}
    for w, (one, count) in enumerate(zip(asked, counts, strict=True)):
        loose = [part for _, part in one.loose if part.stacks not in served_plainly]
        if count and (loose or one.bound):
            scarce[w] = _Scarce(loose, one if one.bound else None)
    # A want stands or falls with all its parts, so that it links their stacks, too.
    links = [tuple(those[0] for those in of.stacks) for of in scarce.values()]
    roots = linked([*links, *(those for of in scarce.values() for those in of.stacks)])
    groups: dict[int, _Group] = {}
    for w, of in scarce.items():
        groups.setdefault(roots[of.stacks[0][0]], {})[w] = of
    return list(groups.values())


def _can_all_be_tied(stacks: Sequence[Stack], group: _Group, counts: Sequence[int]) -> bool:
    """Whether simply taking, the part with the fewest stacks first, already meets all; where parts
    are bound that is not asked."""
    if any(of.bound for of in group.values()):
        return False
    left: dict[int, int] = {}
    asks = [(part, counts[w]) for w, of in group.items() for part in of.parts]
    for part, count in sorted(asks, key=lambda ask: len(ask[0].stacks)):
        still = count
        for s in part.stacks:
            on_hand = left.setdefault(s, stacks[s].on_hand)
            served = min(still, on_hand // part.amount)
            left[s] = on_hand - served * part.amount
            still -= served
            if not still:
                break
        if still:
            return False
    return True


def _lower_own(
    solver: Solver,
    stacks: Sequence[Stack],
    group: _Group,
    counts: list[int],
    own: Sequence[int],
) -> bool:
    """Lower its own wants to the most of each, while the group's other wants keep their counts;
    whether that is proven."""
    model, uses = Model(), Uses()
    most = {w: model.column(counts[w]) for w in own}
    known: dict[PartAsk, int] = {}
    for w, of in group.items():
        total = Total(counts[w], most.get(w))
        for part in of.parts:
            if w in most:
                share_part(model, part, total, uses)
            else:
                known[part] = known.get(part, 0) + counts[w]
        if of.bound:
            share_bound(model, of.bound, total, uses)
    for part, count in known.items():
        share_part(model, part, Total(count), uses)
    for s, takes in uses.of.items():
        model.row(0.0, stacks[s].on_hand, takes)
    weight, costs = 1.0, {}
    for w in reversed(own):  # one more of a want outweighs all of those after it
        costs[most[w]] = -weight
        weight *= counts[w] + 1
    solver.take(model)
    answer = solver.least(costs)
    if not answer.values:
        raise CannotBeDoneError(
            "no plan was found in all that was looked through.", right="Plan for fewer rigs."
        )
    for w, column in most.items():
        counts[w] = answer.values[column]
    return answer.proven
