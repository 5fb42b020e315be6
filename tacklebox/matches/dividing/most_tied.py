"""The most of each want that stock ties, the most important first, proven by a solver."""

from collections.abc import Mapping, Sequence

from tacklebox.matches.dividing.solver import Model, Solver
from tacklebox.matches.dividing.stacks import (
    KeptAnswers,
    PartAsk,
    Stack,
    Wanted,
    amounts_asked,
    linked,
    plainly_served,
)

MOST_WEIGHT = 100_000  # of one want beside another, small beside the solver's tolerance


def most_tied(stacks: Sequence[Stack], wants: Sequence[Wanted], kept: KeptAnswers) -> list[int]:
    """The most of each want, in their order.

    Where simply taking meets all, that is the answer; what shares no stack is answered apart.
    ``kept`` are answers of an earlier division.
    """
    counts = [w.count if w.can_be_bought_for else 0 for w in wants]
    solver = None
    for group in _scarce(stacks, wants, counts):
        if not _can_all_be_tied(stacks, group, counts):
            asked_for = tuple((w, counts[w], tuple(parts)) for w, parts in sorted(group.items()))
            if asked_for not in kept.answers:
                solver = solver or Solver()
                _lower(solver, stacks, wants, counts, sorted(group))
                kept.answers[asked_for] = {w: counts[w] for w in group}
            for w, most in kept.answers[asked_for].items():
                counts[w] = most
    return counts


def _lower(
    solver: Solver,
    stacks: Sequence[Stack],
    wants: Sequence[Wanted],
    counts: list[int],
    members: Sequence[int],
) -> None:
    """Lower the counts of a group of wants to what can be tied.

    A few wants at a time, beside those before them, whose counts are known by then; the solver is
    asked where taking does not meet all, and weights let the order decide.
    """
    for block in _blocks(counts, members):
        so_far = {w: counts[w] for w in members if w <= block[-1]}
        for group in _scarce(stacks, wants, [so_far.get(w, 0) for w in range(len(wants))]):
            own = [w for w in block if w in group]
            if own and not _can_all_be_tied(stacks, group, counts):
                for w, most in _most_of(solver, stacks, group, counts, own).items():
                    counts[w] = most


def _blocks(counts: Sequence[int], members: Sequence[int]) -> list[list[int]]:
    """Those wants in their order, so many together as weights allow."""
    blocks: list[list[int]] = []
    product = MOST_WEIGHT + 1
    for w in members:
        product *= counts[w] + 1
        if product > MOST_WEIGHT:
            blocks.append([])
            product = counts[w] + 1
        blocks[-1].append(w)
    return blocks


def _scarce(
    stacks: Sequence[Stack], wants: Sequence[Wanted], counts: Sequence[int]
) -> list[dict[int, list[PartAsk]]]:
    """The parts of each want that stock may not reach for, wants together that share a stack."""
    served_plainly = plainly_served(amounts_asked(wants, counts), [s.on_hand for s in stacks])
    scarce: dict[int, list[PartAsk]] = {}
    for w, count in enumerate(counts):
        for part in wants[w].parts if count else ():
            if part.stacks not in served_plainly:
                scarce.setdefault(w, []).append(part)
    # A want stands or falls with all its parts, so that it links their stacks, too.
    links = [tuple(part.stacks[0] for part in parts) for parts in scarce.values()]
    roots = linked([*links, *(part.stacks for parts in scarce.values() for part in parts)])
    groups: dict[int, dict[int, list[PartAsk]]] = {}
    for w, parts in scarce.items():
        groups.setdefault(roots[parts[0].stacks[0]], {})[w] = parts
    return list(groups.values())


def _can_all_be_tied(
    stacks: Sequence[Stack], group: Mapping[int, Sequence[PartAsk]], counts: Sequence[int]
) -> bool:
    """Whether simply taking, the part with the fewest stacks first, already meets all."""
    left: dict[int, int] = {}
    asks = [(part, counts[w]) for w, parts in group.items() for part in parts]
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


def _most_of(
    solver: Solver,
    stacks: Sequence[Stack],
    group: Mapping[int, Sequence[PartAsk]],
    counts: Sequence[int],
    own: Sequence[int],
) -> dict[int, int]:
    """The most of each of its own wants, while the group's other wants keep their counts."""
    model = Model()
    most = {w: model.column(counts[w]) for w in own}
    used: dict[int, list[tuple[int, float]]] = {}

    def shares(part: PartAsk, count: int) -> list[tuple[int, float]]:
        columns = [(model.column(count), 1.0) for _ in part.stacks]
        for s, (column, _) in zip(part.stacks, columns, strict=True):
            used.setdefault(s, []).append((column, float(part.amount)))
        return columns

    known: dict[PartAsk, int] = {}
    for w, parts in group.items():
        for part in parts:
            if w in most:
                model.row(0.0, 0.0, [*shares(part, counts[w]), (most[w], -1.0)])
            else:
                known[part] = known.get(part, 0) + counts[w]
    for part, count in known.items():
        model.row(count, count, shares(part, count))
    for s, takes in used.items():
        model.row(0.0, stacks[s].on_hand, takes)
    weight, costs = 1.0, {}
    for w in reversed(own):  # one more of a want outweighs all of those after it
        costs[most[w]] = -weight
        weight *= counts[w] + 1
    solver.take(model)
    values = solver.least(costs)
    return {w: values[column] for w, column in most.items()}
